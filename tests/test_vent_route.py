"""vent-route: the rules do what the table says, hard stops stay in the list, ties are ties, three houses in order."""

import copy
import json
from typing import Any

import pytest

from calculators import InputError, declaration, job, names, route_rules, routes, solve, tables
from calculators.declare import List, Record
from calculators.units import read

HOUSES = ("quarry-lane", "orchard-slab", "mill-terrace")
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
ALWAYS = {"fireblock", "warm-inside", "wall-easy", "roof-flashed", "line-all-floors", "power", "siding", "rim"}


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


def test_what_counts_has_a_question_when_it_is_not_known() -> None:
    """With nothing known but the storeys, each hard stop and drawback that cannot be told becomes a question."""
    found = solve("vent-route", {"storeys": 2, "rules": ["sgm-sf-2017"]})
    values = {name: found.values[name] for name in declaration("vent-route").inputs}
    seen = 0
    for route in routes.all_routes(values):
        for o in route.outcomes:
            if o.applies is None and o.rule["effect"] in ("stop", "drawback"):
                assert o.rule.get("asks", "").endswith("?"), o.rule["id"]
                seen += 1
    assert seen > 40


def test_not_known_counts_neither_way() -> None:
    """A fact that is left out adds no stop and no drawback, and its question stands among what to look at."""
    known, unknown = row_of(results(**wall(gas_meter=True)), "north wall"), row_of(results(**wall(gas_meter=None)), "north wall")
    assert known["drawbacks"] == [*unknown["drawbacks"], "a gas meter, regulator or flue outlet is near"]
    assert "Could count against it: Is there a gas meter, regulator or flue outlet on this wall?" in unknown["verify"]
    assert not any("gas meter" in line for line in known["verify"])


def test_stops_come_before_drawbacks() -> None:
    """One hard stop outweighs any number of drawbacks, and within equal stops fewer drawbacks come first."""
    many = {"wishes": ["quiet-bedrooms"], "bedroom_beside_line": True, "attic_access": "none", "roof_consent_needed": True, "chase": "with-flue"}
    order = ordered(**{**many, **wall(service_drop=True)})
    assert [route.counts for route in order] == sorted(route.counts for route in order)
    chase, north = (next(i for i, route in enumerate(order) if route.kind == kind) for kind in ("chase", "wall"))
    assert order[chase].counts[1] >= 4 > order[north].counts[1]
    assert chase < north


def test_a_stopped_route_stays_with_its_reason() -> None:
    """A route with a hard stop is in the list, after those without, with the reason and the rule behind it."""
    found = results(chase="none", closets="none")
    assert len(found["routes"]) == 5
    chase = row_of(found, "chase")
    assert chase["hard_stops"] == ["there is no chase"]
    stopped = [bool(row["hard_stops"]) for row in found["routes"]]
    assert stopped == sorted(stopped)
    assert found["routes_left"]["value"] == stopped.count(False)
    assert {"rule": "chase-none", "effect": "hard stop", "routes": "chase"}.items() <= found["rules_used"][0].items()
    (check,) = [check for check in chase["checks"] if check["id"] == "chase-none:chase"]
    assert (check["ok"], check["stop"]) == (False, True)


def test_equal_counts_are_a_tie() -> None:
    """Routes with equal counts share a place, the next place is skipped, and all first ones are named."""
    found = results()
    assert (found["best_route"], found["tie"]) == (
        "chase to the attic and the roof or north wall: outside wall, up past the eave", True,
    )  # fmt: skip
    assert [row["rank"]["value"] for row in found["routes"]] == [1, 1, 3, 3, 5]
    assert "equal with 1 other" in found["routes"][0]["why"]
    broken = results(wishes=["nothing-outside"])
    assert (broken["best_route"], broken["tie"]) == ("chase to the attic and the roof", False)


def test_order_does_not_hang_on_the_order_of_walls() -> None:
    """Walls in another order give the same places."""
    two = [{**WALL, "name": "a"}, {**WALL, "name": "b", "gas_meter": True}]
    places = [
        {row["route"]: row["rank"]["value"] for row in results(walls=walls)["routes"]} for walls in (two, list(reversed(two)))
    ]
    assert places[0] == places[1]


def test_no_way_left_is_a_hard_stop() -> None:
    """When every route is closed there is no first one, and one hard stop says so; the reasons still stand."""
    answer = solve("vent-route", {**EASY, "fan_location": "basement"}).as_dict()
    assert answer["results"]["best_route"] is None
    assert answer["results"]["routes_left"]["value"] == 0
    assert answer["results"]["crossings"] == []
    assert answer["results"]["verify"]
    stops = {check["id"] for check in answer["checks"] if check.get("stop")}
    assert stops == {"way-left", "fan-place"}
    assert all(row["hard_stops"] for row in answer["results"]["routes"])


@pytest.mark.parametrize(
    ("place", "more", "ok"),
    [
        ("basement", {}, False), ("crawl-space", {}, False), ("window-well", {}, False), ("conditioned", {}, False),
        ("basement", {"indoor_fan_accepted": True}, True), ("attic", {}, True), ("attic", {"attic": "unvented"}, False), ("outdoors", {}, True),
        ("garage", {}, True), ("garage", {"living_space_over_garage": True, "garage_part_without_rooms": False}, False),
        ("garage", {"living_space_over_garage": True, "garage_part_without_rooms": True}, True),
        ("garage", {"living_space_over_garage": True}, None), ("garage", {"living_space_over_garage": None}, None),
    ],
)  # fmt: skip
def test_the_wanted_place_of_the_fan(place: str, more: dict[str, Any], ok: bool | None) -> None:
    """The wanted place is judged once for the house: stop, nothing against it, or not known with what would tell."""
    answer = solve("vent-route", {**EASY, "fan_location": place, **more}).as_dict()
    (check,) = [check for check in answer["checks"] if check["id"] == "fan-place"]
    assert check["ok"] is ok
    assert check.get("stop", False) is (ok is False)
    assert (check.get("needs") == ["garage_part_without_rooms"]) is (ok is None)


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


def test_crossings_name_what_the_first_route_crosses() -> None:
    """The first routes' crossings stand with what each needs and its source; floors are counted from the lowest one."""
    rows = results(outside_pipe_forbidden=True, garage_attached=False, separations=["floor-between-units"])["crossings"]
    found = {row["crossing"]: row for row in rows}
    assert set(found) == {"rated floor or shaft", "2 floors and the top ceiling", "roof"}
    assert "R302.4.1.1" in found["rated floor or shaft"]["source"]
    for lowest, words in (("slab-on-grade", "1 floor and the top ceiling"), ("unknown", "every floor above the pit, and the top ceiling")):
        assert words in {row["crossing"] for row in results(wishes=["nothing-outside"], lowest_floor=lowest)["crossings"]}
    assert "the top ceiling" in {row["crossing"] for row in results(wishes=["nothing-outside"], lowest_floor="slab-on-grade", storeys=1)["crossings"]}


def test_questions_that_could_close_the_first_route_stand_first() -> None:
    """What could close it comes before what could count against it, and that before the rest; nothing is said twice."""
    lines = solve("vent-route", {"storeys": 2}).as_dict()["results"]["verify"]
    kinds = [0 if line.startswith("Could close") else 1 if line.startswith("Could count") else 2 for line in lines]
    assert kinds == sorted(kinds)
    assert {0, 1, 2} == set(kinds)
    assert len(set(lines)) == len(lines)


def test_no_score_and_no_percentage() -> None:
    """Nothing is weighed: the order is given by counts of named things, and no number stands for a route but those."""
    answer = json.dumps(results())
    assert "%" not in answer
    assert "score" not in answer.lower()
    for row in results(**wall(gas_meter=True, street_side=True))["routes"]:
        stops, drawbacks = (len(row[name]) for name in ("hard_stops", "drawbacks"))
        said = row["why"].lower()
        assert said.startswith(f"{stops or 'no'} hard stop")
        assert f"{drawbacks or 'no'} drawback" in said


WRONG: list[tuple[dict[str, Any], str, str]] = [
    ({"storeys": None}, "storeys", "missing"), ({"storeys": 0}, "storeys", "bounds"), ({"roof_covering": "thatch"}, "roof_covering", "choice"),
    ({"garage_attached": "maybe"}, "garage_attached", "type"), ({"walls": [{"deck": "3 ft"}]}, "walls[0].name", "missing"),
    ({"walls": [{"name": "a", "deck": "3"}]}, "walls[0].deck", "unit"), ({"walls": [{"name": "a", "roof": 1}]}, "walls[0].roof", "unknown-field"),
    ({"walls": [{"name": str(i)} for i in range(13)]}, "walls", "length"), ({"separations": ["none", "party-wall"]}, "separations", "conflict"),
    ({"separations": []}, "separations", "length"), ({"fan_location": "roof"}, "fan_location", "choice"), ({"rules": ["us-xx"]}, "rules", "choice"),
    ({"found_on_line": [{"route": "chase"}]}, "found_on_line[0].what", "missing"), ({"roof_pitch": "-1"}, "roof_pitch", "bounds"),
    ({"living_space_over_garage": False, "garage_part_without_rooms": False}, "garage_part_without_rooms", "conflict"),
    ({"found_on_line": [{"route": "chase", "what": "nothing"}, {"route": "chase", "what": "truss"}]}, "found_on_line", "conflict"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "field", "kind"), WRONG, ids=[f"{row[1]}-{row[2]}" for row in WRONG])
def test_a_wrong_input_names_its_field(change: dict[str, Any], field: str, kind: str) -> None:
    """Each wrong or contradicting input is refused at its field."""
    with pytest.raises(InputError) as refused:
        solve("vent-route", {**EASY, **change})
    assert {one["field"]: one["kind"] for one in refused.value.problems} == {field: kind}


def test_every_input_matters() -> None:
    """No input is asked for in vain: each is a fact of some rule, or is worked into one, or counts the floors."""
    facts = {condition["fact"] for rule in route_rules.rules() for condition in rule["when"]}
    worked_in = {
        "lowest_floor", "living_space_over_garage", "garage_part_without_rooms", "walls", "roof_outlet", "found_on_line", "joist_depth",
        "pipe_size", "fan_location", "bedroom_beside_line", "side_outlet_accepted",
    }  # fmt: skip
    inputs = declaration("vent-route").inputs
    assert set(inputs) <= facts | worked_in
    field = inputs["walls"][0]
    assert isinstance(field, List)
    assert isinstance(field.item, Record)
    assert set(field.item.fields) == set(WALL)


# --- the three houses


def house(name: str) -> job.Job:
    return job.run(copy.deepcopy(tables.table(f"jobs/{name}")))


@pytest.mark.parametrize("name", HOUSES)
def test_the_houses_solve_whole(name: str) -> None:
    """Each invented house solves everything that it names, with nothing of a calculator left open."""
    file, done = tables.table(f"jobs/{name}"), house(name)
    assert file["invented"] is True
    assert set(done.results) >= set(file["inputs"])
    assert not [entry for entry in done.open if entry.calculator]
    assert "vent-route" in names()


@pytest.mark.parametrize(
    ("name", "first", "closed"),
    [
        ("quarry-lane", {"garage to its attic and the roof"}, {"chase": "there is no chase", "gable wall by the drive": "overhead wires at this wall"}),
        ("orchard-slab", {"garage to its attic and the roof"}, {"closets": "a truss, engineered joist or beam is in the line"}),
        ("mill-terrace", {"closets to the attic and the roof"}, {"chase": "the chase stands in the common wall", "front": "a pipe outside is forbidden here"}),
    ],
)  # fmt: skip
def test_the_houses_in_order(name: str, first: set[str], closed: dict[str, str]) -> None:
    """The houses come out as they were drawn: which route is first, and which are closed by what."""
    found = house(name).results["vent-route"].as_dict()["results"]
    assert {row["route"] for row in found["routes"] if row["rank"]["value"] == 1} == first
    for words, why in closed.items():
        assert why in row_of(found, words)["hard_stops"]


def test_in_the_townhouse_the_route_is_the_problem() -> None:
    """One route is left in the townhouse, with many drawbacks; a letter of the association opens the walls again."""
    done = house("mill-terrace").results["vent-route"]
    assert done["routes_left"] == 1
    file = copy.deepcopy(tables.table("jobs/mill-terrace"))
    file["inputs"]["vent-route"]["outside_pipe_forbidden"] = False
    assert job.run(file).results["vent-route"]["routes_left"] > 1
