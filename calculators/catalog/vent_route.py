"""Which way out: the routes that a vent pipe could take, best first, by a table of rules that anybody can read."""

from typing import Annotated, Any

from ..declare import Checks, Choice, Count, Flag, List, Quantity, Record, Refusal, Several, Table, Text, Texts, calculator
from ..route_report import cautions, crossings, fan_check, left_out, route_checks, route_row, rules_used, to_verify
from ..routes import all_routes, ranks
from ..vocabulary import RULE_PACKS, PipeSize
from ..work import Work

COVERINGS = ("asphalt-shingle", "standing-seam", "ribbed-metal", "tile", "slate", "membrane", "unknown")
FAN_PLACES = ("attic", "garage", "outdoors", "basement", "crawl-space", "window-well", "conditioned")
FOUND = (
    "nothing", "truss", "engineered-joist", "beam", "joists-across", "bearing-plate", "plumbing", "wiring", "duct",
    "suspect-material",
)  # fmt: skip
ALWAYS_SAID = "Left out, it counts as not known and its question goes on the list."


def _distance(label: str, help: str = "") -> Quantity:
    return Quantity(label, "ft", "m", "0 ft", "1000 ft", help=help)


_END = {
    "nearest_opening": _distance("Level distance to the nearest window, door or vent that opens"),
    "opening_below": Quantity(
        "Top of that opening below the end of the pipe", "ft", "m", "-100 ft", "100 ft", help="Negative if it is higher."
    ),
    "neighbour": _distance("Level distance to the nearest opening of the next building"),
    "taller_wall": _distance("Level distance to a wall taller than the pipe", "Leave it out where there is none."),
}
_WALL = Record(
    "Wall",
    {
        "name": Text("Name"),
        **_END,
        "deck": _distance("Level distance to the nearest deck, patio or walk"),
        "gas_meter": Flag("Gas meter, regulator or flue outlet on it"),
        "service_drop": Flag("Overhead wires within reach of ladder or pipe"),
        "street_side": Flag("Seen from the street"),
        "under_eave": Flag("Below an eave", help="No at a gable wall."),
        "bedroom_behind": Flag("Bedroom behind it"),
        "shared": Flag("Shared with the next house"),
        "outlet_height": _distance("Height at which it could end at the side"),
    },
    need=("name",),
    help="The pipe's line up this wall. What is left out counts as not known.",
)
Storeys = Annotated[int, Count("Storeys above the ground", 1, 6)]
Lowest = Annotated[str, Choice("The lowest floor is", ("basement", "slab-on-grade", "crawl-space", "unknown"))]
Covering = Annotated[str, Choice("Roof covering", COVERINGS)]
Pitch = Annotated[
    float | None, Quantity("Pitch of the roof", "1", "1", "0", "4", help="Rise over run; 6 in 12 is written 6/12.")
]
Garage = Annotated[bool | None, Flag("A garage is joined to the house", help=ALWAYS_SAID)]
OverGarage = Annotated[bool | None, Flag("There are rooms over the garage")]
FreePart = Annotated[bool | None, Flag("Part of the garage has no rooms above")]
Attic = Annotated[
    str,
    Choice("Attic", ("vented", "unvented", "none", "unknown"), help="Unvented: insulated at the roof, inside the house's warmth."),
]
AtticAccess = Annotated[str, Choice("Way into the attic", ("hatch", "none", "unknown"))]
Chase = Annotated[
    str,
    Choice("Chase through all storeys", ("free", "with-flue", "none", "unknown"), help="A boxed way from the lowest floor up."),
]
ChaseInParty = Annotated[bool | None, Flag("The chase stands in the wall between two townhouses")]
Closets = Annotated[str, Choice("Closets or corners above one another", ("in-line", "offset", "none", "unknown"))]
Separations = Annotated[
    list[str],
    Several(
        "Fire separations that the house has",
        ("party-wall", "floor-between-units", "rated-shaft", "none", "unknown"),
        alone=("none", "unknown"),
        least=1,
        help="The garage's separation is counted by itself. A floor between units: another dwelling above or below.",
    ),
]
Ducts = Annotated[bool | None, Flag("Ducts lie in or under the slab")]
Walls = Annotated[list[dict[str, Any]], List("Outside walls that could carry the pipe", _WALL, 0, 12)]
RoofOutlet = Annotated[
    dict[str, Any] | None,
    Record(
        "Spot where the pipe would leave the roof",
        {
            **_END,
            "low_on_slope": Flag("Low on the slope"),
            "bad_spot": Flag("In a valley, on a seam or behind a chimney"),
        },
    ),
]
OnLine = Annotated[
    list[dict[str, Any]],
    List(
        "What lies in the line of a route",
        Record(
            "Find",
            {"route": Choice("Route", ("chase", "closets", "garage", "wall")), "what": Choice("What", FOUND)},
            need=("route", "what"),
        ),
        help="One line for each thing found. 'nothing' says that somebody looked.",
    ),
]
Joists = Annotated[
    float | None, Quantity("Depth of the sawn joists", "in", "mm", "1 in", "40 in", help="As it is: a 2×10 is 9-1/4 in deep.")
]
FanLocation = Annotated[
    str | None, Choice("Wanted place of the fan", FAN_PLACES, help="Left out, each route has its usual place: attic, or outdoors.")
]
Snow = Annotated[str, Choice("Snow on the roof", ("none", "lies", "slides", "unknown"))]
Cold = Annotated[bool | None, Flag("Weeks of hard frost")]
Bedroom = Annotated[bool | None, Flag("A bedroom lies beside the line inside")]
WISHES = ("nothing-outside", "keep-closets", "garage-free", "no-roof-hole", "quiet-bedrooms")
Wishes = Annotated[list[str], Several("The owner's wishes", WISHES)]
Forbidden = Annotated[bool | None, Flag("An association, lease or heritage rule forbids a pipe outside")]
Consent = Annotated[bool | None, Flag("The roof is common property or under a warranty")]
Indoor = Annotated[
    bool, Flag("The authority accepts a fan indoors", help="As in Canada. Ask; most US texts do not.", source="health-canada-h129-65")
]
SideAccepted = Annotated[bool, Flag("The authority accepts an outlet at the side", source="health-canada-h129-65")]
Packs = Annotated[list[str], Several("Rules to compare with", RULE_PACKS, most=2)]

_LIST_OF = {"hard_stops": "Hard stops", "drawbacks": "Drawbacks", "speaks_for": "Speaks for it", "crossings": "Crosses", "verify": "To look at"}


@calculator(
    name="vent-route",
    part="choose-the-route",
    title="Which way out of the house?",
    main="best_route",
    results={
        "best_route": Text("First in order"),
        "tie": Flag("More than one is first"),
        "routes_left": Count("Routes without a hard stop"),
        "verify": Texts("To look at before the first hole"),
        "routes": Table(
            "Routes, fewest hard stops and drawbacks first",
            {
                "rank": Count("Place in the order"),
                "route": Text("Route"),
                "why": Text("Why here"),
                "fan_place": Text("Place of the fan"),
                **{name: Texts(label) for name, label in _LIST_OF.items()},
                "checks": Checks("Rules looked at"),
            },
        ),
        "crossings": Table(
            "What the first route crosses",
            {"route": Text("Route"), "crossing": Text("Crossing"), "needs": Text("What it needs"), "source": Text("Source")},
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
    storeys: Storeys,
    lowest_floor: Lowest = "unknown",
    roof_covering: Covering = "unknown",
    roof_pitch: Pitch = None,
    garage_attached: Garage = None,
    living_space_over_garage: OverGarage = None,
    garage_part_without_rooms: FreePart = None,
    attic: Attic = "unknown",
    attic_access: AtticAccess = "unknown",
    chase: Chase = "unknown",
    chase_in_party_wall: ChaseInParty = None,
    closets: Closets = "unknown",
    separations: Separations = ["unknown"],  # noqa: B006  read only
    ducts_under_slab: Ducts = None,
    walls: Walls = [],  # noqa: B006
    roof_outlet: RoofOutlet = None,
    found_on_line: OnLine = [],  # noqa: B006
    joist_depth: Joists = None,
    pipe_size: PipeSize = None,
    fan_location: FanLocation = None,
    snow: Snow = "unknown",
    cold_winters: Cold = None,
    bedroom_beside_line: Bedroom = None,
    wishes: Wishes = [],  # noqa: B006
    outside_pipe_forbidden: Forbidden = None,
    roof_consent_needed: Consent = None,
    indoor_fan_accepted: Indoor = False,
    side_outlet_accepted: SideAccepted = False,
    rules: Packs = [],  # noqa: B006
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
    left = [route for route in routes if not route.count[0]]
    first = [route for route, place in zip(routes, places, strict=True) if place == 1 and route in left]
    work.judge(
        "way-left",
        "At least one route is left without a hard stop." if left else "Every route that was looked at has a hard stop.",
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
    table = [route_row(route, place, places, rules, storeys, lowest_floor) for route, place in zip(routes, places, strict=True)]
    return {
        "best_route": " or ".join(route.name for route in first) or None,
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
