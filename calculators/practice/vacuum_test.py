"""Problems on what test holes say, how suction carries, what a mild day hides, and the tile with air and water in it."""

from functools import partial

from ..units import si
from .draw import Draw, Shown
from .problem import Number, Problem, Slip, distinct, near, options, ordered, solved, template

reach = partial(template, part="under-the-slab", calculator="suction-reach")
tile = partial(template, part="under-the-slab", calculator="tile-loop")
winter = partial(template, part="under-the-slab", calculator="needed-suction")
SMALLEST = "a gauge for test holes is read to its smallest mark"


def _pressure(draw: Draw, low: float, high: float) -> Shown:
    """A small suction: bounds in pascals, drawn as a gauge shows it."""
    return draw.number((low / 250, high / 250, 0.002, "in WC"), (low, high, 0.5, "Pa"))


@reach(kind="number", level=1, minutes=2, source="definition", title="What the vacuum did at a hole")
def hole_difference(draw: Draw) -> Problem:
    """Reading on less reading off, the one with the vacuum off being negative."""
    off = _pressure(draw, 1, 4)
    on = _pressure(draw, 5, 20)
    key = Number(on.si + off.si, on.unit, si(draw.text("0.001 in WC", "0.3 Pa")), SMALLEST)
    slips = distinct(
        key,
        [
            Slip(
                "baseline-left", on.si, "This is the reading with the vacuum on. What was there before has to come off."
            ),
            Slip(
                "sign",
                on.si - off.si,
                "The sign went astray. The soil began above the room, so the vacuum had that much more to do.",
            ),
            Slip(
                "off-only",
                off.si,
                "This is the reading with the vacuum off: the house and the weather, not the vacuum.",
            ),
        ],
    )
    return Problem(
        text=[
            f"At a test hole the gauge shows {off} above the room with the vacuum off: smoke blows up out of the hole. "
            f"With the vacuum on it shows {on} below the room.",
        ],
        ask=f"How much suction did the vacuum make there? Answer in {key.unit}.",
        answer=key,
        slips=slips,
        words=[
            f"Suction counts above zero. Off: −{off}. On: +{on}.",
            f"On less off: {on} + {off} = {key.printed()}.",
            "Such differences, hole by hole, are what a fit takes. The readings themselves belong to the day.",
        ],
    )


@reach(kind="number", level=2, minutes=3, source="fuente-2019", title="From the vacuum to the fan")
def field_scales(draw: Draw) -> Problem:
    """The field is linear: the suction at a hole goes with the suction in the pit."""
    pit = draw.number((4, 12, 0.5, "in WC"), (1000, 3000, 100, "Pa"))
    hole = _pressure(draw, 10, 40)
    fan = draw.number((0.6, 2, 0.1, "in WC"), (150, 500, 10, "Pa"))
    key = near(hole.si * fan.si / pit.si, 0.05, "both gauges are read to a mark", unit=hole.unit,
               least=si(draw.text("0.0005 in WC", "0.1 Pa")))  # fmt: skip
    slips = distinct(
        key,
        [
            Slip("unscaled", hole.si, "The fan holds less in the pit than the vacuum did, so the hole gets less too."),
            Slip(
                "upside-down",
                hole.si * pit.si / fan.si,
                "The ratio was turned round. A weaker pull in the pit makes less at the hole, not more.",
            ),
            Slip(
                "difference",
                abs(fan.si - hole.si),
                "Suctions of two places were taken off each other. It is the share of the pit's suction that stays the same.",
            ),
        ],
    )
    return Problem(
        text=[
            f"A vacuum held {pit} in the planned pit and made {hole} at the far hole, baseline taken off. "
            f"The fan will hold {fan} in the same pit. The stone is fine and the flows are small.",
        ],
        ask=f"How much will the fan make at that hole? Answer in {key.unit}.",
        answer=key,
        slips=slips,
        words=[
            f"The hole gets the same share of the pit's suction: {hole} ÷ {pit}.",
            f"Times {fan}: {key.printed()}.",
            "This is the fan's part. The house adds its own, mostly the other way in winter. In open stone with much air "
            "speed costs extra, and the share is no longer the same.",
        ],
    )


@winter(kind="number", level=2, minutes=3, source="derived", title="What to read on a mild day")
def mild_day_reading(draw: Draw) -> Problem:
    """Suction to be read today: what must be left, and what the house pulls more on the worst day."""
    left = draw.text(Shown(0.004, "in WC"), Shown(1.0, "Pa"))
    today = _pressure(draw, 1, 3)
    worst = _pressure(draw, 6, 12)
    key = Number(left.si + worst.si - today.si, left.unit, si(draw.text("0.001 in WC", "0.3 Pa")), SMALLEST)
    slips = distinct(
        key,
        [
            Slip(
                "today-kept",
                left.si + worst.si,
                "Today's pull is in today's reading already: only the difference is to come.",
            ),
            Slip(
                "nothing-left",
                worst.si - today.si,
                "That brings the hole just to zero on the worst day. Something has to be left over.",
            ),
            Slip(
                "summed", left.si + worst.si + today.si, "Both days were added. The worst day comes instead of today."
            ),
        ],
    )
    return Problem(
        text=[
            f"The house pulls {today} at the slab today and {worst} on the worst day, exhaust fans on. "
            f"{left} shall be left under the slab then. The soil follows outdoors in full.",
        ],
        ask=f"What must the weakest hole show today, with the fan on? Answer in {key.unit}.",
        answer=key,
        slips=slips,
        words=[
            f"More on the worst day: {worst} − {today}.",
            f"And {left} left over: {key.printed()} today.",
            "Look again in the heating season: the sum does not take the place of that look.",
        ],
    )


@tile(kind="number", level=2, minutes=3, source="darcy-weisbach", title="More air through the same tile")
def tile_square(draw: Draw) -> Problem:
    """Loss in the tile goes with the square of the flow, the friction factor of corrugated tile being fixed."""
    length = draw.number((100, 180, 20, "ft"), (30, 54, 6, "m"))
    first = draw.number((20, 30, 5, "cfm"), (10, 14, 1, "L/s"))
    times = draw.pick((2, 3))
    more = Shown(first.value * times, first.unit)
    given = {"loop_length": length, "pit_suction": draw.text("1 in WC", "250 Pa")}
    before = solved("tile-loop", **given, flow=first)
    result = solved("tile-loop", **given, flow=more)
    unit = draw.text("in WC", "Pa")
    shown = Shown(round(before["leg_loss"] / si(f"1 {unit}"), draw.text(4, 2)), unit)
    key = near(result["leg_loss"], 0.06, "the first loss is printed rounded", unit=unit)
    slips = distinct(
        key,
        [
            Slip("straight", shown.si * times, "The loss was taken to grow with the flow. It grows with its square."),
            Slip("cube", shown.si * times**3, "That is the cube: so the power goes, not the loss."),
            Slip("same", shown.si, "More air cannot cost the same."),
        ],
    )
    return Problem(
        text=[
            f"A tile loop of {length} brings {first} of air. Friction takes {shown} on the way to its far point.",
        ],
        ask=f"The lid is sealed and the loop now brings {more}. What does friction take? Answer in {unit}.",
        answer=key,
        slips=slips,
        solution=result,
        words=[f"{times} times the air: {times} × {times} = {times * times} times the loss."],
    )


SILENT = (
    ("behind a footing", "the footing shuts the layer off there: test from that side"),
    ("beside the floor drain", "the hole lies in a short cut to the room: find and close it, then read again"),
    ("at the low corner, and water comes up the bit", "the layer is flooded there: suction does not go through water"),
)


@reach(kind="choice", level=2, minutes=2, source="common-practice", title="A hole that does not answer")
def silent_hole(draw: Draw) -> Problem:
    """A silent hole says where to look, not that the floor is done."""
    where, right = draw.pick(SILENT)
    lines = "\n".join(
        f"{'+' if why == right else '-'} Most likely {why}. | "
        f"{'What lies beside the hole is looked at first.' if why == right else 'Nothing that was seen here points to that.'}"
        for _, why in SILENT
    )
    return Problem(
        text=[f"Four holes answer the vacuum. The fifth, {where}, reads the same on and off."],
        ask="What do you take from it?",
        answer=options(
            draw,
            f"""
            {lines}
            - Nothing: four of five is enough. | The fifth is the place where radon still comes in.
            """,
        ),
        words=[
            "A fit leaves such a hole out and says so. The floor around it counts as not reached until a hole there answers."
        ],
    )


@reach(kind="order", level=1, minutes=3, source="common-practice", title="A test with a vacuum")
def vacuum_order(draw: Draw) -> Problem:
    """The order of a test with holes."""
    steps = (
        "Have lines, tubes and tendons located at every mark",
        "Drill the far holes",
        "Read the far holes with the vacuum off, and write the sign",
        "Drill the planned point, and lead the vacuum's exhaust outdoors",
        "Read the far holes with the vacuum on, and the vacuum's flow",
        "Close every hole and mark it on the sketch",
    )
    return Problem(
        text=["You want to know whether suction at one place reaches the whole floor."],
        ask="Put the work in order.",
        answer=ordered(
            draw,
            steps,
            "Nothing is drilled before it was located. What the house does by itself is read before the vacuum changes it. "
            "The planned point comes late: the far holes may still move it.",
        ),
    )
