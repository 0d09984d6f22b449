"""The house as several calculators ask for it: how it leaks, a day's weather and exhaust, the pressure at its slab."""

from typing import Annotated, Any, NamedTuple

from ..declare import Count, Quantity, Record, Refusal, si
from ..physics import air, house_parts
from ..physics import house as physics
from ..span import Span
from ..tables import table
from ..work import Work

INDOOR = si("70 degF")
MOST = 1000.0  # Pa, beyond this no house stands and the power law was never measured
INCHES = "in WC"
EXHAUST_US, EXHAUST_SI = {"Q": "cfm", "Q_in": "cfm", "Q_out": "cfm"}, {"Q": "L/s", "Q_in": "L/s", "Q_out": "L/s"}

Leaky = Annotated[
    dict[str, Any],
    Record(
        "The house",
        {
            "leakage_at_50Pa": Quantity("Air leakage at 50 Pa", "cfm", "L/s", "1 cfm", "100000 cfm"),
            "exponent": Quantity("Exponent of the leakage", "1", "1", "0.4", "1", source="ashrae-hof-2021-16"),
            "leak_bottom": Quantity("Height of the lowest leak above the slab", "ft", "m", "0 ft", "300 ft"),
            "leak_top": Quantity("Height of the highest leak above the slab", "ft", "m", "0 ft", "300 ft"),
            "leak_count": Count("Leaks, evenly spread between them", 1, 200),
        },
        need=("leakage_at_50Pa",),
        defaults={"exponent": physics.EXPONENT, "leak_bottom": 0.3, "leak_top": 7.5, "leak_count": 13},
        help="From a blower-door test of the whole house, doors inside open. Heights count from the slab, so a "
        "basement with two floors above it reaches to about 25 ft (7.5 m).",
    ),
]
OUTDOOR = Quantity("Outdoor temperature", "degF", "degC", "-60 degF", "130 degF")
INSIDE = Quantity("Indoor temperature", "degF", "degC", "32 degF", "120 degF")
EXHAUST = Quantity(
    "Air that fans take out, on balance",
    "cfm",
    "L/s",
    "-20000 cfm",
    "20000 cfm",
    help="Dryer, range hood, bath fans and burners that run then. Below zero when more is blown in. What is not "
    "given is not assumed.",
)
WIND = Quantity("Wind speed at the house", "mph", "m/s", "0 mph", "100 mph", help="At the walls, not at the airport.")


def day(label: str, *, wind: bool = False, help: str = "") -> Record:
    """The record of one day: temperatures, exhaust, and wind where it is asked for."""
    members = {"outdoor_temperature": OUTDOOR, "indoor_temperature": INSIDE, "exhaust": EXHAUST}
    return Record(
        label,
        members | ({"wind": WIND} if wind else {}),
        need=("outdoor_temperature",),
        defaults={"indoor_temperature": INDOOR, "exhaust": 0.0} | ({"wind": 0.0} if wind else {}),
        help=help,
    )


class Weather(NamedTuple):
    """A day in SI: stack gradient [Pa/m], exhaust on balance [m3/s], suction of the wind on the leaks [Pa]."""

    gradient: float
    exhaust: float
    wind: float


def leaky_house(house: dict[str, Any], path: str = "house") -> physics.House:
    """The house as the balance takes it.  Raises Refusal when its highest leak lies below its lowest."""
    if house["leak_top"] < house["leak_bottom"]:
        raise Refusal(
            f"{path}.leak_top",
            "the highest leak cannot lie below the lowest",
            found=f"{house['leak_top']:.3g} m above the slab",
            accepts=f"leak_bottom or more, {house['leak_bottom']:.3g} m",
        )
    return physics.House(
        house["leakage_at_50Pa"],
        house["exponent"],
        house["leak_bottom"],
        house["leak_top"],
        house["leak_count"],
    )


def weather(work: Work, day: dict[str, Any], pressure: float, when: str) -> Weather:
    """Stack gradient and wind of a day, with their steps; air pressure [Pa].  ``when`` ends the titles."""
    T_o, T_i = day["outdoor_temperature"], day["indoor_temperature"]
    gradient = work.step(f"Stack, for each unit of height{when}", air.stack_gradient, p=pressure, T_o=T_o, T_i=T_i)
    wind = 0.0
    if day.get("wind"):
        rho = work.step(f"Air density outdoors{when}", air.dry_density, p=pressure, T=T_o)
        wind = work.step(f"Wind on the leaks{when}", physics.wind_suction, rho=rho, U=day["wind"])
    return Weather(gradient, day["exhaust"], wind)


def at_slab(work: Work, house: physics.House, day: Weather, when: str, path: str) -> float:
    """Depressurization at the slab [Pa], all leaks and exhausts in one balance, with its steps.

    Raises Refusal at ``path`` when the exhaust is more than such a house can stand.
    """
    alone = physics.leakage_pressure(
        dp_r=physics.TEST_PRESSURE, Q=abs(day.exhaust), Q_r=house.flow_50, n=house.exponent
    )  # fmt: skip
    if alone > MOST:
        raise Refusal(
            path,
            "this exhaust is more than a house of this leakage can take; the leakage law was never measured there",
            found=f"about {alone:.0f} Pa",
            accepts=f"up to {MOST:.0f} Pa",
            kind="outside-model",
        )
    p_0 = physics.slab_depressurization(house=house, exhaust=day.exhaust, gradient=day.gradient, wind=day.wind)
    inward, _ = house_parts.exchanged(house=house, p_0=p_0, gradient=day.gradient, wind=day.wind)
    work.step(
        f"In through the low leaks, less out at the top, is the exhaust{when}",
        house_parts.exchange,
        us=EXHAUST_US,
        si=EXHAUST_SI,
        Q_in=inward,
        Q_out=max(inward - day.exhaust, 0.0),  # when all leaks let air in, rounding must not print a minus
    )
    lowest = house.heights()[0]
    across = physics.depressurization_at(p_0=p_0, G=day.gradient, z=lowest) - day.wind
    return work.step(
        f"House below outdoors at the slab{when}",
        house_parts.slab_from_leak,
        dp=across,
        G=day.gradient,
        z=lowest,
        p_w=day.wind,
    )


def parts_of(house: physics.House, day: Weather) -> house_parts.Parts:
    """Stack, exhaust and wind parts [Pa] of the depressurization at the slab."""
    return house_parts.parts(house=house, exhaust=day.exhaust, gradient=day.gradient, wind=day.wind)


def ends() -> dict[str, float]:
    """How far each part may be off, as a share: stack, exhaust, wind (from memory)."""
    rows = table("limits")["range"]
    names = {"stack": "stack-part", "exhaust": "exhaust-part", "wind": "wind"}
    return {part: rows[row]["value"] / 100 for part, row in names.items()}


def corners() -> list[dict[str, float]]:
    """The factors of stack, exhaust and wind at the corners of their ranges."""
    off = ends()
    found: list[dict[str, float]] = [{}]
    for part, share in off.items():
        found = [{**one, part: 1 + sign * share} for one in found for sign in (-1, 1)]
    return found


def why(*days: Weather) -> str:
    """What makes the range of a pressure at the slab, in words."""
    off = {part: f"{share * 100:.0f} %" for part, share in ends().items()}
    words = [f"stack part {off['stack']} either way (height of the neutral level)"]
    if any(day.exhaust for day in days):
        words.append(f"exhaust part {off['exhaust']}, and all leaks at the lowest and highest place")
    if any(day.wind for day in days):
        words.append(f"wind part {off['wind']}")
    return "; ".join(words)


def slab_span(house: physics.House, day: Weather, value: float) -> Span:
    """The depressurization at the slab [Pa] with its honest range: each part's own, and the leaks put at the ends."""
    parts = parts_of(house, day)
    found = [parts.total(**corner) for corner in corners()]
    found.append(parts_of(house._replace(leak_count=2), day).total())
    return Span(value, min(found), max(found), why(day))
