"""The parts of an answer as HTML: first sentence, number and range, checks, cautions, results, steps, sources."""

from functools import cache
from typing import Any

from ..result import Result
from ..span import Span
from ..tables import source
from ..work import Check
from .figures import decimals, exact, figure, pair_value, plain, quantity, unit_text, words
from .markup import Markup, el, join
from .phrases import BESIDE, MAIN, MET, NOT_MET, SHARES, SHORT, choice, closed, first_sentence, lower_first

WORD = {"in": "Meets", "out": "Does not meet", "open": "Not judged"}
LEVELS = ("danger", "warning", "note")
_BARS = {"in": (2, 7, 44, 10), "out": (2, 7, 18, 10), "open": (3, 8, 22, 8)}


@cache
def shape(state: str, big: bool = False) -> Markup:
    """A bar and the line it has to meet: through it, stopping before it, or dashes."""
    x, y, width, height = _BARS[state]
    bar = el("rect", class_="bar", x=x, y=y, width=width, height=height)
    size = (72, 36) if big else (48, 24)
    return el(
        "svg",
        bar,
        el("path", class_="line", d="M34 0V24"),
        class_=f"shape is-{state}",
        viewBox="0 0 48 24",
        width=size[0],
        height=size[1],
        aria_hidden="true",
        focusable="false",
    )


def state_of(check: Check) -> str:
    """in, out or open."""
    return {True: "in", False: "out", None: "open"}[check.ok]


def ordered(checks: list[Check]) -> list[Check]:
    """Hard stops first, then what is not met, then what is met, then what was not judged."""
    return sorted(checks, key=lambda check: (not check.stop, {False: 0, True: 1, None: 2}[check.ok]))


def main_value(result: Result, system: str) -> Any:
    """The main result as printed data, without its range; a share as percent."""
    return _as_percent(result.declaration.main, result.number(result.declaration.main, system))


def printed(result: Result, name: str, system: str) -> Any:
    """A result as printed data; a share as percent."""
    return _as_percent(name, result.result(name, system))


def _as_percent(name: str, value: Any) -> Any:
    if name in SHARES and isinstance(value, dict):
        shown = {key: value[key] * 100 for key in ("value", "low", "high") if key in value}
        return {**value, **shown, "unit": "%"}
    return value


def main_text(result: Result, system: str) -> str:
    """The main result as text, or nothing when it cannot be given."""
    value = main_value(result, system)
    if value is None:
        return ""
    if not isinstance(value, dict) or "unit" not in value:
        return words(value)
    number = value["value"]
    return f"{_main_figure(result, number)} {unit_text(value['unit'])}".rstrip()


def _main_figure(result: Result, number: float) -> str:
    """The main number in figures; one with a range keeps its last zero."""
    ranged = isinstance(result.outputs[result.declaration.main], Span)
    return figure(number, keep=ranged and not exact(number))


def said(result: Result, system: str) -> tuple[str, str]:
    """State and the one sentence that names what decides.

    A hard stop first, else the worst failed check, else what is met, else the main result.
    """
    checks = ordered(result.work.checks)
    name, main = result.declaration.name, main_text(result, system)
    label = result.declaration.results[result.declaration.main].label
    lead = MAIN.get(name, f"{label}: {{main}}").format(main=main) if main and not main.startswith("−") else ""
    worst = worst_of(checks)
    if worst:
        return "out", _said_of(worst, lead, system)
    judged = [check for check in checks if check.ok]
    missing = [check for check in checks if check.ok is None]
    if judged:
        met = MET.get(name, "what could be compared is met" if missing else "everything that was compared is met")
        rest = f"{met}, but not all could be" if missing else met
        return "in", closed(f"{lead}; {rest}" if lead else rest[:1].upper() + rest[1:])
    if missing:
        return "open", f"{lead}; nothing could be compared yet." if lead else closed(missing[0].text)
    return "", closed(lead or "The main result cannot be given for these numbers")


def _said_of(worst: Check, lead: str, system: str) -> str:
    """The sentence about a check that is not met."""
    if worst.stop:
        return first_sentence(worst.text)
    id, _, path = worst.id.partition(":")
    found, wanted, miss = (_plain(v, worst.unit, system) for v in (worst.found, worst.required, worst.margin))
    if path and worst.margin is not None and ": " in worst.text:
        who = worst.text.partition(": ")[0]
        return closed(f"{who[:1].upper()}{who[1:]}: {found} where {wanted} is wanted")
    if id in NOT_MET and lead:
        return f"{lead}, but {NOT_MET[id].format(found=found, wanted=wanted, miss=miss.lstrip('−'))}."
    return (f"{lead}. Not met: " if lead else "Not met: ") + first_sentence(lower_first(worst.text))


def _plain(value: Any, pair: str, system: str) -> str:
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return plain(*pair_value(value, pair, system))
    return words(value)


def worst_of(checks: list[Check]) -> Check | None:
    """The failed check that decides: a hard stop, else the one that misses by the largest share of what was wanted."""
    failed = [check for check in checks if check.ok is False]
    if not failed or failed[0].stop:
        return failed[0] if failed else None
    return max(failed, key=_miss)


def _miss(check: Check) -> float:
    if check.margin is None or not isinstance(check.required, (int, float)):
        return 1.0
    return abs(check.margin) / (abs(check.required) or 1.0)


def say(result: Result, system: str) -> tuple[Markup, str]:
    """The first answer with its shape, and the same sentence as text."""
    state, sentence = said(result, system)
    if not state:
        return el("div", el("p", sentence), class_="say is-plain"), sentence
    return el("div", shape(state, big=True), el("p", sentence), class_=f"say is-{state}"), f"{WORD[state]}. {sentence}"


def now(result: Result, system: str) -> Markup | None:
    """The words of the line with the one number that was asked for; None when it is no number."""
    value = main_value(result, system)
    name = result.declaration.name
    if isinstance(value, str):
        order = result.outputs.get("order")
        return el("span", order, class_="now__w") if order else None
    if not isinstance(value, dict) or "value" not in value:
        return join((el("span", "–", class_="now__n"), " ", el("span", "not given for these numbers", class_="now__w")))
    number = value["value"]
    short = number < 0 and name in SHORT
    beside = BESIDE.get(name, lower_first(result.declaration.results[result.declaration.main].label))
    shown = _main_figure(result, abs(number) if short else number)
    return join(
        (
            el("span", shown, class_="now__n"),
            " ",
            el("span", unit_text(value["unit"]), class_="now__u") if unit_text(value["unit"]) else None,
            " ",
            el("span", SHORT[name] if short else beside, class_="now__w"),
        )
    )


def span_bar(result: Result, system: str) -> Markup | None:
    """The range of the main result as a bar; None when no range is known."""
    value = printed(result, result.declaration.main, system)
    if not isinstance(value, dict) or "low" not in value or value["low"] == value["high"]:
        return None
    low, at, high, unit = value["low"], value["value"], value["high"], value["unit"]
    wanted = _wanted(result, system)
    marks = [low, at, high] + ([wanted] if wanted is not None else [])
    pad = (max(marks) - min(marks)) * 0.42 or abs(at) or 1.0
    start, width = min(marks) - pad, max(marks) - min(marks) + 2 * pad

    def place(x: float) -> str:
        return f"{100 * (x - start) / width:.1f}%"

    places = None if all(map(exact, marks)) else max(decimals(high), decimals(high - low, 2))
    texts = {x: figure(x, places) for x in marks}
    want: list[Markup] = []
    if wanted is not None:
        want = [
            el("line", class_="want", x1=place(wanted), x2=place(wanted), y1=20, y2=46),
            el("text", f"wanted {texts[wanted]}", class_="want-t", x=place(wanted), y=64, text_anchor="middle"),
        ]
    label = f"Range {texts[low]} to {texts[high]} {unit_text(unit)}, value {texts[at]}" + (
        f", wanted {texts[wanted]}" if wanted is not None else ""
    )
    drawn = el(
        "svg",
        el("line", class_="base", x1=0, x2="100%", y1=30, y2=30),
        *want,
        el("rect", class_="span", x=place(low), y=24, width=f"{100 * (high - low) / width:.1f}%", height=12),
        el("line", class_="at", x1=place(at), x2=place(at), y1=14, y2=46),
        el("text", texts[low], class_="end", x=place(low), dx=-7, y=18, text_anchor="end"),
        el("text", texts[high], class_="end", x=place(high), dx=7, y=18),
        width="100%",
        height=72 if want else 44,
        class_=None if want else "is-short",
        role="img",
        aria_label=label,
    )
    caption = el(
        "figcaption",
        "Between ",
        el("span", texts[low], class_="q"),
        " and ",
        el("span", f"{texts[high]} {unit_text(unit)}".rstrip(), class_="q"),
        " " if unit_text(unit).endswith(".") else ". ",
        closed(value["range_from"][:1].upper() + value["range_from"][1:]),
    )
    return el("figure", drawn, caption, class_="range")


def _wanted(result: Result, system: str) -> float | None:
    """What is wanted of the main result: the required value of a check on just that number."""
    number = result[result.declaration.main]
    for check in result.work.checks:
        if isinstance(check.found, float) and check.found == number and isinstance(check.required, (int, float)):
            return pair_value(check.required, check.unit, system)[0]
    return None


def source_line(id: str, section: str = "", *, tag: str = "p") -> Markup:
    """Kind, document, section."""
    entry = source(id)
    kind = entry["kind"] + (", secondary" if entry.get("mark") == "secondary" else "")
    if id == entry["kind"].replace(" ", "-"):
        return el(
            tag, el("b", kind, class_=None if section else "whole"), f" {section}" if section else None, class_="src"
        )
    cited = entry["citation"]
    if section and section not in cited:
        cited = f"{cited.rstrip('.')}, {section}"
    return el(tag, el("b", kind), f" {cited}", class_="src")


def checks(result: Result, system: str) -> Markup | None:
    """What was compared, as a list; None when nothing was."""
    items = []
    for check in ordered(result.work.checks):
        state = state_of(check)
        lead = "Stop." if check.stop else f"{WORD[state]}."
        items.append(
            el(
                "li",
                shape(state),
                el(
                    "div",
                    el("p", el("b", lead), f" {check.text[:1].upper()}{check.text[1:]}", class_="check__say"),
                    _compared(result, check, system),
                    source_line(check.source, check.section),
                ),
                class_=f"check is-{state}",
            )
        )
    return el("ul", *items, class_="checks") if items else None


def _compared(result: Result, check: Check, system: str) -> Markup | None:
    """wanted .., found .., .. to spare; or what is missing."""
    if check.ok is None:
        labels = [_label(result, name) for name in check.needs]
        if labels:
            return el("p", "Missing: " + ", ".join(labels), class_="check__nums")
    parts: list[Any] = []
    places = _places(check, system)
    for word, value in ((_want_word(check), check.required), ("found", check.found)):
        if value is not None:
            parts += [", " if parts else "", f"{word} ", _shown(value, check.unit, system, places)]
    if check.margin is not None:
        number, unit = pair_value(abs(check.margin), check.unit, system)
        word = _short_word(check) if check.margin < -1e-9 else "to spare"
        parts += [", ", quantity(number, unit, places), f" {word}"]
    return el("p", *parts, class_="check__nums") if parts else None


def _places(check: Check, system: str) -> int | None:
    """Places after the point that suit all numbers of a check; None when each says all in four digits."""
    given = (check.required, check.found, check.margin)
    numbers = [
        pair_value(v, check.unit, system)[0] for v in given if isinstance(v, (int, float)) and v and v is not True
    ]
    if all(map(exact, numbers)):
        return None
    places = max(decimals(number) for number in numbers[:2])
    return max(min(places, 3), decimals(numbers[-1], 1) if check.margin else 0)


def _want_word(check: Check) -> str:
    if check.margin is None or not isinstance(check.found, (int, float)) or check.found == check.required:
        return "wanted"
    return "wanted at least" if (check.found > check.required) == (check.margin > 0) else "wanted at most"


def _short_word(check: Check) -> str:
    return "too little" if check.found < check.required else "too much"


def _shown(value: Any, pair: str, system: str, places: int | None) -> Any:
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        number, unit = pair_value(value, pair, system)
        return quantity(number, unit, places)
    return ", ".join(choice(word) for word in str(words(value)).split(", "))


def _label(result: Result, name: str) -> str:
    """The label of an input, also of a member of an object."""
    first, _, rest = name.partition(".")
    first = first.partition("[")[0]
    pair = result.declaration.inputs.get(first)
    if not pair:
        return name.replace("_", " ")
    field = pair[0]
    member = getattr(field, "fields", {}).get(rest) or getattr(getattr(field, "item", None), "fields", {}).get(rest)
    return (member or field).label


def cautions(result: Result) -> Markup | None:
    """The cautions, danger first."""
    listed = sorted(result.work.cautions, key=lambda caution: LEVELS.index(caution.level))
    return join(caution_box(c.level, c.text, c.source) for c in listed) if listed else None


def caution_box(level: str, text: str, id: str) -> Markup:
    """One caution: a word and a border."""
    return el(
        "div",
        el("p", level.capitalize(), class_="caution__level"),
        el("p", text),
        source_line(id),
        class_=f"caution is-{level}",
    )
