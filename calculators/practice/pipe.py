"""Problems on the vent pipe: speed, loss, fittings, size, fall and supports."""

from functools import partial
from math import pi

from ..result import Result
from ..tables import rule_pack, si_of, table
from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Problem, Slip, distinct, named, near, options, solved, template

pipe = partial(template, part="pipe-and-fan", calculator="pipe-loss")
ROUND = "figures are read to three digits"


def _bore(size: str) -> float:
    return float(si_of(table("pipes")["schedule-40"][size]["bore"]))


def _shown_bore(draw: Draw, size: str) -> str:
    unit = draw.text("in", "mm")
    return str(Shown(round(from_si(_bore(size), unit), draw.text(2, 0)), unit))


def _flow(draw: Draw) -> Shown:
    return draw.number((30, 110, 5, "cfm"), (15, 52, 1, "L/s"))


def _shown(draw: Draw, value: float, us: str, metric: str, digits: int = 3) -> Shown:
    unit = draw.text(us, metric)
    return Shown(float(short(from_si(value, unit), digits)), unit)


@pipe(kind="number", level=1, minutes=3, source="continuity", title="Air speed in the pipe")
def pipe_speed(draw: Draw) -> Problem:
    """Air speed from flow and bore."""
    size, flow = draw.pick(("3", "4")), _flow(draw)
    result = solved("pipe-loss", flow=flow, pipe_size=size, pipe_length="30 ft")
    key = near(result["velocity"], 0.03, ROUND, unit=draw.text("ft/min", "m/s"))
    other = "4" if size == "3" else "3"
    slips = distinct(
        key,
        [
            Slip("radius", key.value / 4, "The diameter was put where the radius belongs: four times the area."),
            Slip("square-duct", key.value * pi / 4, "The pipe was taken as square. A round one has π/4 of that area."),
            Slip("other-size", key.value * (_bore(size) / _bore(other)) ** 2, f"This is the speed in {other} in. pipe."),
            Slip(
                "time",
                key.value * draw.text(1 / 60, 60),
                draw.text("This is per second. The flow is per minute, and so is the speed asked.",
                          "The flow is per second already; no minutes come in."),
            ),
        ],
    )  # fmt: skip
    return Problem(
        text=[f"A fan draws {flow} through {size} in. pipe with a bore of {_shown_bore(draw, size)}."],
        ask=f"How fast does the air move? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Air speed in the pipe",),
    )


@pipe(kind="number", level=1, minutes=3, source="irc-2018-app-a", title="Elbows counted as straight pipe")
def pipe_equivalent(draw: Draw) -> Problem:
    """Equivalent length of a vent pipe."""
    size = draw.pick(("3", "4"))
    length = draw.number((20, 60, 1, "ft"), (6, 18, 0.5, "m"))
    sharp, half = draw.whole(2, 5), draw.whole(1, 3)
    fittings = [{"kind": "elbow-90", "count": sharp}, {"kind": "elbow-45", "count": half}]
    result = solved("pipe-loss", flow="60 cfm", pipe_size=size, pipe_length=length, fittings=fittings)
    rows = table("fittings")["rows"]
    a, b = (si_of(rows[kind][size]["air"]["equivalent-length"][0]) for kind in ("elbow-90", "elbow-45"))
    unit = draw.text("ft", "m")
    each = [Shown(round(from_si(value, unit), 2), unit) for value in (a, b)]
    key = near(
        result["equivalent_length"],
        0.01,
        "figures are read to three digits; tables of fittings differ by more",
        unit=unit,
    )
    slips = distinct(
        key,
        [
            Slip("second-elbow", key.value - a, "One sharp elbow was forgotten. Walk along the pipe and count."),
            Slip("pipe-only", length.si, "The fittings were left out. Each counts as a length of straight pipe."),
            Slip("half-elbows", key.value - half * b, "The 45 degree elbows were left out."),
            Slip(
                "as-sharp",
                length.si + (sharp + half) * a,
                "Every elbow was counted as sharp. A 45 degree elbow costs less.",
            ),
        ],
    )
    return Problem(
        text=[
            f"A vent of {size} in. pipe is {length} long, with {sharp} sharp elbows of 90 degrees and {half} of 45. "
            f"A sharp elbow counts as {each[0]}, one of 45 degrees as {each[1]}."
        ],
        ask=f"How long is it with its fittings counted? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Equivalent length",),
    )


@pipe(kind="number", level=2, minutes=5, source="darcy-weisbach", title="Pressure lost in the vent pipe")
def pipe_total(draw: Draw) -> Problem:
    """Total loss from friction factor, velocity pressure and equivalent length."""
    size, flow = draw.pick(("3", "4")), _flow(draw)
    length = draw.number((20, 60, 5, "ft"), (6, 18, 1, "m"))
    elbows = draw.whole(2, 5)
    result = solved(
        "pipe-loss", flow=flow, pipe_size=size, pipe_length=length, fittings=[{"kind": "elbow-90", "count": elbows}]
    )
    key = near(result["total_loss"], 0.03, "the figures given are rounded", unit=draw.text("in WC", "Pa"))
    counted = _shown(draw, result["equivalent_length"] - length.si, "ft", "m")
    motion = _shown(draw, result["velocity_pressure"], "in WC", "Pa")
    slips = distinct(
        key,
        [
            Slip("fittings-left-out", result["straight_loss"], "This is the straight pipe alone. The elbows count as length too."),
            Slip("pipe-left-out", result["fitting_loss"], "These are the elbows alone. The pipe counts too."),
            Slip(
                "units-of-length",
                key.value * draw.text(1 / 12, 1 / 1000),
                draw.text("Feet were divided by inches. Length and bore stand in the same unit.",
                          "Metres were divided by millimetres. Length and bore stand in the same unit."),
            ),
            Slip("radius", key.value * 2, "The radius was put where the bore belongs."),
        ],
    )  # fmt: skip
    return Problem(
        text=[
            f"A vent of {size} in. pipe (bore {_shown_bore(draw, size)}) is {length} long; its elbows count as another "
            f"{counted}. At this flow the velocity pressure is {motion} and the friction factor "
            f"{short(result['friction_factor'], 3)}."
        ],
        ask=f"How much pressure is lost altogether? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Lost in straight pipe", "Lost in fittings", "Lost altogether"),
        words=["Lost = friction factor × whole length ÷ bore × velocity pressure, length and bore in the same unit."],
    )


@pipe(kind="number", level=2, minutes=4, source="darcy-weisbach", title="The same flow in a smaller pipe")
def smaller_pipe(draw: Draw) -> Problem:
    """Loss of the same flow in 3 in. pipe instead of 4 in."""
    flow, length = _flow(draw), draw.number((30, 60, 5, "ft"), (9, 18, 1, "m"))
    wide, result = (solved("pipe-loss", flow=flow, pipe_size=size, pipe_length=length) for size in ("4", "3"))
    lost = _shown(draw, wide["total_loss"], "in WC", "Pa")
    ratio = _bore("4") / _bore("3")
    key = near(
        result["total_loss"],
        0.08,
        "the fifth power is near, not exact: the friction factor changes a little",
        unit=lost.unit,
    )
    slips = distinct(
        key,
        [
            Slip("same", lost.si, "The loss does not stay: the same air has to go through a narrower pipe, faster."),
            Slip(
                "area",
                lost.si * ratio**2,
                "The areas were compared. The speed goes with the area, and the loss with its square.",
            ),
            Slip(
                "speed-only",
                lost.si * ratio**4,
                "The speed was squared, which is four powers. A narrower pipe has more wall for its air: one power more.",
            ),
        ],
    )
    return Problem(
        text=[
            f"{flow} through {length} of straight 4 in. pipe (bore {_shown_bore(draw, '4')}) loses {lost}. Somebody wants "
            f"3 in. pipe (bore {_shown_bore(draw, '3')}) and says that only the speed rises a little."
        ],
        ask=f"About how much is lost at the same flow in the smaller pipe? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Air speed in the pipe", "Friction factor", "Velocity pressure", "Lost in straight pipe"),
        words=[f"The bores are as {short(ratio, 3)} to 1. The fifth power of that is {short(ratio**5, 2)}."],
    )


@pipe(kind="number", level=2, minutes=3, source="darcy-weisbach", title="More flow, more loss")
def more_flow(draw: Draw) -> Problem:
    """Loss at one and a half times the flow."""
    flow, length = _flow(draw), draw.number((30, 60, 5, "ft"), (9, 18, 1, "m"))
    more = Shown(flow.value * 1.5, flow.unit)
    once, result = (solved("pipe-loss", flow=q, pipe_size="4", pipe_length=length) for q in (flow, more))
    lost = _shown(draw, once["total_loss"], "in WC", "Pa")
    key = near(
        result["total_loss"],
        0.115,
        "the square is a little too much: the friction factor falls as the flow rises",
        unit=lost.unit,
    )
    slips = distinct(
        key,
        [
            Slip("linear", lost.si * 1.5, "The loss does not go with the flow itself but with about its square."),
            Slip("same", lost.si, "The loss does not stay when the flow rises."),
            Slip(
                "cube",
                lost.si * 3.375,
                "The cube is the power that moving the air takes. The pressure goes with about the square.",
            ),
        ],
    )
    return Problem(
        text=[f"{flow} loses {lost} in {length} of straight 4 in. pipe. A stronger fan is to draw {more}."],
        ask=f"About how much is lost then? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Air speed in the pipe", "Friction factor", "Velocity pressure", "Lost in straight pipe"),
    )


@pipe(kind="number", level=3, minutes=4, source="bernoulli", title="The same flow high up")
def thin_air(draw: Draw) -> Problem:
    """Velocity pressure of the same volume flow at an elevation."""
    flow = _flow(draw)
    height = draw.number((4000, 9000, 500, "ft"), (1200, 2800, 100, "m"))
    low = solved("pipe-loss", flow=flow, pipe_size="3", pipe_length="30 ft")
    result = solved("pipe-loss", flow=flow, pipe_size="3", pipe_length="30 ft", elevation=height)
    motion = _shown(draw, low["velocity_pressure"], "in WC", "Pa")
    share = result["density"] / low["density"]
    key = near(result["velocity_pressure"], 0.02, ROUND, unit=motion.unit)
    slips = distinct(
        key,
        [
            Slip("same", motion.si, "Thinner air has less: the velocity pressure goes with the density."),
            Slip(
                "divided",
                motion.si / share,
                "It was divided by the share of the density. Thinner air has less, not more.",
            ),
            Slip("squared", motion.si * share**2, "The density was squared. It is the speed whose square counts."),
            Slip(
                "difference",
                motion.si * (1 - share),
                "This is what thin air takes off. The question asks what is left.",
            ),
        ],
    )
    return Problem(
        text=[
            f"At sea level {flow} through 3 in. pipe has a velocity pressure of {motion}. The same volume flow goes through the "
            f"same pipe {height} up, where soil air has {short(100 * share, 3)} % of its density at sea level."
        ],
        ask=f"What is its velocity pressure there? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Air density", "Air speed in the pipe", "Velocity pressure"),
        words=[
            "Fan pressure goes with the density too: high up, fan and pipe both shrink, and so does every gauge reading."
        ],
    )


@pipe(kind="number", level=1, minutes=2, source="sgm-sf-2017", title="How much a level pipe falls")
def pipe_fall(draw: Draw) -> Problem:
    """Whole fall of a nearly level pipe by the rule of a pack."""
    run = draw.number((10, 45, 1, "ft"), (3, 14, 0.5, "m"))
    row = next(row for row in rule_pack("sgm-sf-2017")["rows"] if row["id"] == "SGM20-01")
    slope = si_of(row)
    key = near(slope * run.si, 0.03, ROUND, unit=draw.text("in", "mm"), least=si("1 mm"))
    slips = distinct(
        key,
        [
            Slip("quarter-inch", key.value * 2, "1/4 in. per ft is a drain's fall. The row asks for half of that."),
            Slip("one-foot", slope * si("1 ft"), "This is the fall of a single foot. The pipe is longer."),
            Slip("as-share", run.si / 8, "One part in eight was taken. It is an eighth of an inch in each foot."),
        ],
    )
    rule = draw.text("1/8 in. in each foot", "10.4 mm in each metre (1/8 in. per ft)")
    return Problem(
        text=[
            f"A vent runs {run} nearly level under the joists. SGM-SF 2017, {row['section']}, asks for a fall of {rule}."
        ],
        ask=f"How much lower does the end at the suction point lie, at least? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        words=[
            f"{run} at that fall: {key.printed()}, toward the suction point, so that water runs back into the soil."
        ],
    )


@pipe(kind="choice", level=2, minutes=3, source="sgm-sf-2017", title="Which size stays quiet?")
def size_choice(draw: Draw) -> Problem:
    """The smallest size below the speed at which air is heard."""
    flow = draw.number((40, 260, 10, "cfm"), (20, 125, 5, "L/s"))
    result: Result = solved("pipe-loss", flow=flow, pipe_size="4", pipe_length="30 ft")
    unit, limit = draw.text("ft/min", "m/s"), si("1600 ft/min")
    rows = [row for row in result["comparison"] if row["pipe_size"] in ("3", "4", "6")]
    smallest = next(row["pipe_size"] for row in rows if row["velocity"] < limit)
    lines = []
    for row in rows:
        speed = f"{short(from_si(row['velocity'], unit), 3)} {unit}"
        side = "above" if row["velocity"] >= limit else "below"
        more = "" if row["pipe_size"] == smallest or side == "above" else "; a smaller one is below it too"
        lines.append(
            f"{'+' if row['pipe_size'] == smallest else '-'} {row['pipe_size']} in. | {speed}: {side} the figure{more}."
        )
    bores = ", ".join(f"{size} in.: {_shown_bore(draw, size)}" for size in ("3", "4", "6"))
    return Problem(
        text=[
            f"A system is to move {flow}. Bores: {bores}. From about {draw.text('1600 ft/min', '8.1 m/s')} the air is heard."
        ],
        ask="Which is the smallest size in which the air stays below that speed?",
        answer=options(draw, "\n".join(lines)),
        words=["The same row warns that at 2,000 ft/min (10 m/s) condensate no longer runs back: SGM-SF 2017, 6.3.8."],
    )
