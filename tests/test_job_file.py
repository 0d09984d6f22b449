"""The job file: what is refused and where, the command line, and the schema in step with the declarations."""

import io
import json
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from calculators import InputError, job, names, solve
from calculators.__main__ import main
from calculators.show import sheet
from job_files import DATA, LANE, LINE, PIPE, SMALL, changed, problems, small
from scripts import make_job_schema

SCHEMA = jsonschema.Draft202012Validator(json.loads((DATA / "job.schema.json").read_text("utf-8")))


# --- the file itself


def test_versions() -> None:
    """A lower version opens with a note that names both; a higher one is an error that names both."""
    done = job.run({**SMALL, "underslab_job": 0})
    assert re.search(r"version 0\b.*version 1\b", done.notes[-1])
    with pytest.raises(InputError) as caught:
        job.run({**SMALL, "underslab_job": 2})
    (one,) = caught.value.problems
    assert one["field"] == "underslab_job"
    assert "version 2" in one["problem"]
    assert "version 1" in one["problem"]
    assert job.run(SMALL).notes == []


RECORDED = {"calculator": "pipe-loss", "field": "velocity", "value": "600 ft/min", "when": "2026-11-18"}
# Each is refused by the schema and by the job alike: what is put where, the field and the kind of the problem.
WRONG: list[tuple[str, Any, str, str]] = [
    ("colour", "red", "colour", "unknown-field"),
    ("house.color", "red", "house.color", "unknown-field"),
    ("inputs.pipe-lost", {}, "inputs.pipe-lost", "choice"),
    ("inputs.pipe-loss.colour", "red", "inputs.pipe-loss.colour", "unknown-field"),
    ("inputs.pipe-loss.fittings", [{"kind": "elbow-90", "size": "4"}], "inputs.pipe-loss.fittings[0].size", "unknown-field"),
    ("underslab_job", None, "underslab_job", "missing"), ("underslab_job", "one", "underslab_job", "type"),
    ("underslab_job", 2, "underslab_job", "bounds"), ("underslab_job", 1.5, "underslab_job", "type"), ("underslab_job", -1, "underslab_job", "bounds"),
    ("title", 5, "title", "type"), ("title", "x" * 201, "title", "length"), ("invented", "yes", "invented", "type"), ("invented", 1, "invented", "type"),
    ("units", "metric", "units", "choice"), ("units", ["us"], "units", "type"),
    ("started", "yesterday", "started", "type"), ("started", 20261120, "started", "type"),
    ("rules", ["us-xx"], "rules", "choice"), ("rules", ["us-pa", "irc-f", "us-mn"], "rules", "length"), ("rules", 5, "rules", "type"),
    ("house", [], "house", "type"), ("house", False, "house", "type"), ("inputs", "pipe-loss", "inputs", "type"), ("inputs", 0, "inputs", "type"),
    ("inputs.pipe-loss", None, "inputs.pipe-loss", "type"), ("inputs.pipe-loss", [], "inputs.pipe-loss", "type"),
    ("order", "pipe-loss", "order", "type"), ("order", {}, "order", "type"), ("order", ["pipe-lost"], "order[0]", "choice"), ("order", [{}], "order[0]", "choice"),
    ("open", "Ask.", "open", "type"), ("open", [5], "open[0]", "type"), ("open", ["x" * 2001], "open[0]", "length"), ("open", ["x"] * 201, "open", "type"),
    ("notes", {"a": 1}, "notes", "type"), ("notes", [None], "notes[0]", "type"), ("notes", "", "notes", "type"),
    ("inputs.pipe-loss.flow", 60, "inputs.pipe-loss.flow", "unit"), ("inputs.pipe-loss.flow", True, "inputs.pipe-loss.flow", "type"),
    ("inputs.pipe-loss.flow", {"value": "60", "unit": "cfm"}, "inputs.pipe-loss.flow", "type"), ("inputs.pipe-loss.flow", "", "inputs.pipe-loss.flow", "type"),
    ("inputs.pipe-loss.pipe_size", 4, "inputs.pipe-loss.pipe_size", "type"), ("inputs.pipe-loss.pipe_size", "5", "inputs.pipe-loss.pipe_size", "choice"),
    ("inputs.pipe-loss.fittings", {"kind": "elbow-90"}, "inputs.pipe-loss.fittings", "type"),
    ("inputs.pipe-loss.fittings", [{"kind": "elbow-90", "count": 201}], "inputs.pipe-loss.fittings[0].count", "bounds"),
    ("inputs.pipe-loss.fittings", [{"kind": "elbow-90"}] * 51, "inputs.pipe-loss.fittings", "length"),
    ("inputs.pipe-loss.flow", "@pipe-loss", "inputs.pipe-loss.flow", "choice"),
    ("recorded", RECORDED, "recorded", "type"), ("recorded", ["x"], "recorded[0]", "type"),
    ("recorded", [{**RECORDED, "calculator": "pipe-lost"}], "recorded[0].calculator", "choice"),
    ("recorded", [{**RECORDED, "calculator": ["pipe-loss"]}], "recorded[0].calculator", "choice"),
    ("recorded", [{**RECORDED, "field": ["velocity"]}], "recorded[0].field", "type"),
    ("recorded", [{**RECORDED, "value": None}], "recorded[0].value", "missing"), ("recorded", [{**RECORDED, "when": None}], "recorded[0].when", "missing"),
    ("recorded", [{**RECORDED, "when": "noon"}], "recorded[0].when", "type"), ("recorded", [{**RECORDED, "who": 5}], "recorded[0].who", "type"),
    ("recorded", [{**RECORDED, "where": "pit"}], "recorded[0].where", "unknown-field"),
]  # fmt: skip
# Only the job knows these: dates, units, bounds, names of results.
WRONG_INSIDE: list[tuple[str, Any, str, str]] = [
    ("started", "2026-02-30", "started", "type"), ("started", "2026-11-20T14:30+01:00", "started", "type"), ("started", "9999-12-31", "started", "bounds"),
    ("started", "0001-01-01", "started", "bounds"),
    ("inputs.pipe-loss.flow", "60 ft", "inputs.pipe-loss.flow", "dimension"), ("inputs.pipe-loss.flow", "9999 cfm", "inputs.pipe-loss.flow", "bounds"),
    ("house.elevation", "9 smoots", "house.elevation", "unit"), ("inputs.pipe-loss.fittings", [{"kind": "other"}], "inputs.pipe-loss.fittings[0].kind", "outside-model"),
    ("recorded", [{**RECORDED, "field": "speed"}], "recorded[0].field", "choice"), ("recorded", [{**RECORDED, "value": "600 ft"}], "recorded[0].value", "dimension"),
]  # fmt: skip
NAMED = [f"{i}-{row[0]}" for i, row in enumerate(WRONG)]


@pytest.mark.parametrize(("path", "value", "field", "kind"), WRONG, ids=NAMED)
def test_wrong_files_are_refused_with_their_path(path: str, value: Any, field: str, kind: str) -> None:
    """Unknown members and wrong kinds anywhere are refused at their path by the job, and by the schema too."""
    raw = changed(path, value)
    assert problems(raw) == {field: kind}
    assert not SCHEMA.is_valid(raw)


@pytest.mark.parametrize(("path", "value", "field", "kind"), WRONG_INSIDE, ids=[f"{i}-{r[0]}" for i, r in enumerate(WRONG_INSIDE)])
def test_wrong_values_are_refused_with_their_path(path: str, value: Any, field: str, kind: str) -> None:
    """Days that do not exist, units, bounds and models are refused at their path, in own inputs and in the house."""
    assert problems(changed(path, value)) == {field: kind}


def test_a_file_is_an_object() -> None:
    """A list, a text or a number is no job."""
    for raw in ([], "job", 5, None, True):
        assert problems(raw) == {"": "type"}
        assert not SCHEMA.is_valid(raw)


def test_all_problems_of_a_file_come_at_once() -> None:
    """Wrong members and unknown names anywhere come together, and wrong inputs of several calculators come together."""
    assert set(problems({"underslab_job": 1, "x": 1, "title": 5, "order": ["y"]})) == {"x", "title", "order[0]"}
    names = {"house": {"x": 1}, "inputs": {"pipe-loss": {"y": 1}}, "recorded": [{**RECORDED, "calculator": "z", "when": "noon"}]}
    assert problems({"underslab_job": 1, **names}) == {
        "house.x": "unknown-field", "inputs.pipe-loss.y": "unknown-field", "recorded[0].calculator": "choice", "recorded[0].when": "type",
    }  # fmt: skip
    raw = small(pipe_loss={**PIPE, "flow": "60"}, hole_flow={"fluid": "water", "diameter": "1 in", "head": "1 cfm"})
    assert problems(raw) == {"inputs.pipe-loss.flow": "unit", "inputs.hole-flow.head": "dimension"}


# --- the command line


@pytest.fixture
def call(monkeypatch, tmp_path: Path) -> Callable[..., tuple[int, str, str]]:
    """Runs ``job`` on a file with this content: exit status, standard output, standard error."""

    def run(raw: Any, *options: str) -> tuple[int, str, str]:
        file = tmp_path / "job.json"
        file.write_text(raw if isinstance(raw, str) else json.dumps(raw), encoding="utf-8")
        out, err = io.StringIO(), io.StringIO()
        monkeypatch.setattr(sys, "stdout", out)
        monkeypatch.setattr(sys, "stderr", err)
        return main(["job", str(file), *options]), out.getvalue(), err.getvalue()

    return run


def test_on_the_command_line(call, tmp_path: Path) -> None:
    """job FILE prints the sheet, --json the data, --html writes the page; failed checks end with status 0."""
    status, out, err = call(LANE)
    assert (status, out, err) == (0, sheet.text(job.run(LANE)), "")
    assert json.loads(call(LANE, "--json")[1]) == json.loads(json.dumps(job.run(LANE).as_dict()))
    page = tmp_path / "sheet.html"
    assert call(LANE, "--html", str(page), "--json")[0] == 0
    assert page.read_text("utf-8") == sheet.page(job.run(LANE))
    listed = tmp_path / "materials.csv"
    assert call(LANE, "--csv", str(listed))[0] == 0
    assert listed.read_text("utf-8").splitlines()[1] == '"pipe, stick","4 in.",4,,'
    assert call(LANE, "--csv", str(tmp_path / "no" / "list.csv"))[0] == 2


def test_a_wrong_file_on_the_command_line(call, tmp_path: Path) -> None:
    """A wrong job ends with status 2 and the same error object as solve; nothing is written."""
    page = tmp_path / "sheet.html"
    status, out, _ = call({**SMALL, "colour": 1}, "--json", "--html", str(page))
    assert (status, page.exists()) == (2, False)
    error = json.loads(out)["error"]
    assert error["calculator"] is None
    assert [(p["field"], p["kind"]) for p in error["problems"]] == [("colour", "unknown-field")]
    for text in ("", "{", "[]", '{"underslab_job": NaN}', "[" * 100_000):
        status, out, err = call(text)
        assert (status, out) == (2, "")
        assert err.startswith("input: ")
    assert call(LANE, "--html", str(tmp_path / "no" / "folder.html"))[0] == 2


# --- the schema


def test_the_schema_is_in_step() -> None:
    """The schema file is what the declarations give; if not, run python scripts/make_job_schema.py."""
    assert (DATA / "job.schema.json").read_text("utf-8") == make_job_schema.text()


def test_the_schema_is_a_schema() -> None:
    """It is valid JSON Schema 2020-12, names no host, allows no unknown member, and knows every input of every calculator."""
    jsonschema.Draft202012Validator.check_schema(SCHEMA.schema)
    assert SCHEMA.schema["$id"] == "underslab:job:1"
    inputs = SCHEMA.schema["properties"]["inputs"]["anyOf"][0]
    assert set(inputs["properties"]) == set(names())

    def closed(part: Any) -> None:
        if isinstance(part, dict):
            if "properties" in part and part.get("type") == "object":
                assert part["additionalProperties"] is False
            for inner in part.values():
                closed(inner)
        elif isinstance(part, list):
            for inner in part:
                closed(inner)

    closed(SCHEMA.schema)


GOOD = [
    LANE, SMALL, {"underslab_job": 0}, {**SMALL, "house": None, "notes": None, "order": ["pipe-loss"], "recorded": [RECORDED]},
    changed("inputs.pipe-loss.flow", {"value": 60, "unit": "cfm"}), changed("inputs.pipe-loss.pipe_length", None),
    changed("inputs.pipe-loss.fittings", {"value": [{"kind": "elbow-90", "count": "3"}, {"kind": "other", "loss_coefficient": 2}]}),
    changed("started", "2026-11-20T14:30"), changed("started", "20261120"), changed("rules", "us-pa"),
    small(pump_sizing={**LINE, "pit_suction": "@sump-sealing.suction_open"}, sump_sealing={}),
    small(pipe_loss=solve("pipe-loss", {**PIPE, "fittings": [{"kind": "elbow-90"}]}).as_dict()["inputs"]),
]  # fmt: skip


@pytest.mark.parametrize("raw", GOOD, ids=[str(i) for i in range(len(GOOD))])
def test_what_can_be_read_fits_the_schema(raw: dict[str, Any]) -> None:
    """Texts, objects, null, references and echoed answers are allowed by the schema where the job reads them."""
    job.run(raw)
    SCHEMA.validate(raw)
