"""The live worked examples in Chromium, on the built site: typing, units, lists, links, keyboard, no script at all."""

import json
import re
from collections.abc import Iterator
from typing import Any
from urllib.parse import quote

import pytest

from calculators import page as protocol
from calculators.show.house import inputs_of
from conftest import poll

PAGES = {
    "tile-offset": "04-under-the-slab/find-the-drain/",
    "sump-sealing": "05-the-sump/seal-the-lid/",
    "pump-sizing": "06-water-and-pump/pump-sizing/",
    "pipe-loss": "07-pipe-and-fan/pipe-loss/",
    "discharge-clearances": "08-where-it-ends/clearances/",
    "hole-flow": "look-up/hole-flow/",
}
PUMP = PAGES["pump-sizing"]


def words(html: str) -> str:
    """The text of a fragment."""
    return " ".join(re.sub(r"<[^>]*>", "", html).split())


def expected(calculator: str, changes: dict[str, Any], units: str = "us") -> str:
    """The number that the same Python gives here, as the page prints it."""
    inputs = {**inputs_of(calculator), **changes}
    inputs = {name: value for name, value in inputs.items() if value is not None}
    given = protocol.answer(json.dumps({"calculator": calculator, "inputs": inputs, "units": units}))
    return words(json.loads(given)["html"]["now"])


class Example:
    """One worked example in an open page."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.section = page.locator("section.worked")

    def box(self, path: str) -> Any:
        return self.section.locator(f'input[data-path="{path}"]')

    def pick(self, text: str, inside: str = "") -> None:
        """Choose one of the boxes with words, as a tap would."""
        label = self.section.locator(f"{inside} label.pick", has_text=re.compile(f"^{text}$"))
        label.first.locator("input").check()

    def now(self) -> str:
        return " ".join(self.section.locator(".now").inner_text().split())

    def shows(self, text: str) -> None:
        try:
            poll(lambda: self.now() == text)
        except AssertionError:
            raise AssertionError(f"shown: {self.now()!r}; wanted: {text!r}") from None

    def ready(self) -> "Example":
        poll(lambda: "Change a number" in self.section.locator("[data-slot=engine]").inner_text(), seconds=60)
        return self


@pytest.fixture
def pump(page, site_server) -> Iterator[Example]:
    """The pump page, its calculator started; no element of it may ever carry a style attribute."""
    page.goto(site_server.url + PUMP)
    example = Example(page).ready()
    yield example
    assert page.locator("section.worked [style]").count() == 0


SAME = """(slot, html) => {
    const parsed = new DOMParser().parseFromString(`<div>${html}</div>`, 'text/html');
    return slot.innerHTML === parsed.body.firstElementChild.innerHTML;
}"""


# Keeps what is asked of Python with a key.
WATCH = """() => {
    const plain = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (message) {
        if (JSON.parse(message.text).stage === "first") window.asked = message.text;
        plain.call(this, message);
    };
}"""
# The units that stand in the boxes; they follow a choice when Python has converted the numbers.
SHOWN = """() => {
    let found;
    document.querySelector("section.worked").dispatchEvent(
        new CustomEvent("underslab:example", {detail: ({request}) => { found = request.units; }}));
    return found;
}"""
# Types into each box in turn; gives [path, text, the inputs asked with, the inputs that the whole form reads].
TYPE_ALL = """async () => {
    const section = document.querySelector("section.worked");
    const whole = () => {
        let found;
        section.dispatchEvent(new CustomEvent("underslab:example", {detail: ({request}) => { found = request.inputs; }}));
        return found;
    };
    const pairs = [];
    let last = null;
    for (const box of section.querySelectorAll("input[data-path]:not([hidden], [hidden] *)")) {
        for (const text of ["7", "8.5", "", "9", "10 ft", box.value]) {
            window.asked = null;
            box.value = text;
            box.dispatchEvent(new Event("input", {bubbles: true}));
            for (let turn = 0; !window.asked && turn < 500; turn++) await new Promise((go) => setTimeout(go, 2));
            last = window.asked ?? last; // nothing is sent where the same is being worked out already
            pairs.push([box.dataset.path, text, JSON.parse(last).inputs, whole()]);
        }
    }
    return pairs;
}"""


@pytest.mark.parametrize("calculator", ["discharge-clearances", "sump-sealing", "pump-sizing"])
def test_with_each_key_the_whole_form_is_asked(page, site_server, calculator):
    """A number typed over another is put in its place among those read before: never other inputs than a reading of all fields."""
    page.goto(site_server.url + PAGES[calculator])
    example = Example(page).ready()
    page.evaluate(WATCH)
    for units in ("SI", "US"):
        example.pick(units)
        poll(lambda units=units: page.evaluate(SHOWN) == units.lower())
        pairs = page.evaluate(TYPE_ALL)
        assert len(pairs) > 60
        assert [pair for pair in pairs if pair[2] != pair[3]] == []


@pytest.mark.parametrize("calculator", ["discharge-clearances", "sump-sealing"])
def test_what_stands_after_each_key_is_what_python_built(page, site_server, calculator):
    """Whether a part is parsed anew or only its texts are set: after each change it is the markup that Python gives."""
    page.goto(site_server.url + PAGES[calculator])
    example = Example(page).ready()
    typed = {
        "discharge-clearances": [("openings[0].vertical", text) for text in ("1.5", "2.5", "nothing", "2.6", "-3", "30", "1.7")]
        + [("openings[0].name", text) for text in ("room & bath", "<b>", "window 3", "")],
        "sump-sealing": [("lid_gap", text) for text in ("1/8", "1/4", "wide", "3/16", "0", "1/16")]
        + [("fan.shutoff", text) for text in ("300 Pa", "350 Pa")],
    }[calculator]
    page.evaluate(WATCH)
    checked = 0
    for path, text in typed:
        page.evaluate("window.asked = null")
        example.box(path).fill(text)
        poll(lambda: page.evaluate("window.asked"))
        asked = page.evaluate("window.asked")
        first, span = (json.loads(work(asked)) for work in (protocol.answer, protocol.span))
        if not first["ok"]:
            example.section.locator(".wrong").wait_for()
            continue
        for name, html in {**first["html"], **span["html"]}.items():
            slot = example.section.locator(f'[data-slot="{name}"]')
            poll(lambda slot=slot, html=html: slot.evaluate(SAME, html))
            checked += 1
    assert checked >= 2 * (len(typed) - 2)


def test_a_key_gives_the_answer_that_python_gives_here(pump):
    """What is typed is worked out by the same calculators: the page shows what they give on this machine."""
    pump.box("static_lift").fill("12")
    pump.shows(expected("pump-sizing", {"static_lift": "12 ft"}))
    poll(lambda: "12" in pump.section.locator(".steps").text_content())  # below the screen, so not laid out
    assert pump.section.locator(".steps math").count() > 4


def test_wrong_number_is_explained_at_its_field_and_the_last_answer_stays(pump):
    """A decimal comma is explained at its field; the answer from before stays, marked as old, until the field is right."""
    before = pump.section.locator(".now__n").inner_text()
    pump.box("static_lift").fill("32,5")
    wrong = pump.section.locator('[data-at="static_lift"] .wrong')
    wrong.wait_for()
    assert "decimal comma" in wrong.inner_text()
    assert pump.box("static_lift").get_attribute("aria-invalid") == "true"
    assert wrong.get_attribute("id") in pump.box("static_lift").get_attribute("aria-describedby")
    assert "is-stale" in pump.section.get_attribute("class")
    assert pump.section.locator(".now__n").inner_text() == before
    assert pump.section.locator(".now__w").inner_text() == "old answer"
    link = pump.section.locator(".stale a")
    assert link.inner_text() == "Static lift"
    link.click()
    assert pump.page.evaluate("document.activeElement.dataset.path") == "static_lift"
    pump.box("static_lift").fill("9")
    poll(lambda: "is-stale" not in pump.section.get_attribute("class"))
    assert pump.section.locator(".wrong, .stale, [aria-invalid]").count() == 0
    assert pump.now() == expected("pump-sizing", {})


@pytest.mark.parametrize("typed", ["2.7432 m", "9'", "9' 0\"", "108 in", "9 ft"])
def test_any_unit_can_be_typed_into_the_box(pump, typed):
    """A value that carries its own unit is taken as typed, whatever unit stands beside the box."""
    pump.box("static_lift").fill("12")
    pump.shows(expected("pump-sizing", {"static_lift": "12 ft"}))
    pump.box("static_lift").fill(typed)
    pump.shows(expected("pump-sizing", {}))


def test_unit_beside_the_box_counts(pump):
    """Choosing another unit beside a number asks again with that unit."""
    pump.section.locator('[data-at="static_lift"] select').select_option("m")
    pump.shows(expected("pump-sizing", {"static_lift": "9 m"}))


def test_one_switch_turns_everything_into_si_and_back(pump, site_server):
    """The switch converts what stands in the boxes, tables too, gives the answer in SI, and is remembered on other pages."""
    pump.pick("SI")
    pump.shows(expected("pump-sizing", {}, "si"))
    assert pump.box("static_lift").input_value() == "2.7432"
    assert pump.section.locator('[data-at="static_lift"] select').input_value() == "m"
    assert pump.box("pump.points[1].flow").input_value() == "1.2618"
    assert "L/s" in pump.section.locator(".points thead").inner_text()
    pump.page.goto(site_server.url + PAGES["pipe-loss"])
    other = Example(pump.page)
    other.shows(expected("pipe-loss", {}, "si"))
    other.pick("US")
    other.shows(expected("pipe-loss", {}))
    assert other.box("flow").input_value() == "60"


def test_rows_can_be_added_and_taken_away(pump):
    """A new row asks for its own numbers, counts once it is filled, and can go again."""
    rows = pump.section.locator('[data-list="fittings"] [data-row]')
    start = rows.count()
    pump.section.locator('[data-list="fittings"] [data-add]').click()
    assert rows.count() == start + 1
    assert pump.now() == expected("pump-sizing", {})
    kind = pump.section.locator(f'[data-path="fittings[{start}].kind"]')
    kind.select_option("elbow-45")
    more = [*inputs_of("pump-sizing")["fittings"], {"kind": "elbow-45"}]
    pump.shows(expected("pump-sizing", {"fittings": more}))
    pump.section.locator(f'[data-at="fittings[{start}].count"] [data-step="1"]').click()
    more[-1] = {"kind": "elbow-45", "count": 2}
    pump.shows(expected("pump-sizing", {"fittings": more}))
    rows.nth(0).locator("[data-remove]").click()
    pump.shows(expected("pump-sizing", {"fittings": more[1:]}))
    paths = pump.section.locator('[data-list="fittings"] select[data-path]').evaluate_all(
        "all => all.map(one => one.dataset.path)"
    )
    assert paths == [f"fittings[{i}].kind" for i in range(start)]
    ids = pump.page.locator("[id]").evaluate_all("all => all.map(one => one.id)")
    assert len(ids) == len(set(ids))


def test_blank_row_between_others_is_explained_where_it_stands(pump):
    """A point of the pump curve that lost its numbers is named with its place in the table."""
    pump.box("pump.points[1].flow").fill("")
    pump.box("pump.points[1].head").fill("")
    pump.section.locator(".stale").first.wait_for()
    assert "points of the curve 2" in pump.section.locator("[data-slot=stale]").inner_text()
    assert pump.box("pump.points[1].flow").get_attribute("aria-invalid") == "true"


def test_other_way_of_giving_a_thing_takes_the_first_one_away(pump):
    """Choosing another way shows its fields, and what stood in the first way is not sent any more."""
    pump.pick("water coming in")
    pump.box("inflow").fill("20")
    pump.shows(expected("pump-sizing", {"rise_height": None, "rise_time": None, "inflow": "20 gpm"}))
    assert not pump.box("rise_height").is_visible()


def test_link_carries_the_numbers_and_opens_to_the_same_answer(pump, browser, site_server):
    """The link holds the inputs in its fragment; a fresh browser opens it to the same boxes and the same answer."""
    pump.box("static_lift").fill("10 ft 6 in")
    pump.box("pump.points[0].head").fill("28")
    pump.section.locator('[data-list="fittings"] [data-row]').nth(1).locator("[data-remove]").click()
    pump.section.locator("[data-act=link]").click()
    poll(lambda: "#i=" in pump.page.url)
    shown = poll(lambda: pump.now() != expected("pump-sizing", {}) and pump.now())
    context = browser.new_context()
    fresh = context.new_page()
    fresh.goto(pump.page.url)
    opened = Example(fresh)
    opened.shows(shown)
    assert opened.box("static_lift").input_value() == "10 ft 6 in"
    assert opened.section.locator('[data-list="fittings"] [data-row]').count() == 1
    opened.section.locator("[data-act=reset]").click()
    opened.shows(expected("pump-sizing", {}))
    assert "#" not in fresh.url
    assert opened.section.locator('[data-list="fittings"] [data-row]').count() == 2
    context.close()


def fragment(**state: Any) -> str:
    return "#i=" + quote(json.dumps({"calculator": "pump-sizing", **state}))


HOSTILE = {
    "empty": "#i=",
    "broken": "#i=%7B%22calculator",
    "bad escape": "#i=%E0%A4%A",
    "no object": "#i=" + quote("[1, 2]"),
    "other calculator": fragment(inputs={"static_lift": "1 ft"}).replace("pump-sizing", "no-such-thing"),
    "prototype": "#i="
    + quote('{"calculator": "pump-sizing", "inputs": {"__proto__": {"polluted": "yes"}, "static_lift": "9 ft"}}'),
    "constructor": fragment(inputs={"constructor": {"prototype": {"polluted": "yes"}}}),
    "deep": "#i=" + quote('{"calculator": "pump-sizing", "inputs": {"a": ' + "[" * 400 + "]" * 400 + "}}"),
    "long": fragment(inputs={"static_lift": "9" * 30_000}),
    "numbers": fragment(inputs={"static_lift": 1e308, "pit_diameter": -1}),
    "markup": fragment(
        inputs={"static_lift": "<img src=x onerror=document.title='hit'>", "<script>document.title='hit'</script>": "1"}
    ),
    "selector": fragment(inputs={'x"],*[y="': "1", "static_lift": "9 ft"}),
    "many rows": fragment(inputs={"fittings": [{"kind": "elbow-90"}] * 900}),
    "wrong kinds": fragment(
        inputs={
            "fittings": "x",
            "pump": ["y"],
            "static_lift": {"value": {"value": 1}},
            "freezing": [True],
            "measured_when": {"a": 1},
        }
    ),
    "units": fragment(units="<b>", inputs={"static_lift": "9 ft"}),
}


def harmless(example: Example) -> None:
    """No script of the fragment ran, nothing of it became markup, and the form still works."""
    page = example.page
    page.wait_for_timeout(250)
    assert page.title() not in ("", "hit")
    assert page.evaluate("({}).polluted === undefined")
    assert page.locator("section.worked img, section.worked script").count() == 0
    assert page.locator("[data-row]").count() < 60
    example.section.locator("[data-act=reset]").click()
    example.shows(expected("pump-sizing", {}))


@pytest.mark.parametrize("name", ["markup", "prototype", "selector", "many rows"])
def test_opening_a_page_with_any_fragment_is_harmless(page, site_server, name):
    """Whatever the fragment of the address holds when the page opens, it is only ever text in boxes."""
    page.goto(site_server.url + PUMP + HOSTILE[name])
    harmless(Example(page).ready())


def test_changing_to_any_fragment_is_harmless(pump):
    """The same for every fragment that the address of an open page is changed to."""
    for name, hostile in HOSTILE.items():
        pump.page.evaluate("hash => { location.hash = hash; }", hostile)
        try:
            harmless(pump)
        except Exception as error:
            raise AssertionError(f"fragment {name!r}") from error


def test_input_that_has_no_field_is_named_above_the_answer(page, site_server):
    """A link with an input that the form does not have says so at the top instead of dropping it silently."""
    page.goto(site_server.url + PUMP + fragment(inputs={**plain_pump(), "mystery": "3 ft"}))
    example = Example(page)
    example.section.locator(".stale").wait_for(timeout=60_000)
    assert "mystery" in example.section.locator("[data-slot=stale]").inner_text()


def plain_pump() -> dict[str, Any]:
    return {
        name: f"{value['value']} {value['unit']}" if isinstance(value, dict) and "unit" in value else value
        for name, value in inputs_of("pump-sizing").items()
    }


def test_status_speaks_once_typing_rests(pump):
    """The answer is spoken 700 ms after the last key: empty as built, then the sentence, then how much was not read."""
    status = pump.section.locator("[data-slot=spoken]")
    assert status.get_attribute("role") == "status"
    assert status.inner_text() == ""
    pump.box("static_lift").fill("10")
    pump.shows(expected("pump-sizing", {"static_lift": "10 ft"}))
    assert status.inner_text() == ""
    poll(lambda: words(pump.section.locator(".say").inner_html()) in status.inner_text() and status.inner_text() != "")
    pump.box("static_lift").fill("x")
    poll(lambda: status.inner_text() == "1 number was not read")


def test_whole_form_works_by_keyboard(pump):
    """Tab reaches box, unit, choice, fold and buttons; arrows choose; Enter adds a row and opens the fold."""
    page = pump.page
    pump.box("static_lift").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("11")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('select.unit')")
    pump.shows(expected("pump-sizing", {"static_lift": "11 ft"}))
    pump.section.locator('[data-path="measured_when"] input:checked').focus()
    page.keyboard.press("ArrowRight")
    assert pump.section.locator('[data-path="measured_when"] input:checked').get_attribute("value") == "dry"
    count = pump.section.locator('[data-list="fittings"] [data-row]').count()
    pump.section.locator('[data-list="fittings"] [data-add]').focus()
    page.keyboard.press("Enter")
    assert pump.section.locator('[data-list="fittings"] [data-row]').count() == count + 1
    assert page.evaluate("document.activeElement.dataset.path") == f"fittings[{count}].kind"
    summary = pump.section.locator("form > fieldset > details > summary")
    summary.focus()
    page.keyboard.press("Enter")
    assert pump.box("safety_factor").is_visible()


def test_number_in_the_fold_is_unfolded_when_it_is_wrong(pump):
    """A problem is never hidden in a fold."""
    pump.box("safety_factor").evaluate(
        "box => { box.value = 'x'; box.dispatchEvent(new Event('input', {bubbles: true})); }"
    )
    wrong = pump.section.locator('[data-at="safety_factor"] .wrong')
    wrong.wait_for()
    assert wrong.is_visible()


def test_words_that_stand_alone_take_the_others_off(page, site_server):
    """ "Nothing found" and a known line cannot both be chosen."""
    page.goto(site_server.url + PAGES["tile-offset"])
    example = Example(page).ready()
    chosen = example.section.locator('[data-path="known_below"] input:checked')
    assert chosen.evaluate_all("all => all.map(one => one.value)") == ["water"]
    example.pick("not located")
    assert chosen.evaluate_all("all => all.map(one => one.value)") == ["not-located"]
    poll(lambda: "Do not drill" in example.section.locator(".say").inner_text())
    example.pick("gas line")
    assert chosen.evaluate_all("all => all.map(one => one.value)") == ["gas"]


def test_keypad_button_lets_letters_in(pump):
    """On a phone the numbers' keypad has no letters; one button changes that for the whole form and back."""
    button = pump.section.locator("[data-act=letters]")
    button.dispatch_event("click")
    assert pump.box("static_lift").get_attribute("inputmode") == "text"
    button.dispatch_event("click")
    assert pump.box("static_lift").get_attribute("inputmode") == "decimal"


def test_what_is_put_off_at_first_stands_there_soon(page, site_server):
    """All text of the page is laid out without being scrolled to, and what is being read is not pushed away by it."""
    page.goto(site_server.url + PUMP + "#figures-to-remember")
    heading = page.locator("#figures-to-remember")
    heading.wait_for()
    poll(page.locator("article .u > :last-child").inner_text)
    page.wait_for_timeout(500)
    assert 0 <= heading.evaluate("(one) => one.getBoundingClientRect().top") < 200
    page.goto(site_server.url + PUMP)
    poll(page.locator("article .u > :last-child").inner_text)
    poll(page.locator(".worked .now").inner_text)


@pytest.mark.parametrize("calculator", PAGES)
def test_without_script_each_page_is_a_complete_worked_example(browser, site_server, calculator):
    """With scripts off the page holds sentence, numbers, inputs, steps in MathML, cautions and sources; the form is shut."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(site_server.url + PAGES[calculator])
    section = page.locator("section.worked")
    assert len(section.locator(".say p").inner_text()) > 20
    assert section.locator(".now__n").inner_text().strip("−.,0123456789 ") == ""
    assert section.locator("math").count() >= 2
    assert section.locator(".src").count() >= 2
    assert section.locator(".caution").count() >= (calculator != "pipe-loss")
    assert section.locator("input[data-path]").first.is_disabled()
    assert section.locator("input[data-path]").first.input_value() != ""
    context.close()


@pytest.mark.parametrize("calculator", PAGES)
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_words_in_drawings_and_plots_keep_apart(browser, site_server, calculator, width):
    """In every drawing, plot and range bar each word stands inside the picture and on no other word."""
    context = browser.new_context(viewport={"width": width, "height": 844})
    page = context.new_page()
    page.goto(site_server.url + PAGES[calculator])
    found = page.evaluate(
        """() => [...document.querySelectorAll("section.worked figure svg")].flatMap((svg) => {
            const around = svg.getBoundingClientRect();
            const words = [...svg.querySelectorAll("text")].map((one) => ({text: one.textContent, box: one.getBoundingClientRect()}));
            const out = words.filter(({box}) => box.left < around.left - 1 || box.right > around.right + 1 || box.top < around.top - 1
                || box.bottom > around.bottom + 1).map(({text}) => `outside: ${text}`);
            words.forEach((a, i) => words.slice(i + 1).forEach((b) => {
                const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
                const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
                if (wide > 1 && high > 4) out.push(`${a.text} on ${b.text}`);
            }));
            return out;
        })"""
    )
    assert found == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


@pytest.mark.parametrize("calculator", PAGES)
def test_every_page_answers_live_as_built(page, site_server, calculator):
    """Asking again with the numbers of the worked example gives exactly what the page was built with."""
    page.goto(site_server.url + PAGES[calculator])
    example = Example(page).ready()
    before = {
        name: page.locator(f'[data-slot="{name}"]').inner_html()
        for name in ("say", "now", "range", "checks", "results", "steps", "plot")
    }
    example.section.locator("[data-slot=results]").evaluate("slot => slot.replaceChildren()")
    example.section.locator("[data-act=reset]").click()
    poll(lambda: example.section.locator("[data-slot=results]").inner_html() != "")
    after = {name: page.locator(f'[data-slot="{name}"]').inner_html() for name in before}
    assert after == before
