"""The small sums beside a suction field: what leaks, what a test hole read, how far a fit is off."""

from .formula import formula


@formula("L = T / B ** 2", source="leaky-sheet", L="m/s/Pa", T="m3/s/Pa", B="m")
def whole_leakance(*, T: float, B: float) -> float:
    """Leakance L [m/s/Pa] of slab and soil together, from the layer T [m3/s/Pa] and the leakage length B [m].

    Raises ZeroDivisionError when B is 0. Source: B = sqrt(T / L), turned round.
    """
    return T / B**2


@formula("s = r_on - r_off", source="definition", s="Pa", r_on="Pa", r_off="Pa")
def net_reading(*, r_on: float, r_off: float) -> float:
    """Suction s [Pa] that fan or vacuum made at a test hole, from its readings on and off [Pa].

    Suction counts as positive. Source: definition; the field of the fan adds to what was there.
    """
    return r_on - r_off


@formula("n = s_r / s_m", source="definition", n="1", s_r="Pa", s_m="Pa")
def read_over_model(*, s_r: float, s_m: float) -> float:
    """How many times the fitted slab's suction s_m [Pa] a test hole read, s_r [Pa]. Source: definition.

    Raises ZeroDivisionError when the model gives none.
    """
    return s_r / s_m


@formula("Q_s = L * A * s", source="leaky-sheet", Q_s="m3/s", L="m/s/Pa", A="m2", s="Pa")
def leaked_flow(*, L: float, A: float, s: float) -> float:
    """Air Q_s [m3/s] through slab and soil of leakance L [m/s/Pa] and area A [m2] at mean suction s [Pa].

    Source: the leakage of the sheet, summed over the plan.
    """
    return L * A * s


@formula("Q_j = Q - Q_s", source="continuity", Q_j="m3/s", Q="m3/s", Q_s="m3/s")
def joint_flow(*, Q: float, Q_s: float) -> float:
    """Air Q_j [m3/s] through the wall joint: what the pits draw, Q, less what slab and soil let in, Q_s [m3/s].

    Source: what is drawn has come in somewhere.
    """
    return Q - Q_s


@formula("a = 1 - L_s * A * s / Q", source="continuity", a="1", L_s="m/s/Pa", A="m2", s="Pa", Q="m3/s")
def house_air_share(*, L_s: float, A: float, s: float, Q: float) -> float:
    """Share a [1] of the air that comes from the house, not through the soil.

    Soil leakance L_s [m/s/Pa], area A [m2], mean suction s [Pa], flow Q [m3/s].
    Raises ZeroDivisionError without flow. Source: what is drawn has come in somewhere.
    """
    return 1 - L_s * A * s / Q
