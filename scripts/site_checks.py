"""The table of published checks on the page How this is checked; the rows are those that the tests run."""

import importlib
import re
import sys
import xml.etree.ElementTree as etree
from pathlib import Path

import calculators
from scripts import site_markup
from scripts.site_markup import sub
from scripts.site_sources import put_source

TESTS = Path(__file__).resolve().parent.parent / "tests"


def checks() -> list:
    """Every published check of the tests, in the order of their files."""
    if str(TESTS) not in sys.path:
        sys.path.insert(0, str(TESTS))
    rows = []
    for path in sorted(TESTS.glob("test_*.py")):
        if "CHECKS" in path.read_text(encoding="utf-8"):
            rows += getattr(importlib.import_module(path.stem), "CHECKS", [])
    return rows


def table() -> etree.Element:
    """All checks, grouped by what they are about: printed figure, ours, difference, tolerance and its reason."""
    box = etree.Element("div", {"class": "published-checks"})
    rows = checks()
    marks = {mark: sum(row.seen == mark for row in rows) for mark in dict.fromkeys(row.seen for row in rows)}
    counted = ", ".join(f"{count} {mark}" for mark, count in marks.items())
    sub(box, "p", f"{len(rows)} printed figures are compared on every build ({counted}).")
    for about in dict.fromkeys(row.about for row in rows):
        group(box, about, [row for row in rows if row.about == about])
    return box


def title_of(about: str) -> str:
    """The title of a calculator, or the first words that a module of physics says of itself."""
    if about in calculators.names():
        return calculators.declaration(about).title
    return re.split("[:.]|, for", importlib.import_module(f"calculators.physics.{about}").__doc__)[0]


def group(box: etree.Element, about: str, rows: list) -> None:
    """One table of checks.  Raises ValueError when a row does not hold: the page would be untrue."""
    title = title_of(about)
    sub(box, "h2", title, id=f"checks-{about.replace('_', '-')}")
    box = site_markup.fold(box, f"Figures compared: {len(rows)}")
    head = ("what, and where it is printed", "printed", "ours", "off by", "allowed", "why that much")
    body = site_markup.table(box, head, f"Checks: {title}")
    for row in rows:
        if not row.holds():
            raise ValueError(f"published check {row.id}: {row}")
        line = etree.SubElement(body, "tr")
        cell = sub(line, "td", row.id.replace("-", " "))
        put_source(sub(cell, "p", class_="src"), f"{row.source} {row.at}" + ("" if row.seen == "seen" else f" ({row.seen})"))
        found = row.found()
        unit = "" if row.unit == "1" else f" {row.unit}"
        for text in (f"{row.printed:.5g}{unit}", f"{found:.5g}{unit}", f"{found - row.printed:+.2g}", f"{row.tolerance:.2g}", row.because):
            sub(line, "td", text)
