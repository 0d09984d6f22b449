"""The rule packs say what the rules say, each in its own file."""

import json
import re

import pytest

from calculators import tables

PACKS = tables.rule_packs()
QUANTITY_RELATIONS = {">=", ">", "<=", "<", "="}
RELATIONS = QUANTITY_RELATIONS | {"in", "not in", "text"}

# Pack, row, quantity, relation, value and unit as the text has them; the section stands behind.
PRINTED = [
    ("us-pa", "PA-01", "height_above_grade", ">=", 10, "ft"),  # 25 Pa. Code 240.308(b)(3)
    ("us-pa", "PA-02", "distance_to_opening", ">=", 10, "ft"),  # 240.308(b)(4)
    ("us-pa", "PA-03", "above_opening", ">=", 2, "ft"),  # 240.308(b)(4)
    ("us-pa", "PA-04", "above_roof_edge", ">", 0, "ft"),  # 240.308(b)(1)
    ("us-pa", "PA-05", "wall_taller_distance", ">=", 5, "ft"),  # 240.308(b)(5)
    ("us-pa", "PA-06", "distance_to_adjacent_opening", ">=", 10, "ft"),  # 240.308(b)(6)
    ("us-pa", "PA-07", "above_roof_surface", ">=", 12, "in"),  # 240.308(b)(6)(i)
    ("irc-f", "IRC-01", "above_roof_surface", ">=", 12, "in"),  # IRC 2012 base, AF103.5.3, AF103.6.1
    ("irc-f", "IRC-02", "distance_to_opening", ">=", 10, "ft"),  # AF103.5.3, AF103.6.1
    ("irc-f", "IRC-02-above", "above_opening", ">=", 2, "ft"),  # AF103.5.3, AF103.6.1
    ("irc-f", "IRC-03", "distance_to_adjacent_opening", ">=", 10, "ft"),  # AF103.5.3, AF103.6.1
    ("us-pa", "PA-12", "report_after_start", "<=", 45, "day"),  # 25 Pa. Code 240.303(2)(i)
    ("us-pa", "PA-13", "records", ">=", 5, "yr"),  # 25 Pa. Code 240.303(1)(ii)
    ("us-mn", "MN-01", "distance_to_opening", ">=", 10, "ft"),  # Minn. R. 1303.2402 subp. 5, as quoted
    ("us-mn", "MN-02", "above_roof_surface", ">=", 12, "in"),  # 1303.2402 subp. 5, as quoted
    ("us-mn", "MN-03", "fan_capacity", ">=", 50, "cfm"),  # 1303.2403 item A, at 1/2 in. WC
    ("us-mn", "MN-06", "membrane_lap", ">=", 12, "in"),  # 1303.2402 subp. 2
    ("us-mn", "MN-07", "perforated_pipe_length", ">=", 10, "ft"),  # 1303.2402 subp. 3
    ("sgm-sf-2017", "SGM17-01", "jet_path_distance", ">=", 20, "ft"),  # SGM-SF 2017 7.4.8
    ("sgm-sf-2017", "SGM17-02", "height_above_grade", ">=", 20, "ft"),  # 7.4.11, level discharge
    ("sgm-sf-2017", "SGM17-03", "distance_to_opening", ">=", 10, "ft"),  # 7.4.11, level discharge
    ("sgm-sf-2017", "SGM17-04", "height_above_grade", ">=", 15, "ft"),  # 7.4.11, diffused
    ("sgm-sf-2017", "SGM17-05", "above_opening", ">=", 4, "ft"),  # 7.4.11, diffused
    ("sgm-sf-2017", "SGM17-05-away", "distance_to_opening", ">=", 15, "ft"),  # 7.4.11, diffused
    ("sgm-sf-2017", "SGM20-01", "slope", ">=", 1 / 8, "in/ft"),  # 12/20, 6.2.2
    ("sgm-sf-2017", "SGM20-02", "air_speed", "<", 2000, "ft/min"),  # 12/20, 6.3.8
    ("sgm-sf-2017", "SGM20-05", "trap_seal", ">=", 6, "in"),  # 12/20, 7.8.2
    ("sgm-sf-2017", "RMSLB-04-level", "support_spacing_horizontal", "<=", 4, "ft"),  # RMS-LB 2018 (12/20) 6.2.7
    ("sgm-sf-2017", "RMSLB-04", "support_spacing_vertical", "<=", 10, "ft"),  # RMS-LB 2018 (12/20) 6.2.7
    ("rms-mf-2018", "RMSMF-01", "angle_from_vertical", "<=", 45, "deg"),  # RMS-MF 2018 (12/20) 6.4.9
    ("rms-mf-2018", "RMSMF-02", "above_roof_surface", ">=", 1, "ft"),  # 6.4.10(a)
    ("rms-mf-2018", "RMSMF-03", "above_roof_edge", ">=", 6, "in"),  # 6.4.10(b)
    ("rms-mf-2018", "RMSMF-04", "above_roof_surface", ">=", 18, "in"),  # 6.4.10(c)
    ("rms-mf-2018", "RMSMF-05", "height_above_grade", ">=", 20, "ft"),  # 6.4.11
    ("cc-1000-2018", "CC-01", "above_opening", ">=", 4, "ft"),  # CC-1000-2018 9.7.1
    ("cc-1000-2018", "CC-01-side", "side_distance_to_opening", ">=", 10, "ft"),  # 9.7.1
    ("cc-1000-2018", "CC-02", "above_people_area", ">=", 10, "ft"),  # 9.7.2
    ("cc-1000-2018", "CC-04-3", "equivalent_length_limit", "<=", 75, "ft"),  # 8.6
    ("cc-1000-2018", "CC-04-4", "equivalent_length_limit", "<=", 150, "ft"),  # 8.6
    ("cc-1000-2018", "CC-04-6", "equivalent_length_limit", "<=", 440, "ft"),  # 8.6
    ("cc-1000-2018", "CC-05", "support_spacing_horizontal", "<=", 4, "ft"),  # 8.5
    ("cc-1000-2018", "CC-05-vertical", "support_spacing_vertical", "<=", 10, "ft"),  # 8.5
    ("cc-1000-2018", "CC-07", "screen_mesh", ">=", 1 / 2, "in"),  # 9.8.1
    ("cc-1000-2018", "CC-09", "spread_cone_angle", "=", 11, "deg"),  # 9.1.5
    ("cc-1000-2018", "CC-09-cap", "spread_cone_angle", "=", 45, "deg"),  # 9.1.5
]


def row(pack: str, id: str) -> dict:
    """One row of one pack."""
    return next(r for r in tables.rule_pack(pack)["rows"] if r["id"] == id)


@pytest.mark.parametrize(
    ("pack", "id", "printed"), [(p[0], p[1], p[2:]) for p in PRINTED], ids=[f"{p[0]}-{p[1]}" for p in PRINTED]
)
def test_rows_are_as_printed(pack: str, id: str, printed: tuple[str, str, float, str]) -> None:
    """Each distance, height and limit is the one that the rule prints."""
    found = row(pack, id)
    assert (found["quantity"], found["relation"], found["value"], found["unit"]) == printed


@pytest.mark.parametrize("pack", PACKS)
def test_pack_is_whole(pack: str) -> None:
    """A pack says where it holds, in which edition it was read and what was not seen; its rows are unique."""
    data = tables.rule_pack(pack)
    assert data["id"] == pack
    assert all(data[k].strip() for k in ("title", "jurisdiction", "edition", "in_force_note"))
    assert data["not_seen"]
    assert data["reading_notes"]
    assert tables.source(data["source"])["kind"] == "published"
    ids = [r["id"] for r in data["rows"]]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("pack", PACKS)
def test_rows_are_whole(pack: str) -> None:
    """Each row has section, edition, mark, one plain sentence and a relation that its value fits."""
    for r in tables.rule_pack(pack)["rows"]:
        assert r["section"].strip(), r["id"]
        assert r["edition"].strip(), r["id"]
        assert r["mark"] in {"seen", "secondary", "from memory"}, r["id"]
        assert re.fullmatch(r".{20,}\.", r["text"]), r["id"]
        assert r["relation"] in RELATIONS, r["id"]
        assert isinstance(r["condition"], dict), r["id"]
        number = isinstance(r["value"], int | float) and not isinstance(r["value"], bool)
        assert number == bool(r["unit"]), f"{r['id']}: a number has a unit, and nothing else has"
        assert number <= (r["relation"] in QUANTITY_RELATIONS), r["id"]
        assert isinstance(r["value"], list) == (r["relation"] in {"in", "not in"}), r["id"]
        assert isinstance(r["value"], str) == (r["relation"] == "text"), r["id"]


@pytest.mark.parametrize("pack", PACKS)
def test_either_or_rows_point_at_each_other(pack: str) -> None:
    """Two rows of which one is enough name each other, inside one pack and under one condition."""
    rows = {r["id"]: r for r in tables.rule_pack(pack)["rows"]}
    for r in rows.values():
        if "either" in r:
            other = rows[r["either"]]
            assert other["either"] == r["id"]
            assert other["section"] == r["section"]
            assert other.get("applies_to") == r.get("applies_to")


def test_packs_are_never_merged() -> None:
    """No row stands in two packs, so that each answer belongs to one rule text."""
    owner: dict[str, str] = {}
    for pack in PACKS:
        for r in tables.rule_pack(pack)["rows"]:
            assert owner.setdefault(r["id"], pack) == pack
    assert not owner.keys() & {r["id"] for r in tables.table("rules-other")["rows"]}


def test_packs_disagree_where_the_texts_disagree() -> None:
    """Above an opening 2, 2 and 4 ft, above a roof edge 0 and 6 in.: each as its own text has it."""
    assert [row(*x)["value"] for x in (("us-pa", "PA-03"), ("irc-f", "IRC-02-above"), ("cc-1000-2018", "CC-01"))] == [
        2,
        2,
        4,
    ]
    assert (row("us-pa", "PA-04")["value"], row("rms-mf-2018", "RMSMF-03")["value"]) == (0, 6)
    assert not [
        r for r in tables.rule_pack("irc-f")["rows"] if r["quantity"] in {"height_above_grade", "above_roof_edge"}
    ]
    assert not [r for r in tables.rule_pack("us-mn")["rows"] if r["quantity"] == "above_opening"]


def test_fan_places() -> None:
    """Pennsylvania names where a fan may not be, Minnesota where it may; both stop the work."""
    assert {"below-grade", "window-well", "conditioned", "basement", "crawl-space"} <= set(
        row("us-pa", "PA-10")["value"]
    )
    assert row("us-mn", "MN-04")["value"] == ["outdoors", "attic", "garage"]
    for r in (row("us-pa", "PA-10"), row("us-pa", "PA-10-above"), row("us-mn", "MN-04"), row("us-mn", "MN-04-pipe")):
        assert r["stop"] is True


def test_secondary_rows_say_so() -> None:
    """The Minnesota distances were read as quoted in a public code, so they are marked secondary."""
    assert row("us-mn", "MN-01")["mark"] == row("us-mn", "MN-02")["mark"] == "secondary"


def test_other_rules_are_for_looking_up_only() -> None:
    """The other rows have the same form and name where they hold; nobody can ask for them as a pack."""
    rows = tables.table("rules-other")["rows"]
    assert len(rows) > 30
    assert len({r["id"] for r in rows}) == len(rows)
    for r in rows:
        assert all(r[k].strip() for k in ("jurisdiction", "edition")), r["id"]
        assert r["relation"] in RELATIONS, r["id"]
        assert r["mark"] in {"seen", "secondary", "from memory"}, r["id"]
        assert re.fullmatch(r".{20,}\.", r["text"]), r["id"]
    with pytest.raises(KeyError):
        tables.rule_pack("other")


def test_rules_are_plain_json() -> None:
    """No pack holds NaN or infinity."""
    for pack in PACKS:
        json.dumps(tables.rule_pack(pack), allow_nan=False)
