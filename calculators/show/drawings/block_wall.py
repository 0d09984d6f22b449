"""A hollow block wall in section: open cores at the top, brick ledge, slab edge, and how soil air climbs."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, listed, pointer, spoken

MEANS = (
    "Top course: open cores let soil air out above your sealed floor; look here first",
    "Brick ledge: cores may open behind the brick veneer",
    "Core: the way up",
    "Slab edge: joint or slot between floor and wall",
    "Mortar joint in the outer face: the way in",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Section of the wall from footing to sill; not to scale in height."""
    sheet = Sheet(308, 0, 0, 1)
    left, right, top, foot = 130.0, 186.0, 66.0, 268.0
    sheet.field("soil", 0, 96, left, 308)
    sheet.field("soil", left, 262, 360, 308)
    sheet.stones(right + 22, 264, 360, 288)
    sheet.field("conc", left - 26, foot, right + 26, 296)
    sheet.field("conc", right + 5, 244, 360, 262)
    for i in range(5):
        upper = top + i * (foot - top) / 5
        lower = upper + (foot - top) / 5
        start = left + 18 if i == 0 else left
        for x0, x1 in ((start, start + 14), (right - 14, right)):
            sheet.field("conc", x0, upper, x1, lower)
        sheet.field("inside", start + 14, upper - (1 if i else 0), right - 14, lower)
    sheet.field("inside", left + 14, top + 41, right - 14, foot)
    for i in range(3):
        sheet.field("part", left - 3, 8 + i * 33.0, left + 15, 8 + (i + 1) * 33.0)
    sheet.field("wood", left + 18, 48, right - 24, top)
    sheet.field("wood", left + 18, 14, 360, 48)
    middle = (left + right) / 2
    arrow(sheet, (middle, 254), (middle, 116))
    arrow(sheet, (middle + 9, 104), (middle + 9, 57), (right + 30, 57))
    arrow(sheet, (right + 16, 284), (right + 2, 276), (right + 2, 232))
    for y in (147.0, 228.0):
        arrow(sheet, (left - 60, y), (left + 26, y))
    pointer(sheet, 262, 92, (right - 18, top + 4), 1)
    pointer(sheet, 84, 66, (left + 8, 104), 2)
    pointer(sheet, 232, 172, (middle + 4, 172), 3)
    pointer(sheet, 262, 214, (right + 4, 242), 4)
    pointer(sheet, 46, 188, (left - 2, 228), 5)
    drawn = sheet.figure(
        uid,
        "Soil air in a hollow block wall",
        f"Section of a block wall with brick veneer outside, sill on top, slab inside. {spoken(MEANS)}",
        "Not to scale. Arrows: soil air.",
    )
    return listed(drawn, MEANS)
