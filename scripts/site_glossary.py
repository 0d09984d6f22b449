"""Links the first use of a trade word on a page to its sentence in the glossary."""

import re
import xml.etree.ElementTree as etree
from functools import cache
from pathlib import Path

from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString

GLOSSARY = Path(__file__).resolve().parent.parent / "docs" / "look-up" / "glossary.md"
PAGE = "/look-up/glossary.md"  # from the docs folder; the site generator makes it relative to the page
ENTRY = re.compile(r"^- \*\*(.+?)\*\*\{ #([\w-]+) \}: ", re.MULTILINE)
EVERYDAY = {"Head", "Grade", "Fall", "Choke", "Primer"}  # on most pages these words mean the usual thing
FORMS = {  # how a term is written in a sentence, where that is not the term itself
    "Coupling, flexible": ("flexible coupling",),
    "Manometer, U-tube": ("U-tube", "manometer"),
    "WC, inches of": ("in. WC",),
    "GFCI": ("ground-fault protection", "GFCI"),
    "Drain tile": ("drain tile", "footing drain"),
    "Re-entry": ("re-entry", "re-entrainment"),
    "Working level month": ("working level month", "WLM"),
    "Presumed asbestos-containing material": ("presumed asbestos",),
    "Fireblocking": ("fireblocking",),
    "Schedule 40": ("schedule 40",),
    "Positive-pressure pipe": ("pressure pipe", "blowing pipe"),
    "Appendix F": ("Appendix F", "model appendix"),
    "Category I": ("Category I",),
    "Sub-membrane depressurization": ("suction below a sheet", "suction below it"),
    "Pressure field extension": ("pressure field extension", "field extension"),
    "Relative percent difference": ("relative percent difference",),
    "Non-permanent sealant": ("non-permanent", "peels off"),
    "Closed-building conditions": ("closed building", "closed house"),
    "Soil gas retarder": ("soil-gas sheet", "sheet on soil", "sheet for the soil"),
    "Gas-permeable layer": ("stone bed",),
    "OM&M plan": ("plan of operation",),
    "F rating": ("F rating",),
    "Long-term test": ("long-term test", "long test"),
    "Short-term test": ("short-term test", "short test"),
    "One-call centre": ("one-call",),
    "Active alert": ("sound or light",),
    "Assigned protection factor": ("assigned protection",),
    "Block core": ("open core", "block core"),
    "Condensate by-pass": ("by-pass",),
    "Duplicate": ("duplicate", "second device"),
    "Equivalent length": ("equivalent pipe", "lengths of pipe", "length of straight pipe"),
    "Fan curve": ("fan's curve", "fan's data sheet"),
    "Fire separation": ("garage separation", "fire separation"),
    "Fire-resistance rating": ("hour rating", "rated wall"),
    "Float switch": ("tethered float", "float"),
    "Operable opening": ("part that can open",),
    "Operating point": ("cross at one point",),
    "Rain diverter": ("diverter",),
    "Respirable silica": ("silica",),
    "Short cycling": ("starts again too often",),
    "System curve": ("system's curve",),
    "Through penetration": ("penetration",),
}
LEFT_ALONE = {"a", "code", "pre", "h1", "h2", "h3", "h4", "h5", "h6", "svg", "button", "label", "form", "th", "summary", "b"}
LISTS_OF_LINKS = {"ten", "asked"}  # a whole row is one link there


@cache
def entries() -> dict[str, str]:
    """Terms of the glossary with their anchors."""
    return dict(ENTRY.findall(GLOSSARY.read_text(encoding="utf-8")))


@cache
def pattern() -> tuple[re.Pattern[str], dict[str, str]]:
    """One pattern for all written forms, longest first, and the anchor of each form."""
    anchors = {}
    for term, anchor in entries().items():
        if term not in EVERYDAY:
            anchors |= {form.lower(): anchor for form in FORMS.get(term, (term,))}
    forms = sorted(anchors, key=len, reverse=True)
    return re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, forms))})(?:s|es)?(?![\w-])", re.IGNORECASE), anchors


class FirstUse(Treeprocessor):
    """Runs when the words of the page are finished, so that it meets no Markdown."""

    def run(self, root):
        if any(element.tag == "h1" and "".join(element.itertext()).strip() == "Glossary" for element in root.iter()):
            return
        self.walk(root, set())

    def walk(self, element: etree.Element, seen: set[str]) -> None:
        """Link inside an element, in reading order; ``seen`` holds what the page has linked."""
        if element.tag in LEFT_ALONE or LISTS_OF_LINKS & set((element.get("class") or "").split()) or "src" in (element.get("class") or ""):
            return
        self.link(element, None, seen)
        for child in list(element):
            self.walk(child, seen)
            self.link(element, child, seen)

    def link(self, parent: etree.Element, after: etree.Element | None, seen: set[str]) -> None:
        """Link the words at the head of ``parent``, or those behind a child of it."""
        text = parent.text if after is None else after.tail
        if not text or isinstance(text, AtomicString):
            return
        expression, anchors = pattern()
        for match in expression.finditer(text):
            anchor = anchors[match[1].lower()]
            if anchor in seen:
                continue
            seen.add(anchor)
            link = etree.Element("a", {"class": "term", "href": f"{PAGE}#{anchor}"})
            link.text = AtomicString(match[0])
            link.tail = text[match.end():]
            parent.insert(0 if after is None else list(parent).index(after) + 1, link)
            if after is None:
                parent.text = text[: match.start()]
            else:
                after.tail = text[: match.start()]
            self.link(parent, link, seen)
            return
