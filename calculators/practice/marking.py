"""Marks an answer: right, a known slip with its explanation, wrong, or not readable."""

from typing import Any, NamedTuple

from ..units import UnitError, fold, read
from .draw import spelled
from .problem import House, Number, Options, Order, Problem


class Mark(NamedTuple):
    """What came of an answer: ``verdict`` is right, slip, partly, wrong or unreadable; ``credit`` from 0 to 1.

    ``parts`` are the decisions of a practice house: name, credit, why.
    """

    verdict: str
    credit: float
    text: str
    slip: str = ""
    parts: tuple[tuple[str, float, str], ...] = ()


def mark(problem: Problem, given: Any) -> Mark:
    """Mark what a learner gave: text for a number, places for a choice (one, or a list), an order or a house (a list).

    Never raises; what cannot be read is a verdict.
    """
    if isinstance(problem.answer, Number):
        return _number(problem, problem.answer, given)
    if isinstance(problem.answer, Options):
        return _options(problem.answer, given)
    if isinstance(problem.answer, House):
        return _house(problem.answer, given)
    return _order(problem.answer, given)


def _number(problem: Problem, key: Number, given: Any) -> Mark:
    if not isinstance(given, str) or not fold(given):
        return Mark("unreadable", 0.0, f"Write a number with its unit, such as {_example(key)}.")
    text = fold(given)
    try:
        value = read(text, "%" if key.unit == "%" else key.unit)
    except UnitError as error:
        if error.kind == "unit" and "missing" in str(error):
            return Mark("unreadable", 0.0, f"The unit is missing. Write it behind the number, such as {_example(key)}.")
        return Mark(
            "unreadable", 0.0, f"This was not read: {error}. Write a number with its unit, such as {_example(key)}."
        )
    if abs(value - key.value) <= key.tolerance * (1 + 1e-9):
        return Mark("right", 1.0, "Right.")
    nearest = min(problem.slips, key=lambda slip: abs(value - slip.value), default=None)
    if nearest is not None and abs(value - nearest.value) <= key.tolerance:
        return Mark("slip", 0.0, nearest.because, nearest.name)
    return Mark(
        "wrong",
        0.0,
        "This is not within the tolerance of the key, and it is no slip that we know. Look at the working.",
    )


def _example(key: Number) -> str:
    return "12" if key.unit == "1" else f"12 {spelled(key.unit)}"


def _places(given: Any, count: int) -> list[int] | None:
    listed = given if isinstance(given, list) else [given]
    try:
        places = [int(item) for item in listed if not isinstance(item, bool)]
    except (TypeError, ValueError):
        return None
    return (
        places
        if len(places) == len(listed) and all(0 <= p < count for p in places) and len(set(places)) == len(places)
        else None
    )


def _options(answer: Options, given: Any) -> Mark:
    places = _places(given, len(answer.options))
    if not places or (not answer.several and len(places) != 1):
        return Mark("unreadable", 0.0, "Choose one option." if not answer.several else "Choose one option or more.")
    if not answer.several:
        chosen = answer.options[places[0]]
        return Mark("right" if chosen.right else "wrong", float(chosen.right), chosen.because)
    right = {i for i, option in enumerate(answer.options) if option.right}
    hits, extra = len(right & set(places)), len(set(places) - right)
    credit = max(0.0, (hits - extra) / len(right))
    if set(places) == right:
        return Mark("right", 1.0, "Right, and nothing was left out.")
    said = [answer.options[i].because for i in sorted(set(places) - right)] + [
        answer.options[i].because for i in sorted(right - set(places))
    ]
    return Mark("partly" if credit else "wrong", credit, " ".join(said))


def _order(answer: Order, given: Any) -> Mark:
    places = _places(given, len(answer.shown)) if isinstance(given, list) else None
    if places is None or len(places) != len(answer.shown):
        return Mark("unreadable", 0.0, "Give every step its place.")
    if tuple(places) == answer.right:
        return Mark("right", 1.0, f"Right. {answer.because}")
    pairs = [(a, b) for i, a in enumerate(answer.right) for b in answer.right[i + 1 :]]
    kept = sum(places.index(a) < places.index(b) for a, b in pairs)
    credit = max(0.0, 2 * kept / len(pairs) - 1)
    first = next(i for i, (a, b) in enumerate(zip(places, answer.right, strict=True)) if a != b)
    return Mark(
        "partly" if credit > 0 else "wrong",
        round(credit, 2),
        f"At place {first + 1} stands another step: “{answer.shown[answer.right[first]]}”. {answer.because}",
    )


def _house(answer: House, given: Any) -> Mark:
    listed = given if isinstance(given, list) and len(given) == len(answer.decisions) else [None] * len(answer.decisions)
    chosen = [
        decision.ways[place] if type(place) is int and 0 <= place < len(decision.ways) else None
        for decision, place in zip(answer.decisions, listed, strict=True)
    ]
    if None in chosen:
        left = [decision.name for decision, way in zip(answer.decisions, chosen, strict=True) if way is None]
        return Mark("unreadable", 0.0, f"Decide on each of them. Not yet decided: {', '.join(left)}.")
    parts = tuple(
        (decision.name, way.credit, way.because) for decision, way in zip(answer.decisions, chosen, strict=True) if way
    )
    credit = sum(part[1] for part in parts) / len(parts)
    least = min(parts, key=lambda part: part[1])
    if credit == 1:
        return Mark("right", 1.0, "Right. This house works as you have planned it; the tests decide.", parts=parts)
    lost = [name for name, counted, _ in parts if counted < 1]
    text = f"Look again at: {', '.join(lost)}."
    return Mark("partly" if credit else "wrong", round(credit, 2), text, least[0].replace(" ", "-"), parts)
