"""The site without a network: kept whole, used from the device, changed only as a whole and only when asked."""

import shutil

import pytest

from conftest import poll
from keeping import ASK, READY, change_home, first_visit, kept, line, rebuild_worker, versions
from test_every_page import pages


def test_first_visit_keeps_everything(page, site, site_server):
    """After one visit each file of the site is kept, and only then the foot says that it is ready."""
    from scripts.offline_list import offline_table

    first_visit(page, site_server.url)
    wanted = {site_server.url + path for path in offline_table(site)}
    assert len(wanted) > 20
    assert wanted - set(kept(page)) == set()


@pytest.mark.parametrize(("base", "step"), [("/", 1), ("/some/folder/", 5)])
def test_every_page_opens_without_the_server(page, site, serve, base, step):
    """With the server dead each page opens with its own title and its style sheets; so does each fifth where the site lies in a folder."""
    server = serve(site, base)
    first_visit(page, server.url)
    server.stop()
    names = pages(site)[::step]
    assert len(names) > 10
    for name in names:
        page.goto(server.url + name)
        assert page.locator("main h1").count() >= 1, name
        sheets = page.evaluate("[...document.styleSheets].map(s => s.cssRules.length > 0)")
        assert sheets, name
        assert all(sheets), name


TYPING = "const press = () => { window.typing = setInterval(() => dispatchEvent(new Event('input')), 200); };"
WHEN_BEGUN = """navigator.serviceWorker.addEventListener("message", ({data}) => { if (data.type === "kept") window.typing ?? press(); });"""


@pytest.mark.parametrize("start", ["press();", WHEN_BEGUN], ids=["from the start", "when it has begun"])
def test_keeping_waits_for_the_keys(page, site, site_server, start):
    """While keys are pressed nothing more is fetched for the device; it goes on when they rest."""
    asked: list[str] = []
    page.context.on("request", lambda request: asked.append(request.url) if request.service_worker else None)
    page.add_init_script(TYPING + start)
    page.goto(site_server.url)
    poll(lambda: page.evaluate("'typing' in window"))
    page.wait_for_timeout(2500)
    before = len(asked)
    page.wait_for_timeout(1000)
    assert len(asked) == before < len(list(site.rglob("index.html")))
    assert line(page) != READY
    page.evaluate("clearInterval(typing)")
    poll(lambda: line(page) == READY)
    assert len(asked) > before


def test_addresses_without_slash_and_with_a_query(page, site, serve):
    """Offline an address works as it does online: without its last slash, with index.html, with a query."""
    server = serve(site)
    first_visit(page, server.url)
    server.stop()
    for address in ("look-up", "look-up?from=mail", "look-up/index.html", "look-up/?q=1#top"):
        page.goto(server.url + address)
        assert page.locator("main h1").inner_text().strip().lower().startswith("look up"), address


def test_wrong_address_offline(page, site, serve):
    """A wrong address gives the site's own page for it, with its style sheets, from any depth."""
    server = serve(site, "/some/folder/")
    first_visit(page, server.url)
    server.stop()
    answer = page.goto(server.url + "no/such/page/")
    assert answer.status == 404
    assert "404" in page.locator("main h1").inner_text()
    assert page.evaluate("[...document.styleSheets].every(s => s.cssRules.length > 0)")


def test_engine_answers_without_the_server(page, site, serve):
    """With the server dead the calculators start from the kept files and answer."""
    server = serve(site)
    first_visit(page, server.url)
    server.stop()
    page.goto(server.url + "look-up/")
    import calculators

    name = next(iter(calculators.names()))
    answer = page.evaluate(ASK, {"calculator": name, "inputs": {}, "units": "us", "uid": "t"})
    assert isinstance(answer, dict)
    assert answer


def test_every_calculator_page_answers_without_the_server(page, site, serve):
    """With the server dead each worked example takes a change and gives its answer anew."""
    server = serve(site)
    first_visit(page, server.url)
    server.stop()
    files = [file for file in sorted(site.rglob("index.html")) if "data-calculator=" in file.read_text(encoding="utf-8")]
    assert files
    for file in files:
        page.goto(server.url + file.parent.relative_to(site).as_posix() + "/")
        example = page.locator("section.worked[data-calculator]").first
        example.locator("[data-slot=results]").evaluate("(slot) => slot.replaceChildren()")
        example.locator("input[data-units][value=si]").evaluate("(box) => box.click()")
        poll(lambda at=example: at.locator("[data-slot=spoken]").inner_text())
        assert "not read" not in example.locator("[data-slot=spoken]").inner_text(), file
        poll(lambda at=example: at.locator("[data-slot=results]").text_content())
        page.evaluate("localStorage.clear()")


def test_half_changed_server_keeps_the_old_version(page, copy, serve):
    """While the server holds a mixture of two versions, the old one stays in use, whole."""
    server = serve(copy)
    first_visit(page, server.url)
    change_home(copy, "<h1", "<h1 data-new")
    rebuild_worker(copy)
    change_home(copy, "data-new", "data-newer")
    page.goto(server.url + "look-up/")
    poll(lambda: page.evaluate(
        "async () => { const r = await navigator.serviceWorker.getRegistration(); return !r.installing && !r.waiting; }"))
    page.goto(server.url)
    assert page.locator("h1[data-new], h1[data-newer]").count() == 0
    assert line(page) != "A new version is here, whole."
    poll(lambda: line(page) == READY)


def test_update_waits_for_the_reader(page, copy, serve):
    """A new version is fetched whole, waits, and is used after the reader's word; then the old one is gone."""
    server = serve(copy)
    first_visit(page, server.url)
    change_home(copy, "<h1", "<h1 data-new")
    rebuild_worker(copy)
    page.goto(server.url)
    poll(lambda: line(page) == "A new version is here, whole.")
    assert page.locator("h1[data-new]").count() == 0
    page.goto(server.url)
    assert page.locator("h1[data-new]").count() == 0
    poll(lambda: page.locator("#offline-use").is_visible())
    page.locator("#offline-use").click()
    poll(lambda: page.locator("h1[data-new]").count() == 1)
    poll(lambda: line(page) == READY)
    assert len(versions(page)) == 1


def test_update_fetches_only_what_changed(page, copy, serve):
    """A new version takes unchanged files from the device: the engine is not fetched again."""
    server = serve(copy)
    first_visit(page, server.url)
    change_home(copy, "<h1", "<h1 data-new")
    rebuild_worker(copy)
    shutil.rmtree(copy / "engine")
    page.goto(server.url)
    poll(lambda: line(page) == "A new version is here, whole.")


def test_broken_download_goes_on(page, copy, serve):
    """A first visit that breaks off leaves no half site in use; the next visit fetches the rest only."""
    engine = next((copy / "engine").glob("*/*.wasm"))
    away = engine.with_suffix(".away")
    engine.rename(away)
    server = serve(copy)
    page.goto(server.url)
    poll(lambda: "broke off" in line(page))
    before = set(kept(page))
    assert before
    assert page.evaluate("navigator.serviceWorker.controller === null")
    away.rename(engine)
    first_visit(page, server.url)
    assert before < set(kept(page))


def test_thrown_away_files_are_fetched_again(page, site, serve):
    """Where the browser has thrown files away the foot does not say ready until they are back."""
    server = serve(site)
    first_visit(page, server.url)
    gone = page.evaluate(
        "async (name) => { const c = await caches.open(name); const u = new URL('look-up/', window.__md_scope).href;"
        " await c.delete(u); return u; }", versions(page)[0])
    page.goto(server.url)
    poll(lambda: line(page) == READY)
    assert gone in kept(page)
