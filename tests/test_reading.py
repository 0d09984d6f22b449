"""Inputs are understood or refused whole: every problem at once, with the field, what was found, what is accepted."""

import json
import re

import pytest

from calculators import InputError, declaration, describe, names, solve
from calculators.declare import List, Quantity, Record
from calculators.describe import default_text
from calculators.reading import Reader
from cases import CASES

GOOD = {"flow": "60 cfm", "pipe_size": "4", "pipe_length": "33 ft"}
PUMP = {
    "pit_diameter": "18 in", "inflow": "18 gpm", "static_lift": "9 ft", "pipe_size": "1-1/2", "pipe_length": "30 ft",
}


def problems(name, inputs):
    """The problems of an input, by field."""
    with pytest.raises(InputError) as refused:
        solve(name, inputs)
    found = refused.value.problems
    for problem in found:
        assert set(problem) == {"field", "problem", "found", "accepts", "kind"}
        assert all(isinstance(value, str) for value in problem.values())
    return {problem["field"]: problem["kind"] for problem in found}


WRONG = [
    ({"flow": "60"}, "flow", "unit"), ({"flow": 60}, "flow", "unit"), ({"flow": "60 ft"}, "flow", "dimension"),
    ({"flow": "60 cfmm"}, "flow", "unit"), ({"flow": "-60 cfm"}, "flow", "bounds"), ({"flow": "1e9 cfm"}, "flow", "bounds"),
    ({"flow": "nan cfm"}, "flow", "type"), ({"flow": "60,5 cfm"}, "flow", "type"), ({"flow": True}, "flow", "type"), ({"flow": []}, "flow", "type"),
    ({"flow": {"value": "60", "unit": "cfm"}}, "flow", "type"), ({"flow": {"value": 60}}, "flow", "unit"),
    ({"flow": {"value": 60, "unit": 5}}, "flow", "unit"), ({"flow": {"value": 60, "unit": "cfm", "x": 1}}, "flow", "unknown-field"),
    ({"flow": {"value": 10**400, "unit": "cfm"}}, "flow", "bounds"), ({"flow": None}, "flow", "missing"), ({"flow": ""}, "flow", "type"),
    ({"pipe_size": "5"}, "pipe_size", "choice"), ({"pipe_size": 4}, "pipe_size", "type"), ({"pipe_size": None}, "pipe_size", "missing"),
    ({"inside_diameter": "4 in"}, "pipe_size", "conflict"), ({"colour": "red"}, "colour", "unknown-field"),
    ({"fittings": "elbow"}, "fittings", "type"), ({"fittings": [{"kind": "elbow-91"}]}, "fittings[0].kind", "choice"),
    ({"fittings": [{"count": 2}]}, "fittings[0].kind", "missing"), ({"fittings": [{"kind": "elbow-90", "count": 2.5}]}, "fittings[0].count", "type"),
    ({"fittings": [{"kind": "elbow-90", "count": -1}]}, "fittings[0].count", "bounds"),
    ({"fittings": [{"kind": "elbow-90", "size": "4"}]}, "fittings[0].size", "unknown-field"), ({"fittings": [5]}, "fittings[0]", "type"),
    ({"fittings": [{"kind": "elbow-90"}] * 51}, "fittings", "length"), ({"fittings": [{"kind": "other"}]}, "fittings[0].kind", "outside-model"),
    ({"relative_humidity": "50"}, "relative_humidity", "unit"), ({"relative_humidity": "120 %"}, "relative_humidity", "bounds"),
    ({"air_temperature": "200 degF"}, "air_temperature", "bounds"), ({"elevation": "20000 ft"}, "elevation", "bounds"),
]


@pytest.mark.parametrize(("change", "field", "kind"), WRONG, ids=lambda value: json.dumps(value)[:50] if isinstance(value, dict) else str(value))
def test_a_wrong_input_names_its_field(change, field, kind):
    """Each kind of wrong input is refused at its field with its kind."""
    assert problems("pipe-loss", GOOD | change) == {field: kind}


def test_all_problems_come_at_once():
    """Four wrong fields give four problems, in the order of the form."""
    found = problems("pipe-loss", {"flow": "60", "pipe_size": "5", "pipe_length": "33 gpm", "fittings": [{"kind": "elbo"}], "x": 1})
    assert found == {"x": "unknown-field", "flow": "unit", "pipe_size": "choice", "pipe_length": "dimension", "fittings[0].kind": "choice"}


def test_the_input_must_be_an_object():
    """A list or a text is one problem of the whole input."""
    assert problems("pipe-loss", [1]) == {"": "type"}
    assert problems("pipe-loss", "flow") == {"": "type"}


def test_an_empty_input_lists_what_is_missing():
    """{} names every field that must be given, groups by their first member."""
    assert problems("pipe-loss", {}) == {"flow": "missing", "pipe_size": "missing", "pipe_length": "missing"}
    assert set(problems("pump-sizing", {})) == {"pit_diameter", "inflow", "static_lift", "pipe_size", "pipe_length"}


def test_an_unknown_calculator_is_a_problem():
    """An unknown name lists the names that are known."""
    with pytest.raises(InputError) as refused:
        solve("pipe-lost", {})
    assert "pipe-loss" in refused.value.problems[0]["accepts"]


def test_the_answer_can_be_fed_back():
    """Echoed inputs, with their si and default members, give the same answer again."""
    first = solve("pipe-loss", {**GOOD, "fittings": [{"kind": "elbow-90", "count": 3}]}).as_dict("si")
    again = solve("pipe-loss", first["inputs"]).as_dict("si")
    for name, value in first["results"].items():
        if isinstance(value, dict):
            assert again["results"][name]["si"] == pytest.approx(value["si"], rel=1e-9)


def test_one_value_many_spellings():
    """A text, an object and a pint quantity are the same input."""
    from calculators.quantities import registry
    answers = {round(solve("pipe-loss", GOOD | {"flow": flow})["velocity"], 9) for flow in
               ("60 cfm", {"value": 60, "unit": "cfm"}, "60 ft^3/min", registry().Quantity(60, "foot**3/minute"))}
    assert len(answers) == 1
    assert problems("pipe-loss", GOOD | {"flow": registry().Quantity(60, "foot")}) == {"flow": "dimension"}


def test_defaults_are_marked_and_groups_step_back():
    """Filled-in values carry default; a group's default steps back when another member is given."""
    inputs = solve("pipe-loss", GOOD).as_dict()["inputs"]
    assert inputs["elevation"]["default"] is True
    assert "default" not in inputs["flow"]
    assert "inside_diameter" not in inputs


def test_describe_stays_a_function():
    """calculators.describe can be called again and again: its module never takes the function's place."""
    import calculators

    assert [calculators.describe(name)["name"] for name in names()] == list(names())


@pytest.mark.parametrize("name", names())
def test_describe_is_plain_data(name):
    """describe gives JSON with the members that programs rely on, and every default is accepted as an input."""
    entry = json.loads(json.dumps(describe(name), allow_nan=False))
    assert set(entry) == {"name", "title", "part", "summary", "inputs", "results", "needs"}
    assert entry["summary"].endswith(".")
    for item in entry["inputs"]:
        assert {"name", "label", "kind", "required"} <= set(item)
        if item["kind"] == "quantity":
            assert {"unit_us", "unit_si", "si_unit"} <= set(item)
    labels = [item["label"] for item in entry["inputs"]]
    assert len(labels) == len(set(labels)), "two inputs with the same label"


def amounts(fields: dict, given: dict, path: str = ""):
    """Every quantity with a default, inside lists and objects too: path, field, SI default."""
    for name, field in fields.items():
        inner = field.item if isinstance(field, List) else field
        if isinstance(inner, Record):
            yield from amounts(inner.fields, inner.defaults, f"{path}{name}.")
        if isinstance(field, Quantity) and isinstance(given.get(name), float):
            yield path + name, field, given[name]


@pytest.mark.parametrize("name", names())
def test_defaults_are_short_and_read_back(name):
    """A default is printed in at most four digits, in a unit that says it whole: read again it is the very value."""
    declared = declaration(name)
    fields = {n: field for n, (field, _) in declared.inputs.items()}
    for path, field, value in amounts(fields, {n: given for n, (_, given) in declared.inputs.items()}):
        text = default_text(field, value)
        reader = Reader()
        assert reader.quantity(field, text, path) == pytest.approx(value, rel=1e-9, abs=1e-15), (path, text)
        assert not reader.problems
        assert len(re.sub(r"\D", "", text.split()[0]).strip("0")) <= 4, (path, text)


def test_pump_pairs():
    """Half of a pair is missing its other half; two ways of one thing are a conflict."""
    assert problems("pump-sizing", {**PUMP, "inflow": None, "rise_height": "3 in"}) == {"rise_time": "missing"}
    assert problems("pump-sizing", {**PUMP, "rise_height": "3 in", "rise_time": "9 s"}) == {"inflow": "conflict"}
    assert problems("pump-sizing", {**PUMP, "pump_on_height": "16 in", "pump_off_height": "8 in", "switch_range": "5 in"}) == {"switch_range": "conflict"}
    assert problems("pump-sizing", {**PUMP, "pump_on_height": "6 in", "pump_off_height": "8 in"}) == {"pump_on_height": "conflict"}
    assert problems("pump-sizing", {**PUMP, "relief_hole": "drilled"}) == {"relief_hole_diameter": "missing"}


@pytest.mark.parametrize(
    ("calculator", "changes", "fields"),
    [
        (
            "tile-offset",
            {"wall_thickness": "16 in", "footing_width": "8 in", "tile_gap_min": "5 in", "tile_gap_max": "4 in"},
            {"footing_width", "tile_gap_max"},
        ),
        (
            "pump-sizing",
            {"inflow": None, "soil_texture": None, "rise_height": "3 in", "rise_time": None, "relief_hole": "drilled",
             "relief_hole_diameter": None, "pump_on_height": "6 in", "pump_off_height": "8 in"},
            {"rise_time", "relief_hole_diameter", "pump_on_height"},
        ),
        (
            "sump-sealing",
            {"lid_diameter": "8 in", "lid_gap": "5 in", "penetrations": [{"diameter": "4 in", "hole_diameter": "3 in"}]},
            {"lid_gap", "penetrations[0].diameter"},
        ),
        ("pipe-loss", {"fittings": [{"kind": "other"}, {"kind": "exit"}, {"kind": "other"}]}, {"fittings[0].kind", "fittings[2].kind"}),
    ],
)  # fmt: skip
def test_contradictions_come_together(calculator, changes, fields):
    """What contradicts itself in one input is refused at once, not one by one."""
    with pytest.raises(InputError) as refused:
        solve(calculator, CASES[calculator][0] | changes)
    assert {problem["field"] for problem in refused.value.problems} == fields
