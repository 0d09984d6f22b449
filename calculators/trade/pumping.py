"""The pump line: what it asks at a flow, and where pump, line and relief hole settle."""

from typing import Any, NamedTuple

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

    def per_k(self, flow: float) -> float:
        """Length [m] of this pipe that one unit of loss coefficient is worth at a flow [m3/s]."""
        V = pipe.speed(Q=flow, D=self.bore)
        return V**2 / (2 * GRAVITY * self.gradient(flow)) if flow > 0 else 0.0

    def head(self, flow: float, equivalent: float | None = None) -> float:
        """Head [m] that the line asks at a flow [m3/s]; ``equivalent`` [m] overrides the length of the fittings."""
        if flow <= 0:
            return self.rise
        fittings = self.fitted.equivalent(self.per_k(flow)) if equivalent is None else equivalent
        return self.rise + self.gradient(flow) * (self.length + fittings)


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
    """Flow through the pump, back through the hole, out of the pit [m3/s]; pump head [m]; whether the valve opens."""

    pump_flow: float
    relief_flow: float
    delivered: float
    head: float


def settle(
    curve: MonotoneCubic, line: Line, relief: Relief, *, scale: float = 1.0, extreme: int | None = None
) -> Settled:
    """The flow at which pump, line and relief hole agree.

    ``scale`` [1] multiplies the hole's flow and ``extreme`` picks the least (0) or greatest (1) published worth of the
    fittings, for the range.  A pump that cannot lift the water so high delivers 0.  Raises Refusal when the point lies
    beyond the entered points of the pump.
    """

    def through_hole(flow: float) -> float:
        return scale * relief.flow(curve(flow))

    def asked(flow: float) -> float:
        if extreme is None or flow <= 0:
            return line.head(flow)
        return line.head(flow, line.fitted.bounds(line.per_k(flow))[extreme])

    def spare(flow: float) -> float:
        return curve(flow) - asked(max(flow - through_hole(flow), 0.0))

    if spare(curve.high) > 0:
        raise _beyond("above", curve.high)
    dead = _dead_point(curve, through_hole)
    if dead is None:
        dead = curve.low
        if spare(dead) < 0:
            raise _beyond("below", curve.low)
    elif spare(dead) <= 0:
        return Settled(dead, dead, 0.0, curve(dead))
    flow = numerics.root(spare, dead, curve.high)
    back = through_hole(flow)
    return Settled(flow, back, flow - back, curve(flow))


def _dead_point(curve: MonotoneCubic, through_hole: Any) -> float | None:
    """Flow [m3/s] through the pump when nothing leaves the pit; None when the curve does not reach so low."""
    if through_hole(curve.low) < curve.low:
        return None
    if through_hole(curve.high) > curve.high:
        return curve.high
    return numerics.root(lambda flow: flow - through_hole(flow), curve.low, curve.high)


def opening_head(curve: MonotoneCubic, relief: Relief) -> float | None:
    """Pump head [m] with the hole open and the check valve still shut; None when the points do not reach so low."""
    dead = _dead_point(curve, relief.flow)
    return None if dead is None else curve(dead)


def _beyond(side: str, flow: float) -> Refusal:
    return Refusal(
        "pump.points",
        f"the pump would run {side} the entered points of its curve; enter more points",
        found=f"{'last' if side == 'above' else 'first'} point at {from_si(flow, 'gpm'):g} gpm",
        accepts="points on both sides of the flow at which it runs",
        kind="outside-model",
    )
