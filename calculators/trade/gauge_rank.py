"""Causes of a reading in order: how near each comes, what was seen, and what tells one from the next."""

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from ..tables import si_of, table
from ..units import from_si
from .gauge_faults import Explained
from .gauge_model import Shown

LIKE, CLEAR = 1.05, 1.25  # ratios: below the first two measurements are the same, above the second clearly not


class Reading(NamedTuple):
    """What was measured now [SI]: suction at the gauge less its zero, flow if it was measured, and what was seen."""

    gauge: float
    flow: float | None
    seen: tuple[str, ...]


class Ranked(NamedTuple):
    """A cause with its place in the order; causes on the same place are equally good."""

    rank: int
    explained: Explained
    for_it: tuple[str, ...]
    against: tuple[str, ...]
    miss: float


def _off(found: float, measured: float, least: float, share: float) -> float:
    """How far a figure misses, in units of what cannot be told apart; 0 where it does not."""
    unit = max(least, share * abs(measured))
    return max(0.0, abs(found - measured) / unit - 1)


def miss(one: Explained, now: Reading) -> float:
    """How far a cause misses what was measured, in units of what a gauge and a flow meter can tell apart (from memory)."""
    rows = table("limits")["gauge"]
    gauge = _off(one.shown.gauge, now.gauge, si_of(rows["readable"]), rows["readable-share"]["value"] / 100)
    if now.flow is None:
        return gauge
    return gauge + _off(one.shown.flow, now.flow, si_of(rows["flow-least"]), rows["flow-share"]["value"] / 100)


def ranked(causes: Iterable[Explained], now: Reading) -> list[Ranked]:
    """The causes in order: first what nothing seen speaks against, then the nearest, then what was seen for them.

    Those of which none is needed, or no amount helps, stand behind unless something seen speaks for them.

    Causes that come out alike have the same rank, in the order in which looking costs least.
    """
    rows = []
    for one in causes:
        for_it = tuple(word for word in now.seen if word in one.cause.seen)
        against = tuple(word for word in now.seen if word in one.cause.against)
        rows.append(
            ((len(against), one.idle and not for_it, round(miss(one, now), 1), -len(for_it)), one, for_it, against)
        )
    rows.sort(key=lambda row: row[0])
    keys = [row[0] for row in rows]
    return [Ranked(keys.index(key) + 1, one, for_it, against, key[2]) for key, one, for_it, against in rows]


class Difference(NamedTuple):
    """How much one measurement differs between two causes: ratio [1], its name, both values [SI], its unit."""

    ratio: float
    what: str
    here: float
    there: float
    unit: str


def tells_apart(one: Ranked, order: Sequence[Ranked]) -> str:
    """What tells a cause from its rivals, those of its own rank or else the best of the others.

    The measurement that differs most comes first, then the other one for rivals that the first leaves alike; where no
    measurement differs only a look does.
    """
    others = [row for row in order if row.explained.cause.id != one.explained.cause.id and not row.explained.idle]
    rivals = [row for row in others if row.rank == one.rank] or others[:1]
    found = [(row, _differences(one.explained.shown, row.explained.shown)) for row in rivals]
    twins = [row for row, both in found if max(both).ratio < LIKE]
    apart = [(row, both) for row, both in found if max(both).ratio >= LIKE]
    texts = []
    if twins:
        names = "; ".join(_lower(row.explained.cause.name) for row in twins)
        texts.append(f"Flow and pit suction are alike with: {names}. Only looking tells.")
    while apart:
        best, both = max(apart, key=lambda pair: max(pair[1]).ratio)
        shown = max(both)
        texts.append(
            f"Measure the {shown.what}: {_amount(shown.here, shown.unit)} here, {_amount(shown.there, shown.unit)} "
            f"with: {_lower(best.explained.cause.name)}."
        )
        apart = [(row, other) for row, other in apart if max(d.ratio for d in other if d.what == shown.what) < CLEAR]
        apart = [(row, [d for d in other if d.what != shown.what]) for row, other in apart if row is not best]
        apart = [(row, other) for row, other in apart if other and max(other).ratio >= LIKE]
    return " ".join(texts)


def _differences(mine: Shown, other: Shown) -> list[Difference]:
    return [
        Difference(_ratio(mine.flow, other.flow, 1e-3), "flow through the fan", mine.flow, other.flow, "cfm"),
        Difference(_ratio(mine.pit, other.pit, 1.0), "suction in the pit itself", mine.pit, other.pit, "in WC"),
    ]


def _ratio(a: float, b: float, least: float) -> float:
    """Ratio of two measurements; what lies under ``least`` is too small to tell."""
    return (max(a, b) + least) / (min(a, b) + least)


def _amount(value: float, unit: str) -> str:
    """A measurement in both systems of units."""
    if unit == "cfm":
        return f"{from_si(value, 'cfm'):.0f} cfm ({from_si(value, 'L/s'):.1f} L/s)"
    return f"{from_si(value, 'in WC'):.2f} in WC ({value:.0f} Pa)"


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def first_look(order: Sequence[Ranked], seen: Sequence[str], changed: float | None) -> str:
    """What to look at first: what was already seen to be wrong, else the cheapest look among the best causes."""
    direct = [row for row in order if set(row.explained.cause.direct) & set(seen)]
    if direct:
        names = "; ".join(_lower(row.explained.cause.name) for row in direct)
        return f"Put right first what was seen ({names}), then read again."
    first = order[0].explained.cause
    if first.id == "unchanged":
        return "Nothing: the gauge reads as it did, as near as it can be read."
    look = first.look_at
    if changed is not None and abs(changed) < si_of(table("limits")["gauge"]["change"]):
        return f"No service call is due by this reading alone. If in doubt: {_lower(look)}"
    return look


def as_row(one: Ranked, order: Sequence[Ranked], scale: float) -> dict[str, Any]:
    """A cause as a row of the table; ``scale`` [1] is the mark over what the model reads at start-up."""
    cause, means, shown, idle = one.explained
    words = [f"speaks for it: {', '.join(one.for_it)}"] if one.for_it else []
    words += [f"speaks against it: {', '.join(one.against)}"] if one.against else []
    return {
        "rank": one.rank,
        "cause": cause.id,
        "name": cause.name,
        "means": means,
        "gauge": shown.gauge * scale,
        "flow": shown.flow,
        "pit_suction": shown.pit,
        "fits": one.miss == 0 and not one.against and not idle,
        "evidence": "; ".join(words) or "nothing for or against it",
        "look_at": cause.look_at,
        "tells_apart": tells_apart(one, order),
    }
