"""What a gauge and a flow meter would show at a system that has changed since it was built."""

from collections.abc import Callable, Iterator
from math import exp, log
from typing import Any, NamedTuple

from ..physics.fan import OutsideCurve
from ..physics.gauge import OtherSpeed
from ..physics.numerics import root
from ..physics.openings import Hole
from ..physics.pipe import circle_area
from ..work import Work
from . import fan_results
from .airstate import soil_air
from .equipment import fan_curve
from .fan_results import Setting
from .pipework import add_up, bore_of, nearest_size
from .soil import soil_of
from .suction import Leak, PipeHole, System, operate

STEPS = 8  # sizes tried on the way to the largest; 40 find the same causes
GREAT_HOLE = 0.3  # m2, about a pit of 24 in. without its lid


class Fault(NamedTuple):
    """What has changed: openings [m2] into pit and pipe, soil [1], loss coefficients [1], fan speed, openings left [1]."""

    pit_area: float = 0.0
    pipe_area: float = 0.0
    soil: float = 1.0
    before: float = 0.0
    after: float = 0.0
    speed: float = 1.0
    kept: float = 1.0


class Shown(NamedTuple):
    """What is read then: suction at the gauge and in the pit [Pa], flow through the fan [m3/s]."""

    gauge: float
    pit: float
    flow: float


class _Resistance(NamedTuple):
    """Fittings as a sum: equivalent length [m] and loss coefficient [1]."""

    length: float
    k: float


class Built(NamedTuple):
    """The system as it was built: fan, pipe, soil, gauge; where a new leak in the pipe is put [m]."""

    system: System
    setting: Setting
    place: float

    @property
    def bore_area(self) -> float:
        """Area [m2] of the pipe's bore."""
        return circle_area(D=self.system.bore)

    def shows(self, fault: Fault) -> Shown | None:
        """Gauge, pit and flow with this fault; None where the fan's entered curve ends before."""
        fitted, setting = self.system.fitted, self.setting
        system = self.system._replace(
            fan=self.system.fan if fault.speed == 1 else OtherSpeed(self.system.fan, speed=fault.speed),
            fitted=_Resistance(fitted.length, fitted.k + fault.before + fault.after),  # type: ignore[arg-type]
        )
        leaks = [leak._replace(number=leak.number * fault.kept) for leak in setting.leaks]
        if fault.pit_area > 0:
            leaks.append(Leak("new opening at the pit", Hole(fault.pit_area)))
        hole = setting.hole
        if fault.pipe_area > 0:
            old = hole.hole.area if hole else 0.0
            hole = PipeHole(Hole(old + fault.pipe_area), hole.distance if hole else self.place)
        there = setting._replace(leaks=leaks, hole=hole, entrance=setting.entrance + fault.before)
        try:
            point = operate(system, leaks, soil=fault.soil, pipe_hole=hole)
        except OutsideCurve:
            return None
        row = fan_results.row(system, there, point)
        return Shown(row["gauge_suction"], row["pit_suction"], row["flow"])


def built(as_built: dict[str, Any], lift: float | None) -> Built:
    """The system of a read fan-point input; its first fan, if there are several.  ``lift`` [Pa] is what the riser helps.

    Raises Refusal for a fan or a fitting that contradicts itself.
    """
    scratch = Work()  # fan-point has printed these steps already
    D = bore_of(as_built["pipe_size"], as_built["inside_diameter"])
    size = as_built["pipe_size"] or nearest_size(D)
    fitted = add_up(as_built["fittings"], size, "air", as_built["fitting_method"])
    leak, area = as_built["pipe_leak"], as_built["open_area"]
    air = soil_air(scratch, **{name: as_built[name] for name in ("elevation", "air_temperature", "relative_humidity")})
    soil = soil_of(scratch, as_built["soil_conductance"], as_built["measured"], as_built["soil"], as_built["measured_again"])
    system = System(
        fan_curve(as_built["fan"] or as_built["fans"][0], air.density),
        "fan",
        D,
        as_built["roughness"] or 0.0,
        as_built["pipe_length"],
        fitted,
        air,
        soil.conductance,
        lift or 0.0,
        soil.inertia,
    )
    setting = Setting(
        [Leak("opening at the pit", Hole(area))] if area > 0 else [],
        PipeHole(Hole(leak["area"]), leak["distance_from_pit"]) if leak and leak["area"] else None,
        as_built["gauge_position"] == "pipe",
        as_built["gauge_distance"],
        fan_results.entrance(as_built["fittings"], size, fitted),
        soil,
        None,
    )
    return Built(system, setting, (as_built["gauge_distance"] + as_built["pipe_length"]) / 2)


class Sized(NamedTuple):
    """A fault of the size that comes nearest to a reading: its size in its own unit, and what is shown then."""

    size: float
    shown: Shown


def sizes(start: float, end: float) -> Iterator[float]:
    """Sizes from ``start`` to ``end`` in even ratios; both above 0."""
    for i in range(STEPS + 1):
        yield start * exp(log(end / start) * i / STEPS)


def nearest(system: Built, of: Callable[[float], Fault], start: float, end: float, reading: float) -> Sized | None:
    """The first size on the way from ``start`` to ``end`` at which the gauge shows ``reading`` [Pa].

    Where none does, the size that comes nearest.  None when the fan's entered curve gives no answer for any size.
    """
    best: Sized | None = None
    before: tuple[float, float] | None = None
    for size in sizes(start, end):
        shown = system.shows(of(size))
        if shown is None:
            before = None
            continue
        off = shown.gauge - reading
        if before is not None and (off > 0) != (before[1] > 0):
            return _between(system, of, before[0], size, reading) or best
        if best is None or abs(off) < abs(best.shown.gauge - reading):
            best = Sized(size, shown)
        before = (size, off)
    return best


def _between(system: Built, of: Callable[[float], Fault], low: float, high: float, reading: float) -> Sized | None:
    """The size between two whose readings lie on both sides."""

    def off(size: float) -> float:
        shown = system.shows(of(size))
        if shown is None:
            raise ValueError("the fan's curve ends between")
        return shown.gauge - reading

    low, high = min(low, high), max(low, high)
    try:
        size = root(off, low, high, tolerance=1e-6 * high)
    except ValueError:
        return None
    shown = system.shows(of(size))
    return None if shown is None else Sized(size, shown)
