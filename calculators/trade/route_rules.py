"""The decision table of the vent's route: which rules hold for a route, which do not, which cannot be told."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from ..tables import rule_pack, source, table
from ..units import read

EFFECTS = ("stop", "drawback", "for", "crossing", "verify")
SECTION = tuple[str, str]


class Outcome(NamedTuple):
    """A rule at one route: ``applies`` is True, False, or None with the ``unknown`` facts that would tell."""

    rule: dict[str, Any]
    applies: bool | None
    unknown: tuple[str, ...]


def rules() -> list[dict[str, Any]]:
    """All rules in the order in which they are printed.  Callers must not change them."""
    return list(table("routes")["rules"])


def judge(kind: str, facts: Mapping[str, Any]) -> list[Outcome]:
    """Every rule that is about a kind of route, with what the facts say of it.  A fact that is None is not known."""
    return [outcome(rule, facts) for rule in rules() if kind in rule["routes"]]


def outcome(rule: dict[str, Any], facts: Mapping[str, Any]) -> Outcome:
    """One rule: it applies when all its conditions hold; one that does not hold decides, whatever is unknown."""
    held = [(condition["fact"], holds(condition, facts[condition["fact"]])) for condition in rule["when"]]
    if any(answer is False for _, answer in held):
        return Outcome(rule, False, ())
    unknown = tuple(dict.fromkeys(fact for fact, answer in held if answer is None))
    return Outcome(rule, None if unknown else True, unknown)


def holds(condition: Mapping[str, Any], value: Any) -> bool | None:
    """Whether a condition holds for a value; None when the value is not known."""
    if "is" in condition and None in condition["is"]:  # a rule about what is not known
        return value in condition["is"]
    if value is None:
        return None
    if "is" in condition:
        return value in condition["is"]
    if "has" in condition:
        return bool(set(condition["has"]) & set(value))
    if "has_not" in condition:
        return not set(condition["has_not"]) & set(value)
    return bool(value > read(condition["over"], "1") + 1e-9)


def cited(rule: Mapping[str, Any], packs: Iterable[str]) -> SECTION:
    """Source id and section of a rule: of the first chosen pack that has words of its own on it, else the rule's."""
    for pack in packs:
        if pack in rule.get("by_pack", {}):
            id, section = rule["by_pack"][pack]
            return id, section
        if pack in rule.get("limits", {}):
            row = pack_row(pack, rule["limits"][pack])
            return row["source"], row["section"]
    return rule["source"], rule.get("section", "")


def source_words(id: str, section: str) -> str:
    """A source as a reader meets it: its kind, the document, the section."""
    entry = source(id)
    kind = entry["kind"] + (", secondary" if entry.get("mark") == "secondary" else "")
    if id == entry["kind"].replace(" ", "-"):
        return kind
    return f"{kind}: {entry['citation'].rstrip('.')}" + (f", {section}" if section else "")


def pack_row(pack: str, id: str) -> dict[str, Any]:
    """A row of a rule pack.  Raises KeyError when the pack has none of that id."""
    for row in rule_pack(pack)["rows"]:
        if row["id"] == id:
            return dict(row)
    raise KeyError(f"no row {id!r} in pack {pack!r}")


def limits(rule_id: str, packs: Iterable[str]) -> list[tuple[float, float | None, bool]]:
    """The distances that a rule compares with: for each chosen pack with a row (distance, height that stands in for
    it or None, whether only the level distance counts); the rule's own figure when no chosen pack has one.  Metres."""
    rule = next(rule for rule in rules() if rule["id"] == rule_id)
    asked, above = rule["limits"], rule.get("above", {})
    found = []
    for pack in packs:
        if pack in asked:
            row = pack_row(pack, asked[pack])
            instead = length(pack_row(pack, above[pack])) if pack in above else None
            found.append((length(row), instead, row["quantity"].startswith("side_")))
    if not found and "else" in asked:
        found.append((read(asked["else"], "m"), read(above["else"], "m") if "else" in above else None, False))
    return found


def length(row: Mapping[str, Any]) -> float:
    """The length of a rule row in metres."""
    return read(f"{row['value']} {row['unit']}", "m")
