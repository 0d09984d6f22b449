"""Wall, footing and drain tile in section, with the distances from the finished wall."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet, length, not_met

AROUND = si("5 in")  # soil shown outside the footing
WALL = si("13 in")  # wall shown above the slab
TOP = 12  # units above the wall
DEEP = si("8 in")  # footing drawn this deep, or as deep as it projects


def figure(result: Result, uid: str, system: str) -> Markup:
    """The section, to scale; the depth of the footing is the only thing in it that was not given."""
    v, out = result.values, result.outputs
    wall, projection = v["wall_thickness"], out["footing_projection"]
    tile, finish, slab = v["tile_outside_diameter"], v["finish_depth"], v["slab_thickness"]
    deep = max(DEEP, min(projection, 2 * DEEP), tile)
    nearest, farthest, first = out.get("nearest_center"), out.get("farthest_center"), out.get("first_hole")
    outside = v["drain_side"] == "outside"
    far = (farthest or projection + tile) + tile / 2 + AROUND * 0.7
    left = wall + projection + (tile + AROUND if outside else AROUND * 0.6)
    scale = 360 / (left + far)
    height = TOP + (WALL + slab + deep + AROUND * 0.5) * scale
    sheet = Sheet(
        height, left * scale, TOP + WALL * scale, scale
    )  # origin: inside face of the concrete, top of the slab
    _concrete(sheet, wall, projection, slab, deep, finish, height)
    floor = -slab - deep
    if nearest is not None and farthest is not None:
        _tiles(sheet, result, (nearest, farthest), tile, floor, finish, height, system)
    else:
        _unreachable(sheet, v, wall, projection, tile, slab, floor)
    if first is not None:
        _first(sheet, result, finish, slab, floor + tile / 2, system)
    stopped = not_met(result, "located")
    if stopped:
        sheet.text("not located: do not drill", 354, 18, anchor="end", name="bad")
    return sheet.figure(uid, "Wall, footing and drain tile", _words(result, system), _caption(result))


def _concrete(
    sheet: Sheet, wall: float, projection: float, slab: float, deep: float, finish: float, height: float
) -> None:
    under = sheet.y(-slab)
    sheet.field("soil", 0, sheet.y(WALL * 0.55), sheet.x(-wall), height)
    sheet.field("soil", sheet.x(-wall), under, 360, height)
    sheet.stones(sheet.x(projection), under, 360, sheet.y(-slab - deep))
    sheet.field("conc", sheet.x(0), sheet.y(0), 360, under)
    sheet.field("conc", sheet.x(-wall), TOP, sheet.x(0), under)
    sheet.box("conc", -wall - projection, -slab - deep, wall + 2 * projection, deep)
    if finish > 0:
        sheet.box("part", 0, 0, finish, WALL)
    sheet.text("wall", sheet.x(-wall / 2), sheet.y(WALL * 0.3), anchor="middle")
    sheet.text("footing", sheet.x(-wall / 2), sheet.y(-slab - deep / 2) + 5, anchor="middle")
    sheet.text("slab", 354, sheet.y(-slab / 2) + 5, anchor="end")


def _tiles(
    sheet: Sheet,
    result: Result,
    centres: tuple[float, float],
    tile: float,
    floor: float,
    finish: float,
    height: float,
    system: str,
) -> None:
    y = floor + tile / 2
    for centre in dict.fromkeys(centres):
        sheet.add("circle", "tile", cx=sheet.x(centre), cy=sheet.y(y), r=tile / 2 * sheet.scale)
    low, high = (sheet.x(c) for c in centres)
    line = min(sheet.y(floor) + 12, height - 22)
    sheet.dimension(low, high, line, f"centre {length(centres[0], system)} to {length(centres[1], system)}", below=True)


def _first(sheet: Sheet, result: Result, finish: float, slab: float, to: float, system: str) -> None:
    first = result["first_hole"] + finish
    core = result.values["core_diameter"]
    left, right = sheet.x(first - core / 2), sheet.x(first + core / 2)
    for x in (left, right):
        sheet.path("level", [(x, sheet.y(0)), (x, sheet.y(-slab))])
    sheet.path("lead", [(sheet.x(first), sheet.y(0) - 26), (sheet.x(first), sheet.y(to))])
    face = sheet.x(finish)
    words = f"first core {length(result['first_hole'], system)}"
    sheet.dimension(face, sheet.x(first), sheet.y(0) - 26, words, bad=not_met(result, "located"), least=face + 8)


def _unreachable(
    sheet: Sheet, v: dict[str, object], wall: float, projection: float, tile: float, slab: float, floor: float
) -> None:
    if v["drain_side"] == "outside":
        centre, y = -wall - projection - tile / 2, floor + tile / 2
    else:
        centre, y = projection - tile / 2 if projection > tile else projection / 2, -slab + tile / 2
    sheet.add("circle", "tile", cx=sheet.x(centre), cy=sheet.y(y), r=tile / 2 * sheet.scale)
    sheet.text("no core from inside meets it", 354, sheet.y(0) - 12, anchor="end", name="bad")


def _words(result: Result, system: str) -> str:
    v, out = result.values, result.outputs
    parts = [
        f"A wall {length(v['wall_thickness'], system)} thick on a footing that projects "
        f"{length(out['footing_projection'], system)} into the room."
    ]
    if out.get("nearest_center") is not None:
        parts.append(
            f"The tile's centre lies between {length(out['nearest_center'], system)} and "
            f"{length(out['farthest_center'], system)} from the concrete."
        )
        parts.append(f"The first core is {length(result['first_hole'], system)} from the finished wall.")
    else:
        parts.append("The tile lies where no core from inside meets it.")
    return " ".join(parts)


def _caption(result: Result) -> str:
    if result.outputs.get("nearest_center") is None:
        return "To scale, the depth of the footing excepted. Redrawn from your numbers."
    side = (
        " The side of the drain is not known: this is drawn for an inside drain."
        if result.values["drain_side"] == "unknown"
        else ""
    )
    return f"Dashed: the tile at its nearest and its farthest. To scale, the depth of the footing excepted.{side}"
