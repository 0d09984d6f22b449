"""Open stone: the extra suction near a pit that grows with the square of the flow, and pits whose flow is unknown."""

from collections.abc import Sequence
from math import hypot, pi
from typing import NamedTuple

from .formula import formula
from .slab_solve import dense_solve
from .slab_source import Pit

WITHIN = 1e-12  # relative change of the flows at which Newton's method stops
MOST_STEPS = 60


class Stone(NamedTuple):
    """Open stone: permeability k [m2], thickness b [m], inertia c [s/m], viscosity mu [Pa*s] of the air."""

    k: float
    b: float
    c: float
    mu: float


@formula("s = mu * c / k * (Q / (2 * pi * b)) ** 2 * (1 / r - 8 / (3 * R) + 2 * r / R ** 2 - r ** 3 / (3 * R ** 4))",
         source="derived", s="Pa", mu="Pa*s", c="s/m", k="m2", Q="m3/s", b="m", r="m", R="m")  # fmt: skip
def skin_suction(*, mu: float, c: float, k: float, Q: float, b: float, r: float, R: float) -> float:
    """Extra suction s [Pa] at r [m] from a pit in open stone under an evenly leaking slab of radius R [m].

    mu [Pa*s], c [s/m], k [m2], Q [m3/s], b [m].  Errors: 1 to 5 percent of the extra part against the whole equation.
    Raises ZeroDivisionError at r = 0.  Source: inertial part of Forchheimer's law with the flow Q (1 - r^2/R^2).
    """
    return mu * c / k * (Q / (2 * pi * b)) ** 2 * (1 / r - 8 / (3 * R) + 2 * r / R**2 - r**3 / (3 * R**4))


def skin_field(stone: Stone, Q: float, r: float, rw: float, R: float) -> float:
    """Extra suction [Pa] at r [m] from a pit of radius rw [m] that draws Q [m3/s]; 0 beyond R [m], signed like Q.

    Raises ZeroDivisionError when both radii are 0.  Source: ``skin_suction``.
    """
    place = max(r, rw)
    if place >= R:
        return 0.0
    extra = skin_suction(mu=stone.mu, c=stone.c, k=stone.k, Q=Q, b=stone.b, r=place, R=R)
    return extra if Q >= 0 else -extra


def inertia_ratio(stone: Stone, Q: float, r: float) -> float:
    """Inertial over viscous slope of suction [1], c v, at r [m] from a pit drawing Q [m3/s].

    Above 3 at 1 m the model is not to be used.  Raises ZeroDivisionError at r = 0.  Source: Forchheimer's law.
    """
    return stone.c * Q / (2 * pi * r * stone.b)


def solve_flows(
    pits: Sequence[Pit], matrix: Sequence[Sequence[float]], offsets: Sequence[float], stone: Stone | None, R: float
) -> tuple[list[float], list[float]]:
    """Flows [m3/s] and suctions [Pa] of the pits from unit suctions ``matrix`` [Pa per m3/s] and base ``offsets`` [Pa].

    Pits of given suction get the flow that makes it so (Newton's method when stone adds a squared term).
    Raises ValueError when a pit has neither or both, or when the flows do not settle.
    """
    for pit in pits:
        if (pit.flow is None) == (pit.suction is None):
            raise ValueError("a pit needs either a flow or a suction")
    n = len(pits)
    known = [pit.flow for pit in pits]
    free = [i for i in range(n) if known[i] is None]
    flows = [q if q is not None else 0.0 for q in known]

    def reach(i: int) -> float:
        own = skin_field(stone, flows[i], pits[i].radius, pits[i].radius, R) if stone else 0.0
        for j, other in enumerate(pits):
            if stone and j != i:
                distance = hypot(pits[i].x - other.x, pits[i].y - other.y)
                own += skin_field(stone, flows[j], distance, other.radius, R)
        return offsets[i] + sum(u * q for u, q in zip(matrix[i], flows, strict=False)) + own

    for _ in range(MOST_STEPS):
        if not free:
            break
        lacks = [(pits[i].suction or 0.0) - reach(i) for i in free]
        slopes = [[matrix[i][j] for j in free] for i in free]
        if stone:
            for k, i in enumerate(free):
                one = skin_field(stone, 1.0, pits[i].radius, pits[i].radius, R)
                slopes[k][k] += 2 * one * abs(flows[i])
        steps = dense_solve(slopes, lacks)
        for i, step in zip(free, steps, strict=False):
            flows[i] += step
        if max(abs(s) for s in steps) <= WITHIN * max(abs(q) for q in flows):
            break
    else:
        raise ValueError("the flows of the pits do not settle")
    return flows, [reach(i) for i in range(n)]
