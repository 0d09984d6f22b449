"""The lid over the pit, with every way by which house air gets in."""

from typing import Any

from ...result import Result
from ...span import Span
from ..figures import plain
from ..markup import Markup, el, join
from .canvas import Sheet, length

FLOOR = 118  # the slab's top, in units of the sheet
LID = 10
LEFT, RIGHT, HEIGHT = 62, 298, 292


def figure(result: Result, uid: str, system: str) -> Markup:
    """Lid and pit; widths along the lid to scale, gaps drawn wider.  Openings are numbered as in the list."""
    values = result.values
    scale = (RIGHT - LEFT) / values["lid_diameter"]
    leaks = result.outputs.get("leaks") or []
    numbers = {row["name"]: i for i, row in enumerate(leaks, 1)}
    sheet = Sheet(HEIGHT, LEFT, FLOOR, scale)
    _ground(sheet, bool(numbers.get("gap round the lid")))
    marks = _holes(sheet, values, numbers, scale)
    if "gap round the lid" in numbers:
        marks += [(LEFT + 5, FLOOR - 22, numbers["gap round the lid"])]
    if "other opening" in numbers:
        marks += [(LEFT + 24, FLOOR + 60, numbers["other opening"])]
    for x, y, number in marks:
        _arrow(sheet, x, y)
        _balloon(sheet, x, y - 14, number)
    shown = {row["name"] for row in leaks}
    elsewhere = [name for name in shown if name.startswith("slot") or "drain" in name]
    for i, name in enumerate(sorted(elsewhere)[:3]):
        _balloon(sheet, 330, FLOOR + 62 + 30 * i, numbers[name])
    _suctions(sheet, result, system)
    return join(
        (sheet.figure(uid, "Lid and pit", _words(result, leaks, system), _caption(values)), _list(leaks, system))
    )


def _ground(sheet: Sheet, gap: bool) -> None:
    under = FLOOR + 42
    sheet.field("soil", 0, under, 360, HEIGHT)
    sheet.stones(0, under, LEFT + 6, under + 80)
    sheet.stones(RIGHT - 6, under, 360, under + 80)
    sheet.field("conc", 0, FLOOR, LEFT + 12, under)
    sheet.field("conc", RIGHT - 12, FLOOR, 360, under)
    sheet.field("inside", LEFT + 12, FLOOR, RIGHT - 12, HEIGHT - 18)
    sheet.field("water", LEFT + 12, HEIGHT - 66, RIGHT - 12, HEIGHT - 18)
    sheet.path("wall", [(LEFT + 12, FLOOR), (LEFT + 12, HEIGHT - 18), (RIGHT - 12, HEIGHT - 18), (RIGHT - 12, FLOOR)])
    up = 8 if gap else 0  # a gap is drawn as a lid that stands off its rim
    sheet.field("lid", LEFT, FLOOR - LID - up, RIGHT, FLOOR - up)


def _holes(
    sheet: Sheet, values: dict[str, Any], numbers: dict[str, int], scale: float
) -> list[tuple[float, float, int]]:
    """Vent pipe and penetrations, side by side; returns the marks of those that are open."""
    up = 8 if "gap round the lid" in numbers else 0
    lid = FLOOR - LID - up
    items = [(i, item) for i, item in enumerate(values["penetrations"], 1) if item["count"]][:5]
    slots = len(items) + 1
    step = (RIGHT - LEFT - 60) / slots
    marks: list[tuple[float, float, int]] = []
    for place, (number, item) in enumerate(items):
        x = LEFT + 44 + step * (place + 0.5)
        hole = max(item["hole_diameter"] * scale, 8)
        name = f"ring of hole {number}" if item["diameter"] else f"empty hole {number}"
        is_open = name in numbers
        sheet.field("inside", x - hole / 2, lid, x + hole / 2, FLOOR - up)
        if item["diameter"]:
            wide = min(max(item["diameter"] * scale, 4), hole - (4 if is_open else 0))
            sheet.field("part", x - wide / 2, 8, x + wide / 2, FLOOR + 42)
            if not is_open:
                sheet.field("lid", x - hole / 2 - 3, lid - 5, x - wide / 2, lid)
                sheet.field("lid", x + wide / 2, lid - 5, x + hole / 2 + 3, lid)
        if is_open:
            marks.append((x + hole / 2 + 6, lid - 12, numbers[name]))
    x = LEFT + 44 + step * (slots - 0.5)
    sheet.field("part", x - 13, 24, x + 13, FLOOR + 14)
    sheet.path("flow", [(x, 46), (x, 10)])
    sheet.path("flow", [(x - 6, 18), (x, 9), (x + 6, 18)])
    sheet.text("to the fan", x + 19, 36)
    return marks


def _arrow(sheet: Sheet, x: float, y: float) -> None:
    sheet.path("flow", [(x, y), (x, y + 34)])
    sheet.path("flow", [(x - 5, y + 26), (x, y + 35), (x + 5, y + 26)])


def _balloon(sheet: Sheet, x: float, y: float, number: int) -> None:
    sheet.add("circle", "dot", cx=float(x), cy=float(y), r=12)
    sheet.text(str(number), x, y + 5.5, anchor="middle", name="on-dot")


def _suctions(sheet: Sheet, result: Result, system: str) -> None:
    lines = [
        (f"{_text(result, 'suction_open', system)} as it is", "strong"),
        (f"{_text(result, 'suction_sealed', system)} sealed", ""),
    ]
    for i, (words, name) in enumerate(lines):
        if not words.startswith("–"):
            sheet.text(words, (LEFT + RIGHT) / 2, FLOOR + 66 + 22 * i, anchor="middle", name=f"name {name}".strip())


def _text(result: Result, name: str, system: str) -> str:
    value = result.result(name, system)
    return plain(value["value"], value["unit"]) if value else "–"


def _list(leaks: list[dict[str, Any]], system: str) -> Markup | None:
    items = [el("li", f"{row['name'][:1].upper()}{row['name'][1:]}: {_flow(row['flow'], system)}") for row in leaks]
    return el("ol", *items, class_="legend") if items else None


def _flow(value: Any, system: str) -> str:
    from ...units import from_si

    number = value.value if isinstance(value, Span) else value
    if number is None:
        return "flow not given"
    unit = "cfm" if system == "us" else "L/s"
    return f"{plain(from_si(number, unit), unit)} of house air"


def _words(result: Result, leaks: list[dict[str, Any]], system: str) -> str:
    listed = " ".join(f"{i}: {row['name']}, {_flow(row['flow'], system)}." for i, row in enumerate(leaks, 1))
    lid = length(result.values["lid_diameter"], system)
    return (
        f"A lid {lid} wide over a pit with a vent pipe. Suction in the pit "
        f"{_text(result, 'suction_open', system)} as it is, {_text(result, 'suction_sealed', system)} when sealed. "
        f"{listed or 'No opening lets house air in.'}"
    )


def _caption(values: dict[str, Any]) -> str:
    return (
        "Widths along the lid to scale; gaps are drawn wider, and the pit less deep, than they are. Arrows: house air."
    )
