"""A builder's pipe without a fan, and what is looked at before it gets one."""

from ...result import Result
from ..markup import Markup
from .house_frame import SLAB, House
from .parts import balloon, inches_both, listed, spoken

WIDE, HIGH = 21, 36  # in., room for a fan: RRNC-2020 and CCAH-2020, 701.1


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The house in section with one pipe from the slab through the attic."""
    means = (
        "Where it begins: in stone or a drain loop, in clay, or in nothing",
        "Floor sealed round the pipe; pit, cracks and tub opening closed",
        "Joints in rooms: cemented, and before the fan, so that they suck",
        f"Room for a fan: {inches_both(WIDE)} wide, {inches_both(HIGH)} high, centred on the pipe",
        "Power: a box for it in the attic, and somebody licensed to use it",
        "Outlet: above the roof, clear of openings, no cap",
    )
    house = House()
    sheet = house.sheet
    sheet.stones(*house.at(0.4, SLAB - 0.7), *house.at(23.6, SLAB - 2.1))
    house.pipe((13, SLAB - 1.4), (13, 27.5))
    half, tall = WIDE / 24, HIGH / 12
    top, low = 23.2, 23.2 - tall
    house.line("level", (13 - half, low), (13 - half, top), (13 + half, top), (13 + half, low), (13 - half, low))
    house.field("part", 18.6, 20.9, 20.2, 19.5)
    spots = ((1, 6.4, SLAB + 1.9), (2, 17.2, SLAB + 1.9), (3, 16.6, 7.4), (4, 8.6, 20.9), (5, 23.6, 20.6), (6, 17, 26.6))
    house.line("lead", (6.4, SLAB + 1.9), (12.2, SLAB - 1.2))
    for number, x, y in spots:
        balloon(sheet, *house.at(x, y), number)
    drawn = sheet.figure(
        uid,
        "A pipe that waits for a fan",
        f"A house with a vent pipe from the stone under the slab through the rooms and the attic. {spoken(means)}",
        "An invented house. Dashed: the room that a fan needs, to scale.",
    )
    return listed(drawn, means)
