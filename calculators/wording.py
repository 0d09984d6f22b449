"""How fields and read values are worded: their labels, what a field accepts, and values as the interfaces print them."""

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from .declare import Choice, Count, Declaration, Field, List, Other, Quantity, Record
from .units import TABLE, from_si, unit

# Money is the reader's own; no symbol is made up, and every interface prints it in these words.
MONEY = {
    "money": "(your currency)",
    "money/kWh": "per kWh",
    "money/therm": "per therm",
}


def currency_named(text: str) -> str:
    """Text for people: the unit's name for programs, "money", in the reader's words."""
    return re.sub(r"\bmoney\b", "your currency", text)


@cache
def accepted(field: Field) -> str:
    """What a field accepts, in words."""
    if isinstance(field, Quantity):
        units = unit_names(field)
        bounds = f" from {field.low} to {field.high}" if field.low and field.high else ""
        example = "a number" if field.us == "1" else f"a number with a unit ({', '.join(units)})"
        return example + bounds
    if isinstance(field, Choice):
        return ", ".join(field.choices)
    if isinstance(field, Count):
        return f"a whole number from {field.low} to {field.high}"
    if isinstance(field, Record):
        return f"{{{', '.join(field.fields)}}}"
    if isinstance(field, List):
        return f"[{{{', '.join(field.item.fields)}}}]"
    return {"flag": "true, false", "date": "a date such as 2026-11-25"}.get(field.kind, "text")


def label_of(declared: Declaration, path: str) -> str:
    """A path such as ``openings[0].vertical`` in the words of the form: "Openings 1, vertical distance"."""
    names = re.findall(r"[^.\[\]]+", path)
    if not names or names[0] not in declared.inputs:
        return path or "The input"
    field: Any = declared.inputs[names[0]][0]
    words = [field.label]
    for name in names[1:]:
        if name.isdecimal():
            words[-1] += f" {int(name) + 1}"
            field = getattr(field, "item", field)
            continue
        field = getattr(field, "fields", {}).get(name)
        if field is None:
            break
        words.append(field.label[:1].lower() + field.label[1:])
    return ", ".join(words)


def unit_names(field: Quantity) -> list[str]:
    """The units that a form offers for a quantity: the shown ones first, then a few more of the same dimension."""
    shown = [u for units in (field.us, field.si) for u in ([units] if isinstance(units, str) else units.values())]
    if field.us in ("1", "%") or field.base == "J/m3":  # an energy in air is no pressure, though their units agree
        return list(dict.fromkeys(shown))
    dims = unit(field.base).dims
    common = {
        "in",
        "ft",
        "mm",
        "m",
        "cfm",
        "gpm",
        "L/s",
        "in WC",
        "Pa",
        "ft2",
        "m2",
        "in2",
        "cm2",
        "degF",
        "degC",
        "s",
        "min",
        "h",
    }
    more = [name for name in TABLE if name in common and unit(name).dims == dims]
    return list(dict.fromkeys(shown + more + (unit_names(field.also) if field.also else [])))


def echo(field: Field, value: Any, system: str, values: Mapping[str, Any], is_default: bool = False) -> Any:
    """A read value as the interfaces print it: quantity objects in the shown unit, other things in ``{"value": ...}``."""
    shown = plain(field, value, system, values)
    result: dict[str, Any] = (
        shown if isinstance(shown, dict) and field.kind in ("quantity", "choice", "count") else {"value": shown}
    )
    if is_default:
        result["default"] = True
    return result


def plain(field: Field, value: Any, system: str, values: Mapping[str, Any]) -> Any:
    """A read value inside a list or object: numbers as quantity objects, the rest bare."""
    if value is None:
        return None
    if isinstance(field, Choice) and field.free is not None and isinstance(value, float):
        return plain(field.free, value, system, values)
    if isinstance(field, Quantity):
        if field.also is not None and isinstance(value, Other):
            return plain(field.also, float(value), system, values)
        shown = field.shown(system, values)
        return {"value": from_si(value, shown, difference=field.difference), "unit": shown, "si": value}
    if isinstance(field, Count):
        return {"value": value, "unit": "1", "si": value}
    if isinstance(field, Record):
        return {n: plain(f, value[n], system, value | {}) for n, f in field.fields.items() if value.get(n) is not None}
    if isinstance(field, List):
        return [plain(field.item, entry, system, values) for entry in value]
    return value
