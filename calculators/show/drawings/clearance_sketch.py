"""The outlet and what is near it, to scale, with the distances that were compared."""

from typing import Any

from ...result import Result
from ...units import si
from ..markup import Markup, el, join
from .canvas import Sheet, length

LISTS = ("openings", "adjacent_buildings", "people_areas")
MARGIN = si("2.5 ft")
WINDOW = si("3 ft")  # drawn this wide: the width of an opening is not asked for
LEAST = si("12 ft")
CAPTION = (
    "Distances to scale; sides are taken in turn, openings are drawn 3 ft (0.9 m) wide. Redrawn from your numbers."
)
# Name, kind, level distance, bottom above the outlet, height, side, path.
Place = tuple[str, str, float, float, float, int, str]


def figure(result: Result, uid: str, system: str) -> Markup:
    """The outlet above grade, each place at its distance, sides taken in turn; numbers explained below."""
    places = _places(result.values)
    grade = result.values["discharge"]["height_above_grade"]
    right = max([p[2] for p in places if p[5] > 0] + [LEAST / 2]) + WINDOW + MARGIN / 2
    left = max([p[2] for p in places if p[5] < 0] + [LEAST / 3]) + WINDOW + MARGIN / 2
    top = max([p[3] + p[4] for p in places] + [0.0]) + MARGIN * 1.4
    shown = min(grade, max([-p[3] for p in places] + [LEAST / 2]) + MARGIN)  # the ground, or a cut wall
    scale = min(360 / (left + right), 330 / (top + shown + MARGIN))
    height = (top + shown) * scale + 34
    spare = (360 - (left + right) * scale) / 2
    sheet = Sheet(height, left * scale + spare, top * scale, scale)
    _house(sheet, result, grade, shown, system)
    for number, place in enumerate(places, 1):
        _place(sheet, number, place, system)
    sheet.field("part", sheet.x(0) - 7, sheet.y(0), sheet.x(0) + 7, sheet.y(-shown))
    sheet.path("wall", [(sheet.x(0) - 12, sheet.y(0)), (sheet.x(0) + 12, sheet.y(0))])
    drawn = sheet.figure(uid, "The outlet and what is near it", _words(places, grade, system), CAPTION)
    return join((drawn, _list(result, places, system)))


def _places(values: dict[str, Any]) -> list[Place]:
    """Name, kind, level distance, bottom above the outlet, height, side, path of each place that has its distances."""
    found: list[Place] = []
    for name in LISTS:
        for i, item in enumerate(values[name]):
            level, vertical = item.get("horizontal"), item.get("vertical")
            if level is None or vertical is None:
                continue
            tall = item.get("height")
            tall = max(-vertical, si("1 ft")) if tall is None else tall
            side = -1 if len(found) % 2 else 1
            found.append(
                (
                    item.get("name") or f"{item['kind']} {i + 1}",
                    item["kind"],
                    level,
                    -vertical - tall,
                    tall,
                    side,
                    f"{name}[{i}]",
                )
            )
    return found[:9]


def _house(sheet: Sheet, result: Result, grade: float, shown: float, system: str) -> None:
    above = result.values["discharge"].get("height_above_roof")
    ground = sheet.y(-shown)
    roof = sheet.y(-above) if above is not None and 0 <= above < shown else None
    if roof is not None:
        sheet.field("inside", 0, roof, 360, ground)
        sheet.path("wall", [(0, roof), (360, roof)])
        sheet.text("roof", 4, roof - 6)
    sheet.field("soil", 0, ground, 360, sheet.height)
    if shown >= grade:
        sheet.path("wall", [(0, ground), (360, ground)])
        words = f"outlet {length(grade, system, 'ft', 'm')} above ground"
    else:
        sheet.path("level", [(0, ground), (360, ground)])
        words = f"cut; ground is {length(grade, system, 'ft', 'm')} below the outlet"
    sheet.text(words, 180, sheet.height - 10, anchor="middle")


def _place(sheet: Sheet, number: int, place: Place, system: str) -> None:
    _name, kind, level, bottom, tall, side, _path = place
    near = sheet.x(side * level)
    away = near + side * WINDOW * sheet.scale
    left, right = min(near, away), max(near, away)
    top, base = sheet.y(bottom + tall), sheet.y(bottom)
    if kind in ("deck", "patio", "walkway"):
        sheet.field("conc", left, top, right, top + 7)
        base = top
    else:
        sheet.field("part", left, top, right, base)
    corner = (near, min(max(sheet.y(0), top), base))
    sheet.path("level", [(sheet.x(0), sheet.y(0)), corner])
    middle = ((left + right) / 2, min((top + base) / 2, top + 24))
    sheet.add("circle", "dot", cx=middle[0], cy=middle[1], r=12)
    sheet.text(str(number), middle[0], middle[1] + 5.5, anchor="middle", name="on-dot")


def _list(result: Result, places: list[Place], system: str) -> Markup | None:
    items = []
    for name, kind, level, bottom, tall, _side, path in places:
        lies = -(bottom + tall)
        way = f"outlet {length(abs(lies), system, 'ft', 'm')} {'above' if lies >= 0 else 'below'} its top"
        bad = any(check.ok is False and check.id.endswith(f":{path}") for check in result.work.checks)
        label = name if kind in name else f"{name}, {kind}"
        items.append(
            el(
                "li",
                el("b", label) if bad else label,
                f": {length(level, system, 'ft', 'm')} level, {way}",
                " (not met)" if bad else None,
            )
        )
    return el("ol", *items, class_="legend") if items else None


def _words(places: list[Place], grade: float, system: str) -> str:
    listed = [f"{i}: {p[0]}, {length(p[2], system, 'ft', 'm')} away on the level." for i, p in enumerate(places, 1)]
    return f"The outlet stands {length(grade, system, 'ft', 'm')} above the ground. " + (
        " ".join(listed) or "Nothing near it was entered."
    )
