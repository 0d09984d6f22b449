"""The outlet compared with rule texts: geometries with a known answer, stops, what is not judged, the solved height."""

import json
from math import hypot, tan

import pytest

from calculators import InputError, describe, solve, tables
from calculators.units import factor, si
from outlets import CC, IRC, LEVEL, MF, MN, PA, SGM, SIDE, THROUGH, ask, check, ids, riser

FT = factor("ft")


def test_above_the_edge_is_strict() -> None:
    """25 Pa. Code 240.308(b)(1) says above the edge: level with it does not meet; the solved height goes to the edge."""
    at = ask(PA, {**SIDE, "height_above_roof": "0 ft"})
    assert check(at, "PA-04")["ok"] is False
    assert check(at, "PA-04")["margin"]["value"] == 0
    assert check(ask(PA, {**SIDE, "height_above_roof": "0.01 in"}), "PA-04")["ok"] is True
    assert at["results"]["shortest_riser"]["value"] == pytest.approx(22)


def test_window_well_below_a_side_pipe() -> None:
    """25 Pa. Code 240.308: outlet 22 ft up, edge at 21 ft, window head at 18 ft, 6 ft of string: met (4 ft above)."""
    answer = ask(PA, SIDE, openings=[{"path": "6 ft", "vertical": "4 ft"}])
    assert answer["results"]["passes"] is True
    assert check(answer, "PA-02:openings[0]")["margin"]["value"] == pytest.approx(2)
    assert answer["results"]["worst_margin"]["value"] == pytest.approx(1)
    assert answer["results"]["shortest_riser"]["value"] == pytest.approx(21)


def test_window_just_below_a_side_pipe() -> None:
    """The same with the head at 20.5 ft: less than 2 ft above and nearer than 10 ft, by string and by slope (6.18 ft)."""
    answer = ask(PA, SIDE, openings=[{"path": "6 ft", "vertical": "1.5 ft"}])
    assert answer["results"]["passes"] is False
    assert check(answer, "PA-02:openings[0]")["margin"]["value"] == pytest.approx(-0.5)
    straight = check(ask(MN, THROUGH, openings=[{"horizontal": "6 ft", "vertical": "1.5 ft"}]), "MN-01:openings[0]")
    assert straight["found"]["value"] == pytest.approx(hypot(6, 1.5))


def test_string_round_a_corner() -> None:
    """25 Pa. Code 240.308(b)(4) and CC-1000 9.1.1: 7 ft through the wall, 11 ft by string round it; the string counts."""
    corner = [{"horizontal": "7 ft", "vertical": "0 ft", "path": "11 ft"}]
    for pack, id in ((PA, "PA-02:openings[0]"), (CC, "CC-01:openings[0]")):
        found = check(ask(pack, SIDE, openings=corner), id)
        assert (found["ok"], found["found"]["value"]) == (True, pytest.approx(11))


def test_seven_inches_over_the_edge() -> None:
    """RMS-MF 6.4.10(b) asks for 6 in. over the edge, 25 Pa. Code 240.308(b)(1) for more than nothing: 7 in. meets both."""
    answer = ask([MF, PA], {**SIDE, "height_above_roof": "7 in"})
    assert check(answer, "RMSMF-03")["ok"] is check(answer, "PA-04")["ok"] is answer["results"]["passes"] is True
    assert answer["results"]["disagreements"] == []


def test_two_packs_disagree() -> None:
    """Window 3 ft below, 6 ft of string: not met by the Minnesota text as quoted, met by the model text; both are said."""
    answer = ask([MN, IRC], THROUGH, openings=[{"name": "bath window", "path": "6 ft", "vertical": "3 ft"}])
    results = answer["results"]
    assert results["passes"] is None
    assert [(p["rules"], p["passes"]) for p in results["packs"]] == [(MN, False), (IRC, True)]
    assert [p["shortest_riser"] is None for p in results["packs"]] == [True, False]
    assert any("bath window" in text and "MN-01" in text and "IRC-02" in text for text in results["disagreements"])
    assert {c["id"] for p in results["packs"] for c in p["checks"]} | {"joined-to"} == ids(answer)
    assert results["worst_margin"]["value"] == pytest.approx(-4)


@pytest.mark.parametrize(("vertical", "height", "gap"), [("2 ft", "3 ft", 2), ("-2 ft", "3 ft", 0), ("-9 ft", "3 ft", 6),
                                                         ("-9 ft", None, 0), ("0 ft", None, 0), ("-3 ft", "3 ft", 0)])  # fmt: skip
def test_gap_above_beside_and_below(vertical: str, height: str | None, gap: float) -> None:
    """The height between outlet and opening counts above its top and below its foot; without a height it reaches down."""
    opening = {"horizontal": "8 ft", "vertical": vertical, "height": height}
    found = check(ask(MN, THROUGH, openings=[opening]), "MN-01:openings[0]")
    assert found["found"]["value"] == pytest.approx(hypot(8, gap))


def test_spread_cone() -> None:
    """CC-1000 9.7.1 and 9.1.5: to the side also means outside the cone, 11 degrees from a plain end, 45 from a cap."""
    high = [{"horizontal": "12 ft", "vertical": "-20 ft", "height": "3 ft"}]
    plain = check(ask(CC, SIDE, openings=high), "CC-01:openings[0]")
    assert plain["ok"] is True  # the cone is 3.9 ft wide there, 11 degrees either side
    assert plain["margin"]["value"] == pytest.approx(2)
    capped = check(ask(CC, {**SIDE, "rain_cap": True}, openings=high), "CC-01:openings[0]")
    assert capped["ok"] is False
    assert capped["required"]["value"] == pytest.approx(20)
    edge = 20 * tan(11 * 3.141592653589793 / 180)
    near = [{"path": "30 ft", "horizontal": f"{edge - 0.01} ft", "vertical": "-20 ft"}]
    assert check(ask(CC, SIDE, openings=near), "CC-01:openings[0]")["ok"] is False


def test_jet_is_aimed_or_not() -> None:
    """SGM-SF 7.4.8 is judged in the jet's line only; the text says what was taken; where it cannot be told it is open."""
    near = {"horizontal": "6 ft", "vertical": "-1 ft"}
    up = check(ask(SGM, SIDE, openings=[near]), "SGM17-01:openings[0]")
    assert up["ok"] is True
    assert "straight up" in up["text"]
    level = check(ask(SGM, LEVEL, openings=[near]), "SGM17-01:openings[0]")
    assert (level["ok"], level["needs"]) == (None, ["openings[0].in_jet_path"])
    assert check(ask(SGM, LEVEL, openings=[{**near, "vertical": "2 ft"}]), "SGM17-01:openings[0]")["ok"] is True
    assert check(ask(SGM, LEVEL, openings=[{**near, "horizontal": "21 ft"}]), "SGM17-01:openings[0]")["ok"] is True
    overhead = check(ask(SGM, SIDE, openings=[{"horizontal": "0 ft", "vertical": "-9 ft", "height": "2 ft"}]), "SGM17-01:openings[0]")
    assert (overhead["ok"], overhead["found"]["value"]) == (False, pytest.approx(7))
    deck = check(ask(SGM, LEVEL, people_areas=[{"horizontal": "6 ft", "vertical": "4 ft"}]), "SGM17-01:people_areas[0]")
    assert deck["ok"] is None


@pytest.mark.parametrize(("pack", "id"), [(PA, "PA-08"), (MF, "RMSMF-01"), (SGM, "SGM17-02")])
def test_direction_has_no_default(pack: str, id: str) -> None:
    """A row on the direction is open when none was given, and so is the whole."""
    answer = ask(pack, {k: v for k, v in SIDE.items() if k != "direction"})
    assert check(answer, id)["ok"] is None
    assert "discharge.direction" in check(answer, id)["needs"]
    assert answer["results"]["passes"] is None


@pytest.mark.parametrize(("pack", "id", "met"), [(PA, "PA-08", ("up", "up-45")), (MF, "RMSMF-01", ("up", "up-45"))])
def test_directions(pack: str, id: str, met: tuple[str, ...]) -> None:
    """25 Pa. Code 240.308(b)(2) and RMS-MF 6.4.9: up, or 45 degrees from it, and not level; no height cures level."""
    for direction in ("up", "up-45", "horizontal"):
        answer = ask(pack, {**SIDE, "direction": direction})
        assert check(answer, id)["ok"] is (direction in met)
        assert (answer["results"]["shortest_riser"] is None) is (direction not in met)


@pytest.mark.parametrize(("pack", "id"), [(PA, "PA-08-cap"), (CC, "CC-08")])
def test_rain_cap(pack: str, id: str) -> None:
    """25 Pa. Code 240.308(b)(2) and CC-1000 9.8.2: no rain cap."""
    assert check(ask(pack, {**SIDE, "rain_cap": True}), id)["ok"] is False
    assert check(ask(pack, SIDE), id)["ok"] is True


def test_taller_wall() -> None:
    """25 Pa. Code 240.308(b)(5): judged with a distance, open for a taller wall without one, else taken as not there."""
    assert "PA-05" not in ids(ask(PA, SIDE))
    lacking = ask(PA, {**SIDE, "wall_higher_than_pipe": True})
    assert check(lacking, "PA-05")["needs"] == ["discharge.horizontal_to_wall_above"]
    assert lacking["results"]["passes"] is None


def test_chimney_is_no_opening_where_the_pack_says_so() -> None:
    """25 Pa. Code 240.308(b)(4) does not count a chimney; the model text does not say so."""
    chimney = [{"name": "old flue", "kind": "chimney", "horizontal": "1 ft", "vertical": "0 ft"}]
    pa = ask(PA, SIDE, openings=chimney)
    assert pa["results"]["passes"] is True
    assert any("old flue" in text for text in pa["not_looked_at"])
    assert check(ask(IRC, THROUGH, openings=chimney), "IRC-02:openings[0]")["ok"] is False


# 25 Pa. Code 240.308(c); Minn. R. 1303.2403 item A.
PLACES = [(PA, "PA-10", "outdoors attic garage", "basement crawl-space window-well conditioned"),
          (MN, "MN-04", "outdoors attic garage", "basement crawl-space window-well conditioned")]  # fmt: skip


@pytest.mark.parametrize(("pack", "id", "may", "may_not"), PLACES)
def test_fan_places(pack: str, id: str, may: str, may_not: str) -> None:
    """A fan where the pack forbids it is a hard stop with a danger caution; left out, it leaves the whole alone."""
    for place in may.split():
        assert check(ask(pack, {**THROUGH, "fan_location": place}), id)["ok"] is True
    for place in may_not.split():
        answer = ask(pack, {**THROUGH, "fan_location": place})
        assert check(answer, id)["stop"] is True
        assert any(c["level"] == "danger" and c["text"] == check(answer, id)["text"] for c in answer["cautions"])
        assert answer["results"]["passes"] is False
    left_out = ask(pack, THROUGH)
    assert check(left_out, id)["needs"] == ["discharge.fan_location"]
    assert left_out["results"]["passes"] is True


def test_fan_below_living_space() -> None:
    """25 Pa. Code 240.308(c): a garage with a bedroom above is a stop; outdoors the row is met."""
    bedroom = ask(PA, {**SIDE, "fan_location": "garage", "conditioned_space_above_fan": True})
    assert check(bedroom, "PA-10-above")["stop"] is True
    assert check(ask(PA, {**SIDE, "fan_location": "garage", "conditioned_space_above_fan": False}), "PA-10-above")["ok"]
    assert check(ask(PA, {**SIDE, "fan_location": "outdoors"}), "PA-10-above")["ok"] is True


def test_pressure_pipe_inside() -> None:
    """Minn. R. 1303.2403 item A stops pipe under pressure indoors; a pack without the row still warns of it."""
    stopped = ask(MN, {**THROUGH, "pressure_pipe_inside": True})
    assert check(stopped, "MN-04-pipe")["stop"] is True
    warned = ask(IRC, {**THROUGH, "pressure_pipe_inside": True})
    assert any(c["level"] == "danger" and "pressure side" in c["text"] for c in warned["cautions"])


@pytest.mark.parametrize("joined", ["flue", "plumbing-vent", "duct"])
@pytest.mark.parametrize("pack", tables.rule_packs())
def test_joined_pipe_stops_in_every_pack(pack: str, joined: str) -> None:
    """A vent joined to a flue, plumbing vent or duct is a hard stop whatever the pack says."""
    answer = ask(pack, {**SIDE, "joined_to": joined})
    assert check(answer, "joined-to")["stop"] is True
    assert answer["results"]["passes"] is False
    assert answer["results"]["shortest_riser"] is None


def test_riser_may_be_shorter_and_goes_back_in() -> None:
    """The solved height, put back with roof and openings moved along, leaves the worst of the height rows at zero."""
    openings = [{"horizontal": "5 ft", "vertical": "9 ft"}, {"horizontal": "8 ft", "vertical": "6 ft", "height": "3 ft"}]
    for pack, discharge in ((PA, SIDE), (MN, THROUGH), (MF, SIDE), (IRC, THROUGH)):
        first = solve("discharge-clearances", {"rules": pack, "discharge": discharge, "openings": openings})
        drop = si("22 ft") - first["shortest_riser"]
        moved = {**discharge, "height_above_grade": {"value": first["shortest_riser"] / FT, "unit": "ft"},
                 "height_above_roof": {"value": (si(discharge["height_above_roof"]) - drop) / FT, "unit": "ft"}}  # fmt: skip
        lower = [{**o, "vertical": {"value": (si(o["vertical"]) - drop) / FT, "unit": "ft"}} for o in openings]
        again = solve("discharge-clearances", {"rules": pack, "discharge": moved, "openings": lower})
        assert again["worst_margin"] == pytest.approx(0, abs=1e-7), pack


def test_no_riser_where_height_does_not_help() -> None:
    """A string that stays too short, a pack without a height row, or a missing roof height leave the height open."""
    near = [{"path": "6 ft", "vertical": "3 ft"}]
    assert ask(MN, THROUGH, openings=near)["results"]["shortest_riser"] is None
    assert ask(CC, SIDE, openings=near)["results"]["shortest_riser"] is None
    assert ask(SGM, SIDE)["results"]["shortest_riser"] is None
    assert ask(PA, {"height_above_grade": "22 ft", "direction": "up"})["results"]["shortest_riser"] is None


def test_distance_alone_is_solved_for_height() -> None:
    """Where only 10 ft of straight distance counts, a window 6 ft to the side is left 8 ft below."""
    answer = riser(MN, {**THROUGH, "height_above_roof": "20 ft"}, openings=[{"horizontal": "6 ft", "vertical": "1 ft"}])
    assert answer == pytest.approx(22 - 1 + 8)


def test_what_was_not_there_is_said() -> None:
    """Left-out geometry, unseen sections and rows that are not asked about are named; no verdict says passed or safe."""
    for pack in tables.rule_packs():
        answer = ask(pack, SIDE)
        said = "\n".join(answer["not_looked_at"])
        assert "none were given: openings of this house; openings of adjacent buildings; decks" in said
        assert all(part in said for part in tables.rule_pack(pack)["not_seen"])
        words = json.dumps([answer["results"], [c["text"] for c in answer["checks"]]]).lower()
        assert "passes code" not in words
        assert "safe" not in words.replace("health and safety", "")
        assert any("in force where you work" in c["text"] for c in answer["cautions"])
    assert "CC-07" in "\n".join(ask(CC, SIDE)["not_looked_at"])
    assert any("can be read otherwise" in c["text"] for c in ask(PA, SIDE)["cautions"])
    assert any("most provisions" in c["text"] for c in ask(MF, SIDE)["cautions"])


def test_nothing_seen_is_nothing_met() -> None:
    """A pack of which no row speaks of this outlet is not met by silence."""
    answer = ask(SGM, SIDE)
    assert answer["results"]["passes"] is None
    assert "no row" in answer["results"]["finding"]


def test_snow() -> None:
    """Snow is compared with the outlet's height on its roof or ground; it is a row of no pack."""
    deep = ask(PA, THROUGH, snow_depth="2 ft")
    assert check(deep, "snow")["ok"] is False
    assert deep["results"]["passes"] is True
    assert check(ask(PA, SIDE, snow_depth="2 ft"), "snow")["ok"] is True


def test_roof_row_for_a_side_pipe_says_what_was_compared() -> None:
    """The model text knows only a pipe through the roof; for a side pipe the edge is compared and the text says so."""
    found = check(ask(IRC, {**SIDE, "height_above_roof": "11 in"}), "IRC-01")
    assert found["ok"] is False
    assert "roof edge was compared" in found["text"]


def test_all_problems_at_once() -> None:
    """Every wrong member is listed, with its path and kind."""
    with pytest.raises(InputError) as error:
        ask("pa", {"direction": "down", "height_above_roof": "1 kg"}, openings=[{"kind": "gate", "path": "-1 ft", "sill": "2 ft"}])
    assert {(p["field"], p["kind"]) for p in error.value.problems} == {
        ("rules", "choice"), ("discharge.height_above_grade", "missing"), ("discharge.direction", "choice"),
        ("discharge.height_above_roof", "dimension"), ("openings[0].kind", "choice"), ("openings[0].path", "bounds"),
        ("openings[0].sill", "unknown-field"),
    }  # fmt: skip
    with pytest.raises(InputError) as error:
        ask([PA, IRC, MN], SIDE)
    assert [(p["field"], p["kind"]) for p in error.value.problems] == [("rules", "length")]
    with pytest.raises(InputError) as error:
        solve("discharge-clearances", {})
    assert {p["field"] for p in error.value.problems} == {"rules", "discharge"}


def test_worst_margin_is_the_least_of_the_checks() -> None:
    """The worst margin is the least margin of the judged length rows."""
    answer = ask([PA, MF], SIDE, openings=[{"horizontal": "9 ft", "vertical": "-1 ft"}], adjacent_buildings=[{"path": "30 ft"}])
    assert answer["results"]["worst_margin"]["si"] == min(c["margin"]["si"] for c in answer["checks"] if "margin" in c)


def test_answer_is_plain_json_and_described() -> None:
    """The answer is JSON without NaN, in both systems, and the declaration names its members."""
    result = solve("discharge-clearances", {"rules": [PA, CC], "discharge": SIDE, "people_areas": [{"horizontal": "3 ft"}]})
    for system, unit in (("us", "ft"), ("si", "m")):
        data = json.loads(json.dumps(result.as_dict(system), allow_nan=False))
        assert data["results"]["packs"][0]["checks"][0]["required"]["unit"] == unit
    discharge = next(i for i in describe("discharge-clearances")["inputs"] if i["name"] == "discharge")
    direction = next(m for m in discharge["item"] if m["name"] == "direction")
    assert direction["choices"] == ["up", "up-45", "horizontal"]
    assert "default" not in direction
