"""Judgement on the sump: what must stay open, what stops the work, the order of sealing, the sealant."""

from functools import partial

from ..units import from_si, short
from .draw import Draw
from .problem import Problem, but_one, options, ordered, several, solved, template
from .sump import BASE, FAN

sump = partial(template, part="the-sump", calculator="sump-sealing")


@sump(kind="several", level=2, minutes=3, source="rms-lb-2018", title="What a tight lid must leave open")
def lid_ways(draw: Draw) -> Problem:
    """Ways for water and hands that a sealed lid keeps."""
    right = [
        "A way for water on the floor: a trapped inlet in the lid, or another drain | RMS-LB 2018, 7.5.2: if the pit was "
        "the only way out, give the floor another drain.",
        "A way to the pump: the lid unscrews and the sealant peels off | Pumps fail. A lid that must be broken stays open.",
        "The pump's own pipe out of the house, with its check valve | The fan needs a pit that is emptied.",
        "The drain pipes into the pit | The system may not hurt the drainage of the ground.",
    ]
    wrong = [
        "A gap round the pump's cord, for air | The pump needs no air. A gap is a leak; a grommet closes it.",
        "The rim between basin and concrete | Air comes in there as through a gap in the lid. It is sealed too.",
        "A small hole, to see whether the water stands high | A window in the lid shows the water and leaks nothing.",
    ]
    right, wrong = draw.shuffled(right)[:3], draw.shuffled(wrong)[:2]
    return Problem(
        text=["The pit of a basement gets a sealed lid. Water from the floor runs into it now and then."],
        ask="What must stay open or reachable?",
        answer=several(draw, right, wrong),
    )


PITS = (
    ("The pit smells of sewage, its cover is bolted, and two pipes leave it.", "sewage"),
    (
        "A laundry sink drains into the pit. Its cover is bolted, and a second pipe goes up to the roof.",
        "laundry water",
    ),
    ("The owner says that the downstairs toilet is pumped up from this pit; its cover is bolted.", "sewage"),
)


@sump(kind="choice", level=1, minutes=1, source="cpc-2013", title="What stops the work: the wrong pit")
def wrong_pit(draw: Draw) -> Problem:
    """A sewage or laundry pit is no suction point."""
    seen, what = draw.pick(PITS)
    return Problem(
        text=[seen, draw.pick(("A second pit with clear water stands by the far wall.", "No other pit is seen."))],
        ask="What stops the work here?",
        answer=options(
            draw,
            f"""
            + This pit takes {what}: it is not your pit. Leave it shut and its vent alone. | Such a pit has a vent of its
              own that is kept at the pressure of the air outside. A fan would empty traps and draw sewer gas.
            - The bolts: bring a wrench and a new gasket. | Opening it lets sewer gas into the room. It is not yours to open.
            - The second pipe: it must be capped first. | That is the vent of the pit. A capped vent lets traps run dry.
            - Nothing: the fan draws the smell out as well. | A radon fan on this pit ties the house to the sewer.
            """,
        ),
    )


@sump(
    kind="choice", level=2, minutes=2, source="common-practice", title="What stops the work: opening a running system"
)
def fan_off_first(draw: Draw) -> Problem:
    """Why the fan is switched off before a lid is opened."""
    soil = draw.pick(("20 cfm/in WC", "40 cfm/in WC", "60 cfm/in WC"))
    length = draw.pick(("20 ft", "30 ft", "40 ft"))
    inputs = BASE | {"soil_conductance": soil, "pipe_length": length}
    flow = solved("sump-sealing", lid_diameter="24 in", fan=FAN, **inputs)["lid_off_flow"]
    unit = draw.text("cfm", "L/s")
    shown = f"{short(from_si(flow, unit), 2)} {unit}"
    burner = draw.pick(("gas water heater", "oil furnace", "gas boiler with a draught hood"))
    return Problem(
        text=[
            f"The pump must be looked at. With the lid off, this fan draws about {shown} out of the basement. "
            f"A {burner} stands two steps away and is running."
        ],
        ask="What stops the work here?",
        answer=options(
            draw,
            """
            + The fan is still on: switch it off, then open the lid. | An open pit takes its air out of the room, and the
              burner may spill carbon monoxide. Closed again, the burner's draught is tested.
            - The burner's flame must be turned up first, for more draught. | A larger flame makes more burnt gas. The
              fan is what pulls against it.
            - Nothing, if the lid is off for five minutes only. | Spillage starts at once, and nobody smells it.
            - A window must be closed first. | An open window helps the burner a little; it is no reason to leave the fan on.
            """,
        ),
    )


@sump(kind="choice", level=1, minutes=2, source="ccah-2020", title="What holds the lid, and seals it")
def lid_sealant(draw: Draw) -> Problem:
    """How a lid is fastened and sealed."""
    trade = draw.pick(("pump", "float switch", "check valve"))
    return Problem(
        text=[f"In a year or in ten somebody will have to reach the {trade} under this lid."],
        ask="How is the lid sealed to the rim?",
        answer=options(
            draw,
            """
            + Gasket or silicone that peels off, and screws that hold the lid. | It holds air and comes off again.
              CCAH-2020, 404.1.1.
            - Construction adhesive all round. | The first repair destroys it, and the lid stays open from then on.
            - Its own weight on a bead of foam. | Foam shrinks, and a lid that is not fastened is moved by a foot.
            - Mortar, flush with the floor. | Then nobody reaches the pump without a hammer.
            """,
        ),
    )


@sump(kind="order", level=2, minutes=3, source="common-practice", title="Seal a pit")
def sealing_order(draw: Draw) -> Problem:
    """The order of work when a pit gets its lid."""
    steps = but_one(
        draw,
        [
            "Find out what the pit receives, and where water on the floor goes",
            "Unplug the pump and prove it dead",
            "Set the pump, check valve and union; the float swings free",
            "Plug in, pour in water: the pump starts and stops",
            "Seal the rim, then lid, pipes and cord",
            "Switch the fan on and try the seals with smoke",
            "Test the burners in the house for spillage",
        ],
        (2, 3, 6),
    )
    return Problem(
        text=["An open pit in a basement with a gas water heater becomes the suction point."],
        ask="Put the work in order.",
        answer=ordered(
            draw,
            steps,
            "What the pit is for comes first: the wrong pit stays shut. The pump is proved before it is hidden. Smoke shows "
            "leaks only with the fan on, and spillage is tested when everything is as it will stay.",
        ),
    )


SMOKE = (
    ("Smoke at the bead between lid and basin stands still, but is drawn in along the floor, outside the basin.",
     "The rim between basin and concrete is open.",
     "The lid is tight; air goes round the basin. Seal basin to floor."),
    ("Smoke at lid and rim stands still. At the cord it is drawn in, thin and steady.",
     "The grommet of the cord is missing or split.",
     "The smoke goes where the air goes. A cord needs a grommet that fits it."),
    ("Smoke at lid, rim, cord and pipes stands still. At a floor drain across the room it is drawn in.",
     "The floor drain's trap is dry or missing.",
     "The drain leads to the tile or the pit. Fill or fit the trap; the seal must be deeper than the fan's suction."),
)  # fmt: skip


@sump(kind="what-is-wrong", level=2, minutes=2, source="network-balance", title="The lid is on; the suction is low")
def smoke_at_lid(draw: Draw) -> Problem:
    """Where air comes in, from the gauge and smoke."""
    slot = draw.pick(("2 ft", "4 ft", "6 ft"))
    inputs = {"lid_diameter": "24 in", "fan": FAN, **BASE}
    result = solved("sump-sealing", slots=[{"length": slot, "gap": "1/4 in", "depth": "2 in"}], **inputs)
    unit = draw.text("in WC", "Pa")
    digits = draw.text(2, 3)
    now, tight = (short(from_si(result[name], unit), digits) for name in ("suction_open", "suction_sealed"))
    seen, right, because = draw.pick(SMOKE)
    others = "\n".join(
        f"- {other[1]} | The smoke shows otherwise: it goes where the air goes." for other in SMOKE if other[1] != right
    )
    return Problem(
        text=[
            f"With everything tight this pit should read {tight} {unit}; it reads {now} {unit}. The lid is on.",
            seen,
        ],
        ask="What is wrong here?",
        answer=options(
            draw,
            f"""
            + {right} | {because}
            {others}
            - The fan is too small. | A larger fan draws more room air through the same opening. Close it first.
            """,
        ),
    )


@sump(kind="choice", level=1, minutes=2, source="ndsu-news-2005", title="What stops the work: a pump on a rod")
def pedestal(draw: Draw) -> Problem:
    """A pedestal pump under a sealed lid."""
    age = draw.whole(5, 25)
    return Problem(
        text=[
            f"Over the pit stands a pump {age} years old: its motor on a post above the floor, its float on a long rod."
        ],
        ask="What stops the work of sealing this pit?",
        answer=options(
            draw,
            """
            + The pump itself: a submersible pump takes its place first. | Its motor must stay dry and its rod must move
              through the lid; no seal holds air round a moving rod.
            - Nothing: cut a hole for the post and fill it with foam. | The rod moves. It tears the foam or hangs in it,
              and the pit overflows.
            - The motor must be wrapped, so that no air gets in. | A wrapped motor burns. It needs its cooling.
            - The float must be tied up, out of the way. | A tied float never starts the pump.
            """,
        ),
    )
