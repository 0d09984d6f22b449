"""Sums and products that a worked solution prints as lines of their own."""

from .formula import formula


@formula("dp = dp_straight + dp_fittings", source="bernoulli", dp="Pa", dp_straight="Pa", dp_fittings="Pa")
def total_pressure(*, dp_straight: float, dp_fittings: float) -> float:
    """Pressure dp [Pa] lost altogether, straight pipe and fittings added up.  Raises nothing.  Source: Bernoulli."""
    return dp_straight + dp_fittings


@formula(
    "L = L_pipe + L_fittings + K * D / f",
    source="darcy-weisbach",
    L="m",
    L_pipe="m",
    L_fittings="m",
    K="1",
    D="m",
    f="1",
)
def equivalent_length(*, L_pipe: float, L_fittings: float, K: float, D: float, f: float) -> float:
    """Length L [m] of straight pipe that loses as much as the pipe with its fittings.

    ``L_fittings`` [m] are those given as lengths, ``K`` [1] those given as loss coefficients.  Raises
    ZeroDivisionError when f [1] is 0.  Source: Darcy and Weisbach.
    """
    return L_pipe + L_fittings + K * D / f


@formula(
    "dp = (f * L_fittings / D + K) * rho * V ** 2 / 2",
    source="darcy-weisbach",
    dp="Pa",
    f="1",
    L_fittings="m",
    D="m",
    K="1",
    rho="kg/m3",
    V="m/s",
)
def fittings_pressure(*, f: float, L_fittings: float, D: float, K: float, rho: float, V: float) -> float:
    """Pressure dp [Pa] lost in fittings worth L_fittings [m] of pipe and a loss coefficient K [1].

    Raises ZeroDivisionError when D [m] is 0.  Source: Darcy and Weisbach.
    """
    return (f * L_fittings / D + K) * rho * V**2 / 2


@formula("Q_d = Q_p - Q_h", source="continuity", Q_d="m3/s", Q_p="m3/s", Q_h="m3/s")
def delivered_flow(*, Q_p: float, Q_h: float) -> float:
    """Flow Q_d [m3/s] that leaves the pit: what goes through the pump Q_p less what the relief hole lets back Q_h.

    Raises nothing.  Source: continuity.
    """
    return Q_p - Q_h


@formula(
    "L = L_pipe + L_fittings + K * V ** 2 / (2 * 9.80665 * i)",
    source="darcy-weisbach",
    L="m",
    L_pipe="m",
    L_fittings="m",
    K="1",
    V="m/s",
    i="m/m",
)
def equivalent_water_length(*, L_pipe: float, L_fittings: float, K: float, V: float, i: float) -> float:
    """Length L [m] of straight pipe that loses as much as the line with its fittings at speed V [m/s], gradient i [m/m].

    ``L_fittings`` [m] are given as lengths, ``K`` [1] as loss coefficients.  Raises ZeroDivisionError when i is 0 and
    K is not.  Source: Darcy and Weisbach.
    """
    return L_pipe + L_fittings + (K * V**2 / (2 * 9.80665 * i) if K else 0.0)


@formula("L = L_pipe + L_fittings", source="definition", L="m", L_pipe="m", L_fittings="m")
def length_with_fittings(*, L_pipe: float, L_fittings: float) -> float:
    """Length L [m] of the pipe with its fittings counted as lengths [m] of straight pipe.

    Raises nothing.  Source: definition of the equivalent length.
    """
    return L_pipe + L_fittings
