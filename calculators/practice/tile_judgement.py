"""Judgement on the footing drain and the hole: locating, what stops the work, dust, the side of the drain."""

from functools import partial

from .draw import Draw
from .problem import Problem, but_one, options, ordered, template

tile = partial(template, part="under-the-slab", calculator="tile-offset")


@tile(kind="order", level=1, minutes=3, source="rms-lb-2018", title="From locating to the core")
def drill_order(draw: Draw) -> Problem:
    """The order of locating, probing and coring."""
    steps = but_one(
        draw,
        [
            "Ask the owner and read the drawings for lines, tubes and tendons",
            "Have lines and tendons located here, and mark them on the floor",
            "Find out where water, gas and power are shut off",
            "Set up wet drilling or a shrouded drill with a matching vacuum",
            "Drill small pilot holes and probe for the tile",
            "Cut the core where the pilot holes agree",
            "Close every hole that is not used",
        ],
        (2, 3, 6),
    )
    return Problem(
        text=["A hole through the slab shall meet the footing drain of an old house."],
        ask="Put the work in order.",
        answer=ordered(
            draw,
            steps,
            "Nothing is drilled before it is known what lies here and how it is shut off. Small holes come before the "
            "large one: a pilot hole in a pipe is bad, a core through it is worse.",
        ),
    )


STOPS = (
    ("the firm says that the one-call centre was called, and there are paint marks on the lawn",
     "The marks outside end at the meter. Nobody has looked under this slab."),
    ("the owner remembers no pipes under the floor", "What an owner remembers is a hint. Nobody has looked."),
    ("the drawings of the house show nothing under the floor",
     "Drawings may not show what was built or added. Nobody has looked."),
)  # fmt: skip


@tile(kind="choice", level=1, minutes=2, source="rms-lb-2018", title="What stops the work: nobody has looked")
def tile_stops(draw: Draw) -> Problem:
    """Whether a slab may be drilled on hearsay."""
    said, because = draw.pick(STOPS)
    side = draw.pick(("a heated floor in the next room", "a bathroom above", "a gas water heater two steps away"))
    return Problem(
        text=[
            f"The place for the hole is marked on the floor; there is {side}. You ask about lines in the slab: {said}."
        ],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + Nothing has been located under the slab at this place. | {because}
            - The slab may be thicker than 4 in. | A thick slab takes longer. It hurts nobody by itself.
            - Nothing: a small pilot hole may be drilled to find out. | A pilot hole is enough to cut a gas line, a
              cable or a tendon. Locating comes before it.
            - The tile may be farther from the wall than the habit of the trade says. | Then a hole misses it; that is
              a lost hour, not a danger.
            """,
        ),
        words=["Have lines, tubes and tendons located in the immediate area before any hole, the pilot hole too."],
    )


KNOWN = (
    ("strands under tension (a post-tensioned slab)",
     "Draw no hole until a specialist has found and marked the strands here, or use the sump or the wall.",
     "A cut strand can burst out of the slab. Only finding each strand helps; drawings differ from what was built."),
    ("heating tubes in the slab",
     "Move the hole, or have a radar show place and depth and keep clear.",
     "A thermal camera shows where a warm tube lies, not how deep."),
    ("a gas line across the room",
     "Have the gas supplier or a licensed person mark it and agree to the place of the hole.",
     "A nicked gas line can fill the house. Whoever answers for the line says where a hole may be."),
    ("a live cable to the garage",
     "Have it switched off and proved dead, or move the hole.",
     "A cable that is proved dead cannot kill whoever drills."),
)  # fmt: skip


@tile(kind="choice", level=2, minutes=2, source="common-practice", title="Something is known to lie in the slab")
def known_below(draw: Draw) -> Problem:
    """What to do when something dangerous is known to be in the slab."""
    what, do, because = draw.pick(KNOWN)
    return Problem(
        text=[f"The owner says, and the papers show, what is here: {what}. The place for your hole is somewhere near."],
        ask="What comes next?",
        answer=options(
            draw,
            f"""
            + {do} | {because}
            - Drill slowly and stop when the bit meets it. | The bit has cut it before you feel it.
            - Drill only as deep as the slab is thick. | Tubes, cables and tendons lie in the slab, not only under it.
            - Use a smaller bit. | The smallest bit that goes through concrete also goes through this.
            """,
        ),
    )


MEETS = ("the dust turns from grey to white plastic", "the bit rings on metal", "water wells up beside the bit",
         "the bit drops before the slab should end")  # fmt: skip


@tile(kind="choice", level=1, minutes=1, source="common-practice", title="What stops the work: the bit meets something")
def bit_meets(draw: Draw) -> Problem:
    """What to do at a sign that the bit met something."""
    depth = draw.number((1, 4, 0.5, "in"), (25, 100, 5, "mm"))
    return Problem(
        text=[
            f"You drill a pilot hole at a place that was located and marked clear. At a depth of {depth} {draw.pick(MEETS)}."
        ],
        ask="What stops the work here?",
        answer=options(
            draw,
            """
            + This sign itself: stop now, leave the bit where it is, and find out what was met. | Anything unexpected
              stops the hole. Pulling the bit may open what it closes.
            - Nothing: the place was located, so it can only be a stone. | Locating is never complete. The sign counts.
            - Only a smell of gas would stop it. | A live cable, a water line or a strand gives no smell.
            - The vacuum must be emptied first. | That can wait. What the bit met cannot.
            """,
        ),
    )


@tile(kind="choice", level=1, minutes=2, source="osha-1926-1153-table-1", title="Concrete dust")
def drill_dust(draw: Draw) -> Problem:
    """How a slab is drilled so that the dust stays out of the lungs."""
    tool, right = draw.pick(
        (
            (
                "a hammer drill",
                "With a shroud on the drill and the vacuum that its maker names, with a filter for fine dust.",
            ),
            ("a core drill", "With water fed to the bit."),
        )
    )
    return Problem(
        text=[
            f"A small basement, one window. The slab is to be opened with {tool}; the furnace stands in the same room."
        ],
        ask="How is it drilled?",
        answer=options(
            draw,
            f"""
            + {right} | Concrete dust carries silica. It is caught or bound where it is made.
            - Dry, with a mask on. | The mask is the last layer. The dust goes through the house and the furnace.
            - Dry, with a household vacuum held beside the hole. | Its filter lets the fine dust through and blows it
              out again.
            - Dry, with the window open. | The dust is breathed long before it finds the window.
            """,
        ),
    )


SIDES = (
    ("The pit takes water in wet weeks from a pipe that enters through the wall, from outside.", "outside"),
    ("A paper of the builder shows the drain on the outer side of the footing, led into the pit.", "outside"),
    ("At the pit a perforated pipe comes in under the slab, along the inner side of the footing.", "inside"),
    ("A hole made for a drain repair shows tile and stone on the room's side of the footing.", "inside"),
)


@tile(kind="choice", level=2, minutes=2, source="ndsu-ae1573", title="On which side of the footing?")
def drain_side(draw: Draw) -> Problem:
    """What the side of the drain means for the hole."""
    seen, side = draw.pick(SIDES)
    both = (
        ("A hole inside cannot meet it: use the pit if the drain ends there, or a suction pit in the fill.",
         "The footing lies between a hole inside and this drain."),
        ("A hole beside the footing can meet it: locate, probe, then core.",
         "This drain lies on the room's side, where a hole through the slab comes down."),
    )  # fmt: skip
    right, wrong = both if side == "outside" else both[::-1]
    return Problem(
        text=[seen],
        ask="What follows for the hole through the slab?",
        answer=options(
            draw,
            f"""
            + {right[0]} | {right[1]}
            - {wrong[0]} | Look again at what was seen: this drain lies on the {side}.
            - Core in the middle of the room: the drain runs there. | A footing drain follows the footing.
            - Core at 12 in. from the wall whatever was seen. | A habit of the trade does not move a drain to another
              side of the footing.
            """,
        ),
    )


@tile(kind="choice", level=1, minutes=2, source="rms-lb-2018", title="The hollow under the hole")
def suction_pit(draw: Draw) -> Problem:
    """How large the suction pit is."""
    soil, right, wrong = draw.pick(
        (
            ("loose stone", "0.25 cubic foot (7 litres) at least", "1 cubic inch (16 cubic centimetres)"),
            ("tight clay", "1 cubic foot (28 litres) is advised", "0.05 cubic foot (1.4 litres)"),
        )
    )
    return Problem(
        text=[f"The core is out. Under the slab lies {soil}. No water stands in the hole."],
        ask="How much is cleared out under the hole, where digging is practicable?",
        answer=options(
            draw,
            f"""
            + {right}. | The pipe then draws from a wide face and not from one spot. RMS-LB 2018, 6.1.1.
            - {wrong}. | That is a dent. The open pores on its face add up to less than the pipe.
            - Nothing: the pipe is pushed into the soil. | The soil closes its end.
            - The pipe's own length. | The pit is sized by its face, not by the pipe.
            """,
        ),
    )
