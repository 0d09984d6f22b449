"""Papers: chosen fairly, carried by codes that cannot be bent, exported in open formats."""

import io
import json
import os
import re
import zipfile
from collections import Counter
from xml.etree import ElementTree as ET

import pytest

from calculators import InputError
from calculators.practice import mark, templates
from calculators.practice import paper as papers
from calculators.practice.gift import escaped
from calculators.practice.gift import text as gift_text
from calculators.practice.problem import House, Number, Options
from calculators.practice.qti import QTI, package
from calculators.show.markup import escape
from calculators.show.paper import class_page, drawing_in_words, key_lines, page

PAPER = papers.compose(number=12, seed="spring")


def test_a_paper_is_the_same_for_the_same_seed():
    """Seed, parts and levels settle the paper; a learner only changes the numbers."""
    assert papers.compose(number=12, seed="spring") == PAPER
    one, two = PAPER.problems("a"), PAPER.problems("b")
    assert [p.template.id for p in one] == [p.template.id for p in two]
    assert [p.text for p in one] != [p.text for p in two]
    assert [p.text for p in one] == [p.text for p in PAPER.problems("a")]


def test_nothing_comes_twice_before_everything_came_once():
    """Parts take turns; where few problems fit, all of them come before one comes again."""
    for choice, number in (({}, 20), ({"kinds": ["house"]}, 3), ({"kinds": ["drawing"]}, 5), ({"parts": ["look-up", "the-sump"], "levels": [1]}, 8)):
        ids = papers.compose(number=number, seed="once", **choice).ids
        assert len(set(ids)) == number
    counts = Counter(papers.compose(kinds=["house"], number=7, seed="once").ids)
    assert sorted(counts.values()) == [2, 2, 3]


@pytest.mark.parametrize("wrong", [{"parts": ["roof"]}, {"levels": [4]}, {"number": 0}, {"number": 61}, {"units": "uk"}, {"seed": ""}])
def test_wrong_choices_are_refused(wrong):
    """A part, level, number or unit that does not exist is a problem with what is accepted."""
    with pytest.raises(InputError):
        papers.compose(**wrong)


def test_codes_come_back_and_bent_ones_are_refused():
    """A paper's code gives the paper back; any changed character is refused."""
    code = PAPER.code()
    assert papers.paper_of(code) == PAPER
    for i in range(0, len(code), 3):
        bent = code[:i] + ("A" if code[i] != "A" else "B") + code[i + 1:]
        with pytest.raises(InputError):
            papers.paper_of(bent)
    for wrong in ("", "x", code[:-2], code * 2000, "<script>", papers.packed({"v": 1, "t": ["no-such"], "s": "1", "u": "us", "m": 0}),
                  papers.packed([1]), papers.packed({"v": 1, "t": list(PAPER.ids), "s": "1", "u": "us", "m": "9"})):
        with pytest.raises(InputError):
            papers.paper_of(wrong)


def test_hand_in_codes():
    """A hand-in code gives name and verdicts; one of another paper is refused."""
    marks = [mark(problem, "") for problem in PAPER.problems("a")]
    code = papers.hand_in(PAPER, "A. Learner", marks)
    name, read = papers.hand_in_of(PAPER, code)
    assert name == "A. Learner"
    assert [m.verdict for m in read] == ["unreadable"] * 12
    other = papers.compose(number=12, seed="autumn")
    for wrong in (other.code(), PAPER.code(), code[:-1]):
        with pytest.raises(InputError):
            papers.hand_in_of(PAPER, wrong)
    with pytest.raises(InputError):
        papers.hand_in_of(other, code)


def test_the_printed_paper_keeps_its_key_apart():
    """The page without the key does not hold it; with the key it holds every key and slip; what is typed is escaped."""
    bare, whole = page(PAPER, "<b>x</b>", key=False), page(PAPER, "<b>x</b>")
    assert "<b>x</b>" not in whole
    assert "Key" not in bare
    for problem in PAPER.problems("<b>x</b>"):
        if isinstance(problem.answer, Number):
            assert problem.answer.printed() in whole


DRAWN = papers.compose(number=30, seed="d", kinds=["drawing"])


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_drawing_comes_along(units):
    """On paper the drawing stands with its problem, every mark of it styled; GIFT and QTI, which hold text, say it in words."""
    paper = DRAWN._replace(units=units)
    whole, gift = page(paper, key=False), gift_text(paper)
    assert whole.count("<svg") == len(paper.ids)
    style = whole[whole.index("<style>"):whole.index("</style>")]
    used = {name for names in re.findall(r'<(?:path|line|circle|rect|text|g)[^>]* class="([^"]+)"', whole) for name in names.split()}
    assert {name for name in used if not re.search(rf"\.{name}\b", style)} <= {"name"}
    bundle = zipfile.ZipFile(io.BytesIO(package(paper)))
    for i, problem in enumerate(paper.problems(), 1):
        words = drawing_in_words(problem)
        assert len(words) > 60 and "<" not in words
        assert escaped(words) in gift
        assert words in "".join(ET.fromstring(bundle.read(f"item-{i:02d}.xml")).itertext())


def test_a_class_gets_one_file():
    """The papers of a class stand in one file, each with its own numbers and on its own pages; the keys in another."""
    papers_of_class, keys = class_page(PAPER, ["Ann", "<b>Bo</b>"], key=False), class_page(PAPER, ["Ann", "<b>Bo</b>"], key=True)
    assert papers_of_class.count('class="new-page"') == keys.count('class="new-page"') == 2
    assert "Key" not in papers_of_class and "<b>Bo</b>" not in keys
    for learner in ("Ann", "<b>Bo</b>"):
        for problem in PAPER.problems(learner):
            assert all(escape(line) in papers_of_class for line in problem.text)
            assert all(escape(line) in keys for line in key_lines(problem))


def test_the_package_has_what_qti_asks():
    """Manifest, test and items refer to each other; numbers carry tolerance and slip feedback, choices one key."""
    bundle = zipfile.ZipFile(io.BytesIO(package(PAPER)))
    assert package(PAPER) == package(PAPER)
    roots = {name: ET.fromstring(bundle.read(name)) for name in bundle.namelist()}
    assert len(roots) == len(PAPER.ids) + 2
    listed = re.findall(rb'href="([^"]+)"', bundle.read("imsmanifest.xml"))
    assert set(roots) - {"imsmanifest.xml"} == {name.decode() for name in listed}
    for i, problem in enumerate(PAPER.problems(), 1):
        item = roots[f"item-{i:02d}.xml"]
        assert item.tag == f"{{{QTI}}}assessmentItem"
        values = [v.text for v in item.findall(f"{{{QTI}}}responseDeclaration/{{{QTI}}}correctResponse/{{{QTI}}}value")]
        if isinstance(problem.answer, Number):
            equals = item.findall(f".//{{{QTI}}}equal")
            assert len(equals) == 1 + len(problem.slips)
            assert all(float(e.get("tolerance").split()[0]) > 0 for e in equals)
            assert len(item.findall(f"{{{QTI}}}modalFeedback")) == len(problem.slips)
        elif isinstance(problem.answer, Options):
            assert len(values) == sum(option.right for option in problem.answer.options)
            assert [e[0].text for e in item.findall(f"{{{QTI}}}modalFeedback")] == [o.because for o in problem.answer.options]
            counts = {e.get("mapKey"): float(e.get("mappedValue")) for e in item.iter(f"{{{QTI}}}mapEntry")}
            for tried in range(len(problem.answer.options)):  # the package counts as our own marking does
                ticks = [*range(tried), len(problem.answer.options) - 1] if problem.answer.several else [tried]
                credit = max(0, sum(counts[f"o{i}"] for i in set(ticks)))
                assert credit == pytest.approx(mark(problem, sorted(set(ticks))).credit, abs=1e-5)
        elif isinstance(problem.answer, House):
            assert len(values) == len(problem.answer.decisions)
        else:
            assert len(values) == len(problem.answer.shown)


def test_a_practice_house_in_the_package_counts_in_part():
    """One item: a choice for each decision, mapped values that add up to 1, a feedback for every way."""
    paper = papers.compose(number=3, seed="h", kinds=["house"])
    bundle = zipfile.ZipFile(io.BytesIO(package(paper)))
    for i, problem in enumerate(paper.problems(), 1):
        item = ET.fromstring(bundle.read(f"item-{i:02d}.xml"))
        decisions = problem.answer.decisions
        assert len(item.findall(f"{{{QTI}}}itemBody/{{{QTI}}}choiceInteraction")) == len(decisions)
        best = 0.0
        for response, decision in zip(item.findall(f"{{{QTI}}}responseDeclaration"), decisions, strict=True):
            counts = {e.get("mapKey"): float(e.get("mappedValue")) for e in response.iter(f"{{{QTI}}}mapEntry")}
            assert counts == {f"w{j}": pytest.approx(way.credit / len(decisions), abs=1e-5) for j, way in enumerate(decision.ways)}
            best += max(counts.values())
        assert best == pytest.approx(1, abs=1e-4)
        assert len(item.findall(f"{{{QTI}}}modalFeedback")) == sum(len(decision.ways) for decision in decisions)


def test_kinds_can_be_chosen():
    """A paper of practice houses holds nothing else; an unknown kind is refused; printed, each house has its key by letters."""
    paper = papers.compose(number=3, seed="h", kinds=["house"])
    assert {templates()[id].kind for id in paper.ids} == {"house"}
    with pytest.raises(InputError):
        papers.compose(kinds=["riddle"])
    whole = page(paper)
    for problem in paper.problems():
        for decision in problem.answer.decisions:
            assert all(escape(way.text) in whole and escape(way.because) in whole for way in decision.ways)


def test_the_package_against_the_official_schema(capsys):
    """With UNDERSLAB_QTI_XSD naming the folder of the schemas every file of the package is valid; without it this says so."""
    folder = os.environ.get("UNDERSLAB_QTI_XSD")
    if not folder:
        with capsys.disabled():
            print("\nUNDERSLAB_QTI_XSD is not set: the package was not compared with the official schema.")
        return
    from lxml import etree

    class Local(etree.Resolver):
        """One schema of the folder points to the network; its copy lies in the folder beside."""

        def resolve(self, url, id, context):
            return self.resolve_filename(os.path.join(folder, "..", "w3", "XInclude.xsd"), context) if url.startswith("http") else None

    reader = etree.XMLParser(no_network=True)
    reader.resolvers.add(Local())
    schema = etree.XMLSchema(etree.parse(os.path.join(folder, "imsqti_v2p2p4.xsd"), reader))
    for paper in (PAPER, papers.compose(number=3, seed="h", kinds=["house"])):
        bundle = zipfile.ZipFile(io.BytesIO(package(paper)))
        for name in bundle.namelist():
            if name != "imsmanifest.xml":
                schema.assertValid(etree.fromstring(bundle.read(name)))


def test_gift_has_every_problem_with_its_slips():
    """The text holds each question, its tolerance and each slip as an answer without credit."""
    text = gift_text(PAPER)
    houses = [p.answer for p in PAPER.problems() if isinstance(p.answer, House)]
    assert text.count("::") == 2 * (len(PAPER.ids) + sum(len(house.decisions) - 1 for house in houses))
    for problem in PAPER.problems():
        assert escaped(problem.ask) in text
        for slip in problem.slips:
            assert escaped(slip.because) in text
    assert escaped("a=b{c}~d#e:f\\") == "a\\=b\\{c\\}\\~d\\#e\\:f\\\\"


@pytest.mark.parametrize("format", ["html", "gift", "json", "qti"])
def test_the_command_writes_a_paper(format, tmp_path, capsys):
    """python -m calculators paper writes each format; a QTI package wants a file."""
    from calculators.__main__ import main
    out = tmp_path / f"paper.{format}"
    assert main(["paper", "--parts", "water-and-pump", "--number", "3", "--seed", "7", "--format", format, "--out", str(out)]) == 0
    assert out.stat().st_size > 500
    if format == "json":
        data = json.loads(out.read_text(encoding="utf-8"))
        assert len(data["problems"]) == 3
        assert {row["part"] for row in data["problems"]} == {"water-and-pump"}
    capsys.readouterr()
    assert main(["paper", "--parts", "nowhere"]) == 2
    assert main(["paper", "--format", "qti"]) == 2
    assert "nowhere" in capsys.readouterr().err


def test_every_template_fits_a_paper():
    """No template is left out by the choice of parts and levels."""
    parts = {t.part for t in templates().values()}
    chosen = {id for part in parts for id in papers.compose(parts=[part], number=60, seed="all").ids}
    houses = set(papers.compose(kinds=["house"], number=60, seed="all").ids)
    assert chosen | houses == set(templates())
    assert {templates()[id].kind for id in houses} == {"house"}, "practice houses come where they are asked for"
    assert not chosen & houses
