"""Markdown blocks of the site: what they give, and that every mistake in one stops the build."""
import re
import subprocess
import sys
import types

import markdown
import pytest

from calculators import tables
from scripts import site_blocks, site_sources

EXTENSIONS = ["tables", "attr_list", "md_in_html", "sane_lists", "toc",
              {"pymdownx.superfences": {"disable_indented_code_blocks": True}}, "scripts.site_blocks"]


def convert(text: str) -> str:
    names = [e if isinstance(e, str) else next(iter(e)) for e in EXTENSIONS]
    settings = {k: v for e in EXTENSIONS if isinstance(e, dict) for k, v in e.items()}
    return markdown.markdown(text, extensions=names, extension_configs=settings)


@pytest.fixture
def made(monkeypatch, tmp_path):
    """A calculator, a job file and a drawing to call for, so that the blocks are tried alone."""
    calls = []
    package = types.ModuleType("calculators")
    package.names = lambda: ("pump-sizing", "pipe-loss")
    page = types.ModuleType("calculators.show.page")

    def worked(name, inputs, uid, heading):
        calls.append((name, inputs, uid, heading))
        return f'<section class="worked" id="{uid}"><h3>{heading}</h3><p>a_b_c *not Markdown* &lt;</p></section>'

    def draw(name, uid):
        if name != "sump-section":
            raise KeyError(name)
        return f'<figure class="drawing" id="{uid}"><svg viewBox="0 0 1 1"></svg></figure>'

    page.worked = worked
    drawings = types.ModuleType("calculators.show.drawings")
    drawings.draw = draw
    for module in (package, page, drawings):
        monkeypatch.setitem(sys.modules, module.__name__, module)
    monkeypatch.setattr(site_blocks, "job_inputs", lambda job, calculator: ({"inflow": "18 gpm"}, "Quarry Lane house"))
    return calls


# What comes out ------------------------------------------------------------------------------------------------------

def test_worked_example_stands_in_the_page(made):
    """The calculator is asked with the job's inputs, and its HTML is in the page letter for letter."""
    html = convert("/// worked | pump-sizing\n    job: quarry-lane\n///\n\nAfter.")
    assert made == [("pump-sizing", {"inflow": "18 gpm"}, "w1", "Worked example: Quarry Lane house")]
    assert "<p>a_b_c *not Markdown* &lt;</p></section>" in html
    assert html.rstrip().endswith("<p>After.</p>")


def test_ids_differ_on_one_page_and_repeat_between_builds(made):
    """Two examples on a page get two ids; the next build gives the same two."""
    text = "/// worked | pump-sizing\n    job: a\n///\n\n/// worked | pipe-loss\n    job: a\n    title: Own title\n///\n"
    assert convert(text) == convert(text)
    assert [call[2] for call in made] == ["w1", "w2", "w1", "w2"]
    assert made[1][3] == "Own title"


def test_drawing_stands_in_the_page(made):
    """A drawing is put in by name, with an id of its own."""
    assert '<figure class="drawing" id="d1"><svg' in convert("/// drawing | sump-section\n///")


def test_caution_says_its_level_and_source():
    """A caution has the level as a word, its Markdown read, and its source last."""
    html = convert("/// caution | danger\n    source: common-practice\n\nUnplug *first*.\n///")
    assert '<div class="caution is-danger">' in html
    assert html.index('<p class="caution__level">Danger</p>') < html.index("Unplug <em>first</em>.") < html.index("common practice")


def test_work_steps_keep_their_list():
    """Work steps are an ordered list in a box of their own."""
    html = convert("/// steps\n1. Scan.\n2. Mark.\n///")
    assert re.search(r'<div class="work-steps">\s*<ol>\s*<li>Scan.</li>', html)


def test_blocks_work_in_a_list():
    """A caution may stand inside a list item."""
    html = convert("1. One\n\n    /// caution | note\n    Text.\n    ///\n\n2. Two")
    assert html.count("<ol>") == 1 and '<div class="caution is-note">' in html


def test_source_reference_names_kind_document_and_section():
    """A reference shows the kind of source, the document and the section, and links to the register."""
    html = convert("Least pit {src: irc-2021 P3303.1.2}.")
    assert "<b>published</b>" in html
    assert re.search(r'<a href="/look-up/sources.md#irc-2021">International Residential Code[^<]*, P3303.1.2</a>', html)


def test_source_seen_only_in_a_copy_says_secondary():
    """A published text that was only seen restated is marked in every reference to it."""
    id = next(i for i, e in tables.table("sources").items() if e.get("mark") == "secondary" and e["kind"] == "published")
    assert "<b>published, secondary</b>" in convert(f"x {{src: {id}}}")


@pytest.mark.parametrize("id", ["common-practice", "from-memory", "demo", "derived"])
def test_general_source_shows_its_kind_once(id):
    """A general entry is shown by its kind alone."""
    assert re.search(rf"<b><a href=[^>]*#{id}\">{id.replace('-', ' ')}</a></b></span>", convert(f"x {{src: {id}}}"))


@pytest.mark.parametrize("id", list(tables.table("sources")))
def test_every_source_has_a_short_form(id):
    """Each citation shortens to something that a reader can look for: not empty, not a sentence."""
    words = site_sources.short(tables.source(id))
    assert 2 < len(words) <= 90


def test_section_that_repeats_the_document_is_said_once():
    """A code cited by its number is not printed twice when the section begins with that number."""
    assert "742.1210, 742.1210" not in convert("x {src: ill-35-742 742.1210(c)(1)}")


def test_tables_can_be_scrolled_by_keyboard_and_have_names():
    """Every table stands in a focusable box named by its heading; a second one under it gets a number."""
    table = "| a | b |\n|---|---|\n| 1 | 2 |\n"
    html = convert(f"# Page\n\n## Figures\n\n{table}\n\nText.\n\n{table}")
    assert re.findall(r'aria-label="([^"]*)"', html) == ["Table: Figures", "Table: Figures, 2"]
    assert html.count('class="table" role="region" tabindex="0"') == 2


def test_register_holds_every_source_as_an_anchor():
    """The printed register has an anchor for each id, so each reference finds its place."""
    html = convert("/// sources\n///")
    assert set(tables.table("sources")) <= set(re.findall(r'id="([^"]+)"', html))


def test_rule_packs_print_every_row():
    """The rule packs are printed from the same rows that the calculators judge by, sections included."""
    html = convert("/// rules\n///")
    for pack in tables.rule_packs():
        for row in tables.rule_pack(pack)["rows"]:
            assert f'id="{row["id"].lower()}"' in html
    assert "10\u00a0ft (3.05\u00a0m)" in convert("/// rules | us-pa\n///")


def test_look_up_box_has_a_label():
    """The look-up box is a search form with a label bound to its field."""
    html = convert("/// find\n///")
    assert '<label for="look-up-words">' in html and 'role="search"' in html


# What must stop the build ---------------------------------------------------------------------------------------------

BROKEN = {
    "misspelt name": ("/// wroked | pump-sizing\n///", "no block named 'wroked'"),
    "unknown option": ("/// worked | pump-sizing\n    jbo: quarry-lane\n///", "options"),
    "option of a wrong type": ("/// worked | pump-sizing\n    job: 12\n///", "options"),
    "options that are no options": ("/// worked | pump-sizing\n    job\n///", "block not understood"),
    "option that breaks its line": ("/// caution | note\n    source: a: b\n\nText.\n///", "block not understood"),
    "argument left out": ("/// worked\n    job: quarry-lane\n///", "argument"),
    "argument too many": ("/// steps | five\n1. a\n///", "argument"),
    "end left out": ("/// caution | note\nText.\n\nMore.", "'caution' is never closed"),
    "end left out before another": ("/// caution | note\nText.\n\n/// drawing | sump-section\n///", "'caution' of line 1 is never closed"),
    "end without a start": ("Text.\n\n///", "closes nothing"),
    "unknown level": ("/// caution | peril\nText.\n///", "levels: danger, warning, note"),
    "caution without words": ("/// caution | danger\n///", "says nothing"),
    "caution with an unknown source": ("/// caution | note\n    source: irc-2012x\n\nText.\n///", "no source 'irc-2012x'"),
    "steps without a list": ("/// steps\nText.\n///", "no numbered list"),
    "unknown calculator": ("/// worked | pump-size\n    job: quarry-lane\n///", "no calculator 'pump-size'; near it: pump-sizing"),
    "text in a worked example": ("/// worked | pump-sizing\n    job: quarry-lane\n\nText.\n///", "no text"),
    "unknown drawing": ("/// drawing | sump-sketch\n///", "no drawing 'sump-sketch'"),
    "unknown rule pack": ("/// rules | us-xx\n///", "no rule pack 'us-xx'"),
    "unknown source": ("Text {src: irc-2012x P3303}.", "no source 'irc-2012x'; near it: irc-20"),
    "source without an id": ("Text {src: }.", "no source ''"),
    "source never closed": ("Text {src: irc-2021 P3303.1.2 and on.", "source reference not understood"),
    "source with a space before the colon": ("Text {src : irc-2021}.", "source reference not understood"),
}


@pytest.mark.parametrize("case", BROKEN)
def test_mistake_is_an_error(made, case):
    """No mistake in a block becomes text in the page: each raises ValueError and says what is wrong."""
    text, words = BROKEN[case]
    with pytest.raises(ValueError, match=re.escape(words)):
        convert(text)


def test_line_number_is_that_of_the_block():
    """The error names the line on which the block starts."""
    with pytest.raises(ValueError, match="line 4: block 'caution' is never closed"):
        convert("One.\n\nTwo.\n/// caution | note\nText.")


def test_unknown_job_names_those_there_are(monkeypatch, tmp_path):
    """A job file that does not exist is an error that names the ones that do."""
    (tmp_path / "quarry-lane.json").write_text('{"title": "Quarry Lane house"}', encoding="utf-8")
    monkeypatch.setattr(site_blocks, "JOBS", tmp_path)
    with pytest.raises(ValueError, match="no job 'quarry-line'; near it: quarry-lane"):
        site_blocks.job_inputs("quarry-line", "pump-sizing")


def test_block_shown_in_a_fence_is_left_alone():
    """A block printed as an example in a code fence is neither run nor complained of."""
    html = convert("```\n/// wroked | x\n{src: nothing}\n```")
    assert "/// wroked | x" in html and "{src: nothing}" in html


def test_broken_block_stops_the_site(tmp_path):
    """The site generator ends with a fault and names the page, without --strict."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_text("# A\n\n/// wroked\n///\n", encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text("site_name: A\ntheme: {name: mkdocs}\nplugins: []\nmarkdown_extensions: [scripts.site_blocks]\n",
                                         encoding="utf-8")
    root = site_blocks.JOBS.parent.parent.parent
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build", "-f", str(tmp_path / "mkdocs.yml")], cwd=root, text=True,
                          capture_output=True, check=False)
    assert done.returncode == 1
    assert "Error reading page 'index.md'" in done.stderr and "no block named 'wroked'" in done.stderr


def test_edition_in_the_foot_is_the_version():
    """The version printed in the foot of every page is that of the calculators."""
    from calculators.result import VERSION

    settings = (site_blocks.JOBS.parent.parent.parent / "mkdocs.yml").read_text(encoding="utf-8")
    assert re.search(r'^  edition: "(.*)"$', settings, re.MULTILINE)[1] == VERSION
