"""Radon in a room, the drain tile as a loop, and runs of pipe."""

from math import pi

import pytest

from calculators.physics import pipe, radon, runs, tile_loop
from calculators.units import factor, si
from published import Check

HOUR, DAY, CFM = 3600.0, 86400.0, factor("cfm")
ICRP = 6.7e-9 / HOUR  # Sv m3/(Bq s) of radon gas at F 0.4
LAM = radon.RADON_DECAY

CHECKS = [
    Check("radon-unit", "radon", "eur-respir-2017", "Table 1, 4 pCi/L", lambda: 4 * factor("pCi/L"), 148, 1e-9,
          "exact by definition of the curie", "Bq/m3"),
    Check("radon-survey", "radon", "marcinowski-1994", "abstract, arithmetic mean", lambda: 1.25 * factor("pCi/L"),
          46.3, 0.1, "the abstract converts from more digits", "Bq/m3"),
    Check("radon-working-level", "radon", "beir-vii", "glossary, working level",
          lambda: radon.alpha_energy(EEC=100 * factor("pCi/L")), 2.08e-5, 1e-12, "exact: 100 pCi/L in equilibrium",
          "J/m3"),
    Check("radon-working-month", "radon", "beir-vii", "glossary, working-level month",
          lambda: radon.exposure(c_p=radon.WORKING_LEVEL, t=radon.WORKING_MONTH) / HOUR, 3.5e-3, 0.05e-3, "printed to two digits", "J h/m3"),
    Check("radon-dose-icrp", "radon", "icrp-137", "summary, 300 Bq/m3 for 2,000 h",
          lambda: radon.dose(k=ICRP, C=300, t=2000 * HOUR) * 1000, 4, 0.05, "printed to one digit", "mSv"),
    Check("radon-coefficient-icrp", "radon", "icrp-137", "coefficient of radon gas at F 0.4",
          lambda: 3 * radon.alpha_energy(EEC=radon.equilibrium_concentration(F=0.4, C=1)) * 1e3 * 1e6, 6.7, 0.1,
          "3 mSv per mJ h/m3; the publication takes 5.56e-6 mJ per Bq, we 5.62e-6 from the rounded working level",
          "nSv/(Bq h/m3)"),
    Check("radon-dose-unscear", "radon", "unscear-radon", "40 Bq/m3, F 0.4, 7,000 h",
          lambda: radon.dose(k=9e-9 / HOUR * 0.4, C=40, t=7000 * HOUR) * 1000, 1.0, 0.05, "printed to two digits",
          "mSv", "from memory"),
    # Thermal movement of plastic pipe.
    Check("runs-movement", "runs", "plastic-expansion-table", "worked example, 300 ft from 70 to 140 F",
          lambda: runs.expansion(a=28e-6 * 9 / 5, L=si("300 ft"), dT=70 * 5 / 9) / factor("in"), 7.1, 0.05,
          "printed to two digits", "in"),
    Check("runs-movement-rule", "runs", "plastic-expansion-table", "rule of 3/8 in., 1,000 ft and 50 F",
          lambda: runs.expansion(a=runs.PVC_EXPANSION, L=si("1000 ft"), dT=50 * 5 / 9) / factor("in"), 20, 2,
          "printed as about 20; the rule itself gives 18.75", "in"),
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_published(check: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert check.holds(), str(check)


@pytest.mark.parametrize(("days", "left"), [(1, 0.8342), (3.8235, 0.5), (7, 0.2811), (14, 0.0790)])
def test_decay(days: float, left: float) -> None:
    """After one half-life half is left; other days by hand."""
    assert radon.decayed(lam=radon.decay_constant(T_h=radon.HALF_LIFE), t=days * DAY) == pytest.approx(left, abs=5e-5)


@pytest.mark.parametrize(
    ("changes", "delay", "ratio"), [(0.25, 0, 2.54), (0.25, 12, 1.07), (0.25, 24, 1.003), (0.10, 24, 1.277)]
)
def test_a_test_begun_too_soon_reads_high(changes: float, delay: float, ratio: float) -> None:
    """Mean of 48 h over the final level, twenty times too much at switch-on, by a separate calculation."""
    found = radon.mean_ratio(r_0=20, a=changes / HOUR, lam=LAM, t_0=delay * HOUR, t=48 * HOUR)
    assert found == pytest.approx(ratio, abs=0.005)


def test_the_mean_is_the_mean_of_the_curve() -> None:
    """Averaging the falling curve in small steps gives the closed form."""
    a, t_0, t, n = 0.2 / HOUR, 6 * HOUR, 48 * HOUR, 20000
    curve = [1 + 9 * radon.excess_left(a=a, lam=LAM, t=t_0 + (i + 0.5) * t / n) for i in range(n)]
    assert sum(curve) / n == pytest.approx(radon.mean_ratio(r_0=10, a=a, lam=LAM, t_0=t_0, t=t), rel=1e-6)


def test_waiting_long_enough() -> None:
    """Begun after the delay that is found, the test's mean is exactly 5 percent high; nothing to wait for is 0."""
    a = 0.1 / HOUR
    t_0 = radon.delay_for_mean(r_0=20, a=a, lam=LAM, t=48 * HOUR, r=1.05)
    assert radon.mean_ratio(r_0=20, a=a, lam=LAM, t_0=t_0, t=48 * HOUR) == pytest.approx(1.05)
    assert radon.delay_for_mean(r_0=1.1, a=a, lam=LAM, t=48 * HOUR, r=1.05) == 0
    with pytest.raises(ValueError, match="above 1"):
        radon.delay_for_mean(r_0=20, a=a, lam=LAM, t=48 * HOUR, r=1.0)


def test_excess_left_in_a_tight_house() -> None:
    """At 0.1 air changes 27.5 percent of the excess is left after 12 h and 7.6 percent after 24 h."""
    assert radon.excess_left(a=0.1 / HOUR, lam=LAM, t=12 * HOUR) == pytest.approx(0.275, abs=5e-4)
    assert radon.excess_left(a=0.1 / HOUR, lam=LAM, t=24 * HOUR) == pytest.approx(0.076, abs=5e-4)


def test_entry_and_level_undo_each_other() -> None:
    """The entry that is found from a level gives the level again; without air changes decay alone holds it."""
    room = {"V": 340.0, "a": 0.3 / HOUR, "C_o": 15.0, "lam": LAM}
    assert radon.steady_level(E=radon.entry_rate(C=400, **room), **room) == pytest.approx(400)
    assert radon.steady_level(E=1.0, V=100, a=0, C_o=15, lam=LAM) == pytest.approx(0.01 / LAM)


def test_purging() -> None:
    """One air change removes 63 percent of what was there; a poor mixing factor takes that many times longer."""
    assert radon.purge_time(m=1, R=1 - 1 / 2.718281828459045, a=1 / HOUR) == pytest.approx(HOUR)
    assert radon.purge_time(m=10, R=0.9, a=1 / HOUR) == pytest.approx(10 * radon.purge_time(m=1, R=0.9, a=1 / HOUR))
    for bad in ({"R": 1.0}, {"R": -0.1}, {"a": 0.0}):
        with pytest.raises(ValueError, match="must be from 0"):
            radon.purge_time(**({"m": 1.0, "R": 0.9, "a": 1e-4} | bad))


@pytest.mark.parametrize(("one", "two", "rpd"), [(6.0, 4.4, 0.308), (10.0, 6.8, 0.381), (4.2, 3.6, 0.154), (3, 2, 0.4)])
def test_pairs(one: float, two: float, rpd: float) -> None:
    """Difference over mean, whichever reading comes first."""
    assert radon.relative_difference(x_1=one, x_2=two) == pytest.approx(rpd, abs=5e-4)
    assert radon.relative_difference(x_1=two, x_2=one) == radon.relative_difference(x_1=one, x_2=two)


def test_a_working_level_month() -> None:
    """170 hours at one working level are 12.73 J s/m3."""
    month = radon.exposure(c_p=radon.WORKING_LEVEL, t=radon.WORKING_MONTH)
    assert month == pytest.approx(factor("WLM"), rel=1e-12)


def test_dose_follows_the_equilibrium_factor() -> None:
    """Twice the factor is twice the coefficient of the gas; the fall from 400 to 40 is 90 percent."""
    assert radon.gas_coefficient(k_0=ICRP, F=0.4) == pytest.approx(ICRP)
    assert radon.gas_coefficient(k_0=ICRP, F=0.8) == pytest.approx(2 * ICRP)
    assert radon.reduction(C_2=40, C_1=400) == pytest.approx(0.9)


@pytest.mark.parametrize(
    ("cfm", "friction", "momentum"), [(10, 0.2, 0.1), (25, 1.3, 0.6), (50, 5.0, 2.5), (100, 20, 10)]
)
def test_a_leg_of_tile(cfm: float, friction: float, momentum: float) -> None:
    """4 in. tile, factor 0.06, 20 m a leg: by a separate calculation, the air joining without speed along the tile."""
    one, _ = tile_loop.legs(loop=40, Q=cfm * CFM)
    V = pipe.speed(Q=one.flow, D=si("4 in"))
    assert tile_loop.leg_loss(f=0.06, L=one.length, D=si("4 in"), rho=1.2, V=V) == pytest.approx(friction, rel=0.05)
    assert tile_loop.momentum_loss(K=2, rho=1.2, V=V) == pytest.approx(momentum, rel=0.06)


def test_a_third_is_the_sum_of_growing_flow() -> None:
    """Adding the loss of a thousand pieces, each with the flow that has joined by then, gives the third."""
    whole = pipe.straight_loss(f=0.06, L=20, D=0.1, rho=1.2, V=3)
    pieces = sum(pipe.straight_loss(f=0.06, L=0.02, D=0.1, rho=1.2, V=3 * (i + 0.5) / 1000) for i in range(1000))
    assert tile_loop.leg_loss(f=0.06, L=20, D=0.1, rho=1.2, V=3) == pytest.approx(pieces, rel=1e-5)
    assert pieces == pytest.approx(whole / 3, rel=1e-5)


@pytest.mark.parametrize(("depth", "resistance"), [(0, 1), (0.25, 1.8), (0.5, 6.5), (0.75, 82), (0.9, 2800)])
def test_water_in_the_tile(depth: float, resistance: float) -> None:
    """Half full is tolerable, three quarters is a blockage: resistance over that of the dry tile."""
    assert tile_loop.air_space(D=0.1, depth=depth).resistance_factor == pytest.approx(resistance, rel=0.01)


def test_half_full_is_half_the_area() -> None:
    """At half depth half of the circle is air and the surface is one diameter wide."""
    space = tile_loop.air_space(D=0.2, depth=0.5)
    assert space.area == pytest.approx(pi * 0.01 / 2)
    assert space.hydraulic_diameter == pytest.approx(4 * space.area / (pi * 0.1 + 0.2))
    for full in (1.0, -0.1):
        with pytest.raises(ValueError, match="depth"):
            tile_loop.air_space(D=0.2, depth=full)


def test_a_blocked_loop_parts_at_the_blockage() -> None:
    """Lengths and flows of the two ways add up to the loop; a blockage beside the loop is refused."""
    one, two = tile_loop.legs(loop=40, Q=0.02, blocked_at=10)
    assert (one.length, two.length) == (10, 30)
    assert one.flow + two.flow == pytest.approx(0.02)
    assert two.flow == pytest.approx(0.015)
    with pytest.raises(ValueError, match="blocked_at"):
        tile_loop.legs(loop=40, Q=0.02, blocked_at=41)


def test_tile_roughness_and_evenness() -> None:
    """Manning's 0.014 in 4 in. tile is a Darcy factor near 0.052; a leg that loses 5 of 125 Pa is 96 percent even."""
    assert tile_loop.factor_of_manning(n=0.014, D=si("4 in")) == pytest.approx(0.0523, abs=1e-4)
    assert tile_loop.evenness(dp=5, s=125) == pytest.approx(0.96)


@pytest.mark.parametrize(
    ("length", "each", "number"), [(40, 4, 10), (40.1, 4, 11), (0, 4, 0), (0.1, 4, 1), (1.2, 0.4, 3)]
)
def test_whole_pieces(length: float, each: float, number: int) -> None:
    """Part of a piece is a piece; a length that divides evenly needs no extra one."""
    assert runs.whole_pieces(length=length, each=each) == number


def test_runs_of_pipe() -> None:
    """18 ft at 1/8 in. per ft fall 2.25 in.; 20 ft of 2.01 lb/ft weigh 40.2 lb; a spacing of 0 is refused."""
    assert pytest.approx(3.0e-5 * 9 / 5) == runs.PVC_EXPANSION
    assert runs.drop(m=si("1/8 in") / factor("ft"), L=si("18 ft")) / factor("in") == pytest.approx(2.25)
    assert runs.pipe_mass(m_l=2.01 * factor("lb") / factor("ft"), L=si("20 ft")) / factor("lb") == pytest.approx(40.2)
    with pytest.raises(ValueError, match="must be above 0"):
        runs.whole_pieces(length=4, each=0)
