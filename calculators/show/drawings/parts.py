"""Parts of the handbook's own drawings: arrows, balloons, lists of what is numbered, lengths from inches and feet."""

from collections.abc import Callable, Sequence
from math import cos, hypot, pi, sin

from ...units import si
from ..markup import Markup, el, join
from .canvas import Sheet, length

RADIUS = 12  # of a balloon


def along(place: Callable[[float], float], unit: str) -> Callable[[float], float]:
    """A sheet's ``x`` or ``y`` that takes numbers of a unit."""
    size = si(f"1 {unit}")
    return lambda number: place(number * size)


def arrow(sheet: Sheet, *points: tuple[float, float], name: str = "flow", head: float = 9.0) -> None:
    """A line through points in units of the sheet, with a head at its end."""
    (x0, y0), (x1, y1) = points[-2:]
    far = hypot(x1 - x0, y1 - y0) or 1.0
    ux, uy = (x1 - x0) / far, (y1 - y0) / far
    back = (x1 - ux * head, y1 - uy * head)
    sheet.path(name, [*points[:-1], back])
    side = head * 0.55
    sheet.path(
        "lid", [(x1, y1), (back[0] - uy * side, back[1] + ux * side), (back[0] + uy * side, back[1] - ux * side)]
    )


def balloon(sheet: Sheet, x: float, y: float, number: int | str) -> None:
    """A number in a filled circle, centre in units of the sheet."""
    sheet.add("circle", "dot", cx=float(x), cy=float(y), r=RADIUS)
    sheet.text(str(number), x, y + 5.5, anchor="middle", name="on-dot")


def pointer(sheet: Sheet, x: float, y: float, to: tuple[float, float], number: int | str) -> None:
    """A balloon with a line to what it names."""
    sheet.path("lead", [(x, y), to])
    balloon(sheet, x, y, number)


def cross(sheet: Sheet, x: float, y: float, half: float = 9.0) -> None:
    """Two strokes over what may not be."""
    sheet.path("cross", [(x - half, y - half), (x + half, y + half)])
    sheet.path("cross", [(x - half, y + half), (x + half, y - half)])


def arc(x: float, y: float, radius: float, start: float, end: float, steps: int = 24) -> list[tuple[float, float]]:
    """Points of an arc in units of the sheet; angles in half turns, 0 to the right, 0.5 down."""
    angles = [pi * (start + (end - start) * i / steps) for i in range(steps + 1)]
    return [(x + radius * cos(a), y + radius * sin(a)) for a in angles]


def inches(number: float, system: str) -> str:
    """A length given in inches, as it is written inside a drawing; millimetres are whole."""
    metres = si(f"{number} in")
    return length(metres if system == "us" else round(metres, 3), system)


def feet(number: float, system: str) -> str:
    """A length given in feet, as it is written inside a drawing; metres have one place."""
    metres = si(f"{number} ft")
    return length(metres if system == "us" else round(metres, 1), system, "ft", "m")


def inches_both(number: float) -> str:
    """A length given in inches, as lists and captions have it: with millimetres behind."""
    return f"{inches(number, 'us')} ({inches(number, 'si')})"


def feet_both(number: float) -> str:
    """A length given in feet, as lists and captions have it: with metres behind."""
    return f"{feet(number, 'us')} ({feet(number, 'si')})"


def listed(drawn: Markup, items: Sequence[str]) -> Markup:
    """The drawing with the list of what its numbers mean."""
    return join((drawn, el("ol", *[el("li", item) for item in items], class_="legend")))


def spoken(items: Sequence[str]) -> str:
    """The list as sentences, for the description."""
    return " ".join(f"{i}: {item}." for i, item in enumerate(items, 1))
