"""The parts of a house that touch the ground, in plan: each a box, footings dotted, numbered."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import balloon, listed, spoken

FT = si("1 ft")
MEANS = (
    "Basement slab, with its sump pit",
    "Crawl wing: bare soil, a part of its own",
    "Slab of an addition: behind a footing",
    "Garage slab",
    "Porch slab: small, and open to the soil all the same",
)
# Left, lower edge, width, depth in ft; kind of ground. An invented house.
BOXES = (
    (14, 10, 24, 24, "conc"), (0, 14, 14, 20, "soil"), (38, 18, 12, 16, "conc"), (32, 0, 18, 10, "conc"), (16, 4, 10, 6, "conc"),
)  # fmt: skip
OUTLINE = (
    (0, 14), (0, 34), (50, 34), (50, 18), (38, 18), (38, 10), (50, 10), (50, 0), (32, 0), (32, 10), (14, 10), (14, 14), (0, 14),
)  # fmt: skip
FOOTINGS = ((14, 14, 14, 34), (38, 18, 38, 34), (32, 10, 38, 10), (16, 10, 26, 10))


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The plan to scale; dotted lines are the footings between the parts."""
    scale = 340 / 50
    sheet = Sheet(34 * scale + 20, 10, 34 * scale + 10, scale / FT)
    for left, low, wide, deep, name in BOXES:
        sheet.box(name, left * FT, low * FT, wide * FT, deep * FT)
    sheet.path("wall", [(sheet.x(x * FT), sheet.y(y * FT)) for x, y in OUTLINE])
    for x0, y0, x1, y1 in FOOTINGS:
        for side in (-0.8, 0.8):
            aside, up = (side, 0) if x0 == x1 else (0, side)
            sheet.path("dots", [(sheet.x((x + aside) * FT), sheet.y((y + up) * FT)) for x, y in ((x0, y0), (x1, y1))])
    sheet.add("circle", "part", cx=sheet.x(17 * FT), cy=sheet.y(13.5 * FT), r=9)
    for number, (x, y) in enumerate(((25, 23), (7, 24), (44, 26), (44, 5), (21, 7)), 1):
        balloon(sheet, sheet.x(x * FT), sheet.y(y * FT), number)
    drawn = sheet.figure(
        uid,
        "The parts that touch the ground",
        f"Plan of a house with five parts, footings dotted between them. {spoken(MEANS)}",
        "An invented house from above, to scale. Dotted: footings between the parts; suction dies there. "
        "Circle: the pit.",
    )
    return listed(drawn, MEANS)
