"""Reading a field that lives on cells at any place of the slab."""

from collections.abc import Sequence
from math import floor

from .slab_grid import Grid, crosses
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

    def weights(self, x: float, y: float) -> list[tuple[int, float]]:
        """Cells and weights for a place [m].  Raises ValueError when the place is off the slab."""
        grid = self.grid
        base = grid.cell_at(x, y)
        u, v = (x - grid.x0) / grid.h - 0.5, (y - grid.y0) / grid.h - 0.5
        bi, bj = grid.places[base]
        i, j = floor(u), floor(v)
        columns = [self._mirrored(bi, bj, k - bi, along=True) for k in range(i - 1, i + 3)]
        rows = [self._mirrored(bi, bj, k - bj, along=False) for k in range(j - 1, j + 3)]
        block = [grid.index.get((c, r)) for r in rows for c in columns]
        if None in block or self.cut_cells.intersection(block):
            return self._plane(base, x, y)
        wx: Sequence[float] = _cubic(u - i)
        wy: Sequence[float] = _cubic(v - j)
        if self.kinks.intersection((block[5], block[6], block[9], block[10])):
            wx, wy = (0.0, 1 - (u - i), u - i, 0.0), (0.0, 1 - (v - j), v - j, 0.0)
        return [
            (cell, a * b)
            for cell, (a, b) in zip(block, ((a, b) for b in wy for a in wx), strict=False)
            if cell is not None
        ]

    def _mirrored(self, i: int, j: int, steps: int, *, along: bool) -> int:
        """Column (``along``) or row reached from a cell by steps that turn back at walls."""
        step = 1 if steps > 0 else -1
        for _ in range(abs(steps)):
            place = (i + step, j) if along else (i, j + step)
            if place in self.grid.index:
                i, j = place
            else:
                step = -step  # the mirror of a cell at the wall is the cell itself: this step stays
        return i if along else j

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
        place = self.grid.center(cell)
        return any(crosses((x, y), place, (f.x1, f.y1), (f.x2, f.y2)) for f in self.grid.footings)


def read(weights: Sequence[tuple[int, float]], values: Sequence[float]) -> float:
    """Value at a place from its cells and weights (any unit)."""
    return sum(w * values[cell] for cell, w in weights)
