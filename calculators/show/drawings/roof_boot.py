"""A pipe boot on a ribbed metal roof, seen from above: turned, on one rib, off the lap."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, listed, pointer, spoken

MEANS = (
    "Square base turned 45° to the fall, so that water parts round its corner",
    "It sits on one rib, and water can pass above it",
    "Side lap: never under the boot",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Plan; the right one at the left, the wrong one at the right."""
    sheet = Sheet(262, 0, 0, 1)
    for x in (30, 90, 150, 210, 270, 330):
        sheet.field("rib", x - 7, 10, x + 7, 226)
    for lap in (103.0, 283.0):
        sheet.path("level", [(lap, 10), (lap, 226)])
    sheet.field("edge", 2, 10, 358, 226)
    half, y = 34.0, 128.0
    _boot(sheet, 150, y, half, turned=True)
    _boot(sheet, 276, y, half, turned=False)
    arrow(sheet, (56, 30), (56, 100))
    arrow(sheet, (150, 30), (150, 72), (112, 122), (112, 200))
    arrow(sheet, (150, 72), (188, 122), (188, 200))
    pointer(sheet, 60, 176, (128, 140), 1)
    pointer(sheet, 60, 212, (144, 200), 2)
    pointer(sheet, 232, 36, (283, 60), 3)
    sheet.text("right", 150, 248, anchor="middle")
    sheet.text("wrong", 276, 248, anchor="middle", name="bad")
    sheet.text("fall", 40, 26, anchor="end")
    drawn = sheet.figure(
        uid,
        "Pipe boot on a metal roof, from above",
        f"A ribbed metal roof from above, water running down the sheet. {spoken(MEANS)}",
        "From above; arrows are water. After a New Zealand code of practice for metal roofs (8.4). "
        "Standing seams: the boot keeps off them altogether.",
    )
    return listed(drawn, MEANS)


def _boot(sheet: Sheet, x: float, y: float, half: float, *, turned: bool) -> None:
    side = half if turned else half * 0.8
    corners = (
        [(x, y - side), (x + side, y), (x, y + side), (x - side, y), (x, y - side)]
        if turned
        else [
            (x - side, y - side),
            (x + side, y - side),
            (x + side, y + side),
            (x - side, y + side),
            (x - side, y - side),
        ]
    )
    sheet.path("part", corners)
    sheet.add("circle", "conc", cx=x, cy=y, r=17)
    sheet.add("circle", "part", cx=x, cy=y, r=11)
