"""Runs of pipe: hangers, sticks, fall, weight and how far the run moves with temperature."""

from math import ceil

from .formula import formula

PVC_EXPANSION = 3.0e-5 * 9 / 5  # 1/K: 3.0e-5 per degF, about 0.36 in. in 100 ft for each 10 degF
ROUNDING = 1e-9  # so that 40 ft at 4 ft are ten spaces and not eleven


@formula("dL = a * L * dT", source="definition", dL="m", a="1/K", L="m", dT="K")
def expansion(*, a: float, L: float, dT: float) -> float:
    """Growth dL [m] of a run of length L [m] warmed by dT [K], expansion coefficient a [1/K].

    Source: definition of the coefficient.
    """
    return a * L * dT


@formula("h = m * L", source="definition", h="m", m="m/m", L="m")
def drop(*, m: float, L: float) -> float:
    """Fall h [m] of a run of length L [m] at slope m [m/m]. Source: definition of slope."""
    return m * L


@formula("M = m_l * L", source="definition", M="kg", m_l="kg/m", L="m")
def pipe_mass(*, m_l: float, L: float) -> float:
    """Mass M [kg] of length L [m] of pipe that weighs m_l [kg/m]. Source: definition."""
    return m_l * L


@formula("L = L_h + L_v", source="definition", L="m", L_h="m", L_v="m")
def total_length(*, L_h: float, L_v: float) -> float:
    """Length L [m] of level pipe L_h [m] and upright pipe L_v [m] together. Source: arithmetic."""
    return L_h + L_v


@formula("n = L / s", source="definition", n="1", L="m", s="m")
def spaces(*, L: float, s: float) -> float:
    """Spaces n [1] of width s [m] on a run of length L [m], before they are rounded up.

    Raises ZeroDivisionError when s is 0. Source: arithmetic.
    """
    return L / s


def whole_pieces(*, length: float, each: float) -> int:
    """Pieces that a length [m] needs when each reaches so far [m]: hangers at a spacing, or sticks.

    Raises ValueError unless each is above 0 and length is not negative. Source: arithmetic, rounded up.
    """
    if not (each > 0 and length >= 0):
        raise ValueError(f"length {length!r} m must not be negative and each {each!r} m must be above 0")
    return ceil(length / each - ROUNDING)
