"""The slab from above: lines of equal suction with their values, pits, holes, footings, corners, the weakest place."""

from collections.abc import Sequence
from typing import Any

from ...physics.slab_outline import Outline
from ...result import Result
from ...units import from_si, si, to_si
from ..contours import contour, levels, padded, rounded
from ..figures import figure as figure_text
from ..markup import Markup, el, join
from ..plot import ticks
from .canvas import LETTER, WIDTH, Sheet
from .suction_handles import movable
from .suction_words import MOST_PITS, Numbers, figure_unit

LEFT, RIGHT, TOP, BOTTOM = 44.0, 14.0, 30.0, 52.0
TALLEST = 400.0
HALF = 9.0  # of the height of a line of words, with a little air
LEAST, TICK = 0.1, 26.0  # Pa, the least suction that is printed; room that a figure at an edge takes
EDGE, INTO = 1e-6, 0.05  # m: on the edge of the plan; a step into the floor
APART = 1.4  # times the suction wanted: a line nearer to its line is left out
Box = tuple[float, float, float, float]


def figure(result: Result, uid: str, system: str) -> Markup:
    """The plan to scale with figures at its edges, a list of its marks, and the same as a table of numbers."""
    values = result.values
    outline = Outline([(r["x"], r["y"], r["width"], r["depth"]) for r in values["slab"]])
    x1, y1, x2, y2 = outline.box
    scale = min((WIDTH - LEFT - RIGHT) / (x2 - x1), TALLEST / (y2 - y1))
    height = TOP + (y2 - y1) * scale + BOTTOM
    sheet = Sheet(height, LEFT - x1 * scale, TOP + y2 * scale, scale)
    grid = result.outputs["map"]()
    shown = "in WC" if system == "us" else "Pa"
    drawn = _Plan(sheet, result, system, shown, outline, grid, uid)
    drawn.all()
    told = drawn.numbers
    plan = sheet.figure(
        uid, "Suction under the slab, seen from above", told.words(drawn.lines), told.caption(short=drawn.short)
    )
    return join((movable(sheet, result, system, plan, uid), told.legend(), told.table()))


class _Plan:
    """A plan under way; ``taken`` are the boxes of words and marks that are already there."""

    def __init__(
        self, sheet: Sheet, result: Result, system: str, unit: str, outline: Outline, grid: Any, uid: str
    ) -> None:
        self.sheet, self.result, self.system, self.unit, self.outline, self.grid = (
            sheet,
            result,
            system,
            unit,
            outline,
            grid,
        )
        self.uid, self.numbers = uid, Numbers(result, system, unit, outline, grid)
        self.taken: list[Box] = []
        self.target = result.values["target_suction"]
        self.lines: list[str] = []

    def all(self) -> None:
        """Footings, walls, marks, then the lines that find room among them, which are drawn below."""
        sheet = self.sheet
        d = "".join(
            "M" + "L".join(f"{sheet.x(x):.1f} {sheet.y(y):.1f}" for x, y in loop) + "Z" for loop in self.outline.loops
        )
        clip = f"{self.uid}-slab"
        sheet.parts.append(el("clipPath", el("path", d=d, clip_rule="evenodd"), id=clip))
        ground, sheet.parts = sheet.parts, []
        self._tile()
        for f in self.result.values["footings"]:
            if f["tightness"] > 0:
                sheet.path("footing", [(sheet.x(f["x1"]), sheet.y(f["y1"])), (sheet.x(f["x2"]), sheet.y(f["y2"]))])
        sheet.add("path", "wall", d=d)
        self._rulers()
        sheet.text(f"suction, {figure_unit(self.unit)}", 2, 16)
        self._holes()
        self._pits()
        self._label_corners()
        inside: list[Markup] = []
        self._short(inside)
        self._contours(inside)
        sheet.parts = [*ground, el("g", *inside, clip_path=f"url(#{clip})"), *sheet.parts]

    def _short(self, inside: list[Markup]) -> None:
        """A stroke through every square that has less than is wanted."""
        sheet, grid = self.sheet, self.grid
        strokes = []
        half = grid.step / 2
        for j, row in enumerate(grid.values):
            for i, value in enumerate(row):
                if value is not None and value < self.target:
                    x, y = grid.x0 + i * grid.step, grid.y0 + j * grid.step
                    strokes.append(
                        f"M{sheet.x(x - half):.1f} {sheet.y(y - half):.1f}L{sheet.x(x + half):.1f} {sheet.y(y + half):.1f}"
                    )
        self.short = bool(strokes)
        if strokes:
            inside.append(el("path", class_="short", d="".join(strokes)))

    def _contours(self, inside: list[Markup]) -> None:
        """The lines that have room for their value; the suction wanted comes first."""
        sheet, grid = self.sheet, self.grid
        known = [self.numbers.value(v) for row in grid.values for v in row if v is not None]
        if not known:  # no square has its middle on so narrow a floor
            return
        wanted = self.numbers.value(self.target)
        found = [
            (level, False)
            for level in levels(max(min(known), from_si(LEAST, self.unit)), max(known))
            if not 0.7 < level / (wanted or 1e9) < APART
        ]
        if min(known) < wanted < max(known):
            found.append((wanted, True))
        rows = padded(grid.values)
        for level, want in sorted(found, key=lambda one: (not one[1], one[0])):
            drawn = [
                [
                    (sheet.x(grid.x0 + (u - 1) * grid.step), sheet.y(grid.y0 + (v - 1) * grid.step))
                    for u, v in rounded(rounded(line))
                ]
                for line in contour(rows, to_si(level, self.unit, "Pa"))
            ]
            text = figure_text(level, 3 if self.unit == "in WC" and level < 0.01 else None)
            if any(self._label(text, line, want) for line in sorted(drawn, key=len, reverse=True)):
                self.lines.append(text)
                d = "".join(f"{'L' if k else 'M'}{x:.1f} {y:.1f}" for line in drawn for k, (x, y) in enumerate(line))
                inside.append(el("path", class_="contour want" if want else "contour", d=d))

    def _tile(self) -> None:
        if self.result.values["tile"] != "perimeter":
            return
        sheet = self.sheet
        for k in range(len(self.outline.loops)):
            line = self.outline.inset(self.result.values["tile_offset"], k)
            sheet.path("tile-line", [(sheet.x(x), sheet.y(y)) for x, y in [*line, line[0]]])

    def _rulers(self) -> None:
        """Figures along the lower and the left edge, in the unit of the places."""
        sheet, unit = self.sheet, "ft" if self.system == "us" else "m"
        x1, y1, x2, y2 = (from_si(v, unit) for v in self.outline.box)
        base = sheet.y(self.outline.box[1]) + 8
        wide, tall = (
            (to - start) * sheet.scale for start, to in zip(self.outline.box[:2], self.outline.box[2:], strict=True)
        )
        for tick in [t for t in ticks(x1, x2, max(1, min(5, int(wide / TICK)))) if x1 - 1e-9 <= t <= x2 + 1e-9]:
            x = sheet.x(si(f"{tick!r} {unit}"))
            sheet.path("lead", [(x, base - 3), (x, base + 4)])
            said = _tick(tick)
            sheet.text(said, min(x, WIDTH - 5.2 * len(said)), base + 19, anchor="middle")
        sheet.text(f"x, {unit}", sheet.x(self.outline.box[2]), base + 38, anchor="end")
        left = sheet.x(self.outline.box[0]) - 7
        for tick in [t for t in ticks(y1, y2, max(1, min(5, int(tall / TICK)))) if y1 - 1e-9 <= t <= y2 + 1e-9]:
            y = sheet.y(si(f"{tick!r} {unit}"))
            sheet.path("lead", [(left - 3, y), (left + 3, y)])
            sheet.text(_tick(tick), left - 5, y + 5, anchor="end")

    def _holes(self) -> None:
        """Test holes and places asked for as small rings; a hole that was left out is crossed."""
        sheet = self.sheet
        dropped = {text.partition(" (")[0] for text in self.result.outputs["holes_dropped"]}
        for k, hole in enumerate(self.result.values.get("test_holes") or []):
            x, y = sheet.x(hole["x"]), sheet.y(hole["y"])
            sheet.add("circle", "part", cx=x, cy=y, r="5")
            if f"hole {k + 1}" in dropped:
                sheet.path("lead", [(x - 5, y - 5), (x + 5, y + 5)])
                sheet.path("lead", [(x - 5, y + 5), (x + 5, y - 5)])
            self.taken.append((x - 6, y - 6, x + 6, y + 6))
        for probe in self.result.values["probes"]:
            x, y = sheet.x(probe["x"]), sheet.y(probe["y"])
            sheet.add("rect", "part", x=x - 4, y=y - 4, width="8", height="8")
            self.taken.append((x - 5, y - 5, x + 5, y + 5))

    def _pits(self) -> None:
        for k, pit in enumerate(self.numbers.pits[:MOST_PITS]):
            self._dot(pit, k + 1)
        self._dot(self.numbers.weakest, len(self.numbers.pits[:MOST_PITS]) + 1, weak=True)

    def _dot(self, place: dict[str, Any], number: int, *, weak: bool = False) -> None:
        """A numbered mark, moved in from the wall as far as it needs; the weakest place is a square."""
        sheet = self.sheet
        x = min(max(sheet.x(place["x"]), LEFT + 14), WIDTH - RIGHT - 14)
        y = min(max(sheet.y(place["y"]), TOP + 14), sheet.height - BOTTOM - 14)
        for box in self.taken:
            if abs(x - (box[0] + box[2]) / 2) < 22 and abs(y - (box[1] + box[3]) / 2) < 22 and box[2] - box[0] > 20:
                x += 26 if x < WIDTH / 2 else -26
        if weak:
            sheet.field("dot", x - 11, y - 11, x + 11, y + 11)
        else:
            sheet.add("circle", "dot", cx=x, cy=y, r=12)
        sheet.text(str(number), x, y + 5.5, anchor="middle", name="on-dot")
        self.taken.append((x - 13, y - 13, x + 13, y + 13))

    def _label_corners(self) -> None:
        """The suction in each corner, where there is room."""
        sheet = self.sheet
        _x1, _y1, x2, y2 = self.outline.box
        for row in self.numbers.corners:
            text = self._short_text(self.numbers.value(row["suction"]))
            wide = LETTER * len(text)
            dx = -1 if row["x"] >= x2 - EDGE or not self._floor(row, 1) else 1
            dy = -1 if row["y"] < y2 - EDGE and self.outline.contains(row["x"] + dx * INTO, row["y"] + INTO) else 1
            x = sheet.x(row["x"]) + dx * (7 + wide / 2)
            y = sheet.y(row["y"]) + dy * (6 + HALF)
            self._words(text, x, y, "corner")

    def _short_text(self, value: float) -> str:
        """A suction for a corner; one too small to be read on a gauge is said to be so."""
        least = from_si(LEAST, self.unit)
        return figure_text(value) if value >= least else f"<{least:.1g}"

    def _floor(self, row: dict[str, Any], dx: int) -> bool:
        """Whether there is floor to one side of a corner, above or below it."""
        return any(self.outline.contains(row["x"] + dx * INTO, row["y"] + dy * INTO) for dy in (1, -1))

    def _words(self, text: str, x: float, y: float, name: str) -> bool:
        """Words around a place, unless something is there already."""
        half = LETTER * len(text) / 2
        box = (x - half, y - HALF, x + half, y + HALF)
        if any(box[0] < b[2] + 7 and b[0] < box[2] + 7 and box[1] < b[3] + 1 and b[1] < box[3] + 1 for b in self.taken):
            return False
        self.taken.append(box)
        self.sheet.text(text, x, y + 5, anchor="middle", name=name)
        return True

    def _label(self, text: str, line: Sequence[tuple[float, float]], want: bool) -> bool:
        """The value of a line on the line, as near to its middle as there is room; whether there was."""
        half = LETTER * len(text) / 2 + 4
        middle = len(line) / 2
        for k in sorted(range(len(line)), key=lambda k: abs(k - middle)):
            x, y = line[k]
            edges = [(x - half, y - HALF), (x + half, y - HALF), (x - half, y + HALF), (x + half, y + HALF)]
            on = all(self.outline.contains(*self._metres(*edge)) for edge in edges)
            if on and self._words(text, x, y, "value want" if want else "value"):
                return True
        return False

    def _metres(self, x: float, y: float) -> tuple[float, float]:
        return (x - self.sheet.x0) / self.sheet.scale, (self.sheet.y0 - y) / self.sheet.scale


def _tick(value: float) -> str:
    return f"{value:.6g}".replace("-", "−")
