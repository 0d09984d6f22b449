"""The same tests again in the browser's Python, with the library exactly as the page gets it."""

import ast
import json
import sys
from pathlib import Path

import pytest

from scripts.pack import tool_wheels
from scripts.toolbox import PYODIDE, ROOT, run_node

HERE = Path(__file__).resolve().parent
HELPERS = {file.stem for file in HERE.glob("*.py") if not file.stem.startswith("test_")}
# The browser's Python starts no other programs and opens no sockets.
NATIVE_ONLY = {"subprocess", "socket", "http", "socketserver", "multiprocessing", "threading", "ssl"}


def imports_of(file: Path) -> set[str]:
    """Top names of all modules that a file imports, also through the helper files beside it."""
    names = set()
    for statement in ast.walk(ast.parse(file.read_bytes())):
        if isinstance(statement, ast.Import):
            names.update(alias.name for alias in statement.names)
        elif isinstance(statement, ast.ImportFrom):
            names.add(statement.module or ".")
    tops = {"calculators.quantities" if name == "calculators.quantities" else name.split(".")[0] for name in names}
    for helper in tops & HELPERS - {file.stem}:
        tops |= imports_of(HERE / f"{helper}.py")
    return tops


def fixtures_of_machine() -> set[str]:
    """Names of the fixtures in conftest.py: they start servers and browsers."""
    found = set()
    for statement in ast.walk(ast.parse((HERE / "conftest.py").read_bytes())):
        if isinstance(statement, ast.FunctionDef) and any("fixture" in ast.unparse(d) for d in statement.decorator_list):
            found.add(statement.name)
    return found


def plain(file: Path) -> bool:
    """Whether a test file needs nothing but Python, pytest and the calculators."""
    allowed = (set(sys.stdlib_module_names) - NATIVE_ONLY) | {"pytest", "calculators"} | HELPERS
    tree = ast.parse(file.read_bytes())
    wanted = {arg.arg for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) for arg in node.args.args}
    return imports_of(file) <= allowed and not wanted & fixtures_of_machine()


PLAIN = sorted(file.name for file in HERE.glob("test_*.py") if plain(file))


@pytest.fixture(scope="module")
def outcome(site):
    """Result of one run of all plain test files inside Pyodide."""
    library = next((site / "engine").glob("*/library-*.zip"))
    settings = {
        "pyodide": PYODIDE, "engine": library.parent, "library": library, "wheels": tool_wheels(), "project": ROOT,
        "files": [f"tests/{name}" for name in PLAIN],
    }
    return json.loads(run_node(HERE / "wasm" / "run.mjs", settings).splitlines()[-1])


def test_the_shipped_library_was_tested(outcome):
    """The calculators that were tested came out of the shipped archive, not from the folder beside it."""
    assert outcome["calculators"].startswith("/lib/python314.zip/calculators/")


@pytest.mark.parametrize("name", PLAIN)
def test_passes_in_the_browsers_python(outcome, name):
    """Each plain test file passes in the browser's Python, and really holds tests."""
    row = outcome["files"].get(f"tests/{name}")
    assert row, outcome["said"]
    assert not row["failed"], "\n\n".join(row["failed"])
    assert row["passed"] > 0, outcome["said"]


def test_run_as_a_whole(outcome):
    """The run as a whole ended well, and there were plain test files to run."""
    assert PLAIN
    assert outcome["status"] == 0, outcome["said"]
