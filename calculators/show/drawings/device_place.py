"""Where a test device may stand in a basement: plan with distances, and the height above the floor."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import arc, balloon, feet_both, inches_both, listed, spoken

# 32 Ill. Adm. Code 422.130 (sump, openings, outside wall, heat, height); 25 Pa. Code 240.310(a) (washer, dryer);
# OAC 3701-69-07 App. A (Ohio, sump).
WIDE, DEEP = si("30 ft"), si("22 ft")  # demo
PIT, OHIO, OPENING, WALL, DRYER = si("7 ft"), si("10 ft"), si("3 ft"), si("1 ft"), si("10 ft")
SUMP, WINDOW, LAUNDRY = (si("3 ft"), si("3 ft")), (si("18 ft"), si("4 ft")), (si("28 ft"), si("3 ft"))
DEVICE = (si("14 ft"), si("13.5 ft"))


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The plan to scale; what is shaded is too near to something."""
    means = (
        f"Device, {inches_both(20)} to {feet_both(6)} above the floor",
        f"Sump pit: {feet_both(7)} or more, in Ohio {feet_both(10)} (dashed)",
        f"Window or outside door: {feet_both(3)} or more",
        f"Washer or dryer: {feet_both(10)} or more",
        f"Outside wall: {feet_both(1)} or more",
    )
    scale = 344 / WIDE
    height = DEEP * scale + 16
    sheet = Sheet(height, 8, height - 8, scale)
    sheet.field("inside", 8, 8, 352, height - 8)
    edge = WALL * scale
    right, foot = 352.0, height - 8
    for box in (
        (8, 8, right, 8 + edge),
        (8, foot - edge, right, foot),
        (8, 8, 8 + edge, foot),
        (right - edge, 8, right, foot),
    ):
        sheet.field("soil", *box)
    _near(sheet, SUMP, PIT, foot)
    _near(sheet, LAUNDRY, DRYER, foot)
    _window(sheet, scale)
    x, y = sheet.x(SUMP[0]), sheet.y(SUMP[1])
    sheet.path("level", _inside(arc(x, y, OHIO * scale, -1, 1, 96), foot))
    sheet.path("wall", [(8, 8), (right, 8), (right, foot), (8, foot), (8, 8)])
    left, span = sheet.x(WINDOW[0]), WINDOW[1] * scale
    sheet.field("part", left, 4, left + span, 12)
    sheet.add("circle", "part", cx=x, cy=y, r=11.5)
    lx, ly = sheet.x(LAUNDRY[0]), sheet.y(LAUNDRY[1])
    sheet.field("part", lx - 14, ly - 14, lx + 14, ly + 14)
    px, py = sheet.x(DEVICE[0]), sheet.y(DEVICE[1])
    balloon(sheet, px, py, 1)
    balloon(sheet, x + 32, y - 14, 2)
    balloon(sheet, left + span / 2, 32, 3)
    balloon(sheet, lx - 34, ly - 20, 4)
    balloon(sheet, 26, 74, 5)
    drawn = sheet.figure(
        uid,
        "Where the device stands",
        f"A basement from above with sump pit, window and dryer. {spoken(means)}",
        "An invented basement from above, to scale. Shaded: too near. Illinois' figures, the dryer's from Pennsylvania; "
        f"away from heat {feet_both(4)} or more.",
    )
    return listed(drawn, means)


def _inside(points: list[tuple[float, float]], foot: float) -> list[tuple[float, float]]:
    """Those points that lie in the room."""
    return [(x, y) for x, y in points if 8 <= x <= 352 and 8 <= y <= foot]


def _near(sheet: Sheet, place: tuple[float, float], reach: float, foot: float) -> None:
    """The part of the room that is too near to a place, its edge pressed against the walls."""
    x, y = sheet.x(place[0]), sheet.y(place[1])
    ring = arc(x, y, reach * sheet.scale, 0, 2, 96)
    sheet.path("near", [(min(max(a, 8), 352), min(max(b, 8), foot)) for a, b in ring])


def _window(sheet: Sheet, scale: float) -> None:
    left, right, reach = sheet.x(WINDOW[0]), sheet.x(WINDOW[0] + WINDOW[1]), OPENING * scale
    sheet.path("near", [(left - reach, 8), *arc(left, 8, reach, 1, 0.5, 12), *arc(right, 8, reach, 0.5, 0, 12)])
