"""What the balance of a leaky house is made of: what leaks in and out, and the shares of stack, exhaust and wind."""

from typing import NamedTuple

from .formula import formula
from .house import TEST_PRESSURE, House, depressurization_at, leakage_flow, slab_depressurization


class Parts(NamedTuple):
    """Depressurization at the slab [Pa] by cause: stack alone, what the exhaust adds to it, what the wind adds."""

    stack: float
    exhaust: float
    wind: float

    def total(self, *, stack: float = 1.0, exhaust: float = 1.0, wind: float = 1.0) -> float:
        """Sum [Pa] of the causes, each times its factor [1]. Source: definition."""
        return stack * self.stack + exhaust * self.exhaust + wind * self.wind


def parts(*, house: House, exhaust: float, gradient: float, wind: float = 0.0) -> Parts:
    """The balance of exhaust [m3/s], stack gradient [Pa/m] and wind suction [Pa], taken apart by cause.

    The exhaust's part is what it adds on top of the stack, which is more than it would make alone.
    Raises ValueError as slab_depressurization does. Source: derived, two balances and their difference.
    """
    stack = slab_depressurization(house=house, exhaust=0.0, gradient=gradient)
    return Parts(stack, slab_depressurization(house=house, exhaust=exhaust, gradient=gradient) - stack, wind)


def exchanged(*, house: House, p_0: float, gradient: float, wind: float = 0.0) -> tuple[float, float]:
    """Flow [m3/s] in through the leaks below the neutral level, and out through those above it.

    The house is p_0 [Pa] below outdoors at the slab; stack gradient [Pa/m], wind suction [Pa] on all leaks.
    Source: power law of leakage, summed over the leaks.
    """
    inward = outward = 0.0
    for z in house.heights():
        drive = depressurization_at(p_0=p_0, G=gradient, z=z) - wind
        flow = leakage_flow(
            Q_r=house.flow_50 / house.leak_count, dp=abs(drive), dp_r=TEST_PRESSURE, n=house.exponent
        )  # fmt: skip
        if drive > 0:
            inward += flow
        else:
            outward += flow
    return inward, outward


@formula("Q = Q_in - Q_out", source="continuity", Q="m3/s", Q_in="m3/s", Q_out="m3/s")
def exchange(*, Q_in: float, Q_out: float) -> float:
    """Exhaust Q [m3/s] that leaks make good: in through the low ones Q_in [m3/s] less out at the top Q_out [m3/s].

    Source: continuity.
    """
    return Q_in - Q_out


@formula("p_0 = dp + G * z + p_w", source="buoyancy", p_0="Pa", dp="Pa", G="Pa/m", z="m", p_w="Pa")
def slab_from_leak(*, dp: float, G: float, z: float, p_w: float) -> float:
    """Depressurization p_0 [Pa] at the slab when a leak at height z [m] has the difference dp [Pa] across it.

    Stack gradient G [Pa/m], wind suction p_w [Pa] on the leak. Source: hydrostatics.
    """
    return dp + G * z + p_w


@formula("z_n = p_0 / G", source="buoyancy", z_n="m", p_0="Pa", G="Pa/m")
def neutral_level(*, p_0: float, G: float) -> float:
    """Height z_n [m] above the slab at which the house is at outdoor pressure.

    Depressurization at the slab p_0 [Pa], stack gradient G [Pa/m]. Raises ZeroDivisionError when G is 0.
    Source: hydrostatics.
    """
    return p_0 / G


@formula("s_d = s - a * (d_c - d_t)", source="derived", s_d="Pa", s="Pa", a="1", d_c="Pa", d_t="Pa")
def suction_left(*, s: float, a: float, d_c: float, d_t: float) -> float:
    """Suction s_d [Pa] that is left on the design day of a suction s [Pa] read on the test day.

    a [1] is how far the soil keeps to outdoor pressure; d_c and d_t [Pa] the depressurization at the slab on the design
    and the test day. Source: derived from the linear field under a slab.
    """
    return s - a * (d_c - d_t)
