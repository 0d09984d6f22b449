"""A sheet on the soil of a crawl space, in section: lap, wall edge, pier, pipe below."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, feet_both, inches_both, listed, pointer, spoken

LAP, INLET = 12, 3  # in. (IRC Appendix F 2012, AF103.3), ft (RMS-LB 2018, 6.1.3, at least)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Section; the thickness of the sheet and the gap at the lap are drawn large."""
    means = (
        f"Lap, {inches_both(LAP)}, sealed; on a slope the upper piece lies on top",
        "Edge taken up the wall, sealant on clean wall, batten",
        "Sheet taken up round the pier and sealed",
        f"Tee on {feet_both(INLET)} or more of perforated pipe below the sheet",
        "Boot round the pipe, sealed",
    )
    sheet = Sheet(244, 0, 0, 1)
    ground = 176.0
    sheet.field("soil", 0, ground, 360, 244)
    sheet.field("conc", 2, 30, 30, 232)
    sheet.field("conc", 330, 30, 358, 232)
    for y in range(54, 170, 24):
        sheet.path("lead", [(2, y), (30, y)])
        sheet.path("lead", [(330, y), (358, y)])
    sheet.field("conc", 252, ground + 16, 300, ground + 30)
    sheet.field("conc", 264, 30, 288, ground + 16)
    sheet.field("wood", 0, 12, 360, 30)
    sheet.field("tile", 76, ground + 10, 196, ground + 26)
    sheet.field("part", 126, 2, 144, ground + 14)
    sheet.field("part", 112, ground + 6, 158, ground + 30)
    arrow(sheet, (135, ground + 2), (135, 10))
    for start, end in (((90, ground + 50), (90, ground + 28)), ((180, ground + 50), (180, ground + 28))):
        arrow(sheet, start, end)
    sheet.path("wall", [(34, 132), (34, ground - 3), (122, ground - 3), (122, ground - 16)])
    sheet.path("wall", [(148, ground - 16), (148, ground - 3), (222, ground - 3)])
    sheet.path("wall", [(196, ground - 9), (226, ground - 9), (232, ground - 3), (260, ground - 3), (260, 138)])
    sheet.path("wall", [(292, 138), (292, ground - 3), (326, ground - 3), (326, 132)])
    for x in (32, 322):
        sheet.field("wood", x, 128, x + 6, 144)
    pointer(sheet, 210, 124, (210, ground - 9), 1)
    pointer(sheet, 62, 108, (38, 134), 2)
    pointer(sheet, 234, 84, (260, 140), 3)
    balloon(sheet, 214, ground + 44, 4)
    sheet.path("lead", [(202, ground + 40), (158, ground + 24)])
    pointer(sheet, 96, 138, (122, ground - 14), 5)
    drawn = sheet.figure(
        uid,
        "A sheet on bare soil",
        f"Section of a crawl space with a sealed sheet on the soil. {spoken(means)}",
        "Not to scale; the sheet is drawn thick. Hold it with ballast or battens, never with stakes through it.",
    )
    return listed(drawn, means)
