"""What is due when after the fan was first switched on; every interval comes from the tables of rules and limits."""

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from typing import Any

from .tables import rule_pack, si_of, table

FOLLOW_UP, NEXT = "follow-up radon test begins", "next radon test"


def due_dates(started: str | None, packs: Iterable[str] = ()) -> list[dict[str, Any]]:
    """What is due, no sooner and no later than when, and the source of the rule; nothing without the day of the start."""
    if not started:
        return []
    has_hour = len(started) > len("2026-11-25")
    begun = (
        datetime.fromisoformat(started)
        if has_hour
        else datetime.combine(date.fromisoformat(started), datetime.min.time())
    )
    test = table("limits")["test"]
    first = begun + _span(test["start-delay"])
    again = test["retest-with-system"]
    due = [
        {
            "what": FOLLOW_UP,
            "no_sooner": first.isoformat(timespec="minutes") if has_hour else first.date().isoformat(),
            "no_later": (begun + _span(test["latest-after-work"])).date().isoformat(),
            "source": test["start-delay"]["source"],
        },
        {
            "what": NEXT,
            "no_sooner": None,
            "no_later": _years_on(begun.date(), again["value"]).isoformat(),
            "source": again["source"],
        },
    ]
    rows = [row for pack in packs for row in rule_pack(pack)["rows"] if row["quantity"] == "report_after_start"]
    return due + [
        {
            "what": "report to the state",
            "no_sooner": None,
            "no_later": (begun + _span(row)).date().isoformat(),
            "source": row["source"],
        }
        for row in rows
    ]


def _span(row: dict[str, Any]) -> timedelta:
    return timedelta(seconds=si_of(row))


def _years_on(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year + years)
    except ValueError:  # 29 February
        return day.replace(year=day.year + years, day=28)
