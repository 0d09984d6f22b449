"""Look-up tables that the calculators fill at every build: /// table | vent-loss.  No figure of theirs is typed anywhere."""

import json
import xml.etree.ElementTree as etree
from collections.abc import Callable, Sequence
from math import pi
from pathlib import Path

from calculators import solve, tables, units
from calculators.show.figures import figure as number
from calculators.show.figures import unit_text
from scripts import site_markup
from scripts.site_markup import sub
from scripts.site_sources import near, put_source

DISAGREEMENTS = Path(__file__).resolve().parent / "disagreements.json"
Cell = str | list[tuple[str, str]]  # words, or words with the source that each rests on


def both(value: float, us: str, si: str, places: tuple[int | None, int | None] = (None, None)) -> str:
    """An SI value in US units with the SI ones behind it."""
    first, second = units.from_si(value, us), units.from_si(value, si)
    if places[1] is None:
        second = float(f"{second:.3g}")  # the SI figure is never sharper than the US one
    return f"{number(first, places[0])} {unit_text(us)} ({number(second, places[1])} {unit_text(si)})"


def bare(value: float, us: str, si: str, places: tuple[int | None, int | None] = (None, None)) -> str:
    """The same without its units, where the head of the table says them."""
    first, second = units.from_si(value, us), float(f"{units.from_si(value, si):.3g}")
    return f"{number(first, places[0])} ({number(second, places[1])})"


def by_size(calculator: str, name: str, us: str, si: str, inputs: dict, flows: Sequence[int], sizes: Sequence[str], flow_si: str):
    """One result of a calculator over flows and pipe sizes; ``us``, ``si`` are the result's units."""
    unit = "gpm" if calculator == "pump-sizing" else "cfm"
    given = "inflow" if calculator == "pump-sizing" else "flow"
    rows = []
    for flow in flows:
        answers = [solve(calculator, {**inputs, given: f"{flow} {unit}", "pipe_size": size}) for size in sizes]
        rows.append([bare(units.si(f"{flow} {unit}"), unit, flow_si), *(bare(answer[name], us, si) for answer in answers)])
    shown = {"1-1/4": "1¼", "1-1/2": "1½"}
    return (f"{unit} ({flow_si})", *(f"{shown.get(size, size)} in., {unit_text(us)} ({unit_text(si)})" for size in sizes)), rows, "derived"


def pipes():
    """Schedule 40 pipe."""
    rows = []
    for size, row in tables.table("pipes")["schedule-40"].items():
        cells = [both(tables.si_of(row[part]), "in", "mm", (3, 1)) for part in ("outside_diameter", "minimum_wall", "bore")]
        weight = tables.si_of(row["weight"])
        where = "some from memory" if "memory" in row.get("note", "") else ""
        rows.append([f"{size} in.", *cells, both(weight, "lb/ft", "kg/m"), [(where, row["source"])]])
    return ("size", "outside", "least wall", "bore", "weight", "source"), rows, ""


def fittings(use: str):
    """Fittings as lengths of pipe, every published row; the first is the one that the calculators use."""
    rows = []
    sizes = ("3", "4", "6") if use == "air" else ("1-1/4", "1-1/2", "2")
    for kind in ("elbow-90", "elbow-90-sweep", "elbow-45", "elbow-45-sweep", "tee-run", "tee-branch", "check-valve", "gate-valve"):
        found = {size: tables.fitting(kind, size, use, "equivalent-length") for size in sizes}
        cited: dict[str, dict[str, dict]] = {}
        for size, published in found.items():
            for row in published:
                cited.setdefault(row["source"], {})[size] = row
        for source, by_size in cited.items():
            section = next((row["section"] for row in by_size.values() if "section" in row), "")
            cells = [both(tables.si_of(by_size[size]), "ft", "m") if size in by_size else "–" for size in sizes]
            derived = any(row.get("mark") == "derived" for row in by_size.values())
            note = "worked out from its ratio" if derived else ""
            rows.append([kind.replace("-", " ").replace("elbow 90", "90° elbow").replace("elbow 45", "45° elbow"), *cells,
                         [(note, f"{source} {section}".strip())]])
    return ("fitting", *(f"{size} in." for size in sizes), "source"), rows, ""


AIR = {"pipe_length": "100 ft"}
AIR_FLOWS = (10, 20, 40, 60, 80, 100, 120, 150, 200)
VENT = ("3", "4", "6")


def vent_loss():
    """Straight vent pipe."""
    return by_size("pipe-loss", "total_loss", "in WC", "Pa", AIR, AIR_FLOWS, VENT, "L/s")


def vent_speed():
    """Air speed."""
    return by_size("pipe-loss", "velocity", "ft/min", "m/s", AIR, AIR_FLOWS, VENT, "L/s")


def velocity_pressure():
    """Velocity pressure."""
    return by_size("pipe-loss", "velocity_pressure", "in WC", "Pa", AIR, AIR_FLOWS, VENT, "L/s")


def water_loss():
    """Straight pump pipe."""
    line = {"pit_diameter": "18 in", "static_lift": "0 ft", "pipe_length": "100 ft", "safety_factor": 1}
    return by_size("pump-sizing", "friction_head", "ft", "m", line, (5, 10, 15, 20, 25, 30, 40, 50), ("1-1/4", "1-1/2", "2"), "L/s")


def hole_air():
    """House air through a sharp-edged opening."""
    rows = []
    for area in ("0.1 in2", "0.5 in2", "1 in2", "2 in2", "5 in2", "10 in2"):
        flows = [solve("hole-flow", {"fluid": "air", "area": area, "pressure": suction})["flow"] for suction in SUCTIONS]
        rows.append([bare(units.si(area), "in2", "cm2"), *(bare(flow, "cfm", "L/s") for flow in flows)])
    return ("in² (cm²)", *(f"{both(units.si(suction), 'in WC', 'Pa')}: cfm (L/s)" for suction in SUCTIONS)), rows, "derived"


SUCTIONS = ("0.25 in WC", "0.5 in WC", "1 in WC", "2 in WC")
CONVERSIONS = (
    ("in WC", "Pa"), ("Pa", "in WC"), ("mm WC", "Pa"), ("ft WC", "kPa"), ("psi", "kPa"), ("cfm", "L/s"), ("L/s", "cfm"), ("m3/h", "cfm"),
    ("gpm", "L/min"), ("gal", "L"), ("ft/min", "m/s"), ("in", "mm"), ("ft", "m"), ("ft2", "m2"), ("in2", "cm2"), ("ft3", "L"), ("lb", "kg"),
    ("Btu/h", "W"), ("pCi/L", "Bq/m3"), ("Bq/m3", "pCi/L"),
)


def conversions():
    """One of a unit in another, from the table that the calculators read."""
    rows = []
    for unit, other in CONVERSIONS:
        value = units.from_si(units.si(f"1 {unit}"), other)
        rows.append([f"1 {unit_text(unit)}", f"{value:.4g} {unit_text(other)}"])
    return ("unit", "is"), rows, "definition"


def temperatures():
    """Temperatures that are met on the job."""
    rows = [[f"{number(f)} °F", f"{number(units.from_si(units.si(f'{f} degF'), 'degC'), 1)} °C"]
            for f in (-20, -4, 0, 5, 14, 23, 32, 41, 50, 55, 60, 70, 80, 100, 110)]
    return ("°F", "°C"), rows, "definition"


def decay():
    """What is left of radon that nothing feeds."""
    from calculators.physics import radon

    rows = []
    for days in (0.5, 1, 2, 3, 3.8235, 5, 7, 10, 14, 21, 30):
        left = radon.decayed(lam=radon.RADON_DECAY, t=days * 86400)
        rows.append([f"{number(days)} days", f"{left * 100:.3g} %"])
    return ("after", "left by decay alone"), rows, "radioactive-decay"


def airing():
    """Time to clear a room, well mixed."""
    rows = []
    for changes in (0.25, 0.5, 1, 2, 4, 8):
        cells = []
        for removal in (50, 90, 95, 99):
            time = solve("purge-time", {"air_changes": f"{changes} 1/h", "removal": f"{removal} %"})["time"]
            cells.append(f"{number(time / 3600, 1)} h" if time >= 3600 else f"{time / 60:.0f} min")
        rows.append([f"{number(changes)} per h", *cells])
    return ("air changes", "half gone", "90 %", "95 %", "99 %"), rows, "derived"


def fall():
    """Drop of a level run at the slope of the rule pack."""
    row = next(r for r in tables.rule_pack("sgm-sf-2017")["rows"] if r["id"] == "SGM20-01")
    rows = []
    for run in (5, 10, 15, 18, 20, 25, 30, 40):
        drop = units.si(f"{run * row['value']} in")
        rows.append([both(units.si(f"{run} ft"), "ft", "m"), both(drop, "in", "mm", (None, 0))])
    return ("level run", "falls at least"), rows, f"{row['source']} {row['section']}"


def pit_fills():
    """How long a pit lasts without a pump: from the pump's start level to the floor."""
    rows = []
    for inflow in (2, 5, 10, 18, 30):
        cells = []
        for across in ("18 in", "24 in"):
            volume = pi / 4 * units.si(across) ** 2 * units.si("12 in")
            minutes = volume / units.si(f"{inflow} gpm") / 60
            cells.append(f"{number(minutes, 1)} min")
        rows.append([both(units.si(f"{inflow} gpm"), "gpm", "L/s"), *cells])
    return ("inflow", "pit 18 in. (457 mm) wide", "24 in. (610 mm) wide"), rows, "geometry"


def water_carried():
    """Water that soil air brings up, and what a cold wall takes from it."""
    rows = []
    for flow in (10, 20, 40, 60, 80):
        answer = solve("cold-stack", {"flow": f"{flow} cfm", "pipe_size": "4", "outdoor_length": "20 ft", "outdoor_temperature": "23 degF",
                                      "soil_air_temperature": "55 degF"})
        cells = [both(answer[name] * 86400, "gal", "L", (1, 1)) for name in ("carried_per_day", "deposit_per_day")]
        rows.append([both(units.si(f"{flow} cfm"), "cfm", "L/s"), *cells])
    return ("flow", "comes up with the air, a day", "stays on the wall, a day"), rows, "derived"


def two_legs():
    """One fan on a tight slab, alone and with a leaky leg beside it."""
    house = {"fan": {"shutoff": "400 Pa", "free_flow": "160 cfm"}, "pipe_size": "4", "pipe_length": "30 ft",
             "soil_conductance": "10 cfm/in WC"}
    rows = []
    for leak in (0, 5, 10, 20, 40):
        answer = solve("fan-point", {**house, "open_area": f"{leak} in2"})
        words = f"and a sheet that leaks {both(units.si(f'{leak} in2'), 'in2', 'cm2')}" if leak else "the tight slab alone"
        rows.append([words, both(answer["pit_suction"], "in WC", "Pa"), both(answer["flow"], "cfm", "L/s")])
    return ("what the fan draws on", "suction left for the slab", "flow"), rows, "derived"


SIDE_BY_SIDE = {
    "height_above_grade": "above the ground",
    "distance_to_opening": "to an opening of the house",
    "above_opening": "or above that opening",
    "side_distance_to_opening": "or to its side",
    "distance_to_adjacent_opening": "to a neighbour's opening",
    "above_roof_surface": "above the roof",
    "above_roof_edge": "above the roof's edge",
    "wall_taller_distance": "to a wall that is taller",
    "above_people_area": "above decks and walks",
    "jet_path_distance": "free path of the jet",
    "rain_cap": "rain cap",
    "fan_place": "the fan may stand",
    "slope": "fall of the pipe",
    "support_spacing_horizontal": "hangers, level",
    "support_spacing_vertical": "supports, upright",
    "insulation_r": "insulation, R",
    "screen_mesh": "mesh of a screen",
    "label_text": "pipe label",
    "membrane_lap": "lap of a sheet",
}
PACKS = {  # as the page of the packs names them
    "us-pa": "Pennsylvania",
    "irc-f": "Appendix F",
    "us-mn": "Minnesota",
    "sgm-sf-2017": "Existing homes, 2017",
    "rms-mf-2018": "Multifamily, 2018",
    "cc-1000-2018": "New large buildings, 2018",
}
WHEN = {"direction": "level jet", "rain_cap": "with a cap", "below_roof": "below the roof", "roof_form": None, "reason": None}


def packs():
    """The rule packs beside each other; a dash means that no such row was seen."""
    ids = list(PACKS)
    rows = []
    for quantity, words in SIDE_BY_SIDE.items():
        cells: list[Cell] = [words]
        for id in ids:
            found = [row for row in tables.rule_pack(id)["rows"] if row["quantity"] == quantity]
            cells.append("; ".join(said(row) for row in found) or "–")
        rows.append(cells)
    return ("what", *PACKS.values()), rows, ""


def said(row: dict) -> str:
    """One row of a pack in few words, with its id."""
    from scripts.site_sources import figure

    value = row.get("value")
    if isinstance(value, bool):
        words = "allowed" if value else "none"
    elif isinstance(value, (int, float)):
        words = figure(row) or "more than 0"
    elif isinstance(value, list):
        words = ("not " if row["relation"] == "not in" else "") + ", ".join(item.replace("-", " ") for item in value)
    else:
        words = str(value)
    conditions = row.get("condition") or {}
    when = [conditions[key] if told is None else told for key, told in WHEN.items() if conditions.get(key)]
    return f"{', '.join([words, *when])} [{row['id']}]"


def disagreements():
    """Where sources disagree, and by how much."""
    rows = []
    for row in json.loads(DISAGREEMENTS.read_text(encoding="utf-8")):
        (one, shown, first), (other, shown_other, second) = (published(row[side]) for side in ("one", "other"))
        low, high = sorted((one, other))
        size = f"{number(high / low, 2)} times" if high >= 1.5 * low > 0 else f"{(high - low) / low * 100:.0f} %" if low else shown_other
        rows.append([row["what"], [(shown, first)], [(shown_other, second)], size, row["done"]])
    return ("what", "one says", "another says", "apart", "what we do"), rows, ""


def published(side: dict) -> tuple[float, str, str]:
    """One side of a disagreement: its SI value, its words, its source; taken from a pack or a table where it stands there."""
    if "fitting" in side:
        *names, place = side["fitting"]
        found = tables.fitting(*names, "equivalent-length")[place]
    elif "row" in side:
        pack, id = side["row"]
        found = next(row for row in tables.rule_pack(pack)["rows"] if row["id"] == id)
    else:
        found = side
    value, unit = found["value"], found["unit"]
    reference = f"{found['source']} {found.get('section', '')}".strip()
    if unit in ("1", "%"):
        return float(value), f"{number(value)}{' %' if unit == '%' else ''}", reference
    metric = {"ft": "m", "in": "mm", "gal": "L", "ft3": "L"}.get(unit)
    size = tables.si_of(found)
    if value == 0:
        return 0.0, "more than 0", reference
    return size, both(size, unit, metric) if metric else f"{number(value)} {unit}", reference


TABLES: dict[str, Callable[[], tuple[Sequence[str], list[list[Cell]], str]]] = {
    "pipes": pipes,
    "fittings-air": lambda: fittings("air"),
    "fittings-water": lambda: fittings("water"),
    "vent-loss": vent_loss,
    "vent-speed": vent_speed,
    "velocity-pressure": velocity_pressure,
    "water-loss": water_loss,
    "hole-air": hole_air,
    "conversions": conversions,
    "temperatures": temperatures,
    "decay": decay,
    "airing": airing,
    "fall": fall,
    "pit-fills": pit_fills,
    "water-carried": water_carried,
    "two-legs": two_legs,
    "packs": packs,
    "disagreements": disagreements,
}


def table(name: str) -> etree.Element:
    """One table with its source below; ValueError for an unknown name."""
    if name not in TABLES:
        raise ValueError(f"no table {name!r}; near it: {near(name, TABLES)}")
    head, rows, source = TABLES[name]()
    box = etree.Element("div", {"class": "filled"})
    body = site_markup.table(box, head)
    for row in rows:
        line = etree.SubElement(body, "tr")
        for cell in row:
            put(line, cell)
    if source:
        put_source(sub(box, "p", class_="src"), source)
    return box


def put(line: etree.Element, cell: Cell) -> None:
    """A cell of words, or of words with their sources."""
    if isinstance(cell, str):
        sub(line, "td", cell)
        return
    box = etree.SubElement(line, "td")
    for words, reference in cell:
        if words:
            sub(box, "span", f"{words} ")
        put_source(sub(box, "span", class_="src-ref"), reference)
