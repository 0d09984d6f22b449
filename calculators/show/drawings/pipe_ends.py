"""Ends of a vent pipe: which one lets the jet go, and what the others do."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, cross, listed, spoken

MEANS = (
    "Straight up, free, above the roof: the jet rises and mixes",
    "Cap: the jet lies down, and ice closes it in January",
    "Elbow down: the jet goes to where people are",
    "Below the eave: it wets and ices the wood, and goes in at the soffit",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Four ends side by side; not to scale."""
    sheet = Sheet(214, 0, 0, 1)
    sheet.path("wall", [(0, 186), (250, 120)])
    for x in (44.0, 122.0, 200.0):
        _pipe(sheet, [(x, 210), (x, 66)])
    arrow(sheet, (44, 60), (44, 12))
    for side in (-1, 1):
        arrow(sheet, (44 + side * 5, 58), (44 + side * 22, 22))
        arrow(sheet, (122 + side * 14, 64), (122 + side * 34, 84))
    sheet.path("edge", [(98, 62), (122, 46), (146, 62), (98, 62)])
    _pipe(sheet, [(200, 70), (200, 52), (226, 52), (226, 66)])
    arrow(sheet, (226, 66), (226, 106))
    sheet.path("wall", [(262, 96), (360, 70)])
    sheet.path("edge", [(262, 96), (318, 96)])
    sheet.path("wall", [(318, 92), (318, 214)])
    _pipe(sheet, [(296, 210), (296, 118)])
    arrow(sheet, (296, 114), (278, 100), (266, 112))
    for number, x, y in ((1, 18.0, 30.0), (2, 122.0, 22.0), (3, 200.0, 22.0), (4, 296.0, 40.0)):
        balloon(sheet, x, y, number)
    for x, y in ((122.0, 104.0), (200.0, 104.0), (296.0, 160.0)):
        cross(sheet, x, y, 8)
    drawn = sheet.figure(
        uid,
        "Ends of a vent pipe",
        f"Four pipes that end in different ways. {spoken(MEANS)}",
        "Not to scale. Crossed out: not so. A diverter that leaves the jet free is the exception for torrential rain.",
    )
    return listed(drawn, MEANS)


def _pipe(sheet: Sheet, points: list[tuple[float, float]]) -> None:
    sheet.path("pipe-out", points)
    sheet.path("pipe-in", points)
