"""A gauge on a suction pipe: its zero, its change, and a fan that turns at another speed."""

from .curve import FlowCurve
from .formula import formula


@formula("s = s_r - s_0", source="definition", s="Pa", s_r="Pa", s_0="Pa")
def less_zero(*, s_r: float, s_0: float) -> float:
    """Suction s [Pa] of a gauge that shows s_r [Pa] and stands at s_0 [Pa] with its hose off. Source: definition."""
    return s_r - s_0


@formula("c = s / s_m - 1", source="definition", c="1", s="Pa", s_m="Pa")
def change(*, s: float, s_m: float) -> float:
    """Change c [1] of a suction s [Pa] against the mark s_m [Pa]; below 0 when it has fallen.

    Raises ZeroDivisionError when the mark is 0. Source: definition.
    """
    return s / s_m - 1


class OtherSpeed:
    """The curve of a fan at another speed: flow goes with the speed, pressure with its square. Source: fan laws."""

    __slots__ = ("curve", "high", "low", "speed")

    def __init__(self, curve: FlowCurve, *, speed: float) -> None:
        """The curve and the speed [1] against that of the curve. Raises ValueError unless speed is above 0."""
        if not speed > 0:
            raise ValueError(f"speed = {speed!r}: a fan curve needs a speed above 0")
        self.curve, self.speed = curve, speed
        self.low, self.high = curve.low * speed, curve.high * speed

    def __call__(self, flow: float) -> float:
        """Pressure [Pa] at flow [m3/s]. Raises ValueError outside the curve."""
        there = flow / self.speed
        if self.low <= flow <= self.high:  # rounding must not carry an end of the curve outside
            there = min(max(there, self.curve.low), self.curve.high)
        return self.speed**2 * self.curve(there)
