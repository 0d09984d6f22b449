"""Three ways for the vent pipe through one house, with what each of them crosses."""

from ...result import Result
from ..markup import Markup
from .house_frame import CEILING, FIRST, SECOND, SLAB, WALL, House
from .parts import balloon, listed, spoken

MEANS = (
    "Closet or chase up the middle: two floors, a ceiling and the roof. Warm; a closet is lost",
    "Through the garage to its attic: the separation twice, then its roof. Short; the fire question comes first",
    "Up the outside wall: one wall. Easy, cold, and seen by everybody",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The house in section; a small circle stands at each crossing, a box with a stroke is the fan."""
    house = House()
    house.pipe((13, SLAB - 1), (13, 27))
    house.pipe((21.5, SLAB - 1), (21.5, 0.6), (26, 0.9), (26, 8.6), (35.4, 9.2), (35.4, 17.5))
    house.pipe((1.8, SLAB - 1), (1.8, 0.5), (-3, 0.8), (-3, 23))
    for x, y in (
        (13, FIRST), (13, SECOND), (13, CEILING), (13, 23.6),
        (WALL, 0.8), (35.4, SECOND), (35.4, 13.9),
        (0, 0.6),
    ):  # fmt: skip
        house.ring(x, y)
    for x, y in ((13, 21.2), (35.4, 12.2), (-3, 8.0)):
        house.fan(x, y)
    for number, x, y in ((1, 16.6, 14.5), (2, 29.4, 5.8), (3, -3.1, 14.5)):
        balloon(house.sheet, *house.at(x, y), number)
    house.sheet.text("garage", *house.at(35.6, 3.6), anchor="middle")
    house.sheet.text("basement", *house.at(7.4, -3.6), anchor="middle")
    house.sheet.text("room", *house.at(28.5, 14), anchor="middle")
    drawn = house.sheet.figure(
        uid,
        "Three routes through one house",
        f"A house with basement, two storeys, attic and a garage with a bedroom over half of it. {spoken(MEANS)}",
        "An invented house. Small circles: crossings. Boxes with a stroke: fans. "
        "On route 2 the fan stands where no room is above it.",
    )
    return listed(drawn, MEANS)
