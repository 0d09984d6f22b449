"""From the level of a radon test to what is done next."""

from typing import NamedTuple

SCATTER = 0.25  # a short test's published scatter, either way
SLACK = 1e-9
WORDS = {
    ("fix", False): "Fix the house. Test again once the system has run for 24 hours, within 30 days.",
    (
        "fix",
        True,
    ): "The job is not finished. Look for the cause, cheapest first: the test itself, the gauge, the lid, the "
    "far side of the house. Then test again.",
    ("retest-now", False): "Make a second short-term test now, and decide by the mean of both.",
    (
        "long-term-test",
        False,
    ): "One short test does not decide here. Make a long-term test and decide by it, or a second "
    "short-term test and decide by the mean of both.",
    (
        "retest-later",
        False,
    ): "Below the action level, but within the scatter of a short test. Test again in the heating "
    "season, best for more than 90 days.",
    ("below-level", False): "Below the action level at the time of this test. Test again when it is due.",
    (
        "below-level",
        True,
    ): "Below the action level at the time of this test. Mark the gauge, hang up the papers, and test "
    "again when it is due.",
    ("invalid", False): "This test does not count. Put right what is not met, and test again.",
}


class Case(NamedTuple):
    """What a decision hangs on: levels in Bq/m3."""

    protocol: str
    valid: bool | None
    level: float  # what is compared: the mean, or the mean of it and the earlier reading
    action: float
    earlier: float | None
    long: bool
    repeated: bool  # more than one short test at a place
    highest: float  # of all places


def decide(case: Case) -> str:
    """fix, retest-now, long-term-test, retest-later, below-level or invalid.  A level that is just met is reached."""
    if case.valid is False:
        return "invalid"
    reached = case.level >= case.action * (1 - SLACK)
    if case.protocol == "initial" and reached and not case.long and not case.repeated:
        return "retest-now" if case.level > 2 * case.action * (1 + SLACK) else "long-term-test"
    if reached:
        return "fix"
    if case.protocol == "follow-up" and not case.long and case.earlier is None:
        return "long-term-test"  # the first one is missing, so there is no mean of both
    near = not case.long and case.level * (1 + SCATTER) >= case.action * (1 - SLACK)
    return "retest-later" if near else "below-level"


def in_words(decision: str, case: Case) -> str:
    """What to do, in two or three sentences."""
    text = WORDS.get((decision, case.protocol == "post-mitigation")) or WORDS[decision, False]
    if decision == "invalid" and case.level >= case.action * (1 - SLACK):
        return f"{text} Its readings reach the action level all the same: do not put the next test off."
    if decision != "invalid" and case.level < case.action * (1 - SLACK) <= case.highest:
        text = f"{text} One place reaches the action level all the same: that part of the house is to be dealt with."
    if case.valid is None:
        return f"{text} Whether this test counts hangs on what could not be judged."
    return text
