"""Problems on water coming in, the pump, its line and its relief hole."""

from math import pi

from ..physics import water
from ..units import si
from .draw import Draw
from .problem import Problem, Slip, choice, distinct, named, near, ordered, solved, template

PART = "water-and-pump"
PUMPS = (  # invented curves: gpm and ft
    ((0, 25), (20, 20), (40, 10)),
    ((0, 22), (15, 19), (35, 9)),
    ((0, 30), (20, 25), (45, 12)),
)
READ = "figures are read to three digits"


@template(
    part=PART,
    kind="number",
    level=1,
    minutes=3,
    source="illinois-extension-sump",
    title="Water coming in, from a timed rise",
    calculator="pump-sizing",
)
def pump_timed_rise(draw: Draw) -> Problem:
    """The inflow from a timed rise in a round pit."""
    pit = draw.number((16, 30, 1, "in"), (400, 760, 10, "mm"))
    rise = draw.number((2, 8, 0.5, "in"), (50, 200, 10, "mm"))
    time = draw.number((15, 60, 5, "s"))
    result = solved(
        "pump-sizing",
        pit_diameter=pit,
        rise_height=rise,
        rise_time=time,
        static_lift="9 ft",
        pipe_size="1-1/2",
        pipe_length="30 ft",
    )
    key = near(result["inflow"], 0.02, READ, unit=draw.text("gpm", "L/s"))
    slips = distinct(
        key,
        [
            Slip(
                "diameter-for-radius",
                key.value * 4,
                "The diameter was put where the radius belongs: that makes the pit four times as large.",
            ),
            Slip(
                "per-second",
                key.value / 60 if draw.units == "us" else key.value * 60,
                "The time was not brought to minutes."
                if draw.units == "us"
                else "The time was counted in minutes; a litre per second needs seconds.",
            ),
            Slip(
                "safety-added",
                result["design_flow"],
                "The safety factor is for sizing the pump. The question asks for the water that comes in.",
            ),
            Slip("square-pit", key.value * 4 / pi, "The pit was taken as square. A round pit holds π/4 of that."),
        ],
    )
    return Problem(
        text=[f"A pit of {pit} inside diameter. With the pump off, in a wet week, the water rises {rise} in {time}."],
        ask=f"How much water comes in? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Water coming in, from the timed rise",),
    )


@template(
    part=PART,
    kind="number",
    level=2,
    minutes=5,
    source="hazen-williams",
    title="Lift and friction",
    calculator="pump-sizing",
)
def pump_head(draw: Draw) -> Problem:
    """Total dynamic head at the design flow."""
    inflow = draw.number((8, 20, 1, "gpm"), (0.5, 1.3, 0.05, "L/s"))
    lift = draw.number((7, 14, 0.5, "ft"), (2.2, 4.2, 0.1, "m"))
    length = draw.number((20, 60, 5, "ft"), (6, 18, 1, "m"))
    elbows = draw.whole(2, 5)
    size = draw.pick(("1-1/4", "1-1/2"))
    inputs = {
        "pit_diameter": "18 in",
        "inflow": inflow,
        "static_lift": lift,
        "pipe_size": size,
        "pipe_length": length,
        "fittings": [{"kind": "elbow-90", "count": elbows}, {"kind": "check-valve"}],
    }
    result = solved("pump-sizing", **inputs)
    bare = solved("pump-sizing", **(inputs | {"fittings": []}))
    single = solved("pump-sizing", **inputs, safety_factor="1")
    key = near(
        result["total_dynamic_head"], 0.02, f"{READ}; tables of fittings differ by more", unit=draw.text("ft", "m")
    )
    slips = distinct(
        key,
        [
            Slip(
                "lift-left-out",
                result["friction_head"],
                "This is the friction alone. A pump lifts the water first and pushes it through the pipe second: "
                "both heads add up.",
            ),
            Slip("friction-left-out", lift.si, "This is the lift alone. The pipe and its fittings ask their head too."),
            Slip(
                "fittings-left-out",
                bare["total_dynamic_head"],
                "The fittings were left out. Each counts as a length of straight pipe.",
            ),
            Slip(
                "no-safety",
                single["total_dynamic_head"],
                "The friction was taken at the inflow. Size at 1.5 times the inflow.",
            ),
        ],
    )
    return Problem(
        text=[
            f"A pit takes in {inflow} in a wet week. The line rises {lift} from the pump-off level to its highest point: "
            f"{length} of {size} in. "
            f"schedule 40 plastic pipe, {elbows} sharp elbows and a check valve, C 150. Size for 1.5 times the inflow."
        ],
        ask=f"What head must the pump make at that flow? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=(
            "Design flow",
            "Friction at the design flow",
            "Equivalent length",
            "Friction head",
            "Head that the pump must make",
        ),
    )


@template(
    part=PART,
    kind="number",
    level=2,
    minutes=4,
    source="umn-perforation-table",
    title="Water lost through the relief hole",
    calculator="hole-flow",
)
def relief_hole_flow(draw: Draw) -> Problem:
    """Flow back through a relief hole under a head."""
    hole = draw.pick(("1/8", "3/16", "1/4"))
    head = draw.number((6, 16, 1, "ft"), (2, 5, 0.5, "m"))
    result = solved("hole-flow", fluid="water", diameter=f"{hole} in", head=head)
    key = near(
        result["flow"],
        0.03,
        "a real hole is 20 % off either way; the arithmetic is asked here",
        unit=draw.text("gpm", "L/s"),
    )
    slips = distinct(
        key,
        [
            Slip(
                "no-coefficient",
                key.value / 0.6,
                "The coefficient was left out: a jet through a sharp hole narrows to about 0.6 of it.",
            ),
            Slip("diameter-for-radius", key.value * 4, "The diameter was put where the radius belongs."),
            Slip(
                "no-root",
                0.6 * pi / 4 * si(f"{hole} in") ** 2 * 2 * water.GRAVITY * head.si,
                "The square root of the head was forgotten.",
            ),
        ],
    )
    return Problem(
        text=[
            f"A relief hole of {hole} in. in the discharge pipe, with {head} of water behind it, sharp-edged (coefficient 0.60)."
        ],
        ask=f"How much water runs back into the pit while the pump works? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
    )


@template(
    part=PART,
    kind="choice",
    level=1,
    minutes=2,
    source="relief-hole-trade",
    title="Where the relief hole goes",
    calculator="pump-sizing",
)
def relief_hole_place(draw: Draw) -> Problem:
    """Where a relief hole belongs, and why."""
    answer = choice(
        draw,
        (
            "In the discharge pipe inside the pit, below the lid and below the check valve.",
            "There it lets the caught air out and sprays into the pit.",
        ),
        (
            "Above the check valve, inside the pit.",
            "Above the valve it drains the whole riser after every run, and the air below the valve stays caught.",
        ),
        (
            "Above the lid, where it can be seen.",
            "Above the lid it sprays the basement and lets the fan draw room air.",
        ),
        ("In the lid, beside the pipe.", "A hole in the lid is a leak of the suction; it does nothing for the pump."),
    )
    return Problem(
        text=["A submersible pump stands under a sealed lid. Its check valve sits in the riser."],
        ask="Where does the relief hole go, if the pump has none built in?",
        answer=answer,
        words=[
            "Air caught between impeller and valve keeps the pump from lifting. The hole lets it out, and the jet falls back into the pit."
        ],
    )


@template(
    part=PART,
    kind="order",
    level=2,
    minutes=3,
    source="common-practice",
    title="Change a pump under a sealed lid",
    calculator="pump-sizing",
)
def pump_change_order(draw: Draw) -> Problem:
    """The order of work when a pump under a sealed lid is changed."""
    steps = [
        "Switch the radon fan off",
        "Unplug the pump and prove it dead",
        "Open the union above the lid",
        "Take the lid off and lift the pump out",
        "Set the new pump, its float free of pipe and lid",
        "Pour in water: see it start and stop",
        "Close and seal the lid, switch the fan on",
    ]
    drawn = steps if draw.whole(0, 1) else [s for s in steps if s != "Open the union above the lid"]
    return Problem(
        text=["The pump of a sealed pit has failed. There is a gas water heater in the same basement."],
        ask="Put the work in order.",
        answer=ordered(
            draw,
            drawn,
            "The fan goes off first: an open pit would draw room air, and a burner may spill. Nothing is touched before "
            "the pump is dead. The pump is proved before the lid is closed.",
        ),
    )
