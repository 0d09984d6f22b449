"""After the fan is on: settling, test and decision, the gauge and its causes, labels."""

from functools import partial
from typing import Any

from ..result import Result
from ..units import from_si, short
from .draw import Draw, Shown
from .problem import Problem, Slip, choice, distinct, named, near, options, several, solved, template

prove = partial(template, part="prove-and-hand-over")
READ = "figures are read to three digits"


@prove(kind="number", level=2, minutes=4, source="radioactive-decay", title="Old radon in the rooms", calculator="settling-time")
def old_radon(draw: Draw) -> Problem:
    """Excess that is left when the test begins."""
    changes = draw.number((0.1, 0.35, 0.05, "1/h"))
    start = draw.whole(6, 30)
    delay = Shown(draw.whole(4, 24), "h")
    result = solved("settling-time", air_changes=changes, start_ratio=start, start_delay=delay)
    left = result["excess_left"]
    key = near(left * (start - 1), 0.04, "the exponent is known to three digits", unit="%", least=0.0005)
    slips = distinct(key, [
        Slip("share-of-excess", left, "This is the share of the excess that is left. It is asked against the final level: times what it was at first."),
        Slip("whole-ratio", left * start, "The ratio was taken whole. The excess is what is above the final level: one less."),
        Slip("linear", max(0.0, 1 - changes.value * delay.value) * (start - 1), "It was taken as a straight fall. It falls by the same share each hour."),
        Slip("half-a-day", 2 ** -(delay.value / 24) * (start - 1), "Half a day by day was taken. Air change carries it off much faster."),
        Slip("first-hour", (1 - min(changes.value, 0.9)) * (start - 1), "Only the first hour was counted."),
    ])  # fmt: skip
    return Problem(
        text=[f"Before the fan the level was {start} times what it will be in the end. The house has {changes.value:g} air changes an hour; decay adds 0.0076 an hour. "
              f"The test begins {delay.value:g} hours after the fan."],
        ask="How much above the final level is the room when the test begins, as a share of the final level? Answer in %.", answer=key, slips=slips, solution=result,
        steps=("Excess left when the test begins",), words=["(ratio − 1) × e^(−(air changes + decay) × hours)."],
    )  # fmt: skip


@prove(kind="choice", level=2, minutes=3, source="mah-2019", title="When may the test begin?", calculator="settling-time")
def when_to_begin(draw: Draw) -> Problem:
    """Delay against the published day and against what old radon adds."""
    changes, ratio = draw.pick((0.08, 0.1, 0.15, 0.25, 0.4)), draw.pick((8, 15, 25, 40))
    delay = Shown(draw.pick((6, 12, 18, 24, 30, 48)), "h")
    result = solved("settling-time", air_changes=f"{changes} 1/h", start_ratio=ratio, start_delay=delay)
    checks = {check.id: check.ok for check in result.work.checks}
    lift = 100 * (result["reads_high_by"] - 1)
    high = f"Old radon lifts the test by {short(lift, 2) if lift >= 0.1 else 'less than 0.1'} %."
    words = {
        "early": ("Too early: by the protocol the data begin 24 hours after the fan or later.", f"MAH 2019, 7.3.2. {high}"),
        "settling": ("The day is over, but in this house old radon would still lift the test by more than 5 %: wait longer.", f"{high} Few air changes and a high start settle slowly."),
        "good": ("It may begin: the day is over, and old radon lifts it by less than 5 %.", high),
    }
    right = "early" if not checks["start-delay"] else "good" if checks["reads-high"] else "settling"
    lines = "\n".join(f"{'+' if name == right else '-'} {text} | {why if name == right else 'Compare the hours, then what is left of the old radon.'}" for name, (text, why) in words.items())
    return Problem(
        text=[f"With {changes:g} air changes an hour a house was {ratio} times as high before the fan as it will be in the end. A test of two days is to begin {delay.value:g} hours after the fan. {high}"],
        ask="What do you say?", answer=options(draw, f"{lines}\n- It may begin at once, with the fan off for fairness. | The fan runs from a day before the test to its end."),
        solution=result, steps=("Excess left when the test begins",),
    )  # fmt: skip


DECISIONS = {
    "fix": "Fix it: the level is reached by a test that decides.",
    "retest-now": "Test again at once, short: the first one was more than twice the level.",
    "long-term-test": "A long test, or a second short one: the level is reached by one short test.",
    "retest-later": "Below, but within 25 %: test again in the heating season.",
    "below-level": "Below the action level: mark it, and test again when it is due.",
}


@prove(kind="choice", level=2, minutes=3, source="epa-citizens-guide", title="What follows from the test?", calculator="radon-test")
def what_next(draw: Draw) -> Problem:
    """The decision of the radon-test calculator."""
    protocol, words = draw.pick((("initial", "A first test of three days, the house closed"), ("follow-up", "A second test, of ninety-five days, after a short one of 5.1 pCi/L (189 Bq/m³)"),
                                 ("post-mitigation", "A test of three days, begun two days after the fan was switched on, the house closed")))  # fmt: skip
    level = draw.number((0.8, 14, 0.2, "pCi/L"), (30, 520, 5, "Bq/m3"))
    asked: dict[str, Any] = {
        "protocol": protocol, "readings": [{"value": level, "location": "basement"}], "closed_house_hours": "13 h", "placement": "right-place",
        "test_hours": "95 day" if protocol == "follow-up" else "72 h",
    }  # fmt: skip
    if protocol == "follow-up":
        asked["earlier_reading"] = "5.1 pCi/L"
    if protocol == "post-mitigation":
        asked |= {"system_started_at": "2026-11-02T09:00", "test_started_at": "2026-11-04T09:00", "fan_confirmed": True}
    result = solved("radon-test", **asked)
    lines = "\n".join(f"{'+' if name == result['decision'] else '-'} {text} | {'So says the calculator for this test.' if name == result['decision'] else 'Look at the kind of test and at the level again.'}" for name, text in DECISIONS.items())
    return Problem(
        text=[f"{words}, the device in the right place: {level}. The action level is {draw.text('4 pCi/L', '148 Bq/m³')}."], ask="What follows?", answer=options(draw, lines), solution=result,
        steps=("none",), words=["A level that just meets the action level counts as reached. After the work a level that is reached means: the job is not finished."],
    )  # fmt: skip


BANDS = {
    "within": ("They agree: the mean counts.", "Below the warning limit."),
    "warning": ("The warning limit is reached: look for the cause; the pair still counts.", "Between the warning and the control limit."),
    "control": ("The control limit is reached: neither reading is relied on.", "At or above the control limit."),
}


@prove(kind="choice", level=2, minutes=3, source="ms-qa-2019", title="Do the two agree?", calculator="radon-test")
def pair_band(draw: Draw) -> Problem:
    """A pair against the limits of MS-QA."""
    low = draw.number((4.2, 9, 0.1, "pCi/L"), (160, 330, 5, "Bq/m3"))
    apart = draw.pick((0.12, 0.2, 0.3, 0.33, 0.42, 0.55))
    high = Shown(round(low.value * (1 + apart), draw.text(1, 0)), low.unit)
    result = solved("radon-test", readings=[{"value": low, "location": "den"}, {"value": high, "location": "den", "role": "duplicate"}])
    row = result["pairs"][0]
    lines = "\n".join(f"{'+' if name == row['band'] else '-'} {text} | {why} Here the difference is {100 * row['rpd']:.1f} % of the mean." for name, (text, why) in BANDS.items())
    return Problem(
        text=[f"Two devices side by side read {low} and {high}. For a mean of {draw.text('4 pCi/L', '148 Bq/m³')} or more the warning limit is 28 %, the control limit 36 %."],
        ask="What about the pair?", answer=options(draw, f"{lines}\n- The lower one is reported. | It is the mean that counts, or none of them."), solution=result,
        steps=("Relative difference of the pair at den",),
    )  # fmt: skip


@prove(kind="number", level=2, minutes=3, source="mah-2019", title="Mean of the places", calculator="radon-test")
def mean_of_places(draw: Draw) -> Problem:
    """Duplicates are averaged first, then the places; a blank stays out."""
    first, more, third = (draw.number(*ranges) for ranges in (
        ((2, 9, 0.2, "pCi/L"), (80, 330, 10, "Bq/m3")), ((0.2, 1.4, 0.2, "pCi/L"), (10, 50, 10, "Bq/m3")), ((1, 8, 0.2, "pCi/L"), (40, 300, 10, "Bq/m3")),
    ))  # fmt: skip
    second = Shown(round(first.value + more.value, 3), first.unit)
    blank = draw.text(Shown(0.2, "pCi/L"), Shown(5, "Bq/m3"))
    result = solved("radon-test", readings=[
        {"value": first, "location": "basement"}, {"value": second, "location": "basement", "role": "duplicate"}, {"value": third, "location": "den"},
        {"value": blank, "role": "blank"},
    ])  # fmt: skip
    key = near(result["mean"], 0.01, READ, unit=first.unit)
    a, b, c, d = (shown.si for shown in (first, second, third, blank))
    slips = distinct(key, [
        Slip("all-readings", (a + b + c) / 3, "All readings were averaged at once. Two devices side by side are one place: average them first."),
        Slip("blank-in", ((a + b) / 2 + c + d) / 3, "The blank was averaged in. It checks the box it came in, not the house."),
        Slip("highest", max(a, b, c), "The highest reading was taken. The mean of the places is asked."),
        Slip("no-duplicate", (a + c) / 2, "The duplicate was left out. It is averaged with its neighbour."),
        Slip("lowest", min(a, b, c), "The lowest reading was taken. The better of two is never reported alone."),
    ])  # fmt: skip
    return Problem(
        text=[f"In the basement two devices side by side read {first} and {second}, in the den one reads {third}. A blank, never opened, reads {blank}."],
        ask=f"What is the mean of the places? Answer in {named(key.unit)}.", answer=key, slips=slips, solution=result,
        steps=("Mean at basement", "Mean of the places"),
    )  # fmt: skip


@prove(kind="number", level=1, minutes=2, source="ccah-2020", title="The marks beside the mark", calculator="gauge-reading")
def call_mark(draw: Draw) -> Problem:
    """The reading at which the owner calls: a fifth below or above the start-up mark."""
    mark = draw.number((0.5, 2.4, 0.05, "in WC"), (120, 600, 5, "Pa"))
    below = draw.pick((True, False))
    side = 0.8 if below else 1.2
    key = near(mark.si * side, 0.02, "a gauge is read to its smallest mark", unit=mark.unit)
    slips = distinct(key, [
        Slip("a-fifth", mark.si * 0.2, "This is the change itself. The mark lies that far below or above."),
        Slip("other-side", mark.si * (2 - side), "This is the mark on the other side."),
        Slip("a-tenth", mark.si * (0.9 if below else 1.1), "A tenth was taken. The sheet says a fifth."),
        Slip("half", mark.si * (0.5 if below else 1.5), "A half was taken. The sheet says a fifth."),
    ])  # fmt: skip
    return Problem(
        text=[f"On the day of the start the gauge stands at {mark}. The owner's sheet says: call when it has changed by 20 % or stands at zero."],
        ask=f"At which reading {'below' if below else 'above'} the mark does the owner call? Answer in {named(key.unit)}.", answer=key, slips=slips,
        words=["One fifth of the start-up mark, down or up. Both marks are drawn on the gauge."],
    )  # fmt: skip


FAN = {"name": "fan A, entered from its data sheet", "shutoff": "400 Pa", "free_flow": "160 cfm"}
FAULTS: dict[str, tuple[dict[str, object], list[str], str]] = {
    "lid-leak": ({"open_area": "8 in2"}, ["hiss", "fan-runs"], "air hisses at the rim of the lid"),
    "fan-stopped": ({}, ["fan-silent"], "nothing hums"),
    "pit-flooded": ({"soil_conductance": "6 cfm/in WC"}, ["pit-full", "fan-runs"], "through the view port water is seen high in the pit"),
    "hose-off": ({}, ["hose-off", "fan-runs"], "the fan hums; the hose of the gauge hangs down"),
}


@prove(kind="what-is-wrong", level=2, minutes=3, source="network-balance", title="The yearly look at the gauge", calculator="gauge-reading")
def yearly_look(draw: Draw) -> Problem:
    """A simulated fault, read at the gauge, put into the calculator: its first cause is the key."""
    built = {
        "fan": FAN, "pipe_size": "4", "pipe_length": draw.pick(("25 ft", "33 ft", "40 ft")), "fittings": [{"kind": "elbow-90", "count": draw.whole(2, 4)}],
        "soil_conductance": draw.pick(("30 cfm/in WC", "42 cfm/in WC", "55 cfm/in WC")), "gauge_distance": "5 ft",
    }  # fmt: skip
    fault = draw.pick(tuple(FAULTS))
    changed, seen, words = FAULTS[fault]
    good = _gauge(draw, solved("fan-point", **built))
    zero = fault in ("fan-stopped", "hose-off")
    now = Shown(0, good.unit) if zero else _gauge(draw, solved("fan-point", **{**built, **changed}))
    result = solved("gauge-reading", as_built=built, reading_then=good, reading_now=now, zero_offset=Shown(0, good.unit), seen=seen)
    causes = {row["cause"]: row for row in result["causes"]}
    lines = "\n".join(
        f"{'+' if name == fault else '-'} {causes[name]['name']} | {causes[name]['look_at'] if name == fault else 'Gauge and what was seen together do not fit it.'}"
        for name in FAULTS
    )
    return Problem(
        text=[f"The start-up mark stands at {good}. A year later the gauge reads {now}, and {words}."], ask="What is wrong here?", answer=options(draw, lines), solution=result, steps=("none",),
        words=[f"First look: {result['first_look']} The gauge is not the radon level."],
    )  # fmt: skip


def _gauge(draw: Draw, result: Result) -> Shown:
    unit = draw.text("in WC", "Pa")
    return Shown(float(short(from_si(result["gauge_suction"], unit), 3)), unit)


@prove(kind="several", level=1, minutes=2, source="sgm-sf-2017", title="What the label says")
def on_the_label(draw: Draw) -> Problem:
    """Lines of the label by SGM-SF 8.4.2."""
    right = draw.shuffled([
        "The title: radon reduction system | SGM-SF 2017, 8.4.2.", "The date of installation | SGM-SF 2017, 8.4.2.1.", "What the monitor is and what to do when it shows a fault | SGM-SF 2017, 8.4.2.1.",
        "Test at least every two years | SGM-SF 2017, 8.4.2.1.", "Name, telephone and certificate number of the installer | SGM-SF 2017, 8.4.2.1.",
    ])[:3]  # fmt: skip
    wrong = draw.shuffled([
        "The radon level, as a promise | A level was measured on certain days. It goes into the papers, with its date.", "The price of the work | That belongs into the contract.",
        "Switch off in summer | Never: radon is back within a day.",
    ])[:2]  # fmt: skip
    return Problem(text=["You write the label that hangs near the gauge. These lines are proposed."], ask="Which of them belong on it?", answer=several(draw, right, wrong))


@prove(kind="choice", level=1, minutes=2, source="common-practice", title="What stops the work: the gauge at zero")
def zero_stops(draw: Draw) -> Problem:
    """A silent fan is not opened under power."""
    who = draw.pick(("A helper", "The owner", "A colleague"))
    tool = draw.pick(("a screwdriver at the fan's terminal box", "both hands in the loosened coupling under the fan", "a finger at the wheel of the fan"))
    return Problem(
        text=[f"The gauge stands at zero and the fan is silent. {who} stands on the ladder with {tool}. Nobody has been at the switch."], ask="What stops the work here?",
        answer=choice(draw, ("The power: off, locked and proved dead before a hand comes near. Look at tube, switch and breaker first.", "A fan that stands still may start by itself, and its box may be live."),
                      ("Nothing: a silent fan has no power.", "It can be hot, jammed or on a switch that somebody turns."), ("Only the ladder is too short.", "The ladder is one danger. The live fan is the other, and comes first here."),
                      ("The missing radon test.", "Radon is a risk of years. This one is of now.")),
    )  # fmt: skip
