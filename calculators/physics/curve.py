"""Curves of fans and pumps: a monotone cubic through entered points, or a parabola between shut-off and free flow."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Protocol

THREE = 3.0  # the weights and limits of the monotone cubic (Fritsch and Butland 1984)


class FlowCurve(Protocol):
    """Anything that gives a value (pressure [Pa] or head [m]) for a flow [m3/s] between low and high [m3/s]."""

    low: float
    high: float

    def __call__(self, flow: float, /) -> float: ...


class MonotoneCubic:
    """A smooth curve through points that never overshoots them.

    Slopes are weighted harmonic means of the neighbouring chords, the end slopes come from three points.
    Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304.
    """

    __slots__ = ("high", "low", "slopes", "x", "y")

    def __init__(self, x: Sequence[float], y: Sequence[float]) -> None:
        """Places x and values y in the same order, two points or more.

        Raises ValueError when the lists differ in length, hold under two points, or x does not rise strictly.
        """
        if len(x) != len(y) or len(x) < 2:
            raise ValueError(f"{len(x)} places and {len(y)} values: two points or more are needed, and equal numbers")
        for before, after in pairwise(x):
            if not before < after:
                raise ValueError(f"places must rise: {after!r} follows {before!r}")
        self.x, self.y = tuple(x), tuple(y)
        self.low, self.high = self.x[0], self.x[-1]
        self.slopes = _slopes(self.x, self.y)

    def __call__(self, x: float) -> float:
        """Value at x. Raises ValueError outside the points: the curve is not known there."""
        if not self.low <= x <= self.high:
            raise ValueError(f"{x!r} lies outside the points, which run from {self.low!r} to {self.high!r}")
        i = min(bisect_right(self.x, x), len(self.x) - 1) - 1
        width = self.x[i + 1] - self.x[i]
        t = (x - self.x[i]) / width
        u = 1 - t
        near = (1 + 2 * t) * u**2 * self.y[i] + t * u**2 * width * self.slopes[i]
        far = t**2 * (1 + 2 * u) * self.y[i + 1] - t**2 * u * width * self.slopes[i + 1]
        return near + far


class Parabola:
    """A fan curve known by two figures: shutoff [Pa] at no flow and free_flow [m3/s] at no pressure.

    Source: derived, the simplest curve through both; a maker's points are better.
    """

    __slots__ = ("free_flow", "high", "low", "shutoff")

    def __init__(self, *, shutoff: float, free_flow: float) -> None:
        """Pressure shutoff [Pa] and free_flow [m3/s]. Raises ValueError unless both are above 0."""
        if not (shutoff > 0 and free_flow > 0):
            raise ValueError(f"shutoff {shutoff!r} Pa and free_flow {free_flow!r} m3/s must both be above 0")
        self.shutoff, self.free_flow = shutoff, free_flow
        self.low, self.high = 0.0, free_flow

    def __call__(self, flow: float) -> float:
        """Pressure [Pa] at flow [m3/s]. Raises ValueError outside 0 to free flow."""
        if not 0 <= flow <= self.high:
            raise ValueError(f"{flow!r} m3/s lies outside 0 to the free flow of {self.high!r} m3/s")
        return self.shutoff * (1 - (flow / self.free_flow) ** 2)


class Scaled:
    """A curve whose values are multiplied by a factor: a fan in lighter or heavier air. Source: fan laws."""

    __slots__ = ("curve", "factor", "high", "low")

    def __init__(self, curve: FlowCurve, *, factor: float) -> None:
        """The curve and the factor [1], density over the density that the curve was stated for."""
        self.curve, self.factor = curve, factor
        self.low, self.high = curve.low, curve.high

    def __call__(self, flow: float) -> float:
        """Value at flow. Raises ValueError outside the curve."""
        return self.factor * self.curve(flow)


def first_rise(values: Sequence[float]) -> int | None:
    """Index of the first value that is above the one before it, None when they never rise. Source: comparison."""
    return next((i for i in range(1, len(values)) if values[i] > values[i - 1]), None)


def carried_on(curve: FlowCurve) -> Callable[[float], float]:
    """The curve made whole for a root search: level before its first point, below 0 one more width past its last.

    A root found outside low to high is not an answer; the caller must look. Source: a numerical device, no physics.
    """
    fall = (abs(curve(curve.low)) + 1) / (curve.high - curve.low)

    def value(flow: float) -> float:
        if flow > curve.high:
            return curve(curve.high) - fall * (flow - curve.high)
        return curve(max(flow, curve.low))

    return value


def _slopes(x: tuple[float, ...], y: tuple[float, ...]) -> tuple[float, ...]:
    """Slope of the curve at each point."""
    width = [b - a for a, b in pairwise(x)]
    chord = [(b - a) / h for (a, b), h in zip(pairwise(y), width, strict=True)]
    if len(chord) == 1:
        return (chord[0], chord[0])
    inner = [_inner(*c, *h) for c, h in zip(pairwise(chord), pairwise(width), strict=True)]
    return (_end(chord[0], chord[1], width[0], width[1]), *inner, _end(chord[-1], chord[-2], width[-1], width[-2]))


def _inner(before: float, after: float, h0: float, h1: float) -> float:
    """Weighted harmonic mean of two chords, 0 where they differ in sign."""
    if before * after <= 0:
        return 0.0
    w0, w1 = 2 * h1 + h0, h1 + 2 * h0
    return (w0 + w1) / (w0 / before + w1 / after)


def _end(chord: float, following: float, h0: float, h1: float) -> float:
    """Slope at an end from three points, held back where it would overshoot."""
    slope = ((2 * h0 + h1) * chord - h0 * following) / (h0 + h1)
    if slope * chord <= 0:
        return 0.0
    if chord * following <= 0 and abs(slope) > THREE * abs(chord):
        return THREE * chord
    return slope
