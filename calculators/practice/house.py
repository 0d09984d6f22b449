"""The decisions in a practice house: each way is worked out by a calculator, and that says what it counts."""

from collections.abc import Mapping, Sequence
from typing import Any

from ..result import Result
from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Decision, Way, solved

LOUD = "1600 ft/min"  # from here air is heard in the pipe: SGM-SF 2017, 6.3.8
Asked = Mapping[str, Any]


class Unfit(Exception):
    """With these numbers no way counts whole, or every way does."""


def decided(draw: Draw, name: str, ask: str, ways: Sequence[Way]) -> Decision:
    """A decision with its ways shuffled.  Raises Unfit when no way counts whole, or every way does."""
    counted = [way.credit for way in ways]
    if not min(counted) < max(counted) == 1:
        raise Unfit(f"{name}: the ways count {counted}")
    return Decision(name, ask, tuple(draw.shuffled(ways)))


def say(draw: Draw, value: float, us: str, metric: str, digits: int = 2) -> str:
    """A value as people read it, in the units of the draw."""
    unit = draw.text(us, metric)
    return str(Shown(float(short(from_si(value, unit), digits)), unit))


def hole(draw: Draw, wall: Shown, footing: Shown) -> Decision:
    """Where the core is drilled for a drain inside the footing."""
    result = solved("tile-offset", wall_thickness=wall, footing_width=footing, drain_side="inside", tile_position="beside", known_below="none-found")
    near, first, far = (result[name] for name in ("nearest_center", "first_hole", "farthest_center"))
    unit = draw.text("in", "mm")
    step = draw.text(0.25, 5)

    def shown(value: float) -> Shown:
        return Shown(round(from_si(value, unit) / step) * step, unit)

    def way(place: float) -> Way:
        at = shown(place)
        if abs(at.si - first) <= si("0.3 in"):
            return Way(f"{at} from the wall", 1, f"Between the nearest place of the drain's middle, {shown(near)}, and the farthest, {shown(far)}.")
        if near <= at.si <= far + si("0.1 in"):
            return Way(f"{at} from the wall", 0.5, f"The drain may lie there, but {shown(first)} halves what is not known: begin there.")
        side = "on the footing" if at.si < near else "past the drain"
        return Way(f"{at} from the wall", 0, f"That is {side}: its middle lies between {shown(near)} and {shown(far)} from the wall.")

    return decided(draw, "hole", "Where is the middle of the first hole?", [way(first), way(far), way(near - si("2.5 in")), way(far + si("6 in"))])


def pump(draw: Draw, pit: Asked, pumps: Mapping[str, Sequence[tuple[str, str]]], choices: Sequence[tuple[str, str]]) -> Decision:
    """Pump and line: the design flow, grit, and a minute between starts."""
    ways = []
    for name, size in choices:
        points = [{"flow": flow, "head": head} for flow, head in pumps[name]]
        result = solved("pump-sizing", **pit, pump={"points": points}, pipe_size=size)
        flow, wanted = (say(draw, result[key], "gpm", "L/s") for key in ("delivered_flow", "design_flow"))
        speed, cycle = result["velocity"], result["worst_cycle_time"]
        text = f"Pump {name} with a {size} in. line"
        if result["delivered_flow"] < result["design_flow"]:
            ways.append(Way(text, 0, f"It delivers {flow}; {wanted} are wanted. In a wet week the pit overflows."))
        elif speed < si("2 ft/s"):
            ways.append(Way(text, 0.5, f"It delivers {flow}, but the water goes only {say(draw, speed, 'ft/s', 'm/s')} fast: grit stays in the line."))
        elif cycle < si("60 s"):
            ways.append(Way(text, 0.5, f"It delivers {flow}, but at worst it starts every {short(cycle, 2)} s: it wears out soon."))
        else:
            ways.append(Way(text, 1, f"It delivers {flow} of the {wanted} wanted, at {say(draw, speed, 'ft/s', 'm/s')}, and starts at worst every {short(cycle, 2)} s."))
    return decided(draw, "pump", "Which pump and line?", ways)


def fan(draw: Draw, system: Asked, target: Shown, fans: Mapping[str, Asked], choices: Sequence[tuple[str, str]]) -> Decision:
    """Fan and pipe: suction at the suction point, air that is not heard, and no more power than needed."""
    found = []
    for name, size in choices:
        curve = {key: value for key, value in fans[name].items() if key != "power"}
        result = solved("fan-point", **system, fan=curve, pipe_size=size)
        works = result["pit_suction"] >= target.si
        found.append((name, size, result, works, works and result["velocity"] < si(LOUD), fans[name]["power"]))
    least = min((power.value for *_, quiet, power in found if quiet), default=0)
    ways = []
    for name, size, result, works, quiet, power in found:
        pull, speed = say(draw, result["pit_suction"], "in WC", "Pa"), say(draw, result["velocity"], "ft/min", "m/s")
        text = f"Fan {name} with {size} in. pipe"
        if not works:
            ways.append(Way(text, 0, f"It leaves {pull} at the suction point; {target} are wanted."))
        elif not quiet:
            ways.append(Way(text, 0.5, f"It leaves {pull}, but the air goes {speed} fast and is heard in the rooms."))
        elif power.value > least:
            ways.append(Way(text, 0.5, f"It leaves {pull}; {target} are wanted. It takes {power} day and night where {least:g} W would do."))
        else:
            ways.append(Way(text, 1, f"It leaves {pull}; {target} are wanted. The air goes {speed} fast, and no quieter one takes less than {power}."))
    return decided(draw, "pipe and fan", "Which fan and pipe?", ways)


def end(draw: Draw, rules: str, snow: Shown, outlets: Mapping[str, tuple[Asked, Sequence[Asked]]]) -> Decision:
    """Where the pipe ends: the rows of a pack, then the snow."""
    ways = []
    for text, (discharge, openings) in outlets.items():
        result = solved("discharge-clearances", rules=rules, discharge=discharge, openings=openings, snow_depth=snow)
        broken = [check for check in result.work.checks if check.ok is False]
        rows = [check.text.split(". Or: ")[0].rstrip(".") for check in broken if check.id != "snow"]
        if rows:
            ways.append(Way(text, 0, f"Not met: {rows[0]}."))
        elif broken:
            ways.append(Way(text, 0.5, f"The rows that were judged are met, but {snow} of snow bury it."))
        else:
            ways.append(Way(text, 1, "The rows that could be judged are met, and it ends above the snow."))
    return decided(draw, "end", "Where does it end?", ways)


def test(draw: Draw, plans: Mapping[str, Asked]) -> Decision:
    """When and how the first test is made."""
    base = {
        "protocol": "post-mitigation", "readings": [{"value": "1.1 pCi/L", "location": "basement"}], "system_started_at": "2026-11-02T10:00",
        "test_started_at": "2026-11-04T10:00", "test_hours": "72 h", "closed_house_hours": "13 h", "fan_confirmed": True, "placement": "right-place",
    }  # fmt: skip
    ways = []
    for text, more in plans.items():
        result = solved("radon-test", **(base | dict(more)))
        if result["valid"] is None:
            ways.append(Way(text, 0.5, f"Whether it counts is open: by the rule {_reason(result, None)}"))
        elif result["valid"]:
            ways.append(Way(text, 1, "It counts: a day with the fan on, the house closed, hours enough, the right place."))
        else:
            ways.append(Way(text, 0, f"It does not count: by MAH 2019 {_reason(result, False)}"))
    return decided(draw, "test", "How is it tested?", ways)


ASKED = {
    "start-delay": "the data begin 24 hours after the fan or later",
    "closed-before": "the house is closed from 12 hours before the data to their end",
    "fan-ran": "the fan runs from a day before the test to its end",
    "placed": "the device stands where the rule allows, and nobody moves it",
}


def _reason(result: Result, ok: bool | None) -> str:
    check = next(check for check in result.work.checks if check.ok is ok and check.id != "below-level")
    return f"{ASKED.get(check.id, check.text).rstrip('.')}."
