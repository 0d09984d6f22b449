"""Elements of pages that a program makes: children whose text is no Markdown, and tables."""

import xml.etree.ElementTree as etree
from collections.abc import Sequence
from typing import Any

from markdown.util import AtomicString


def sub(parent: etree.Element, tag: str, text: str = "", **attributes: Any) -> etree.Element:
    """Child element whose text is not read as Markdown."""
    child = etree.SubElement(parent, tag, {k.rstrip("_").replace("_", "-"): v for k, v in attributes.items()})
    child.text = AtomicString(text)
    return child


def fold(parent: etree.Element, summary: str) -> etree.Element:
    """What is long, folded under one line."""
    made = etree.SubElement(parent, "details")
    sub(made, "summary", summary)
    return made


def table(parent: etree.Element, head: Sequence[str], label: str = "") -> etree.Element:
    """A new table's body.  With a label it stands in a box of that name which a keyboard scrolls; else the page names it."""
    if label:
        parent = etree.SubElement(parent, "div", {"class": "table", "tabindex": "0", "role": "region", "aria-label": label})
    made = etree.SubElement(parent, "table", {"class": "plain"} if label else {})
    line = etree.SubElement(etree.SubElement(made, "thead"), "tr")
    for word in head:
        sub(line, "th", word, scope="col")
    return etree.SubElement(made, "tbody")
