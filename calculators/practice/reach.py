"""Suction under the slab: read the plan, the coldest week, the tile loop."""

from functools import partial

from ..result import Result
from ..units import from_si, short
from .draw import Draw, Shown
from .problem import Problem, Slip, choice, distinct, named, near, options, solved, template

reach = partial(template, part="under-the-slab")
READ = "figures are read to three digits"
PEOPLE = ("lower left", "lower right", "upper right", "upper left")


def _suction(draw: Draw, value: float, digits: int = 3) -> Shown:
    unit = draw.text("in WC", "Pa")
    return Shown(float(short(from_si(value, unit), digits)), unit)


def _plan(draw: Draw, suction: str) -> Result:
    """A plain slab with one pit near a corner."""
    long, wide = draw.number((30, 44, 2, "ft"), (9, 13, 0.5, "m")), draw.number((22, 28, 2, "ft"), (7, 8.5, 0.5, "m"))
    inside = draw.number((3, 6, 1, "ft"), (1, 2, 0.5, "m"))
    right, upper = draw.pick((True, False)), draw.pick((True, False))
    x = Shown(long.value - inside.value, long.unit) if right else inside
    y = Shown(wide.value - inside.value, wide.unit) if upper else inside
    return solved(
        "suction-reach", slab=[{"width": long, "depth": wide}], pits=[{"x": x, "y": y, "radius": draw.pick(("6 in", "9 in")), "suction": suction}],
        layer="crushed-base", slab_condition="ordinary", layer_state="dry",
    )  # fmt: skip


@reach(kind="drawing", level=2, minutes=3, source="leaky-sheet", title="Corners in the coldest week", calculator="suction-reach")
def plan_corners(draw: Draw) -> Problem:
    """From the plan: which corners keep suction when the house pulls most."""
    result = _plan(draw, draw.pick(("0.12 in WC", "0.15 in WC", "0.2 in WC")))
    corners = [span.value for span in result["corner_suctions"]]
    steps = sorted(corners)
    low = draw.pick([i for i in range(3) if steps[i + 1] > 1.2 * steps[i]])  # far enough apart for the eye
    house = _suction(draw, (steps[low] * steps[low + 1]) ** 0.5, 2)
    lines = "\n".join(
        f"{'+' if value > house.si else '-'} The {name} corner | The fan gives it {_suction(draw, value, 2)}, "
        f"{'more' if value > house.si else 'less'} than the house takes." for name, value in zip(PEOPLE, corners, strict=True)
    )  # fmt: skip
    return Problem(
        text=[f"The plan shows what the fan alone gives under the slab today. In the coldest week the house takes {house} of it everywhere."],
        ask="Which corners keep suction in that week?", answer=options(draw, lines, several=True), drawing=("suction-plan", result),
        words=["What the fan gives, less what the house takes. A sum without test holes is a picture, not a design."],
    )  # fmt: skip


@reach(kind="drawing", level=1, minutes=2, source="leaky-sheet", title="Read a place on the plan", calculator="suction-reach")
def plan_place(draw: Draw) -> Problem:
    """From the lines of the plan: the suction at a place between them."""
    result = _plan(draw, draw.pick(("0.6 in WC", "0.8 in WC", "1 in WC")))
    slab, unit = result.values["slab"][0], draw.text("ft", "m")
    x, y = (Shown(round(from_si(slab[side], unit) * draw.whole(35, 65) / 100), unit) for side in ("width", "depth"))
    long, wide = (Shown(round(from_si(slab[side], unit), 2), unit) for side in ("width", "depth"))
    value = _at(result, x.si, y.si)
    shown = {times: _suction(draw, value * times, 2) for times in (1, 2.5, 0.4, 0.15)}
    lines = "\n".join(
        f"{'+' if times == 1 else '-'} About {pull} | "
        f"{'It lies between the lines on both sides of the place.' if times == 1 else 'Go to the place on both scales, and look at the lines beside it.'}"
        for times, pull in shown.items()
    )
    return Problem(
        text=[f"The plan shows the suction that is expected under a slab of {long} by {wide} from one pit."],
        ask=f"About how much suction has the place x {x}, y {y}?", answer=options(draw, lines), drawing=("suction-plan", result),
        words=["Between two lines the suction lies between their figures. Have lines, tubes and tendons located before a test hole goes there."],
    )  # fmt: skip


def _at(result: Result, x: float, y: float) -> float:
    """The suction [Pa] of the plan's cell at a place [m] inside the slab."""
    grid = result.outputs["map"]()
    return float(grid.values[round((y - grid.y0) / grid.step)][round((x - grid.x0) / grid.step)])


@reach(kind="number", level=3, minutes=5, source="buoyancy", title="Read today, enough in winter", calculator="needed-suction")
def needed_today(draw: Draw) -> Problem:
    """Suction to be read at the weakest hole on the day of the test."""
    house = draw.number((1000, 2400, 100, "cfm"), (500, 1100, 50, "L/s"))
    today, worst = draw.number((40, 65, 5, "degF"), (4, 18, 2, "degC")), draw.number((-15, 15, 5, "degF"), (-26, -10, 2, "degC"))
    least = draw.text(Shown(0.004, "in WC"), Shown(1, "Pa"))
    result = solved("needed-suction", test_day={"outdoor_temperature": today}, design_day={"outdoor_temperature": worst},
                    house={"leakage_at_50Pa": house}, minimum_suction=least)  # fmt: skip
    then, now = (_suction(draw, result[name]) for name in ("slab_depressurization_design", "slab_depressurization_test"))
    key = near(then.si - now.si + least.si, 0.03, "the figures given are rounded", unit=then.unit)
    slips = distinct(key, [
        Slip("today-not-taken-off", then.si + least.si, "What the house takes today is already in today's reading. Only the rest has still to come."),
        Slip("nothing-left", then.si - now.si, "Then nothing is left on the worst day. The least suction wanted comes on top."),
        Slip("sum", then.si + now.si + least.si, "Both days were added. The reading of today has today's part in it."),
        Slip("least-only", least.si, "This is what must be left on the worst day, not what is read today."),
    ])  # fmt: skip
    return Problem(
        text=[f"At the slab the house is {now} below outdoors today ({today}) and {then} below on the worst day ({worst}). At the weakest hole {least} shall be left then."],
        ask=f"How much must that hole read today? Answer in {named(key.unit)}.", answer=key, slips=slips, solution=result,
        steps=("To be read on the day of the test",), words=["What the worst day takes more than today, and what shall be left."],
    )  # fmt: skip


@reach(kind="choice", level=2, minutes=3, source="buoyancy", title="A reading on a mild day", calculator="needed-suction")
def enough_in_winter(draw: Draw) -> Problem:
    """Whether a measured suction is enough for the worst day."""
    today, worst = draw.number((45, 65, 5, "degF"), (6, 18, 2, "degC")), draw.number((-15, 15, 5, "degF"), (-26, -10, 2, "degC"))
    asked = {"test_day": {"outdoor_temperature": today}, "design_day": {"outdoor_temperature": worst}, "house": {"leakage_at_50Pa": "1500 cfm"}}
    needed = solved("needed-suction", **asked)["required_suction"]
    read = _suction(draw, needed * draw.pick((0.3, 0.5, 1.7, 2.5)), 2)
    result = solved("needed-suction", **asked, measured_suction=read)
    enough = next(check for check in result.work.checks if check.id == "measured").ok
    yes = ("It is enough by the sum; the hole is read again in the heating season.", f"Needed today: {_suction(draw, needed, 2)}. The sum has a range, the cold week does not.")
    no = ("It is not enough: in the coldest week the house takes it all and more.", f"Needed today: {_suction(draw, needed, 2)}.")
    right, wrong = (yes, no) if enough else (no, yes)
    return Problem(
        text=[f"Today it is {today} outside; the coldest week has {worst}. The calculator asks for {_suction(draw, needed, 2)} at the weakest hole today. It reads {read}."],
        ask="What does the reading say?",
        answer=choice(draw, right, (wrong[0], "Compare the reading with what is asked for today."),
                      ("Any suction above zero will do.", "Above zero today can be below zero in frost: the house pulls on the same soil."),
                      ("Only a radon test in summer can tell.", "A summer test sees the mild days. This sum is about the cold ones.")),
    )  # fmt: skip


@reach(kind="number", level=2, minutes=3, source="darcy-weisbach", title="What reaches the far end of the tile", calculator="tile-loop")
def tile_end(draw: Draw) -> Problem:
    """Suction at the far end of a loop from pit suction and both losses."""
    loop = draw.number((100, 220, 10, "ft"), (30, 66, 2, "m"))
    flow = draw.number((60, 130, 10, "cfm"), (28, 60, 2, "L/s"))
    pit = draw.number((0.3, 0.9, 0.1, "in WC"), (80, 220, 10, "Pa"))
    result = solved("tile-loop", loop_length=loop, flow=flow, pit_suction=pit)
    drag, push = _suction(draw, result["leg_loss"]), _suction(draw, result["momentum_loss"])
    key = near(pit.si - drag.si - push.si, 0.02, "the figures given are rounded", unit=pit.unit)
    slips = distinct(key, [
        Slip("both-ways", pit.si - 2 * drag.si - push.si, "The loss was taken for both ways round. They lie side by side, each with half of the air."),
        Slip("speed-left-out", pit.si - drag.si, "What speeds up the air that joins was left out."),
        Slip("friction-left-out", pit.si - push.si, "Friction on the way was left out."),
        Slip("lost", drag.si + push.si, "This is what is lost. The question asks what is left."),
        Slip("added", pit.si + drag.si + push.si, "The losses were added. Suction grows less away from the pit."),
    ])  # fmt: skip
    return Problem(
        text=[f"A loop of 4 in. tile, {loop} long, comes to the pit at both ends; {flow} enter evenly. The pit has {pit}. On the longer way {drag} go to friction and {push} to speeding up the air that joins."],
        ask=f"How much suction is left at the far end? Answer in {named(key.unit)}.", answer=key, slips=slips, solution=result,
        steps=("Lost to friction on the longer way", "Lost to speeding up air that joins", "Left at the far end"),
    )  # fmt: skip


@reach(kind="what-is-wrong", level=3, minutes=4, source="derived", title="A reading far round the tile", calculator="tile-loop")
def tile_fault(draw: Draw) -> Problem:
    """Suction at the far end tells a clear tile from one that is half full or shut."""
    loop = draw.number((120, 200, 10, "ft"), (36, 60, 2, "m"))
    asked = {"loop_length": loop, "flow": draw.number((60, 90, 5, "cfm"), (28, 42, 2, "L/s")), "pit_suction": draw.text("0.6 in WC", "150 Pa")}
    clear = solved("tile-loop", **asked)
    half = solved("tile-loop", **asked, water_depth=draw.pick(("0.36", "0.38", "0.4")))
    expected, low = (_suction(draw, result["farthest_suction"], 2) for result in (clear, half))
    pit = _suction(draw, clear.values["pit_suction"])
    causes = {
        "Water stands in the tile and leaves little room for air.": (f"{low}, and the smoke there moves slowly", "Some suction comes through: the way is narrow, not shut."),
        "The tile is shut: full of water or silt, or cut.": ("nothing at all, while the pit keeps its suction", "No suction behind it: nothing gets through."),
        "Nothing in the tile: it carries as worked out.": (f"{expected}", "The far end has what the clear tile was to give. If the slab is still weak, the fault lies between tile and slab."),
    }  # fmt: skip
    right = draw.pick(tuple(causes))
    seen, why = causes[right]
    lines = "\n".join(f"{'+' if text == right else '-'} {text} | {why if text == right else 'Compare the reading with what the clear tile was to give.'}" for text in causes)
    return Problem(
        text=[f"The pit has {pit}. By the sum a clear tile of {loop} leaves {expected} at its far end. A probe in the tile there reads {seen}."],
        ask="What is wrong here?", answer=options(draw, f"{lines}\n- The fan is too small. | The pit has its suction. What happens behind the pit is the tile's."),
        words=["Unplug the pump before a hand, a camera or a hose goes into the pit. Look at pump-on against the tile's mouth."],
    )  # fmt: skip
