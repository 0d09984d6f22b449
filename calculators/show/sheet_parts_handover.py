"""The hand-over on the job sheet: labels, what was measured, the start-up record, dates, the owner's sheet."""

from typing import Any

from .. import declaration
from ..job import Job
from ..reading import ABSENT, Reader
from ..tables import rule_pack
from ..trade import gauge_card
from .answer import printed
from .sheet_parts import BLANK_HOUSE, Card, Line, Part, Row, day, result_words, told

GAUGE = "Gauge at start-up, marked on the gauge"
INSTALLER = "Installer, licence"
OUR_LABELS = ("common-practice", "")
PRESCRIBED = ("label_text", "lid_label", "tag", "start_up_mark")


def rows_to_fill(job: Job) -> list[Row]:
    """The rows of the start-up record, without what was written into them.

    Those with a place ``(calculator, field)`` are kept as records where that calculator knows the thing, the rest as words.
    """
    pressure, flow = ("in WC", "cfm") if job.units == "us" else ("Pa", "L/s")
    rows = [
        Row(GAUGE, unit=pressure, at=("fan-point", "gauge_suction")),
        Row("Kind of gauge and where it hangs", at=()),
        Row("Suction in the pit", unit=pressure, at=("fan-point", "pit_suction")),
        Row("Flow at the outlet", unit=flow, at=("fan-point", "flow")),
        *(Row(f"Test hole {letter}, suction with the fan on", unit=pressure, at=()) for letter in "ABC"),
    ]
    for name in burners(job):
        rows += [Row(f"{name}, system off: spills for", at=()), Row(f"{name}, system on: spills for", at=())]
    rows += [
        Row("Carbon monoxide alarm seen, and where", at=()),
        Row("Fan alarm tried, and what it did", at=()),
        Row("High-water alarm tried", at=()),
        Row("Lid closed, joints tried with smoke", at=()),
        Row("Labels on pipe, lid and breaker", at=()),
        Row("State tag no.", at=()),
        Row("Radon before: result, dates, device, who", at=()),
        Row("Radon after: result, dates, device, who", at=()),
        Row(INSTALLER, at=()),
    ]
    return rows


def burners(job: Job) -> list[str]:
    """The appliances that burn fuel, as the spillage check names them; one general name when it names none."""
    check = job.results.get("spillage-check")
    given = (check.values.get("appliances") if check else None) or []
    names = [str(one.get("name") or f"appliance {i + 1}") for i, one in enumerate(given)]
    return [name[:1].upper() + name[1:] for name in dict.fromkeys(names)] or ["Appliance that burns fuel"]


def written_of(job: Job) -> dict[str, str]:
    """What was written on the lines of the sheet, by label: notes of the form "label: words", and records."""
    rows = rows_to_fill(job)
    labels = [*BLANK_HOUSE, *(row.label for row in rows)]
    found: dict[str, str] = {}
    for note in job.file["notes"]:
        label = label_of_note(note, labels)
        if label:
            found[label] = note[len(label) + 2 :]
    for row in rows:
        records = [e for e in job.file["recorded"] if row.at and (e["calculator"], e["field"]) == row.at]
        if records and row.label not in found:
            found[row.label] = _recorded_value(job, records[-1])
    return found


def label_of_note(note: str, labels: list[str]) -> str:
    """The label of the sheet that a note fills in, or nothing."""
    return next((label for label in sorted(labels, key=len, reverse=True) if note.startswith(f"{label}: ")), "")


def other_notes(job: Job) -> list[str]:
    """The notes that stand on no line of the sheet."""
    labels = [*BLANK_HOUSE, *(row.label for row in rows_to_fill(job))]
    return [note for note in job.notes if not label_of_note(note, labels)]


def _recorded_value(job: Job, entry: dict[str, Any]) -> str:
    raw = entry["value"]
    declared = declaration(entry["calculator"])
    name = entry["field"]
    field = declared.results.get(name) or declared.inputs[name][0]
    result = job.results.get(entry["calculator"])
    values = result.values if result else {}
    reader = Reader()
    value = reader.value(field, raw, "value") if field.kind in ("quantity", "choice", "flag") else ABSENT
    return told(None, raw, job.units, {}) if value is ABSENT else told(field, value, job.units, values)


def measured(job: Job) -> Part:
    """What was measured on the job, with its day; what stands in the start-up record is not said twice."""
    on_record = {row.at for row in rows_to_fill(job) if row.at}
    rows = []
    for entry in job.file["recorded"]:
        if (entry["calculator"], entry["field"]) in on_record:
            continue
        declared = declaration(entry["calculator"])
        name = entry["field"]
        field = declared.results.get(name) or declared.inputs[name][0]
        who = f", {entry['who']}" if entry.get("who") else ""
        rows.append(Row(field.label, f"{_recorded_value(job, entry)} ({day(entry['when'])}{who})"))
    return Part("measured", "Measured on the job", rows)


def start_up(job: Job, written: dict[str, str]) -> Part:
    """The start-up record: what was worked out beside what is read, and what was tried."""
    started = job.file.get("started")
    rows: list[Any] = [Row("Fan first switched on", day(started) if started else "")]
    fan = job.results.get("fan-point")
    for row in rows_to_fill(job):
        row.value = written.get(row.label, "")
        rows.append(row)
        if row.at and fan:
            value = printed(fan, row.at[1], job.units)
            if value is not None:
                rows.append(Row(f"{row.label.partition(',')[0]}, worked out", result_words(value)))
    rows.append(
        Line(
            "Spillage: everything that blows air out is on and the inner doors stand as they draw the most; the burner "
            "is lit cold; smoke at the draft hood shows how long it spills. If it still spills after the time "
            "that the test allows, switch the system off and call the licensed person; do not leave it running.",
            level="danger",
            source=("common-practice", ""),
        )
    )
    return Part("startup", "Start-up record", rows)


def labels(job: Job, written: dict[str, str]) -> Part:
    """The labels: words that the chosen packs prescribe, quoted with section; the rest is ours."""
    packs = [rule_pack(id) for id in job.file.get("rules") or []]
    items: list[Any] = []
    rows = [row for pack in packs for row in pack["rows"] if row["quantity"] in PRESCRIBED]
    for row in rows:
        said = f"“{row['value']}”. " if row["relation"] == "text" and row["quantity"] == "label_text" else ""
        items.append(Line(f"{said}{row['text']}", source=(row["source"], f"{row['section']}, {row['edition']}")))
    if packs and not rows:
        items.append(
            Line(
                "The chosen rule pack prescribes no label in the rows that were seen. "
                "The words below are ours; read the whole rule before you print them."
            )
        )
    if not packs:
        items.append(
            Line("No rule pack was chosen, so nothing on this sheet says that a rule is met. The words below are ours.")
        )
    quoted = next((row for row in rows if row["quantity"] == "label_text"), None)
    source = (quoted["source"], f"{quoted['section']}, {quoted['edition']}") if quoted else OUR_LABELS
    title = quoted["value"] if quoted else "Radon reduction system"
    started = job.file.get("started")
    from_gauge = written.get(GAUGE, "")
    note = "The first line is quoted from the rule; the rest is ours." if quoted else "Our words."
    items += [
        Card(
            title,
            "System label: on the pipe, next to the gauge",
            [
                Row("Installed on", day(started) if started else ""),
                Row("Gauge at start-up", from_gauge),
                Line("Zero, or a fifth more or less than at start-up: call the installer."),
                Line("Leave the fan on. Test for radon at least every two years."),
                Row(INSTALLER + ", phone", written.get(INSTALLER, "")),
                Row("State radon office"),
                Line("Federal information: U.S. Environmental Protection Agency, radon."),
            ],
            source,
            note,
        ),
        *_pipe_labels(rows, source, note),
        Card("Radon fan: leave on", "Breaker label", [Row("Breaker no.")], OUR_LABELS, "Our words."),
    ]
    reading = job.results.get("gauge-reading")
    if reading is not None:
        listed = gauge_card.of(reading.values["reading_then"], reading.outputs["expected_reading"])
        rows_ = [Row(line.label, gauge_card.said(line.suction)) for line in listed]
        items.append(
            Card(
                "Suction gauge", "Card beside the gauge", [*rows_, Line(gauge_card.NO_RADON)], OUR_LABELS, "Our words."
            )
        )
    if {"sump-sealing", "pump-sizing"} & job.results.keys():
        lines = [
            Line("Part of the radon system. Air from the soil is behind this lid."),
            Line("Switch the radon fan off and unplug the pump before you open it. Put the lid and its seal back."),
        ]
        items.append(Card("Keep this lid closed and sealed", "Lid label", lines, OUR_LABELS, "Our words."))
    return Part("labels", "Labels", items)


def _pipe_labels(rows: list[dict[str, Any]], source: tuple[str, str], note: str) -> list[Card]:
    """One pipe label for each text that a chosen pack prescribes, else ours."""
    where = "Pipe label: on each floor, and in the attic"
    quoted = {row["value"]: row for row in rows if row["quantity"] == "label_text"}
    cards = [
        Card(text, where, [], (row["source"], f"{row['section']}, {row['edition']}"), "Quoted from the rule.")
        for text, row in quoted.items()
    ]
    return cards or [Card("Radon reduction system", where, [], source, note)]


def dates(job: Job) -> Part:
    """What is due when, in words."""
    due = job.dates()
    if due:
        items: list[Any] = []
        for one in due:
            sooner = f"no sooner than {day(one['no_sooner'])}, " if one["no_sooner"] else ""
            items.append(
                Row(one["what"][:1].upper() + one["what"][1:], f"{sooner}no later than {day(one['no_later'])}")
            )
        items += [Line(f"{one['what'][:1].upper()}{one['what'][1:]}:", source=(one["source"], "")) for one in due]
        items.append(
            Line("After that every two years, after a change of the house or the system, and when it is sold.")
        )
        return Part("dates", "Dates", items)
    return Part("dates", "Dates", [Line("Enter the day the fan was first switched on to see when the tests are due.")])


def owners(job: Job, written: dict[str, str]) -> Part:
    """The owner's sheet: what the gauge means, when to call, what to leave alone, when to test again."""
    due = job.dates()
    again = day(due[-1]["no_later"]) if due else ""
    first = f"{day(due[0]['no_sooner'])} to {day(due[0]['no_later'])}" if due else ""
    pump = "pump-sizing" in job.results
    items: list[Any] = [
        Line("A fan draws air from under the floor and blows it out where nobody breathes it. It runs day and night."),
        Row("House", job.file["title"]),
        Row("Gauge on the day it was started", written.get(GAUGE, "")),
        Row("Radon test before", written.get("Radon before: result, dates, device, who", "")),
        Row("Radon test after", written.get("Radon after: result, dates, device, who", "")),
        Row("First test: from, to", first),
        Row("Test again, at the latest", again),
        Row("Call", written.get(INSTALLER, "")),
        Line(
            "The gauge shows suction, not radon. Only a radon test shows radon.",
            source=OUR_LABELS,
        ),
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
    if pump or "sump-sealing" in job.results:
        items.append(
            Line(
                "Keep the pit lid closed and sealed. Whoever opens it switches the fan off, unplugs the pump, and closes it again. "
                "If the high-water alarm sounds, call."
            )
        )
    items.append(
        Line(
            "Headache, dizziness, or a carbon monoxide alarm that sounds: everybody leaves the house; call the emergency number "
            "from outside. A new heater, dryer, hood or tighter windows: have the burners tested for spillage again.",
            level="danger",
            source=("common-practice", ""),
        )
    )
    return Part("owner", "Owner's sheet", items)
