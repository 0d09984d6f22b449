"""Promises of needed-suction, tile-loop and gauge-reading that hold for any sensible input."""

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from calculators import solve

QUICK = settings(max_examples=25, deadline=None)


def between(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats in a closed range."""
    return st.floats(low, high, allow_nan=False)


def amount(value: float, unit: str) -> dict[str, Any]:
    """A quantity as the interfaces read it."""
    return {"value": value, "unit": unit}


def whole(found: Any) -> None:
    """The answer is JSON without NaN, and every range holds its value."""
    data = json.loads(json.dumps(found.as_dict("us"), allow_nan=False))
    for value in data["results"].values():
        if isinstance(value, dict) and "low" in value:
            assert value["si_low"] <= value["si"] <= value["si_high"]


COLD, EXHAUST, LEAKAGE = between(-40, 40), between(-200, 600), between(300, 6000)
HEIGHTS, COUNT, FOLLOWS, WIND = between(0, 20), st.integers(1, 40), between(0, 1), between(0, 15)


def needed(outdoors: float, exhaust: float, leakage: float, top: float, count: int, follows: float, wind: float) -> Any:
    """needed-suction against a mild day of 10 degC."""
    return solve(
        "needed-suction",
        {
            "test_day": {"outdoor_temperature": "10 degC"},
            "design_day": {
                "outdoor_temperature": amount(outdoors, "degC"), "exhaust": amount(exhaust, "cfm"), "wind": amount(wind, "m/s"),
            },
            "house": {
                "leakage_at_50Pa": amount(leakage, "cfm"), "leak_bottom": "0 m", "leak_top": amount(top, "m"), "leak_count": count,
            },
            "soil_follows": follows,
        },
    )  # fmt: skip


@QUICK
@given(COLD, EXHAUST, LEAKAGE, HEIGHTS, COUNT, FOLLOWS, WIND)
def test_needed_suction_is_whole(
    outdoors: float, exhaust: float, leakage: float, top: float, count: int, follows: float, wind: float
) -> None:
    """Never less than the least suction, ranges hold their values, the balance stands in the steps."""
    found = needed(outdoors, exhaust, leakage, top, count, follows, wind)
    whole(found)
    assert found["required_suction"] >= 1 - 1e-9
    assert any("is the exhaust, worst day" in step.title for step in found.work.steps)


COLDEST = -51.0  # degC, the least that is read


@QUICK
@given(COLD, EXHAUST, LEAKAGE, HEIGHTS, COUNT, FOLLOWS, WIND, between(1, 20), between(1, 200))
def test_a_worse_day_never_needs_less(
    outdoors: float, exhaust: float, leakage: float, top: float, count: int, follows: float, wind: float, colder: float, more: float
) -> None:
    """Colder, more exhaust, more wind: each asks for as much suction or more."""
    base = needed(outdoors, exhaust, leakage, top, count, follows, wind)["required_suction"]
    for worse in (
        needed(max(outdoors - colder, COLDEST), exhaust, leakage, top, count, follows, wind),
        needed(outdoors, exhaust + more, leakage, top, count, follows, wind),
        needed(outdoors, exhaust, leakage, top, count, follows, wind + 1),
    ):
        assert worse["required_suction"] >= base * (1 - 1e-9)


LOOP, FLOW, SUCTION, DEPTH, PLACE = between(5, 150), between(0, 80), between(5, 900), between(0, 0.85), between(0, 1)


def tile(loop: float, flow: float, suction: float, depth: float, place: float | None = None) -> Any:
    """tile-loop of these numbers; ``place`` is a share of the loop."""
    given_ = {
        "loop_length": amount(loop, "m"), "flow": amount(flow, "L/s"), "pit_suction": amount(suction, "Pa"), "water_depth": depth,
    }  # fmt: skip
    return solve("tile-loop", given_ | ({"blocked_at": amount(place * loop, "m")} if place is not None else {}))


@QUICK
@given(LOOP, FLOW, SUCTION, DEPTH, PLACE)
def test_a_tile_is_whole_and_a_blockage_never_helps(loop: float, flow: float, suction: float, depth: float, place: float) -> None:
    """The far end never has more than the pit; blocked anywhere it has no more than open; ranges hold their values."""
    open_, blocked = tile(loop, flow, suction, depth), tile(loop, flow, suction, depth, place)
    for found in (open_, blocked):
        whole(found)
        far = found["farthest_suction"]
        assert far is None or 0 <= far <= suction
        assert (far is None) == (found["leg_loss"] + found["momentum_loss"] > suction + 1e-9)
    assert blocked["leg_loss"] >= open_["leg_loss"] * (1 - 1e-9)


@QUICK
@given(LOOP, FLOW, SUCTION, DEPTH, between(0.01, 0.1))
def test_more_water_never_helps(loop: float, flow: float, suction: float, depth: float, more: float) -> None:
    """Every further bit of water raises the resistance and the loss."""
    before, after = tile(loop, flow, suction, depth), tile(loop, flow, suction, depth + more)
    assert after["resistance_factor"] > before["resistance_factor"]
    assert after["leg_loss"] >= before["leg_loss"]


@QUICK
@given(
    st.sampled_from(["2", "3", "4", "6"]), between(1, 60), between(80, 1200), between(40, 350), between(1, 600),
    between(0, 1), between(0, 1), st.booleans(),
)  # fmt: skip
def test_gauge_reading_is_whole(
    size: str, length: float, shutoff: float, free: float, soil: float, tap: float, now: float, in_pit: bool
) -> None:
    """Any reading up to twice the shut-off gets an order of causes: finite figures, ranks that count, radon said."""
    found = solve(
        "gauge-reading",
        {
            "as_built": {
                "fan": {"shutoff": amount(shutoff, "Pa"), "free_flow": amount(free, "cfm")}, "pipe_size": size,
                "pipe_length": amount(length, "m"), "soil_conductance": amount(soil, "cfm/in WC"),
                **({"gauge_position": "pit"} if in_pit else {"gauge_distance": amount(tap * length, "m")}),
            },
            "reading_now": amount(2 * now * shutoff, "Pa"),
        },
    )  # fmt: skip
    whole(found)
    ranks = [row["rank"] for row in found["causes"]]
    assert ranks == [ranks.index(rank) + 1 for rank in ranks] and len(ranks) >= 10
    assert all(row["gauge"] >= 0 and row["flow"] >= 0 and row["pit_suction"] >= 0 for row in found["causes"])
    assert any("not the radon level" in c.text for c in found.work.cautions)
    assert found["first_look"]
