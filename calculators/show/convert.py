"""The numbers of a form in the other system of units: every value that can be read, by its path."""

from typing import Any

from ..declare import Choice, Declaration, Field, List, Other, Quantity, Record
from ..reading import ABSENT, Reader
from ..units import from_si
from .figures import typed


def shown(declared: Declaration, inputs: dict[str, Any], system: str) -> dict[str, list[str]]:
    """Text and unit for each quantity that was read; what was not read is left out and stays as it was typed."""
    found: dict[str, list[str]] = {}
    choices = {name: value for name, value in inputs.items() if isinstance(value, str)}
    for name, (field, _) in declared.inputs.items():
        if inputs.get(name) is not None:
            _walk(field, inputs[name], name, system, choices, found)
    return found


def _walk(field: Field, raw: Any, path: str, system: str, choices: dict[str, Any], found: dict[str, list[str]]) -> None:
    if isinstance(field, Choice) and field.free is not None and raw not in field.choices:
        field = field.free
    if isinstance(field, Quantity):
        value = Reader().quantity(field, raw, path)
        if value is not ABSENT:
            if field.also is not None and isinstance(value, Other):
                field = field.also
            unit = field.shown(system, choices)
            found[path] = [typed(from_si(value, unit, difference=field.difference)), unit]
    elif isinstance(field, Record) and isinstance(raw, dict):
        for name, member in field.fields.items():
            if raw.get(name) is not None:
                _walk(member, raw[name], f"{path}.{name}", system, choices, found)
    elif isinstance(field, List) and isinstance(raw, list):
        for i, entry in enumerate(raw[: field.high]):
            _walk(field.item, entry, f"{path}[{i}]", system, choices, found)
