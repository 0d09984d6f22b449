"""Heights in the pump pit, to scale."""

from ...result import Result
from ...units import si
from ..markup import Markup
from ..phrases import closed
from .canvas import Sheet, length, not_met

TILE = si("4 in")
SLAB = si("4 in")
LEFT, WORDS = 88.0, 156.0  # room at the left for slab and tile, at the right for the words


def figure(result: Result, uid: str, system: str) -> Markup:
    """The pit with the heights that were given; those that were not are left out."""
    values = result.values
    heights = {
        name: values.get(f"{name}_height")
        for name in ("lid", "check_valve", "relief_hole", "pump_on", "pump_off", "tile_invert", "resting_water")
    }
    known = [h for h in heights.values() if h is not None]
    width = values["pit_diameter"]
    lid = heights["lid"] or max([*known, width * 1.5]) * 1.08
    top = max([lid * 1.28, *(h * 1.12 for h in known)])
    scale = min((360 - LEFT - WORDS) / width, 290 / top)
    height = top * scale + 40
    sheet = Sheet(height, LEFT, height - 24, scale)
    right = sheet.x(width)
    _ground(sheet, lid, right)
    _pit(sheet, heights, width, lid, right)
    _parts(sheet, heights, width, lid, top)
    labels = _labels(sheet, result, heights, system)
    sheet.leaders(right + 9, right + 19, labels, top=34.0)
    sheet.text("vent pipe", right + 6, 22)
    said = "; ".join(words for _, words, _, _ in labels)
    missing = "" if known else " No heights were given."
    invert = " " + closed(f"Tile invert {length(heights['tile_invert'], system)}") if heights["tile_invert"] else ""
    return sheet.figure(
        uid,
        "Heights in the pit",
        f"A pit {length(width, system)} wide with its pump, discharge pipe, lid and vent pipe. "
        f"{closed('Heights above the pit floor: ' + (said or 'none'))}{invert}{missing}",
        "Heights above the pit floor, to scale. Redrawn from your numbers."
        if known
        else "The pit, to scale in its width. Give heights above the pit floor and they are drawn.",
    )


def _ground(sheet: Sheet, lid: float, right: float) -> None:
    under = sheet.y(lid - SLAB)
    sheet.field("soil", 0, under, 360, sheet.height)
    sheet.field("soil", 0, under, LEFT, sheet.height)
    sheet.stones(0, under, LEFT, min(under + 74, sheet.height))
    sheet.field("conc", 0, sheet.y(lid), LEFT, under)
    sheet.field("conc", right, sheet.y(lid), 360, under)


def _pit(sheet: Sheet, heights: dict[str, float | None], width: float, lid: float, right: float) -> None:
    sheet.box("inside", 0, 0, width, lid)
    water = heights["pump_on"] or heights["pump_off"]
    if water:
        sheet.box("water", 0, 0, width, water)
    invert = heights["tile_invert"]
    floor = sheet.y(0)
    if invert is not None and invert < lid:
        sheet.field("tile", 0, sheet.y(invert + TILE), LEFT, sheet.y(invert))
        sheet.path("wall", [(LEFT, sheet.y(lid)), (LEFT, sheet.y(min(invert + TILE, lid)))])
        sheet.path("wall", [(LEFT, sheet.y(invert)), (LEFT, floor), (right, floor), (right, sheet.y(lid))])
    else:
        sheet.path("wall", [(LEFT, sheet.y(lid)), (LEFT, floor), (right, floor), (right, sheet.y(lid))])
    sheet.field("lid", LEFT - 8, sheet.y(lid) - 7, right + 8, sheet.y(lid))
    for name in ("pump_on", "pump_off"):
        if heights[name]:
            sheet.path("level", [(LEFT, sheet.y(heights[name] or 0)), (right, sheet.y(heights[name] or 0))])


def _parts(sheet: Sheet, heights: dict[str, float | None], width: float, lid: float, top: float) -> None:
    """Pump, discharge pipe with check valve and relief hole, vent pipe; their widths are symbols."""
    span = width * sheet.scale
    pipe = LEFT + span * 0.34
    body = min(heights["pump_off"] or lid * 0.3, lid * 0.3) * 0.85
    sheet.field("part", LEFT + span * 0.12, sheet.y(body), LEFT + span * 0.52, sheet.y(0) - 3)
    sheet.field("part", pipe - 6, 6, pipe + 6, sheet.y(body))
    valve = heights["check_valve"]
    if valve is not None:
        y = sheet.y(valve)
        sheet.field("part", pipe - 11, y - 12, pipe + 11, y + 12)
        sheet.path("part", [(pipe - 7, y + 7), (pipe, y - 7), (pipe + 7, y + 7), (pipe - 7, y + 7)])
    hole = heights["relief_hole"]
    if hole is not None:
        sheet.add("circle", "dot", cx=pipe + 6, cy=sheet.y(hole), r=4)
    sheet.field("part", LEFT + span * 0.66, 6, LEFT + span * 0.87, sheet.y(lid) + 10)


def _labels(
    sheet: Sheet, result: Result, heights: dict[str, float | None], system: str
) -> list[tuple[float, str, bool, float]]:
    bad = {
        "pump_on": not_met(result, "float-below-tile", "resting-water"),
        "relief_hole": not_met(result, "hole-place"),
        "resting_water": not_met(result, "resting-water"),
    }
    words = {
        "check_valve": "check valve", "lid": "lid", "relief_hole": "relief hole", "resting_water": "resting water",
        "pump_on": "pump on", "pump_off": "pump off",
    }  # fmt: skip
    labels = []
    for name, word in words.items():
        h = heights[name]
        if h is not None:
            label, lifted = f"{word} {length(h, system)}", name == "lid"  # the lid's words stand above the slab's edge
            labels.append((sheet.y(h) - 4 * lifted, label, bad.get(name, False), 11.0 * lifted))
    invert = heights["tile_invert"]
    if invert is not None:
        for i, line in enumerate(("tile invert", length(invert, system))):
            sheet.text(line, 3, sheet.y(invert) + 18 + 18 * i, name="bad" if bad["pump_on"] and i else "")
    return labels
