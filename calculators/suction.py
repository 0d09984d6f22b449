"""A fan on a vent pipe that draws on a pit: where it settles, and how sure that is."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

from .airstate import Air
from .declare import Refusal, Span
from .physics import fan, openings, pipe
from .physics.curve import FlowCurve, carried_on
from .physics.fan import OperatingPoint, OutsideCurve, PipeLeak
from .physics.numerics import root
from .physics.openings import Gap, Hole
from .pipework import FittingSum
from .tables import table
from .units import from_si

HALVINGS = 40  # of the way to the end of an entered curve: finer than any fan sheet


class Leak(NamedTuple):
    """One kind of opening into the pit: its name, one gap or hole, and how many there are."""

    name: str
    opening: Gap | Hole
    number: float = 1.0

    @property
    def area(self) -> float:
        """Open area [m2] of all of them."""
        return self.number * openings.openings_area([self.opening])

    def flow(self, s: float, air: Air) -> float:
        """Flow [m3/s] through all of them at suction s [Pa]."""
        return self.number * openings.opening_flow(self.opening, s=s, rho=air.density, mu=air.viscosity)


class System(NamedTuple):
    """Fan, pipe and soil in SI.  ``path`` is the fan's input, for a refusal; ``lift`` [Pa] is what the riser helps."""

    fan: FlowCurve
    path: str
    bore: float
    roughness: float
    length: float
    fitted: FittingSum
    air: Air
    conductance: float
    lift: float = 0.0

    def pipe_loss(self, flow: float, *, less: float = 0.0) -> float:
        """Pressure [Pa] lost in the pipe and its fittings at a flow [m3/s]; ``less`` [m] of straight pipe left out."""
        return pipe.total_loss(
            Q=flow, D=self.bore, k=self.roughness, L=self.length - less + self.fitted.length, K=self.fitted.k,
            rho=self.air.density, mu=self.air.viscosity,
        )  # fmt: skip

    def straight(self, flow: float, length: float) -> float:
        """Pressure [Pa] lost in a straight length [m] at a flow [m3/s]."""
        return pipe.total_loss(
            Q=flow, D=self.bore, k=self.roughness, L=length, K=0.0, rho=self.air.density, mu=self.air.viscosity
        )


def leak_flow(leaks: Iterable[Leak], s: float, air: Air) -> float:
    """Flow [m3/s] through all leaks at suction s [Pa]."""
    return sum(leak.flow(s, air) for leak in leaks)


def operate(
    system: System, leaks: Sequence[Leak] = (), *, soil: float = 1.0, pipe_leak: PipeLeak | None = None,
    leak_at: float = 0.0,
) -> OperatingPoint:  # fmt: skip
    """The operating point; ``soil`` multiplies the conductance [1], ``leak_at`` [m] is the pipe leak's place.

    Raises OutsideCurve when it lies where the fan's curve was not entered.
    """
    return fan.operating_point(
        fan=system.fan,
        pipe_loss=lambda Q: system.pipe_loss(Q, less=leak_at) - system.lift,
        soil_conductance=system.conductance * soil,
        leak=lambda s: leak_flow(leaks, s, system.air),
        pipe_leak=pipe_leak,
    )


def settle(system: System, leaks: Sequence[Leak] = (), **more: Any) -> OperatingPoint:
    """As operate, but a point outside the entered curve is refused at the fan's input.  Raises Refusal."""
    try:
        return operate(system, leaks, **more)
    except OutsideCurve as error:
        raise outside(system, error) from None


def outside(system: System, error: OutsideCurve) -> Refusal:
    """The refusal of an operating point beyond the entered fan curve."""
    end = system.fan.low if error.end == "low" else system.fan.high
    side = "less than its first" if error.end == "low" else "more than its last"
    return Refusal(
        system.path,
        f"with this pipe and soil the fan would move {side} entered flow; its curve is not known there",
        found=f"a curve that {'starts' if error.end == 'low' else 'ends'} at {from_si(end, 'cfm'):.4g} cfm",
        accepts="points that reach further, from the fan's data sheet",
        kind="outside-model",
    )


def scaled(leaks: Iterable[Leak], way: float) -> list[Leak]:
    """The leaks at one end of their honest range: ``way`` -1 least, 1 greatest, 0 as entered.

    A gap lets through half to twice as much, a hole 20 % less to 20 % more (from memory).
    """
    ranges = table("limits")["range"]
    gap, hole = float(ranges["gap"]["value"]) ** way, 1 + way * ranges["hole"]["value"] / 100
    return [leak._replace(number=leak.number * (gap if isinstance(leak.opening, Gap) else hole)) for leak in leaks]


def why_leaks(leaks: Iterable[Leak]) -> list[str]:
    """What makes the range of these leaks, in words."""
    kinds = {type(leak.opening) for leak in leaks if leak.area > 0}
    words = {Gap: "gaps half to twice as much", Hole: "holes 20 % either way"}
    return [text for kind, text in words.items() if kind in kinds]


class Reach(NamedTuple):
    """What ``solve`` gave at a corner of the range, and whether the fan's curve ended before it."""

    found: Any
    cut: bool


def corners(solve: Callable[[float, float], Any], factor: float, leaky: bool) -> list[Reach]:
    """``solve(soil, way)`` at the ends of the range: soil divided and multiplied by ``factor``, leaks least and most.

    Where the fan's curve ends on the way to a corner, the last point that lies on the curve stands for it.
    """
    ends = [(soil, way) for soil in (-1, 1) for way in ((-1, 1) if leaky else (0,))]
    return [_reach(lambda t, s=soil, w=way: solve(factor ** (s * t), w * t)) for soil, way in ends]  # type: ignore[misc]


def _reach(solve: Callable[[float], Any]) -> Reach:
    try:
        return Reach(solve(1.0), False)
    except OutsideCurve:
        inside, beyond, found = 0.0, 1.0, solve(0.0)
    for _ in range(HALVINGS):
        middle = (inside + beyond) / 2
        try:
            inside, found = middle, solve(middle)
        except OutsideCurve:
            beyond = middle
    return Reach(found, True)


def span(value: float, reached: Sequence[Reach], of: Callable[[Any], float], why: Sequence[str]) -> Span:
    """A result with its range over the corners; the words say when the fan's entered curve cut it short."""
    values = [of(reach.found) for reach in reached]
    cut = ["up to the end of the fan's entered curve"] if any(reach.cut for reach in reached) else []
    return Span(value, min(values), max(values), "; ".join([*why, *cut]))


def open_flow(system: System) -> float | None:
    """Flow [m3/s] with the lid off: no suction at the pit.  None where the fan's curve ends before."""
    curve = system.fan

    def spare(flow: float) -> float:
        return curve(flow) - system.pipe_loss(flow) + system.lift

    if spare(curve.low) <= 0:
        return 0.0 if curve.low == 0 else None
    return root(spare, curve.low, curve.high) if spare(curve.high) <= 0 else None


def needed_suction(system: System, leaks: Sequence[Leak], flow: float, top: float) -> float:
    """Suction [Pa] at which soil and leaks give a flow [m3/s]; ``top`` [Pa] where it would be more."""

    def short(s: float) -> float:
        return flow - system.conductance * s - leak_flow(leaks, s, system.air)

    return top if short(top) >= 0 else root(short, 0.0, top)


def plotted(system: System, views: Sequence[tuple[str, Sequence[Leak]]], point: OperatingPoint) -> tuple[Any, ...]:
    """Series of a plot: the fan, and for each view what pipe and pit ask for; steep ones stop at its top."""
    curve = carried_on(system.fan, fall=0.0)
    top = 1.15 * max(curve(system.fan.low), 1.0)
    widest = system.fan.high
    steps = 60
    flows = sorted({*(widest * i / steps for i in range(steps + 1)), *([point.flow] if point.flow else [])})
    flows = [flow for flow in flows if flow >= system.fan.low]
    drawn = [("fan", "in WC|Pa", [curve(flow) for flow in flows])]
    for name, leaks in views:
        asked = [
            min(top, system.pipe_loss(flow) - system.lift + needed_suction(system, leaks, flow, top)) for flow in flows
        ]
        drawn.append((name, "in WC|Pa", asked))
    return ("air flow", "cfm|L/s", flows), *drawn
