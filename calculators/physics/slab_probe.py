"""Reading a field that lives on cells at any place of the slab."""

from collections.abc import Sequence
from math import floor

from .slab_cells import crosses
from .slab_grid import Grid
from .slab_solve import dense_solve


def _cubic(f: float) -> tuple[float, float, float, float]:
    """Weights of four equally spaced values for a place f (0..1) between the middle two (Lagrange)."""
    a, b, c = f + 1, f - 1, f - 2
    return -f * b * c / 6, a * b * c / 2, -a * f * c / 2, a * f * b / 6


class Reader:
    """Interpolates cell values: cubic in the open, mirrored at walls, never across a footing.

    ``kinks`` are cells (those of a drain tile) where the field has an edge: beside them the rule is linear.
    """

    def __init__(self, grid: Grid, kinks: Sequence[int] = ()) -> None:
        self.grid = grid
        self.cut_cells = {cell for pair in grid.cut for cell in pair}
        self.kinks = set(kinks)
        half = grid.joint * grid.h / (2 * grid.T)
        self.wall_slope = 2 * half / (1 + half)  # drop from a cell at the wall to its mirror, as a share of its value

    def weights(self, x: float, y: float) -> list[tuple[int, float]]:
        """Cells and weights for a place [m].  Raises ValueError when the place is off the slab."""
        grid = self.grid
        base = grid.cell_at(x, y)
        u, v = (x - grid.x0) / grid.h - 0.5, (y - grid.y0) / grid.h - 0.5
        bi, bj = grid.places[base]
        i, j = floor(u), floor(v)
        wx: Sequence[float] = _cubic(u - i)
        wy: Sequence[float] = _cubic(v - j)
        # The place lies between cells i and i+1 (j and j+1), one of which is the base cell.
        between = [grid.index.get(place, base) for place in ((i, j), (i + 1, j), (i, j + 1), (i + 1, j + 1))]
        if self.kinks.intersection(between):
            wx, wy = (0.0, 1 - (u - i), u - i, 0.0), (0.0, 1 - (v - j), v - j, 0.0)
        columns = self._axis(bi, bj, i, wx, along=True)
        rows = self._axis(bi, bj, j, wy, along=False)
        block = [(grid.index.get((c, r), -1), a * b) for r, b in rows for c, a in columns]
        cells = {cell for cell, _ in block}
        if -1 in cells or self.cut_cells.intersection(cells):
            return self._plane(base, x, y)
        return block

    def _axis(self, bi: int, bj: int, low: int, weights: Sequence[float], *, along: bool) -> list[tuple[int, float]]:
        """Columns (``along``) or rows with their weights; beyond a wall the mirror cell less the slope of its joint."""
        out: dict[int, float] = {}
        base = bi if along else bj
        for k, weight in enumerate(weights):
            line, edge, times = self._mirrored(bi, bj, low - 1 + k - base, along=along)
            out[line] = out.get(line, 0.0) + weight
            if times:
                out[edge] = out.get(edge, 0.0) - weight * times * self.wall_slope
        return list(out.items())

    def _mirrored(self, i: int, j: int, steps: int, *, along: bool) -> tuple[int, int, int]:
        """Line reached by steps that turn back at walls; the line at the wall; distance to the mirror, in cells."""
        step = 1 if steps > 0 else -1
        edge, beyond = 0, 0
        for _ in range(abs(steps)):
            place = (i + step, j) if along else (i, j + step)
            if place in self.grid.index and not beyond:
                i, j = place
            elif not beyond:
                edge, beyond = (i if along else j), 1  # the first mirror cell is the cell itself: this step stays
                step = -step
            else:
                beyond += 2
                i, j = place if place in self.grid.index else (i, j)
        return (i if along else j), edge, beyond

    def _plane(self, base: int, x: float, y: float) -> list[tuple[int, float]]:
        """Weights of the plane that best fits the cells around which no footing hides from the place."""
        grid, h = self.grid, self.grid.h
        bi, bj = grid.places[base]
        seen = []
        for i in (bi - 1, bi, bi + 1):
            for j in (bj - 1, bj, bj + 1):
                cell = grid.index.get((i, j))
                if cell is not None and not self._hidden(x, y, cell):
                    cx, cy = grid.center(cell)
                    seen.append((cell, (cx - x) / h, (cy - y) / h))
        if not seen:
            return [(base, 1.0)]
        # Weighted least squares, made slightly flat so that a single row of cells still gives an answer.
        weights = [1 / (0.1 + p * p + q * q) for _, p, q in seen]
        sums = [[0.0] * 3 for _ in range(3)]
        for (_, p, q), w in zip(seen, weights, strict=False):
            row = (1.0, p, q)
            for a in range(3):
                for b in range(3):
                    sums[a][b] += w * row[a] * row[b]
        for a in (1, 2):
            sums[a][a] += 1e-3
        first = dense_solve(sums, [1.0, 0.0, 0.0])
        return [
            (cell, w * (first[0] + first[1] * p + first[2] * q)) for (cell, p, q), w in zip(seen, weights, strict=False)
        ]

    def _hidden(self, x: float, y: float, cell: int) -> bool:
        place = self.grid.middles[cell]
        return any(crosses((x, y), place, (f.x1, f.y1), (f.x2, f.y2)) for f in self.grid.footings)


def read(weights: Sequence[tuple[int, float]], values: Sequence[float]) -> float:
    """Value at a place from its cells and weights (any unit)."""
    return sum(w * values[cell] for cell, w in weights)
