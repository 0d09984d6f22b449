"""Judgement on the outlet: what is measured from what, snow and ice, what stops the work."""

from functools import partial

from .draw import Draw
from .problem import Problem, but_one, options, ordered, several, solved, template

outlet = partial(template, part="where-it-ends", calculator="discharge-clearances")


@outlet(kind="choice", level=1, minutes=2, source="common-practice", title="What stops the work: the pipe is joined")
def joined_pipe(draw: Draw) -> Problem:
    """A vent joined to a flue, a plumbing vent or a duct."""
    where, because = draw.pick(
        (
            ("an old chimney flue that a water heater still uses",
             "Burnt gas with carbon monoxide, or soil gas, can be driven into the house."),
            ("a plumbing vent in the attic",
             "The fan can empty traps and drive soil gas and sewer gas into the house."),
            ("a bath fan's duct", "Soil gas would be carried through the house when the bath fan stops."),
        )
    )  # fmt: skip
    high = draw.number((18, 30, 1, "ft"), (5.5, 9, 0.5, "m"))
    return Problem(
        text=[f"To spare a hole in the roof, somebody has led the vent into {where}. The outlet is {high} up."],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + The joint: the vent shares its way with something else. Part them. | {because}
            - Nothing: the outlet is high enough. | The height is one row. The joint is a danger of its own.
            - Nothing, with a check flap in the joint. | A flap sticks. No text that was read allows it.
            - Only the missing label. | A label does not part what is joined.
            """,
        ),
    )


@outlet(kind="choice", level=1, minutes=1, source="osha-1926-1053", title="What stops the work: the ladder")
def ladder_stops(draw: Draw) -> Problem:
    """Wires and footing before a ladder goes up."""
    seen, right, because = draw.pick(
        (
            ("The service wires come in above the place of the pipe, and the ladder would stand under them.",
             "The wires: if ladder, pipe and tools cannot stay well away, call the utility.",
             "A metal ladder, or a wet one, carries the current down."),
            ("The ladder ends level with the roof edge, and nobody else is on the site.",
             "The ladder is too short: its rails stand 3 ft above the landing, it is tied, and nobody works there alone.",
             "29 CFR 1926.1053(b)(1). Stepping over the end of a ladder is where people fall."),
            ("The roof is metal, and there is frost on it.",
             "The frost: no work on that roof today.", "Nobody holds on a frosted metal roof. The job waits."),
        )
    )  # fmt: skip
    return Problem(
        text=[
            f"The last pipe, {draw.number((6, 10, 1, 'ft'), (2, 3, 0.1, 'm'))} long, shall go up the wall to the roof edge. {seen}"
        ],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + {right} | {because}
            - Nothing: it is only one pipe. | One pipe is enough for one fall or one shock.
            - The owner must hold the ladder. | That makes two people in danger, and cures nothing.
            - The neighbour's window must be measured first. | It is measured before; it is not what can kill now.
            """,
        ),
    )


MEASURED = (
    ("a window that opens, below the outlet", "the top of the part that opens", "its sill", "the middle of the glass"),
    ("a deck beside the outlet", "the surface of the deck", "the lawn under the deck", "the top of its railing"),
    ("a roof that the pipe goes through", "the roof surface where the pipe comes out", "the roof edge", "the ridge"),
)


@outlet(kind="choice", level=1, minutes=2, source="cc-1000-2018", title="Measured from where?")
def measured_from(draw: Draw) -> Problem:
    """From which point a height counts."""
    what, right, first, second = draw.pick(MEASURED)
    return Problem(
        text=[
            f"The height of an outlet is compared with {what}. You have a tape and {draw.pick(('a helper', 'a level'))}."
        ],
        ask="From where is the height measured?",
        answer=options(
            draw,
            f"""
            + From {right}. | What counts is where people and open air are: the nearest part that opens, or the surface.
            - From {first}. | This gives another figure than the row means.
            - From {second}. | No row that was read measures from there.
            - From the ground under the outlet. | That is a row of its own, on the height above the ground.
            """,
        ),
        words=["Distances go by the shortest stretched string, round solid things: CC-1000 2018, 9.1.1 and 9.1.3."],
    )


@outlet(kind="choice", level=2, minutes=2, source="common-practice", title="Snow on the roof")
def snow_on_roof(draw: Draw) -> Problem:
    """An outlet above the roof against the deepest snow."""
    height = draw.number((12, 30, 2, "in"), (30, 76, 2, "cm"))
    snow = draw.number((9, 39, 2, "in"), (21, 99, 2, "cm"))
    discharge = {"height_above_grade": "22 ft", "height_above_roof": height, "direction": "up"}
    result = solved("discharge-clearances", rules=["rms-mf-2018"], discharge=discharge, snow_depth=snow)
    clear = next(check for check in result.work.checks if check.id == "snow").ok
    buried = ("It can be buried: raise it, whatever the least height of the pack is.",
              "Then the exhaust has no way out and the suction is lost.")  # fmt: skip
    free = ("It ends above that snow. Look at sliding snow and ice as well.",
            "Compared is the deepest snow given, not a drift.")  # fmt: skip
    right, wrong = (free, buried) if clear else (buried, free)
    return Problem(
        text=[f"A pipe ends {height} above the roof. People there say that {snow} of snow has lain on roofs."],
        ask="What does the comparison say?",
        answer=options(
            draw,
            f"""
            + {right[0]} | {right[1]}
            - {wrong[0]} | Compare the two heights again.
            - A rain cap keeps the snow out. | A cap ices up and turns the jet down. Pennsylvania's row forbids it.
            - The warm exhaust melts any snow. | It melts a cave, and the cave freezes shut.
            """,
        ),
        words=["This is a habit of the trade, a row of no pack that was read."],
    )


@outlet(kind="choice", level=1, minutes=2, source="sgm-sf-2017", title="A cap against rain")
def rain_cap(draw: Draw) -> Problem:
    """Why an outlet has no rain cap."""
    why = draw.pick(("so that no rain runs in", "so that no birds get in", "because it looks unfinished"))
    return Problem(
        text=[f"The owner wants a cap on the outlet, {why}. Winters are cold."],
        ask="What do you answer?",
        answer=options(
            draw,
            """
            + No cap. Rain runs down the pipe into the soil; where birds are feared, a screen with wide mesh. | A cap ices
              up and throws the exhaust down and to the side. SGM-SF 2017: mesh of at least 1/2 in. (13 mm).
            - A cap, if it is of metal. | Its form matters: it turns the jet and catches ice.
            - A cap, and the outlet lower, where nobody sees it. | Lower is nearer to windows and people.
            - A fine insect screen instead. | A fine screen ices and clogs.
            """,
        ),
    )


@outlet(kind="several", level=2, minutes=2, source="25-pa-code-240", title="Which openings count?")
def openings_count(draw: Draw) -> Problem:
    """What the Pennsylvania row counts as an opening."""
    right = [
        "A window that opens | It is named in 240.308(b)(4).",
        "A door | It is named in 240.308(b)(4).",
        "The neighbour's window | 240.308(b)(6): openings of an adjacent structure.",
        "A fresh-air vent into the hall | Another opening into conditioned space: 240.308(b)(4).",
    ]
    wrong = [
        "The chimney | By 240.308(b)(4) a chimney is no opening.",
        "A glass-block wall | Nothing in it opens. Other rows may still speak of walls.",
        "A downspout | It leads to the ground and not into a room.",
    ]
    right, wrong = draw.shuffled(right)[:3], draw.shuffled(wrong)[:2]
    return Problem(
        text=["An outlet is planned on a house in Pennsylvania. These are near it."],
        ask="To which of them is the distance measured by 25 Pa. Code 240.308?",
        answer=several(draw, right, wrong),
    )


@outlet(kind="order", level=1, minutes=2, source="common-practice", title="Choose the outlet")
def outlet_order(draw: Draw) -> Problem:
    """The order in which an outlet is chosen."""
    steps = but_one(
        draw,
        [
            "Ask which rule is in force here",
            "Walk round the house; look up for wires",
            "Sketch windows, doors, decks and the neighbour's wall with their distances",
            "Compare the planned outlet with each row of the rule",
            "Set up the ladder and fix the pipe",
            "Measure again at the outlet as it is, and write it down",
        ],
        (2, 4, 5),
    )
    return Problem(
        text=[f"A vent shall go up the {draw.pick(('north', 'south', 'west'))} side of a house."],
        ask="Put the work in order.",
        answer=ordered(
            draw,
            steps,
            "The rule comes before the tape: it says what is measured. Wires are looked for from the ground. A hole in the "
            "wrong place cannot be taken back.",
        ),
    )
