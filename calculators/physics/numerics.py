"""Roots of one unknown: a bracketing search that either finds the root or says why it cannot."""

from collections.abc import Callable
from math import isfinite, sqrt

HALF = 0.5
EPSILON = 2.0**-52  # spacing of floats at 1


def root(
    function: Callable[[float], float], low: float, high: float, *, tolerance: float = 0.0, steps: int = 200
) -> float:
    """Place x where a continuous function crosses zero between low and high.

    Brent's idea in its short form: interpolate when that is trustworthy, halve the bracket when it is not.
    ``tolerance`` is the wanted width of the bracket in the unit of x; 0 asks for the precision of floats.
    Raises ValueError when the ends are not in order, a value is not finite, or both ends have the same sign.
    Source: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149.
    """
    if not low <= high:
        raise ValueError(f"no bracket: low end {low!r} is above high end {high!r}")

    def value(x: float) -> float:
        y = function(x)
        if not isfinite(y):
            raise ValueError(f"the function has no finite value at {x!r}")
        return y

    a, b = high, low  # a is always the newest place, b the other side of the bracket, c the one before
    fa, fb = value(a), value(b)
    if fa == 0 or fb == 0:
        return b if fb == 0 else a
    if (fa > 0) == (fb > 0):
        raise ValueError(f"no root between {low!r} and {high!r}: the values {fb!r} and {fa!r} have the same sign")
    least_width = EPSILON**2 * (high - low)  # a root nearer to 0 than this is as good as 0
    share = HALF  # of the way from a to b
    for _ in range(steps):
        x = min(max(a + share * (b - a), low), high)  # rounding must not carry it outside
        fx = value(x)
        if (fx > 0) == (fa > 0):
            c, fc = a, fa
        else:
            c, fc, b, fb = b, fb, a, fa
        a, fa = x, fx
        best, least = (a, fa) if abs(fa) < abs(fb) else (b, fb)
        limit = 2 * EPSILON * abs(best) + HALF * max(tolerance, least_width)
        if least == 0 or abs(b - a) <= 2 * limit:
            return best
        share = HALF
        place, rise = (a - b) / (c - b), (fa - fb) / (fc - fb)
        if 1 - sqrt(1 - place) < rise < sqrt(place):  # an inverse parabola through the three points stays inside
            share = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        edge = limit / abs(b - a)
        share = min(max(share, edge), 1 - edge)
    raise ValueError(f"no root to the wanted precision after {steps} steps between {low!r} and {high!r}")
