"""The controls of a form, one for each kind of field.

Scripts find a control by ``data-path`` and its place by ``data-at``.
"""

from typing import Any, NamedTuple

from ..declare import REQUIRED, Choice, Count, Date, Field, Flag, Other, Quantity, Several
from ..reading import ABSENT, Reader
from ..units import UnitError, fold, from_si, read_number, unit
from ..wording import unit_names
from .answer import source_line
from .figures import plain, typed, unit_text
from .markup import Markup, el, join
from .phrases import choice

MOST_BOXES = 6


class Place(NamedTuple):
    """Where a control stands: the path of its value and the id of the control."""

    path: str
    id: str

    def member(self, name: str) -> "Place":
        """The place of a member of this object."""
        return Place(f"{self.path}.{name}" if self.path else name, f"{self.id}-{name}")

    def entry(self, index: int | str) -> "Place":
        """The place of an entry of this list; ``#`` stands for an entry that is still to be added."""
        return Place(f"{self.path}[{index}]", f"{self.id}-{index}")


class Start(NamedTuple):
    """What a control starts with: the typed value, the SI default, the shown system, the other inputs."""

    raw: Any
    default: Any
    system: str
    values: dict[str, Any]


def control(field: Field, at: Place, start: Start, *, optional: bool = False) -> Markup:
    """The control of a field that is no list and no object."""
    if isinstance(field, Several):
        return several(field, at, start)
    if isinstance(field, Choice):
        return one_of(field, at, start, optional)
    if isinstance(field, Flag):
        return flag(field, at, start)
    if isinstance(field, Count):
        return count(field, at, start)
    if isinstance(field, Quantity):
        return quantity(field, at, start)
    return text(field, at, start)


def hint(
    field: Field, at: Place, default: tuple[str, str] | None = None, *, given: bool = False
) -> tuple[Markup | None, str | None]:
    """Help, default and its source under a label; and the id of it.  A field that was given shows no source."""
    parts: list[Any] = [field.help] if field.help else []
    if default:
        us, si = default
        parts += [
            " " if parts else "",
            "Left empty: ",
            el("span", us, data_us=us, data_si=si, class_="q"),
            " (default).",
        ]
    if not parts:
        return None, None
    cited = source_line(field.source) if field.source and default and not given else None
    return join((el("p", *parts, class_="hint", id=f"{at.id}-h"), cited)), f"{at.id}-h"


def default_words(field: Quantity, default: Any) -> tuple[str, str] | None:
    """A default in both systems, as printed."""
    if default is None or default is REQUIRED:
        return None
    shown = []
    for system in ("us", "si"):
        name = field.shown(system, {})
        shown.append(plain(from_si(default, name, difference=field.difference), name))
    return shown[0], shown[1]


def split(field: Quantity, raw: Any, shown: str) -> tuple[str, str]:
    """Text for the box and the unit beside it, for a value as it was given."""
    if raw is None:
        return "", shown
    if isinstance(raw, dict):
        value = Reader().quantity(field, raw, "")
        also = field.also
        if also is not None and isinstance(value, Other):
            field, shown = also, also.shown("si", {})
        return ("", shown) if value is ABSENT else (typed(from_si(value, shown, difference=field.difference)), shown)
    if not isinstance(raw, str):
        return typed(float(raw)), shown
    folded = fold(raw)
    try:
        rest = read_number(folded)[1]
        name = unit(rest).name if rest else ""
    except UnitError:
        return raw, shown
    if name in unit_names(field):
        return folded[: len(folded) - len(rest)].strip(), name
    return (folded, shown) if rest or field.us == "1" else (raw, shown)


def quantity(field: Quantity, at: Place, start: Start) -> Markup:
    """A number box with its unit joined to it."""
    note, note_id = hint(field, at, default_words(field, start.default), given=start.raw is not None)
    return el(
        "div",
        el("label", field.label, for_=at.id),
        note,
        el("div", *number_box(field, at, start, described=note_id), class_="ask"),
        class_="field",
        data_at=at.path,
    )


def number_box(field: Quantity, at: Place, start: Start, *, described: str | None = None) -> list[Markup | None]:
    """The box and the unit: a choice of units, or the one unit there is."""
    shown = field.shown(start.system, start.values)
    value, chosen = split(field, start.raw, shown)
    units = unit_names(field)
    if chosen not in units:
        units = [*units, chosen]
    box = {"type": "text", "inputmode": "decimal", "value": value, "autocapitalize": "off", "spellcheck": "false"}
    us, si = field.shown("us", start.values), field.shown("si", start.values)
    if len(units) == 1:
        fixed = el("span", unit_text(units[0]), class_="unit", id=f"{at.id}-u") if unit_text(units[0]) else None
        both = " ".join(x for x in (described, f"{at.id}-u" if fixed else None) if x)
        return [
            el("input", id=at.id, data_path=at.path, data_unit=units[0], aria_describedby=both or None, **box),
            fixed,
        ]
    options = [el("option", unit_text(u).rstrip("."), value=u, selected=u == chosen) for u in units]
    return [
        el("input", id=at.id, data_path=at.path, aria_describedby=described, **box),
        el("select", *options, class_="unit", aria_label=f"{field.label}: unit", data_us=us, data_si=si),
    ]


def count(field: Count, at: Place, start: Start) -> Markup:
    """A whole number with a minus and a plus."""
    note, note_id = hint(field, at)
    raw = start.raw.get("value") if isinstance(start.raw, dict) else start.raw
    raw = start.default if raw is None and start.default is not REQUIRED else raw
    box = el(
        "input",
        id=at.id,
        type="text",
        inputmode="numeric",
        value="" if raw is None else raw,
        data_path=at.path,
        data_low=field.low,
        data_high=field.high,
        data_kind="count",
        data_start=start.default,
        aria_describedby=note_id,
    )
    return el(
        "div",
        el("label", field.label, for_=at.id),
        note,
        el(
            "div",
            el("button", "−", type="button", data_step="-1", aria_label=f"{field.label}: one less"),
            box,
            el("button", "+", type="button", data_step="1", aria_label=f"{field.label}: one more"),
            class_="ask ask--count",
        ),
        class_="field",
        data_at=at.path,
    )


def text(field: Field, at: Place, start: Start) -> Markup:
    """A line of text or a date."""
    note, note_id = hint(field, at)
    if isinstance(field, Date):
        note_id = f"{at.id}-h"
        note = el("p", field.help or "Such as 2026-11-25.", class_="hint", id=note_id)
    box = el(
        "input",
        id=at.id,
        type="text",
        value=start.raw or "",
        data_path=at.path,
        data_kind="text",
        class_="is-text",
        maxlength=200,
        aria_describedby=note_id,
    )
    return el(
        "div", el("label", field.label, for_=at.id), note, el("div", box, class_="ask"), class_="field", data_at=at.path
    )


def one_of(field: Choice, at: Place, start: Start, optional: bool) -> Markup:
    """One of a few words as boxes, one of many as a list to choose from."""
    raw = start.raw.get("value") if isinstance(start.raw, dict) else start.raw
    if raw is None and not optional and start.default is not REQUIRED:
        raw = start.default
    words = [(word, choice(word)) for word in field.choices]
    if len(field.choices) > MOST_BOXES:
        if raw is None:
            words.insert(0, ("", "choose"))
        options = [el("option", label, value=word, selected=word == (raw or "")) for word, label in words]
        note, note_id = hint(field, at)
        box = el("select", *options, id=at.id, data_path=at.path, data_kind="choice", aria_describedby=note_id)
        return el(
            "div",
            el("label", field.label, for_=at.id),
            note,
            el("div", box, class_="ask"),
            class_="field",
            data_at=at.path,
        )
    if optional and start.default in (None, REQUIRED):
        words.append(("", "not given"))
    return boxes(field, at, words, {raw or ""}, "choice")


def several(field: Several, at: Place, start: Start) -> Markup:
    """Any of some words, as boxes."""
    raw = start.raw if start.raw is not None else start.default
    raw = raw.get("value") if isinstance(raw, dict) else raw
    chosen = {raw} if isinstance(raw, str) else set(raw or ())
    return boxes(field, at, [(word, choice(word)) for word in field.choices], chosen, "several")


def flag(field: Flag, at: Place, start: Start) -> Markup:
    """Yes or no."""
    raw = start.raw.get("value") if isinstance(start.raw, dict) else start.raw
    raw = start.default if raw is None else raw
    words = [("true", "yes"), ("false", "no")]
    if start.default is None or raw is None or raw is REQUIRED:
        words.append(("", "not known"))
    chosen = (
        {True: "true", False: "false"}.get(raw, str(raw) if raw in ("true", "false") else "") if raw.__hash__ else ""
    )
    return boxes(field, at, words, {chosen}, "flag")


def boxes(field: Field, at: Place, words: list[tuple[str, str]], chosen: set[Any], kind: str) -> Markup:
    """Radio buttons or check boxes as boxes."""
    note, note_id = hint(field, at)
    box = "checkbox" if kind == "several" else "radio"
    alone = getattr(field, "alone", ())
    picks = [
        el(
            "label",
            el(
                "input",
                type=box,
                name=at.id,
                value=word,
                checked=word in chosen,
                id=at.id if i == 0 else None,
                data_alone=word in alone,
            ),
            el("span", label),
            class_="pick",
        )
        for i, (word, label) in enumerate(words)
    ]
    return el(
        "fieldset",
        el("legend", field.label),
        note,
        el("div", *picks, class_="picks"),
        class_="choice",
        data_at=at.path,
        data_path=at.path,
        data_kind=kind,
        aria_describedby=note_id,
    )
