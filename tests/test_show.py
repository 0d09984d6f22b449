"""The pages' parts: well-formed markup, nothing typed becomes markup, every printed equation can be drawn."""

import ast
import importlib
import inspect
import pkgutil
import re
import xml.etree.ElementTree as etree
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calculators
from calculators import physics, solve
from calculators.show import answer, arithmetic, drawings, mathml, page, plot
from calculators.show.drawings.canvas import spread
from calculators.show.figures import figure, plain
from calculators.show.form import form
from calculators.show.house import inputs_of, reached
from calculators.show.markup import Markup, el, join
from calculators.show.phrases import choice

NASTY = "<img src=x onerror=alert(1)>\"'&]]><!--</script>"
NAMES = reached()
VOID = {"input", "br", "hr"}


class Balanced(HTMLParser):
    """Checks that tags nest, and collects ids, attribute names and references between elements."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.attributes: set[str] = set()
        self.points: set[str] = set()
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attributes):
        if tag not in VOID:
            self.open.append(tag)
        for name, value in attributes:
            self.attributes.add(name)
            if name == "id":
                self.ids.append(value)
            if name in ("for", "aria-labelledby", "aria-describedby"):
                self.points.update((value or "").split())

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def test_handbook_house_reaches_the_first_calculators():
    """The tests below go through all worked examples of the handbook's house; there are at least these."""
    assert {"tile-offset", "sump-sealing", "pump-sizing", "pipe-loss", "discharge-clearances", "hole-flow"} <= set(
        NAMES
    )


def formulas():
    """Every function with a printed equation."""
    for module in pkgutil.iter_modules(physics.__path__):
        loaded = importlib.import_module(f"calculators.physics.{module.name}")
        for name, function in inspect.getmembers(loaded, inspect.isfunction):
            if hasattr(function, "formula") and function.__module__ == loaded.__name__:
                yield pytest.param(function, id=f"{module.name}.{name}")


@pytest.mark.parametrize("name", NAMES)
def test_section_is_well_formed_and_every_reference_in_it_is_met(name):
    """Tags nest, ids are unique, labels and descriptions point at something, no style and no event attribute is there."""
    text = page.worked(name, inputs_of(name), "w1", "Worked example")
    found = Balanced(text)
    assert len(found.ids) == len(set(found.ids))
    assert found.points <= set(found.ids)
    assert not [attribute for attribute in found.attributes if attribute == "style" or attribute.startswith("on")]
    for part in ("say", "now", "range", "checks", "results", "steps", "sources"):
        assert f'data-slot="{part}"' in text


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("system", ["us", "si"])
def test_no_answer_says_that_work_is_approved(name, system):
    """An answer compares; it never says safe, pass, OK or good."""
    result = solve(name, inputs_of(name))
    parts = {**page.first(result, system), **page.span(result, system), **page.rest(result, system, "w1")}
    text = re.sub(r"<[^>]*>", " ", " ".join(parts.values()))
    assert not re.search(r"\b(safe|safely|passed|fails?|failed|approved|OK)\b(?! the house)", text, re.IGNORECASE), name


@pytest.mark.parametrize("name", NAMES)
def test_first_sentence_is_one_sentence_and_short(name):
    """The answer is said in one sentence (two with an order not to do something) of at most about thirty words."""
    state, sentence = answer.said(solve(name, inputs_of(name)), "us")
    assert state in ("in", "out", "open", "")
    assert sentence[0].isupper() or sentence[0].isdigit()
    assert sentence.endswith((".", "!"))
    assert len(sentence.split()) <= 32


@pytest.mark.parametrize("function", list(formulas()))
def test_every_printed_equation_is_drawn_and_spoken(function):
    """Each equation becomes MathML with all its symbols, again with numbers, and one spoken line."""
    equation = function.formula
    drawn = etree.fromstring(mathml.equation(equation.text))
    letters = {node.id for node in ast.walk(ast.parse(equation.right)) if isinstance(node, ast.Name)}
    called = {node.func.id for node in ast.walk(ast.parse(equation.right)) if isinstance(node, ast.Call)}
    text = "".join(drawn.itertext())
    for letter in (letters - called) | {equation.symbol}:
        assert "".join(etree.fromstring(mathml.symbol(letter)).itertext()) in text
    numbers = dict.fromkeys(letters - called - {"pi"}, "2.5")
    put_in = etree.fromstring(mathml.substituted(equation.text, numbers))
    assert "2.5" in "".join(put_in.itertext()) or not numbers
    spoken = drawn.find("math").get("aria-label")
    assert spoken.startswith(f"{equation.symbol.replace('_', ' ')} equals ")
    assert "something" not in spoken
    assert {mo.get("stretchy") for mo in drawn.iter("mo")} == {"false"}


def read_back(node):
    """What a drawn expression says, as a fully bracketed Python text."""
    kids = list(node)
    match node.tag:
        case "mn" | "mi":
            return {"π": "pi"}.get(node.text, (node.text or "").replace("−", "-"))
        case "mo":
            return {"−": "-", "·": "*", "×": "*", "|": "|"}.get(node.text, node.text)
        case "mfrac":
            return f"(({read_back(kids[0])})/({read_back(kids[1])}))"
        case "msup":
            return f"(({read_back(kids[0])})**({read_back(kids[1])}))"
        case "msqrt":
            return f"(({''.join(map(read_back, kids))})**0.5)"
    return "".join(map(read_back, kids))


EXPRESSIONS = st.recursive(
    st.sampled_from(["a", "b", "c", "2", "0.5"]),
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from(["+", "-", "*", "/"]), inner).map(lambda t: f"({t[0]}) {t[1]} ({t[2]})"),
        inner.map(lambda text: f"({text}) ** 2"),
        inner.map(lambda text: f"-({text})"),
        inner.map(lambda text: f"sqrt({text})"),
    ),
    max_leaves=12,
)


@given(EXPRESSIONS)
def test_drawn_equation_means_what_was_written(text):
    """Brackets and fractions of the drawn equation give back the value of the written one: nothing is lost or regrouped."""
    values = {"a": 1.7, "b": 2.3, "c": 3.1, "sqrt": lambda x: x**0.5}
    try:
        wanted = eval(text, {}, values)  # text made above
    except (ZeroDivisionError, OverflowError):
        return
    drawn = etree.fromstring(mathml.equation(f"y = {text}")).find("math")
    right = read_back(drawn).partition("=")[2]
    assert eval(right, {}, values) == pytest.approx(wanted, rel=1e-9)
    numbers = {"a": "1.7", "b": "2.3", "c": "3.1"}
    put_in = etree.fromstring(mathml.substituted(f"y = {text}", numbers)).find("math")
    assert eval(read_back(put_in).partition("=")[2], {}, values) == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize("value", ["-2", "1e-06", "-3.5e-05"])
def test_signed_and_small_numbers_are_bracketed_where_it_matters(value):
    """A negative number behind a sign stands in brackets; a power of ten as the base of a power too."""
    for text in ("y = a * b", "y = a - b", "y = a + b"):
        put_in = etree.fromstring(mathml.substituted(text, {"a": "5", "b": value})).find("math")
        written = read_back(put_in).partition("=")[2]
        assert eval(written) == pytest.approx(eval(text[4:], {}, {"a": 5, "b": float(value)}))
        assert ("(" in written.replace("(10)", "").replace("**", "")) or not value.startswith("-")
    squared = etree.fromstring(mathml.substituted("y = b ** 2", {"b": value})).find("math")
    assert eval(read_back(squared).partition("=")[2]) == pytest.approx(float(value) ** 2)


def test_text_is_escaped_and_attributes_are_refused():
    """Text and values are written as references; style and event attributes cannot be written at all."""
    assert el("p", NASTY, title=NASTY).count("<") == 2
    assert etree.fromstring(el("p", NASTY, title=NASTY)).text == NASTY
    assert etree.fromstring(el("p", NASTY, title=NASTY)).get("title") == NASTY
    assert el("p", "a\x00b\x1b") == "<p>ab</p>"
    assert join(["<", Markup("<b></b>")]) == "&lt;<b></b>"
    for wrong in ("style", "onclick", "onload"):
        with pytest.raises(ValueError, match=wrong):
            el("p", **{wrong: "x"})


def test_names_typed_by_a_reader_stay_text_everywhere():
    """A name with markup in it appears in form, checks, drawing, steps and sentence as text only."""
    inputs = dict(inputs_of("discharge-clearances"))
    inputs["openings"] = [{"name": NASTY, "kind": "window", "horizontal": "1 ft", "vertical": "0.2 ft"}]
    text = page.worked("discharge-clearances", inputs, "w1", NASTY)
    Balanced(text)
    assert "<img" not in text
    assert "<!--" not in text
    assert text.count("&lt;img src=x onerror=alert(1)&gt;") >= 4
    result = solve("discharge-clearances", inputs)
    parts = {**page.first(result, "us"), **page.span(result, "us"), **page.rest(result, "us", "w1")}
    parts.pop("status")  # put in as text, never as markup
    for part in parts.values():
        assert "<img" not in part


@pytest.mark.parametrize("name", NAMES)
def test_form_offers_every_input(name):
    """Each declared input, down to the members of objects, has a control that the scripts can find."""
    declared = calculators.declaration(name)
    text = form(declared, inputs_of(name), "w1", "us")
    for field in declared.inputs:
        assert re.search(rf'data-(path|at)="{field}[".[]', text), field
    assert text.count("<form") == 1
    assert " disabled" in text


def test_form_shows_the_inputs_as_they_were_typed():
    """Numbers stand in the boxes as typed, with their unit chosen; feet and inches stay whole."""
    inputs = {**inputs_of("pump-sizing"), "static_lift": "9' 4-1/2\"", "pipe_length": "7.5 m"}
    text = form(calculators.declaration("pump-sizing"), inputs, "w1", "us")
    lift = re.search(r'<input[^>]*data-path="static_lift"[^>]*>', text)[0]
    assert 'value="9&#39; 4-1/2&quot;"' in lift
    length = text[text.index('id="w1-pipe_length"') :]
    assert 'value="7.5"' in length[:200]
    assert 'value="m" selected' in length[: length.index("</select>")]


@pytest.mark.parametrize(("value", "text"), [
    (0, "0"), (34.108, "34.1"), (5.3819, "5.38"), (27, "27"), (8.25, "8.25"), (10.25, "10.25"), (0.28127, "0.281"), (1131.4, "1,131"),
    (23967.9, "23,968"), (-0.5, "−0.5"), (1.779e-5, "1.78 × 10⁻⁵"), (0.0625, "0.0625"), (12345678, "1.23 × 10⁷"),
])  # fmt: skip
def test_numbers_are_printed_as_people_write_them(value, text):
    """Three digits or so, a comma for thousands, a true minus, powers of ten as powers."""
    assert figure(value) == text


def test_units_are_printed_as_people_write_them():
    """degF is °F, a plain number has no unit, an inch has its point."""
    assert plain(55, "degF") == "55 °F"
    assert plain(0.6, "1") == "0.6"
    assert plain(4, "in") == "4 in."


@given(st.floats(-1e5, 1e5), st.floats(1e-6, 1e6), st.integers(3, 8))
def test_ticks_are_round_rise_and_span_the_values(low, width, most):
    """Ticks of an axis enclose the values and are evenly spaced; there are not too many."""
    marks = plot.ticks(low, low + width, most)
    assert marks[0] <= low + 1e-6 * width
    assert marks[-1] >= low + width - 1e-6 * width
    assert 2 <= len(marks) <= most + 3
    steps = {round((b - a) / (marks[-1] - marks[0]), 6) for a, b in pairwise(marks)}
    assert len(steps) <= 2


@given(st.lists(st.floats(-50, 400), max_size=8))
def test_words_on_leaders_keep_apart(heights):
    """Words stand in the order of their heights, a line apart, inside the sheet when there is room."""
    places = spread(heights, 18, 14, 300)
    order = sorted(range(len(heights)), key=lambda i: heights[i])
    rising = [places[i] for i in order]
    assert all(b - a >= 18 - 1e-6 for a, b in pairwise(rising))
    assert all(14 - 1e-6 <= y <= 300 + 1e-6 for y in places)


@pytest.mark.parametrize("name", drawings.NAMES)
@pytest.mark.parametrize("system", ["us", "si"])
def test_drawing_stands_alone_with_the_handbooks_own_house(name, system):
    """Without numbers of a reader each drawing shows the handbook's house; it has a title and a description in words."""
    text = drawings.draw(name, "d1", None, system)
    figure_ = etree.fromstring(f"<div>{text}</div>").find(".//figure")
    svg = figure_.find("svg")
    assert svg.get("role") == "img"
    assert len(svg.find("title").text) > 8
    assert len(svg.find("desc").text) > 40
    assert figure_.find("figcaption").text
    numbers = [float(n) for n in re.findall(r'(?:x|y|width|height|cx|cy|r)="(-?[\d.]+)"', text)]
    assert all(-400 < n < 800 for n in numbers)
    assert not re.search(r'(width|height|r)="-', text)


def test_unknown_drawing_is_named():
    """A drawing that does not exist is a LookupError that lists those that do."""
    with pytest.raises(LookupError, match="tile-section"):
        drawings.draw("tile", "d1")


@pytest.mark.parametrize("changes", [
    {"drain_side": "outside"}, {"tile_position": "on-footing"}, {"drain_side": "unknown"}, {"known_below": ["not-located"]},
    {"finish_depth": "4 in"}, {"wall_thickness": "48 in", "footing_width": "50 in"}, {"wall_thickness": "2 in", "footing_width": "120 in"},
])  # fmt: skip
def test_tile_drawing_follows_the_case(changes):
    """The section is drawn for each case, in range, and says when no core from inside meets the drain."""
    result = solve("tile-offset", {**inputs_of("tile-offset"), **changes})
    text = drawings.draw("tile-section", "d1", result, "us")
    etree.fromstring(text)
    assert ("no core from inside meets it" in text) == (result.outputs["first_hole"] is None)
    assert ("not located" in text) == (changes.get("known_below") == ["not-located"])


def test_pit_drawing_marks_what_is_not_met():
    """A pump-on level above the tile invert stands out in the drawing, and no longer when it is lowered."""
    inputs = dict(inputs_of("pump-sizing"))
    high = drawings.draw("sump-section", "d1", solve("pump-sizing", {**inputs, "pump_on_height": "16 in"}), "us")
    low = drawings.draw("sump-section", "d1", solve("pump-sizing", {**inputs, "pump_on_height": "12 in"}), "us")
    assert re.search(r'class="bad"[^>]*>pump on 16 in\.', high)
    assert re.search(r"<text[^>]*>pump on 12 in\.", low)
    assert 'class="bad"' not in low


def test_pit_drawing_without_heights_says_so():
    """Without heights the pit is drawn in its width and the caption says what to give."""
    bare = {
        name: value
        for name, value in inputs_of("pump-sizing").items()
        if not name.endswith("_height") or name == "rise_height"
    }
    text = drawings.draw("sump-section", "d1", solve("pump-sizing", {**bare, "switch_range": "8 in"}), "us")
    assert "Give heights above the pit floor" in text


def test_source_line_says_kind_document_and_section_once():
    """A general kind stands alone; a document is followed by its section, without a doubled full stop."""
    assert re.sub("<[^>]*>", "", answer.source_line("common-practice")) == "common practice"
    line = re.sub("<[^>]*>", "", answer.source_line("sgm-sf-2017", "6.3.8 advisory 1"))
    assert line.endswith(", 6.3.8 advisory 1")
    assert ".," not in line
    assert line.startswith("published")


def test_choices_are_spelled_out_and_sizes_kept():
    """Words for choices are plain language; nominal sizes stay as they are."""
    assert choice("elbow-90") == "90 degree elbow, sharp"
    assert choice("window-well") == "window well"
    assert choice("1-1/4") == "1-1/4"


def test_steps_print_every_unit_that_has_a_dimension():
    """Each step names the units of its symbols, in the system that was asked for."""
    result = solve("pipe-loss", inputs_of("pipe-loss"))
    us, si = arithmetic.steps(result, "us"), arithmetic.steps(result, "si")
    assert us.count("<li>") == len(result.work.steps) == si.count("<li>")
    assert "Q in cfm" in us
    assert "Q in m³/s" in si
