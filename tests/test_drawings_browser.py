"""The drawings as Chromium lays them out: words inside, apart, tall enough, and seen against what lies below them."""

import re

import pytest

from calculators.show import drawings

SHAPES = {f"{width} px, {scheme}": (width, scheme) for width in (390, 1100) for scheme in ("light", "dark")}
# Every drawing of the page with the boxes of its words, in CSS pixels.
BOXES = """() => [...document.querySelectorAll('figure.drawing svg')].map(svg => {
  const box = r => [r.left, r.top, r.right, r.bottom];
  return {
    name: svg.querySelector('title').textContent,
    sheet: box(svg.getBoundingClientRect()),
    words: [...svg.querySelectorAll('text')].map(t => [t.textContent, box(t.getBoundingClientRect())]),
    unpainted: [...svg.querySelectorAll('rect, circle, path, text')].filter(part => {
      const how = getComputedStyle(part), name = part.getAttribute('class') || '';
      return how.fill === 'none' && how.stroke === 'none' || (part.tagName === 'text' && name.includes('on-dot') &&
        how.fill === getComputedStyle(svg.querySelector('.dot')).fill);
    }).map(part => part.tagName + '.' + part.getAttribute('class')),
  };
})"""


def pages(site):
    """Addresses of the pages that hold a drawing."""
    found = [path for path in site.rglob("index.html") if 'class="drawing"' in path.read_text(encoding="utf-8")]
    return sorted(f"{path.parent.relative_to(site).as_posix()}/".removeprefix("./") for path in found)


def troubles(drawing, least):
    """What is wrong with the words of one drawing."""
    left, top, right, bottom = drawing["sheet"]
    for i, (words, (x0, y0, x1, y1)) in enumerate(drawing["words"]):
        if x0 < left - 0.5 or y0 < top - 0.5 or x1 > right + 0.5 or y1 > bottom + 0.5:
            yield f"{words!r} leaves the sheet"
        if y1 - y0 < least:
            yield f"{words!r} is {y1 - y0:.1f} px high"
        for other, (a0, b0, a1, b1) in drawing["words"][:i]:
            if min(x1, a1) - max(x0, a0) > 0.5 and min(y1, b1) - max(y0, b0) > 0.5:
                yield f"{words!r} lies on {other!r}"
    yield from drawing["unpainted"]


@pytest.mark.parametrize("shape", SHAPES)
def test_words_of_every_drawing_are_inside_apart_and_tall_enough(site, site_server, browser, shape):
    """No word leaves its drawing or lies on another; each is at least 13 px high; no part is left without a colour."""
    width, scheme = SHAPES[shape]
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, service_workers="block"
    )
    page = context.new_page()
    wrong, seen = [], 0
    for address in pages(site):
        page.goto(site_server.url + address)
        for drawing in page.evaluate(BOXES):
            seen += 1
            wrong += [f"{address} {drawing['name']}: {trouble}" for trouble in troubles(drawing, 13)]
    context.close()
    assert not wrong
    assert seen >= len(drawings.NAMES)


def titles(text):
    """The titles of the drawings in a page."""
    return set(re.findall(r'<title id="[^"]*-t">([^<]*)</title>', text))


def test_every_drawing_stands_on_a_page(site):
    """Each drawing of the catalogue is shown somewhere in the built site."""
    shown = set().union(*(titles((site / page / "index.html").read_text(encoding="utf-8")) for page in pages(site)))
    assert not [name for name in drawings.NAMES if not titles(drawings.draw(name, "d1")) <= shown]
