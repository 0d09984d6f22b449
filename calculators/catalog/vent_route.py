"""Which way out: the routes that a vent pipe could take, best first, by a table of rules that anybody can read."""

from typing import Any

from ..declare import Checks, Count, Flag, Refusal, Table, Text, Texts, calculator
from ..trade import route_fields as field
from ..trade.route_report import (
    cautions,
    crossings,
    fan_check,
    in_order,
    left_out,
    route_checks,
    route_row,
    rules_used,
    to_verify,
)
from ..trade.routes import all_routes, ranks
from ..vocabulary import PipeSize
from ..work import Work

_LIST_OF = {
    "hard_stops": "Hard stops",
    "drawbacks": "Drawbacks",
    "speaks_for": "Speaks for it",
    "crossings": "Crosses",
    "verify": "To look at",
}


@calculator(
    name="vent-route",
    part="choose-the-route",
    title="Which way out of the house?",
    main="best_route",
    results={
        "best_route": Text("First in order"),
        "order": Text("All in order"),
        "tie": Flag("More than one is first"),
        "routes_left": Count("Routes without a hard stop"),
        "verify": Texts("To look at before the first hole"),
        "routes": Table(
            "Routes, fewest hard stops and drawbacks first",
            {
                "rank": Count("Place"),
                "route": Text("Route"),
                "why": Text("Why here"),
                "fan_place": Text("Fan"),
                **{name: Texts(label) for name, label in _LIST_OF.items()},
                "checks": Checks("Rules looked at"),
            },
        ),
        "crossings": Table(
            "What the first route crosses",
            {
                "route": Text("Route"),
                "crossing": Text("Crossing"),
                "needs": Text("What it needs"),
                "source": Text("Source"),
            },
        ),
        "rules_used": Table(
            "Rules that spoke, and for which route",
            {
                "rule": Text("Rule"),
                "effect": Text("Effect"),
                "routes": Text("Routes"),
                "text": Text("What it says"),
                "source": Text("Source"),
            },
        ),
    },
)
def vent_route(
    work: Work,
    *,
    storeys: field.Storeys,
    lowest_floor: field.Lowest = "unknown",
    roof_covering: field.Covering = "unknown",
    roof_pitch: field.Pitch = None,
    garage_attached: field.Garage = None,
    living_space_over_garage: field.OverGarage = None,
    garage_part_without_rooms: field.FreePart = None,
    attic: field.Attic = "unknown",
    attic_access: field.AtticAccess = "unknown",
    chase: field.Chase = "unknown",
    chase_in_party_wall: field.ChaseInParty = None,
    closets: field.Closets = "unknown",
    separations: field.Separations = ["unknown"],  # noqa: B006  read only
    ducts_under_slab: field.Ducts = None,
    walls: field.Walls = [],  # noqa: B006
    roof_outlet: field.RoofOutlet = None,
    found_on_line: field.OnLine = [],  # noqa: B006
    joist_depth: field.Joists = None,
    pipe_size: PipeSize = None,
    fan_location: field.FanLocation = None,
    snow: field.Snow = "unknown",
    cold_winters: field.Cold = None,
    bedroom_beside_line: field.Bedroom = None,
    wishes: field.Wishes = [],  # noqa: B006
    outside_pipe_forbidden: field.Forbidden = None,
    roof_consent_needed: field.Consent = None,
    indoor_fan_accepted: field.Indoor = False,
    side_outlet_accepted: field.SideAccepted = False,
    rules: field.Packs = [],  # noqa: B006
) -> dict[str, Any]:
    """The ways a vent pipe could leave the house, in order, with reasons, hard stops and what to look at inside.

    Nothing is weighed: fewer hard stops come first, then fewer named drawbacks; equal counts are a tie.  What is not
    known counts neither way and becomes a question.  Raises Refusal when the garage is said to have no rooms over it
    and yet no part without rooms, or when something was found "nothing" and something else on the same route.  SI in.
    """
    site = {name: value for name, value in locals().items() if name != "work"}
    _agree(site)
    routes = all_routes(site)
    places = ranks(routes)
    left = [route for route in routes if not route.counts[0]]
    first = [route for route, place in zip(routes, places, strict=True) if place == 1 and route in left]
    work.judge(
        "way-left",
        "At least one route is left without a hard stop."
        if left
        else "Every route that was looked at has a hard stop.",
        ok=bool(left),
        required=1.0,
        found=float(len(left)),
        margin=float(len(left)) - 1.0,
        source="definition",
        stop=not left,
    )
    if not left:
        work.caution("danger", "Every route that was looked at has a hard stop.", "definition")
    fan_check(work, site)
    for route in first:
        route_checks(work, route, rules)
    cautions(work, site, first)
    left_out(work, site)
    table = [
        route_row(route, place, places, rules, storeys, lowest_floor)
        for route, place in zip(routes, places, strict=True)
    ]
    return {
        "best_route": " or ".join(route.name for route in first) or None,
        "order": in_order(routes, places),
        "tie": len(first) > 1,
        "routes_left": len(left),
        "verify": to_verify(first or routes[:1]),
        "routes": table,
        "crossings": crossings(first, rules, storeys, lowest_floor),
        "rules_used": rules_used(routes, rules),
    }


def _agree(site: dict[str, Any]) -> None:
    if site["living_space_over_garage"] is False and site["garage_part_without_rooms"] is False:
        raise Refusal(
            "garage_part_without_rooms",
            "no rooms lie over the garage, and yet no part of it is without rooms above",
            found="false",
            accepts="true, or left out",
        )
    for route in dict.fromkeys(entry["route"] for entry in site["found_on_line"]):
        found = [entry["what"] for entry in site["found_on_line"] if entry["route"] == route]
        if "nothing" in found and len(set(found)) > 1:
            raise Refusal(
                "found_on_line",
                f"nothing was found on the route {route}, and yet something was",
                found=", ".join(found),
                accepts="either nothing or the things found",
            )
