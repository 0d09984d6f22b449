"""Readings of a radon test: means of places, pairs of devices side by side, blanks and spikes."""

from typing import Any, NamedTuple

from ..declare import Refusal
from ..physics import radon
from ..tables import si_of, table
from ..work import Work
from .radon_fields import LEVEL, in_units, limit

MOST_STEPS = 6  # pairs and places whose arithmetic is printed
UNNAMED = "the place tested"
SLACK = 1e-9
PERCENT = "%|%"


class Reading(NamedTuple):
    """One counted or judged reading: where it stands in the input, its place, its level [Bq/m3]."""

    path: str
    place: str
    value: float
    known: float | None


class Place(NamedTuple):
    """A place with the readings that count there."""

    name: str
    primaries: list[Reading]
    duplicates: list[Reading]


def sort_out(readings: list[dict[str, Any]]) -> tuple[list[Place], list[Reading], list[Reading]]:
    """Places in the order of the input, blanks, spikes.  Raises Refusal without a primary, or for a lonely duplicate."""
    places: dict[str, Place] = {}
    apart: dict[str, list[Reading]] = {"blank": [], "spike": []}
    for i, entry in enumerate(readings):
        name = " ".join((entry["location"] or UNNAMED).split()) or UNNAMED
        read = Reading(f"readings[{i}]", name, entry["value"], entry["known"])
        if entry["role"] in apart:
            apart[entry["role"]].append(read)
            continue
        place = places.setdefault(name.casefold(), Place(name, [], []))
        (place.primaries if entry["role"] == "primary" else place.duplicates).append(read)
    for place in places.values():
        if place.duplicates and not place.primaries:
            raise Refusal(
                f"{place.duplicates[0].path}.role",
                "a duplicate stands beside a primary device at the same place, and there is none",
                found=f"duplicate at {place.name}",
                accepts="a primary reading with the same location",
            )
    if not places:
        raise Refusal(
            "readings", "none of these readings is a primary one", kind="missing", accepts="a primary reading"
        )
    return list(places.values()), apart["blank"], apart["spike"]


def means(work: Work, places: list[Place]) -> tuple[float, list[dict[str, Any]]]:
    """Mean of the means of places [Bq/m3], and a row for each place."""
    rows: list[dict[str, Any]] = []
    for place in places:
        counted = [read.value for read in (*place.primaries, *place.duplicates)]
        if len(counted) == 1:
            mean = counted[0]
        else:
            mean = _mean(work, f"Mean at {place.name}", counted, printed=len(rows) < MOST_STEPS)
        rows.append({"location": place.name, "mean": mean, "count": len(counted)})
    values = [row["mean"] for row in rows]
    if len(values) == 1:
        return values[0], rows
    return _mean(work, "Mean of the places", values, printed=True), rows


def _mean(work: Work, title: str, values: list[float], *, printed: bool) -> float:
    arguments = {"S": sum(values), "n": float(len(values))}
    if not printed:
        return radon.mean_of(**arguments)
    return work.apply(title, radon.mean_of, arguments, us=in_units("us", "m", "S"))


def pairs(work: Work, places: list[Place], detection_limit: float | None) -> tuple[list[dict[str, Any]], bool]:
    """A row for each duplicate with the primary beside it, and whether one is beyond its control limit."""
    rows: list[dict[str, Any]] = []
    beyond = False
    for place in places:
        for i, second in enumerate(place.duplicates):
            first = place.primaries[min(i, len(place.primaries) - 1)]
            row = _pair(work, first, second, detection_limit, printed=len(rows) < MOST_STEPS)
            beyond = beyond or row["band"] in ("control", "low-level-difference")
            rows.append(row)
    return rows, beyond


def _pair(
    work: Work, first: Reading, second: Reading, detection_limit: float | None, *, printed: bool
) -> dict[str, Any]:
    mean = radon.mean_of_two(x_1=first.value, x_2=second.value)
    both = {"x_1": first.value, "x_2": second.value}
    if mean == 0:
        rpd = 0.0
    elif printed:
        units = in_units("us", "x_1", "x_2")
        rpd = work.apply(f"Relative difference of the pair at {first.place}", radon.relative_difference, both, us=units)
    else:
        rpd = radon.relative_difference(**both)
    rule = next(row for row in table("limits")["duplicates"] if mean >= si_of(row["from"]) * (1 - SLACK))
    band = _low(work, first, second, rule, detection_limit) if "difference" in rule else _high(work, second, rpd, rule)
    return {
        "location": first.place,
        "first": first.value,
        "second": second.value,
        "mean": mean,
        "rpd": rpd,
        "band": band,
    }


def _high(work: Work, second: Reading, rpd: float, rule: dict[str, Any]) -> str:
    """Band of a pair by its relative difference; reaching a limit counts as beyond it."""
    warning, control = si_of(rule["warning"]), si_of(rule["control"])
    band = "control" if rpd >= control - SLACK else "warning" if rpd >= warning - SLACK else "within"
    work.judge(
        f"pair:{second.path}",
        f"Pair at {second.place}: the two devices agree to less than the warning level.",
        ok=band == "within",
        required=warning,
        found=rpd,
        margin=warning - rpd,
        unit=PERCENT,
        source=rule["source"],
        section=rule["section"],
    )
    if band == "warning":
        work.caution(
            "warning",
            f"The pair at {second.place} is beyond the warning level. It still counts. Look for the cause: place, lot, "
            "handling, laboratory.",
            rule["source"],
        )
    elif band == "control":
        _beyond(work, second, rule)
    return band


def _low(work: Work, first: Reading, second: Reading, rule: dict[str, Any], detection_limit: float | None) -> str:
    """Band of a pair of low readings, by their difference in level; two below the detection limit agree."""
    apart, most = abs(first.value - second.value), si_of(rule["difference"])
    unseen = detection_limit is not None and max(first.value, second.value) < detection_limit
    within = unseen or apart <= most * (1 + SLACK)
    work.judge(
        f"pair:{second.path}",
        f"Pair at {second.place}: both devices are below the detection limit."
        if unseen
        else f"Pair at {second.place}: the two low readings differ by no more than this.",
        ok=within,
        required=None if unseen else most,
        found=apart,
        margin=None if unseen else most - apart,
        unit=LEVEL,
        source=rule["source"],
        section=rule["section"],
    )
    if not within:
        _beyond(work, second, rule)
    return "within" if within else "low-level-difference"


def _beyond(work: Work, second: Reading, rule: dict[str, Any]) -> None:
    work.caution(
        "warning",
        f"The pair at {second.place} is too far apart to be relied on, whichever reading is the right one. Stop using these "
        "devices until the cause is found, and test again.",
        rule["source"],
    )


def apart(work: Work, blanks: list[Reading], spikes: list[Reading], detection_limit: float | None) -> None:
    """Blanks against the detection limit, spikes against the known level; neither enters the mean."""
    for blank in blanks:
        work.at_most(
            f"blank:{blank.path}",
            f"Blank at {blank.place}: an unexposed device reads below the detection limit.",
            found=blank.value,
            required=detection_limit,
            unit=LEVEL,
            source="from-memory",
            needs=() if detection_limit is not None else ("detection_limit",),
        )
    most = limit("test_precision", "spike")
    for i, spike in enumerate(spikes):
        error = None
        if spike.known is not None:
            arguments = {"x": spike.value, "x_k": spike.known}
            error = (
                work.apply(
                    f"Error of the spike at {spike.place}",
                    radon.relative_error,
                    arguments,
                    us=in_units("us", "x", "x_k"),
                )
                if i < MOST_STEPS
                else radon.relative_error(**arguments)
            )
        work.at_most(
            f"spike:{spike.path}",
            f"Spike at {spike.place}: the device reads the known level within this error, either way.",
            found=None if error is None else abs(error),
            required=si_of(most),
            unit=PERCENT,
            source=most["source"],
            needs=() if error is not None else (f"{spike.path}.known",),
        )
