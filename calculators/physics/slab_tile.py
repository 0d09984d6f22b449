"""Pits and a drain tile together: the tile is a line of cells at the pit's suction less the friction on the way."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate
from math import dist, hypot, pi
from typing import NamedTuple

from .numerics import root
from .slab_cells import Cells
from .slab_field import Equations, Field, UnitField
from .slab_gravel import Stone
from .slab_grid import Grid
from .slab_outline import Point
from .slab_source import Pit

STEPS_PER_CELL = 16  # along the tile, when its cells are looked up
WITHIN = 1e-9  # change of the tile's suctions, as a share of the pit's, at which the iteration stops
MOST_STEPS = 100


class Tile(NamedTuple):
    """A perimeter drain tile ``offset`` [m] inside the walls, bore [m], Darcy friction factor [1], air [kg/m3]."""

    offset: float
    diameter: float
    friction_factor: float
    rho: float


class TileLoop(NamedTuple):
    """The tile on the grid: its cells in order from the pit round, and the length [m] from each to the next."""

    cells: list[int]
    lengths: list[float]


class Answer(NamedTuple):
    """Suctions [Pa] and flows [m3/s] of the pits in the order given, the field, and the tile's suctions [Pa]."""

    field: Field
    pit_suctions: list[float]
    pit_flows: list[float]
    tile: TileLoop | None
    tile_suctions: list[float]

    @property
    def flow(self) -> float:
        """All air drawn [m3/s]."""
        return sum(self.pit_flows)


def tile_loop(grid: Grid, tile: Tile, pit: Pit) -> TileLoop:
    """Cells of the tile inside the walls nearest to its pit.

    Raises ValueError when the line does not fit in the plan.
    """
    return _loop(grid.cells, tile.offset, (pit.x, pit.y))


@lru_cache(maxsize=2)
def _loop(cells: Cells, offset: float, pit: Point) -> TileLoop:
    """The same from geometry alone, kept between answers."""
    lines = [cells.outline.inset(offset, k) for k in range(len(cells.outline.loops))]
    line = min(lines, key=lambda points: min(dist(place, pit) for place in _walk(points, cells.h)))
    lengths: dict[int, float] = {}
    places: dict[int, tuple[float, float]] = {}
    before: tuple[float, float] | None = None
    for x, y in _walk(line, cells.h / STEPS_PER_CELL):
        cell = cells.index.get((int((x - cells.x0) / cells.h), int((y - cells.y0) / cells.h)))
        if cell is None:
            cell = cells.cell_at(x, y)
        if before is not None:
            lengths[cell] = lengths.get(cell, 0.0) + hypot(x - before[0], y - before[1])
        else:
            lengths[cell] = 0.0
        places.setdefault(cell, (x, y))
        before = (x, y)
    order = list(lengths)
    first = min(range(len(order)), key=lambda k: dist(places[order[k]], pit))
    order = order[first:] + order[:first]
    half = [lengths[c] / 2 for c in order]
    return TileLoop(order, [a + b for a, b in zip(half, half[1:] + half[:1], strict=False)])


def _walk(points: Sequence[tuple[float, float]], step: float) -> list[tuple[float, float]]:
    """Places along a closed line, no farther apart than a step, back to its beginning."""
    out = []
    for (ax, ay), (bx, by) in zip(points, [*points[1:], points[0]], strict=False):
        n = max(1, int(hypot(bx - ax, by - ay) / step) + 1)
        out += [(ax + (bx - ax) * k / n, ay + (by - ay) * k / n) for k in range(n)]
    return [*out, points[0]]


def loop_drops(inflows: Sequence[float], lengths: Sequence[float], tile: Tile) -> list[float]:
    """Suction lost [Pa] from the pit (first node) to each node of a loop that takes in ``inflows`` [m3/s].

    The two ways round share the flow so that both lose the same.  Raises ZeroDivisionError when the diameter is 0.
    Source: Darcy-Weisbach along the tile; momentum of the joining air is left out.
    """
    area = pi * tile.diameter**2 / 4
    per_metre = tile.friction_factor * tile.rho / (2 * tile.diameter * area * area)
    weights = [per_metre * length for length in lengths]
    joined = list(accumulate(inflows[1:], initial=0.0))  # before each stretch, one way round from the pit

    def lost(start: float) -> list[float]:
        """Along each stretch, when ``start`` [m3/s] flows in the first one."""
        return [w * (start - q) * abs(start - q) for w, q in zip(weights, joined, strict=True)]

    most = sum(abs(q) for q in inflows)
    if most == 0:
        return [0.0] * len(inflows)
    start = root(lambda q: sum(lost(q)), -most, most)
    return list(accumulate(lost(start)[:-1], initial=0.0))


@lru_cache(maxsize=2)
def factored(grid: Grid, held: tuple[int, ...] = ()) -> Equations:
    """The factored equations of a grid, kept: a pit that moves needs no new ones.  Nobody changes a grid once it is made."""
    return Equations(grid, held)


def solve_pits(grid: Grid, pits: Sequence[Pit], *, tile: Tile | None = None, stone: Stone | None = None) -> Answer:
    """Suctions and flows of pits on a slab, one of which may empty a perimeter tile (``on_tile``).

    The pit on the tile draws through the tile only.  Raises ValueError when a tile has no pit or two, when a pit has
    neither or both of flow and suction, lies off the slab, or the tile's friction does not settle.
    """
    on_tile = [k for k, pit in enumerate(pits) if pit.on_tile]
    if tile is None:
        if on_tile:
            raise ValueError("a pit is said to be on a tile, but there is no tile")
        field = Field(factored(grid), pits, stone=stone)
        return Answer(field, field.pit_suctions, field.flows, None, [])
    if len(on_tile) != 1:
        raise ValueError(f"one pit must be on the tile, found {len(on_tile)}")
    pit = pits[on_tile[0]]
    if (pit.flow is None) == (pit.suction is None):
        raise ValueError("a pit needs either a flow or a suction")
    others = [p for p in pits if not p.on_tile]
    loop = tile_loop(grid, tile, pit)
    equations = factored(grid, tuple(loop.cells))
    field, suction, flow, held = _settle(equations, loop, tile=tile, pit=pit, others=others, stone=stone)
    suctions, flows = list(field.pit_suctions), list(field.flows)
    suctions.insert(on_tile[0], suction)
    flows.insert(on_tile[0], flow)
    return Answer(field, suctions, flows, loop, held)


def _settle(
    equations: Equations, loop: TileLoop, *, tile: Tile, pit: Pit, others: Sequence[Pit], stone: Stone | None
) -> tuple[Field, float, float, list[float]]:
    """Fixed point of tile suction and intake: field, pit suction, flow, tile suctions."""
    one = equations.solve({}, dict.fromkeys(loop.cells, 1.0))
    conductance = sum(equations.drawn(cell, one, {}) for cell in loop.cells)
    suction = pit.suction if pit.suction is not None else (pit.flow or 0.0) / conductance
    drops, held = [0.0] * len(loop.cells), [suction] * len(loop.cells)
    base = [suction * value for value in one]
    share, last = 1.0, float("inf")
    units: list[UnitField] | None = None
    for _ in range(MOST_STEPS):
        inflows = [equations.drawn(cell, base, {}) for cell in loop.cells]
        field = Field(equations, others, stone=stone, base=base, units=units)
        units = field.units
        for q, unit in zip(field.flows, field.units, strict=False):
            inflows = [
                a + q * equations.drawn(c, unit.values, unit.source.right)
                for a, c in zip(inflows, loop.cells, strict=False)
            ]
            # The taken-out part leaks at a held cell too; ``drawn`` has it in the right side already.
        flow = sum(inflows)
        field.base_flow = flow
        wanted = loop_drops(inflows, loop.lengths, tile)
        change = max(abs(a - b) for a, b in zip(wanted, drops, strict=False))
        if pit.flow is not None:
            step = (pit.flow - flow) / conductance
            suction += step
            change = max(change, abs(step))
        if change <= WITHIN * abs(suction) or suction == 0:
            return field, suction, flow, held
        share = share / 2 if change > last else share
        last = change
        drops = [old + share * (new - old) for old, new in zip(drops, wanted, strict=False)]
        held = [suction - drop for drop in drops]
        base = equations.solve({}, dict(zip(loop.cells, held, strict=False)))
    raise ValueError("the suction along the tile does not settle: its friction is too great for this flow")
