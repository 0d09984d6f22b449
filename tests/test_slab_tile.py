"""The drain tile on the grid against exact strips, its friction, and pits beside it."""

from math import cosh, pi, tanh

import pytest

from calculators.physics.slab_gravel import Stone, skin_field
from calculators.physics.slab_grid import Footing, Grid, cell_size
from calculators.physics.slab_outline import Outline
from calculators.physics.slab_source import Pit
from calculators.physics.slab_tile import Tile, loop_drops, solve_pits, tile_loop

T = 5e-5  # m3/s/Pa
SMOOTH = Tile(offset=0.25, diameter=10.0, friction_factor=0.02, rho=1.2)  # so wide that friction is nothing
FOUR_INCH = Tile(offset=0.15, diameter=0.1016, friction_factor=0.06, rho=1.2)
STONE = Stone(k=2e-8, b=0.1, c=20.0, mu=1.8e-5)
L_HOUSE = [(0.0, 0.0, 12.0, 9.0), (12.0, 3.0, 4.0, 5.0)]


def house(h: float | None = None) -> Grid:
    """The L-shaped house with a footing between the wings and a hairline wall joint."""
    outline = Outline(L_HOUSE)
    T, L = 1.1e-5, 2.8e-7
    size = h or cell_size(outline, (T / L) ** 0.5)
    return Grid(outline, h=size, T=T, L=L, joint=3e-7, footings=[Footing(12, 3, 12, 8, 0.9)])


def on_stone() -> Grid:
    """A slab of 12 by 9 m on open stone, leakage length 8 m."""
    T = STONE.k * STONE.b / STONE.mu
    return Grid(Outline([(0.0, 0.0, 12.0, 9.0)]), h=0.5, T=T, L=T / 8.0**2)


@pytest.mark.parametrize(
    ("B", "h", "tolerance"),
    [(5.0, 0.5, 0.002), (5.0, 0.25, 0.001), (2.0, 0.5, 0.007), (2.0, 0.25, 0.002)],
)
def test_a_long_slab_with_a_tile_all_round_is_the_strip(B: float, h: float, tolerance: float) -> None:
    """Middle over edge is 1/cosh, flow per metre is tanh on both sides of the line; 60 by 9 m, tile h/2 inside.

    The tolerances are those of a line that sits at the middle of a cell.
    """
    a, offset, edge = 4.5, h / 2, 100.0
    grid = Grid(Outline([(0.0, 0.0, 60.0, 2 * a)]), h=h, T=T, L=T / B**2)
    tile = SMOOTH._replace(offset=offset)
    found = solve_pits(grid, [Pit(0.3, a, 0.1, suction=edge, on_tile=True)], tile=tile)
    assert found.field.at(30.0, a) == pytest.approx(edge / cosh((a - offset) / B), rel=tolerance)
    column = int(30.0 / h)
    flow = sum(q for q, (i, _) in zip(found.field.leaks_by_cell(), grid.places, strict=True) if i == column) / h
    wanted = 2 * edge * T / B * (tanh((a - offset) / B) + tanh(offset / B))
    assert flow == pytest.approx(wanted, rel=tolerance)


@pytest.mark.parametrize(("offset", "h"), [(0.25, 0.5), (0.3, 0.4), (0.15, 0.37)])
def test_the_tile_is_as_long_as_its_line(offset: float, h: float) -> None:
    """Inside all walls of a plan of right angles the line is eight offsets shorter than the walls: 50 m here."""
    found = tile_loop(house(h), FOUR_INCH._replace(offset=offset), Pit(0.15, 4.0, 0.2, suction=125.0, on_tile=True))
    assert sum(found.lengths) == pytest.approx(50 - 8 * offset, rel=1e-9)


def test_tile_flow_is_what_leaks_and_what_its_nodes_take_in() -> None:
    """Mass balance to 1e-10 with tile, footing, joint and a second pit."""
    pits = [Pit(0.15, 4.0, 0.2, suction=125.0, on_tile=True), Pit(14.0, 5.0, 0.1, flow=0.003)]
    found = solve_pits(house(), pits, tile=FOUR_INCH)
    assert found.field.leaked() == pytest.approx(found.flow, rel=1e-10)
    assert found.pit_suctions[0] == 125.0
    assert found.pit_flows[1] == 0.003


def test_flow_and_suction_of_the_tile_pit_are_two_ways_to_say_the_same() -> None:
    """The flow that a suction draws gives that suction back."""
    given = solve_pits(house(), [Pit(0.15, 4.0, 0.2, suction=125.0, on_tile=True)], tile=FOUR_INCH)
    back = solve_pits(house(), [Pit(0.15, 4.0, 0.2, flow=given.flow, on_tile=True)], tile=FOUR_INCH)
    assert back.pit_suctions[0] == pytest.approx(125.0, rel=1e-7)


def test_a_loop_shares_its_flow_so_that_both_ways_lose_alike() -> None:
    """Even intake round a 40 m loop: the far point has lost f L/D rho V0^2/6 of one leg (1 percent at 80 nodes)."""
    n, Q, length = 80, 0.0236, 40.0
    drops = loop_drops([Q / n] * n, [length / n] * n, FOUR_INCH)
    area = pi * FOUR_INCH.diameter**2 / 4
    leg = FOUR_INCH.friction_factor * (length / 2) / FOUR_INCH.diameter * FOUR_INCH.rho * (Q / 2 / area) ** 2 / 2 / 3
    assert max(drops) == pytest.approx(leg, rel=0.02)
    assert drops.index(max(drops)) in (n // 2 - 1, n // 2, n // 2 + 1)
    assert drops[0] == 0


def test_friction_grows_along_the_tile_and_vanishes_with_its_width() -> None:
    """A wide tile is one pressure; a rough narrow one loses most at the far side; cells do not matter."""
    pit = [Pit(0.15, 4.0, 0.2, suction=125.0, on_tile=True)]
    wide = solve_pits(house(), pit, tile=SMOOTH)
    assert min(wide.tile_suctions) == pytest.approx(125.0, rel=1e-9)
    rough = solve_pits(house(), pit, tile=FOUR_INCH._replace(friction_factor=0.5, diameter=0.06))
    assert min(rough.tile_suctions) < 110
    assert rough.flow < wide.flow
    coarse, fine = (solve_pits(house(h), pit, tile=FOUR_INCH) for h in (0.5, 0.25))
    assert coarse.flow == pytest.approx(fine.flow, rel=0.01)


def test_a_tile_needs_one_pit_and_room() -> None:
    """No pit on the tile, two of them, or a plan too narrow for the line are refused."""
    grid = house()
    on = Pit(0.15, 4.0, 0.2, suction=125.0, on_tile=True)
    with pytest.raises(ValueError, match="one pit must be on the tile"):
        solve_pits(grid, [on._replace(on_tile=False)], tile=FOUR_INCH)
    with pytest.raises(ValueError, match="one pit must be on the tile"):
        solve_pits(grid, [on, on], tile=FOUR_INCH)
    with pytest.raises(ValueError, match="there is no tile"):
        solve_pits(grid, [on])
    with pytest.raises(ValueError, match="does not fit"):
        solve_pits(grid, [on], tile=FOUR_INCH._replace(offset=3.0))


def test_what_stone_costs_two_pits_adds_up_by_their_distance() -> None:
    """Two pits 5 m apart (3 by 4 m) in open stone: each has its own extra part and the other's at 5 m.

    The extra part is the closed form that test_reference_slab.py compares with the whole equation.
    """
    grid = on_stone()
    pits = [Pit(3.0, 2.0, 0.25, flow=0.02), Pit(6.0, 6.0, 0.1, flow=0.01)]
    found, darcy = solve_pits(grid, pits, stone=STONE), solve_pits(grid, pits)
    R = (12 * 9 / pi) ** 0.5
    for k, pit in enumerate(pits):
        other = pits[1 - k]
        extra = skin_field(STONE, pit.flow, pit.radius, pit.radius, R) + skin_field(STONE, other.flow, 5.0, other.radius, R)
        assert found.pit_suctions[k] - darcy.pit_suctions[k] == pytest.approx(extra, rel=1e-6)
        assert found.field.at(pit.x, pit.y) == pytest.approx(found.pit_suctions[k], rel=1e-9)


def test_open_stone_needs_more_suction_for_the_same_flow() -> None:
    """The squared part is added at the bore, flow and suction say the same, far places hardly feel it."""
    grid = on_stone()
    by_flow = solve_pits(grid, [Pit(4.0, 4.0, 0.25, flow=0.0236)], stone=STONE)
    darcy = solve_pits(grid, [Pit(4.0, 4.0, 0.25, flow=0.0236)])
    assert by_flow.pit_suctions[0] > 1.2 * darcy.pit_suctions[0]
    assert by_flow.field.at(10.0, 8.0) == pytest.approx(darcy.field.at(10.0, 8.0), rel=0.03)
    back = solve_pits(grid, [Pit(4.0, 4.0, 0.25, suction=by_flow.pit_suctions[0])], stone=STONE)
    assert back.flow == pytest.approx(0.0236, rel=1e-9)
