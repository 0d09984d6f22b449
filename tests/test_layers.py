"""Imports point one way: physics <- trade data <- calculators <- job, problems <- show <- scripts."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1] / "calculators"
STANDARD = {
    "argparse", "ast", "bisect", "collections", "datetime", "enum", "functools", "gc", "html", "importlib", "inspect", "itertools", "json", "math",
    "operator", "os", "pathlib", "random", "re", "sys", "textwrap", "typing", "xml", "unicodedata", "string", "zipfile", "io", "hashlib", "base64", "zlib", "binascii",
}
NATIVE_ONLY = {"quantities.py": {"pint"}}
MAY_IMPORT = {  # folder or file -> folders and files of the package that it must not import
    "physics": {"trade", "catalog", "show", "practice", "declare", "units", "tables", "work", "result", "job", "reading", "vocabulary"},
    "trade": {"catalog", "show", "practice", "job", "result", "page"},
    "units.py": {"trade", "physics", "catalog", "show", "practice", "tables", "declare", "job"},
    "tables.py": {"trade", "catalog", "show", "practice", "declare", "work", "result", "job"},
    "declare.py": {"catalog", "show", "practice", "work", "result", "job", "physics", "tables"},
    "reading.py": {"catalog", "show", "practice", "work", "result", "job", "physics", "tables"},
    "work.py": {"catalog", "show", "practice", "result", "job", "physics"},
    "catalog": {"show", "practice", "job", "result", "reading", "page"},
    "job.py": {"show", "practice"},
    "job_values.py": {"show", "practice", "job"},
}
FILES = sorted(ROOT.rglob("*.py"))


def imported(path: Path):
    """Top-level modules from outside, and parts of the package, that a file imports."""
    outside, inside = set(), set()
    depth = path.relative_to(ROOT).parts
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            outside |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            if node.level == 0:
                outside.add((node.module or "").partition(".")[0])
                continue
            base = depth[: len(depth) - node.level]
            names = [node.module] if node.module else [alias.name for alias in node.names]
            for name in names:
                inside.add((base + tuple(name.split(".")))[0])
    return outside, inside


def forbidden(path: Path) -> set[str]:
    """The parts of the package that a file must not import."""
    parts = path.relative_to(ROOT).parts
    return MAY_IMPORT.get(parts[0], set())


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_imports_point_one_way(path):
    """No file of the package imports what lies above it, or anything but the standard library."""
    outside, inside = imported(path)
    assert not outside - STANDARD - NATIVE_ONLY.get(path.name, set()) - {"calculators"}, outside
    assert not inside & forbidden(path), inside & forbidden(path)


def test_a_wrong_import_would_be_seen(tmp_path):
    """The scan sees an import of the layer above."""
    wrong = ROOT / "physics" / "pipe.py"
    _, inside = imported(wrong)
    assert "physics" in inside
    assert forbidden(wrong) >= {"catalog", "show"}


@pytest.mark.parametrize("path", sorted((ROOT / "catalog").glob("*.py")), ids=lambda path: path.name)
def test_annotations_stay_quantities(path):
    """A future import of annotations would turn every input of a calculator into a text."""
    assert "from __future__ import annotations" not in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", [p for p in FILES if p.parent.name != "data"], ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_is_over_400_lines(path):
    """A file that needs more lines needs splitting."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


def test_every_calculator_has_its_file():
    """The list of names and the files of the catalog are the same."""
    from calculators import names
    files = {path.stem for path in (ROOT / "catalog").glob("*.py")} - {"__init__"}
    assert files == {name.replace("-", "_") for name in names()}
