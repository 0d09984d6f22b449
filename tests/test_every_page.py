"""Every page of the built site: open to everybody, no foreign request, nothing that its own policy forbids."""

from pathlib import Path

import pytest

from conftest import poll
from scripts.toolbox import ROOT

AXE = ROOT / "scripts" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SAVING = "Object.defineProperty(navigator, 'connection', {value: {saveData: true}});"  # the calculators do not start by themselves
WATCH = "addEventListener('securitypolicyviolation', e => (window.__broken ||= []).push(e.violatedDirective + ' ' + e.blockedURI));"
# All of a page is laid out: what is folded, and what is otherwise laid out when it comes near.
WHOLE = """document.addEventListener("DOMContentLoaded", () => {
  const all = new CSSStyleSheet();
  all.replaceSync("* { content-visibility: visible !important; }");
  document.adoptedStyleSheets.push(all);
  for (const fold of document.querySelectorAll("details")) fold.open = true;
});"""
NARROW = """() => {
  const page = document.documentElement;
  const touched = [...document.querySelectorAll(".u button, .u input, .u select, .reach a, button.md-header__button")];
  const small = touched.filter((one) => {
    const {width, height} = one.getBoundingClientRect();
    return width > 1 && (height < 43.9 || width < 43.9);
  });
  const over = page.scrollWidth > page.clientWidth ? [`${page.scrollWidth} px wide`] : [];
  return [...over, ...small.map((one) => one.outerHTML.slice(0, 80))];
}"""
# As in a browser that has no service worker; blocking it from outside leaves a register() that gives nothing.
NO_WORKER = "delete Navigator.prototype.serviceWorker;"


def pages(site: Path) -> list[str]:
    """The addresses of all pages, below the site's root."""
    found = [path.parent.relative_to(site).as_posix() for path in site.rglob("index.html")]
    return sorted("" if path == "." else f"{path}/" for path in found)


def violations(page) -> list[list]:
    """What axe-core finds on a page whose policy is bypassed, in light and dark: the rule and the first places."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = []
    for scheme, name in (("light", "default"), ("dark", "slate")):
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # no color is seen half-way to the other
        poll(lambda name=name: page.locator("body").get_attribute("data-md-color-scheme") == name)
        found += [[scheme, *one] for one in page.evaluate("""async (rules) => {
          await new Promise((go) => { requestAnimationFrame(() => setTimeout(go)); setTimeout(go, 500); }); // wide formulas become Tab stops
          const {violations} = await axe.run(document, {runOnly: rules, resultTypes: ["violations"]});
          return violations.map((one) => [one.id, one.nodes.slice(0, 3).map((node) => node.target)]);
        }""", RULES)]
    return found


def wrong_on(page, url, addresses, look) -> dict[str, object]:
    """What ``look``, code for the page or a function, finds wrong on each of these pages; the first few where it is a list."""
    wrong = {}
    for address in addresses:
        page.goto(url + address)
        if found := page.evaluate(look) if isinstance(look, str) else look(page):
            wrong[address] = found[:5] if isinstance(found, list) else found
    return wrong


@pytest.mark.parametrize(("width", "height"), [(390, 844), (1280, 900)])
def test_axe_finds_nothing(site, site_server, fresh, width, height):
    """axe-core's WCAG 2.2 AA and best-practice rules find no violation on any page, its folds open, in light and dark."""
    page = fresh(viewport={"width": width, "height": height}, bypass_csp=True, service_workers="block")
    page.add_init_script(SAVING + WHOLE)
    assert not wrong_on(page, site_server.url, pages(site), violations)


def test_no_page_asks_elsewhere_or_breaks_its_policy(site, site_server, browser):
    """All requests of all pages stay on the site's own origin, and the policy is never broken."""
    foreign, broken, said = [], {}, []
    context = browser.new_context(viewport={"width": 390, "height": 844})
    context.add_init_script(WATCH + NO_WORKER)
    page = context.new_page()
    page.on("request", lambda request: foreign.append(request.url) if not request.url.startswith(site_server.url) else None)
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    for address in pages(site):
        page.goto(site_server.url + address)
        page.wait_for_timeout(100)
        blocked = page.evaluate("window.__broken || []")
        if blocked:
            broken[address] = blocked
    context.close()
    assert not [url for url in foreign if not url.startswith(("data:", "blob:"))]
    assert not broken
    assert not said


def too_wide_or_small(page) -> list[str]:
    """What is wrong on a page in the windows of narrow phones: sideways scroll, targets under 44 px."""
    found = []
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 700})
        found += page.evaluate(NARROW)
    return found


def test_no_page_scrolls_sideways(site, site_server, fresh):
    """On a narrow phone no page is wider than the window, and nothing that is touched is under 44 px."""
    page = fresh(viewport={"width": 320, "height": 700}, service_workers="block")
    assert not wrong_on(page, site_server.url, pages(site), too_wide_or_small)


def test_pages_are_whole_without_script(site, site_server, browser):
    """Without JavaScript every worked example shows its answer, its arithmetic and its cautions, and no control that does nothing."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    page = context.new_page()
    seen = 0
    for path in site.rglob("index.html"):
        if 'class="worked' not in path.read_text(encoding="utf-8"):
            continue
        seen += 1
        page.goto(site_server.url + path.parent.relative_to(site).as_posix() + "/")
        arithmetic = [".worked .steps math"] if page.locator(".worked .steps").count() else []
        for part in (".worked .say", *arithmetic, ".worked .found"):
            assert page.locator(part).first.is_visible(), (path, part)
        assert page.locator(".worked fieldset[disabled], .worked fieldset:disabled").count() >= 1
    context.close()
    assert seen >= 6
