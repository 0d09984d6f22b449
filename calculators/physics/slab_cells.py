"""Square cells over a slab: which there are, and what shares of the layer's conductance join them.  Geometry only."""

import itertools
from collections.abc import Sequence
from functools import lru_cache
from math import ceil, floor, hypot

from .slab_outline import Outline, Point

DIAGONAL = 1 / 6  # share of T on each diagonal link of the nine-point rule
SLIVER = 1e-9  # m2
NEAR_WALL = 1e-3  # cells: a place so far inside a wall tells which cell the wall belongs to

Line = tuple[float, float, float, float]  # x1, y1, x2, y2 [m]


def crosses(p: Point, q: Point, a: Point, b: Point) -> bool:
    """Whether the stretch p-q passes over the line a-b; a touch counts once (half-open)."""
    d1 = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    d2 = (b[0] - a[0]) * (q[1] - a[1]) - (b[1] - a[1]) * (q[0] - a[0])
    if (d1 > 0) == (d2 > 0):
        return False
    d3 = (q[0] - p[0]) * (a[1] - p[1]) - (q[1] - p[1]) * (a[0] - p[0])
    d4 = (q[0] - p[0]) * (b[1] - p[1]) - (q[1] - p[1]) * (b[0] - p[0])
    return (d3 > 0) != (d4 > 0)


class Cells:
    """Cells of side h [m] over an outline, and the lines of the footings that cut between them.

    Cells cut by a wall keep their share of area and of face, so that area and wall length are exact.
    ``shares[a][b]``: what the link of two cells carries, as a share of T; ``cut[a, b]``: for a link that footings cross, its
    open share, and the number of each footing with its cosine (see ``_turned``).
    """

    def __init__(self, outline: Outline, h: float, lines: Sequence[Line]) -> None:
        self.outline, self.h, self.lines = outline, h, lines
        self.x0, self.y0, x2, y2 = outline.box
        self.nx = max(1, ceil((x2 - self.x0) / h - 1e-6))
        self.ny = max(1, ceil((y2 - self.y0) / h - 1e-6))
        self._number()
        self.wall_parts = self._wall_parts()
        self.shares: list[dict[int, float]] = [{} for _ in self.places]
        self.cut: dict[tuple[int, int], tuple[float, list[tuple[int, float]]]] = {}
        self._neighbours()
        self._diagonals()

    def _number(self) -> None:
        """Number the cells along the short side, which keeps the band of the matrix narrow."""
        lines = [(i, j) for i in range(self.nx) for j in range(self.ny)]
        if self.ny > self.nx:
            lines = [(i, j) for j in range(self.ny) for i in range(self.nx)]
        self.index: dict[tuple[int, int], int] = {}
        self.places: list[tuple[int, int]] = []
        self.areas: list[float] = []
        self.middles: list[Point] = []  # centres of gravity of the slab in each cell
        h = self.h
        for i, j in lines:
            x, y = self.x0 + i * h, self.y0 + j * h
            area = self.outline.area_in(x, y, x + h, y + h)
            if area > SLIVER:
                self.index[i, j] = len(self.places)
                self.places.append((i, j))
                self.areas.append(area)
                cut = area < h * h * (1 - 1e-9)
                self.middles.append(self.outline.middle_in(x, y, x + h, y + h) if cut else (x + h / 2, y + h / 2))

    def center(self, cell: int) -> Point:
        """Middle of a cell [m]."""
        i, j = self.places[cell]
        return self.x0 + (i + 0.5) * self.h, self.y0 + (j + 0.5) * self.h

    def cell_at(self, x: float, y: float) -> int:
        """Number of the cell over a place [m] of the slab.  Raises ValueError when the place is off the slab."""
        if not self.outline.contains(x, y):
            raise ValueError(f"the place ({x:g}, {y:g}) is not on the slab")
        u, v = (x - self.x0) / self.h, (y - self.y0) / self.h
        around = (floor(u), floor(v))
        if around in self.index:
            return self.index[around]
        near = [(i, j) for i in (floor(u), floor(u) - 1, floor(u) + 1) for j in (floor(v), floor(v) - 1, floor(v) + 1)]
        present = [c for c in near if c in self.index]
        # An edge place may sit on a grid line with no cell on one side: take the nearest cell that is there.
        return self.index[min(present, key=lambda c: (c[0] + 0.5 - u) ** 2 + (c[1] + 0.5 - v) ** 2)]

    def _wall_parts(self) -> list[tuple[int, Point, float]]:
        """Walls cut at the grid lines: cell inside, middle [m], length [m]."""
        parts = []
        h = self.h
        for wall in self.outline.walls:
            dx, dy = wall.x2 - wall.x1, wall.y2 - wall.y1
            length = abs(dx) + abs(dy)
            low, origin = (min(wall.x1, wall.x2), self.x0) if dy == 0 else (min(wall.y1, wall.y2), self.y0)
            marks = [low, low + length]
            marks += [origin + k * h for k in range(floor((low - origin) / h), ceil((low + length - origin) / h) + 1)]
            marks = sorted(m for m in marks if low <= m <= low + length)
            near = NEAR_WALL * h / length
            inward = (-dy * near, dx * near)
            for a, b in itertools.pairwise(marks):
                if b - a > 1e-9:
                    middle = ((a + b) / 2, wall.y1) if dy == 0 else (wall.x1, (a + b) / 2)
                    place = (
                        floor((middle[0] + inward[0] - self.x0) / h),
                        floor((middle[1] + inward[1] - self.y0) / h),
                    )
                    cell = self.index.get(place)
                    if cell is None:
                        cell = self.cell_at(*middle)
                    parts.append((cell, middle, b - a))
        return parts

    def _neighbours(self) -> None:
        h = self.h
        for (i, j), a in self.index.items():
            x, y = self.x0 + i * h, self.y0 + j * h
            right = self.index.get((i + 1, j))
            if right is not None:
                self._link(a, right, self.outline.open_x(x + h, y, y + h) / h)
            above = self.index.get((i, j + 1))
            if above is not None:
                self._link(a, above, self.outline.open_y(y + h, x, x + h) / h)

    def _link(self, a: int, b: int, share: float) -> None:
        """One link.  A footing cuts it when it passes between the cells' centres of gravity.

        One point per cell leaves no gap in a slanting line; as it lies on the slab, a line to a wall is closed.
        """
        p, q = self.middles[a], self.middles[b]
        crossed = [(k, self._turned(p, q, f)) for k, f in enumerate(self.lines) if crosses(p, q, f[:2], f[2:])]
        if crossed:
            self.cut[a, b] = share, crossed
        self._join(a, b, share)

    @staticmethod
    def _turned(p: Point, q: Point, f: Line) -> float:
        """Share of a footing's conductance that a crossed link takes: the cosine between link and footing normal.

        With it the jump across a slanting footing is the same on links of both directions, and the sum is its length.
        """
        ex, ey, fx, fy = q[0] - p[0], q[1] - p[1], f[2] - f[0], f[3] - f[1]
        return abs(fx * ey - fy * ex) / (hypot(ex, ey) * hypot(fx, fy))

    def _diagonals(self) -> None:
        """Nine-point rule around every grid point among four whole, unfooted cells: same error in all directions.

        Along a straight wall the mirror image of the rule is the plain five-point link, so nothing is done there.
        """
        whole = self.h * self.h * (1 - 1e-9)
        footed = {cell for pair in self.cut for cell in pair}
        for (i, j), a in self.index.items():
            block = [a, *(self.index.get(c, -1) for c in ((i + 1, j), (i + 1, j + 1), (i, j + 1)))]
            if min(block) >= 0 and not footed.intersection(block) and min(self.areas[c] for c in block) >= whole:
                for k in range(4):
                    self._join(block[k], block[k - 1], -DIAGONAL)
                self._join(block[0], block[2], DIAGONAL)
                self._join(block[1], block[3], DIAGONAL)

    def _join(self, a: int, b: int, share: float) -> None:
        self.shares[a][b] = self.shares[b][a] = self.shares[a].get(b, 0.0) + share


@lru_cache(maxsize=2)
def cells_over(outline: Outline, h: float, lines: tuple[Line, ...]) -> Cells:
    """The cells, kept for the next solve of the same outline (the same object).  Nobody changes them."""
    return Cells(outline, h, lines)
