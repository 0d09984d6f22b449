"""Pipe by the length, growth with heat, energy of the fan and of the house air that it takes."""

from functools import partial

from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Problem, Slip, choice, distinct, named, near, solved, template

pipe = partial(template, part="pipe-and-fan")
READ = "figures are read to three digits"
DAYS = 24 * 365


@pipe(kind="number", level=2, minutes=3, source="rms-lb-2018", title="Count the hangers", calculator="pipe-takeoff")
def hangers(draw: Draw) -> Problem:
    """Hangers of a level and an upright run, each rounded up."""
    level, up = draw.number((6, 78, 1, "ft"), (2, 24, 0.1, "m")), draw.number((6, 38, 1, "ft"), (2, 12, 0.1, "m"))
    flat, tall = draw.text((Shown(4, "ft"), Shown(10, "ft")), (Shown(1.2, "m"), Shown(3, "m")))
    result = solved("pipe-takeoff", pipe_size="3", horizontal_spacing=flat, vertical_spacing=tall,
                    runs=[{"length": level, "orientation": "horizontal"}, {"length": up, "orientation": "vertical"}])  # fmt: skip
    key = near(result["hangers"], 0, "hangers are counted", unit="1", least=0.4)
    slips = distinct(key, [
        Slip("upright-as-level", -(-level.si // flat.si) - (-up.si // flat.si), "The spacing of level pipe was used for the upright run, too."),
        Slip("level-as-upright", -(-level.si // tall.si) - (-up.si // tall.si), "The spacing of upright pipe was used for the level run: it would sag."),
        Slip("level-only", -(-level.si // flat.si), "The upright run was left out."),
        Slip("rounded-down", level.si // flat.si + up.si // tall.si, "It was rounded down. A part of a space needs its hanger as well."),
        Slip("one-more", key.value + 1, "One was added at the end. The count per run is its length over the spacing, rounded up."),
    ])  # fmt: skip
    return Problem(
        text=[f"A vent has {level} of level and {up} of upright pipe. Supports at most {flat} apart where it is level and {tall} where it is upright; each run is rounded up by itself."],
        ask="How many hangers are that? Answer with a whole number.", answer=key, slips=slips, solution=result,
        steps=("Spaces on run 1; rounded up, its hangers", "Spaces on run 2; rounded up, its hangers"),
    )  # fmt: skip


@pipe(kind="number", level=2, minutes=3, source="plastic-expansion-table", title="How much the riser moves", calculator="pipe-takeoff")
def growth(draw: Draw) -> Problem:
    """Thermal movement of the longest run."""
    run = draw.number((14, 38, 1, "ft"), (4, 12, 0.5, "m"))
    swing = draw.number((60, 130, 10, "degF"), (35, 70, 5, "degC"))
    result = solved("pipe-takeoff", pipe_size="4", temperature_swing=swing, runs=[{"length": run, "orientation": "vertical", "zone": "outdoors"}])
    key = near(result["expansion"], 0.03, READ, unit=draw.text("in", "mm"))
    slips = distinct(key, [
        Slip("feet-as-inches", key.value * draw.text(1 / 12, 1 / 1000), draw.text("The length was put in as feet and the answer taken for inches.", "The length was put in as metres and the answer taken for millimetres.")),
        Slip("ten-degrees", key.value * 10 / swing.value, "This is the movement for ten degrees. The swing is larger."),
        Slip("whole-table", key.value * si("100 ft") / run.si if draw.units == "us" else key.value * 10 / run.si, draw.text("This is the movement of 100 ft, as the table has it.", "This is the movement of 10 m, as the table has it.")),
    ])  # fmt: skip
    rate = draw.text("0.36 in. for 100 ft and 10 °F", "5.4 mm for 10 m and 10 °C")
    return Problem(
        text=[f"A straight riser of PVC is {run} long. Between winter night and summer sun its temperature swings by {swing}. PVC moves by {rate}."],
        ask=f"By how much does its end move? Answer in {named(key.unit)}.", answer=key, slips=slips, solution=result, steps=("The longest run moves by",),
        words=["Straps guide the pipe and let it move. A pipe clamped at both ends breaks its joints."],
    )  # fmt: skip


@pipe(kind="number", level=1, minutes=2, source="definition", title="What the fan draws in a year", calculator="running-cost")
def fan_energy(draw: Draw) -> Problem:
    """Electricity of a fan in a year."""
    power = Shown(draw.whole(14, 90), "W")
    result = solved("running-cost", fan_power=power, house_air_flow="0 cfm", heating_degree_days="0 degF*day")
    key = near(result["fan_energy"], 0.02, READ, unit="kWh")
    slips = distinct(key, [
        Slip("half-days", key.value / 2, "Twelve hours a day were taken. The fan never stops."),
        Slip("thousand", key.value * 1000, "These are watt-hours. A kilowatt-hour is a thousand of them."),
        Slip("heating-season", key.value * 180 / 365, "Only the heating season was counted. The fan runs in summer as well."),
        Slip("one-day", key.value / 365, "This is one day."),
    ])  # fmt: skip
    return Problem(
        text=[f"By its data sheet a fan takes {power} at its working point. It runs day and night, all year."], ask="How much electricity is that in a year of 365 days? Answer in kWh.",
        answer=key, slips=slips, solution=result, steps=("Electricity of the fan in a year",), words=["Watts times 8,760 hours, divided by 1,000."],
    )  # fmt: skip


@pipe(kind="number", level=3, minutes=4, source="heat-balance", title="Heat that leaves with the house air", calculator="running-cost")
def air_heat(draw: Draw) -> Problem:
    """Heat in the house air that a system takes, by degree days."""
    flow = draw.number((30, 110, 5, "cfm"), (14, 52, 2, "L/s"))
    share = Shown(draw.whole(4, 14) * 5, "%")
    days = draw.number((3000, 8000, 250, "degF*day"), (1700, 4500, 100, "degC*day"))
    result = solved("running-cost", fan_power="50 W", flow=flow, house_air_share=share, heating_degree_days=days)
    unit = draw.text("MMBtu", "kWh")
    key = near(result["heat_energy"], 0.03, "density and heat of air are given rounded", unit=unit)
    part = share.value / 100
    slips = distinct(key, [
        Slip("whole-flow", key.value / part, "The whole flow was taken. Only the house air in it had been heated."),
        Slip("soil-share", key.value * (1 - part) / part, "The soil air was taken. It is the house air that carries heat away."),
        Slip("one-hour", key.value / 24, "A degree day was taken for a degree hour: it has 24 of them."),
        Slip("furnace", key.value / 0.8, "The furnace was counted in. The question asks for the heat in the air, not for the fuel."),
    ])  # fmt: skip
    heat = draw.text("1.08 Btu in each hour for each cfm and °F", "1.21 W for each L/s and °C")
    return Problem(
        text=[f"A system moves {flow}; {share} of it is house air. The place has {days.value:,.0f} {draw.text('°F', '°C')} days of heating in a year. Air carries {heat}."],
        ask=f"How much heat goes out with the house air in a year? Answer in {draw.text('MMBtu (million Btu)', 'kWh')}.", answer=key, slips=slips, solution=result,
        steps=("House air taken", "Heat in the house air in a year"), words=["House air × heat × degree days × 24 hours. Save on the leaks, never by the fan's switch."],
    )  # fmt: skip


@pipe(kind="choice", level=2, minutes=3, source="heat-balance", title="Where the money goes", calculator="running-cost")
def larger_cost(draw: Draw) -> Problem:
    """The fan's electricity against the fuel for the house air, both as energy."""
    power, air = Shown(draw.whole(5, 16) * 5, "W"), draw.number((6, 50, 2, "cfm"), (3, 24, 1, "L/s"))
    days = draw.number((3000, 8000, 500, "degF*day"), (1700, 4500, 200, "degC*day"))
    result = solved("running-cost", fan_power=power, house_air_flow=air, heating_degree_days=days)
    fan, fuel = (from_si(result[name], "kWh") for name in ("fan_energy", "fuel_energy"))
    rows = [("The electricity of the fan", fan), ("The fuel that heats the house air", fuel)]
    lead = max(rows, key=lambda row: row[1])
    other = min(rows, key=lambda row: row[1])
    words = f"Fan {short(fan, 3)} kWh, fuel {short(fuel, 3)} kWh."
    return Problem(
        text=[f"A fan of {power} takes {air} of house air along with the soil air, in a place with {days.value:,.0f} {draw.text('°F', '°C')} days of heating. The furnace turns 80 % of its fuel into heat."],
        ask="Which takes more energy in a year?",
        answer=choice(draw, (lead[0], words), (other[0], words), ("Both the same, within a tenth", words), ("Neither: soil air costs nothing, and house air is soil air", "House air was heated and is lost. Soil air costs the fan only.")),
        solution=result, steps=("Electricity of the fan in a year", "Fuel for that heat"),
    )  # fmt: skip
