"""The job sheet: one house on one flat page, as text and as a self-contained page for the printer."""

from html import escape
from typing import Any

from .. import packaged
from ..job import Job
from ..result import Result, written_check
from ..tables import rule_pack, source
from . import text as plain

START_UP = (
    "Suction at the pit",
    "Gauge reading, marked on the gauge",
    "Flow at the outlet",
    "Test hole A, fan on",
    "Test hole B, fan on",
    "Water heater, fan off: spills after",
    "Water heater, fan on: spills after",
    "Carbon monoxide alarm seen",
    "Fan first switched on",
    "Installer, licence, date",
)


class Section:
    """A heading with lines; each line is a text, a (label, value) pair, or a list of lines that belong together."""

    def __init__(self, title: str, lines: list[Any], level: str = "") -> None:
        self.title, self.lines, self.level = title, lines, level


def sections(job: Job) -> list[Section]:
    """The sheet in working order: what stops the work first, then what does not meet, what is open, the results."""
    stops = [_check(job, name, check) for name, check in job.failed() if check.stop]
    failed = [_check(job, name, check) for name, check in job.failed() if not check.stop]
    listed = [
        Section(
            "What stops the work", stops or ["Nothing that was compared stops the work."], "danger" if stops else ""
        ),
        Section("What does not meet", failed or ["Nothing else that was compared falls short."]),
        Section("Still open", [_open(entry) for entry in job.open] or ["Nothing was entered as open."]),
        Section("What can hurt you", _cautions(job)),
    ]
    listed += [Section(result.declaration.title, _rows(job, result)) for result in job.results.values()]
    listed += [
        Section("Labels", _labels(job)),
        Section("Measured on the job", _recorded(job)),
        Section("Start-up record", [(label, None) for label in START_UP]),
        Section("Dates", _dates(job)),
        Section("Notes", list(job.notes)),
    ]
    return [section for section in listed if section.lines]


def _check(job: Job, name: str, check: Any) -> str:
    found = written_check(check, job.units)
    compared = plain.compared(found)
    title = job.results[name].declaration.title
    return f"{title}: {found['text']}" + (f" {compared[0].upper()}{compared[1:]}." if compared else "")


def _open(entry: Any) -> str:
    place = " ".join(part for part in (entry.calculator, entry.field) if part)
    return f"{place}: {entry.text}" if place else entry.text


def _cautions(job: Job) -> list[str]:
    found = {(c.level, c.text) for result in job.results.values() for c in result.work.cautions}
    order = [(c.level, c.text) for result in job.results.values() for c in result.work.cautions]
    kept = sorted(found, key=lambda item: (plain.LEVELS.index(item[0]), order.index(item)))
    return [f"{level.capitalize()}: {words}" for level, words in kept if level != "note"]


def _rows(job: Job, result: Result) -> list[Any]:
    rows: list[Any] = []
    for name, field in result.declaration.results.items():
        value = result.result(name, job.units)
        if field.kind in ("quantity", "count", "flag", "text", "choice") and value is not None:
            rows.append((field.label, plain.number(value) + plain.bounds(value)))
    meets = sum(check.ok is True for check in result.work.checks)
    unknown = [check for check in result.work.checks if check.ok is None]
    if result.work.checks:
        rows.append(("Compared", f"{meets} of {len(result.work.checks)} meet"))

    def label(need: str) -> str:
        return result.declaration.inputs[need][0].label if need in result.declaration.inputs else need

    rows += [
        ("Not judged", f"{check.text} Missing: {', '.join(map(label, check.needs))}." if check.needs else check.text)
        for check in unknown
    ]
    return rows


def _labels(job: Job) -> list[str]:
    lines = []
    for pack in job.file.get("rules") or []:
        for row in rule_pack(pack)["rows"]:
            if row["quantity"] in ("label_text", "lid_label", "tag", "start_up_mark"):
                value = f"“{row['value']}”. " if row["relation"] == "text" and row["quantity"] == "label_text" else ""
                lines.append(
                    f"{value}{row['text']} ({source(row['source'])['citation'].rstrip('.')}, {row.get('section', '')}, {row['edition']})"
                )
    if not job.file.get("rules"):
        return ["No rule pack was chosen, so nothing on this sheet says that a rule is met."]
    return lines or [
        "The chosen rule pack prescribes no label text in the rows that were seen. Label the system, the lid and the breaker all the same."
    ]


def _recorded(job: Job) -> list[str]:
    return [
        f"{e['when']}: {e['calculator']} {e['field']} {plain.number(e['value'])}"
        + (f" ({e['who']})" if e.get("who") else "")
        for e in job.file["recorded"]
    ]


def _dates(job: Job) -> list[str]:
    lines = []
    for due in job.dates():
        when = " ".join(
            part
            for part in (
                f"no sooner than {due['no_sooner']}" if due["no_sooner"] else "",
                f"no later than {due['no_later']}",
            )
            if part
        )
        lines.append(f"{due['what']}: {when} ({source(due['source'])['citation'].rstrip('.')})")
    return lines or ["Enter the day the fan was first switched on to see when the tests are due."]


def _title(job: Job) -> str:
    return job.file["title"] + (" (an invented house)" if job.file["invented"] else "")


def text(job: Job) -> str:
    """The sheet as plain text."""
    title = _title(job)
    lines = [title, "=" * len(title), ""]
    for section in sections(job):
        lines.append(section.title)
        width = max((len(line[0]) for line in section.lines if isinstance(line, tuple)), default=0)
        for line in section.lines:
            lines.append(
                f"  {line[0]:<{width}}  {line[1] or '____________'}" if isinstance(line, tuple) else f"  - {line}"
            )
        lines.append("")
    lines.append("Local code and licensed practice come first. This compares numbers; it does not approve work.")
    return "\n".join(lines) + "\n"


def page(job: Job) -> str:
    """The sheet as one HTML file that needs nothing else; everything typed is escaped."""
    style = packaged.read("sheet.css").decode()
    title = escape(_title(job))
    parts = [
        "<!doctype html>",
        '<html lang="en">',
        f'<head><meta charset="utf-8"><title>{title}</title>',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">",
        f"<style>{style}</style></head>",
        f"<body><main><h1>{title}</h1>",
    ]
    for section in sections(job):
        level = f' class="{section.level}"' if section.level else ""
        parts.append(f"<section{level}><h2>{escape(section.title)}</h2>{_html_lines(section.lines)}</section>")
    parts.append(
        '<p class="stamp">Local code and licensed practice come first. This compares numbers; it does not approve work.</p>'
    )
    parts.append("</main></body></html>")
    return "\n".join(parts) + "\n"


def fragment(job: Job) -> str:
    """The sheet as a part of a page of the site, in the site's own classes."""
    parts = [f'<div class="u sheet"><div class="sheet__head"><p>{escape(_title(job))}</p></div>']
    for section in sections(job):
        inner = f"<h2>{escape(section.title)}</h2>{_html_lines(section.lines, rows=' class=rows', plain_list=' class=plain')}"
        parts.append(f'<div class="caution is-danger">{inner}</div>' if section.level == "danger" else inner)
    return "".join(parts) + "</div>"


def _html_lines(lines: list[Any], *, rows: str = "", plain_list: str = "") -> str:
    pairs = [line for line in lines if isinstance(line, tuple)]
    others = [line for line in lines if not isinstance(line, tuple)]
    html = ""
    if pairs:
        html += f"<dl{rows}>" + "".join(_html_row(label, value) for label, value in pairs) + "</dl>"
    if others:
        html += f"<ul{plain_list}>" + "".join(f"<li>{escape(line)}</li>" for line in others) + "</ul>"
    return html


def _html_row(label: str, value: str | None) -> str:
    shown = f"<dd>{escape(value)}</dd>" if value else '<dd class="blank"><span class="rule"></span></dd>'
    return f"<div><dt>{escape(label)}</dt>{shown}</div>"
