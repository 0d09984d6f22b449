"""What a reader's own settings ask for: less movement, the system's colours, paper, letters twice as large, keys alone."""

import pytest

from conftest import poll, ready
from test_every_page import WHOLE, pages, violations, wrong_on
from test_practice_browser import open_problem

# One page of each kind.
KINDS = [
    "", "02-read-the-building/ways-in/", "04-under-the-slab/reach/", "06-water-and-pump/pump-sizing/", "10-prove-and-hand-over/",
    "look-up/friction/", "practice/", "set-a-paper/", "job-sheet/", "how-this-is-checked/",
]  # fmt: skip
MOVING = """() => [...document.querySelectorAll("*")].flatMap((one) => ["", "::before", "::after"].map((part) => [one, getComputedStyle(one, part || null)]))
  .filter(([, style]) => style.scrollBehavior === "smooth"
    || [style.transitionDuration, style.animationDuration].some((text) => text.split(",").some((time) => parseFloat(time) > 0.01)))
  .map(([one]) => one.outerHTML.slice(0, 80))"""
# Controls without an edge, bars without a colour, choices that look like the others, and lines, edges and words of drawings in the
# colour of what is behind them.
UNSEEN = """() => {
  const canvas = getComputedStyle(document.body).backgroundColor;
  const sized = (one) => { const box = one.getBoundingClientRect(); return box.width > 1 && box.height > 1; };
  const edged = (one) => { const style = getComputedStyle(one); return parseFloat(style.borderBottomWidth) >= 1 && style.borderBottomColor !== canvas; };
  const controls = [...document.querySelectorAll(".u :is(button:not(.link-button), select, input:not([type=radio], [type=checkbox]), .pick span)")];
  const shown = controls.filter((one) => sized(one) && !edged(one) && !(one.parentElement.matches(".ask") && edged(one.parentElement)));
  const lines = [...document.querySelectorAll("main svg:not(.md-icon svg) :is(line, path, polyline, rect, circle, text)")].filter((one) => {
    const style = getComputedStyle(one);
    const colours = [style.stroke, style.fill].filter((colour) => colour !== "none" && !/^rgba.*, 0\\)$/.test(colour));
    return sized(one) && colours.length && colours.every((colour) => colour === canvas) && !one.matches(".on-dot, .inside");
  });
  const bars = [...document.querySelectorAll(".slab, .caution.is-danger .caution__level")].filter((one) => sized(one) && getComputedStyle(one).backgroundColor === canvas);
  const border = (one) => one && ["borderBottomColor", "borderBottomWidth"].map((what) => getComputedStyle(one)[what]).join();
  const alike = [...document.querySelectorAll(".u .picks")].flatMap((all) => {
    const [on, off] = ["input:checked + span", "input:not(:checked) + span"].map((which) => all.querySelector(which));
    return on && off && border(on) === border(off) ? [on] : [];
  });
  return [...shown, ...lines, ...bars, ...alike].map((one) => one.outerHTML.slice(0, 120));
}"""
# Links and folds that are lower than a finger: 44 px where nothing else stands in the line, 24 px within a text. Measured by what is hit.
LOW = """() => {
  const whole = new CSSStyleSheet();
  whole.replaceSync("[data-slot] { content-visibility: visible !important }");
  document.adoptedStyleSheets.push(whole);
  const inline = (one) => getComputedStyle(one).display === "inline";
  const alone = (one) => {
    if (one.closest(".turn, .foot")) return true;
    if (one.closest(".src, .src-ref")) return false;
    let block = one;
    while (inline(block)) block = block.parentElement;
    return block.textContent.trim() === one.textContent.trim();
  };
  return [...document.querySelectorAll(":is(main .u, .turn, .foot) a[href], main .u summary")].flatMap((one) => {
    if (!one.checkVisibility({visibilityProperty: true})) return [];
    one.scrollIntoView({block: "center"});
    const line = one.getClientRects()[0], across = line.left + Math.min(line.width / 2, 20), middle = line.top + line.height / 2;
    const hit = (down) => one.contains(document.elementFromPoint(across, middle + down));
    let up = 0, down = 0;
    while (up < 44 && hit(-up - .5)) up += .5;
    while (down < 44 && hit(down + .5)) down += .5;
    return up + down + 1 >= (alone(one) ? 44 : 24) ? [] : [`${up + down} px: ${one.textContent.trim()}`];
  });
}"""
PAPER = 680  # px: A4 with the margins of the style sheet; Letter is wider
ON_PAPER = """() => {
  const seen = (one) => one.checkVisibility({visibilityProperty: true}) && one.getBoundingClientRect().height > 1;
  const all = (which) => [...document.querySelectorAll(which)];
  // What belongs to the screen: controls and what they say, choices that were not taken, the page's own notes to its reader there.
  const left = "[hidden], title, desc, option, script, .hint, .acts, button, .pick:has(input:not(:checked)), .more > summary, .field > .src, .jump, .lookup, .noprint";
  const words = () => {
    const found = all("main :is(input:not([type=radio], [type=checkbox]), select)"), walker = document.createTreeWalker(document.querySelector(".md-content"), NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) if (walker.currentNode.data.trim()) found.push(walker.currentNode.parentElement);
    return found;
  };
  return {
    controls: all(".md-header, .md-search, .md-sidebar, .reach, .turn, .foot, main button:not(.link-button)").filter(seen).map((one) => one.outerHTML.slice(0, 80)),
    gone: words().filter((one) => !one.closest(left) && !one.checkVisibility({visibilityProperty: true})).map((one) => one.outerHTML.slice(0, 80)).slice(0, 5),
    wide: document.documentElement.scrollWidth - innerWidth,
    rolled: all("main :is(.math, pre, .table)").filter((one) => one.scrollWidth > one.clientWidth + 1).map((one) => one.outerHTML.slice(0, 80)),
    cut: all("main *").filter((one) => seen(one) && !one.closest("svg, math") && one.getBoundingClientRect().right > innerWidth + 1)
      .map((one) => one.outerHTML.slice(0, 80)).slice(0, 5),
  };
}"""


@pytest.fixture
def reader(fresh):
    """A page for a reader with these settings: ``reader(width=390, forced_colors="active")``."""
    return lambda width=390, **settings: fresh(viewport={"width": width, "height": 844}, service_workers="block", **settings)


def test_axe_finds_nothing_in_what_comes_with_use(site_server, reader):
    """A form with a new row, a number that is not understood, open folds and a link; a problem that was marked; search and menu."""
    page, found = reader(color_scheme="dark", bypass_csp=True), {}
    page.add_init_script(WHOLE)
    page.goto(site_server.url + "06-water-and-pump/pump-sizing/")
    ready(page)
    page.click("section.worked [data-act=link]")
    page.click('[data-list="fittings"] [data-add]')
    page.fill('input[data-path="static_lift"]', "32,5")
    page.locator('[data-at="static_lift"] .wrong').wait_for()
    page.locator("section.worked .stale").first.wait_for()
    found["form"] = violations(page)
    page.goto(site_server.url + "practice/")
    ready(page)
    open_problem(page, "pump-head")
    page.fill("[data-answer]", "1")
    page.keyboard.press("Enter")
    page.locator(".diagnosis").wait_for()
    page.click("[data-act=working]")
    page.locator(".diagnosis math").first.wait_for(state="attached")
    found["problem"] = violations(page)
    page.get_by_role("button", name="Menu").click()
    found["menu"] = violations(page)
    page.keyboard.press("Escape")
    page.keyboard.press("/")
    page.keyboard.type("frost", delay=20)
    page.locator(".md-search-result__link").first.wait_for()
    found["search"] = violations(page)
    assert not {what: wrong for what, wrong in found.items() if wrong}


def test_nothing_moves_for_those_who_ask_for_less_motion(site_server, reader):
    """No animation, no transition, no smooth scrolling where the reader's system asks for less of it."""
    assert not wrong_on(reader(reduced_motion="reduce"), site_server.url, KINDS, MOVING)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_controls_and_drawings_in_the_colours_of_the_system(site_server, reader, scheme):
    """With forced colours each control has an edge, and no line or word of a drawing has the colour of the ground."""
    assert not wrong_on(reader(forced_colors="active", color_scheme=scheme), site_server.url, KINDS, UNSEEN)


def test_letters_twice_as_large(site_server, reader):
    """A window of 640 px, as one of 1280 px at 200 percent: no kind of page scrolls sideways; test_every_page.py has all of them narrower."""
    over = "Math.max(0, document.documentElement.scrollWidth - document.documentElement.clientWidth)"
    assert not wrong_on(reader(640), site_server.url, KINDS, over)


def test_links_and_folds_are_as_high_as_a_finger(site_server, reader):
    """On a phone each link or fold that stands alone is hit over 44 px, each link in a text over 24 px."""
    assert not wrong_on(reader(), site_server.url, [*KINDS, "look-up/"], LOW)


def test_targets_of_the_menu(site_server, reader):
    """On a phone each entry of the open menu is at least 44 px high."""

    def low_entries(page):
        page.get_by_role("button", name="Menu").click()
        assert page.locator(".md-sidebar--primary a.md-nav__link").first.is_visible() or page.url.endswith("/job-sheet/")
        return page.evaluate(
            "() => [...document.querySelectorAll('.md-sidebar--primary a.md-nav__link')]"
            ".filter(e => { const b = e.getBoundingClientRect(); return b.width > 1 && b.height < 43.9; }).map(e => e.outerHTML.slice(0, 80))")

    assert not wrong_on(reader(), site_server.url, KINDS, low_entries)


def test_paper_shows_the_whole_page(site, site_server, reader):
    """Printed, all that is read is there, folded or not; controls are not; nothing is cut at the side or waits to be scrolled."""
    page = reader(PAPER)
    page.emulate_media(media="print")

    def missing(page):
        return {what: value for what, value in page.evaluate(ON_PAPER).items() if value not in ([], 0)}

    assert not wrong_on(page, site_server.url, pages(site), missing)


def test_a_formula_wider_than_the_phone_takes_focus_after_each_answer(site_server, reader):
    """What has to be scrolled sideways is a stop of the Tab key, as built and when new numbers stand in it."""
    page = reader()
    page.add_init_script(WHOLE)
    page.goto(site_server.url + "06-water-and-pump/pump-sizing/")
    ready(page)
    wide = """() => [...document.querySelectorAll(".steps .math")].filter((one) => one.scrollWidth > one.clientWidth + 1)
      .map((one) => [one.textContent, one.tabIndex])"""
    (built, _), *others = page.evaluate(wide)
    assert not others
    page.locator(".steps .math").filter(has_text=built).scroll_into_view_if_needed()
    poll(lambda: page.evaluate(wide) == [[built, 0]], 5)
    page.locator("input[data-path=static_lift]").evaluate(
        "(box) => { box.value = '9.5'; box.dispatchEvent(new Event('input', {bubbles: true})); }")
    poll(lambda: (now := page.evaluate(wide)) and now[0][0] != built and now[0][1] == 0, 5)


def calculator_pages(site) -> dict[str, str]:
    """Each calculator with the first page that holds it."""
    found: dict[str, str] = {}
    for address in pages(site):
        text = (site / address / "index.html").read_text(encoding="utf-8")
        for part in text.split('data-calculator="')[1:]:
            found.setdefault(part.split('"')[0], address)
    return found


def test_every_calculator_by_keyboard_alone(site, site_server, page):
    """Tab reaches the numbers, one that is typed a tenth larger changes the answer, and Tab leads out again."""
    page.set_viewport_size({"width": 390, "height": 844})
    names = calculator_pages(site)
    assert len(names) > 20
    where = """(name) => {
      const one = document.activeElement;
      return one.closest(`section[data-calculator='${name}'] form`) ? [one.type, one.value] : ["", ""];
    }"""
    for name, address in names.items():
        page.goto(site_server.url + address)
        ready(page)
        example = page.locator(f"section[data-calculator='{name}']").first
        answer = example.locator("[data-slot=now], [data-slot=results], [data-slot=steps]")
        first = example.locator("form :is(input, select, button)").first
        first.evaluate("(one) => one.closest('form').previousElementSibling?.scrollIntoView()")
        for _ in range(150):
            page.keyboard.press("Tab")
            kind, value = page.evaluate(where, name)
            if kind == "text" and value.replace(".", "", 1).isdigit():
                break
        else:
            raise AssertionError(f"{name}: Tab does not reach a number")
        before = answer.all_text_contents()
        page.keyboard.press("ControlOrMeta+a")
        page.keyboard.type(f"{1.1 * float(value):g}" if "." in value or float(value) > 9 else f"{float(value) + 1:g}")
        poll(lambda at=answer, was=before, old=example.locator(".stale"): not old.count() and at.all_text_contents() != was)
        example.locator("form :is(input, select, button)").last.evaluate("(one) => one.focus()")
        for _ in range(3):
            page.keyboard.press("Tab")
        assert page.evaluate(where, name)[0] == "", f"{name}: Tab does not lead out"
