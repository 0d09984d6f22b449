"""A declaration as plain data, for programs that build a form or check an input."""

from typing import Any

from .declare import REQUIRED, Amounts, Choice, Count, Declaration, Field, List, Map, Quantity, Record, Several, Table
from .units import from_si
from .wording import accepted, unit_names


def description(declared: Declaration) -> dict[str, Any]:
    """Name, title, part, summary, inputs, results and what must be given."""
    return {
        "name": declared.name,
        "title": declared.title,
        "part": declared.part,
        "summary": declared.summary,
        "inputs": [_input(declared, name) for name in declared.inputs],
        "results": [field(result, name) for name, result in declared.results.items()],
        "needs": needs(declared),
    }


def needs(declared: Declaration) -> list[list[str]]:
    """What must be given: each entry lists inputs of which exactly one is needed."""
    single = [[name] for name in declared.inputs if declared.required(name) is True]
    return single + [list(members) for members in declared.one_of.values()]


def _input(declared: Declaration, name: str) -> dict[str, Any]:
    item, default = declared.inputs[name]
    out = field(item, name)
    out["required"] = declared.required(name)
    if default is not REQUIRED and default is not None:
        out["default"] = default_text(item, default)
    out["accepts"] = accepted(item)
    return out


def default_text(item: Field, value: Any) -> Any:
    """A default as it would be typed."""
    if isinstance(item, Choice) and isinstance(value, float) and item.free:
        return default_text(item.free, value)
    if isinstance(item, Quantity):
        return _short_amount(item, value)
    return value


def _short_amount(item: Quantity, value: float) -> str:
    """The amount in the first unit of the field that says it whole in four digits; else in the first unit, to 12."""
    first = item.shown("us", {})
    for shown in dict.fromkeys((first, item.shown("si", {}), *unit_names(item))):
        number = from_si(value, shown, difference=item.difference)
        if float(f"{number:.4g}") == number:
            return f"{number:.4g} {shown}".removesuffix(" 1")
    return f"{from_si(value, first, difference=item.difference):.12g} {first}".removesuffix(" 1")


def field(item: Field, name: str) -> dict[str, Any]:
    """A field as plain data: kind, label, units, bounds, choices, members."""
    out: dict[str, Any] = {"name": name, "label": item.label, "kind": item.kind}
    if isinstance(item, Quantity):
        out |= {"unit_us": item.us, "unit_si": item.si, "si_unit": item.base}
        if item.by:
            out["unit_by"] = item.by
        if item.difference:
            out["difference"] = True
        if item.also:
            out["or"] = field(item.also, name)
        if item.low is not None:
            out["low"] = item.low
        if item.high is not None:
            out["high"] = item.high
    if isinstance(item, Count):
        out |= {"unit_us": "1", "unit_si": "1", "si_unit": "1", "low": str(item.low), "high": str(item.high)}
    if isinstance(item, Choice):
        out["choices"] = list(item.choices)
        if isinstance(item, Several):
            out["several"] = True
        if item.free:
            out["or"] = field(item.free, name)
    if isinstance(item, List):
        out |= {"low": str(item.low), "high": str(item.high), "item": _members(item.item)}
    if isinstance(item, Record):
        out["item"] = _members(item)
    if isinstance(item, Table):
        out["item"] = [field(member, n) for n, member in item.fields.items()]
    if isinstance(item, (Amounts, Map)):
        out["item"] = [field(item.item, "value")]
    if isinstance(item, Map):
        out["item"] += [field(item.place, name) for name in ("x0", "y0", "step")]
    for extra in ("help", "source"):
        if getattr(item, extra):
            out[extra] = getattr(item, extra)
    return out


def _members(record: Record) -> list[dict[str, Any]]:
    members = []
    for name, member in record.fields.items():
        out = field(member, name)
        group = next((i for i, names in enumerate(record.either) if name in names), None)
        out["required"] = True if name in record.need else f"one-of:way-{group + 1}" if group is not None else False
        for listed, names in record.one_of.items():
            if name in names:
                out["required"] = f"one-of:{listed}"
        if record.defaults.get(name) is not None:
            out["default"] = default_text(member, record.defaults[name])
        members.append(out)
    return members
