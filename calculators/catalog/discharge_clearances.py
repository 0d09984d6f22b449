"""May the vent end here?  The outlet compared with the rows of one rule pack, or of two side by side."""

from typing import Annotated, Any

from ..declare import Checks, Choice, Flag, List, Quantity, Record, Several, Table, Text, Texts, calculator
from ..trade.clearance_report import adopt, cautions, finding, left_out, show_distances, snow, stops
from ..trade.clearance_rules import disagreements, items, judge, shortest_riser, verdict, worst
from ..trade.clearance_targets import LISTS, called
from ..vocabulary import RULE_PACKS
from ..work import Work

JOINED = "Stop: the pipe is joined to something that it must not be joined to."
FAN_PLACES = ("outdoors", "attic", "garage", "basement", "crawl-space", "window-well", "conditioned")


def _length(label: str, low: str = "0 ft", help: str = "") -> Quantity:
    return Quantity(label, "ft", "m", low, "1000 ft", help=help)


_DISTANCES = {
    "horizontal": _length("Level distance from the outlet"),
    "vertical": _length(
        "Outlet above the top of it", "-1000 ft", "The top of the part that opens; negative when the outlet is lower."
    ),
    "height": _length("Height of the opening", help="Left out, it is taken to reach to the level of the outlet."),
    "path": _length("Shortest string to it", help="Round solid things in between; counts before the level distance."),
    "in_jet_path": Flag(
        "The outlet is aimed at it", help="A straight line out of the pipe, with its spread, meets it."
    ),
}
_OPENING = Record(
    "Opening",
    {
        "name": Text("Name"),
        "kind": Choice("Kind of opening", ("window", "door", "vent", "intake", "chimney")),
        **_DISTANCES,
    },
    defaults={"kind": "window"},
)
_PLACE = Record(
    "Place where people sit or walk",
    {
        "name": Text("Name"),
        "kind": Choice("Kind of place", ("deck", "patio", "walkway")),
        **{name: field for name, field in _DISTANCES.items() if name not in ("height", "vertical")},
        "vertical": _length("Outlet above its surface", "-1000 ft", "Negative when the outlet is lower."),
    },
    defaults={"kind": "deck"},
)

Rules = Annotated[
    list[str],
    Several("Rules to compare with", RULE_PACKS, least=1, most=2, help="One pack, or two to see where they disagree."),
]
Discharge = Annotated[
    dict[str, Any],
    Record(
        "The outlet",
        {
            "height_above_grade": _length("Height above the nearest ground"),
            "height_above_roof": _length(
                "Height above the roof",
                "-1000 ft",
                "Above the roof surface where the pipe comes out; above the roof edge for a pipe up the side.",
            ),
            "roof": Choice("The pipe goes", ("through-roof", "side")),
            "roof_form": Choice("Form of the roof", ("pitched", "flat")),
            "direction": Choice("Direction of the outlet", ("up", "up-45", "horizontal")),
            "rain_cap": Flag("There is a rain cap"),
            "horizontal_to_wall_above": _length("Level distance to a wall taller than the pipe"),
            "wall_higher_than_pipe": Flag("A wall near it is taller than the pipe or the roof"),
            "fan_location": Choice("Place of the fan", FAN_PLACES),
            "conditioned_space_above_fan": Flag("Heated or cooled space lies above the fan"),
            "joined_to": Choice("The pipe is joined to", ("nothing", "flue", "plumbing-vent", "duct")),
            "pressure_pipe_inside": Flag("Pipe on the fan's pressure side runs inside the house"),
        },
        need=("height_above_grade",),
        defaults={
            "roof": "through-roof",
            "roof_form": "pitched",
            "rain_cap": False,
            "wall_higher_than_pipe": False,
            "joined_to": "nothing",
            "pressure_pipe_inside": False,
        },
    ),
]
Openings = Annotated[list[dict[str, Any]], List("Openings of this house", _OPENING)]
Neighbours = Annotated[list[dict[str, Any]], List("Openings of adjacent buildings", _OPENING)]
People = Annotated[list[dict[str, Any]], List("Decks, patios and walkways", _PLACE)]
Snow = Annotated[float | None, Quantity("Deepest snow", "in", "mm", "0 in", "40 ft", source="common-practice")]

_PASSES = Flag("Meets the rows that could be judged")
_MARGIN = Quantity("Least distance to spare", "ft", "m")
_RISER = Quantity("Least height above grade that would meet them", "ft", "m")


@calculator(
    name="discharge-clearances",
    part="where-it-ends",
    title="May the vent end here?",
    main="worst_margin",
    results={
        "finding": Text("What was found"),
        "passes": _PASSES,
        "worst_margin": _MARGIN,
        "shortest_riser": _RISER,
        "disagreements": Texts("Where the two packs disagree"),
        "not_judged": Texts("Not judged"),
        "packs": Table(
            "Pack by pack",
            {
                "rules": Text("Rules"),
                "passes": _PASSES,
                "worst_margin": _MARGIN,
                "shortest_riser": _RISER,
                "finding": Text("What was found"),
                "checks": Checks("Rows compared"),
            },
        ),
    },
)
def discharge_clearances(
    work: Work,
    *,
    rules: Rules,
    discharge: Discharge,
    openings: Openings = [],  # noqa: B006  read only
    adjacent_buildings: Neighbours = [],  # noqa: B006
    people_areas: People = [],  # noqa: B006
    snow_depth: Snow = None,
) -> dict[str, Any]:
    """Distances from the outlet of a radon vent, compared row by row with rule texts as they were read.

    A rule that was not seen is not judged and is named.  Nothing is extrapolated between packs.  SI in and out.
    """
    site: dict[str, Any] = {
        "discharge": discharge,
        "openings": openings,
        "adjacent_buildings": adjacent_buildings,
        "people_areas": people_areas,
    }
    joined = stops(work, discharge)
    listed = {id: items(id, site) for id in rules}
    judged = {id: judge(found, discharge) for id, found in listed.items()}
    packs: list[dict[str, Any]] = []
    for id, outcomes in judged.items():
        checks = [adopt(work, outcome, discharge) for outcome in outcomes]
        passes = False if joined else verdict(outcomes)
        packs.append(
            {
                "rules": id,
                "passes": passes,
                "worst_margin": worst(outcomes),
                "shortest_riser": None if joined else shortest_riser(listed[id], outcomes, discharge),
                "finding": f"{JOINED} " * joined + finding(id, outcomes, verdict(outcomes)),
                "checks": checks,
            }
        )
    show_distances(work, site, judged)
    snow(work, discharge, snow_depth)
    cautions(work, rules, site)
    unseen = left_out(work, rules, site)

    verdicts = {pack["rules"]: pack["passes"] for pack in packs}
    places = [(f"{name}[{i}]", target) for name in LISTS.values() for i, target in enumerate(site[name])]
    names = {path: called(target, path) for path, target in places}
    same = len(set(verdicts.values())) == 1
    every = [outcome for outcomes in judged.values() for outcome in outcomes]
    riser = packs[0]["shortest_riser"]
    if len(rules) > 1 and not joined:
        riser = shortest_riser([item for found in listed.values() for item in found], every, discharge)
    return {
        "finding": f"{JOINED} " * joined + " ".join(pack["finding"].removeprefix(f"{JOINED} ") for pack in packs),
        "passes": packs[0]["passes"] if same else None,
        "worst_margin": worst(every),
        "shortest_riser": riser,
        "disagreements": disagreements(judged, verdicts, names) if len(rules) > 1 else [],
        "not_judged": [o.id for o in every if o.ok is None] + unseen,
        "packs": packs,
    }
