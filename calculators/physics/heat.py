"""Heat: the riser in the cold, its condensate and frost, and what house air and the fan cost in a year."""

from collections.abc import Callable
from math import exp, expm1, log, pi
from typing import NamedTuple

from .air import MASS_RATIO, OVER_ICE, OVER_WATER, humidity_ratio, saturation_pressure, saturation_pressure_ice
from .constants import ZERO_CELSIUS
from .formula import formula
from .numerics import root
from .pipe import LAMINAR_END, TURBULENT_START

AIR_HEAT = 1006.0  # J/(kg K), specific heat of air: textbook value, from memory
CONDENSING = 2.50e6  # J/kg, latent heat of condensation: textbook value, from memory
FREEZING = 2.83e6  # J/kg, latent heat of frost from vapour: textbook value, from memory
AIR_CONDUCTIVITY = 0.025  # W/(m K), air at about 10 degC: textbook value, from memory
PRANDTL = 0.71  # air: textbook value, from memory
LEWIS = 0.85  # thermal over mass diffusivity of vapour in air: textbook value, from memory
LEWIS_POWER = 2 / 3  # analogy of heat and mass transfer (Chilton and Colburn)
NUSSELT_LAMINAR = 3.66  # constant wall temperature, laminar
NUSSELT_FACTOR, NUSSELT_RE, NUSSELT_PR = 0.023, 0.8, 0.3  # Dittus and Boelter, gas that is cooled
PLASTIC_CONDUCTIVITY = 0.19  # W/(m K), PVC: textbook value, from memory
CALM_FILM, FILM_PER_SPEED, WINDY_FILM, USUAL_FILM = 10.0, 15 / 7, 25.0, 20.0  # W/(m2 K) and per m/s, from memory
CLEAR_OF_FROST = ZERO_CELSIUS + 2  # K, end wall above which no risk is named
EARLY = 1 / 4  # share of the outdoor run; frost sooner than this is a high risk
STEPS = 200
NEAR = 1e-6  # K, air as cold as the outdoors
NEWTON_STEPS, SETTLED = 12, 1e-7  # K: the last step leaves its square
R_UNIT = 5.678263  # h ft2 F/Btu in one m2 K/W, from the units
LITRE = 1000.0  # kg/m3, water: a litre weighs a kilogram


@formula("P = rho * c_p * Q * dT", source="heat-balance", P="W", rho="kg/m3", c_p="J/kg/K", Q="m3/s", dT="K")
def heat_rate(*, rho: float, c_p: float, Q: float, dT: float) -> float:
    """Heat P [W] that flow Q [m3/s] of air carries over a temperature difference dT [K].

    Density rho [kg/m3], specific heat c_p [J/kg/K]. Source: heat balance.
    """
    return rho * c_p * Q * dT


@formula("E = rho * c_p * Q * H", source="heat-balance", E="J", rho="kg/m3", c_p="J/kg/K", Q="m3/s", H="K*s")
def heat_energy(*, rho: float, c_p: float, Q: float, H: float) -> float:
    """Heat E [J] in the air that flow Q [m3/s] takes out over degree days H [K*s].

    Density rho [kg/m3], specific heat c_p [J/kg/K]. Source: heat balance, summed over the season.
    """
    return rho * c_p * Q * H


@formula("E_f = E / eta", source="definition", E_f="J", E="J", eta="1")
def fuel_energy(*, E: float, eta: float) -> float:
    """Fuel E_f [J] burned for heat E [J] at efficiency eta [1]. Raises ZeroDivisionError when eta is 0.

    Source: definition of efficiency.
    """
    return E / eta


@formula("E = P * t", source="definition", E="J", P="W", t="s")
def fan_energy(*, P: float, t: float) -> float:
    """Energy E [J] of a fan that draws P [W] for time t [s]. Source: definition of power."""
    return P * t


@formula("M = E * m", source="definition", M="money", E="J", m="money/J")
def energy_cost(*, E: float, m: float) -> float:
    """Cost M [money] of energy E [J] at price m [money/J]. Source: arithmetic."""
    return E * m


@formula("M = M_f + M_h + M_c", source="definition", M="money", M_f="money", M_h="money", M_c="money")
def total_cost(*, M_f: float, M_h: float, M_c: float) -> float:
    """Cost M [money] of fan M_f, heat M_h and cooling M_c [money]. Source: arithmetic."""
    return M_f + M_h + M_c


@formula("Q_h = s * Q", source="definition", Q_h="m3/s", s="1", Q="m3/s")
def house_air(*, s: float, Q: float) -> float:
    """House air Q_h [m3/s] in the flow Q [m3/s] of a fan, of which it is the share s [1]. Source: definition."""
    return s * Q


@formula("h = min(10 + 15 / 7 * U, 25)", source="from-memory", h="W/m2/K", U="m/s")
def outer_film(*, U: float) -> float:
    """Film coefficient h [W/m2/K] on the outside of a pipe in wind U [m/s]: 10 in calm air to 25 at most.

    Source: from memory, the usual design figures joined by a line.
    """
    return min(CALM_FILM + FILM_PER_SPEED * U, WINDY_FILM)


@formula("h = Nu * k / D", source="colburn-film", h="W/m2/K", Nu="1", k="W/m/K", D="m")
def inner_film(*, Nu: float, k: float, D: float) -> float:
    """Film coefficient h [W/m2/K] inside a pipe of bore D [m] at Nusselt number Nu [1]; air conducts k [W/m/K].

    Raises ZeroDivisionError when D is 0. Source: definition of the Nusselt number.
    """
    return Nu * k / D


@formula(
    "R = 2.302585093 * log10(d_2 / d_1) / (2 * pi * k)", source="heat-balance", R="m*K/W", d_2="m", d_1="m", k="W/m/K"
)
def ring_resistance(*, d_2: float, d_1: float, k: float) -> float:
    """Resistance R [m K/W] of one metre of a ring from diameter d_1 [m] to d_2 [m] that conducts k [W/m/K].

    Raises ZeroDivisionError when d_1 or k is 0. Source: steady conduction through a ring.
    """
    return log(d_2 / d_1) / (2 * pi * k)


@formula("R = 1 / (h * pi * d)", source="heat-balance", R="m*K/W", h="W/m2/K", d="m")
def film_resistance(*, h: float, d: float) -> float:
    """Resistance R [m K/W] of the air film h [W/m2/K] on one metre of pipe of outside diameter d [m].

    Raises ZeroDivisionError when h or d is 0. Source: definition of the film coefficient.
    """
    return 1 / (h * pi * d)


@formula("T_w = T_o + R * (q + q_v)", source="heat-balance", T_w="K", T_o="K", R="m*K/W", q="W/m", q_v="W/m")
def wall_temperature(*, T_o: float, R: float, q: float, q_v: float) -> float:
    """Inner wall temperature T_w [K] when heat q and the heat of vapour q_v [W/m] go out through it.

    Outdoor temperature T_o [K], resistance R [m K/W] of wall, insulation and outer film. Source: heat balance.
    """
    return T_o + R * (q + q_v)


@formula("V = m / rho", source="definition", V="L/day", m="kg/day", rho="kg/L")
def water_volume(*, m: float, rho: float = LITRE) -> float:
    """Volume flow V [m3/s] of water m [kg/s] of density rho [kg/m3]; printed for a day. Source: definition of density."""
    return m / rho


@formula("m = rho * Q * w", source="definition", m="kg/s", rho="kg/m3", Q="m3/s", w="1")
def vapour_flow(*, rho: float, Q: float, w: float) -> float:
    """Water m [kg/s] that flow Q [m3/s] of density rho [kg/m3] and humidity ratio w [1] carries. Source: definition."""
    return rho * Q * w


@formula("r = 5.678263 * b / k", source="definition", r="1", b="m", k="W/m/K")
def r_value(*, b: float, k: float) -> float:
    """R-value r [h ft2 F/Btu] of a flat layer of thickness b [m] that conducts k [W/m/K]; 5.678263 is m2 K/W in that unit.

    Raises ZeroDivisionError when k is 0. Source: definition.
    """
    return R_UNIT * b / k


@formula("Nu = 0.023 * Re ** 0.8 * 0.71 ** 0.3", source="colburn-film", Nu="1", Re="1")
def turbulent_nusselt(*, Re: float) -> float:
    """Nusselt number Nu [1] of air that cools in a pipe, turbulent, at Reynolds number Re [1]; Prandtl number 0.71.

    Source: Dittus and Boelter, textbook equation, from memory.
    """
    return NUSSELT_FACTOR * Re**NUSSELT_RE * PRANDTL**NUSSELT_PR


@formula("Nu = 3.66 + (Re - 2300) / 1700 * (Nu_t - 3.66)", source="transition-line", Nu="1", Re="1", Nu_t="1")
def transition_nusselt(*, Re: float, Nu_t: float) -> float:
    """Nusselt number Nu [1] between laminar (3.66 at 2300) and turbulent flow (Nu_t [1] at 4000), Reynolds number Re [1].

    Source: a straight line, this handbook's choice.
    """
    return NUSSELT_LAMINAR + (Re - LAMINAR_END) / (TURBULENT_START - LAMINAR_END) * (Nu_t - NUSSELT_LAMINAR)


def nusselt(*, Re: float) -> float:
    """Nusselt number [1] of air in a pipe at Reynolds number Re [1].

    3.66 to Re 2300, Dittus-Boelter from 4000, a straight line between. Source: textbook equations, from memory.
    """
    if Re >= TURBULENT_START:
        return turbulent_nusselt(Re=Re)
    if Re > LAMINAR_END:
        return transition_nusselt(Re=Re, Nu_t=turbulent_nusselt(Re=TURBULENT_START))
    return NUSSELT_LAMINAR


def saturated(*, T: float, p: float) -> float:
    """Humidity ratio [1] of saturated air at T [K] and pressure p [Pa], over ice below freezing.

    Raises ValueError as saturation_pressure does. Source: Magnus equation and ideal gas law.
    """
    over = saturation_pressure if T >= ZERO_CELSIUS else saturation_pressure_ice
    return humidity_ratio(e=over(T=T), p=p)


def saturated_slope(*, T: float, p: float, w: float) -> float:
    """Rise [1/K] of the humidity ratio of saturated air, which is w [1] at T [K] and pressure p [Pa].

    Source: derivative of ``saturated``.
    """
    factor, offset = OVER_WATER if T >= ZERO_CELSIUS else OVER_ICE
    return w * (1 + w / MASS_RATIO) * factor * offset / (offset + T - ZERO_CELSIUS) ** 2


def latent_heat(*, T: float) -> float:
    """Latent heat [J/kg] given off on a surface at T [K]: water above freezing, frost below. Source: from memory."""
    return CONDENSING if T >= ZERO_CELSIUS else FREEZING


class Stack(NamedTuple):
    """A riser outdoors: bore, wall and insulation thickness, length [m]; conductivities [W/m/K]; outer film
    [W/m2/K]."""

    bore: float
    wall: float
    length: float
    film: float = USUAL_FILM
    insulation: float = 0.0
    insulation_conductivity: float = 0.035
    wall_conductivity: float = PLASTIC_CONDUCTIVITY

    def resistance(self) -> float:
        """Resistance [m K/W] from inner wall to outdoor air, per metre of pipe."""
        inner = self.bore / 2
        middle = inner + self.wall
        outer = middle + self.insulation
        return (
            ring_resistance(d_2=middle, d_1=inner, k=self.wall_conductivity)
            + ring_resistance(d_2=outer, d_1=middle, k=self.insulation_conductivity)
            + film_resistance(h=self.film, d=2 * outer)
        )


class Place(NamedTuple):
    """Air and inner wall temperature [K] at a distance [m] along the riser; heat and vapour given to the wall [W/m]."""

    distance: float
    air: float
    wall: float
    heat: float
    vapour: float


class ColdStack(NamedTuple):
    """Temperatures [K], distance of the first frost [m] or None, water on the wall, as fog and carried in [kg/s].

    ``places`` are air and wall along the riser, one at the start of each step and one at the end.
    """

    exit_temperature: float
    wall_end_temperature: float
    first_frost_distance: float | None
    deposit: float
    fog: float
    carried: float
    risk: str
    places: tuple[Place, ...] = ()


def cold_stack(
    *, stack: Stack, Q: float, T_s: float, T_o: float, phi: float, p: float, rho: float, mu: float, steps: int = STEPS
) -> ColdStack:
    """March along a riser: flow Q [m3/s] of soil air at T_s [K] and humidity phi [1] rises through outdoor air T_o
    [K].

    Air pressure p [Pa], density rho [kg/m3] and viscosity mu [Pa*s] of the soil air. Steady, no sun, no sky.
    The wall takes heat and vapour until it gives both to the outdoors; what the air cannot hold becomes fog.
    Within a step the wall keeps its temperature and the air approaches it exponentially, so no step can overshoot.
    Raises ValueError unless Q is above 0 and T_s is not below T_o.
    Source: derived from the heat balance with textbook film coefficients and the analogy of heat and mass transfer.
    """
    if not (Q > 0 and T_s >= T_o):
        raise ValueError(f"flow {Q!r} m3/s must be above 0 and soil air {T_s!r} K not colder than outdoors {T_o!r} K")
    rim = pi * stack.bore
    film = nusselt(Re=4 * rho * Q / (rim * mu)) * AIR_CONDUCTIVITY / stack.bore
    exchange = film / AIR_HEAT * LEWIS**-LEWIS_POWER * rim  # kg/(s m) of dry air that meets the wall
    resistance = stack.resistance()
    dry = rho * Q
    w = phi * saturated(T=T_s, p=p)
    T, carried, dx = T_s, dry * w, stack.length / steps
    frost, deposit, fog = None, 0.0, 0.0
    wall, places = T_s, []
    for i in range(steps if stack.length else 0):
        wall = _wall(T=T, w=w, T_o=T_o, p=p, film=film * rim, exchange=exchange, resistance=resistance, start=wall)
        meets = exchange * max(w - saturated(T=wall, p=p), 0.0)
        places.append(Place(i * dx, T, wall, film * rim * (T - wall), meets * latent_heat(T=wall)))
        if frost is None and wall < ZERO_CELSIUS:
            frost = i * dx
        before = T
        gain = dry * meets / exchange * -expm1(-exchange * dx / dry)
        T = wall + (T - wall) * exp(-film * rim * dx / (dry * AIR_HEAT))
        w -= gain / dry
        T, w, drops = _fog(T=T, w=w, p=p, hottest=before)
        deposit += gain
        fog += drops * dry
    if stack.length:
        places.append(Place(stack.length, T, wall, 0.0, 0.0))
    return ColdStack(T, wall, frost, deposit, fog, carried, _risk(frost, wall, stack.length), tuple(places))


def _wall(
    *, T: float, w: float, T_o: float, p: float, film: float, exchange: float, resistance: float, start: float
) -> float:
    """Inner wall temperature [K] at which what comes in from the air goes out through the wall, sought from ``start``."""

    def rest(wall: float) -> tuple[float, float]:
        """Heat left over [W/m] and its slope [W/m/K]; both pieces fall as the wall warms."""
        saturation = saturated(T=wall, p=p)
        left, slope = film * (T - wall) - (wall - T_o) / resistance, -film - 1 / resistance
        if w <= saturation:
            return left, slope
        condensed = exchange * latent_heat(T=wall)
        return left + condensed * (w - saturation), slope - condensed * saturated_slope(T=wall, p=p, w=saturation)

    return _newton(rest, start, T_o, T) if T - T_o > NEAR else T_o


def _newton(function: Callable[[float], tuple[float, float]], start: float, low: float, high: float) -> float:
    """Temperature [K] at which a falling function, given with its slope, is zero.

    Newton's method from a start that is near; the bracketing search where it does not settle.
    """
    at = min(max(start, low), high)
    for _ in range(NEWTON_STEPS):
        value, slope = function(at)
        step = value / slope
        at = min(max(at - step, low), high)
        if abs(step) < SETTLED:
            return at
    return root(lambda t: function(t)[0], low, high)


def _fog(*, T: float, w: float, p: float, hottest: float) -> tuple[float, float, float]:
    """Air that holds more than it can: the warmer, drier air that is left, and the drops [kg per kg of dry air].

    The drops' heat cannot warm the air beyond ``hottest`` [K], where it could still hold all of its water.
    """
    if w <= saturated(T=T, p=p):
        return T, w, 0.0
    heat = CONDENSING / AIR_HEAT  # drops stay liquid for a while even in frost
    if w - (hottest - T) / heat >= saturated(T=hottest, p=p):  # no more than rounding
        return T, w, 0.0

    def over(t: float) -> tuple[float, float]:
        saturation = saturated(T=t, p=p)
        return w - (t - T) / heat - saturation, -1 / heat - saturated_slope(T=t, p=p, w=saturation)

    warmer = _newton(over, T, T, hottest)
    drops = (warmer - T) / heat
    return warmer, w - drops, drops


def _risk(frost: float | None, wall: float, length: float) -> str:
    """Class of frost risk: none, low, some or high."""
    if frost is None:
        return "none" if wall > CLEAR_OF_FROST else "low"
    return "high" if frost < EARLY * length else "some"
