"""Problems on the sump: what a lid leaks and costs, the sealant, the depth of a trap."""

from functools import partial
from math import pi

from ..physics import openings, sealing
from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Number, Problem, Slip, distinct, named, near, options, solved, template

sump = partial(template, part="the-sump", calculator="sump-sealing")
BASE = {"pipe_size": "4", "pipe_length": "30 ft", "soil_conductance": "40 cfm/in WC", "pit_receives": "ground-water"}
FAN = {"name": "fan A, entered from its data sheet", "shutoff": "1.6 in WC", "free_flow": "160 cfm"}
ROUND = "figures are read to three digits"


def _lid(draw: Draw) -> Shown:
    return draw.number((18, 30, 1, "in"), (450, 760, 10, "mm"))


def _gap(draw: Draw) -> str:
    return str(draw.text(f"{draw.pick(('1/16', '1/8', '3/16', '1/4'))} in", f"{draw.whole(2, 6)} mm"))


def _area(value: float, draw: Draw, share: float = 0.03) -> Number:
    return near(value, share, ROUND, unit=draw.text("in2", "cm2"))


@sump(kind="number", level=1, minutes=3, source="geometry", title="Open area of a gap round the lid")
def lid_gap_area(draw: Draw) -> Problem:
    """Area of the gap between lid and rim."""
    lid, gap = _lid(draw), _gap(draw)
    result = solved("sump-sealing", lid_diameter=lid, lid_gap=gap, fan=FAN, **BASE)
    key = _area(result["open_area"], draw)
    slips = distinct(
        key,
        [
            Slip(
                "radius",
                key.value / 2,
                "The radius was put where the diameter belongs: the way round is π times the diameter.",
            ),
            Slip("no-pi", key.value / pi, "The way round was left at the diameter. It is π times as long."),
            Slip("disc", pi / 4 * lid.si**2, "This is the whole lid. Only the gap is open: way round times width."),
            Slip("both-gaps", key.value * 2, "The gap was counted twice. It goes round once."),
        ],
    )
    return Problem(
        text=[f"A lid {lid} across lies on its rim. All round, air finds a gap of {gap}."],
        ask=f"How large is the opening? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Area of the gap round the lid",),
    )


@sump(kind="number", level=2, minutes=3, source="geometry", title="Open area round a pipe in the lid")
def lid_ring_area(draw: Draw) -> Problem:
    """Area of the ring between a pipe and its hole."""
    pipe = draw.number((1.5, 4.5, 0.25, "in"), (38, 114, 2, "mm"))
    hole = Shown(pipe.value + draw.text(draw.whole(2, 6) / 4, draw.whole(6, 16) * 2.0), pipe.unit)
    result = solved(
        "sump-sealing", lid_diameter="24 in", penetrations=[{"diameter": pipe, "hole_diameter": hole}], fan=FAN, **BASE
    )
    key = _area(result["open_area"], draw)
    slips = distinct(
        key,
        [
            Slip(
                "whole-hole",
                pi / 4 * hole.si**2,
                "This is the whole hole. The pipe fills most of it: take its area off.",
            ),
            Slip(
                "difference-squared",
                pi / 4 * (hole.si - pipe.si) ** 2,
                "The diameters were taken off first and squared then. Square each, then take off.",
            ),
            Slip("diameter-for-radius", key.value * 4, "The diameters were put where the radii belong."),
            Slip("no-pi", key.value * 4 / pi, "The π/4 was left out: pipe and hole are round."),
        ],
    )
    return Problem(
        text=[f"A pipe {pipe} across outside stands in a hole {hole} across in the lid, with no boot and no sealant."],
        ask=f"How large is the open ring? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Area of the ring of hole 1",),
    )


@sump(kind="number", level=2, minutes=3, source="hydrostatics", title="How deep a trap must be")
def trap_depth(draw: Draw) -> Problem:
    """Depth of a trap seal against the fan's greatest suction."""
    most = draw.number((1.2, 4, 0.1, "in WC"), (300, 1000, 10, "Pa"))
    share = draw.pick((0.4, 0.5, 0.6))
    gauge = draw.text(Shown(round(most.value * share, 1), "in WC"), Shown(round(most.value * share / 10) * 10.0, "Pa"))
    fan = {"name": "fan A", "shutoff": most, "free_flow": "160 cfm"}
    result = solved("sump-sealing", lid_diameter="24 in", fan=fan, **BASE)
    key = Number(
        result["trap_seal_needed"], draw.text("in", "mm"), si("2 mm"), "1 in. WC is 25.4 mm of water column; rounding"
    )
    inch = si("1 in")
    column = key.value - inch
    working = column * gauge.si / most.si
    slips = distinct(
        key,
        [
            Slip(
                "no-margin", column, "The inch to spare was left out: at the least disturbance the trap is sucked dry."
            ),
            Slip(
                "working-suction",
                working + inch,
                "The gauge shows what the fan does today. With the pipe choked or the soil wet it does all it can.",
            ),
            Slip("working-no-margin", working, "The gauge's figure was used, and the inch to spare left out."),
            Slip("halved", column / 2 + inch, "Half the suction was used. The two legs differ by the whole of it."),
        ],
    )
    spare = draw.text("1 in", "25.4 mm")
    return Problem(
        text=[
            f"A condensate drain ends in the pit through a trap. The gauge reads {gauge}; the fan's sheet says "
            f"{most} at no flow. Keep {spare} to spare."
        ],
        ask=f"How deep must the water in the trap stand at least? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Trap seal needed",),
        words=["A drain into the pit may also be asked to have 6 in. (15 cm), whatever the fan: SGM-SF 2017, 7.8.2."],
    )


@sump(kind="number", level=1, minutes=2, source="network-balance", title="Share of the suction that is kept")
def share_kept(draw: Draw) -> Problem:
    """Suction with an open lid against suction with a tight one."""
    lid, gap = _lid(draw), _gap(draw)
    result = solved("sump-sealing", lid_diameter=lid, lid_gap=gap, fan=FAN, **BASE)
    unit = draw.text("in WC", "Pa")
    before, after = (
        Shown(round(from_si(result[name], unit), draw.text(2, 0)), unit) for name in ("suction_open", "suction_sealed")
    )
    value = sealing.suction_kept(s_o=before.si, s_s=after.si)
    key = Number(value, "%", 0.01, "the readings have two digits")
    slips = distinct(
        key,
        [
            Slip("lost", 1 - value, "This is the share that the gap costs. The question asks what is kept."),
            Slip("upside-down", 1 / value, "The readings stand upside down: a share that is kept is below 100 %."),
            Slip(
                "of-the-sum",
                before.si / (before.si + after.si),
                "The sum of both readings is no suction that the pit ever had. Compare with the tight lid.",
            ),
        ],
    )
    return Problem(
        text=[
            f"With a gap of {gap} round the lid the pit reads {before} below the room; with the lid sealed, {after}."
        ],
        ask="What share of the suction does the open lid keep? Answer in %.",
        answer=key,
        slips=slips,
        words=[f"{before} / {after} = {key.printed()}."],
    )


@sump(kind="number", level=2, minutes=4, source="geometry", title="The gap that halves the suction")
def halving_gap(draw: Draw) -> Problem:
    """Width of the gap round a lid whose area halves the suction."""
    lid = _lid(draw)
    soil = draw.pick(("20 cfm/in WC", "40 cfm/in WC", "60 cfm/in WC"))
    result = solved("sump-sealing", lid_diameter="24 in", fan=FAN, **(BASE | {"soil_conductance": soil}))
    square = draw.text("in2", "cm2")
    area = Shown(round(from_si(result["halving_area"], square), draw.text(1, 0)), square)
    key = near(area.si / openings.rim_length(D=lid.si), 0.04, ROUND, unit=draw.text("in", "mm"))
    slips = distinct(
        key,
        [
            Slip(
                "radius",
                key.value * 2,
                "The radius was put where the diameter belongs: the way round is π times the diameter.",
            ),
            Slip("no-pi", key.value * pi, "The way round is π times the diameter, not the diameter."),
            Slip("root", area.si**0.5, "This is the side of a square hole of that area. The gap is long and narrow."),
        ],
    )
    way = from_si(openings.rim_length(D=lid.si), draw.text("in", "mm"))
    return Problem(
        text=[
            f"For this fan, pipe and soil an opening of {area} into the pit halves the suction. The lid is {lid} across."
        ],
        ask=f"How wide a gap all round the lid has that area? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        words=[
            f"Way round: π times {lid} = {short(way)} {named(key.unit)}. Area divided by way round = {key.printed()}.",
            "A gap that nobody notices costs half of the suction: the lid is sealed before a larger fan is bought.",
        ],
    )


@sump(
    kind="number",
    level=3,
    minutes=4,
    source="gap-law",
    title="Half the gap: how much still leaks?",
)
def gap_law(draw: Draw) -> Problem:
    """A narrow gap leaks with about the cube of its width."""
    narrow = draw.text(f"0.00{draw.whole(2, 5)} in", f"0.0{draw.whole(5, 9)} mm")
    number, unit = narrow.split()
    twice = f"{2 * float(number):g} {unit}"
    around = draw.number((4, 8, 0.5, "ft"), (1.2, 2.4, 0.1, "m"))
    pull = draw.number((0.4, 1.2, 0.1, "in WC"), (100, 300, 10, "Pa"))
    inputs = {"fluid": "air", "length": around, "depth": draw.text("3/8 in", "10 mm"), "pressure": pull}
    wide, result = solved("hole-flow", width=twice, **inputs), solved("hole-flow", width=narrow, **inputs)
    shown = draw.text("cfm", "L/s")
    leak = Shown(float(short(from_si(wide["flow"], shown), 3)), shown)
    key = near(result["flow"], 0.25, "the cube is a limit; between narrow and wide the law goes over", unit=shown)
    slips = distinct(
        key,
        [
            Slip(
                "half",
                leak.si / 2,
                "Half the width, half the flow holds for a wide gap only. Here friction in the gap rules.",
            ),
            Slip("quarter", leak.si / 4, "The square was taken. In a narrow gap flow goes with the cube of the width."),
            Slip("same", leak.si, "The flow does not stay: a narrower gap lets far less through."),
        ],
    )
    return Problem(
        text=[
            f"Under {pull} a gap of {twice} along {around} of gasket leaks {leak}. The gap is so narrow that the friction "
            f"of its walls rules. The screws are drawn tight until {narrow} is left."
        ],
        ask=f"About how much still leaks? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Mean speed in the gap", "Flow"),
        words=["Half the width lets about an eighth through: the air is half as thick and moves a quarter as fast."],
    )


@sump(kind="number", level=1, minutes=3, source="geometry", title="Sealant for lid and pipes")
def bead(draw: Draw) -> Problem:
    """Length of the bead round lid and holes."""
    lid, hole = _lid(draw), draw.number((2, 5, 0.25, "in"), (50, 130, 5, "mm"))
    count = draw.whole(2, 4)
    inputs = {"lid_diameter": lid, "fan": FAN, **BASE}
    result = solved("sump-sealing", penetrations=[{"hole_diameter": hole, "count": count}], **inputs)
    key = near(result["bead_length"], 0.03, ROUND, unit=draw.text("ft", "m"))
    slips = distinct(
        key,
        [
            Slip("holes-left-out", pi * lid.si, "The holes were left out. Each has its own ring of sealant."),
            Slip("one-hole", pi * (lid.si + hole.si), f"One hole was counted. There are {count}."),
            Slip(
                "radius",
                key.value / 2,
                "The radius was put where the diameter belongs: the way round is π times the diameter.",
            ),
            Slip("no-pi", key.value / pi, "The diameters were added. The bead goes round: π times as long."),
        ],
    )
    return Problem(
        text=[
            f"A lid {lid} across is sealed to its rim, and {count} pipes in holes {hole} across are sealed to the lid."
        ],
        ask=f"How long a bead of sealant is laid? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Sealant to lay",),
    )


@sump(kind="drawing", level=2, minutes=3, source="network-balance", title="Read the lid: close what first?")
def lid_drawing(draw: Draw) -> Problem:
    """Which opening of a drawn lid lets in the most house air."""
    gap = draw.pick(draw.text(("1/64 in", "1/32 in", "1/16 in", "1/8 in"), ("0.5 mm", "1 mm", "2 mm", "3 mm")))
    hole = draw.pick(draw.text(("2-1/4 in", "2-1/2 in", "3 in"), ("55 mm", "65 mm", "75 mm")))
    empty = draw.pick(draw.text(("1 in", "2 in", "3 in"), ("25 mm", "50 mm", "75 mm")))
    pipe = draw.text("1.9 in", "48 mm")
    holes = [{"diameter": pipe, "hole_diameter": hole}, {"hole_diameter": empty}]
    result = solved("sump-sealing", lid_diameter=_lid(draw), lid_gap=gap, penetrations=holes, fan=FAN, **BASE)
    flows = {"gap round the lid": 0.0, "ring of hole 1": 0.0, "empty hole 2": 0.0}
    flows |= {row["name"]: row["flow"] for row in result["leaks"]}
    worst = max(flows, key=lambda name: flows[name])
    unit = draw.text("cfm", "L/s")
    why = {name: f"It lets in about {short(from_si(flow, unit), 2)} {unit}." for name, flow in flows.items()}
    texts = {
        "gap round the lid": "The gap between lid and rim",
        "ring of hole 1": "The ring round the pump's pipe (hole 1)",
        "empty hole 2": "The empty hole (hole 2)",
    }
    lines = "\n".join(f"{'+' if name == worst else '-'} {texts[name]}. | {why[name]}" for name in flows)
    return Problem(
        text=[
            f"The drawing shows a lid with a gap of {gap} all round, the pump's pipe of {pipe} in a hole of {hole}, "
            f"and an empty hole of {empty}."
        ],
        ask="Which opening lets in the most house air, and is closed first?",
        answer=options(draw, lines),
        words=["Compare the areas. A long narrow gap round a lid is soon larger than a hole that everybody sees."],
        drawing=("lid-section", result),
    )
