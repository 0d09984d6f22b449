"""Condensate and frost in the part of the riser that stands outdoors."""

from typing import Annotated, Any

from ..declare import Quantity, Refusal, Text, calculator
from ..physics import air, heat, pipe
from ..span import Span
from ..tables import pipe as pipe_of
from ..tables import si_of
from ..trade.airstate import soil_air
from ..trade.frost import COLDER, caution, compare, plot
from ..trade.house import OUTDOOR
from ..units import from_si
from ..vocabulary import SATURATED, SEA_LEVEL, SOIL_AIR, Airflow, Elevation, PipeSize, RelativeHumidity
from ..work import Work

PER_DAY = {"V": "gal/day", "m": "lb/day", "rho": "lb/gal"}
TWICE = 2.0  # the water may be half or twice as much: from memory
CELSIUS = {"T_w": "degC", "T_o": "degC"}

Size = PipeSize
Outdoors = Annotated[
    float,
    Quantity(
        "Length of pipe outdoors or in the cold",
        "ft",
        "m",
        "0 ft",
        "2000 ft",
        help="From where it leaves the warm house to the outlet, attic and cold garage too.",
    ),
]
SoilTemperature = Annotated[
    float,
    Quantity(
        "Temperature of the air as it leaves the house",
        "degF",
        "degC",
        "-60 degF",
        "130 degF",
        help="Soil air is often near 55 °F (13 °C) or a little less in winter.",
        source="common-practice",
    ),
]
Outdoor = Annotated[float, OUTDOOR]
Wind = Annotated[float | None, Quantity("Wind speed at the pipe", "mph", "m/s", "0 mph", "100 mph")]
Film = Annotated[
    float | None,
    Quantity(
        "Film coefficient outside",
        "W/m2/K",
        "W/m2/K",
        "1 W/m2/K",
        "100 W/m2/K",
        help="About 10 in calm air, 25 in wind; 20 counts if neither this nor the wind is given.",
        source="from-memory",
    ),
]
Insulation = Annotated[float, Quantity("Insulation thickness", "in", "mm", "0 in", "12 in")]
Conductivity = Annotated[
    float,
    Quantity(
        "Insulation conducts",
        "W/m/K",
        "W/m/K",
        "0.01 W/m/K",
        "2 W/m/K",
        help="Closed-cell foam when dry. Wet insulation conducts many times as much.",
        source="insulation-trade",
    ),
]


@calculator(
    name="cold-stack",
    part="where-it-ends",
    title="Condensate and frost in the riser",
    main="deposit_per_day",
    at_most_one={"outside": ("film_coefficient", "wind")},
    results={
        "wall_end_temperature": Quantity("Inner wall at the outlet", "degF", "degC"),
        "exit_temperature": Quantity("Air at the outlet", "degF", "degC"),
        "first_frost_distance": Quantity("Frost begins after", "ft", "m"),
        "risk": Text("Risk of frost"),
        "risk_warmer": Text("The same 5 K (9 °F) warmer"),
        "risk_colder": Text("The same 5 K (9 °F) colder"),
        "deposit_per_day": Quantity("Water or frost on the wall", "gal/day", "L/day"),
        "fog_per_day": Quantity("Fog in the air, part of it frozen at the outlet", "gal/day", "L/day"),
        "carried_per_day": Quantity("Water that comes up with the air, at most", "gal/day", "L/day"),
        "insulation_r": Quantity("R-value of the insulation, in US units", "1", "1"),
    },
)
def cold_stack(
    work: Work,
    *,
    flow: Airflow,
    pipe_size: Size,
    outdoor_length: Outdoors,
    outdoor_temperature: Outdoor,
    soil_air_temperature: SoilTemperature = SOIL_AIR,
    insulation_thickness: Insulation = 0.0,
    insulation_conductivity: Conductivity = 0.035,
    wind: Wind = None,
    film_coefficient: Film = None,
    relative_humidity: RelativeHumidity = SATURATED,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Temperatures along a riser in the cold, where frost begins, and how much water stays on its wall.

    Steady, no sun, no sky; condensing water gives 2.50 MJ/kg, frost 2.83 MJ/kg and air below freezing is saturated over
    ice.  Raises Refusal when it is warmer outdoors than in the pipe: nothing condenses inside then.  SI in and out.
    """
    if outdoor_temperature > soil_air_temperature:
        raise Refusal(
            "outdoor_temperature",
            "it is warmer outdoors than in the pipe: the air in the riser is not cooled and nothing condenses inside",
            found=f"{from_si(outdoor_temperature, 'degF'):.4g} degF",
            accepts=f"up to {from_si(soil_air_temperature, 'degF'):.4g} degF, the temperature of the air in the pipe",
            kind="outside-model",
        )
    size = pipe_of(str(pipe_size))
    D, wall = si_of(size["bore"]), si_of(size["minimum_wall"])
    state = soil_air(
        work, elevation=elevation, air_temperature=soil_air_temperature, relative_humidity=relative_humidity
    )
    film = _outer(work, wind, film_coefficient)
    stack = heat.Stack(D, wall, outdoor_length, film, insulation_thickness, insulation_conductivity)
    R = _resistance(work, stack)
    V = work.step("Air speed in the pipe", pipe.speed, us={"V": "ft/min", "Q": "cfm", "D": "ft"}, Q=flow, D=D)
    Re = work.step("Reynolds number", pipe.reynolds, rho=state.density, V=V, D=D, mu=state.viscosity)
    work.step("Film inside", heat.inner_film, Nu=_nusselt(work, Re), k=heat.AIR_CONDUCTIVITY, D=D)

    def march(outdoors: float) -> heat.ColdStack:
        return heat.cold_stack(
            stack=stack,
            Q=flow,
            T_s=soil_air_temperature,
            T_o=min(outdoors, soil_air_temperature),
            phi=relative_humidity,
            p=state.pressure,
            rho=state.density,
            mu=state.viscosity,
        )

    now, warmer, colder = (march(outdoor_temperature + shift) for shift in (0.0, COLDER, -COLDER))
    if now.places:
        first = now.places[0]
        work.step(
            "Inner wall where the cold begins",
            heat.wall_temperature,
            us=CELSIUS,
            si=CELSIUS,
            T_o=outdoor_temperature,
            R=R,
            q=first.heat,
            q_v=first.vapour,
        )
    carried = _carried(work, state.pressure, soil_air_temperature, relative_humidity, state.density, flow)
    deposit, fog = (
        work.step(title, heat.water_volume, us=PER_DAY, m=amount, rho=heat.LITRE)
        for title, amount in (("Left on the wall", now.deposit), ("Left in the air as fog", now.fog))
    )
    r = heat.r_value(b=insulation_thickness, k=insulation_conductivity)
    if insulation_thickness:
        r = work.step(
            "R-value of the insulation, in US units", heat.r_value, b=insulation_thickness, k=insulation_conductivity
        )
    compare(work, now, r)
    caution(work, now, colder, insulation_thickness, outdoor_length)
    work.plot_later(plot, work, now)
    return {
        "wall_end_temperature": _between("wall_end_temperature", now, colder, warmer),
        "exit_temperature": _between("exit_temperature", now, colder, warmer),
        "first_frost_distance": _frost(now, colder, warmer, outdoor_length),
        "risk": now.risk,
        "risk_warmer": warmer.risk,
        "risk_colder": colder.risk,
        "deposit_per_day": _water(deposit, carried),
        "fog_per_day": _water(fog, carried),
        "carried_per_day": carried,
        "insulation_r": r,
    }


def _water(found: float, carried: float) -> Span:
    """Half or twice as much [m3/s], but never more than the air carries in."""
    return Span(found, found / TWICE, max(found, min(found * TWICE, carried)), "half or twice as much, at most all water")


def _outer(work: Work, wind: float | None, film: float | None) -> float:
    if film is not None:
        return film
    if wind is not None:
        return work.step("Film outside", heat.outer_film, U=wind)
    return heat.USUAL_FILM


def _nusselt(work: Work, Re: float) -> float:
    """Nusselt number of the air inside, with its steps; in laminar flow it is a constant."""
    if Re <= pipe.LAMINAR_END:
        return heat.NUSSELT_LAMINAR
    title = "Nusselt number, turbulent"
    turbulent = work.step(title, heat.turbulent_nusselt, Re=max(Re, pipe.TURBULENT_START))
    if Re >= pipe.TURBULENT_START:
        return turbulent
    return work.step("Nusselt number between laminar and turbulent", heat.transition_nusselt, Re=Re, Nu_t=turbulent)


def _resistance(work: Work, stack: heat.Stack) -> float:
    """Resistance [m K/W] of pipe wall, insulation and outer film, with its steps."""
    pipe_outside = stack.bore + 2 * stack.wall
    outside = pipe_outside + 2 * stack.insulation
    work.step(
        "One metre of the pipe wall", heat.ring_resistance, d_2=pipe_outside, d_1=stack.bore, k=stack.wall_conductivity
    )
    if stack.insulation:
        work.step(
            "One metre of the insulation",
            heat.ring_resistance,
            d_2=outside,
            d_1=pipe_outside,
            k=stack.insulation_conductivity,
        )
    work.step("One metre of the film outside", heat.film_resistance, h=stack.film, d=outside)
    return stack.resistance()


def _carried(work: Work, p: float, T: float, phi: float, rho: float, Q: float) -> float:
    """Water [m3/s] that comes up with the air, with its steps."""
    w = phi * heat.saturated(T=T, p=p)
    if T >= heat.ZERO_CELSIUS:
        e = air.vapour_pressure(phi=phi, p_s=air.saturation_pressure(T=T))
        w = work.step("Water in the air that comes up", air.humidity_ratio, e=e, p=p)
    m = work.step("Water that comes up", heat.vapour_flow, rho=rho, Q=Q, w=w)
    return work.step("The same by volume", heat.water_volume, us=PER_DAY, m=m, rho=heat.LITRE)


def _between(name: str, now: heat.ColdStack, colder: heat.ColdStack, warmer: heat.ColdStack) -> Span:
    value, low, high = (getattr(one, name) for one in (now, colder, warmer))
    return Span(value, min(low, high), max(low, high), "5 K (9 °F) colder and warmer outdoors")


def _frost(now: heat.ColdStack, colder: heat.ColdStack, warmer: heat.ColdStack, length: float) -> Span | None:
    if now.first_frost_distance is None:
        return None
    low = colder.first_frost_distance
    high = warmer.first_frost_distance
    return Span(
        now.first_frost_distance,
        0.0 if low is None else low,
        length if high is None else high,
        "5 K (9 °F) colder and warmer outdoors",
    )
