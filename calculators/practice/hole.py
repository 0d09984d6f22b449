"""Problems on the flow through one hole."""

from functools import partial
from math import pi

from ..result import Result
from ..units import from_si, short
from .draw import Draw, Shown
from .problem import Problem, Slip, distinct, named, near, options, solved, template

hole = partial(template, part="look-up", calculator="hole-flow")
REAL = "a real hole is 20 % off either way; the arithmetic is asked here"


def _density(result: Result) -> float:
    """Density [kg/m3] of the air that a hole-flow answer used."""
    return next(step.value for step in result.work.steps if step.title == "Air density")


@hole(kind="number", level=2, minutes=3, source="orifice-textbook", title="Air through a hole")
def hole_air(draw: Draw) -> Problem:
    """Air flow through a sharp-edged hole."""
    area = draw.number((1, 8, 0.5, "in2"), (6, 50, 2, "cm2"))
    pull = draw.number((0.3, 1.5, 0.1, "in WC"), (80, 380, 10, "Pa"))
    result = solved("hole-flow", fluid="air", area=area, pressure=pull)
    key = near(result["flow"], 0.03, REAL, unit=draw.text("cfm", "L/s"))
    speed = (2 * pull.si / _density(result)) ** 0.5
    slips = distinct(
        key,
        [
            Slip(
                "no-coefficient",
                key.value / 0.61,
                "The coefficient was left out: the jet narrows to about 0.61 of the hole.",
            ),
            Slip("no-two", key.value / 2**0.5, "The 2 under the root was left out."),
            Slip("no-root", key.value * speed, "The root was forgotten: the flow goes with the root of the pressure."),
            Slip(
                "per-second",
                key.value * draw.text(1 / 60, 60),
                draw.text(
                    "This is per second. The answer is asked per minute.",
                    "The speed is per second already; no minutes come in.",
                ),
            ),
        ],
    )
    rho = short(_density(result), 3)
    given = draw.text(
        f"Soil air of {rho} kg/m³ moves at {short(from_si(speed, 'ft/min'), 3)} ft/min under that pressure",
        f"Take soil air at {rho} kg/m³",
    )
    return Problem(
        text=[
            f"A sharp-edged hole of {area} in a lid, with {pull} of suction behind it. {given}. The coefficient is 0.61."
        ],
        ask=f"How much air goes through? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Flow",),
        words=["Coefficient × area × speed, and the speed is the root of twice the pressure divided by the density."],
    )


@hole(kind="number", level=1, minutes=2, source="orifice-textbook", title="A hole twice as wide")
def hole_wider(draw: Draw) -> Problem:
    """Flow through a hole of more than one diameter."""
    size = draw.number((0.5, 1.5, 0.25, "in"), (12, 40, 2, "mm"))
    times = draw.pick((2, 3))
    wide = Shown(size.value * times, size.unit)
    pull = draw.number((0.3, 1.2, 0.1, "in WC"), (80, 300, 10, "Pa"))
    once, result = (solved("hole-flow", fluid="air", diameter=d, pressure=pull) for d in (size, wide))
    unit = draw.text("cfm", "L/s")
    leak = Shown(float(short(from_si(once["flow"], unit), 3)), unit)
    key = near(result["flow"], 0.03, "figures are read to three digits", unit=unit)
    slips = distinct(
        key,
        [
            Slip("diameter", leak.si * times, "The flow goes with the area, and that with the square of the diameter."),
            Slip("same", leak.si, "The flow does not stay: the opening is larger."),
            Slip(
                "cube",
                leak.si * times**3,
                "The cube was taken. That holds for the width of narrow gaps, not for holes.",
            ),
            Slip(
                "added",
                leak.si * (times**2 + 1),
                "Both holes were counted. The wide one takes the place of the small one.",
            ),
        ],
    )
    return Problem(
        text=[f"A hole {size} across leaks {leak} under {pull}. Somebody drills it out to {wide}; the suction stays."],
        ask=f"How much goes through then? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Area of the hole", "Flow"),
    )


@hole(kind="number", level=2, minutes=2, source="orifice-textbook", title="More suction on the same hole")
def hole_pressure(draw: Draw) -> Problem:
    """Flow through the same hole at a higher pressure."""
    area = draw.number((1, 6, 0.5, "in2"), (6, 40, 2, "cm2"))
    low = draw.number((0.2, 0.5, 0.1, "in WC"), (50, 120, 10, "Pa"))
    times = draw.pick((3, 4, 5))
    high = Shown(round(low.value * times, 6), low.unit)
    once, result = (solved("hole-flow", fluid="air", area=area, pressure=p) for p in (low, high))
    unit = draw.text("cfm", "L/s")
    leak = Shown(float(short(from_si(once["flow"], unit), 3)), unit)
    key = near(result["flow"], 0.03, "figures are read to three digits", unit=unit)
    slips = distinct(
        key,
        [
            Slip("linear", leak.si * times, "The flow goes with the root of the pressure, not with the pressure."),
            Slip(
                "square",
                leak.si * times**2,
                "Pressure goes with the square of the flow. Flow goes with the root of the pressure.",
            ),
            Slip("same", leak.si, "More suction draws more through the same hole."),
        ],
    )
    return Problem(
        text=[f"A hole of {area} leaks {leak} under {low}. With a stronger fan the suction there is {high}."],
        ask=f"How much leaks then? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Flow",),
        words=[f"{times} times the suction, the root of {times} times the flow."],
    )


@hole(kind="choice", level=2, minutes=2, source="common-practice", title="What stops the work: a hole beside a burner")
def hole_stops(draw: Draw) -> Problem:
    """A hole that draws room air beside a burner."""
    size = draw.number((2, 4, 0.5, "in"), (50, 100, 10, "mm"))
    result = solved("hole-flow", fluid="air", diameter=size, pressure="0.8 in WC")
    unit = draw.text("cfm", "L/s")
    shown = f"{short(from_si(result['flow'], unit), 2)} {unit}"
    square = short(from_si(pi / 4 * size.si**2, draw.text("in2", "cm2")), 2)
    burner = draw.pick(("gas water heater", "gas boiler", "oil furnace"))
    return Problem(
        text=[
            f"The lid has an empty hole {size} across ({square} {draw.text('in²', 'cm²')}). At the suction of this fan it draws "
            f"about {shown} out of the room where a {burner} stands. Somebody wants to leave it open until next week."
        ],
        ask="What stops the work here?",
        answer=options(
            draw,
            """
            + The open hole: switch the fan off, or close the hole, before anybody leaves. Then test the burner. | The air
              that the hole draws is air that the burner's chimney loses; burnt gas can come back into the room.
            - Nothing: a hole in a lid only costs suction. | It takes room air as well, and a burner stands in that room.
            - Nothing, if a carbon monoxide alarm hangs there. | An alarm is the last guard. It is no leave to spill.
            - Only the lower reading of the gauge. | It shows the leak. The danger is the burner.
            """,
        ),
    )
