"""The pump's pipe under and over the lid: relief hole, union, check valve, in their order."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import along, arrow, inches, inches_both, listed, pointer, spoken

DEPTH, OUTLET, HOLE, UNION, VALVE = 24.0, 8.0, 12.0, 29.0, 36.0  # in. above the pit's floor
ABOVE = HOLE - OUTLET  # one of the three habits on the page: about 4 in. above the pump's outlet


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Heights to scale for a pit 24 in. deep; union and valve are placed freely above the lid."""
    means = (
        f"Relief hole, about {inches_both(ABOVE)} above the pump's outlet, below lid and valve, aimed down",
        "Boot or grommet: seals the pipe and lets it come out",
        "Union: opens without a saw, below the valve, so that the lid can be lifted",
        "Check valve: keeps the riser's water from running back",
        "Cord in a grommet of its own; the plug is never cut off",
    )
    scale = 6.0 / si("1 in")
    sheet = Sheet(306, 150, 284, scale)
    y = along(sheet.y, "in")
    lid = y(DEPTH)
    sheet.field("soil", 0, lid, 360, 306)
    sheet.field("conc", 0, lid, 360, lid + 22)
    sheet.field("inside", 96, lid, 264, y(0))
    sheet.field("water", 96, y(6), 264, y(0))
    sheet.path("wall", [(96, lid), (96, y(0)), (264, y(0)), (264, lid)])
    sheet.field("part", 112, y(OUTLET), 188, y(0.3))
    sheet.path("pipe-out", [(150, y(OUTLET)), (150, 12), (300, 12)])
    sheet.path("pipe-in", [(150, y(OUTLET)), (150, 12), (300, 12)])
    sheet.field("lid", 86, lid - 9, 274, lid)
    sheet.field("band", 138, lid - 16, 162, lid + 4)
    sheet.field("part", 138, y(UNION) - 6, 162, y(UNION) + 6)
    sheet.field("part", 136, y(VALVE) - 12, 164, y(VALVE) + 12)
    sheet.path("edge", [(140, y(VALVE) + 8), (160, y(VALVE) - 6)])
    sheet.path("edge", [(188, y(4)), (228, y(6)), (228, lid - 26), (330, lid - 40)])
    sheet.field("band", 220, lid - 14, 236, lid + 4)
    arrow(sheet, (157, y(HOLE)), (182, y(HOLE) + 18))
    sheet.path("lead", [(104, y(OUTLET)), (146, y(OUTLET))])
    sheet.path("lead", [(104, y(HOLE)), (146, y(HOLE))])
    sheet.text(inches(ABOVE, system), 90, y(HOLE) + 16, anchor="end", name="name")
    pointer(sheet, 214, y(HOLE) - 8, (160, y(HOLE)), 1)
    pointer(sheet, 66, lid - 26, (138, lid - 8), 2)
    pointer(sheet, 100, y(UNION) - 14, (138, y(UNION)), 3)
    pointer(sheet, 206, y(VALVE) - 4, (164, y(VALVE)), 4)
    pointer(sheet, 300, lid - 66, (240, lid - 10), 5)
    drawn = sheet.figure(
        uid,
        "The pump's pipe and what sits on it",
        f"A pit with a pump, its pipe through the lid and outdoors. {spoken(means)}",
        f"Heights below the lid to scale for a pit {inches_both(DEPTH)} deep. Arrow: spray of the hole.",
    )
    return listed(drawn, means)
