"""The job sheet: one house on one flat page, as text, as a page for the printer, and as parts of a page of the site."""

import re
from collections.abc import Iterable
from typing import Any

from .. import packaged
from ..job import Job
from ..result import VERSION
from . import sheet_parts as parts
from . import sheet_parts_handover as handover
from . import sheet_parts_owner as owner
from .answer import caution_box, shape, source_line, state_of
from .markup import Markup, el, escape, join, unescape
from .phrases import closed
from .sheet_parts import Card, Checked, Line, Part, Row
from .sheet_parts_materials import materials
from .text import cited

STAMP = "Local code and licensed practice come first. This compares numbers; it does not approve work."
WORD = {"in": "Meets.", "out": "Does not meet.", "open": "Not judged."}


def sections(job: Job) -> list[Part]:
    """The sheet in working order.

    What stops the work, what does not meet, what is open, the results, materials, labels, the record, dates, the owner.
    """
    written = handover.written_of(job)
    listed = [
        parts.house(job, written),
        parts.stops(job),
        parts.failed(job),
        parts.still_open(job),
        parts.cautions(job),
        *parts.results(job),
        materials(job),
        handover.labels(job, written),
        handover.measured(job),
        handover.start_up(job, written),
        handover.spillage(job, written),
        owner.dates(job),
        Part("notes", "Notes", [Line(note) for note in handover.other_notes(job)]),
        owner.owners(job, written),
    ]
    return [part for part in listed if part.items]


def title_of(job: Job) -> str:
    """The name of the house, and whether it is invented."""
    return job.file["title"] + (" (an invented house)" if job.file["invented"] else "")


# --- as text


def text(job: Job) -> str:
    """The sheet as plain text."""
    title = title_of(job)
    lines = [title, "=" * len(title), ""]
    for part in sections(job):
        lines += [part.title, *_text_items(part.items), ""]
    lines += [STAMP]
    return "\n".join(lines) + "\n"


def _text_items(items: Iterable[Any]) -> Iterable[str]:
    items = list(items)
    width = min(44, max((len(item.label) for item in items if isinstance(item, Row)), default=0))
    for item in items:
        if isinstance(item, Row):
            yield f"  {item.label:<{width}}  {item.value or '____________ ' + item.unit}".rstrip()
        elif isinstance(item, Checked):
            stop = "STOP. " if item.check.stop else ""
            numbers = plain_words(item.numbers)
            yield f"  - {stop}{item.title}: {closed(item.text)}" + (f" {closed(numbers)}" if numbers else "")
        elif isinstance(item, Card):
            yield f"  {item.where}:"
            yield f"    “{item.title}”"
            yield from (f"  {line}" for line in _text_items(item.items))
        else:
            yield from _text_line(item)


def _text_line(item: Line) -> Iterable[str]:
    level = f"{item.level.capitalize()}: " if item.level else ""
    if item.text:
        yield f"  - {level}{item.text}"
    if item.source and not item.level:
        yield f"    ({cited(*item.source)})"


def plain_words(markup: Markup | None) -> str:
    """Numbers of a comparison as a sentence: "Wanted at most 14 in., found 16 in."."""
    words = " ".join(unescape(re.sub(r"<[^>]*>", "", markup or "")).split())
    return words[:1].upper() + words[1:]


# --- as HTML


def page(job: Job) -> str:
    """The sheet as one HTML file that needs nothing else; everything typed is escaped."""
    style = packaged.read("sheet.css").decode()
    title = escape(title_of(job))
    head = [
        "<!doctype html>",
        '<html lang="en">',
        f'<head><meta charset="utf-8"><title>{title}</title>',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">",
        f"<style>{style}</style></head>",
        '<body><main class="u sheet">',
        f'<div class="sheet__head"><h1>Job sheet</h1><p>{title}</p></div>',
    ]
    return "\n".join([*head, *(_part(part) for part in sections(job)), _stamp(), "</main></body></html>"]) + "\n"


def fragment(job: Job) -> str:
    """The sheet as a part of a page of the site, in the site's own classes."""
    head = el("div", el("p", title_of(job)), class_="sheet__head")
    return el("div", head, *(_part(part) for part in sections(job)), _stamp(), class_="u sheet", data_sheet=True)


def pieces(job: Job) -> list[tuple[str, Markup]]:
    """The sheet part by part for a page that fills in the lines: key and HTML, in order."""
    return [(part.key, _part(part, fill=True)) for part in sections(job)]


def stamp() -> str:
    """The words at the foot of the sheet."""
    legend = (
        "A ruled line is something that nobody has measured yet. Steps and sources stand on each calculator's page."
    )
    return f"{STAMP} Underslab {VERSION}. {legend}"


def _stamp() -> Markup:
    return el("p", stamp(), class_="stamp")


def _part(part: Part, *, fill: bool = False) -> Markup:
    heading = el("h2", part.title)
    inner = join(_grouped(part.items, part.key, fill))
    stopped = part.key == "stops" and any(isinstance(item, Checked) for item in part.items)
    if stopped:
        inner = el("div", el("p", "Danger", class_="caution__level"), inner, class_="caution is-danger")
    return el(
        "section",
        heading,
        inner,
        class_=f"sheet__part is-{part.key}",
        data_part=part.key,
        data_of=part.calculator or None,
    )


def _grouped(items: list[Any], key: str, fill: bool) -> Iterable[Markup]:
    """Rows stand together in one list, comparisons in another, sentences in a third, in the order in which they come."""
    kind = ""
    batch: list[Any] = []
    for item in [*items, None]:
        now = {Row: "rows", Checked: "checks", Card: "cards"}.get(type(item), "lines")
        if isinstance(item, Row) and item.wide:
            now = "wide"
        if isinstance(item, Line) and item.level and key != "hurt":
            now = "cautions"
        if batch and (item is None or now != kind):
            yield _batch(kind, batch, key, fill)
            batch = []
        kind = now
        batch.append(item)


def _batch(kind: str, batch: list[Any], key: str, fill: bool) -> Markup:
    if kind in ("rows", "wide"):
        shown = [_row(item, key, fill) for item in batch]
        return el("dl", *shown, class_="rows is-wide" if kind == "wide" else "rows")
    if kind == "checks":
        return el("ul", *(_check(item) for item in batch), class_="checks")
    if kind == "cards":
        return el("div", *(_card(item) for item in batch), class_="tags")
    if kind == "cautions":
        return join(_caution(item) for item in batch)
    return el("ul", *(_line(item) for item in batch), class_="plain")


def _row(row: Row, uid: str, fill: bool) -> Markup:
    if fill and row.at is not None:
        id = f"s-{uid}-{_slug(row.label)}"
        box = el(
            "input",
            id=id,
            type="text",
            value=row.value,
            maxlength=1500,
            autocomplete="off",
            data_write=row.label,
            data_of=row.at[0] if row.at else None,
            data_field=row.at[1] if row.at else None,
            data_unit=row.unit or None,
        )
        unit = el("span", row.unit) if row.unit and not row.value else None
        return el("div", el("dt", el("label", row.label, for_=id)), el("dd", box, unit, class_="blank fill"))
    if row.value:
        return el("div", el("dt", row.label), el("dd", row.value))
    unit = el("span", row.unit) if row.unit else None
    return el("div", el("dt", row.label), el("dd", el("span", class_="rule"), unit, class_="blank"))


def _slug(label: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", label.lower()).strip("-")[:60]


def _check(item: Checked) -> Markup:
    state = state_of(item.check)
    lead = "Stop." if item.check.stop else WORD[state]
    said = el("p", el("b", lead), f" {item.title}: {item.text}", class_="check__say")
    return el(
        "li",
        shape(state),
        el("div", said, item.numbers, source_line(item.check.source, item.check.section)),
        class_=f"check is-{state}",
    )


def _line(item: Line) -> Markup:
    level = el("b", f"{item.level.capitalize()}.") if item.level else None
    return el(
        "li",
        level,
        " " if level else None,
        item.text,
        " " if item.source else None,
        source_line(*item.source, tag="span") if item.source else None,
    )


def _caution(item: Line) -> Markup:
    if item.source:
        return caution_box(item.level, item.text, item.source[0])
    return el(
        "div",
        el("p", item.level.capitalize(), class_="caution__level"),
        el("p", item.text),
        class_=f"caution is-{item.level}",
    )


def _card(item: Card) -> Markup:
    words = [el("p", line.text) for line in item.items if isinstance(line, Line)]
    rows = [_row(row, "", False) for row in item.items if isinstance(row, Row)]
    return el(
        "div",
        el("p", item.where, class_="tag__where"),
        el("div", el("p", item.title, class_="tag__title"), el("dl", *rows) if rows else None, *words, class_="tag"),
        el("p", item.note, class_="small"),
        source_line(*item.source),
        class_="tag__place",
    )
