"""Worst-case depressurization by the balance of the house, and the test that decides whether a burner spills."""

from typing import Annotated, Any

from ..declare import Choice, Flag, List, Quantity, Record, Table, Text, Texts, calculator
from ..physics import air
from ..physics import house as physics
from ..span import Span
from ..tables import si_of, table
from ..trade import house as houses
from ..trade import spillage_checks
from ..trade import spillage_words as words
from ..trade.house import INSIDE, OUTDOOR, WIND, Leaky, Weather, at_slab, leaky_house, slab_span, weather
from ..units import si
from ..vocabulary import SEA_LEVEL, Elevation
from ..work import Work

PRESSURE = "in WC|Pa"
CLOSED = table("limits")["range"]["closed-zone"]["value"] / 100
POINTS = 40

Indoor = Annotated[float, INSIDE]
Outdoor = Annotated[float, OUTDOOR]
Windy = Annotated[float, WIND]
Exhausts = Annotated[
    list[dict[str, Any]],
    List(
        "Fans that take air out of the house",
        Record(
            "Fan",
            {
                "name": Text("Name"),
                "flow": Quantity("Air that it takes out", "cfm", "L/s", "0 cfm", "20000 cfm"),
            },
            need=("flow",),
        ),
        help="Dryer, range hood, bath fans, open fireplace, burners that draw room air. What is not given is not assumed.",
        source="oil-heat-manual",
    ),
]
SystemAir = Annotated[
    float | None,
    Quantity(
        "House air that the radon system takes",
        "cfm",
        "L/s",
        "0 cfm",
        "1500 cfm",
        help="The part of the fan's flow that is house air. If you do not know it, enter the whole flow of the fan.",
    ),
]
Handler = Annotated[str, Choice("Furnace blower", ("off", "on"))]
ReturnLeak = Annotated[
    float | None,
    Quantity(
        "Leak of return ducts near the appliance",
        "cfm",
        "L/s",
        "0 cfm",
        "5000 cfm",
        help="Air that the running blower draws out of the appliance room.",
    ),
]
Door = Annotated[str, Choice("Door between appliance room and house", ("open", "closed"))]
Appliances = Annotated[
    list[dict[str, Any]],
    List(
        "Appliances that burn",
        Record(
            "Appliance",
            {
                "name": Text("Name"),
                "kind": Choice("Kind", words.KINDS),
                "height": Quantity("Height of its draft hood above the slab", "ft", "m", "0 ft", "300 ft"),
            },
            need=("kind",),
            defaults={"height": 0.0},
        ),
        help="Every one in the house, also those in other rooms and the fireplace.",
        source="depressurization-limits",
    ),
]
WholeHouse = Annotated[bool, Flag("There is a whole-house fan")]
FloorArea = Annotated[
    float | None,
    Quantity("Floor area of the house", "ft2", "m2", "10 ft2", "100000 ft2", help="With the basement."),
]
TESTED = ("not-yet", "did-not-spill", "spilled")
Before = Annotated[str, Choice("Spillage test before the system ran", TESTED)]
After = Annotated[str, Choice("Spillage test with the system running", TESTED)]


@calculator(
    name="spillage-check",
    part="air-the-house-burns",
    title="What fans take from a flue",
    main="added_depressurization",
    results={
        "verdict": Text("What decides"),
        "added_depressurization": Quantity("Added by all fans together", "in WC", "Pa"),
        "added_by_system": Quantity("Of that, added by the radon system", "in WC", "Pa"),
        "base_at_slab": Quantity("House below outdoors at the slab, every fan off", "in WC", "Pa"),
        "depressurization_at_slab": Quantity("House below outdoors at the slab, everything on", "in WC", "Pa"),
        "exhaust_total": Quantity("Air taken out, all together", "cfm", "L/s"),
        "leakage_per_floor": Quantity("Leakage area at 4 Pa for each floor area", "cm2/m2", "cm2/m2"),
        "appliances": Table(
            "Appliances",
            {
                "name": Text("Appliance"),
                "kind": Choice("Kind", words.KINDS),
                "limit": Quantity("Limit", "in WC", "Pa"),
                "added": Quantity("Added there", "in WC", "Pa"),
                "total": Quantity("Altogether there", "in WC", "Pa"),
                "margin": Quantity("Left of the limit", "in WC", "Pa"),
            },
        ),
        "set_up": Texts("Set the house up for the test"),
        "before": Texts("Test before the system runs"),
        "after": Texts("Test with the system running"),
        "if_it_fails": Texts("If it spills"),
        "record": Texts("Write down"),
    },
)
def spillage_check(
    work: Work,
    *,
    house: Leaky,
    outdoor_temperature: Outdoor,
    indoor_temperature: Indoor = houses.INDOOR,
    exhausts: Exhausts = [],  # noqa: B006  read only
    system_house_air: SystemAir = None,
    appliances: Appliances = [],  # noqa: B006  read only
    door: Door = "open",
    air_handler: Handler = "off",
    return_leak_flow: ReturnLeak = None,
    whole_house_fan: WholeHouse = False,
    tested_before: Before = "not-yet",
    tested_after: After = "not-yet",
    wind: Windy = 0.0,
    floor_area: FloorArea = None,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Pressure that all fans add in the worst case, beside the limits of the appliances; then the test that decides.

    Stack, wind, exhaust and the house air of the radon system act on the leaks in one balance; they are never added.
    Raises Refusal for leaks in the wrong order and for more exhaust than a house of this leakage can stand.  SI in and
    out.
    """
    leaky = leaky_house(house)
    p = work.step("Air pressure at this elevation", air.pressure_at, us={"z": "m"}, z=elevation)
    conditions = {"outdoor_temperature": outdoor_temperature, "indoor_temperature": indoor_temperature, "wind": wind}
    still = weather(work, conditions | {"exhaust": 0.0}, p, "")
    others, system = sum(item["flow"] for item in exhausts), system_house_air or 0.0
    base = at_slab(work, leaky, still, ", every fan off", "exhausts")
    without = at_slab(work, leaky, still._replace(exhaust=others), ", all fans but the radon system", "exhausts")
    on = still._replace(exhaust=others + system)
    worst = at_slab(work, leaky, on, ", everything on", "exhausts" if others >= system else "system_house_air")
    added = work.step("Added by all fans", physics.added_pressure, d_1=worst, d_0=base)
    by_system = None
    if system_house_air is not None:
        by_system = work.step("Of that, added by the radon system", physics.added_pressure, d_1=worst, d_0=without)

    span = _added_span(leaky, on, added, _widened(leaky, on, door, air_handler, return_leak_flow), base)
    rows = _appliances(work, appliances, worst, base, still.gradient)
    per_floor = spillage_checks.leakage(work, leaky, p, indoor_temperature, floor_area)
    spillage_checks.compare(work, rows, span, system_house_air is not None)
    spillage_checks.tested(work, tested_before, tested_after)
    spillage_checks.stops(
        work,
        solid_fuel=any(item["kind"] == "solid-fuel" for item in appliances),
        whole_house_fan=whole_house_fan,
        spilled="spilled" in (tested_before, tested_after),
    )
    spillage_checks.cautions(work, span, rows, exhausts, system_house_air, air_handler, return_leak_flow)
    work.plot_later(_plot, work, leaky, on, base, added, rows)
    return {
        "verdict": words.VERDICT,
        "added_depressurization": span,
        "added_by_system": by_system,
        "base_at_slab": slab_span(leaky, still, base),
        "depressurization_at_slab": slab_span(leaky, on, worst),
        "exhaust_total": on.exhaust,
        "leakage_per_floor": per_floor,
        "appliances": [
            {key: row[key] for key in ("name", "kind", "limit", "added", "total", "margin")} for row in rows
        ],
        "set_up": list(words.SET_UP),
        "before": list(words.BEFORE),
        "after": list(words.AFTER),
        "if_it_fails": list(words.IF_IT_FAILS),
        "record": list(words.RECORD),
    }


def _widened(house: physics.House, on: Weather, door: str, handler: str, leak: float | None) -> tuple[float, list[str]]:
    """The highest depressurization [Pa] at the slab that closed doors and blower can make of it, and why."""
    reasons, flow, exhaust = [], house.flow_50, on.exhaust
    if door == "closed":
        flow *= CLOSED
        reasons.append(f"door closed: {CLOSED * 100:.0f} % of the house's leaks left to that room")
    if handler == "on" and leak:
        exhaust += leak
        reasons.append("return leak counted as exhaust")
    shut = house._replace(flow_50=flow)
    high = max(
        physics.slab_depressurization(house=one, exhaust=exhaust, gradient=on.gradient, wind=on.wind)
        for one in (shut, shut._replace(leak_count=2))
    )
    return high, reasons


def _added_span(house: physics.House, on: Weather, added: float, widened: tuple[float, list[str]], base: float) -> Span:
    share = houses.ends()["exhaust"]
    two = houses.parts_of(house._replace(leak_count=2), on).exhaust
    found = [added * (1 - share), added * (1 + share), two]
    high, reasons = widened
    why = f"exhaust part {share * 100:.0f} % either way, and all leaks at the lowest and highest place"
    if reasons:
        found.append((high - base) * (1 + share))
        why = "; ".join([why, *reasons])
    return Span(added, min(found), max(found), why)


def _appliances(
    work: Work, appliances: list[dict[str, Any]], worst: float, base: float, gradient: float
) -> list[dict[str, Any]]:
    rows = []
    limits = table("limits")["depressurization"]
    for i, item in enumerate(appliances):
        kind, z = item["kind"], item["height"]
        limit = None if limits[kind]["value"] is None else si_of(limits[kind])
        d_1 = physics.depressurization_at(p_0=worst, G=gradient, z=z)
        d_0 = physics.depressurization_at(p_0=base, G=gradient, z=z)
        margin = None
        if limit is not None:
            where = f" ({i + 1})" if len(appliances) > 1 else ""
            margin = work.step(
                f"Left of the limit, {words.KINDS[kind]}{where}", physics.spillage_margin, l=limit, d_1=d_1, d_0=d_0
            )
        rows.append(
            {
                "name": item["name"] or words.KINDS[kind],
                "kind": kind,
                "limit": limit,
                "added": d_1 - d_0,
                "total": d_1,
                "margin": margin,
            }
        )
    return rows


def _plot(work: Work, house: physics.House, on: Weather, base: float, added: float, rows: list[dict[str, Any]]) -> None:
    most = max(2 * on.exhaust, si("100 cfm"))
    flows = [most * i / POINTS for i in range(POINTS + 1)]
    curve = [
        physics.slab_depressurization(house=house, exhaust=Q, gradient=on.gradient, wind=on.wind) - base for Q in flows
    ]
    limits = [row["limit"] for row in rows if row["limit"] is not None]
    lines = [("lowest limit entered", PRESSURE, [min(limits)] * len(flows))] if limits else []
    work.plot(
        "added",
        "What fans add, by the air that they take out together",
        ("air taken out", "cfm|L/s", flows),
        ("this house", PRESSURE, curve),
        *lines,
        point=(on.exhaust, added),
    )
