"""Square cells over a slab: how they pass air to each other, to footings, slab and walls."""

import itertools
from math import ceil, floor, hypot, inf, sqrt
from typing import NamedTuple

from .slab_closed import footing_conductance
from .slab_outline import Outline, Point

LEAST_LEAKAGE_LENGTH = 1.5  # m: below this a hole's field dies within a few steps and the endless slab serves
PER_LENGTH = 3  # cells per leakage length, the coarsest grid that still carries the decay
WANTED_PER_LENGTH = 5
USUAL_CELL = 0.5  # m
LEAST_CELLS = 6  # along the short side of the plan
MOST_ACROSS = 60  # cells along the long side
MOST_CELLS = 1600
LATTICE = 12  # nine-point links carry (1 - k^2 h^2 / 12) of the true operator, the same in every direction
DIAGONAL = 1 / 6  # share of T on each diagonal link of the nine-point rule
SLIVER = 1e-9  # m2
NEAR_WALL = 1e-3  # cells: a place so far inside a wall tells which cell the wall belongs to


class OutsideGrid(ValueError):
    """The leakage length is too short for cells on this plan: use the endless-slab closed form instead."""


class Footing(NamedTuple):
    """A footing under the slab from (x1, y1) to (x2, y2) [m]; tightness 0 (open) to 1 (sealed off)."""

    x1: float
    y1: float
    x2: float
    y2: float
    tightness: float


def cell_size(outline: Outline, B: float, per_length: float = WANTED_PER_LENGTH, usual: float = USUAL_CELL) -> float:
    """Side of the cells [m] for a plan and leakage length B [m].

    At most B/3, wanted B/``per_length`` up to ``usual`` [m], at most 60 along the long side and about 1600 in all.
    Raises OutsideGrid when B is under 1.5 m or no such cell exists.  Source: accuracy found against images.
    """
    x1, y1, x2, y2 = outline.box
    long, short = max(x2 - x1, y2 - y1), min(x2 - x1, y2 - y1)
    finest = max(long / MOST_ACROSS, sqrt(outline.area / MOST_CELLS))
    if B < LEAST_LEAKAGE_LENGTH or finest > B / PER_LENGTH:
        raise OutsideGrid(f"a leakage length of {B:.3g} m is too short for this plan")
    wanted = min(usual, B / per_length, short / LEAST_CELLS)
    return long / ceil(long / max(wanted, finest) - 1e-9)


def crosses(p: Point, q: Point, a: Point, b: Point) -> bool:
    """Whether the stretch p-q passes over the line a-b; a touch counts once (half-open)."""
    d1 = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    d2 = (b[0] - a[0]) * (q[1] - a[1]) - (b[1] - a[1]) * (q[0] - a[0])
    if (d1 > 0) == (d2 > 0):
        return False
    d3 = (q[0] - p[0]) * (a[1] - p[1]) - (q[1] - p[1]) * (a[0] - p[0])
    d4 = (q[0] - p[0]) * (b[1] - p[1]) - (q[1] - p[1]) * (b[0] - p[0])
    return (d3 > 0) != (d4 > 0)


class Grid:
    """Cells of side h [m] over an outline, with layer T [m3/s/Pa], leakance L [m/s/Pa] (slab and soil together),
    wall joint ``joint`` [m3/s/Pa per m] and footings.

    Cells cut by a wall keep their share of area and of face, so that area and wall length are exact.
    Raises ValueError when T is not above 0 or a conductance is negative.
    """

    def __init__(
        self,
        outline: Outline,
        *,
        h: float,
        T: float,
        L: float,
        joint: float = 0.0,
        footings: list[Footing] | None = None,
    ) -> None:
        if not T > 0 or L < 0 or joint < 0:
            raise ValueError("T must be above 0, L and joint not below 0")
        self.outline, self.h, self.T, self.L, self.joint = outline, h, T, L, joint
        self.footings = [f for f in footings or [] if f.tightness > 0]
        self.x0, self.y0, x2, y2 = outline.box
        self.nx = max(1, ceil((x2 - self.x0) / h - 1e-6))
        self.ny = max(1, ceil((y2 - self.y0) / h - 1e-6))
        self._number()
        self._leaks()
        self._links()

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

    def _leaks(self) -> None:
        """Conductance of each cell to the air above (and to the soil): by area, and along the walls."""
        self.area_leaks = [self.L * area for area in self.areas]
        self.wall_pieces: list[tuple[int, Point, float]] = []  # cell, middle of the piece, conductance
        if self.joint:
            per_metre = 1 / (1 / self.joint + self.h / (2 * self.T))
            for cell, middle, length in self._wall_parts():
                self.wall_pieces.append((cell, middle, per_metre * length))
        self.leaks = list(self.area_leaks)
        for cell, _, g in self.wall_pieces:
            self.leaks[cell] += g

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

    def _links(self) -> None:
        """Conductances between neighbours; a footing that crosses the line of centres is in series with it."""
        n, h = len(self.places), self.h
        self.links: list[list[tuple[int, float]]] = [[] for _ in range(n)]
        self._pairs: list[dict[int, float]] = [{} for _ in range(n)]
        self.cut: dict[tuple[int, int], float] = {}  # conductance of the links that a footing crosses
        # The cells carry a little less than the true operator; this factor makes the decay length right.
        self.T_lattice = self.T - self.L * h * h / LATTICE
        for (i, j), a in self.index.items():
            x, y = self.x0 + i * h, self.y0 + j * h
            right = self.index.get((i + 1, j))
            if right is not None:
                self._link(a, right, self.outline.open_x(x + h, y, y + h) / h)
            above = self.index.get((i, j + 1))
            if above is not None:
                self._link(a, above, self.outline.open_y(y + h, x, x + h) / h)
        self._diagonals()
        for a, row in enumerate(self._pairs):
            self.links[a] = [(b, c) for b, c in row.items() if c]

    def _diagonals(self) -> None:
        """Nine-point rule around every grid point among four whole, unfooted cells: same error in all directions.

        Along a straight wall the mirror image of the rule is the plain five-point link, so nothing is done there.
        """
        whole = self.h * self.h * (1 - 1e-9)
        footed = {cell for pair in self.cut for cell in pair}
        share = DIAGONAL * self.T_lattice
        for (i, j), a in self.index.items():
            block = [a, *(self.index.get(c, -1) for c in ((i + 1, j), (i + 1, j + 1), (i, j + 1)))]
            if min(block) >= 0 and not footed.intersection(block) and min(self.areas[c] for c in block) >= whole:
                for k in range(4):
                    self._join(block[k], block[k - 1], -share)
                self._join(block[0], block[2], share)
                self._join(block[1], block[3], share)

    def _join(self, a: int, b: int, c: float) -> None:
        self._pairs[a][b] = self._pairs[b][a] = self._pairs[a].get(b, 0.0) + c

    def _link(self, a: int, b: int, open_share: float) -> None:
        """One link.  A footing cuts it when it passes between the cells' centres of gravity.

        One point per cell leaves no gap in a slanting line; as it lies on the slab, a line to a wall is closed.
        """
        base = self.T_lattice * open_share
        p, q = self.middles[a], self.middles[b]
        resistance, c = 0.0, base
        for f in self.footings:
            if crosses(p, q, (f.x1, f.y1), (f.x2, f.y2)):
                g = footing_conductance(T=self.T, t=f.tightness) * self._turned(p, q, f)
                resistance = inf if g == 0 else resistance + 1 / g
        if resistance:
            c = 1 / (1 / base + resistance / (self.h * open_share)) if open_share else 0.0
            self.cut[a, b] = self.cut[b, a] = c
        self._join(a, b, c)

    @staticmethod
    def _turned(p: Point, q: Point, f: Footing) -> float:
        """Share of a footing's conductance that a crossed link takes: the cosine between link and footing normal.

        With it the jump across a slanting footing is the same on links of both directions, and the sum is its length.
        """
        ex, ey, fx, fy = q[0] - p[0], q[1] - p[1], f.x2 - f.x1, f.y2 - f.y1
        return abs(fx * ey - fy * ex) / (hypot(ex, ey) * hypot(fx, fy))

    def diagonal(self) -> list[float]:
        """Diagonal of the matrix [m3/s/Pa]."""
        return [leak + sum(c for _, c in links) for leak, links in zip(self.leaks, self.links, strict=False)]

    def parts(self) -> list[int]:
        """Number of the connected part that each cell belongs to."""
        part = [-1] * len(self.places)
        count = 0
        for seed in range(len(part)):
            if part[seed] < 0:
                part[seed] = count
                stack = [seed]
                while stack:
                    for j, _ in self.links[stack.pop()]:
                        if part[j] < 0:
                            part[j] = count
                            stack.append(j)
                count += 1
        return part
