"""The plan of a slab: a union of rectangles, its walls and corners, and what part of a square lies in it."""

from bisect import bisect_right
from functools import lru_cache
from math import hypot
from typing import NamedTuple

SNAP = 1e-3  # m: edges closer than this are the same wall (unit conversion and tape reading leave less)

Point = tuple[float, float]
Rectangle = tuple[float, float, float, float]  # x, y, width, depth


class Wall(NamedTuple):
    """A straight outer wall from (x1, y1) to (x2, y2) [m], the slab on its left."""

    x1: float
    y1: float
    x2: float
    y2: float


def _merged(values: list[float]) -> list[float]:
    """Sorted coordinates, those within SNAP of each other taken as one."""
    out: list[float] = []
    for value in sorted(values):
        if not out or value - out[-1] > SNAP:
            out.append(value)
    return out


def _nearest(lines: list[float], value: float) -> int:
    """Number of the line next to a value."""
    return min(range(len(lines)), key=lambda i: abs(lines[i] - value))


class Outline:
    """Union of rectangles (x, y, width, depth) [m].

    Raises ValueError when a rectangle has no area.  Rectangles may touch or overlap; separate parts are allowed.
    """

    def __init__(self, rectangles: list[Rectangle]) -> None:
        for _, _, width, depth in rectangles:
            if not (width > SNAP and depth > SNAP):
                raise ValueError(f"a slab rectangle needs a width and a depth, found {width} by {depth}")
        if not rectangles:
            raise ValueError("a slab needs at least one rectangle")
        self.xs = _merged([v for x, _, w, _ in rectangles for v in (x, x + w)])
        self.ys = _merged([v for _, y, _, d in rectangles for v in (y, y + d)])
        nx, ny = len(self.xs) - 1, len(self.ys) - 1
        self.inside = [[False] * nx for _ in range(ny)]
        for x, y, w, d in rectangles:
            for j in range(_nearest(self.ys, y), _nearest(self.ys, y + d)):
                for i in range(_nearest(self.xs, x), _nearest(self.xs, x + w)):
                    self.inside[j][i] = True
        self.loops = self._trace()
        self.walls = [Wall(*a, *b) for loop in self.loops for a, b in zip(loop, loop[1:] + loop[:1], strict=False)]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [m]."""
        return self.xs[0], self.ys[0], self.xs[-1], self.ys[-1]

    @property
    def area(self) -> float:
        """Plan area [m2]."""
        return self.area_in(*self.box)

    @property
    def perimeter(self) -> float:
        """Length of all outer walls [m]."""
        return sum(hypot(w.x2 - w.x1, w.y2 - w.y1) for w in self.walls)

    @property
    def corners(self) -> list[Point]:
        """All corners [m], counter-clockwise from the lowest, then leftmost; then those of further loops."""
        return [point for loop in self.loops for point in loop]

    def _is_in(self, i: int, j: int) -> bool:
        return 0 <= j < len(self.inside) and 0 <= i < len(self.inside[0]) and self.inside[j][i]

    def _trace(self) -> list[list[Point]]:
        """Outline loops of corner points, the slab on the left, each begun at its lowest, then leftmost corner."""
        steps: dict[tuple[int, int], list[tuple[int, int]]] = {}
        for j in range(len(self.ys) - 1):
            for i in range(len(self.xs) - 1):
                if not self.inside[j][i]:
                    continue
                for open_side, start, end in (
                    (self._is_in(i, j - 1), (i, j), (i + 1, j)),
                    (self._is_in(i + 1, j), (i + 1, j), (i + 1, j + 1)),
                    (self._is_in(i, j + 1), (i + 1, j + 1), (i, j + 1)),
                    (self._is_in(i - 1, j), (i, j + 1), (i, j)),
                ):
                    if not open_side:
                        steps.setdefault(start, []).append(end)
        loops = []
        while steps:
            at = first = min(steps, key=lambda p: (p[1], p[0]))
            path = [first]
            direction = (1, 0)
            while True:
                ends = steps[at]
                # Where two parts touch at a corner only, turn left, so that each part keeps its own loop.
                left = (-direction[1], direction[0])
                ends.sort(key=lambda e: (e[0] - at[0], e[1] - at[1]) == left)
                end = ends.pop()
                if not ends:
                    del steps[at]
                direction = (end[0] - at[0], end[1] - at[1])
                at = end
                if at == first:
                    break
                path.append(at)
            loops.append(self._turns(path))
        return sorted(loops, key=lambda loop: (loop[0][1], loop[0][0]))

    def _turns(self, path: list[tuple[int, int]]) -> list[Point]:
        """The places of a closed path where it turns."""
        out = []
        for k, (i, j) in enumerate(path):
            before, after = path[k - 1], path[(k + 1) % len(path)]
            if (before[0] == i) != (i == after[0]):
                out.append((self.xs[i], self.ys[j]))
        return out

    def _part_at(self, x: float, y: float) -> tuple[int, int] | None:
        """The part of the slab, by its column and row, that a place [m] lies on or at the edge of; None off the slab."""
        for dx in (SNAP, -SNAP):
            for dy in (SNAP, -SNAP):
                i, j = bisect_right(self.xs, x + dx) - 1, bisect_right(self.ys, y + dy) - 1
                if self._is_in(i, j):
                    return i, j
        return None

    def contains(self, x: float, y: float) -> bool:
        """Whether a place [m] lies on the slab, its edges included."""
        return self._part_at(x, y) is not None

    def area_in(self, x1: float, y1: float, x2: float, y2: float) -> float:
        """Area [m2] of the slab inside a window from (x1, y1) to (x2, y2) [m]."""
        total = 0.0
        for j, row in enumerate(self.inside):
            high = min(y2, self.ys[j + 1]) - max(y1, self.ys[j])
            if high > 0:
                for i, inside in enumerate(row):
                    if inside:
                        total += high * max(0.0, min(x2, self.xs[i + 1]) - max(x1, self.xs[i]))
        return total

    def middle_in(self, x1: float, y1: float, x2: float, y2: float) -> Point:
        """Centre of gravity [m] of the slab inside a window.  Raises ZeroDivisionError when there is none."""
        area = along = up = 0.0
        for j, row in enumerate(self.inside):
            low, high = max(y1, self.ys[j]), min(y2, self.ys[j + 1])
            if high > low:
                for i, inside in enumerate(row):
                    left, right = max(x1, self.xs[i]), min(x2, self.xs[i + 1])
                    if inside and right > left:
                        piece = (right - left) * (high - low)
                        area += piece
                        along += piece * (left + right) / 2
                        up += piece * (low + high) / 2
        return along / area, up / area

    def open_x(self, x: float, y1: float, y2: float) -> float:
        """Length [m] of the upright line at x from y1 to y2 that has slab on both sides."""
        left, right = bisect_right(self.xs, x - SNAP) - 1, bisect_right(self.xs, x + SNAP) - 1
        return sum(
            max(0.0, min(y2, self.ys[j + 1]) - max(y1, self.ys[j]))
            for j in range(len(self.inside))
            if self._is_in(left, j) and self._is_in(right, j)
        )

    def open_y(self, y: float, x1: float, x2: float) -> float:
        """Length [m] of the level line at y from x1 to x2 that has slab on both sides."""
        low, high = bisect_right(self.ys, y - SNAP) - 1, bisect_right(self.ys, y + SNAP) - 1
        return sum(
            max(0.0, min(x2, self.xs[i + 1]) - max(x1, self.xs[i]))
            for i in range(len(self.xs) - 1)
            if self._is_in(i, low) and self._is_in(i, high)
        )

    def free_run(self, x: float, y: float) -> tuple[float, float, float, float]:
        """Distance [m] from a place to the first wall to the left, right, below and above.

        Raises ValueError when the place is off the slab.
        """
        part = self._part_at(x, y)
        if part is None:
            raise ValueError(f"the place ({x:g}, {y:g}) is not on the slab")
        i, j = part
        west, east, south, north = i, i, j, j
        while self._is_in(west - 1, j):
            west -= 1
        while self._is_in(east + 1, j):
            east += 1
        while self._is_in(i, south - 1):
            south -= 1
        while self._is_in(i, north + 1):
            north += 1
        return x - self.xs[west], self.xs[east + 1] - x, y - self.ys[south], self.ys[north + 1] - y

    def inset(self, offset: float, loop: int = 0) -> list[Point]:
        """Corners of a line that runs inside the walls of one loop at a distance [m], in the order of the loop.

        Raises ValueError when the line would leave the slab (a part narrower than twice the offset).
        """
        points = self.loops[loop]
        out = []
        for k, (x, y) in enumerate(points):
            (ax, ay), (bx, by) = points[k - 1], points[(k + 1) % len(points)]
            # Inward normals of the wall before and the wall after: the direction turned left.
            n1, n2 = (-_sign(y - ay), _sign(x - ax)), (-_sign(by - y), _sign(bx - x))
            out.append((x + offset * (n1[0] + n2[0]), y + offset * (n1[1] + n2[1])))
        for k, (x, y) in enumerate(out):
            (ax, ay), (bx, by) = points[k], points[(k + 1) % len(points)]
            nx, ny = out[(k + 1) % len(out)]
            if not self.contains(x, y) or (nx - x) * (bx - ax) + (ny - y) * (by - ay) <= 0:
                raise ValueError(f"a line {offset} m inside the walls does not fit in this plan")
        return out


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)


@lru_cache(maxsize=4)
def outline_of(rectangles: tuple[Rectangle, ...]) -> Outline:
    """The outline, the same object as last time, which keeps the cells over it (slab_cells).  Nobody changes one."""
    return Outline(list(rectangles))
