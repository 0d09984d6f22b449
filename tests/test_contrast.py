"""Colours can be read: WCAG contrast ratios of the tokens, light, dark and on paper, stay above their floors."""
import pathlib
import re

import pytest

CSS = pathlib.Path(__file__).resolve().parent.parent / "docs" / "assets" / "css"
TOKENS = (CSS / "tokens.css").read_text(encoding="utf-8")
COLOUR = re.compile(r"--([\w-]+):\s*(#[0-9a-fA-F]{3,6})\b")

# (front, ground, least ratio). 7 is WCAG 2.2 AAA for text (1.4.6), 4.5 is AA (1.4.3), 3 is for edges and shapes (1.4.11).
PAIRS = [
    ("ink", "paper", 7), ("ink-2", "paper", 7), ("ink", "tint", 7), ("ink-2", "tint", 4.5),
    ("own", "paper", 7), ("own", "tint", 4.5), ("mark", "paper", 7),
    ("paper", "ink", 7), ("paper", "mark", 7),
    ("edge", "paper", 3), ("edge", "tint", 3), ("slab-ink", "paper", 3),
    ("ink", "d-soil", 4.5), ("ink", "d-concrete", 4.5), ("ink", "d-water", 4.5),
]


def colours(start: str, end: str = "}") -> dict[str, str]:
    """Colour tokens between the first `start` in the sheet and the `end` after it."""
    begin = TOKENS.index(start)
    return dict(COLOUR.findall(TOKENS[begin:TOKENS.index(end, begin)]))


LIGHT = colours(':root,\n[data-md-color-scheme="default"]')
SCHEMES = {
    "light": LIGHT,
    "dark": LIGHT | colours('[data-md-color-scheme="slate"] {'),
    "print": LIGHT | colours("@media print"),
}


def luminance(colour: str) -> float:
    """Relative luminance of a colour such as "#14191b". Source: WCAG 2.2, definition of relative luminance."""
    digits = colour[1:]
    if len(digits) == 3:
        digits = "".join(2 * d for d in digits)
    parts = [int(digits[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def ratio(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21. Source: WCAG 2.2, definition of contrast ratio."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_ratio_of_known_colours():
    """Black on white is 21, and mid grey #767676 on white just clears 4.5 (W3C, Understanding 1.4.3)."""
    assert ratio("#000", "#ffffff") == pytest.approx(21)
    assert 4.5 <= ratio("#767676", "#fff") < 4.6


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(("front", "ground", "floor"), PAIRS)
def test_pair_is_above_its_floor(scheme, front, ground, floor):
    """Each pair of colours that stand on each other keeps its floor in every scheme."""
    found = ratio(SCHEMES[scheme][front], SCHEMES[scheme][ground])
    assert found >= floor, f"{front} on {ground} in {scheme}: {found:.2f}, wanted {floor}"


def test_dark_has_its_own_colours():
    """The dark scheme gives every colour that the light one gives, so that none is inherited by accident."""
    assert set(LIGHT) == set(colours('[data-md-color-scheme="slate"] {'))


@pytest.mark.parametrize("sheet", sorted(p.name for p in CSS.glob("*.css") if p.name not in ("tokens.css", "print.css")))
def test_colours_come_from_tokens(sheet):
    """No sheet but the tokens names a colour, so what is measured here is what is shown (the drawer's shade apart)."""
    text = re.sub(r"/\*.*?\*/", "", (CSS / sheet).read_text(encoding="utf-8"), flags=re.S)
    found = [line.strip() for line in text.splitlines() if re.search(r":[^;{]*#[0-9a-fA-F]{3,6}\b", line)]
    assert [line for line in found if not line.startswith(".md-overlay")] == []


@pytest.mark.parametrize("sheet", sorted(p.name for p in CSS.glob("*.css") if p.name != "site.css"))
def test_sheets_fetch_nothing(sheet):
    """No style sheet names an address, imports another or brings a font: nothing is fetched behind the reader's back."""
    assert re.findall(r"url\(|@import|@font-face|https?:", (CSS / sheet).read_text(encoding="utf-8")) == []


def test_the_sheet_of_all_sheets_names_each_of_them_and_nothing_else():
    """The one that the build makes a single file of: tokens first, print and the reader's own settings last."""
    text = re.sub(r"/\*.*?\*/", "", (CSS / "site.css").read_text(encoding="utf-8"), flags=re.S)
    names = re.findall(r'@import "([\w-]+\.css)";', text)
    assert re.sub(r'@import "[\w-]+\.css";', "", text).split() == []
    assert sorted(names) == sorted(p.name for p in CSS.glob("*.css") if p.name != "site.css")
    assert (names[0], names[-2:]) == ("tokens.css", ["print.css", "system.css"])
