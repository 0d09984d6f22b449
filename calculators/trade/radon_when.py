"""When a radon test began and how long it ran: is it valid, and when is the next one due."""

from datetime import date, datetime, timedelta
from typing import Any, NamedTuple

from ..declare import Refusal
from ..physics.constants import HOUR
from ..tables import si_of
from ..work import Work
from .radon_fields import HOURS, limit

LONG = si_of(limit("test", "long-term"))
NEEDED_BELOW = si_of(limit("test", "closed-needed-below"))


class Moment(NamedTuple):
    """A date, or a date with its hour; without the hour it lies anywhere from ``first`` to ``last``."""

    first: datetime
    last: datetime

    @property
    def has_hour(self) -> bool:
        """Whether the hour is known."""
        return self.first == self.last

    def later(self, seconds: float) -> "Moment":
        """The moment so much later."""
        return Moment(self.first + timedelta(seconds=seconds), self.last + timedelta(seconds=seconds))

    def text(self) -> str:
        """As it would be typed."""
        return self.first.isoformat(timespec="minutes") if self.has_hour else self.first.date().isoformat()


def moment(text: str | None) -> Moment | None:
    """The moment of an ISO 8601 text that was read before."""
    if text is None:
        return None
    if "T" in text or " " in text:
        at = datetime.fromisoformat(text)
        return Moment(at, at)
    day = datetime.combine(date.fromisoformat(text), datetime.min.time())
    return Moment(day, day + timedelta(days=1))


class Facts(NamedTuple):
    """How the test was made; None where it was not said."""

    after_work: bool
    system: Moment | None
    test: Moment | None
    closed: float | None
    hours: float | None
    left_out: float
    fan: bool | None
    placement: str

    @property
    def long(self) -> bool:
        """Whether this is a long-term test."""
        return self.hours is not None and self.hours > LONG


def agree(facts: Facts) -> None:
    """Raise Refusal for a test that began before the system, or that leaves out more than it lasted."""
    if facts.hours is not None and facts.left_out > facts.hours:
        raise Refusal(
            "hours_left_out",
            "more hours are left out than the test lasted",
            found=f"{facts.left_out / HOUR:g} h",
            accepts=f"at most {facts.hours / HOUR:g} h",
        )
    if facts.after_work and facts.system and facts.test and facts.test.last < facts.system.first:
        raise Refusal(
            "test_started_at",
            "the test began before the system was started, so it is no test after the work",
            found=facts.test.text(),
            accepts=f"{facts.system.text()} or later; or protocol initial",
        )


def conditions(work: Work, facts: Facts) -> list[tuple[bool | None, str]]:
    """Compare all that a valid test needs; the verdicts, each with the field that it hangs on."""
    verdicts = [(_closed(work, facts), "closed_house_hours"), (_data(work, facts), "test_hours")]
    if facts.after_work:
        verdicts.insert(0, (_delay(work, facts), "test_started_at"))
        verdicts.append((_fan(work, facts), "fan_confirmed"))
    verdicts.append((_placed(work, facts), "placement"))
    if facts.after_work:
        _latest(work, facts)
    return verdicts


def _delay(work: Work, facts: Facts) -> bool | None:
    rule = limit("test", "start-delay")
    least = si_of(rule)
    text = "The data begin this long after the system started, or later."
    said = {"source": rule["source"], "section": rule["section"]}
    missing = [
        name
        for name, at in (("system_started_at", facts.system), ("test_started_at", facts.test))
        if at is None or not at.has_hour
    ]
    if facts.system is None or facts.test is None:
        return work.at_least("start-delay", text, found=None, required=least, unit=HOURS, needs=missing, **said)
    begun = facts.test.later(facts.left_out)
    shortest = (begun.first - facts.system.last).total_seconds()
    longest = (begun.last - facts.system.first).total_seconds()
    if shortest < least <= longest and missing:
        text = "The days alone do not say whether the data begin this long after the system started."
        return work.at_least("start-delay", text, found=None, required=least, unit=HOURS, needs=missing, **said)
    found = shortest if shortest >= least else max(longest, 0.0)
    return work.at_least("start-delay", text, found=found, required=least, unit=HOURS, **said)


def _closed(work: Work, facts: Facts) -> bool | None:
    rule = limit("test", "closed-before")
    source, section = rule["source"], rule["section"]
    if not facts.after_work:
        source, section = "epa-520-home-buyers", ""
    if facts.long or (not facts.after_work and facts.hours is not None and facts.hours >= NEEDED_BELOW):
        return work.judge(
            "closed-before",
            "A test of this length can do without a closed house beforehand.",
            ok=True,
            source="epa-520-home-buyers",
        )
    return work.at_least(
        "closed-before",
        "The house was closed this long before the data begin, and all through them.",
        found=None if facts.closed is None else facts.closed + facts.left_out,
        required=si_of(rule),
        unit=HOURS,
        source=source,
        section=section,
        needs=() if facts.closed is not None else ("closed_house_hours",),
    )


def _data(work: Work, facts: Facts) -> bool | None:
    rule = limit("test", "data-after-conditions" if facts.after_work else "shortest")
    return work.at_least(
        "data-hours",
        "The test holds this many hours of data in a row under these conditions.",
        found=None if facts.hours is None else facts.hours - facts.left_out,
        required=si_of(rule),
        unit=HOURS,
        source=rule["source"],
        section=rule.get("section", ""),
        needs=() if facts.hours is not None else ("test_hours",),
    )


def _fan(work: Work, facts: Facts) -> bool | None:
    return work.judge(
        "fan-ran",
        "The fan ran from a day before the test to its end, and the gauge stood at its mark.",
        ok=facts.fan,
        source="epa-520-home-buyers",
        needs=() if facts.fan is not None else ("fan_confirmed",),
    )


def _placed(work: Work, facts: Facts) -> bool | None:
    ok = {"right-place": True, "wrong-place": False}.get(facts.placement)
    return work.judge(
        "placed",
        "The devices stood where the rule allows, and nobody moved them.",
        ok=ok,
        source="ill-32-422",
        section="422.130",
        needs=() if ok is not None else ("placement",),
    )


def _latest(work: Work, facts: Facts) -> None:
    rule = limit("test", "latest-after-work")
    missing = [
        name for name, at in (("system_started_at", facts.system), ("test_started_at", facts.test)) if at is None
    ]
    days = None
    if facts.system and facts.test:
        days = max((facts.test.first - facts.system.first).total_seconds(), 0.0)
    work.at_most(
        "within-30-days",
        "The first test after the work begins within this time.",
        found=days,
        required=si_of(rule),
        unit="day|day",
        source=rule["source"],
        needs=missing,
    )


def years_on(at: Moment, years: int) -> str:
    """The day so many years later."""
    day = at.first.date()
    try:
        return day.replace(year=day.year + years).isoformat()
    except ValueError:  # 29 February
        return day.replace(year=day.year + years, day=28).isoformat()


def due(decision: str, facts: Facts) -> list[dict[str, Any]]:
    """The tests that follow, in order; a date is None where the input does not give it."""
    begun = facts.system.later(si_of(limit("test", "start-delay"))) if facts.system and facts.after_work else None
    end = facts.test.later(facts.hours) if facts.test and facts.hours is not None else facts.test
    after, test = end.text() if end else None, facts.test

    def row(what: str, source: str, no_sooner: str | None = None, no_later: str | None = None) -> dict[str, Any]:
        return {"what": what, "no_sooner": no_sooner, "no_later": no_later, "source": source}

    if decision == "invalid":
        return [
            row(
                "the same test again, under the conditions that were not met",
                "mah-2019",
                begun.text() if begun else after,
            )
        ]
    if decision == "retest-now":
        return [row("a second short-term test, at once", "epa-citizens-guide", after)]
    if decision == "long-term-test":
        return [row("a long-term test, more than 90 days", "epa-citizens-guide", after)]
    if decision == "fix":
        return [row("a test after the work: from 24 hours after the start, within 30 days", "mah-2019")]
    rows = []
    if decision == "retest-later":
        rows.append(
            row(
                "in the heating season, best for more than 90 days",
                "common-practice",
                after,
                test and years_on(test, 1),
            )
        )
    years = round(
        si_of(limit("test", "retest-with-system" if facts.after_work else "retest-without"))
        / si_of({"value": 1, "unit": "yr"})
    )
    what = f"again after {years} years, with any sale, and after any change to the house or the system"
    rows.append(row(what, "mah-2019", None, test and years_on(test, years)))
    return rows
