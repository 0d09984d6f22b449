"""Judgement before the work, on the building, on the route and on the burners."""

from functools import partial

from .draw import Draw
from .problem import Problem, Slip, distinct, near, options, ordered, solved, template

before = partial(template, part="before-you-go")
building = partial(template, part="read-the-building")
route = partial(template, part="choose-the-route", calculator="vent-route")
burners = partial(template, part="air-the-house-burns", calculator="spillage-check")
READ = "figures are read to three digits"


@before(kind="number", level=2, minutes=3, source="sgm-sf-2017", title="The installer's own exposure")
def own_exposure(draw: Draw) -> Problem:
    """Working level months by gas divided by 100."""
    hours = draw.number((3, 12, 0.5, "h"))
    level = draw.number((8, 60, 1, "pCi/L"))
    wlm = hours.value * level.value / 100 / 170 * 12.7296
    key = near(wlm, 0.02, READ, unit="WLM")
    slips = distinct(key, [
        Slip("by-200", wlm / 2, "The gas was divided by 200, as another standard does. The question names the one that divides by 100."),
        Slip("no-170", wlm * 170, "The 170 hours of a working month were forgotten: this is in working level hours."),
        Slip("no-100", wlm * 100, "The gas was taken for working levels. At full equilibrium 100 pCi/L are one."),
    ])  # fmt: skip
    return Problem(
        text=[f"An installer works {hours.value:g} hours in a basement that had {level} before the work. "
              "His standard counts the gas at full equilibrium: divide by 100."],
        ask="What goes into his exposure record? Answer in WLM.", answer=key, slips=slips,
        words=["Hours times pCi/L, divided by 100 and by the 170 hours of a working month."],
    )  # fmt: skip


@before(kind="choice", level=1, minutes=2, source="osha-1926-1153-table-1", title="What stops the work: dust")
def dust_stops(draw: Draw) -> Problem:
    """Dry work on concrete indoors."""
    tool = draw.pick(("a hammer drill without a shroud", "a dry core drill", "a dry saw", "a chisel hammer"))
    vacuum = draw.pick(("a household vacuum", "a broom", "a shop vacuum without a fine filter"))
    return Problem(
        text=[f"A helper brings {tool} and {vacuum} for the hole in the slab. The furnace blower runs."], ask="What stops the work here?",
        answer=options(draw, """
            + Dry work without a shroud and a matching vacuum, or water, is not begun. | Concrete dust carries silica, and the blower spreads it through the house.
            - The hole is too small to bother. | Small holes make fine dust too, and it stays in the air.
            - Nothing, if he wears a mask. | The mask is the last layer. The dust is stopped where it is made.
            - Nothing, if the door is open. | An open door does not take fine dust from the air of a basement.
        """),
    )  # fmt: skip


@building(kind="several", level=1, minutes=3, source="sgm-sf-2017", title="Parts of a house that need a look of their own")
def parts_of_house(draw: Draw) -> Problem:
    """Which parts count as foundation parts of their own."""
    first = draw.pick(("a crawl space under the den", "a slab addition at the back", "a garage slab beside the basement"))
    return Problem(
        text=[f"A split-level house has a basement, {first}, and a porch on posts. One pit stands in the basement."],
        ask="Which of these may feed the house and get a look of their own?",
        answer=options(draw, f"""
            + The basement slab. | It is the largest face to the ground.
            + {first[0].upper()}{first[1:]}. | A part with its own footing is cut off from the field of the basement.
            - The porch on posts. | It touches the ground with posts only and has no room on the soil.
            - The attic. | It does not touch the ground; it matters for the route.
        """, several=True),
    )  # fmt: skip


@building(kind="choice", level=2, minutes=2, source="sgm-sf-2017", title="What stops the work: a smell from the hole")
def smell_stops(draw: Draw) -> Problem:
    """A chemical smell stops the work until it is identified."""
    smell = draw.pick(("fuel oil", "solvent", "pesticide", "sewage"))
    return Problem(
        text=[f"The first test hole is through. The air from it smells of {smell}."], ask="What stops the work here?",
        answer=options(draw, """
            + The smell: the work waits until somebody has found out what it is. | What comes out of the fan would otherwise be spread over the yard, and you breathe it.
            - Nothing: the fan will carry the smell off. | That spreads what nobody has named, and it may burn.
            - Only a mask with a finer filter is missing. | A dust filter stops no vapour, and the source stays unknown.
            - The hole is closed and another is drilled at once. | The same soil lies there; the question stays open.
        """),
    )  # fmt: skip


@route(kind="number", level=2, minutes=3, source="crc-2013", title="A pipe through a joist")
def joist_depth(draw: Draw) -> Problem:
    """The least joist depth for a hole by the third-of-depth rule."""
    hole = draw.number((1.5, 4.75, 0.25, "in"), (40, 120, 5, "mm"))
    key = near(3 * hole.si, 0.01, READ, unit=draw.text("in", "mm"))
    edge = draw.number((2, 2, 1, "in"), (50, 50, 1, "mm"))
    slips = distinct(key, [
        Slip("edges-only", hole.si + 2 * edge.si, "Only the two edge bands were added. The hole may also be at most a third of the depth."),
        Slip("a-sixth", 6 * hole.si, "A sixth is the rule for notches. A hole may be a third."),
        Slip("double", 2 * hole.si, "Half of the depth is too much: the rule says a third."),
    ])  # fmt: skip
    return Problem(
        text=[f"A pipe needs a hole of {hole} through a sawn floor joist. The rule: a hole at most a third of the depth, and at least {edge} "
              "of wood to top and bottom."],
        ask=f"How deep must the joist be by the third-of-depth rule? Answer in {'inches' if draw.units == 'us' else 'mm'}.", answer=key, slips=slips,
        words=["Three times the hole. The edge bands ask for less here."],
    )  # fmt: skip


@route(kind="choice", level=1, minutes=2, source="crc-2013", title="What stops the work: the garage ceiling")
def garage_stops(draw: Draw) -> Problem:
    """A pipe through the garage separation."""
    gap = draw.pick(("common foam", "drywall compound alone", "nothing", "a metal ring against rats"))
    return Problem(
        text=[f"The pipe has gone up through the ceiling of an attached garage with a bedroom above. The gap is closed with {gap}."],
        ask="What stops the work here?",
        answer=options(draw, """
            + The gap in the fire separation is closed the way the local official accepts, before anybody leaves. | A plastic pipe melts; the hole then lets fire and gas of the garage into the house.
            - The pipe must be metal everywhere. | The text that was seen asks for a closed gap; what else is wanted the official says.
            - The bedroom must not be used any more. | The separation is put right, then nothing is changed for the room.
            - Nothing: a garage ceiling has no hour rating. | It has none, and it is a fire separation all the same.
        """),
    )  # fmt: skip


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
