"""The drain tile as a loop with two ends in one pit, and what a blockage does to it."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, cross, listed, spoken

MEANS = (
    "Pit: both ends of the loop",
    "Far point: nothing flows here, and the suction is what the legs left",
    "Air joins along the whole way, so each leg carries most at the pit",
    "One blockage: each leg ends there, and nothing is cut off",
    "Between two blockages there is no tile",
)
LEFT, RIGHT = 40.0, 320.0


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Two loops from above; not to scale."""
    sheet = Sheet(344, 0, 0, 1)
    _loop(sheet, 14, whole=True)
    _loop(sheet, 190, whole=False)
    drawn = sheet.figure(
        uid,
        "The drain tile as a loop",
        f"Two basements from above with a dashed loop of pipe along the walls. {spoken(MEANS)}",
        "Not to scale. Arrows in the loop: air on its way to the pit. Short arrows: air that joins.",
    )
    return listed(drawn, MEANS)


def _loop(sheet: Sheet, top: float, *, whole: bool) -> None:
    low, middle = top + 140, top + 70
    sheet.path("wall", [(LEFT - 16, top - 8), (RIGHT + 16, top - 8), (RIGHT + 16, low + 8), (LEFT - 16, low + 8), (LEFT - 16, top - 8)])
    sheet.path("tile-line", [(LEFT, middle), (LEFT, top + 8), (RIGHT, top + 8), (RIGHT, low - 8), (LEFT, low - 8), (LEFT, middle)])
    sheet.add("circle", "part", cx=LEFT, cy=middle, r=14.0)
    if whole:
        balloon(sheet, LEFT + 34, middle, 1)
        balloon(sheet, RIGHT - 30, middle, 2)
        sheet.path("lead", [(RIGHT - 18, middle), (RIGHT, middle)])
        for y, side in ((top + 8, 1), (low - 8, -1)):
            for x in (270.0, 190.0, 110.0):
                arrow(sheet, (x, y), (x - 34, y))
                arrow(sheet, (x + 20, y + side * 26), (x + 20, y + side * 8), name="lead", head=7)
        balloon(sheet, 180, middle, 3)
        sheet.path("lead", [(190, middle - 8), (208, top + 30)])
        return
    for x, y in ((230.0, top + 8), (150.0, low - 8), (280.0, low - 8)):
        cross(sheet, x, y, 9)
    balloon(sheet, 230, top + 40, 4)
    balloon(sheet, 215, low - 36, 5)
    sheet.path("lead", [(215, low - 24), (215, low - 8)])
