"""The inputs of vent-route: what is seen outside and inside, and what the owner wants."""

from typing import Annotated, Any

from ..declare import Choice, Count, Flag, List, Quantity, Record, Several, Text
from ..vocabulary import RULE_PACKS

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
        "Top of that opening below the end of the pipe",
        "ft",
        "m",
        "-100 ft",
        "100 ft",
        help="Negative if it is higher.",
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
    Choice(
        "Attic",
        ("vented", "unvented", "none", "unknown"),
        help="Unvented: insulated at the roof, inside the house's warmth.",
    ),
]
AtticAccess = Annotated[str, Choice("Way into the attic", ("hatch", "none", "unknown"))]
Chase = Annotated[
    str,
    Choice(
        "Chase through all storeys",
        ("free", "with-flue", "none", "unknown"),
        help="A boxed way from the lowest floor up.",
    ),
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
    float | None,
    Quantity("Depth of the sawn joists", "in", "mm", "1 in", "40 in", help="As it is: a 2×10 is 9-1/4 in deep."),
]
FanLocation = Annotated[
    str | None,
    Choice("Wanted place of the fan", FAN_PLACES, help="Left out, each route has its usual place: attic, or outdoors."),
]
Snow = Annotated[str, Choice("Snow on the roof", ("none", "lies", "slides", "unknown"))]
Cold = Annotated[bool | None, Flag("Weeks of hard frost")]
Bedroom = Annotated[bool | None, Flag("A bedroom lies beside the line inside")]
WISHES = ("nothing-outside", "keep-closets", "garage-free", "no-roof-hole", "quiet-bedrooms")
Wishes = Annotated[list[str], Several("The owner's wishes", WISHES)]
Forbidden = Annotated[bool | None, Flag("An association, lease or heritage rule forbids a pipe outside")]
Consent = Annotated[bool | None, Flag("The roof is common property or under a warranty")]
Indoor = Annotated[
    bool,
    Flag(
        "The authority accepts a fan indoors",
        help="As in Canada. Ask; most US texts do not.",
        source="health-canada-h129-65",
    ),
]
SideAccepted = Annotated[bool, Flag("The authority accepts an outlet at the side", source="health-canada-h129-65")]
Packs = Annotated[list[str], Several("Rules to compare with", RULE_PACKS, most=2)]
