"""The cells of a slab with its layer: how they pass air to each other, past footings, through slab and walls."""

from math import ceil, inf, sqrt
from typing import NamedTuple

from .slab_cells import cells_over
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


class Grid:
    """Cells of side h [m] over an outline, with layer T [m3/s/Pa], leakance L [m/s/Pa] (slab and soil together),
    wall joint ``joint`` [m3/s/Pa per m] and footings.

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
        cells = self.cells = cells_over(outline, h, tuple(f[:4] for f in self.footings))
        self.index, self.places, self.areas, self.middles = cells.index, cells.places, cells.areas, cells.middles
        self.x0, self.y0, self.nx, self.ny = cells.x0, cells.y0, cells.nx, cells.ny
        self.center, self.cell_at = cells.center, cells.cell_at
        self._leaks()
        self._links()

    def _leaks(self) -> None:
        """Conductance of each cell to the air above (and to the soil): by area, and along the walls."""
        self.area_leaks = [self.L * area for area in self.areas]
        self.wall_pieces: list[tuple[int, Point, float]] = []  # cell, middle of the piece, conductance
        if self.joint:
            per_metre = 1 / (1 / self.joint + self.h / (2 * self.T))
            for cell, middle, length in self.cells.wall_parts:
                self.wall_pieces.append((cell, middle, per_metre * length))
        self.leaks = list(self.area_leaks)
        for cell, _, g in self.wall_pieces:
            self.leaks[cell] += g

    def _links(self) -> None:
        """Conductances between neighbours; a footing that crosses the line of centres is in series with it."""
        # The cells carry a little less than the true operator; this factor makes the decay length right.
        T = self.T_lattice = self.T - self.L * self.h * self.h / LATTICE
        self.cut: dict[tuple[int, int], float] = {}  # conductance of the links that a footing crosses
        for (a, b), (share, crossed) in self.cells.cut.items():
            self.cut[a, b] = self.cut[b, a] = self._through(T * share, share, crossed)
        self.links = [[(b, c) for b, share in row.items() if (c := T * share)] for row in self.cells.shares]
        for a in {a for a, _ in self.cut}:
            self.links[a] = [(b, c) for b, whole in self.links[a] if (c := self.cut.get((a, b), whole))]

    def _through(self, base: float, share: float, crossed: list[tuple[int, float]]) -> float:
        """Conductance of a link that would carry ``base``, past the footings that cross it."""
        resistance = 0.0
        for k, turned in crossed:
            g = footing_conductance(T=self.T, t=self.footings[k].tightness) * turned
            resistance = inf if g == 0 else resistance + 1 / g
        return 1 / (1 / base + resistance / (self.h * share)) if share else 0.0

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
