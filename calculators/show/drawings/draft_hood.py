"""The draft hood of a gas water heater, the right way and the wrong way."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, listed, spoken

MEANS = (
    "Right: room air goes in at the hood, and all rises",
    "Wrong: gas comes out below the hood into the room",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Two hoods side by side; not to scale."""
    sheet = Sheet(196, 0, 0, 1)
    for number, x in ((1, 92.0), (2, 268.0)):
        _hood(sheet, x, 186, right=number == 1)
        balloon(sheet, x - 66, 56, number)
    drawn = sheet.figure(
        uid,
        "Draft hood, right and wrong",
        f"The tops of two gas water heaters with their hoods and flues. {spoken(MEANS)}",
        "Not to scale. Arrows: the way of air and gas. Only the test shows which way the hood goes.",
    )
    return listed(drawn, MEANS)


def _hood(sheet: Sheet, x: float, floor: float, *, right: bool) -> None:
    """A water heater's top with hood and flue; y grows downward from the flue."""
    top = floor - 70
    sheet.field("part", x - 40, top, x + 40, floor)
    sheet.field("part", x - 9, top - 80, x + 9, top - 36)
    sheet.path("part", [(x - 9, top - 40), (x - 30, top - 16), (x + 30, top - 16), (x + 9, top - 40)])
    for side in (-1, 1):
        sheet.path("edge", [(x + side * 26, top), (x + side * 26, top - 16)])
        if right:
            arrow(sheet, (x + side * 66, top - 8), (x + side * 30, top - 8))
        else:
            arrow(sheet, (x + side * 14, top - 8), (x + side * 58, top - 8), (x + side * 66, top - 28))
    if right:
        arrow(sheet, (x, top - 18), (x, top - 76))
    else:
        arrow(sheet, (x, top - 78), (x, top - 20))
    sheet.text("right" if right else "wrong", x, floor - 30, anchor="middle", name="" if right else "bad")
