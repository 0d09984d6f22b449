"""Suction round a drain tile: friction and momentum of air that joins along the way, and what water in the tile
costs."""

from math import acos, pi, sin
from typing import NamedTuple

from .constants import GRAVITY
from .formula import formula

INFLOW_SHARE = 1 / 3  # friction of a leg whose flow grows evenly from nothing: the mean of (x/L)^2
WALL_GRAVITY = 8 * GRAVITY


@formula("dp = f * L / D * rho * V ** 2 / 2 / 3", source="derived", dp="Pa", f="1", L="m", D="m", rho="kg/m3", V="m/s")
def leg_loss(*, f: float, L: float, D: float, rho: float, V: float) -> float:
    """Pressure dp [Pa] lost by friction in a leg of length L [m] that air joins evenly along its length.

    Darcy factor f [1], bore or hydraulic diameter D [m], density rho [kg/m3], speed V [m/s] where the leg ends at the
    pit. A third of what the full flow would lose. Raises ZeroDivisionError when D is 0.
    Source: derived from Darcy-Weisbach with a flow that grows in proportion to the length.
    """
    return f * L / D * rho * V**2 / 2 * INFLOW_SHARE


@formula("dp = K * rho * V ** 2 / 2", source="derived", dp="Pa", K="1", rho="kg/m3", V="m/s")
def momentum_loss(*, K: float, rho: float, V: float) -> float:
    """Pressure dp [Pa] spent on speeding up air that joins a tile; density rho [kg/m3], end speed V [m/s].

    K [1] is 2 when the air joins without any speed along the tile, 0 when it joins with the stream's own; take 1.
    Source: derived from the momentum balance.
    """
    return K * rho * V**2 / 2


@formula("e = 1 - dp / s", source="definition", e="1", dp="Pa", s="Pa")
def evenness(*, dp: float, s: float) -> float:
    """Share e [1] of the pit's suction s [Pa] that is left at the far end of a tile that loses dp [Pa].

    Raises ZeroDivisionError when s is 0. Source: definition.
    """
    return 1 - dp / s


@formula("f = 8 * 9.80665 * n ** 2 / (D / 4) ** (1 / 3)", source="derived", f="1", n="1", D="m")
def factor_of_manning(*, n: float, D: float) -> float:
    """Darcy factor f [1] of a full pipe with Manning's n [1, in metres and seconds] and bore D [m].

    Raises ZeroDivisionError when D is 0. Source: derived, Manning's and Darcy's equations set equal.
    """
    return WALL_GRAVITY * n**2 / (D / 4) ** INFLOW_SHARE


class AirSpace(NamedTuple):
    """What water leaves of a round pipe: area [m2], hydraulic diameter [m], and resistance over that of the dry pipe
    [1]."""

    area: float
    hydraulic_diameter: float
    resistance_factor: float


def air_space(*, D: float, depth: float) -> AirSpace:
    """The air space of a pipe of bore D [m] with water standing to depth [1], a share of the bore.

    The water surface counts as wall. Raises ValueError unless depth is from 0 to below 1: a full tile has no air
    path.
    Source: derived; loss at equal flow goes with 1/(area^2 hydraulic diameter).
    """
    if not 0 <= depth < 1:
        raise ValueError(f"depth = {depth!r} of the bore: must be from 0 to below 1, a full tile passes no air")
    whole = pi * D**2 / 4
    if depth == 0:
        return AirSpace(whole, D, 1.0)
    angle = 2 * acos(2 * depth - 1)  # of the dry arc, seen from the axis
    area = D**2 / (2 * 4) * (angle - sin(angle))
    around = D / 2 * angle + D * sin(angle / 2)
    hydraulic = 4 * area / around
    return AirSpace(area, hydraulic, (whole / area) ** 2 * D / hydraulic)


class Leg(NamedTuple):
    """One way round the loop: length [m] and the flow [m3/s] that it brings to the pit."""

    length: float
    flow: float


def legs(*, loop: float, Q: float, blocked_at: float | None = None) -> tuple[Leg, Leg]:
    """The two ways round a loop of length loop [m] that bring flow Q [m3/s] together, the air joining evenly.

    An open loop parts in the middle; a loop blocked_at [m] from the pit parts there. Raises ValueError when the
    blockage is not on the loop. Source: derived.
    """
    parting = loop / 2 if blocked_at is None else blocked_at
    if not 0 <= parting <= loop:
        raise ValueError(f"blocked_at = {blocked_at!r} m must be on the loop of {loop!r} m")
    return Leg(parting, Q * parting / loop), Leg(loop - parting, Q * (loop - parting) / loop)
