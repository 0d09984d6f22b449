"""Where a fan, its pipe, the soil and the leaks settle: one suction at which the flows agree."""

from collections.abc import Callable
from math import sqrt
from typing import NamedTuple

from .curve import FlowCurve, carried_on
from .formula import formula
from .numerics import root
from .openings import AIR_COEFFICIENT, orifice_area

NEAR = 1e-9  # share of the curve's width by which a root may miss its end through rounding


class OperatingPoint(NamedTuple):
    """Flows [m3/s] through fan, soil, pit leak and pipe leak; suctions at pit and pipe leak, fan pressure [Pa]."""

    flow: float
    pit_suction: float
    fan_pressure: float
    soil_flow: float
    leak_flow: float
    pipe_leak_flow: float
    pipe_leak_suction: float


class PipeLeak(NamedTuple):
    """A leak in the suction pipe.

    ``loss_before`` gives the total pressure [Pa] lost between pit and leak at the pit's flow [m3/s], ``static_drop``
    the
    difference of static suction between the same places (loss plus velocity pressure), ``flow`` the leak [m3/s] at a
    static suction [Pa].
    """

    loss_before: Callable[[float], float]
    static_drop: Callable[[float], float]
    flow: Callable[[float], float]


class OutsideCurve(ValueError):
    """The operating point lies where the fan curve was not entered: ``end`` is "low" or "high"."""

    def __init__(self, end: str, message: str) -> None:
        super().__init__(message)
        self.end = end


@formula("Q = G * s", source="definition", Q="m3/s", G="m3/s/Pa", s="Pa")
def soil_flow(*, G: float, s: float) -> float:
    """Flow Q [m3/s] that soil of conductance G [m3/s/Pa] yields at suction s [Pa]; flow through soil is laminar.

    Source: Darcy's law for a fixed geometry.
    """
    return G * s


@formula("G = Q / s", source="definition", G="m3/s/Pa", Q="m3/s", s="Pa")
def soil_conductance(*, Q: float, s: float) -> float:
    """Conductance G [m3/s/Pa] of the soil from a test that drew Q [m3/s] at suction s [Pa].

    Raises ZeroDivisionError when s is 0. Source: Darcy's law for a fixed geometry.
    """
    return Q / s


@formula("a = (s_2 / Q_2 - s_1 / Q_1) / (Q_2 - Q_1)", source="reddy-1991",
         a="Pa*s^2/m^6", s_2="Pa", Q_2="m3/s", s_1="Pa", Q_1="m3/s")  # fmt: skip
def soil_inertia(*, s_2: float, Q_2: float, s_1: float, Q_1: float) -> float:
    """What air speed costs in the soil, a [Pa s2/m6] in s = Q/G + a Q^2, from two tests (Q_1, s_1) and (Q_2, s_2) [SI].

    Raises ZeroDivisionError when the flows are equal or 0.  Source: Forchheimer's law for a fixed geometry, the form
    that Reddy and others 1991 use for stone.
    """
    return (s_2 / Q_2 - s_1 / Q_1) / (Q_2 - Q_1)


@formula("G = 1 / (s_1 / Q_1 - a * Q_1)", source="reddy-1991",
         G="m3/s/Pa", s_1="Pa", Q_1="m3/s", a="Pa*s^2/m^6")  # fmt: skip
def slow_conductance(*, s_1: float, Q_1: float, a: float) -> float:
    """Conductance G [m3/s/Pa] of the soil for slow air, from a test (Q_1, s_1) [SI] and the cost of speed a [Pa s2/m6].

    Raises ZeroDivisionError when speed alone takes all of s_1.  Source: as ``soil_inertia``.
    """
    return 1 / (s_1 / Q_1 - a * Q_1)


@formula("Q = 2 * s / (1 / G + sqrt(1 / G ** 2 + 4 * a * s))", source="reddy-1991",
         Q="m3/s", s="Pa", G="m3/s/Pa", a="Pa*s^2/m^6")  # fmt: skip
def inertial_soil_flow(*, s: float, G: float, a: float) -> float:
    """Flow Q [m3/s] of soil in which speed costs suction: the root of s = Q/G + a Q^2, s [Pa], G [m3/s/Pa], a [Pa s2/m6].

    Raises ZeroDivisionError when G is 0.  Source: as ``soil_inertia``.
    """
    return 2 * s / (1 / G + sqrt(1 / G**2 + 4 * a * s))


@formula("p_f = p_0 * (1 - (Q / Q_0) ** 2)", source="derived", p_f="Pa", p_0="Pa", Q="m3/s", Q_0="m3/s")
def parabola_pressure(*, p_0: float, Q: float, Q_0: float) -> float:
    """Fan pressure p_f [Pa] at flow Q [m3/s], from shut-off pressure p_0 [Pa] and free flow Q_0 [m3/s].

    Raises ZeroDivisionError when Q_0 is 0. Source: derived, the simplest curve through both; a maker's points are
    better.
    """
    return p_0 * (1 - (Q / Q_0) ** 2)


@formula("P = p_f * Q", source="definition", P="W", p_f="Pa", Q="m3/s")
def air_power(*, p_f: float, Q: float) -> float:
    """Power P [W] that goes into the air at fan pressure p_f [Pa] and flow Q [m3/s]. Source: definition of work."""
    return p_f * Q


def no_leak(s: float) -> float:
    """Flow [m3/s] of a perfectly sealed lid at any suction s [Pa]: none. Source: definition."""
    return 0.0 * s


def operating_point(
    *,
    fan: FlowCurve,
    pipe_loss: Callable[[float], float],
    soil_conductance: float,
    leak: Callable[[float], float] = no_leak,
    pipe_leak: PipeLeak | None = None,
    soil_inertia: float = 0.0,
) -> OperatingPoint:
    """The one suction at which fan, pipe, soil and leaks agree.

    ``fan`` is a falling curve of pressure [Pa] over flow [m3/s], ``pipe_loss`` the total pressure [Pa] lost at a flow
    (less buoyancy, if it is counted; its friction factor must be that of the flow), ``soil_conductance`` is in m3/s/Pa,
    ``leak`` the flow [m3/s] into the pit at a suction [Pa].  With ``pipe_leak`` the pipe_loss is what follows the
    leak.  ``soil_inertia`` [Pa s2/m6] is what speed costs in the soil.
    A fan that cannot make any suction gives flow 0 and suction 0.
    Raises OutsideCurve when the point lies beyond the ends of the fan curve, ValueError for a negative conductance.
    Source: balance of pressure and flow; all pieces rise or fall steadily, so there is one answer.
    """
    if soil_conductance < 0:
        raise ValueError(f"soil_conductance = {soil_conductance!r} m3/s/Pa must not be negative")

    def soil_air(s: float) -> float:
        if soil_inertia and soil_conductance:
            return inertial_soil_flow(s=s, G=soil_conductance, a=soil_inertia)
        return soil_conductance * s

    def flows(s: float) -> tuple[float, float, float, float]:
        """Pit flow, pipe leak, suction at the pipe leak, loss before it; at pit suction s."""
        pit = soil_air(s) + leak(s)
        if pipe_leak is None:
            return pit, 0.0, s, 0.0
        at_leak = s + pipe_leak.static_drop(pit)
        return pit, pipe_leak.flow(at_leak), at_leak, pipe_leak.loss_before(pit)

    widest = fan.high - fan.low
    pressure = carried_on(fan)

    def spare(s: float) -> float:
        """Fan pressure that is left over at pit suction s."""
        pit, side, _, before = flows(s)
        flow = pit + side
        return pressure(flow) - pipe_loss(flow) - before - s

    top = pressure(fan.low) - pipe_loss(0.0)
    if top <= 0:
        return OperatingPoint(0.0, 0.0, pressure(fan.low), 0.0, 0.0, 0.0, 0.0)
    if spare(0.0) <= 0:  # the pipe leak alone takes all that the fan has
        s = 0.0
    else:
        s = root(spare, 0.0, top)
    pit, side, at_leak, _ = flows(s)
    flow = pit + side
    _look(flow, fan, widest)
    soil = soil_air(s)
    return OperatingPoint(flow, s, pressure(flow), soil, pit - soil, side, at_leak)


def _look(flow: float, fan: FlowCurve, widest: float) -> None:
    """Raise OutsideCurve unless flow lies on the entered part of the fan curve."""
    if flow > fan.high + NEAR * widest:
        raise OutsideCurve("high", f"the fan would move {flow!r} m3/s; its curve ends at {fan.high!r} m3/s")
    if flow < fan.low - NEAR * widest:
        raise OutsideCurve("low", f"the fan would move {flow!r} m3/s; its curve starts at {fan.low!r} m3/s")


def halving_area(
    *,
    fan: FlowCurve,
    pipe_loss: Callable[[float], float],
    soil_conductance: float,
    sealed: OperatingPoint,
    rho: float,
    C: float = AIR_COEFFICIENT,
) -> float:
    """Open area [m2] beside an otherwise sealed pit that halves the pit's suction.

    Arguments as operating_point, and ``sealed``, what it gives for them; indoor air of density rho [kg/m3] enters
    through a sharp-edged hole of coefficient C [1].
    Raises OutsideCurve when the point lies outside the fan curve, ValueError when the sealed pit has no suction.
    Source: derived from the balance of operating_point.
    """
    if sealed.pit_suction <= 0:
        raise ValueError("the sealed pit has no suction, so nothing can halve it")
    half = sealed.pit_suction / 2
    widest = fan.high - fan.low
    pressure = carried_on(fan)
    # the curve carried on is below 0 one width past its last point, so the root is inside these ends
    flow = root(lambda Q: pressure(Q) - pipe_loss(Q) - half, sealed.flow, fan.high + 2 * widest)
    _look(flow, fan, widest)
    return orifice_area(Q=flow - soil_conductance * half, C=C, dp=half, rho=rho)
