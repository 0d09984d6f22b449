"""How it was worked out, as HTML: results, steps, what was left out, sources."""

from typing import Any

from ..declare import Amounts, Checks, Curves, Flag, Map, Quantity, Record, Table, Texts
from ..result import VERSION, Result, step_units
from ..units import from_si, short
from ..wording import MONEY, currency_named
from ..work import Step
from . import mathml
from .answer import printed, source_line
from .figures import figure, quantity, unit_text, words
from .markup import Markup, el, join
from .phrases import choice

LONG_CELL = 100  # characters; a longer one makes its table a list of blocks
MANY_ROWS = 12


def results(result: Result, system: str) -> Markup:
    """All results with their ranges; what cannot be given is left out."""
    rows, tables = [], []
    for name, field in result.declaration.results.items():
        value = printed(result, name, system)
        if value is None or isinstance(field, (Curves, Map)):
            continue
        if isinstance(field, Table):
            tables.append(_blocks(field, value) if _wordy(field, value) else _table(field, value))
            continue
        rows.append(el("div", el("dt", field.label), el("dd", *_result(field, value))))
    return join((el("dl", *rows, class_="found") if rows else None, *tables))


def _result(field: Any, value: Any) -> list[Any]:
    if isinstance(field, Texts):
        return [el("ul", *(el("li", text) for text in value), class_="plain")] if value else ["none"]
    if isinstance(field, Record):
        members = ((member, value[name]) for name, member in field.fields.items() if value[name] is not None)
        said: list[Any] = []
        for member, one in members:
            said += [", " if said else "", f"{member.label[:1].lower()}{member.label[1:]} ", *_result(member, one)]
        return said
    if isinstance(field, Amounts):
        parts: list[Any] = []
        for item in value:
            parts += [", " if parts else "", quantity(item["value"], item["unit"])]
        return parts or ["none"]
    if isinstance(field, Quantity) or (isinstance(value, dict) and "unit" in value):
        shown: list[Any] = [quantity(value["value"], value["unit"])]
        if "low" in value and value["low"] != value["high"]:
            shown += [" ", el("span", f"{figure(value['low'])} to {figure(value['high'])}", class_="between")]
        return shown
    if isinstance(field, Flag):
        return [words(value)]
    if isinstance(value, list):
        return [", ".join(choice(str(words(item))) for item in value) or "none"]
    return [value if " " in value else choice(words(value))]


def _wordy(field: Table, rows: list[dict[str, Any]]) -> bool:
    """Whether cells hold lists or whole sentences, which columns have no room for."""
    if any(isinstance(column, Texts) for column in field.fields.values()):
        return True
    return any(isinstance(value, str) and len(value) > LONG_CELL for row in rows for value in row.values())


def _blocks(field: Table, rows: list[dict[str, Any]]) -> Markup | None:
    """A table of words, a block a row, so that it can be read on a phone; many rows are folded away."""
    columns = [(n, column) for n, column in field.fields.items() if not isinstance(column, Checks)]
    blocks = [
        el(
            "dl",
            *(
                el("div", el("dt", column.label), el("dd", *_in_block(column, row[name])))
                for name, column in columns
                if row[name] is not None and row[name] != []
            ),
            class_="found block",
        )
        for row in rows
    ]
    if len(blocks) > MANY_ROWS:
        return el("details", el("summary", f"{field.label} ({len(blocks)})"), *blocks, class_="more")
    return join((el("h3", field.label), *blocks)) if blocks else None


def _in_block(column: Any, value: Any) -> list[Any]:
    return ["; ".join(value)] if isinstance(column, Texts) else _result(column, value)


def _table(field: Table, rows: list[dict[str, Any]]) -> Markup | None:
    if not rows:
        return None
    columns = {name: column for name, column in field.fields.items() if not isinstance(column, Checks)}
    head = el("tr", *(el("th", column.label, scope="col") for column in columns.values()))
    body = [
        el(
            "tr",
            *(
                el("td", *(_result(column, row[name]) if row[name] is not None else ["–"]))
                for name, column in columns.items()
            ),
        )
        for row in rows
    ]
    table = el("table", el("caption", field.label), el("thead", head), el("tbody", *body), class_="plain")
    return el("div", table, class_="table", tabindex="0", role="region", aria_label=field.label)


def steps(result: Result, system: str) -> Markup | None:
    """Every line of the arithmetic: formula, numbers put in, result, units, source."""
    items = [step_line(step, system) for step in result.work.steps]
    return el("ol", *items, class_="steps") if items else None


def step_line(step: Step, system: str) -> Markup:
    equation = step.function.formula
    units = step_units(step, system)
    numbers = {name: short(from_si(value, units[name])) for name, value in step.arguments.items()}
    unit = units[equation.symbol]
    value = short(from_si(step.value, unit))
    numbers[equation.symbol] = value  # an implicit equation has its result on both sides
    measured = ", ".join(
        f"{_spoken(name)} in {_unit_named(units[name])}"
        for name in (equation.symbol, *step.arguments)
        if units[name] not in ("1", "")
    )
    return el(
        "li",
        el("h3", step.title),
        mathml.equation(equation.text),
        mathml.substituted(equation.text, numbers),
        el(
            "p",
            "= ",
            el("span", el("span", mathml.powers(value), class_="n"), f" {unit_text(unit)}".rstrip(), class_="q"),
            class_="res",
        ),
        el("p", measured, class_="small units") if measured else None,
        source_line(equation.source),
    )


def _unit_named(name: str) -> str:
    if name in MONEY:
        return currency_named(name)
    return unit_text(name).rstrip(".") if name != "in" else "in."


def _spoken(name: str) -> str:
    base, _, below = name.partition("_")
    base = f"Δ{mathml.CHANGES[base]}" if base in mathml.CHANGES else mathml.GREEK.get(base, base)
    return f"{base} {below.replace('_', ' ')}" if below else base


def left_out(result: Result) -> Markup | None:
    """What this answer did not look at."""
    return (
        el("ul", *(el("li", text) for text in result.work.left_out), class_="plain") if result.work.left_out else None
    )


def sources(result: Result) -> Markup:
    """Every source that this answer names, in full."""
    items = []
    for id, entry in result.sources().items():
        if id == entry["kind"].replace(" ", "-"):
            continue
        more = "; ".join(entry[key] for key in ("section", "edition", "note") if entry.get(key))
        mark = ", secondary" if entry.get("mark") == "secondary" else ""
        items.append(
            el(
                "li",
                el("b", f"{entry['kind']}{mark}: "),
                entry["citation"],
                f" ({more})" if more else None,
                class_="small",
            )
        )
    return (
        el("ul", *items, class_="plain")
        if items
        else el("p", "None beyond the marks beside the lines.", class_="small")
    )


def stamp(result: Result) -> Markup:
    """Which calculator, which version, and what comes first."""
    return el(
        "p",
        f"{result.declaration.title}, version {VERSION}. Local code and licensed practice come first: "
        "this compares numbers, it approves no work.",
        class_="stamp",
    )
