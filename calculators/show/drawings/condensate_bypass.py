"""Water that runs down to the fan from above, and the small way round it."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, cross, listed, pointer, spoken

MEANS = (
    "Upright fan, pipe straight through: water runs down through the wheel to the soil",
    "By-pass: a collar above the fan catches the water, a small tube leads it round, below the fan",
    "Tube full of water in a loop, so that no air goes round the fan",
    "Wrong: fan lying on its side. Water stands in the casing",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Three fans side by side; not to scale."""
    sheet = Sheet(262, 0, 0, 1)
    for x in (56.0, 168.0):
        sheet.path("pipe-out", [(x, 8), (x, 250)])
        sheet.path("pipe-in", [(x, 8), (x, 250)])
        sheet.field("part", x - 24, 96, x + 24, 152)
        arrow(sheet, (x, 236), (x, 176))
    arrow(sheet, (56, 30), (56, 82))
    sheet.field("band", 156, 62, 180, 80)
    way = [(180.0, 72.0), (208, 76), (208, 206), (192, 206), (192, 184), (174, 184)]
    sheet.path("edge", way)
    sheet.path("pipe-water", [(208, 190), (208, 206), (192, 206), (192, 190)])
    arrow(sheet, (168, 14), (168, 54))
    way = [(248.0, 250.0), (248, 124), (356, 124)]
    sheet.path("pipe-out", way)
    sheet.path("pipe-in", way)
    sheet.field("part", 276, 98, 330, 150)
    sheet.field("water", 277, 136, 329, 149)
    cross(sheet, 303, 122, 14)
    arrow(sheet, (248, 236), (248, 176))
    pointer(sheet, 20, 180, (40, 148), 1)
    pointer(sheet, 134, 44, (158, 68), 2)
    pointer(sheet, 222, 232, (204, 208), 3)
    balloon(sheet, 303, 76, 4)
    sheet.text("wrong", 352, 186, anchor="end", name="bad")
    drawn = sheet.figure(
        uid,
        "Water and the fan",
        f"Three fans on a vent pipe. {spoken(MEANS)}",
        "Not to scale. Arrows up: air. Arrows down: water. No published size of a by-pass was seen.",
    )
    return listed(drawn, MEANS)
