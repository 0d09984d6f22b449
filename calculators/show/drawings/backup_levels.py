"""Water levels in a pit with a second pump: who starts when, and who calls."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import along, inches, inches_both, listed, spoken

LEVELS = (  # in. above the pit's floor; invented, as the caption says
    (6.0, "pump off"),
    (12.0, "pump on"),
    (14.0, "drain's mouth"),
    (17.0, "2nd pump on"),
    (20.0, "alarm"),
    (24.0, "lid"),
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """One pit with its levels, to scale."""
    means = (
        f"Pump off at {inches_both(6)}, on at {inches_both(12)}: below the drain's mouth, so that air can pass",
        f"Second pump on at {inches_both(17)}: its own float, its own check valve, its own power",
        f"Alarm at {inches_both(20)}, on another circuit or its own battery: it calls whichever pump failed",
    )
    sheet = Sheet(264, 60, 242, 9.4 / si("1 in"))
    y = along(sheet.y, "in")
    sheet.field("soil", 0, y(24), 176, 264)
    sheet.field("conc", 0, y(24), 176, y(22))
    sheet.field("inside", 24, y(24), 152, y(0))
    sheet.field("water", 24, y(12), 152, y(0))
    sheet.path("wall", [(24, y(24)), (24, y(0)), (152, y(0)), (152, y(24))])
    sheet.field("lid", 16, y(24) - 8, 160, y(24))
    sheet.field("tile", 4, y(18), 30, y(14))
    sheet.field("part", 40, y(5), 78, y(0.3))
    sheet.field("part", 100, y(10), 134, y(6.5))
    for x, low in ((59.0, 5.0), (117.0, 10.0)):
        sheet.path("vent-out", [(x, y(low)), (x, 6)])
        sheet.path("vent-in", [(x, y(low)), (x, 6)])
    for inch, _ in LEVELS[:-1]:
        sheet.path("level", [(24, y(inch)), (168, y(inch))])
    sheet.leaders(168, 196, [(y(inch), f"{words} {inches(inch, system)}", False, 0.0) for inch, words in LEVELS])
    for number, (x, inch) in enumerate(((88.0, 9.0), (88.0, 15.6), (88.0, 21.4)), 1):
        sheet.add("circle", "dot", cx=x, cy=y(inch), r=11.0)
        sheet.text(str(number), x, y(inch) + 5.5, anchor="middle", name="on-dot")
    drawn = sheet.figure(
        uid,
        "Levels of a pit with two pumps",
        f"A pit in section with two pumps and five water levels. {spoken(means)}",
        "To scale; the heights are invented. Yours come from your pit.",
    )
    return listed(drawn, means)
