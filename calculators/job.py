"""The job file: one house, read whole, with values handed from calculator to calculator in working order."""

from collections.abc import Generator, Mapping
from typing import Any, NamedTuple

from . import NAMES, InputError, Result, declaration, solve
from .declare import Choice, Count, Date, Field, Flag, Quantity, Several, Text
from .job_dates import due_dates
from .job_values import MOST, house_of, inputs_of_job, needs_of
from .reading import Reader
from .result import VERSION
from .vocabulary import RULE_PACKS

CURRENT = 1
LONGEST = 2000
MEMBERS: dict[str, Field] = {
    "underslab_job": Count("Version of the file", 0, 1_000_000),
    "title": Text("Title"),
    "invented": Flag("An invented house"),
    "units": Choice("Units", ("us", "si")),
    "started": Date("The day the fan was first switched on, or will be"),
    "rules": Several("Rule packs", RULE_PACKS, most=2),
}
OBJECTS = ("house", "inputs")
LISTS = ("order", "recorded", "open", "notes")
RECORD = ("calculator", "field", "value", "when", "who")


class Entry(NamedTuple):
    """Something still open: what is asked, of which calculator and field (None for a note of the file)."""

    calculator: str | None
    field: str | None
    text: str


class Job:
    """A solved job: ``file`` as read, ``results`` by calculator in working order, ``open`` and ``notes``."""

    def __init__(self, file: dict[str, Any], results: dict[str, Result], open: list[Entry], notes: list[str]) -> None:
        self.file, self.results, self.open, self.notes = file, results, open, notes

    @property
    def units(self) -> str:
        """The unit system of the file: us or si."""
        return str(self.file["units"])

    def failed(self) -> list[tuple[str, Any]]:
        """Calculator and check for all that does not meet; hard stops first."""
        found = [
            (name, check) for name, result in self.results.items() for check in result.work.checks if check.ok is False
        ]
        return sorted(found, key=lambda pair: not pair[1].stop)

    def dates(self) -> list[dict[str, Any]]:
        """What is due when, from the day the fan was switched on."""
        return due_dates(self.file.get("started"), self.file.get("rules") or ())

    def as_dict(self) -> dict[str, Any]:
        """The whole job as plain data."""
        return {
            "job": {name: self.file.get(name) for name in ("title", "invented", "units", "started", "rules")},
            "version": VERSION,
            "results": {name: result.as_dict(self.units) for name, result in self.results.items()},
            "open": [entry._asdict() for entry in self.open],
            "failed": [{"calculator": name, "check": check.id} for name, check in self.failed()],
            "recorded": self.file.get("recorded", []),
            "dates": self.dates(),
            "notes": self.notes,
        }


def run(raw: Any) -> Job:
    """Read and solve a job.  Raises InputError with all problems of the file at once."""
    going = running(raw)
    while True:
        try:
            next(going)
        except StopIteration as end:
            return end.value


def running(raw: Any) -> Generator[str, None, Job]:
    """The same in steps: the name of each calculator when it is done, the job as what is returned in the end."""
    reader = Reader()
    file = _read_file(reader, raw)
    if isinstance(raw, Mapping):
        _recorded(reader, file)
    if reader.problems:
        raise InputError(reader.problems)
    order = _order(reader, file)
    if reader.problems:
        raise InputError(reader.problems)
    notes = list(file["notes"])
    if file["underslab_job"] < CURRENT:
        notes.append(f"This file is of version {file['underslab_job']}; it was read as version {CURRENT}.")
    results: dict[str, Result] = {}
    open_entries = [Entry(None, None, text) for text in file["open"]]
    for name in order:
        _solve_one(reader, file, name, results, open_entries)
        yield name
    if reader.problems:
        raise InputError(reader.problems)
    return Job(file, results, open_entries, notes)


def _read_file(reader: Reader, raw: Any) -> dict[str, Any]:
    if not isinstance(raw, Mapping):
        reader.problem("", "type", "a job file is one JSON object", raw, '{"underslab_job": 1, ...}')
        return {}
    for name in raw:
        if name not in MEMBERS and name not in OBJECTS + LISTS:
            reader.problem(
                str(name)[:60],
                "unknown-field",
                "a job file has no such member",
                name,
                ", ".join((*MEMBERS, *OBJECTS, *LISTS)),
            )
    file: dict[str, Any] = {
        name: reader.value(field, raw[name], name) for name, field in MEMBERS.items() if raw.get(name) is not None
    }
    version = file.get("underslab_job")
    if "underslab_job" not in file:
        reader.problem("underslab_job", "missing", "this says which version of the file this is", "", str(CURRENT))
    elif isinstance(version, int) and version > CURRENT:
        reader.problem(
            "underslab_job",
            "bounds",
            f"this file is of version {version}, newer than version {CURRENT} that is read here",
            version,
            f"{CURRENT} or lower",
        )
    file.setdefault("title", "Job")
    file.setdefault("invented", False)
    file.setdefault("units", "us")
    for name in OBJECTS:
        file[name] = {} if raw.get(name) is None else raw[name]
        if not isinstance(file[name], dict):
            file[name] = reader.problem(name, "type", "an object is read here", raw[name], "{name: value}") and {}
    for name in LISTS:
        file[name] = [] if raw.get(name) is None else raw[name]
        if not isinstance(file[name], list) or len(file[name]) > 200:
            reader.problem(name, "type", "a list of at most 200 entries is read here", raw[name], "[...]")
            file[name] = []
    for name in ("open", "notes"):
        for i, text in enumerate(file[name]):
            reader.text(text, f"{name}[{i}]", LONGEST)
    _check_names(reader, file)
    return file


def _check_names(reader: Reader, file: dict[str, Any]) -> None:
    known = {field for name in NAMES for field in declaration(name).inputs}
    for field in file["house"]:
        if field not in known:
            reader.problem(
                f"house.{field}"[:80],
                "unknown-field",
                "no calculator has such an input",
                field,
                "names of inputs, as describe lists them",
            )
    for name, values in file["inputs"].items():
        if name not in NAMES:
            reader.problem(f"inputs.{name}"[:80], "choice", "there is no such calculator", name, ", ".join(NAMES))
        elif not isinstance(values, dict):
            reader.problem(f"inputs.{name}", "type", "an object is read here", values, "{name: value}")
        else:
            inputs = declaration(name).inputs
            for field in (field for field in values if field not in inputs):
                path, text = f"inputs.{name}.{field}"[:80], f"{name} has no such input"
                reader.problem(path, "unknown-field", text, field, ", ".join(inputs))
    for i, name in enumerate(file["order"]):
        if name not in NAMES:
            reader.problem(f"order[{i}]", "choice", "there is no such calculator", name, ", ".join(NAMES))


def _order(reader: Reader, file: dict[str, Any]) -> list[str]:
    """The calculators of this job, each after those whose results it takes.

    Circles and unknown references are problems.
    """
    wanted = list(dict.fromkeys(file["order"])) or [
        name for name in NAMES if name in file["inputs"] or _reached(file, name)
    ]
    left = iter(range(MOST))
    needs = {name: needs_of(reader, file, name, wanted, left) for name in wanted}
    done: list[str] = []
    path: list[str] = []

    def visit(name: str) -> None:
        if name in done:
            return
        if name in path:
            circle = " -> ".join([*path[path.index(name) :], name])
            reader.problem(
                f"inputs.{name}",
                "conflict",
                "calculators take results from each other in a circle",
                circle,
                "references to earlier results",
            )
            return
        path.append(name)
        for other in needs.get(name, ()):
            visit(other)
        path.pop()
        if name not in done:
            done.append(name)

    for name in wanted:
        if not reader.problems:
            visit(name)
    return done


def _reached(file: dict[str, Any], name: str) -> bool:
    """Whether the house alone gives all that a calculator needs."""
    declared, house = declaration(name), house_of(file)
    alone = all(field in house for field in declared.inputs if declared.required(field) is True)
    return alone and all(any(member in house for member in group) for group in declared.one_of.values())


def worked_inputs(raw: Any, name: str) -> dict[str, Any]:
    """The inputs of one calculator of a job with every reference filled in.

    Raises InputError when the job is wrong or does not reach the calculator.
    """
    job = run(raw)
    if name not in job.results:
        raise InputError(
            [
                {
                    "field": f"inputs.{name}",
                    "problem": "this job does not reach the calculator",
                    "found": "",
                    "accepts": ", ".join(job.results),
                    "kind": "missing",
                }
            ]
        )
    return inputs_of_job(job.file, name, job.results)[0]


def _solve_one(
    reader: Reader, file: dict[str, Any], name: str, results: dict[str, Result], open_entries: list[Entry]
) -> None:
    inputs, waiting = inputs_of_job(file, name, results)
    try:
        results[name] = solve(name, inputs)
        open_entries += [Entry(name, None, f"{reference} could not be given") for reference in waiting.values()]
    except InputError as error:
        own = file["inputs"].get(name, {})
        for problem in error.problems:
            at = problem["field"]
            top = at.partition(".")[0].partition("[")[0]
            if problem["kind"] == "missing" and (at == top or _waits(at, waiting)):
                because = f"; {', '.join(waiting.values())} could not be given" if waiting else ""
                open_entries.append(Entry(name, top, f"{problem['problem']}{because}"))
            else:
                place = f"inputs.{name}" if top in own or top not in house_of(file) else "house"
                reader.problems.append({**problem, "field": f"{place}.{at}".rstrip(".")})


def _waits(path: str, waiting: dict[str, str]) -> bool:
    """Whether a member is missing only because a reference in the same object could not be filled."""
    holder = path.rpartition(".")[0]
    return any(other == path or other.rpartition(".")[0] == holder for other in waiting)


def _recorded(reader: Reader, file: dict[str, Any]) -> None:
    """Check what was measured on the job: each entry names a calculator's input or result, a value and when."""
    for i, entry in enumerate(file["recorded"]):
        path = f"recorded[{i}]"
        if not isinstance(entry, dict):
            reader.problem(path, "type", "an object is read here", entry, f"{{{', '.join(RECORD)}}}")
            continue
        for name in entry:
            if name not in RECORD:
                reader.problem(
                    f"{path}.{name}"[:80], "unknown-field", "there is no such member", name, ", ".join(RECORD)
                )
        for name in RECORD[:4]:
            if entry.get(name) is None:
                reader.problem(f"{path}.{name}", "missing", "this must be given", "", "")
        _recorded_value(reader, entry, path)


def _recorded_value(reader: Reader, entry: dict[str, Any], path: str) -> None:
    calculator, name = entry.get("calculator"), entry.get("field")
    if calculator is not None and calculator not in NAMES:
        reader.problem(f"{path}.calculator", "choice", "there is no such calculator", calculator, ", ".join(NAMES))
        calculator = None
    if name is not None and not isinstance(name, str):
        reader.problem(f"{path}.field", "type", "the name of an input or result is read here", name, "text")
    elif calculator is not None and name is not None:
        declared = declaration(calculator)
        field = declared.results.get(name) or (declared.inputs[name][0] if name in declared.inputs else None)
        if field is None:
            reader.problem(
                f"{path}.field",
                "choice",
                f"{calculator} has no such input or result",
                name,
                ", ".join((*declared.inputs, *declared.results)),
            )
        elif entry.get("value") is not None and isinstance(field, (Quantity, Choice, Flag, Text)):
            reader.value(field, entry["value"], f"{path}.value")
    if entry.get("when") is not None:
        reader.date(entry["when"], f"{path}.when")
    if entry.get("who") is not None:
        reader.text(entry["who"], f"{path}.who")
