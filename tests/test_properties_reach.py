"""How far suction carries, for any plan: more leakage never helps, no place beats its pit, plans may be turned and mirrored."""

from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from calculators import InputError, solve

FEW = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
SIDE = st.floats(3, 18)
SHARE = st.floats(0.1, 0.9)
LAYER = st.floats(1e-6, 1e-3)
LENGTH = st.floats(1.6, 40)
TIGHT = st.floats(0, 0.999)
MORE = st.floats(1.05, 5)


def plan(width: float, depth: float, x: float, y: float, T: float, **more: Any) -> dict[str, Any]:
    """A rectangle with one pit at 100 Pa at shares of its sides."""
    return {
        "slab": [{"width": f"{width} m", "depth": f"{depth} m"}],
        "pits": [{"x": f"{x * width} m", "y": f"{y * depth} m", "radius": "0.1 m", "suction": "100 Pa"}],
        "layer_conductance": f"{T} m3/s/Pa", **more,
    }  # fmt: skip


def corners(result: Any) -> list[float]:
    return [span.value for span in result.outputs["corner_suctions"]]


def solved(inputs: dict[str, Any]) -> Any:
    """The answer; None where the model refuses."""
    try:
        return solve("suction-reach", inputs)
    except InputError as error:
        if {one["kind"] for one in error.problems} != {"outside-model"}:
            raise
        return None


@FEW
@given(SIDE, SIDE, SHARE, SHARE, LAYER, LENGTH, MORE, st.floats(0, 0.1))
def test_more_leakage_never_raises_a_suction(
    width: float, depth: float, x: float, y: float, T: float, length: float, more: float, joint: float
) -> None:
    """Joints up to a tenth of a metre of layer: a leakier slab or joint leaves less at every corner, less on the mean, a smaller share covered, and draws more air."""
    joint *= T  # far below what makes the caution of an open joint
    here = solved(plan(width, depth, x, y, T, leakage_length=f"{length} m", joint_conductance=f"{joint} m3/s/Pa/m"))
    leaky = solved(plan(width, depth, x, y, T, leakage_length=f"{length / more} m", joint_conductance=f"{joint * more} m3/s/Pa/m"))
    assume(here and leaky and length / more >= 1.6)
    slack = 0.02  # the cells are not the same: finer for the shorter length
    assert all(a <= b * (1 + slack) for a, b in zip(corners(leaky), corners(here), strict=True))
    assert leaky["mean_suction"] <= here["mean_suction"] * (1 + slack)
    assert leaky["flow"] >= here["flow"] * (1 - slack)


@FEW
@given(SIDE, SIDE, SHARE, SHARE, LAYER, LENGTH, TIGHT)
def test_no_place_has_more_than_the_pit_and_ranges_hold(
    width: float, depth: float, x: float, y: float, T: float, length: float, tight: float
) -> None:
    """With a footing across, all suctions lie between 0 and the pit's; ranges hold their value and end at the pit's."""
    line = [{"x1": f"{width / 2} m", "y1": "0 m", "x2": f"{width / 2} m", "y2": f"{depth} m", "tightness": tight}]
    assume(abs(x - 0.5) * width > 0.35)
    found = solved(plan(width, depth, x, y, T, leakage_length=f"{length} m", footings=line))
    assume(found)
    weakest = found["weakest_suction"]
    for span in (*found.outputs["corner_suctions"], found.outputs["weakest_suction"], found.outputs["mean_suction"]):
        assert -1e-9 <= span.low <= span.value <= span.high <= 100 * (1 + 1e-9)
    assert all(weakest <= value + 1e-9 for value in corners(found))
    assert 0 <= found["covered_fraction"] <= 1
    through = T / length**2 * width * depth * found["mean_suction"]
    assert found["flow"] == pytest.approx(through, rel=1e-6)


@FEW
@given(SIDE, SIDE, SHARE, SHARE, LAYER, LENGTH)
def test_a_mirrored_and_a_turned_plan_are_the_same_plan(width: float, depth: float, x: float, y: float, T: float, length: float) -> None:
    """Mirrored across, corners change sides; turned by a quarter, width and depth change places (2 %: other cells)."""
    more = {"leakage_length": f"{length} m"}
    a, b, c, d = corners(solved(plan(width, depth, x, y, T, **more)))
    assert corners(solved(plan(width, depth, 1 - x, y, T, **more))) == pytest.approx([b, a, d, c], rel=0.02)
    assert corners(solved(plan(depth, width, y, x, T, **more))) == pytest.approx([a, d, c, b], rel=0.02)


@FEW
@given(SIDE, SIDE, SHARE, SHARE, LAYER, LENGTH, st.floats(0.01, 20))
def test_suction_scales_and_the_layer_alone_moves_only_the_flow(
    width: float, depth: float, x: float, y: float, T: float, length: float, times: float
) -> None:
    """All suctions go with the pit's; with the same length a better layer draws more air and leaves the field as it is."""
    more = {"leakage_length": f"{length} m"}
    here = solved(plan(width, depth, x, y, T, **more))
    inputs = plan(width, depth, x, y, T, **more)
    inputs["pits"][0]["suction"] = f"{100 * times} Pa"
    assert corners(solved(inputs)) == pytest.approx([v * times for v in corners(here)], rel=1e-9)
    better = solved(plan(width, depth, x, y, T * 3, **more))
    assert corners(better) == pytest.approx(corners(here), rel=1e-9)
    assert better["flow"] == pytest.approx(3 * here["flow"], rel=1e-9)


@FEW
@given(SIDE, SIDE, SHARE, SHARE, SHARE, SHARE, LENGTH)
def test_two_places_are_alike_to_each_other(width: float, depth: float, x: float, y: float, u: float, v: float, length: float) -> None:
    """What a flow at one place makes at another, the same flow there makes here (2 % where the places are a metre apart)."""
    assume(abs(x - u) * width > 1 or abs(y - v) * depth > 1)
    places = [(x * width, y * depth), (u * width, v * depth)]
    made = []
    for (a, b), (p, q) in (places, places[::-1]):
        inputs = plan(width, depth, 0.5, 0.5, 5e-5, leakage_length=f"{length} m", probes=[{"x": f"{p} m", "y": f"{q} m"}])
        inputs["pits"] = [{"x": f"{a} m", "y": f"{b} m", "radius": "0.1 m", "flow": "10 L/s"}]
        made.append(solved(inputs).outputs["probe_suctions"][0].value)
    assert made[0] == pytest.approx(made[1], rel=0.02)
