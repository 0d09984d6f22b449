"""What a test hole must read on a mild day so that suction is left in the coldest week."""

from typing import Annotated, Any

from ..declare import Quantity, Text, calculator
from ..physics import air, house_parts
from ..physics import house as physics
from ..span import Span
from ..tables import si_of, table
from ..trade import house as houses
from ..trade.house import Leaky, Weather, at_slab, day, leaky_house, parts_of, slab_span, weather
from ..units import from_si, si
from ..vocabulary import SEA_LEVEL, Elevation
from ..work import Work

LEAST = si_of(table("soils")["target_suction"])
PRESSURE, POINTS = "in WC|Pa", 40
COLDEST, HOTTEST, BEYOND = si("-60 degF"), si("130 degF"), 10.0  # the plot runs 10 K past the days

TestDay = Annotated[dict[str, Any], day("The day of the test", help="Test on a calm day, and note what was running.")]
DesignDay = Annotated[
    dict[str, Any],
    day("The worst day to hold", wind=True, help="The coldest usual day, with all exhaust that may run together."),
]
Follows = Annotated[
    float,
    Quantity(
        "How far the soil keeps to outdoor pressure",
        "1",
        "1",
        "0",
        "1",
        help="1 is the careful choice. To measure it, leave the system off and switch one exhaust fan on: it is the "
        "change of the reading at the hole over the change of the house against outdoors.",
        source="derived",
    ),
]
Minimum = Annotated[
    float,
    Quantity(
        "Suction to be left on the worst day",
        "in WC",
        "Pa",
        "0 Pa",
        "1000 Pa",
        help="Take it from the rule in force where there is one.",
        source="from-memory",
    ),
]
Rule = Annotated[str | None, Text("Rule that asks for that suction", help="Name and section, as it is to be printed.")]
Measured = Annotated[
    float | None,
    Quantity(
        "Suction read at the weakest hole on the day of the test",
        "in WC",
        "Pa",
        "-1000 Pa",
        "5000 Pa",
        help="System on. Below zero when the hole blew up into the room.",
    ),
]


@calculator(
    name="needed-suction",
    part="under-the-slab",
    title="What to read on a mild day",
    main="required_suction",
    results={
        "required_suction": Quantity("Suction to read on the day of the test", "in WC", "Pa"),
        "slab_depressurization_test": Quantity("House below outdoors at the slab, day of the test", "in WC", "Pa"),
        "slab_depressurization_design": Quantity("House below outdoors at the slab, worst day", "in WC", "Pa"),
        "exhaust_part": Quantity("Of that, added by exhaust", "in WC", "Pa"),
        "wind_part": Quantity("Of that, added by wind", "in WC", "Pa"),
        "neutral_level": Quantity("Neutral level on the worst day, above the slab", "ft", "m"),
        "suction_left": Quantity("Left at that hole on the worst day", "in WC", "Pa"),
    },
)
def needed_suction(
    work: Work,
    *,
    test_day: TestDay,
    design_day: DesignDay,
    house: Leaky,
    soil_follows: Follows = 1.0,
    minimum_suction: Minimum = LEAST,
    minimum_rule: Rule = None,
    measured_suction: Measured = None,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Suction to read at the weakest test hole today so that enough is left in the coldest week.

    Stack, wind and exhaust act on the leaks of the house in one balance; they are never added.  Raises Refusal for
    leaks in the wrong order and for an exhaust that no house of this leakage could stand.  SI in and out.
    """
    leaky = leaky_house(house)
    p = work.step("Air pressure at this elevation", air.pressure_at, us={"z": "m"}, z=elevation)
    test = weather(work, test_day, p, ", day of the test")
    design = weather(work, design_day, p, ", worst day")
    d_t = at_slab(work, leaky, test, ", day of the test", "test_day.exhaust")
    d_c = at_slab(work, leaky, design, ", worst day", "design_day.exhaust")
    arguments = {"a": soil_follows, "d_c": d_c, "d_t": d_t}
    required = work.apply(
        "To be read on the day of the test", physics.required_suction, {"s_m": minimum_suction, **arguments}
    )
    left = None
    if measured_suction is not None:
        left = work.apply("Left on the worst day", house_parts.suction_left, {"s": measured_suction, **arguments})

    parts = parts_of(leaky, design)
    moves = [soil_follows * move for move in _moves(leaky, test, design)]
    why = f"{houses.why(test, design)}; the same on both days"
    ends = [max(minimum_suction, minimum_suction + move) for move in (min(moves), max(moves))]
    needed = Span(required, ends[0], ends[1], why)
    _compare(work, needed, measured_suction, minimum_rule)
    _caution(work, test, (d_t, d_c), parts, minimum_rule)
    work.plot_later(_plot, work, leaky, p, test_day, design_day, design, d_c)
    return {
        "required_suction": needed,
        "slab_depressurization_test": slab_span(leaky, test, d_t),
        "slab_depressurization_design": slab_span(leaky, design, d_c),
        "exhaust_part": parts.exhaust,
        "wind_part": parts.wind,
        "neutral_level": None if design.gradient == 0 else house_parts.neutral_level(p_0=d_c, G=design.gradient),
        "suction_left": left
        if left is None or measured_suction is None
        else Span(left, measured_suction - max(moves), measured_suction - min(moves), why),
    }


def _moves(house: physics.House, test: Weather, design: Weather) -> list[float]:
    """What the house pulls more [Pa] on the worst day than on the day of the test, at the corners of the range."""
    worst, today = parts_of(house, design), parts_of(house, test)
    found = [worst.total(**corner) - today.total(**corner) for corner in houses.corners()]
    two = house._replace(leak_count=2)
    return [*found, parts_of(two, design).total() - parts_of(two, test).total()]


def _compare(work: Work, required: Span, measured: float | None, rule: str | None) -> None:
    asked = f" ({rule})" if rule else ""
    work.at_least(
        "measured",
        f"The weakest hole read enough for the worst day: what that day takes, and the suction to be left then{asked}.",
        found=measured,
        required=required.value,
        unit=PRESSURE,
        source="derived",
        needs=[] if measured is not None else ["measured_suction"],
    )
    if measured is not None and required.low < measured < required.high:
        work.caution(
            "warning",
            f"The reading lies inside the range of what is needed, {_pressure(required.low)} to "
            f"{_pressure(required.high)}. The sum cannot decide that; a look on a cold day can.",
            "derived",
        )


def _pressure(value: float) -> str:
    return f"{from_si(value, 'in WC'):.3f} in WC ({value:.1f} Pa)"


def _caution(work: Work, test: Weather, slab: tuple[float, float], parts: house_parts.Parts, rule: str | None) -> None:
    d_t, d_c = slab
    if d_c > 0:
        exhaust = f", {_pressure(parts.exhaust)} of it by exhaust" if parts.exhaust > 0 else ""
        work.caution(
            "danger",
            f"On the worst day the lowest floor is {_pressure(d_c)} below outdoors{exhaust}. The same pressure holds "
            "back the draft of burners. Test for spillage under worst case, before and after the fan is on.",
            "henschel-1997",
        )
    if d_c <= d_t:
        work.caution(
            "warning",
            "The worst day entered asks no more of the soil than the day of the test. Look at both again: the worst "
            "day is the coldest one, with dryer, hood and bath fans on.",
            "derived",
        )
    if test.gradient < 0:
        work.caution(
            "warning",
            "On the day of the test it is hotter outdoors than indoors: the stack pushes the house up against the slab "
            "and the soil reads better than it is. Test again in the heating season.",
            "buoyancy",
        )
    if not rule:
        work.caution(
            "note",
            "The suction to be left is a remembered habit of large-building verification, not a rule that was seen. "
            "Take the figure of the standard in force.",
            "from-memory",
        )
    work.caution("note", "Suction under a slab is not a radon level. Only a radon test shows that.")
    work.caution(
        "note",
        "A-3.3 of SGM-SF (2017) asks to look again in the heating season, within about 10 °F (5.6 °C) of the "
        "coldest local average. This sum does not replace that look.",
        "sgm-sf-2017",
    )
    work.not_looked_at(
        "Closed doors: the house counts as one space. A closed basement with its own exhaust can be further down.",
        "Wind on the day of the test. Test on a calm day.",
        "Frost, wet ground and water under the slab, which change how the soil yields air.",
        "Which hole is the weakest, and whether a part of the slab has no hole.",
        "Flues: an open fireplace or a burner that draws room air is exhaust. Enter it as such.",
    )


def _plot(
    work: Work,
    house: physics.House,
    p: float,
    test_day: dict[str, Any],
    design_day: dict[str, Any],
    design: Weather,
    d_c: float,
) -> None:
    outdoor = [one["outdoor_temperature"] for one in (test_day, design_day)]
    low, high = max(COLDEST, min(outdoor) - BEYOND), min(HOTTEST, max(outdoor) + BEYOND)
    temperatures = [low + (high - low) * i / POINTS for i in range(POINTS + 1)]

    def curve(day: dict[str, Any], wind: float) -> list[float]:
        gradients = [air.stack_gradient(p=p, T_o=T, T_i=day["indoor_temperature"]) for T in temperatures]
        return [
            physics.slab_depressurization(house=house, exhaust=day["exhaust"], gradient=G, wind=wind) for G in gradients
        ]

    work.plot(
        "slab",
        "House below outdoors at the slab, by outdoor temperature",
        ("outdoor temperature", "degF|degC", temperatures),
        ("exhaust and wind of the worst day", PRESSURE, curve(design_day, design.wind)),
        ("exhaust of the day of the test", PRESSURE, curve(test_day, 0.0)),
        point=(design_day["outdoor_temperature"], d_c),
    )
