"""The look-up list: trade words and their everyday names lead to the right page, in the list and in the box."""

import json

import pytest

from scripts import pages

# What somebody types -> the page that must be offered.
ASKED = {
    "crock": "05-the-sump/",
    "basin": "05-the-sump/",
    "sump pit": "05-the-sump/",
    "weep": "06-water-and-pump/relief-hole/",
    "french": "04-under-the-slab/find-the-drain/",
    "furnace": "09-air-the-house-burns/combustion-air/",
    "dirt floor": "02-read-the-building/crawl-space/",
    "plastic": "02-read-the-building/crawl-space/",
    "cinder": "02-read-the-building/block-walls/",
    "washer": "05-the-sump/laundry/",
    "battery": "06-water-and-pump/backup/",
    "hum": "03-choose-the-route/quiet-place/",
    "re-entrainment": "08-where-it-ends/re-entry/",
    "rough-in": "02-read-the-building/old-systems/",
    "dust": "01-before-you-go/dust-and-air/",
    "frozen": "08-where-it-ends/frost/",
    "conversion": "look-up/conversions/",
    "label": "look-up/labels/",
    "friction": "look-up/friction/",
}


def entry(address):
    """The entry of a page."""
    return next(row for row in pages.entries() if row["u"] == address)


@pytest.mark.parametrize("typed", ASKED)
def test_everyday_name_is_in_the_list(typed):
    """Every word typed is a word of the page's entry."""
    row = entry(ASKED[typed])
    assert all(word in f"{row['t'].lower()} {row['w']}" for word in typed.split())


def test_names_with_a_line_of_their_own_lead_to_pages():
    """A page that was moved takes its everyday names along, or this fails."""
    addresses = {row["u"] for row in pages.entries()}
    assert set(pages.ASKED_AS) <= addresses


def test_every_page_and_every_glossary_term_has_an_entry(site):
    """The list leads to anchors that are there."""
    rows = json.loads((site / "assets" / "look-up.json").read_text(encoding="utf-8"))
    assert rows == pages.entries()
    for row in rows:
        path, _, anchor = row["u"].partition("#")
        html = (site / path / "index.html").read_text(encoding="utf-8")
        assert not anchor or f'id="{anchor}"' in html, row


def test_typing_an_everyday_name_offers_the_page(site_server, browser):
    """In the front page's box, each name brings its page among the first hits, and Find goes to the first of them."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    page.goto(site_server.url)
    box = page.locator("#look-up-words")
    missing = {}
    for typed, address in ASKED.items():
        box.fill("")
        box.press_sequentially(typed)
        page.locator(".hits li").first.wait_for()
        found = page.locator(".hits [data-to], .hits li[data-to]").evaluate_all("rows => rows.map(row => row.dataset.to)")
        if not any(f"/{address}" in to for to in found):
            missing[typed] = found
    context.close()
    assert not missing
