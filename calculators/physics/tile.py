"""Where the footing drain lies beside the wall, and what a core through the slab weighs."""

from math import pi

from .constants import INCH
from .formula import formula

CORE_MARGIN = INCH / 2  # m, concrete left between core and footing edge: 0.5 in, common practice


@formula("P = (b - t) / 2", source="geometry", P="m", b="m", t="m")
def footing_projection(*, b: float, t: float) -> float:
    """Projection P [m] of a footing of width b [m] on each side of a wall of thickness t [m] centred on it.

    Raises ValueError when the footing is narrower than the wall. Source: geometry.
    """
    if b < t:
        raise ValueError(f"footing width {b!r} m is less than the wall thickness {t!r} m")
    return (b - t) / 2


@formula("x = P + d / 2 + g", source="geometry", x="m", P="m", d="m", g="m")
def tile_center(*, P: float, d: float, g: float) -> float:
    """Distance x [m] from the inside concrete face to the centre of a drain tile of outside diameter d [m].

    Footing projection P [m], gap g [m] between footing and tile. Source: geometry.
    """
    return P + d / 2 + g


@formula(
    "x = max(P + d / 2 + (g_1 + g_2) / 2, P + D / 2 + m) - t_f",
    source="geometry",
    x="m",
    P="m",
    d="m",
    g_1="m",
    g_2="m",
    D="m",
    m="m",
    t_f="m",
)
def first_hole(*, P: float, d: float, g_1: float, g_2: float, D: float, m: float, t_f: float) -> float:
    """Distance x [m] from the finished wall face to the centre of the first core.

    Footing projection P [m], tile outside diameter d [m], least and greatest gap g_1 and g_2 [m], core diameter D
    [m],
    margin m [m] that keeps the core off the footing, finish t_f [m] in front of the concrete. Source: geometry.
    """
    return max(P + d / 2 + (g_1 + g_2) / 2, P + D / 2 + m) - t_f


@formula("x_f = x - t_f", source="geometry", x_f="m", x="m", t_f="m")
def from_finished_face(*, x: float, t_f: float) -> float:
    """Distance x_f [m] from the finished face for a distance x [m] from the concrete; finish t_f [m].

    Source: geometry.
    """
    return x - t_f


@formula("M = rho * pi / 4 * D ** 2 * t", source="geometry", M="kg", rho="kg/m3", D="m", t="m")
def core_mass(*, rho: float, D: float, t: float) -> float:
    """Mass M [kg] of a core of diameter D [m] from a slab t [m] thick; density rho [kg/m3]. Source: geometry."""
    return rho * pi / 4 * D**2 * t


def intervals_meet(*, low_1: float, high_1: float, low_2: float, high_2: float) -> bool:
    """Whether two closed intervals [m] have a place in common; touching counts. Source: comparison."""
    return low_1 <= high_2 and low_2 <= high_1
