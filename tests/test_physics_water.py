"""Water and the pump line against printed tables: properties, friction, holes, cycling."""

import pytest

from calculators.physics import openings, pipe, water
from calculators.units import factor, si
from published import Check

BORES = {"1-1/4": "1.380 in", "1-1/2": "1.610 in", "2": "2.067 in"}
FOOT_SQUARED_SECOND = factor("ft") ** 2


def gradient(flow: float, size: str) -> float:
    """Friction in ft per 100 ft, C 150."""
    i = water.hazen_williams_gradient(C=150, Q=flow * factor("gpm"), d=si(BORES[size]))
    return i / factor("ft/100 ft")


def hole(diameter: str, feet: float) -> float:
    """Flow in gpm through a sharp-edged hole of coefficient 0.60."""
    A = pipe.circle_area(D=si(diameter))
    return openings.orifice_flow_head(C=openings.WATER_COEFFICIENT, A=A, h=feet * factor("ft")) / factor("gpm")


def kinematic(T: str) -> float:
    """Viscosity over density in ft2/s."""
    return water.viscosity(T=si(T)) / water.density(T=si(T)) / FOOT_SQUARED_SECOND


def yearly_cost() -> float:
    """Crane TP-410 problem 7.34: money a year for 700 gpm against 428 ft."""
    power = water.head_pressure(rho=62.364 * factor("lb") / factor("ft") ** 3, h=si("428 ft")) * si("700 gpm")
    return power / (0.707 * 0.95 * 0.96) / 1000 * 8000 * 0.12


FRICTION = {  # gpm: head lost in ft per 100 ft of 1-1/4, 1-1/2 and 2 in.
    6: (0.55, 0.25, 0.07), 8: (0.97, 0.46, 0.14), 10: (1.46, 0.70, 0.21), 12: (2.09, 1.01, 0.30),
    15: (3.06, 1.45, 0.44), 17: (3.93, 1.86, 0.56), 20: (5.23, 2.46, 0.74),
    30: (None, 5.22, 1.54), 40: (None, None, 2.62),
}  # fmt: skip

CHECKS = [
    # Ill. Adm. Code tit. 77, part 906, App. A, Exhibit I: friction loss in Schedule 40 plastic pipe, C = 150.
    *[
        Check(f"water-friction-{size}-{flow}", "water", "ill-77-906", f"Exhibit I, {flow} gpm, {size} in.",
              lambda flow=flow, size=size: gradient(flow, size), loss,
              0.025 * loss + 0.005 if flow >= 17 else max(0.05 * loss, 0.02),
              "printed to 0.01 ft and uneven: by up to 2.5 %, below 17 gpm by up to 5 % or 0.02 ft",
              "ft/100 ft")
        for flow, row in FRICTION.items() for size, loss in zip(BORES, row, strict=True) if loss is not None
    ],
    # Onsite Sewage Treatment Program worksheets: "Perforation Discharge (GPM)".
    *[
        Check(f"water-hole-{diameter.replace(' ', '')}-{feet}", "openings", "umn-perforation-table",
              f"perforation discharge, {diameter}, {feet} ft",
              lambda diameter=diameter, feet=feet: hole(diameter, feet), flow, 0.006, "printed to 0.01 gpm", "gpm")
        for feet, row in [(1.0, (0.18, 0.41, 0.74)), (2.5, (0.29, 0.65, 1.17))]
        for diameter, flow in zip(("1/8 in", "3/16 in", "1/4 in"), row, strict=True)
    ],
    # Water properties from a water-structure site (values of IAPWS-95).
    *[
        Check(f"water-density-{t}", "water", "water-structure-site", f"density at {t} degC",
              lambda t=t: water.density(T=si(f"{t} degC")), rho, 0.06, "printed to 0.1 kg/m3", "kg/m3")
        for t, rho in [(0, 999.8), (10, 999.7), (20, 998.2), (30, 995.7)]
    ],
    *[
        Check(f"water-viscosity-{t}", "water", "water-structure-site", f"viscosity at {t} degC",
              lambda t=t: water.viscosity(T=si(f"{t} degC")) * 1000, mu, 0.002 * mu, "printed to four digits", "cP")
        for t, mu in [(0, 1.792), (10, 1.307), (20, 1.002), (30, 0.797)]
    ],
    Check("water-viscosity-25", "water", "iapws-r12-08", "table of check values, 298.15 K and 998 kg/m3",
          lambda: water.viscosity(T=298.15) * 1e6, 889.7351, 0.003 * 889.7351,
          "the check value stands for a density of 998 kg/m3, that is a higher pressure", "uPa*s", "secondary"),
    # US engineering table: kinematic viscosity.
    *[
        Check(f"water-kinematic-{t}", "water", "water-table-us", f"kinematic viscosity of water at {t} degF",
              lambda t=t: kinematic(f"{t} degF") * 1e5, nu, 0.01 * nu,
              "the table is older than the IAPWS figures and differs by up to 1 percent", "1e-5 ft2/s")
        for t, nu in [(60, 1.210), (50, 1.407), (40, 1.664)]
    ],
    Check("water-psi", "water", "water-table-us", "1 psi in feet of water at 62 degF",
          lambda: water.suction_head(s=si("1 psi"), rho=water.density(T=si("62 degF"))) / factor("ft"), 2.307, 0.005,
          "water at 62 degF is 0.1 percent lighter than at 39 degF; printed to four digits", "ft"),
    Check("water-tp410-7-34", "water", "crane-tp410", "problem 7.34", yearly_cost, 83970, 0.002 * 83970,
          "the book rounds its power", "dollars a year", "secondary"),
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_published(check: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert check.holds(), str(check)


def test_pit_geometry() -> None:
    """An 18 in. pit holds 1.10 gal in each inch, so 18 in. of rise in a minute are 19.83 gpm."""
    D = si("18 in")
    assert water.pit_volume(D=D, h=si("1 in")) / factor("gal") == pytest.approx(1.1016, abs=1e-4)
    assert water.timed_inflow(D=D, h=si("18 in"), t=60) / factor("gpm") == pytest.approx(19.83, abs=0.005)


def test_a_cycle_is_filling_and_emptying() -> None:
    """18 in. pit, 8 in. of range, 10 gpm in and 30 gpm out: 1.322 min a cycle, at worst 1.175 min."""
    V = water.pit_volume(D=si("18 in"), h=si("8 in"))
    flow = factor("gpm")
    assert water.cycle_time(V=V, Q_i=10 * flow, Q_d=30 * flow) / 60 == pytest.approx(1.322, abs=5e-4)
    assert water.worst_cycle_time(V=V, Q_d=30 * flow) / 60 == pytest.approx(1.175, abs=5e-4)
    assert water.off_time(V=V, Q_i=10 * flow) / 60 == pytest.approx(0.8813, abs=5e-4)


def test_the_worst_cycle_is_at_half_the_delivery() -> None:
    """No inflow makes the pump start more often than half its delivery does."""
    worst = water.worst_cycle_time(V=0.03, Q_d=2e-3)
    assert water.cycle_time(V=0.03, Q_i=1e-3, Q_d=2e-3) == pytest.approx(worst)
    assert all(water.cycle_time(V=0.03, Q_i=k * 1e-4, Q_d=2e-3) >= worst * (1 - 1e-12) for k in range(1, 20))


@pytest.mark.parametrize(("Q_i", "Q_d"), [(0, 1e-3), (1e-3, 1e-3), (2e-3, 1e-3)])
def test_a_pump_that_never_stops_has_no_cycle(Q_i: float, Q_d: float) -> None:
    """Without inflow, or with more than the pump delivers, there is no cycle time."""
    with pytest.raises(ValueError, match="inflow"):
        water.cycle_time(V=0.03, Q_i=Q_i, Q_d=Q_d)


def test_drain_back_through_the_relief_hole() -> None:
    """One foot of 1-1/2 in. pipe runs back through a 3/16 in. hole in 30.6 s."""
    t = water.drain_back_time(D=si("1.610 in"), d=si("3/16 in"), C=0.60, L=si("1 ft"))
    assert t == pytest.approx(30.6, abs=0.05)


def test_drain_back_is_the_sum_of_its_moments() -> None:
    """Stepping the falling level down by the hole's flow takes the same time as the closed form."""
    D, d, C, L = 0.04, 0.005, 0.6, 0.5
    level, t, step = L, 0.0, L / 20000
    while level > step / 2:
        Q = openings.orifice_flow_head(C=C, A=pipe.circle_area(D=d), h=level - step / 2)
        t += step * pipe.circle_area(D=D) / Q
        level -= step
    assert t == pytest.approx(water.drain_back_time(D=D, d=d, C=C, L=L), rel=0.003)


def test_suction_lifts_water_by_its_own_head() -> None:
    """One inch of water column lifts the pit's water by 25.4 mm, and 1.5 of them cost the pump 0.125 ft."""
    rho = water.density(T=si("50 degF"))
    assert water.suction_head(s=si("1 in WC"), rho=rho) == pytest.approx(0.0254, rel=5e-4)
    assert water.suction_head(s=si("1.5 in WC"), rho=rho) / factor("ft") == pytest.approx(0.125, abs=5e-4)


def test_a_trap_is_deeper_than_the_greatest_suction() -> None:
    """A fan of 400 Pa at shut-off asks for 2.61 in. of seal."""
    assert water.trap_seal_needed(p=400) / factor("in") == pytest.approx(2.606, abs=5e-4)


def test_an_air_bound_pump_lifts_next_to_nothing() -> None:
    """25 ft in water is 0.03 ft in air: the check valve stays shut."""
    h = water.air_bound_head(H=si("25 ft"), rho_a=1.2, rho_w=999.7)
    assert h / factor("ft") == pytest.approx(0.03, abs=0.001)


def test_heads_add_up() -> None:
    """Total head is lift, friction and pit suction; the valve opens at lift, suction and its own cracking head."""
    assert water.total_dynamic_head(h_s=2.7, h_f=0.4, h_p=0.04) == pytest.approx(3.14)
    assert water.valve_opening_head(h_s=2.7, h_p=0.04, h_c=water.CRACKING_HEAD) == pytest.approx(2.8924)
    assert water.relief_head(H=3.0, z=0.2) == pytest.approx(2.8)
    assert water.relief_head(H=0.1, z=0.2) == 0
    assert water.trapped_air_height(z_v=0.3, z_off=0.5) == 0


def test_darcy_gradient_is_the_straight_head_per_length() -> None:
    """The gradient times a length is the head lost over it."""
    i = water.darcy_gradient(f=0.02, D=0.04, V=1.5)
    assert water.friction_head(i=i, L=12) == pytest.approx(pipe.straight_head(f=0.02, L=12, D=0.04, V=1.5))


def test_hazen_williams_and_darcy_agree_for_cold_water() -> None:
    """At house flows Hazen-Williams with C 150 and Colebrook with a smooth wall differ by less than 10 percent."""
    T, D, Q = si("50 degF"), si("1.610 in"), si("20 gpm")
    V = pipe.speed(Q=Q, D=D)
    Re = pipe.reynolds(rho=water.density(T=T), V=V, D=D, mu=water.viscosity(T=T))
    darcy = water.darcy_gradient(f=pipe.friction_factor(Re=Re, k=1.5e-6, D=D), D=D, V=V)
    assert water.hazen_williams_gradient(C=150, Q=Q, d=D) == pytest.approx(darcy, rel=0.10)


@pytest.mark.parametrize("T", [272.0, 334.0])
def test_water_that_is_ice_or_scalding_is_refused(T: float) -> None:
    """The properties are given from 0 to 60 degC only."""
    with pytest.raises(ValueError, match="degC"):
        water.density(T=T)
    with pytest.raises(ValueError, match="degC"):
        water.viscosity(T=T)


def test_friction_needs_a_real_pipe() -> None:
    """No gradient is given for a coefficient or bore of 0 or a negative flow."""
    for bad in ({"C": 0.0}, {"d": 0.0}, {"Q": -1e-3}):
        with pytest.raises(ValueError, match="must be above 0"):
            water.hazen_williams_gradient(**({"C": 150.0, "Q": 1e-3, "d": 0.04} | bad))
