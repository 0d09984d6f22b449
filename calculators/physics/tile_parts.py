"""The arithmetic of a drain tile that is printed: its air space, and what is left of the pit's suction along it."""

from .formula import formula


@formula("V = Q / A", source="continuity", V="m/s", Q="m3/s", A="m2")
def area_speed(*, Q: float, A: float) -> float:
    """Mean speed V [m/s] of flow Q [m3/s] in area A [m2]. Raises ZeroDivisionError when A is 0. Source: continuity."""
    return Q / A


@formula("r = (A_0 / A) ** 2 * D / D_h", source="derived", r="1", A_0="m2", A="m2", D="m", D_h="m")
def resistance(*, A_0: float, A: float, D: float, D_h: float) -> float:
    """How many times r [1] more a tile loses with water in it, at the same flow of air.

    Whole area A_0 [m2] and bore D [m], area A [m2] and hydraulic diameter D_h [m] of the air; the water counts as wall.
    Raises ZeroDivisionError when nothing is left for the air. Source: derived from Darcy-Weisbach.
    """
    return (A_0 / A) ** 2 * D / D_h


@formula("s_x = s - dp - dp_m", source="derived", s_x="Pa", s="Pa", dp="Pa", dp_m="Pa")
def far_suction(*, s: float, dp: float, dp_m: float) -> float:
    """Suction s_x [Pa] at the far end of a tile, of the pit's s [Pa]; lost to friction dp [Pa] and to speed dp_m [Pa].

    Source: balance of pressures along the tile.
    """
    return s - dp - dp_m


def friction_share(x: float) -> float:
    """Share [1] of a leg's friction that lies between the pit and share x [1] of its length.

    Air that joins evenly makes the flow fall evenly away from the pit. Source: derived, integral of (1 - x)^2.
    """
    return 1 - (1 - x) ** 3


def momentum_share(x: float) -> float:
    """Share [1] of a leg's momentum loss between the pit and share x [1] of its length.

    Source: derived, the flow falls evenly away from the pit.
    """
    return 1 - (1 - x) ** 2
