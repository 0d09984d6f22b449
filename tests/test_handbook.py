"""The handbook's pages: ten parts, one shape, a drawing or an example within the first screen, a caution where the work is."""

import re
from pathlib import Path

import pytest

from scripts import check_prose, site_glossary

PAGES = {check_prose.name(path): path for path in check_prose.pages()}
PARTS = {name: path for name, path in PAGES.items() if re.match(r"\d\d-", name)}
SHAPE = ("What you decide here", "What can hurt you", "Figures to remember", "Common mistakes", "What your local code may change")
NO_HAZARD = {"08-where-it-ends/rule-packs.md"}  # chooses a text; nothing is done on it
SCREEN = 310  # words of a page that a desktop shows above the fold, a phone in two turns

# What is done on a page -> the words of the caution that belongs to it. Only work is looked at: numbered steps.
HAZARDS = {
    "what lies in the slab": (
        r"\bdrill (?:one|the|and read)|\bpilot hole|\bcut the core|core last|\bdrill the far",
        r"locat|know what is in|scan|drawings? may not",
    ),
    "silica": (r"\bdrill (?:one|the)|\bpilot hole|\bcut the core", r"dust|silica|shroud"),
    "a hand in the pit": (r"lift the lid|into the pit:|lift the pump|at the pit:|open the lid|hand goes into the pit", r"unplug|plug out"),
    "water that must leave": (r"close the rim|lid on\b|lay the gasket", r"way for water|unplug|flood"),
    "electricity": (r"lift the fan out|loosen both couplings|fan off, pump|power on\b", r"lock|prove[dn]? it? ?dead|unplug|switch (?:off|the)"),
    "ladders and roofs": (r"ladder|climb|outdoors: outlet|lead the exhaust elsewhere", r"ladder|roof"),
    "flue gas": (r"burners? (?:are |is )?tested|test the burners|fire the smallest|read the input of every burner", r"carbon monoxide|spill|burner"),
    "bad air and tight spaces": (r"(?:go|crawl|lay) .*crawl space|lay the sheet|lay perforated", r"bad air|fit to enter|called it fit"),
    "solvent": (r"\bprimer\b|\bcement both|solvent cement", r"cement|fumes|vapour"),
    "asbestos": (r"old tile|lift the covering|pipe wrap", r"asbestos"),
    "soil contamination": (r"dig out|unknown use", r"smell|fuel|pesticide"),
    "lifting": (r"lift the pump", r"lift|weigh|two people"),
    "strong gas from an open pipe": (r"cap the pipe|lift the fan out", r"strong gas|strong (?:soil )?air|air the (?:room|place)"),
}


def work(path: Path) -> str:
    """What the page tells to do: its numbered steps."""
    steps = [line for line in check_prose.lines(path) if re.match(r"\s*\d+\. ", line.raw) and line.heading != "Common mistakes"]
    return "\n".join(line.text for line in steps).lower()


def cautions(path: Path) -> str:
    """The words of the page's cautions."""
    found = re.findall(r"^/// caution \|[^\n]*\n(.*?)^///$", path.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    return "\n".join(found).lower()


@pytest.mark.parametrize("part", sorted({name.partition("/")[0] for name in PARTS}))
def test_each_part_has_two_to_six_pages(part):
    """A part is neither a page nor a book."""
    assert 2 <= sum(name.startswith(part + "/") for name in PARTS) <= 6


def test_there_are_ten_parts():
    """The job has ten steps."""
    assert len({name.partition("/")[0] for name in PARTS}) == 10


@pytest.mark.parametrize("name", PARTS)
def test_page_has_the_shape(name):
    """What you decide, what can hurt you, figures, mistakes, local code: in this order on every page."""
    text = PARTS[name].read_text(encoding="utf-8")
    wanted = [heading for heading in SHAPE if heading != "What can hurt you" or name not in NO_HAZARD]
    places = [text.find(f"\n## {heading}\n") for heading in wanted]
    assert -1 not in places, dict(zip(wanted, places, strict=True))
    assert places == sorted(places)


@pytest.mark.parametrize("name", PARTS)
def test_page_shows_something_within_the_first_screen(name):
    """A drawing, a worked example, steps or a table comes before the reader has to scroll far."""
    count = 0
    for line in check_prose.lines(PARTS[name]):
        if line.kind == "table" or re.match(r"/// (?:drawing|worked|table|steps)", line.raw):
            break
        count += len(check_prose.words(line.text))
    assert count <= SCREEN


@pytest.mark.parametrize("name", PAGES)
def test_page_with_a_hazard_carries_its_caution(name):
    """Whoever tells people to do something that can hurt says so on the same page."""
    path = PAGES[name]
    told, said = work(path), cautions(path)
    missing = [hazard for hazard, (done, caution) in HAZARDS.items() if re.search(done, told) and not re.search(caution, said)]
    assert not missing


@pytest.mark.parametrize("hazard", HAZARDS)
def test_each_hazard_is_met_somewhere(hazard):
    """A rule that no page comes under would guard nothing."""
    done, _ = HAZARDS[hazard]
    assert any(re.search(done, work(path)) for path in PAGES.values())


@pytest.mark.parametrize("name", [name for name in PARTS if name not in NO_HAZARD])
def test_what_can_hurt_you_holds_a_caution(name):
    """The heading is never empty."""
    text = PARTS[name].read_text(encoding="utf-8").partition("\n## What can hurt you\n")[2]
    assert "/// caution | " in text.partition("\n## ")[0]


def test_no_page_says_that_a_thing_is_safe():
    """No page says safe, harmless or guaranteed of a result; a question may ask whether something is unsafe."""
    for name, path in PAGES.items():
        for line in check_prose.lines(path):
            assert not re.search(r"\b(?:is|are|it's|be|now) (?:perfectly |quite )?safe\b", line.text, re.IGNORECASE), f"{name}:{line.number}"


def linked(html: str) -> list[str]:
    """Anchors of the glossary that a page links, in order."""
    return re.findall(r'class="term" href="[^"]*glossary/#([\w-]+)"', html)


def test_trade_words_lead_to_the_glossary_once_a_page(site):
    """Each term is linked from the pages that use it, the first time only, and each link meets an entry."""
    anchors = site_glossary.entries()
    used = set()
    for path in site.rglob("index.html"):
        found = linked(path.read_text(encoding="utf-8"))
        assert len(found) == len(set(found)), path
        used |= set(found)
    assert used <= set(anchors.values())
    unused = {term for term, anchor in anchors.items() if anchor not in used} - site_glossary.EVERYDAY
    assert len(unused) <= len(anchors) // 4, sorted(unused)
    glossary = (site / "look-up" / "glossary" / "index.html").read_text(encoding="utf-8")
    assert all(f'id="{anchor}"' in glossary for anchor in anchors.values())


def article_links(site: Path, page: Path) -> set[Path]:
    """Pages that the text of a page links."""
    html = page.read_text(encoding="utf-8")
    article = re.search(r"<article.*?</article>", html, re.DOTALL)
    found = set()
    for target in re.findall(r'href="([^"#?]+)[^"]*"', article[0] if article else ""):
        if "://" not in target:
            to = (page.parent / target).resolve()
            found.add(to / "index.html" if to.is_dir() else to)
    return {path for path in found if path.is_file() and path.suffix == ".html"}


def test_every_table_is_two_taps_from_the_front_page(site):
    """From Start here, in its text alone: one tap to a page of links, one to the page with the table."""
    front = site / "index.html"
    first = article_links(site, front)
    second = set().union(*(article_links(site, page) for page in first))
    within = {front, *first, *second}
    far = [path.relative_to(site).as_posix() for path in site.rglob("index.html")
           if '<table class="plain"' in path.read_text(encoding="utf-8") and path not in within]
    assert not far


def test_ten_steps_fit_on_one_screen_of_a_phone(site_server, browser):
    """From the first level's heading to the tenth step, between the bar above and the bar below."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    page.goto(site_server.url)
    tall = page.evaluate("""() => {
      const first = document.querySelector("h2.level").getBoundingClientRect();
      const rows = document.querySelectorAll(".ten li");
      return [rows.length, rows[rows.length - 1].getBoundingClientRect().bottom - first.top];
    }""")
    context.close()
    assert tall[0] == 10
    assert tall[1] <= 844 - 60 - 50
