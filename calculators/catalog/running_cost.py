"""What the fan and the house air that it takes cost in a year."""

from typing import Annotated, Any

from ..declare import REQUIRED, Quantity, Record, Refusal, Text, calculator, si
from ..physics import air, heat
from ..span import Span
from ..trade.house import INDOOR, INSIDE
from ..vocabulary import SEA_LEVEL, Elevation
from ..work import Work

YEAR = si("365 day")
HOUSE_AIR = Quantity(
    "House air that the system takes",
    "cfm",
    "L/s",
    "0 cfm",
    "1500 cfm",
    help="The part of the fan's flow that comes from rooms and not from the ground.",
)
Power = Annotated[
    float, Quantity("Fan power", "W", "W", "0 W", "2000 W", help="Measured with a plug meter, or from the data sheet.")
]
HouseAir = Annotated[float | None, HOUSE_AIR]
Flow = Annotated[float | None, Quantity("Whole flow of the fan", "cfm", "L/s", "0 cfm", "1500 cfm")]
Share = Annotated[
    float | None,
    Quantity(
        "Share of it that is house air",
        "%",
        "%",
        "0 %",
        "100 %",
        help="About half is often heard; no source for that was seen. Tracer or pressure tests tell.",
        source="from-memory",
    ),
]
DegreeDays = "degF*day", "degC*day", "0 degF*day", "30000 degF*day"
Heating = Annotated[
    float, Quantity("Heating degree days in a year", *DegreeDays, help="From the weather service, for your place.")
]
Cooling = Annotated[float | None, Quantity("Cooling degree days in a year", *DegreeDays)]
Furnace = Annotated[
    float,
    Quantity(
        "Efficiency of the heating",
        "1",
        "1",
        "0.05",
        "1",
        help="Heat in the rooms over fuel burned: 0.8 for an older furnace, 0.95 for a condensing one, 1 for electric heat.",
        source="from-memory",
    ),
]
Cooler = Annotated[
    float,
    Quantity("Cooling for each unit of electricity", "1", "1", "1", "10", help="3 is common.", source="from-memory"),
]
Prices = Annotated[
    dict[str, Any] | None,
    Record(
        "Prices",
        {
            "electricity": Quantity("Electricity", "money/kWh", "money/kWh", "0 money/kWh", "1000000 money/kWh"),
            "fuel": Quantity("Heating fuel", "money/therm", "money/kWh", "0 money/therm", "10000000 money/therm"),
        },
        help="Yours, from the bill. A therm is 100,000 Btu (29.3 kWh).",
    ),
]
Currency = Annotated[str | None, Text("Money is", help="As it is to be printed.")]
Inside = Annotated[float, INSIDE]
KWH, BTU = (
    {"E": "kWh", "P": "kW", "t": "h"},
    {"E": "Btu", "rho": "lb/ft3", "c_p": "Btu/lb/degF", "Q": "ft3/day", "H": "degF*day"},
)
KILOJOULES = {"E": "kJ", "c_p": "kJ/kg/K", "Q": "m3/day", "H": "degC*day"}


@calculator(
    name="running-cost",
    part="pipe-and-fan",
    title="What it costs to run",
    main="cost_per_year",
    one_of={"house_air": ("house_air_flow", "flow")},
    results={
        "cost_per_year": Quantity("Cost in a year, altogether", "money", "money"),
        "fan_energy": Quantity("Electricity of the fan in a year", "kWh", "kWh"),
        "heat_energy": Quantity("Heat in the house air in a year", "MMBtu", "kWh"),
        "fuel_energy": Quantity("Fuel for that heat in a year", "MMBtu", "kWh"),
        "cooling_energy": Quantity("Electricity for cooling in a year", "kWh", "kWh"),
        "fan_cost": Quantity("Cost of the fan in a year", "money", "money"),
        "heat_cost": Quantity("Cost of the heat in a year", "money", "money"),
        "cooling_cost": Quantity("Cost of the cooling in a year", "money", "money"),
        "house_air": Quantity("House air taken", "cfm", "L/s"),
        "currency": Text("Money is"),
    },
)
def running_cost(
    work: Work,
    *,
    fan_power: Power,
    house_air_flow: HouseAir = REQUIRED,
    flow: Flow = REQUIRED,
    house_air_share: Share = None,
    heating_degree_days: Heating,
    cooling_degree_days: Cooling = None,
    furnace_efficiency: Furnace = 0.8,
    cooling_efficiency: Cooler = 3.0,
    prices: Prices = None,
    currency: Currency = None,
    indoor_temperature: Inside = INDOOR,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Energy of the fan and of the heated house air that it takes out in a year of 365 days, and their cost.

    Heat of dry air at indoor temperature and the pressure of the elevation, over the degree days.  Raises Refusal for a
    flow without its share, or a share without its flow.  SI in and out.
    """
    Q = _house_air(work, house_air_flow, flow, house_air_share)
    p = work.step("Air pressure at this elevation", air.pressure_at, us={"z": "m"}, z=elevation)
    rho = work.step("Density of the house air", air.dry_density, p=p, T=indoor_temperature)
    fan = work.step("Electricity of the fan in a year", heat.fan_energy, us=KWH, si=KWH, P=fan_power, t=YEAR)
    E = work.step(
        "Heat in the house air in a year",
        heat.heat_energy,
        us=BTU,
        si=KILOJOULES,
        rho=rho,
        c_p=heat.AIR_HEAT,
        Q=Q,
        H=heating_degree_days,
    )
    fuel = work.step(
        "Fuel for that heat",
        heat.fuel_energy,
        us={"E_f": "MMBtu", "E": "MMBtu"},
        si={"E_f": "kWh", "E": "kWh"},
        E=E,
        eta=furnace_efficiency,
    )
    cold = None
    if cooling_degree_days is not None:
        heat_out = heat.heat_energy(rho=rho, c_p=heat.AIR_HEAT, Q=Q, H=cooling_degree_days)
        kwh = {"E_f": "kWh", "E": "kWh"}
        cold = work.step(
            "Electricity for cooling that air", heat.fuel_energy, us=kwh, si=kwh, E=heat_out, eta=cooling_efficiency
        )
    given = prices or {}
    costs = {
        "fan_cost": _cost(work, "Cost of the fan", fan, given.get("electricity"), "kWh"),
        "heat_cost": _cost(work, "Cost of the heat", fuel, given.get("fuel"), "therm"),
        "cooling_cost": None
        if cold is None
        else _cost(work, "Cost of the cooling", cold, given.get("electricity"), "kWh"),
    }
    total = _total(work, costs, cooled=cold is not None)
    _caution(work, Q, prices, total, cooled=cold is not None)
    why = "house air adds from nothing to all of its flow to the air change of the house"
    air_cost = (costs["heat_cost"] or 0.0) + (costs["cooling_cost"] or 0.0)
    return {
        "cost_per_year": total if total is None or not air_cost else Span(total, total - air_cost, total, why),
        "fan_energy": fan,
        "heat_energy": Span(E, 0.0, E, why) if E else E,
        "fuel_energy": Span(fuel, 0.0, fuel, why) if fuel else fuel,
        "cooling_energy": Span(cold, 0.0, cold, why) if cold else cold,
        **costs,
        "house_air": Q,
        "currency": currency,
    }


def _house_air(work: Work, house_air: float | None, flow: float | None, share: float | None) -> float:
    if flow is None:
        if share is not None:
            raise Refusal(
                "house_air_share",
                "this is a share of flow, which was not given",
                found="given alone",
                accepts="flow with house_air_share, or house_air_flow",
            )
        return house_air or 0.0
    if share is None:
        raise Refusal(
            "house_air_share",
            "the whole flow needs its share of house air",
            kind="missing",
            accepts="a share from 0 % to 100 %, or house_air_flow in place of both",
        )
    units = {"Q_h": "cfm", "Q": "cfm"}
    return work.step("House air taken", heat.house_air, us=units, si=dict.fromkeys(units, "L/s"), Q=flow, s=share)


def _cost(work: Work, title: str, energy: float, price: float | None, us: str) -> float | None:
    """Cost of an energy [J] at a price [money/J]; nothing costs nothing, and without a price there is none."""
    if price is None:
        return None if energy else 0.0
    return work.step(
        title,
        heat.energy_cost,
        us={"E": us, "m": f"money/{us}"},
        si={"E": "kWh", "m": "money/kWh"},
        E=energy,
        m=price,
    )


def _total(work: Work, costs: dict[str, float | None], *, cooled: bool) -> float | None:
    fan, heating, cooling = costs["fan_cost"], costs["heat_cost"], costs["cooling_cost"] if cooled else 0.0
    if fan is None or heating is None or cooling is None:
        return None
    return work.step("Altogether in a year", heat.total_cost, M_f=fan, M_h=heating, M_c=cooling)


def _caution(work: Work, Q: float, prices: dict[str, Any] | None, total: float | None, *, cooled: bool) -> None:
    work.caution(
        "warning",
        "Do not switch the fan off to save this. The radon begins to come back within hours. Save on the leaks instead: lid, slots and "
        "cracks.",
    )
    if Q:
        work.caution(
            "note",
            "The heat counts all of the house air as extra air change. Small fans that only blow out typically add half of their "
            "flow, anything from none to all of it; the range runs that far.",
            "ashrae-hof-2021-16",
        )
    if total is None:
        missing = "prices" if not prices else "a price for each energy that is used"
        work.caution("note", f"No cost altogether: {missing} must be given. Nothing is assumed.", "definition")
    work.not_looked_at(
        "Moisture in the air: drying it in summer costs as well.",
        "Degree days of your house: they are counted from one outdoor temperature, and a well insulated house starts to heat later.",
        "Gauge, alarm, wear: a fan runs for years and then is replaced.",
        "Standing charges, taxes, and what prices will be.",
    )
    if not cooled:
        work.not_looked_at("Cooling: no cooling degree days were given.")
