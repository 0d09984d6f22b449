"""Fans and pumps as their data sheets give them, made into curves; a sheet that contradicts itself is refused."""

from typing import Any

from ..declare import Refusal
from ..physics.air import ROOM_DENSITY
from ..physics.curve import FlowCurve, MonotoneCubic, Parabola, Scaled, first_rise
from ..units import from_si


def points_curve(points: list[dict[str, Any]], path: str, value: str, shown: tuple[str, str]) -> MonotoneCubic:
    """The curve through entered points of ``flow`` and ``value`` (pressure or head).

    ``shown`` are the units in which a fault is quoted.  Raises Refusal at the point where flow does not rise or the
    value does.
    """
    flows, values = [p["flow"] for p in points], [p[value] for p in points]
    for i in range(1, len(flows)):
        if flows[i] <= flows[i - 1]:
            raise Refusal(
                f"{path}[{i}].flow",
                "the flows of a curve must rise from point to point",
                found=f"{from_si(flows[i], shown[0]):g} {shown[0]} after {from_si(flows[i - 1], shown[0]):g}",
                accepts="a larger flow than the point before",
            )
    rising = first_rise(values)
    if rising is not None:
        raise Refusal(
            f"{path}[{rising}].{value}",
            f"the {value} of a curve must not rise with the flow",
            found=f"{from_si(values[rising], shown[1]):g} {shown[1]} after {from_si(values[rising - 1], shown[1]):g}",
            accepts="the same or a smaller value than the point before",
        )
    return MonotoneCubic(flows, values)


def fan_curve(fan: dict[str, Any], density: float, path: str = "fan") -> FlowCurve:
    """Fan pressure [Pa] over flow [m3/s] in air of this density [kg/m3].

    Raises Refusal for points that rise.
    """
    rated = fan["rating_density"] or ROOM_DENSITY
    if fan["points"]:
        through = points_curve(fan["points"], f"{path}.points", "pressure", ("cfm", "in WC"))
        return Scaled(through, factor=density / rated)
    return Scaled(Parabola(shutoff=fan["shutoff"], free_flow=fan["free_flow"]), factor=density / rated)


def shutoff_pressure(curve: FlowCurve) -> float:
    """The greatest suction [Pa] that a fan makes: its pressure at the least flow of its curve."""
    return curve(curve.low)


def pump_curve(pump: dict[str, Any]) -> MonotoneCubic:
    """Pump head [m] over flow [m3/s].  Raises Refusal for points that rise."""
    return points_curve(pump["points"], "pump.points", "head", ("gpm", "ft"))
