"""A ladder at the eave: how far out its foot stands, how far its rails rise, and what hangs above it."""

from math import sqrt

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import along, balloon, feet, feet_both, listed, pointer, spoken

EAVE = 10.0  # ft, height of the edge; invented
SLOPE = 4.0  # working length over the distance of the foot: county safety leaflet
ABOVE = 3.0  # ft of rail above the landing: 29 CFR 1926.1053(b)(1)
FOOT = EAVE / sqrt(SLOPE**2 - 1)  # ft from the wall, for a working length of four times that


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Wall, eave, ladder and wire, to scale."""
    means = (
        f"Foot out a quarter of the working length: {feet_both(round(FOOT, 1))} for an edge at {feet_both(EAVE)}",
        f"Rails {feet_both(ABOVE)} above the landing, or more",
        "Tied at the top, on firm and level ground, with a second person below",
        "Service wires: look up first. If ladder, pipe and tools cannot stay well away, stop and call the utility",
    )
    sheet = Sheet(292, 150, 262, 14 / si("1 ft"))
    x, y = along(sheet.x, "ft"), along(sheet.y, "ft")
    sheet.field("soil", 0, 262, 360, 292)
    sheet.path("wall", [(x(0), y(0)), (x(0), y(EAVE))])
    sheet.path("wall", [(x(-1), y(EAVE - 0.3)), (x(15), y(EAVE + 5.6))])
    top = (EAVE + ABOVE) / EAVE
    for shift in (0.0, 8.0):
        sheet.path("edge", [(x(-FOOT) - shift, y(0)), (x(-FOOT + FOOT * top) - shift, y(EAVE + ABOVE))])
    for i in range(1, 13):
        step = i / 13 * top
        at = x(-FOOT + FOOT * step)
        sheet.path("lead", [(at, y(EAVE * step)), (at - 8, y(EAVE * step))])
    sheet.path("edge", [(0, 26), (150, 44), (360, 16)])
    sheet.dimension(x(-FOOT), x(0), 262, feet(round(FOOT, 1), system), below=True)
    sheet.path("level", [(60, y(EAVE)), (x(0) - 14, y(EAVE))])
    sheet.path("level", [(60, y(EAVE + ABOVE)), (x(0) + 2, y(EAVE + ABOVE))])
    sheet.text(feet(ABOVE, system), 52, y(EAVE + ABOVE / 2) + 5, anchor="end")
    pointer(sheet, 60, 238, (x(-FOOT) - 4, 258), 1)
    balloon(sheet, 74, y(EAVE + ABOVE / 2), 2)
    pointer(sheet, 210, 176, (x(0) + 3, y(EAVE) + 6), 3)
    pointer(sheet, 250, 58, (238, 32), 4)
    drawn = sheet.figure(
        uid,
        "Ladder at the eave",
        f"A ladder against a wall, its rails above the roof's edge, and overhead wires. {spoken(means)}",
        "To scale; the height of the edge is invented.",
    )
    return listed(drawn, means)
