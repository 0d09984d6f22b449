"""Air: pressure at an elevation, moisture, density, viscosity and the pressure that a column of it makes."""

from math import exp

from .constants import ATMOSPHERE, GAS_DRY_AIR, GAS_VAPOUR, GRAVITY, ZERO_CELSIUS
from .formula import formula

ROOM_DENSITY = 1.2  # kg/m3, air at which fan curves are stated unless they say otherwise: common practice

# Standard atmosphere below 11 km (US Standard Atmosphere 1976, as fitted in the ASHRAE Handbook of Fundamentals).
PRESSURE_SLOPE = 2.25577e-5  # 1/m
PRESSURE_POWER = 5.25588
SEA_LEVEL_TEMPERATURE = 288.15  # K
LAPSE_RATE = 0.0065  # K/m
LOWEST, HIGHEST = -5000.0, 11000.0  # m, range of the fit

# Magnus equation over water and over ice: coefficients from memory (WMO-No. 8), compared with a reference library in
# the tests.
MAGNUS_PRESSURE = 611.2  # Pa
OVER_WATER = (17.62, 243.12)  # 1, degC
OVER_ICE = (22.46, 272.62)  # 1, degC

# Sutherland's law for air (US Standard Atmosphere 1976, equation 51).
SUTHERLAND_FACTOR = 1.458e-6  # kg/(s m K^0.5)
SUTHERLAND_TEMPERATURE = 110.4  # K
SUTHERLAND_POWER = 1.5

MASS_RATIO = 0.622  # kg vapour per kg dry air and pressure ratio: 287.055/461.5


@formula("p = 101325 * (1 - 2.25577e-5 * z) ** 5.25588", source="isa-altitude-form", p="Pa", z="m")
def pressure_at(*, z: float) -> float:
    """Air pressure p [Pa] of the standard atmosphere at elevation z [m].

    Raises ValueError outside -5000 to 11000 m. Source: ASHRAE Fundamentals 2017, chapter 1, equation 3.
    """
    if not LOWEST <= z <= HIGHEST:
        raise ValueError(f"z = {z!r} m: the standard atmosphere of this equation runs from {LOWEST:g} to {HIGHEST:g} m")
    return ATMOSPHERE * (1 - PRESSURE_SLOPE * z) ** PRESSURE_POWER


@formula("T = 288.15 - 0.0065 * z", source="ussa-1976", T="K", z="m")
def standard_temperature(*, z: float) -> float:
    """Temperature T [K] of the standard atmosphere at elevation z [m], up to 11000 m.

    Source: US Standard Atmosphere 1976.
    """
    return SEA_LEVEL_TEMPERATURE - LAPSE_RATE * z


@formula("p_s = 611.2 * exp(17.62 * T / (243.12 + T))", source="magnus", p_s="Pa", T="degC")
def saturation_pressure(*, T: float) -> float:
    """Vapour pressure p_s [Pa] of air saturated over water at temperature T [K]; printed with T in degC.

    Raises ValueError outside -65 to 60 degC. Source: Magnus equation, coefficients from memory.
    """
    return _magnus(T, OVER_WATER)


@formula("p_s = 611.2 * exp(22.46 * T / (272.62 + T))", source="magnus", p_s="Pa", T="degC")
def saturation_pressure_ice(*, T: float) -> float:
    """Vapour pressure p_s [Pa] of air saturated over ice at temperature T [K], for T below 0 degC.

    Raises ValueError outside -65 to 0.01 degC. Source: Magnus equation, coefficients from memory.
    """
    return _magnus(T, OVER_ICE)


# degC.  The usual range is -45 to 60 over water and -65 to 0 over ice (from memory); colder than -45 so little
# vapour is left that the
# density of air changes by less than 1e-4, so the equation over water may run on to -65.
MAGNUS_RANGE = {OVER_WATER: (-65.0, 60.0), OVER_ICE: (-65.0, 0.01)}


def _magnus(T: float, constants: tuple[float, float]) -> float:
    """Magnus equation at T [K] with the two constants of water or ice."""
    t = T - ZERO_CELSIUS
    low, high = MAGNUS_RANGE[constants]
    if not low <= t <= high:
        raise ValueError(f"T = {t:g} degC: this saturation equation holds from {low:g} to {high:g} degC")
    factor, offset = constants
    return MAGNUS_PRESSURE * exp(factor * t / (offset + t))


@formula("e = phi * p_s", source="definition", e="Pa", phi="1", p_s="Pa")
def vapour_pressure(*, phi: float, p_s: float) -> float:
    """Vapour pressure e [Pa] at relative humidity phi [1] and saturation pressure p_s [Pa].

    Source: definition of relative humidity.
    """
    return phi * p_s


@formula("w = 0.622 * e / (p - e)", source="ideal-gas", w="1", e="Pa", p="Pa")
def humidity_ratio(*, e: float, p: float) -> float:
    """Water carried w [kg per kg of dry air] at vapour pressure e [Pa] and air pressure p [Pa].

    Raises ValueError unless e is below p. Source: ideal gas law of both parts.
    """
    if not e < p:
        raise ValueError(f"vapour pressure {e!r} Pa must be below the air pressure {p!r} Pa")
    return MASS_RATIO * e / (p - e)


@formula("rho = p / (287.055 * T)", source="ideal-gas", rho="kg/m3", p="Pa", T="K")
def dry_density(*, p: float, T: float) -> float:
    """Density rho [kg/m3] of dry air at pressure p [Pa] and temperature T [K]. Source: ideal gas law."""
    return p / (GAS_DRY_AIR * T)


@formula("rho = (p - e) / (287.055 * T) + e / (461.5 * T)", source="ideal-gas", rho="kg/m3", p="Pa", e="Pa", T="K")
def density(*, p: float, e: float, T: float) -> float:
    """Density rho [kg/m3] of moist air at pressure p [Pa], vapour pressure e [Pa] and temperature T [K].

    Raises ValueError unless e is below p. Source: ideal gas law of dry air and vapour.
    """
    if not e < p:
        raise ValueError(f"vapour pressure {e!r} Pa must be below the air pressure {p!r} Pa")
    return (p - e) / (GAS_DRY_AIR * T) + e / (GAS_VAPOUR * T)


@formula("mu = 1.458e-6 * T ** 1.5 / (T + 110.4)", source="sutherland", mu="Pa*s", T="K")
def viscosity(*, T: float) -> float:
    """Viscosity mu [Pa*s] of air at temperature T [K]; moisture changes it by less than 1 percent.

    Source: US Standard Atmosphere 1976, equation 51.
    """
    return SUTHERLAND_FACTOR * T**SUTHERLAND_POWER / (T + SUTHERLAND_TEMPERATURE)


@formula("G = 9.80665 * p / 287.055 * (1 / T_o - 1 / T_i)", source="buoyancy", G="Pa/m", p="Pa", T_o="K", T_i="K")
def stack_gradient(*, p: float, T_o: float, T_i: float) -> float:
    """Pressure G [Pa per m of height] that the lighter of two air columns gains over the other.

    Air pressure p [Pa], outdoor T_o [K] and indoor temperature T_i [K], dry air. Positive when it is colder outdoors.
    Source: hydrostatics with the ideal gas law.
    """
    return GRAVITY * p / GAS_DRY_AIR * (1 / T_o - 1 / T_i)


@formula("dp = (rho_o - rho_i) * 9.80665 * H", source="buoyancy", dp="Pa", rho_o="kg/m3", rho_i="kg/m3", H="m")
def buoyancy(*, rho_o: float, rho_i: float, H: float) -> float:
    """Pressure dp [Pa] that a riser of height H [m] gains from lighter air inside.

    Density outside rho_o [kg/m3] and inside rho_i [kg/m3]. Negative in hot weather. Source: hydrostatics.
    """
    return (rho_o - rho_i) * GRAVITY * H


@formula("p_f = p_r * rho / rho_r", source="fan-laws", p_f="Pa", p_r="Pa", rho="kg/m3", rho_r="kg/m3")
def fan_pressure_at_density(*, p_r: float, rho: float, rho_r: float) -> float:
    """Fan pressure p_f [Pa] in air of density rho [kg/m3], at the same volume flow and speed.

    p_r [Pa] is the pressure on the curve stated for density rho_r [kg/m3]. Source: fan laws.
    """
    return p_r * rho / rho_r
