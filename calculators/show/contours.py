"""Lines of equal value through a grid of numbers: marching squares, joined into lines."""

import itertools
from collections.abc import Sequence
from math import log

Point = tuple[float, float]
Rows = Sequence[Sequence[float | None]]
LEAST = 1e-9  # stands for nothing, so that it has a logarithm
LEVELS = (1.0, 2.0, 5.0)
FEW, MOST = 3, 7


def padded(rows: Rows) -> list[list[float | None]]:
    """The grid with one more ring, and every empty place beside a number filled with the mean of the numbers next to it.

    A closed wall half a step outside of the last numbers mirrors them, so that lines reach the wall.
    """
    ny, nx = len(rows), len(rows[0])
    out: list[list[float | None]] = []
    for j in range(-1, ny + 1):
        line: list[float | None] = []
        for i in range(-1, nx + 1):
            own = rows[j][i] if 0 <= j < ny and 0 <= i < nx else None
            if own is None:
                for steps in (((0, -1), (0, 1), (-1, 0), (1, 0)), ((-1, -1), (-1, 1), (1, -1), (1, 1))):
                    beside = [
                        rows[j + b][i + a]
                        for b, a in steps
                        if 0 <= j + b < ny and 0 <= i + a < nx and rows[j + b][i + a] is not None
                    ]
                    if beside:
                        own = sum(v for v in beside if v is not None) / len(beside)
                        break
            line.append(own)
        out.append(line)
    return out


def contour(rows: Rows, level: float) -> list[list[Point]]:
    """The lines on which the value is ``level``, as places in steps from the first number; closed ones end where they began.

    Between two numbers the logarithm is taken to run straight, as suction does on its way from a pit.
    """
    links: dict[tuple[int, int, int], list[tuple[int, int, int]]] = {}
    sides = [[None if v is None else v >= level for v in row] for row in rows]
    for j, (below, above) in enumerate(itertools.pairwise(sides)):
        # Most squares lie on one side of the level and are passed over here.
        for i, high in enumerate(zip(below, below[1:], above[1:], above, strict=False)):
            if high[0] == high[1] == high[2] == high[3] or None in high:
                continue
            # Edges of the square: 0 along the bottom, 1 up; the number is the place where the edge begins.
            edges = ((i, j, 0), (i + 1, j, 1), (i, j + 1, 0), (i, j, 1))
            cut = [edges[k] for k in range(4) if high[k] != high[(k + 1) % 4]]
            if len(cut) == 4 and (_mean_log(rows, i, j) >= log(level)) != high[0]:  # a saddle
                cut = [cut[3], cut[0], cut[1], cut[2]]
            for a, b in zip(cut[::2], cut[1::2], strict=True):
                links.setdefault(a, []).append(b)
                links.setdefault(b, []).append(a)

    def place(edge: tuple[int, int, int]) -> Point:
        i, j, up = edge
        a, b = rows[j][i], rows[j + up][i + 1 - up]
        if a is None or b is None or a == b:
            share = 0.5
        else:
            low, high = log(max(a, LEAST)), log(max(b, LEAST))
            share = 0.5 if low == high else (log(max(level, LEAST)) - low) / (high - low)
        return (i + share * (1 - up), j + share * up)

    return [[place(edge) for edge in line] for line in _joined(links)]


def _mean_log(rows: Rows, i: int, j: int) -> float:
    """Mean of the logarithms at the corners of a square."""
    corners = (rows[j][i], rows[j][i + 1], rows[j + 1][i], rows[j + 1][i + 1])
    return sum(log(max(v or 0.0, LEAST)) for v in corners) / 4


def _joined(links: dict[tuple[int, int, int], list[tuple[int, int, int]]]) -> list[list[tuple[int, int, int]]]:
    """Chains of linked edges, open ones first."""
    lines, done = [], set()
    for start in sorted(links, key=lambda edge: (len(links[edge]), edge)):
        if start in done:
            continue
        line = [start]
        done.add(start)
        while True:
            onward = [edge for edge in links[line[-1]] if edge not in done]
            if not onward:
                break
            line.append(onward[0])
            done.add(onward[0])
        if len(line) > 2 and start in links[line[-1]]:
            line.append(start)
        lines.append(line)
    return lines


def rounded(line: Sequence[Point]) -> list[Point]:
    """The line with its corners cut once, its ends kept."""
    if len(line) < 3:
        return list(line)
    closed = line[0] == line[-1]
    out = [] if closed else [line[0]]
    for (ax, ay), (bx, by) in itertools.pairwise(line):
        out += [(0.75 * ax + 0.25 * bx, 0.75 * ay + 0.25 * by), (0.25 * ax + 0.75 * bx, 0.25 * ay + 0.75 * by)]
    return [*out, out[0]] if closed else [*out[:1], *out[2:-1], line[-1]]


def levels(low: float, high: float) -> list[float]:
    """Round values between low and high, rising: 1, 2, 5 and their tens; evenly spaced where those are too few."""
    if high <= max(low, 0.0):
        return []
    low = max(low, high * 1e-3)
    power, found = 10.0**-12, []
    while power < high:
        found += [round(m * power, 15) for m in LEVELS if low < m * power < high]
        power *= 10
    if len(found) < FEW:
        from .plot import ticks

        found = [v for v in ticks(low, high, 5) if low < v < high]
    while len(found) > MOST:
        found = found[1::2] if len(found) % 2 == 0 else found[::2]
    return found
