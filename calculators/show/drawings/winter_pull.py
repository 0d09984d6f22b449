"""What the cold does to a house: where it draws in, where it lets out, and how hard it pulls at the slab."""

from ... import solve
from ...result import Result
from ...units import from_si
from ..figures import figure as figure_text
from ..markup import Markup
from .house_frame import SLAB, House
from .parts import arrow, balloon, listed, spoken

HOUSE = {"leakage_at_50Pa": "1900 cfm", "leak_bottom": "1 ft", "leak_top": "22 ft"}  # the house of the page's table
DAYS = (50, 32, 5)  # degF outdoors


def pull(outdoors: float) -> float:
    """How far that house is below outdoors at the slab [Pa], every fan off."""
    day = {"outdoor_temperature": f"{outdoors} degF", "indoor_temperature": "70 degF"}
    found: float = solve("needed-suction", {"test_day": day, "design_day": day, "house": HOUSE})["slab_depressurization_design"]
    return found


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The house in section; the arrows grow with the pressure at their height."""
    pressures = [pull(outdoors) for outdoors in DAYS]
    told = ", ".join(
        f"{figure_text(from_si(p, 'Pa'), 1)} Pa at {d} °F ({figure_text(round((d - 32) / 1.8))} °C)"
        for d, p in zip(DAYS, pressures, strict=True)
    )
    means = (
        "Warm air leaks out at the top",
        "Somewhere between, nothing moves: the neutral level",
        "At the bottom the house draws in, from outdoors and from the soil",
        f"How far the slab is below outdoors, every fan off: {told}",
        "Your fan pulls the other way; what it reads on a mild day is the difference",
    )
    house = House()
    sheet = house.sheet
    house.line("level", (-4, 7.4), (26, 7.4))
    for y, size in ((17.4, 3.2), (13.2, 2.2)):
        arrow(sheet, house.at(-0.4, y), house.at(-0.4 - size, y))
        arrow(sheet, house.at(33.4, y), house.at(33.4 + size, y))
    for y, size in ((2.8, 2.0), (-4.4, 3.4)):
        arrow(sheet, house.at(-0.6 - size, y), house.at(-0.2, y))
    for x in (5.0, 12.0, 19.0):
        arrow(sheet, house.at(x, SLAB - 2.0), house.at(x, SLAB + 1.6))
    house.pipe((9, SLAB - 1.4), (9, 27))
    house.fan(9, 21.4)
    for number, x, y in ((1, 26.0, 16.6), (2, 20.4, 7.4), (3, 3.0, -2.2), (4, 20.8, -3.0), (5, 15.4, 13.8)):
        balloon(sheet, *house.at(x, y), number)
    house.line("lead", (14, 14.4), (9.6, 18.6))
    drawn = sheet.figure(
        uid,
        "What the cold adds",
        f"A house with arrows out at the top and in at the bottom. {spoken(means)}",
        "An invented house. The pressures are those of the calculator, for 1,900 cfm (897 L/s) of leakage at 50 Pa.",
    )
    return listed(drawn, means)
