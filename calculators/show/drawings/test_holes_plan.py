"""The order of test holes on a plan: planned point, far corners, beyond the footing."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, feet, listed, spoken

WIDE, DEEP, WING = si("36 ft"), si("24 ft"), si("12 ft")  # demo: a basement, and a slab addition behind its footing
HOLES = ((si("2 ft"), si("22 ft")), (si("2 ft"), si("2 ft")), (si("21 ft"), si("2 ft")))
BEYOND = (si("34 ft"), si("12 ft"))
PLANNED = (si("19 ft"), si("20 ft"))
MEANS = (
    "First far corner, read with the vacuum off",
    "Second far corner",
    "Third far corner",
    "Beyond the footing: without this hole you do not know whether the second slab answers",
    "The planned point, drilled last; the vacuum stands here, its exhaust outdoors",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """The plan to scale; the numbers are the order of drilling."""
    scale = 328 / WIDE
    sheet = Sheet(DEEP * scale + 78, 16, DEEP * scale + 40, scale)
    sheet.box("conc", 0, 0, WIDE, DEEP)
    split = WIDE - WING
    for x in (split - si("8 in"), split + si("8 in")):
        sheet.path("level", [(sheet.x(x), sheet.y(0)), (sheet.x(x), sheet.y(DEEP))])
    sheet.path(
        "wall", [(16, sheet.y(0)), (344, sheet.y(0)), (344, sheet.y(DEEP)), (16, sheet.y(DEEP)), (16, sheet.y(0))]
    )
    planned = (sheet.x(PLANNED[0]), sheet.y(PLANNED[1]))
    for x, y in (*HOLES, BEYOND):
        px, py = sheet.x(x), sheet.y(y)
        across, down = planned[0] - px, planned[1] - py
        far = (across**2 + down**2) ** 0.5
        near, end = 18 / far, 1 - 18 / far
        arrow(sheet, (px + across * near, py + down * near), (px + across * end, py + down * end), name="level")
    for number, (x, y) in enumerate((*HOLES, BEYOND), 1):
        balloon(sheet, sheet.x(x), sheet.y(y), number)
    arrow(sheet, planned, (planned[0], sheet.y(DEEP) - 16))
    balloon(sheet, *planned, 5)
    sheet.text("vacuum's exhaust, outdoors", planned[0] - 10, 16, anchor="middle")
    sheet.text("footing", sheet.x(split), sheet.y(0) + 20, anchor="middle")
    sheet.text(f"slab {feet(24, system)} × {feet(24, system)}", 18, sheet.y(0) + 20)
    drawn = sheet.figure(
        uid,
        "Order of test holes on a plan",
        f"A basement slab and an addition, a footing between them. {spoken(MEANS)}",
        "An invented floor, to scale. Dashed arrows: what each reading asks, does suction come from here to 5? "
        "Locate lines at every hole first.",
    )
    return listed(drawn, MEANS)
