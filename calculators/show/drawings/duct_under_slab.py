"""A warm-air duct under a slab: what it does to the soil's air with the blower on and off, and with a radon fan."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, listed, spoken

MEANS = (
    "Return duct, blower on: it sucks soil air in and blows it through the house",
    "Supply duct, blower on: it blows house air into the soil",
    "Any duct, blower off: soil air comes in through its joints",
    "Any leaky duct and a radon fan: the fan draws house air, and the slab feels little",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Four short sections of a slab with a duct below it."""
    sheet = Sheet(312, 0, 0, 1)
    for i in range(4):
        left, top = (0.0 if i % 2 == 0 else 186.0), (0.0 if i < 2 else 158.0)
        right, floor = left + 174, top + 54
        sheet.field("soil", left, floor, right, top + 150)
        sheet.stones(left, floor + 16, right, floor + 34)
        sheet.field("conc", left, floor, right, floor + 14)
        sheet.field("part", left + 50, floor + 34, right - 30, floor + 72)
        sheet.field("inside", left + 62, floor - 1, left + 78, floor + 36)
        sheet.path("edge", [(left + 62, floor), (left + 62, floor + 34)])
        sheet.path("edge", [(left + 78, floor), (left + 78, floor + 34)])
        down, out = i == 1, i in (1,)
        ends = ((left + 70, floor + 24), (left + 70, floor - 30))
        arrow(sheet, *(ends[::-1] if down or i == 3 else ends))
        for x, y, away in ((left + 50, floor + 54, -1), (right - 30, floor + 54, 1)):
            points = ((x + away * 24, y), (x - away * 8, y))
            arrow(sheet, *(points[::-1] if out or i == 3 else points))
        if i == 3:
            sheet.path("vent-out", [(right - 22, floor + 30), (right - 22, top + 4)])
            sheet.path("vent-in", [(right - 22, floor + 30), (right - 22, top + 4)])
        balloon(sheet, left + 22, top + 24, i + 1)
    drawn = sheet.figure(
        uid,
        "A duct under the slab",
        f"Four sections of a floor with a duct in the soil below it. {spoken(MEANS)}",
        "Not to scale. Arrows: the way of the air.",
    )
    return listed(drawn, MEANS)
