"""The pump line: what it asks at a flow, and where pump, line and relief hole settle."""

from collections.abc import Callable
from typing import NamedTuple

from ..declare import Refusal
from ..physics import numerics, openings, pipe, water
from ..physics.constants import GRAVITY
from ..physics.curve import MonotoneCubic
from ..units import from_si
from .pipework import FittingSum


class Line(NamedTuple):
    """A pump line: bore, length [m], its fittings, and how friction is counted.

    ``c_factor`` [1] is Hazen-Williams' coefficient, or None for Darcy-Weisbach with ``roughness`` [m] and the water's
    ``density`` [kg/m3] and ``viscosity`` [Pa*s].  ``rise`` [m] is the static lift with the lift out of a pit under suction.
    """

    bore: float
    length: float
    fitted: FittingSum
    c_factor: float | None
    roughness: float
    density: float
    viscosity: float
    rise: float

    def gradient(self, flow: float) -> float:
        """Friction gradient [m/m] at a flow [m3/s]."""
        if flow <= 0:
            return 0.0
        if self.c_factor is not None:
            return water.hazen_williams_gradient(C=self.c_factor, Q=flow, d=self.bore)
        V = pipe.speed(Q=flow, D=self.bore)
        Re = pipe.reynolds(rho=self.density, V=V, D=self.bore, mu=self.viscosity)
        return water.darcy_gradient(f=pipe.friction_factor(Re=Re, k=self.roughness, D=self.bore), D=self.bore, V=V)

    def per_k(self, flow: float, gradient: float) -> float:
        """Length [m] of this pipe that one unit of loss coefficient is worth at a flow [m3/s] and its gradient [m/m]."""
        V = pipe.speed(Q=flow, D=self.bore)
        return V**2 / (2 * GRAVITY * gradient)

    def head(self, flow: float, worth: Callable[[float], float] | None = None) -> float:
        """Head [m] that the line asks at a flow [m3/s].

        ``worth`` gives the equivalent length [m] of the fittings by the length [m] that one unit of K is worth; left
        out, it is that of the table that is used.
        """
        if flow <= 0:
            return self.rise
        gradient = self.gradient(flow)
        fittings = (worth or self.fitted.equivalent)(self.per_k(flow, gradient))
        return self.rise + gradient * (self.length + fittings)


class Relief(NamedTuple):
    """A relief hole: area [m2], coefficient [1], its height [m] above the water of the pit.  Area 0 is no hole."""

    area: float
    coefficient: float
    above_water: float

    def flow(self, head: float) -> float:
        """Flow [m3/s] back into the pit when the pump makes this head [m]."""
        behind = water.relief_head(H=head, z=self.above_water)
        return openings.orifice_flow_head(C=self.coefficient, A=self.area, h=behind)


class Settled(NamedTuple):
    """Flow through the pump, back through the hole, out of the pit [m3/s]; pump head [m]."""

    pump_flow: float
    relief_flow: float
    delivered: float
    head: float


def settle(
    curve: MonotoneCubic,
    line: Line,
    relief: Relief,
    *,
    scale: float = 1.0,
    worth: Callable[[float], float] | None = None,
) -> Settled:
    """The flow at which pump, line and relief hole agree.

    ``scale`` [1] multiplies the hole's flow and ``worth`` counts the fittings otherwise (see Line.head), for the range.
    A pump that cannot lift the water so high delivers 0.  Raises Refusal when the point lies beyond the entered points
    of the pump.
    """

    def spare(flow: float) -> float:
        head = curve(flow)
        return head - line.head(max(flow - scale * relief.flow(head), 0.0), worth)

    if spare(curve.high) > 0:
        raise _beyond("above", curve.high)
    if spare(curve.low) >= 0:
        flow = numerics.root(spare, curve.low, curve.high)
        head = curve(flow)
        back = scale * relief.flow(head)
        if flow > back:
            return Settled(flow, back, flow - back, head)
    dead = _dead_point(curve, relief, scale)
    if dead is None:
        raise _beyond("below", curve.low)
    return Settled(dead, dead, 0.0, curve(dead))


def _dead_point(curve: MonotoneCubic, relief: Relief, scale: float = 1.0) -> float | None:
    """Flow [m3/s] through the pump when nothing leaves the pit; None when the curve does not reach so low."""

    def left(flow: float) -> float:
        return flow - scale * relief.flow(curve(flow))

    if left(curve.low) > 0:
        return None
    if left(curve.high) < 0:
        return curve.high
    return numerics.root(left, curve.low, curve.high)


def opening_head(curve: MonotoneCubic, relief: Relief) -> float | None:
    """Pump head [m] with the hole open and the check valve still shut; None when the points do not reach so low."""
    dead = _dead_point(curve, relief)
    return None if dead is None else curve(dead)


def _beyond(side: str, flow: float) -> Refusal:
    return Refusal(
        "pump.points",
        f"the pump would run {side} the entered points of its curve; enter more points",
        found=f"{'last' if side == 'above' else 'first'} point at {from_si(flow, 'gpm'):g} gpm",
        accepts="points on both sides of the flow at which it runs",
        kind="outside-model",
    )
