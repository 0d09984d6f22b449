"""How far suction carries: against closed forms, by symmetry and balance, what is fitted, what is refused, how it is shown.

No published table of suction against distance under a slab could be read.  The rows below are worked out from closed
forms and are marked derived; the printed figures behind those forms stand with the physics of the slab.
"""

from math import exp, hypot, log, pi
from typing import Any

import pytest

from calculators import InputError, describe, page, solve
from calculators.physics.slab_bessel import k0
from calculators.physics.slab_closed import leaky_disc
from calculators.physics.slab_rectangle import images_needed, rectangle_by_images
from calculators.show import drawings
from calculators.show.contours import contour, levels, padded
from calculators.show.text import answer
from calculators.units import factor, si

T, B, Q = 5e-5, 5.0, 0.0236  # m3/s/Pa, m, m3/s (50 cfm)
CFM, IN_WC = factor("cfm"), factor("in WC")
PLAN = [{"width": "12 m", "depth": "9 m"}]
PIT = {"x": "3 m", "y": "3 m", "radius": "0.1 m", "flow": f"{Q} m3/s"}
GIVEN = {"slab": PLAN, "pits": [PIT], "layer_conductance": f"{T} m3/s/Pa", "leakage_length": f"{B} m"}


def m(value: float) -> str:
    return f"{value!r} m"


def at(*places: tuple[float, float]) -> list[dict[str, str]]:
    return [{"x": m(x), "y": m(y)} for x, y in places]


def reach(**changed: Any) -> Any:
    """The answer for the plan above with some inputs changed; None takes one out."""
    return solve("suction-reach", {k: v for k, v in {**GIVEN, **changed}.items() if v is not None})


def values(result: Any, name: str) -> list[float]:
    """A list of suctions without their ranges [Pa]."""
    return [getattr(one, "value", one) for one in result.outputs[name]]


def checks(result: Any) -> dict[str, Any]:
    return {check.id: check for check in result.work.checks}


def problems(**changed: Any) -> list[tuple[str, str]]:
    """Field and kind of what is refused."""
    with pytest.raises(InputError) as caught:
        reach(**changed)
    return [(one["field"], one["kind"]) for one in caught.value.problems]


# --- closed forms (derived)

# Places on the 12 by 9 m slab: tolerance 0.2 % beyond four cells of 0.5 m, 1 % within 1 m of the pit's edge.
EXACT = [((3.6, 3.0), 0.01), ((5.5, 3.0), 0.002), ((8.0, 5.0), 0.002), ((11.9, 8.9), 0.002), ((0.1, 8.9), 0.002)]


@pytest.mark.parametrize(("place", "tolerance"), EXACT)
@pytest.mark.parametrize("length", [2.0, 5.0, 15.0])
def test_a_closed_slab_is_the_sum_of_its_images(place: tuple[float, float], tolerance: float, length: float) -> None:
    """Derived: images to 20 leakage lengths (N = 18 pairs across, 24 up at 15 m); cells of 0.5 m, of 0.4 m at B = 2 m."""
    x, y = place
    exact = rectangle_by_images(x=x, y=y, xs=3, ys=3, width=12, depth=9, Q=Q, T=T, B=length)
    found = reach(leakage_length=m(length), probes=at(place))
    assert values(found, "probe_suctions") == pytest.approx([exact], rel=tolerance)


def test_the_images_reach_far_enough() -> None:
    """The number of image pairs that the rows above state."""
    assert images_needed(width=12, depth=9, B=15.0) == (14, 18)


def test_the_pits_edge_is_the_closed_form() -> None:
    """Derived: suction at the pit's edge against the images at its radius, mean of four sides, within 0.3 %."""
    sides = [(3.1, 3.0), (2.9, 3.0), (3.0, 3.1), (3.0, 2.9)]
    exact = [rectangle_by_images(x=x, y=y, xs=3, ys=3, width=12, depth=9, Q=Q, T=T, B=B) for x, y in sides]
    assert values(reach(), "pit_suctions")[0] == pytest.approx(sum(exact) / 4, rel=0.003)


def test_a_slab_in_which_suction_dies_at_once_is_endless() -> None:
    """Derived: B = 1 m, no cells: exactly Q/(2 pi T) K0(r/B), and the caution says so."""
    found = reach(leakage_length="1 m", probes=at((4.0, 3.0), (9.0, 8.0)))
    exact = [Q / (2 * pi * T) * k0(r) for r in (1.0, hypot(6, 5))]
    assert values(found, "probe_suctions") == pytest.approx(exact, rel=1e-12)
    assert any("slab without end" in c.text for c in found.work.cautions)


def test_a_square_slab_is_nearly_the_disc_of_its_area() -> None:
    """Derived: pit in the middle of 10 by 10 m against the closed disc of 100 m2: pit's edge within 1 %."""
    found = reach(slab=[{"width": "10 m", "depth": "10 m"}], pits=[{**PIT, "x": "5 m", "y": "5 m"}])
    disc = leaky_disc(r=0.1, R=(100 / pi) ** 0.5, rw=0.1, Q=Q, T=T, B=B)
    assert values(found, "pit_suctions")[0] == pytest.approx(disc, rel=0.01)


def test_a_layer_that_carries_all_has_one_pressure() -> None:
    """Derived: T without end: Q/(L A + g P) everywhere, slab and joint sharing the air (T = 0.5 m3/s/Pa, 0.2 %)."""
    L, g = 2e-6, 3e-6
    found = reach(layer_conductance="0.5 m3/s/Pa", leakage_length=None, slab_leakance=f"{L} m/s/Pa", joint_conductance=f"{g} m3/s/Pa/m")
    one = Q / (L * 108 + g * 42)
    assert values(found, "corner_suctions") == pytest.approx([one] * 4, rel=0.002)
    assert found["mean_suction"] == pytest.approx(one, rel=0.002)


def test_a_tile_on_both_sides_of_a_long_slab_is_the_strip() -> None:
    """Derived: 30 by 9 m, tile of no friction 0.25 m from the walls: middle over pit is 1/cosh(4.25 m/B), within 0.3 %."""
    from math import cosh

    found = reach(
        slab=[{"width": "30 m", "depth": "9 m"}], tile="perimeter", tile_offset="0.25 m", tile_diameter="24 in", tile_friction_factor=0.005,
        pits=[{"x": "0.3 m", "y": "4.5 m", "radius": "0.1 m", "suction": "100 Pa", "on_tile": True}], probes=at((15.0, 4.5)),
    )  # fmt: skip
    assert values(found, "probe_suctions") == pytest.approx([100 / cosh(4.25 / B)], rel=0.003)


# --- balance, symmetry, superposition


def test_what_is_drawn_has_leaked_in() -> None:
    """Flow is what slab, soil and joint let in: the printed balance closes with tile, footing, joint and second pit."""
    found = reach(
        pits=[{**PIT, "flow": None, "suction": "120 Pa", "on_tile": True, "x": "0.2 m"}, {**PIT, "x": "9 m"}], tile="perimeter",
        footings=[{"x1": "6 m", "y1": "0 m", "x2": "6 m", "y2": "9 m"}], joint_conductance="1e-6 m3/s/Pa/m",
    )  # fmt: skip
    through = T / B**2 * 108 * found["mean_suction"]
    assert 0 < found["flow"] - through < 42 * 1e-6 * max(values(found, "pit_suctions"))
    assert sum(values(found, "pit_flows")) == pytest.approx(found["flow"], rel=1e-12)
    closed = reach(probes=[])
    assert closed["flow"] == pytest.approx(T / B**2 * 108 * closed["mean_suction"], rel=1e-9)


def test_two_pits_add_up() -> None:
    """The field of two pits by flow is the sum of the two alone; twice the flow is twice the suction."""
    other = {**PIT, "x": "9 m", "y": "6 m", "flow": "0.01 m3/s"}
    places = at((6.0, 4.0), (0.0, 9.0))
    both = values(reach(pits=[PIT, other], probes=places), "probe_suctions")
    alone = [values(reach(pits=[one], probes=places), "probe_suctions") for one in (PIT, other)]
    assert both == pytest.approx([a + b for a, b in zip(*alone, strict=True)], rel=1e-9)
    double = values(reach(pits=[{**PIT, "flow": f"{2 * Q} m3/s"}], probes=places), "probe_suctions")
    assert double == pytest.approx([2 * v for v in alone[0]], rel=1e-9)


def test_flow_and_suction_are_two_ways_to_say_the_same() -> None:
    """The suction that a flow makes draws that flow."""
    made = values(reach(), "pit_suctions")[0]
    back = reach(pits=[{**PIT, "flow": None, "suction": f"{made!r} Pa"}])
    assert back["flow"] == pytest.approx(Q, rel=1e-9)


def test_the_plan_may_lie_anywhere_and_in_pieces() -> None:
    """Moved by (−7, 40) m and cut in two rectangles, the slab gives the same; its corners start at the lowest left."""
    pieces = [{"x": "-7 m", "y": "40 m", "width": "5 m", "depth": "9 m"}, {"x": "-2 m", "y": "40 m", "width": "7 m", "depth": "9 m"}]
    moved = reach(slab=pieces, pits=[{**PIT, "x": "-4 m", "y": "43 m"}])
    assert values(moved, "corner_suctions") == pytest.approx(values(reach(), "corner_suctions"), rel=1e-9)
    rows = [row for row in moved["places"] if row["name"].startswith("corner")]
    assert [(round(r["x"], 6), round(r["y"], 6)) for r in rows] == [(-7, 40), (5, 40), (5, 49), (-7, 49)]


def test_a_dug_volume_is_half_a_ball() -> None:
    """2/3 pi r3 of a 0.3 m pit gives what the radius gives."""
    volume = {**PIT, "radius": None, "dug_volume": f"{2 / 3 * pi * 0.3**3!r} m3"}
    assert values(reach(pits=[volume]), "pit_suctions") == pytest.approx(values(reach(pits=[{**PIT, "radius": "0.3 m"}]), "pit_suctions"))


# --- footings and parts


def test_a_footing_takes_suction_from_what_is_behind_it() -> None:
    """The tighter a footing, the less behind it and the more in front; at 0 it is as if it were not there."""
    def behind(tightness: float) -> list[float]:
        line = [{"x1": "6 m", "y1": "0 m", "x2": "6 m", "y2": "9 m", "tightness": tightness}]
        return values(reach(footings=line, probes=at((9.0, 5.0), (5.0, 5.0))), "probe_suctions")

    open_, usual, tight = behind(0), behind(0.9), behind(0.99)
    assert behind(5e-324) == open_
    assert open_ == pytest.approx(values(reach(probes=at((9.0, 5.0), (5.0, 5.0))), "probe_suctions"))
    assert open_[0] > usual[0] > tight[0] > 0
    assert open_[1] < usual[1] < tight[1]


def test_a_part_that_no_pit_reaches_has_none() -> None:
    """Behind a sealed footing suction is 0, the share that is not joined is told, and three comparisons are not met."""
    found = reach(footings=[{"x1": "8 m", "y1": "0 m", "x2": "8 m", "y2": "9 m", "tightness": 1}], probes=at((10.0, 5.0)))
    assert values(found, "probe_suctions") == [0]
    assert found["weakest_suction"] == 0
    assert found["weakest"]["x"] > 8
    state = checks(found)
    assert state["parts-joined"].ok is False and state["parts-joined"].found == pytest.approx(1 / 3)
    assert state["weakest-suction"].ok is state["slab-covered"].ok is False
    assert found["covered_fraction"] == pytest.approx(2 / 3)


def test_separate_slabs_are_separate() -> None:
    """A second slab apart from the first gets nothing."""
    found = reach(slab=[*PLAN, {"x": "20 m", "y": "0 m", "width": "4 m", "depth": "4 m"}])
    assert values(found, "corner_suctions")[-4:] == [0, 0, 0, 0]
    assert checks(found)["parts-joined"].found == pytest.approx(16 / 124)


def test_a_pit_beside_a_footing_is_said_to_be_weak() -> None:
    """Within 0.3 m of a footing the sum can be 20 % off; a pit farther away is not warned of."""
    def warned(x: str) -> bool:
        found = reach(footings=[{"x1": x, "y1": "0 m", "x2": x, "y2": "9 m"}])
        return any("20 % off" in c.text for c in found.work.cautions)

    assert warned("3.2 m") and not warned("3.5 m")


def test_an_open_wall_joint_is_said_to_be_weak() -> None:
    """A joint that passes more than a metre of the layer does is warned of: near pits the figures at the wall are too high."""
    def warned(joint: str) -> bool:
        return any("wide open" in c.text for c in reach(joint_conductance=joint).work.cautions)

    assert warned("5.1e-5 m3/s/Pa/m") and not warned("4.9e-5 m3/s/Pa/m")


# --- air of the house, stone, tile


def test_house_air_by_what_is_known() -> None:
    """Half slab, half soil is half house air; a leakage length alone tells nothing; a slab alone is all house air."""
    half = reach(leakage_length=None, slab_leakance="1e-6 m/s/Pa", soil_leakance="1e-6 m/s/Pa")
    assert half["house_air_share"] == pytest.approx(0.5)
    assert half["leakage_length"] == pytest.approx((T / 2e-6) ** 0.5)
    assert reach().as_dict()["results"]["house_air_share"] is None
    assert reach(soil_leakance="5e-7 m/s/Pa")["house_air_share"] == pytest.approx(0.75)
    assert reach(leakage_length=None, slab_leakance="1e-6 m/s/Pa")["house_air_share"] == pytest.approx(1)
    with_joint = reach(soil_leakance="5e-7 m/s/Pa", joint_conductance="1e-6 m3/s/Pa/m")
    assert 0.75 < with_joint["house_air_share"] < 1


def test_open_stone_costs_suction_near_the_pit_alone() -> None:
    """With inertia the same flow needs more suction in the pit, far places hardly change (3 %), and 3 times is the end."""
    stone = {"layer_conductance": None, "gravel": {"permeability": "2e-8 m2", "inertia": "20 s/m"}, "layer_thickness": "0.1 m", "leakage_length": "8 m"}
    plain = reach(**{**stone, "gravel": {"permeability": "2e-8 m2", "inertia": "0 s/m"}}, probes=at((11.0, 8.0)))
    fast = reach(**stone, probes=at((11.0, 8.0)))
    assert values(fast, "pit_suctions")[0] > 1.3 * values(plain, "pit_suctions")[0]
    assert values(fast, "probe_suctions") == pytest.approx(values(plain, "probe_suctions"), rel=0.03)
    # c v at 1 m: 20 Q/(2 pi 0.1) passes 3 at 0.0942 m3/s.
    assert reach(**stone, pits=[{**PIT, "flow": "0.0942 m3/s"}])
    assert problems(**stone, pits=[{**PIT, "flow": "0.0943 m3/s"}]) == [("gravel", "outside-model")]


def test_one_pit_and_a_tile_need_no_mark() -> None:
    """The one pit is the tile's unless it is said not to be; then, and with two marks or none, it is refused."""
    one = {**PIT, "flow": None, "suction": "100 Pa", "x": "0.2 m"}
    silent = reach(tile="perimeter", pits=[one])
    marked = reach(tile="perimeter", pits=[{**one, "on_tile": True}])
    assert silent["weakest_suction"] == marked["weakest_suction"] > reach(pits=[one])["weakest_suction"]
    assert any("taken to be the end" in c.text for c in silent.work.cautions)
    assert problems(tile="perimeter", pits=[{**one, "on_tile": False}]) == [("tile", "conflict")]
    second = {**one, "x": "9 m"}
    assert problems(tile="perimeter", pits=[{**one, "on_tile": True}, {**second, "on_tile": True}]) == [("pits[1].on_tile", "conflict")]
    assert problems(tile="perimeter", pits=[one, second]) == [("tile", "conflict")]
    assert problems(pits=[{**one, "on_tile": True}]) == [("pits[0].on_tile", "conflict")]
    assert problems(tile="perimeter", pits=[one], tile_offset="10 ft", slab=[{"width": "6 m", "depth": "5 m"}]) == [("tile_offset", "conflict")]


# --- ranges


def test_ranges_are_as_wide_as_what_is_known() -> None:
    """Untested a quarter to four times; a guess widens it; suction known in the pit has no range and caps the others."""
    by_flow = reach()
    span = by_flow.outputs["weakest_suction"]
    assert (span.value / span.low, span.high / span.value) == pytest.approx((4, 4))
    assert by_flow.outputs["flow"] == pytest.approx(Q)
    pit = {**PIT, "flow": None, "suction": "60 Pa"}
    by_suction = reach(pits=[pit], probes=at((3.0, 3.05), (4.0, 4.0)))
    assert by_suction.outputs["pit_suctions"] == [60]
    assert by_suction.outputs["probe_suctions"][0] == 60
    assert by_suction.outputs["probe_suctions"][1].high == 60
    flow = by_suction.outputs["flow"]
    assert (flow.value / flow.low, flow.high / flow.value) == pytest.approx((4, 4))
    guessed = reach(layer_conductance=None, layer="crushed-base", leakage_length=None, slab_condition="ordinary")
    wide = guessed.outputs["weakest_suction"]
    assert wide.value / wide.low == pytest.approx(exp((log(4) ** 2 + 2 * log(5) ** 2) ** 0.5))
    assert sum("was guessed" in c.text for c in guessed.work.cautions) == 2
    assert guessed["layer_conductance"] == pytest.approx(1e-9 * si("4 in") / 1.779e-5, rel=1e-3)


# --- the fit

HOLES = [(1.0, 8.0), (6.0, 4.0), (11.0, 8.0), (9.0, 1.0), (11.0, 1.0)]
BASE = -4.0


def readings(places: list[tuple[float, float]] = HOLES, **more: Any) -> list[dict[str, str]]:
    """Clean readings of the slab above at test holes, with a baseline below zero."""
    made = values(reach(probes=at(*places), **more), "probe_suctions")
    return [{**place, "suction": f"{s + BASE!r} Pa", "baseline": f"{BASE} Pa"} for place, s in zip(at(*places), made, strict=True)]


TEST = {"layer_conductance": None, "leakage_length": None, "test_flow": f"{Q} m3/s"}


def test_clean_readings_give_the_slab_back() -> None:
    """T and B within 1 %, ratios of 1, a range of 1.35, and all four comparisons are made."""
    found = reach(**TEST, test_holes=readings())
    assert (found["layer_conductance"], found["leakage_length"]) == pytest.approx((T, B), rel=0.01)
    assert [row["ratio"] for row in found["fit"]] == pytest.approx([1] * 5, rel=0.01)
    span = found.outputs["weakest_suction"]
    assert (span.value / span.low, span.high / span.value) == pytest.approx((1.35, 1.35))
    assert checks(found)["enough-holes"].ok is True


def test_three_holes_are_wider_and_two_need_a_length() -> None:
    """Three holes: twice; two are refused unless the leakage length is given; one is refused then too."""
    three = reach(**TEST, test_holes=readings(HOLES[:3]))
    span = three.outputs["weakest_suction"]
    assert (span.value / span.low, span.high / span.value) == pytest.approx((2, 2))
    assert checks(three)["enough-holes"].ok is False
    two = readings(HOLES[:2])
    assert problems(**TEST, test_holes=two) == [("test_holes", "outside-model")]
    assert reach(**{**TEST, "leakage_length": m(B)}, test_holes=two)["layer_conductance"] == pytest.approx(T, rel=0.01)
    assert problems(**{**TEST, "leakage_length": m(B)}, test_holes=two[:1]) == [("test_holes", "outside-model")]


def test_a_hole_without_suction_is_left_out_by_name() -> None:
    """A reading at or below its baseline stays out of the fit, stands in the list and in a caution."""
    dead = {"x": "2 m", "y": "2 m", "suction": f"{BASE} Pa", "baseline": f"{BASE} Pa"}
    found = reach(**TEST, test_holes=[*readings()[:2], dead, *readings()[2:]])
    assert found["layer_conductance"] == pytest.approx(T, rel=0.01)
    assert len(found["holes_dropped"]) == 1 and "test_holes[2]" in found["holes_dropped"][0]
    assert any("Left out" in c.text and "hole 3" in c.text for c in found.work.cautions)
    assert [row["hole"] for row in found["fit"]] == ["hole 1", "hole 2", "hole 4", "hole 5", "hole 6"]


def test_behind_a_footing_that_no_hole_looks_past_the_range_is_twice() -> None:
    """Four holes in front of a footing: 1.35 there, 2 behind it; one hole behind makes it 1.35 again."""
    line = [{"x1": "8 m", "y1": "0 m", "x2": "8 m", "y2": "9 m", "tightness": 0.5}]
    front = [(1.0, 8.0), (6.0, 4.0), (7.0, 1.0), (5.0, 8.0)]
    for places, factor_behind in ((front, 2.0), ([*front, (11.0, 5.0)], 1.35)):
        found = reach(**TEST, footings=line, test_holes=readings(places, footings=line), probes=at((5.0, 5.0), (10.0, 5.0)))
        spans = found.outputs["probe_suctions"]
        assert [s.value / s.low for s in spans] == pytest.approx([1.35, factor_behind])


def test_the_test_may_draw_at_another_hole() -> None:
    """A test at a hole of its own gives the slab back; with two pits it must be said where it drew."""
    hole = {"x": "8 m", "y": "6 m", "radius": "0.05 m"}
    holes = readings(pits=[{**hole, "flow": f"{Q} m3/s"}])
    two = [PIT, {**PIT, "x": "9 m", "y": "1 m"}]
    found = reach(**TEST, pits=two, test_holes=holes, test_pit=hole)
    assert (found["layer_conductance"], found["leakage_length"]) == pytest.approx((T, B), rel=0.01)
    assert problems(**TEST, pits=two, test_holes=holes) == [("test_pit", "missing")]


def test_readings_that_contradict_the_plan_are_refused() -> None:
    """Suction behind a footing that is sealed off cannot be fitted."""
    line = [{"x1": "8 m", "y1": "0 m", "x2": "8 m", "y2": "9 m", "tightness": 1}]
    assert problems(**TEST, footings=line, test_holes=readings()) == [("test_holes", "outside-model")]


def test_readings_that_do_not_fall_end_at_the_limit() -> None:
    """Alike everywhere: the length is not found, and a caution says so."""
    flat = [{**place, "suction": "50 Pa"} for place in at(*HOLES)]
    found = reach(**TEST, test_holes=flat)
    assert any("limit of its search" in c.text for c in found.work.cautions)


# --- what is refused

WRONG = [
    ({"layer_state": "water-in-test-holes"}, [("layer_state", "outside-model")]),
    ({"layer_conductance": None, "leakage_length": None}, [("layer_conductance", "missing"), ("leakage_length", "missing")]),
    ({"layer": "sand"}, [("layer_conductance", "conflict")]),
    ({"slab_leakance": "1e-6 m/s/Pa"}, [("leakage_length", "conflict")]),
    ({"test_holes": readings(), "test_flow": "1 cfm"}, [("layer_conductance", "conflict")]),
    ({**TEST, "test_holes": readings(), "slab_leakance": "1e-6 m/s/Pa"}, [("slab_leakance", "conflict")]),
    ({**TEST, "test_holes": readings(), "slab_condition": "sealed"}, [("slab_condition", "conflict")]),
    ({**TEST, "test_holes": readings(), "test_flow": None}, [("test_flow", "missing")]),
    ({"leakage_length": None, "slab_leakance": "0 m/s/Pa"}, [("slab_leakance", "outside-model")]),
    ({"soil_leakance": "3e-6 m/s/Pa"}, [("soil_leakance", "conflict")]),
    ({"pits": [{**PIT, "x": "13 m"}]}, [("pits[0].x", "conflict")]),
    ({"pits": [PIT, {**PIT, "x": "3.1 m"}]}, [("pits[1].x", "conflict")]),
    ({"pits": [{**PIT, "radius": None}]}, [("pits[0].radius", "missing")]),
    ({"pits": [{**PIT, "dug_volume": "7 L"}]}, [("pits[0].radius", "conflict")]),
    ({"pits": [{**PIT, "suction": "9 Pa"}]}, [("pits[0].flow", "conflict")]),
    ({"pits": [{**PIT, "flow": "-1 cfm"}]}, [("pits[0].flow", "bounds")]),
    ({"pits": []}, [("pits", "length")]),
    ({"slab": []}, [("slab", "length")]),
    ({"slab": PLAN * 13}, [("slab", "length")]),
    ({"slab": [{"width": "12 m"}]}, [("slab[0].depth", "missing")]),
    ({"slab": [{"width": "1 m", "depth": "1 m"}], "pits": [{**PIT, "x": "0.5 m", "y": "0.5 m", "radius": "0.4 m"}]}, [("pits[0].radius", "outside-model")]),
    ({"probes": at((3.0, 9.5))}, [("probes[0].x", "conflict")]),
    ({"footings": [{"x1": "1 m", "y1": "1 m", "x2": "1 m", "y2": "1 m"}]}, [("footings[0]", "conflict")]),
    ({"footings": [{"x1": "1 m", "y1": "1 m", "x2": "1 m", "y2": "4 m", "tightness": 1.2}]}, [("footings[0].tightness", "bounds")]),
    ({"leakage_length": "1 m", "tile": "perimeter"}, [("tile", "outside-model")]),
    ({"leakage_length": "1 m", "footings": [{"x1": "6 m", "y1": "0 m", "x2": "6 m", "y2": "9 m"}]}, [("footings", "outside-model")]),
    ({"gravel": {"permeability": "1e-8 m2", "inertia": "5 s/m"}, "layer_conductance": None, "layer": "sand"}, [("gravel", "conflict")]),
]  # fmt: skip


@pytest.mark.parametrize(("change", "expected"), WRONG, ids=[f"{e[0][0]}-{e[0][1]}-{i}" for i, (_, e) in enumerate(WRONG)])
def test_what_is_refused(change: dict[str, Any], expected: list[tuple[str, str]]) -> None:
    """Floods, gaps and contradictions each stand at their field with their kind."""
    assert problems(**change) == expected


def test_what_can_hurt_and_what_is_not_seen() -> None:
    """Every answer has the cautions of a hole, the draft of burners, and says that walls are outside the model."""
    found = reach()
    said = " ".join(c.text for c in found.work.cautions)
    for words in ("located before each hole", "silica", "change of colour", "Test for spillage", "fan's alone"):
        assert words in said
    assert any("block cores" in text for text in found.work.left_out)
    assert any("damp" in c.text for c in reach(layer_state="damp").work.cautions)


# --- map, plan, page


def test_the_map_is_the_field() -> None:
    """x0, y0 is the place of the first value, rows go up, off the slab is null, and values are those of probes (0.5 %)."""
    wing = [*PLAN, {"x": "12 m", "y": "0 m", "width": "3 m", "depth": "4 m"}]
    data = reach(slab=wing).as_dict("si")["results"]["map"]
    nx, ny, step = data["nx"], data["ny"], data["step"]["si"]
    assert (len(data["values"]), len(data["values"][0]), data["unit"]) == (ny, nx, "Pa")
    assert max(nx, ny) <= 60 and data["values"][0] == pytest.approx(data["si"][0], rel=1e-9)
    assert data["x0"]["si"] == pytest.approx(step / 2)
    assert data["values"][ny - 1][nx - 1] is None and data["values"][0][nx - 1] is not None
    i, j = int(9 / step), int(6 / step)
    place = (data["x0"]["si"] + i * step, data["y0"]["si"] + j * step)
    assert values(reach(slab=wing, probes=at(place)), "probe_suctions")[0] == pytest.approx(data["values"][j][i], rel=0.005)
    us = reach(slab=wing).as_dict("us")["results"]["map"]
    assert us["values"][0][0] == pytest.approx(us["si"][0][0] / IN_WC)
    kinds = {field["name"]: field["kind"] for field in describe("suction-reach")["results"]}
    assert (kinds["map"], kinds["weakest"], kinds["probe_suctions"]) == ("map", "object", "list")


def test_a_contour_lies_where_its_value_is() -> None:
    """Lines of a cone exp(-r) are circles at -log(level); closed ones end where they began; the wall is reached."""
    n = 41
    rows = [[exp(-hypot(i - 20, j - 20) / 5) for i in range(n)] for j in range(n)]
    (line,) = contour(rows, 0.2)
    assert line[0] == line[-1]
    assert [hypot(x - 20, y - 20) for x, y in line] == pytest.approx([-5 * log(0.2)] * len(line), rel=0.01)
    outer = contour(padded(rows), exp(-18 / 4))
    assert outer and all(len(part) > 2 for part in outer)
    assert len(padded(rows)) == n + 2 and padded([[1.0, None]])[1] == [1.0, 1.0, 1.0, None]


def test_levels_are_round_and_few() -> None:
    """1, 2, 5 and their tens; evenly spaced where a field is flat; none where there is none."""
    assert levels(0.03, 1.5) == [0.05, 0.1, 0.2, 0.5, 1]
    assert len(levels(1e-6, 1.0)) <= 7
    assert levels(90, 99) == [92, 94, 96, 98]
    assert levels(5, 5) == levels(-1, 0) == []


def test_the_plan_prints_its_numbers() -> None:
    """Each line has its value, the pit and the weakest place their numbers, corners their suction; a table says it again."""
    found = reach(footings=[{"x1": "8 m", "y1": "0 m", "x2": "8 m", "y2": "9 m"}], target_suction="60 Pa")
    text = drawings.draw("suction-plan", "p1", found, "si")
    assert text.count('class="contour') == text.count('class="value')
    assert 'class="contour want"' in text and 'class="short"' in text and 'class="footing"' in text
    assert "Weakest place" in text and "The plan in numbers" in text and "style=" not in text
    assert text.count('class="corner"') >= 3
    assert '<clipPath id="p1-slab">' in text and "url(#p1-slab)" in text
    said = answer(found, "us")
    assert "Suction over the plan, in WC" in said and "{" not in said


def test_the_page_takes_it_in_two_stages() -> None:
    """The quick part has the sentence; the plan comes with the rest."""
    import json

    request = json.dumps({"calculator": "suction-reach", "inputs": GIVEN, "units": "us", "uid": "w"})
    first, later = json.loads(page.answer(request)), json.loads(page.rest(request))
    assert "weakest place" in first["status"] and "drawing" not in first["html"]
    assert "<svg" in later["html"]["drawing"]
