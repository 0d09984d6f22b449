"""Promises of sump-sealing and fan-point that hold for any sensible input."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from calculators import solve

QUICK = settings(max_examples=25, deadline=None)


def between(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats in a closed range."""
    return st.floats(low, high, allow_nan=False)


def amount(value: float, unit: str) -> dict:
    """A quantity as the interfaces read it."""
    return {"value": value, "unit": unit}


SHUTOFF, FREE, LENGTH = between(50, 1500), between(30, 400), between(0, 200)
SIZE, SOIL = st.sampled_from(["2", "3", "4", "6"]), between(0.2, 800)
GAP, AREA = between(0, 40), between(0, 400)


def sump(size: str, length: float, shutoff: float, free: float, soil: float, gap: float, area: float) -> object:
    """sump-sealing for a pit of these numbers."""
    return solve(
        "sump-sealing",
        {
            "lid_diameter": "24 in",
            "lid_gap": amount(gap, "mm"),
            "other_open_area": amount(area, "cm2"),
            "fan": {"shutoff": amount(shutoff, "Pa"), "free_flow": amount(free, "cfm")},
            "pipe_size": size,
            "pipe_length": amount(length, "ft"),
            "soil_conductance": amount(soil, "cfm/in WC"),
        },
    )


@QUICK
@given(SIZE, LENGTH, SHUTOFF, FREE, SOIL, GAP, AREA)
def test_an_opening_never_helps(
    size: str, length: float, shutoff: float, free: float, soil: float, gap: float, area: float
) -> None:
    """Openings never raise suction or soil flow, never lower the fan's flow, and every range holds its value."""
    found = sump(size, length, shutoff, free, soil, gap, area)
    assert 0 < found["suction_open"] <= found["suction_sealed"] * (1 + 1e-9)
    assert found["soil_flow_open"] <= found["soil_flow_sealed"] * (1 + 1e-9)
    assert found["fan_flow_open"] >= found["soil_flow_sealed"] * (1 - 1e-9)
    assert found["lid_off_flow"] >= found["fan_flow_open"] * (1 - 1e-9)
    for value in found.as_dict("us")["results"].values():
        if isinstance(value, dict) and "low" in value:
            assert value["si_low"] <= value["si"] <= value["si_high"]
    json.dumps(found.as_dict("si"), allow_nan=False)


@QUICK
@given(SIZE, LENGTH, SHUTOFF, FREE, SOIL, GAP, between(0.5, 10))
def test_a_wider_gap_costs_more(
    size: str, length: float, shutoff: float, free: float, soil: float, gap: float, more: float
) -> None:
    """Widening the gap by any step lowers the suction and raises the leak."""
    before, after = (sump(size, length, shutoff, free, soil, g, 0) for g in (gap, gap + more))
    assert after["suction_open"] < before["suction_open"]
    assert after["leak_flow"] > before["leak_flow"]


@QUICK
@given(SIZE, LENGTH, SHUTOFF, FREE, SOIL, AREA, between(0, 50), between(0, 1), between(0, 1))
def test_a_fan_point_balances(
    size: str, length: float, shutoff: float, free: float, soil: float, area: float, hole: float, at: float, tap: float
) -> None:
    """Pressures and flows add up, the gauge never reads below the pit, every range holds its value, nothing is NaN."""
    found = solve(
        "fan-point",
        {
            "fan": {"shutoff": amount(shutoff, "Pa"), "free_flow": amount(free, "cfm")},
            "pipe_size": size,
            "pipe_length": amount(length, "ft"),
            "soil_conductance": amount(soil, "cfm/in WC"),
            "open_area": amount(area, "cm2"),
            "pipe_leak": {"area": amount(hole, "cm2"), "distance_from_pit": amount(at * length, "ft")},
            "gauge_distance": amount(tap * length, "ft"),
        },
    )
    pressure, flow = found["fan_pressure"], found["flow"]
    assert abs(pressure - found["pit_suction"] - found["pipe_loss"]) < 1e-6 * (1 + pressure)
    assert abs(flow - found["soil_flow"] - found["house_air"]) < 1e-9 * (1 + flow)
    assert found["gauge_suction"] >= found["pit_suction"]
    assert 0 <= found["margin"] <= pressure + found["margin"]
    for value in found.as_dict("us")["results"].values():
        if isinstance(value, dict) and "low" in value:
            assert value["si_low"] <= value["si"] <= value["si_high"]
    json.dumps(found.as_dict("si"), allow_nan=False)
