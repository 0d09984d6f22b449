"""Distances between a discharge and what must be kept away from it."""

from math import pi, sqrt, tan

from .formula import formula

HALF_TURN = 180.0  # degrees


@formula("g = max(v, -v - H, 0)", source="geometry", g="m", v="m", H="m")
def vertical_gap(*, v: float, H: float) -> float:
    """Height g [m] between an outlet and the nearest edge of an opening of height H [m].

    v [m] is positive when the outlet is above the top of the opening. Source: geometry.
    """
    return max(v, -v - H, 0.0)


@formula("d = sqrt(h ** 2 + g ** 2)", source="geometry", d="m", h="m", g="m")
def slant_distance(*, h: float, g: float) -> float:
    """Straight distance d [m] over horizontal distance h [m] and vertical gap g [m]. Source: Pythagoras."""
    return sqrt(h**2 + g**2)


@formula("v = sqrt(max(d ** 2 - h ** 2, 0))", source="geometry", v="m", d="m", h="m")
def rise_for_distance(*, d: float, h: float) -> float:
    """Vertical gap v [m] at which a point h [m] to the side is d [m] away; 0 when it is far enough.

    Source: Pythagoras.
    """
    return sqrt(max(d**2 - h**2, 0.0))


@formula("r = m * max(z, 0)", source="geometry", r="m", m="1", z="m")
def spread_radius(*, m: float, z: float) -> float:
    """Radius r [m] of the exhaust's spread cone z [m] above the outlet; m [1] is the cone's slope, see cone_slope.

    Below the outlet there is no cone. Source: geometry.
    """
    return m * max(z, 0.0)


@formula("c = h - m * max(z, 0)", source="geometry", c="m", h="m", m="1", z="m")
def cone_clearance(*, h: float, m: float, z: float) -> float:
    """Horizontal distance c [m] left between the spread cone and a point h [m] to the side and z [m] above the
    outlet.

    m [1] is the cone's slope. Negative inside the cone. Source: geometry.
    """
    return h - m * max(z, 0.0)


def cone_slope(*, degrees: float) -> float:
    """Slope [1] of a cone whose side leans by an angle of degrees [1] from its axis. Source: trigonometry."""
    return tan(degrees * pi / HALF_TURN)
