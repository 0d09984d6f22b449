"""Physics against general-purpose open libraries: SciPy, CoolProp, IAPWS, psychrometrics, fluids, pint."""

import random
from inspect import signature
from math import exp, log10, pi

import fluids
import iapws
import numpy
import pint
import psychrolib
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq, elementwise

from calculators.physics import air, curve, openings, pipe, water
from calculators.physics.numerics import root
from calculators.units import factors_of, pint_name
from test_formulas import PRINTED, draw

psychrolib.SetUnitSystem(psychrolib.SI)
REGISTRY = pint.UnitRegistry()

# Equations that hide a constant with a unit, so that pint cannot follow them; each is compared with a library or a
# printed table instead.  Empirical ones in US units are here too.
HIDDEN_CONSTANT = {
    "air.pressure_at", "air.standard_temperature", "air.saturation_pressure", "air.saturation_pressure_ice",
    "air.dry_density", "air.density", "air.viscosity", "air.stack_gradient", "air.buoyancy",
    "openings.orifice_flow_head", "pipe.straight_head", "pipe.fitting_head",
    "water.density", "water.viscosity", "water.hazen_williams_gradient", "water.darcy_gradient", "water.suction_head",
    "water.head_pressure", "water.drain_back_time", "water.trap_seal_needed",
}  # fmt: skip


@pytest.mark.parametrize("t", range(-40, 61, 5))
def test_saturation_pressure(t: int) -> None:
    """Over water from 0 to 60 degC within 0.4 percent of the psychrometric library, over ice within 0.6 percent."""
    T = 273.15 + t
    found = air.saturation_pressure(T=T) if t >= 0 else air.saturation_pressure_ice(T=T)
    assert found == pytest.approx(psychrolib.GetSatVapPres(t), rel=4e-3 if t >= 0 else 6e-3)


@pytest.mark.parametrize("t", [-20, 0, 12.8, 25, 40])
@pytest.mark.parametrize("phi", [0.0, 0.5, 1.0])
def test_moist_air(t: float, phi: float) -> None:
    """Density and humidity ratio as the psychrometric library finds them, the same vapour pressure given."""
    T, p = 273.15 + t, 95000.0
    p_s = psychrolib.GetSatVapPres(t)
    e = air.vapour_pressure(phi=phi, p_s=p_s)
    w = psychrolib.GetHumRatioFromVapPres(e, p) if e > 0 else 0.0
    assert air.humidity_ratio(e=e, p=p) == pytest.approx(w, rel=2e-4, abs=1e-7)
    assert air.density(p=p, e=e, T=T) == pytest.approx(psychrolib.GetMoistAirDensity(t, w, p), rel=4e-4)


@pytest.mark.parametrize("feet", [-1500, 0, 5000, 15000])
def test_standard_pressure(feet: float) -> None:
    """The pressure of an elevation is the psychrometric library's."""
    z = feet * 0.3048
    assert air.pressure_at(z=z) == pytest.approx(psychrolib.GetStandardAtmPressure(z), rel=1e-5)


@pytest.mark.parametrize("t", [0, 20, 25, 35, 50])
def test_air_properties(t: float) -> None:
    """Ideal gas is within 0.1 percent of CoolProp's real air; Sutherland's viscosity within 0.6 percent, always low."""
    T = 273.15 + t
    assert air.dry_density(p=101325, T=T) == pytest.approx(PropsSI("D", "T", T, "P", 101325, "Air"), rel=1e-3)
    real = PropsSI("V", "T", T, "P", 101325, "Air")
    assert 0.994 * real < air.viscosity(T=T) < real


@pytest.mark.parametrize("t", [0.01, 4, 5, 10, 15, 20, 25, 30, 40, 50, 60])
def test_water_properties(t: float) -> None:
    """Density within 2e-5 and viscosity within 1e-4 of IAPWS-95 at atmospheric pressure, from 0 to 60 degC."""
    T = 273.15 + t
    real = iapws.IAPWS95(T=T, P=0.101325)
    assert water.density(T=T) == pytest.approx(real.rho, rel=2e-5)
    assert water.viscosity(T=T) == pytest.approx(real.mu, rel=1e-4)


@pytest.mark.parametrize("Re", [4e3, 1e4, 1e5, 1e6, 1e8])
@pytest.mark.parametrize("relative", [0.0, 1e-5, 1e-3, 0.05])
def test_colebrook(Re: float, relative: float) -> None:
    """Colebrook's equation is solved to the last digits that the library gives."""
    assert pipe.colebrook_factor(Re=Re, k=relative, D=1.0) == pytest.approx(fluids.Colebrook(Re, relative), rel=1e-9)


def test_blasius_band() -> None:
    """For smooth pipe from Re 4e3 to 1e5 Blasius' old law lies within 3 percent."""
    for Re in (4e3, 1e4, 5e4, 1e5):
        assert pipe.friction_factor(Re=Re, k=0, D=1) == pytest.approx(fluids.friction.Blasius(Re), rel=0.03)


def test_monotone_cubic_is_scipys() -> None:
    """The curve through random points is SciPy's PchipInterpolator, points that rise and fall included."""
    dice = random.Random(1)
    for _ in range(300):
        x = sorted(dice.random() for _ in range(dice.randint(2, 9)))
        y = [dice.choice([dice.random(), 0.5]) for _ in x]
        ours, theirs = curve.MonotoneCubic(x, y), PchipInterpolator(x, y)
        for k in range(21):
            place = min(x[0] + (x[-1] - x[0]) * k / 20, x[-1])
            assert ours(place) == pytest.approx(float(theirs(place)), abs=1e-12)


def test_roots_are_scipys() -> None:
    """The gap law by root search and by formula, and by SciPy's search, is one speed."""
    law = {"mu": 1.8e-5, "z": 0.01, "w": 8e-4, "rho": 1.2, "C": 0.61}

    def rest(V: float) -> float:
        return openings.gap_pressure(V=V, **law) - 40

    assert root(rest, 0, 100) == pytest.approx(brentq(rest, 0, 100, xtol=1e-14), rel=1e-12)
    assert root(rest, 0, 100) == pytest.approx(openings.gap_speed(dp=40, **law), rel=1e-12)


@pytest.mark.parametrize(
    ("function", "low", "high"),
    [
        (lambda x: x**3 - 2 * x - 5, 2.0, 3.0),
        (lambda x: 1 - 1 / x**2, 0.5, 1.51),
        (lambda x: exp(-x) - x, 0.0, 1.0),
        (lambda x: 36 - 9 * x**0.65, 0.0, 40.0),
    ],
)
def test_roots_take_as_many_values_as_scipys(function, low: float, high: float) -> None:
    """SciPy's own code of the same method (elementwise.find_root) asks for the function as often, and finds the same."""
    asked: list[float] = []
    found = root(lambda x: asked.append(x) or function(x), low, high)
    theirs = elementwise.find_root(numpy.vectorize(function), (low, high))
    assert found == pytest.approx(float(theirs.x), rel=1e-15)
    assert len(asked) == theirs.nfev


def quantity(value: float, name: str) -> pint.Quantity:
    """A pint quantity in one of our units."""
    result = REGISTRY.Quantity(value, "dimensionless")
    for part, power in factors_of(name):
        result = result * REGISTRY.Quantity(1, pint_name(part)) ** power
    return result


def follows(name: str) -> bool:
    """Whether pint can follow the printed equation: our modules only, no hidden constant, no number added to a unit."""
    return (
        name.partition(".")[0] in {"pipe", "air", "water", "openings", "fan", "tile", "clearance"}
        and name not in HIDDEN_CONSTANT
    )


@pytest.mark.parametrize("name", [n for n in PRINTED if follows(n)])
def test_dimensions(name: str) -> None:
    """Worked out with units attached, the printed right side has the unit of its left side."""
    function = PRINTED[name]
    equation = function.formula  # type: ignore[attr-defined]
    dice = random.Random(name)
    arguments = {s: draw(name, s, equation.units[s], dice) for s in signature(function).parameters}
    values = {s: quantity(v, equation.units[s]) for s, v in arguments.items()}
    values[equation.symbol] = quantity(function(**arguments), equation.units[equation.symbol])

    def highest(*members: pint.Quantity | float) -> pint.Quantity:
        unit_of = next(m for m in members if isinstance(m, pint.Quantity)).units
        all_in = [m if isinstance(m, pint.Quantity) else REGISTRY.Quantity(m, unit_of) for m in members]
        return max(all_in, key=lambda m: m.to(unit_of).magnitude)

    words = {
        "pi": pi,
        "sqrt": lambda x: x**0.5,
        "log10": lambda x: log10(x.to("dimensionless").magnitude),
        "max": highest,
    }
    right = eval(equation.right, {"__builtins__": {}}, words | values)
    left = values[equation.symbol]
    assert REGISTRY.Quantity(right).check(left.dimensionality), equation.text
    assert REGISTRY.Quantity(right).to(left.units).magnitude == pytest.approx(left.magnitude, rel=1e-9)
