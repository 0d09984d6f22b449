"""A sealed pit that takes wash water through a deep trap."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, inches, inches_both, listed, pointer, spoken

SEAL = 6.0  # in., trap of a drain into the soil or a pit: SGM-SF 2017 (12/20), 7.8.2
SUCTION = 1.5  # in. WC, the fan of the table on What must stay open
UNIT = 11.0  # units of the sheet an inch, for the trap


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Wash water goes down a standpipe, through the trap and the lid; heights of the trap to scale."""
    means = (
        "Standpipe of the machine, open to the room",
        f"Trap {inches_both(SEAL)} deep. A fan of {SUCTION} in. WC ({si(f'{SUCTION} inH2O'):.0f} Pa) moves its water, and the seal holds",
        "Pipe through the lid in a boot that seals",
        "Vent pipe of the fan, or suction on the drain beside the pit",
        "Pump pipe, with its union above the lid",
    )
    sheet = Sheet(306, 0, 0, 1)
    floor, bend = 152.0, 136.0
    sheet.field("soil", 0, floor, 360, 306)
    sheet.field("conc", 0, floor, 360, floor + 14)
    sheet.field("inside", 196, floor, 322, 292)
    sheet.field("water", 196, 252, 322, 292)
    sheet.path("wall", [(196, floor), (196, 292), (322, 292), (322, floor)])
    sheet.field("lid", 188, floor - 8, 330, floor)
    dip, weir = bend - 4, bend - 4 - SEAL * UNIT  # the seal is the water between these two
    top = weir - 4
    way = [(60.0, 18.0), (60, bend), (112, bend), (112, top), (222, top + 4), (222, 214)]
    sheet.path("pipe-out", way)
    sheet.path("pipe-in", way)
    sheet.path("pipe-water", [(60, weir + SUCTION * UNIT), (60, bend), (112, bend), (112, weir)])
    for x in (262.0, 302.0):
        low = 278.0 if x > 280 else floor + 18
        sheet.path("pipe-out", [(x, 16), (x, low)])
        sheet.path("pipe-in", [(x, 16), (x, low)])
    sheet.field("part", 291, 96, 313, 110)
    arrow(sheet, (262, 128), (262, 36))
    arrow(sheet, (60, 22), (60, 48))
    sheet.path("lead", [(30, dip), (138, dip)])
    sheet.path("lead", [(30, weir), (138, weir)])
    sheet.text(inches(SEAL, system), 2, (weir + dip) / 2 + 5, name="name")
    pointer(sheet, 96, 30, (64, 36), 1)
    pointer(sheet, 156, 112, (118, 120), 2)
    pointer(sheet, 178, 190, (222, floor - 4), 3)
    pointer(sheet, 234, 30, (258, 60), 4)
    pointer(sheet, 338, 66, (308, 96), 5)
    drawn = sheet.figure(
        uid,
        "Wash water into a sealed pit",
        f"A standpipe, a deep trap, and a pit with a lid, a vent pipe and a pump pipe. {spoken(means)}",
        "Depth and levels of the trap to scale, the rest not. Arrows: water down, air up.",
    )
    return listed(drawn, means)
