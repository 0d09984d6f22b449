"""An invented house in which every fact of the vent's route is known, and ways to change one of them."""

import copy
from typing import Any

from calculators import declaration, solve
from calculators.trade import routes

WALL: dict[str, Any] = {
    "name": "north wall", "nearest_opening": "20 ft", "opening_below": "3 ft", "neighbour": "60 ft", "deck": "40 ft", "taller_wall": "40 ft",
    "gas_meter": False, "service_drop": False, "street_side": False, "under_eave": True, "bedroom_behind": False, "shared": False,
    "outlet_height": "22 ft",
}  # fmt: skip
# A house where everything is known and as little as possible stands against any route.
EASY: dict[str, Any] = {
    "storeys": 2, "lowest_floor": "basement", "roof_covering": "ribbed-metal", "roof_pitch": "4/12", "garage_attached": True,
    "living_space_over_garage": False, "attic": "vented", "attic_access": "hatch", "chase": "free", "chase_in_party_wall": False,
    "closets": "in-line", "separations": "none", "ducts_under_slab": False, "walls": [WALL],
    "roof_outlet": {"nearest_opening": "30 ft", "neighbour": "60 ft", "low_on_slope": False, "bad_spot": False},
    "found_on_line": [{"route": route, "what": "nothing"} for route in ("chase", "closets", "garage", "wall")],
    "joist_depth": "11-1/4 in", "pipe_size": "3", "snow": "none", "cold_winters": False, "bedroom_beside_line": False, "wishes": [],
    "outside_pipe_forbidden": False, "roof_consent_needed": False, "rules": ["us-pa"],
}  # fmt: skip
SIDE = {"rules": ["sgm-sf-2017"]}


def wall(**changed: Any) -> dict[str, Any]:
    """The one wall with some members changed."""
    return {"walls": [{**WALL, **changed}]}


def spot(**changed: Any) -> dict[str, Any]:
    """The place where the pipe leaves the roof with some members changed."""
    return {"roof_outlet": {**EASY["roof_outlet"], **changed}}


def finds(route: str, *what: str) -> dict[str, Any]:
    """Things found in the line of one route, nothing on the others."""
    others = [entry for entry in EASY["found_on_line"] if entry["route"] != route]
    return {"found_on_line": [*others, *({"route": route, "what": one} for one in what)]}


def ordered(**changed: Any) -> list[routes.Route]:
    """The routes of the easy house with some inputs changed, first one first."""
    values = solve("vent-route", {**copy.deepcopy(EASY), **changed}).values
    return routes.all_routes({name: values[name] for name in declaration("vent-route").inputs})


def speaking(kind: str, **changed: Any) -> set[str]:
    """The rules that apply to the first route of a kind."""
    route = next(route for route in ordered(**changed) if route.kind == kind)
    return {o.rule["id"] for o in route.outcomes if o.applies}


def results(**changed: Any) -> dict[str, Any]:
    """Results of the easy house with some inputs changed, as printed."""
    return solve("vent-route", {**copy.deepcopy(EASY), **changed}).as_dict()["results"]


def row_of(found: dict[str, Any], words: str) -> dict[str, Any]:
    """The row of a route by words of its name."""
    return next(row for row in found["routes"] if words in row["route"])
