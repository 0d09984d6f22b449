"""How one row of a rule pack is compared with one window, building or place where people sit."""

from typing import Any, NamedTuple

from ..physics import clearance
from ..tables import si_of

EPS = 1e-9
Cones = dict[bool, float]
Needs = tuple[str, ...]
TILTS = {"up": 0.0, "up-45": 45.0, "horizontal": 90.0}  # degrees from vertical, as the words say
LISTS = {"opening": "openings", "adjacent_opening": "adjacent_buildings", "people_area": "people_areas"}
# The lists that a quantity is about, where the row itself does not name them.
ABOUT = {
    "distance_to_opening": ("opening",),
    "above_opening": ("opening",),
    "side_distance_to_opening": ("opening",),
    "distance_to_adjacent_opening": ("adjacent_opening",),
    "above_people_area": ("people_area",),
    "side_distance_to_people_area": ("people_area",),
    "jet_path_distance": ("opening", "adjacent_opening", "people_area"),
}


class Branch(NamedTuple):
    """One way to meet a row: the verdict, the numbers in m, what is missing, and what was measured."""

    ok: bool | None
    required: float | None
    found: float | None
    margin: float | None
    needs: tuple[str, ...]
    how: str


def called(target: dict[str, Any], path: str) -> str:
    """The name of an opening or place, or its kind with its number in the list."""
    name, _, place = path.partition("[")
    whose = "adjacent " if name == LISTS["adjacent_opening"] else ""
    return target.get("name") or f"{whose}{target['kind']} {int(place.rstrip(']')) + 1}"


def missing(path: str, target: dict[str, Any], *names: str) -> tuple[str, ...]:
    """The paths of those members that were not given."""
    return tuple(f"{path}.{name}" for name in names if target.get(name) is None)


def distance(target: dict[str, Any], path: str, v: float | None) -> tuple[float | None, tuple[str, ...], str]:
    """Distance [m] from the outlet to the target: along the string if given, else straight; what is missing; how."""
    if target.get("path") is not None:
        return target["path"], (), "distance along the string"
    if v is None or target.get("horizontal") is None:
        return None, missing(path, target, "horizontal", "vertical"), "straight distance"
    gap = clearance.vertical_gap(v=v, H=reach(target, v))
    return clearance.slant_distance(h=target["horizontal"], g=gap), (), "straight distance"


def reach(target: dict[str, Any], v: float) -> float:
    """Height [m] of the target; one that was not given reaches to the level of the outlet."""
    given = target.get("height")
    return max(-v, 0.0) if given is None else given


def side(target: dict[str, Any], path: str) -> tuple[float | None, tuple[str, ...], str]:
    """Distance [m] to the side: along the string if given, else level; what is missing; how."""
    if target.get("path") is not None:
        return target["path"], (), "distance along the string"
    return target.get("horizontal"), missing(path, target, "horizontal"), "level distance"


def branch(
    row: dict[str, Any], target: dict[str, Any], *, path: str, rise: float, discharge: dict[str, Any], cones: Cones
) -> Branch:
    """One row against one target, the outlet raised by ``rise`` [m]; ``cones`` are the pack's, in degrees, by cap."""
    required = si_of(row)
    v = None if target.get("vertical") is None else target["vertical"] + rise
    quantity = row["quantity"]
    if quantity == "jet_path_distance":
        return _jet(required, target, path, v, discharge)
    if quantity.startswith("above_"):
        return _plain(required, v, missing(path, target, "vertical"), "height above its top")
    if quantity.startswith("side_"):
        found = _plain(required, *side(target, path))
        if "clear_of_spread_cone" not in row["condition"]:
            return found
        return _clear_of_cone(found, target, path=path, v=v, discharge=discharge, cones=cones)
    return _plain(required, *distance(target, path, v))


def _plain(required: float, found: float | None, needs: tuple[str, ...], how: str) -> Branch:
    if found is None:
        return Branch(None, required, None, None, needs, how)
    margin = found - required
    return Branch(margin >= -EPS, required, found, margin, (), how)


def better(first: Branch, second: Branch) -> Branch:
    """Of two ways of which one is enough, the one that counts: met, else still open, else the larger margin."""
    both = sorted((first, second), key=lambda b: -1e99 if b.margin is None else b.margin, reverse=True)
    met = [b for b in both if b.ok]
    if met:
        return met[0]
    if any(b.ok is None for b in both):
        needs = tuple(dict.fromkeys(n for b in (first, second) for n in b.needs))
        return both[0]._replace(ok=None, found=None, margin=None, needs=needs)
    return both[0]


def _clear_of_cone(
    found: Branch, target: dict[str, Any], *, path: str, v: float | None, discharge: dict[str, Any], cones: Cones
) -> Branch:
    """The side distance, and the target outside the cone that the jet fills: the smaller margin of the two."""
    direction, capped, level = discharge["direction"], discharge["rain_cap"], target.get("horizontal")
    upward = capped or direction in ("up", "up-45")
    if found.ok is False or (upward and v is not None and v >= 0):
        return found  # too near already, or all of it below an outlet whose jet goes upward
    if direction is None and not capped:
        return found._replace(ok=None, margin=None, needs=(*found.needs, "discharge.direction"))
    if direction == "up" or capped:
        if v is None or level is None:
            needs = tuple(dict.fromkeys((*found.needs, *missing(path, target, "horizontal", "vertical"))))
            return found._replace(ok=None, margin=None, needs=needs)
        if found.margin is None:
            return found
        slope = clearance.cone_slope(degrees=cones[capped])
        left = clearance.cone_clearance(h=level, m=slope, z=-v)
        if left >= found.margin:
            return found
        return Branch(left >= -EPS, level - left, level, left, (), "level distance outside the spread cone")
    aimed = target.get("in_jet_path")
    if aimed is None:
        return found._replace(ok=None, margin=None, needs=(*found.needs, f"{path}.in_jet_path"))
    return found._replace(ok=False, found=None, margin=None, how="the jet is aimed at it") if aimed else found


def _jet(required: float, target: dict[str, Any], path: str, v: float | None, discharge: dict[str, Any]) -> Branch:
    """Distance along the jet, where the target stands in it; far enough is enough, wherever the jet goes."""
    aimed, needs, how = _aimed(target, path, v, discharge["direction"])
    if aimed is False:
        return Branch(True, None, None, None, (), how)
    found, absent, measured = distance(target, path, v)
    if found is None:
        return Branch(None, required, None, None, tuple(dict.fromkeys((*absent, *needs))), how)
    far = found - required
    if aimed or far >= -EPS:
        return Branch(far >= -EPS, required, found, far, (), f"{measured}; {how}")
    return Branch(None, required, None, None, needs, how)


def _aimed(target: dict[str, Any], path: str, v: float | None, direction: str | None) -> tuple[bool | None, Needs, str]:
    """Whether the target stands in the straight line out of the pipe (None: not known); what is missing; in words."""
    given, level = target.get("in_jet_path"), target.get("horizontal")
    if given is not None:
        return given, (), f"given as {'' if given else 'not '}in the jet's line"
    asked = (f"{path}.in_jet_path",)
    if direction is None:
        return None, ("discharge.direction",), "the jet's direction was not given"
    if direction != "horizontal" and v is not None and v >= 0:
        return False, (), "taken as not in the jet's line: the jet goes up and this lies below the outlet"
    if direction == "up":
        if level is None:
            return None, missing(path, target, "horizontal", "vertical"), "the jet goes straight up"
        if level > 0:
            return False, (), "taken as not in the jet's line: the jet goes straight up and this lies to the side"
        if v is None:
            return None, missing(path, target, "vertical"), "not known whether it is above the outlet"
        return True, (), "straight above the outlet"
    if v is None:
        return None, (*missing(path, target, "vertical"), *asked), "not known whether the jet is aimed at it"
    if direction == "horizontal" and not path.startswith("people_areas"):
        if v >= 0:
            return False, (), "taken as not in the jet's line: a level jet passes above it"
        if target.get("height") is not None and v <= -target["height"]:
            return False, (), "taken as not in the jet's line: a level jet passes below it"
    return None, asked, "not known whether the jet is aimed at it"


def breakpoints(rows: list[dict[str, Any]], target: dict[str, Any], cones: Cones, capped: bool) -> list[float]:
    """The rises [m] of the outlet at which a row on this target may come to be met."""
    v, h = target.get("vertical"), target.get("horizontal")
    if v is None:
        return []
    H = target.get("height")
    found = [-v] if H is None else [-v, -H - v]
    if h is not None and capped in cones:
        found.append(-h / clearance.cone_slope(degrees=cones[capped]) - v)
    for row in rows:
        required = si_of(row)
        if row["quantity"].startswith("above_"):
            found.append(required - v)
        elif h is not None and target.get("path") is None:
            gap = clearance.rise_for_distance(d=required, h=h)
            found += [gap - v] if H is None else [gap - v, -H - gap - v]
    return found
