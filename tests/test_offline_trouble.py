"""The kept site in trouble: server killed midway, no room, all thrown away, a wrong clock, two tabs."""

import pytest

from calculators.show.house import inputs_of
from conftest import poll
from keeping import ASK, READY, change_home, first_visit, kept, line, rebuild_worker, room, versions

NEW_VERSION = "A new version is here, whole."
AT_ONCE = 6  # files that are on their way together
PIPE = "07-pipe-and-fan/pipe-loss/"
HASHES = """(urls) => Promise.all(urls.map(async (url) => {
  const bytes = await (await fetch(url)).arrayBuffer();
  return btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))));
}))"""
REGISTRATION = "async () => { const r = await navigator.serviceWorker.getRegistration(); return WHICH; }"


def updating(page) -> bool:
    return page.evaluate(REGISTRATION.replace("WHICH", "Boolean(r.installing ?? r.waiting)"))


def in_use(page) -> bool:
    """Whether some version is used here for answers."""
    return page.evaluate("async () => Boolean((await navigator.serviceWorker.getRegistration())?.active)")


def is_new(page) -> bool:
    return page.locator("h1[data-new]").count() == 1


def new_version(site) -> None:
    """Home and the page that the troubled server dies at are changed."""
    change_home(site, "<h1", "<h1 data-new")
    page = site / "look-up" / "index.html"
    page.write_text(page.read_text(encoding="utf-8") + "<!-- new -->", encoding="utf-8")
    rebuild_worker(site)


def take(page) -> None:
    poll(lambda: line(page) == NEW_VERSION)
    page.locator("#offline-use").click()
    poll(lambda: is_new(page))
    poll(lambda: line(page) == READY)
    assert len(versions(page)) == 1


def answers(page) -> bool:
    return page.evaluate(ASK, {"calculator": "pipe-loss", "inputs": inputs_of("pipe-loss"), "units": "us", "uid": "t"})["ok"]


def opens_whole(page, site, url: str) -> None:
    """With the server stopped each file is as it is in this site, and a page opens with its title and answers."""
    from scripts.offline_list import offline_table

    page.goto(url + PIPE)
    table = offline_table(site)
    assert page.evaluate(HASHES, [url + path for path in table]) == [hash_ for hash_, _ in table.values()]
    assert page.locator("main h1").count() == 1
    assert answers(page)


def throw_all_away(page) -> None:
    page.evaluate("async () => { for (const name of await caches.keys()) await caches.delete(name); }")


def test_the_engine_is_kept_first(page, site, serve, tmp_path):
    """A calculator's page that is opened while the rest still comes finds the engine in the browser's own cache."""
    asked = tmp_path / "asked"
    first_visit(page, serve(site, trouble=("--asked", str(asked))).url)
    order = [path.startswith("engine/") for path in asked.read_text(encoding="utf-8").splitlines()]
    assert order.count(True) >= 4
    assert order.index(False) == order.count(True)


def test_a_page_that_is_called_comes_first(page, site, serve, tmp_path):
    """While a page is called and its Python starts, nothing more is fetched for the device; then the rest comes."""
    from scripts.offline_list import offline_table

    asked = tmp_path / "asked"
    asked.touch()
    server = serve(site, trouble=("--asked", str(asked)))

    def count() -> int:
        return len(asked.read_text(encoding="utf-8").splitlines())

    page.goto(server.url)
    poll(lambda: count() > 0)
    page.goto(server.url + PIPE, wait_until="commit")
    before = count()
    assert before < len(offline_table(site))
    poll(lambda: page.evaluate("document.documentElement.dataset.engine") == "ready")
    assert count() - before <= AT_ONCE
    poll(lambda: line(page) == READY)


def test_server_killed_in_the_first_visit(page, site, serve, tmp_path):
    """No half site is used; the next visit fetches the rest only; then every page opens without the server."""
    server = serve(site, trouble=("--die-at", "look-up/"))
    page.goto(server.url)
    poll(lambda: "broke off" in line(page))
    assert server.process.wait(10) == 9
    before = {url.removeprefix(server.url) for url in kept(page)} - {"kept-files"}
    assert before
    assert not in_use(page)
    asked = tmp_path / "asked"
    server = serve(site, port=server.port, trouble=("--asked", str(asked)))
    first_visit(page, server.url)
    fetched = set(asked.read_text(encoding="utf-8").split("\n"))
    assert "look-up/" in fetched
    assert not fetched - {""} & before
    server.stop()
    opens_whole(page, site, server.url)


def test_server_killed_in_an_update(page, site, copy, serve):
    """The old version stays in use whole, without the server too; later the new one arrives whole."""
    server = serve(copy)
    first_visit(page, server.url)
    server.stop()
    new_version(copy)
    server = serve(copy, port=server.port, trouble=("--die-at", "look-up/"))
    page.goto(server.url)
    assert server.process.wait(10) == 9
    poll(lambda: not updating(page))
    opens_whole(page, site, server.url)
    page.goto(server.url)
    assert not is_new(page)
    poll(lambda: line(page) == READY)
    server = serve(copy, port=server.port)
    page.goto(server.url)
    take(page)
    server.stop()
    opens_whole(page, copy, server.url)


def test_first_visit_without_room(page, site, serve):
    """The foot says what is the matter; pages and calculators go on with a network; with room it gets ready."""
    server = serve(site)
    room(page, server.url, quotaSize=8_000_000)
    page.goto(server.url)
    poll(lambda: "too little room" in line(page))
    assert not in_use(page)
    page.goto(server.url + PIPE)
    assert answers(page)
    poll(lambda: "too little room" in line(page))
    room(page, server.url)
    first_visit(page, server.url)
    server.stop()
    page.goto(server.url + PIPE)
    assert answers(page)


def test_update_without_room(page, site, copy, serve):
    """The old version stays in use whole; with room the new one comes."""
    server = serve(copy)
    first_visit(page, server.url)
    new_version(copy)
    room(page, server.url, quotaSize=25_000_000)
    page.goto(server.url)
    poll(lambda: len(versions(page)) == 2)
    poll(lambda: not updating(page))
    poll(lambda: line(page) == f"{READY} There is too little room here for the new version.")
    server.stop()
    opens_whole(page, site, server.url)
    page.goto(server.url)
    assert not is_new(page)
    server = serve(copy, port=server.port)
    room(page, server.url)
    page.goto(server.url)
    take(page)


def test_update_from_a_server_that_says_not_changed(page, copy, serve):
    """Where a server takes what the browser has for the new file, the file is fetched anew, and the update arrives whole."""
    server = serve(copy)
    first_visit(page, server.url)
    server.stop()
    new_version(copy)
    server = serve(copy, port=server.port, trouble=("--stale",))
    page.goto(server.url)
    take(page)


def test_all_thrown_away_is_mended_with_a_network(page, site, serve):
    """The foot says that files are missing, and ready only when all are back."""
    server = serve(site)
    first_visit(page, server.url)
    wanted = set(kept(page))
    throw_all_away(page)
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.add_init_script("""addEventListener("DOMContentLoaded", () => {
      const line = document.getElementById("offline-state");
      new MutationObserver(() => console.log(line.textContent)).observe(line, {childList: true});
    })""")
    first_visit(page, server.url)
    poll(lambda: READY in said)
    assert [words for words in said if "missing" in words or words == READY] == ["Some files are missing here and are fetched again.", READY]
    assert wanted - set(kept(page)) == set()
    server.stop()
    page.goto(server.url + PIPE)
    assert answers(page)


def test_all_thrown_away_and_no_network(page, site, serve):
    """The reader is told, instead of a page without its parts; with a network all comes back."""
    server = serve(site)
    first_visit(page, server.url)
    throw_all_away(page)
    server.stop()
    assert page.goto(server.url + "look-up/").status == 503
    assert "no longer kept on this device" in page.locator("body").inner_text()
    server = serve(site, port=server.port)
    first_visit(page, server.url)


def test_some_thrown_away_and_no_network(page, site, serve):
    """A page that is still there opens and does not call itself ready; one that is gone is not called a wrong address."""
    server = serve(site)
    first_visit(page, server.url)
    page.evaluate("async (name) => (await caches.open(name)).delete(new URL('look-up/', window.__md_scope).href)", versions(page)[0])
    server.stop()
    page.goto(server.url)
    poll(lambda: "broke off" in line(page))
    assert page.goto(server.url + "look-up/").status == 503


@pytest.mark.parametrize("days", ["-4000", "4000"])
def test_update_arrives_with_a_wrong_clock(page, copy, serve, days):
    """Whatever day the server's headers name, and however long they let a file be kept, a new version arrives whole."""
    server = serve(copy, trouble=("--days", days))
    first_visit(page, server.url)
    new_version(copy)
    page.goto(server.url)
    take(page)


def test_two_tabs_take_a_new_version(page, copy, serve):
    """One takes it; the other keeps what is typed, is offered to load anew, and then shows the same version."""
    server = serve(copy)
    first_visit(page, server.url)
    new_version(copy)
    other = page.context.new_page()
    other.goto(server.url + PIPE)
    typed = other.locator("section.worked input[type=text]").first
    typed.fill("73.5")
    poll(lambda: line(other) == NEW_VERSION)
    page.goto(server.url)
    take(page)
    poll(lambda: other.locator("#offline-use").inner_text() == "Load this page anew")
    assert typed.input_value() == "73.5"
    other.locator("#offline-use").click()
    poll(lambda: line(other) == READY)
    other.goto(server.url)
    assert is_new(other)
    assert not other.locator("#offline-use").is_visible()


def test_two_tabs_at_the_first_visit(page, site, serve):
    """Both get ready, neither is told of a new version."""
    server = serve(site)
    other = page.context.new_page()
    page.goto(server.url, wait_until="commit")
    other.goto(server.url + "look-up/", wait_until="commit")
    for tab in (page, other):
        poll(lambda at=tab: line(at) == READY)
        assert not tab.locator("#offline-use").is_visible()
    server.stop()
    for tab in (page, other):
        tab.reload()
        poll(lambda at=tab: line(at) == READY)
