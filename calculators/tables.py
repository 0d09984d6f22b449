"""Tables of data that the calculators look up: each row with its source, none of them in Python."""

import json
from functools import cache

from . import packaged
from .units import si


@cache
def table(name: str) -> dict:
    """Table `name` as read from data/<name>.json; KeyError when there is none. Callers must not change it."""
    try:
        raw = packaged.read(f"{name}.json")
    except OSError:
        raise KeyError(f"no table {name!r}") from None
    return json.loads(raw)


def _pick(where: dict, key: str, what: str):
    try:
        return where[key]
    except KeyError:
        raise KeyError(f"no {what} {key!r}; known: {', '.join(where)}") from None


def source(id: str) -> dict:
    """Entry of the source register: kind, citation, and section, edition, mark, note where they apply."""
    return _pick(table("sources"), id, "source")


RULE_PACKS = ("us-pa", "irc-f", "us-mn", "sgm-sf-2017", "rms-mf-2018", "cc-1000-2018")


def rule_packs() -> tuple[str, ...]:
    """Ids of the rule packs that can be asked for. Packs are never merged."""
    return RULE_PACKS


def rule_pack(id: str) -> dict:
    """One rule pack: id, title, jurisdiction, edition, source, not_seen, reading_notes and rows."""
    if id not in RULE_PACKS:
        raise KeyError(f"no rule pack {id!r}; known: {', '.join(RULE_PACKS)}")
    return table(f"rules-{id}")


def pipe(size: str) -> dict:
    """Schedule 40 pipe of nominal `size` ("1-1/4" to "6"): outside_diameter, minimum_wall, bore, weight, source."""
    return _pick(table("pipes")["schedule-40"], size, "pipe size")


def fitting(kind: str, size: str, use: str, method: str) -> list[dict]:
    """Published rows for one fitting, the default first; empty when no source gives a value.

    use is "air" or "water"; method is "equivalent-length" (rows in ft) or "loss-coefficient" (rows in 1).
    """
    cell = _pick(table("fittings")["rows"], kind, "fitting")
    cell = _pick(cell, size, "pipe size of fittings")
    cell = _pick(cell, use, "use of fittings")
    rows = _pick(cell, method, "method of fittings")
    return [] if rows == "none" else rows


def si_of(cell: dict, member: str = "value") -> float:
    """A table cell with a unit as an SI float; member picks one of several numbers (value, low, high)."""
    return si(f"{cell[member]} {cell['unit']}")
