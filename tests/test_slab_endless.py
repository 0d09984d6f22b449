"""The endless slab for short leakage lengths, beside the cells where both hold."""

from math import hypot, pi

import pytest
from scipy.special import k0

from calculators.physics.slab_closed import endless_slab
from calculators.physics.slab_endless import EndlessField
from calculators.physics.slab_field import Equations, Field
from calculators.physics.slab_grid import Grid
from calculators.physics.slab_outline import Outline
from calculators.physics.slab_source import Pit

LAYER, LENGTH = 5e-5, 1.5
PLAN = Outline([(0.0, 0.0, 14.0, 14.0)])
PITS = [Pit(5.0, 7.0, 0.1, suction=100.0), Pit(9.0, 7.0, 0.2, suction=80.0)]


def test_cells_and_endless_slab_agree_away_from_walls() -> None:
    """B = 1.5 m on 0.25 m cells, walls over three lengths away: flows and suctions within 1 percent."""
    grid = Grid(PLAN, h=0.25, T=LAYER, L=LAYER / LENGTH**2)
    cells, endless = Field(Equations(grid), PITS), EndlessField(PITS, T=LAYER, B=LENGTH)
    assert endless.flows == pytest.approx(cells.flows, rel=0.01)
    for x, y in ((7.0, 7.0), (5.5, 8.0), (9.0, 9.0)):
        assert endless.at(x, y) == pytest.approx(cells.at(x, y), rel=0.01)


def test_given_suctions_are_met_and_flows_are_the_closed_form() -> None:
    """Two pits have the suctions asked for; one alone is K0."""
    assert EndlessField(PITS, T=LAYER, B=1.0).pit_suctions == pytest.approx([100.0, 80.0], rel=1e-12)
    one = EndlessField([PITS[0]._replace(suction=None, flow=0.01)], T=LAYER, B=1.0)
    assert one.at(7.0, 7.0) == pytest.approx(endless_slab(r=2.0, Q=0.01, T=LAYER, B=1.0), rel=1e-12)


def test_squares_cover_the_plan() -> None:
    """Areas of the squares add up to the slab, and what leaks over it is the flow (1 percent at 0.1 m)."""
    one = EndlessField([Pit(7.05, 7.05, 0.01, flow=0.01)], T=LAYER, B=1.0)
    squares = one.over(PLAN, 0.1)
    assert sum(area for _, _, area, _ in squares) == pytest.approx(PLAN.area)
    assert sum(area * s * LAYER for _, _, area, s in squares) == pytest.approx(0.01, rel=0.01)


def test_each_square_has_the_suction_of_its_middle() -> None:
    """Squares of one plan with a cut rim: their middles lie on the raster, and the suction there is Q K0(r/B)/(2 pi T).

    K0 is SciPy's; De Glee's solution, 1e-9 for its rounding.
    """
    pit = Pit(2.0, 1.2, 0.1, flow=0.01)
    squares = EndlessField([pit], T=LAYER, B=1.0).over(Outline([(0.5, 0.25, 4.0, 2.3)]), 0.4)
    assert [(x, y) for x, y, _, _ in squares] == [
        pytest.approx((0.7 + 0.4 * i, 0.45 + 0.4 * j)) for j in range(6) for i in range(10)
    ]
    for x, y, _, s in squares:
        r = max(hypot(x - pit.x, y - pit.y), pit.radius)
        assert s == pytest.approx(0.01 / (2 * pi * LAYER) * k0(r / 1.0), rel=1e-9)


def test_the_middle_of_an_angle_is_its_centre_of_gravity() -> None:
    """4 m2 at (2, 0.5) and 2 m2 at (0.5, 2) balance at (1.5, 1)."""
    assert Outline([(0.0, 0.0, 4.0, 1.0), (0.0, 1.0, 1.0, 2.0)]).middle_in(-1, -1, 5, 5) == pytest.approx((1.5, 1.0))


def test_it_refuses_what_has_no_meaning() -> None:
    """No layer, no leakage length, or a pit without flow and suction."""
    for T, B in ((0.0, 1.0), (LAYER, 0.0)):
        with pytest.raises(ValueError, match="above 0"):
            EndlessField(PITS, T=T, B=B)
    with pytest.raises(ValueError, match="either a flow or a suction"):
        EndlessField([Pit(1.0, 1.0, 0.1)], T=LAYER, B=1.0)
