"""Roots of one unknown: a bracketing search that either finds the root or says why it cannot."""

from collections.abc import Callable
from math import isfinite

HALF = 0.5
EPSILON = 2.0**-52  # spacing of floats at 1


def root(function: Callable[[float], float], low: float, high: float, *, tolerance: float = 0.0, steps: int = 200) -> float:
    """Place x where a continuous function crosses zero between low and high (Brent's method).

    ``tolerance`` is the wanted width of the bracket in the unit of x; 0 asks for the precision of floats.
    Raises ValueError when the ends are not in order, a value is not finite, or both ends have the same sign.
    Source: R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4.
    """
    if not low <= high:
        raise ValueError(f"no bracket: low end {low!r} is above high end {high!r}")
    a, b = low, high
    fa, fb = function(a), function(b)
    if not (isfinite(fa) and isfinite(fb)):
        raise ValueError(f"the function has no finite value at {a!r} or {b!r}")
    if fa == 0:
        return a
    if fb == 0:
        return b
    if (fa > 0) == (fb > 0):
        raise ValueError(f"no root between {low!r} and {high!r}: the values {fa!r} and {fb!r} have the same sign")
    c, fc = a, fa
    step = before = b - a
    for _ in range(steps):
        if (fb > 0) == (fc > 0):
            c, fc = a, fa
            step = before = b - a
        if abs(fc) < abs(fb):
            a, b, c = b, c, b
            fa, fb, fc = fb, fc, fb
        limit = 2 * EPSILON * abs(b) + HALF * tolerance
        middle = HALF * (c - b)
        if abs(middle) <= limit or fb == 0:
            return b
        if abs(before) >= limit and abs(fa) > abs(fb):
            before, step = _interpolate(a, b, c, fa, fb, fc, middle, limit, before, step)
        else:
            step = before = middle
        a, fa = b, fb
        b += step if abs(step) > limit else (limit if middle > 0 else -limit)
        fb = function(b)
        if not isfinite(fb):
            raise ValueError(f"the function has no finite value at {b!r}")
    raise ValueError(f"no root to the wanted precision after {steps} steps between {low!r} and {high!r}")


def _interpolate(
    a: float, b: float, c: float, fa: float, fb: float, fc: float, middle: float, limit: float, before: float, step: float
) -> tuple[float, float]:
    """The step by secant or inverse parabola, or half the bracket when that would be poor: (step before, step)."""
    s = fb / fa
    if a == c:
        p = 2 * middle * s
        q = 1 - s
    else:
        q, r = fa / fc, fb / fc
        p = s * (2 * middle * q * (q - r) - (b - a) * (r - 1))
        q = (q - 1) * (r - 1) * (s - 1)
    if p > 0:
        q = -q
    p = abs(p)
    if 2 * p < min((4 - 1) * middle * q - abs(limit * q), abs(before * q)):
        return step, p / q
    return middle, middle
