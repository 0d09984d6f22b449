"""Lids and their openings: areas, bead of sealant, and the sums that hold where fan, pipe, soil and leaks agree."""

from math import pi

from .formula import formula


@formula("A = n * pi / 4 * D ** 2", source="geometry", A="m2", n="1", D="m")
def holes_area(*, n: float, D: float) -> float:
    """Area A [m2] of n [1] round holes of diameter D [m]. Source: geometry."""
    return n * pi / 4 * D**2


@formula("A = n * w * L", source="geometry", A="m2", n="1", w="m", L="m")
def gaps_area(*, n: float, w: float, L: float) -> float:
    """Area A [m2] of n [1] gaps of width w [m] and length L [m]. Source: geometry."""
    return n * w * L


@formula("L = pi * (D + D_h) + L_s", source="geometry", L="m", D="m", D_h="m", L_s="m")
def bead_length(*, D: float, D_h: float, L_s: float) -> float:
    """Length L [m] of sealant: round a lid D [m], round holes whose diameters add up to D_h [m], along slots L_s [m].

    Source: geometry.
    """
    return pi * (D + D_h) + L_s


@formula("n = pi / 4 * b ** 2 * L / V", source="geometry", n="1", b="m", L="m", V="m3")
def cartridges(*, b: float, L: float, V: float) -> float:
    """Cartridges n [1], not yet rounded up, for a round bead of thickness b [m] and length L [m]; V [m3] in each.

    Raises ZeroDivisionError when V is 0. Source: geometry.
    """
    return pi / 4 * b**2 * L / V


@formula("Q = Q_s + Q_l", source="continuity", Q="m3/s", Q_s="m3/s", Q_l="m3/s")
def joined_flow(*, Q_s: float, Q_l: float) -> float:
    """Flow Q [m3/s] of soil Q_s [m3/s] and leaks Q_l [m3/s] together. Source: continuity."""
    return Q_s + Q_l


@formula("p_f = s + dp", source="network-balance", p_f="Pa", s="Pa", dp="Pa")
def fan_pressure(*, s: float, dp: float) -> float:
    """Pressure p_f [Pa] that the fan must make: pit suction s [Pa] and pipe loss dp [Pa].

    Source: balance of pressures along one way of the air.
    """
    return s + dp


@formula("p_f = s + dp - p_b", source="network-balance", p_f="Pa", s="Pa", dp="Pa", p_b="Pa")
def fan_pressure_with_lift(*, s: float, dp: float, p_b: float) -> float:
    """Pressure p_f [Pa] the fan must make: pit suction s [Pa] and pipe loss dp [Pa], less the riser's lift p_b [Pa].

    Source: balance of pressures along one way of the air.
    """
    return s + dp - p_b


@formula("k = s_o / s_s", source="definition", k="1", s_o="Pa", s_s="Pa")
def suction_kept(*, s_o: float, s_s: float) -> float:
    """Share k [1] of the sealed pit's suction s_s [Pa] that is left with the openings, s_o [Pa].

    Raises ZeroDivisionError when s_s is 0. Source: definition.
    """
    return s_o / s_s
