"""The command line: what goes in, what comes out, exit statuses, and that nothing makes it fall over."""

import io
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from calculators import __main__ as command_line
from calculators import describe, names, solve
from calculators.units import short
from cases import CASES, all_cases, ids
from scripts.toolbox import ROOT

PIPE = {"flow": "60 cfm", "pipe_size": "4", "pipe_length": "33 ft"}
TYPED = ["flow=60 cfm", "pipe_size=4", "pipe_length=33 ft"]
PROBLEM = {"field", "problem", "found", "accepts", "kind"}
MEGABYTE = 1_000_000


class Said:
    """What one call said: exit status, standard output and standard error."""

    def __init__(self, status: int, out: str, err: str) -> None:
        self.status, self.out, self.err = status, out, err

    @property
    def json(self) -> Any:
        return json.loads(self.out, parse_constant=lambda name: pytest.fail(f"{name} in the answer"))

    def kinds(self) -> dict[str, str]:
        """Kind of each problem by field; the call must have ended as wrong input does."""
        assert self.status == 2
        assert set(self.json) == {"error"}
        assert set(self.json["error"]) == {"calculator", "problems"}
        for one in self.json["error"]["problems"]:
            assert set(one) == PROBLEM
            assert all(isinstance(value, str) for value in one.values())
        return {one["field"]: one["kind"] for one in self.json["error"]["problems"]}


@pytest.fixture
def call(monkeypatch):
    """Runs the command line in this process: ``call("solve", "pipe-loss", stdin="{}")``."""

    def run(*given: str, stdin: str | bytes | dict[str, Any] = "") -> Said:
        data = json.dumps(stdin) if isinstance(stdin, dict) else stdin
        streams = {
            "stdin": io.TextIOWrapper(io.BytesIO(data.encode() if isinstance(data, str) else data), "utf-8"),
            "stdout": io.TextIOWrapper(io.BytesIO(), "utf-8"), "stderr": io.TextIOWrapper(io.BytesIO(), "utf-8"),
        }  # fmt: skip
        for name, stream in streams.items():
            monkeypatch.setattr(sys, name, stream)
        status = command_line.main(list(given))
        out, err = (streams[name].buffer.getvalue().decode() for name in ("stdout", "stderr"))
        return Said(status, out, err)

    return run


def process(*given: str, stdin: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    """Runs the command line as a program of its own."""
    return subprocess.run(
        [sys.executable, "-m", "calculators", *given], input=stdin, capture_output=True, cwd=ROOT, timeout=30, check=False
    )


# --- what there is


def test_without_arguments_it_says_what_there_is(call) -> None:
    """Every calculator stands in the list, one line each, under the part of the job that it belongs to."""
    said = call()
    assert said.status == 0
    lines = [line.split()[0] for line in said.out.splitlines() if line.startswith("  ")]
    assert sorted(lines) == sorted(names())
    assert "6 Water and pump" in said.out
    assert call("list").out == said.out


def test_list_for_programs(call) -> None:
    """list --json gives name, title, part and summary of every calculator, in the order of the job."""
    entries = call("list", "--json").json
    assert [entry["name"] for entry in entries] == list(names())
    assert all(set(entry) == {"name", "title", "part", "summary"} and all(entry.values()) for entry in entries)


@pytest.mark.parametrize("name", names())
def test_describe(call, name: str) -> None:
    """describe gives the same as Python; as text it names every input and result with what is accepted."""
    assert call("describe", name, "--json").json == describe(name)
    text = call("describe", name).out
    for item in describe(name)["inputs"]:
        assert f"  {item['name']} " in text
        assert item["accepts"] in text
    assert all(item["name"] in text for item in describe(name)["results"])


# --- solving


@pytest.mark.parametrize(("name", "inputs"), all_cases(), ids=ids())
def test_json_in_json_out(call, name: str, inputs: dict[str, Any]) -> None:
    """The answer on standard output is Python's own, in both unit systems."""
    for system in ("us", "si"):
        said = call("solve", name, "--json", "--units", system, stdin=inputs)
        assert said.status == 0
        assert said.err == ""
        assert said.json == json.loads(json.dumps(solve(name, inputs).as_dict(system)))


@pytest.mark.parametrize("name", names())
def test_a_person_reads_results_checks_and_cautions(call, name: str) -> None:
    """The text shows every result with its number, every check with its verdict, every caution, every step and its source."""
    inputs = CASES[name][0]
    said = call("solve", name, *(f"{k}={v if isinstance(v, str) else json.dumps(v)}" for k, v in inputs.items()))
    assert said.status == 0
    data = solve(name, inputs).as_dict()
    declared = {field["name"]: field["label"] for field in describe(name)["results"]}
    for key, value in data["results"].items():
        assert declared[key] in said.out
        if isinstance(value, dict) and {"unit", "value"} <= set(value):  # a map is shown thinned out
            assert short(value["value"]) in said.out
    for check in data["checks"]:
        verdict = {True: "Meets.", False: "Does not meet.", None: "Not judged."}[check["ok"]]
        assert f"{verdict} {check['text']}" in said.out
    for caution in data["cautions"]:
        assert f"{caution['level'].upper()}: {caution['text']}" in said.out
    for step in data["steps"]:
        assert f"{step['substituted']} = {step['result']}" in said.out
    assert all(text in said.out for text in data["not_looked_at"])
    assert "Local code and licensed practice come first" in said.out


def test_dangers_come_first(call) -> None:
    """Hard stops stand before other checks, and dangers before warnings and notes."""
    out = call("solve", "tile-offset", "wall_thickness=8 in", "footing_width=11 in", "drain_side=inside").out
    assert out.index("STOP. Does not meet.") < out.index("Does not meet. A footing") < out.index("Meets.")
    assert out.rindex("DANGER:") < out.index("WARNING:") < out.index("NOTE:")


def test_typed_pairs_are_the_same_input(call) -> None:
    """name=value arguments, in any order with the options, are the same input as JSON; units are chosen with --units."""
    expected = call("solve", "pipe-loss", "--json", stdin=PIPE).out
    assert call("solve", "pipe-loss", *TYPED, "--json").out == expected
    assert call("solve", "--json", "pipe-loss", *TYPED).out == expected
    assert call("solve", "pipe-loss", TYPED[0], "--json", *TYPED[1:]).out == expected
    assert "L/s" in call("solve", "pipe-loss", *TYPED, "--units", "si").out
    assert call("solve", "pipe-loss", *TYPED, "--units", "si", "--json").json["results"]["total_loss"]["unit"] == "Pa"


def test_lists_are_typed_as_json_or_read_from_a_file(call, tmp_path: Path) -> None:
    """A list is a JSON text or @file.json; both give what standard input gives."""
    bends = [{"kind": "elbow-90", "count": 3}]
    file = tmp_path / "bends.json"
    file.write_text(json.dumps(bends), encoding="utf-8")
    expected = call("solve", "pipe-loss", "--json", stdin={**PIPE, "fittings": bends}).out
    assert call("solve", "pipe-loss", *TYPED, f"fittings={json.dumps(bends)}", "--json").out == expected
    assert call("solve", "pipe-loss", *TYPED, f"fittings=@{file}", "--json").out == expected


def test_objects_flags_and_minus_signs_can_be_typed(call) -> None:
    """An object is JSON text, a flag is true or false, a value may have a minus sign."""
    said = call("solve", "pump-sizing", "pit_diameter=18 in", "inflow=9 gpm", "static_lift=9 ft", "pipe_size=2", "pipe_length=30 ft",
                'pump={"points": [{"flow": "0 gpm", "head": "25 ft"}, {"flow": "40 gpm", "head": "0 ft"}]}', "freezing=true", "--json")  # fmt: skip
    assert said.status == 0
    assert said.json["inputs"]["freezing"] == {"value": True}
    low = call("solve", "pipe-loss", *TYPED, "elevation=-500 ft", "air_temperature=-20 degF", "--json")
    assert low.json["inputs"]["elevation"]["value"] == -500


def test_a_failed_check_is_an_answer(call) -> None:
    """A hard stop and a pump below its lift end with status 0."""
    stop = call("solve", "tile-offset", "wall_thickness=8 in", "footing_width=16 in", "--json")
    assert stop.status == 0
    assert [c["stop"] for c in stop.json["checks"] if "stop" in c] == [True]
    dry = call("solve", "pump-sizing", "--json", stdin={**CASES["pump-sizing"][0], "static_lift": "26 ft"})
    assert dry.status == 0
    assert dry.json["results"]["delivered_flow"]["value"] == 0


# --- what is refused


def test_problems_for_programs_and_for_people(call) -> None:
    """Wrong input ends with status 2: with --json as an object on standard output, else in words on standard error."""
    wrong = ["flow=60", "pipe_size=5", "pipe_length=33 ft"]
    said = call("solve", "pipe-loss", *wrong, "--json")
    assert said.kinds() == {"flow": "unit", "pipe_size": "choice"}
    assert said.json["error"]["calculator"] == "pipe-loss"
    assert said.err == ""
    text = call("solve", "pipe-loss", *wrong)
    assert (text.status, text.out) == (2, "")
    assert [line.partition(":")[0] for line in text.err.splitlines()] == ["flow", "pipe_size"]
    assert "'5'" in text.err
    assert "1-1/4, 1-1/2, 2, 3, 4, 6" in text.err


WHOLE = {
    "not JSON": "{flow: 60}", "cut off": '{"flow": "60 cfm"', "nothing": "", "two objects": "{} {}", "a list": "[1, 2]", "a number": "5",
    "NaN": '{"flow": NaN}', "infinity": '{"flow": {"value": -Infinity, "unit": "cfm"}}', "not text": b'{"flow": "\xff\xfe"}',
    "too much": '{"flow": "' + " " * MEGABYTE + '60 cfm"}', "deep": '{"flow": ' + "[" * 100_000 + "]" * 100_000 + "}",
    "deep objects": '{"a":' * 50_000 + "1" + "}" * 50_000, "endless digits": "1" * 20_000,
}  # fmt: skip


@pytest.mark.parametrize("name", WHOLE)
def test_what_is_no_input_is_one_problem(call, name: str) -> None:
    """Text that is no JSON object, NaN, over 1 MB or nested without end is one problem of the whole input."""
    kinds = call("solve", "pipe-loss", "--json", stdin=WHOLE[name]).kinds()
    assert kinds == {"": "length" if name == "too much" else "type"}


@pytest.mark.parametrize("depth", [50, 300, 900, 985, 990, 995, 999])
def test_nesting_within_json_is_a_problem_of_its_field(call, depth: int) -> None:
    """Deep nesting that JSON still reads is refused at its field, or as a whole, never with a traceback."""
    deep = "[" * depth + "]" * depth
    for text, field in ((f'{{"flow": {deep}}}', "flow"), (f'{{"fittings": [{{"kind": {deep}}}]}}', "fittings[0].kind")):
        kinds = call("solve", "pipe-loss", "--json", stdin=text).kinds()
        assert kinds.get(field) == "type" or kinds == {"": "type"}


WRONG_LINES = [
    (["solve", "pipe-lost", "--json"], {"": "choice"}), (["describe", "pipe_loss", "--json"], {"": "choice"}),
    (["solve", "--json"], {"": "type"}), (["describe", "--json"], {"": "type"}), (["job", "--json"], {"": "type"}),
    (["solve", "pipe-loss", "--colour", "--json", "flow=60 cfm"], {"": "type"}), (["sing", "--json"], {"": "type"}),
    (["solve", "pipe-loss", "--units", "metric", "--json"], {"": "type"}), (["solve", "pipe-loss", "60 cfm", "--json"], {"": "type"}),
    (["list", "extra", "--json"], {"": "type"}), (["job", "/no/such/file.json", "--json"], {"": "type"}), (["job", "/", "--json"], {"": "type"}),
    (["solve", "pipe-loss", "fittings=@/no/such/file", "--json"], {"fittings": "type"}),
    (["solve", "pipe-loss", "fittings=[{]", "--json"], {"fittings": "type"}), (["solve", "pipe-loss", "fittings=@", "--json"], {"fittings": "type"}),
]  # fmt: skip


@pytest.mark.parametrize(("line", "kinds"), WRONG_LINES, ids=[" ".join(line) for line, _ in WRONG_LINES])
def test_a_wrong_line_is_a_problem(call, line: list[str], kinds: dict[str, str]) -> None:
    """An unknown calculator, command, option or file is a problem of the same shape."""
    assert call(*line).kinds() == kinds


def test_a_file_over_a_megabyte_is_refused(call, tmp_path: Path) -> None:
    """A file over 1 MB is refused as a list and as a job; an endless one too."""
    file = tmp_path / "large.json"
    file.write_bytes(b" " * (MEGABYTE + 1))
    assert call("solve", "pipe-loss", f"fittings=@{file}", "--json").kinds() == {"fittings": "length"}
    assert call("job", str(file), "--json").kinds() == {"": "length"}
    assert call("job", "/dev/zero", "--json").kinds() == {"": "length"}


def test_help_is_there(capsys) -> None:
    """--help ends with status 0 and names the commands."""
    with pytest.raises(SystemExit) as ended:
        command_line.main(["--help"])
    assert ended.value.code == 0
    said = capsys.readouterr().out
    assert all(word in said for word in ("list", "describe", "solve", "job"))


# --- as a program of its own


def test_as_a_program() -> None:
    """A real process reads standard input, writes UTF-8 JSON and ends with 0, or with 2 for wrong input."""
    done = process("solve", "pipe-loss", "--json", stdin=json.dumps(PIPE).encode())
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout) == json.loads(json.dumps(solve("pipe-loss", PIPE).as_dict()))
    wrong = process("solve", "pipe-loss", "--json", stdin=b'{"flow": "60 \xc2\xb5m"}')
    assert wrong.returncode == 2
    assert json.loads(wrong.stdout)["error"]["problems"][0]["found"] == "60 µm"


def test_half_a_character_is_written_as_its_code() -> None:
    """Half a surrogate pair in the input comes back as JSON that can be read, without a traceback."""
    done = process("solve", "pipe-loss", "--json", stdin=b'{"\\ud800": 1}')
    assert (done.returncode, done.stderr) == (2, b"")
    assert json.loads(done.stdout)["error"]["problems"][0]["field"] == "\ud800"


def test_a_reader_that_has_gone_is_no_fault() -> None:
    """When the reader of the output ends early, nothing is said and the status is 0."""
    program = subprocess.Popen(
        [sys.executable, "-m", "calculators", "list", "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=ROOT
    )
    program.stdout.close()
    assert program.stderr.read() == b""
    program.stderr.close()
    assert program.wait(timeout=30) == 0


def test_what_cannot_be_read_names_the_calculator_that_was_asked(call) -> None:
    """Text that is no JSON, and a name given twice, are problems of the calculator that was asked for."""
    said = call("solve", "pipe-loss", "--json", stdin="flow")
    assert (said.status, said.json["error"]["calculator"]) == (2, "pipe-loss")
    said = call("solve", "pipe-loss", "flow=60 cfm", "flow=70 cfm", "--json")
    problem = said.json["error"]["problems"][0]
    assert (said.status, said.json["error"]["calculator"]) == (2, "pipe-loss")
    assert (problem["field"], problem["kind"]) == ("flow", "conflict")
