"""README and contributor guide say what is true."""

import re
import tomllib

import pytest

from calculators import names
from scripts import readme
from scripts.toolbox import ROOT


def test_the_worked_call_prints_what_the_readme_says():
    """The output under the README's call is the output of that call today."""
    text = readme.README.read_text(encoding="utf-8")
    assert readme.filled(text) == text, "run python scripts/readme.py"


def test_the_readme_opens_with_the_job():
    """One paragraph that states the job, then the two commands."""
    text = readme.README.read_text(encoding="utf-8")
    first = text.split("\n\n")[1]
    assert first.startswith("A radon mitigation installer")
    assert text.index("scripts/start.py site") < text.index("scripts/start.py test") < text.index("<!-- output -->")


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_files_that_are_named_exist(page):
    """Every path in code marks that looks like a file of the project exists; what a recipe makes anew does not."""
    text = (ROOT / page).read_text(encoding="utf-8")
    named = set(re.findall(r"(?<!New file )`((?:calculators|docs|scripts|tests)/[\w./-]+\.(?:py|json|md|txt))`", text))
    named |= set(re.findall(r"(?:\]\(|src=\")((?!http)[\w./-]+)[\")]", text))
    assert named
    assert not [path for path in named if not (ROOT / path).exists() and "PACK" not in path]


def test_the_guide_names_every_dependency():
    """Each pinned tool of the input lists has its reason in the contributor guide."""
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").lower()
    for listed in ("requirements.in", "requirements-test.in", "requirements-pyodide.in"):
        for line in (ROOT / "scripts" / listed).read_text(encoding="utf-8").splitlines():
            name = re.match(r"[A-Za-z][\w.-]*", line)
            if name:
                assert name[0].lower() in guide, name[0]


def test_every_calculator_has_its_page():
    """Each calculator is worked on a page of the handbook."""
    pages = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "docs").rglob("*.md"))
    missing = [name for name in names() if not re.search(rf"^/// worked \| {name}$", pages, re.MULTILINE)]
    assert not missing


def test_one_version_everywhere():
    """Package, site, citation and changelog name the same version or what follows it; nobody is named as an author."""
    version = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    assert f'edition: "{version}"' in (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    citation = (ROOT / "CITATION.cff").read_text(encoding="utf-8")
    assert f'\nversion: "{version}"\n' in citation
    assert re.findall(r"(?m)^  - name: (.*)$", citation) == ['"Underslab contributors"']
    assert "family-names" not in citation
    changes = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert re.search(rf"(?m)^## (Not released yet|{re.escape(version)})", changes)
    licence = (ROOT / "LICENSE").read_text(encoding="utf-8")
    assert set(re.findall(r"Copyright \(c\) \d+ (.*)", licence)) == {"Underslab contributors"}
    assert {"MIT License", "Creative Commons Attribution 4.0 International"} <= set(re.findall(r"MIT License|Creative Commons Attribution 4\.0 International", licence))
