"""Write calculators/data/job.schema.json (JSON Schema 2020-12) from the declarations of the calculators.

    python scripts/make_job_schema.py

The schema knows shapes: members, kinds, words that can be chosen, lengths of lists.  Bounds, units and contradictions
are looked at only when the job is solved, so a job that fits can still be refused.
"""

import json
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from calculators import declaration, job, job_values, names  # noqa: E402
from calculators.declare import Choice, Count, Field, List, Quantity, Record, Several, Text  # noqa: E402

TARGET = ROOT / "calculators/data/job.schema.json"
Schema = dict[str, Any]
# What an answer carries beside a value is read and left alone, so that an answer can be put into a job.
CARRIED = ("si", "low", "high", "si_low", "si_high", "default", "range_from")
REFERENCE: Schema = {"type": "string", "pattern": f"^{job_values.SHAPE}$"}  # such as @fan-point.pit_suction
TEXT: Schema = {"type": "string", "pattern": r"^[^@]"}  # such as 18 gpm
QUANTITY: Schema = {
    "type": "object",
    "properties": {"value": {"type": "number"}, "unit": {"type": "string"}, **dict.fromkeys(CARRIED, True)},
    "required": ["value"],
    "additionalProperties": False,
}
# ISO 8601 in any of its spellings; whether the day exists is looked at when the job is read.
DATE: Schema = {"type": "string", "pattern": r"^\d[\dTW :.,-]{6,29}$"}
LINES: Schema = {"type": "array", "items": {"type": "string", "maxLength": job.LONGEST}, "maxItems": 200}
NULL: Schema = {"type": "null"}


def any_of(*schemas: Schema) -> Schema:
    """One of these shapes."""
    return {"anyOf": list(schemas)}


def ref(name: str) -> Schema:
    """A shape of ``$defs``."""
    return {"$ref": f"#/$defs/{name}"}


def shape(field: Field) -> Schema:
    """The shape of one field's value, without null, reference or the wrapping of an echoed value."""
    if isinstance(field, Quantity):
        return ref("number" if field.base == "1" and field.us != "%" else "amount")
    if isinstance(field, List):
        return {
            "type": "array",
            "items": any_of(ref("reference"), record(field.item)),
            "minItems": field.low,
            "maxItems": field.high,
        }
    if isinstance(field, Record):
        return record(field)
    if isinstance(field, Several):
        listed = {"type": "array", "items": {"enum": list(field.choices)}, "maxItems": field.most}
        return any_of(ref("text"), {**listed, "minItems": field.least} if field.least else listed)
    if isinstance(field, Choice):
        words: Schema = {"enum": list(field.choices)}
        return any_of(words, shape(field.free)) if field.free else words
    if isinstance(field, Count):
        whole: Schema = {"type": "integer", "minimum": field.low, "maximum": field.high}
        return any_of(whole, {"type": "string", "pattern": r"^\s*[+-]?\d{1,9}\s*$"}, ref("quantity"))
    if field.kind == "flag":
        return {"enum": [True, False, "true", "false"]}
    if field.kind == "date":
        return ref("date")
    return {"type": "string", "maxLength": 200}


def value(field: Field) -> Schema:
    """A field's value, null for left out, or the value as an answer echoes it."""
    inner = shape(field)
    if isinstance(field, (Quantity, Count)):
        return any_of(inner, NULL)
    echoed = {"type": "object", "properties": {"value": inner, "default": True}, "additionalProperties": False}
    return any_of(inner, {**echoed, "required": ["value"]}, NULL)


def record(field: Record) -> Schema:
    """An object with the declared members and no others."""
    out: Schema = {
        "type": "object",
        "properties": {
            name: value(member) if type(member) is Text else referable(member) for name, member in field.fields.items()
        },
        "additionalProperties": False,
    }
    if field.need:
        out["required"] = list(field.need)
    return out


def referable(field: Field) -> Schema:
    """A value or a reference to one."""
    return any_of(ref("reference"), *value(field)["anyOf"])


def entry(field: Field) -> Schema:
    """An input of a calculator in a job: a value or a reference, with its label."""
    return {"title": field.label, **referable(field)}


class Entries:
    """The inputs of all calculators, each shape once: in ``$defs`` under its name, with a number if there are more."""

    def __init__(self) -> None:
        self.defs: dict[str, Schema] = {}
        self.by_calculator: dict[str, dict[str, Schema]] = {}
        self.by_field: dict[str, list[Schema]] = {}
        for name in names():
            self.by_calculator[name] = {
                field: self.put(field, entry(declared)) for field, (declared, _) in declaration(name).inputs.items()
            }

    def put(self, field: str, schema: Schema) -> Schema:
        """A reference to the shape, which is kept if it is new."""
        listed = self.by_field.setdefault(field, [])
        for known in listed:
            if self.defs[known["$ref"].rpartition("/")[2]] == schema:
                return known
        name = f"in.{field}" + (f".{len(listed) + 1}" if listed else "")
        self.defs[name] = schema
        listed.append(ref(name))
        return listed[-1]

    def shared(self) -> Schema:
        """The house: every input that some calculator has; where two read it differently either shape will do."""
        return {field: refs[0] if len(refs) == 1 else any_of(*refs) for field, refs in sorted(self.by_field.items())}


def recorded() -> Schema:
    """What was measured on the job."""
    members = {
        "calculator": {"enum": list(names())},
        "field": {"type": "string"},
        "value": {"not": NULL},
        "when": ref("date"),
        "who": any_of({"type": "string", "maxLength": 200}, NULL),
    }
    needed = ["calculator", "field", "value", "when"]
    return {"type": "object", "properties": members, "required": needed, "additionalProperties": False}


def job_schema() -> Schema:
    """The whole schema."""
    entries = Entries()
    own = {
        name: {
            "type": "object",
            "title": declaration(name).title,
            "properties": fields,
            "additionalProperties": False,
        }
        for name, fields in entries.by_calculator.items()
    }
    members: Schema = {name: value(field) for name, field in job.MEMBERS.items()}
    members["underslab_job"] = {"type": "integer", "minimum": 0, "maximum": job.CURRENT, "title": "Version of the file"}
    members |= {
        "house": {
            "title": "What several calculators share, said once",
            "anyOf": [{"type": "object", "properties": entries.shared(), "additionalProperties": False}, NULL],
        },
        "inputs": {
            "title": "What only one calculator reads, or reads differently",
            "anyOf": [{"type": "object", "properties": own, "additionalProperties": False}, NULL],
        },
        "order": any_of({"type": "array", "items": {"enum": list(names())}, "maxItems": 200}, NULL),
        "recorded": any_of({"type": "array", "items": recorded(), "maxItems": 200}, NULL),
        "open": any_of(LINES, NULL),
        "notes": any_of(LINES, NULL),
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"underslab:job:{job.CURRENT}",
        "title": "Underslab job file",
        "description": "One house and what its calculators read. Made by scripts/make_job_schema.py.",
        "type": "object",
        "properties": members,
        "required": ["underslab_job"],
        "additionalProperties": False,
        "$defs": {
            "reference": REFERENCE,
            "text": TEXT,
            "quantity": QUANTITY,
            "amount": any_of(ref("text"), ref("quantity")),
            "number": any_of({"type": "number"}, ref("text"), ref("quantity")),
            "date": DATE,
            **entries.defs,
        },
    }


def text() -> str:
    """The schema as it stands in the file."""
    return json.dumps(job_schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    TARGET.write_text(text(), encoding="utf-8")
    print(f"{TARGET.relative_to(ROOT)}: {len(names())} calculators.")
