"""One pit on the grid: its logarithm near the bore is taken out, so that the cells carry only a smooth remainder.

s = w + Q/(2 pi T) phi(r), phi = ln(R/r) - 3/4 + (r/R)^2 - (r/R)^4/4 inside R and 0 outside.  phi meets 0 with two flat
derivatives at R, and its Laplacian is a smooth cap, so the cells see the pit's flow as 2/(pi R^2) (1 - (r/R)^2).
"""

from math import hypot, log, pi
from typing import NamedTuple

from .slab_cells import crosses
from .slab_grid import Grid
from .slab_outline import SNAP, Point

REACH = 4  # cells: radius R of the cap
LEAST_REACH = 1.5  # cells: a smaller cap is no longer seen by the cells
PIT_REACH = 1.5  # radii of the pit
# The cells' rule wants a source's middle value plus h^2/12 of its curvature; a mean over the cell has half of that.
SMOOTHED = 1 / 24
SAMPLES = 4  # along a cell's side, for means over cells


class Pit(NamedTuple):
    """A suction point at (x, y) [m] of radius [m], by flow [m3/s] or by suction [Pa], on the tile or not."""

    x: float
    y: float
    radius: float
    flow: float | None = None
    suction: float | None = None
    on_tile: bool = False


def cap_field(r: float, R: float, least: float = 0.0) -> float:
    """phi [1] at r of a cap of radius R [m]; closer than ``least`` [m] the logarithm stays, as inside a pit.

    The rest goes on, for it cancels the curvature of the cells' part: the pit has one suction.
    Raises ValueError when r and ``least`` are 0.  Source: derived (see the module).
    """
    if r >= R:
        return 0.0
    x = (r / R) ** 2
    return log(R / max(r, least)) - 0.75 + x - x * x / 4


def cap_density(r: float, R: float) -> float:
    """Share of the pit's flow per area [1/m2] at r of a cap of radius R [m].  Source: Laplacian of phi over 2 pi."""
    return 2 / (pi * R * R) * (1 - (r / R) ** 2) if r < R else 0.0


class Source:
    """A pit drawing 1 m3/s: right side for the cells, and the part of the field that the cells do not carry."""

    def __init__(self, grid: Grid, pit: Pit) -> None:
        grid.cell_at(pit.x, pit.y)  # raises when off the slab
        self.grid, self.pit = grid, pit
        self.reach = self._reach()
        self.images = self._images()
        near = [f for f in grid.footings if _distance((pit.x, pit.y), (f.x1, f.y1), (f.x2, f.y2)) < self.reach]
        self.screens = [((f.x1, f.y1), (f.x2, f.y2)) for f in near]
        self.cell_part: dict[int, float] = {}  # mean of the taken-out part over each cell, Pa per m3/s
        self.right: dict[int, float] = {}
        self._spread()

    def _free_run(self) -> tuple[float, float, float, float]:
        """Distance [m] to the first wall, or footing along a wall's direction, to the left, right, below and above."""
        left, right, below, above = self.grid.outline.free_run(self.pit.x, self.pit.y)
        x, y = self.pit.x, self.pit.y
        for f in self.grid.footings:
            if abs(f.x1 - f.x2) < SNAP and min(f.y1, f.y2) <= y <= max(f.y1, f.y2):
                left, right = (min(left, x - f.x1), right) if f.x1 < x else (left, min(right, f.x1 - x))
            elif abs(f.y1 - f.y2) < SNAP and min(f.x1, f.x2) <= x <= max(f.x1, f.x2):
                below, above = (min(below, y - f.y1), above) if f.y1 < y else (below, min(above, f.y1 - y))
        return left, right, below, above

    def _reach(self) -> float:
        grid, pit = self.grid, self.pit
        left, right, below, above = self._free_run()
        wanted = min(max(REACH * grid.h, PIT_REACH * pit.radius), left + right, below + above)
        corners = [hypot(pit.x - x, pit.y - y) for x, y in _reentrant(grid)]
        return max(LEAST_REACH * grid.h, pit.radius * PIT_REACH, min([wanted, *corners]))

    def _images(self) -> list[Point]:
        """The pit and its mirror images in walls nearer than the reach, where no air crosses.

        A footing has its mirror image too; what it lets through is given back to the cells (see ``_spread``).
        """
        left, right, below, above = self._free_run()
        x, y, R = self.pit.x, self.pit.y, self.reach
        xs = [x] + ([x - 2 * left] if left < R else []) + ([x + 2 * right] if right < R else [])
        ys = [y] + ([y - 2 * below] if below < R else []) + ([y + 2 * above] if above < R else [])
        return [(a, b) for a in xs for b in ys]

    def _seen(self, place: Point) -> bool:
        return not any(crosses((self.pit.x, self.pit.y), place, a, b) for a, b in self.screens)

    def part_at(self, x: float, y: float) -> float:
        """Taken-out part [Pa per m3/s] at a place [m]; inside the pit, its value at the pit's edge."""
        R, rw = self.reach, self.pit.radius
        if hypot(x - self.pit.x, y - self.pit.y) >= R or (self.screens and not self._seen((x, y))):
            return 0.0
        return sum(cap_field(hypot(x - a, y - b), R, rw) for a, b in self.images) / (2 * pi * self.grid.T)

    def _bare(self, x: float, y: float) -> float:
        """The part at a cell's middle as if no footing stood in the way, not closer than a quarter of a cell."""
        least = self.grid.h / 4
        total = sum(cap_field(hypot(x - a, y - b), self.reach, least) for a, b in self.images)
        return total / (2 * pi * self.grid.T)

    def _spread(self) -> None:
        grid, R, h = self.grid, self.reach, self.grid.h
        low_i, high_i = int((self.pit.x - R - grid.x0) / h) - 1, int((self.pit.x + R - grid.x0) / h) + 1
        low_j, high_j = int((self.pit.y - R - grid.y0) / h) - 1, int((self.pit.y + R - grid.y0) / h) + 1
        flow: dict[int, float] = {}
        for i in range(low_i, high_i + 1):
            for j in range(low_j, high_j + 1):
                cell = grid.index.get((i, j))
                if cell is not None and (not self.screens or self._seen(grid.middles[cell])):
                    density, part = self._means(cell, i, j)
                    if density:
                        flow[cell] = density * grid.areas[cell]
                        self.cell_part[cell] = part
        self._screened(flow)
        total = sum(flow.values())
        self.right = {cell: share / total for cell, share in flow.items()}
        for cell, part in self.cell_part.items():
            self._add(cell, -grid.area_leaks[cell] * part)
        for cell, middle, g in grid.wall_pieces:
            if cell in self.cell_part:
                self._add(cell, -g * self.part_at(*middle))
        for (a, b), c in grid.cut.items():  # what the taken-out part itself sends through a footing
            if a in self.cell_part and b not in self.cell_part:
                passed = c * self._bare(*grid.center(a))
                self._add(a, -passed)
                self._add(b, passed)
        self._smooth()

    def _smooth(self) -> None:
        right = dict(self.right)
        for cell, amount in right.items():
            for j, c in self.grid.links[cell]:
                moved = SMOOTHED * amount * c / self.grid.T
                self._add(cell, -moved)
                self._add(j, moved)

    def _screened(self, flow: dict[int, float]) -> None:
        """Flow of the cap that a footing turns back, given to the cells in front of it."""
        grid = self.grid
        if self.screens:
            for a, b in grid.cut:
                if a in self.cell_part and b not in self.cell_part:
                    turned = grid.T * (self._bare(*grid.center(a)) - self._bare(*grid.center(b)))
                    flow[a] = flow.get(a, 0.0) + turned

    def _add(self, cell: int, amount: float) -> None:
        self.right[cell] = self.right.get(cell, 0.0) + amount

    def _means(self, cell: int, i: int, j: int) -> tuple[float, float]:
        """Means over the slab's share of a cell: cap density [1/m2] and taken-out part [Pa per m3/s]."""
        grid, R, h = self.grid, self.reach, self.grid.h
        whole = grid.areas[cell] > h * h * (1 - 1e-9)
        density = part = 0.0
        count = 0
        for m in range(SAMPLES):
            x = grid.x0 + (i + (m + 0.5) / SAMPLES) * h
            for n in range(SAMPLES):
                y = grid.y0 + (j + (n + 0.5) / SAMPLES) * h
                if whole or grid.outline.contains(x, y):
                    count += 1
                    for a, b in self.images:
                        r = hypot(x - a, y - b)
                        if r < R:
                            density += cap_density(r, R)
                            part += cap_field(r, R, max(self.pit.radius, h / 100))
        if not count:
            return 0.0, 0.0
        return density / count, part / count / (2 * pi * grid.T)


def _reentrant(grid: Grid) -> list[Point]:
    """Corners that stick into the slab: a wall's mirror image does not hold around them."""
    out = []
    for loop in grid.outline.loops:
        for k, (x, y) in enumerate(loop):
            (ax, ay), (bx, by) = loop[k - 1], loop[(k + 1) % len(loop)]
            if (x - ax) * (by - y) - (y - ay) * (bx - x) < 0:
                out.append((x, y))
    return out


def _distance(p: Point, a: Point, b: Point) -> float:
    """Distance [m] from a place to a stretch."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    t = min(1.0, max(0.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length)) if length else 0.0
    return hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)
