"""The results of fan-point for one fan: operating point, gauge, margins, their ranges, and how they are shown."""

from typing import Any, NamedTuple

from ..physics import pipe
from ..physics.fan import OperatingPoint
from ..physics.openings import Hole
from ..span import LateSpan, Span
from ..tables import fitting
from ..work import Work
from .equipment import shutoff_pressure
from .pipework import FittingSum
from .soil import Soil
from .suction import Leak, PipeHole, System, corners, operate, plotted, scaled, span, titled, why_leaks
from .suction_steps import print_balance, print_openings


class Setting(NamedTuple):
    """What is the same for every fan: leaks, hole in the pipe, tap of the gauge, soil; SI."""

    leaks: list[Leak]
    hole: PipeHole | None
    in_pipe: bool
    distance: float
    entrance: float
    soil: Soil
    target: float | None


def entrance(fittings: list[dict[str, Any]], size: str, fitted: FittingSum) -> float:
    """Loss coefficient [1] of the pipe's entrance: that of the fittings entered, else the table's sharp edge."""
    entered = [
        item["count"] * worth.coefficients[0]
        for item, worth in zip(fittings, fitted.worths, strict=True)
        if item["kind"] == "entrance" and item["count"] and worth.coefficients
    ]
    return sum(entered) if entered else float(fitting("entrance", size, "air", "loss-coefficient")[0]["value"])


def _losses(system: System, setting: Setting, point: OperatingPoint) -> tuple[float, float]:
    """Loss [Pa] in the whole pipe, and between the pit and the gauge's tap (without the entrance)."""
    pit = point.flow - point.pipe_leak_flow
    at = setting.hole.distance if setting.hole else system.length
    whole = system.pipe_loss(point.flow)
    if setting.hole:
        whole = system.straight(pit, at) + system.pipe_loss(point.flow, less=at)
    before = min(setting.distance, at)
    to_tap = system.straight(pit, before) + system.straight(point.flow, max(0.0, setting.distance - at))
    return whole, to_tap


def _gauge(system: System, setting: Setting, point: OperatingPoint) -> dict[str, float] | None:
    """Arguments of the tap's equation in SI; None for a gauge in the pit or a still pipe."""
    if not setting.in_pipe or point.flow <= 0:
        return None
    pit = point.flow - point.pipe_leak_flow
    beyond = setting.hole is not None and setting.distance > setting.hole.distance
    V = pipe.speed(Q=point.flow if beyond else pit, D=system.bore)
    dp = _losses(system, setting, point)[1]
    if beyond:  # the entrance passes the pit's flow only, so its loss is counted apart
        dp += setting.entrance * system.motion(pit)
    return {
        "s": point.pit_suction,
        "K": 0.0 if beyond else setting.entrance,
        "rho": system.air.density,
        "V": V,
        "dp": dp,
    }


def row(system: System, setting: Setting, point: OperatingPoint) -> dict[str, Any]:
    """The results of one operating point, in SI, without ranges; those that cannot be given are None."""
    tap = _gauge(system, setting, point)
    greatest = shutoff_pressure(system.fan) if system.fan.low == 0 else None
    return {
        "pit_suction": point.pit_suction,
        "flow": point.flow,
        "gauge_suction": pipe.tap_suction(**tap) if tap else point.pit_suction,
        "fan_pressure": point.fan_pressure,
        "pipe_loss": _losses(system, setting, point)[0],
        "soil_flow": point.soil_flow,
        "leak_flow": point.leak_flow,
        "pipe_leak_flow": point.pipe_leak_flow,
        "house_air": point.leak_flow + point.pipe_leak_flow,
        "velocity": pipe.speed(Q=point.flow, D=system.bore),
        "margin": None if greatest is None else greatest - point.fan_pressure,
        "above_target": None if setting.target is None else point.pit_suction - setting.target,
    }


def ranged(system: System, setting: Setting, found: dict[str, Any]) -> dict[str, Any]:
    """The results with their ranges: soil by its factor, holes 20 % either way, house air up to the whole flow."""

    def at(soil: float, way: float) -> dict[str, Any]:
        hole = setting.hole
        if hole:
            hole = hole._replace(hole=hole.hole._replace(area=hole.hole.area * _holes(way)))
        return row(system, setting, operate(system, scaled(setting.leaks, way), soil=soil, pipe_hole=hole))

    holes = bool(setting.leaks or setting.hole)
    reached = corners(at, setting.soil.factor, holes)
    why = [
        setting.soil.why,
        *(why_leaks(setting.leaks) or why_leaks([Leak("", setting.hole.hole)] if setting.hole else [])),
    ]
    out: dict[str, Any] = {}
    for name, value in found.items():
        if value is None or (name in ("leak_flow", "pipe_leak_flow") and value == 0):
            out[name] = value
        else:
            out[name] = span(value, reached, lambda at_end, name=name: at_end[name], why)  # type: ignore[misc]
    air, flow = found["house_air"], found["flow"]
    house_why = "at least what leaks in; at most the whole flow, since air of the soil can come from the house too"
    out["house_air"] = LateSpan(
        air, lambda: Span(air, min(reach.found["house_air"] for reach in reached()), flow, house_why)
    )
    return out


def _holes(way: float) -> float:
    """Share of a hole's area at one end of its range."""
    return scaled([Leak("", Hole(1.0))], way)[0].number


def print_point(work: Work, system: System, setting: Setting, sheet: dict[str, Any], point: OperatingPoint) -> None:
    """The arithmetic of the first fan, ending at the gauge."""
    if setting.leaks and point.pit_suction > 0:
        print_openings(work, setting.leaks, point.pit_suction, system.air)
    print_balance(work, system, sheet, point, "", setting.hole if point.flow > 0 else None)
    tap = _gauge(system, setting, point)
    if tap:
        work.step("Suction at the gauge", pipe.tap_suction, us={}, si={}, **tap)


def plot_point(
    work: Work, system: System, setting: Setting, point: OperatingPoint, name: str, i: int, most: int
) -> None:
    """Plot one fan against what pipe and pit ask for."""
    x, *series = plotted(system, [("pipe and pit", setting.leaks)], point, pipe_hole=setting.hole)
    title = "Fan against pipe and pit" if most == 1 else f"Fan against pipe and pit: {name}"
    id = "curves" if i == 0 else f"curves-{i + 1}"
    work.plot(id, titled(title, series), x, *series, point=(point.flow, point.fan_pressure))
