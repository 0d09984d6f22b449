"""Layer and leakage of a slab from the suction read at test holes while a known flow is drawn."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import exp, hypot, inf, log, sqrt
from typing import NamedTuple

from .slab_closed import endless_slab
from .slab_field import Equations, UnitField
from .slab_grid import LEAST_LEAKAGE_LENGTH, PER_LENGTH, Footing, Grid, OutsideGrid, cell_size
from .slab_outline import Outline
from .slab_source import Pit, Source

LEAST_B, MOST_B = 0.5, 100.0  # m, the range in which the leakage length is looked for
SCAN = 9  # leakage lengths tried before the search narrows
GOLDEN = (sqrt(5) - 1) / 2
WITHIN = 2e-3  # of ln B
CELL = 0.75  # m: many sums are made, and a reading is not as good as they are
LEAST_HOLES, LEAST_HOLES_GIVEN_B = 3, 2
T_WITHIN, T_STEPS = 1e-4, 12  # of ln T; the last step gains the rest
T_MISSED, T_FAR = 0.05, 30.0  # of ln T: no layer gives these readings; so far from the start none is looked for
USUAL_T = 1e-5  # m3/s/Pa, where the search of T begins
TINY = 1e-300  # Pa, so that a hole cut off by a sealed footing has a logarithm


class TooFewHoles(ValueError):
    """Fewer usable test holes than unknowns: three are needed, two when the leakage length is given."""


class Hole(NamedTuple):
    """A test hole at (x, y) [m]: suction [Pa] with the fan on, baseline [Pa] with it off, and what it is called."""

    x: float
    y: float
    suction: float
    baseline: float = 0.0
    name: str = ""


class Fit(NamedTuple):
    """Result: T [m3/s/Pa], B [m], their 68 percent ranges (None when there is no spare hole), residuals ln(read/model),
    their spread (None likewise), names of dropped holes, whether B ended at a limit of its search, and what the fitted
    slab would give at the dropped holes [Pa]."""

    T: float
    B: float
    T_range: tuple[float, float] | None
    B_range: tuple[float, float] | None
    residuals: list[float]
    spread: float | None
    dropped: list[str]
    at_limit: bool
    unseen: list[float]


def usable(holes: Sequence[Hole]) -> tuple[list[Hole], list[str]]:
    """Holes whose reading minus baseline is above 0, and the names of the others (a logarithm needs it)."""
    kept = [hole for hole in holes if hole.suction - hole.baseline > 0]
    return kept, [hole.name for hole in holes if hole not in kept]


def fit_test(
    outline: Outline,
    pit: Pit,
    holes: Sequence[Hole],
    *,
    joint: float = 0.0,
    footings: Sequence[Footing] = (),
    B: float | None = None,
) -> Fit:
    """Fit T and B (or T alone) so that the logarithms of the readings are met with least squares.

    ``pit`` has the test flow [m3/s]; ``joint`` [m3/s/Pa per m] is held.  T and B trade off: trust the field more than
    the pair.  Raises TooFewHoles, and ValueError when the pit has no flow, a hole is off the slab, or the joint alone takes
    more air than the readings allow.
    Source: least squares.
    """
    if pit.flow is None or not pit.flow > 0:
        raise ValueError("a fit needs the test flow at the pit")
    kept, dropped = usable(holes)
    least = LEAST_HOLES if B is None else LEAST_HOLES_GIVEN_B
    if len(kept) < least:
        raise TooFewHoles(f"{len(kept)} usable test holes, {least} are needed; dropped: {', '.join(dropped) or 'none'}")
    tried: dict[float, tuple[float, float, list[float]]] = {}

    def error(ln_b: float) -> float:
        if ln_b not in tried:
            near = min(tried, key=lambda x: abs(x - ln_b), default=None)
            # T goes roughly as B squared along the valley of good fits
            start = log(tried[near][0]) + 2 * (ln_b - near) if near is not None else log(USUAL_T)
            tried[ln_b] = _best_T(outline, pit, kept, joint=joint, footings=footings, B=exp(ln_b), start=start)
        return tried[ln_b][1]

    best = log(B) if B is not None else _search(error)
    squares = error(best)
    if squares == inf:
        raise ValueError("no layer meets these readings beside this wall joint")
    T, _, residuals = tried[best]
    spare = len(kept) - (2 if B is None else 1)
    spread = sqrt(squares / spare) if spare > 0 else None
    B_range = T_range = None
    if spread is not None:
        inside = [best] if B is not None else _profile(tried, best, squares + spread**2)
        B_range = (exp(min(inside)), exp(max(inside)))
        ends = []
        for end in (min(inside), max(inside)):
            error(end)
            ends.append(tried[end][0])
        own = exp(spread / sqrt(len(kept)))
        T_range = (min(ends) / own, max(ends) * own)
    at_limit = B is None and not log(LEAST_B) + 2 * WITHIN < best < log(MOST_B) - 2 * WITHIN
    silent = [hole for hole in holes if hole not in kept]
    unseen = _model(outline, pit, silent, joint=joint, footings=footings, T=T, B=exp(best)) if silent else []
    return Fit(T, exp(best), T_range, B_range, residuals, spread, dropped, at_limit, unseen)


def _search(error: Callable[[float], float]) -> float:
    """ln B of least error: a coarse scan, then golden sections around its best place."""
    low, high = log(LEAST_B), log(MOST_B)
    places = [low + (high - low) * k / (SCAN - 1) for k in range(SCAN)]
    k = min(range(SCAN), key=lambda i: error(places[i]))
    a, b = places[max(k - 1, 0)], places[min(k + 1, SCAN - 1)]
    c, d = b - GOLDEN * (b - a), a + GOLDEN * (b - a)
    while b - a > WITHIN:
        if error(c) < error(d):
            b, d = d, c
            c = b - GOLDEN * (b - a)
        else:
            a, c = c, d
            d = a + GOLDEN * (b - a)
    return min((a, b, c, d), key=error)


def _profile(tried: dict[float, tuple[float, float, list[float]]], best: float, limit: float) -> list[float]:
    """ln B at both ends of the stretch around the best one in which the error stays under a limit."""
    ends = [best]
    for side in (1, -1):
        line = sorted((x for x in tried if (x - best) * side >= 0), key=lambda x: (x - best) * side)
        for inner, outer in pairwise(line):
            f0, f1 = tried[inner][1], tried[outer][1]
            if f1 > limit:
                ends.append(inner + (outer - inner) * max(0.0, limit - f0) / (f1 - f0))
                break
        else:
            ends.append(line[-1])
    return ends


def _best_T(
    outline: Outline,
    pit: Pit,
    holes: Sequence[Hole],
    *,
    joint: float,
    footings: Sequence[Footing],
    B: float,
    start: float,
) -> tuple[float, float, list[float]]:
    """T [m3/s/Pa] that makes the mean log residual 0 for a leakage length, the sum of squares, the residuals."""
    read = [log(hole.suction - hole.baseline) for hole in holes]

    def misfit(ln_t: float) -> list[float]:
        suctions = _model(outline, pit, holes, joint=joint, footings=footings, T=exp(ln_t), B=B)
        return [r - log(max(s, TINY)) for r, s in zip(read, suctions, strict=False)]

    at = start
    residuals = misfit(at)
    mean = sum(residuals) / len(residuals)
    step = -mean  # without a joint the suctions go exactly as 1/T, and this step is the answer
    for _ in range(T_STEPS if joint else 0):
        if abs(mean) < T_WITHIN or abs(at + step - start) > T_FAR:
            break
        before, at = mean, at + step
        residuals = misfit(at)
        mean = sum(residuals) / len(residuals)
        step *= -mean / (mean - before)  # secant
    centred = [e - mean for e in residuals]
    if joint and abs(mean) > T_MISSED:
        return exp(at), inf, centred
    return exp(at + step), sum(e * e for e in centred), centred


def _model(
    outline: Outline,
    pit: Pit,
    holes: Sequence[Hole],
    *,
    joint: float,
    footings: Sequence[Footing],
    T: float,
    B: float,
) -> list[float]:
    """Suctions [Pa] at the holes: on cells, or of the endless slab where the leakage length is too short for cells."""
    flow = pit.flow or 0.0
    try:
        if B < LEAST_LEAKAGE_LENGTH:
            raise OutsideGrid("short")
        h = cell_size(outline, B, PER_LENGTH, CELL)
    except OutsideGrid:
        return [
            endless_slab(r=max(hypot(hole.x - pit.x, hole.y - pit.y), pit.radius), Q=flow, T=T, B=B) for hole in holes
        ]
    grid = Grid(outline, h=h, T=T, L=T / B**2, joint=joint, footings=list(footings))
    equations = Equations(grid)
    unit = UnitField(equations, Source(grid, pit))
    return [flow * unit.at(hole.x, hole.y, equations.reader.weights(hole.x, hole.y)) for hole in holes]
