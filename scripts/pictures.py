"""Makes the pictures of README.md: a calculator's page with its live answer, on a phone and on a desktop.

    python scripts/pictures.py [build/site]

Takes a site that is built already.  Look at the pictures before they are committed.
"""

import argparse
import sys
import threading
from pathlib import Path
from typing import Any, NamedTuple

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.browser import OPTIONS, chromium
from scripts.serve import address, make_server
from scripts.toolbox import ROOT, size

FOLDER = ROOT / "docs" / "assets"
PATIENCE = 60_000  # ms that Python gets to start


class Picture(NamedTuple):
    """File, size and shade, and how many px of the page stay above the worked example."""

    file: str
    width: int
    height: int
    scheme: str
    above: int


PAGE, FIELD, VALUE = "06-water-and-pump/pump-sizing/", "static_lift", "10"
PICTURES = (
    Picture("readme-phone.png", 390, 844, "light", 12),
    Picture("readme-desktop.png", 1280, 844, "dark", 88),  # the head of the page stays in view
)


def take(browser: Any, site: str, picture: Picture, folder: Path) -> Path:
    """One picture, taken when the page has answered to what was typed."""
    context = browser.new_context(viewport={"width": picture.width, "height": picture.height}, color_scheme=picture.scheme,
                                  reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.goto(site + PAGE)
    page.locator("html[data-engine=ready]").wait_for(timeout=PATIENCE)
    example = page.locator("section.worked").first
    example.locator(f'input[data-path="{FIELD}"]').fill(VALUE)
    example.locator("[data-slot=spoken]:not(:empty)").wait_for(state="attached")  # said last, when all is put
    example.evaluate("""(example, above) => {
      document.activeElement.blur();
      scrollBy({top: example.firstElementChild.getBoundingClientRect().top - above, behavior: "instant"});
    }""", picture.above)
    file = folder / picture.file
    page.screenshot(path=file)
    context.close()
    return file


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("site", nargs="?", type=Path, default=ROOT / "build" / "site")
    options = parser.parse_args()
    if not (options.site / "sw.js").is_file():
        sys.exit(f"{options.site} holds no built site: python scripts/build.py --out {options.site}")
    from playwright.sync_api import sync_playwright

    with make_server(options.site, port=0) as server, sync_playwright() as playwright:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = playwright.chromium.launch(executable_path=chromium(whole=True), args=OPTIONS)
        for picture in PICTURES:
            file = take(browser, address(server), picture, FOLDER)
            print(f"{file.relative_to(ROOT)}: {size(file.stat().st_size)}")
        browser.close()
        server.shutdown()


if __name__ == "__main__":
    main()
