"""The plan of suction-reach from its inputs: outline, pits, footings, tile; what cannot be drawn is refused by field."""

from collections.abc import Sequence
from math import hypot
from typing import Any, NamedTuple

from ..declare import Refusal
from ..physics.slab_closed import dug_radius
from ..physics.slab_grid import Footing
from ..physics.slab_outline import Outline, Rectangle, outline_of
from ..physics.slab_source import Pit
from ..physics.slab_tile import Tile
from ..units import from_si
from ..work import Work

BESIDE_FOOTING = 0.3  # m: nearer to a footing than this a pit's suction is 20 percent off
LOOSE = 1e-9  # a footing less tight than this is none
WIDEST = 0.25  # of the short side of the plan: a wider pit is no point in a sheet any more


NO_PLACE = ("flow", "suction", "baseline", "dug_volume", "tightness")
SNAP = 9  # places after the point [m]: a place typed in feet and its echo in metres are then one place


def snapped(entry: dict[str, Any]) -> dict[str, Any]:
    """An entry with its lengths [m] rounded to the nanometre, so that no wall or hole falls on either side of a cell's edge."""
    return {k: round(v, SNAP) if type(v) is float and k not in NO_PLACE else v for k, v in entry.items()}


class Plan(NamedTuple):
    """Rectangles, their outline, pits and footings; ``tile`` is None where there is none, ``beside`` numbers the pits near a footing."""

    rectangles: tuple[Rectangle, ...]
    outline: Outline
    pits: list[Pit]
    footings: list[Footing]
    tile: Tile | None
    beside: list[int]


def feet(x: float, y: float) -> str:
    """A place as it stands in a message."""
    return f"({from_si(x, 'ft'):.4g} ft, {from_si(y, 'ft'):.4g} ft)"


def plan_of(
    work: Work,
    *,
    slab: Sequence[dict[str, Any]],
    pits: Sequence[dict[str, Any]],
    footings: Sequence[dict[str, Any]],
    tile: Tile | None,
) -> Plan:
    """The plan in SI.  Raises Refusal for a pit off the slab, overlapping pits, a tile without its pit and the like."""
    slab, pits, footings = ([snapped(one) for one in listed] for listed in (slab, pits, footings))
    rectangles = tuple((r["x"], r["y"], r["width"], r["depth"]) for r in slab)
    outline = outline_of(rectangles)
    placed = [_pit(work, pit, k, len(pits)) for k, pit in enumerate(pits)]
    for k, pit in enumerate(placed):
        on_slab(outline, pit.x, pit.y, f"pits[{k}]")
        _apart(outline, placed, k)
    lines = []
    for k, f in enumerate(footings):
        tight = f["tightness"] if f["tightness"] > LOOSE else 0.0
        line = Footing(f["x1"], f["y1"], f["x2"], f["y2"], tight)
        if hypot(line.x1 - line.x2, line.y1 - line.y2) == 0:
            raise Refusal(
                f"footings[{k}]", "a footing needs a length", found=feet(line.x1, line.y1), accepts="two places"
            )
        lines.append(line)
    placed = _on_tile(work, pits, placed, tile)
    if tile is not None:
        try:
            for loop in range(len(outline.loops)):
                outline.inset(tile.offset, loop)
        except ValueError:
            raise Refusal(
                "tile_offset",
                "a tile this far from the walls does not fit in the plan",
                found=f"{from_si(tile.offset, 'in'):.4g} in",
                accepts="less than half of the narrowest part",
            ) from None
    beside = [
        k for k, pit in enumerate(placed) if any(f.tightness > 0 and _gap(pit, f) < BESIDE_FOOTING for f in lines)
    ]
    return Plan(rectangles, outline, placed, lines, tile, beside)


def _pit(work: Work, pit: dict[str, Any], k: int, count: int) -> Pit:
    radius = pit["radius"]
    if radius is None:
        title = "Radius of the half ball that was dug" + (f", pit {k + 1}" if count > 1 else "")
        radius = work.step(title, dug_radius, us={"r": "ft", "V": "ft3"}, V=pit["dug_volume"])
    return Pit(pit["x"], pit["y"], radius, pit.get("flow"), pit.get("suction"), bool(pit.get("on_tile")))


def test_pit(work: Work, given: dict[str, Any] | None, pits: Sequence[Pit], outline: Outline, flow: float) -> Pit:
    """The hole at which the test drew its flow [m3/s]: the one that was given, or the one pit."""
    if given is not None:
        given = snapped(given)
        on_slab(outline, given["x"], given["y"], "test_pit")
        return _pit(work, given, 0, 1)._replace(flow=flow)
    if len(pits) > 1 or pits[0].on_tile:
        raise Refusal(
            "test_pit",
            "the hole at which the test drew must be given: there is not one pit in the layer itself",
            accepts="x, y and radius or dug_volume",
            kind="missing",
        )
    return pits[0]._replace(flow=flow, suction=None)


def on_slab(outline: Outline, x: float, y: float, path: str) -> None:
    """Raises Refusal when a place [m] is off the slab."""
    if not outline.contains(x, y):
        x1, y1, x2, y2 = outline.box
        raise Refusal(
            f"{path}.x",
            "this place is not on the slab",
            found=feet(x, y),
            accepts=f"a place on the rectangles, which lie between {feet(x1, y1)} and {feet(x2, y2)}",
        )


def _apart(outline: Outline, pits: Sequence[Pit], k: int) -> None:
    pit = pits[k]
    x1, y1, x2, y2 = outline.box
    most = WIDEST * min(x2 - x1, y2 - y1)
    if pit.radius > most:
        raise Refusal(
            f"pits[{k}].radius",
            "a pit this wide is no point in this slab any more",
            found=f"{from_si(pit.radius, 'in'):.4g} in",
            accepts=f"at most a quarter of the short side, {from_si(most, 'in'):.4g} in",
            kind="outside-model",
        )
    for j, other in enumerate(pits[:k]):
        if hypot(pit.x - other.x, pit.y - other.y) < pit.radius + other.radius:
            raise Refusal(
                f"pits[{k}].x",
                f"this pit overlaps pits[{j}]",
                found=feet(pit.x, pit.y),
                accepts="pits that lie apart; count two that meet as one",
            )


def _on_tile(work: Work, given: Sequence[dict[str, Any]], pits: list[Pit], tile: Tile | None) -> list[Pit]:
    """The pits with the one that the tile ends in marked as such."""
    marked = [k for k, pit in enumerate(pits) if pit.on_tile]
    if tile is None and marked:
        raise Refusal(
            f"pits[{marked[0]}].on_tile",
            "there is no tile in this plan",
            found="true",
            accepts="tile perimeter, or false",
        )
    if tile is None or len(marked) == 1:
        return pits
    if len(marked) > 1:
        raise Refusal(
            f"pits[{marked[1]}].on_tile",
            "only one pit can be the end of the tile here",
            found=f"{len(marked)} pits",
            accepts="one pit on the tile; give the others as holes beside it",
        )
    if len(pits) == 1 and given[0]["on_tile"] is None:
        work.caution(
            "note", "The one pit is taken to be the end of the drain tile: it draws through the tile only.", "derived"
        )
        return [pits[0]._replace(on_tile=True)]
    raise Refusal(
        "tile", "no pit is said to be the end of the tile", found="perimeter", accepts="one pit with on_tile true"
    )


def _gap(pit: Pit, f: Footing) -> float:
    """Distance [m] of a pit's middle from a footing's line."""
    dx, dy = f.x2 - f.x1, f.y2 - f.y1
    t = min(1.0, max(0.0, ((pit.x - f.x1) * dx + (pit.y - f.y1) * dy) / (dx * dx + dy * dy)))
    return hypot(pit.x - f.x1 - t * dx, pit.y - f.y1 - t * dy)
