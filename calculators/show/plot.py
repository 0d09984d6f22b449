"""A plot as SVG: curves over one axis, drawn for a phone, words at the lines."""

import math
from collections.abc import Sequence
from itertools import pairwise

from ..result import unit_of
from ..units import from_si
from ..work import Plot
from .figures import plain, unit_text
from .markup import Markup, el, join

WIDTH, HEIGHT = 360, 276
LEFT, RIGHT, TOP, BOTTOM = 46, 346, 24, 232
LETTER = 8.4  # width of a letter of 15 units, on the safe side
CURVES = ("a", "b", "c")
ROOMY = 30.0  # distance of a word from other curves beyond which more is no better
SPACING = 5.0  # between the points of a curve that words keep clear of; words stand further off than that


def plot(drawn: Plot, system: str, uid: str) -> Markup:
    """The plot with its title, description and caption; ``uid`` leads its ids."""
    x_name, x_pair, _ = drawn.x
    x_unit, y_unit = unit_of(x_pair, system), unit_of(drawn.series[0][1], system)
    xs = [from_si(v, x_unit) for v in drawn.x[2]]
    series = [(name, [from_si(v, unit_of(pair, system)) for v in values]) for name, pair, values in drawn.series]
    point = (from_si(drawn.point[0], x_unit), from_si(drawn.point[1], y_unit)) if drawn.point else None
    x_ticks = ticks(min(xs), max(xs), 5)
    y_ticks = ticks(min(0.0, *(v for _, s in series for v in s)), max(v for _, s in series for v in s), 6)
    frame = _Frame(x_ticks, y_ticks)
    lines = [[(frame.x(x), frame.y(y)) for x, y in zip(xs, values, strict=True)] for _, values in series]
    parts = [*_grid(frame), *_axes(frame, x_name, x_unit, y_unit)]
    for i, line in enumerate(lines):
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in line)
        parts.append(el("polyline", class_=f"curve {CURVES[i % 3]}", points=points))
    lines = [_spaced(_dense(line)) for line in lines]
    taken: list[tuple[float, float, float, float]] = []
    if point:
        parts += _point(frame, point, (x_unit, y_unit), lines, taken)
    for i, (name, _) in enumerate(series):
        if len(series) > 1:
            parts.append(_name(name, i, lines, taken))
    words = _words(series, xs, point, (x_name, x_unit, y_unit))
    drawing = el(
        "svg", el("title", drawn.title, id=f"{uid}-t"), el("desc", words, id=f"{uid}-d"), *parts,
        viewBox=f"0 0 {WIDTH} {HEIGHT}", role="img", aria_labelledby=f"{uid}-t", aria_describedby=f"{uid}-d",
    )  # fmt: skip
    return el("figure", drawing, el("figcaption", _caption(drawn, series, point)), class_="plot")


def ticks(low: float, high: float, most: int) -> list[float]:
    """Round numbers that span low to high, at most about ``most`` steps."""
    if high <= low:
        high = low + (abs(low) or 1.0)
    rough = (high - low) / most
    size = 10 ** math.floor(math.log10(rough))
    step = next(m * size for m in (1, 2, 2.5, 5, 10) if m * size >= rough * 0.999)
    start, end = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [i * step for i in range(start, end + 1)]


class _Frame:
    """Places values on the drawing."""

    def __init__(self, x_ticks: Sequence[float], y_ticks: Sequence[float]) -> None:
        self.x_ticks, self.y_ticks = x_ticks, y_ticks

    def x(self, value: float) -> float:
        return LEFT + (value - self.x_ticks[0]) / (self.x_ticks[-1] - self.x_ticks[0]) * (RIGHT - LEFT)

    def y(self, value: float) -> float:
        return BOTTOM - (value - self.y_ticks[0]) / (self.y_ticks[-1] - self.y_ticks[0]) * (BOTTOM - TOP)


def _grid(frame: _Frame) -> list[Markup]:
    parts = []
    for tick in frame.x_ticks:
        x = f"{frame.x(tick):.1f}"
        parts += [
            el("line", class_="grid", x1=x, x2=x, y1=TOP, y2=BOTTOM),
            el("text", _tick(tick), x=x, y=251, text_anchor="middle"),
        ]
    for tick in frame.y_ticks:
        y = frame.y(tick)
        parts += [
            el("line", class_="grid", x1=LEFT, x2=RIGHT, y1=f"{y:.1f}", y2=f"{y:.1f}"),
            el("text", _tick(tick), x=LEFT - 8, y=f"{y + 5:.1f}", text_anchor="end"),
        ]
    return parts


def _tick(value: float) -> str:
    return f"{value:.6g}".replace("-", "−")


def _axes(frame: _Frame, x_name: str, x_unit: str, y_unit: str) -> list[Markup]:
    return [
        el("text", f"{x_name}, {unit_text(x_unit)}".removesuffix(", "), class_="axis", x=RIGHT, y=270, text_anchor="end"),
        el("text", unit_text(y_unit), class_="axis", x=4, y=14),
    ]


def _point(
    frame: _Frame,
    point: tuple[float, float],
    units: tuple[str, str],
    lines: Sequence[Sequence[tuple[float, float]]],
    taken: list[tuple[float, float, float, float]],
) -> list[Markup]:
    """The marked point, its numbers in the emptiest corner near it."""
    px, py = frame.x(point[0]), frame.y(point[1])
    texts = [plain(point[0], units[0]), plain(point[1], units[1])]
    width, height = LETTER * max(map(len, texts)), 36.0
    boxes = [
        (float(x), float(y), x + width, y + height)
        for x in range(LEFT + 2, int(RIGHT - width), 8)
        for y in range(TOP, int(BOTTOM - height), 8)
    ]
    boxes.sort(key=lambda box: _clear(box, [(px, py)]))
    free = (box for box in boxes if _clear(box, [(px, py)]) > 8 and all(_clear(box, line, too_near=8) > 8 for line in lines))
    box = next(free, boxes[-1] if boxes else (LEFT, TOP, LEFT + width, TOP + height))
    taken.append(box)
    return [
        el("circle", class_="meet", cx=f"{px:.1f}", cy=f"{py:.1f}", r=6),
        *(
            el("text", text, class_="name strong", x=f"{box[0]:.1f}", y=f"{box[1] + 14 + 19 * i:.1f}")
            for i, text in enumerate(texts)
        ),
    ]


def _dense(line: Sequence[tuple[float, float]], least: int = 40) -> list[tuple[float, float]]:
    """The line with points between its corners, so that words keep clear of the whole of it."""
    pieces = -(-least // max(len(line) - 1, 1))
    found = [
        (x0 + (x1 - x0) * i / pieces, y0 + (y1 - y0) * i / pieces)
        for (x0, y0), (x1, y1) in pairwise(line)
        for i in range(pieces)
    ]
    return [*found, line[-1]]


def _spaced(line: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points of a line that are not close to the one before, and its end."""
    kept = [line[0]]
    for x, y in line:
        if abs(x - kept[-1][0]) + abs(y - kept[-1][1]) >= SPACING:
            kept.append((x, y))
    return [*kept, line[-1]]


def _clear(
    box: tuple[float, float, float, float], line: Sequence[tuple[float, float]], *, too_near: float = 0.0
) -> float:
    """Distance between a box and a line, 0 where they touch; some distance that is ``too_near`` as soon as one is found."""
    left, top, right, bottom = box
    least, enough = math.inf, too_near * too_near
    for x, y in line:  # written out, and without a call: the slowest part of a page's second stage
        dx = left - x if x < left else x - right if x > right else 0.0
        dy = top - y if y < top else y - bottom if y > bottom else 0.0
        square = dx * dx + dy * dy
        if square < least:
            least = square
            if square <= enough:
                break
    return math.sqrt(least)


def _name(
    name: str,
    which: int,
    lines: Sequence[Sequence[tuple[float, float]]],
    taken: list[tuple[float, float, float, float]],
) -> Markup:
    """The name of a curve beside it, where no other curve and no other word is."""
    width = LETTER * len(name)
    best: tuple[float, tuple[float, float, float, float]] | None = None
    for x, y in lines[which][2:-2]:
        for x0, y0 in (
            (x - width / 2, y - 24),
            (x - width / 2, y + 9),
            (x + 10, y - 20),
            (x + 10, y + 4),
            (x - width - 10, y - 20),
            (x - width - 10, y + 4),
        ):
            box = (x0, y0, x0 + width, y0 + 16)
            if x0 < LEFT + 2 or box[2] > RIGHT or y0 < TOP - 4 or box[3] > BOTTOM - 2:
                continue
            if any(
                box[0] < t[2] + 14 and t[0] < box[2] + 14 and box[1] < t[3] + 2 and t[1] < box[3] + 2 for t in taken
            ):
                continue
            off = 0.6 * abs(_clear(box, lines[which]) - 6)
            if best and ROOMY - off <= best[0]:
                continue
            needed = max(best[0] + off, 0.0) if best else 0.0
            others = min(
                (_clear(box, line, too_near=needed) for i, line in enumerate(lines) if i != which), default=ROOMY
            )
            score = min(others, ROOMY) - off
            if best is None or score > best[0]:
                best = (score, box)
    box = best[1] if best else (LEFT + 6, TOP + 2 + 20 * which, LEFT + 6 + width, TOP + 18 + 20 * which)
    taken.append(box)
    return el("text", name, class_="name", x=f"{box[0]:.1f}", y=f"{box[1] + 13:.1f}")


def _words(
    series: Sequence[tuple[str, Sequence[float]]],
    xs: Sequence[float],
    point: tuple[float, float] | None,
    names: tuple[str, str, str],
) -> str:
    """What the plot shows, for those who cannot see it."""
    x_name, x_unit, y_unit = names
    said = [
        f"{name}: {plain(values[0], y_unit)} at {plain(xs[0], x_unit)}, "
        f"{plain(values[-1], y_unit)} at {plain(xs[-1], x_unit)}."
        for name, values in series
    ]
    if point:
        said.append(f"The marked point: {plain(point[0], x_unit)} and {plain(point[1], y_unit)}.")
    return f"Along the bottom: {x_name}. " + " ".join(said)


def _caption(drawn: Plot, series: Sequence[tuple[str, Sequence[float]]], point: tuple[float, float] | None) -> Markup:
    named = (
        [f"{line}: {name}." for line, (name, _) in zip(("Solid", "Dashed", "Dotted"), series, strict=False)]
        if len(series) > 1
        else []
    )
    dot = ["The dot is for these numbers."] if point else []
    return join([" ".join([f"{drawn.title}.", *named, *dot])])
