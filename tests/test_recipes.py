"""The recipes of the contributor guide, followed line by line on a scratch copy of the project."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from scripts.toolbox import ROOT

GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
FOLDERS = ("calculators", "docs", "scripts", "tests")
STEP = re.compile(r"(?:(?P<new>New file) `(?P<file>[^`]+)`|In `(?P<in>[^`]+)`, above `(?P<above>[^`]+)`):\n\n"
                  r"```\w+\n(?P<text>.*?)^```$|^```\n(?P<shell>.*?)^```$", re.DOTALL | re.MULTILINE)
RECIPES = ("A rule row", "A published check", "A calculator", "A problem")


def recipe(title: str) -> str:
    """The text of one recipe of the guide."""
    return re.search(rf"^### {title} \(.*?(?=^### A )", GUIDE, re.DOTALL | re.MULTILINE)[0]


def put(file: Path, above: str, text: str) -> None:
    """Put the text above the one place that the guide names; the place may open a block that follows a heading."""
    found = file.read_text(encoding="utf-8")
    assert found.count(above) == 1, f"{file.name} holds {above!r} {found.count(above)} times"
    gap = "\n" if file.suffix == ".md" else ""
    file.write_text(found.replace(above, text + gap + above), encoding="utf-8")


def run(command: str, where: Path) -> str:
    """Run one command of the guide with this Python in the copy; return what it printed."""
    words = command.replace(".venv/bin/python", sys.executable)
    done = subprocess.run(words, shell=True, cwd=where, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{command}\n{(done.stdout + done.stderr)[-3000:]}"
    return done.stdout


@pytest.fixture
def scratch(tmp_path) -> Path:
    """A copy that may be changed; the recipes build on each other there, as in a clone."""
    folder = tmp_path / "clone"
    folder.mkdir()
    for name in FOLDERS:
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__", "node_modules"))
    for file in ROOT.iterdir():
        if file.is_file() and not file.name.startswith("."):
            shutil.copy(file, folder)
    return folder


def test_the_guide_holds_the_recipes():
    """Each recipe changes files, runs something, and says how long it takes."""
    for title in RECIPES:
        steps = list(STEP.finditer(recipe(title)))
        assert [step for step in steps if step["text"]], title
        assert [step for step in steps if step["shell"]], title
        assert re.search(r"\d+ min|day|hour", recipe(title).splitlines()[0]), title


def test_every_recipe_works_on_a_clone(scratch):
    """Every file and line of the four recipes goes in where the guide says, and every command ends well."""
    ran = []
    for title in RECIPES:
        for step in STEP.finditer(recipe(title)):
            if step["new"]:
                assert not (scratch / step["file"]).exists()
                (scratch / step["file"]).write_text(step["text"], encoding="utf-8")
            elif step["above"]:
                put(scratch / step["in"], step["above"], step["text"])
            else:
                ran += [run(line, scratch) for line in step["shell"].splitlines()]
    assert "is full after 2.2" in " ".join(" ".join(ran).split())
    run(".venv/bin/python -m ruff check calculators tests/test_outage_time.py tests/test_rules.py", scratch)
    # Then the copy has the row, the check, the calculator and the problem; the project has none of them.
    ask = ("import sys; sys.path[:0] = ['.', 'tests']; from calculators import names, tables; from calculators.practice import templates; "
           "import test_pump_sizing as t; print('outage-time' in names(), 'pit-without-power' in templates(), "
           "'MN-10' in {r['id'] for r in tables.rule_pack('us-mn')['rows']}, 'pump-sizing-rise-24' in {c.id for c in t.CHECKS})")
    assert run(f'.venv/bin/python -c "{ask}"', scratch).split() == ["True"] * 4
    assert run(f'.venv/bin/python -c "{ask}"', ROOT).split() == ["False"] * 4
