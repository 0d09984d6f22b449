"""Three joists in section to scale, with the hole that the code allows and the pipe that wants through."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import inches, inches_both

JOISTS = (("2×8", 7.25), ("2×10", 9.25), ("2×12", 11.25))  # depths in inches, from memory
PIPE = 3.5  # in., outside, nominal 3 in. pipe: ASTM D1785
EDGE = 2.0  # in. of wood kept above and below: CRC 2013 R502.8.1
SHARE = 1 / 3  # of the depth, at most: the same rule


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Joists seen from the side, to one scale; the circle is the pipe, dashed is the largest hole allowed."""
    inch = si("1 in")
    scale = 190 / (JOISTS[-1][1] * inch)
    sheet = Sheet(276, 0, 224, scale)
    said = []
    for i, (name, depth) in enumerate(JOISTS):
        left, right = 4.0 + 119 * i, 114.0 + 119 * i
        middle, y = (left + right) / 2, sheet.y(depth * inch / 2)
        top, foot = sheet.y(depth * inch), sheet.y(0)
        sheet.field("wood", left, top, right, foot)
        sheet.field("band", left + 1, top + 1, right - 1, sheet.y((depth - EDGE) * inch))
        sheet.field("band", left + 1, sheet.y(EDGE * inch), right - 1, foot - 1)
        fits = depth * SHARE >= PIPE and (depth - PIPE) / 2 >= EDGE
        sheet.add("circle", "part", cx=middle, cy=y, r=PIPE * inch * scale / 2)
        sheet.add("circle", "level", cx=middle, cy=y, r=depth * SHARE * inch * scale / 2)
        sheet.text(name, middle, foot + 20, anchor="middle")
        hole = inches(round(depth * SHARE, 2), system)
        sheet.text(f"hole {hole}", middle, foot + 38, anchor="middle", name="" if fits else "bad")
        said.append(
            f"{name}, {inches(depth, system)} deep, hole up to {hole}: the pipe {'fits' if fits else 'does not fit'}."
        )
    sheet.text(f"pipe {inches(PIPE, system)} outside", 4, 22)
    return sheet.figure(
        uid,
        "Pipe through joists of three depths",
        f"A pipe {inches_both(PIPE)} wide outside and the hole allowed. " + " ".join(said),
        f"To scale. Full circle: the pipe. Dashed: the largest hole, a third of the depth. Bands: {inches_both(EDGE)} "
        "of wood that stay. Underlined: the pipe is wider than the hole.",
    )
