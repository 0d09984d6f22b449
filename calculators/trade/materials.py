"""The list of materials of pipe-takeoff: what crosses what, what is counted, CSV, prices."""

from itertools import pairwise
from typing import Any, NamedTuple

from ..physics import runs as physics
from ..tables import rule_pack
from ..units import si

ZONES = ("unknown", "basement", "crawl-space", "living-space", "garage", "attic", "outdoors")
ITEMS = {
    "stick": "pipe, stick",
    "hanger": "hanger",
    "coupling": "coupling between sticks",
    "firestop": "fire stop at a floor, wall or ceiling",
    "weather-seal": "weather seal at wall or roof",
    "elbow-90": "elbow, 90 degrees",
    "elbow-90-sweep": "elbow, 90 degrees, long sweep",
    "elbow-45": "elbow, 45 degrees",
    "elbow-45-sweep": "elbow, 45 degrees, long sweep",
    "tee-run": "tee",
    "tee-branch": "tee",
    "check-valve": "check valve",
    "ball-valve": "ball valve",
    "gate-valve": "gate valve",
    "other": "other fitting",
}
NO_PIECE = ("entrance", "exit")
TO_SUIT = "to suit"  # the size of what is chosen by its hole
GARAGE_NEED = "close the gap with an approved material that resists flame and gases; ask about plastic pipe"
FLOOR_NEED = "close the gap at floor or ceiling with an approved material that resists flame and gases"
WEATHER_NEED = "flash or seal against rain, and seal for air"


class Spacing(NamedTuple):
    """Longest spacing [m] of supports on level and on upright pipe; None where a pack has no row."""

    horizontal: dict[str, Any] | None
    vertical: dict[str, Any] | None

    def metres(self, orientation: str) -> float | None:
        """The spacing [m] of an orientation."""
        row = getattr(self, orientation)
        return None if row is None else si(f"{row['value']} {row['unit']}")


def spacing(pack: str) -> Spacing:
    """The rows of a rule pack on supports of plastic pipe."""
    rows = {row["quantity"]: row for row in rule_pack(pack)["rows"]}
    return Spacing(rows.get("support_spacing_horizontal"), rows.get("support_spacing_vertical"))


def crossings(runs: list[dict[str, Any]]) -> list[dict[str, str]]:
    """Where the pipe goes from one zone into another, in the order of the runs; unknown zones are passed over."""
    found = []
    for one, other in pairwise(runs):
        zones = one["zone"], other["zone"]
        if "unknown" in zones or zones[0] == zones[1]:
            continue
        if "outdoors" in zones:
            need, piece = WEATHER_NEED, "weather-seal"
        elif "garage" in zones:
            need, piece = GARAGE_NEED, "firestop"
        else:
            need, piece = FLOOR_NEED, "firestop"
        found.append({"leaves": zones[0], "enters": zones[1], "needs": need, "piece": piece})
    return found


def pieces(
    runs: list[dict[str, Any]], stick: float, hangers: int | None, fittings: list[dict[str, Any]], seals: list[str]
) -> list[tuple[str, int]]:
    """Item and number of everything to buy, in a fixed order; nothing is listed that is not needed."""
    total = sum(run["length"] for run in runs)
    joints = sum(max(physics.whole_pieces(length=run["length"], each=stick) - 1, 0) for run in runs)
    counted: dict[str, int] = {"stick": physics.whole_pieces(length=total, each=stick), "hanger": hangers or 0}
    for item in fittings:
        if item["kind"] not in NO_PIECE:
            kind = "tee-run" if item["kind"] == "tee-branch" else item["kind"]
            counted[kind] = counted.get(kind, 0) + item["count"]
    counted["coupling"] = counted.pop("coupling", 0) + joints
    counted["firestop"], counted["weather-seal"] = seals.count("firestop"), seals.count("weather-seal")
    return [(item, number) for item, number in counted.items() if number]


def priced(
    listed: list[tuple[str, int]], prices: list[dict[str, Any]], pipe_size: str
) -> tuple[list[dict[str, Any]], float | None, list[str]]:
    """Rows of the list, the cost of what has a price (None without prices), and what has none."""
    each = {"tee-run" if row["item"] == "tee-branch" else row["item"]: row["price"] for row in prices}
    rows: list[dict[str, Any]] = [
        {
            "item": ITEMS[item],
            "size": TO_SUIT if item in ("firestop", "weather-seal") else f"{pipe_size} in.",
            "quantity": number,
            "price": each.get(item),
            "cost": None if item not in each else number * each[item],
        }
        for item, number in listed
    ]
    if not prices:
        return rows, None, []
    return rows, sum(row["cost"] or 0.0 for row in rows), [row["item"] for row in rows if row["cost"] is None]


def csv(rows: list[dict[str, Any]]) -> list[str]:
    """The list as lines of CSV: every text in quotes, numbers plain, nothing where no price is known."""
    lines = ["item,size,quantity,price each (your currency),cost (your currency)"]
    for row in rows:
        money = ["" if row[name] is None else f"{row[name]:.2f}" for name in ("price", "cost")]
        lines.append(",".join([f'"{row["item"]}"', f'"{row["size"]}"', str(row["quantity"]), *money]))
    return lines
