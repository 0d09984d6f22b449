"""Three stages of ice at the outlet: rime on the wall, a throat, a lump that falls."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, listed, spoken

MEANS = (
    "Rime: wall below freezing, frost all round; flow still strong",
    "Throat: the outlet narrows, flow falls, so the wall gets colder still; the gauge falls",
    "Lump: a thaw lets go of it, and it drops into the fan",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Three pipes in section side by side; the pipe's width is true to itself, ice is drawn as it is told."""
    sheet = Sheet(258, 0, 0, 1)
    for number, x in ((1, 62.0), (2, 180.0), (3, 298.0)):
        sheet.field("part", x - 24, 214, x + 24, 250)
        sheet.path("edge", [(x - 24, 250), (x + 24, 214)])
        sheet.field("part", x - 20, 40, x + 20, 214)
        _ice(sheet, x, number)
        balloon(sheet, x - 40, 30, number)
    arrow(sheet, (62, 200), (62, 14))
    arrow(sheet, (180, 200), (180, 110))
    arrow(sheet, (298, 110), (298, 146))
    drawn = sheet.figure(
        uid,
        "Three stages of ice",
        f"Three outlets in section with ice, a fan below each. {spoken(MEANS)}",
        "Not to scale. Dotted edge: ice. Box with a stroke: the fan. A lump needs no closed pipe before it.",
    )
    return listed(drawn, MEANS)


def _ice(sheet: Sheet, x: float, number: int) -> None:
    if number == 1:
        for side in (-1, 1):
            sheet.path(
                "ice",
                [
                    (x + side * 19, 36),
                    (x + side * 13, 36),
                    (x + side * 16, 150),
                    (x + side * 19, 190),
                    (x + side * 19, 36),
                ],
            )
    elif number == 2:
        for side in (-1, 1):
            sheet.path("ice", [
                (x + side * 27, 34), (x + side * 4, 30), (x + side * 5, 62), (x + side * 12, 110), (x + side * 19, 180),
                (x + side * 19, 44), (x + side * 27, 44), (x + side * 27, 34),
            ])  # fmt: skip
    else:
        sheet.path(
            "ice",
            [
                (x - 14, 158),
                (x - 2, 150),
                (x + 12, 156),
                (x + 16, 178),
                (x + 6, 196),
                (x - 10, 192),
                (x - 16, 174),
                (x - 14, 158),
            ],
        )
        sheet.path("ice", [(x - 19, 60), (x - 15, 62), (x - 18, 96), (x - 19, 96), (x - 19, 60)])
