"""vent-route: hard stops stay in the list, ties are ties, unknown counts neither way, three houses in order."""

import copy
import json
from typing import Any

import pytest

from calculators import InputError, declaration, job, names, solve, tables
from calculators.declare import List, Record
from calculators.trade import route_rules, routes
from route_house import EASY, WALL, ordered, results, row_of, wall

HOUSES = ("quarry-lane", "orchard-slab", "mill-terrace")


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
