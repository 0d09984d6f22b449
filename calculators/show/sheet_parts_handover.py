"""The hand-over on the job sheet: labels, what was measured, the start-up record, dates, the owner's sheet."""

from typing import Any

from .. import declaration
from ..job import Job
from ..reading import ABSENT, Reader
from ..tables import rule_pack
from ..trade import gauge_card
from ..trade.spillage_words import IF_IT_FAILS
from .answer import printed
from .sheet_parts import BLANK_HOUSE, Card, Line, Part, Row, day, result_words, told

GAUGE = "Gauge at start-up, marked on the gauge"
INSTALLER = "Installer, licence"
RADON_BEFORE = "Radon before: result, dates, device, who"
RADON_AFTER = "Radon after: result, dates, device, who"
WHERE = "Kind of system; where pits, fan, switch and breaker are"
MOST_HOLES = 12
OUR_LABELS = ("common-practice", "")
PRESCRIBED = ("label_text", "lid_label", "tag", "start_up_mark")


def rows_to_fill(job: Job) -> list[Row]:
    """Every row of the sheet that is filled in on the job, without what was written into it."""
    return [*start_rows(job), *spillage_rows(job)]


def start_rows(job: Job) -> list[Row]:
    """The rows of the start-up record.

    Those with a place ``(calculator, field)`` are kept as records where that calculator knows the thing, the rest as words.
    """
    pressure, flow = ("in WC", "cfm") if job.units == "us" else ("Pa", "L/s")
    return [
        Row("Work begun, finished", at=()),
        Row(GAUGE, unit=pressure, at=("fan-point", "gauge_suction")),
        Row("Kind of gauge and where it hangs", at=()),
        Row("Suction in the pit", unit=pressure, at=("fan-point", "pit_suction")),
        Row("Flow at the outlet", unit=flow, at=("fan-point", "flow")),
        *(Row(f"{hole}, suction with the fan on", unit=pressure, at=()) for hole in _holes(job)),
        Row(WHERE, at=()),
        Row("Carbon monoxide alarm seen, and where", at=()),
        Row("Fan alarm tried, and what it did", at=()),
        Row("High-water alarm tried", at=()),
        Row("Lid closed, joints tried with smoke", at=()),
        Row("Labels on pipe, lid and breaker", at=()),
        Row("State tag no.", at=()),
        Row("Permits: number, office", at=()),
        Row(RADON_BEFORE, at=()),
        Row(RADON_AFTER, at=()),
        Row("Warranty: what, until", at=()),
        Row("Cost of the system (your currency)", at=()),
        Row("Your own exposure: hours in the house, level", at=()),
        Row(INSTALLER, at=()),
    ]


def _holes(job: Job) -> list[str]:
    """The test holes of the job with their places; three lettered ones when it names none."""
    reach = job.results.get("suction-reach")
    given = (reach.values.get("test_holes") if reach else None) or []
    if not reach or not given:
        return [f"Test hole {letter}" for letter in "ABC"]
    item: Any = reach.declaration.inputs["test_holes"][0]
    at = [[told(item.item.fields[axis], hole[axis], job.units, {}) for axis in "xy"] for hole in given[:MOST_HOLES]]
    return [f"Test hole {i + 1} ({x} across, {y} up)" for i, (x, y) in enumerate(at)]


def spillage_rows(job: Job) -> list[Row]:
    """The form of the spillage test: each thing before the system runs and with it running."""
    pressure = "in WC" if job.units == "us" else "Pa"
    both = (("Day, hour, weather", ""), ("Room carbon monoxide, start and highest", "ppm"),
            ("Base reading, every fan off", pressure), ("Worst case, every fan on", pressure))  # fmt: skip
    rows = [Row(f"{label}, {when}", unit=unit, at=()) for label, unit in both for when in ("before", "with the system")]
    for name in burners(job):
        rows += [Row(f"{name}, system {state}: spills for", unit="s", at=()) for state in ("off", "on")]
        rows.append(Row(f"{name}: draft and flue carbon monoxide, off and on", at=()))
    return rows + [
        Row(label, at=())
        for label in ("Doors, blower and damper as tested", "Fans that ran, each by name", "Limit that was used, and whose table",
                      "Text that was followed, edition; who tested", "Everything put back, told to")
    ]  # fmt: skip


def burners(job: Job) -> list[str]:
    """The appliances that burn fuel, as the spillage check names them; one general name when it names none."""
    check = job.results.get("spillage-check")
    given = (check.values.get("appliances") if check else None) or []
    names = [str(one.get("name") or f"appliance {i + 1}") for i, one in enumerate(given)]
    return [name[:1].upper() + name[1:] for name in dict.fromkeys(names)] or ["Appliance that burns fuel"]


def written_of(job: Job) -> dict[str, str]:
    """What was written on the lines of the sheet, by label: notes of the form "label: words", and records."""
    rows = rows_to_fill(job)
    labels = [*BLANK_HOUSE, *(row.label for row in rows)]
    found: dict[str, str] = {}
    for note in job.file["notes"]:
        label = label_of_note(note, labels)
        if label:
            found[label] = note[len(label) + 2 :]
    for row in rows:
        records = [e for e in job.file["recorded"] if row.at and (e["calculator"], e["field"]) == row.at]
        if records and row.label not in found:
            found[row.label] = _recorded_value(job, records[-1])
    return found


def label_of_note(note: str, labels: list[str]) -> str:
    """The label of the sheet that a note fills in, or nothing."""
    return next((label for label in sorted(labels, key=len, reverse=True) if note.startswith(f"{label}: ")), "")


def other_notes(job: Job) -> list[str]:
    """The notes that stand on no line of the sheet."""
    labels = [*BLANK_HOUSE, *(row.label for row in rows_to_fill(job))]
    return [note for note in job.notes if not label_of_note(note, labels)]


def _recorded_value(job: Job, entry: dict[str, Any]) -> str:
    raw = entry["value"]
    declared = declaration(entry["calculator"])
    name = entry["field"]
    field = declared.results.get(name) or declared.inputs[name][0]
    result = job.results.get(entry["calculator"])
    values = result.values if result else {}
    reader = Reader()
    value = reader.value(field, raw, "value") if field.kind in ("quantity", "choice", "flag") else ABSENT
    return told(None, raw, job.units, {}) if value is ABSENT else told(field, value, job.units, values)


def measured(job: Job) -> Part:
    """What was measured on the job, with its day; what stands in the start-up record is not said twice."""
    on_record = {row.at for row in rows_to_fill(job) if row.at}
    rows = []
    for entry in job.file["recorded"]:
        if (entry["calculator"], entry["field"]) in on_record:
            continue
        declared = declaration(entry["calculator"])
        name = entry["field"]
        field = declared.results.get(name) or declared.inputs[name][0]
        who = f", {entry['who']}" if entry.get("who") else ""
        rows.append(Row(field.label, f"{_recorded_value(job, entry)} ({day(entry['when'])}{who})"))
    return Part("measured", "Measured on the job", rows)


def start_up(job: Job, written: dict[str, str]) -> Part:
    """The start-up record: what was worked out beside what is read, and what was tried."""
    started = job.file.get("started")
    rows: list[Any] = [Row("Fan first switched on", day(started) if started else "")]
    worked, needed = _worked_out(job), job.results.get("needed-suction")
    last_hole = f"{_holes(job)[-1]}, suction with the fan on"
    for row in start_rows(job):
        row.value = written.get(row.label, "")
        rows.append(row)
        if row.label in worked:
            rows.append(Row(f"{row.label.partition(',')[0].partition(':')[0]}, worked out", worked[row.label]))
        elif row.label == last_hole and needed:
            wanted = result_words(printed(needed, "required_suction", job.units))
            rows.append(Row("Wanted at the weakest hole that day, worked out", wanted))
    return Part("startup", "Start-up record", rows)


def _worked_out(job: Job) -> dict[str, str]:
    """What the job itself knows of a row of the start-up record, by label."""
    before, after = radon_known(job)
    known = {RADON_BEFORE: before, RADON_AFTER: after}
    fan = job.results.get("fan-point")
    for row in start_rows(job):
        value = printed(fan, row.at[1], job.units) if row.at and fan else None
        if value is not None:
            known[row.label] = result_words(value)
    return {label: text for label, text in known.items() if text}


def radon_known(job: Job) -> tuple[str, str]:
    """Radon before and after the work as the test of the job has it; empty where it does not say."""
    test = job.results.get("radon-test")
    if not test:
        return "", ""
    mean = printed(test, "mean", job.units)
    mean_said = result_words(mean) if mean is not None else ""
    if test.values["protocol"] != "post-mitigation":
        return mean_said, ""
    earlier = test.values.get("earlier_reading")
    field = test.declaration.inputs["earlier_reading"][0]
    counts = {True: "", False: "; this test does not count", None: "; whether it counts could not be judged"}
    valid = counts[test.outputs.get("valid")]
    return "" if earlier is None else told(field, earlier, job.units, test.values), mean_said and mean_said + valid


def spillage(job: Job, written: dict[str, str]) -> Part:
    """The form of the spillage test, what the sum says beside it, and what to do when it fails."""
    items: list[Any] = [
        Line(
            "Everything that blows air out is on and the inner doors stand as they draw the most; the burner "
            "is lit cold; smoke at the draft hood shows how long it spills. Once before the system runs, once with it at its "
            "final speed and the lid closed.",
            level="danger",
            source=("common-practice", ""),
        )
    ]
    for row in spillage_rows(job):
        row.value = written.get(row.label, "")
        items.append(row)
    check = job.results.get("spillage-check")
    if check:
        added = printed(check, "added_depressurization", job.units)
        items.append(Row("The fans add, worked out; the test decides", result_words(added)))
    first, *then = IF_IT_FAILS
    items.append(Line(f"If it spills: 1. {first}", level="danger", source=("common-practice", "")))
    items += [Line(f"{i}. {text}") for i, text in enumerate(then, 2)]
    return Part("spillage", "Spillage test", items)


def labels(job: Job, written: dict[str, str]) -> Part:
    """The labels: words that the chosen packs prescribe, quoted with section; the rest is ours."""
    packs = [rule_pack(id) for id in job.file.get("rules") or []]
    items: list[Any] = []
    rows = [row for pack in packs for row in pack["rows"] if row["quantity"] in PRESCRIBED]
    for row in rows:
        said = f"“{row['value']}”. " if row["relation"] == "text" and row["quantity"] == "label_text" else ""
        items.append(Line(f"{said}{row['text']}", source=(row["source"], f"{row['section']}, {row['edition']}")))
    if packs and not rows:
        items.append(
            Line(
                "The chosen rule pack prescribes no label in the rows that were seen. "
                "The words below are ours; read the whole rule before you print them."
            )
        )
    if not packs:
        items.append(
            Line("No rule pack was chosen, so nothing on this sheet says that a rule is met. The words below are ours.")
        )
    quoted = next((row for row in rows if row["quantity"] == "label_text"), None)
    source = (quoted["source"], f"{quoted['section']}, {quoted['edition']}") if quoted else OUR_LABELS
    title = quoted["value"] if quoted else "Radon reduction system"
    started = job.file.get("started")
    from_gauge = written.get(GAUGE, "")
    note = "The first line is quoted from the rule; the rest is ours." if quoted else "Our words."
    items += [
        Card(
            title,
            "System label: on the pipe, next to the gauge",
            [
                Row("Installed on", day(started) if started else ""),
                Row("Gauge at start-up", from_gauge),
                Line("Zero, or a fifth more or less than at start-up: call the installer."),
                Line("Leave the fan on. Test for radon at least every two years."),
                Row(INSTALLER + ", phone", written.get(INSTALLER, "")),
                Row("State radon office"),
                Line("Federal information: U.S. Environmental Protection Agency, radon."),
            ],
            source,
            note,
        ),
        *_pipe_labels(rows, source, note),
        Card("Radon fan: leave on", "Breaker label", [Row("Breaker no.")], OUR_LABELS, "Our words."),
    ]
    items += [
        Card(
            "State tag",
            "A tag that is the state's own: get it there, this is its place",
            [Row("State tag no.", written.get("State tag no.", "")), Line(row["text"])],
            (row["source"], f"{row['section']}, {row['edition']}"),
        )
        for row in rows
        if row["quantity"] == "tag"
    ]
    reading = job.results.get("gauge-reading")
    if reading is not None:
        listed = gauge_card.of(reading.values["reading_then"], reading.outputs["expected_reading"])
        rows_ = [Row(line.label, gauge_card.said(line.suction)) for line in listed]
        items.append(
            Card(
                "Suction gauge", "Card beside the gauge", [*rows_, Line(gauge_card.NO_RADON)], OUR_LABELS, "Our words."
            )
        )
    if {"sump-sealing", "pump-sizing"} & job.results.keys():
        lines = [
            Line("Part of the radon system. Air from the soil is behind this lid."),
            Line("Switch the radon fan off and unplug the pump before you open it. Put the lid and its seal back."),
        ]
        items.append(Card("Keep this lid closed and sealed", "Lid label", lines, OUR_LABELS, "Our words."))
    return Part("labels", "Labels", items)


def _pipe_labels(rows: list[dict[str, Any]], source: tuple[str, str], note: str) -> list[Card]:
    """One pipe label for each text that a chosen pack prescribes, else ours."""
    where = "Pipe label: on each floor, and in the attic"
    quoted = {row["value"]: row for row in rows if row["quantity"] == "label_text"}
    cards = [
        Card(text, where, [], (row["source"], f"{row['section']}, {row['edition']}"), "Quoted from the rule.")
        for text, row in quoted.items()
    ]
    return cards or [Card("Radon reduction system", where, [], source, note)]
