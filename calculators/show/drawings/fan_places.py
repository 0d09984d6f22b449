"""Where the fan may stand and where not, in the US texts for new houses."""

from ...result import Result
from ..markup import Markup
from .house_frame import SLAB, House
from .parts import balloon, cross, listed, spoken

# ANSI/AARST CCAH-2020, 701.2 and 701.2.1; RRNC-2020, 701.2 and 701.2.1.  Place in feet, may it be there, words.
PLACES = (
    ((13.0, 21.6), True, "Attic: may"),
    ((-3.0, 6.0), True, "Outdoors: may"),
    ((38.0, 4.5), True, "Garage with no room above: may"),
    ((28.5, 4.5), False, "Garage below a room: may not"),
    ((7.0, 14.0), False, "In a room: may not"),
    ((7.0, -2.6), False, "Basement or crawl space below rooms: may not"),
    ((31.0, -4.6), False, "In the ground: may not"),
)
MEANS = tuple(words for _, _, words in PLACES)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The house in section with seven fans; those that may not be there are crossed out."""
    house = House()
    house.pipe((13, SLAB - 1), (13, 27))
    house.pipe((3, SLAB - 1), (3, 0.4), (-3, 0.8), (-3, 23))
    house.pipe((21.5, SLAB - 1), (21.5, 0.6), (38, 1), (38, 16))
    for number, ((x, y), allowed, _) in enumerate(PLACES, 1):
        house.fan(x, y)
        px, py = house.at(x, y)
        if not allowed:
            cross(house.sheet, px, py, 11)
        beside = {1: (26, -2), 2: (0, -26), 3: (24, 0)}.get(number, (28, 0))
        balloon(house.sheet, px + beside[0], py + beside[1], number)
    drawn = house.sheet.figure(
        uid,
        "Where the fan may stand",
        f"A house with basement, two storeys, attic and a garage with a room over half of it. {spoken(MEANS)}",
        "By the US texts for new houses; an approved enclosure may hold it too. Crossed out: may not. "
        "Other countries decide otherwise.",
    )
    return listed(drawn, MEANS)
