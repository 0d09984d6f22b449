"""Water: its density and viscosity, the inflow of a pit, head and friction of the pump line, cycling and trap
seals."""

from math import pi, sqrt

from .constants import FOOT, GALLON, GRAVITY, INCH, INCH_OF_WATER, MINUTE, ZERO_CELSIUS
from .formula import formula

GPM = GALLON / MINUTE  # m3/s
FEET_PER_HUNDRED = 1 / 100  # "ft/100 ft" as a plain ratio

# Hazen-Williams in US units: ft per 100 ft, gpm, inches.
HAZEN_FACTOR = 0.2083
HAZEN_FLOW_POWER = 1.852
HAZEN_BORE_POWER = 4.8655
HAZEN_REFERENCE = 100.0

# Density of water near atmospheric pressure (Tanaka et al., Metrologia 38, 2001).
TANAKA = (999.97495, 3.983035, 301.797, 522528.9, 69.34881)  # kg/m3, degC, degC, degC2, degC

# Viscosity at 0.1 MPa (IAPWS SR6-08, equation 7): factor [1e-6 Pa s] and power of T/300 K.
IAPWS_VISCOSITY = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
IAPWS_TEMPERATURE = 300.0  # K
MICRO = 1e-6

CRACKING_HEAD = FOOT / 2  # m, extra head that opens a check valve: 0.5 ft, from memory
SPARE_SEAL = INCH  # m, water left in a trap at the largest suction: 1 in, common practice
WATER_RANGE = (0.0, 60.0)  # degC, where both property equations were compared with IAPWS values


def _celsius(T: float) -> float:
    """Temperature in degC of T [K]; raises ValueError outside the range of the property equations."""
    t = T - ZERO_CELSIUS
    low, high = WATER_RANGE
    if not low - MICRO <= t <= high + MICRO:  # a converted 32 degF may miss 0 degC by the last digit
        raise ValueError(f"T = {t:g} degC: these water properties hold from {low:g} to {high:g} degC")
    return t


@formula(
    "rho = 999.97495 * (1 - (T - 3.983035) ** 2 * (T + 301.797) / (522528.9 * (T + 69.34881)))",
    source="tanaka-2001",
    rho="kg/m3",
    T="degC",
)
def density(*, T: float) -> float:
    """Density rho [kg/m3] of water at temperature T [K]; printed with T in degC.

    Raises ValueError outside 0 to 60 degC. Source: Tanaka et al. 2001 (stated for 0 to 40 degC; within 0.01 percent
    of
    IAPWS to 60 degC).
    """
    t = _celsius(T)
    top, warmest, a, b, c = TANAKA
    return top * (1 - (t - warmest) ** 2 * (t + a) / (b * (t + c)))


@formula(
    "mu = 1e-6 * (280.68 * (T / 300) ** -1.9 + 511.45 * (T / 300) ** -7.7"
    " + 61.131 * (T / 300) ** -19.6 + 0.45903 * (T / 300) ** -40)",
    source="iapws-sr6-08",
    mu="Pa*s",
    T="K",
)
def viscosity(*, T: float) -> float:
    """Viscosity mu [Pa*s] of water at temperature T [K].

    Raises ValueError outside 0 to 60 degC. Source: IAPWS SR6-08, equation 7 (0.1 MPa).
    """
    _celsius(T)
    return MICRO * sum(factor * (T / IAPWS_TEMPERATURE) ** power for factor, power in IAPWS_VISCOSITY)


@formula("V = pi / 4 * D ** 2 * h", source="geometry", V="m3", D="m", h="m")
def pit_volume(*, D: float, h: float) -> float:
    """Water V [m3] in a round pit of diameter D [m] over height h [m]; no stone and no pump in it.

    Source: geometry.
    """
    return pi / 4 * D**2 * h


@formula("Q = pi / 4 * D ** 2 * h / t", source="geometry", Q="m3/s", D="m", h="m", t="s")
def timed_inflow(*, D: float, h: float, t: float) -> float:
    """Inflow Q [m3/s] that raises the water in a round pit of diameter D [m] by h [m] in time t [s], pump off.

    Raises ZeroDivisionError when t is 0. Source: geometry.
    """
    return pi / 4 * D**2 * h / t


@formula("Q = q * A", source="continuity", Q="m3/s", q="m/s", A="m2")
def area_inflow(*, q: float, A: float) -> float:
    """Inflow Q [m3/s] at q [m3/s per m2 of floor] over floor area A [m2]. Source: definition of the rate."""
    return q * A


@formula("Q_d = S * Q_i", source="common-practice", Q_d="m3/s", S="1", Q_i="m3/s")
def design_flow(*, S: float, Q_i: float) -> float:
    """Flow Q_d [m3/s] to size for: safety factor S [1] times measured inflow Q_i [m3/s]. Source: common practice."""
    return S * Q_i


@formula(
    "i = 0.2083 * (100 / C) ** 1.852 * Q ** 1.852 / d ** 4.8655",
    source="hazen-williams",
    i="ft/100 ft",
    C="1",
    Q="gpm",
    d="in",
)
def hazen_williams_gradient(*, C: float, Q: float, d: float) -> float:
    """Friction gradient i [m per m] of water in a full pipe: coefficient C [1], flow Q [m3/s], bore d [m].

    Printed in US units, in which the equation is stated: ft per 100 ft, gpm, inches.
    Raises ValueError unless C and d are above 0 and Q is not negative. Source: Hazen-Williams, US form.
    """
    if not (C > 0 and d > 0 and Q >= 0):
        raise ValueError(f"C = {C!r}, d = {d!r} m, Q = {Q!r} m3/s: C and d must be above 0, Q not below 0")
    head = HAZEN_FACTOR * (HAZEN_REFERENCE / C) ** HAZEN_FLOW_POWER * (Q / GPM) ** HAZEN_FLOW_POWER
    return head / (d / INCH) ** HAZEN_BORE_POWER * FEET_PER_HUNDRED


@formula("i = f / D * V ** 2 / (2 * 9.80665)", source="darcy-weisbach", i="m/m", f="1", D="m", V="m/s")
def darcy_gradient(*, f: float, D: float, V: float) -> float:
    """Friction gradient i [m per m] at Darcy factor f [1], bore D [m], speed V [m/s]. Source: Darcy-Weisbach."""
    return f / D * V**2 / (2 * GRAVITY)


@formula("h = i * L", source="definition", h="m", i="m/m", L="m")
def friction_head(*, i: float, L: float) -> float:
    """Head h [m] lost at gradient i [m per m] over equivalent length L [m]. Source: definition of the gradient."""
    return i * L


@formula("h = s / (rho * 9.80665)", source="hydrostatics", h="m", s="Pa", rho="kg/m3")
def suction_head(*, s: float, rho: float) -> float:
    """Height h [m of water] that suction s [Pa] is worth at density rho [kg/m3].

    As lift of pit water it is an upper bound: it holds where the ground's water is at room pressure.
    Source: hydrostatics.
    """
    return s / (rho * GRAVITY)


@formula("p = rho * 9.80665 * h", source="hydrostatics", p="Pa", rho="kg/m3", h="m")
def head_pressure(*, rho: float, h: float) -> float:
    """Pressure p [Pa] of a column of height h [m] and density rho [kg/m3]. Source: hydrostatics."""
    return rho * GRAVITY * h


@formula("H = h_s + h_f + h_p", source="illinois-extension-sump", H="m", h_s="m", h_f="m", h_p="m")
def total_dynamic_head(*, h_s: float, h_f: float, h_p: float) -> float:
    """Head H [m] the pump must make: static lift h_s [m], friction h_f [m], lift out of a pit under suction h_p [m].

    Source: University of Illinois Extension (static and friction head); the suction term is derived.
    """
    return h_s + h_f + h_p


@formula("h_o = max(H - z, 0)", source="hydrostatics", h_o="m", H="m", z="m")
def relief_head(*, H: float, z: float) -> float:
    """Head h_o [m] behind a relief hole z [m] above the water of the pit when the pump makes head H [m].

    The hole is above the water and there is no friction between pump and hole. Source: hydrostatics.
    """
    return max(H - z, 0.0)


@formula("t = V / Q_i + V / (Q_d - Q_i)", source="mil-hdbk-1005-9a", t="s", V="m3", Q_i="m3/s", Q_d="m3/s")
def cycle_time(*, V: float, Q_i: float, Q_d: float) -> float:
    """Time t [s] from one pump start to the next: volume V [m3] between the levels, inflow Q_i and delivery Q_d
    [m3/s].

    Raises ValueError unless 0 < Q_i < Q_d. Source: MIL-HDBK-1005/9A, 2.5.3.6, equation 1.
    """
    if not 0 < Q_i < Q_d:
        raise ValueError(f"inflow {Q_i!r} m3/s must be above 0 and below the delivery {Q_d!r} m3/s")
    return V / Q_i + V / (Q_d - Q_i)


@formula("t = 4 * V / Q_d", source="mil-hdbk-1005-9a", t="s", V="m3", Q_d="m3/s")
def worst_cycle_time(*, V: float, Q_d: float) -> float:
    """Shortest possible cycle t [s], at an inflow of half the delivery Q_d [m3/s]; volume V [m3] between the levels.

    Raises ZeroDivisionError when Q_d is 0. Source: MIL-HDBK-1005/9A, 2.5.3.6, equation 2.
    """
    return 4 * V / Q_d


@formula("t = V / Q_i", source="mil-hdbk-1005-9a", t="s", V="m3", Q_i="m3/s")
def off_time(*, V: float, Q_i: float) -> float:
    """Time t [s] in which inflow Q_i [m3/s] refills volume V [m3] while the pump rests.

    Raises ZeroDivisionError when Q_i is 0. Source: MIL-HDBK-1005/9A, 2.5.3.6.
    """
    return V / Q_i


@formula("N = 1 / t", source="definition", N="1/s", t="s")
def start_rate(*, t: float) -> float:
    """Starts N [1/s] of a pump whose cycle takes t [s]. Raises ZeroDivisionError when t is 0. Source: definition."""
    return 1 / t


@formula("t = (D / d) ** 2 / C * sqrt(2 * L / 9.80665)", source="orifice-textbook", t="s", D="m", d="m", C="1", L="m")
def drain_back_time(*, D: float, d: float, C: float, L: float) -> float:
    """Time t [s] in which a standing pipe of bore D [m] and height L [m] empties through a hole d [m], coefficient C
    [1].

    Raises ZeroDivisionError when d or C is 0. Source: derived from Torricelli's law with a falling level.
    """
    return (D / d) ** 2 / C * sqrt(2 * L / GRAVITY)


@formula("H = h_s + h_p + h_c", source="hydrostatics", H="m", h_s="m", h_p="m", h_c="m")
def valve_opening_head(*, h_s: float, h_p: float, h_c: float) -> float:
    """Head H [m] at which the check valve opens: static lift h_s, pit suction head h_p and cracking head h_c [m].

    Source: hydrostatics; the usual cracking head of 0.5 ft is from memory.
    """
    return h_s + h_p + h_c


@formula("h = H * rho_a / rho_w", source="hydrostatics", h="m", H="m", rho_a="kg/m3", rho_w="kg/m3")
def air_bound_head(*, H: float, rho_a: float, rho_w: float) -> float:
    """Head h [m of water] of a pump full of air that makes H [m] when full of water.

    Densities of air rho_a and water rho_w [kg/m3]. Source: derived, a centrifugal pump makes head of the fluid in it.
    """
    return H * rho_a / rho_w


@formula("L = max(z_v - z_off, 0)", source="geometry", L="m", z_v="m", z_off="m")
def trapped_air_height(*, z_v: float, z_off: float) -> float:
    """Length L [m] of pipe that can hold air after a pump-down: check valve at z_v, pump-off level z_off [m].

    Source: geometry.
    """
    return max(z_v - z_off, 0.0)


@formula("d = p / 249.08891 + 1", source="common-practice", d="in", p="Pa")
def trap_seal_needed(*, p: float) -> float:
    """Depth d [m] of a trap seal that holds suction p [Pa] with 1 in to spare; printed in inches.

    Source: hydrostatics with the conventional inch of water; the spare inch is common practice.
    """
    return p / INCH_OF_WATER * INCH + SPARE_SEAL
