"""Modified Bessel functions and the leaky-well function, for suction fields under a leaky slab."""

from math import cosh, exp, log, sqrt

STEP = 0.1  # largest trapezoid step; the integrands die doubly exponentially, so the rule is exact to rounding
BELL_STEP = 0.7  # the same, in widths of a narrow bell
EXPONENT_REACH = 60.0  # exp(-60) adds nothing: so far the well function is summed, and SPARE_REACH further
SPARE_REACH = 4.0
SMALLEST = 1e-18  # terms below this share of the first one no longer change the sum


def _decaying(x: float, order: int) -> float:
    """Integral of exp(-x (cosh t - 1)) cosh(n t) over t > 0, by the trapezoid rule."""
    if not x > 0:
        raise ValueError(f"the argument must be above 0, found {x!r}")
    step = min(STEP, BELL_STEP / sqrt(x))  # for large x the integrand is a narrow bell of width 1/sqrt(x)
    total, t = 0.5, step
    while True:
        term = exp(-x * (cosh(t) - 1)) * cosh(order * t)
        total += term
        if term < SMALLEST * total:
            return step * total
        t += step


def k0(x: float) -> float:
    """Modified Bessel function of the second kind, order 0 [1], of x [1].

    Errors: about 1e-15 relative for x from 1e-6 to 300.  Raises ValueError when x is not above 0.
    Source: integral form K0(x) = integral of exp(-x cosh t) over t > 0 (Abramowitz and Stegun 9.6.24).
    """
    return exp(-x) * _decaying(x, 0)


def k1(x: float) -> float:
    """Modified Bessel function of the second kind, order 1 [1], of x [1].

    Errors and source: as for ``k0``.
    """
    return exp(-x) * _decaying(x, 1)


def _rising(x: float, order: int) -> float:
    """Power series of I_n(x); every term is positive, so no digits are lost."""
    if x < 0:
        raise ValueError(f"the argument must not be below 0, found {x!r}")
    quarter = x * x / 4
    term = total = (x / 2) ** order
    k = 1
    while term > SMALLEST * total:
        term *= quarter / (k * (k + order))
        total += term
        k += 1
    return total


def i0(x: float) -> float:
    """Modified Bessel function of the first kind, order 0 [1], of x [1].

    Errors: about 1e-15 relative up to x = 300.  Raises ValueError when x is negative.
    Source: ascending series (Abramowitz and Stegun 9.6.10).
    """
    return _rising(x, 0)


def i1(x: float) -> float:
    """Modified Bessel function of the first kind, order 1 [1], of x [1].  Errors and source: as for ``i0``."""
    return _rising(x, 1)


def leaky_well(u: float, beta: float) -> float:
    """Leaky-well function W(u, r/B) [1]: the transient field of one hole in an endless leaky sheet.

    ``u`` = r^2 S / (4 T t) [1], ``beta`` = r/B [1].  W tends to 2 K0(beta) as u goes to 0.
    Errors: about 1e-12 relative.  Raises ValueError when u or beta is not above 0.
    Source: Hantush and Jacob 1955; with y = u exp(v) the integral is over v > 0, taken by
    Simpson rule on 4000 panels.
    """
    if not (u > 0 and beta > 0):
        raise ValueError("u and r/B must be above 0")
    quarter = beta * beta / 4
    peak = max(log(beta / 2 / u), 0.0)  # the integrand is largest at y = beta/2

    def value(v: float) -> float:
        y = u * exp(v)
        return exp(-y - quarter / y)

    end = peak + log(1 + EXPONENT_REACH / max(beta, u, 1e-9)) + SPARE_REACH
    panels = 4000
    step = end / panels
    total = value(0.0) + value(end)
    for i in range(1, panels):
        total += value(i * step) * (4 if i % 2 else 2)
    return total * step / 3
