"""What Markdown pages can hold beyond Markdown: worked examples, drawings, cautions, work steps, sources.

A Python-Markdown extension on pymdownx.blocks. It imports nothing of the site generator. Blocks alone would swallow
mistakes (a misspelt name, a bad option or a forgotten end just becomes text), so every such case is looked for here
and raised as ValueError: a page with a broken block stops the build.
"""
import difflib
import importlib
import json
import pathlib
import re
import xml.etree.ElementTree as etree

from markdown import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension
from pymdownx.blocks.block import Block, type_string

from calculators import tables

JOBS = pathlib.Path(__file__).resolve().parent.parent / "calculators" / "data" / "jobs"
SOURCES_PAGE = "/look-up/sources.md"  # from the docs folder; the site generator makes it relative to the page
LEVELS = ("danger", "warning", "note")
LINE = re.compile(r"^\s*(/{3,})[ \t]*([\w-]+)?[ \t]*(\|.*)?$")
LEFT = re.compile(r"(?m)^ {0,3}///+ .*$")
STASHED = re.compile("\x02[^\x03]*\x03")


def near(name: str, known) -> str:
    """The names that `name` may have been meant as, for an error text."""
    known = sorted(known)
    return ", ".join(difflib.get_close_matches(name, known, n=4, cutoff=0.5) or known[:12])


def sub(parent, tag, text="", **attributes):
    """Child element whose text is not read as Markdown."""
    child = etree.SubElement(parent, tag, {k.rstrip("_").replace("_", "-"): v for k, v in attributes.items()})
    child.text = AtomicString(text)
    return child


# Sources ------------------------------------------------------------------------------------------------------------

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
    head = re.split(r"[:,;]\s|\. (?=[A-Z][a-z])|\.$", entry["citation"], maxsplit=1)[0]
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


# Blocks -------------------------------------------------------------------------------------------------------------

class Strict(Block):
    """A block that complains: whatever pymdownx would quietly turn into text is an error."""

    ARGUMENT = True

    def _validate(self, parent, arg, **options):
        if super()._validate(parent, arg, **options):
            return True
        known = ", ".join(self.OPTIONS) or "none"
        raise ValueError(f"block {self.NAME!r}: argument {arg!r} or options {options} not understood; options: {known}")

    def uid(self) -> str:
        """Id that is unique on the page and the same in every build."""
        self.tracker["count"] = self.tracker.get("count", 0) + 1
        return f"{self.NAME[0]}{self.tracker['count']}"


class Whole(Strict):
    """A block that is made by the program and takes no text."""

    def on_create(self, parent):
        slot = etree.SubElement(parent, "div", {"class": f"{self.NAME}-slot"})
        slot.text = AtomicString(self.md.htmlStash.store(self.html()))
        return slot

    def on_end(self, block):
        if len(block):
            raise ValueError(f"block {self.NAME!r} ({self.argument}) takes options only, no text; options are indented by 4")

    def html(self) -> str:
        raise NotImplementedError


class Worked(Whole):
    """Live worked example: /// worked | calculator, with the job file that its numbers come from."""

    NAME = "worked"
    OPTIONS = {"job": ("", type_string), "title": ("", type_string)}

    def html(self):
        calculators = importlib.import_module("calculators")
        names = calculators.names()
        if self.argument not in names:
            raise ValueError(f"no calculator {self.argument!r}; near it: {near(self.argument, names)}")
        inputs, house = job_inputs(self.options["job"], self.argument)
        heading = self.options["title"] or f"Worked example: {house}"
        page = importlib.import_module("calculators.show.page")
        return page.worked(self.argument, inputs, self.uid(), heading)


def job_inputs(job: str, calculator: str) -> tuple[dict, str]:
    """(inputs of one calculator, name of the house) from a job file; ValueError when there are none."""
    path = JOBS / f"{job}.json"
    if not path.is_file():
        raise ValueError(f"no job {job!r}; near it: {near(job, [p.stem for p in JOBS.glob('*.json')])}")
    data = json.loads(path.read_text(encoding="utf-8"))
    inputs = data.get("calculators", {})
    if calculator not in inputs:
        raise ValueError(f"job {job!r} has no inputs for {calculator!r}; it has: {', '.join(sorted(inputs))}")
    return inputs[calculator], data.get("title", job)


class Drawing(Whole):
    """A drawing by its name."""

    NAME = "drawing"

    def html(self):
        drawings = importlib.import_module("calculators.show.drawings")
        try:
            return drawings.draw(self.argument, self.uid())
        except LookupError as error:
            raise ValueError(f"no drawing {self.argument!r}: {error}") from None


class Caution(Strict):
    """A caution with Markdown inside: /// caution | danger."""

    NAME = "caution"
    OPTIONS = {"source": ("", type_string)}

    def on_validate(self, parent):
        if self.argument not in LEVELS:
            raise ValueError(f"caution {self.argument!r}; levels: {', '.join(LEVELS)}")
        return True

    def on_create(self, parent):
        box = etree.SubElement(parent, "div", {"class": f"caution is-{self.argument}"})
        sub(box, "p", self.argument.capitalize(), class_="caution__level")
        return box

    def on_end(self, block):
        if len(block) < 2:
            raise ValueError(f"caution {self.argument!r} says nothing")
        if self.options["source"]:
            put_source(sub(block, "p", class_="src"), self.options["source"])


class Steps(Strict):
    """Work steps in their order: holds one ordered list."""

    NAME = "steps"
    ARGUMENT = False

    def on_create(self, parent):
        return etree.SubElement(parent, "div", {"class": "work-steps"})

    def on_end(self, block):
        if block.find("ol") is None:
            raise ValueError("block 'steps' holds no numbered list")


class Find(Strict):
    """The look-up box; the page's script fills in what it finds."""

    NAME = "find"
    ARGUMENT = False

    def on_create(self, parent):
        form = etree.SubElement(parent, "form", {"class": "lookup", "id": "look-up", "role": "search", "aria-label": "Look up",
                                                 "autocomplete": "off", "novalidate": "novalidate", "data-page": "look-up/"})
        sub(form, "label", "Look up", for_="look-up-words")
        sub(form, "p", "Two letters are enough: a pipe, a unit, a rule, a sound.", class_="hint", id="look-up-help")
        ask = etree.SubElement(form, "div", {"class": "ask"})
        etree.SubElement(ask, "input", {"id": "look-up-words", "name": "q", "type": "text", "autocapitalize": "off",
                                        "spellcheck": "false", "aria-describedby": "look-up-help"})
        sub(ask, "button", "Find", type="submit", class_="act act--main")
        return form


class Register(Whole):
    """The whole register of sources, each entry with its id as anchor."""

    NAME = "sources"
    ARGUMENT = False

    def html(self):
        box = etree.Element("div", {"class": "register"})
        register = tables.table("sources")
        for kind in dict.fromkeys(entry["kind"] for entry in register.values()):
            sub(box, "h2", kind[0].upper() + kind[1:], id="kind-" + kind.replace(" ", "-"))
            rows = etree.SubElement(box, "dl", {"class": "sources"})
            for id, entry in register.items():
                if entry["kind"] != kind:
                    continue
                row = etree.SubElement(rows, "div", {"id": id})
                sub(row, "dt", entry["citation"])
                parts = [entry.get("section"), entry.get("edition"), entry.get("note")]
                mark = entry.get("mark")
                sub(row, "dd", "; ".join(p for p in [mark if mark != kind else None, *parts] if p) or kind)
        return etree.tostring(box, encoding="unicode", method="html")


# Guard --------------------------------------------------------------------------------------------------------------

class OpenAndClose(Preprocessor):
    """Looks at the lines before anything is parsed; code fences are out of the way by then."""

    def run(self, lines):
        known = self.md.parser.blockprocessors["blocks"].blocks
        stack = []
        for number, line in enumerate(lines, 1):
            m = LINE.match(line)
            if not m:
                continue
            length, name = len(m.group(1)), m.group(2)
            if name is None:
                if not stack or stack[-1][0] != length:
                    raise ValueError(f"line {number}: {m.group(1)} closes nothing")
                stack.pop()
            elif name.lower() not in known:
                raise ValueError(f"line {number}: no block named {name!r}; known: {', '.join(sorted(known))}")
            elif stack and stack[-1][0] <= length:
                outer = stack[-1]
                raise ValueError(f"line {number}: block {outer[1]!r} of line {outer[2]} is never closed"
                                 f" (or needs more slashes than the {name!r} in it)")
            else:
                stack.append((length, name, number))
        if stack:
            raise ValueError(f"line {stack[-1][2]}: block {stack[-1][1]!r} is never closed")
        return lines


class NothingLeft(Treeprocessor):
    """A block or source reference that is still text was not understood."""

    def run(self, root):
        for element in root.iter():
            for text in (element.text, element.tail):
                left = text and not isinstance(text, AtomicString) and LEFT.search(text)
                if left:
                    raise ValueError(f"block not understood (argument or option wrong): {left.group(0).strip()!r}")


class NoReferenceLeft(Treeprocessor):
    """Runs after the inline patterns: a reference that was not read would be printed as it stands."""

    def run(self, root):
        for element in root.iter():
            for text in (element.text, element.tail):
                if text and not isinstance(text, AtomicString) and element.tag not in ("code", "pre") and "{src" in text:
                    raise ValueError(f"source reference not understood: {text[text.index('{src'):][:60]!r}")


# Tables -------------------------------------------------------------------------------------------------------------

class ScrollingTables(Treeprocessor):
    """Puts each table into a box that a keyboard can scroll, named by the heading above it."""

    def run(self, root):
        seen = {}
        heading = ""
        parents = {child: parent for parent in root.iter() for child in parent}
        for element in list(root.iter()):
            if re.fullmatch("h[1-6]", str(element.tag)):
                heading = STASHED.sub("", "".join(element.itertext())).strip()
            if element.tag != "table" or "table" in parents[element].get("class", ""):
                continue
            seen[heading] = seen.get(heading, 0) + 1
            name = f"Table: {heading}" + (f", {seen[heading]}" if seen[heading] > 1 else "")
            parent = parents[element]
            box = etree.Element("div", {"class": "table", "tabindex": "0", "role": "region", "aria-label": name})
            place = list(parent).index(element)
            parent.remove(element)
            parent.insert(place, box)
            box.tail, element.tail = element.tail, None
            element.set("class", (element.get("class", "") + " plain").strip())
            box.append(element)


class SiteBlocks(BlocksExtension):
    def extendMarkdownBlocks(self, md, block_mgr):
        for block in (Worked, Drawing, Caution, Steps, Find, Register):
            block_mgr.register(block, self.getConfigs())


class Site(Extension):
    """All of the above as one extension."""

    def extendMarkdown(self, md):
        SiteBlocks().extendMarkdown(md)
        md.preprocessors.register(OpenAndClose(md), "block_guard", 5)  # after code fences (25) and raw HTML (20)
        md.treeprocessors.register(NothingLeft(md), "block_left_guard", 25)  # before inline patterns (20)
        md.treeprocessors.register(NoReferenceLeft(md), "source_left_guard", 7)
        md.treeprocessors.register(ScrollingTables(md), "scrolling_tables", 6)  # before the table of contents (5)
        md.inlinePatterns.register(SourceReference(r"\{src:\s*([^}]+?)\s*\}", md), "source_reference", 175)


def makeExtension(**options):
    return Site(**options)
