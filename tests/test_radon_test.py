"""From the readings of a radon test to what is done next: printed limits, pairs, conditions, decisions, dates."""

from typing import Any

import pytest

from calculators import InputError, solve
from calculators.trade.radon_decision import WORDS
from calculators.units import factor
from published import Check

PCI = factor("pCi/L")
AFTER = {
    "protocol": "post-mitigation", "earlier_reading": "9.4 pCi/L", "system_started_at": "2026-11-20T14:30",
    "test_started_at": "2026-11-21T14:30", "test_hours": "46 h", "closed_house_hours": "12 h", "fan_confirmed": True,
    "placement": "right-place",
}  # fmt: skip
BEFORE = {
    "protocol": "initial", "test_started_at": "2026-11-01T08:00", "test_hours": "48 h", "closed_house_hours": "12 h",
    "placement": "right-place",
}  # fmt: skip
DECISIONS = ("fix", "retest-now", "long-term-test", "retest-later", "below-level", "invalid")


def read(*values: Any, **more: Any) -> list[dict[str, Any]]:
    """Readings in pCi/L at one place: numbers are primaries, (number, role) anything else."""
    pairs = [value if isinstance(value, tuple) else (value, "primary") for value in values]
    return [{"value": f"{value!r} pCi/L", "location": "basement", "role": role, **more} for value, role in pairs]


def made(base: dict[str, Any], *values: Any, **changed: Any) -> Any:
    """The answer for a test with some inputs changed; None takes one out."""
    inputs = {"readings": read(*values) or None, **base, **changed}
    return solve("radon-test", {name: value for name, value in inputs.items() if value is not None})


def after(*values: Any, **changed: Any) -> Any:
    """A test after the work; every condition is met unless it is changed."""
    return made(AFTER, *values, **changed)


def before(*values: Any, **changed: Any) -> Any:
    """A first test; every condition is met unless it is changed."""
    return made(BEFORE, *values, **changed)


def pair(one: float, two: float, **more: Any) -> dict[str, Any]:
    """The row of one pair."""
    return before(one, (two, "duplicate"), **more)["pairs"][0]


def check(result: Any, id: str) -> dict[str, Any]:
    return next(c for c in result.checks("us") if c["id"] == id)


def wanted(result: Any, id: str) -> float:
    """The limit that a check compares with, as shown in US units."""
    return check(result, id)["required"]["value"]


def flips_at(mean: float, left: str, right: str) -> float:
    """The relative difference in percent at which a pair of this mean in pCi/L goes from one band to the next."""
    low, high = 0.0, 1.9
    for _ in range(60):
        middle = (low + high) / 2
        band = pair(mean * (1 + middle / 2), mean * (1 - middle / 2))["band"]
        assert band in ("within", "warning", "control")
        order = ("within", "warning", "control")
        low, high = (middle, high) if order.index(band) <= order.index(left) else (low, middle)
    assert pair(mean * (1 + high / 2), mean * (1 - high / 2))["band"] == right
    return high * 100


def band_row(id: str, mean: float, left: str, right: str, printed: float) -> Check:
    return Check(f"radon-test-{id}", "radon-test", "ms-qa-2019", f"3.5.1-3.5.2 and Table 7.1, {right} limit at {mean:g} pCi/L",
                 lambda: flips_at(mean, left, right), printed, 1e-5, "the printed limit, found by halving", "%")  # fmt: skip


CHECKS = [
    band_row("warning-high", 6, "within", "warning", 28),
    band_row("control-high", 6, "warning", "control", 36),
    band_row("warning-low", 3, "within", "warning", 50),
    band_row("control-low", 3, "warning", "control", 67),
    Check("radon-test-low-difference", "radon-test", "ms-qa-2019", "3.5.1-3.5.2 and Table 7.1, below 2 pCi/L",
          lambda: wanted(before(1.0, (0.5, "duplicate")), "pair:readings[1]"), 1.0, 1e-9, "the printed limit", "pCi/L"),
    Check("radon-test-start-delay", "radon-test", "mah-2019", "7.3.2, after the system starts", lambda: wanted(after(1.5), "start-delay"),
          24, 1e-9, "the printed limit", "h"),
    Check("radon-test-closed", "radon-test", "mah-2019", "7.3.2, closed house before", lambda: wanted(after(1.5), "closed-before"),
          12, 1e-9, "the printed limit", "h"),
    Check("radon-test-data", "radon-test", "mah-2019", "7.3.2, data in a row", lambda: wanted(after(1.5), "data-hours"),
          46, 1e-9, "the printed limit", "h"),
    Check("radon-test-shortest", "radon-test", "epa-520-home-buyers", "least length of a test", lambda: wanted(before(1.5), "data-hours"),
          48, 1e-9, "the printed limit", "h"),
    Check("radon-test-latest", "radon-test", "epa-402-k-06-094", "first test after the work", lambda: wanted(after(1.5), "within-30-days"),
          30, 1e-9, "the printed limit", "day", "secondary"),
    Check("radon-test-action-level", "radon-test", "epa-citizens-guide", "fix from", lambda: wanted(after(1.5), "below-level"),
          4, 1e-9, "the printed level", "pCi/L"),
    Check("radon-test-scatter", "radon-test", "usgs-reimer-1998", "abstract, precision of commercial tests",
          lambda: 100 * (before(2.0).outputs["mean"].high / (2 * PCI) - 1), 25, 1e-9, "the printed figure", "%"),
]  # fmt: skip

# No print works a pair out: by hand, difference over mean.
DERIVED = [
    (6.0, 4.4, 30.8, "warning"), (10.0, 6.8, 38.1, "control"), (4.2, 3.6, 15.4, "within"), (3.0, 2.0, 40.0, "within"),
    (1.5, 0.4, 115.8, "low-level-difference"), (1.5, 0.5, 100.0, "within"), (0.0, 0.0, 0.0, "within"), (5.0, 5.0, 0.0, "within"),
]  # fmt: skip


@pytest.mark.parametrize("row", CHECKS, ids=lambda row: row.id)
def test_published(row: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert row.holds(), str(row)


@pytest.mark.parametrize(("one", "two", "rpd", "band"), DERIVED)
def test_pairs(one: float, two: float, rpd: float, band: str) -> None:
    """Relative difference in percent and band of a pair, whichever device comes first."""
    for first, second in ((one, two), (two, one)):
        row = pair(first, second)
        assert row["rpd"] * 100 == pytest.approx(rpd, abs=0.05)
        assert row["band"] == band


@pytest.mark.parametrize(("mean", "rpd", "band"), [(6, 28, "warning"), (6, 36, "control"), (4, 27.9, "within"), (4, 28.1, "warning"),
                                                   (3.99, 28.1, "within"), (2, 67, "control"), (3, 50, "warning")])  # fmt: skip
def test_a_limit_that_is_met_is_reached(mean: float, rpd: float, band: str) -> None:
    """At 28 % it is already warning, at 36 % control; the bands change at a mean of 4 and of 2 pCi/L."""
    assert pair(mean * (1 + rpd / 200), mean * (1 - rpd / 200))["band"] == band


def test_two_below_the_detection_limit_agree() -> None:
    """Readings of 1.9 and 0.7 differ too much, unless both lie below the detection limit."""
    assert pair(1.9, 0.7)["band"] == "low-level-difference"
    assert pair(1.9, 0.7, detection_limit="2 pCi/L")["band"] == "within"


def test_a_warning_still_counts_and_a_control_does_not() -> None:
    """Beyond the warning level the pair is used and the cause is looked for; beyond the control level the test does not count."""
    warned, beyond = before(6.0, (4.4, "duplicate")), before(10.0, (6.8, "duplicate"))
    assert warned["valid"] is True and check(warned, "pair:readings[1]")["ok"] is False
    assert any("Look for the cause" in caution.text for caution in warned.work.cautions)
    assert beyond["valid"] is False and beyond["decision"] == "invalid"
    assert "do not put the next test off" in beyond["what_to_do"]


def test_the_mean_is_that_of_places() -> None:
    """A place with two devices weighs as much as one with a single device; blanks and spikes are left out."""
    readings = [
        {"value": "2 pCi/L", "location": "basement"}, {"value": "3 pCi/L", "location": " Basement ", "role": "duplicate"},
        {"value": "0.5 pCi/L", "location": "den"}, {"value": "90 pCi/L", "role": "spike", "known": "88 pCi/L"},
        {"value": "0 pCi/L", "role": "blank"},
    ]  # fmt: skip
    result = before(readings=readings)
    assert result["mean"] / PCI == pytest.approx((2.5 + 0.5) / 2)
    assert [(row["location"], row["count"]) for row in result["locations"]] == [("basement", 2), ("den", 1)]


def test_blanks_and_spikes_are_judged_apart() -> None:
    """A blank is held against the detection limit, a spike against the known level; without those they are not judged."""
    readings = [*read(2.0), *read((0.9, "blank")), *read((30.0, "spike"), known="20 pCi/L"), *read((30.0, "spike"))]
    result = before(readings=readings, detection_limit="0.5 pCi/L")
    assert check(result, "blank:readings[1]")["ok"] is False
    assert check(result, "spike:readings[2]")["found"]["value"] == pytest.approx(50)
    assert check(result, "spike:readings[2]")["ok"] is False
    assert check(result, "spike:readings[3]")["needs"] == ["readings[3].known"]
    assert check(before(readings=readings), "blank:readings[1]")["ok"] is None
    assert result["valid"] is True and result["mean"] / PCI == pytest.approx(2)


@pytest.mark.parametrize(("readings", "field", "kind"), [
    (read((2.0, "duplicate")), "readings[0].role", "conflict"),
    (read((0.1, "blank"), (20.0, "spike")), "readings", "missing"),
    ([*read(2.0), {"value": "2 pCi/L", "location": "den", "role": "duplicate"}], "readings[1].role", "conflict"),
    ([], "readings", "length"),
    ([{"location": "den"}], "readings[0].value", "missing"),
])  # fmt: skip
def test_readings_that_are_refused(readings: list[dict[str, Any]], field: str, kind: str) -> None:
    """A duplicate without a primary beside it, no primary at all, no reading at all, a reading without its level."""
    with pytest.raises(InputError) as caught:
        solve("radon-test", {**BEFORE, "readings": readings})
    assert [(p["field"], p["kind"]) for p in caught.value.problems] == [(field, kind)]


# --- whether the test counts


def test_everything_just_met_counts() -> None:
    """Begun after exactly 24 h, 12 h closed, 46 h of data: the test counts."""
    assert after(1.5)["valid"] is True
    assert before(1.5)["valid"] is True


@pytest.mark.parametrize(("base", "changed", "id"), [
    (AFTER, {"test_started_at": "2026-11-21T14:29"}, "start-delay"),
    (AFTER, {"test_hours": "45 h"}, "data-hours"),
    (AFTER, {"closed_house_hours": "11 h"}, "closed-before"),
    (AFTER, {"fan_confirmed": False}, "fan-ran"),
    (AFTER, {"placement": "wrong-place"}, "placed"),
    (AFTER, {"system_started_at": "2026-11-21", "test_started_at": "2026-11-21"}, None),
    (BEFORE, {"test_hours": "47 h"}, "data-hours"),
    (BEFORE, {"closed_house_hours": "0 h"}, "closed-before"),
])  # fmt: skip
def test_one_condition_missed_is_enough(base: dict[str, Any], changed: dict[str, Any], id: str | None) -> None:
    """Each condition by itself makes the test not count, and the level is then not compared."""
    result = made(base, 1.5, **changed)
    if id is None:
        assert check(result, "start-delay")["ok"] is None and result["valid"] is None
        return
    assert check(result, id)["ok"] is False
    assert result["valid"] is False and result["decision"] == "invalid"
    assert check(result, "below-level")["ok"] is None and check(result, "below-level")["needs"]


@pytest.mark.parametrize("name", ["system_started_at", "test_started_at", "test_hours", "closed_house_hours", "fan_confirmed", "placement"])
def test_what_is_not_said_leaves_it_open(name: str) -> None:
    """A condition that nobody told is not judged and names its field; the decision says that it hangs on that."""
    result = after(1.5, **{name: None})
    assert result["valid"] is None
    assert any(name in found.get("needs", ()) for found in result.checks("us"))
    assert result["decision"] == "below-level" and "could not be judged" in result["what_to_do"]


@pytest.mark.parametrize(("system", "test", "verdict"), [
    ("2026-11-20", "2026-11-22", True),  # at least from midnight to midnight
    ("2026-11-20", "2026-11-21", None),
    ("2026-11-20", "2026-11-20", None),
    ("2026-11-20T14:30", "2026-11-20", False),
    ("2026-11-20T14:30", "2026-11-21", None),
    ("2026-11-20", "2026-11-21T23:59", None),
    ("2026-11-20T00:00", "2026-11-21", True),
])  # fmt: skip
def test_days_without_hours(system: str, test: str, verdict: bool | None) -> None:
    """Dates alone decide only when every hour of those days gives the same verdict."""
    assert check(after(1.5, system_started_at=system, test_started_at=test), "start-delay")["ok"] is verdict


def test_a_monitor_may_leave_out_its_first_hours() -> None:
    """Set up at once, with the first 24 h left out of 70 h, a monitor meets the same conditions as a later test."""
    early = {"test_started_at": "2026-11-20T14:30", "closed_house_hours": "0 h", "test_hours": "70 h"}
    assert after(1.5, **early)["valid"] is False
    assert after(1.5, **early, hours_left_out="24 h")["valid"] is True
    assert after(1.5, **early, hours_left_out="25 h")["valid"] is False
    with pytest.raises(InputError) as caught:
        after(1.5, **early, hours_left_out="71 h")
    assert caught.value.problems[0]["field"] == "hours_left_out"


def test_a_test_before_the_system_is_no_test_after_the_work() -> None:
    """A test that began before the fan ran is a contradiction."""
    with pytest.raises(InputError) as caught:
        after(1.5, test_started_at="2026-11-19")
    assert [(p["field"], p["kind"]) for p in caught.value.problems] == [("test_started_at", "conflict")]


def test_longer_tests_need_no_closed_house_before_the_work() -> None:
    """Four days or more of a first test do without; after the work only a long-term test does."""
    assert before(1.5, closed_house_hours=None, test_hours="96 h")["valid"] is True
    assert before(1.5, closed_house_hours=None, test_hours="95 h")["valid"] is None
    assert after(1.5, closed_house_hours=None, test_hours="96 h")["valid"] is None
    assert after(1.5, closed_house_hours=None, test_hours="91 day")["valid"] is True


def test_late_is_said_but_counts() -> None:
    """The first test after the work is due within 30 days; later it still counts."""
    result = after(1.5, test_started_at="2026-12-21T14:30")
    assert check(result, "within-30-days")["ok"] is False and result["valid"] is True


# --- what is done next


@pytest.mark.parametrize(("values", "changed", "decision"), [
    ((9.4,), {}, "retest-now"), ((8.01,), {}, "retest-now"), ((8.0,), {}, "long-term-test"), ((4.0,), {}, "long-term-test"),
    ((3.99,), {}, "retest-later"), ((3.2,), {}, "retest-later"), ((3.1,), {}, "below-level"), ((0.5,), {}, "below-level"),
    ((4.5, (4.1, "duplicate")), {}, "fix"), ((4.5, 3.4), {}, "retest-later"), ((4.5, 3.5), {}, "fix"),
    ((4.5,), {"test_hours": "91 day"}, "fix"), ((3.9,), {"test_hours": "91 day"}, "below-level"),
    ((2.7,), {"action_level": "100 Bq/m3"}, "retest-later"), ((2.71,), {"action_level": "100 Bq/m3"}, "long-term-test"),
])  # fmt: skip
def test_a_first_test(values: tuple[Any, ...], changed: dict[str, Any], decision: str) -> None:
    """Above twice the level a second test at once, from the level on a longer look; two tests or a long one decide alone."""
    assert before(*values, **changed)["decision"] == decision


@pytest.mark.parametrize(("earlier", "value", "changed", "decision"), [
    ("6 pCi/L", 3.0, {}, "fix"), ("5 pCi/L", 3.0, {}, "fix"), ("5 pCi/L", 2.8, {}, "retest-later"), ("4.2 pCi/L", 1.0, {}, "below-level"),
    ("8 pCi/L", 0.0, {}, "fix"), (None, 4.0, {}, "fix"), (None, 3.0, {}, "long-term-test"),
    ("12 pCi/L", 3.0, {"test_hours": "100 day"}, "below-level"), ("4 pCi/L", 4.0, {"test_hours": "100 day"}, "fix"),
])  # fmt: skip
def test_a_second_test(earlier: str | None, value: float, changed: dict[str, Any], decision: str) -> None:
    """The mean of two short tests decides; without the first one a long test has to; a long one decides alone."""
    result = before(value, protocol="follow-up", earlier_reading=earlier, **changed)
    assert result["decision"] == decision


@pytest.mark.parametrize(("value", "decision"), [(4.0, "fix"), (9.0, "fix"), (3.5, "retest-later"), (3.1, "below-level"), (0.7, "below-level")])
def test_a_test_after_the_work(value: float, decision: str) -> None:
    """At the action level the job is not finished; near it another season is asked for; below it the two years begin."""
    assert after(value)["decision"] == decision


def test_one_high_place_is_named() -> None:
    """A mean below the level does not hide a place that reaches it."""
    readings = [{"value": "5 pCi/L", "location": "crawl space side"}, {"value": "1 pCi/L", "location": "basement"}]
    result = after(readings=readings)
    assert result["decision"] == "below-level" and "One place reaches the action level" in result["what_to_do"]
    assert check(result, "below-level:crawl space side")["ok"] is False
    assert any("crawl space side" in caution.text for caution in result.work.cautions)


@pytest.mark.parametrize("decision", DECISIONS)
def test_every_decision_has_its_words(decision: str) -> None:
    """Each decision is one of six and says in a sentence what to do; none says that a house is free of danger."""
    text = WORDS[decision, False]
    assert text.endswith(".") and "safe" not in text.lower()
    assert {key[0] for key in WORDS} == set(DECISIONS)


def test_how_much_it_fell() -> None:
    """From 9.4 to 1.41 is 85 percent; the scatter of both tests is 75 to 91; before the work nothing is said."""
    span = after(1.41).outputs["reduction_percent"]
    assert span.value == pytest.approx(0.85)
    assert (span.low, span.high) == (pytest.approx(1 - 0.15 * 1.25 / 0.75), pytest.approx(1 - 0.15 * 0.75 / 1.25))
    assert before(2.0, earlier_reading="9.4 pCi/L")["reduction_percent"] is None
    missing = after(1.5, earlier_reading=None)
    assert missing["reduction_percent"] is None and check(missing, "earlier-reading")["ok"] is None


def test_after_a_long_test_there_is_no_scatter_of_short_ones() -> None:
    """A long-term test carries no range of a short test."""
    assert not hasattr(after(1.5, test_hours="91 day").outputs["mean"], "low")
    assert after(2.0).outputs["mean"].low == pytest.approx(1.5 * PCI)


# --- dates


def dates(result: Any) -> list[tuple[str | None, str | None]]:
    return [(row["no_sooner"], row["no_later"]) for row in result["next_test"]]


def test_what_is_due_when() -> None:
    """Two years with a system, five without; another season within one; a repeat from 24 h after the start."""
    assert dates(after(1.0)) == [(None, "2028-11-21")]
    assert dates(before(1.0)) == [(None, "2031-11-01")]
    assert dates(after(3.5)) == [("2026-11-23T12:30", "2027-11-21"), (None, "2028-11-21")]
    assert dates(after(1.0, test_hours="20 h")) == [("2026-11-21T14:30", None)]
    assert dates(before(9.0)) == [("2026-11-03T08:00", None)]
    assert dates(before(5.0)) == [("2026-11-03T08:00", None)]
    assert dates(after(9.0)) == [(None, None)]


def test_dates_that_are_not_known_or_do_not_exist() -> None:
    """Without a start there is no date; two years after a leap day is the day before March; a bare day stays a day."""
    assert dates(before(1.0, test_started_at=None)) == [(None, None)]
    leap = {"system_started_at": "2028-02-20", "test_started_at": "2028-02-29"}
    assert dates(after(1.0, **leap)) == [(None, "2030-02-28")]
    assert dates(before(9.0, test_started_at="2026-11-01")) == [("2026-11-03", None)]


# --- what is said


def test_the_gauge_is_not_the_radon_level() -> None:
    """After the work the answer says so, and that the fan is never switched off for a test."""
    texts = [caution.text for caution in after(1.5).work.cautions]
    assert any(text.startswith("The gauge shows suction, not radon.") for text in texts)
    assert any("Never switch the fan off" in text for text in texts)


def test_between_two_and_four() -> None:
    """The agency's advice to consider fixing is named between 2 and 4 pCi/L only, and only for its own level."""
    def advised(value: float, **more: Any) -> bool:
        return any("consider fixing" in caution.text for caution in before(value, **more).work.cautions)

    assert advised(2.0) and advised(3.9) and not advised(1.9) and not advised(4.0)
    assert not advised(2.0, action_level="200 Bq/m3")


def test_a_reading_below_outdoors_is_doubted() -> None:
    """Below 0.4 pCi/L the device is looked at before the figure is believed."""
    assert any("below the usual level outdoors" in caution.text for caution in after(0.3).work.cautions)
    assert not any("below the usual level outdoors" in caution.text for caution in after(0.5).work.cautions)


def test_the_plot_holds_readings_and_level() -> None:
    """Readings in order against the action level, the earlier one at 0; a single reading alone is no plot."""
    curves = after(1.5, (1.2, "duplicate")).plots("us")[0]["curves"]
    assert curves["x"]["values"] == [0, 1, 2]
    assert curves["series"][0]["values"] == [9.4, 1.5, 1.2] and set(curves["series"][1]["values"]) == {4.0}
    assert before(1.5).plots("us") == []


def test_five_hundred_readings() -> None:
    """The longest list is answered, with a plot that stays within its limit."""
    readings = [{"value": f"{1 + i % 3} pCi/L", "location": f"room {i % 40}"} for i in range(500)]
    result = before(readings=readings)
    assert result["mean"] / PCI == pytest.approx(2, abs=0.1)
    assert len(result.plots("us")[0]["curves"]["x"]["values"]) <= 201
