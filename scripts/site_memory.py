"""What the handbook and its calculators remember and did not see in print: every constant and every line, by itself."""

import json
import re
import xml.etree.ElementTree as etree
from collections.abc import Iterator
from pathlib import Path

from calculators import tables
from scripts import check_prose
from scripts.site_markup import fold, sub, table
from scripts.site_sources import put_source

DATA = Path(__file__).resolve().parent.parent / "calculators" / "data"
NOT_CONSTANTS = {"sources.json", "units.json", "job.schema.json", "coverage.json"}


def constants() -> Iterator[tuple[str, str, str]]:
    """(name, value, source) of each number in the data tables whose source, or whose own mark, is from memory.

    A fitting that has the same figure for air and water is named once.
    """
    seen = set()
    for path in sorted(DATA.glob("*.json")):
        if path.name in NOT_CONSTANTS:
            continue
        for place, value, source in inside(json.loads(path.read_text(encoding="utf-8")), path.stem):
            name = re.sub(r", (?:rows|air|water)(?=,)|, 1$", "", place)
            if (name, value) not in seen:
                seen.add((name, value))
                yield name, value, source


def inside(data: object, place: str) -> Iterator[tuple[str, str, str]]:
    """The same for one object of a table."""
    if isinstance(data, list):
        for i, item in enumerate(data):
            yield from inside(item, f"{place}, {item.get('id', i + 1) if isinstance(item, dict) else i + 1}")
    if not isinstance(data, dict):
        return
    source = data.get("source")
    if isinstance(source, str) and remembered(source, data.get("mark")):
        words = " ".join(str(data[key]) for key in ("value", "low", "high", "unit") if key in data and data[key] not in ("1", None))
        yield place.replace("_", " ").replace("-", " "), words or str(data.get("text", data.get("note", ""))), source
    for key, value in data.items():
        yield from inside(value, f"{place}, {key}")


def remembered(source: str, mark: str | None) -> bool:
    """Whether a figure was not seen: by its own mark, else by that of its source."""
    entry = tables.table("sources")[source]
    return (mark or entry.get("mark", "")) == "from memory" or entry["kind"] == "from memory"


def said() -> Iterator[tuple[str, str, str]]:
    """(page, address in the docs folder, words) of each line that names a source from memory."""
    register = tables.table("sources")
    for path in check_prose.pages():
        for line in check_prose.lines(path):
            ids = re.findall(r"\{src:\s*([\w-]+)", line.raw)
            if any(register[id]["kind"] == "from memory" for id in ids):
                title = re.search(r"^title: (.+)$", path.read_text(encoding="utf-8"), re.MULTILINE)
                yield title[1].strip('"') if title else path.stem, f"/{check_prose.name(path)}", tidy(line.text)


def tidy(words: str) -> str:
    """A line without the gaps that its sources leave; a row's cells behind colons."""
    cells = [cell.strip() for cell in words.split(" ; ")]
    return re.sub(r" +([.,;])", r"\1", ": ".join(cell.rstrip(" ;") for cell in cells if cell.strip(" ;")))


def lists() -> etree.Element:
    """Both as tables."""
    box = etree.Element("div", {"class": "filled"})
    lines = list(said())
    body = table(fold(box, f"Lines of the handbook that say so: {len(lines)}"), ("page", "what it says"))
    for page, address, words in lines:
        row = etree.SubElement(body, "tr")
        sub(sub(row, "td"), "a", page, href=address)
        sub(row, "td", words)
    numbers = list(constants())
    body = table(fold(box, f"Figures in the tables of the calculators: {len(numbers)}"), ("figure", "value", "source"))
    for name, value, source in numbers:
        row = etree.SubElement(body, "tr")
        sub(row, "td", name)
        sub(row, "td", value)
        put_source(sub(sub(row, "td"), "span", class_="src-ref"), source)
    return box
