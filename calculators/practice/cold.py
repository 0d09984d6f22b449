"""The riser in the cold: water that comes up, frost, insulation."""

from functools import partial

from ..units import from_si, short, si
from .draw import Draw
from .problem import Problem, Slip, distinct, named, near, options, solved, template

outlet = partial(template, part="where-it-ends", calculator="cold-stack")
GALLONS = si("1 ft3") / si("1 gal")  # in a cubic foot
RISKS = {
    "none": "No frost, and the inner wall stays above 2 °C (36 °F) to the end.",
    "low": "No frost, but near it at the end.",
    "some": "Frost in the last three quarters of the way.",
    "high": "Frost from near the beginning: in such weather it closes the outlet slowly.",
}


@outlet(kind="number", level=2, minutes=3, source="magnus", title="Water that comes up the pipe")
def water_up(draw: Draw) -> Problem:
    """Water carried by saturated soil air in a day."""
    flow = draw.number((20, 110, 5, "cfm"), (10, 52, 1, "L/s"))
    soil = draw.number((48, 60, 2, "degF"), (8, 16, 1, "degC"))
    result = solved("cold-stack", flow=flow, pipe_size="4", outdoor_length="0 ft", outdoor_temperature="20 degF", soil_air_temperature=soil)
    held = next(step.value for step in result.work.steps if step.title == "The same by volume") / flow.si  # m3 of water in a m3 of air
    unit = draw.text("gal/day", "L/day")
    key = near(result["carried_per_day"], 0.03, "the water in the air is given to three digits", unit=unit)
    slips = distinct(key, [
        Slip("hour", key.value / 24, "This is one hour. The day has 24."),
        Slip("minute-for-second", key.value * draw.text(1 / 60, 60), draw.text("The flow per minute was taken as per hour.", "The flow is per second already; no minutes come in.")),
        Slip("half", key.value / 2, "Half was taken. Soil air is wet through: count all of it."),
    ])  # fmt: skip
    water = draw.text(f"1,000 cubic feet carry {short(held * 1000 * GALLONS, 3)} gal", f"cubic metre carries {short(held * 1e6, 3)} g")
    return Problem(
        text=[f"{flow} of soil air at {soil}, wet through, go up a riser. Each {water} of water."],
        ask=f"How much water comes up in a day? Answer in {named(unit)}.", answer=key, slips=slips, solution=result,
        steps=("Water in the air that comes up", "Water that comes up", "The same by volume"), words=["In frost a part of it stays in the pipe as ice; the rest must find its way back down."],
    )  # fmt: skip


@outlet(kind="choice", level=2, minutes=4, source="heat-balance", title="Frost in the riser")
def frost_risk(draw: Draw) -> Problem:
    """The risk of frost along an outdoor riser."""
    flow = draw.number((12, 100, 4, "cfm"), (6, 48, 2, "L/s"))
    length = draw.number((8, 28, 2, "ft"), (2.5, 8.5, 0.5, "m"))
    out = draw.number((-10, 34, 4, "degF"), (-24, 1, 3, "degC"))
    result = solved("cold-stack", flow=flow, pipe_size="4", outdoor_length=length, outdoor_temperature=out, wind="7 mph")
    unit = draw.text("°F", "°C")
    wall = f"{round(from_si(result['wall_end_temperature'], draw.text('degF', 'degC')), 1) or 0.0:g}"
    right = result["risk"]
    first = result["first_frost_distance"]
    where = "" if first is None else f", and freezing is reached after {short(from_si(first, length.unit), 2)} {length.unit}"
    seen = f"The calculator: inner wall at the end {wall} {unit}{where}."
    lines = "\n".join(f"{'+' if name == right else '-'} {text} | {'That is what wall and distance say.' if name == right else 'Compare wall and distance again.'}" for name, text in RISKS.items())
    return Problem(
        text=[f"{flow} of soil air go up {length} of bare 4 in. pipe outdoors at {out}, with a light wind. {seen}"], ask="What does that mean?",
        answer=options(draw, lines), solution=result, steps=("Inner wall where the cold begins",),
    )  # fmt: skip


@outlet(kind="choice", level=3, minutes=3, source="heat-balance", title="What helps against frost")
def against_frost(draw: Draw) -> Problem:
    """Compare insulation, a wider pipe and a shorter way by the calculator."""
    flow = draw.number((25, 55, 5, "cfm"), (12, 26, 2, "L/s"))
    out = draw.number((0, 20, 5, "degF"), (-18, -7, 1, "degC"))
    base = {"flow": flow, "outdoor_length": draw.text("20 ft", "6 m"), "outdoor_temperature": out, "wind": "7 mph"}
    ways = {
        "Insulate the riser, R-4 or more, kept from the weather": {"pipe_size": "3", "insulation_thickness": draw.text("1 in", "25 mm")},
        "A wider pipe, 6 in.": {"pipe_size": "6"},
    }
    results = {text: solved("cold-stack", **base, **more) for text, more in ways.items()}
    ends = {text: result["wall_end_temperature"] for text, result in results.items()}
    best = max(ends, key=lambda text: ends[text])
    unit, base_unit = draw.text(("°F", "degF"), ("°C", "degC"))
    lines = "\n".join(f"{'+' if text == best else '-'} {text} | The inner wall ends at {short(from_si(value, base_unit), 3)} {unit}." for text, value in ends.items())
    return Problem(
        text=[f"{flow} go up {base['outdoor_length']} of bare 3 in. pipe outdoors at {out}, with a light wind."], ask="Which of these keeps the wall warmest?",
        answer=options(draw, f"{lines}\n- A cap on the outlet | It holds no heat; it is the first thing to ice."
                       "\n- Nothing: air that moves does not freeze | Its water does, where the wall is below freezing."),
        words=["A wider pipe is slower and loses more heat to the cold. An inside route is warmer than any of these."],
    )  # fmt: skip


@outlet(kind="what-is-wrong", level=2, minutes=3, source="zhou-2021", title="Less air in January", calculator="cold-stack")
def ice_or_water(draw: Draw) -> Problem:
    """Ice, a sag and a dead fan told apart by temperature, gauge and sound."""
    cold, mild = draw.number((-10, 10, 5, "degF"), (-24, -12, 2, "degC")), draw.number((46, 60, 2, "degF"), (8, 15, 1, "degC"))
    asked = {"flow": draw.number((15, 30, 5, "cfm"), (8, 14, 2, "L/s")), "pipe_size": "3", "outdoor_length": draw.text("24 ft", "7 m"), "wind": "7 mph"}
    causes = {
        "Ice grows in the outlet.": (f"For a week it has been {cold}; each day the air from the outlet gets weaker, and near noon it comes back a little", ""),
        "Water stands in a sag of the pipe.": (f"It is {mild} and has rained for days; the pipe gurgles, and the air comes in puffs", "Puffs and gurgling are water, and there is no frost that could make ice."),
        "The fan has stopped.": (f"It is {mild}; no hum is heard, and the gauge is at zero", "No hum and no suction: power first, then the fan."),
    }  # fmt: skip
    right = draw.pick(tuple(causes))
    seen, why = causes[right]
    if not why:
        ice, unit = solved("cold-stack", **asked, outdoor_temperature=cold), draw.text("gal/day", "L/day")
        why = f"By the sum {short(from_si(ice['deposit_per_day'], unit), 2)} {unit} of water stay on the cold wall and grow inward."
    lines = "\n".join(f"{'+' if text == right else '-'} {text} | {why if text == right else 'Weather, sound and gauge say otherwise.'}" for text in causes)
    return Problem(
        text=[f"A bare 3 in. riser of {asked['outdoor_length']} on the outside wall. {seen}."], ask="What is wrong here?",
        answer=options(draw, f"{lines}\n- The radon has been used up. | The soil makes it anew all the time. Look at the air's way."),
        words=["No ladder and no roof in ice. Switch the fan off before you knock on a pipe."],
    )  # fmt: skip


