"""Plan of a finished basement: where the floor can be reached without tearing anything out."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import balloon, cross, listed, spoken

MEANS = (
    "Utility room: bare floor, the pit, and the burner",
    "Below the stairs, behind a door",
    "Closet: a core may stand here, with a chase above it",
    "Access panel at the tub: open soil is often below it",
    "Store with a bare wall: the top of the foundation can be seen",
    "Crossed out: warm floor, new tile, built-in cupboards. Not here",
)
WALLS = (
    ((24, 20), (336, 20), (336, 244), (24, 244), (24, 20)),
    ((24, 110), (108, 110)),
    ((142, 110), (142, 20)),
    ((220, 20), (220, 74)),
    ((220, 110), (336, 110)),
    ((142, 110), (184, 110)),
    ((250, 244), (250, 176)),
    ((250, 176), (286, 176)),
    ((320, 176), (336, 176)),
    ((24, 190), (82, 190), (82, 244)),
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Rooms seen from above; not to scale."""
    sheet = Sheet(268, 0, 0, 1)
    sheet.field("conc", 14, 10, 346, 254)
    sheet.field("inside", 24, 20, 336, 244)
    for points in WALLS:
        sheet.path("wall", points)
    sheet.add("circle", "tile", cx=48.0, cy=46.0, r=13.0)
    sheet.add("circle", "part", cx=106.0, cy=52.0, r=13.0)
    for i in range(7):
        sheet.path("lead", [(150 + i * 9.0, 30), (150 + i * 9.0, 66)])
    sheet.field("part", 300, 30, 330, 100)
    sheet.field("band", 130, 150, 226, 232)
    cross(sheet, 178, 191, 14)
    for number, x, y in ((1, 78, 84), (2, 182, 90), (3, 52, 216), (4, 280, 66), (5, 304, 212), (6, 106, 150)):
        balloon(sheet, x, y, number)
    sheet.path("lead", [(116, 156), (130, 166)])
    drawn = sheet.figure(
        uid,
        "Places to reach the floor of a finished basement",
        f"A basement from above with a utility room, stairs, a closet, a bath and a store. {spoken(MEANS)}",
        "An invented plan, not to scale. Dashed ring: pit. Ring: burner.",
    )
    return listed(drawn, MEANS)
