"""Judgement on the vent pipe: supports, a dip, a cemented joint."""

from functools import partial

from .draw import Draw
from .problem import Problem, but_one, options, ordered, template

pipe = partial(template, part="pipe-and-fan", calculator="pipe-loss")

SPANS = (
    ("level", "4 ft (1.2 m)", "RMS-LB 2018, 6.2.7; CPC 2013, Table 313.1."),
    ("upright", "10 ft (3 m)", "RMS-LB 2018, 6.2.7. Some older checklists say 8 ft."),
)


@pipe(kind="choice", level=1, minutes=2, source="rms-lb-2018", title="How often the pipe is held")
def support_spacing(draw: Draw) -> Problem:
    """Greatest distance of supports by RMS-LB 2018."""
    way, right, because = draw.pick(SPANS)
    wrong = "10 ft (3 m)" if way == "level" else "4 ft (1.2 m)"
    size = draw.pick(("3", "4"))
    return Problem(
        text=[
            f"An {way} run of {size} in. plastic pipe."
            if way == "upright"
            else f"A {way} run of {size} in. plastic pipe."
        ],
        ask="How far apart are its supports at most, by RMS-LB 2018, 6.2.7?",
        answer=options(
            draw,
            f"""
            + {right} | {because} Check what is in force where you work.
            - {wrong} | That is the figure for the other direction.
            - 15 ft (4.6 m) | No text that was read allows that. A pipe that moves breaks its joints.
            - Wherever a duct or another pipe is at hand | A vent does not hang on ducts, pipes or appliances.
            """,
        ),
    )


WATER = (
    ("dips {where} and rises again. In wet weather it gurgles, then it is quiet, and the smoke at the slab stands still. The fan runs.",
     "Water stands in the dip and shuts the pipe.",
     "Soil air is wet; its water runs to the lowest place. The pipe needs a steady fall to the suction point."),
    ("goes {where} and then falls a little toward the fan outdoors. In the first frost the fan growls, stops hot, and starts again.",
     "The pipe falls the wrong way: water gathers at the fan and freezes.",
     "What runs down must reach the soil, not the fan. Power off and locked before anybody looks into the casing."),
)  # fmt: skip


@pipe(kind="what-is-wrong", level=2, minutes=2, source="hydrostatics", title="Water in the pipe")
def water_in_pipe(draw: Draw) -> Problem:
    """Water in a low place of the vent, or running to the fan."""
    seen, right, because = draw.pick(WATER)
    other = next(case for case in WATER if case[1] != right)
    where = draw.pick(("under a duct", "round a beam", "below a water pipe"))
    length = draw.number((8, 25, 1, "ft"), (2.5, 7.5, 0.5, "m"))
    return Problem(
        text=[f"A vent of {length} under the joists {seen.format(where=where)}"],
        ask="What is wrong here?",
        answer=options(
            draw,
            f"""
            + {right} | {because}
            - {other[1]} | What was heard and seen speaks against it.
            - The fan is too small for the pipe. | A larger fan meets the same water.
            - The pipe needs a rain cap. | The water comes out of the soil air, not from above.
            """,
        ),
    )


@pipe(kind="order", level=1, minutes=2, source="cpc-2013", title="A cemented joint")
def joint_order(draw: Draw) -> Problem:
    """Steps of a cemented PVC joint."""
    steps = but_one(
        draw,
        [
            "Air the room; no flame, no spark",
            "Cut square, take the burr off, clean and dry both parts",
            "Primer on both parts, until the surface is soft",
            "Cement on both parts while the primer is wet",
            "Push together with a quarter turn, and hold",
            "Leave it alone until it has set; longer in the cold",
        ],
        (1, 4, 5),
    )
    return Problem(
        text=[
            f"Two pieces of {draw.pick(('3', '4'))} in. PVC are joined in a basement. A gas water heater stands in it."
        ],
        ask="Put the work in order.",
        answer=ordered(
            draw,
            steps,
            "The vapour burns: air and flames come first. Primer softens a clean surface, cement melts the two into one.",
        ),
    )
