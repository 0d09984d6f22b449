"""The few things of a job that are typed on the sheet itself: its name, the day the fan was switched on, rules, units."""

from ..job import Job
from ..tables import RULE_PACKS
from .markup import Markup, el
from .phrases import choice
from .sheet_parts_handover import other_notes

ROWS = 4


def form(job: Job) -> Markup:
    """The form of the house; each control names the member of the job file that it holds in ``data-house``."""
    file = job.file
    day, _, time = (file.get("started") or "").partition("T")
    started = el(
        "fieldset",
        el("legend", "Fan first switched on"),
        el("p", "The dates of the tests hang on it. Leave the time out when it is not known.", class_="hint"),
        el(
            "div",
            el("input", type="date", value=day, data_house="day", aria_label="Day", class_="is-text"),
            el("input", type="time", value=time[:5], data_house="time", aria_label="Time", class_="is-text"),
            class_="ask",
        ),
        class_="choice",
    )
    inside = [
        _field(
            "title",
            "Name of the job",
            "It stands on top of the sheet and in the name of the file.",
            _line(file["title"]),
        ),
        started,
        _picks(
            "rules",
            "Rule packs, at most two",
            [(id, choice(id), id in (file.get("rules") or [])) for id in RULE_PACKS],
            "checkbox",
        ),
        _picks("units", "Units of the sheet", [(u, u.upper(), u == job.units) for u in ("us", "si")], "radio"),
        _field("open", "Still open, one thing a line", "", _area("open", "\n".join(file["open"]))),
        _field("notes", "Notes, one a line", "", _area("notes", "\n".join(_own_notes(job)))),
    ]
    fold = el(
        "details",
        el("summary", "Name, day of the start, rule packs, units, what is open, notes"),
        *inside,
        class_="more",
        open=not job.results,
    )
    return el(
        "form",
        el("fieldset", el("legend", "This job"), fold),
        class_="numbers noprint",
        novalidate=True,
        autocomplete="off",
        data_house_form=True,
    )


def _own_notes(job: Job) -> list[str]:
    """The notes of the file itself that fill no line of the sheet."""
    mine = set(job.file["notes"])
    return [note for note in other_notes(job) if note in mine]


def _field(name: str, label: str, help: str, control: Markup) -> Markup:
    return el(
        "div",
        el("label", label, for_=f"house-{name}"),
        el("p", help, class_="hint") if help else None,
        el("div", control, class_="ask"),
        class_="field",
    )


def _line(value: str) -> Markup:
    return el("input", id="house-title", type="text", value=value, maxlength=200, data_house="title", class_="is-text")


def _area(name: str, value: str) -> Markup:
    return el("textarea", value, id=f"house-{name}", rows=ROWS, maxlength=20_000, data_house=name)


def _picks(name: str, legend: str, choices: list[tuple[str, str, bool]], kind: str) -> Markup:
    boxes = [
        el(
            "label",
            el("input", type=kind, name=f"house-{name}", value=value, checked=chosen, data_house=name),
            el("span", label),
            class_="pick",
        )
        for value, label, chosen in choices
    ]
    return el("fieldset", el("legend", legend), el("div", *boxes, class_="picks"), class_="choice")
