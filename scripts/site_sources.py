"""Source references in pages: {src: id section}, and the tables that print the register and the rule packs."""
import difflib
import re
import xml.etree.ElementTree as etree

from markdown.inlinepatterns import InlineProcessor
from markdown.util import AtomicString

from calculators import tables, units
from scripts.site_markup import sub, table

SOURCES_PAGE = "/look-up/sources.md"  # from the docs folder; the site generator makes it relative to the page
LONGEST = 70
SI_OF = {"ft": "m", "in": "mm", "ft2": "m2", "ft3": "L", "cfm": "L/s", "ft/min": "m/s"}


def near(name: str, known) -> str:
    """The names that `name` may have been meant as, for an error text."""
    known = sorted(known)
    return ", ".join(difflib.get_close_matches(name, known, n=4, cutoff=0.5) or known[:12])


def source(reference: str) -> tuple[str, dict, str]:
    """(id, entry, section) of a reference such as "irc-2021 P3303.1.2"; ValueError when the id is not registered."""
    id, _, section = reference.strip().partition(" ")
    register = tables.table("sources")
    if id not in register:
        raise ValueError(f"no source {id!r}; near it: {near(id, register)}")
    return id, register[id], section.strip()


def kind_words(entry: dict) -> str:
    """The kind as the reader sees it; a published text that was only seen restated says so."""
    return entry["kind"] + (", secondary" if entry.get("mark") == "secondary" else "")


def short(entry: dict) -> str:
    """First words of the citation, enough to know the document by."""
    parts = re.split(r"([:,;]\s|(?<=\w\w)(?<!No)\. |\.$)", entry["citation"], maxsplit=2)
    head = parts[0] if " " in parts[0] or "-" in parts[0] else "".join(parts[:3])  # "EPA" alone names no document
    if len(head) > LONGEST:
        head = head[:LONGEST].rsplit(" ", 1)[0] + " …"
    edition = entry.get("edition", "")
    return f"{head} {edition}" if re.fullmatch(r"\d{4}", edition) and edition not in head else head


def put_source(line, reference: str) -> None:
    """Append kind, short citation (a link into the register) and section of a source to an element."""
    id, entry, section = source(reference)
    to = f"{SOURCES_PAGE}#{id}"
    kind = sub(line, "b")
    if id == entry["kind"].replace(" ", "-"):  # a general entry: its kind says it all
        sub(kind, "a", kind_words(entry), href=to)
        kind.tail = AtomicString(f" {section}" if section else "")
        return
    kind.text = AtomicString(kind_words(entry))
    kind.tail = " "
    head = short(entry)
    last = head.rsplit(" ", 1)[-1]
    if section.startswith(last):  # "Code 742.1210" and "742.1210(c)": the section is said once
        head = head.removesuffix(last).rstrip()
    sub(line, "a", f"{head}, {section}" if section else head, href=to)


class SourceReference(InlineProcessor):
    """{src: id section} in running text."""

    def handleMatch(self, m, data):
        span = etree.Element("span", {"class": "src-ref"})
        put_source(span, m.group(1))
        return span, m.start(0), m.end(0)



def register() -> etree.Element:
    """The whole register of sources, by kind, each entry with its id as anchor."""
    box = etree.Element("div", {"class": "register"})
    entries = tables.table("sources")
    for kind in dict.fromkeys(entry["kind"] for entry in entries.values()):
        sub(box, "h2", kind[0].upper() + kind[1:], id="kind-" + kind.replace(" ", "-"))
        rows = etree.SubElement(box, "dl", {"class": "sources"})
        for id, entry in entries.items():
            if entry["kind"] != kind:
                continue
            row = etree.SubElement(rows, "div", {"id": id})
            sub(row, "dt", entry["citation"])
            mark = entry.get("mark")
            parts = [mark if mark != kind else None, entry.get("section"), entry.get("edition"), entry.get("note")]
            sub(row, "dd", "; ".join(p for p in parts if p) or kind)
    return box


def rules(chosen: str = "") -> etree.Element:
    """The rule packs (all, or the one named), row by row with section and mark; ValueError for an unknown pack."""
    known = tables.rule_packs()
    if chosen and chosen not in known:
        raise ValueError(f"no rule pack {chosen!r}; known: {', '.join(known)}")
    box = etree.Element("div", {"class": "rule-packs"})
    for id in (chosen,) if chosen else known:
        pack = tables.rule_pack(id)
        sub(box, "h3", pack["title"], id=f"pack-{id}")
        sub(box, "p", f"{pack['jurisdiction']}; {pack['edition']}. {pack['in_force_note']}", class_="small")
        body = table(box, ("what the text asks", "figure", "section"), f"Rows of the pack {pack['title']}")
        for row in pack["rows"]:
            line = etree.SubElement(body, "tr", {"id": row["id"].lower()})
            sub(line, "td", row["text"])
            sub(line, "td", figure(row))
            mark = "" if row.get("mark") == "seen" else f" ({row['mark']})"
            sub(line, "td", row["section"] + mark)
        for title, notes in (("Not seen of this text", pack["not_seen"]), ("How it was read here", pack["reading_notes"])):
            if notes:
                sub(box, "p", title + ":", class_="small")
                notes_list = etree.SubElement(box, "ul", {"class": "small"})
                for note in notes:
                    sub(notes_list, "li", note)
    return box


def figure(row: dict) -> str:
    """The row's number as printed, with its SI value behind it; empty where the row is words or compares with nothing (above the edge)."""
    value, unit = row.get("value"), row.get("unit")
    if not isinstance(value, (int, float)) or isinstance(value, bool) or unit is None or not value:
        return ""
    printed = f"{value:g}" if unit == "1" else f"{value:g}\u00a0{unit}"
    if unit not in SI_OF:
        return printed
    other = units.from_si(value * units.factor(unit), SI_OF[unit])
    rounded = f"{other:.3g}" if other < 1000 else f"{other:,.0f}"
    return f"{printed} ({rounded}\u00a0{SI_OF[unit]})"
