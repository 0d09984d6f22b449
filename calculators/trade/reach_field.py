"""The suction of a plan, on cells or, where it dies within a few steps, as in an endless slab; read in one way."""

from collections.abc import Callable
from functools import lru_cache
from math import hypot, inf
from typing import Any, NamedTuple

from ..declare import Refusal
from ..physics.slab_cells import crosses
from ..physics.slab_endless import EndlessField
from ..physics.slab_field import Field, FieldMap, Weakest
from ..physics.slab_gravel import inertia_ratio
from ..physics.slab_grid import Footing, Grid, OutsideGrid, cell_size
from ..physics.slab_outline import Point, Rectangle, outline_of
from ..physics.slab_solve import SingularMatrix
from ..physics.slab_tile import Answer, solve_pits
from ..span import Span
from ..units import from_si
from .reach_layer import Sheet, factor
from .reach_plan import Plan

MOST_INERTIA, AT = 3.0, 1.0  # inertial over viscous slope, at 1 m from the pit: beyond it the model is not used
SQUARES = 39  # along the long side, for the endless slab's map


class Reach(NamedTuple):
    """What was solved: plan, sheet, the suction at a place [m], and the sums over the slab."""

    plan: Plan
    sheet: Sheet
    at: Callable[[float, float], float]
    flows: list[float]
    suctions: list[float]
    weakest: Weakest
    mean: float
    covered: Callable[[float], float]
    corners: list[tuple[Point, float]]
    unreached: float
    house_air: float | None
    map: Callable[[], FieldMap]
    endless: bool
    tile_suctions: list[float]

    @property
    def flow(self) -> float:
        """All air drawn [m3/s]."""
        return sum(self.flows)

    def factor_at(self, x: float, y: float) -> float:
        """How many times [1] the suction at a place [m] may be larger or smaller."""
        holes = self.sheet.holes
        if not holes:
            return self.sheet.factor
        lines = [((f.x1, f.y1), (f.x2, f.y2)) for f in self.plan.footings if f.tightness > 0]
        tested = any(not any(crosses((h.x, h.y), (x, y), a, b) for a, b in lines) for h in holes)
        return self.sheet.factor if tested else max(self.sheet.factor, factor("fitted-from-three"))

    def span(self, x: float, y: float, value: float | None = None) -> Any:
        """Suction [Pa] at a place [m] with its range; in a pit of known suction it has none."""
        for pit, suction in zip(self.plan.pits, self.suctions, strict=True):
            if hypot(x - pit.x, y - pit.y) <= pit.radius and not pit.on_tile:
                return suction if pit.suction is not None else self.ranged(suction, capped=False)
        found = self.at(x, y) if value is None else value
        return self.ranged(found, self.factor_at(x, y))

    def ranged(self, value: float, times: float = 0.0, *, capped: bool = True) -> Span:
        """A suction or flow with its range; a suction is not above that of the strongest pit."""
        times = times or self.sheet.factor
        ends = sorted((value / times, value * times))
        high = min(ends[1], max(self.suctions)) if capped else ends[1]
        why = (
            self.sheet.why
            if times == self.sheet.factor
            else "beyond a footing that no test hole looks past: 2 times either way"
        )
        return Span(value, ends[0], high, why)


def reach_of(plan: Plan, sheet: Sheet, joint: float) -> Reach:
    """Solve a plan.  Raises Refusal where nothing leaks, stone is too open for the flow, or no cells are fine enough."""
    if sheet.L == 0 and joint == 0:
        raise _tight()
    try:
        h = cell_size(plan.outline, sheet.B or inf)
    except OutsideGrid:
        return _endless(plan, sheet)
    grid = _grid(plan.rectangles, h, sheet.T, sheet.L, joint, tuple(plan.footings))
    try:
        found = solve_pits(grid, plan.pits, tile=plan.tile, stone=sheet.stone)
    except SingularMatrix:
        raise _tight() from None
    except ValueError:
        raise Refusal(
            "tile" if plan.tile else "pits",
            "flow and suction do not settle in this plan: "
            + ("the tile's friction is too great for its air" if plan.tile else "the air in the stone is too fast"),
            accepts="less flow, a wider tile, or more pits" if plan.tile else "less flow or more pits",
            kind="outside-model",
        ) from None
    _stone_holds(plan, sheet, found.pit_flows)
    return _on_cells(plan, sheet, found)


@lru_cache(maxsize=2)
def _grid(
    rectangles: tuple[Rectangle, ...], h: float, T: float, L: float, joint: float, footings: tuple[Footing, ...]
) -> Grid:
    """The cells, kept: a change of a pit needs no new ones.  Nobody changes a grid once it is made."""
    return Grid(outline_of(rectangles), h=h, T=T, L=L, joint=joint, footings=list(footings))


def _tight() -> Refusal:
    return Refusal(
        "slab_leakance",
        "nothing leaks here: a slab that lets in no air has one pressure and no reach",
        found="no leakage",
        accepts="some leakage of slab, soil or wall joint",
        kind="outside-model",
    )


def _on_cells(plan: Plan, sheet: Sheet, found: Answer) -> Reach:
    field: Field = found.field
    share = None
    if sheet.soil is not None and field.leaked() > 0:
        share = field.house_air_share(max(0.0, sheet.L - sheet.soil))
    return Reach(
        plan, sheet, field.at, found.pit_flows, found.pit_suctions, field.weakest(), field.mean(), field.covered,
        field.corners(), field.unreached(), share, field.map, endless=False, tile_suctions=found.tile_suctions,
    )  # fmt: skip


def _stone_holds(plan: Plan, sheet: Sheet, flows: list[float]) -> None:
    if sheet.stone is None:
        return
    for k, (pit, flow) in enumerate(zip(plan.pits, flows, strict=True)):
        ratio = inertia_ratio(sheet.stone, abs(flow), AT)
        if not pit.on_tile and ratio > MOST_INERTIA:
            raise Refusal(
                "gravel",
                f"at 1 m from pits[{k}] the air is so fast that speed costs {ratio:.2g} times what friction does; "
                f"this is worked out up to {MOST_INERTIA:g} times only",
                found=f"{from_si(flow, 'cfm'):.3g} cfm",
                accepts="less flow, more pits, or a thicker layer",
                kind="outside-model",
            )


def _endless(plan: Plan, sheet: Sheet) -> Reach:
    """As in a slab without end: for leakage lengths too short for cells, where walls hardly matter."""
    B = sheet.B or inf
    for field, there in (
        ("tile", plan.tile is not None),
        ("footings", any(f.tightness > 0 for f in plan.footings)),
        ("slab", len(plan.outline.loops) > 1),
        ("gravel", sheet.stone is not None),
    ):
        if there:
            raise Refusal(
                field,
                "suction dies away here within so few steps that no cells are fine enough for this plan, and without "
                "cells this cannot be counted",
                found=f"leakage length {from_si(B, 'ft'):.3g} ft",
                accepts="a longer leakage length, a smaller slab, or the plan without it",
                kind="outside-model",
            )
    try:
        field_ = EndlessField(plan.pits, T=sheet.T, B=B)
    except (SingularMatrix, ValueError) as error:
        raise Refusal("pits", str(error), kind="outside-model") from None
    x1, y1, x2, y2 = plan.outline.box
    step = max(x2 - x1, y2 - y1) / SQUARES
    squares = field_.over(plan.outline, step)
    corners = [(c, field_.at(*c)) for c in plan.outline.corners]
    inside = [s for s in squares if plan.outline.contains(s[0], s[1])]
    least = min([(x, y, s) for x, y, _, s in inside] + [(*c, s) for c, s in corners], key=lambda one: one[2])
    whole = sum(area for _, _, area, _ in squares)

    def covered(target: float) -> float:
        return sum(area for _, _, area, s in squares if s >= target) / whole

    def drawn() -> FieldMap:
        nx, ny = int((x2 - x1) / step - 1e-9) + 1, int((y2 - y1) / step - 1e-9) + 1
        rows: list[list[float | None]] = [[None] * nx for _ in range(ny)]
        for x, y, _, s in inside:
            rows[int((y - y1) / step)][int((x - x1) / step)] = s
        return FieldMap(x1 + step / 2, y1 + step / 2, step, rows)

    share = None if sheet.soil is None or not sheet.L else 1 - min(1.0, sheet.soil / sheet.L)
    return Reach(
        plan, sheet, field_.at, field_.flows, field_.pit_suctions, Weakest(*least),
        sum(area * s for _, _, area, s in squares) / whole, covered, corners, 0.0, share, drawn, endless=True, tile_suctions=[],
    )  # fmt: skip
