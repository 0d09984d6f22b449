"""Layer and leakage from test holes: what went in comes out, and what cannot be told is refused."""

import random
from math import exp

import pytest

from calculators.physics.slab_field import Equations, Field
from calculators.physics.slab_fit import Hole, TooFewHoles, fit_test
from calculators.physics.slab_grid import Footing, Grid
from calculators.physics.slab_outline import Outline
from calculators.physics.slab_source import Pit

PLAN = Outline([(0.0, 0.0, 12.0, 9.0)])
LAYER, LENGTH = 3e-5, 6.0
PIT = Pit(3.0, 3.0, 0.1, flow=0.02)
PLACES = [(1.0, 8.0), (6.0, 4.0), (11.0, 8.0), (9.0, 1.0), (11.0, 1.0)]
BASELINE = -4.0


def holes(joint: float = 0.0, footings: tuple[Footing, ...] = ()) -> list[Hole]:
    """Readings without noise, made on finer cells than the fit uses."""
    grid = Grid(PLAN, h=0.25, T=LAYER, L=LAYER / LENGTH**2, joint=joint, footings=list(footings))
    field = Field(Equations(grid), [PIT])
    return [Hole(x, y, field.at(x, y) + BASELINE, BASELINE, f"hole {k}") for k, (x, y) in enumerate(PLACES)]


@pytest.mark.parametrize("joint", [0.0, 1e-6])
def test_clean_readings_give_the_layer_back(joint: float) -> None:
    """T and B within 1 percent, with a footing across the plan too; fit on 0.5 m cells, readings from 0.25 m cells."""
    for footings in ((), (Footing(8.0, 0.0, 8.0, 9.0, 0.5),)):
        found = fit_test(PLAN, PIT, holes(joint, footings), joint=joint, footings=footings)
        assert pytest.approx(LAYER, rel=0.01) == found.T
        assert pytest.approx(LENGTH, rel=0.01) == found.B
        assert not found.at_limit
        assert found.spread is not None
        assert found.spread < 0.003


def test_scaling_every_reading_scales_the_layer_alone() -> None:
    """Twice the suctions at the same flow is half of T, the same B, the same residuals."""
    plain = fit_test(PLAN, PIT, holes())
    double = fit_test(PLAN, PIT, [h._replace(suction=BASELINE + 2 * (h.suction - BASELINE)) for h in holes()])
    assert pytest.approx(plain.T / 2, rel=1e-9) == double.T
    assert pytest.approx(plain.B, rel=1e-9) == double.B


def test_noise_moves_the_pair_but_less_the_field() -> None:
    """20 percent noise: T scatters by more than the suction predicted at an untested far corner does."""
    clean = Field(Equations(Grid(PLAN, h=0.5, T=LAYER, L=LAYER / LENGTH**2)), [PIT]).at(12.0, 9.0)
    dice = random.Random(4)
    layers, corners, held = [], [], 0
    for _ in range(8):
        noisy = [h._replace(suction=BASELINE + (h.suction - BASELINE) * exp(dice.gauss(0, 0.2))) for h in holes()]
        found = fit_test(PLAN, PIT, noisy)
        layers.append(found.T / LAYER)
        grid = Grid(PLAN, h=0.5, T=found.T, L=found.T / found.B**2)
        corners.append(Field(Equations(grid), [PIT]).at(12.0, 9.0) / clean)
        assert found.T_range is not None
        held += found.T_range[0] <= LAYER <= found.T_range[1]
    assert max(corners) / min(corners) < max(layers) / min(layers)
    assert all(0.6 < ratio < 1.6 for ratio in corners)
    assert held >= 4


def test_holes_without_extension_are_dropped_by_name() -> None:
    """A reading not above its baseline has no logarithm: the hole is left out and named."""
    bad = Hole(2.0, 2.0, BASELINE - 1, BASELINE, "by the stair")
    found = fit_test(PLAN, PIT, [*holes(), bad])
    assert found.dropped == ["by the stair"]
    assert pytest.approx(LAYER, rel=0.01) == found.T


def test_too_few_holes_are_refused() -> None:
    """Three usable holes are needed, two when the leakage length is given."""
    with pytest.raises(TooFewHoles, match="2 usable test holes, 3"):
        fit_test(PLAN, PIT, holes()[:2])
    given = fit_test(PLAN, PIT, holes()[:2], B=LENGTH)
    assert pytest.approx(LAYER, rel=0.01) == given.T
    assert pytest.approx(LENGTH) == given.B
    with pytest.raises(TooFewHoles, match="1 usable test holes, 2"):
        fit_test(PLAN, PIT, holes()[:1], B=LENGTH)
    with pytest.raises(ValueError, match="test flow"):
        fit_test(PLAN, PIT._replace(flow=None, suction=100.0), holes())


def test_readings_that_do_not_fall_say_that_the_leakage_length_is_not_found() -> None:
    """All holes alike: any long leakage length fits, and the fit ends at its limit and says so."""
    flat = [Hole(x, y, 50.0) for x, y in PLACES]
    assert fit_test(PLAN, PIT, flat).at_limit
