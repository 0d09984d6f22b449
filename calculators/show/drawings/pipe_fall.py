"""The pipe's level run with its fall, its hangers, and the dip that fills with water."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, cross, feet_both, listed, spoken

FALL = 0.125 / 12  # SGM-SF 2017 (12/20), 6.2.2: 1/8 in. per ft
SHOWN = 6  # the fall is drawn this many times steeper, else it is not seen
RUN, LEVEL, UPRIGHT = si("18 ft"), si("4 ft"), si("10 ft")  # supports: RMS-LB 2018 (12/20), 6.2.7
HALF = 5.0  # half of the pipe's width on the sheet


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The right run above, the wrong one below; lengths to scale, the fall drawn steeper."""
    means = (
        "Level pipe falls ⅛ in. a foot (1 %), back to the suction point",
        f"A hanger every {feet_both(4)}, holding up and down",
        f"A support every {feet_both(10)} upright",
        "Wrong: the pipe dips under a duct, the dip fills with water, and the suction ends there",
    )
    sheet = Sheet(372, 22, 0, 300 / RUN)
    _right(sheet)
    _wrong(sheet)
    drawn = sheet.figure(
        uid,
        "Fall of the pipe, right and wrong",
        f"A pipe from the suction point along a ceiling to a riser. {spoken(means)}",
        f"Lengths to scale, {feet_both(18)} of level pipe; the fall is drawn {SHOWN} times too steep. "
        "Arrows: the way that the water goes.",
    )
    return listed(drawn, means)


def _pipe(sheet: Sheet, points: list[tuple[float, float]]) -> None:
    sheet.path("pipe-out", points)
    sheet.path("pipe-in", points)


def _right(sheet: Sheet) -> None:
    low, high = 92.0, 92.0 - FALL * SHOWN * 300
    sheet.path("wall", [(0, 52), (312, 52)])
    sheet.path("wall", [(332, 52), (360, 52)])
    _pipe(sheet, [(22, 190), (22, low), (322, high), (322, 4)])
    sheet.field("conc", 0, 176, 360, 190)
    sheet.field("soil", 0, 190, 360, 204)
    sheet.field("part", 17, 170, 27, 196)
    for i in range(1, 5):
        x = sheet.x(LEVEL * i)
        y = low - FALL * SHOWN * (x - 22)
        sheet.path("edge", [(x, 52), (x, y - HALF)])
        around = y - HALF - 1, y + HALF + 1
        sheet.path(
            "edge", [(x - 6, around[0]), (x - 6, around[1]), (x + 6, around[1]), (x + 6, around[0]), (x - 6, around[0])]
        )
    arrow(sheet, (250, 92), (110, 102))
    arrow(sheet, (40, 108), (40, 156))
    arrow(sheet, (302, 14), (302, 40))
    sheet.path("edge", [(0, 128), (17, 128)])
    sheet.path("edge", [(17, 123), (27, 123), (27, 133), (17, 133), (17, 123)])
    balloon(sheet, 182, 122, 1)
    balloon(sheet, sheet.x(LEVEL * 2), 30, 2)
    balloon(sheet, 62, 136, 3)
    sheet.path("lead", [(50, 134), (27, 128)])
    sheet.text("right", 350, 168, anchor="end")


def _wrong(sheet: Sheet) -> None:
    sheet.path("wall", [(0, 232), (312, 232)])
    sheet.path("wall", [(332, 232), (360, 232)])
    sheet.field("part", 130, 236, 214, 276)
    sheet.text("duct", 172, 261, anchor="middle")
    points = [(22.0, 352.0), (22, 262), (96, 256), (122, 292), (222, 292), (248, 250), (322, 246), (322, 212)]
    _pipe(sheet, points)
    sheet.path("pipe-water", [(118, 288), (122, 292), (222, 292), (226, 286)])
    sheet.field("conc", 0, 346, 360, 360)
    sheet.field("soil", 0, 360, 360, 372)
    sheet.field("part", 17, 340, 27, 366)
    cross(sheet, 172, 292, 12)
    balloon(sheet, 172, 326, 4)
    sheet.text("wrong", 350, 336, anchor="end", name="bad")
