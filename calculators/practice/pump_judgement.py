"""Judgement on the pump: where the water may go, power and alarm, the float, what stops the work."""

from functools import partial

from .draw import Draw, Shown
from .problem import Problem, options, several, solved, template

pump = partial(template, part="water-and-pump", calculator="pump-sizing")


@pump(kind="several", level=1, minutes=2, source="cpc-2013", title="Where the pumped water may go")
def discharge_rules(draw: Draw) -> Problem:
    """Places for the discharge of a sump pump."""
    right = [
        "The town's storm drain, where the town agrees | CPC 2013, 1101.5.1. With a backwater valve where it can back up.",
        "The yard, downhill from the house and well away from the neighbour | Towns give distances, such as 5 or 10 ft "
        "from the lot line. Check what is in force where you work.",
        "A splash block beside the house, where no spring runs all year and the ground falls away | CPC 2013, 1101.5.3: "
        "the block at least 24 in. long.",
    ]
    wrong = [
        "The floor drain that leads to the sanitary sewer | Ground water does not go into a sanitary sewer; the codes read "
        "all forbid it.",
        "The laundry sink, for the winter only | That is the sanitary sewer too, in winter as well.",
        "The sidewalk, so that it runs to the street | It freezes there, and people fall.",
    ]
    right, wrong = draw.shuffled(right)[:2], draw.shuffled(wrong)[:2]
    return Problem(
        text=[f"A pump must get rid of ground water. {draw.pick(('It freezes hard in winter.', 'The soil is clay.'))}"],
        ask="Which of these places may come into question?",
        answer=several(draw, right, wrong),
    )


SHOCK = (
    ("Water stands on the basement floor, and the pump's plug hangs just above it.",
     "Have the power taken off from outside the wet room before anybody goes to that plug.",
     "Wet feet and a wet plug can kill."),
    ("The pump hums under water and does not turn. You want to feel whether a stone blocks it.",
     "The pump is still plugged in. Unplug it and prove it dead, then put a hand in.",
     "It can start, or shock, while your hand is at it."),
    ("The pump's cord has been cut, and joined again with tape below the lid.",
     "A joint under water: leave it off, and have pump and cord replaced.",
     "Tape is no seal against water. The whole pit may be live."),
)  # fmt: skip


@pump(kind="choice", level=1, minutes=1, source="common-practice", title="What stops the work: power at the pit")
def pump_stops(draw: Draw) -> Problem:
    """Electricity near water."""
    seen, right, because = draw.pick(SHOCK)
    return Problem(
        text=[seen, draw.pick(("The owner is in a hurry.", "It is the last job of the day.", "Rain is forecast."))],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + {right} | {because}
            - Nothing, with rubber gloves. | Gloves have holes. The power is taken off first.
            - Nothing: the outlet has a GFCI. | A GFCI may be old, wrong or missing. It is the last guard, not the first.
            - The radon fan is off. | That keeps burners from spilling. It does nothing against a shock.
            """,
        ),
    )


@pump(kind="choice", level=2, minutes=2, source="cec-2013", title="A pump that stopped in silence")
def alarm_circuit(draw: Draw) -> Problem:
    """Where the high-water alarm gets its power."""
    room = draw.pick(("an unfinished basement", "a finished basement", "a crawl space"))
    return Problem(
        text=[f"The pump in {room} hangs on a GFCI outlet. Under the sealed lid nobody sees the water."],
        ask="How is a high-water alarm connected?",
        answer=options(
            draw,
            """
            + To another circuit than the pump, or to its own battery, with its float above the pump's. | When the pump's
              outlet trips, the alarm still sounds.
            - To the same outlet, so that both are tested together. | When that outlet trips, pump and alarm are silent
              together.
            - Not at all: the fan's gauge shows high water. | The gauge changes late, and for other reasons too.
            - To the fan's switch, with a lamp that shows that the fan runs. | The fan says nothing about the pump.
            """,
        ),
        words=[
            "The 2013 California code (base of 2011) asks for GFCI in unfinished basements; newer ones in all. Check yours."
        ],
    )


@pump(kind="choice", level=2, minutes=3, source="geometry", title="The float and the tile")
def float_and_tile(draw: Draw) -> Problem:
    """Pump-on level against the tile's invert."""
    invert = draw.number((14, 20, 1, "in"), (350, 500, 10, "mm"))
    above = draw.pick((True, False))
    step = draw.number((2, 4, 1, "in"), (50, 100, 10, "mm"))
    on = Shown(round(invert.value + (step.value if above else -step.value), 9), invert.unit)
    off = draw.text("6 in", "150 mm")
    result = solved(
        "pump-sizing", pit_diameter="18 in", inflow="8 gpm", static_lift="9 ft", pipe_size="1-1/2", pipe_length="30 ft",
        pump_on_height=on, pump_off_height=off, tile_invert_height=invert,
    )  # fmt: skip
    check = next(check for check in result.work.checks if check.id == "float-below-tile")
    drowned = ("The tile fills before the pump starts: no air gets through it, and the suction stays in the pit.",
               "Water above the invert stands in the tile.")  # fmt: skip
    free = ("The pump starts before water stands in the tile: the air way stays open.", "Pump on is below the invert.")
    right, wrong = (free, drowned) if check.ok else (drowned, free)
    return Problem(
        text=[
            f"Above the pit floor: pump off at {off}, pump on at {on}, the lowest point of the tile's mouth at {invert}. "
            "The fan draws on the pit, and through it on the tile."
        ],
        ask="What follows?",
        answer=options(
            draw,
            f"""
            + {right[0]} | {right[1]}
            - {wrong[0]} | Compare pump on with the lowest point of the tile's mouth.
            - Only pump off counts: there the water stands most of the time. | The water rises to pump on in every cycle.
            - Nothing: air goes through water. | A fan of a few inches of water cannot draw air through a filled pipe.
            """,
        ),
        drawing=("sump-section", result),
    )


@pump(kind="choice", level=2, minutes=2, source="ndsu-county-winter", title="The line outdoors in winter")
def line_in_winter(draw: Draw) -> Problem:
    """Frost at the outlet of the pump's line."""
    length = draw.number((10, 40, 5, "ft"), (3, 12, 1, "m"))
    return Problem(
        text=[f"Outdoors the pump's line runs {length} over the lawn in a thin hose. Nights are far below freezing."],
        ask="What is done about it?",
        answer=options(
            draw,
            """
            + Rigid pipe with steady fall, laid so that it empties, with an open break near the wall where water gets out
              if the far end is ice. | Water that stands freezes. The break keeps the pump from working against a plug.
            - A longer hose, so that the water ends farther away. | More hose holds more water, and freezes as well.
            - Salt in the pit. | It spoils pump and lawn, and the hose freezes all the same.
            - The pump is switched off until spring. | Then the pit fills, the tile fills, and the suction is lost.
            """,
        ),
    )
