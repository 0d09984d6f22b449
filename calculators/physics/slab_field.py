"""Suction under a slab from several pits: unit fields on the grid, added up by their flows."""

from collections.abc import Sequence
from math import hypot, pi, sqrt
from typing import NamedTuple

from .slab_gravel import Stone, skin_field, solve_flows
from .slab_grid import Grid
from .slab_outline import Point
from .slab_probe import Reader, read
from .slab_solve import BandedCholesky
from .slab_source import Pit, Source


class Weakest(NamedTuple):
    """Place [m] of the least suction [Pa]."""

    x: float
    y: float
    suction: float


class FieldMap(NamedTuple):
    """Suction [Pa] at cell middles, rows upward from (x0, y0) [m] in steps [m]; None where there is no slab."""

    x0: float
    y0: float
    step: float
    values: list[list[float | None]]


class Equations:
    """Factored equations of a grid, with some cells (a drain tile) held at a given suction.

    Raises SingularMatrix when a part of the slab neither leaks nor is held.
    """

    def __init__(self, grid: Grid, held: Sequence[int] = ()) -> None:
        self.grid, self.held = grid, set(held)
        diagonal = grid.diagonal()
        links = grid.links
        if self.held:
            diagonal = [1.0 if i in self.held else d for i, d in enumerate(diagonal)]
            links = [[] if i in self.held else [(j, c) for j, c in row if j not in self.held] for i, row in enumerate(links)]
        self.factor = BandedCholesky(diagonal, links)
        self.reader = Reader(grid, held)

    def solve(self, right: dict[int, float], held: dict[int, float] | None = None) -> list[float]:
        """Cell suctions [Pa] for flows drawn from cells [m3/s] and suctions of the held cells [Pa] (0 unless given)."""
        b = [0.0] * len(self.grid.places)
        for cell, value in right.items():
            b[cell] = value
        for cell in self.held:
            value = (held or {}).get(cell, 0.0)
            b[cell] = value
            if value:
                for j, c in self.grid.links[cell]:
                    if j not in self.held:
                        b[j] += c * value
        return self.factor.solve(b)

    def drawn(self, cell: int, values: Sequence[float], right: dict[int, float]) -> float:
        """Flow [m3/s] that a held cell draws from its neighbours and its own leak."""
        total = self.grid.leaks[cell] * values[cell] - right.get(cell, 0.0)
        return total + sum(c * (values[cell] - values[j]) for j, c in self.grid.links[cell])


class UnitField:
    """Field of one pit that draws 1 m3/s, tile cells (if any) held at 0."""

    def __init__(self, equations: Equations, source: Source) -> None:
        self.equations, self.source = equations, source
        held = {cell: -source.cell_part.get(cell, 0.0) for cell in equations.held}
        self.values = equations.solve(source.right, held)

    def at(self, x: float, y: float, weights: Sequence[tuple[int, float]]) -> float:
        """Suction per flow [Pa per m3/s] at a place [m] whose reading weights are given."""
        return read(weights, self.values) + self.source.part_at(x, y)

    def cell_means(self) -> list[float]:
        """Mean suction per flow of each cell [Pa per m3/s]."""
        means = list(self.values)
        for cell, part in self.source.cell_part.items():
            means[cell] += part
        return means


class Field:
    """Suction field of pits that are given by flow or by suction, with an optional layer of open stone.

    ``base`` is a field already on the cells (that of a drain tile) [Pa]; ``base_flow`` the flow behind it [m3/s];
    ``units`` are the unit fields of the pits, if they are known already.
    Raises ValueError when a pit lies off the slab or has neither flow nor suction, SingularMatrix when two coincide.
    """

    def __init__(
        self,
        equations: Equations,
        pits: Sequence[Pit],
        *,
        stone: Stone | None = None,
        base: Sequence[float] | None = None,
        base_flow: float = 0.0,
        units: Sequence["UnitField"] | None = None,
    ) -> None:
        self.equations, self.grid, self.pits, self.stone = equations, equations.grid, list(pits), stone
        self.base = list(base) if base else None
        self.base_flow = base_flow
        self.units = list(units) if units else [UnitField(equations, Source(self.grid, pit)) for pit in self.pits]
        self.matrix = []
        offsets = []
        for pit in self.pits:
            weights = equations.reader.weights(pit.x, pit.y)
            self.matrix.append([unit.at(pit.x, pit.y, weights) for unit in self.units])
            offsets.append(read(weights, self.base) if self.base else 0.0)
        self.skin_radius = sqrt(self.grid.outline.area / pi)
        self.flows, self.pit_suctions = solve_flows(self.pits, self.matrix, offsets, stone, self.skin_radius)

    @property
    def flow(self) -> float:
        """All air drawn [m3/s]."""
        return sum(self.flows) + self.base_flow

    def at(self, x: float, y: float) -> float:
        """Suction [Pa] at a place [m].  Raises ValueError when it is off the slab."""
        weights = self.equations.reader.weights(x, y)
        total = read(weights, self.base) if self.base else 0.0
        for q, unit in zip(self.flows, self.units, strict=False):
            total += q * unit.at(x, y, weights)
        return total + self._skin(x, y)

    def _skin(self, x: float, y: float) -> float:
        if self.stone is None:
            return 0.0
        return sum(
            skin_field(self.stone, q, hypot(x - p.x, y - p.y), p.radius, self.skin_radius)
            for q, p in zip(self.flows, self.pits, strict=False)
        )

    def cells(self) -> list[float]:
        """Mean suction of every cell [Pa], without the stone's extra loss (which is felt only near a pit)."""
        total = list(self.base) if self.base else [0.0] * len(self.grid.places)
        for q, unit in zip(self.flows, self.units, strict=False):
            total = [t + q * v for t, v in zip(total, unit.cell_means(), strict=False)]
        return total

    def mean(self) -> float:
        """Mean suction over the slab [Pa]."""
        areas = self.grid.areas
        return sum(a * s for a, s in zip(areas, self.cells(), strict=False)) / sum(areas)

    def covered(self, target: float) -> float:
        """Share of the slab [1] with at least the target suction [Pa], counted by cells."""
        areas = self.grid.areas
        return sum(a for a, s in zip(areas, self.cells(), strict=False) if s >= target) / sum(areas)

    def unreached(self) -> float:
        """Share of the slab [1] that no pit and no tile reaches: parts behind sealed footings, or apart."""
        part = self.grid.parts()
        live = {part[self.grid.cell_at(pit.x, pit.y)] for pit in self.pits} | {
            part[cell] for cell in self.equations.held
        }
        areas = self.grid.areas
        return sum(a for a, p in zip(areas, part, strict=False) if p not in live) / sum(areas)

    def corners(self) -> list[tuple[Point, float]]:
        """Corners [m] in the order of the outline, with their suctions [Pa]."""
        return [(point, self.at(*point)) for point in self.grid.outline.corners]

    def weakest(self) -> Weakest:
        """The place of least suction among all cell middles and corners."""
        cells = self.cells()
        order = sorted(range(len(cells)), key=cells.__getitem__)
        candidates = [(x, y, s) for (x, y), s in self.corners()]
        for cell in order:
            x, y = self.grid.center(cell)
            if self.grid.outline.contains(x, y):
                candidates.append((x, y, cells[cell]))
                break
        return Weakest(*min(candidates, key=lambda c: c[2]))

    def map(self) -> FieldMap:
        """Suction at the middle of every cell that lies on the slab."""
        grid, cells = self.grid, self.cells()
        rows: list[list[float | None]] = [[None] * grid.nx for _ in range(grid.ny)]
        for cell, (i, j) in enumerate(grid.places):
            if grid.outline.contains(*grid.center(cell)):
                rows[j][i] = cells[cell]
        return FieldMap(grid.x0 + grid.h / 2, grid.y0 + grid.h / 2, grid.h, rows)

    def leaked(self) -> float:
        """Air that enters through slab, soil and joints [m3/s]; equals the flow drawn if the sums lose nothing."""
        return sum(self.leaks_by_cell())

    def leaks_by_cell(self) -> list[float]:
        """Air that enters at each cell [m3/s], at slab, soil and wall joint together."""
        grid = self.grid
        out = [leak * s for leak, s in zip(grid.leaks, self.cells(), strict=False)]
        for cell, middle, g in grid.wall_pieces:  # the joint feels the taken-out part at the wall, not the cell's mean
            for q, unit in zip(self.flows, self.units, strict=False):
                out[cell] += q * g * (unit.source.part_at(*middle) - unit.source.cell_part.get(cell, 0.0))
        return out

    def house_air_share(self, slab_leakance: float) -> float:
        """Share [1] of the air that comes from the house when ``slab_leakance`` [m/s/Pa] of the leakance is the slab's.

        Air through the wall joint counts as house air.  Raises ZeroDivisionError when no air is drawn.
        """
        soil = sum((self.grid.L - slab_leakance) * a * s for a, s in zip(self.grid.areas, self.cells(), strict=False))
        return 1 - soil / self.leaked()
