"""Air against the standard atmosphere, the psychrometric tables and textbook values."""

import pytest

from calculators.physics import air, pipe
from calculators.units import factor, from_si, si
from published import Check


def kinematic(T: str) -> float:
    """Viscosity over density of dry air at sea level, m2/s."""
    return air.viscosity(T=si(T)) / air.dry_density(p=101325, T=si(T))


CHECKS = [
    # US Standard Atmosphere 1976, rows as printed by an open library's test file.
    Check("air-ussa-temperature", "air", "ussa-1976", "row of 2,000 m",
          lambda: air.standard_temperature(z=2000), 275.15, 0.01,
          "the table counts geometric, the equation geopotential height", "K", "secondary"),
    Check("air-ussa-pressure-0", "air", "ussa-1976", "row of 0 m", lambda: air.pressure_at(z=0), 101320, 10,
          "printed to five digits", "Pa", "secondary"),
    Check("air-ussa-pressure-2000", "air", "ussa-1976", "row of 2,000 m", lambda: air.pressure_at(z=2000), 79501,
          2e-4 * 79501, "the table counts geometric, the equation geopotential height", "Pa", "secondary"),
    Check("air-ussa-density-0", "air", "ussa-1976", "row of 0 m",
          lambda: air.dry_density(p=air.pressure_at(z=0), T=air.standard_temperature(z=0)), 1.2250, 6e-5,
          "printed to five digits", "kg/m3", "secondary"),
    Check("air-ussa-density-2000", "air", "ussa-1976", "row of 2,000 m",
          lambda: air.dry_density(p=air.pressure_at(z=2000), T=air.standard_temperature(z=2000)), 1.0066, 2e-4,
          "the table counts geometric, the equation geopotential height", "kg/m3", "secondary"),
    Check("air-ussa-viscosity-0", "air", "ussa-1976", "row of 0 m",
          lambda: air.viscosity(T=air.standard_temperature(z=0)), 1.7894e-5, 6e-10, "printed to five digits", "Pa*s",
          "secondary"),
    Check("air-ussa-viscosity-2000", "air", "ussa-1976", "row of 2,000 m",
          lambda: air.viscosity(T=air.standard_temperature(z=2000)), 1.7260e-5, 6e-10, "printed to five digits", "Pa*s",
          "secondary"),
    # ASHRAE Fundamentals 2017, chapter 1, Table 1, as printed in the tests of an open library.
    *[
        Check(f"air-altitude-pressure-{feet}", "air", "ashrae-hof-2017-01", f"Table 1, {feet} ft",
              lambda feet=feet: air.pressure_at(z=feet * factor("ft")) / factor("psi"), psi, off,
              "the table and its own equation differ by this much", "psi", "secondary")
        for feet, psi, off in [(-1000, 15.236, 0.002), (0, 14.696, 0.001), (1000, 14.175, 0.003),
                               (3000, 13.173, 0.003), (10000, 10.108, 0.002), (30000, 4.371, 0.01)]
    ],
    *[
        Check(f"air-altitude-temperature-{feet}", "air", "ashrae-hof-2017-01", f"Table 1, {feet} ft",
              lambda feet=feet: from_si(air.standard_temperature(z=feet * factor("ft")), "degF"), fahrenheit,
              0.07 if feet <= 10000 else 0.2, "printed to one decimal; the table counts geometric height", "degF",
              "secondary")
        for feet, fahrenheit in [(-1000, 62.6), (0, 59.0), (1000, 55.4), (3000, 48.3), (10000, 23.4), (30000, -47.8)]
    ],
    Check("air-volume-77F", "air", "ashrae-hof-2017-01", "Table 2, dry air at 77 degF",
          lambda: 1 / air.dry_density(p=si("14.696 psi"), T=si("77 degF")) * factor("lb") / factor("ft") ** 3, 13.5251,
          0.001 * 13.5251, "the table holds real air, the equation ideal gas", "ft3/lb", "secondary"),
    Check("air-cold-high", "air", "hundy-trott-welch", "Example 24.1",
          lambda: air.dry_density(p=57500, T=si("-10 degC")), 0.76, 0.005,
          "printed to two digits", "kg/m3", "secondary"),
    *[
        Check(f"air-cengel-{what}-{t}", "air", "cengel-cimbala", f"property table, {t} degC", found, value,
              share * value, "printed to four digits; Sutherland's law runs 0.3 to 0.6 percent low", unit,
              "secondary")
        for what, t, found, value, unit, share in [
            ("density", 35, lambda: air.dry_density(p=101325, T=si("35 degC")), 1.145, "kg/m3", 0.001),
            ("density", 25, lambda: air.dry_density(p=101325, T=si("25 degC")), 1.184, "kg/m3", 0.001),
            ("viscosity", 35, lambda: air.viscosity(T=si("35 degC")), 1.895e-5, "Pa*s", 0.006),
            ("kinematic", 35, lambda: kinematic("35 degC"), 1.655e-5, "m2/s", 0.007),
            ("kinematic", 25, lambda: kinematic("25 degC"), 1.562e-5, "m2/s", 0.007),
        ]
    ],
    # ASHRAE Fundamentals 2021, chapter 16: a tall building, neutral level 40 m, opening at 1.1 m.
    Check("air-stack-tall", "air", "ashrae-hof-2021-16", "section 7, stack example",
          lambda: air.stack_gradient(p=101325, T_o=si("-7 degC"), T_i=si("21 degC")) * (40 - 1.1), 47, 0.03 * 47,
          "the handbook takes a rounded outdoor density", "Pa"),
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_published(check: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert check.holds(), str(check)


def test_damp_air_is_lighter() -> None:
    """At 55 degF saturated air is about half a percent lighter than dry air."""
    T = si("55 degF")
    e = air.vapour_pressure(phi=1.0, p_s=air.saturation_pressure(T=T))
    ratio = air.density(p=101325, e=e, T=T) / air.dry_density(p=101325, T=T)
    assert ratio == pytest.approx(1 - 0.0055, abs=2e-4)
    assert air.density(p=101325, e=0, T=T) == pytest.approx(air.dry_density(p=101325, T=T))


def test_ice_and_water_meet_at_the_freezing_point() -> None:
    """Saturation over ice equals that over water at 0 degC and is lower below it."""
    freezing = si("0 degC")
    assert air.saturation_pressure(T=freezing) == air.saturation_pressure_ice(T=freezing) == air.MAGNUS_PRESSURE
    assert air.saturation_pressure_ice(T=freezing - 20) < air.saturation_pressure(T=freezing - 20)


def test_stack_gradient_changes_sign_with_the_seasons() -> None:
    """Colder outdoors pulls on the ground, hotter outdoors pushes, equal temperatures do nothing."""
    assert air.stack_gradient(p=101325, T_o=263.15, T_i=294.15) == pytest.approx(1.387, abs=0.002)
    assert air.stack_gradient(p=101325, T_o=294.15, T_i=294.15) == 0
    assert air.stack_gradient(p=101325, T_o=305, T_i=294.15) < 0


def test_stack_gradient_is_the_weight_difference_of_the_columns() -> None:
    """The gradient times a height is the buoyancy of dry air over that height."""
    outside, inside = air.dry_density(p=9e4, T=258), air.dry_density(p=9e4, T=294)
    assert air.stack_gradient(p=9e4, T_o=258, T_i=294) * 6 == pytest.approx(
        air.buoyancy(rho_o=outside, rho_i=inside, H=6)
    )


def test_riser_buoyancy_in_the_cold() -> None:
    """Six metres of riser with 10 degC air gain some 8.7 Pa at -20 degC outdoors."""
    inside, outside = air.dry_density(p=101325, T=si("10 degC")), air.dry_density(p=101325, T=si("-20 degC"))
    assert air.buoyancy(rho_o=outside, rho_i=inside, H=6) == pytest.approx(8.7, abs=0.1)


def test_a_fan_makes_less_pressure_in_thin_air() -> None:
    """Fan pressure follows density: at 1500 m it is 0.835 of that at sea level."""
    ratio = air.pressure_at(z=1500) / air.pressure_at(z=0)
    assert air.fan_pressure_at_density(p_r=400, rho=1.2 * ratio, rho_r=1.2) / 400 == pytest.approx(0.8345, abs=1e-4)


def test_speed_of_a_velocity_pressure_of_one_inch() -> None:
    """In air of 0.075 lb/ft3 one inch of water is the trade's 4,005 ft/min."""
    rho = 0.075 * factor("lb") / factor("ft") ** 3
    assert pipe.velocity_pressure(rho=rho, V=si("4005 ft/min")) / factor("in WC") == pytest.approx(1, abs=0.003)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (air.pressure_at, {"z": 11001}),
        (air.pressure_at, {"z": -5001}),
        (air.saturation_pressure, {"T": 340}),
        (air.saturation_pressure_ice, {"T": 275}),
        (air.density, {"p": 1000, "e": 1000, "T": 290}),
        (air.humidity_ratio, {"p": 1000, "e": 1000}),
    ],
)
def test_outside_its_range_nothing_is_given(function, arguments) -> None:  # type: ignore[no-untyped-def]
    """Each equation refuses where it does not hold."""
    with pytest.raises(ValueError, match=r"T =|z =|vapour pressure"):
        function(**arguments)
