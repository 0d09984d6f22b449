"""Linear equations of the slab: banded Cholesky in plain lists, and a small dense solver for pits of given suction."""

import sys
from collections.abc import Sequence
from math import sqrt
from operator import mul

if sys.version_info >= (3, 12):
    from math import sumprod  # in the browser's Python a third quicker than the other
else:

    def sumprod(p: Sequence[float], q: Sequence[float]) -> float:
        """Sum of the products of two rows of one length."""
        return sum(map(mul, p, q))


Links = Sequence[Sequence[tuple[int, float]]]


class SingularMatrix(ValueError):
    """The equations have no single answer: some part of the slab neither leaks nor is held."""


class BandedCholesky:
    """Factor of a symmetric positive matrix given by its diagonal and its links (negative off-diagonals).

    ``links[i]`` lists (j, c) for every neighbour j of cell i with conductance c, both ways round.
    Row slices and ``sumprod`` keep the inner loops in C: about 6 ms for 432 cells of band 18.
    Raises SingularMatrix when a pivot is not above rounding.
    """

    def __init__(self, diagonal: Sequence[float], links: Links) -> None:
        n = len(diagonal)
        first = [min((j for j, _ in links[i] if j < i), default=i) for i in range(n)]
        for i in range(n - 2, -1, -1):  # the rows' starts must not step back, so that one slice lines two rows up
            first[i] = min(first[i], first[i + 1])
        rows: list[list[float]] = []  # of the factor, left of its diagonal, each from its start
        columns: list[list[float]] = [[] for _ in range(n)]  # the same numbers, below the diagonal, without a gap
        pivots: list[float] = []
        for i in range(n):
            start = first[i]
            entries = [0.0] * (i - start)
            for j, c in links[i]:
                if j < i:
                    entries[j - start] = -c
            row: list[float] = []
            for j, entry in enumerate(entries, start):
                value = (entry - sumprod(row, rows[j][start - first[j] :])) / pivots[j]
                row.append(value)
                columns[j].append(value)
            pivot = diagonal[i] - sumprod(row, row)
            if not pivot > 1e-13 * diagonal[i]:
                raise SingularMatrix("a part of the slab has no leak and no held suction")
            pivots.append(sqrt(pivot))
            rows.append(row)
        self.first, self.rows, self.columns, self.pivots = first, rows, columns, pivots

    def solve(self, right: Sequence[float]) -> list[float]:
        """Answer of the equations for one right side.  Many right sides share one factor."""
        x: list[float] = []
        for row, start, pivot, b in zip(self.rows, self.first, self.pivots, right, strict=False):
            x.append((b - sumprod(row, x[start:])) / pivot)
        for i in range(len(x) - 1, -1, -1):
            column = self.columns[i]
            x[i] = (x[i] - sumprod(column, x[i + 1 : i + 1 + len(column)])) / self.pivots[i]
        return x


def dense_solve(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """Answer of a small dense system by elimination with row exchange.  Raises SingularMatrix when there is none."""
    n = len(right)
    rows = [[*list(row), b] for row, b in zip(matrix, right, strict=False)]
    for k in range(n):
        best = max(range(k, n), key=lambda i: abs(rows[i][k]))
        rows[k], rows[best] = rows[best], rows[k]
        pivot = rows[k][k]
        if pivot == 0:
            raise SingularMatrix("two pits cannot be told apart")
        for i in range(k + 1, n):
            factor = rows[i][k] / pivot
            if factor:
                rows[i] = [a - factor * b for a, b in zip(rows[i], rows[k], strict=False)]
    x = [0.0] * n
    for k in range(n - 1, -1, -1):
        x[k] = (rows[k][n] - sumprod(rows[k][k + 1 : n], x[k + 1 :])) / rows[k][k]
    return x
