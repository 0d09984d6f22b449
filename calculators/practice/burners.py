"""The air that the house burns: what fans add, limits, the set-up of the test, what stops the work."""

from functools import partial

from ..units import short
from .draw import Draw, Shown
from .problem import Number, Problem, Slip, but_one, choice, distinct, near, options, ordered, several, solved, template

burners = partial(template, part="air-the-house-burns", calculator="spillage-check")
READ = "figures are read to three digits"
KINDS = {
    "natural-draft-water-heater": "gas water heater alone on its vent",
    "shared-vent": "water heater that shares its vent with the furnace",
    "natural-draft-furnace": "natural-draft furnace",
    "induced-draft": "induced-draft furnace",
    "power-vented": "power-vented water heater",
    "sealed": "sealed-combustion boiler",
}


@burners(kind="number", level=2, minutes=3, source="mass-balance", title="Stack and fans in one balance")
def balance(draw: Draw) -> Problem:
    """What exhausts add to the depressurization at an appliance, solved in one balance."""
    house = draw.number((900, 1800, 100, "cfm"), (400, 900, 50, "L/s"))
    fan = draw.number((150, 300, 10, "cfm"), (70, 140, 5, "L/s"))
    outdoors = draw.number((0, 30, 5, "degF"), (-18, 0, 2, "degC"))
    result = solved("spillage-check", house={"leakage_at_50Pa": str(house)}, outdoor_temperature=outdoors, exhausts=[{"name": "hood", "flow": str(fan)}],
                    appliances=[{"name": "water heater", "kind": "natural-draft-water-heater"}])
    key = near(result["added_depressurization"], 0.03, "one balance of thirteen leaks, read to two digits", unit="Pa", least=0.02)
    alone = 50 * (fan.si / house.si) ** (1 / 0.65)
    slips = distinct(key, [
        Slip("fans-alone", alone, "This is what the fans would do to a house without any stack. In a cold house both work on the same leaks: one balance, never a sum."),
        Slip("total", result["depressurization_at_slab"], "This is the whole depressurization. The limit is compared with what is added."),
        Slip("stack-alone", result["base_at_slab"], "This is the stack alone, with every fan off. It is the base from which the added part is counted."),
    ])  # fmt: skip
    return Problem(
        text=[f"A house leaks {house} at 50 Pa (exponent 0.65). It is {outdoors} outside and 70 °F (21 °C) inside. A range hood takes {fan} out; every other fan is off."],
        ask="What does the hood add to the depressurization at the slab, by one balance of leaks? Answer in Pa.", answer=key, slips=slips, solution=result,
        steps=("none",), words=["The calculator solves the balance; use it. Adding stack and fan apart gives too little or too much."],
    )  # fmt: skip


@burners(kind="order", level=2, minutes=3, source="henschel-1997", title="Worst case, then fire")
def worst_case_order(draw: Draw) -> Problem:
    """The order of a spillage test."""
    steps = ["Look at the vent: size, slope, gaps, rust", "Measure carbon monoxide in the room before anything is lit", "Close the house, all burners off, and read the base pressure",
             "Dryer and every exhaust fan on, the radon fan too", "Set each inner door the way that makes the room most negative", "Fire the smallest burner and watch its draft hood"]  # fmt: skip
    gone = draw.pick((0, 4, None))
    return Problem(
        text=["A natural-draft water heater and a furnace share the basement with the new system."], ask="Put the test in order.",
        answer=ordered(draw, [s for i, s in enumerate(steps) if i != gone],
                       "Nothing is lit before the air is known and the worst case is set. The smallest burner has the weakest draft and goes first."),
    )  # fmt: skip


@burners(kind="choice", level=1, minutes=2, source="sws-2-0105", title="What stops the work: carbon monoxide")
def monoxide_stops(draw: Draw) -> Problem:
    """A reading above 35 ppm in the room air."""
    reading = draw.whole(38, 90)
    return Problem(
        text=[f"In the middle of a spillage test your meter shows {reading} ppm of carbon monoxide in the room air. The alarm in the hall is silent."],
        ask="What stops the work here?",
        answer=options(draw, """
            + The reading: burner off, air in, people out. | Above 35 ppm in room air the test ends. An alarm may stay silent for hours below 70 ppm.
            - Nothing yet: the alarm has not sounded. | An alarm is made to stay silent at such levels for a long time. Trust the meter.
            - The test is finished first, then the windows are opened. | The minutes that it takes are breathed by everybody in the house.
            - The radon fan is set to a higher speed. | A stronger fan draws more air from the house and makes spillage worse.
        """),
    )  # fmt: skip
def _leaky(draw: Draw) -> Shown:
    return draw.number((900, 2000, 100, "cfm"), (400, 950, 50, "L/s"))


@burners(kind="number", level=2, minutes=3, source="ashrae-hof-2021-16", title="Fans on a still, mild day")
def mild_day(draw: Draw) -> Problem:
    """Depressurization by exhaust alone, from the leakage at 50 Pa."""
    house, fan = _leaky(draw), draw.number((100, 300, 10, "cfm"), (50, 140, 5, "L/s"))
    result = solved("spillage-check", house={"leakage_at_50Pa": house}, outdoor_temperature="70 degF", exhausts=[{"name": "dryer and fans", "flow": fan}])
    key = near(result["added_depressurization"], 0.04, "the exponent is known to two digits", unit="Pa", least=0.02)
    share = fan.si / house.si
    slips = distinct(key, [
        Slip("linear", 50 * share, "Pressure does not go with the flow itself. Flow goes with the pressure to the power 0.65."),
        Slip("upside-down", 50 * share**0.65, "The exponent stands the wrong way round: from flow to pressure it is 1/0.65."),
        Slip("square", 50 * share**2, "The square belongs to a sharp-edged hole. The leaks of a house have the exponent 0.65."),
    ])  # fmt: skip
    return Problem(
        text=[f"A house leaks {house} at 50 Pa; its leakage goes with the pressure to the power 0.65. As warm outside as inside, no wind. Dryer and fans take out {fan}."],
        ask="By how much is the house then below outdoors? Answer in Pa.", answer=key, slips=slips, solution=result,
        steps=("House below outdoors at the slab, everything on",), words=["50 Pa times the share of the flow to the power 1/0.65. In frost the stack joins in, in one balance."],
    )  # fmt: skip


@burners(kind="number", level=1, minutes=2, source="definition", title="What the fans add")
def added(draw: Draw) -> Problem:
    """Worst case less base."""
    base = Shown(-round(1 + 0.1 * draw.whole(0, 50), 1), "Pa")
    worst = Shown(round(base.value - 1.2 - 0.1 * draw.whole(0, 40), 1), "Pa")
    if abs(worst.value - 2 * base.value) < 0.05:  # else the key would be the base reading
        worst = Shown(round(worst.value - 0.6, 1), "Pa")
    key = Number(-worst.value + base.value, "Pa", 0.1, "a pressure gauge is read to 0.1 Pa")
    slips = distinct(key, [
        Slip("worst-alone", -worst.value, "This is the whole depressurization. The limit is compared with what the fans add."),
        Slip("sum", -worst.value - base.value, "The two readings were added. The base is part of the worst case already."),
        Slip("base", -base.value, "This is the base reading: the stack with every fan off."),
        Slip("mean", -(worst.value + base.value) / 2, "A mean says nothing here. Take the base off."),
    ])  # fmt: skip
    return Problem(
        text=[f"The gauge reads the appliance room against outdoors: {base} with every fan off, {worst} with dryer, hood, bath fans and radon fan on."],
        ask="How much do the fans add? Answer in Pa, without a sign.", answer=key, slips=slips,
        words=["Worst case less base. Compare that with the limit of each appliance, then fire and look."],
    )  # fmt: skip


@burners(kind="choice", level=2, minutes=4, source="depressurization-limits", title="Which burner is nearest to its limit?")
def nearest_limit(draw: Draw) -> Problem:
    """The least margin of three appliances."""
    house, fan = _leaky(draw), draw.number((100, 300, 10, "cfm"), (50, 140, 5, "L/s"))
    first, *rest = draw.shuffled([["natural-draft-water-heater", "shared-vent"], ["natural-draft-furnace"], ["power-vented"], ["sealed"]])[:3]
    kinds = [draw.pick(group) for group in (first, *rest)]
    result = solved("spillage-check", house={"leakage_at_50Pa": house}, outdoor_temperature=draw.number((0, 40, 5, "degF"), (-18, 4, 2, "degC")),
                    exhausts=[{"name": "hood", "flow": fan}], appliances=[{"kind": kind} for kind in kinds])  # fmt: skip
    rows = {row["kind"]: row for row in result["appliances"]}
    least = min(kinds, key=lambda kind: rows[kind]["margin"])
    lines = []
    for kind in kinds:
        row = rows[kind]
        left = f"{short(abs(row['margin']), 2)} Pa {'left' if row['margin'] >= 0 else 'over'}"
        lines.append(f"{'+' if kind == least else '-'} The {KINDS[kind]} | Limit {short(row['limit'], 2)} Pa, added {short(row['added'], 3)} Pa: {left}.")
    limits = ", ".join(f"{KINDS[kind]} {short(rows[kind]['limit'], 2)} Pa" for kind in kinds)
    return Problem(
        text=[f"By the balance the fans add {short(result['added_depressurization'], 3)} Pa in the worst case. One programme's table, seen restated: {limits}."],
        ask="Which one has the least left of its limit?",
        answer=options(draw, "\n".join([*lines, "- None can be told without wind. | Wind is part of the test day. The table compares what the fans add."])),
        solution=result, steps=("Added by all fans",), words=["No sum decides whether a burner spills. The test is made in this house, before and after."],
    )  # fmt: skip


@burners(kind="several", level=1, minutes=2, source="worst-case-sheet-2010", title="What runs in the worst case?")
def what_runs(draw: Draw) -> Problem:
    """Set-up of the worst case, with the system built."""
    right = draw.shuffled([
        "The clothes dryer, lint filter cleaned | It blows out more than most bath fans.",
        "The range hood on high | Every exhaust fan runs on its highest speed.",
        "The radon fan at its final speed, lid closed | Part of what it moves is house air. The second test counts it.",
        "Each bath fan | All that blows out counts together.",
    ])[:3]  # fmt: skip
    wrong = draw.shuffled([
        "The whole-house fan for summer nights | It is left off: nobody runs it with closed windows. It needs a look of its own.",
        "The supply fan of a balanced unit alone | It blows in and makes the worst case milder.",
        "The wood stove | No fire is lit until the worst case is set; a wood stove stops the work until a specialist has looked.",
    ])[:2]  # fmt: skip
    day = draw.number((15, 50, 5, "degF"), (-9, 10, 1, "degC"))
    return Problem(
        text=[f"Outdoors {day}. The system is built; doors and windows to the outside are shut. Now the fans are set."], ask="What is switched on?",
        answer=several(draw, right, wrong), words=["Then the inner doors, then the furnace blower: each stays the way that makes the room most negative."],
    )  # fmt: skip


@burners(kind="what-is-wrong", level=3, minutes=4, source="astm-e1998", title="The heater spills")
def why_it_spills(draw: Draw) -> Problem:
    """Gauge and order of the tests tell the system's share from the vent's own fault."""
    house, fan = _leaky(draw), draw.number((80, 160, 10, "cfm"), (40, 80, 5, "L/s"))
    system = draw.number((40, 90, 5, "cfm"), (20, 45, 5, "L/s"))
    asked = {"house": {"leakage_at_50Pa": house}, "outdoor_temperature": "30 degF", "exhausts": [{"name": "dryer", "flow": fan}]}
    with_it = solved("spillage-check", **asked, system_house_air=system)
    small = solved("spillage-check", **asked, system_house_air="3 cfm")
    causes = {
        "The radon system takes much house air: an open lid, slot or drain.": (
            with_it, "It drew before the system ran; with the radon fan on it spills", "The radon fan's own share is large. Close the ways for house air, or a smaller fan; then the whole test again."),
        "The vent itself is at fault: it spilled before the radon fan ran at all.": (
            small, "It spilled in the first test, with the radon fan off, and with all fans off and doors open as well", "With nothing pulling against it a sound vent draws. That goes to the licensed trade, in writing, before your work."),
        "Dryer and house together are too much for this vent, without the radon system.": (
            small, "It spilled in the first test while the dryer ran, the radon fan off; with the dryer off it draws", "The dryer's air is missing. Make-up air by design, or an appliance that brings its own; the radon fan comes after that."),
    }  # fmt: skip
    right = draw.pick(tuple(causes))
    result, seen, why = causes[right]
    share, whole = short(result["added_by_system"], 2), short(result["added_depressurization"], 2)
    lines = "\n".join(f"{'+' if text == right else '-'} {text} | {why if text == right else 'The order of the tests and the two figures say otherwise.'}" for text in causes)
    return Problem(
        text=[f"A water heater with a draft hood. {seen}. The gauge: all fans add {whole} Pa, of it the radon fan {share} Pa."],
        ask="What is wrong here?", answer=options(draw, f"{lines}\n- Nothing: every heater spills in a test. | Spilling that does not stop puts burnt gas into the room."),
        words=["Whatever the cause: burner off and out of use first, people warned, then the search."],
    )  # fmt: skip


@burners(kind="choice", level=1, minutes=1, source="common-practice", title="What stops the work: an open fire")
def fire_stops(draw: Draw) -> Problem:
    """Solid fuel in the house."""
    fire = draw.pick(("A wood stove stands in the living room", "An open fireplace is lit on most evenings", "A pellet stove without its own air pipe heats the den"))
    return Problem(
        text=[f"{fire}. {draw.pick(('The owner wants the fan started today.', 'The house is tight since new windows were set.', 'The radon level is high.'))}"],
        ask="What stops the work here?",
        answer=options(draw, """
            + The fire: the radon fan stays off until a specialist has looked. | No limit was seen for solid fuel. A dying fire makes most carbon monoxide when its chimney is weakest.
            - Nothing, if the damper is half shut. | A shut damper keeps the gas in.
            - Nothing: wood makes no carbon monoxide. | Embers make a great deal of it.
            - Only the missing rain cap of the chimney. | Rain is not what comes back into the room.
        """),
    )  # fmt: skip


BANDS = (
    (0, 9, "Usual in a house with burners: write it down and go on.", "Trade lists call 0 to 9 ppm usual."),
    (10, 35, "Tell the occupants, look for the source, go on only with the meter running.", "10 to 35 ppm: told to the people there."),
    (36, 99, "Stop: burner off, air in, no appliance runs until the cause is found.", "Above 35 ppm the test ends. Below 70 ppm an alarm may stay silent for hours."),
    (100, 200, "Everybody out, call from outside.", "100 ppm and over: evacuate. The cause is found by others."),
)


@burners(kind="choice", level=1, minutes=2, source="sws-2-0105", title="The meter in the room")
def meter_reading(draw: Draw) -> Problem:
    """What follows from a carbon monoxide reading."""
    low, high, right, why = draw.pick(BANDS)
    reading = draw.whole(low + (low > 0) * 2, high - 2)
    others = [row for row in BANDS if row[0] != low]
    return Problem(
        text=[f"Before anything is lit your meter shows {reading} ppm of carbon monoxide in the middle of the basement. The alarm on the wall is silent."],
        ask="What follows?", answer=choice(draw, (right, why), *((text, f"That goes with {a} to {b} ppm.") for a, b, text, _ in others)),
        words=["The steps between are lists of the trade; 35 ppm as the end of the test is published."],
    )  # fmt: skip


@burners(kind="order", level=2, minutes=3, source="common-practice", title="It spills: what now?")
def fails_order(draw: Draw) -> Problem:
    """What is done when the test fails."""
    steps = but_one(draw, [
        "Appliance off, windows open, people out if the meter is high",
        "Radon fan off, if the spilling came with it",
        "Tell owner and occupants, in writing",
        "Vent and appliance to the licensed trade",
        "Close what lets house air into the system",
        "Test again in the worst case",
    ], (1, 3, 4))  # fmt: skip
    return Problem(
        text=[f"Worst case set, radon fan on: after {draw.whole(6, 12)} minutes the draft hood of the water heater still blows smoke into the room."],
        ask="Put what follows in order.",
        answer=ordered(draw, steps, "People first, then paper, then repair. Radon is a risk of years, carbon monoxide one of minutes. Nothing runs again before the new test."),
    )  # fmt: skip


@burners(kind="number", level=3, minutes=4, source="mass-balance", title="The radon fan's own share")
def system_share(draw: Draw) -> Problem:
    """What the system adds on top of everything else."""
    house, fan = _leaky(draw), draw.number((150, 300, 10, "cfm"), (70, 140, 5, "L/s"))
    system = draw.number((15, 60, 5, "cfm"), (8, 28, 2, "L/s"))
    asked = {"house": {"leakage_at_50Pa": house}, "outdoor_temperature": "70 degF"}
    result = solved("spillage-check", **asked, exhausts=[{"name": "dryer and hood", "flow": fan}], system_house_air=system)
    without, alone = (solved("spillage-check", **asked, exhausts=[{"name": "x", "flow": flow}])["added_depressurization"] for flow in (fan, system))
    key = near(result["added_by_system"], 0.06, "a difference of two figures of three digits", unit="Pa", least=0.02)
    slips = distinct(key, [
        Slip("alone", alone, "This is what it would do in a house with every other fan off. On top of others the same air adds more."),
        Slip("total", result["added_depressurization"], "This is everything together. Take off what the others do without it."),
        Slip("others", without, "These are the others alone."),
    ])  # fmt: skip
    return Problem(
        text=[f"A house leaks {house} at 50 Pa (exponent 0.65), as warm outside as inside. Dryer and hood take out {fan}; the radon fan takes {system} of house air besides."],
        ask="How much does the radon fan add on top of dryer and hood? Answer in Pa.", answer=key, slips=slips, solution=result,
        steps=("House below outdoors at the slab, all fans but the radon system", "House below outdoors at the slab, everything on", "Of that, added by the radon system"),
        words=["50 Pa × (share of all)^(1/0.65), less 50 Pa × (share of the others)^(1/0.65)."],
    )  # fmt: skip
