"""Flow in a round pipe: speed, Reynolds number, friction factor and the pressure or head that is lost."""

from collections.abc import Callable
from functools import lru_cache
from math import e, log10, pi, sqrt

from .constants import GRAVITY
from .formula import formula

LAMINAR = 64.0  # f Re of laminar flow in a round pipe: Hagen-Poiseuille
LAMINAR_END = 2300.0  # Re up to which flow is taken as laminar
TURBULENT_START = 4000.0  # Re from which Colebrook's equation holds
ROUGH = 3.7  # Colebrook 1939, the rough-pipe term
SMOOTH = 2.51  # Colebrook 1939, the smooth-pipe term
CLOSE_ENOUGH = 1e-8  # relative change of 1/sqrt(f) at which the iteration stops: what is left is its square
LOG_E = log10(e)
MOST_STEPS = 50  # never needed in full: Newton's method gains digits by doubling them


@formula("A = pi * D ** 2 / 4", source="geometry", A="m2", D="m")
def circle_area(*, D: float) -> float:
    """Area A [m2] of a circle of diameter D [m]. Source: geometry."""
    return pi * D**2 / 4


@formula("D = sqrt(4 * A / pi)", source="geometry", D="m", A="m2")
def circle_diameter(*, A: float) -> float:
    """Diameter D [m] of the circle of area A [m2]. Raises ValueError when A is negative. Source: geometry."""
    return sqrt(4 * A / pi)


@formula("V = 4 * Q / (pi * D ** 2)", source="continuity", V="m/s", Q="m3/s", D="m")
def speed(*, Q: float, D: float) -> float:
    """Mean speed V [m/s] of flow Q [m3/s] in bore D [m]. Raises ZeroDivisionError when D is 0. Source: continuity."""
    return 4 * Q / (pi * D**2)


@formula("Q = V * pi * D ** 2 / 4", source="continuity", Q="m3/s", V="m/s", D="m")
def flow_of_speed(*, V: float, D: float) -> float:
    """Flow Q [m3/s] that moves at mean speed V [m/s] in bore D [m]. Source: continuity."""
    return V * pi * D**2 / 4


@formula("Re = rho * V * D / mu", source="definition", Re="1", rho="kg/m3", V="m/s", D="m", mu="Pa*s")
def reynolds(*, rho: float, V: float, D: float, mu: float) -> float:
    """Reynolds number Re [1] at density rho [kg/m3], speed V [m/s], bore D [m], viscosity mu [Pa*s].

    Raises ZeroDivisionError when mu is 0. Source: definition.
    """
    return rho * V * D / mu


def regime(*, Re: float) -> str:
    """How the flow runs at Reynolds number Re [1]: "laminar", "transitional" or "turbulent".

    Source: the usual limits 2300 and 4000; between them the friction factor may be off by 30 percent.
    """
    if Re <= LAMINAR_END:
        return "laminar"
    return "transitional" if Re < TURBULENT_START else "turbulent"


@formula("f = 64 / Re", source="laminar-flow", f="1", Re="1")
def laminar_factor(*, Re: float) -> float:
    """Darcy friction factor f [1] of laminar flow at Reynolds number Re [1].

    Raises ValueError unless Re is above 0. Source: Hagen-Poiseuille law.
    """
    if not Re > 0:
        raise ValueError(f"Re = {Re!r}: a friction factor needs a Reynolds number above 0")
    return LAMINAR / Re


@formula(
    "f = 1 / (2 * log10(k / (3.7 * D) + 2.51 / (Re * sqrt(f)))) ** 2", source="colebrook", f="1", k="m", D="m", Re="1"
)
def colebrook_factor(*, Re: float, k: float, D: float) -> float:
    """Darcy friction factor f [1] of turbulent flow: roughness k [m], bore D [m], Reynolds number Re [1].

    The equation is implicit; it is iterated by Newton's method on 1/sqrt(f) until it no longer changes.
    Raises ValueError unless Re is above 0 and k from 0 to below 3.7 D. Source: Colebrook 1939.
    """
    if not (Re > 0 and 0 <= k < ROUGH * D):
        raise ValueError(f"Re = {Re!r}, k/D = {k!r}/{D!r}: no friction factor there")
    rough, smooth = k / D / ROUGH, SMOOTH / Re
    x = 1 / sqrt(LAMINAR / LAMINAR_END)  # a start of the right size; the result does not depend on it
    for _ in range(MOST_STEPS):
        inner = rough + smooth * x
        change = (x + 2 * log10(inner)) / (1 + 2 * smooth / inner * LOG_E)
        x -= change
        if abs(change) <= CLOSE_ENOUGH * x:
            break
    return 1 / x**2


@formula(
    "f = 64 / 2300 + (f_t - 64 / 2300) * (Re - 2300) / (4000 - 2300)", source="transition-line", f="1", f_t="1", Re="1"
)
def transition_factor(*, Re: float, f_t: float) -> float:
    """Darcy friction factor f [1] between Re 2300 and 4000: a straight line up to Colebrook's f_t [1] at Re 4000.

    Not a law of nature: flow there switches between two states, and the factor may be off by 30 percent.
    Source: derived, so that the loss never falls while the flow grows.
    """
    start = LAMINAR / LAMINAR_END
    return start + (f_t - start) * (Re - LAMINAR_END) / (TURBULENT_START - LAMINAR_END)


@lru_cache(maxsize=16)
def _transition_end(k: float, D: float) -> float:
    """Colebrook's factor [1] at Re 4000, kept: a search for an operating point asks for it again and again."""
    return colebrook_factor(Re=TURBULENT_START, k=k, D=D)


def friction_piece(*, Re: float, k: float, D: float) -> tuple[Callable[..., float], dict[str, float]]:
    """The piece of the friction law that holds at Re [1], and its arguments, so that a solution can print it.

    Arguments: roughness k [m], bore D [m]. Raises ValueError as the pieces do.
    Source: 64/Re to Re 2300, Colebrook 1939 from 4000, a straight line between.
    """
    kind = regime(Re=Re)
    if kind == "laminar":
        return laminar_factor, {"Re": Re}
    if kind == "transitional":
        return transition_factor, {"Re": Re, "f_t": _transition_end(k, D)}
    return colebrook_factor, {"Re": Re, "k": k, "D": D}


def friction_factor(*, Re: float, k: float, D: float) -> float:
    """Darcy friction factor f [1] at any Reynolds number Re [1] for roughness k [m] and bore D [m].

    Raises ValueError unless Re is above 0 and k from 0 to below 3.7 D.
    Source: 64/Re to Re 2300, Colebrook 1939 from 4000, a straight line between.
    """
    piece, arguments = friction_piece(Re=Re, k=k, D=D)
    return piece(**arguments)


@formula("VP = rho * V ** 2 / 2", source="bernoulli", VP="Pa", rho="kg/m3", V="m/s")
def velocity_pressure(*, rho: float, V: float) -> float:
    """Velocity pressure VP [Pa] of a stream of density rho [kg/m3] at speed V [m/s]. Source: Bernoulli."""
    return rho * V**2 / 2


@formula(
    "dp = f * L / D * rho * V ** 2 / 2", source="darcy-weisbach", dp="Pa", f="1", L="m", D="m", rho="kg/m3", V="m/s"
)
def straight_loss(*, f: float, L: float, D: float, rho: float, V: float) -> float:
    """Pressure dp [Pa] lost along length L [m] of straight pipe of bore D [m].

    Darcy friction factor f [1] (four times Fanning's), density rho [kg/m3], speed V [m/s].
    Raises ZeroDivisionError when D is 0. Source: Darcy-Weisbach.
    """
    return f * L / D * rho * V**2 / 2


@formula("dp = K * rho * V ** 2 / 2", source="darcy-weisbach", dp="Pa", K="1", rho="kg/m3", V="m/s")
def fitting_loss(*, K: float, rho: float, V: float) -> float:
    """Pressure dp [Pa] lost in fittings whose loss coefficients add up to K [1].

    Density rho [kg/m3], speed V [m/s] in the pipe. Source: definition of the loss coefficient.
    """
    return K * rho * V**2 / 2


@formula("L = K * D / f", source="darcy-weisbach", L="m", K="1", D="m", f="1")
def equivalent_length_of_k(*, K: float, D: float, f: float) -> float:
    """Length L [m] of straight pipe that loses as much as loss coefficient K [1] in bore D [m].

    Darcy factor f [1]. Raises ZeroDivisionError when f is 0. Source: derived from Darcy-Weisbach.
    """
    return K * D / f


@formula("K = f * L / D", source="darcy-weisbach", K="1", f="1", L="m", D="m")
def k_of_length(*, f: float, L: float, D: float) -> float:
    """Loss coefficient K [1] that loses as much as straight length L [m] of bore D [m] at Darcy factor f [1].

    Raises ZeroDivisionError when D is 0. Source: derived from Darcy-Weisbach.
    """
    return f * L / D


@formula("h = f * L / D * V ** 2 / (2 * 9.80665)", source="darcy-weisbach", h="m", f="1", L="m", D="m", V="m/s")
def straight_head(*, f: float, L: float, D: float, V: float) -> float:
    """Head h [m of the fluid] lost along length L [m] of bore D [m] at Darcy factor f [1] and speed V [m/s].

    Raises ZeroDivisionError when D is 0. Source: Darcy-Weisbach.
    """
    return f * L / D * V**2 / (2 * GRAVITY)


@formula("h = K * V ** 2 / (2 * 9.80665)", source="darcy-weisbach", h="m", K="1", V="m/s")
def fitting_head(*, K: float, V: float) -> float:
    """Head h [m of the fluid] lost in fittings of loss coefficient K [1] at speed V [m/s].

    Source: definition of the loss coefficient.
    """
    return K * V**2 / (2 * GRAVITY)


@formula(
    "s_t = s + (1 + K) * rho * V ** 2 / 2 + dp",
    source="bernoulli",
    s_t="Pa",
    s="Pa",
    K="1",
    rho="kg/m3",
    V="m/s",
    dp="Pa",
)
def tap_suction(*, s: float, K: float, rho: float, V: float, dp: float) -> float:
    """Static suction s_t [Pa] that a gauge reads at a tap in the pipe, when the pit is at suction s [Pa].

    K [1] is the loss coefficient of the entrance, rho [kg/m3] the density, V [m/s] the speed in the pipe,
    dp [Pa] the loss between entrance and tap. The stream's own speed costs static pressure, so the gauge reads
    more than the pit has. Source: Bernoulli.
    """
    return s + (1 + K) * rho * V**2 / 2 + dp


def losses(*, D: float, k: float, L: float, K: float, rho: float, mu: float) -> Callable[[float], float]:
    """Pressure [Pa] lost by flow [m3/s] in bore D [m], roughness k [m], length L [m] and fittings K [1], as a function.

    Density rho [kg/m3], viscosity mu [Pa*s]. The friction factor is that of the flow; no flow loses nothing.
    A negative flow loses as much the other way. The function raises ValueError as friction_factor does.
    Source: Darcy-Weisbach.
    """
    per_flow, per_speed = speed(Q=1.0, D=D), reynolds(rho=rho, V=1.0, D=D, mu=mu)  # both are proportional
    lossless = L == 0 and K == 0

    def lost(Q: float) -> float:
        if Q == 0 or lossless:
            return 0.0
        V = per_flow * abs(Q)
        f = friction_factor(Re=per_speed * V, k=k, D=D)
        loss = (k_of_length(f=f, L=L, D=D) + K) * velocity_pressure(rho=rho, V=V)
        return loss if Q > 0 else -loss

    return lost


def total_loss(*, Q: float, D: float, k: float, L: float, K: float, rho: float, mu: float) -> float:
    """Pressure [Pa] lost at flow Q [m3/s]; the rest as ``losses``. Source: Darcy-Weisbach."""
    return losses(D=D, k=k, L=L, K=K, rho=rho, mu=mu)(Q)
