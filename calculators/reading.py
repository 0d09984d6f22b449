"""One input object -> SI values, or the list of all its problems at once."""

import math
import re
from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from .declare import (
    REQUIRED,
    Choice,
    Count,
    Date,
    Declaration,
    Field,
    Flag,
    InputError,
    List,
    Other,
    Quantity,
    Record,
    Several,
)
from .units import UnitError, fold, read, to_si
from .wording import accepted

ABSENT: Any = object()
FIRST_YEAR, LAST_YEAR = 1900, 2999
_QUANTITY_KEYS = {"value", "unit", "si", "low", "high", "si_low", "si_high", "default", "range_from"}
_NEGATIVE_SUCTION = "suction is positive when the place is below the air of the room above it"


class Reader:
    """Reads values by their fields and collects problems; nothing is raised before all is read."""

    def __init__(self) -> None:
        self.problems: list[dict[str, Any]] = []

    def problem(self, path: str, kind: str, text: str, found: Any = "", accepts: str = "") -> Any:
        """Note a problem; returns ABSENT."""
        self.problems.append({"field": path, "problem": text, "found": _short(found), "accepts": accepts, "kind": kind})
        return ABSENT

    def value(self, field: Field, raw: Any, path: str) -> Any:
        """The SI value of one field, or ABSENT when there is a problem."""
        if (
            field.kind not in ("quantity", "object", "list")
            and isinstance(raw, dict)
            and set(raw) <= {"value", "default"}
        ):
            raw = raw.get("value")
        if field.kind == "list" and isinstance(raw, dict) and set(raw) <= {"value", "default"}:
            raw = raw.get("value")
        if (
            field.kind == "object"
            and isinstance(raw, dict)
            and set(raw) <= {"value", "default"}
            and isinstance(raw.get("value"), dict)
        ):
            raw = raw["value"]
        if isinstance(field, Quantity):
            return self.quantity(field, raw, path)
        if isinstance(field, List):
            return self.list(field, raw, path)
        if isinstance(field, Record):
            return self.record(field, raw, path)
        if isinstance(field, Several):
            return self.several(field, raw, path)
        if isinstance(field, Choice):
            return self.choice(field, raw, path)
        if isinstance(field, Count):
            return self.count(field, raw, path)
        if isinstance(field, Flag):
            return self.flag(raw, path)
        if isinstance(field, Date):
            return self.date(raw, path)
        return self.text(raw, path)

    def quantity(self, field: Quantity, raw: Any, path: str) -> Any:
        """A number with a unit: text, an object with value and unit, or a pint quantity."""
        if field.also is not None:
            probe = Reader()
            number = probe.quantity(field.also, raw, path)
            if all(problem["kind"] == "bounds" for problem in probe.problems):  # it does measure the other thing
                self.problems += probe.problems
                return number if number is ABSENT else Other(number)
        accepts = accepted(field)
        try:
            if hasattr(raw, "magnitude") and hasattr(raw, "units"):
                from .quantities import from_quantity

                number = from_quantity(raw, field.base, difference=field.difference)
            elif isinstance(raw, dict):
                number = self._from_object(field, raw)
            elif isinstance(raw, str):
                number = read(raw, "%" if field.us == "%" else field.base, difference=field.difference)
            elif isinstance(raw, (int, float)) and not isinstance(raw, bool):
                if abs(raw) > 1e300 or not math.isfinite(raw):
                    return self.problem(path, "bounds", "this is not a usable number", raw, accepts)
                number = to_si(float(raw), "", "%" if field.us == "%" else field.base)
            else:
                return self.problem(path, "type", "a number with a unit is read here", raw, accepts)
        except UnitError as error:
            return self.problem(path, error.kind, str(error), raw, accepts)
        except Exception as error:  # pint's own errors, only natively
            if type(error).__module__.split(".")[0] != "pint":
                raise
            return self.problem(path, "dimension", "this quantity does not measure what is asked", str(raw), accepts)
        return self._bounded(field, number, raw, path, accepts)

    def _bounded(self, field: Quantity, number: float, raw: Any, path: str, accepts: str) -> Any:
        slack = 1e-9 * abs(number)
        if field.low_si is not None and number < field.low_si - slack:
            sign = f"; {_NEGATIVE_SUCTION}" if number < 0 and field.base == "Pa" else ""
            return self.problem(
                path, "bounds", f"this is below the least that is read, {field.low}{sign}", raw, accepts
            )
        if field.high_si is not None and number > field.high_si + slack:
            return self.problem(path, "bounds", f"this is above the most that is read, {field.high}", raw, accepts)
        return number

    @staticmethod
    def _from_object(field: Quantity, raw: Mapping[str, Any]) -> float:
        extra = set(raw) - _QUANTITY_KEYS
        if extra:
            raise UnitError("unknown-field", f"a value has no member {sorted(extra)[0]!r}")
        number, name = raw.get("value"), raw.get("unit", "")
        if isinstance(number, bool) or not isinstance(number, (int, float)):
            raise UnitError("type", "in an object the value must be a JSON number")
        if not isinstance(name, str):
            raise UnitError("unit", "the unit must be a text")
        if abs(number) > 1e300 or not math.isfinite(number):
            raise UnitError("bounds", "this is not a usable number")
        return to_si(float(number), fold(name), "%" if field.us == "%" else field.base, difference=field.difference)

    def count(self, field: Count, raw: Any, path: str) -> Any:
        """A whole number, as a number or as text."""
        accepts = f"a whole number from {field.low} to {field.high}"
        if isinstance(raw, str) and re.fullmatch(r"[+-]?\d{1,9}", raw.strip()):
            raw = int(raw)
        if isinstance(raw, dict) and isinstance(raw.get("value"), (int, float)) and set(raw) <= _QUANTITY_KEYS:
            raw = raw["value"]
        if (
            isinstance(raw, bool)
            or not isinstance(raw, (int, float))
            or not abs(raw) <= 1e9  # NaN too
            or raw != int(raw)
        ):
            return self.problem(path, "type", "a whole number is read here", raw, accepts)
        if not field.low <= raw <= field.high:
            return self.problem(path, "bounds", "this is outside the range that is read", raw, accepts)
        return int(raw)

    def choice(self, field: Choice, raw: Any, path: str) -> Any:
        """One of the listed words, or the free quantity that may stand in their place."""
        accepts = ", ".join(field.choices)
        if isinstance(raw, str) and raw in field.choices:
            return raw
        if (
            field.free is not None
            and not isinstance(raw, (bool, type(None)))
            and not (isinstance(raw, str) and raw.isalpha())
        ):
            return self.quantity(field.free, raw, path)
        if not isinstance(raw, str):
            return self.problem(path, "type", "one of the listed words is read here, as text", raw, accepts)
        return self.problem(path, "choice", "this is not one of the listed words", raw, accepts)

    def several(self, field: Several, raw: Any, path: str) -> Any:
        """A list of listed words; one text is a list of one."""
        words = [raw] if isinstance(raw, str) else raw
        if isinstance(raw, str) and "," in raw:
            words = [word.strip() for word in raw.split(",")]
        if not isinstance(words, list):
            return self.problem(path, "type", "a list of the listed words is read here", raw, ", ".join(field.choices))
        if not field.least <= len(words) <= field.most:
            return self.problem(path, "length", f"{len(words)} entries", raw, f"{field.least} to {field.most} entries")
        before = len(self.problems)
        for i, word in enumerate(words):
            self.choice(field, word, f"{path}[{i}]" if len(words) > 1 else path)
        if len(self.problems) > before:
            return ABSENT
        alone = [word for word in words if word in field.alone]
        if alone and len(words) > 1:
            return self.problem(path, "conflict", f"{alone[0]} stands alone", raw, "either it or the others")
        return list(dict.fromkeys(words))

    def flag(self, raw: Any, path: str) -> Any:
        """True or false."""
        raw = {"true": True, "false": False}.get(raw, raw) if isinstance(raw, str) else raw
        return (
            raw
            if isinstance(raw, bool)
            else self.problem(path, "type", "true or false is read here", raw, "true, false")
        )

    def date(self, raw: Any, path: str) -> Any:
        """An ISO 8601 date or local date and time; kept as text."""
        accepts = "a date such as 2026-11-25 or 2026-11-25T14:30"
        if not isinstance(raw, str) or len(raw) > 30:
            return self.problem(path, "type", "a date is read here, as text", raw, accepts)
        try:
            moment = datetime.fromisoformat(raw) if "T" in raw or " " in raw else date.fromisoformat(raw)
        except ValueError:
            return self.problem(path, "type", "this date is not understood", raw, accepts)
        if not FIRST_YEAR <= moment.year <= LAST_YEAR:
            return self.problem(path, "bounds", "this year is outside the range that is read", raw, accepts)
        if getattr(moment, "tzinfo", None) is not None:
            return self.problem(path, "type", "local time is read here, without a zone", raw, accepts)
        return raw

    def text(self, raw: Any, path: str, longest: int = 200) -> Any:
        """A text."""
        if not isinstance(raw, str):
            return self.problem(path, "type", "a text is read here", raw, "text")
        if len(raw) > longest:
            return self.problem(path, "length", f"{len(raw)} characters", raw, f"at most {longest} characters")
        return raw

    def list(self, field: List, raw: Any, path: str) -> Any:
        """A list of objects."""
        if not isinstance(raw, list):
            return self.problem(
                path, "type", "a list of objects is read here", raw, f"[{{{', '.join(field.item.fields)}}}]"
            )
        if not field.low <= len(raw) <= field.high:
            return self.problem(
                path, "length", f"{len(raw)} entries", f"{len(raw)} entries", f"{field.low} to {field.high} entries"
            )
        entries = [self.record(field.item, entry, f"{path}[{i}]") for i, entry in enumerate(raw)]
        return ABSENT if any(entry is ABSENT for entry in entries) else entries

    def record(self, field: Record, raw: Any, path: str) -> Any:
        """An object with the declared members; members left out get their default or None."""
        if not isinstance(raw, dict):
            return self.problem(path, "type", "an object is read here", raw, f"{{{', '.join(field.fields)}}}")
        before = len(self.problems)
        for name in raw:
            if name not in field.fields:
                self.problem(
                    f"{path}.{_short(name, 40)}",
                    "unknown-field",
                    "there is no such member",
                    name,
                    ", ".join(field.fields),
                )
        given = {name for name in field.fields if raw.get(name) is not None}
        for name in field.need:
            if name not in given:
                self.problem(f"{path}.{name}", "missing", "this must be given", "", accepted(field.fields[name]))
        self._either(field, given, path)
        for listed in field.one_of.values():
            self._one_of(listed, given, path)
        values = {}
        for name, member in field.fields.items():
            if name in given:
                values[name] = self.value(member, raw[name], f"{path}.{name}")
            else:
                values[name] = field.defaults.get(name)
        return values if len(self.problems) == before else ABSENT

    def _one_of(self, listed: tuple[str, ...], given: set[str], path: str) -> None:
        """Exactly one of these members must be given; the problem stands at the first."""
        found, names = [name for name in listed if name in given], ", ".join(listed)
        if len(found) > 1:
            self.problem(f"{path}.{listed[0]}", "conflict", f"give only one of {names}", ", ".join(found), names)
        elif not found:
            self.problem(f"{path}.{listed[0]}", "missing", f"one of {names} must be given", "", names)

    def _either(self, field: Record, given: set[str], path: str) -> None:
        if not field.either:
            return
        ways = " or ".join(" with ".join(group) for group in field.either)
        touched = [group for group in field.either if given & set(group)]
        if not touched:
            self.problem(f"{path}.{field.either[0][0]}", "missing", f"give {ways}", "", ways)
        elif len(touched) > 1:
            self.problem(
                f"{path}.{touched[0][0]}", "conflict", f"give only one of: {ways}", ", ".join(sorted(given)), ways
            )
        else:
            for name in touched[0]:
                if name not in given:
                    self.problem(
                        f"{path}.{name}", "missing", "this must be given too", "", accepted(field.fields[name])
                    )


def read_inputs(declaration: Declaration, raw: Any) -> tuple[dict[str, Any], set[str]]:
    """The SI values of a calculator's inputs and the names of those that are defaults.  Raises InputError with all problems."""
    reader = Reader()
    if not isinstance(raw, Mapping):
        reader.problem("", "type", "the input must be one JSON object", raw, "{name: value}")
        raise InputError(reader.problems, declaration.name)
    raw = dict(raw)
    for name in raw:
        if name not in declaration.inputs:
            reader.problem(
                _short(name, 60),
                "unknown-field",
                f"{declaration.name} has no such input",
                name,
                ", ".join(declaration.inputs),
            )
    given = {name for name in declaration.inputs if raw.get(name) is not None}
    values: dict[str, Any] = {}
    defaults: set[str] = set()
    for name, (field, default) in declaration.inputs.items():
        _check_group(reader, declaration, name, given)
        if name in given:
            values[name] = reader.value(field, raw[name], name)
        elif default is REQUIRED and not declaration.group_of(name):
            reader.problem(name, "missing", "this must be given", "", accepted(field))
        else:
            values[name] = None if default is REQUIRED else default
            if values[name] is not None:
                defaults.add(name)
    group_given = {
        m
        for groups in (declaration.one_of, declaration.at_most_one)
        for g in groups.values()
        if given & set(g)
        for m in g
    }
    for name in group_given - given:  # a group's default steps back when another member is given
        values[name] = None
        defaults.discard(name)
    if reader.problems:
        raise InputError(reader.problems, declaration.name)
    return values, defaults


def _check_group(reader: Reader, declaration: Declaration, name: str, given: set[str]) -> None:
    group = declaration.group_of(name)
    if not group or group[1][0] != name:
        return
    members = [member for member in group[1] if member in given]
    listed = ", ".join(group[1])
    if len(members) > 1:
        reader.problem(name, "conflict", f"give only one of {listed}", ", ".join(members), listed)
    elif not members and group[2] and all(declaration.inputs[m][1] in (REQUIRED, None) for m in group[1]):
        reader.problem(name, "missing", f"one of {listed} must be given", "", listed)


def _short(found: Any, longest: int = 80) -> str:
    try:
        text = found if isinstance(found, str) else str(found)[:400]
    except RecursionError:
        text = "something nested too deeply"
    return text if len(text) <= longest else text[: longest - 1] + "…"
