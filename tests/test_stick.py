"""The copy for a stick: opened from a folder, without a server, a network or a script."""

import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote, urldefrag, urljoin, urlsplit

import pytest

from scripts import stick


@pytest.fixture(scope="module")
def folder(site: Path, tmp_path_factory) -> Path:
    """The unpacked zip, in a folder whose name needs care in an address."""
    place = tmp_path_factory.mktemp("a stick, 50 % full #1")
    stick.write(site, place / "copy.zip")
    with zipfile.ZipFile(place / "copy.zip") as archive:
        archive.extractall(place)
    return place / stick.FOLDER


@pytest.fixture
def tab(browser) -> Iterator[object]:
    """A page of a browser without a network; every request must be for a file, and nothing may be complained of.

    A request that ends with its page, as for the icon when the next page is opened, is no failure.
    """
    context = browser.new_context(offline=True, viewport={"width": 390, "height": 844})
    page = context.new_page()
    asked, said = [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("requestfailed", lambda request: request.failure != "net::ERR_ABORTED" and said.append(f"failed: {request.url}"))
    page.on("console", lambda message: said.append(message.text))
    yield page
    context.close()
    assert [url for url in asked if not url.startswith(("file:", "data:"))] == []
    assert not said, said


def test_every_page_opens_from_the_folder(folder, tab):
    """Each page shows its heading in the handbook's own look, with no script, no live control, and says what is missing."""
    pages = sorted(folder.rglob("*.html"))
    assert len(pages) > 40
    for file in pages:
        tab.goto(file.as_uri())
        assert tab.locator("main h1").count() == 1, file
        assert tab.evaluate("getComputedStyle(document.querySelector('.reach')).position") == "fixed", file
        assert tab.locator("script, [onclick]").count() == 0, file
        assert "calculators" in tab.locator("footer").inner_text(), file
        shown = "el => !el.disabled && !el.closest('fieldset:disabled') && el.getClientRects().length > 0"
        live = f"all => all.filter({shown}).map(el => el.outerHTML.slice(0, 90))"
        controls = tab.locator("main input, main select, main textarea, main button").evaluate_all(live)
        assert controls == [], file


def test_every_link_leads_to_a_file_and_its_place(folder):
    """Each link of each page names a file of the copy, and where it names a place on it, that place is there."""
    texts = {file: file.read_text(encoding="utf-8") for file in folder.rglob("*.html")}
    for file, text in texts.items():
        for link in re.findall(r'(?:href|src)="([^"]+)"', text):
            if re.match(r"[a-z]+:", link):
                assert link.startswith(("https:", "data:")), (file, link)
                continue
            address, fragment = urldefrag(urljoin(file.as_uri(), link))
            target = Path(unquote(urlsplit(address).path))
            assert target.is_file(), (file, link)
            assert not fragment or fragment == "__top" or f'id="{unquote(fragment)}"' in texts[target], (file, link)


def test_a_reader_walks_by_tapping(folder, tab):
    """From the start page by taps to a worked example: answer, arithmetic, cautions and a caveat about its numbers."""
    tab.goto((folder / "index.html").as_uri())
    tab.locator("article").get_by_role("link", name="Pipe and fan").first.click()
    tab.locator("article").get_by_role("link", name="Pressure lost in the pipe").first.click()
    assert tab.locator(".worked .now__n").inner_text()
    assert tab.locator(".worked .steps math").count() > 2
    assert "not in this copy" in tab.locator("[data-slot=engine]").first.inner_text()
    tab.locator("label.md-header__button[for=__drawer]").click()
    tab.wait_for_timeout(400)
    assert tab.locator(".md-sidebar--primary a.md-nav__link").first.is_visible()


def test_the_zip_is_small_and_the_same_each_time(site, tmp_path):
    """No runtime is in it, and two runs give the same bytes."""
    one, two = tmp_path / "one.zip", tmp_path / "two.zip"
    assert stick.write(site, one) == stick.write(site, two)
    assert one.read_bytes() == two.read_bytes()
    assert one.stat().st_size < 2_000_000
    with zipfile.ZipFile(one) as archive:
        assert not [name for name in archive.namelist() if name.endswith((".wasm", ".js", ".mjs", ".zip", ".py"))]
        assert "calculators" in archive.read("READ-ME.txt").decode()


def test_a_dead_link_stops_it(tmp_path):
    """A page that links to nothing is not packed."""
    (tmp_path / "index.html").write_text('<html><head></head><body><a href="gone/">x</a></body></html>', encoding="utf-8")
    with pytest.raises(ValueError, match="dead link gone/"):
        stick.files(tmp_path)
