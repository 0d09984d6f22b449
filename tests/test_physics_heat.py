"""Heat in house air, the fan's bill, and the riser in the cold."""

from itertools import pairwise
from math import exp, pi

import pytest

from calculators.physics import air, heat
from calculators.units import factor, si
from published import Check

CFM = factor("cfm")
SOIL = si("10 degC")
VAPOUR = air.saturation_pressure(T=SOIL)
SOIL_AIR = {
    "T_s": SOIL,
    "phi": 1.0,
    "p": 101325.0,
    "rho": air.density(p=101325, e=VAPOUR, T=SOIL),
    "mu": air.viscosity(T=SOIL),
}
BARE = heat.Stack(bore=si("4.026 in"), wall=si("0.237 in"), length=6.0)
FOAM = BARE._replace(insulation=0.025)
BTU_CUBIC_FOOT_F = factor("Btu") / factor("ft") ** 3 / (5 / 9)
BTU_HOUR = factor("Btu") / 3600

CHECKS = [
    Check("heat-air-changes", "heat", "heat-cost-examples", "0.018 x 0.8 x 12,000 x 60",
          lambda: heat.heat_rate(rho=1, c_p=0.018 * BTU_CUBIC_FOOT_F, Q=0.8 * 12000 * factor("ft") ** 3 / 3600,
                                 dT=60 * 5 / 9) / BTU_HOUR,
          10368, 1e-6 * 10368, "exact: the factor 0.018 is given", "Btu/h"),
    Check("heat-108", "heat", "heat-cost-examples", "1.08 = 0.075 x 0.24 x 60",
          lambda: heat.heat_rate(rho=0.075 * factor("lb") / factor("ft") ** 3,
                                 c_p=0.24 * factor("Btu") / factor("lb") / (5 / 9),
                                 Q=CFM, dT=5 / 9) / BTU_HOUR,
          1.08, 1e-6, "exact", "Btu/h per cfm and F"),
    Check("heat-fan-cost", "heat", "heat-cost-examples", "100 W all year at $0.12/kWh",
          lambda: heat.energy_cost(E=heat.fan_energy(P=100, t=365 * 86400), m=0.12 / factor("kWh")), 105.12, 0.005,
          "printed in cents", "dollars"),
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_published(check: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert check.holds(), str(check)


def run(stack: heat.Stack, outdoors: float, cfm: float, **other: float) -> heat.ColdStack:
    """The riser with saturated soil air of 10 degC."""
    return heat.cold_stack(stack=stack, Q=cfm * CFM, T_o=273.15 + outdoors, **(SOIL_AIR | other))


def test_a_heating_season() -> None:
    """30 cfm of house air over 6,000 F days is 4.67 MMBtu, and 5.83 MMBtu of fuel at 80 percent."""
    E = heat.heat_energy(
        rho=0.075 * factor("lb") / factor("ft") ** 3,
        c_p=0.24 * factor("Btu") / factor("lb") / (5 / 9),
        Q=30 * CFM,
        H=6000 * factor("degF*day"),
    )
    assert E / factor("MMBtu") == pytest.approx(4.666, rel=1e-3)
    assert heat.fuel_energy(E=E, eta=0.8) / factor("MMBtu") == pytest.approx(5.832, rel=1e-3)


@pytest.mark.parametrize(
    ("stack", "outdoors", "cfm", "result"),
    [
        (BARE, -10, 15, (0.5, -5.7, 2.7)), (BARE, -10, 60, (5.6, 1.0, 5.9)), (BARE, -20, 15, (-4.0, -14.1, 3.2)),
        (BARE, -20, 30, (-0.3, -9.5, 5.5)), (BARE, -20, 60, (3.3, -3.9, 8.1)), (BARE, -30, 15, (-8.6, -22.7, 3.3)),
        (FOAM, -10, 15, (7.3, 5.0, 1.0)), (FOAM, -20, 15, (5.8, 2.3, 1.5)), (FOAM, -20, 30, (7.8, 5.6, 1.7)),
        (FOAM, -20, 60, (8.9, 7.6, 1.8)), (FOAM, -30, 15, (4.3, -0.6, 1.9)),
    ],
)  # fmt: skip
def test_riser_in_the_cold(stack: heat.Stack, outdoors: float, cfm: float, result: tuple[float, float, float]) -> None:
    """Exit air, end wall and litres a day as found by a separate calculation that let frost count as water."""
    exit_air, end_wall, litres = result
    found = run(stack, outdoors, cfm)
    assert found.exit_temperature - 273.15 == pytest.approx(exit_air, abs=0.25)
    assert found.wall_end_temperature - 273.15 == pytest.approx(end_wall, abs=0.5)
    assert found.deposit * 86400 == pytest.approx(litres, abs=0.15)


def test_the_wall_never_gets_more_than_comes_up() -> None:
    """Deposit and fog together stay below the water carried: 60 cfm of saturated air at 10 degC bring 23.2 L a day."""
    found = run(BARE, -40, 60)
    assert found.carried * 86400 == pytest.approx(23.2, abs=0.2)
    assert found.deposit + found.fog <= found.carried
    leaving = heat.saturated(T=found.exit_temperature, p=101325)
    assert found.carried - found.deposit - found.fog == pytest.approx(SOIL_AIR["rho"] * 60 * CFM * leaving, rel=1e-6)


def test_first_frost() -> None:
    """At -20 degC and 30 cfm the whole bare run frosts, at -5 degC none of it, and foam keeps it clear."""
    assert run(BARE, -20, 30).first_frost_distance == 0
    assert run(BARE, -20, 30).risk == "high"
    assert run(BARE, -5, 30).first_frost_distance is None
    assert run(BARE, -5, 30).risk == "low"
    assert run(FOAM, -20, 15).risk == "none"
    late = run(FOAM, -30, 15)
    assert late.risk == "some"
    assert 1.5 < late.first_frost_distance < 6


def test_finer_steps_change_little() -> None:
    """Twice the steps move no temperature by more than 0.05 K and no litre by more than 1 percent."""
    coarse, fine = run(BARE, -20, 30), run(BARE, -20, 30, steps=400)
    assert coarse.exit_temperature == pytest.approx(fine.exit_temperature, abs=0.05)
    assert coarse.wall_end_temperature == pytest.approx(fine.wall_end_temperature, abs=0.05)
    assert coarse.deposit == pytest.approx(fine.deposit, rel=0.01)


def test_dry_air_leaves_no_water_and_cools_as_a_plain_pipe() -> None:
    """Without vapour the exit temperature is the textbook's exponential approach to the outdoors."""
    found = run(BARE, -20, 30, phi=0.0)
    assert (found.deposit, found.fog, found.carried) == (0, 0, 0)
    rho, mu = SOIL_AIR["rho"], SOIL_AIR["mu"]
    Re = 4 * rho * 30 * CFM / (pi * BARE.bore * mu)
    inside = 1 / (heat.nusselt(Re=Re) * heat.AIR_CONDUCTIVITY / BARE.bore * pi * BARE.bore)
    units = BARE.length / ((inside + BARE.resistance()) * rho * 30 * CFM * heat.AIR_HEAT)
    assert found.exit_temperature == pytest.approx(253.15 + 30 * exp(-units), abs=0.05)


def test_warmer_wetter_and_faster() -> None:
    """Colder outdoors leaves more water, more flow leaves warmer walls, insulation leaves less of both."""
    assert run(BARE, -20, 30).deposit > run(BARE, -10, 30).deposit
    assert run(BARE, -20, 60).wall_end_temperature > run(BARE, -20, 30).wall_end_temperature
    assert run(FOAM, -20, 30).deposit < run(BARE, -20, 30).deposit


def test_films() -> None:
    """Calm air 10, a gale 25 W/m2/K; the inner film has no jump between laminar and turbulent flow."""
    assert heat.outer_film(U=0) == 10
    assert heat.outer_film(U=7) == pytest.approx(25)
    assert heat.outer_film(U=30) == 25
    assert heat.nusselt(Re=100) == heat.nusselt(Re=2300) == 3.66
    assert heat.nusselt(Re=3999.9999) == pytest.approx(heat.nusselt(Re=4000), rel=1e-6)


@pytest.mark.parametrize(("cfm", "outdoors"), [(0, -10), (30, 15)])
def test_what_the_march_cannot_do(cfm: float, outdoors: float) -> None:
    """No flow, and outdoor air warmer than the soil air, are refused."""
    with pytest.raises(ValueError, match="must be above 0"):
        run(BARE, outdoors, cfm)


def test_resistances_in_series() -> None:
    """Pipe wall, foam and film of one metre add up to the resistance of the riser, each by its own printed equation."""
    pipe_outside, outside = BARE.bore + 2 * BARE.wall, BARE.bore + 2 * BARE.wall + 0.05
    parts = [
        heat.ring_resistance(d_2=pipe_outside, d_1=BARE.bore, k=0.19),
        heat.ring_resistance(d_2=outside, d_1=pipe_outside, k=0.035),
        heat.film_resistance(h=20, d=outside),
    ]
    assert sum(parts) == pytest.approx(FOAM.resistance())
    assert parts[0] == pytest.approx(0.0932, abs=1e-4)


def test_slow_air_in_a_long_pipe_never_overshoots() -> None:
    """However much heat a step could give, air ends at the outdoor temperature and not below it."""
    found = run(BARE._replace(length=600.0), -40, 0.5)
    assert found.exit_temperature == pytest.approx(233.15, abs=0.01)
    assert all(later.air <= earlier.air for earlier, later in pairwise(found.places))
    assert found.deposit + found.fog <= found.carried


def test_a_riser_of_no_length_leaves_the_air_alone() -> None:
    """Without pipe in the cold nothing cools, nothing frosts, and there is no place to report."""
    found = run(BARE._replace(length=0.0), -40, 30)
    assert (found.exit_temperature, found.first_frost_distance, found.deposit, found.places) == (SOIL, None, 0, ())


def test_r_value_and_litres() -> None:
    """25 mm of foam at 0.035 W/(m K) is R-4.06, and a gram of water a second is 86.4 L a day."""
    assert heat.r_value(b=0.025, k=0.035) == pytest.approx(4.056, abs=1e-3)
    assert heat.water_volume(m=1e-3) / factor("L/day") == pytest.approx(86.4)
