"""Reads the handbook as a copy editor would: spelling, long sentences, reading level, links, figures with unit and source.

    python -m scripts.check_prose            what is wrong, then the reading level of every page
    python -m scripts.check_prose PAGE.md    the same for some pages

Spelling is compared with the English list of pyspellchecker and with our own words in scripts/trade-words.txt.
Reading level is the Automated Readability Index of Senter and Smith, AMRL-TR-66-220 (1967), in US school grades.
"""

import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from scripts.toolbox import ROOT

DOCS = ROOT / "docs"
WORDS = ROOT / "scripts" / "trade-words.txt"
LONGEST = 35  # words of a sentence
HIGHEST = 9.0  # grade of a page
SOURCE = re.compile(r"\{src:[^}]*\}")
UNITS = (
    r"in\.|in²|ft\b|ft²|ft³|mm\b|cm\b|cm²|m\b|m²|m³|mil\b|°|Pa\b|WC\b|cfm|gpm|gal\b|L\b|L/|mph|psi|kPa|%|h\b|hours?|min\b|minutes?|"
    r"days?|weeks?|years?|months?|since|W\b|kWh|Ah|Btu|therms?|lb|kg|perm|R-?\d|R \d|WLM?\b|mSv|nSv|pCi|Bq|ppm|µg|V\b|A\b|hp|"
    r"sone|times|gage|ACH|per 1,000|DN|of \d+|factor|⅓|⅙|cents|places|class \d|no unit"
)
US = re.compile(r"\d\s*(?:in\.|ft|ft²|ft³|in²|cfm|gpm|gal|lb|°F|pCi/L|in\. WC|ft/min|ft/s)(?![\w/])")
SI = re.compile(r"\d\s*(?:mm|cm|cm²|m|m²|m³|L|L/s|L/min|kg|Pa|kPa|°C|Bq/m³|m/s|K|kW|W)(?![\w/])|DN \d")


@dataclass(frozen=True)
class Problem:
    """Something to mend, with its place."""

    page: str
    line: int
    what: str

    def __str__(self) -> str:
        return f"docs/{self.page}:{self.line}: {self.what}"


@dataclass(frozen=True)
class Line:
    """One line of a page: its number, what it is (table, list, text, heading, option), and its words without markup."""

    number: int
    kind: str
    raw: str
    text: str
    heading: str


def pages() -> list[Path]:
    """Every page of the handbook."""
    return sorted(path for path in DOCS.rglob("*.md") if "theme" not in path.relative_to(DOCS).parts)


def lines(path: Path) -> Iterator[Line]:
    """The lines of a page that a reader reads."""
    heading, front, fence = "", False, False
    for number, raw in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if raw == "---":
            front = number == 1
            continue
        if raw.startswith("```"):
            fence = not fence
            continue
        if front or fence or raw.startswith(("///", "<")) or not raw.strip():
            yield Line(number, "gap", raw, "", heading)
            continue
        if raw.startswith("#"):
            heading = plain(raw.lstrip("# "))
            yield Line(number, "heading", raw, heading, heading)
        elif raw.startswith("    "):
            yield Line(number, "option", raw, "", heading)
        elif raw.startswith("|"):
            kind = "rule" if set(raw) <= set("|-: ") else "table"
            yield Line(number, kind, raw, plain(raw.strip("| ").replace("|", " ; ")), heading)
        else:
            mark = re.match(r"\s*(?:\d+\.|-) ", raw)
            yield Line(number, "list" if mark else "text", raw, plain(raw[mark.end():] if mark else raw), heading)


def plain(text: str) -> str:
    """Words without Markdown, sources and HTML."""
    text = SOURCE.sub("", text)
    text = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", text)
    text = re.sub(r"\{[ #:.][^}]*\}|<[^>]+>|`[^`]*`", " ", text)
    return re.sub(r"[*_]{1,2}(?=\S)|(?<=\S)[*_]{1,2}", "", text).strip()


def sentences(path: Path) -> Iterator[tuple[int, str]]:
    """Sentences of running text, lists and cautions; a table's cells are no sentences."""
    for line in lines(path):
        if line.kind in ("text", "list"):
            guarded = re.sub(r"\b(in|No|e\.g|i\.e|vol|approx)\. (?=[a-z0-9(×])", "\\1\u2024 ", line.text)
            for part in re.split(r"(?<=[.!?:;])\s+(?=[\"“A-Z0-9])", guarded):
                if part.strip():
                    yield line.number, part.replace("\u2024", ".").strip()


def words(text: str) -> list[str]:
    """Words of a text; numbers and units count as one each."""
    return re.findall(r"[^\s;,:()]+", text)


def level(path: Path) -> float:
    """Automated Readability Index of a page: 4.71 letters a word + 0.5 words a sentence - 21.43."""
    found = [words(text) for _, text in sentences(path)]
    count = sum(map(len, found))
    letters = sum(len(re.sub(r"\W", "", word)) for row in found for word in row)
    return 4.71 * letters / count + 0.5 * count / len(found) - 21.43 if count else 0.0


def known() -> set[str]:
    """Our own words."""
    rows = (line.partition("#")[0].split() for line in WORDS.read_text(encoding="utf-8").splitlines())
    return {word.lower() for row in rows for word in row}


def misspelt(path: Path, speller, ours: set[str]) -> Iterator[Problem]:
    """Words that neither list has; shapes with digits or inner capitals are names and units."""
    for line in lines(path):
        found = re.findall(r"(?<![\w./@-])[A-Za-z][a-z]+(?:['’-][a-z]+)*(?![\w/@])", line.text)
        parts = {part for word in found for part in re.split(r"-", word)}
        parts = {re.sub(r"['’](?:s|t|ll|re|ve|d|m)?$", "", part) for part in parts}
        for part in sorted(speller.unknown(p for p in parts if len(p) > 2)):
            if part not in ours and part.rstrip("s") not in ours:
                yield Problem(name(path), line.number, f"unknown word {part!r}")


def long_sentences(path: Path) -> Iterator[Problem]:
    """Sentences that are too long to follow with a tool in the hand."""
    for number, text in sentences(path):
        if len(words(text)) > LONGEST:
            yield Problem(name(path), number, f"{len(words(text))} words: {text[:60]} ...")


def loose_figures(path: Path) -> Iterator[Problem]:
    """Rows of figures without a unit or a source; a row that says that nothing was seen needs neither.

    One source in the words right above a table serves all of it.
    """
    said = ""  # the last paragraph
    for line, after in pairwise([*lines(path), Line(0, "gap", "", "", "")]):
        if line.kind == "text":
            said = line.raw
        if line.kind != "table" or line.heading != "Figures to remember" or after.kind == "rule" or not re.search(r"\d", line.text):
            continue
        cells = [cell.strip() for cell in line.raw.strip("|").split("|")]
        if not SOURCE.search(line.raw + said) and not re.search(r"not? .*seen|–", line.text):
            yield Problem(name(path), line.number, f"figure without source: {line.text[:60]}")
        if any(re.search(r"\d", SOURCE.sub("", cell)) for cell in cells[1:]) and not re.search(UNITS, line.text):
            yield Problem(name(path), line.number, f"figure without unit: {line.text[:60]}")


def one_sided(path: Path) -> Iterator[Problem]:
    """US figures in running text without SI beside them."""
    for line in lines(path):
        if line.kind in ("text", "list") and US.search(line.text) and not SI.search(line.text):
            yield Problem(name(path), line.number, f"no SI: {US.search(line.text)[0]!r} in {line.text[:60]}")


def broken_links(path: Path) -> Iterator[Problem]:
    """Links to pages that are not there; the site generator looks at the anchors."""
    for number, raw in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        for target in re.findall(r"\]\(([^)#\s]+)(?:#[^)]*)?\)", raw):
            if "://" in target:
                yield Problem(name(path), number, f"link leaves the handbook: {target}")
            elif not (path.parent / target).is_file():
                yield Problem(name(path), number, f"no such page: {target}")


def name(path: Path) -> str:
    return path.relative_to(DOCS).as_posix()


def problems(chosen: list[Path]) -> list[Problem]:
    """Everything that is wrong in these pages."""
    from spellchecker import SpellChecker

    speller, ours, found = SpellChecker(), known(), []
    for path in chosen:
        for look in (long_sentences, loose_figures, one_sided, broken_links):
            found += look(path)
        found += misspelt(path, speller, ours)
        if level(path) > HIGHEST:
            found.append(Problem(name(path), 1, f"reading level {level(path):.1f}, above {HIGHEST:g}"))
    return found


def main() -> int:
    """Print what is wrong and the reading levels; exit status 1 when something is wrong."""
    chosen = [Path(word).resolve() for word in sys.argv[1:]] or pages()
    found = problems(chosen)
    for problem in found:
        print(problem)
    for path in sorted(chosen, key=level, reverse=True):
        print(f"{level(path):5.1f}  {name(path)}")
    print(f"{len(found)} problems in {len(chosen)} pages.")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
