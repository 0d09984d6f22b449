"""The pipe through a garage ceiling: board, gap, filler, collar on the pipe."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, balloon, inches_both, listed, pointer, spoken

PIPE, BOARD = 3.5, 0.625  # in.: outside of nominal 3 in. pipe (ASTM D1785); 5/8 in. Type X board, CRC 2013 Table R302.6
GAP = 0.25  # in., drawn only: the listed system's sheet says how much
COLLAR = 1.5  # in. high and how far it reaches, drawn only


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Section at the ceiling, to scale in pipe and board; gap and collar are as the listed system's sheet says."""
    means = (
        "Board, ⅝ in. (15.9 mm) Type X under rooms",
        "Gap all round, filled with what the listed system names",
        "Collar on the pipe, fixed to the board, of the pipe's size and wall",
        "Coupling: kept clear; a collar never goes over a fitting",
        "Joist, not cut for the pipe",
    )
    inch = si("1 in")
    scale = 24 / inch
    sheet = Sheet(312, 170, 150, scale)
    half = PIPE / 2 * inch
    hole = half + GAP * inch
    board = BOARD * inch
    for x in (-6.4, 4.9):
        sheet.box("wood", x * inch, board, 1.5 * inch, 4.6 * inch)
        sheet.path(
            "lead", [(sheet.x(x * inch), sheet.y(board)), (sheet.x((x + 1.5) * inch), sheet.y(board + 4.6 * inch))]
        )
    sheet.box("conc", -7 * inch, 0, 7 * inch - hole, board)
    sheet.box("conc", hole, 0, 8 * inch - hole, board)
    for left in (-hole, half):
        sheet.box("lid", left, 0, GAP * inch, board)
    sheet.box("part", -half, -6.2 * inch, PIPE * inch, 12 * inch)
    wide = half + 0.35 * inch
    for left in (-half - 0.75 * inch, half):
        sheet.box("lid", left, -COLLAR * inch, 0.75 * inch, COLLAR * inch)
    for left in (-half - 1.7 * inch, half + 0.75 * inch):
        sheet.box("lid", left, -0.12 * inch, 0.95 * inch, 0.12 * inch)
    sheet.box("part", -wide, -5.6 * inch, 2 * wide, 2.6 * inch)
    arrow(sheet, (170, sheet.y(-2.6 * inch)), (170, 24))
    pointer(sheet, 24, 186, (40, sheet.y(board / 2)), 1)
    pointer(sheet, 270, 96, (sheet.x(half + GAP * inch / 2), sheet.y(board * 0.7)), 2)
    pointer(sheet, 270, 206, (sheet.x(half + 0.5 * inch), sheet.y(-1.0 * inch)), 3)
    pointer(sheet, 270, 262, (sheet.x(wide), sheet.y(-4.2 * inch)), 4)
    balloon(sheet, sheet.x(-5.65 * inch), 80, 5)
    sheet.text("room", 352, 18, anchor="end")
    sheet.text("garage", 4, 300)
    drawn = sheet.figure(
        uid,
        "Pipe through a garage ceiling",
        f"A vent pipe {inches_both(PIPE)} wide outside, up through a garage ceiling. {spoken(means)}",
        "Pipe and board to scale. Gap, filler and collar are as the listed system's sheet says; ask before you cut.",
    )
    return listed(drawn, means)
