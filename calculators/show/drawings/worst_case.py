"""The worst case for a flue: every exhaust on, doors set."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .house_frame import SLAB, House
from .parts import arrow, balloon, listed, spoken

# Flows: oil heat manual, page 43, as on the page.
MEANS = (
    "Dryer, 148 to 200 cfm (70 to 94 L/s)",
    "Range hood, 200 to 1,200 cfm (94 to 566 L/s)",
    "Bath fan, 25 to 90 cfm (12 to 42 L/s)",
    "Radon fan, as far as it takes house air",
    "Furnace blower with leaky return ducts",
    "Inside door: the test sets it the way that makes the appliance's room more negative",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The house in section, with all that takes air out."""
    house = House()
    sheet = house.sheet
    house.line("flue", (20.4, SLAB + 5.2), (20.4, 28))
    _heater(sheet, *house.at(20.4, SLAB), 15, 30)
    house.line("edge", (17.2, SLAB), (17.2, SLAB + 5.6), (14.6, SLAB + 4.0))
    house.field("part", 7.4, SLAB + 5, 10.4, SLAB)
    house.field("part", 1.2, SLAB + 3.2, 4.2, SLAB)
    for x, y in ((1.6, -1.6), (1.6, 6.0), (1.6, 16.0)):
        arrow(sheet, house.at(x + 3, y + 0.6), house.at(x - 5.4, y + 0.6))
    house.pipe((12.6, SLAB - 1), (12.6, 27))
    house.fan(12.6, 21.2)
    arrow(sheet, house.at(8.9, -0.6), house.at(8.9, 2.8))
    house.line("lead", (17.2, 4.2), (16.6, -1.4))
    for number, x, y in ((1, 5.2, -0.9), (2, 5.6, 6.6), (3, 6.2, 16.6), (4, 16.2, 21.4), (5, 9.2, 4.4), (6, 17.2, 4.2)):
        balloon(sheet, *house.at(x, y), number)
    drawn = sheet.figure(
        uid,
        "Everything that pulls on the flue",
        f"A house with a water heater in the basement, its flue, and all that takes air out. {spoken(MEANS)}",
        "An invented house in the worst case. Arrows: air that is taken out.",
    )
    return listed(drawn, MEANS)


def _heater(sheet: Sheet, x: float, floor: float, wide: float, tall: float) -> None:
    sheet.field("part", x - wide / 2, floor - tall, x + wide / 2, floor)
    sheet.path("edge", [(x - wide / 2, floor - tall - 1), (x, floor - tall - 8), (x + wide / 2, floor - tall - 1)])
