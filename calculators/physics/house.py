"""The house as a leaky box: stack, wind and exhaust in one balance, and the pressure that they leave at the slab."""

from math import copysign
from typing import NamedTuple

from .formula import formula
from .numerics import root

TEST_PRESSURE = 50.0  # Pa, pressure of the usual leakage test
EXPONENT = 0.65  # usual exponent of house leakage: ASHRAE Fundamentals 2021, chapter 16, section 10
WIND_SHARE = 0.1  # half of a difference of 0.2 between the wind coefficients of leaks and ground; from memory


class House(NamedTuple):
    """Leakage at 50 Pa [m3/s], exponent [1], and leaks spread evenly between two heights above the slab [m]."""

    flow_50: float
    exponent: float = EXPONENT
    leak_bottom: float = 0.3
    leak_top: float = 7.5
    leak_count: int = 13

    def heights(self) -> tuple[float, ...]:
        """Heights [m] of the leaks above the slab; a single leak sits half way."""
        if self.leak_count == 1:
            return ((self.leak_bottom + self.leak_top) / 2,)
        step = (self.leak_top - self.leak_bottom) / (self.leak_count - 1)
        return tuple(self.leak_bottom + i * step for i in range(self.leak_count))


@formula("Q = Q_r * (dp / dp_r) ** n", source="ashrae-hof-2021-16", Q="m3/s", Q_r="m3/s", dp="Pa", dp_r="Pa", n="1")
def leakage_flow(*, Q_r: float, dp: float, dp_r: float, n: float) -> float:
    """Leakage Q [m3/s] at pressure difference dp [Pa], from flow Q_r [m3/s] at dp_r [Pa] and exponent n [1].

    Raises ZeroDivisionError when dp_r is 0. Source: ASHRAE Fundamentals 2021, chapter 16, equation 40.
    """
    return Q_r * (dp / dp_r) ** n


@formula(
    "dp = dp_r * (Q / Q_r) ** (1 / n)", source="ashrae-hof-2021-16", dp="Pa", dp_r="Pa", Q="m3/s", Q_r="m3/s", n="1"
)
def leakage_pressure(*, dp_r: float, Q: float, Q_r: float, n: float) -> float:
    """Pressure difference dp [Pa] that exhaust Q [m3/s] alone makes in a house that leaks Q_r [m3/s] at dp_r [Pa].

    Exponent n [1]. No stack and no wind. Raises ZeroDivisionError when Q_r or n is 0.
    Source: ASHRAE Fundamentals 2021, chapter 16, equation 40, solved for the pressure.
    """
    return dp_r * (Q / Q_r) ** (1 / n)


@formula("N = Q / V", source="definition", N="1/h", Q="m3/h", V="m3")
def air_changes(*, Q: float, V: float) -> float:
    """Air changes N [1/s] of flow Q [m3/s] in volume V [m3]; printed per hour.

    Raises ZeroDivisionError when V is 0. Source: definition.
    """
    return Q / V


@formula("p_w = C_p * rho * U ** 2 / 2", source="ashrae-hof-2021-16", p_w="Pa", C_p="1", rho="kg/m3", U="m/s")
def wind_pressure(*, C_p: float, rho: float, U: float) -> float:
    """Pressure p_w [Pa] of wind at local speed U [m/s] on a face with coefficient C_p [1]; density rho [kg/m3].

    Source: ASHRAE Fundamentals 2021, chapter 16, section 7.
    """
    return C_p * rho * U**2 / 2


@formula("p_w = 0.1 * rho * U ** 2", source="from-memory", p_w="Pa", rho="kg/m3", U="m/s")
def wind_suction(*, rho: float, U: float) -> float:
    """Suction p_w [Pa] of wind at local speed U [m/s] on the leaks of a house against the ground; density rho
    [kg/m3].

    Half the dynamic pressure times a difference of 0.2 between the coefficients of walls and ground; good to 50
    percent.
    Source: from memory.
    """
    return WIND_SHARE * rho * U**2


@formula("d = p_0 - G * z", source="buoyancy", d="Pa", p_0="Pa", G="Pa/m", z="m")
def depressurization_at(*, p_0: float, G: float, z: float) -> float:
    """Depressurization d [Pa] of the house against outdoors at height z [m] above the slab.

    p_0 [Pa] is that at the slab, G [Pa/m] the stack gradient. Negative above the neutral level. Source: hydrostatics.
    """
    return p_0 - G * z


def slab_depressurization(*, house: House, exhaust: float, gradient: float, wind: float = 0.0) -> float:
    """Depressurization [Pa] of the house against outdoors at the slab, all leaks and exhausts in one balance.

    ``exhaust`` [m3/s] is what fans take out on balance (negative for supply), ``gradient`` [Pa/m] the stack gradient
    (negative when it is hotter outdoors), ``wind`` [Pa] the suction of the wind on the leaks.
    Stack and exhaust must not be added: the exhaust moves the neutral level.
    Raises ValueError for a house without leakage, an exponent not above 0 or above 1, or leaks in the wrong order.
    Source: derived from the power law of leakage, summed over the leaks and set equal to the exhaust.
    """
    if not (house.flow_50 > 0 and 0 < house.exponent <= 1):
        raise ValueError(f"leakage {house.flow_50!r} m3/s must be above 0, exponent {house.exponent!r} from 0 to 1")
    if house.leak_count < 1 or house.leak_top < house.leak_bottom:
        raise ValueError(f"{house.leak_count!r} leaks from {house.leak_bottom!r} to {house.leak_top!r} m cannot be")
    shift = [gradient * z + wind for z in house.heights()]
    share = house.flow_50 / house.leak_count

    def surplus(p_0: float) -> float:
        """What leaks in beyond the exhaust when the slab is p_0 below outdoors."""
        total = 0.0
        for move in shift:
            drive = p_0 - move
            total += copysign(leakage_flow(Q_r=share, dp=abs(drive), dp_r=TEST_PRESSURE, n=house.exponent), drive)
        return total - exhaust

    reach = leakage_pressure(dp_r=TEST_PRESSURE, Q=abs(exhaust), Q_r=house.flow_50, n=house.exponent) + 1
    return root(surplus, min(shift) - reach, max(shift) + reach)


@formula("s_r = max(s_m + a * (d_c - d_t), s_m)", source="derived", s_r="Pa", s_m="Pa", a="1", d_c="Pa", d_t="Pa")
def required_suction(*, s_m: float, a: float, d_c: float, d_t: float) -> float:
    """Suction s_r [Pa] to read on the test day so that s_m [Pa] is left on the design day.

    a [1] is how far the soil keeps to outdoor pressure when the house is below it (1 all the way, the careful choice);
    d_c and d_t [Pa] are the depressurization at the slab on the design and the test day. Never less than s_m.
    Source: derived from the linear field under a slab.
    """
    return max(s_m + a * (d_c - d_t), s_m)


@formula("m = l - (d_1 - d_0)", source="definition", m="Pa", l="Pa", d_1="Pa", d_0="Pa")
def spillage_margin(*, l: float, d_1: float, d_0: float) -> float:
    """Margin m [Pa] between an appliance's limit l [Pa, as a positive number] and the depressurization that was
    added.

    d_1 [Pa] is the depressurization at the appliance with everything on, d_0 [Pa] with every fan off.
    Source: definition; the limit comes from the standard in force.
    """
    return l - (d_1 - d_0)


@formula("d = d_1 - d_0", source="definition", d="Pa", d_1="Pa", d_0="Pa")
def added_pressure(*, d_1: float, d_0: float) -> float:
    """Depressurization d [Pa] that fans add: d_1 [Pa] with them on less d_0 [Pa] without them. Source: definition."""
    return d_1 - d_0


@formula("a = A / F", source="definition", a="1", A="m2", F="m2")
def leakage_per_floor(*, A: float, F: float) -> float:
    """Leakage area a [1] for each floor area: leakage area A [m2] over floor area F [m2].

    Raises ZeroDivisionError when F is 0. Source: definition.
    """
    return A / F
