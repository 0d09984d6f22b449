"""The bytes that a visitor fetches and keeps, against scripts/budget.toml."""

import tomllib
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from conftest import ROOT, Gate, poll, ready
from scripts.build import WORTH_COMPRESSING, compressed
from scripts.offline_list import offline_table

BUDGET = tomllib.loads((ROOT / "scripts" / "budget.toml").read_text(encoding="utf-8"))
CALCULATOR = "07-pipe-and-fan/pipe-loss/"
SLOW_PICTURE = """document.addEventListener("DOMContentLoaded", () => {
  document.body.append(Object.assign(new Image(), {src: new URL("slow.png", window.__md_scope)}));
});"""


def sizes(files) -> dict[str, int]:
    """Bytes of the files as a release sends them."""
    return {file.name: (compressed(file.read_bytes(), ".br") if file.suffix in WORTH_COMPRESSING else file).stat().st_size for file in files}


def fetched(site: Path, url: str, asked: list[str]) -> dict[str, int]:
    """The requested addresses below the site's root and their bytes as a release sends them; what is no file counts nothing."""
    found = {}
    for path in {urlsplit(one).path.removeprefix(urlsplit(url).path) for one in asked}:
        file = site / path / "index.html" if path == "" or path.endswith("/") else site / path
        if file.is_file():
            found |= {path: sizes([file])[file.name]}
    return found


def handbook_pages(site: Path) -> list[str]:
    """The start and the three heaviest pages without a calculator; all of them load the same beside their own text."""
    plain = [file for file in site.rglob("index.html") if 'name="calculators"' not in file.read_text(encoding="utf-8")]
    heaviest = sorted(plain, key=lambda file: file.stat().st_size)[-3:]
    return ["", *(f"{file.parent.relative_to(site).as_posix()}/" for file in heaviest)]


@pytest.fixture
def visit(fresh):
    """A page in a fresh profile and the list of what it asks for; ``visit("allow")`` lets the offline worker come."""

    def start(workers: str = "block"):
        page, asked = fresh(service_workers=workers), []
        page.context.on("request", lambda request: asked.append(request.url))
        return page, asked

    return start


def test_calculators(site):
    """Python and everything that computes, and our own part of it, stay within what a phone fetches in the time we promise."""
    found = sizes(file for file in site.glob("engine/*/*") if file.suffix in (".mjs", ".wasm", ".zip"))
    library = next(name for name in found if name.startswith("library-"))
    assert len(found) == 4
    assert found[library] <= BUDGET["fetched"]["library"], found
    assert sum(found.values()) <= BUDGET["fetched"]["calculators"], found


def test_first_answer(site, site_server, visit):
    """All that the first visit of a calculator's page fetches until an edit is answered."""
    page, asked = visit()
    page.goto(site_server.url + CALCULATOR)
    ready(page)
    example = page.locator("section.worked[data-calculator]").first
    before = example.locator("[data-slot=spoken]").inner_text()
    example.locator("input[data-units][value=si]").evaluate("(box) => box.click()")
    poll(lambda: example.locator("[data-slot=spoken]").inner_text() not in ("", before))
    found = fetched(site, site_server.url, asked)
    assert sum(name.startswith("engine/") for name in found) == 4
    assert sum(found.values()) <= BUDGET["fetched"]["first_answer"], found


def test_handbook_pages(site, site_server, visit):
    """A page without a calculator fetches little, and neither the engine nor a list of words to search."""
    for address in handbook_pages(site):
        page, asked = visit()
        page.goto(site_server.url + address, wait_until="networkidle")
        found = fetched(site, site_server.url, asked)
        assert address in found
        assert {name for name in found if name.startswith(("engine/", "search/")) or name.endswith("look-up.json")} == set(), address
        assert sum(found.values()) <= BUDGET["fetched"]["handbook_page"], found


def test_nothing_is_kept_before_the_page_is_whole(site_server, visit):
    """While something of the page is still on its way the offline worker does not come, and with it not the engine."""
    page, asked = visit("allow")
    gate = Gate()
    page.add_init_script(SLOW_PICTURE)
    page.route("**/slow.png", gate.hold)
    with page.expect_request("**/slow.png"):
        page.goto(site_server.url, wait_until="commit")
    page.wait_for_timeout(1000)
    assert [url for url in asked if "/engine/" in url or url.endswith("sw.js")] == []
    with page.context.expect_event("request", lambda request: "/engine/" in request.url):
        gate.open()


def test_the_kept_site(site):
    """What a device keeps of the whole site for use without a network."""
    kept = offline_table(site)
    assert sum(size for _, size in kept.values()) <= BUDGET["kept"]["offline"]
