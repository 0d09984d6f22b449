"""What has to be bought, as far as the job says it: as rows of the sheet and as lines of CSV."""

from ..job import Job
from ..result import Result
from ..trade.materials import TO_SUIT, csv
from .answer import printed
from .figures import figure, unit_text
from .sheet_parts import Part, Row, result_words, told

PIPES = {"fan-point": "Vent pipe", "pipe-loss": "Vent pipe", "pump-sizing": "Pump line"}
TAKEN = ("drop_needed", "expansion", "sticks", "pipe_weight", "total_length", "joints")  # beside the list itself
SEALANT = {"bead_length": "Sealant to lay", "cartridges": "Sealant, cartridges"}


def materials(job: Job) -> Part:
    """The list of pieces where pipe-takeoff gives one, sealant, and pipes that are known by their length only."""
    rows: list[Row] = []
    takeoff = job.results.get("pipe-takeoff")
    if takeoff:
        rows += [_piece(row) for row in takeoff["materials"]]
        if takeoff["cost"] is not None:
            rows.append(Row("Cost of what has a price", result_words(printed(takeoff, "cost", job.units))))
        labels = [(takeoff.declaration.results[name].label, printed(takeoff, name, job.units)) for name in TAKEN]
        rows += [Row(label, result_words(value)) for label, value in labels if value is not None]
    sealing = job.results.get("sump-sealing")
    if sealing:
        for name, label in SEALANT.items():
            value = printed(sealing, name, job.units)
            rows += [Row(label, result_words(value))] if value is not None else []
    for title, result in _pipes(job).items():
        rows += _pipe(result, title, job.units)
    return Part("materials", "Materials", rows)


def _piece(row: dict[str, object]) -> Row:
    size = row["size"]
    text = f"{row['quantity']}, {size}" if size == TO_SUIT else f"{row['quantity']} × {size}"
    if isinstance(row["price"], float) and isinstance(row["cost"], float):
        text += f", {figure(row['price'], 2)} each, together {figure(row['cost'], 2)} {unit_text('money')}"
    label = str(row["item"])
    return Row(label[:1].upper() + label[1:], text)


def _pipes(job: Job) -> dict[str, Result]:
    """The pipes of the job of which no list of pieces is known."""
    done = {"Vent pipe"} if "pipe-takeoff" in job.results else set()
    found: dict[str, Result] = {}
    for name, title in PIPES.items():
        if name in job.results and title not in done:
            found.setdefault(title, job.results[name])
    return found


def _pipe(result: Result, title: str, system: str) -> list[Row]:
    fields, values = result.declaration.inputs, result.values
    size = values.get("pipe_size")
    bore = (
        f"{size} in. nominal" if size else told(fields["inside_diameter"][0], values["inside_diameter"], system, values)
    )
    length = told(fields["pipe_length"][0], values["pipe_length"], system, values)
    rows = [Row(title, f"{bore}, {length}")]
    if values.get("fittings"):
        listed = [one for one in values["fittings"] if one["kind"] not in ("entrance", "exit")]
        rows.append(Row(f"{title}, fittings", told(fields["fittings"][0], listed, system, values)))
    return rows


def materials_csv(job: Job) -> str:
    """The pieces as CSV with a heading; empty when the job counts none."""
    rows = list(job.results["pipe-takeoff"]["materials"]) if "pipe-takeoff" in job.results else []
    sealing = job.results.get("sump-sealing")
    if sealing and sealing["cartridges"]:
        rows.append(
            {
                "item": "sealant, cartridge",
                "size": "",
                "quantity": round(sealing["cartridges"]),
                "price": None,
                "cost": None,
            }
        )
    for title, result in _pipes(job).items():
        rows += [
            {"item": f"{row.label.lower()}: {row.value}", "size": "", "quantity": 1, "price": None, "cost": None}
            for row in _pipe(result, title, job.units)
        ]
    return "\n".join(csv(rows)) + "\n" if rows else ""
