"""Judges a discharge by the rows of one rule pack, and finds the least height at which they would be met."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from ..tables import rule_pack, si_of
from .clearance_targets import ABOUT, EPS, LISTS, TILTS, Branch, better, branch, breakpoints, called

HEIGHTS = {
    "height_above_grade": "height_above_grade",
    "above_roof_edge": "height_above_roof",
    "above_roof_surface": "height_above_roof",
}
CONDITIONS = ("roof", "roof_form", "direction", "rain_cap", "below_roof", "wall_higher_than_pipe")  # that are asked
FAN_ROWS = ("fan_place", "fan_beneath_conditioned_space")
OTHER = ("direction", "angle_from_vertical", "rain_cap", "wall_taller_distance", "pressure_pipe_inside", *FAN_ROWS)


class Outcome(NamedTuple):
    """What one row says of one thing: ``about`` is the thing, ``by_height`` whether a taller riser changes it."""

    row: dict[str, Any]
    id: str
    about: str
    ok: bool | None
    text: str
    required: Any = None
    found: Any = None
    margin: float | None = None
    needs: tuple[str, ...] = ()
    by_height: bool = False
    stop: bool = False


class Item(NamedTuple):
    """One thing to judge: a row (with its alternative, if one of two is enough) and the target, if it is about one."""

    row: dict[str, Any]
    other: dict[str, Any] | None
    path: str
    target: dict[str, Any]
    cones: dict[bool, float]


def items(pack_id: str, site: dict[str, Any]) -> list[Item]:
    """All that a pack has to say of a site, in the order of its rows."""
    rows = {row["id"]: row for row in rule_pack(pack_id)["rows"]}
    spreading = [row for row in rows.values() if row["quantity"] == "spread_cone_angle"]
    cones = {row["condition"]["rain_cap"]: row["value"] for row in spreading}
    found: list[Item] = []
    seen: set[str] = set()
    for id, row in rows.items():
        seen.add(id)
        if row["quantity"] in HEIGHTS or row["quantity"] in OTHER:
            found.append(Item(row, None, "", {}, cones))
        other = rows.get(row.get("either", ""))
        if row["quantity"] not in ABOUT or (other and other["id"] in seen):
            continue
        for about in row.get("applies_to", ABOUT[row["quantity"]]):
            for i, target in enumerate(site[LISTS[about]]):
                if target["kind"] not in row["condition"].get("opening_kind_not", ()):
                    found.append(Item(row, other, f"{LISTS[about]}[{i}]", target, cones))
    return found


def judge(listed: list[Item], discharge: dict[str, Any]) -> list[Outcome]:
    """Every row of these items that applies to the discharge."""
    return [outcome for item in listed if (outcome := compare(item, discharge))]


def compare(item: Item, discharge: dict[str, Any]) -> Outcome | None:
    """One row with the outlet as it is; None where the row does not apply."""
    applies, needs = _applies(item.row, discharge, 0.0)
    if applies is False:
        return None
    if item.path:
        return _target(item, discharge, () if applies else needs)
    text = _worded(item.row)
    if item.row["quantity"] in HEIGHTS:
        return _height(item.row, text, discharge, 0.0, () if applies else needs)
    return _other(item.row, text, discharge)


def _worded(row: dict[str, Any]) -> str:
    return row["text"] + ("" if row["mark"] == "seen" else f" (Mark of this row: {row['mark']}.)")


def _applies(row: dict[str, Any], discharge: dict[str, Any], rise: float) -> tuple[bool | None, tuple[str, ...]]:
    """Whether the row's condition holds here; what is missing to tell.  What is not asked about is taken to hold."""
    needs: list[str] = []
    for name, wanted in row["condition"].items():
        if name not in CONDITIONS:
            continue
        value = _condition(name, discharge, rise)
        if value is None:
            needs.append("discharge." + ("height_above_roof" if name == "below_roof" else name))
        elif value != wanted:
            return False, ()
    return (None if needs else True), tuple(needs)


def _condition(name: str, discharge: dict[str, Any], rise: float) -> Any:
    """What a condition of a row is here; None where it was not given."""
    if name == "below_roof":
        above = discharge["height_above_roof"]
        return False if discharge["roof"] != "side" else None if above is None else above + rise < -EPS
    if name == "wall_higher_than_pipe":
        return discharge[name] or discharge["horizontal_to_wall_above"] is not None
    return discharge[name]


def _height(
    row: dict[str, Any], text: str, discharge: dict[str, Any], rise: float, unknown: tuple[str, ...]
) -> Outcome:
    name, required = HEIGHTS[row["quantity"]], si_of(row)
    given = discharge[name]
    needs = unknown or (() if given is not None else (f"discharge.{name}",))
    if row["quantity"] == "above_roof_surface" and discharge["roof"] == "side":
        text += " The row speaks of a pipe through the roof; the height above the roof edge was compared."
    about = "height above grade" if name == "height_above_grade" else "height above the roof"
    if needs:
        return Outcome(row, row["id"], about, None, text, required, None, None, needs, True)
    margin = given + rise - required
    ok = margin > EPS if row["relation"] == ">" else margin >= -EPS
    return Outcome(row, row["id"], about, ok, text, required, given + rise, margin, (), True)


def _way(item: Item, discharge: dict[str, Any], rise: float) -> Branch:
    """The comparison with the target of an item: the better one, where one of two rows is enough."""

    def one(asked: dict[str, Any]) -> Branch:
        return branch(asked, item.target, path=item.path, rise=rise, discharge=discharge, cones=item.cones)

    return better(one(item.row), one(item.other)) if item.other else one(item.row)


def _target(item: Item, discharge: dict[str, Any], unknown: tuple[str, ...]) -> Outcome:
    row, id, text = item.row, f"{item.row['id']}:{item.path}", _worded(item.row)
    if item.other:
        text += f" {_worded(item.other)}"
    text = f"{called(item.target, item.path)}: {text}"
    if unknown:
        return Outcome(row, id, item.path, None, text, si_of(row), None, None, unknown, True)
    best = _way(item, discharge, 0.0)
    text += f" {'Open' if best.ok is None else 'Compared here'}: {best.how}."
    return Outcome(row, id, item.path, best.ok, text, best.required, best.found, best.margin, best.needs, True)


def _other(row: dict[str, Any], text: str, discharge: dict[str, Any]) -> Outcome:
    quantity, id, direction = row["quantity"], row["id"], discharge["direction"]
    if quantity in ("direction", "angle_from_vertical"):
        if direction is None:
            return Outcome(row, id, "direction", None, text, needs=("discharge.direction",))
        if quantity == "direction":
            return Outcome(row, id, "direction", direction in row["value"], text, ", ".join(row["value"]), direction)
        tilt, most = TILTS[direction], row["value"]
        return Outcome(row, id, "direction", tilt <= most, text, f"at most {most} degrees", f"{tilt:g} degrees")
    if quantity == "rain_cap":
        capped = discharge["rain_cap"]
        return Outcome(row, id, "rain cap", capped == row["value"], text, row["value"], capped)
    if quantity == "wall_taller_distance":
        required, found = si_of(row), discharge["horizontal_to_wall_above"]
        if found is None:
            return Outcome(row, id, "wall", None, text, required, needs=("discharge.horizontal_to_wall_above",))
        return Outcome(row, id, "wall", found - required >= -EPS, text, required, found, found - required)
    if quantity == "pressure_pipe_inside":
        inside, ok = discharge["pressure_pipe_inside"], discharge["pressure_pipe_inside"] == row["value"]
        if not ok:
            text = f"Pipe on the pressure side of the fan runs inside the house. The rule: {text}"
        return Outcome(row, id, "pressure pipe", ok, text, row["value"], inside, stop=not ok and bool(row.get("stop")))
    return _fan(row, text, discharge)


def _fan(row: dict[str, Any], text: str, discharge: dict[str, Any]) -> Outcome:
    place, above = discharge["fan_location"], discharge["conditioned_space_above_fan"]
    id, about = row["id"], "fan place"
    if place is None:
        return Outcome(row, id, about, None, text, needs=("discharge.fan_location",))
    if row["quantity"] == "fan_place":
        ok = (place in row["value"]) == (row["relation"] == "in")
        wanted = ("" if row["relation"] == "in" else "not ") + ", ".join(row["value"])
        if not ok:
            text = f"The fan is here: {place.replace('-', ' ')}. The rule: {text}"
        return Outcome(row, id, about, ok, text, wanted, place, stop=not ok and bool(row.get("stop")))
    if place == "outdoors":
        return Outcome(row, id, about, True, text, "not beneath", "outdoors")
    if above is None:
        return Outcome(row, id, about, None, text, needs=("discharge.conditioned_space_above_fan",))
    found = f"{place}, {'beneath it' if above else 'not beneath it'}"
    if above:
        text = f"The fan ({place.replace('-', ' ')}) lies beneath heated or cooled space. The rule: {text}"
    return Outcome(row, id, about, not above, text, "not beneath", found, stop=above and bool(row.get("stop")))


def verdict(outcomes: list[Outcome]) -> bool | None:
    """False when a row is not met; None when one lacks its number (the fan's place apart) or none was judged."""
    if any(o.ok is False for o in outcomes):
        return False
    if any(o.ok is None and o.row["quantity"] not in FAN_ROWS for o in outcomes) or not any(o.ok for o in outcomes):
        return None
    return True


def worst(outcomes: list[Outcome]) -> float | None:
    """The least margin [m] of the length rows that were judged."""
    return min((o.margin for o in outcomes if o.margin is not None), default=None)


def shortest_riser(listed: list[Item], now: list[Outcome], discharge: dict[str, Any]) -> float | None:
    """Least height above grade [m] at which all items would be met; None when no height does it or no row asks for one.

    ``now`` is how they are judged as it is.  The height above the roof and all verticals rise with the outlet; strings
    keep their length.
    """
    heights = [o for o in now if o.row["quantity"] in HEIGHTS and o.by_height]
    if not heights or any(o.ok is False and not o.by_height for o in now):
        return None
    at = discharge["height_above_grade"]
    asked = [item for item in listed if item.path or item.row["quantity"] in HEIGHTS]
    for rise in _candidates(asked, discharge, at):
        for i, item in enumerate(asked):
            if not _met(item, discharge, rise):
                asked.insert(0, asked.pop(i))  # what failed once is asked first next time
                break
        else:
            return max(at + rise, 0.0)
    return None


def _candidates(asked: list[Item], discharge: dict[str, Any], at: float) -> Iterator[float]:
    found = {-at}
    for item in asked:
        if item.path:
            rows = [item.row] + ([item.other] if item.other else [])
            found.update(breakpoints(rows, item.target, item.cones, discharge["rain_cap"]))
        elif (given := discharge[HEIGHTS[item.row["quantity"]]]) is not None:
            found.add(si_of(item.row) - given)
            if discharge["roof"] == "side" and discharge["height_above_roof"] is not None:
                found.add(-discharge["height_above_roof"])
    return iter(sorted(rise for rise in found if rise >= -at - EPS))


def _met(item: Item, discharge: dict[str, Any], rise: float) -> bool:
    """Whether a row on a height or a target is met, or does not apply, with the outlet raised by ``rise`` [m]."""
    applies, _ = _applies(item.row, discharge, rise)
    if not applies:
        return applies is False
    found = _way(item, discharge, rise) if item.path else _height(item.row, "", discharge, rise, ())
    return found.ok is True if found.margin is None else found.margin >= -EPS


def unjudged_rows(pack_id: str) -> list[str]:
    """Rows on the outlet that this calculator does not ask about."""
    quiet = ("screen_mesh", "exhaust_place", "support_from_exhaust")
    rows = [row for row in rule_pack(pack_id)["rows"] if row["quantity"] in quiet]
    return [f"{row['id']}, not asked about: {row['text']}" for row in rows]


def disagreements(packs: dict[str, list[Outcome]], passes: dict[str, bool | None], names: dict[str, str]) -> list[str]:
    """Where two packs differ on the same thing, one sentence each; the whole first."""
    (one, first), (two, second) = packs.items()
    said = {True: "meets", False: "does not meet", None: "cannot be told for"}
    texts = []
    if passes[one] != passes[two]:
        whole = f"it {said[passes[one]]} {one} and {said[passes[two]]} {two}"
        texts.append(f"As a whole: {whole}, as far as the rows could be judged.")
    for about in dict.fromkeys(o.about for o in (*first, *second)):
        mine, theirs = ([o for o in side if o.about == about] for side in (first, second))
        a, b, name = _of(mine), _of(theirs), names.get(about, about)
        if not mine or not theirs:
            failed, by, none = (mine, one, two) if mine else (theirs, two, one)
            if _of(failed) is False:
                texts.append(f"{name}: {_rows(failed)} of {by} is not met; no row on this was seen in {none}.")
        elif a is not None and b is not None and a != b:
            texts.append(f"{name}: it {said[a]} {_rows(mine)} of {one} and {said[b]} {_rows(theirs)} of {two}.")
    return texts


def _of(outcomes: list[Outcome]) -> bool | None:
    if any(o.ok is False for o in outcomes):
        return False
    return None if any(o.ok is None for o in outcomes) else True


def _rows(outcomes: list[Outcome]) -> str:
    """Row ids; where something fails, only the failing ones."""
    failed = [o.row["id"] for o in outcomes if o.ok is False]
    return " and ".join(failed or [o.row["id"] for o in outcomes])
