"""What every answer of every calculator keeps: shape, ranges, sources, arithmetic that adds up, the page's own words.

The same comparison with the command line stands in ``test_command_line.py``, which needs a computer.
"""

import ast
import json
import re
from math import exp, floor, isfinite, log10, pi, sqrt
from typing import Any

import pytest

from calculators import describe, names, page, solve, tables
from calculators.declare import Quantity
from calculators.units import from_si, short, si, unit
from cases import CASES, all_cases, ids

WORDS = {"pi": pi, "sqrt": sqrt, "log10": log10, "exp": exp, "min": min, "max": max, "abs": abs}
SYSTEMS = ("us", "si")
SOLVED = [solve(name, inputs) for name, inputs in all_cases()]
EACH = pytest.mark.parametrize("result", SOLVED, ids=ids())
BOTH = pytest.mark.parametrize("system", SYSTEMS)


def quantities(data: Any) -> list[dict[str, Any]]:
    """All quantity objects inside plain data."""
    if isinstance(data, dict):
        if {"value", "unit", "si"} <= set(data) and not isinstance(data["value"], (dict, list)):
            return [data]
        return [found for inner in data.values() for found in quantities(inner)]
    if isinstance(data, list):
        return [found for inner in data for found in quantities(inner)]
    return []


def test_every_calculator_has_cases() -> None:
    """No calculator is left out of the tests that go through all of them."""
    assert set(CASES) == set(names())
    assert all(1 <= len(listed) <= 3 for listed in CASES.values())


@EACH
@BOTH
def test_an_answer_is_json_of_one_shape(result, system: str) -> None:
    """An answer has the agreed members, in JSON without NaN or infinity, and names its own calculator."""
    data = json.loads(json.dumps(result.as_dict(system), allow_nan=False))
    assert list(data) == [
        "calculator", "version", "units", "inputs", "results", "checks", "steps", "cautions", "not_looked_at", "plots", "sources",
    ]  # fmt: skip
    assert (data["calculator"], data["units"]) == (result.declaration.name, system)
    declared = describe(data["calculator"])
    assert list(data["results"]) == [field["name"] for field in declared["results"]]
    assert set(data["inputs"]) <= {field["name"] for field in declared["inputs"]}
    assert all(set(step) == {"title", "formula", "substituted", "result", "units", "source"} for step in data["steps"])
    assert data["steps"] or data["checks"]
    assert data["not_looked_at"]


@EACH
@BOTH
def test_value_and_si_are_the_same_quantity(result, system: str) -> None:
    """Every number stands with its unit and its SI value, and the two agree; ranges hold their value between them."""
    data = result.as_dict(system)
    fields = {**{n: f for n, (f, _) in result.declaration.inputs.items()}, **result.declaration.results}
    found = quantities([data["inputs"], data["results"], data["checks"]])
    assert found
    for one in found:
        assert isfinite(one["value"]) and isfinite(one["si"])
        apart = one["value"] - from_si(one["si"], one["unit"])
        is_difference = any(isinstance(f, Quantity) and f.difference for f in fields.values())
        assert apart == 0 or is_difference
        if "low" in one:
            assert one["low"] <= one["value"] <= one["high"]
            assert one["si_low"] <= one["si"] <= one["si_high"]
            assert one["range_from"].strip()


@EACH
def test_shown_units_are_the_declared_ones(result) -> None:
    """A result is shown in the unit that describe names for the system, whatever unit was typed."""
    for system in SYSTEMS:
        for name, value in result.as_dict(system)["results"].items():
            field = result.declaration.results[name]
            if isinstance(field, Quantity) and value is not None:
                assert value["unit"] == field.shown(system, result.values)
                assert unit(value["unit"]).dims == unit(field.base).dims


@EACH
def test_both_systems_tell_the_same(result) -> None:
    """US and SI answers differ in what is shown, never in SI values, verdicts or texts."""
    us, metric = result.as_dict("us"), result.as_dict("si")
    for part in ("inputs", "results", "checks"):
        assert [q["si"] for q in quantities(us[part])] == [q["si"] for q in quantities(metric[part])]
    assert [(c["id"], c["ok"], c["text"]) for c in us["checks"]] == [(c["id"], c["ok"], c["text"]) for c in metric["checks"]]
    assert us["cautions"] == metric["cautions"]
    assert us["sources"] == metric["sources"]


@EACH
def test_every_source_is_named_and_known(result) -> None:
    """Each step, check and caution names a source; all of them, and no others, stand in the answer's list."""
    data = result.as_dict()
    named = {part["source"] for kind in ("steps", "checks", "cautions") for part in data[kind]}
    named |= {field.source for field, _ in result.declaration.inputs.values() if field.source}
    assert "" not in named
    assert named == set(data["sources"])
    for id, entry in data["sources"].items():
        assert {"kind", "citation", "section", "edition"} <= set(entry)
        assert tables.source(id).items() <= entry.items()
    for check in data["checks"]:
        assert check.get("section", "") in (data["sources"][check["source"]]["section"] or "")


@EACH
def test_checks_say_what_was_compared(result) -> None:
    """A margin has the sign of its verdict; what was not judged says what is missing; ids are unique."""
    checks = result.as_dict()["checks"]
    assert len({check["id"] for check in checks}) == len(checks)
    for check in checks:
        assert check["text"].endswith(".")
        assert not re.search(r"\bsafe(ly)?\b|\bOK\b|\bpasses (the )?code\b", check["text"])
        if "margin" in check and check["ok"] is not None:
            assert check["ok"] == (check["margin"]["si"] >= -1e-9) or abs(check["margin"]["si"]) <= 1e-9
        if check["ok"] is None:
            assert check["needs"], check["id"]


@EACH
def test_a_hard_stop_stands_once_as_a_danger(result) -> None:
    """A hard stop is a failed check with stop true and exactly one danger caution in the same words."""
    data = result.as_dict()
    for check in data["checks"]:
        assert check.get("stop", False) in (False, True)
        if check.get("stop"):
            assert check["ok"] is False
            assert [c["level"] for c in data["cautions"] if c["text"] == check["text"]] == ["danger"]


# --- the printed arithmetic


def half_digit(value: float) -> float:
    """Half a unit of the fourth digit, which is as far as a printed number can be off."""
    return 0.5 * 10 ** (floor(log10(abs(value))) - 3) if value else 0.0


def numbers_of(step: dict[str, Any]) -> dict[str, float]:
    """The numbers that were put in for the symbols of a formula; the substituted text must be the formula with them."""
    right = step["formula"].partition("=")[2].strip()
    symbols = set(step["units"])
    pieces = re.split(r"([A-Za-z_]\w*)", right)
    pattern = "".join(r"(-?[\d.]+(?:e-?\d+)?|\b" + piece + r"\b)" if piece in symbols else re.escape(piece) for piece in pieces)
    match = re.fullmatch(pattern, step["substituted"])
    assert match, f"{step['substituted']} is not {right} with numbers put in"
    used = [piece for piece in pieces if piece in symbols]
    found: dict[str, float] = {}
    for symbol, text in zip(used, match.groups(), strict=True):
        if text != symbol:
            assert found.setdefault(symbol, float(text)) == float(text)
    return found


def evaluated(text: str, values: dict[str, float]) -> float:
    return float(eval(compile(ast.parse(text, mode="eval"), "<step>", "eval"), {"__builtins__": {}}, WORDS | values))


@EACH
@BOTH
def test_the_printed_numbers_give_the_printed_result(result, system: str) -> None:
    """Whoever types the substituted line into a calculator gets the printed result, as near as four digits allow."""
    for step in result.as_dict(system)["steps"]:
        symbol = step["formula"].partition("=")[0].strip()
        right = step["formula"].partition("=")[2].strip()
        printed = float(step["result"].split()[0])
        values = numbers_of(step) | {symbol: printed}
        got = evaluated(right, values)
        assert got == pytest.approx(evaluated(step["substituted"], {symbol: printed}), rel=1e-12)
        slack = half_digit(printed)
        for name, value in values.items():
            if name in right:
                off = [evaluated(right, values | {name: value + sign * half_digit(value)}) for sign in (-1, 1)]
                slack += max(abs(one - got) for one in off)
        assert abs(got - printed) <= slack * 1.01 + 1e-12, f"{step['title']}: {step['substituted']} is {got:g}, printed {printed:g}"


def test_a_wrong_number_in_a_step_would_be_seen() -> None:
    """The comparison of the printed arithmetic notices a result that is one percent off."""
    step = next(s for s in SOLVED[ids().index("tile-offset-1")].as_dict()["steps"] if s["title"] == "Weight of the core")
    value = evaluated(step["substituted"], {})
    assert value == pytest.approx(float(step["result"].split()[0]), rel=2e-3)
    assert value != pytest.approx(1.01 * float(step["result"].split()[0]), rel=2e-3)


@EACH
def test_plots_are_drawn_from_equal_series(result) -> None:
    """Each plot has at most 201 points a series, all finite, shown and SI values alike."""
    for plot in result.as_dict("si")["plots"]:
        axes = [plot["curves"]["x"], *plot["curves"]["series"]]
        assert len({len(axis["values"]) for axis in axes} | {len(axis["si"]) for axis in axes}) == 1
        assert 2 <= len(axes[0]["si"]) <= 201
        for axis in axes:
            assert all(isfinite(v) for v in axis["si"])
            assert axis["values"] == [from_si(v, axis["unit"]) for v in axis["si"]]


# --- the page


@EACH
@BOTH
def test_the_page_prints_the_numbers_of_the_answer(result, system: str) -> None:
    """The page's answer is Python's: each result and its range to three digits, each check, caution and step."""
    data = result.as_dict(system)
    inputs = dict(all_cases()[SOLVED.index(result)][1])
    request = json.dumps({"calculator": data["calculator"], "inputs": inputs, "units": system, "uid": "t"})
    first, later = json.loads(page.answer(request)), json.loads(page.rest(request))
    assert first["ok"] is later["ok"] is True, (first, later)
    printed = {text_of(a): numbers_in(text_of(b)) for a, b in re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", later["html"]["results"])}
    for name, value in data["results"].items():
        field = result.declaration.results[name]
        if isinstance(field, Quantity) and value is not None:
            wanted = [value["value"]] + ([value["low"], value["high"]] if value.get("low") != value.get("high") else [])
            assert same_numbers(printed[field.label], wanted), (name, printed[field.label], wanted)
    for check in data["checks"]:
        assert check["text"].casefold() in text_of(later["html"]["checks"]).casefold()
    for caution in data["cautions"]:
        assert caution["text"] in text_of(later["html"]["cautions"])
    assert later["html"]["steps"].count("<li") == len(data["steps"])
    main = data["results"][result.declaration.main]
    if isinstance(main, dict):
        assert same_numbers(numbers_in(text_of(first["html"]["now"]))[:1], [abs(main["value"])])


def numbers_in(text: str) -> list[float]:
    """The numbers of a text as a page prints them: 1,600 and \u221212 and 1.2 \u00d7 10\u207b\u2075."""
    raised = str.maketrans("\u207b\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079", "-0123456789")
    found = re.findall("(\u2212?)([\\d,]*\\d(?:\\.\\d+)?)(?: \u00d7 10([\u207b\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+))?", text)
    return [(-1 if sign else 1) * float(n.replace(",", "")) * 10.0 ** int(power.translate(raised) or 0) for sign, n, power in found]


def same_numbers(printed: list[float], wanted: list[float]) -> bool:
    """Whether the printed numbers start with the wanted ones, rounded to three digits or so; shares may stand in percent."""
    return any(
        len(printed) >= len(wanted)
        and all(p == pytest.approx(k * w, rel=0.006, abs=1e-4) for p, w in zip(printed, wanted, strict=False))
        for k in (1, 100)
    )


def text_of(html: str) -> str:
    """The text of an HTML fragment."""
    import html as entities

    return " ".join(entities.unescape(re.sub(r"<[^>]*>", "", html)).split())


@pytest.mark.parametrize(("name", "inputs"), all_cases(), ids=ids())
def test_echoed_inputs_give_the_same_answer(name: str, inputs: dict[str, Any]) -> None:
    """What an answer says it understood can be sent back, in either system, and gives the same results."""
    first = solve(name, inputs)
    for system in SYSTEMS:
        again = solve(name, first.as_dict(system)["inputs"])
        for a, b in zip(quantities(first.as_dict()["results"]), quantities(again.as_dict()["results"]), strict=True):
            assert a["si"] == pytest.approx(b["si"], rel=1e-8, abs=1e-12)
        assert [c.ok for c in first.work.checks] == [c.ok for c in again.work.checks]


def test_numbers_are_printed_as_people_write_them() -> None:
    """Four digits, no trailing zeros, powers of ten only far from one."""
    assert [short(v) for v in (0, 9.0, 33.333333, 101325.0, 1.8e-5, -0.25, 12345678.0)] == [
        "0", "9", "33.33", "101300", "1.8e-5", "-0.25", "1.235e7",
    ]  # fmt: skip
    assert si("9 ft") == pytest.approx(2.7432)
