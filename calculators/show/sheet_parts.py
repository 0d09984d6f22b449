"""What stands on the job sheet, part by part: the house, what stops the work, what is open, results, materials."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from .. import declaration
from ..declare import Field, List, Quantity, Record
from ..job import Entry, Job
from ..job_values import HOUSE, is_reference, parse
from ..result import Result
from ..tables import rule_pack
from ..wording import MONEY, echo
from ..work import Check
from .answer import LEVELS, _compared, printed, said
from .figures import figure, unit_text, words
from .phrases import choice, closed, lower_first

BLANK_HOUSE = ("Address", "Owner, phone", "Building: kind, year")
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip
# Results that only the arithmetic needs; they stand on the calculator's own page.
ARITHMETIC = ("reynolds_number", "reynolds", "friction_factor", "air_density", "air_viscosity", "velocity_pressure")
WIDE = 60  # signs of a value
MOST_RESULTS = 9  # of one calculator; the rest stands on its own page
NO_PACK = "No rule pack was chosen, so nothing on this sheet says that a rule is met."


class Row:
    """A label and its value; without a value a line to write on.

    ``at`` says where a typed value is kept: ``(calculator, field)`` of a record, or ``()`` for words.  ``unit`` stands
    beside the line.
    """

    def __init__(self, label: str, value: str = "", *, unit: str = "", at: tuple[str, ...] | None = None) -> None:
        self.label, self.value, self.unit, self.at = label, value, unit, at

    @property
    def wide(self) -> bool:
        """Whether the value is too long for half the width of the paper."""
        return len(self.value) > WIDE


class Line:
    """A sentence; ``source`` is (source id, section), ``level`` a caution's."""

    def __init__(self, text: str, *, source: tuple[str, str] | None = None, level: str = "") -> None:
        self.text, self.source, self.level = text, source, level


class Checked:
    """A comparison with its numbers."""

    def __init__(self, title: str, result: Result, check: Check, system: str) -> None:
        self.check, self.text = check, check.text[:1].upper() + check.text[1:]
        self.title, self.numbers = title, _compared(result, check, system)


class Card:
    """Words to be fixed to the system, in a frame to cut out: a heading, lines, rows to fill in, where they come from."""

    def __init__(
        self, title: str, where: str, items: Iterable["Row | Line"], source: tuple[str, str], note: str = ""
    ) -> None:
        self.title, self.where, self.items, self.source, self.note = title, where, list(items), source, note


class Part:
    """A heading with what stands under it; ``key`` is its name for programs, ``calculator`` whose result it is."""

    def __init__(self, key: str, title: str, items: Iterable[Any], *, calculator: str = "") -> None:
        self.key, self.title, self.items, self.calculator = key, title, list(items), calculator


def house(job: Job, written: dict[str, str]) -> Part:
    """What is said once for the house."""
    rows = [Row(label, written.get(label, ""), at=()) for label in BLANK_HOUSE]
    for name, raw in job.file["house"].items():
        if raw is None:
            continue
        holder = next((r for r in job.results.values() if name in r.declaration.inputs), None)
        field = holder.declaration.inputs[name][0] if holder else _field_of(name)
        if is_reference(raw):
            value = said_where(raw)
        elif holder and holder.values.get(name) is not None:
            value = told(field, holder.values[name], job.units, holder.values, raw)
        else:
            value = _typed(raw)
        rows.append(Row(field.label if field else name.replace("_", " "), value))
    packs = [rule_pack(id) for id in job.file.get("rules") or []]
    rows += [Row("Rule pack", f"{pack['title']}; {pack['edition']}") for pack in packs]
    items: list[Any] = list(rows)
    if not packs:
        items.append(Line(NO_PACK))
    return Part("house", "The house", items)


def _field_of(name: str) -> Field | None:
    from .. import NAMES

    return next((declaration(n).inputs[name][0] for n in NAMES if name in declaration(n).inputs), None)


def _typed(raw: Any) -> str:
    """A value of the file as it was typed, for a field that no calculator of the job has read."""
    if isinstance(raw, dict) and "value" in raw:
        return f"{_typed(raw['value'])} {raw.get('unit', '')}".rstrip()
    if isinstance(raw, dict):
        return ", ".join(f"{name.replace('_', ' ')} {_typed(value)}" for name, value in raw.items())
    if isinstance(raw, list):
        return "; ".join(map(_typed, raw))
    return said_where(raw) if is_reference(raw) else choice(words(raw))


def said_where(text: str) -> str:
    """@sump-sealing.suction_open as "What an imperfect lid costs: suction with the lid as it is"."""
    reference = parse(text)
    if reference is None:
        return text
    place, name, way = reference
    if place == HOUSE:
        field: Any = _field_of(name)
    else:
        declared = declaration(place)
        field = declared.results.get(name) or declared.inputs[name][0]
    label = [lower_first(field.label)]
    for step in way:
        if isinstance(step, int):
            label[-1] += f" {step + 1}"
        holder = getattr(field, "item", field) if isinstance(field, List) else field
        field = holder if isinstance(step, int) else getattr(holder, "fields", {}).get(step, field)
        if not isinstance(step, int):
            label.append(lower_first(field.label))
    title = "The house" if place == HOUSE else declaration(place).title
    return f"{title}: {', '.join(label)}"


def told(field: Field | None, value: Any, system: str, values: Any, raw: Any = None) -> str:
    """A read value in words: number and unit, a choice spelled out, the members of an object.

    With ``raw``, what the file holds, members that were filled in are left out.
    """
    if isinstance(raw, dict) and set(raw) <= {"value", "default"}:
        raw = raw.get("value")
    if field is None:
        return _typed(value)
    if isinstance(field, List):
        given = raw if isinstance(raw, list) and len(raw) == len(value) else [None] * len(value)
        each = [told(field.item, one, system, values, own) for one, own in zip(value, given, strict=True)]
        return "; ".join(each) or "none"
    if isinstance(field, Record):
        return _members(field, value, system, values, raw)
    if field.kind == "date":
        return day(value)
    if (
        isinstance(field, Quantity)
        and field.us == "1"
        and isinstance(raw, str)
        and "/" in raw
        and not is_reference(raw)
    ):
        return raw.strip()  # a pitch of 6/12 is said as it was typed
    shown = echo(field, value, system, values)
    if "unit" in shown:
        return f"{figure(shown['value'])} {unit_text(shown['unit'])}".rstrip()
    inner = shown["value"]
    return ", ".join(choice(words(one)) for one in inner) if isinstance(inner, (list, tuple)) else _worded(field, inner)


def day(text: str) -> str:
    """2026-11-21T14:30 as people say it: 21 November 2026, 14:30."""
    when = datetime.fromisoformat(text)
    shown = f"{when.day} {MONTHS[when.month - 1]} {when.year}"
    return f"{shown}, {when:%H:%M}" if len(text) > len("2026-11-21") else shown


def _worded(field: Field, value: Any) -> str:
    return choice(words(value)) if field.kind in ("choice", "flag") else words(value)


def _members(field: Record, value: dict[str, Any], system: str, values: Any, raw: Any) -> str:
    """The members of an object in one line; "3 × 90 degree elbow, sharp" for a counted one."""
    parts = []
    wanted = raw if isinstance(raw, dict) else field.fields
    given = {name: inner for name, inner in value.items() if inner is not None and name in field.fields}
    if "kind" in given and given.keys() <= {"kind", "count"}:
        return f"{given.get('count', 1)} × {choice(given['kind'])}"
    for name, inner in given.items():
        if name not in wanted:
            continue
        member = field.fields[name]
        own = raw.get(name) if isinstance(raw, dict) else None
        text = told(member, inner, system, {**values, **given} if isinstance(member, Quantity) else given, own)
        plain = member.kind == "text" and name == "name"
        parts.append(text if plain else f"{lower_first(member.label)}: {text}")
    return "; ".join(parts)


def told_rows(label: str, field: Field, value: Any, job: Job, values: Any, raw: Any) -> list[Row]:
    """A read value as rows: one for each entry of a list, unless its entries are only counted."""
    if isinstance(field, List) and any(set(entry) - {"kind", "count"} for entry in value):
        given = raw if isinstance(raw, list) and len(raw) == len(value) else [None] * len(value)
        return [
            Row(f"{field.item.label} {i}", told(field.item, one, job.units, values, own))
            for i, (one, own) in enumerate(zip(value, given, strict=True), 1)
        ]
    return [Row(label, told(field, value, job.units, values, raw))]


def stops(job: Job) -> Part:
    """What stops the work."""
    found = _failed(job, stop=True)
    return Part("stops", "What stops the work", found or [Line("Nothing that was compared stops the work.")])


def failed(job: Job) -> Part:
    """What does not meet and is no hard stop."""
    found = _failed(job, stop=False)
    return Part("failed", "What does not meet", found or [Line("Nothing else that was compared falls short.")])


def _failed(job: Job, *, stop: bool) -> list[Checked]:
    return [
        Checked(job.results[name].declaration.title, job.results[name], check, job.units)
        for name, check in job.failed()
        if check.stop == stop
    ]


def still_open(job: Job) -> Part:
    """What nobody has said or measured yet, and what could not be judged."""
    items: list[Any] = [Line(_open(entry)) for entry in job.open if entry.calculator is None]
    items += [Line(_open(entry)) for entry in job.open if entry.calculator is not None]
    for result in job.results.values():
        items += [
            Checked(result.declaration.title, result, check, job.units)
            for check in result.work.checks
            if check.ok is None
        ]
    return Part("open", "Still open", items or [Line("Nothing was entered as open.")])


def _open(entry: Entry) -> str:
    """An open entry without names of programs."""
    text = entry.text
    if entry.calculator is None:
        return text
    declared = declaration(entry.calculator)
    for word in [word for word in text.replace(",", " ").replace(";", " ").split() if is_reference(word)]:
        text = text.replace(word, f"“{said_where(word)}”")
    if entry.field in declared.inputs:
        return closed(f"{declared.title}: {declared.inputs[entry.field][0].label} is not given{_because(text)}")
    return closed(f"{declared.title}: {text}")


def _because(text: str) -> str:
    """The reason at the end of the text of a missing field, if one is given."""
    _, mark, reason = text.partition("; ")
    return mark + reason if reason.endswith("could not be given") else ""


def cautions(job: Job) -> Part:
    """What can hurt somebody on this job: each danger and warning once, dangers first."""
    listed = [caution for result in job.results.values() for caution in result.work.cautions if caution.level != "note"]
    once: dict[tuple[str, str], Line] = {}
    for caution in listed:
        once.setdefault((caution.level, caution.text), Line(caution.text, level=caution.level))
    kept = sorted(once.values(), key=lambda line: LEVELS.index(line.level))
    return Part("hurt", "What can hurt you", kept)


def results(job: Job) -> list[Part]:
    """One part for each calculator: its answer, what was given for it alone, what came out."""
    return [_result(job, name, result) for name, result in job.results.items()]


def _result(job: Job, name: str, result: Result) -> Part:
    declared, own = result.declaration, job.file["inputs"].get(name, {})
    items: list[Any] = [Line(said(result, job.units)[1])]
    for field, raw in own.items():
        if raw is None or result.values.get(field) is None:
            continue
        item = declared.inputs[field][0]
        rows = told_rows(item.label, item, result.values[field], job, result.values, raw)
        if is_reference(raw):
            rows[-1].value += f" (from {said_where(raw)})"
        items += rows
    given = len(items)
    for field_name, field in declared.results.items():
        if len(items) - given == MOST_RESULTS:
            break
        value = printed(result, field_name, job.units)
        if field_name in ARITHMETIC or value is None or _names_a_row(result, value):
            continue
        if field.kind in ("quantity", "count", "flag", "text", "choice"):
            items.append(Row(field.label, result_words(value)))
    return Part(f"of-{name}", declared.title, items, calculator=name)


def _names_a_row(result: Result, value: Any) -> bool:
    """Whether a text lists comparisons by the names that programs use; they stand above in words."""
    return isinstance(value, str) and any(check.id in value for check in result.work.checks)


def result_words(value: Any) -> str:
    """A printed result with its range."""
    if not isinstance(value, dict) or "unit" not in value:
        return choice(words(value)) if " " not in words(value) else words(value)
    unit = unit_text(value["unit"])
    spread = "low" in value and value["low"] != value["high"]
    between = f" ({figure(value['low'])} to {figure(value['high'])})" if spread else ""
    if value["unit"] in MONEY:
        return f"{figure(value['value'])}{between} {unit}"
    return f"{figure(value['value'])} {unit}".rstrip() + between
