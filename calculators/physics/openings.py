"""Flow through openings: one law for every gap, narrow or wide, and the sharp-edged hole for air and for water."""

from collections.abc import Iterable
from math import pi, sqrt
from typing import NamedTuple

from .constants import GRAVITY
from .formula import formula

SLOT = 12.0  # laminar flow between parallel plates (plane Poiseuille)
AIR_COEFFICIENT = 0.61  # sharp-edged opening, air: pi/(pi + 2) of the free jet
WATER_COEFFICIENT = 0.60  # sharp-edged hole, water: agrees with public pressure-distribution tables
SLAB_CRACK_LOSS = 1.5  # loss coefficient of a straight slab crack, from memory (Baker, Sharples and Ward 1987)


class Gap(NamedTuple):
    """A gap of width, length and depth [m] with the discharge coefficient [1] of its wide limit."""

    width: float
    length: float
    depth: float
    coefficient: float = AIR_COEFFICIENT


class Hole(NamedTuple):
    """A sharp-edged hole of an area [m2] with its discharge coefficient [1]."""

    area: float
    coefficient: float = AIR_COEFFICIENT


@formula(
    "dp = 12 * mu * z * V / w ** 2 + rho * V ** 2 / (2 * C ** 2)",
    source="gap-law",
    dp="Pa",
    mu="Pa*s",
    z="m",
    V="m/s",
    w="m",
    rho="kg/m3",
    C="1",
)
def gap_pressure(*, mu: float, z: float, V: float, w: float, rho: float, C: float) -> float:
    """Pressure dp [Pa] that drives air at mean speed V [m/s] through a gap of width w [m] and depth z [m].

    Viscosity mu [Pa*s], density rho [kg/m3], discharge coefficient C [1] of the wide limit.
    The first term is laminar flow between plates, the second the orifice. Raises ZeroDivisionError when w or C is 0.
    Source: derived from plane Poiseuille flow and the orifice equation.
    """
    return SLOT * mu * z * V / w**2 + rho * V**2 / (2 * C**2)


@formula(
    "V = C * sqrt(2 / rho * (dp - 12 * mu * z * V / w ** 2))",
    source="gap-law",
    V="m/s",
    C="1",
    rho="kg/m3",
    dp="Pa",
    mu="Pa*s",
    z="m",
    w="m",
)
def gap_speed(*, C: float, rho: float, dp: float, mu: float, z: float, w: float) -> float:
    """Mean speed V [m/s] through a gap of width w [m] and depth z [m] at pressure difference dp [Pa].

    Discharge coefficient C [1], density rho [kg/m3], viscosity mu [Pa*s]. The equation holds V on both sides; it is
    solved exactly (it is quadratic). A negative dp gives a negative speed, a gap of width 0 none.
    Source: derived from plane Poiseuille flow and the orifice equation.
    """
    if dp == 0 or w <= 0:
        return 0.0
    if dp < 0:
        return -gap_speed(C=C, rho=rho, dp=-dp, mu=mu, z=z, w=w)
    linear = SLOT * mu * z / w**2
    square = rho / (2 * C**2)
    return 2 * dp / (linear + sqrt(linear**2 + 4 * square * dp))


def gap_regime(*, C: float, rho: float, dp: float, mu: float, z: float, w: float) -> str:
    """What limits a gap: "viscous" when wall friction takes over half of dp [Pa], else "orifice".

    Arguments as gap_speed. Source: derived, the first term of the gap law over half of the sum.
    """
    V = abs(gap_speed(C=C, rho=rho, dp=dp, mu=mu, z=z, w=w))
    if V == 0:
        return "viscous"
    return "viscous" if 2 * SLOT * mu * z * V / w**2 > abs(dp) else "orifice"


@formula("Q = V * w * L", source="continuity", Q="m3/s", V="m/s", w="m", L="m")
def gap_flow(*, V: float, w: float, L: float) -> float:
    """Flow Q [m3/s] at mean speed V [m/s] through a gap of width w [m] and length L [m]. Source: continuity."""
    return V * w * L


@formula("C = 1 / sqrt(K)", source="bernoulli", C="1", K="1")
def coefficient_of_loss(*, K: float) -> float:
    """Discharge coefficient C [1] of an opening with loss coefficient K [1].

    Raises ValueError or ZeroDivisionError unless K is above 0. Source: Bernoulli.
    """
    return 1 / sqrt(K)


@formula("Q = C * A * sqrt(2 * dp / rho)", source="orifice-textbook", Q="m3/s", C="1", A="m2", dp="Pa", rho="kg/m3")
def orifice_flow(*, C: float, A: float, dp: float, rho: float) -> float:
    """Flow Q [m3/s] through a sharp-edged opening of area A [m2] and discharge coefficient C [1].

    Pressure difference dp [Pa], density rho [kg/m3]. Raises ValueError when dp is negative. Source: orifice equation.
    """
    return C * A * sqrt(2 * dp / rho)


@formula("A = Q / (C * sqrt(2 * dp / rho))", source="orifice-textbook", A="m2", Q="m3/s", C="1", dp="Pa", rho="kg/m3")
def orifice_area(*, Q: float, C: float, dp: float, rho: float) -> float:
    """Area A [m2] of the sharp-edged opening that passes flow Q [m3/s] at pressure difference dp [Pa].

    Discharge coefficient C [1], density rho [kg/m3]. Raises ZeroDivisionError when dp is 0. Source: orifice equation.
    """
    return Q / (C * sqrt(2 * dp / rho))


@formula("dp = rho / 2 * (Q / (C * A)) ** 2", source="orifice-textbook", dp="Pa", rho="kg/m3", Q="m3/s", C="1", A="m2")
def orifice_pressure(*, rho: float, Q: float, C: float, A: float) -> float:
    """Pressure difference dp [Pa] that drives flow Q [m3/s] through area A [m2] at discharge coefficient C [1].

    Density rho [kg/m3]. Raises ZeroDivisionError when A or C is 0. Source: orifice equation.
    """
    return rho / 2 * (Q / (C * A)) ** 2


@formula("Q = C * A * sqrt(2 * 9.80665 * h)", source="orifice-textbook", Q="m3/s", C="1", A="m2", h="m")
def orifice_flow_head(*, C: float, A: float, h: float) -> float:
    """Flow Q [m3/s] through a sharp-edged hole of area A [m2] and coefficient C [1] under head h [m of the fluid].

    Raises ValueError when h is negative. Source: orifice equation in head.
    """
    return C * A * sqrt(2 * GRAVITY * h)


@formula("L = pi * D", source="geometry", L="m", D="m")
def rim_length(*, D: float) -> float:
    """Length L [m] of a gap all round a lid of diameter D [m]. Source: geometry."""
    return pi * D


@formula("w = (D - d) / 2", source="geometry", w="m", D="m", d="m")
def annulus_width(*, D: float, d: float) -> float:
    """Width w [m] of the ring between a hole D [m] and a centred pipe d [m]. Source: geometry."""
    return (D - d) / 2


@formula("L = pi * (D + d) / 2", source="geometry", L="m", D="m", d="m")
def annulus_length(*, D: float, d: float) -> float:
    """Mean length L [m] of the ring between a hole D [m] and a pipe d [m]. Source: geometry."""
    return pi * (D + d) / 2


@formula("A = w * L", source="geometry", A="m2", w="m", L="m")
def gap_area(*, w: float, L: float) -> float:
    """Open area A [m2] of a gap of width w [m] and length L [m]. Source: geometry."""
    return w * L


def annulus(*, hole: float, pipe: float, depth: float) -> Gap:
    """The gap between a hole of diameter hole [m] and a pipe of diameter pipe [m] in a lid of depth [m].

    Raises ValueError when the pipe is wider than the hole. Source: geometry.
    """
    if pipe > hole:
        raise ValueError(f"a pipe of {pipe!r} m does not go through a hole of {hole!r} m")
    return Gap(annulus_width(D=hole, d=pipe), annulus_length(D=hole, d=pipe), depth)


def opening_flow(opening: Gap | Hole, *, s: float, rho: float, mu: float) -> float:
    """Flow [m3/s] through one opening at suction s [Pa]; density rho [kg/m3], viscosity mu [Pa*s].

    A negative suction gives a negative flow. Source: gap law or orifice equation.
    """
    if isinstance(opening, Gap):
        w, C = opening.width, opening.coefficient
        return gap_flow(V=gap_speed(C=C, rho=rho, dp=s, mu=mu, z=opening.depth, w=w), w=w, L=opening.length)
    flow = orifice_flow(C=opening.coefficient, A=opening.area, dp=abs(s), rho=rho)
    return flow if s >= 0 else -flow


def openings_flow(openings: Iterable[Gap | Hole], *, s: float, rho: float, mu: float) -> float:
    """Flow [m3/s] through openings side by side at suction s [Pa]; density rho [kg/m3], viscosity mu [Pa*s].

    Source: the sum of opening_flow.
    """
    return sum(opening_flow(opening, s=s, rho=rho, mu=mu) for opening in openings)


def openings_area(openings: Iterable[Gap | Hole]) -> float:
    """Open area [m2] of all openings together. Source: geometry."""
    return sum(o.width * o.length if isinstance(o, Gap) else o.area for o in openings)
