"""A fan on a vent pipe that draws on a pit: where it settles, and how sure that is."""

from collections.abc import Callable, Iterable, Sequence
from functools import cache
from typing import Any, NamedTuple

from ..declare import Refusal
from ..physics import fan, openings, pipe
from ..physics.curve import FlowCurve
from ..physics.fan import OperatingPoint, OutsideCurve, PipeLeak
from ..physics.numerics import root
from ..physics.openings import Gap, Hole
from ..span import LateSpan, Span
from ..tables import table
from ..units import from_si
from .airstate import Air
from .pipework import FittingSum

PRESSURE, POINTS = "in WC|Pa", 60
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
    """Fan, pipe and soil in SI.  ``path`` is the fan's input, for a refusal; ``lift`` [Pa] is what the riser helps.

    ``inertia`` [Pa s2/m6] is what speed costs in the soil."""

    fan: FlowCurve
    path: str
    bore: float
    roughness: float
    length: float
    fitted: FittingSum
    air: Air
    conductance: float
    lift: float = 0.0
    inertia: float = 0.0

    def losses(self, *, less: float = 0.0) -> Callable[[float], float]:
        """Pressure [Pa] lost in the pipe and its fittings by flow [m3/s]; ``less`` [m] of straight pipe left out."""
        return pipe.losses(
            D=self.bore, k=self.roughness, L=self.length - less + self.fitted.length, K=self.fitted.k,
            rho=self.air.density, mu=self.air.viscosity,
        )  # fmt: skip

    def pipe_loss(self, flow: float, *, less: float = 0.0) -> float:
        """Pressure [Pa] lost in the pipe and its fittings at a flow [m3/s]; ``less`` [m] of straight pipe left out."""
        return self.losses(less=less)(flow)

    def soil_air(self, s: float) -> float:
        """Flow [m3/s] of the soil at a suction of the pit [Pa]."""
        if self.inertia and self.conductance:
            return fan.inertial_soil_flow(s=s, G=self.conductance, a=self.inertia)
        return self.conductance * s

    def straight(self, flow: float, length: float) -> float:
        """Pressure [Pa] lost in a straight length [m] at a flow [m3/s]."""
        return pipe.total_loss(
            Q=flow, D=self.bore, k=self.roughness, L=length, K=0.0, rho=self.air.density, mu=self.air.viscosity
        )

    def motion(self, flow: float) -> float:
        """Velocity pressure [Pa] at a flow [m3/s]."""
        return pipe.velocity_pressure(rho=self.air.density, V=pipe.speed(Q=flow, D=self.bore))


class PipeHole(NamedTuple):
    """A hole in the suction pipe and its distance from the pit [m]; all fittings lie behind it."""

    hole: Hole
    distance: float


def leak_flow(leaks: Iterable[Leak], s: float, air: Air) -> float:
    """Flow [m3/s] through all leaks at suction s [Pa]."""
    return sum(leak.flow(s, air) for leak in leaks)


def operate(
    system: System, leaks: Sequence[Leak] = (), *, soil: float = 1.0, pipe_hole: PipeHole | None = None
) -> OperatingPoint:
    """The operating point; ``soil`` multiplies the conductance [1], ``pipe_hole`` is a leak of the pipe.

    Raises OutsideCurve when it lies where the fan's curve was not entered.
    """
    lost = system.losses(less=pipe_hole.distance if pipe_hole else 0.0)
    return fan.operating_point(
        fan=system.fan,
        pipe_loss=lambda Q: lost(Q) - system.lift,
        soil_conductance=system.conductance * soil,
        soil_inertia=system.inertia / soil**2,  # at equal suction the flow is ``soil`` times as much
        leak=lambda s: leak_flow(leaks, s, system.air),
        pipe_leak=pipe_leak(system, pipe_hole) if pipe_hole else None,
    )


def sealed(system: System) -> Callable[[float], OperatingPoint]:
    """The operating point with no leak, by a factor [1] on the conductance of the soil; each is solved once."""
    return cache(lambda soil: operate(system, soil=soil))


def pipe_leak(system: System, hole: PipeHole) -> PipeLeak:
    """A hole in the pipe as the solver takes it: the suction at it is the pit's, the loss before it, and the speed."""

    def loss(flow: float) -> float:
        return system.straight(flow, hole.distance)

    return PipeLeak(
        loss,
        lambda Q: loss(Q) + system.motion(Q),
        lambda s: openings.opening_flow(hole.hole, s=s, rho=system.air.density, mu=system.air.viscosity),
    )


def settle(system: System, leaks: Sequence[Leak] = (), **more: Any) -> OperatingPoint:
    """As operate, but a point outside the entered curve is refused at the fan's input.  Raises Refusal."""
    return refusing(system, lambda: operate(system, leaks, **more))


def refusing(system: System, solve: Callable[[], OperatingPoint]) -> OperatingPoint:
    """The point that ``solve`` gives; one outside the entered curve is refused at the fan's input.  Raises Refusal."""
    try:
        return solve()
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


def corners(solve: Callable[[float, float], Any], factor: float, leaky: bool) -> Callable[[], list[Reach]]:
    """``solve(soil, way)`` at the ends of the range: soil divided and multiplied by ``factor``, leaks least and most.

    It is solved when the range is asked for, and once.  Where the fan's curve ends on the way to a corner, the last
    point that lies on the curve stands for it.
    """
    ends = [(soil, way) for soil in (-1, 1) for way in ((-1, 1) if leaky else (0,))]
    return cache(lambda: [_reach(lambda t, s=s, w=w: solve(factor ** (s * t), w * t)) for s, w in ends])  # type: ignore[misc]


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


def span(
    value: float, reached: Callable[[], Sequence[Reach]], of: Callable[[Any], float], why: Sequence[str]
) -> LateSpan:
    """A result with its range over the corners; the words say when the fan's entered curve cut it short."""

    def work_out() -> Span:
        values = [of(reach.found) for reach in reached()]
        cut = ["up to the end of the fan's entered curve"] if any(reach.cut for reach in reached()) else []
        return Span(value, min(values), max(values), "; ".join([*why, *cut]))

    return LateSpan(value, work_out)


def open_flow(system: System) -> float | None:
    """Flow [m3/s] with the lid off: no suction at the pit.  None where the fan's curve ends before."""
    curve, lost = system.fan, system.losses()

    def spare(flow: float) -> float:
        return curve(flow) - lost(flow) + system.lift

    if spare(curve.low) <= 0:
        return 0.0 if curve.low == 0 else None
    return root(spare, curve.low, curve.high) if spare(curve.high) <= 0 else None


def asked(
    system: System, leaks: Sequence[Leak], flow: float, top: float, *, pipe_hole: PipeHole | None = None
) -> float:
    """Pressure [Pa] that pipe and pit ask of the fan at a flow [m3/s]; at most ``top`` [Pa], where curves get steep."""

    side = pipe_leak(system, pipe_hole) if pipe_hole else None

    def at(s: float) -> tuple[float, float]:
        """Flow through the fan and the loss before the pipe leak, at pit suction s."""
        pit = system.soil_air(s) + leak_flow(leaks, s, system.air)
        return (pit + side.flow(s + side.static_drop(pit)), side.loss_before(pit)) if side else (pit, 0.0)

    if at(top)[0] <= flow:
        return top
    s = root(lambda s: flow - at(s)[0], 0.0, top)
    return min(top, s + at(s)[1] + system.pipe_loss(flow, less=pipe_hole.distance if pipe_hole else 0.0) - system.lift)


def plotted(
    system: System, views: Sequence[tuple[str, Sequence[Leak]]], point: OperatingPoint, **more: Any
) -> tuple[Any, ...]:
    """Series of a plot: the fan, and for each view what pipe and pit ask for; steep ones stop at its top."""
    curve = system.fan
    top = 1.15 * max(curve(curve.low), 1.0)
    even = [min(curve.high, curve.low + (curve.high - curve.low) * i / POINTS) for i in range(POINTS + 1)]
    flows = sorted({*even, *([point.flow] if curve.low <= point.flow <= curve.high else [])})
    drawn = [("fan", PRESSURE, [curve(flow) for flow in flows])]
    drawn += [(name, PRESSURE, [asked(system, leaks, flow, top, **more) for flow in flows]) for name, leaks in views]
    return ("air flow", "cfm|L/s", flows), *drawn


def titled(title: str, series: Sequence[tuple[str, str, Sequence[float]]]) -> str:
    """The title of a plot, with a word on lines that were cut at its top: they go on rising."""
    cut = any(len(values) > 1 and values[-1] == values[-2] > 0 for _, _, values in series[1:])
    return f"{title} (a line that turns level at the top goes on rising)" if cut else title
