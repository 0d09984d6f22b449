"""The part of the test run that happens inside Pyodide."""

import sys
import zipimport


class StockLibrary:
    """Finds modules of the standard library that the shipped one leaves out, those inside shipped packages too."""

    def __init__(self, archive: str) -> None:
        self.archive = archive

    def find_spec(self, name: str, path: object = None, target: object = None) -> object:
        parent = name.rpartition(".")[0].replace(".", "/")
        try:
            return zipimport.zipimporter(f"{self.archive}/{parent}" if parent else self.archive).find_spec(name, target)
        except zipimport.ZipImportError:
            return None


def add_stock_library(archive: str) -> None:
    sys.meta_path.append(StockLibrary(archive))


class Counter:
    """Counts, for each test file, what passed and what did not."""

    def __init__(self) -> None:
        self.files: dict[str, dict[str, object]] = {}

    def pytest_runtest_logreport(self, report: object) -> None:
        row = self.files.setdefault(report.nodeid.split("::")[0], {"passed": 0, "skipped": 0, "failed": []})
        if report.failed:
            row["failed"].append(f"{report.nodeid}\n{report.longreprtext[-1500:]}")
        elif report.skipped:
            row["skipped"] += 1
        elif report.when == "call":
            row["passed"] += 1

    def pytest_collectreport(self, report: object) -> None:
        if report.failed:
            row = self.files.setdefault(report.nodeid, {"passed": 0, "skipped": 0, "failed": []})
            row["failed"].append(report.longreprtext[-1500:])


def run(files: str) -> str:
    """Run the test files named in a JSON list; the answer is JSON too."""
    import contextlib
    import io
    import json
    import os

    import pytest

    import calculators

    os.chdir("/project")
    counter = Counter()
    options = ["-q", "-p", "no:cacheprovider", "-c", "/dev/null", "--rootdir", "/project", "--tb", "short"]
    with contextlib.redirect_stdout(io.StringIO()) as said:
        status = int(pytest.main([*options, *json.loads(files)], plugins=[counter]))
    return json.dumps({
        "status": status, "calculators": calculators.__file__, "files": counter.files, "said": said.getvalue()[-3000:],
    })
