"""What Markdown pages can hold beyond Markdown: worked examples, drawings, cautions, work steps, sources.

A Python-Markdown extension on pymdownx.blocks. It imports nothing of the site generator. Blocks alone would swallow
mistakes (a misspelt name, a bad option or a forgotten end just becomes text), so every such case is looked for, here
and in site_guard, and raised as ValueError: a page with a broken block stops the build.
"""
import importlib
import json
import pathlib
import re
import xml.etree.ElementTree as etree
from abc import abstractmethod

from markdown import Extension
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension
from pymdownx.blocks.block import Block, type_string

from scripts import site_glossary, site_guard, site_sources
from scripts.site_markup import sub
from scripts.site_sources import near, put_source

JOBS = pathlib.Path(__file__).resolve().parent.parent / "calculators" / "data" / "jobs"
LEVELS = ("danger", "warning", "note")
STASHED = re.compile("\x02[^\x03]*\x03")


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
        made = self.make()
        if isinstance(made, str):  # finished HTML is put aside, so that nothing in it is read as Markdown
            made, html = etree.Element("div", {"class": f"{self.NAME}-slot"}), made
            made.text = AtomicString(self.md.htmlStash.store(html))
        self.size = len(made)
        parent.append(made)
        return made

    def on_end(self, block):
        if len(block) != self.size:
            raise ValueError(f"block {self.NAME!r} ({self.argument}) takes options only, no text; options are indented by 4")

    @abstractmethod
    def make(self) -> str | etree.Element:
        """Finished HTML, or elements (whose ids and headings the site generator then knows of)."""


class Worked(Whole):
    """Live worked example: /// worked | calculator, with the job file that its numbers come from."""

    NAME = "worked"
    OPTIONS = {"job": ("", type_string), "title": ("", type_string)}

    def make(self):
        calculators = importlib.import_module("calculators")
        names = calculators.names()
        if self.argument not in names:
            raise ValueError(f"no calculator {self.argument!r}; near it: {near(self.argument, names)}")
        inputs, house = job_inputs(self.options["job"], self.argument)
        heading = self.options["title"] or f"Worked example: {house}"
        page = importlib.import_module("calculators.show.page")
        return page.worked(self.argument, inputs, self.uid(), heading)


def job_inputs(name: str, calculator: str) -> tuple[dict, str]:
    """(inputs of one calculator, name of the house) from a job file; ValueError when there are none."""
    data = job_data(name)
    job = importlib.import_module("calculators.job")
    return job.worked_inputs(data, calculator), data.get("title", name)


def job_data(name: str) -> dict:
    """A job file's data; ValueError for an unknown job."""
    path = JOBS / f"{name}.json"
    if not path.is_file():
        raise ValueError(f"no job {name!r}; near it: {near(name, [p.stem for p in JOBS.glob('*.json')])}")
    return json.loads(path.read_text(encoding="utf-8"))


class Job(Whole):
    """A whole job as its sheet: /// job | quarry-lane."""

    NAME = "job"

    def make(self):
        sheet = importlib.import_module("calculators.show.sheet")
        job = importlib.import_module("calculators.job")
        return sheet.fragment(job.run(job_data(self.argument)))


class Checks(Whole):
    """Every published check with the figure printed and ours, as the tests run them."""

    NAME = "checks"
    ARGUMENT = False

    def make(self):
        return importlib.import_module("scripts.site_checks").table()


class Drawing(Whole):
    """A drawing by its name."""

    NAME = "drawing"

    def make(self):
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


class Practice(Whole):
    """The learner's practice: every part with its problems."""

    NAME = "practice"
    ARGUMENT = False

    def make(self):
        return importlib.import_module("scripts.site_practice").practice()


class SetPaper(Whole):
    """The trainer's page."""

    NAME = "set-paper"
    ARGUMENT = False

    def make(self):
        return importlib.import_module("scripts.site_practice").set_paper()


class Coverage(Whole):
    """Published subjects against what the handbook holds."""

    NAME = "coverage"
    ARGUMENT = False

    def make(self):
        return importlib.import_module("scripts.site_coverage").table()


class Licences(Whole):
    """Packages with the licence that each states: those shipped, or the tools."""

    NAME = "licences"

    def make(self):
        made = importlib.import_module("scripts.site_licences")
        return {"shipped": made.table, "tools": made.tool_table}[self.argument]()


class Sources(Whole):
    """The whole register of sources."""

    NAME = "sources"
    ARGUMENT = False

    def make(self):
        return site_sources.register()


class Rules(Whole):
    """The rule packs, all of them or the one named."""

    NAME = "rules"
    ARGUMENT = None

    def make(self):
        return site_sources.rules(self.argument or "")


class Routes(Whole):
    """The whole decision table of the vent's route."""

    NAME = "routes"
    ARGUMENT = False

    def make(self):
        return importlib.import_module("scripts.site_routes").table()


class Table(Whole):
    """A look-up table that the calculators fill: /// table | vent-loss."""

    NAME = "table"

    def make(self):
        return importlib.import_module("scripts.site_tables").table(self.argument)


class Remembered(Whole):
    """Every figure and line whose source is from memory."""

    NAME = "remembered"
    ARGUMENT = False

    def make(self):
        return importlib.import_module("scripts.site_memory").lists()


def only_a_link(cell):
    """Whether a cell of a table holds one link and no other word."""
    return cell.tag in ("td", "th") and [child.tag for child in cell] == ["a"] and not f"{cell.text or ''}{cell[0].tail or ''}".strip()


class ScrollingTables(Treeprocessor):
    """Puts each table into a box that a keyboard can scroll, named by the heading above it; marks cells that are a link."""

    def run(self, root):
        seen = {}
        heading = ""
        parents = {child: parent for parent in root.iter() for child in parent}
        for element in list(root.iter()):
            if re.fullmatch("h[1-6]", str(element.tag)):
                heading = STASHED.sub("", "".join(element.itertext())).strip()
            if only_a_link(element):
                element.set("class", (element.get("class", "") + " goes").strip())
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


BLOCKS = (Worked, Drawing, Job, Caution, Steps, Find, Sources, Rules, Routes, Checks, Practice, SetPaper, Coverage, Table,
          Remembered, Licences)


class SiteBlocks(BlocksExtension):
    def extendMarkdownBlocks(self, md, block_mgr):
        for block in BLOCKS:
            block_mgr.register(block, self.getConfigs())


class Site(Extension):
    """All of the above as one extension."""

    def extendMarkdown(self, md):
        SiteBlocks().extendMarkdown(md)
        md.preprocessors.register(site_guard.OpenAndClose(md), "block_guard", 5)  # after code fences (25) and raw HTML (20)
        md.treeprocessors.register(site_guard.NothingLeft(md), "block_left_guard", 25)  # before inline patterns (20)
        md.treeprocessors.register(site_guard.NoReferenceLeft(md), "source_left_guard", 7)
        md.treeprocessors.register(site_glossary.FirstUse(md), "first_use", 6.5)  # when inline patterns (20) are done
        md.treeprocessors.register(ScrollingTables(md), "scrolling_tables", 6)  # before the table of contents (5)
        md.inlinePatterns.register(site_sources.SourceReference(r"\{src:\s*([^}]+?)\s*\}", md), "source_reference", 175)


def makeExtension(**options):
    return Site(**options)
