"""Dates and the owner's sheet: what is due, what the gauge means, when to call, what to leave alone."""

from typing import Any

from ..job import Job
from ..tables import rule_pack, table
from .answer import printed
from .sheet_parts import Line, Part, Row, day, result_words
from .sheet_parts_handover import GAUGE, INSTALLER, OUR_LABELS, RADON_AFTER, RADON_BEFORE, WHERE, radon_known

COUNTED = {2: "two", 5: "five"}


def dates(job: Job) -> Part:
    """What is due when, in words, with the rule that each date comes from."""
    due = job.dates()
    if not due:
        return Part(
            "dates", "Dates", [Line("Enter the day the fan was first switched on to see when the tests are due.")]
        )
    items: list[Any] = []
    for one in due:
        sooner = f"no sooner than {day(one['no_sooner'])}, " if one["no_sooner"] else ""
        items.append(Row(one["what"][:1].upper() + one["what"][1:], f"{sooner}no later than {day(one['no_later'])}"))
    test = table("limits")["test"]
    wait, closed, latest, again = (
        test[name] for name in ("start-delay", "closed-before", "latest-after-work", "retest-with-system")
    )
    years = COUNTED.get(again["value"], again["value"])
    items += [
        Line(
            f"The test begins {wait['value']} h or more after the fan, with the house closed for {closed['value']} h before and "
            "all through it.",
            source=(wait["source"], wait["section"]),
        ),
        Line(f"It is made within {latest['value']} days.", source=(latest["source"], "")),
        Line(
            f"After that every {years} years, after a change of the house or the system, and when it is sold.",
            source=(again["source"], again["section"]),
        ),
    ]
    for pack in job.file.get("rules") or []:
        items += [
            Line(row["text"], source=(row["source"], f"{row['section']}, {row['edition']}"))
            for row in rule_pack(pack)["rows"]
            if row["quantity"] in ("report_after_start", "records")
        ]
    return Part("dates", "Dates", items)


def owners(job: Job, written: dict[str, str]) -> Part:
    """The owner's sheet; it hangs at the system."""
    items: list[Any] = [
        Line("A fan draws air from under the floor and blows it out where nobody breathes it. It runs day and night."),
        *_facts(job, written),
        Line("The gauge shows suction, not radon. Only a radon test shows radon.", source=OUR_LABELS),
        Line(
            "Look at the gauge at least every three months. Call when it stands at zero or has moved by a fifth or more, up or down.",
            source=("ccah-2020", "Exhibit 2 (20 % and zero); every three months: ANSI/AARST CC-1000 2018, 12.1.3 b"),
        ),
        Line(
            "Zero: look whether the plug, the switch and the breaker are on and the tube is on the gauge; then call. "
            "Do not open the fan."
        ),
        Line(
            "Lower than the mark: air gets in somewhere, often at the pit lid. "
            "Higher: less air moves, often water or ice in the pipe."
        ),
        Line(
            "Do not switch the fan off to save power, for the summer or while you are away: radon comes back within a day."
        ),
        Line("Test again at least every two years, and after building work.", source=("ccah-2020", "Exhibit 2")),
        Line("Keep the outlet clear of snow, nests and new windows. Nobody puts anything over it."),
    ]
    if {"pump-sizing", "sump-sealing"} & job.results.keys():
        items += [
            Line(
                "Keep the pit lid closed and sealed. Whoever opens it switches the fan off, unplugs the pump, and closes it "
                "again. If the high-water alarm sounds, call."
            ),
            Line(
                "Once a year have the pump tried with a bucket of water, the alarm tried, and the relief hole and the lid looked at."
            ),
        ]
    items += [
        Line(
            "Keep with this sheet: the tests before and after, permits, contract, warranty, pictures of the parts.",
            source=("sgm-sf-2017", "13.7.2.2, a list for vapour systems that serves here too"),
        ),
        Line(
            "Headache, dizziness, or a carbon monoxide alarm that sounds: everybody leaves the house; call the emergency number "
            "from outside. A new heater, dryer, hood or tighter windows: have the burners tested for spillage again.",
            level="danger",
            source=("common-practice", ""),
        ),
    ]
    return Part("owner", "Owner's sheet", items)


def _facts(job: Job, written: dict[str, str]) -> list[Row]:
    """The numbers of this house; a ruled line where nobody has written one yet."""
    due = job.dates()
    before, after = radon_known(job)
    rows = [
        Row("House", job.file["title"]),
        Row("Gauge on the day it was started", written.get(GAUGE, "")),
        Row("Fan, switch, breaker and pits", written.get(WHERE, "")),
        Row("Radon test before", written.get(RADON_BEFORE, before)),
        Row("Radon test after", written.get(RADON_AFTER, after)),
        Row("First test: from, to", f"{day(due[0]['no_sooner'])} to {day(due[0]['no_later'])}" if due else ""),
        Row("Test again, at the latest", day(due[1]["no_later"]) if due else ""),
        Row("Call", written.get(INSTALLER, "")),
    ]
    cost = job.results.get("running-cost")
    if cost:
        paid = printed(cost, "fan_cost", job.units)
        energy = result_words(printed(cost, "fan_energy", job.units))
        rows.append(
            Row("Electricity of the fan in a year", energy + (f", {result_words(paid)}" if paid is not None else ""))
        )
    return rows
