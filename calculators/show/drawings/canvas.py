"""What the drawings share: a sheet with a scale, shapes in metres, words that keep apart, a figure around it."""

from collections.abc import Iterable, Sequence
from typing import Any

from ...result import Result
from ...units import from_si
from ..figures import figure as figure_text
from ..figures import unit_text
from ..markup import Markup, el

WIDTH = 360
LINE = 18.0  # distance of two words above each other
LETTER = 8.6  # width of a letter of 15 units, on the safe side


def length(metres: float, system: str, us: str = "in", si: str = "mm") -> str:
    """A length as it is written in a drawing."""
    unit = us if system == "us" else si
    return f"{figure_text(from_si(metres, unit))} {unit_text(unit)}"


class Sheet:
    """A drawing under way.  ``x0``, ``y0`` are the origin's place on the sheet, ``scale`` units a metre, y upward."""

    def __init__(self, height: float, x0: float, y0: float, scale: float) -> None:
        self.height, self.x0, self.y0, self.scale = height, x0, y0, scale
        self.parts: list[Markup] = []

    def x(self, metres: float) -> float:
        """Across the sheet."""
        return self.x0 + metres * self.scale

    def y(self, metres: float) -> float:
        """Down the sheet, for a height in metres."""
        return self.y0 - metres * self.scale

    def add(self, tag: str, name: str, *children: Any, **attributes: Any) -> None:
        """An element with a class; numbers get one decimal."""
        shown = {k: f"{v:.1f}" if isinstance(v, float) else v for k, v in attributes.items()}
        self.parts.append(el(tag, *children, class_=name, **shown))

    def box(self, name: str, x: float, y: float, width: float, height: float) -> None:
        """A rectangle in metres; x, y are its lower left corner."""
        self.add("rect", name, x=self.x(x), y=self.y(y + height), width=width * self.scale, height=height * self.scale)

    def field(self, name: str, left: float, top: float, right: float, bottom: float) -> None:
        """A rectangle in units of the sheet."""
        self.add("rect", name, x=float(left), y=float(top), width=float(right - left), height=float(bottom - top))

    def path(self, name: str, points: Iterable[tuple[float, float]]) -> None:
        """A line through points in units of the sheet."""
        steps = [f"{'L' if i else 'M'}{x:.1f} {y:.1f}" for i, (x, y) in enumerate(points)]
        self.add("path", name, d="".join(steps))

    def text(self, words: str, x: float, y: float, *, anchor: str = "start", name: str = "") -> None:
        """Words; their base line at y, in units of the sheet."""
        self.add("text", name or None, words, x=float(x), y=float(y), text_anchor=None if anchor == "start" else anchor)  # type: ignore[arg-type]

    def leaders(
        self, at_x: float, words_x: float, labels: Sequence[tuple[float, str, bool, float]], top: float = 14.0
    ) -> None:
        """Words at the right, each with a short leader to its height (in units of the sheet).

        A label is its height, its words, whether it stands out, and how far above its height the words stand.
        """
        places = spread([y - up for y, _, _, up in labels], LINE, top, self.height - 6)
        for (y, words, bad, _), place in zip(labels, places, strict=True):
            self.path("lead", [(at_x, y), (words_x - 4, place)])
            self.text(words, words_x, place + 5, name="bad" if bad else "")

    def dimension(
        self,
        left: float,
        right: float,
        y: float,
        words: str,
        *,
        below: bool = False,
        bad: bool = False,
        least: float = 2.0,
    ) -> None:
        """A dimension line with ticks at both ends and its words right of ``least``, in units of the sheet."""
        self.path("lead", [(left, y - 5), (left, y + 5)])
        self.path("lead", [(right, y - 5), (right, y + 5)])
        self.path("lead", [(left, y), (right, y)])
        width = LETTER * len(words)
        middle = min(max((left + right) / 2, width / 2 + least), WIDTH - width / 2 - 2)
        self.text(words, middle, y + 18 if below else y - 6, anchor="middle", name="bad" if bad else "")

    def figure(self, uid: str, title: str, words: str, caption: str) -> Markup:
        """The finished figure with its name and description."""
        drawn = el(
            "svg",
            el("title", title, id=f"{uid}-t"),
            el("desc", words, id=f"{uid}-d"),
            *self.parts,
            viewBox=f"0 0 {WIDTH} {self.height:.0f}",
            role="img",
            aria_labelledby=f"{uid}-t",
            aria_describedby=f"{uid}-d",
        )
        return el("figure", drawn, el("figcaption", caption), class_="drawing")

    def stones(self, left: float, top: float, right: float, bottom: float) -> None:
        """Stone as dots in an even stagger."""
        row, y = 0, top + 4.0
        while y < bottom - 2:
            x = left + (4.0 if row % 2 else 9.0)
            while x < right - 3:
                self.add("circle", "stone", cx=x, cy=y, r="2.4" if (row + int(x)) % 3 else "1.8")
                x += 11.0
            y += 8.0
            row += 1


def spread(heights: Sequence[float], gap: float, top: float, bottom: float) -> list[float]:
    """Places near the wanted heights, at least ``gap`` apart and inside top and bottom."""
    order = sorted(range(len(heights)), key=lambda i: heights[i])
    places = [min(max(heights[i], top), bottom) for i in order]
    for i in range(1, len(places)):
        places[i] = max(places[i], places[i - 1] + gap)
    over = places[-1] - bottom if places else 0
    if over > 0:
        places[-1] -= over
        for i in range(len(places) - 2, -1, -1):
            places[i] = min(places[i], places[i + 1] - gap)
    put = [0.0] * len(heights)
    for i, place in zip(order, places, strict=True):
        put[i] = place
    return put


def not_met(result: Result, *ids: str) -> bool:
    """Whether one of these checks is not met."""
    return any(check.ok is False and check.id.partition(":")[0] in ids for check in result.work.checks)
