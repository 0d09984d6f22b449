"""Where to core for the footing drain: the geometry, what is refused, what stops the work."""

from typing import Any

import pytest

from calculators import InputError, solve
from calculators.units import factor
from published import Check

IN = factor("in")
WALL = {
    "wall_thickness": "8 in", "footing_width": "16 in", "drain_side": "inside", "tile_position": "beside",
    "known_below": "none-found",
}  # fmt: skip


def placed(**changed: Any) -> Any:
    """The answer for the wall above with some inputs changed; None takes one out."""
    return solve("tile-offset", {k: v for k, v in {**WALL, **changed}.items() if v is not None})


def inches(name: str, **changed: Any) -> float:
    """One result in inches."""
    return placed(**changed)[name] / IN


def check(result: Any, id: str) -> dict[str, Any]:
    return next(c for c in result.checks("us") if c["id"] == id)


def footing_limit() -> float:
    """The least projection that the answer compares with, in inches."""
    return check(placed(), "footing-projects")["required"]["value"]


CHECKS = [
    Check("tile-offset-projection", "tile-offset", "crc-2013", "R403.1.1, least projection of a footing", footing_limit, 2,
          1e-9, "the printed limit", "in"),
]  # fmt: skip

# No published table of drain tile places was found: worked out from the drawing, wall / footing -> projection, tile centre.
DERIVED = [("8 in", "16 in", 4, 6.25), ("8 in", "20 in", 6, 8.25), ("10 in", "20 in", 5, 7.25), ("10 in", "24 in", 7, 9.25)]


@pytest.mark.parametrize("row", CHECKS, ids=lambda row: row.id)
def test_published(row: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert row.holds(), str(row)


@pytest.mark.parametrize(("wall", "footing", "projection", "center"), DERIVED)
def test_geometry(wall: str, footing: str, projection: float, center: float) -> None:
    """A tile of 4.5 in. that touches the footing has its centre at half the difference of the widths plus 2.25 in."""
    result = placed(wall_thickness=wall, footing_width=footing)
    assert result["footing_projection"] / IN == pytest.approx(projection)
    assert result["nearest_center"] / IN == pytest.approx(center)


def test_eight_inch_wall_on_sixteen_inch_footing() -> None:
    """4.00, 6.25 and 10.25 in. from the concrete, first hole at 8.25 in., and the trade's habit of 9 to 12 in. overlaps."""
    result = placed()
    names = ("footing_projection", "nearest_center", "farthest_center", "first_hole", "common_practice_low", "common_practice_high")
    assert [result[name] / IN for name in names] == pytest.approx([4.00, 6.25, 10.25, 8.25, 9, 12])
    assert [d / IN for d in result["probe_distances"]] == pytest.approx([6.25, 8.25, 10.25])
    assert result["overlaps_common_practice"] is True
    span = result.outputs["first_hole"]
    assert (span.low / IN, span.high / IN) == pytest.approx((6.25, 10.25))


def test_one_to_four_inches_of_gap() -> None:
    """With 1 to 4 in. between footing and tile the usual walls and footings give centres from 7 to about 13 in."""
    nearest = [inches("nearest_center", wall_thickness=w, footing_width=f, tile_gap_min="1 in") for w, f, *_ in DERIVED]
    farthest = [inches("farthest_center", wall_thickness=w, footing_width=f) for w, f, *_ in DERIVED]
    assert (min(nearest), max(farthest)) == pytest.approx((7.25, 13.25))


def test_a_finish_takes_its_depth_off() -> None:
    """Distances to drill at count from the finished face; those to the tile stay with the concrete."""
    bare, framed = placed(), placed(finish_depth="4.5 in")
    assert framed["nearest_center"] == bare["nearest_center"]
    assert framed["first_hole"] / IN == pytest.approx(3.75)
    assert [d / IN for d in framed["probe_distances"]] == pytest.approx([1.75, 3.75, 5.75])
    assert framed["overlaps_common_practice"] is True


def test_the_core_stays_off_the_footing() -> None:
    """A large core moves outwards until half an inch of concrete is left to the footing."""
    assert inches("first_hole", core_diameter="12 in") == pytest.approx(4 + 6 + 0.5)
    assert [d / IN for d in placed(core_diameter="12 in")["probe_distances"]] == pytest.approx([6.25, 10.25, 10.5])


def test_the_same_distance_is_named_once() -> None:
    """Without a gap nearest, first and farthest are one pilot hole."""
    assert [d / IN for d in placed(tile_gap_max="0 in", core_diameter="3 in")["probe_distances"]] == pytest.approx([6.25])


def test_projection_may_be_typed() -> None:
    """A probed footing gives its projection; the wall is then not needed for the geometry."""
    result = placed(footing_width=None, footing_projection="4 in", wall_thickness="24 in")
    assert result["first_hole"] / IN == pytest.approx(8.25)


def test_overlap_is_closed() -> None:
    """Ranges that touch at one distance overlap; a thousandth further they do not."""
    assert placed(tile_gap_max="2.75 in")["farthest_center"] / IN == pytest.approx(9)
    assert placed(tile_gap_max="2.75 in")["overlaps_common_practice"] is True
    assert placed(tile_gap_max="2.749 in")["overlaps_common_practice"] is False
    assert placed(footing_width=None, footing_projection="9.751 in")["overlaps_common_practice"] is False


BY_HAND = ("nearest_center", "farthest_center", "first_hole", "probe_distances", "overlaps_common_practice")


@pytest.mark.parametrize(("where", "found"), [({"drain_side": "outside"}, "outside"), ({"tile_position": "on-footing"}, "on-footing")])
def test_a_drain_out_of_reach_has_no_distances(where: dict[str, str], found: str) -> None:
    """No hole inside meets a drain outside or on the footing: the distances are null and the check says what is left."""
    result = placed(**where)
    data = result.as_dict()["results"]
    assert all(data[name] is None for name in BY_HAND)
    assert data["footing_projection"]["value"] == pytest.approx(4)
    verdict = check(result, "reachable")
    assert (verdict["ok"], verdict["found"]) == (False, found)
    assert "sump" in verdict["text"]
    assert "stop" not in verdict


def test_an_unknown_side_states_both() -> None:
    """With the side unknown the distances are given for the inside, not judged, with a pilot hole only after locating."""
    result = placed(drain_side=None)
    verdict = check(result, "reachable")
    assert (verdict["ok"], verdict["needs"]) == (None, ["drain_side"])
    assert all(word in verdict["text"] for word in ("Inside", "outside", "pilot", "locating"))
    assert result["first_hole"] / IN == pytest.approx(8.25)
    assert result.as_dict()["inputs"]["drain_side"] == {"value": "unknown", "default": True}


def test_not_located_stops_the_work() -> None:
    """Left out or said, not-located is a hard stop: a failed check with stop and one danger caution in the same words."""
    for given in (None, "not-located", ["not-located"]):
        result = placed(known_below=given)
        verdict = check(result, "located")
        assert (verdict["ok"], verdict["stop"]) == (False, True)
        same = [c for c in result.work.cautions if c.text == verdict["text"]]
        assert [c.level for c in same] == ["danger"]
        assert result["first_hole"] / IN == pytest.approx(8.25)


def test_what_is_known_below_brings_its_danger() -> None:
    """Each thing known under the slab brings its own danger caution; none-found brings none but lifts the stop."""
    things = ["gas", "water", "cable", "heating", "tendon", "sewer"]
    plain = len(placed().work.cautions)
    assert "stop" not in check(placed(), "located")
    for thing in things:
        result = placed(known_below=[thing])
        extra = result.work.cautions[0]
        assert extra.level == "danger"
        assert thing.removesuffix("ing") in extra.text.lower()
        assert len(result.work.cautions) == plain + 1
    assert len(placed(known_below=things).work.cautions) == plain + 6


def test_the_usual_cautions_stand_at_every_hole() -> None:
    """Silica, water under pressure, and the signs to stop at stand on every answer, reachable or not."""
    for where in ({}, {"drain_side": "outside"}, {"known_below": None}):
        text = " ".join(c.text for c in placed(**where).work.cautions)
        assert all(word in text for word in ("silica", "Water under pressure", "change of colour", "metal", "pilot holes"))
    assert any("poured in one piece" in text for text in placed().work.left_out)


def test_a_footing_that_hardly_projects_is_pointed_out() -> None:
    """Less than 2 in. of projection hints at a wrong measure: a failed check, not an error."""
    verdict = check(placed(footing_width="11 in"), "footing-projects")
    assert verdict["ok"] is False
    assert verdict["margin"]["value"] == pytest.approx(-0.5)
    assert check(placed(footing_width="12 in"), "footing-projects")["ok"] is True


def test_slab_and_core_give_depth_and_weight() -> None:
    """The slab's thickness is the depth to stop at; a 5 in. core of 4 in. weighs 6.6 lb at 145 lb/ft3."""
    result = placed(slab_thickness="6 in")
    assert result["drilling_depth"] / IN == pytest.approx(6)
    assert placed()["core_weight"] / factor("lb") == pytest.approx(145 * 3.14159265 / 4 * (5 / 12) ** 2 * 4 / 12, rel=1e-6)


WRONG = [
    ({"footing_width": "7 in"}, "footing_width", "conflict"),
    ({"tile_gap_min": "5 in"}, "tile_gap_max", "conflict"),
    ({"finish_depth": "7 in"}, "finish_depth", "conflict"),
    ({"footing_projection": "4 in"}, "footing_width", "conflict"),
    ({"footing_width": None}, "footing_width", "missing"),
    ({"wall_thickness": None}, "wall_thickness", "missing"),
    ({"known_below": ["none-found", "gas"]}, "known_below", "conflict"),
    ({"known_below": ["not-located", "water"]}, "known_below", "conflict"),
    ({"known_below": []}, "known_below", "length"),
    ({"known_below": ["gas", "radon"]}, "known_below[1]", "choice"),
    ({"drain_side": "left"}, "drain_side", "choice"),
    ({"wall_thickness": "8"}, "wall_thickness", "unit"),
]


@pytest.mark.parametrize(("change", "field", "kind"), WRONG, ids=[f"{field}-{kind}" for _, field, kind in WRONG])
def test_contradictions_are_refused(change: dict[str, Any], field: str, kind: str) -> None:
    """A footing narrower than its wall, gaps the wrong way round, a finish beyond the tile: each at its field."""
    with pytest.raises(InputError) as caught:
        placed(**change)
    assert [(p["field"], p["kind"]) for p in caught.value.problems] == [(field, kind)]
