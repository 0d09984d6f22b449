"""The coverage table: published subjects and headings against parts, calculators and problems; gaps shown as gaps."""

import xml.etree.ElementTree as etree

from calculators import names, tables
from calculators.practice import templates
from calculators.show.text import PART_TITLES
from scripts import site_markup
from scripts.site_markup import sub
from scripts.site_sources import put_source


def table() -> etree.Element:
    """One row a subject.  Raises ValueError when a row names a part or calculator that does not exist."""
    rows = tables.table("coverage")["rows"]
    box = etree.Element("div")
    head = ("subject", "where it is asked", "part here", "calculators", "problems")
    body = site_markup.table(box, head, "Coverage of published subjects")
    for row in rows:
        unknown = [name for name in row["calculators"] if name not in names()]
        if unknown or (row["part"] and row["part"] not in PART_TITLES):
            raise ValueError(f"coverage of {row['subject']!r}: {unknown or row['part']} does not exist")
        line = etree.SubElement(body, "tr")
        sub(line, "td", row["subject"])
        put_source(sub(etree.SubElement(line, "td"), "p", class_="src"), f"{row['source']} {row['section']}")
        sub(line, "td", PART_TITLES[row["part"]] if row["part"] else f"Gap. {row['gap']}")
        sub(line, "td", ", ".join(row["calculators"]) or "–")
        count = problems(row)
        sub(line, "td", str(count) if count else "none")
    return box


def problems(row: dict) -> int:
    """How many problems belong to a subject: those of its calculators, else those of its part."""
    found = [t for t in templates().values() if t.calculator in row["calculators"] or (not row["calculators"] and t.part == row["part"])]
    return len(found)
