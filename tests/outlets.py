"""Outlets that the tests of the discharge clearances share, and how they are asked about."""

from typing import Any

from calculators import solve, tables

PA, IRC, MN, SGM, MF, CC = tables.rule_packs()
SIDE = {"height_above_grade": "22 ft", "roof": "side", "height_above_roof": "1 ft", "direction": "up"}
THROUGH = {"height_above_grade": "22 ft", "height_above_roof": "18 in", "direction": "up"}
LEVEL = {"height_above_grade": "22 ft", "direction": "horizontal"}
CAPPED = {"height_above_grade": "22 ft", "direction": "up", "rain_cap": True}


def ask(rules: Any, discharge: dict[str, Any], **lists: Any) -> dict[str, Any]:
    """The answer as plain data."""
    return solve("discharge-clearances", {"rules": rules, "discharge": discharge, **lists}).as_dict()


def check(answer: dict[str, Any], id: str) -> dict[str, Any]:
    """The one check with this id."""
    (found,) = [c for c in answer["checks"] if c["id"] == id]
    return found


def ids(answer: dict[str, Any]) -> set[str]:
    """The ids of all checks."""
    return {c["id"] for c in answer["checks"]}


def riser(rules: Any, discharge: dict[str, Any], **lists: Any) -> float:
    """The least height above grade in ft."""
    return ask(rules, discharge, **lists)["results"]["shortest_riser"]["value"]
