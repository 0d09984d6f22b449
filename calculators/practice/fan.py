"""Problems on the fan: where it settles, what the gauge shows and hides, where it may stand."""

from functools import partial

from ..result import Result
from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Number, Problem, Slip, distinct, named, near, options, solved, template

fan = partial(template, part="pipe-and-fan", calculator="fan-point")
WORN = {
    "name": "fan A, worn",
    "points": [
        {"flow": "0 cfm", "pressure": "1.2 in WC"},
        {"flow": "60 cfm", "pressure": "0.96 in WC"},
        {"flow": "120 cfm", "pressure": "0.48 in WC"},
        {"flow": "170 cfm", "pressure": "0 in WC"},
    ],
}
SHEET = {
    "name": "fan A, entered from its data sheet",
    "points": [
        {"flow": "0 cfm", "pressure": "2 in WC"},
        {"flow": "60 cfm", "pressure": "1.6 in WC"},
        {"flow": "120 cfm", "pressure": "0.8 in WC"},
        {"flow": "170 cfm", "pressure": "0 in WC"},
    ],
}


def _reading(draw: Draw, value: float) -> Shown:
    """A pressure as a gauge shows it."""
    unit = draw.text("in WC", "Pa")
    return Shown(round(from_si(value, unit), draw.text(2, 0)), unit)


def _house(draw: Draw) -> dict[str, object]:
    """A system with its gauge near the fan."""
    length = draw.pick(("30 ft", "40 ft", "50 ft"))
    return {
        "fan": SHEET,
        "pipe_size": "3",
        "pipe_length": length,
        "gauge_distance": length,
        "fittings": [{"kind": "elbow-90", "count": draw.whole(2, 4)}],
        "soil_conductance": draw.pick(("20 cfm/in WC", "30 cfm/in WC", "40 cfm/in WC")),
    }


@fan(kind="number", level=1, minutes=2, source="network-balance", title="From the gauge to the pit")
def pit_from_gauge(draw: Draw) -> Problem:
    """Suction in the pit from the gauge near the fan and the loss on the way."""
    result = solved("fan-point", **_house(draw), open_area=draw.pick(("0 in2", "1 in2", "2 in2", "3 in2")))
    gauge, pit = _reading(draw, result["gauge_suction"]), _reading(draw, result["pit_suction"])
    lost = Shown(round(gauge.value - pit.value, 2), gauge.unit)
    key = Number(
        gauge.si - lost.si, gauge.unit, si(draw.text("0.02 in WC", "5 Pa")), "a gauge is read to its smallest mark"
    )
    slips = distinct(
        key,
        [
            Slip(
                "gauge-is-pit", gauge.si, "The gauge sits near the fan. On the way to the pit the pipe takes its share."
            ),
            Slip(
                "added",
                gauge.si + lost.si,
                "The loss was added. The pit, farther from the fan, has less suction than the gauge.",
            ),
            Slip("loss", lost.si, "This is what is lost on the way. The question asks what is left."),
        ],
    )
    return Problem(
        text=[
            f"The gauge is tapped into the pipe just before the fan and reads {gauge}. From the pit to the tap the pipe loses {lost}."
        ],
        ask=f"How much suction is in the pit? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        words=[f"{gauge} − {lost} = {key.printed()}."],
    )


@fan(kind="number", level=1, minutes=2, source="hydrostatics", title="Read a U-tube")
def utube(draw: Draw) -> Problem:
    """Suction from the two legs of a U-tube."""
    up = draw.number((0.3, 1.2, 0.05, "in"), (8, 30, 1, "mm"))
    down = Shown(round(up.value + draw.text(0.05, 1) * draw.whole(-1, 1), 2), up.unit)
    head = up.si + down.si
    key = near(head * si("1 in WC") / si("1 in"), 0.04, "the legs are read to half a mark", unit=draw.text("in WC", "Pa"),
               least=si(draw.text("0.03 in WC", "6 Pa")))  # fmt: skip
    one = up.si / head * key.value
    slips = distinct(
        key,
        [
            Slip(
                "one-leg",
                one,
                "One leg was read. The suction is the difference of the two levels: up and down together.",
            ),
            Slip("mean", key.value / 4, "The mean of both movements was halved. The two movements add up."),
            draw.text(
                Slip(
                    "pascals-as-inches",
                    key.value * 25.4,
                    "Inches were turned into millimetres. The answer is asked in inches of water.",
                ),
                Slip(
                    "mm-as-pascals",
                    head * 1000,
                    "Millimetres of water were taken as pascals. One millimetre is 9.8 Pa.",
                ),
            ),
        ],
    )
    return Problem(
        text=[
            f"In a water U-tube on the vent pipe the leg at the pipe has risen by {up}, the open leg has sunk by {down}."
        ],
        ask=f"What suction is that? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        words=[
            f"{up} and {down} together, as a column of water: {key.printed()}. It is suction. It says nothing of radon."
        ],
    )


@fan(kind="number", level=3, minutes=6, source="network-balance", title="Where a fan and the soil settle")
def operating_point(draw: Draw) -> Problem:
    """A straight fan curve against a straight soil line, pipe loss left out."""
    top = draw.number((1, 2.4, 0.1, "in WC"), (250, 600, 10, "Pa"))
    most = draw.number((100, 200, 10, "cfm"), (50, 95, 5, "L/s"))
    soil = draw.number((20, 80, 5, "cfm"), (4, 16, 1, "L/s"))
    unit = draw.text("in WC", "Pa")
    per = Shown(1.0, "in WC") if draw.units == "us" else Shown(100.0, "Pa")
    conductance = f"{short(soil.value / per.value, 4)} {soil.unit}/{unit}"
    points = [{"flow": f"0 {most.unit}", "pressure": top}, {"flow": most, "pressure": f"0 {unit}"}]
    sheet = {"name": "fan A", "points": points}
    result = solved("fan-point", fan=sheet, pipe_size="6", pipe_length="0 ft", soil_conductance=conductance)
    key = near(
        result["pit_suction"],
        0.05,
        "damp soil air is 2 % heavier than the air of a data sheet; graphs are read to 3 %",
        unit=unit,
    )
    k = soil.si / per.si
    slips = distinct(
        key,
        [
            Slip("shut-off", top.si, "This is the fan with no flow. The soil lets air through, so the fan gives less."),
            Slip(
                "half",
                top.si / 2,
                "Half the greatest pressure belongs to half the flow. Find where the soil's line meets the fan's.",
            ),
            Slip(
                "soil-at-full-flow",
                most.si / k,
                "The soil's line was followed to the fan's full flow. There the fan has no pressure left.",
            ),
        ],
    )
    return Problem(
        text=[
            f"A fan's curve is a straight line from {top} at no flow to no pressure at {most}. Under the slab, {soil} of air "
            f"comes for each {per} of suction. The pipe is short and wide: leave its loss out."
        ],
        ask=f"At what suction do fan and soil settle? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Soil air", "Through the fan"),
        words=["Write the fan's flow at a suction and the soil's flow at the same suction, and set them equal."],
    )


def _settled(draw: Draw) -> tuple[Result, Result, Result]:
    """The system as it was proved, with an opening at the pit, and with the way for air nearly shut."""
    house = _house(draw)
    conductance = float(str(house["soil_conductance"]).split()[0])
    shut = house | {"soil_conductance": f"{conductance / 10:g} cfm/in WC"}
    leak = draw.pick(("4 in2", "5 in2", "6 in2"))
    return solved("fan-point", **house), solved("fan-point", **house, open_area=leak), solved("fan-point", **shut)


PIT = "An opening at the pit, such as the lid: more air flows, and what the pipe loses has risen with it."
PIPE = "An opening in the pipe near the gauge and the fan: a joint or a coupling."
WEAK = "The fan gives less than it did: worn, slowed, or on too low a voltage."
WHY = {
    PIT: "More air comes all the way from the pit. The pipe's loss still shows on the gauge, but does not reach the pit.",
    PIPE: "More air leaves, but no more comes through the pipe from the pit: its loss is about what it was.",
    WEAK: "Less air, and less suction everywhere: the drive is less, not the way.",
}


@fan(kind="what-is-wrong", level=3, minutes=5, source="network-balance", title="What the gauge hides")
def gauge_hides(draw: Draw) -> Problem:
    """Gauge near the fan, a probe in the pit, and the air at the outlet tell three faults apart."""
    house = _house(draw)
    length = float(str(house["pipe_length"]).split()[0])
    area = draw.pick(("4 in2", "5 in2", "6 in2"))
    faults: dict[str, dict[str, object]] = {
        PIT: {"open_area": area},
        PIPE: {"pipe_leak": {"area": area, "distance_from_pit": f"{length - 1:g} ft"}},
        WEAK: {"fan": WORN},
    }
    right = draw.pick(tuple(faults))
    good, now = solved("fan-point", **house), solved("fan-point", **(house | faults[right]))
    gauge = [_reading(draw, result["gauge_suction"]) for result in (good, now)]
    pit = [_reading(draw, result["pit_suction"]) for result in (good, now)]
    fell = [f"{100 * (1 - after.si / before.si):.0f} %" for before, after in (gauge, pit)]
    air = "More" if now["flow"] > good["flow"] else "Less"
    other = "Compare gauge less pit then and now, and the air at the outlet."
    lines = "\n".join(
        f"{'+' if cause == right else '-'} {cause} | {WHY[cause] if cause == right else other}" for cause in faults
    )
    return Problem(
        text=[
            f"The gauge is tapped into the pipe just before the fan. Start-up mark {gauge[0]}, today {gauge[1]}: {fell[0]} less. "
            f"In the pit a probe read {pit[0]} on the first day and reads {pit[1]} today: {fell[1]} less. "
            f"{air} air comes out at the outlet than on the first day."
        ],
        ask="What is wrong here?",
        answer=options(
            draw,
            f"""
            {lines}
            - The pit is flooded. | Then hardly any air would flow, and the gauge would read more, not less.
            """,
        ),
        words=[
            f"Gauge less pit, which the pipe takes on the way: {Shown(round(gauge[0].value - pit[0].value, 2), gauge[0].unit)} then, "
            f"{Shown(round(gauge[1].value - pit[1].value, 2), gauge[1].unit)} now. The gauge alone does not tell how the pit fares.",
            "A change of 20 % or more is a reason to call for service: CCAH-2020, Exhibit 2.",
        ],
    )


@fan(kind="what-is-wrong", level=2, minutes=3, source="ccah-2020", title="The gauge has moved")
def gauge_moved(draw: Draw) -> Problem:
    """From gauge and outlet to the cause."""
    good, leak, shut = _settled(draw)
    lid = "Air comes in at the pit: lid, drain or a crack."
    wet = "The way for soil air is shut: water at the pit or under the slab, or a plug of water in the pipe."
    dead = "The fan has no power, or is dead."
    tube = "The tube of the gauge has slipped off, or its fluid is gone."
    because = {
        lid: "Less suction with more flow means a new way for air.",
        wet: "More suction with little flow means that the air cannot come.",
        dead: "No suction, no sound, no flow: look at switch, breaker and plug first.",
        tube: "The system blows as before; only the gauge does not see it.",
    }
    what, right = draw.pick(
        (
            (f"{_reading(draw, leak['gauge_suction'])}; at the outlet more air comes than on the first day", lid),
            (f"{_reading(draw, shut['gauge_suction'])}; at the outlet hardly any air is felt", wet),
            ("zero; nothing hums, and no air comes at the outlet", dead),
            ("zero; the fan hums, and as much air comes as on the first day", tube),
        )
    )
    lines = "\n".join(
        f"{'+' if cause == right else '-'} {cause} | "
        f"{because[cause] if cause == right else 'Gauge, sound and flow together say otherwise here.'}"
        for cause in (lid, wet, dead, tube)
    )
    return Problem(
        text=[f"The start-up mark is at {_reading(draw, good['gauge_suction'])}. Today the gauge reads {what}."],
        ask="What is wrong here?",
        answer=options(draw, lines),
        words=["Compare with the start-up mark of this house. The gauge shows suction, not radon."],
    )


PLACES = (
    ("in the basement ceiling, below the kitchen", "below living space"),
    ("in a closet of the hall", "in conditioned space"),
    ("in the crawl space under the bedroom", "below living space"),
    ("in the window well of the basement", "below grade and beside a window"),
)


@fan(kind="choice", level=1, minutes=2, source="25-pa-code-240", title="What stops the work: the place of the fan")
def fan_place(draw: Draw) -> Problem:
    """A fan in or below the house."""
    place, what = draw.pick(PLACES)
    return Problem(
        text=[
            f"The owner wants the fan {place}: an outlet is near, and nobody sees it. The house stands in Pennsylvania."
        ],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + The place: a fan {what} can blow soil gas into the house when a joint behind it leaks. | 25 Pa. Code 240.308(c)
              forbids it. Attic, a garage with no rooms above, or outdoors. Other countries differ; check yours.
            - Only the noise; rubber couplings cure it. | They cure the hum. The pressure side still runs inside.
            - Nothing, if every joint is cemented. | Joints and casings open in time, and nobody smells radon.
            - The outlet: it must be on a circuit of its own. | No text that was read asks for that, and it is not the danger.
            """,
        ),
    )


@fan(kind="choice", level=2, minutes=2, source="cec-2013", title="What stops the work: the wires of the fan")
def fan_wiring(draw: Draw) -> Problem:
    """A cord through a wall, a fan opened under power."""
    seen, right, because = draw.pick(
        (
            ("The fan outdoors is to be fed by its cord, through a hole in the wall, from an outlet inside.",
             "The cord: it may not go through a wall or stand in for fixed wiring.",
             "CEC 2013, 400.8. Fixed wiring with a switch beside the fan, done by whom the law lets do it."),
            ("The fan stands still and is hot. It may be ice that holds the wheel; you want to reach in and free it.",
             "The power is still on: take the plug or lock the switch before you reach in.",
             "A fan that cools, or whose ice lets go, starts by itself."),
        )
    )  # fmt: skip
    return Problem(
        text=[seen, draw.pick(("It is raining.", "It is freezing.", "The owner is watching."))],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + {right} | {because}
            - Nothing: a small fan draws too little power to hurt. | The outlet behind it gives as much as a heart can bear,
              and far more.
            - Nothing, if you are quick. | Speed is no guard against a shock or a blade.
            - The start-up mark on the gauge is missing. | It is missed later; nobody is hurt by it now.
            """,
        ),
    )


@fan(kind="choice", level=2, minutes=3, source="network-balance", title="A bigger fan, or the lid?")
def bigger_fan(draw: Draw) -> Problem:
    """A stronger fan on an open lid against sealing it."""
    house = _house(draw)
    area = draw.pick(("5 in2", "6 in2", "8 in2"))
    strong = {"name": "fan B", "points": [
        {"flow": "0 cfm", "pressure": "2.6 in WC"}, {"flow": "120 cfm", "pressure": "1.4 in WC"},
        {"flow": "240 cfm", "pressure": "0 in WC"}]}  # fmt: skip
    as_is = solved("fan-point", **house, open_area=area)
    larger = solved("fan-point", **(house | {"fan": strong}), open_area=area)
    sealed = solved("fan-point", **house)
    now, more, tight = (_reading(draw, result["pit_suction"]) for result in (as_is, larger, sealed))
    unit = draw.text("cfm", "L/s")
    taken, given = (f"{short(from_si(r['house_air'], unit), 2)} {unit}" for r in (as_is, larger))
    return Problem(
        text=[
            f"The pit reads {now}; the lid leaks, and {taken} of house air goes out through it. Reckoned: a stronger fan brings "
            f"the pit to {more} and takes {given} of house air. The same fan with the lid sealed: {tight}."
        ],
        ask="What comes first?",
        answer=options(
            draw,
            f"""
            + Seal the lid, then measure again. | {tight} instead of {more}, and no more house air is taken from the burners.
            - The stronger fan. | It gives less suction than sealing, and draws more air out of the house.
            - The stronger fan, and the lid later. | Then nobody knows which fan the sealed pit needs.
            - Both at once, to be sure. | Sealed, the fan at hand may do. Change one thing and measure.
            """,
        ),
    )
