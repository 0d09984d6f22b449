"""Promises of the radon calculators that hold for any sensible input."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators import solve

QUICK = settings(max_examples=40, deadline=None)
SEVERITY = ("below-level", "retest-later", "long-term-test", "retest-now", "fix")
BANDS = ("within", "warning", "control")


def between(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats in a closed range."""
    return st.floats(low, high, allow_nan=False)


def amount(value: float, unit: str) -> dict[str, Any]:
    """A quantity as the interfaces read it."""
    return {"value": value, "unit": unit}


LEVEL, CHANGES, HOURS = between(0.01, 1000), between(0.02, 10), between(0, 300)


def answer_of(readings: list[tuple[float, str, str]], **more: Any) -> Any:
    """radon-test for readings of (pCi/L, role, place)."""
    listed = [{"value": amount(value, "pCi/L"), "role": role, "location": place} for value, role, place in readings]
    whole = {"test_hours": "48 h", "closed_house_hours": "12 h", "placement": "right-place", **more}
    return solve("radon-test", {"readings": listed, **whole})


@QUICK
@given(LEVEL, LEVEL)
def test_a_pair_has_no_first(one: float, two: float) -> None:
    """Exchanging the two devices of a pair changes neither its difference nor its band."""
    here = answer_of([(one, "primary", "a"), (two, "duplicate", "a")])["pairs"][0]
    there = answer_of([(two, "primary", "a"), (one, "duplicate", "a")])["pairs"][0]
    assert here["rpd"] == pytest.approx(there["rpd"], rel=1e-12) and here["band"] == there["band"]
    assert 0 <= here["rpd"] <= 2 + 1e-12


@QUICK
@given(between(2.01, 500), between(0, 1.9), between(0, 1.9))
def test_a_wider_pair_is_never_in_a_better_band(mean: float, one: float, two: float) -> None:
    """At one mean a larger difference never gives a milder band."""
    narrow, wide = sorted((one, two))
    bands = []
    for rpd in (narrow, wide):
        row = answer_of([(mean * (1 + rpd / 2), "primary", "a"), (mean * (1 - rpd / 2), "duplicate", "a")])["pairs"][0]
        bands.append(BANDS.index(row["band"]))
    assert bands[0] <= bands[1]


@QUICK
@given(st.lists(st.tuples(LEVEL, st.sampled_from(["primary", "blank", "spike"]), st.sampled_from("abc")), min_size=1, max_size=8), LEVEL)
def test_the_mean_lies_between_the_readings(readings: list[tuple[float, str, str]], sure: float) -> None:
    """The mean lies between the lowest and the highest counted reading, and blanks and spikes do not move it."""
    whole = [*readings, (sure, "primary", "a")]
    counted = [reading for reading in whole if reading[1] == "primary"]
    result, alone = answer_of(whole), answer_of(counted)
    assert result["mean"] == pytest.approx(alone["mean"], rel=1e-12)
    values = [value * 37 for value, _, _ in counted]
    assert min(values) * (1 - 1e-9) <= result["mean"] <= max(values) * (1 + 1e-9)


@QUICK
@given(LEVEL, between(1, 5), st.sampled_from(["initial", "follow-up", "post-mitigation"]), st.booleans())
def test_more_radon_never_asks_for_less(level: float, more: float, protocol: str, long: bool) -> None:
    """A higher reading never leads to a milder decision, except from a second look to the work itself."""
    extra = {"protocol": protocol, "test_hours": "100 day" if long else "48 h", "fan_confirmed": True, "earlier_reading": "6 pCi/L"}
    times = {"system_started_at": "2026-01-01", "test_started_at": "2026-01-05"}
    decisions = [answer_of([(v, "primary", "a")], **extra, **times)["decision"] for v in (level, level * more)]
    assert "invalid" not in decisions
    assert SEVERITY.index(decisions[0]) <= SEVERITY.index(decisions[1])


@QUICK
@given(LEVEL, between(0, 1), st.sampled_from(["icrp-137", "unscear", "5 nSv m3/Bq/h"]), HOURS)
def test_units_follow_the_level(level: float, F: float, coefficient: str, hours: float) -> None:
    """Twice the level is twice of everything but the risk; a working level leads back to the same radon."""
    more = {"equilibrium_factor": F, "dose_coefficient": coefficient, "hours": amount(hours, "h")}
    one, two = (solve("radon-units", {"value": amount(v, "pCi/L"), **more}) for v in (level, 2 * level))
    for name in ("bq_per_m3", "eec", "working_level", "wlm", "dose"):
        assert two[name] == pytest.approx(2 * one[name], rel=1e-9, abs=1e-30)
    if F >= 0.01:
        back = solve("radon-units", {"value": amount(one["working_level"], "J/m3"), **more})
        assert back["bq_per_m3"] == pytest.approx(one["bq_per_m3"], rel=1e-9)
        assert back["dose"] == pytest.approx(one["dose"], rel=1e-9, abs=1e-30)


@QUICK
@given(between(1.3, 20), between(1, 3), st.sampled_from(["never", "smoker"]))
def test_risk_rises_with_the_level(level: float, more: float, who: str) -> None:
    """Within the table more radon is never less risk, and a smoker's is always the greater."""
    here = solve("radon-units", {"value": amount(level, "pCi/L"), "smoking": who})
    there = solve("radon-units", {"value": amount(min(level * more, 20), "pCi/L"), "smoking": who})
    assert here["risk_per_1000"] <= there["risk_per_1000"]
    never, smoker = (row["risk_per_1000"] for row in here["risks"])
    values = [getattr(risk, "value", risk) for risk in (never, smoker)]
    assert values[0] < values[1]


@QUICK
@given(CHANGES, between(1, 100), HOURS, between(0.5, 100), between(1, 500))
def test_waiting_never_makes_a_test_read_higher(changes: float, start: float, delay: float, later: float, length: float) -> None:
    """Begun later, tested longer or in a leakier house, a test never reads higher, and never below the final level."""
    def high(**more: Any) -> float:
        whole = {"air_changes": changes, "start_ratio": start, "start_delay": amount(delay, "h"), "test_length": amount(length, "h"), **more}
        return solve("settling-time", {**whole, "air_changes": amount(whole["air_changes"], "1/h")})["reads_high_by"]

    here = high()
    assert here >= 1
    assert high(start_delay=amount(delay + later, "h")) <= here * (1 + 1e-12)
    assert high(test_length=amount(length + later, "h")) <= here * (1 + 1e-12)
    assert high(air_changes=changes * 1.5) <= here * (1 + 1e-12)


@QUICK
@given(between(10, 2500), CHANGES, between(0, 20), between(0.5, 1000))
def test_entry_and_level_undo_each_other(volume: float, changes: float, outdoor: float, entry: float) -> None:
    """The level that an entry holds asks for that entry again."""
    room = {"volume": amount(volume, "m3"), "air_changes": amount(changes, "1/h"), "outdoor": amount(outdoor, "pCi/L")}
    level = solve("entry-balance", {**room, "entry_rate": amount(entry, "Bq/s")})["concentration"]
    back = solve("entry-balance", {**room, "concentration": amount(level, "Bq/m3")})["entry_rate"]
    assert back == pytest.approx(entry, rel=1e-6, abs=1e-9 * volume * level)


@QUICK
@given(CHANGES, between(0, 99.9), between(0, 99.9), between(1, 10))
def test_airing_away_more_takes_longer(changes: float, one: float, two: float, mixing: float) -> None:
    """Removing more, or mixing worse, never takes less time; the range holds the time."""
    less, more = sorted((one, two))
    found = [
        solve("purge-time", {"air_changes": amount(changes, "1/h"), "removal": amount(r, "%"), "mixing_factor": mixing})
        for r in (less, more)
    ]
    assert found[0]["time"] <= found[1]["time"]
    span = found[1].outputs["time"]
    assert span.low <= span.value <= span.high
