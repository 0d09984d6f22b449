"""The house as a leaky box: printed leakage, wind and stack examples, and the balance of leaks and exhaust."""

from math import copysign

import pytest

from calculators.physics import air, house, house_parts, openings
from calculators.units import factor, si
from published import Check

CFM, INCH_WC = factor("cfm"), factor("in WC")
HANDBOOK = "ashrae-hof-2021-16"
COLD = air.stack_gradient(p=101325, T_o=si("-20 degC"), T_i=si("21 degC"))
HOUSE = house.House(1500 * CFM)


def crack(cfm_per_foot: float) -> float:
    """Flow in cfm of 16 ft of crack at 0.01 in WC, its coefficient stated for 1 in WC."""
    return house.leakage_flow(Q_r=cfm_per_foot * 16 * CFM, dp=0.01 * INCH_WC, dp_r=INCH_WC, n=0.67) / CFM


CHECKS = [
    Check("house-leakage-area", "house", HANDBOOK, "section 10, Example 5",
          lambda: openings.orifice_area(Q=house.leakage_flow(Q_r=0.051, dp=4, dp_r=1, n=0.67), C=1, dp=4, rho=1.2)
          * 1e4,
          500, 0.005 * 500, "printed to three digits", "cm2"),
    Check("house-wind", "house", HANDBOOK, "section 7, wind example",
          lambda: house.wind_pressure(C_p=0.75, rho=1.2, U=6.7), 20, 0.02 * 20, "printed to two digits", "Pa"),
    Check("house-door", "openings", HANDBOOK, "section 7, door example, method 2",
          lambda: openings.orifice_flow(C=0.306 * (1.2 / 2) ** 0.5, A=1.9, dp=62, rho=1.2) * 1000, 4580, 0.005 * 4580,
          "printed to three digits; the coefficient 306 L/(s m2 Pa^0.5) holds the density", "L/s"),
    *[
        Check(f"house-crack-{coefficient}", "house", "weather-strip-worksheet", f"K = {coefficient}",
              lambda coefficient=coefficient: crack(coefficient), flow, 0.05, "printed to one decimal", "cfm")
        for coefficient, flow in [(2.355, 1.7), (1.536, 1.1)]
    ],
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_published(check: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert check.holds(), str(check)


@pytest.mark.parametrize(("cfm", "pascal"), [(0, 7.44), (20, 7.77), (100, 9.15), (200, 10.88)])
def test_stack_and_exhaust_in_one_balance(cfm: float, pascal: float) -> None:
    """1,500 cfm at 50 Pa, -20 degC outdoors: depressurization at the slab as found by a separate calculation."""
    found = house.slab_depressurization(house=HOUSE, exhaust=cfm * CFM, gradient=COLD)
    assert found == pytest.approx(pascal, abs=0.02)


def test_adding_stack_and_exhaust_is_too_low() -> None:
    """The balance lies above the plain sum here: the exhaust also moves the neutral level."""
    stack = house.slab_depressurization(house=HOUSE, exhaust=0, gradient=COLD)
    alone = house.leakage_pressure(dp_r=50, Q=200 * CFM, Q_r=HOUSE.flow_50, n=0.65)
    assert alone == pytest.approx(2.25, abs=0.01)
    assert house.slab_depressurization(house=HOUSE, exhaust=200 * CFM, gradient=COLD) > 1.1 * (stack + alone)


def test_two_leaks_are_not_thirteen() -> None:
    """All leakage at the ends of the house gives 12.3 instead of 10.9 Pa: the spread of leaks is part of the range."""
    ends = HOUSE._replace(leak_count=2)
    assert ends.heights() == (0.3, 7.5)
    found = house.slab_depressurization(house=ends, exhaust=200 * CFM, gradient=COLD)
    assert found == pytest.approx(12.31, abs=0.02)


def test_the_leaks_take_in_what_the_fans_take_out() -> None:
    """At the found pressure the flows of all leaks add up to the exhaust."""
    p_0 = house.slab_depressurization(house=HOUSE, exhaust=150 * CFM, gradient=COLD, wind=1.1)
    total = 0.0
    for z in HOUSE.heights():
        drive = house.depressurization_at(p_0=p_0, G=COLD, z=z) - 1.1
        total += copysign(house.leakage_flow(Q_r=HOUSE.flow_50 / 13, dp=abs(drive), dp_r=50, n=0.65), drive)
    assert total == pytest.approx(150 * CFM)


def test_without_stack_the_balance_is_the_power_law() -> None:
    """At equal temperatures the exhaust alone sets the pressure, the same at every height."""
    found = house.slab_depressurization(house=HOUSE, exhaust=200 * CFM, gradient=0.0)
    assert found == pytest.approx(house.leakage_pressure(dp_r=50, Q=200 * CFM, Q_r=HOUSE.flow_50, n=0.65))
    assert house.slab_depressurization(house=HOUSE, exhaust=0, gradient=0.0) == 0


def test_without_exhaust_the_neutral_level_is_the_middle() -> None:
    """Evenly spread leaks without exhaust put the neutral level half way, in winter and in a hot summer."""
    for gradient in (COLD, -0.3):
        found = house.slab_depressurization(house=HOUSE, exhaust=0, gradient=gradient)
        assert house.depressurization_at(p_0=found, G=gradient, z=3.9) == pytest.approx(0, abs=1e-9)


def test_wind_and_supply() -> None:
    """Wind suction on all leaks raises the depressurization by itself; a supply fan lowers it."""
    calm = house.slab_depressurization(house=HOUSE, exhaust=50 * CFM, gradient=COLD)
    wind = house.wind_suction(rho=1.2, U=3)
    assert wind == pytest.approx(1.08)
    windy = house.slab_depressurization(house=HOUSE, exhaust=50 * CFM, gradient=COLD, wind=wind)
    assert windy == pytest.approx(calm + wind)
    assert house.slab_depressurization(house=HOUSE, exhaust=-50 * CFM, gradient=COLD) < calm


@pytest.mark.parametrize(("cfm", "cfm50", "pascal"), [(150, 2000, 0.93), (400, 1500, 6.54)])
def test_exhaust_alone(cfm: float, cfm50: float, pascal: float) -> None:
    """Exhaust over leakage to the power 1/0.65 times 50 Pa, by hand."""
    assert house.leakage_pressure(dp_r=50, Q=cfm, Q_r=cfm50, n=0.65) == pytest.approx(pascal, abs=0.005)


def test_a_single_leak_sits_half_way() -> None:
    """One leak is put at the middle height, so its height is the neutral level."""
    one = HOUSE._replace(leak_count=1)
    assert one.heights() == (3.9,)
    assert house.slab_depressurization(house=one, exhaust=0, gradient=1.0) == pytest.approx(3.9)


@pytest.mark.parametrize(
    "change", [{"flow_50": 0.0}, {"exponent": 0.0}, {"exponent": 1.1}, {"leak_count": 0}, {"leak_top": 0.1}]
)
def test_a_house_that_cannot_be_is_refused(change: dict[str, float]) -> None:
    """No leakage, an exponent out of range, no leaks or leaks upside down are errors."""
    with pytest.raises(ValueError, match="leak"):
        house.slab_depressurization(house=HOUSE._replace(**change), exhaust=0, gradient=1.0)


def test_required_suction() -> None:
    """Mild test day 1.8 Pa, design day 10.9 Pa: 10.1 Pa when the soil keeps outdoor pressure, less when it half does."""
    assert house.required_suction(s_m=1, a=1, d_c=10.9, d_t=1.8) == pytest.approx(10.1)
    assert house.required_suction(s_m=1, a=0.5, d_c=10.9, d_t=1.8) == pytest.approx(5.55)
    assert house.required_suction(s_m=1, a=1, d_c=1.0, d_t=8.0) == 1


def test_spillage_margin_counts_what_was_added() -> None:
    """10.88 Pa with everything on, 7.44 Pa with fans off: 3.44 Pa added, so a limit of 5 leaves 1.56, one of 2 nothing."""
    assert house.spillage_margin(l=5, d_1=10.88, d_0=7.44) == pytest.approx(1.56)
    assert house.spillage_margin(l=2, d_1=10.88, d_0=7.44) < 0


def test_air_changes() -> None:
    """340 m3 flushed by 214 m3 in an hour change 0.63 times."""
    assert house.air_changes(Q=214 / 3600, V=340) * 3600 == pytest.approx(0.63, abs=0.001)


def test_at_the_test_pressure_all_leaks_pass_the_flow_of_the_test() -> None:
    """By the definition of the leakage at 50 Pa: the same 50 Pa on every leak draw the whole of it, one way or the other."""
    assert house_parts.exchanged(house=HOUSE, p_0=50, gradient=0) == pytest.approx((HOUSE.flow_50, 0))
    assert house_parts.exchanged(house=HOUSE, p_0=-50, gradient=0) == pytest.approx((0, HOUSE.flow_50))
    assert house_parts.exchanged(house=HOUSE, p_0=5, gradient=0, wind=55) == pytest.approx((0, HOUSE.flow_50))
