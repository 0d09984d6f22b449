"""A fan outside a wall, mounted so that the house does not hear it, and the usual way."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import cross, inches_both, listed, pointer, spoken

GAP = 0.5  # in., pipe off the wall: installers' pages, common practice


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Two walls in section; the right one left."""
    means = (
        "Flexible coupling on both sides of the fan",
        f"Padded clamp; pipe about {inches_both(GAP)} off the wall",
        "Hole larger than the pipe, filled with something soft; the pipe does not touch wood",
        "Wrong: fan strapped to the stud of a bedroom wall",
        "Wrong: pipe tight in the wood",
    )
    sheet = Sheet(300, 0, 0, 1)
    for left, right_way in ((18.0, True), (196.0, False)):
        pipe = left + (84.0 if right_way else 57.0)
        sheet.field("wood", left, 10, left + 30, 262)
        sheet.field("part", left + 30, 10, left + 40, 262)
        sheet.field("inside", left - 2, 225, left + 42, 251)
        way = [(pipe, 20), (pipe, 238), (left - 14, 238)]
        sheet.path("pipe-out", way)
        sheet.path("pipe-in", way)
        sheet.field("part", pipe - 19, 104, pipe + 19, 154)
        if right_way:
            for y in (92.0, 154.0):
                sheet.field("band", pipe - 10, y, pipe + 10, y + 12)
            for y in (48.0, 196.0):
                sheet.path("edge", [(left + 40, y), (pipe - 10, y)])
                sheet.field("band", pipe - 10, y - 6, pipe + 10, y + 6)
        else:
            sheet.path("cross", [(left + 30, 128), (pipe - 10, 128)])
            sheet.field("wood", left, 221, left + 30, 232)
            sheet.field("wood", left, 244, left + 30, 256)
            cross(sheet, left + 15, 128, 10)
            cross(sheet, left + 15, 238, 10)
    pointer(sheet, 150, 76, (114, 96), 1)
    pointer(sheet, 150, 30, (112, 46), 2)
    pointer(sheet, 92, 276, (56, 250), 3)
    pointer(sheet, 318, 128, (272, 128), 4)
    pointer(sheet, 268, 276, (224, 248), 5)
    sheet.text("right", 130, 186)
    sheet.text("wrong", 288, 186, name="bad")
    drawn = sheet.figure(
        uid,
        "A fan that the house does not hear",
        f"Two walls in section with a pipe and a fan outside. {spoken(means)}",
        "Not to scale.",
    )
    return listed(drawn, means)
