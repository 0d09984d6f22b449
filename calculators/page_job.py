"""What the page asks of a whole job.  ``page.job`` guards it: one text in, one text out.

{"do": "sheet", "file", "today"}                 -> {"ok": true, "title", "pieces": [[key, html]], "form", "stamp", "csv",
                                                     "inputs", "file"?}
{"do": "add", "file", "calculator", "inputs"}    -> {"ok": true, "file", "said": [text]}
{"do": "drop", "file", "calculator"}             -> {"ok": true, "file"}
{"do": "prefill", "file", "calculator"}          -> {"ok": true, "inputs", "from": {field: text}}
{"do": "example"}                                -> {"ok": true, "file"}
or {"ok": false, "problems": [{"field", "label", "text", "calculator"}]}
"""

import json
import re
from collections.abc import Callable
from typing import Any

from . import NAMES, InputError, declaration
from .declare import Declaration, Field, List, Quantity, Record
from .job import CURRENT, MEMBERS, Job, run
from .job_handed import RECORDED, candidates
from .job_values import HOUSE, inputs_of_job, is_reference, parse, places, referred, replaced, taken
from .reading import ABSENT, Reader
from .result import Result
from .tables import table
from .units import short
from .wording import label_of

# What means the same to every calculator of a house, and is said once.
WHOLE = (
    "elevation", "air_temperature", "floor_area", "indoor_temperature", "fan", "house", "soil_conductance",
    "measured", "soil",
)  # fmt: skip
# The vent pipe; the pump line has fields of the same names.
VENT = ("pipe_size", "inside_diameter", "pipe_length", "fittings")
OTHER_PIPE = ("pump-sizing",)
SAME = 1e-5  # relative; boxes hold six digits
SHOWN, KEPT = 4, 6  # digits of a number that is handed over, and of one that takes the place of a reference
MOST_SAID = 50
ONCE = "Said once for the whole house, on the job sheet."


def ask(request: dict[str, Any]) -> dict[str, Any]:
    """Do what a page asks of a job.  Problems of the file come back in words."""
    done = {"sheet": sheet, "add": add, "drop": drop, "prefill": prefill, "example": example}.get(request.get("do", ""))
    if done is None:
        raise ValueError(f"nothing is known of {request.get('do')!r}")
    try:
        return {"ok": True, **done(request)}
    except InputError as error:
        return {"ok": False, "problems": [in_words(problem) for problem in error.problems[:MOST_SAID]]}


def example(request: dict[str, Any]) -> dict[str, Any]:
    """The invented house of the handbook as a job file."""
    return {"file": table("jobs/quarry-lane")}


def sheet(request: dict[str, Any]) -> dict[str, Any]:
    """The sheet part by part, the form of the house, and what each calculator's page is opened with."""
    from .show.sheet import pieces, stamp, title_of
    from .show.sheet_parts_form import form
    from .show.sheet_parts_materials import materials_csv

    file: Any = request.get("file")
    done = run(file)
    kept = _records(file, done, str(request.get("today", "")))
    out: dict[str, Any] = {}
    if kept is not None:
        out["file"] = kept
        done = run(kept)
    inputs = {name: _for_form(done, name)[0] for name in done.results}
    shown = {
        "title": title_of(done),
        "pieces": pieces(done),
        "form": form(done),
        "stamp": stamp(),
        "csv": materials_csv(done),
    }
    return {**shown, "inputs": inputs, **out}


def _records(file: dict[str, Any], done: Job, today: str) -> dict[str, Any] | None:
    """The file with lines of the sheet that can be read as a number of a calculator kept as records; None if none can."""
    from .show.sheet_parts_handover import label_of_note, rows_to_fill

    rows = {row.label: row for row in rows_to_fill(done) if row.at}
    moved = json.loads(json.dumps(file))
    notes, changed = [], False
    for note in moved.get("notes") or []:
        label = label_of_note(note, list(rows))
        row = rows.get(label)
        if row and row.at and re.fullmatch(r"\d{4}-\d\d-\d\d", today):
            words = note[len(label) + 2 :].strip()
            text = f"{words} {row.unit}" if re.fullmatch(r"[\d.,/ ]+", words) else words
            name, field = row.at
            reader = Reader()
            reader.value(declaration(name).results[field], text, "")
            if not reader.problems:
                records = [e for e in moved.get("recorded") or [] if (e["calculator"], e["field"]) != row.at]
                moved["recorded"] = [*records, {"calculator": name, "field": field, "value": text, "when": today}]
                changed = True
                continue
        notes.append(note)
    moved["notes"] = notes
    return moved if changed else None


def prefill(request: dict[str, Any]) -> dict[str, Any]:
    """What the job already knows of a calculator's inputs, and where each is said."""
    done = run(request.get("file"))
    inputs, origin = _for_form(done, _name(request))
    return {"inputs": inputs, "from": origin}


def _name(request: dict[str, Any]) -> str:
    name: Any = request.get("calculator")
    declaration(name)  # refuses an unknown name
    return str(name)


def _for_form(done: Job, name: str) -> tuple[dict[str, Any], dict[str, str]]:
    """Inputs of a calculator with references filled in, and for what was said elsewhere, where."""
    fields, own = declaration(name).inputs, done.file["inputs"].get(name, {})
    inputs, _ = inputs_of_job(done.file, name, done.results)
    out: dict[str, Any] = {}
    origin: dict[str, str] = {}
    for field, (_, said) in taken(done.file, name).items():
        value = inputs[field]
        if value is None or (own.get(field) is None and name in OTHER_PIPE and field in VENT):
            continue
        handed = dict(places(fields[field][0], said, field))
        out[field] = _as_typed(value) if handed else value
        if field not in own:
            origin[field] = ONCE
        origin |= {path: _from(text) for path, text in handed.items()}
    for field, text in suggested(done, name).items():
        out[field], origin[field] = _as_typed(referred(done.file, done.results, text)), _from(text)
    for field, (other, result) in RECORDED.get(name, {}).items():
        kept = [e for e in done.file["recorded"] if (e["calculator"], e["field"]) == (other, result)]
        if kept and name not in done.file["inputs"]:
            out[field], origin[field] = kept[-1]["value"], "Measured on the job, from the job sheet."
    return out, origin


def suggested(done: Job, name: str) -> dict[str, str]:
    """References to what other calculators of the job give, for fields of one that is not on the sheet yet."""
    if name in done.file["inputs"]:
        return {}
    declared, have = declaration(name), taken(done.file, name)
    found: dict[str, str] = {}
    for field in declared.inputs:
        group = declared.group_of(field)
        if any(one in have or one in found for one in (group[1] if group else (field,))):
            continue
        for text in candidates(name, field):
            reference = parse(text)
            if reference and reference.place in done.results and referred(done.file, done.results, text) is not None:
                found[field] = text
                break
    return found


def _from(text: str) -> str:
    from .show.sheet_parts import said_where

    return f"From the job sheet, “{said_where(text)}”."


def _as_typed(value: Any, digits: int = SHOWN) -> Any:
    """Numbers as one would type them into a box."""
    if isinstance(value, dict) and set(value) == {"value", "unit"}:
        return f"{short(value['value'], digits)} {value['unit']}".removesuffix(" 1")
    if isinstance(value, dict):
        return {name: _as_typed(inner, digits) for name, inner in value.items()}
    return [_as_typed(entry, digits) for entry in value] if isinstance(value, list) else value


def _as_handed(field: Field, value: Any, raw: Any) -> bool:
    """Whether a box still holds what was put into it, in full or as shown."""
    return same(field, value, raw) or same(field, _as_typed(value), raw)


def add(request: dict[str, Any]) -> dict[str, Any]:
    """The file with the inputs of one form in it; what means the same everywhere is kept once, for the house.

    Raises InputError when the job would not be readable with them; then nothing of it is to be kept.
    """
    name, typed = _name(request), request.get("inputs")
    file: Any = json.loads(json.dumps(request.get("file")))
    done = run(file)
    if not isinstance(typed, dict):
        raise InputError([_whole("the inputs of the form are missing")])
    declared = declaration(name)
    before, _ = inputs_of_job(done.file, name, done.results)
    handed = suggested(done, name)
    house = dict(file.get("house") or {})
    every = dict(file.get("inputs") or {})
    own_before = every.get(name) or {}
    own: dict[str, Any] = {}
    said: list[str] = []
    for field, raw in typed.items():
        if field not in declared.inputs:
            own[field] = raw  # the job explains it
        elif field in handed and _as_handed(
            declared.inputs[field][0], referred(done.file, done.results, handed[field]), raw
        ):
            own[field] = handed[field]
        elif field in before and _as_handed(declared.inputs[field][0], before[field], raw):
            if own_before.get(field) is not None:
                own[field] = own_before[field]
            elif name in OTHER_PIPE and field in VENT:
                own[field] = raw
        elif field == "rules":
            _say_rules(file, own, own_before, raw)
        elif shared(name, field) and own_before.get(field) is None:
            kept = _kept(declared.inputs[field][0], house.get(field), before.get(field), raw)
            said += _into_house(house, declared, field, kept, done)
        else:
            own[field] = _kept(declared.inputs[field][0], own_before.get(field), before.get(field), raw)
    if name in OTHER_PIPE and "fittings" not in own:
        own["fittings"] = []
    every[name] = own
    file |= {"underslab_job": CURRENT, "house": house, "inputs": every}
    if file.get("order") and name not in file["order"]:
        file["order"] = [*file["order"], name]
    run(file)
    return {"file": file, "said": said}


def _kept(field: Field, said: Any, filled: Any, raw: Any) -> Any:
    """The new value of a field; where it is what a reference of the old one stood for, the reference stays."""
    if is_reference(said):
        return said if _as_handed(field, filled, raw) else raw
    if isinstance(field, List) and all(isinstance(one, list) for one in (said, filled, raw)):
        both = list(zip(said, filled, strict=True))
        return [_kept(field.item, *both[i], entry) if i < len(both) else entry for i, entry in enumerate(raw)]
    if isinstance(field, Record) and all(isinstance(one, dict) for one in (said, filled, raw)):
        return {
            name: _kept(field.fields[name], said.get(name), filled.get(name), value) if name in field.fields else value
            for name, value in raw.items()
        }
    return raw


def shared(name: str, field: str) -> bool:
    """Whether an input of a calculator means the whole house, so that it is said once."""
    return field in WHOLE or (field in VENT and name not in OTHER_PIPE)


def _say_rules(file: dict[str, Any], own: dict[str, Any], own_before: dict[str, Any], raw: Any) -> None:
    if own_before.get("rules") is None and not file.get("rules"):
        file["rules"] = raw if isinstance(raw, list) else [raw]
    else:
        own["rules"] = raw


def _into_house(house: dict[str, Any], declared: Declaration, field: str, raw: Any, done: Job) -> list[str]:
    """Puts a value into the house in place of what was said there; says so when that changes other calculators."""
    group = declared.group_of(field)
    members = [one for one in (group[1] if group else (field,)) if one in house and one in (*WHOLE, *VENT)]
    for one in members:
        del house[one]
    house[field] = raw
    others = [r.declaration.title for r in done.results.values() if _uses(r, members) and r.declaration is not declared]
    if not members or not others:
        return []
    label = declared.inputs[field][0].label
    return [f"{label} is changed for the whole house; it is also used by: {', '.join(others)}."]


def _uses(result: Result, fields: list[str]) -> bool:
    name = result.declaration.name
    return any(field in result.declaration.inputs and shared(name, field) for field in fields)


def same(field: Field, one: Any, other: Any) -> bool:
    """Whether two typed values of a field mean the same."""
    values = []
    for raw in (one, other):
        reader = Reader()
        value = reader.value(field, raw, "") if not is_reference(raw) else ABSENT
        if value is ABSENT or reader.problems:
            return False
        values.append(value)
    return _alike(field, *values)


def _alike(field: Field, a: Any, b: Any) -> bool:
    if isinstance(field, List):
        return len(a) == len(b) and all(_alike(field.item, x, y) for x, y in zip(a, b, strict=True))
    if isinstance(field, Record):
        return all(_member_alike(member, a.get(name), b.get(name)) for name, member in field.fields.items())
    if isinstance(field, Quantity):
        return abs(a - b) <= SAME * max(abs(a), abs(b))
    return bool(a == b)


def _member_alike(field: Field, a: Any, b: Any) -> bool:
    return a is b if a is None or b is None else _alike(field, a, b)


def drop(request: dict[str, Any]) -> dict[str, Any]:
    """The file without one calculator; what others took from its results stays with them as a number."""
    name = _name(request)
    file: Any = json.loads(json.dumps(request.get("file")))
    try:
        done: Job | None = run(file)
    except InputError:
        done = None  # taking it off may be what mends the file
    if not isinstance(file, dict) or not isinstance(file.get("inputs"), dict):
        raise InputError([_whole("this is no job file")])
    file["inputs"].pop(name, None)
    if file.get("order"):
        file["order"] = [one for one in file["order"] if one != name]
    for other, own in [(HOUSE, file.get("house")), *file["inputs"].items()]:
        for field, value in list((own or {}).items()):
            holder = next((n for n in (other, *NAMES) if n in NAMES and field in declaration(n).inputs), None)
            if holder:
                own[field] = replaced(declaration(holder).inputs[field][0], value, _unless(done, name), field)
    return {"file": file}


def _unless(done: Job | None, gone: str) -> Callable[[str, str], Any]:
    """Fills references to one calculator with what they stand for; others stay."""

    def fill(_: str, text: str) -> Any:
        reference = parse(text)
        if reference is None or reference.place != gone:
            return text
        return _as_typed(referred(done.file, done.results, text), KEPT) if done else None

    return fill


def _whole(text: str) -> dict[str, Any]:
    return {"field": "", "problem": text, "found": "", "accepts": "", "kind": "type"}


MEMBER_WORDS = {
    "house": "The house",
    "inputs": "The calculators",
    "recorded": "What was measured",
    "open": "Still open",
}


def in_words(problem: dict[str, Any]) -> dict[str, str]:
    """A problem of a job file as it is said to the reader."""
    from .show.phrases import closed, names_in_words

    path = problem["field"]
    first, _, rest = path.partition(".")
    head = first.partition("[")[0]
    name, labels, label = "", {}, ""
    if first == "inputs" and rest.split(".")[0] in NAMES:
        name, _, inner = rest.partition(".")
        declared = declaration(name)
        labels = {key: field.label for key, (field, _) in declared.inputs.items()}
        label = declared.title + (f", {label_of(declared, inner)}" if inner else "")
    elif first == "house" and rest:
        holder = next((declaration(n) for n in NAMES if re.split(r"[.\[]", rest)[0] in declaration(n).inputs), None)
        label = f"The house, {label_of(holder, rest) if holder else rest}"
    elif first in MEMBERS:
        label = MEMBERS[first].label
    elif head in MEMBER_WORDS:
        number = re.search(r"\[(\d+)\]", first)
        label = MEMBER_WORDS[head] + (f", entry {int(number[1]) + 1}" if number else "")
    text = problem["problem"][:1].upper() + problem["problem"][1:]
    found = f" It holds: {problem['found'][:80]}" if problem["found"] and problem["kind"] != "missing" else ""
    return {
        "field": path,
        "label": label or path or "The file",
        "text": closed(names_in_words(text, labels)) + (closed(found) if found else ""),
        "calculator": name,
    }
