"""The pump's line outdoors: fall, a way out when it freezes, and the wrong way."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, cross, inches_both, listed, spoken

BLOCK, NEAR = 24, 4  # in.: splash block at least so long, pipe within so far of it: CPC 2013, 1101.5.3


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The right line above, the wrong one below; not to scale."""
    means = (
        "A gap or an open tee close to the wall, above the ground: water leaves there if the rest is frozen",
        "Fall all the way, no dip, stiff pipe",
        f"Splash block {inches_both(BLOCK)} long or more, pipe within {inches_both(NEAR)} of it, ground falling away",
        "Wrong: a hose that lies in a dip. It holds water, and that freezes first",
        "Wrong: the end beside the wall. The same water comes round again",
    )
    sheet = Sheet(330, 0, 0, 1)
    for top in (0.0, 172.0):
        sheet.field("soil", 44, top + 104, 360, top + 156)
        sheet.field("conc", 28, top + 58, 44, top + 156)
        sheet.field("wood", 28, top + 6, 44, top + 58)
    _pipe(sheet, [(0, 40), (92, 44)])
    _pipe(sheet, [(104, 46), (262, 92)])
    sheet.path("edge", [(96, 52), (100, 70)])
    arrow(sheet, (98, 56), (98, 86))
    sheet.field("conc", 270, 96, 336, 104)
    arrow(sheet, (264, 92), (332, 94))
    balloon(sheet, 122, 80, 1)
    balloon(sheet, 190, 44, 2)
    balloon(sheet, 304, 70, 3)
    _pipe(sheet, [(0, 212), (60, 216), (84, 270), (150, 284), (210, 268), (300, 272)])
    sheet.path("pipe-water", [(106, 274), (150, 284), (190, 273)])
    cross(sheet, 150, 282, 11)
    balloon(sheet, 150, 250, 4)
    _pipe(sheet, [(0, 196), (66, 198), (66, 240)])
    arrow(sheet, (66, 240), (50, 272))
    balloon(sheet, 96, 206, 5)
    sheet.text("right", 352, 130, anchor="end")
    sheet.text("wrong", 352, 236, anchor="end", name="bad")
    drawn = sheet.figure(
        uid,
        "The pump's line in winter",
        f"Two walls with a pipe that leads water away from the house. {spoken(means)}",
        "Not to scale.",
    )
    return listed(drawn, means)


def _pipe(sheet: Sheet, points: list[tuple[float, float]]) -> None:
    sheet.path("vent-out", points)
    sheet.path("vent-in", points)
