"""The handbook as a copy editor reads it: every page passes, and the reader sees each kind of mistake."""

import pytest
from spellchecker import SpellChecker

from scripts import check_prose

PAGES = check_prose.pages()


@pytest.mark.parametrize("path", PAGES, ids=check_prose.name)
def test_page_reads_well(path):
    """Spelling, sentences up to 35 words, reading level, links, figures with unit and source, SI beside US."""
    assert not check_prose.problems([path])


@pytest.fixture
def page(tmp_path, monkeypatch):
    """Writes a page into a handbook of its own, and says what is wrong with it."""
    monkeypatch.setattr(check_prose, "DOCS", tmp_path)

    def look(text: str) -> list[str]:
        file = tmp_path / "page.md"
        file.write_text(f"---\ntitle: A page\n---\n\n# A page\n\n{text}\n", encoding="utf-8")
        return [problem.what for problem in check_prose.problems([file])]

    return look


MISTAKES = {
    "a misspelt word": ("Look at the sump and the recieving drain.", "unknown word 'recieving'"),
    "a long sentence": ("You " + "look " * 34 + "again.", "36 words"),
    "a figure without a source": (
        "## Figures to remember\n\n| what | figure |\n|---|---|\n| a pipe | 4 in. (102 mm) |",
        "figure without source",
    ),
    "a figure without a unit": (
        "## Figures to remember\n\n| what | figure | source |\n|---|---|---|\n| a pipe | 4 | {src: derived} |",
        "figure without unit",
    ),
    "a US figure alone": ("The pipe is 4 in. wide.", "no SI"),
    "a link to nowhere": ("See [the pump](pump.md).", "no such page"),
    "a link out of the handbook": ("See [the pump](https://example.org/pump).", "link leaves the handbook"),
    "hard reading": ("Instrumentation considerations notwithstanding, depressurization characteristics predominate.", "reading level"),
}


@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_mistake_is_seen(page, mistake):
    """Each mistake is named."""
    text, named = MISTAKES[mistake]
    assert any(what.startswith(named) for what in page(text)), page(text)


def test_a_good_page_passes(page):
    """What is right is left alone: a table under one source, SI beside US, a long table row."""
    text = (
        "The pipe is 4 in. (102 mm) wide.\n\n## Figures to remember\n\nThis is our own arithmetic {src: derived}.\n\n"
        "| what | figure |\n|---|---|\n| a pipe | 4 in. (102 mm) |\n| no figure seen | – |"
    )
    assert page(text) == []


def test_reading_level_is_the_printed_index(tmp_path):
    """4.71 letters a word + 0.5 words a sentence - 21.43 (Senter and Smith, AMRL-TR-66-220, 1967), for nine words in two sentences."""
    file = tmp_path / "page.md"
    file.write_text("Water falls to the pit. The pump lifts it.\n", encoding="utf-8")
    letters = len("Waterfallstothepit") + len("Thepumpliftsit")
    assert check_prose.level(file) == pytest.approx(4.71 * letters / 9 + 0.5 * 9 / 2 - 21.43)


def test_own_words_are_needed():
    """No word stands in our list that the English list has, or that no page uses."""
    text = " ".join(path.read_text(encoding="utf-8").lower() for path in PAGES)
    ours = check_prose.known()
    assert not [word for word in ours if word not in text]
    assert ours == SpellChecker().unknown(ours)
