"""The plan of suction in words and numbers: its list of marks, its table, its description."""

from collections.abc import Sequence
from typing import Any

from ...physics.slab_outline import Outline
from ...result import Result
from ...span import Span
from ...units import from_si
from ..figures import figure as figure_text
from ..figures import plain
from ..markup import Markup, el
from .canvas import length

COLUMNS, ROWS = 6, 8  # of the table in place of the plan
MOST_PITS = 9


class Numbers:
    """What the plan shows, in the shown units; pits, corners and the weakest place are rows of the answer."""

    def __init__(self, result: Result, system: str, unit: str, outline: Outline, grid: Any) -> None:
        self.result, self.system, self.unit, self.outline, self.grid = result, system, unit, outline, grid
        places = result.outputs["places"]
        self.pits = [row for row in places if row["name"].startswith("pit")]
        self.corners = [row for row in places if row["name"].startswith("corner")]
        self.weakest = result.outputs["weakest"]

    def value(self, pascals: Any) -> float:
        """A suction in the shown unit."""
        return from_si(_number(pascals), self.unit)

    def legend(self) -> Markup:
        """Pits and the weakest place, by their numbers."""
        flows = self.result.outputs["pit_flows"]
        items = []
        for pit, flow in zip(self.pits[:MOST_PITS], flows, strict=False):
            air = plain(
                from_si(_number(flow), "cfm" if self.system == "us" else "L/s"), "cfm" if self.system == "us" else "L/s"
            )
            items.append(el("li", f"{pit['name'].capitalize()}: {self._suction(pit['suction'])}, {air}"))
        where = f"x {self._length(self.weakest['x'])}, y {self._length(self.weakest['y'])}"
        items.append(
            el("li", el("b", "Weakest place"), f" (square): {self._suction(self.weakest['suction'])}, at {where}")
        )
        return el("ol", *items, class_="legend")

    def _suction(self, value: Any) -> str:
        said = plain(self.value(value), self.unit)
        if isinstance(value, Span) and value.high > value.low:
            said += f" ({figure_text(from_si(value.low, self.unit))} to {figure_text(from_si(value.high, self.unit))})"
        return said

    def _length(self, metres: float) -> str:
        return length(metres, self.system, "ft", "m")

    def table(self) -> Markup:
        """The plan in numbers, the far side first."""
        grid = self.grid
        floor = [j for j, row in enumerate(grid.values) if any(v is not None for v in row)]
        columns, rows = _thinned(len(grid.values[0]), COLUMNS), [floor[k] for k in _thinned(len(floor), ROWS)]
        unit = "ft" if self.system == "us" else "m"
        head = el(
            "tr",
            el("th", f"y \\ x, {unit}", scope="col"),
            *(el("th", _tick(from_si(grid.x0 + i * grid.step, unit)), scope="col") for i in columns),
        )
        body = []
        for j in reversed(rows):
            cells = [grid.values[j][i] for i in columns]
            shown = ["–" if v is None else figure_text(self.value(v), None) for v in cells]
            body.append(
                el(
                    "tr",
                    el("th", _tick(from_si(grid.y0 + j * grid.step, unit)), scope="row"),
                    *(el("td", s) for s in shown),
                )
            )
        title = f"Suction over the plan, {figure_unit(self.unit)}"
        table = el("table", el("caption", title), el("thead", head), el("tbody", *body), class_="plain")
        wrapped = el("div", table, class_="table", tabindex="0", role="region", aria_label=title)
        return el("details", el("summary", "The plan in numbers"), wrapped, class_="more")

    def words(self, lines: Sequence[str]) -> str:
        """The plan for those who cannot see it."""
        x1, y1, x2, y2 = self.outline.box
        said = [f"A slab {self._length(x2 - x1)} across and {self._length(y2 - y1)} deep, seen from above."]
        said += [
            f"{pit['name'].capitalize()} at x {self._length(pit['x'])}, y {self._length(pit['y'])}: {self._suction(pit['suction'])}."
            for pit in self.pits[:MOST_PITS]
        ]
        said += [
            f"{row['name'].capitalize()}: {plain(self.value(row['suction']), self.unit)}." for row in self.corners[:12]
        ]
        where = f"x {self._length(self.weakest['x'])}, y {self._length(self.weakest['y'])}"
        said.append(f"The weakest place is at {where}: {self._suction(self.weakest['suction'])}.")
        if lines:
            said.append(f"Lines of equal suction at {', '.join(lines)} {figure_unit(self.unit)}.")
        return " ".join(said)

    def caption(self, *, short: bool) -> str:
        """What the marks mean that are there."""
        values = self.result.values
        said = [
            "Lines join places of equal suction; the figures on them, and at the corners, are the suction. To scale."
        ]
        if any(f["tightness"] > 0 for f in values["footings"]):
            said.append("Thick dashes: a footing.")
        if values["tile"] == "perimeter":
            said.append("Thin dashes: the drain tile.")
        if values.get("test_holes"):
            said.append("Rings: test holes; a crossed one was left out.")
        if values["probes"]:
            said.append("Small squares: places asked for.")
        if short:
            said.append("Strokes: less than is wanted.")
        return " ".join(said)


def figure_unit(unit: str) -> str:
    """The unit as it is printed."""
    return "in. WC" if unit == "in WC" else unit


def _number(value: Any) -> float:
    return float(value.value) if isinstance(value, Span) else float(value)


def _tick(value: float) -> str:
    return f"{value:.3g}".replace("-", "−")


def _thinned(count: int, most: int) -> list[int]:
    return sorted({round(i * (count - 1) / (most - 1)) for i in range(most)}) if count else []
