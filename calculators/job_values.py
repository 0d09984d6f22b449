"""What each calculator of a job takes: its own inputs, the house's, and the values that references stand for.

A reference is ``@calculator.result``, ``@calculator.input`` or ``@house.field``, followed by members and entries where
the thing is an object or a list: ``@spillage-check.exhausts[0].flow``.  It may stand for a whole input and for any
entry or member inside one, except for a free text inside a list.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from . import NAMES, Result, declaration
from .declare import Amounts, Curves, Field, List, Map, Record, Table, Text
from .reading import Reader

HOUSE = "house"
FORM = "@calculator.result, @calculator.input or @house.field, as describe lists them"
SHAPE = r"@[a-z-]+\.[A-Za-z_]\w*(?:\.[A-Za-z_]\w*|\[\d{1,3}\])*"
MOST, DEEPEST = 500, 8  # references that a job fills, and how often one may stand for another
Way = tuple[str | int, ...]


class Reference(NamedTuple):
    """A reference taken apart: a calculator or the house, the name there, the way into it."""

    place: str
    name: str
    way: Way


def is_reference(value: Any) -> bool:
    """Whether a value of a job file stands for something said or worked out elsewhere."""
    return isinstance(value, str) and value.startswith("@")


def parse(text: str) -> Reference | None:
    """The parts of a reference; None when it has not the form of one."""
    if not re.fullmatch(SHAPE, text):
        return None
    place, _, rest = text[1:].partition(".")
    name, *way = re.findall(r"[A-Za-z_]\w*|\[\d+\]", rest)
    return Reference(place, name, tuple(int(step[1:-1]) if step[0] == "[" else step for step in way))


# --- walking through values


def places(field: Field, raw: Any, path: str, *, inside: bool = False) -> Iterator[tuple[str, str]]:
    """Path and text of each reference in a value as it stands in the file."""
    if is_reference(raw):
        if not (inside and type(field) is Text):
            yield path, raw
        return
    raw = _bare(raw)
    if isinstance(field, List) and isinstance(raw, list):
        for i, entry in enumerate(raw):
            yield from places(field.item, entry, f"{path}[{i}]", inside=True)
    elif isinstance(field, Record) and isinstance(raw, dict):
        for name, member in field.fields.items():
            yield from places(member, raw.get(name), f"{path}.{name}", inside=True)


def replaced(field: Field, raw: Any, fill: Callable[[str, str], Any], path: str, *, inside: bool = False) -> Any:
    """The value with ``fill(path, text)`` in the place of each reference; what becomes None is left out of objects."""
    if is_reference(raw):
        return raw if inside and type(field) is Text else fill(path, raw)
    bare = _bare(raw)
    if isinstance(field, List) and isinstance(bare, list):
        return [replaced(field.item, entry, fill, f"{path}[{i}]", inside=True) for i, entry in enumerate(bare)]
    if isinstance(field, Record) and isinstance(bare, dict):
        return {
            name: replaced(field.fields[name], value, fill, f"{path}.{name}", inside=True) if name in field.fields else value
            for name, value in bare.items()
        }  # fmt: skip
    return raw


def _bare(raw: Any) -> Any:
    """A value without the wrapping in which an answer echoes lists, objects and words."""
    while isinstance(raw, dict) and "value" in raw and set(raw) <= {"value", "default"}:
        raw = raw["value"]
    return raw


def leads(field: Any, way: Way) -> bool:
    """Whether a way into a declared field exists; an entry may still be missing in this house."""
    for step in way:
        if isinstance(step, int):
            field = getattr(field, "item", None) if isinstance(field, (List, Amounts)) else _rows(field)
        else:
            field = getattr(field, "fields", {}).get(step) if isinstance(field, Record) else None
        if field is None:
            return False
    return True


def _rows(field: Any) -> Record | None:
    return Record(field.label, field.fields) if isinstance(field, Table) else None


def follow(data: Any, way: Way) -> Any:
    """What stands at the end of the way; None when it is not there."""
    data = _bare(data)
    for step in way:
        if isinstance(step, int):
            data = data[step] if isinstance(data, list) and step < len(data) else None
        else:
            data = data.get(step) if isinstance(data, dict) else None
        data = _bare(data)
    return _slim(data)


def _slim(data: Any) -> Any:
    """Numbers of an answer with value and unit only."""
    if isinstance(data, dict) and {"value", "unit"} <= set(data):
        return {"value": data["value"], "unit": data["unit"]}
    if isinstance(data, dict):
        return {name: _slim(value) for name, value in data.items() if value is not None}
    return [_slim(entry) for entry in data] if isinstance(data, list) else data


# --- what a calculator takes


def house_of(file: Mapping[str, Any]) -> dict[str, Any]:
    """What is said once: the house, the rule packs, and the day of the start where the radon test asks for it."""
    house = dict(file["house"])
    if file.get("rules"):
        house.setdefault("rules", file["rules"])
    if len(file.get("started") or "") > len("2026-11-25"):  # the test needs the hour
        house.setdefault("system_started_at", file["started"])
    return house


def taken(file: Mapping[str, Any], name: str) -> dict[str, tuple[str, Any]]:
    """Place in the file and value, references still in it, of each input that a calculator takes from a job."""
    declared, own = declaration(name), file["inputs"].get(name, {})
    found = {field: (f"inputs.{name}", value) for field, value in own.items() if value is not None}
    for field, value in house_of(file).items():
        group = declared.group_of(field)
        given = field in found or (group is not None and any(own.get(member) is not None for member in group[1]))
        if field in declared.inputs and not given and value is not None:
            found[field] = (HOUSE, value)
    for field, (item, _) in declared.inputs.items():
        if isinstance(item, Record) and item.calculator:
            place, given = found.get(field, (f"inputs.{name}", {}))
            whole = _whole(file, item, given)
            if whole is not None:
                found[field] = (place, whole)
    return found


def _whole(file: Mapping[str, Any], item: Record, given: Any) -> dict[str, Any] | None:
    """An object that is the whole input of another calculator: what is not given is taken as that calculator takes it."""
    if not isinstance(given, dict):
        return None
    given = {name: value for name, value in _bare(given).items() if value is not None}
    shut = {name for group in item.one_of.values() if given.keys() & set(group) for name in group}
    known = {n: value for n, (_, value) in taken(file, item.calculator).items() if n in item.fields and n not in shut}
    whole = {**known, **given}
    enough = whole.keys() >= set(item.need) and all(whole.keys() & set(group) for group in item.one_of.values())
    return whole if enough else None


def inputs_of_job(
    file: dict[str, Any], name: str, results: Mapping[str, Result]
) -> tuple[dict[str, Any], dict[str, str]]:
    """The inputs of one calculator in this job, and by path the references that cannot be filled yet."""
    waiting: dict[str, str] = {}

    def fill(path: str, text: str) -> Any:
        value = referred(file, results, text)
        if value is None:
            waiting[path] = text
        return value

    inputs = {}
    for field, (_, value) in taken(file, name).items():
        known = declaration(name).inputs.get(field)
        inputs[field] = replaced(known[0], value, fill, field) if known else value
    return inputs, waiting


def referred(file: dict[str, Any], results: Mapping[str, Result], text: str) -> Any:
    """What a reference stands for, as it would be typed; None when it cannot be given."""
    reference = parse(text)
    if reference is None:
        return None
    place, name, way = reference
    if place == HOUSE:
        raw = house_of(file).get(name)
        return follow(replaced(_fields(name)[0], raw, lambda _, inner: referred(file, results, inner), name), way)
    if place in results and name in results[place].declaration.results:
        return follow(results[place].result(name, file["units"]), way)
    return follow(results[place].inputs(file["units"]).get(name), way) if place in results else None


def _fields(name: str) -> list[Field]:
    """Every field that a calculator has under this name."""
    return [declaration(one).inputs[name][0] for one in NAMES if name in declaration(one).inputs]


# --- what hangs on what


def needs_of(reader: Reader, file: dict[str, Any], name: str, wanted: Iterable[str], left: Iterator[int]) -> list[str]:
    """The calculators from which this one takes something.

    Unknown references, circles in the house and more references than there are numbers in ``left`` are problems.
    """
    found: list[str] = []
    for field, (place, value) in taken(file, name).items():
        known = declaration(name).inputs.get(field)
        for path, text in places(known[0], value, f"{place}.{field}") if known else ():
            found += _needed(reader, file, path, text, wanted, left, ())
    return found


def _needed(
    reader: Reader, file: dict[str, Any], path: str, text: str, wanted: Iterable[str], left: Iterator[int], before: Way
) -> list[str]:
    if next(left, None) is None:
        if not any(problem["kind"] == "length" for problem in reader.problems):
            text = "values of the house stand for each other too many times"
            reader.problem(path, "length", text, "", f"at most {MOST} references in a job, counted as they are filled")
        return []
    reference = parse(text)
    if reference is None or not _exists(reference):
        reader.problem(path, "choice", "there is no such result", text, FORM)
        return []
    place, name, _ = reference
    if place != HOUSE:
        if place not in wanted:
            reader.problem(path, "choice", "that calculator is not part of this job", text, ", ".join(wanted))
            return []
        return [place]
    if name in before:
        circle = " -> ".join(map(str, (*before, name)))
        reader.problem(path, "conflict", "fields of the house stand for each other in a circle", circle, "a value")
        return []
    if len(before) == DEEPEST:
        reader.problem(path, "length", "this is handed on too many times", text, f"at most {DEEPEST} times")
        return []
    raw = house_of(file).get(name)
    return [
        other
        for where, inner in places(_fields(name)[0], raw, f"{HOUSE}.{name}")
        for other in _needed(reader, file, where, inner, wanted, left, (*before, name))
    ]


def _exists(reference: Reference) -> bool:
    place, name, way = reference
    if place == HOUSE:
        return any(leads(field, way) for field in _fields(name))
    if place not in NAMES:
        return False
    declared = declaration(place)
    fields = [declared.results.get(name), declared.inputs.get(name, (None,))[0]]
    return any(leads(field, way) for field in fields if field is not None and not isinstance(field, (Curves, Map)))
