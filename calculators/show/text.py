"""Answers as plain text for the command line."""

from collections.abc import Callable, Iterable
from typing import Any

from ..declare import PARTS, Checks, Map, Table, Texts
from ..result import Result
from ..tables import source
from ..units import short
from ..wording import MONEY, currency_named

VERDICTS = {True: "Meets", False: "Does not meet", None: "Not judged"}
LEVELS = ("danger", "warning", "note")
PLAN_COLUMNS = 9
PART_TITLES = dict(
    zip(
        PARTS,
        (
            "1 Before you go",
            "2 Read the building",
            "3 Choose the route",
            "4 Under the slab",
            "5 The sump",
            "6 Water and pump",
            "7 Pipe and fan",
            "8 Where it ends",
            "9 Air the house burns",
            "10 Prove it and hand it over",
            "Look up",
        ),
        strict=True,
    )
)


def number(value: Any) -> str:
    """A value of the JSON answer as people write it."""
    if value is None:
        return "not given"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict) and "unit" in value:
        unit = "" if value["unit"] == "1" else f" {MONEY.get(value['unit'], value['unit'])}"
        return f"{short(value['value'])}{unit}"
    if isinstance(value, dict):
        return ", ".join(f"{name} {number(inner)}" for name, inner in value.items())
    if isinstance(value, list):
        return "; ".join(number(item) for item in value) or "none"
    return short(value) if isinstance(value, float) else str(value)


def rows(field: Table | Texts, value: list[Any]) -> Iterable[str]:
    """A table or list of texts, a line each; checks inside a table stand among the other checks."""
    for row in value:
        if isinstance(field, Texts):
            yield row
        else:
            shown = {c: row[n] for n, c in field.fields.items() if not isinstance(c, Checks)}
            yield "; ".join(f"{c.label}: {number(v)}" for c, v in shown.items() if not isinstance(c, Texts))
            yield from (f"  {c.label}: {number(v)}" for c, v in shown.items() if isinstance(c, Texts))


def plan(value: dict[str, Any]) -> Iterable[str]:
    """A map as rows of figures, the far side first, thinned out to what fits on a line."""
    nx = value["nx"]
    floor = [j for j, row in enumerate(value["values"]) if any(v is not None for v in row)]
    ny = len(floor)
    columns = sorted({round(i * (nx - 1) / (PLAN_COLUMNS - 1)) for i in range(PLAN_COLUMNS)})
    kept = max(2, round(len(columns) * ny / nx))
    unit = value["x0"]["unit"]

    def at(first: str, k: int) -> str:
        return short(value[first]["value"] + k * value["step"]["value"], 3)

    if not floor:
        return
    for j in sorted({floor[round(i * (ny - 1) / (kept - 1))] for i in range(kept)}, reverse=True):
        row = [value["values"][j][i] for i in columns]
        yield f"    {at('y0', j):>6} {unit} " + "".join(f"{'' if v is None else short(v, 2):>8}" for v in row)
    yield f"    {'':>6} {unit} " + "".join(f"{at('x0', i):>8}" for i in columns)


def bounds(value: Any) -> str:
    """The honest range of a result in brackets, if it has one."""
    if not isinstance(value, dict) or "low" not in value:
        return ""
    return f"  ({short(value['low'])} to {short(value['high'])})"


def span(value: Any) -> str:
    """The honest range of a result and what made it."""
    return bounds(value).replace(")", f"; {value['range_from']})") if bounds(value) else ""


def cited(id: str, section: str = "") -> str:
    """A source in one line: its kind, the document, the section."""
    entry = source(id)
    where = f", {section}" if section else ""
    return f"{entry['kind']}: {entry['citation'].rstrip('.')}{where}"


def compared(check: dict[str, Any], names: Callable[[str], str] = str) -> str:
    """What was wanted, what was found, what is to spare, what is missing; ``names`` words the missing inputs."""
    words = [
        f"{word} {number(check[name])}" for name, word in (("required", "wanted"), ("found", "found")) if name in check
    ]
    if "margin" in check:
        left = check["margin"]
        amount = number({**left, "value": abs(left["value"])})
        both = isinstance(check.get("required"), dict) and isinstance(check.get("found"), dict)
        over = both and check["found"]["si"] > check["required"]["si"]
        words.append(f"{amount} to spare" if left["si"] >= 0 else f"{amount} {'too much' if over else 'short'}")
    if check.get("needs"):
        words.append("missing: " + ", ".join(names(need) for need in check["needs"]))
    return ", ".join(words)


def check_line(check: dict[str, Any]) -> Iterable[str]:
    """A check in two or three lines."""
    stop = "STOP. " if check.get("stop") else ""
    yield f"  {stop}{VERDICTS[check['ok']]}. {check['text']}"
    if compared(check):
        yield "    " + compared(check)
    yield "    " + cited(check["source"], check.get("section", ""))


def ordered_checks(checks: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Hard stops first, then what does not meet, then what meets, then what was not judged."""
    return sorted(checks, key=lambda c: (not c.get("stop"), {False: 0, True: 1, None: 2}[c["ok"]]))


def answer(result: Result, system: str, *, steps: bool = True) -> str:
    """A whole answer: results, what was compared, cautions, arithmetic, sources."""
    data = result.as_dict(system)
    declared = result.declaration
    lines = [declared.title, "=" * len(declared.title), "", "Your numbers"]
    width = max(len(field.label) for field in (*declared.results.values(), *(f for f, _ in declared.inputs.values())))
    for name, value in data["inputs"].items():
        mark = "  (default)" if value.get("default") else ""
        shown = value["value"] if "unit" not in value else value
        lines.append(f"  {declared.inputs[name][0].label:<{width}}  {number(shown)}{mark}")
    lines += ["", "Results"]
    for name, value in data["results"].items():
        field = declared.results[name]
        if isinstance(field, Map) and value:
            lines += [f"  {field.label}, {value['unit']}", *plan(value)]
        elif isinstance(field, (Table, Texts)) and value:
            lines += [f"  {field.label}", *(f"    {'  ' if row[:1] == ' ' else '- '}{row}" for row in rows(field, value))]
        else:
            lines.append(f"  {field.label:<{width}}  {number(value)}{span(value)}")
    if data["checks"]:
        lines += ["", "What was compared"]
        for check in ordered_checks(data["checks"]):
            lines += check_line(check)
    if data["cautions"]:
        lines += ["", "What can hurt you"]
        for caution in sorted(data["cautions"], key=lambda c: LEVELS.index(c["level"])):
            lines.append(f"  {caution['level'].upper()}: {caution['text']}")
    if steps and data["steps"]:
        lines += ["", "How it was worked out"]
        for i, step in enumerate(data["steps"], 1):
            left = step["formula"].partition("=")[0].strip()
            units = ", ".join(f"{name} in {currency_named(unit)}" for name, unit in step["units"].items() if unit != "1")
            lines += [
                f"  {i} {step['title']}",
                f"    {step['formula']}" + (f"   ({units})" if units else ""),
                f"    {left} = {step['substituted']} = {step['result']}",
                f"    {cited(step['source'])}",
            ]
    if data["not_looked_at"]:
        lines += ["", "Not looked at", *(f"  - {text}" for text in data["not_looked_at"])]
    lines += ["", "Local code and licensed practice come first. This compares numbers; it does not approve work."]
    return "\n".join(lines) + "\n"


def problems(found: list[dict[str, Any]]) -> str:
    """The problems of an input, one a line."""
    lines = []
    for item in found:
        line = f"{item['field'] or 'input'}: {item['problem']}"
        if item["found"]:
            line += f"; found {item['found']!r}"
        if item["accepts"]:
            line += f"; accepted: {item['accepts']}"
        lines.append(line)
    return "\n".join(lines) + "\n"


def catalogue(entries: list[dict[str, Any]]) -> str:
    """All calculators, one line each, grouped by the part of the job."""
    width = max(len(entry["name"]) for entry in entries)
    lines = []
    for part in PARTS:
        mine = [entry for entry in entries if entry["part"] == part]
        if mine:
            lines += [PART_TITLES[part], *(f"  {entry['name']:<{width}}  {entry['summary']}" for entry in mine)]
    return "\n".join(lines) + "\n"


def description(entry: dict[str, Any]) -> str:
    """A calculator's inputs and results."""
    lines = [f"{entry['name']}: {entry['title']}", entry["summary"], "", "Inputs"]
    for item in entry["inputs"]:
        need = {True: "must be given", False: ""}.get(item["required"], str(item["required"]))
        default = f"default {item['default']}" if "default" in item and item["default"] not in ([], None) else ""
        notes = ", ".join(note for note in (need, default) if note)
        lines.append(f"  {item['name']:<28} {item['label']}" + (f"  [{notes}]" if notes else ""))
        lines.append(f"  {'':<28}   {item['accepts']}")
    lines += ["", "Results"]
    lines += [f"  {item['name']:<28} {item['label']}" for item in entry["results"]]
    return "\n".join(lines) + "\n"
