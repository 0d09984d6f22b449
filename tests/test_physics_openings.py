"""Holes and gaps: the printed orifice examples, and the limits of the one gap law."""

from itertools import pairwise
from math import sqrt

import pytest

from calculators.physics import openings, pipe, slab_closed
from calculators.units import factor, si
from published import Check

AIR = {"mu": 1.8e-5, "rho": 1.2}
LID = {"C": 0.61, "dp": 125.0, "z": 0.010, **AIR}

CHECKS = [
    # Orifice examples with water; the second coefficient is contraction times velocity.
    Check("openings-pound-minute", "openings", "orifice-examples", "Example 3.2, page 71",
          lambda: si("261 lb") / 60 / 1000 / openings.orifice_flow_head(C=1, A=factor("in") ** 2, h=si("4 ft")),
          0.625, 0.001,
          "printed to three digits"),
    Check("openings-jet", "openings", "orifice-examples", "60 mm orifice under 6 m",
          lambda: openings.orifice_flow_head(C=0.68 * 0.92, A=pipe.circle_area(D=0.060), h=6.0), 0.0192, 0.0001,
          "printed to three digits", "m3/s"),
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_published(check: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert check.holds(), str(check)


@pytest.mark.parametrize(("mm", "V"), [(0.5, 6.52), (1, 8.16), (2, 8.64), (3, 8.73), (6, 8.79)])
def test_gap_law_between_its_limits(mm: float, V: float) -> None:
    """A gap through a 10 mm lid at 125 Pa: speeds worked out apart from this code, rising to the orifice's 8.80 m/s."""
    assert openings.gap_speed(w=mm / 1000, **LID) == pytest.approx(V, abs=0.006)


def test_a_wider_gap_never_passes_less() -> None:
    """There is no jump between narrow and wide: flow per metre rises with every step of width."""
    flows = [w * openings.gap_speed(w=w, **LID) for w in [k * 2e-5 for k in range(1, 1000)]]
    assert all(a < b for a, b in pairwise(flows))


def test_a_wide_gap_is_an_orifice_and_a_narrow_one_a_laminar_slot() -> None:
    """The limits of the gap law are the orifice equation and flow between plates."""
    wide = openings.gap_speed(w=0.5, **LID)
    assert wide == pytest.approx(0.61 * sqrt(2 * 125 / 1.2), rel=1e-5)
    narrow = openings.gap_speed(w=2e-5, **LID) * 2e-5
    assert narrow == pytest.approx(125 * slab_closed.joint_conductance(w=2e-5, mu=1.8e-5, z=0.010), rel=1e-3)


def test_the_pressure_that_drives_the_speed_is_the_one_given() -> None:
    """The law solved for speed and put back gives the pressure again."""
    for w in (1e-5, 1e-3, 1e-1):
        V = openings.gap_speed(w=w, **LID)
        assert openings.gap_pressure(V=V, w=w, **{k: v for k, v in LID.items() if k != "dp"}) == pytest.approx(125.0)


def test_regime_turns_at_half_of_the_pressure() -> None:
    """A gap is called viscous while wall friction takes over half of the pressure."""
    for w in (2e-4, 4e-4, 6e-4, 1e-3):
        V = openings.gap_speed(w=w, **LID)
        wall = 12 * LID["mu"] * LID["z"] * V / w**2
        assert openings.gap_regime(w=w, **LID) == ("viscous" if wall > 125 / 2 else "orifice")
    assert openings.gap_regime(w=1e-4, **LID) == "viscous"
    assert openings.gap_regime(w=6e-3, **LID) == "orifice"


def test_turning_the_pressure_round_turns_the_flow_round() -> None:
    """Gaps and holes pass as much one way as the other."""
    gap, hole = openings.Gap(0.002, 1.0, 0.01), openings.Hole(0.001)
    for opening in (gap, hole):
        assert openings.opening_flow(opening, s=-50, **AIR) == -openings.opening_flow(opening, s=50, **AIR)
        assert openings.opening_flow(opening, s=0, **AIR) == 0


def test_openings_side_by_side_add() -> None:
    """The flow of a set of openings is the sum of its members, and so is the area."""
    some = [openings.Gap(0.003, 1.9, 0.01), openings.Hole(5e-4), openings.annulus(hole=0.060, pipe=0.048, depth=0.01)]
    assert openings.openings_flow(some, s=125, **AIR) == pytest.approx(
        sum(openings.opening_flow(o, s=125, **AIR) for o in some)
    )
    assert openings.openings_area(some) == pytest.approx(
        0.0057 + 5e-4 + pipe.circle_area(D=0.060) - pipe.circle_area(D=0.048)
    )


def test_annulus_has_the_area_between_the_circles() -> None:
    """Width times mean length is the ring's area: a 48 mm pipe in a 60 mm hole leaves 10 cm2."""
    ring = openings.annulus(hole=0.060, pipe=0.048, depth=0.01)
    assert openings.gap_area(w=ring.width, L=ring.length) == pytest.approx(10.2e-4, rel=0.01)
    with pytest.raises(ValueError, match="does not go through"):
        openings.annulus(hole=0.048, pipe=0.060, depth=0.01)


def test_feel_for_areas() -> None:
    """One square inch passes 12.0 cfm at half an inch of water, 10 cm2 pass 18.7 cfm at 125 Pa."""
    inch = openings.orifice_flow(C=0.61, A=factor("in") ** 2, dp=si("0.5 in WC"), rho=1.2)
    assert inch / factor("cfm") == pytest.approx(12.0, abs=0.05)
    assert openings.orifice_flow(C=0.61, A=1e-3, dp=125, rho=1.2) / factor("cfm") == pytest.approx(18.7, abs=0.05)


def test_orifice_area_and_pressure_undo_the_flow() -> None:
    """Area and pressure are found again from the flow that they give."""
    Q = openings.orifice_flow(C=0.61, A=3e-3, dp=40, rho=1.2)
    assert openings.orifice_area(Q=Q, C=0.61, dp=40, rho=1.2) == pytest.approx(3e-3)
    assert openings.orifice_pressure(rho=1.2, Q=Q, C=0.61, A=3e-3) == pytest.approx(40)
    assert openings.coefficient_of_loss(K=1.5) == pytest.approx(0.8165, abs=1e-4)
