"""The points of the suction plan that the page lets a reader move: each is a pair of numbers of the form."""

import json
from typing import Any

from ...result import Result
from ...units import from_si
from ..markup import Markup, el, join
from .canvas import WIDTH, Sheet

STEPS = {"ft": 0.5, "m": 0.1}  # of one nudge
HINT = "Drag a ring, or go to it with Tab and use the arrow keys. The numbers of the form change, and the plan is drawn from them."

BUSY = "The plan is being worked out from the new numbers."


def movable(sheet: Sheet, result: Result, system: str, plan: Markup, uid: str) -> Markup:
    """The plan with its points as data, a switch that shows them and a word of help; both wake up with the page's script."""
    unit = "ft" if system == "us" else "m"
    data = {
        "unit": unit,
        "step": STEPS[unit],
        "per": round(sheet.scale / from_si(1.0, unit), 6),  # units of the sheet for one unit of length
        "width": WIDTH,
        "height": round(sheet.height),
        "points": [_shown(sheet, unit, *one) for one in _points(result.values)],
    }
    switch = el("button", "Move points on the plan", type="button", class_="act act--small", data_act="points",
                aria_pressed="false", aria_describedby=f"{uid}-h", hidden="hidden")  # fmt: skip
    help_ = el("p", HINT, class_="hint", id=f"{uid}-h", hidden="hidden")
    busy = el("p", BUSY, class_="hint", role="status", data_busy="data-busy", hidden="hidden")
    text = json.dumps(data, separators=(",", ":"))
    return el("div", join((plan, busy, switch, help_)), class_="plan", data_plan=text)


def _points(values: dict[str, Any]) -> list[tuple[str, str, str, tuple[float, float], tuple[float, float], bool]]:
    """Name, both paths, both numbers [m], place on the plan [m], and whether the numbers are sizes."""
    found = []
    for name, path in (("Pit", "pits"), ("Test hole", "test_holes"), ("Place to read", "probes")):
        for k, at in enumerate(values.get(path) or []):
            place = (at["x"], at["y"])
            found.append((f"{name} {k + 1}", f"{path}[{k}].x", f"{path}[{k}].y", place, place, False))
    test = values.get("test_pit")
    if test:
        place = (test["x"], test["y"])
        found.append(("Hole of the test", "test_pit.x", "test_pit.y", place, place, False))
    for k, f in enumerate(values["footings"]):
        for end, word in (("1", "start"), ("2", "end")):
            place = (f[f"x{end}"], f[f"y{end}"])
            found.append(
                (f"Footing {k + 1}, {word}", f"footings[{k}].x{end}", f"footings[{k}].y{end}", place, place, False)
            )
    for k, r in enumerate(values["slab"]):
        x, y, w, d = r["x"], r["y"], r["width"], r["depth"]
        found.append((f"Rectangle {k + 1}, place", f"slab[{k}].x", f"slab[{k}].y", (x, y), (x, y), False))
        found.append((f"Rectangle {k + 1}, size", f"slab[{k}].width", f"slab[{k}].depth", (w, d), (x + w, y + d), True))
    return found


def _shown(
    sheet: Sheet,
    unit: str,
    name: str,
    x: str,
    y: str,
    at: tuple[float, float],
    place: tuple[float, float],
    size: bool,
) -> dict[str, Any]:
    """A point as the page reads it, its numbers in the shown unit."""
    numbers = [round(from_si(v, unit), 6) for v in at]
    on = [round(sheet.x(place[0]), 1), round(sheet.y(place[1]), 1)]
    return {"name": name, "x": x, "y": y, "at": numbers, "on": on, "size": size}
