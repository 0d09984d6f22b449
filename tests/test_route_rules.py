"""The decision table of vent-route: each rule flips what it says, can be read, and compares with the packs' own figures."""

from typing import Any

import pytest

from calculators import solve, tables
from calculators.trade import route_rules, routes
from calculators.units import read
from route_house import EASY, SIDE, finds, speaking, spot, wall

# What makes each rule speak: rule, a route that it is about, the change that does it, and a change that does not.
FLIPS: list[tuple[str, str, dict[str, Any], dict[str, Any]]] = [
    ("chase-none", "chase", {"chase": "none"}, {}),
    ("closets-none", "closets", {"closets": "none"}, {}),
    ("garage-none", "garage", {"garage_attached": False}, {}),
    ("wall-shared", "wall", wall(shared=True), {}),
    ("chase-party", "chase", {"separations": ["party-wall"], "chase_in_party_wall": True}, {"chase_in_party_wall": True}),
    ("fan-indoors", "chase", {"fan_location": "basement"}, {"fan_location": "basement", "indoor_fan_accepted": True}),
    ("fan-indoors", "wall", {"fan_location": "conditioned"}, {"fan_location": "outdoors"}),
    ("fan-indoors", "garage", {"fan_location": "crawl-space"}, {"fan_location": "garage"}),
    ("fan-indoors-accepted", "side", {"fan_location": "basement", "indoor_fan_accepted": True, "side_outlet_accepted": True}, {"fan_location": "basement"}),
    (
        "fan-below-rooms", "garage", {"fan_location": "garage", "living_space_over_garage": True, "garage_part_without_rooms": False},
        {"fan_location": "garage", "living_space_over_garage": True, "garage_part_without_rooms": True},
    ),
    ("fan-part-garage", "garage", {"fan_location": "garage", "living_space_over_garage": True, "garage_part_without_rooms": True}, {"fan_location": "garage"}),
    ("fan-elsewhere", "wall", {"fan_location": "attic"}, {"fan_location": "outdoors"}),
    ("attic-conditioned-law", "chase", {"attic": "unvented"}, {"attic": "unvented", "rules": ["irc-f"]}),
    ("attic-conditioned", "chase", {"attic": "unvented", "rules": ["irc-f"]}, {"attic": "unvented"}),
    ("attic-no-access", "closets", {"attic_access": "none"}, {"attic_access": "none", "fan_location": "outdoors"}),
    ("attic-none", "garage", {"attic": "none"}, {}),
    ("garage-fire", "garage", {}, {"garage_attached": False}),
    ("garage-board", "garage", {}, {"garage_attached": False}),
    ("rooms-over-garage", "garage", {"living_space_over_garage": True}, {}),
    ("units-between", "chase", {"separations": ["floor-between-units"]}, {"separations": ["party-wall"]}),
    ("units-firestop", "closets", {"separations": ["rated-shaft"]}, {}),
    ("party-attic", "chase", {"separations": ["party-wall"]}, {}),
    ("flue-in-chase", "chase", {"chase": "with-flue"}, {}),
    ("structure", "closets", finds("closets", "truss"), finds("chase", "truss")),
    ("joists", "chase", {**finds("chase", "joists-across"), "pipe_size": "4"}, finds("chase", "joists-across")),
    ("joists-hole", "chase", finds("chase", "joists-across"), {**finds("chase", "joists-across"), "joist_depth": "9-1/4 in"}),
    ("plate", "garage", finds("garage", "bearing-plate"), {}),
    ("in-the-way", "closets", finds("closets", "wiring"), {}),
    ("asbestos", "wall", finds("wall", "suspect-material"), finds("chase", "suspect-material")),
    ("roof-seam", "chase", {"roof_covering": "standing-seam"}, {}),
    ("roof-tile", "closets", {"roof_covering": "tile"}, {}),
    ("roof-slate", "garage", {"roof_covering": "slate"}, {}),
    ("roof-ribs", "chase", {}, {"roof_covering": "tile"}),
    ("roof-shingle", "chase", {"roof_covering": "asphalt-shingle"}, {}),
    ("roof-flat", "chase", {"roof_covering": "membrane"}, {}),
    ("roof-steep", "chase", {"roof_pitch": "5/12"}, {"roof_pitch": "4/12"}),
    ("roof-bad-spot", "chase", spot(bad_spot=True), {}),
    ("roof-consent", "garage", {"roof_consent_needed": True}, {}),
    ("snow-slides-roof", "chase", {"snow": "slides", **spot(low_on_slope=True)}, {"snow": "slides"}),
    ("snow-slides-wall", "wall", {"snow": "slides"}, {"snow": "slides", **wall(under_eave=False)}),
    ("snow-lies", "wall", {"snow": "lies"}, {}),
    ("cold-outside", "wall", {"cold_winters": True}, {}),
    ("cold-garage", "garage", {"cold_winters": True}, {}),
    ("garage-few-rooms", "garage", {}, {"living_space_over_garage": True}),
    ("opening-near", "wall", wall(nearest_opening="9 ft", opening_below="1 ft"), wall(nearest_opening="9 ft", opening_below="2 ft")),
    ("opening-near", "chase", spot(nearest_opening="9.9 ft"), spot(nearest_opening="10 ft")),
    ("side-opening-near", "side", {**SIDE, **wall(nearest_opening="3 ft", opening_below="4 ft")}, {**SIDE, **wall(nearest_opening="10 ft")}),
    ("neighbour-near", "wall", wall(neighbour="9 ft"), wall(neighbour="10 ft")),
    ("deck-near", "wall", wall(deck="9 ft"), wall(deck="10 ft")),
    ("taller-wall", "wall", wall(taller_wall="4 ft"), {**wall(taller_wall="4 ft"), "rules": ["irc-f"]}),
    ("service-drop", "wall", wall(service_drop=True), {}),
    ("gas-meter", "wall", wall(gas_meter=True), {}),
    ("street-side", "wall", wall(street_side=True), {}),
    ("high-wall", "wall", {"storeys": 3}, {}),
    ("side-not-allowed", "side", {}, SIDE),
    ("side-not-allowed", "side", {"rules": ["us-pa", "sgm-sf-2017"]}, {"side_outlet_accepted": True}),
    ("side-too-low", "side", {**SIDE, **wall(outlet_height="19 ft")}, {**SIDE, **wall(outlet_height="20 ft")}),
    ("side-advised-against", "side", SIDE, {"rules": ["rms-mf-2018"]}),
    ("side-recorded", "side", {"rules": ["rms-mf-2018"]}, SIDE),
    ("side-canada", "side", {"side_outlet_accepted": True}, SIDE),
    ("outside-forbidden", "wall", {"outside_pipe_forbidden": True}, {}),
    ("wish-street", "wall", {"wishes": ["nothing-outside"]}, {"wishes": ["keep-closets"]}),
    ("wish-closets", "closets", {"wishes": ["keep-closets"]}, {}),
    ("wish-garage", "garage", {"wishes": ["garage-free"]}, {}),
    ("wish-roof", "chase", {"wishes": ["no-roof-hole"]}, {}),
    ("wish-quiet", "wall", {"wishes": ["quiet-bedrooms"], **wall(bedroom_behind=True)}, {"wishes": ["quiet-bedrooms"]}),
    ("wish-quiet", "chase", {"wishes": ["quiet-bedrooms"], "bedroom_beside_line": True}, {"bedroom_beside_line": True}),
    ("closets-offset", "closets", {"closets": "offset"}, {}),
    ("closets-room", "closets", {}, {"closets": "none"}),
    ("ducts", "chase", {"ducts_under_slab": True}, {}),
    ("ducts-asked", "chase", {"ducts_under_slab": None}, {}),
    ("fan-space", "chase", {}, {"fan_location": "outdoors"}),
]  # fmt: skip
ALWAYS = {"fireblock", "warm-inside", "wall-easy", "roof-flashed", "line-all-floors", "power", "siding", "siding-hole", "rim"}


@pytest.mark.parametrize(("rule", "kind", "does", "does_not"), FLIPS, ids=[f"{i}-{row[0]}" for i, row in enumerate(FLIPS)])
def test_a_rule_speaks_when_its_fact_is_there(rule: str, kind: str, does: dict[str, Any], does_not: dict[str, Any]) -> None:
    """Each rule of the table applies where its fact is found, and not where it is not."""
    assert rule in speaking(kind, **does)
    assert rule not in speaking(kind, **does_not)


def test_every_rule_is_tried() -> None:
    """No rule of the table is left out of the trials; those without a condition always apply."""
    table = {rule["id"]: rule for rule in route_rules.rules()}
    assert {row[0] for row in FLIPS} | ALWAYS == set(table)
    assert {id for id, rule in table.items() if not rule["when"]} == ALWAYS
    assert len(table) == len(route_rules.rules())


@pytest.mark.parametrize("rule", route_rules.rules(), ids=lambda rule: rule["id"])
def test_every_rule_can_be_read(rule: dict[str, Any]) -> None:
    """A rule has a known effect, routes, words and a source; a published one that is a code names its section."""
    assert rule["effect"] in route_rules.EFFECTS
    assert set(rule["routes"]) <= set(routes.NAMES)
    assert rule["text"].endswith(".")
    assert rule["found"] and rule["short"]
    entry = tables.source(rule["source"])
    assert rule["mark"] == entry.get("mark", entry["kind"])
    if rule["effect"] == "stop":
        assert rule["clear"].endswith(".")
    if rule["effect"] == "crossing":
        assert rule["where"]
    for pack, (id, section) in rule.get("by_pack", {}).items():
        assert pack in tables.RULE_PACKS
        assert tables.source(id)
        assert section
    for words in ("limits", "above"):
        for pack, id in rule.get(words, {}).items():
            assert read(id, "m") > 0 if pack == "else" else route_rules.length(route_rules.pack_row(pack, id)) > 0


def test_the_source_follows_the_pack() -> None:
    """A rule that a chosen pack words itself names that pack's section; without one, the text behind the table."""
    cited = {}
    for packs in (["us-pa"], ["us-mn"], ["irc-f"]):
        (check,) = [c for c in solve("vent-route", {**EASY, "fan_location": "basement", "rules": packs}).work.checks if c.id == "fan-place"]
        cited[packs[0]] = (check.source, check.section)
    assert cited == {
        "us-pa": ("25-pa-code-240", "240.308(c)"), "us-mn": ("minn-r-1303", "1303.2403 item A"), "irc-f": ("ccah-2020", "701.2.1"),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("packs", "level", "below", "near"),
    [
        (["us-pa"], "9 ft", "1.9 ft", True),  # 25 Pa. Code 240.308(b)(4): 10 ft, unless 2 ft above
        (["us-pa"], "9 ft", "2 ft", False), (["us-pa"], "9 ft", None, True), (["us-pa"], None, "2 ft", False), (["us-pa"], None, "1 ft", None),
        (["irc-f"], "9 ft", "2 ft", False),  # IRC AF103.5.3
        (["us-mn"], "9 ft", "2 ft", True), (["us-mn"], "9 ft", "5 ft", False),  # Minn. R. 1303.2402: 10 ft, no allowance; 10.3 ft straight
        (["cc-1000-2018"], "9.5 ft", "3.9 ft", True), (["cc-1000-2018"], "9.5 ft", "4 ft", False),  # CC-1000 9.7.1: to the side, or 4 ft above
        (["us-pa", "cc-1000-2018"], "9 ft", "3 ft", True), (["sgm-sf-2017"], "9 ft", "1 ft", True), ([], "9 ft", "2 ft", False), ([], None, None, None),
        (["us-pa"], "9 ft", "-3 ft", True),
    ],
)  # fmt: skip
def test_an_opening_is_near_by_the_chosen_pack(packs: list[str], level: str | None, below: str | None, near: bool | None) -> None:
    """The distance and the height that stands in for it are those of the chosen packs; unknown stays unknown."""
    given = [None if text is None else read(text, "m") for text in (level, below)]
    assert routes.opening_near("opening-near", given[0], given[1], packs) is near


@pytest.mark.parametrize(
    ("size", "depth", "takes"),
    [("3", "11-1/4 in", True), ("3", "9-1/4 in", False), ("3", "10-1/2 in", True), ("4", "11-1/4 in", False), ("4", "13-1/2 in", True),
     ("2", "7-1/4 in", True), ("2", "6-1/4 in", False), (None, "9 in", None), ("3", None, None)],
)  # fmt: skip
def test_a_joist_takes_a_third_of_its_depth(size: str | None, depth: str | None, takes: bool | None) -> None:
    """CRC 2013 R502.8.1: the hole is a third of the depth at most, and two inches stay at each edge."""
    assert routes.joist_takes_pipe(None if depth is None else read(depth, "m"), size) is takes
