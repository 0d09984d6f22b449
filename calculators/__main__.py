"""The command line: list, describe, solve, job.  JSON in and out, or a person's form.

Exit status: 0 solved (a failed check is an answer too), 2 the input was wrong, 1 a fault of the program.
"""

import argparse
import json
import os
import sys
from pathlib import Path
from typing import Any, NoReturn

from . import InputError, declaration, describe, names, solve

LARGEST = 1_000_000


class Parser(argparse.ArgumentParser):
    """An argument parser whose errors are problems like any other."""

    def error(self, message: str) -> NoReturn:
        """Raise the message as an input error."""
        raise InputError([problem("", message, kind="type", accepts="see python -m calculators --help")])


def problem(field: str, text: str, *, kind: str, found: str = "", accepts: str = "") -> dict[str, Any]:
    """One problem in the form that all interfaces print."""
    return {"field": field, "problem": text, "found": found, "accepts": accepts, "kind": kind}


def parse_json(text: str, field: str = "") -> Any:
    """JSON without NaN or infinity.  Raises InputError for anything else or for more than 1 MB."""
    if len(text) > LARGEST:
        raise InputError([problem(field, "this is more than 1 MB", kind="length", accepts="at most 1 MB")])

    def refuse(name: str) -> NoReturn:
        raise ValueError(f"{name} is no number")

    try:
        return json.loads(text, parse_constant=refuse)
    except (ValueError, RecursionError) as error:
        raise InputError(
            [problem(field, f"this is not JSON: {error}"[:200], kind="type", found=text[:40], accepts="JSON")]
        ) from None


def decoded(data: bytes, field: str, found: str = "") -> str:
    """Bytes of a file or of standard input as text.  Raises InputError for over 1 MB and for what is not UTF-8."""
    if len(data) > LARGEST:
        raise InputError([problem(field, "this is more than 1 MB", kind="length", found=found, accepts="at most 1 MB")])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(
            [
                problem(
                    field, "this cannot be read: it is not UTF-8 text", kind="type", found=found, accepts="UTF-8 text"
                )
            ]
        ) from None


def standard_input() -> str:
    """The text of standard input.  Raises InputError for over 1 MB and for what is not UTF-8."""
    return decoded(sys.stdin.buffer.read(LARGEST + 1), "")


def read_file(path: str, field: str = "") -> str:
    """The text of a file.  Raises InputError when it cannot be read."""
    try:
        with open(path, "rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise InputError([no_file(path, f"the file cannot be read: {error.strerror}", field)]) from None
    return decoded(data, field, path)


def no_file(path: str, text: str, field: str = "") -> dict[str, Any]:
    """The problem of a file that cannot be read or written."""
    return problem(field, text, kind="type", found=path, accepts="a file")


def typed(pairs: list[str]) -> dict[str, Any]:
    """``name=value`` arguments as an input object; ``@file.json`` and JSON texts are read as JSON."""
    inputs: dict[str, Any] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals:
            raise InputError(
                [problem("", "inputs are written name=value", kind="type", found=pair[:80], accepts="flow='60 cfm'")]
            )
        if name in inputs:
            raise InputError(
                [problem(name, "this is given twice", kind="conflict", found=value[:80], accepts="one value")]
            )
        if value.startswith("@"):
            inputs[name] = parse_json(read_file(value[1:], name), name)
        elif value[:1] in "[{" and value:
            inputs[name] = parse_json(value, name)
        else:
            inputs[name] = value
    return inputs


def run(arguments: argparse.Namespace) -> str:
    """Do what the command line asks; returns what is printed."""
    from .show import text

    if arguments.command in (None, "list"):
        entries = [
            {key: getattr(declaration(name), key) for key in ("name", "title", "part", "summary")} for name in names()
        ]
        return dumped(entries) if getattr(arguments, "json", False) else text.catalogue(entries)
    if arguments.command == "describe":
        entry = describe(arguments.name)
        return dumped(entry) if arguments.json else text.description(entry)
    if arguments.command == "solve":
        declaration(arguments.name)
        try:
            inputs = typed(arguments.inputs) if arguments.inputs else parse_json(standard_input())
        except InputError as error:
            error.calculator = arguments.name
            raise
        result = solve(arguments.name, inputs)
        return dumped(result.as_dict(arguments.units)) if arguments.json else text.answer(result, arguments.units)
    if arguments.command == "paper":
        return paper_of(arguments)
    from . import job
    from .show import sheet
    from .show.sheet_parts_materials import materials_csv

    done = job.run(parse_json(read_file(arguments.file)))
    for out, make, what in ((arguments.html, sheet.page, "sheet"), (arguments.csv, materials_csv, "list of materials")):
        if out:
            try:
                Path(out).write_text(make(done), encoding="utf-8", errors="xmlcharrefreplace")
            except OSError as error:
                raise InputError([no_file(out, f"the {what} cannot be written: {error.strerror}")]) from None
    return dumped(done.as_dict()) if arguments.json else sheet.text(done)


def paper_of(arguments: argparse.Namespace) -> str:
    """A practice paper: written to a file, or returned as text."""
    from .practice import command

    made = command.made(arguments)
    if arguments.out:
        try:
            Path(arguments.out).write_bytes(made)
        except OSError as error:
            raise InputError([no_file(arguments.out, f"the paper cannot be written: {error.strerror}")]) from None
        return f"{arguments.out} written.\n"
    if arguments.format == "qti":
        raise InputError(
            [problem("out", "a QTI package is a zip file; name one", kind="missing", accepts="--out paper.zip")]
        )
    return made.decode()


def dumped(data: Any) -> str:
    """JSON for programs; never NaN or infinity."""
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def parser() -> Parser:
    """The command line's grammar."""
    main = Parser(prog="python -m calculators", description="Underslab's calculators for radon mitigation installers.")
    commands = main.add_subparsers(dest="command", parser_class=Parser)
    for name, help in (
        ("list", "all calculators"),
        ("describe", "inputs and results of one"),
        ("solve", "solve one"),
        ("job", "a whole job file"),
    ):
        command = commands.add_parser(name, help=help)
        command.add_argument("--json", action="store_true", help="print JSON")
        if name in ("describe", "solve"):
            command.add_argument("name", metavar="NAME")
        if name == "solve":
            command.add_argument(
                "inputs", nargs="*", metavar="name=value", help="left out: one JSON object is read from standard input"
            )
            command.add_argument("--units", choices=("us", "si"), default="us", help="units of the answer")
        if name == "job":
            command.add_argument("file", metavar="FILE")
            command.add_argument("--html", metavar="OUT", help="write a printable sheet")
            command.add_argument("--csv", metavar="OUT", help="write the list of materials for a spreadsheet")
    from .practice import command as paper

    paper.declare(commands.add_parser("paper", help="a practice paper for a class"))
    return main


def parsed(given: list[str]) -> argparse.Namespace:
    """The command line read; options and name=value pairs may stand in any order.  Raises InputError."""
    grammar = parser()
    arguments, rest = grammar.parse_known_args(given)
    pairs = [text for text in rest if not text.startswith("-")] if arguments.command == "solve" else []
    if len(pairs) < len(rest):
        grammar.error(f"not understood: {' '.join(text for text in rest if text not in pairs)}")
    if pairs:
        arguments.inputs += pairs
    return arguments


def put(stream: Any, text: str) -> None:
    """Write and flush; what the stream cannot show (half a surrogate pair, a narrow terminal) is written as its code."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    stream.write(text.encode(encoding, "backslashreplace").decode(encoding))
    stream.flush()


def main(given: list[str] | None = None) -> int:
    """Run one command line, that of the process unless given.  Returns the exit status."""
    from .show.text import problems

    given = sys.argv[1:] if given is None else given
    try:
        try:
            put(sys.stdout, run(parsed(given)))
        except InputError as error:
            if "--json" in given:
                put(sys.stdout, dumped({"error": {"calculator": error.calculator, "problems": error.problems}}))
            else:
                put(sys.stderr, problems(error.problems))
            return 2
    except BrokenPipeError:  # the reader has gone, as head does; what is left is dropped without a word
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0


if __name__ == "__main__":
    sys.exit(main())
