"""Suction round the drain tile: friction and speed of air that joins, water, blockages, what is refused.

No published worked example of suction in a drain tile was found.  Rows marked derived were worked out apart from this
project's code; they are regression values, not published checks.
"""

from itertools import pairwise
from math import pi
from typing import Any

import pytest

from calculators import InputError, solve
from calculators.physics import tile_parts
from calculators.units import factor, si

CFM, STANDARD = factor("cfm"), 1.2
LOOP = {"loop_length": "40 m", "flow": "50 cfm", "pit_suction": "125 Pa"}
# Dry air of 1.2 kg/m3: 101325/(287.055 x 1.2) K.
DRY = {"relative_humidity": "0 %", "air_temperature": {"value": 101325 / 287.055 / STANDARD - 273.15, "unit": "degC"}}


def tile(**changed: Any) -> Any:
    """The answer for the loop above with some inputs changed; None takes one out."""
    given = {**LOOP, **DRY, **changed}
    return solve("tile-loop", {name: value for name, value in given.items() if value is not None})


def checks(result: Any) -> dict[str, dict[str, Any]]:
    return {check["id"]: check for check in result.checks("us")}


@pytest.mark.parametrize(
    ("flow", "friction", "momentum"), [("10 cfm", 0.2, 0.1), ("25 cfm", 1.3, 0.6), ("50 cfm", 5.0, 2.5), ("100 cfm", 20.0, 10.2)]
)
def test_losses_of_a_loop(flow: str, friction: float, momentum: float) -> None:
    """4 in., f 0.06, 20 m each way, 1.2 kg/m3: friction, and momentum at most (K 2), as worked out apart (derived)."""
    found = tile(flow=flow)
    assert found["leg_loss"] == pytest.approx(friction, abs=0.05)
    span = found.outputs["momentum_loss"]
    assert (span.low, span.high) == pytest.approx((0, momentum), abs=0.06)
    assert span.value == pytest.approx(span.high / 2)


def test_evenness_of_a_loop() -> None:
    """At 50 cfm and 125 Pa the far end keeps 96 % less the momentum's share; f 0.10 gives 33 Pa at 100 cfm (derived)."""
    found = tile()
    assert found["evenness"] == pytest.approx(1 - (found["leg_loss"] + found["momentum_loss"]) / 125)
    assert found["farthest_suction"] == pytest.approx(125 * found["evenness"])
    assert 0.94 < found["evenness"] < 0.96
    assert tile(flow="100 cfm", friction_factor="0.1")["leg_loss"] == pytest.approx(33, abs=0.5)


@pytest.mark.parametrize(
    ("depth", "times", "tolerance"), [("0", 1.0, 0.0), ("0.25", 1.8, 0.02), ("0.5", 6.5, 0.06), ("0.75", 82, 0.6), ("0.9", 2800, 30)]
)
def test_water_in_the_tile(depth: str, times: float, tolerance: float) -> None:
    """Resistance against the dry tile with water to a quarter, a half, three quarters, nine tenths (derived)."""
    found = tile(water_depth=depth, flow="1 cfm")
    assert found["resistance_factor"] == pytest.approx(times, abs=tolerance)
    assert found["leg_loss"] == pytest.approx(found["resistance_factor"] * tile(flow="1 cfm")["leg_loss"])
    row = next(row for row in found["water"] if row["water_depth"] == float(depth))
    assert row["resistance_factor"] == pytest.approx(found["resistance_factor"])


def test_half_full_by_hand() -> None:
    """Half full: half the area, hydraulic diameter pi D/(pi + 2), so 4 (pi + 2)/pi times the resistance."""
    assert tile(water_depth="0.5")["resistance_factor"] == pytest.approx(4 * (pi + 2) / pi)


def test_a_full_tile_has_no_answer_but_a_failed_check() -> None:
    """Water to the top: results are null, the air way fails, and nothing is plotted."""
    found = tile(water_depth="1")
    results = found.as_dict()["results"]
    assert [results[n] for n in ("leg_loss", "momentum_loss", "evenness", "resistance_factor", "farthest_suction")] == [None] * 5
    assert checks(found)["air-path"]["ok"] is False
    assert found.work.plots == []
    assert tile(water_depth="0.9999999")["leg_loss"] is None


def test_a_flow_that_cannot_come_is_not_called_even() -> None:
    """Where the tile would lose more than the pit has, no suction is printed for the far end and the check fails."""
    found = tile(water_depth="0.75")
    assert found["leg_loss"] > 125
    assert found["evenness"] is None and found["farthest_suction"] is None
    assert checks(found)["carries"]["ok"] is False
    assert any("cannot come through" in c.text for c in found.work.cautions)
    assert all(row["far_suction"] is None for row in found["legs"])


def test_a_blocked_loop_has_one_long_way() -> None:
    """Blocked at a quarter, the longer way is 3/4 of the loop with 3/4 of the flow: its friction is 27/8 of the half's."""
    open_, blocked = tile(), tile(blocked_at="10 m")
    assert blocked["leg_loss"] / open_["leg_loss"] == pytest.approx((0.75 / 0.5) ** 3)
    assert blocked["momentum_loss"] / open_["momentum_loss"] == pytest.approx(1.5**2)
    assert [row["length"] for row in blocked["legs"]] == pytest.approx([10, 30])
    assert sum(row["flow"] for row in blocked["legs"]) == pytest.approx(50 * CFM)
    assert tile(blocked_at="30 m")["leg_loss"] == pytest.approx(blocked["leg_loss"])


def test_blocked_in_the_middle_is_the_open_loop() -> None:
    """The ways part in the middle anyway; blocked beside the pit there is one way all round."""
    assert tile(blocked_at="20 m")["farthest_suction"] == pytest.approx(tile()["farthest_suction"])
    beside = tile(blocked_at="0 m")
    assert beside["leg_loss"] == pytest.approx(8 * tile()["leg_loss"])
    assert beside.as_dict()["results"]["farthest_suction"]["si"] == beside["farthest_suction"]


def test_ranges_of_friction_and_speed() -> None:
    """The usual friction factor runs from 0.05 to 0.10; one's own has no range, the speed's part always has."""
    usual, own = tile(), tile(friction_factor="0.055")
    span = usual.outputs["leg_loss"]
    assert (span.low / span.value, span.high / span.value) == pytest.approx((5 / 6, 10 / 6))
    assert isinstance(own.outputs["leg_loss"], float)
    far = usual.outputs["farthest_suction"]
    assert far.low == pytest.approx(125 - span.high - usual.outputs["momentum_loss"].high)
    assert far.high == pytest.approx(125 - span.low)
    assert "0.05 to 0.10" in far.why and "friction" not in own.outputs["farthest_suction"].why


def test_no_flow_loses_nothing() -> None:
    """Without flow the whole tile has the pit's suction."""
    still = tile(flow="0 cfm")
    assert still["leg_loss"] == still["momentum_loss"] == 0
    assert still["farthest_suction"] == 125 and still["evenness"] == 1


def test_a_wanted_suction_is_compared() -> None:
    """The far end meets or misses the suction wanted; where none reaches it, it counts as none."""
    assert checks(tile(target_suction="100 Pa"))["target"]["ok"] is True
    assert checks(tile(target_suction="120 Pa"))["target"]["ok"] is False
    assert checks(tile(target_suction="1 Pa", water_depth="0.75"))["target"]["found"]["si"] == 0
    assert "target" not in checks(tile())


def test_thin_air_loses_less() -> None:
    """At 1,500 m the loss falls with the density."""
    assert tile(elevation="1500 m")["leg_loss"] == pytest.approx(0.8345 * tile()["leg_loss"], rel=0.001)


def test_the_plot_goes_round_and_back() -> None:
    """From the pit down to the parting and up again to the pit; the rougher tile lies below; the sum of the pieces fits."""
    found = tile(blocked_at="15 m")
    (plot,) = found.work.plots
    at, low = plot.point
    places, usual = plot.x[2], plot.series[0][2]
    i = places.index(at)
    assert usual[0] == usual[-1] == 125 and at == 15
    assert all(a > b for a, b in pairwise(usual[: i + 1])) and all(a < b for a, b in pairwise(usual[i + 1 :]))
    assert low == pytest.approx(found["legs"][0]["far_suction"])
    assert usual[i + 1] == pytest.approx(found["farthest_suction"], rel=0.01)
    assert all(a >= b for a, b in zip(usual, plot.series[1][2], strict=True))


def test_friction_along_the_way_is_the_integral_of_the_flow() -> None:
    """The share lost up to a place agrees with a sum of small pieces, each with its own flow."""
    n = 4000
    for x in (0.1, 0.5, 1.0):
        pieces = [(1 - x * (i + 0.5) / n) ** 2 for i in range(n)]
        assert tile_parts.friction_share(x) == pytest.approx(3 * x * sum(pieces) / n, rel=1e-6)
    assert (tile_parts.momentum_share(0), tile_parts.momentum_share(1)) == (0, 1)


def test_what_can_hurt_at_the_pit() -> None:
    """The plug, strong air, a choked tile and a second blockage are named where they matter."""
    def said(**changed: Any) -> str:
        return " ".join(c.text for c in tile(**changed).work.cautions)

    assert "Unplug the pump" in said()
    assert "blockage for air" in said(water_depth="0.8", flow="1 cfm") and "blockage for air" not in said(water_depth="0.5")
    assert "two blockages" in said(blocked_at="3 m") and "two blockages" not in said()
    assert "upper bound" in said(water_depth="0.5") and "upper bound" not in said()


WRONG = [
    ({"blocked_at": "41 m"}, "blocked_at", "conflict"),
    ({"loop_length": None}, "loop_length", "missing"),
    ({"flow": None}, "flow", "missing"),
    ({"pit_suction": None}, "pit_suction", "missing"),
    ({"pit_suction": "0 Pa"}, "pit_suction", "bounds"),
    ({"pit_suction": "-5 Pa"}, "pit_suction", "bounds"),
    ({"water_depth": "1.01"}, "water_depth", "bounds"),
    ({"water_depth": "2 in"}, "water_depth", "dimension"),
    ({"friction_factor": "0"}, "friction_factor", "bounds"),
]


@pytest.mark.parametrize(("change", "field", "kind"), WRONG, ids=[f"{field}-{kind}-{i}" for i, (_, field, kind) in enumerate(WRONG)])
def test_what_is_refused(change: dict[str, Any], field: str, kind: str) -> None:
    """A blockage beyond the loop, no flow, no suction, too much water: each at its field with its kind."""
    with pytest.raises(InputError) as caught:
        tile(**change)
    assert [(p["field"], p["kind"]) for p in caught.value.problems] == [(field, kind)]


def test_default_air_is_the_soils() -> None:
    """Without a word the air is that of the soil, 1.2277 kg/m3, and the tile is 4 in."""
    found = tile(relative_humidity=None, air_temperature=None)
    assert found["leg_loss"] / tile()["leg_loss"] == pytest.approx(1.2277 / 1.2, rel=2e-4)
    assert found.as_dict()["inputs"]["tile_diameter"]["si"] == pytest.approx(si("4 in"))
