"""Reading the building: parts on the ground, areas, crawl spaces, drains, a builder's stub."""

from functools import partial

from ..units import from_si, short
from .draw import Draw, Shown
from .problem import Problem, Slip, but_one, choice, distinct, named, near, options, ordered, several, solved, template

building = partial(template, part="read-the-building")
READ = "figures are read to three digits"
FAN = {"name": "fan A, entered from its data sheet", "shutoff": "2 in WC", "free_flow": "170 cfm"}


@building(kind="several", level=1, minutes=3, source="sgm-sf-2017", title="Parts of a house that need a look of their own")
def parts_of_house(draw: Draw) -> Problem:
    """Which parts count as foundation parts of their own."""
    first = draw.pick(("a crawl space under the den", "a slab addition at the back", "a garage slab beside the basement"))
    return Problem(
        text=[f"A split-level house has a basement, {first}, and a porch on posts. One pit stands in the basement."],
        ask="Which of these may feed the house and get a look of their own?",
        answer=options(draw, f"""
            + The basement slab. | It is the largest face to the ground.
            + {first[0].upper()}{first[1:]}. | A part with its own footing is cut off from the field of the basement.
            - The porch on posts. | It touches the ground with posts only and has no room on the soil.
            - The attic. | It does not touch the ground; it matters for the route.
        """, several=True),
    )  # fmt: skip


@building(kind="choice", level=2, minutes=2, source="sgm-sf-2017", title="What stops the work: a smell from the hole")
def smell_stops(draw: Draw) -> Problem:
    """A chemical smell stops the work until it is identified."""
    smell = draw.pick(("fuel oil", "solvent", "pesticide", "sewage"))
    return Problem(
        text=[f"The first test hole is through. The air from it smells of {smell}."], ask="What stops the work here?",
        answer=options(draw, """
            + The smell: the work waits until somebody has found out what it is. | What comes out of the fan would otherwise be spread over the yard, and you breathe it.
            - Nothing: the fan will carry the smell off. | That spreads what nobody has named, and it may burn.
            - Only a mask with a finer filter is missing. | A dust filter stops no vapour, and the source stays unknown.
            - The hole is closed and another is drilled at once. | The same soil lies there; the question stays open.
        """),
    )  # fmt: skip


@building(kind="number", level=1, minutes=3, source="geometry", title="How much floor touches the ground")
def ground_area(draw: Draw) -> Problem:
    """Area of a main slab, a wing and a crawl space."""
    side = partial(draw.number, (20, 40, 2, "ft"), (6, 12, 0.5, "m"))
    small = partial(draw.number, (10, 18, 1, "ft"), (3, 5.5, 0.5, "m"))
    long, wide, a, b, c = side(), side(), small(), small(), small()
    main, wing, crawl = long.si * wide.si, a.si * b.si, a.si * c.si
    key = near(main + wing + crawl, 0.01, READ, unit=draw.text("ft2", "m2"))
    slips = distinct(key, [
        Slip("crawl-space-left-out", main + wing, "The crawl space was left out. It touches the ground as well, and is a part of its own."),
        Slip("wing-left-out", main + crawl, "The wing was left out. Behind its footing it is a part of its own."),
        Slip("main-only", main, "Only the main slab was counted. Suction there says nothing about the other two."),
        Slip("outline", (long.si + a.si) * wide.si, "The wing was drawn as deep as the house. Take each part with its own sides."),
    ])  # fmt: skip
    return Problem(
        text=[f"The main slab is {long} by {wide}. A wing with its own footing is {a} by {b}; a crawl space under the porch room is {a} by {c}."],
        ask=f"How large is everything that touches the ground? Answer in {named(key.unit)}.", answer=key, slips=slips,
        words=["Each part by its own sides, then the sum. Each is tested by itself."],
    )  # fmt: skip


@building(kind="number", level=2, minutes=3, source="crc-2013", title="Vents of a crawl space")
def crawl_vents(draw: Draw) -> Problem:
    """Vent area of a vented crawl space, 1 to 150."""
    long, wide = draw.number((20, 44, 1, "ft"), (6, 13, 0.25, "m")), draw.number((14, 28, 1, "ft"), (4, 8.5, 0.25, "m"))
    area = long.si * wide.si
    key = near(area / 150, 0.02, READ, unit=draw.text("ft2", "m2"))
    slips = distinct(key, [
        Slip("exhaust-figure", area / 50, "50 belongs to the exhaust of an unvented crawl space, in cfm. Vents are one in 150."),
        Slip("around", Shown(2 * (long.value + wide.value) / 150, key.unit).si, "The length around was divided. It is the area that counts."),
        Slip("one-hundredth", area / 100, "One in a hundred was taken. The row says one in 150."),
    ])  # fmt: skip
    return Problem(
        text=[f"A new vented crawl space is {long} by {wide}. R408.1 asks for 1 of vent area for each 150 of floor area, in the same unit."],
        ask=f"How much vent area is that? Answer in {named(key.unit)}.", answer=key, slips=slips,
        words=["Vents may thin radon out. Do not count on them as the cure."],
    )  # fmt: skip


@building(kind="number", level=2, minutes=3, source="crc-2013", title="Exhaust of an unvented crawl space")
def crawl_exhaust(draw: Draw) -> Problem:
    """Exhaust flow by floor area, 1 cfm for 50 ft2."""
    long, wide = draw.number((20, 44, 1, "ft"), (6, 13, 0.25, "m")), draw.number((14, 28, 1, "ft"), (4, 8.5, 0.25, "m"))
    unit, rate = draw.text(("cfm", 1 / 50), ("L/s", 0.1))
    key = near(Shown(long.value * wide.value * rate, unit).si, 0.02, READ, unit=unit)
    slips = distinct(key, [
        Slip("vents", key.value / 3, "150 is the figure for vent openings. The exhaust goes by 50."),
        Slip("around", Shown(2 * (long.value + wide.value) * rate, unit).si, "The length around was taken. It is the floor area that counts."),
        Slip("one-side", Shown(long.value * rate, unit).si, "Only one side was taken. Multiply both."),
    ])  # fmt: skip
    rule = draw.text("1 cfm for each 50 ft² of floor", "0.10 L/s for each m² of floor")
    return Problem(
        text=[f"An unvented crawl space of {long} by {wide} gets an exhaust fan by R408.3: {rule}."],
        ask=f"How much does it move at least? Answer in {named(key.unit)}.", answer=key, slips=slips,
        words=["This air comes partly from the house. Count it when the burner's air is counted."],
    )  # fmt: skip


@building(kind="what-is-wrong", level=2, minutes=4, source="network-balance", title="A fan on the builder's stub", calculator="fan-point")
def builders_stub(draw: Draw) -> Problem:
    """Gauge and flow tell a stub in clay from one in stone or one that draws room air."""
    length = draw.pick(("20 ft", "30 ft", "40 ft"))
    system = {"fan": FAN, "pipe_size": "3", "pipe_length": length, "fittings": [{"kind": "elbow-90", "count": draw.whole(1, 3)}], "gauge_distance": length}
    grounds = {
        "It ends in tight soil: hardly any air can come.": ({"soil_conductance": draw.pick(("1 cfm/in WC", "1.5 cfm/in WC", "2 cfm/in WC"))}, "Suction near the fan's most, hardly any air: the way in is shut."),
        "It is open to the room: the fan draws house air.": ({"soil_conductance": "20 cfm/in WC", "open_area": draw.pick(("16 in2", "20 in2", "24 in2"))}, "Much air with little suction: the resistance is gone, and smoke at the floor will show where."),
        "The fan has no power.": (None, "No air and no suction: look at switch, breaker and plug first."),
    }  # fmt: skip
    right = draw.pick(tuple(grounds))
    inputs, why = grounds[right]
    unit, air = draw.text(("in WC", "cfm"), ("Pa", "L/s"))
    if inputs is None:
        seen = "zero, and no air comes out at the outlet"
    else:
        result = solved("fan-point", **system, **inputs)
        gauge = Shown(round(from_si(result["gauge_suction"], unit), draw.text(2, 0)), unit)
        seen = f"{gauge}, and {short(from_si(result['flow'], air), 2)} {air} come out at the outlet"
    lines = "\n".join(f"{'+' if text == right else '-'} {text} | {why if text == right else 'Suction and air together say otherwise here.'}" for text in grounds)
    return Problem(
        text=[f"The builder left a capped stub of 3 in. pipe in the slab, and somebody set a fan on it, unseen. The fan can do {draw.text('2 in WC', '498 Pa')} "
              f"with no air and {draw.text('170 cfm', '80 L/s')} with no resistance. The gauge near it reads {seen}."],
        ask="What is wrong here?",
        answer=options(draw, f"{lines}\n- Nothing: this is a good bed of stone that reaches far. | Stone gives air at a suction well below the fan's most, and test holes would have to show it."),
        words=["Look into a stub before a fan goes on it: light, tape, a vacuum on its mouth, test holes round it."],
    )  # fmt: skip


@building(kind="choice", level=1, minutes=2, source="common-practice", title="What stops the work: the attic floor")
def vermiculite_stops(draw: Draw) -> Problem:
    """Loose vermiculite on the route."""
    place = draw.pick(("between the joists of the attic", "in the hollow block wall beside the pit", "above the closet ceiling"))
    return Problem(
        text=[f"You look along the route and find loose, shiny flakes like small stacks of paper {place}."], ask="What stops the work here?",
        answer=options(draw, """
            + The flakes: leave them alone; trained people deal with them before a pipe goes through. | Vermiculite is treated as asbestos. What is not stirred up stays where it is.
            - Nothing, if they are swept aside. | Sweeping is what puts the fibres into the air.
            - Nothing, if the hole is drilled from below. | It would run down through the hole into the room.
            - They must only be wetted first. | Wetting is part of the trained people's work, not a way round it.
        """),
    )  # fmt: skip


@building(kind="choice", level=2, minutes=2, source="irc-app-f-2012", title="Registers along the outside walls")
def ducts_below(draw: Draw) -> Problem:
    """Floor registers on a slab: ducts in or under it."""
    heat = draw.pick(("a furnace in the hall closet", "a furnace in the utility room", "an air handler in the garage"))
    return Problem(
        text=[f"A house on a slab has {heat}. Floor registers sit along all outside walls; there is no basement and no crawl space."],
        ask="What do the registers tell you?",
        answer=options(draw, """
            + Ducts lie in or under the slab: no core and no fan before it is known how tight they are and of what. | A fan on this slab draws house air out of leaky ducts, and a core can cut one. Some are asbestos cement.
            - Nothing: registers belong in a floor. | On a slab they must be fed from somewhere, and there is no room below.
            - The ducts make the best suction point. | They are the way of the heating air. Soil gas would be spread through the house.
            - The slab is warm and therefore dry. | Warmth says nothing about what lies in it.
        """),
    )  # fmt: skip


@building(kind="several", level=1, minutes=2, source="common-practice", title="Signs of a drain round the house")
def drain_signs(draw: Draw) -> Problem:
    """What speaks for a drain loop."""
    right = draw.shuffled([
        "Pale strips of newer concrete along the walls | Somebody opened the edge of the slab and laid a drain.",
        "Black pipes that enter the pit from two sides | A loop comes in at both its ends.",
        "Window wells whose drains run dry at once | Their water goes somewhere: often into the loop.",
    ])[:2]
    wrong = draw.shuffled([
        "A pit without any pipe in it | It is a hole for a pump. Look for a mouth below the water before you say so.",
        "A floor drain in the middle | It mostly goes to the sewer. Water poured in shows which.",
        "A damp spot under a window | It shows that water comes, not that a drain takes it.",
        "A downspout that ends on the lawn | It keeps water away and says nothing of a drain.",
    ])[:2]
    return Problem(
        text=[f"You walk through a basement of {draw.whole(1955, 1999)} and look for a drain at the footing."], ask="Which of these speak for one?",
        answer=several(draw, right, wrong),
        words=["A drain can lie inside or outside of the footing. A look into the pit, and water at a window well, tell more than the year."],
    )  # fmt: skip


@building(kind="order", level=1, minutes=2, source="common-practice", title="Walk round before you ring")
def walk_order(draw: Draw) -> Problem:
    """The order in which a building is read."""
    steps = but_one(draw, [
        "Count floor levels and roof lines from the street",
        "Walk round: additions, window wells, chimneys, wires",
        "Ask about the year, wet weeks and old tests",
        "Inside, lowest floor first: each slab and crawl space as its own box",
        "Look at every burner and what feeds it with air",
        "Sketch all parts, dot in the footings, write down what is not known",
    ], (1, 2, 4))  # fmt: skip
    return Problem(
        text=[f"You come to a {draw.pick(('split-level', 'ranch', 'two-storey'))} house for the first time."], ask="Put the look in order.",
        answer=ordered(draw, steps, "From the street to the slab: what was seen outside tells what to look for inside. The sketch is closed last, with its open questions."),
    )  # fmt: skip


@building(kind="choice", level=2, minutes=3, source="sgm-sf-2017", title="Suction here, suction there?", calculator="suction-reach")
def across_footing(draw: Draw) -> Problem:
    """A plan with a wing behind a footing: does the suction cross?"""
    tight = draw.pick((0.2, 0.97, 0.99))
    width = draw.number((26, 34, 2, "ft"), (8, 10, 0.5, "m"))
    wing = draw.number((12, 16, 2, "ft"), (3.5, 5, 0.5, "m"))
    zero = Shown(0, width.unit)
    deep = draw.text(Shown(24, "ft"), Shown(7.5, "m"))
    pit = draw.text(Shown(6, "ft"), Shown(2, "m"))
    middle = Shown(width.value + wing.value / 2, width.unit)
    result = solved(
        "suction-reach", slab=[{"width": width, "depth": deep}, {"x": width, "y": zero, "width": wing, "depth": wing}],
        pits=[{"x": pit, "y": pit, "radius": "9 in", "suction": "0.8 in WC"}], footings=[{"x1": width, "y1": zero, "x2": width, "y2": wing, "tightness": tight}],
        layer="crushed-base", slab_condition="ordinary", layer_state="dry", probes=[{"x": middle, "y": Shown(wing.value / 2, wing.unit)}, {"x": Shown(width.value - 2, width.unit), "y": Shown(wing.value / 2, wing.unit)}],
    )  # fmt: skip
    there, near_by = (span.value for span in result["probe_suctions"])
    unit = draw.text("in WC", "Pa")
    shown = [short(from_si(value, unit), 2) for value in (near_by, there)]
    cut = there < 0.5 * near_by
    cut_off = ("The footing cuts the wing off: it needs a suction point or a hole of its own.", "What is there on one side of a footing says nothing about the other; the two readings show it.")
    joined = ("The wing hangs together with the main slab: one point may serve both, if its far corner reads enough.", "The two sides of the footing read alike: air finds a way through or under it.")
    right, wrong = (cut_off, joined) if cut else (joined, cut_off)
    return Problem(
        text=[f"A wing of {wing} by {wing} joins a main slab with the suction point. Test holes read {shown[0]} {unit} just before the footing between them "
              f"and {shown[1]} {unit} in the middle of the wing."],
        ask="What do the two readings say?",
        answer=choice(draw, right, (wrong[0], "Compare the reading behind the footing with the one before it."),
                      ("The wing is too far away for any suction.", "The hole before the footing is nearly as far, and reads."),
                      ("Nothing: test holes lie.", "They are the only thing that tells. Read them again with the baseline taken.")),
        drawing=("suction-plan", result),
    )  # fmt: skip
