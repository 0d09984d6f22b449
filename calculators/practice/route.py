"""The route: which ways are left, what closes one, holes in joists, the line drawn backwards."""

from functools import partial

from ..result import Result
from .draw import Draw, Shown
from .problem import Problem, Slip, but_one, distinct, named, near, options, ordered, solved, template

route = partial(template, part="choose-the-route", calculator="vent-route")
READ = "figures are read to three digits"
WAYS = {
    "chase": "Up a chase through the storeys",
    "closets": "Through the closets, storey by storey",
    "garage": "Through the garage to its attic",
    "wall": "Up the outside wall",
}


@route(kind="number", level=2, minutes=3, source="crc-2013", title="A pipe through a joist")
def joist_depth(draw: Draw) -> Problem:
    """The least joist depth for a hole by the third-of-depth rule."""
    hole = draw.number((1.5, 4.75, 0.25, "in"), (40, 120, 5, "mm"))
    key = near(3 * hole.si, 0.01, READ, unit=draw.text("in", "mm"))
    edge = draw.number((2, 2, 1, "in"), (50, 50, 1, "mm"))
    slips = distinct(key, [
        Slip("edges-only", hole.si + 2 * edge.si, "Only the two edge bands were added. The hole may also be at most a third of the depth."),
        Slip("a-sixth", 6 * hole.si, "A sixth is the rule for notches. A hole may be a third."),
        Slip("double", 2 * hole.si, "Half of the depth is too much: the rule says a third."),
    ])  # fmt: skip
    return Problem(
        text=[f"A pipe needs a hole of {hole} through a sawn floor joist. The rule: a hole at most a third of the depth, and at least {edge} "
              "of wood to top and bottom."],
        ask=f"How deep must the joist be by the third-of-depth rule? Answer in {'inches' if draw.units == 'us' else 'mm'}.", answer=key, slips=slips,
        words=["Three times the hole. The edge bands ask for less here."],
    )  # fmt: skip


@route(kind="choice", level=1, minutes=2, source="crc-2013", title="What stops the work: the garage ceiling")
def garage_stops(draw: Draw) -> Problem:
    """A pipe through the garage separation."""
    gap = draw.pick(("common foam", "drywall compound alone", "nothing", "a metal ring against rats"))
    return Problem(
        text=[f"The pipe has gone up through the ceiling of an attached garage with a bedroom above. The gap is closed with {gap}."],
        ask="What stops the work here?",
        answer=options(draw, """
            + The gap in the fire separation is closed the way the local official accepts, before anybody leaves. | A plastic pipe melts; the hole then lets fire and gas of the garage into the house.
            - The pipe must be metal everywhere. | The text that was seen asks for a closed gap; what else is wanted the official says.
            - The bedroom must not be used any more. | The separation is put right, then nothing is changed for the room.
            - Nothing: a garage ceiling has no hour rating. | It has none, and it is a fire separation all the same.
        """),
    )  # fmt: skip


def seen(draw: Draw) -> tuple[list[str], dict[str, object]]:
    """What was seen in a house, in words, and the same for the calculator."""
    chase, chase_words = draw.pick((
        ("free", "A free chase runs from the basement to the attic."), ("with-flue", "The only chase holds the flue of the furnace."),
        ("none", "No chase runs through the house."),
    ))  # fmt: skip
    closets, closet_words = draw.pick((
        ("in-line", "Closets stand above each other."), ("offset", "The closets of the two storeys do not stand above each other."),
    ))  # fmt: skip
    rooms, garage_words = draw.pick((
        (True, "The attached garage lies wholly below bedrooms."), (False, "The attached garage has an attic of its own and no room above."),
    ))  # fmt: skip
    found, found_words = draw.pick((
        ("joists-across", "In the line of the closets sawn joists lie across."), ("truss", "In the line of the closets a roof truss stands."),
        ("beam", "In the line of the closets the main beam runs."),
    ))  # fmt: skip
    window = draw.number((3, 16, 1, "ft"), (1, 5, 0.5, "m"))
    inputs: dict[str, object] = {
        "storeys": 2, "lowest_floor": "basement", "roof_covering": "asphalt-shingle", "roof_pitch": "6/12", "garage_attached": True,
        "living_space_over_garage": rooms, "garage_part_without_rooms": not rooms, "attic": "vented", "attic_access": "hatch", "chase": chase,
        "chase_in_party_wall": False, "closets": closets, "separations": "none", "ducts_under_slab": False, "snow": "lies", "cold_winters": True,
        "walls": [{"name": "east wall", "nearest_opening": window, "opening_below": "0 ft", "neighbour": "40 ft", "deck": "40 ft",
                   "gas_meter": False, "service_drop": False, "street_side": False, "shared": False, "bedroom_behind": False}],
        "roof_outlet": {"nearest_opening": "20 ft", "neighbour": "40 ft", "low_on_slope": False, "bad_spot": False},
        "found_on_line": [{"route": "closets", "what": found}], "joist_depth": "11-1/4 in", "pipe_size": "3", "rules": "us-pa",
    }  # fmt: skip
    said = [
        "Two storeys over a basement in Pennsylvania, shingle roof, vented attic with a hatch, cold winters.",
        f"{chase_words} {closet_words} {garage_words} {found_words} On the east wall a window opens {window} from the line of a riser, level with its end.",
    ]
    return said, inputs


def judged(result: Result) -> dict[str, tuple[int | None, str]]:
    """Each way's place, None where a hard stop closes it, and the reason."""
    found = {}
    for row in result["routes"]:
        way = next((way for way, word in (("chase", "chase"), ("closets", "closet"), ("garage", "garage"), ("wall", "east wall")) if row["route"].startswith(word)), "")
        stops = list(row["hard_stops"])
        if way and way not in found:
            against = [*stops, *row["drawbacks"]]
            lead = "Closed" if stops else f"{len(against)} against it" if against else "Nothing was found against it"
            found[way] = (None if stops else row["rank"], f"{lead}: {'; '.join(against)}." if against else f"{lead}.")
    return found


@route(kind="choice", level=2, minutes=4, source="common-practice", title="Which way first?")
def first_way(draw: Draw) -> Problem:
    """The route that the calculator puts first."""
    while True:
        said, inputs = seen(draw)
        places_of = judged(result := solved("vent-route", **inputs))
        places = [place for place, _ in places_of.values() if place is not None]
        if places.count(min(places)) == 1:  # two that are equally good make no question
            break
    best = next(way for way, (place, _) in places_of.items() if place == min(places))
    lines = "\n".join(f"{'+' if way == best else '-'} {WAYS[way]} | {places_of[way][1]}" for way in WAYS)
    return Problem(text=said, ask="Which way is looked at first?", answer=options(draw, lines), solution=result,
                   words=["Hard stops first, then the fewest drawbacks. The owner and the official still have their word."])  # fmt: skip


@route(kind="several", level=3, minutes=4, source="common-practice", title="Which ways are closed?")
def closed_ways(draw: Draw) -> Problem:
    """Routes with a hard stop."""
    while True:
        said, inputs = seen(draw)
        places_of = judged(result := solved("vent-route", **inputs))
        closed = [way for way, (place, _) in places_of.items() if place is None]
        if 0 < len(closed) < len(WAYS):
            break
    lines = "\n".join(f"{'+' if way in closed else '-'} {WAYS[way]} | {places_of[way][1]}" for way in WAYS)
    return Problem(text=said, ask="Which ways does a hard stop close?", answer=options(draw, lines, several=True), solution=result,
                   words=["A drawback is a price; a hard stop is a no until somebody who may decide has changed it."])  # fmt: skip


@route(kind="choice", level=1, minutes=2, source="crc-2013", title="What stops the work: wood in the way")
def truss_stops(draw: Draw) -> Problem:
    """Trusses, engineered joists and beams are not cut."""
    what = draw.pick(("the bottom chord of a roof truss", "the flange of an engineered joist", "a beam that carries the floor", "both plates of a bearing wall"))
    cut = draw.number((1, 2, 0.25, "in"), (25, 50, 5, "mm"))
    return Problem(
        text=[f"The pipe comes up through the closet floor and meets {what}. It lacks {cut}; a helper has the saw ready."], ask="What stops the work here?",
        answer=options(draw, f"""
            + The wood: it is not cut. Move the route, or ask the person who may decide. | What carries the house is cut on paper by an engineer or not at all.
            - Nothing: {cut} are little. | The edges are where it carries most. A little there is much.
            - Nothing, if a plate is screwed over the cut. | A plate that nobody worked out is no repair.
            - Only the owner's leave is missing. | The owner cannot allow what the code and the maker forbid.
        """),
    )  # fmt: skip


@route(kind="number", level=2, minutes=3, source="crc-2013", title="The largest hole in a joist")
def largest_hole(draw: Draw) -> Problem:
    """A third of the depth."""
    depth = draw.number((7, 14, 0.25, "in"), (180, 360, 5, "mm"))
    band = draw.text(Shown(2, "in"), Shown(51, "mm"))
    key = near(depth.si / 3, 0.01, READ, unit=depth.unit)
    slips = distinct(key, [
        Slip("edges-only", depth.si - 2 * band.si, "Only the bands at both edges were taken off. The hole may also be at most a third of the depth."),
        Slip("a-sixth", depth.si / 6, "A sixth is the rule for notches. A hole may be a third."),
        Slip("half", depth.si / 2, "Half of the depth is too much: the rule says a third."),
        Slip("a-quarter", depth.si / 4, "A quarter is another row. This one says a third."),
    ])  # fmt: skip
    return Problem(
        text=[f"Sawn floor joists {depth} deep cross the line of the pipe. R502.8.1: a hole of at most a third of the depth, {band} from both edges."],
        ask=f"How large may the hole be at most? Answer in {named(key.unit)}.", answer=key, slips=slips,
        words=["A third of the depth. Compare with the outside of the pipe, not with its name: 3 in. pipe is 3.5 in. (89 mm) outside."],
    )  # fmt: skip


@route(kind="number", level=2, minutes=3, source="crc-2013", title="Where the hole's middle may lie")
def hole_middle(draw: Draw) -> Problem:
    """Least distance of a hole's centre from the edge of the joist."""
    hole = draw.number((1.75, 4.5, 0.25, "in"), (45, 115, 5, "mm"))
    band = draw.text(Shown(2, "in"), Shown(51, "mm"))
    key = near(band.si + hole.si / 2, 0.01, READ, unit=hole.unit)
    slips = distinct(key, [
        Slip("band-only", band.si, "This is where the hole's edge may lie. Its middle lies half a hole farther in."),
        Slip("whole-hole", band.si + hole.si, "The whole hole was added. From its edge to its middle it is half."),
        Slip("half-hole", hole.si / 2, "The band of whole wood at the edge was left out."),
    ])  # fmt: skip
    return Problem(
        text=[f"A hole of {hole} goes through a deep joist. Between hole and edge at least {band} of wood must stay."],
        ask=f"How far from the edge does the middle of the hole lie, at least? Answer in {named(key.unit)}.", answer=key, slips=slips,
        words=["The band, and half of the hole."],
    )  # fmt: skip


@route(kind="number", level=2, minutes=3, source="definition", title="Lengths of pipe to carry in", calculator="pipe-takeoff")
def sticks(draw: Draw) -> Problem:
    """Whole lengths of pipe for a route."""
    level, up, out = (draw.number(*ranges) for ranges in (
        ((6, 60, 1, "ft"), (2, 18, 0.5, "m")), ((8, 45, 1, "ft"), (3, 14, 0.5, "m")), ((3, 30, 1, "ft"), (1, 9, 0.5, "m")),
    ))  # fmt: skip
    stick = draw.text(Shown(draw.pick((10, 5)), "ft"), Shown(draw.pick((3, 1.5)), "m"))
    result = solved("pipe-takeoff", pipe_size="3", stick_length=stick, runs=[
        {"length": level, "orientation": "horizontal", "zone": "basement"}, {"length": up, "orientation": "vertical", "zone": "living-space"},
        {"length": out, "orientation": "vertical", "zone": "attic"},
    ])  # fmt: skip
    key = near(result["sticks"], 0, "whole lengths are bought", unit="1", least=0.4)
    by_run = sum(-(-run.si // (stick.si + 1e-9)) for run in (level, up, out))
    slips = distinct(key, [
        Slip("rounded-down", key.value - 1, "It was rounded down: the last piece is missing."),
        Slip("each-run", by_run, "Each run was rounded up by itself. Off-cuts of one run serve the next."),
        Slip("level-left-out", float(-(-(up.si + out.si) // (stick.si + 1e-9))), "The level run was left out."),
        Slip("attic-left-out", float(-(-(level.si + up.si) // (stick.si + 1e-9))), "The run in the attic was left out."),
        Slip("feet", (level.value + up.value + out.value), "This is the length. The question asks how many pieces that is."),
    ])  # fmt: skip
    return Problem(
        text=[f"A route: {level} level under the joists, {up} up through the rooms, {out} in the attic. Pipe comes in lengths of {stick}; off-cuts are joined."],
        ask="How many lengths are carried in? Answer with a whole number.", answer=key, slips=slips, solution=result, steps=("Pipe altogether",),
        words=[f"The sum of the runs, divided by {stick}, rounded up."],
    )  # fmt: skip


@route(kind="order", level=1, minutes=2, source="common-practice", title="The line, drawn backwards")
def backwards_order(draw: Draw) -> Problem:
    """Work from the end to the beginning."""
    steps = but_one(draw, [
        "Choose the place where it may end",
        "Choose where the fan may stand",
        "Draw the line down through every floor",
        "List what each wall, floor and roof on the line needs",
        "Compare with a second route",
        "Ask owner and official, then drill",
    ], (1, 3, 4))  # fmt: skip
    return Problem(
        text=[f"A house with {draw.pick(('two', 'three'))} storeys; suction point and pit are in the {draw.pick(('north', 'south', 'east'))} corner of the basement."],
        ask="Put the choice of the route in order.",
        answer=ordered(draw, steps, "The end decides most and is chosen first. A hole cannot be taken back, so it comes last."),
    )  # fmt: skip


CORDS = (
    ("The fan in the attic gets its power by a cord through the ceiling from a bedroom outlet.", "The cord through the ceiling: the fan needs an outlet or a circuit at its place.", "A cord may not run through walls, floors, ceilings or doors, nor be fixed as wiring."),
    ("The fan hangs in the basement beside the pit, and the pipe goes up through the kitchen closet.", "The fan's place: behind it the pipe is under pressure, in rooms where people live.", "A leak behind the fan blows soil gas into the house. By the US packs it stands in an attic, outdoors, or in a garage with no rooms above."),
    ("The fan is strapped to a stud; the bedroom wall hums at night.", "Fan and pipe touch the frame beside a bedroom.", "Hum comes less from the fan than from what touches the frame. Flexible couplings, and off the wall."),
)  # fmt: skip


@route(kind="what-is-wrong", level=1, minutes=2, source="ccah-2020", title="Looked at from the attic")
def fan_and_cord(draw: Draw) -> Problem:
    """Cord, place and fixing of a fan."""
    seen, right, why = draw.pick(CORDS)
    others = [row for row in CORDS if row[1] != right]
    lines = "\n".join([f"+ {right} | {why}", *(f"- {row[1]} | That was not seen here." for row in others)])
    return Problem(
        text=[f"You come to a system that another firm put in {draw.whole(2, 9)} years ago. {seen}"], ask="What is wrong here?",
        answer=options(draw, f"{lines}\n- Nothing that matters. | Look once more at what was seen."),
    )  # fmt: skip


@route(kind="choice", level=2, minutes=3, source="crc-2013", title="A chase in the common wall")
def party_chase(draw: Draw) -> Problem:
    """A row house: the only chase stands in the rated wall."""
    inside = draw.pick((True, False))
    storeys = draw.whole(2, 3)
    result = solved("vent-route", storeys=storeys, lowest_floor="basement", chase="free", chase_in_party_wall=inside, closets="none", attic="vented", attic_access="hatch",
                    separations="party-wall", walls=[{"name": "front", "street_side": True}], garage_attached=False)  # fmt: skip
    closed = any(row["hard_stops"] for row in result["routes"] if row["route"].startswith("chase"))
    no = ("The chase is no route: it stands in the common rated wall.", "A wall between dwellings holds fire back for a rated time; a plastic pipe in it is for nobody here to allow.")
    yes = ("The chase may be the route: it stands free of the common wall.", "It still crosses floors, and each gap is closed.")
    right, wrong = (no, yes) if closed else (yes, no)
    where = "inside the wall to the neighbour" if inside else "in the middle of the house, away from the neighbour's wall"
    return Problem(
        text=[f"A row house of {storeys} storeys. A free chase goes up {where}. The front wall is on the street."], ask="What about the chase?",
        answer=options(draw, f"""
            + {right[0]} | {right[1]}
            - {wrong[0]} | Look where the chase stands.
            - It may be used with pipe of metal only. | What a rated wall lets through says its listed system, not the material alone.
            - It may be used if the neighbour agrees. | His signature does not hold fire back.
        """), solution=result,
    )  # fmt: skip
