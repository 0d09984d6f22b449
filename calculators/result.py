"""The answer of a calculator: SI values inside, written out in US or SI units on request."""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from .declare import Amounts, Checks, Curves, Declaration, Map, Quantity, Record, Table
from .span import Span
from .tables import source
from .units import from_si, short
from .wording import MONEY, echo, plain
from .work import Check, Step, Work

VERSION = "0.1.0"


class Result:
    """What ``solve`` gives: ``values`` (read inputs, SI), ``outputs`` (results, SI), ``work`` (steps, checks, cautions)."""

    def __init__(
        self, declaration: Declaration, values: dict[str, Any], defaults: set[str], outputs: dict[str, Any], work: Work
    ) -> None:
        self.declaration, self.outputs, self.work = declaration, outputs, work
        self.values, self.defaults = {**values, **work.filled}, {*defaults, *work.filled}

    def __getitem__(self, name: str) -> Any:
        """A result in SI, without its range."""
        value = self.outputs[name]
        return value.value if isinstance(value, Span) else value

    def quantity(self, name: str, system: str = "us") -> Any:
        """A result as a pint quantity (natively; needs pint)."""
        from .quantities import to_quantity

        field = self.declaration.results[name]
        if not isinstance(field, Quantity) or self[name] is None:
            raise KeyError(f"{name} is no quantity here")
        return to_quantity(self[name], field.base, field.shown(system, self.values), difference=field.difference)

    def as_dict(self, system: str = "us") -> dict[str, Any]:
        """The whole answer as plain data, in the units of ``system`` (us or si)."""
        return {
            "calculator": self.declaration.name,
            "version": VERSION,
            "units": system,
            "inputs": self.inputs(system),
            "results": self.results(system),
            "checks": self.checks(system),
            "steps": [printed_step(step, system) for step in self.work.steps],
            "cautions": [{"level": c.level, "text": c.text, "source": c.source} for c in self.work.cautions],
            "not_looked_at": list(self.work.left_out),
            "plots": self.plots(system),
            "sources": self.sources(),
        }

    def inputs(self, system: str) -> dict[str, Any]:
        """The inputs as understood; those filled in carry ``default``."""
        fields = self.declaration.inputs
        return {
            name: echo(fields[name][0], value, system, self.values, name in self.defaults)
            for name, value in self.values.items()
            if value is not None
        }

    def results(self, system: str) -> dict[str, Any]:
        """All declared results; None where one cannot be given."""
        return {name: self.result(name, system) for name in self.declaration.results}

    def result(self, name: str, system: str) -> Any:
        """One result as the interfaces print it."""
        return written(self.declaration.results[name], self.outputs.get(name), system, self.values)

    def number(self, name: str, system: str) -> Any:
        """As ``result``, but a number without its range, which may take time."""
        value = self[name] if self.outputs.get(name) is not None else None
        return written(self.declaration.results[name], value, system, self.values)

    def checks(self, system: str) -> list[dict[str, Any]]:
        """The checks in the order of the work."""
        return [written_check(check, system) for check in self.work.checks]

    def plots(self, system: str) -> list[dict[str, Any]]:
        """The plots with their series in shown units and SI."""
        plots = []
        for plot in self.work.plots:
            curves: dict[str, Any] = {"x": _axis(plot.x, system), "series": [_axis(s, system) for s in plot.series]}
            if plot.point:
                axes = (plot.x, plot.series[0])
                curves["point"] = {
                    axis: amount(v, pair[1], system) for axis, v, pair in zip("xy", plot.point, axes, strict=True)
                }
            plots.append({"name": plot.name, "title": plot.title, "curves": curves})
        return plots

    def sources(self) -> dict[str, Any]:
        """Every source that this answer names, with the sections that its checks name; None where there is none."""
        used = [step.function.formula.source for step in self.work.steps] + [c.source for c in self.work.checks]
        used += [c.source for c in self.work.cautions] + [f.source for f, _ in self.declaration.inputs.values()]
        sections: dict[str, dict[str, None]] = {}
        for check in self.work.checks:
            if check.section:
                sections.setdefault(check.source, {})[check.section] = None
        bare = {"section": None, "edition": None}
        named = {id: {"section": "; ".join(found)} for id, found in sections.items()}
        return {id: {**bare, **named.get(id, {}), **source(id)} for id in dict.fromkeys(used) if id}


def written(field: Any, value: Any, system: str, values: Mapping[str, Any]) -> Any:
    """A result value by its field: quantity objects, lists and tables of them, or plain values."""
    if value is None:
        return None
    if isinstance(field, Table):
        return [{n: written(f, row.get(n), system, values) for n, f in field.fields.items()} for row in value]
    if isinstance(field, Checks):
        return [written_check(check, system) for check in value]
    if isinstance(field, Amounts):
        return [written(field.item, item, system, values) for item in value]
    if isinstance(field, Record):
        return {n: written(f, value.get(n), system, values) for n, f in field.fields.items()}
    if isinstance(field, Map):
        return written_map(field, value, system)
    if isinstance(field, Curves) or not isinstance(field, Quantity):
        return plain(field, value, system, values)
    span = value if isinstance(value, Span) else None
    number = span.value if span else value
    shown = field.shown(system, values)
    out = {"value": from_si(number, shown, difference=field.difference), "unit": shown, "si": number}
    if span:
        out |= {
            "low": from_si(span.low, shown),
            "high": from_si(span.high, shown),
            "si_low": span.low,
            "si_high": span.high,
            "range_from": span.why,
        }
    return out


def written_map(field: Map, value: Any, system: str) -> dict[str, Any]:
    """A grid over a plan: place of the first value, step, and rows upward in shown units and SI, null off the plan."""
    grid = value() if callable(value) else value
    shown = field.item.shown(system, {})
    placed = {name: written(field.place, getattr(grid, name), system, {}) for name in ("x0", "y0", "step")}
    return {
        **placed,
        "nx": len(grid.values[0]),
        "ny": len(grid.values),
        "unit": shown,
        "values": [[None if v is None else from_si(v, shown) for v in row] for row in grid.values],
        "si": [list(row) for row in grid.values],
    }


def amount(value: float, pair: str, system: str) -> dict[str, Any]:
    """A quantity object for an SI value shown in a ``us|si`` pair of units."""
    shown = unit_of(pair, system)
    return {"value": from_si(value, shown), "unit": shown, "si": value}


def unit_of(pair: str, system: str) -> str:
    """The unit of a ``us|si`` pair for a system."""
    return pair.split("|")[0 if system == "us" else -1]


def _axis(axis: tuple[str, str, Any], system: str) -> dict[str, Any]:
    name, pair, values = axis
    shown = unit_of(pair, system)
    return {"name": name, "unit": shown, "values": [from_si(v, shown) for v in values], "si": list(values)}


def written_check(check: Check, system: str) -> dict[str, Any]:
    """A check as data: numbers as quantity objects, the rest plain."""
    out: dict[str, Any] = {"id": check.id, "ok": check.ok, "text": check.text}
    for name in ("required", "found", "margin"):
        value = getattr(check, name)
        if value is not None:
            is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
            out[name] = amount(value, check.unit, system) if is_number else value
    if check.needs:
        out["needs"] = list(check.needs)
    out["source"] = check.source
    if check.section:
        out["section"] = check.section
    if check.stop:
        out["stop"] = True
    return out


def printed_step(step: Step, system: str) -> dict[str, Any]:
    """A step as text: the formula, the same with numbers, the result with its unit."""
    equation = step.function.formula
    units = step_units(step, system)
    numbers = {name: short(from_si(value, units[name])) for name, value in step.arguments.items()}
    substituted = _names(equation.right).sub(lambda m: numbers.get(m[0], m[0]), equation.right)
    shown = units[equation.symbol]
    return {
        "title": step.title,
        "formula": equation.text,
        "substituted": substituted,
        "result": f"{short(from_si(step.value, shown))} {MONEY.get(shown, shown)}".removesuffix(" 1"),
        "units": units,
        "source": equation.source,
    }


def step_units(step: Step, system: str) -> dict[str, str]:
    """The unit of each symbol of a step, as printed in a system."""
    own = step.us if system == "us" else step.si
    return {**step.function.formula.units, **own}


@lru_cache(maxsize=256)
def _names(text: str) -> re.Pattern[str]:
    names = sorted(set(re.findall(r"[A-Za-z_]\w*", text)), key=len, reverse=True)
    return re.compile(r"\b(" + "|".join(names or ["$^"]) + r")\b")
