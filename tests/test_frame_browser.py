"""The frame round every page: search that comes when it is wanted, light and dark, the menu by keyboard, nothing jumps."""

import pytest

from conftest import Gate, poll, ready

PAGE = "07-pipe-and-fan/pipe-loss/"
KINDS = ["", PAGE, "practice/", "practice/#p=abc", "set-a-paper/", "job-sheet/", "look-up/friction/"]
SHIFTS = """window.shifts = [];
const watcher = new PerformanceObserver((list) => note(list.getEntries()));
const note = (found) => shifts.push(...found.filter((one) => !one.hadRecentInput).map((one) => one.value));
window.shifted = () => { note(watcher.takeRecords()); return shifts.reduce((sum, one) => sum + one, 0); };
watcher.observe({type: "layout-shift", buffered: true});"""
PAINTED = "performance.getEntriesByName('first-contentful-paint').length"
SHADE = "document.body.getAttribute('data-md-color-scheme')"


@pytest.fixture
def asked(page):
    """The files that the page has asked for, by name."""
    names: list[str] = []
    page.on("request", lambda request: names.append(request.url.rsplit("/", 1)[-1]))
    return names


def of_theme(names: list[str]) -> list[str]:
    return [name for name in names if name.startswith(("bundle.", "search"))]


@pytest.mark.parametrize("begin", ["#field", "/"])
def test_search_is_fetched_when_somebody_turns_to_it(page, site_server, asked, begin):
    """A page loads neither the theme's script nor the list of words; both come with the field, or its key, and it finds."""
    page.set_viewport_size({"width": 1280, "height": 900})
    page.goto(site_server.url + PAGE)
    ready(page, 30)
    assert not of_theme(asked)
    page.click(".md-search__input") if begin == "#field" else page.keyboard.press(begin)
    page.keyboard.type("sump lid", delay=20)
    poll(lambda: page.locator(".md-search-result__link").count() > 0, 15)
    assert page.input_value(".md-search__input") == "sump lid"
    assert len(of_theme(asked)) == 3


def test_search_opens_on_a_phone(page, site_server):
    """The button opens the search over the page, and it finds."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(site_server.url + PAGE)
    page.get_by_role("button", name="Search").click()
    poll(lambda: page.evaluate("document.activeElement.name") == "query")
    page.keyboard.type("frost", delay=20)
    poll(lambda: page.locator(".md-search-result__link").count() > 0, 15)


@pytest.mark.parametrize(("device", "shade", "other"), [("light", "default", "slate"), ("dark", "slate", "default")])
def test_shade_is_the_devices_until_the_reader_chooses(browser, site_server, device, shade, other):
    """Light or dark follows the device; the reader's choice holds on the next page, for the theme's script too."""
    context = browser.new_context(color_scheme=device, viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(site_server.url)
    assert page.evaluate(SHADE) == shade
    page.click(".md-search__input")
    poll(lambda: page.evaluate("'component$' in window"), 10)
    page.emulate_media(color_scheme={"light": "dark", "dark": "light"}[device])
    poll(lambda: page.evaluate(SHADE) == other)
    page.emulate_media(color_scheme=device)
    poll(lambda: page.evaluate(SHADE) == shade)
    page.keyboard.press("Escape")
    button = page.locator(".md-header__option button:not([hidden])")
    assert button.count() == 1
    button.click()
    assert page.evaluate(SHADE) == other
    page.goto(site_server.url + PAGE)
    assert page.evaluate(SHADE) == other
    assert button.count() == 1
    page.click(".md-search__input")
    poll(lambda: page.evaluate("'component$' in window"), 10)
    assert page.evaluate(SHADE) == other
    context.close()


def test_contents_open_by_keyboard(page, site_server):
    """A part's name that only opens its list takes the Enter key, before and after the theme's script is there."""
    page.set_viewport_size({"width": 1280, "height": 900})
    page.goto(site_server.url + PAGE)
    label = page.locator("button.md-nav__link").first
    state = f"document.getElementById({label.get_attribute('id').removesuffix('_label')!r}).checked"
    label.focus()
    before = page.evaluate(state)
    page.keyboard.press("Enter")
    assert page.evaluate(state) is not before
    page.click(".md-search__input")
    poll(lambda: page.evaluate("'component$' in window"), 10)
    label.focus()
    page.keyboard.press("Enter")
    assert page.evaluate(state) is before


@pytest.mark.parametrize("width", [412, 1350])
def test_nothing_jumps_when_the_scripts_come(browser, site, site_server, width):
    """On each kind of page what stands on the screen stays where it is, though the scripts come after the first paint."""
    late = {file.name for file in site.glob("assets/js/*.js")} - {"scope.js", "palette.js"}  # these two stop the paint
    moved = {}
    for address in KINDS:
        context = browser.new_context(viewport={"width": width, "height": 900}, service_workers="block")
        context.add_init_script(SHIFTS)
        page, gate = context.new_page(), Gate()
        for name in late:
            page.route(f"**/{name}", gate.hold)
        page.goto(site_server.url + address, wait_until="commit")
        poll(lambda at=page: at.evaluate(PAINTED))
        gate.open()
        page.wait_for_load_state("load")
        if page.locator("meta[name=calculators]").count() and address != "job-sheet/":  # which starts it for one's own job
            ready(page)
        page.evaluate("new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)))")
        moved[address] = page.evaluate("shifted()")
        context.close()
    assert {address: round(much, 3) for address, much in moved.items() if much > 0.05} == {}


def test_fields_are_seen_when_the_script_is_lost(fresh, site_server):
    """The fields come a frame after the words, also where the script that brings them to life cannot be had."""
    page = fresh(service_workers="block")
    page.route("**/assets/js/site.js", lambda route: route.abort())
    page.goto(site_server.url + "07-pipe-and-fan/pipe-loss/")
    page.locator("form.numbers input[data-path=flow]").wait_for()


@pytest.mark.parametrize("address", ["practice/", "set-a-paper/"])
def test_no_control_without_script(browser, site_server, address):
    """Where no script runs, the pages that live by one show their text and no control of theirs."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site_server.url + address)
    assert page.locator("main h1").is_visible()
    controls = page.locator("main :is(button, input, textarea)")
    assert controls.count() >= 2
    assert [one.evaluate("(at) => at.outerHTML") for one in controls.all() if one.is_visible()] == []
    context.close()
