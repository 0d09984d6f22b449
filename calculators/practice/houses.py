"""Practice houses: invented, whole, and decided step by step; the calculators grade each step."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from ..units import from_si, short
from . import house
from .draw import Draw, Shown
from .problem import Decision, House, Problem, Way, solved, template
from .route import WAYS, judged, seen

whole = partial(template, kind="house", level=3, source="demo")
Step = tuple[list[str], Decision]  # what is said of the house for a decision, and the decision
PUMPS = {
    "A": {"us": (("0 gpm", "16 ft"), ("15 gpm", "12 ft"), ("30 gpm", "4 ft"), ("34 gpm", "0 ft")),
          "si": (("0 L/s", "4.9 m"), ("0.95 L/s", "3.7 m"), ("1.9 L/s", "1.2 m"), ("2.15 L/s", "0 m"))},
    "B": {"us": (("0 gpm", "25 ft"), ("20 gpm", "20 ft"), ("40 gpm", "10 ft"), ("50 gpm", "0 ft")),
          "si": (("0 L/s", "7.6 m"), ("1.26 L/s", "6.1 m"), ("2.5 L/s", "3 m"), ("3.15 L/s", "0 m"))},
    "C": {"us": (("0 gpm", "38 ft"), ("40 gpm", "30 ft"), ("80 gpm", "12 ft"), ("95 gpm", "0 ft")),
          "si": (("0 L/s", "11.6 m"), ("2.5 L/s", "9.1 m"), ("5 L/s", "3.7 m"), ("6 L/s", "0 m"))},
}  # fmt: skip
FANS = {
    "K": {"us": {"shutoff": "0.8 in WC", "free_flow": "230 cfm"}, "si": {"shutoff": "200 Pa", "free_flow": "108 L/s"}},
    "L": {"us": {"shutoff": "1.6 in WC", "free_flow": "170 cfm"}, "si": {"shutoff": "400 Pa", "free_flow": "80 L/s"}},
    "M": {"us": {"shutoff": "4 in WC", "free_flow": "110 cfm"}, "si": {"shutoff": "1000 Pa", "free_flow": "52 L/s"}},
}
POWERS = {"K": Shown(25, "W"), "L": Shown(60, "W"), "M": Shown(90, "W")}
TRIES = 60
BAD_TESTS: tuple[tuple[str, Mapping[str, Any]], ...] = (
    ("Two days after the fan, in the laundry beside the pit", {"placement": "wrong-place"}),
    ("Two days after the fan, windows open over day", {"closed_house_hours": "0 h"}),
    ("Two days after the fan, with the fan off to be fair", {"fan_confirmed": False}),
)


def _step(draw: Draw, make: Callable[[Draw], Step]) -> Step:
    """One decision with its facts, drawn anew until its ways differ.  Raises Unfit when they never do."""
    for _ in range(TRIES):
        try:
            return make(draw)
        except house.Unfit as error:
            last = error
    raise last


def _house(draw: Draw, ask: str, words: str, *makers: Callable[[Draw], Step]) -> Problem:
    """The house of these decisions."""
    steps = [_step(draw, make) for make in makers]
    return Problem(text=[line for lines, _ in steps for line in lines], ask=ask, answer=House(tuple(decision for _, decision in steps)), words=[words])


def _route(draw: Draw) -> Step:
    """The way of the pipe, by the places that the calculator gives."""
    said, inputs = seen(draw)
    order = judged(solved("vent-route", **inputs))
    best = min(place for place, _ in order.values() if place is not None)
    ways = [Way(WAYS[way], 0 if place is None else 1 if place == best else 0.5, why) for way, (place, why) in order.items()]
    return said, house.decided(draw, "route", "Which way does the pipe go?", ways)


def _hole(draw: Draw) -> Step:
    """The first hole for a drain inside the footing."""
    wall = draw.number((8, 10, 1, "in"), (200, 250, 10, "mm"))
    footing = Shown(round(wall.value + draw.text(2, 50) * draw.whole(4, 7), 6), wall.unit)
    said = f"The wall is {wall} thick, its footing {footing} wide, the drain inside beside it. Lines and tendons were located; none lie here."
    return [said], house.hole(draw, wall, footing)


def _pump(draw: Draw) -> Step:
    """Pump and line for a wet week."""
    rise, seconds = draw.number((2, 5, 0.5, "in"), (50, 130, 10, "mm")), draw.pick((15, 20, 30))
    lift, line = draw.number((8, 10, 0.5, "ft"), (2.4, 3, 0.1, "m")), draw.number((20, 40, 5, "ft"), (6, 12, 1, "m"))
    pit, step = draw.text(("18 in", "8 in"), ("450 mm", "200 mm"))
    asked = {
        "pit_diameter": pit, "rise_height": rise, "rise_time": f"{seconds} s", "measured_when": "wet", "static_lift": lift, "pipe_length": line,
        "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "check-valve"}], "switch_range": step,
    }  # fmt: skip
    pumps = {name: both[draw.units] for name, both in PUMPS.items()}
    words = "; ".join(f"{name} " + ", ".join(f"{head} at {flow}" for flow, head in points) for name, points in pumps.items())
    said = (f"The pit is {pit} across. In a wet week it rises {rise} in {seconds} s; half as much again is wanted. Lift {lift}; line {line} with 3 sharp elbows and a "
            f"check valve; {step} between off and on. The pump's maker wants a minute or more between starts.")  # fmt: skip
    return [said, f"Pumps from their data sheets: {words}."], house.pump(draw, asked, pumps, (("A", "1-1/2"), ("B", "1-1/2"), ("B", "2"), ("C", "1-1/4")))


def _vent(draw: Draw) -> Step:
    """Fan and pipe."""
    length, elbows = draw.number((30, 50, 5, "ft"), (9, 15, 1, "m")), draw.whole(3, 5)
    soil = draw.text(Shown(draw.whole(6, 20) * 5, "cfm/in WC"), Shown(draw.whole(6, 20) / 100, "L/s/Pa"))
    target = draw.text(Shown(draw.whole(8, 18) / 20, "in WC"), Shown(draw.whole(10, 22) * 10, "Pa"))
    system = {"pipe_length": length, "fittings": [{"kind": "elbow-90", "count": elbows}], "soil_conductance": soil}
    fans: dict[str, Mapping[str, Any]] = {name: {**both[draw.units], "power": POWERS[name]} for name, both in FANS.items()}
    words = "; ".join(f"Fan {name}: {fan['shutoff']} at no flow, {fan['free_flow']} at no suction, {fan['power']}" for name, fan in fans.items())
    said = (f"The vent is {length} with {elbows} sharp elbows. With everything sealed the soil gives {soil}; {target} are wanted at the suction point. "
            "Of the fans that do it unheard the one with least power counts whole.")  # fmt: skip
    return [said, f"Fans from their data sheets: {words}."], house.fan(draw, system, target, fans, (("K", "4"), ("L", "3"), ("L", "4"), ("M", "3")))


def _end(draw: Draw) -> Step:
    """Four outlets: good, buried by snow, too near a window, too low."""
    snow, riser = draw.number((10, 24, 2, "in"), (26, 60, 2, "cm")), draw.number((16, 28, 1, "ft"), (4.9, 8.5, 0.1, "m"))
    tall = Shown(snow.value + draw.text(8, 20), snow.unit)
    low = Shown(max(snow.value - draw.text(4, 10), draw.text(12, 31)) if snow.value > draw.text(12, 31) else snow.value, snow.unit)
    far, near = draw.text((Shown(14, "ft"), Shown(draw.whole(4, 7), "ft")), (Shown(4.5, "m"), Shown(1 + draw.whole(2, 10) / 10, "m")))
    ground = draw.text(Shown(draw.whole(5, 9), "ft"), Shown(1.5 + draw.whole(0, 12) / 10, "m"))

    def beside(distance: Shown) -> list[Mapping[str, Any]]:
        return [{"name": "window", "kind": "window", "horizontal": distance, "vertical": Shown(0, distance.unit), "height": draw.text("4 ft", "1.2 m")}]

    roof = {"roof": "through-roof", "roof_form": "pitched", "direction": "up", "height_above_grade": riser}
    outlets: dict[str, tuple[Mapping[str, Any], list[Mapping[str, Any]]]] = {
        f"Through the roof, {tall} above it, {far} beside a dormer window at its height": ({**roof, "height_above_roof": tall}, beside(far)),
        f"Through the roof, {low} above it, {far} beside a dormer window at its height": ({**roof, "height_above_roof": low}, beside(far)),
        f"Through the roof, {tall} above it, {near} beside a dormer window at its height": ({**roof, "height_above_roof": tall}, beside(near)),
        f"Up the wall, {ground} above the ground, {far} beside a window at its height": ({"roof": "side", "direction": "up", "height_above_grade": ground}, beside(far)),
    }  # fmt: skip
    said = f"The house is in Pennsylvania; an outlet through the roof is {riser} above the ground. {snow} of snow lie on roofs there at most."
    return [said], house.end(draw, "us-pa", snow, outlets)


def _test(draw: Draw) -> Step:
    """Four plans: one counts, one is open, two do not count."""
    early = draw.whole(3, 9)
    text, more = draw.pick(BAD_TESTS)
    plans: dict[str, Mapping[str, Any]] = {
        "Two days after the fan, the house closed the night before and throughout, the device in the den where the rule allows": {},
        "Two days after the fan, the house closed, wherever the owner finds room": {"placement": "unknown"},
        f"{early} hours after the fan, while you are still there": {"test_started_at": f"2026-11-02T{10 + early}:00"},
        text: more,
    }  # fmt: skip
    return [], house.test(draw, plans)


def _suction_point(draw: Draw) -> Step:
    """One suction point: where it leaves most in the weakest corner."""
    long, wide = draw.number((34, 44, 2, "ft"), (10, 13, 0.5, "m")), draw.number((22, 28, 2, "ft"), (7, 8.5, 0.5, "m"))
    least, pull = draw.text((Shown(draw.whole(3, 7) / 100, "in WC"), Shown(0.8, "in WC")), (Shown(draw.whole(8, 18), "Pa"), Shown(200, "Pa")))
    edge = draw.text(Shown(1, "ft"), Shown(0.3, "m"))

    def part(side: Shown, share: float) -> Shown:
        return Shown(round(side.value * share, 2), side.unit)

    places = {
        "In the middle of the slab": (part(long, 0.5), part(wide, 0.5)),
        "At the middle of the long wall": (part(long, 0.5), edge),
        "In the corner by the meter": (edge, edge),
    }
    found = {}
    for text, (x, y) in places.items():
        result = solved("suction-reach", slab=[{"width": long, "depth": wide}], pits=[{"x": x, "y": y, "radius": draw.text("9 in", "230 mm"), "suction": pull}],
                        layer="crushed-base", slab_condition="ordinary", layer_state="dry")  # fmt: skip
        found[text] = min(span.value for span in result["corner_suctions"])
    best = max(found.values())
    ways = []
    for text, value in found.items():
        corner = house.say(draw, value, "in WC", "Pa")
        if value < least.si:
            ways.append(Way(text, 0, f"It leaves {corner} in the weakest corner; {least} are wanted."))
        elif value == best:
            ways.append(Way(text, 1, f"It leaves {corner} in the weakest corner, the most of the three; {least} are wanted."))
        else:
            ways.append(Way(text, 0.5, f"It leaves {corner} in the weakest corner: enough by the sum, and another place leaves more."))
    said = (f"A house on a slab of {long} by {wide} over crushed stone, with ordinary cracks and no drain. With {pull} at the suction point, {least} are wanted "
            "in the weakest corner.")  # fmt: skip
    return [said], house.decided(draw, "suction point", "Where does the suction point go?", ways)


def _riser(draw: Draw) -> Step:
    """Bare or insulated, wide or narrow: frost by the calculator."""
    outside, out = draw.number((14, 26, 2, "ft"), (4.5, 8, 0.5, "m")), draw.number((-10, 5, 5, "degF"), (-24, -15, 1, "degC"))
    flow = draw.text("30 cfm", "14 L/s")
    kinds = {
        "Bare 3 in. pipe": {"pipe_size": "3"},
        f"3 in. pipe with {draw.text('1 in.', '25 mm')} of insulation, kept from the weather": {"pipe_size": "3", "insulation_thickness": draw.text("1 in", "25 mm")},
    }
    counts = {"none": 1.0, "low": 1.0, "some": 0.5, "high": 0.0}
    frosts = {"none": "no frost", "low": "no frost, but near it", "some": "frost in its upper part", "high": "frost from near the beginning"}
    ways = []
    for text, more in kinds.items():
        result = solved("cold-stack", flow=flow, outdoor_length=outside, outdoor_temperature=out, wind="7 mph", **more)
        wall = f"{round(from_si(result['wall_end_temperature'], draw.text('degF', 'degC'))):g} {draw.text('°F', '°C')}"
        ways.append(Way(text, counts[result["risk"]], f"Its inner wall ends at {wall}: {frosts[result['risk']]}."))
    ways.append(Way("Bare 3 in. pipe with a cap against rain", 0, "A cap is the first thing to ice, and it turns the exhaust down."))
    said = f"{outside} of the pipe run up the outside wall. The coldest week has {out}; about {flow} go up the pipe then."
    return [said], house.decided(draw, "riser", "What goes up the outside wall?", ways)


def _burner(draw: Draw) -> Step:
    """The water heater: what the fans add beside its limit, and what is done about it."""
    leaks, hood = draw.number((1100, 2000, 100, "cfm"), (500, 950, 50, "L/s")), draw.number((120, 260, 20, "cfm"), (60, 120, 10, "L/s"))
    air, out = draw.number((10, 30, 5, "cfm"), (5, 14, 1, "L/s")), draw.number((0, 30, 5, "degF"), (-18, -1, 1, "degC"))
    result = solved("spillage-check", house={"leakage_at_50Pa": leaks}, outdoor_temperature=out, exhausts=[{"name": "dryer and hood", "flow": hood}],
                    system_house_air=air, appliances=[{"kind": "natural-draft-water-heater"}])  # fmt: skip
    row = result["appliances"][0]
    added = f"By the balance the fans add {short(row['added'], 2)} Pa of the {short(row['limit'], 2)} Pa."
    side = "over" if row["margin"] < 0 else "within"
    said = (f"A gas water heater alone on its vent stands in the basement (limit 2 Pa by a programme's table, seen restated). The house leaks {leaks} at 50 Pa; dryer "
            f"and hood take out {hood}, the radon fan {air} of house air. It is {out} outside.")  # fmt: skip
    return [said], house.decided(draw, "burner", "What about the water heater?", [
        Way("Test it for spillage in the worst case, before the system runs and again with it; off if it spills", 1, f"{added} The sum is {side} the limit, and no sum decides: the test does."),
        Way("Test it once, after the work", 0.5, f"{added} Without a test before, nobody can tell the system's fault from the vent's."),
        Way("Nothing, with a carbon monoxide alarm on the wall", 0, f"{added} An alarm stays silent for hours at levels that harm. It is the last guard."),
        Way("Nothing: the radon fan is small", 0, f"{added} Of it the radon fan's part is {short(result['added_by_system'], 2)} Pa, on a vent that may be at its limit."),
    ])  # fmt: skip


@whole(part="the-sump", minutes=15, calculator="pump-sizing", title="Practice house: a pit, a drain and two storeys")
def house_with_drain(draw: Draw) -> Problem:
    """Six decisions: route, hole, pump, pipe and fan, end, test."""
    words = "Each decision is graded by itself. In a real house a burner comes before all of them: test it with everything on."
    return _house(draw, "Decide on all six.", words, _route, _hole, _pump, _vent, _end, _test)


@whole(part="under-the-slab", minutes=12, calculator="suction-reach", title="Practice house: a slab and no drain")
def house_on_slab(draw: Draw) -> Problem:
    """Five decisions: suction point, pipe and fan, riser, end, test."""
    words = "Without test holes the suction point is a guess with figures. Drill the weakest corner first, once lines and tendons are located."
    return _house(draw, "Decide on all five.", words, _suction_point, _vent, _riser, _end, _test)


@whole(part="choose-the-route", minutes=12, calculator="vent-route", title="Practice house: which way out?")
def house_way_out(draw: Draw) -> Problem:
    """Five decisions in a house with a burner: route, pipe and fan, end, burner, test."""
    words = "What the calculators say is a plan. The official, the owner, the spillage test and the radon test decide."
    return _house(draw, "Decide on all five.", words, _route, _vent, _end, _burner, _test)
