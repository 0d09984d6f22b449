"""The routes a vent can take out of a house: what is known of each, and their order."""

from collections.abc import Sequence
from math import hypot
from typing import Any, NamedTuple

from ..tables import pipe, si_of
from ..units import read
from .route_rules import Outcome, judge, limits

INDOORS = ("basement", "crawl-space", "window-well", "conditioned")
PLACES = {
    "chase": ("attic", "outdoors"),
    "closets": ("attic", "outdoors"),
    "garage": ("attic", "garage", "outdoors"),
    "wall": ("outdoors",),
    "side": ("outdoors",),
}
SHORT = {"chase": "chase", "closets": "closets", "garage": "garage", "wall": "outside wall", "side": "side outlet"}
NAMES = {
    "chase": "chase to the attic and the roof",
    "closets": "closets to the attic and the roof",
    "garage": "garage to its attic and the roof",
    "wall": "outside wall, up past the eave",
    "side": "out at the side, below the roof",
}
WALL_FACTS = ("shared", "service_drop", "gas_meter", "street_side", "under_eave")
SIDE_PACKS = ("sgm-sf-2017", "rms-mf-2018")  # packs with a row for an outlet below the roof
JOIST_EDGE = "4 in"  # two inches left above and below a hole


class Route(NamedTuple):
    """One route: its key, kind and name, a short name, where its fan stands, what every rule says of it."""

    key: str
    kind: str
    name: str
    short: str
    fan: str
    outcomes: list[Outcome]

    def having(self, effect: str) -> list[dict[str, Any]]:
        """The rules of one effect that apply."""
        return [o.rule for o in self.outcomes if o.applies and o.rule["effect"] == effect]

    def open(self, effect: str) -> list[Outcome]:
        """The rules of one effect that cannot be told, and have a question."""
        return [o for o in self.outcomes if o.applies is None and o.rule["effect"] == effect and o.rule.get("asks")]

    @property
    def counts(self) -> tuple[int, int]:
        """What the order goes by: hard stops, then drawbacks."""
        return len(self.having("stop")), len(self.having("drawback"))


def all_routes(site: dict[str, Any]) -> list[Route]:
    """Every route that the house could have, fewest hard stops first, then fewest drawbacks; equal ones in this order:
    chase, closets, garage, walls, side.  ``site`` holds the inputs of the calculator in SI."""
    routes = [one(kind, kind, NAMES[kind], site, site["roof_outlet"] or {}) for kind in ("chase", "closets", "garage")]
    walls = site["walls"] or [{}]
    may_side = side_allowed(site)
    for kind in ("wall", "side"):
        if kind == "side" and not may_side:  # one line says why there is none
            routes.append(one(kind, kind, NAMES[kind], site, {}))
            continue
        for i, wall in enumerate(walls):
            name = f"{wall['name']}: {NAMES[kind]}" if wall.get("name") else NAMES[kind]
            routes.append(one(f"{kind}[{i}]" if site["walls"] else kind, kind, name, site, wall))
    return sorted(routes, key=lambda route: route.counts)


def ranks(routes: Sequence[Route]) -> list[int]:
    """The rank of each route; equal counts have the same rank."""
    return [1 + sum(other.counts < route.counts for other in routes) for route in routes]


def one(key: str, kind: str, name: str, site: dict[str, Any], place: dict[str, Any]) -> Route:
    """A route with its facts judged; ``place`` is the wall, or the spot where it leaves the roof."""
    fan, off_route = fan_place(kind, site)
    outside, near = kind in ("wall", "side"), site["rules"]
    facts = {
        **{name: known(value) for name, value in site.items()},
        **{name: place.get(name) for name in (*WALL_FACTS, "bad_spot", "low_on_slope")},
        "rules": site["rules"],
        "wishes": site["wishes"],
        "separations": None if "unknown" in site["separations"] else site["separations"],
        "fan_place": fan,
        "fan_off_route": off_route,
        "garage_free_part": free_part(site),
        "on_line": on_line(kind, site),
        "joist_takes_pipe": joist_takes_pipe(site["joist_depth"], site["pipe_size"]),
        "opening_near": opening_near("opening-near", place.get("nearest_opening"), place.get("opening_below"), near),
        "side_opening_near": opening_near(
            "side-opening-near", place.get("nearest_opening"), place.get("opening_below"), near
        ),
        "neighbour_near": distance_near("neighbour-near", place.get("neighbour"), near),
        "deck_near": distance_near("deck-near", place.get("deck"), near),
        # left out, there is no taller wall
        "taller_wall_near": bool(distance_near("taller-wall", place.get("taller_wall"), near)),
        "bedroom_beside": place.get("bedroom_behind") if outside else site["bedroom_beside_line"],
        "side_allowed": side_allowed(site),
        "side_too_low": distance_near("side-too-low", place.get("outlet_height"), near),
    }
    own = place.get("name") if outside else ""
    short = (f"{own}, at the side" if kind == "side" else own) if own else SHORT[kind]
    return Route(key, kind, name, short, fan, judge(kind, facts))


def known(value: Any) -> Any:
    """A value, or None where the word says that it is not known."""
    return None if value == "unknown" else value


def fan_place(kind: str, site: dict[str, Any]) -> tuple[str, bool]:
    """Where the fan stands on a route, and whether that is not where it was wanted."""
    wanted = site["fan_location"]
    possible = [place for place in PLACES[kind] if place != "attic" or site["attic"] != "none"]
    if wanted in INDOORS or wanted in possible:
        return wanted, False
    return possible[-1 if "attic" not in possible else 0], wanted is not None


def free_part(site: dict[str, Any]) -> bool | None:
    """Whether the garage has a part without rooms above; None when that is not known."""
    rooms, part = site["living_space_over_garage"], site["garage_part_without_rooms"]
    return True if rooms is False else part


def on_line(kind: str, site: dict[str, Any]) -> list[str] | None:
    """What was found in the line of a route; None when nobody looked."""
    about = "wall" if kind == "side" else kind
    found = [entry["what"] for entry in site["found_on_line"] if entry["route"] == about]
    return [what for what in found if what != "nothing"] if found else None


def joist_takes_pipe(depth: float | None, size: str | None) -> bool | None:
    """Whether a sawn joist of a depth [m] takes a hole for the pipe: a third of the depth, two inches from each edge."""
    if depth is None or size is None:
        return None
    wide = si_of(pipe(size)["outside_diameter"])
    return depth >= max(3 * wide, wide + read(JOIST_EDGE, "m")) - 1e-9


def opening_near(rule: str, level: float | None, below: float | None, packs: Sequence[str]) -> bool | None:
    """Whether an opening is nearer than the packs ask, and not far enough below the end to make up for it.

    ``level`` is the level distance and ``below`` how far its top lies below the end, in metres.
    """
    answers: list[bool | None] = []
    for asked, instead, only_level in limits(rule, packs):
        if instead is not None and below is not None and below >= instead - 1e-9:
            answers.append(False)
        elif level is None:
            answers.append(None)
        else:
            straight = level if only_level else hypot(level, max(below or 0.0, 0.0))
            answers.append(straight < asked - 1e-9)
    return any_of(answers)


def distance_near(rule: str, distance: float | None, packs: Sequence[str]) -> bool | None:
    """Whether a distance [m] is less than a rule's limits; False when no chosen pack has one."""
    found = limits(rule, packs)
    if not found:
        return False
    return None if distance is None else any(distance < asked - 1e-9 for asked, _, _ in found)


def any_of(answers: Sequence[bool | None]) -> bool | None:
    """True if one is, None if none is but one is not known, else False."""
    return True if True in answers else None if None in answers else False


def side_allowed(site: dict[str, Any]) -> bool:
    """Whether every chosen pack has a row for an outlet below the roof, or the authority accepts one."""
    packs = site["rules"]
    return bool(site["side_outlet_accepted"]) or (bool(packs) and all(pack in SIDE_PACKS for pack in packs))
