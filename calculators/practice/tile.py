"""Problems on finding the footing drain under the slab, and on the hole that is drilled for it."""

from functools import partial
from math import pi

from ..result import Result
from ..units import si
from .draw import Draw, Shown
from .problem import Number, Problem, Slip, distinct, named, near, solved, template

tile = partial(template, part="under-the-slab", calculator="tile-offset")
TAPE = "a tape on rough concrete is read to about 1/8 in. (3 mm)"
LOCATED = ["none-found"]


def _tape(value: float, unit: str) -> Number:
    return Number(value, unit, si("1/8 in"), TAPE)


def _inches(draw: Draw) -> str:
    return str(draw.text("in", "mm"))


def _wall(draw: Draw) -> tuple[Shown, Shown]:
    """Wall thickness and footing width; the footing projects 3 to 5.5 in. (75 to 140 mm)."""
    wall = draw.number((7, 12, 1, "in"), (180, 300, 10, "mm"))
    out = draw.number((3, 5.5, 0.25, "in"), (75, 140, 5, "mm"))
    return wall, Shown(wall.value + 2 * out.value, wall.unit)


@tile(kind="number", level=1, minutes=2, source="geometry", title="How far the footing projects")
def tile_projection(draw: Draw) -> Problem:
    """Footing projection from footing width and wall thickness."""
    wall, footing = _wall(draw)
    result = solved("tile-offset", wall_thickness=wall, footing_width=footing, known_below=LOCATED)
    key = _tape(result["footing_projection"], _inches(draw))
    slips = distinct(
        key,
        [
            Slip(
                "both-sides",
                footing.si - wall.si,
                "This is what projects on both sides together. The wall stands on the middle: take half of it.",
            ),
            Slip(
                "half-footing",
                footing.si / 2,
                "Half the footing reaches from the middle of the wall. Take half the wall's thickness off.",
            ),
            Slip(
                "wall-whole",
                footing.si / 2 - wall.si,
                "Half the footing less the whole wall: from half the footing only half the wall is taken off.",
            ),
        ],
    )
    return Problem(
        text=[f"A wall of {wall} concrete stands on the middle of a footing {footing} wide."],
        ask=f"How far does the footing reach into the room, measured from the concrete? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Footing projection",),
    )


@tile(kind="number", level=1, minutes=3, source="geometry", title="Where the tile's centre is at the nearest")
def tile_nearest(draw: Draw) -> Problem:
    """Centre of a tile that touches the footing, from the concrete."""
    out = draw.number((2.5, 8, 0.5, "in"), (70, 200, 10, "mm"))
    across = draw.number((3.5, 5, 0.5, "in"), (90, 125, 5, "mm"))
    result = solved("tile-offset", wall_thickness="8 in", footing_projection=out, tile_outside_diameter=across,
                    known_below=LOCATED)  # fmt: skip
    key = _tape(result["nearest_center"], _inches(draw))
    slips = distinct(
        key,
        [
            Slip(
                "diameter-for-radius",
                out.si + across.si,
                "The whole diameter was added: that is the far side of the tile. Its centre is half a diameter out.",
            ),
            Slip(
                "edge", out.si, "This is the edge of the footing, where the tile begins. Its centre lies farther out."
            ),
            Slip(
                "footing-left-out",
                across.si / 2,
                "The footing was left out. The tile lies beside it, not against the wall.",
            ),
        ],
    )
    return Problem(
        text=[f"The footing reaches {out} into the room. Beside it, touching it, lies a tile {across} across outside."],
        ask=f"How far from the concrete of the wall is the centre of the tile? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Tile centre when it touches the footing",),
    )


@tile(kind="number", level=2, minutes=5, source="geometry", title="The first core, behind a finished wall")
def tile_first_core(draw: Draw) -> Problem:
    """First core from the finished face, with the gap not known."""
    wall, footing = _wall(draw)
    gap = draw.number((3, 5, 1, "in"), (75, 125, 5, "mm"))
    finish = draw.number((1.5, 3, 0.5, "in"), (40, 75, 5, "mm"))
    core = draw.text("5 in", "125 mm")
    across = draw.text("4.5 in", "115 mm")
    inputs = {"wall_thickness": wall, "footing_width": footing, "tile_outside_diameter": across, "tile_gap_max": gap,
              "core_diameter": core, "known_below": LOCATED}  # fmt: skip
    result = solved("tile-offset", **inputs, finish_depth=finish)
    key = _tape(result["first_hole"], _inches(draw))
    slips = distinct(
        key,
        [
            Slip(
                "finish-left-out",
                key.value + finish.si,
                "This is from the concrete. The tape starts at the board, so its depth comes off.",
            ),
            Slip(
                "finish-added",
                key.value + 2 * finish.si,
                "The finish was added. It stands in front of the concrete: it takes its depth off the distance.",
            ),
            Slip(
                "greatest-gap",
                key.value + gap.si / 2,
                "The greatest gap was taken whole. Nobody knows the gap: aim for the middle of what is possible.",
            ),
            Slip("no-gap", key.value - gap.si / 2, "The gap was left out: this is the tile at its nearest."),
            Slip(
                "projection-twice",
                key.value + result["footing_projection"],
                "The projection is half of what the footing is wider than the wall.",
            ),
        ],
    )
    return Problem(
        text=[
            f"Wall {wall}, footing {footing}, tile {across} across outside, gap to the footing anything up to {gap}.",
            f"Stud wall and board stand {finish} in front of the concrete. Lines have been located and marked elsewhere.",
        ],
        ask=f"How far from the finished face does the middle of the range lie? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Footing projection", "First core, from the finished face"),
    )


@tile(kind="number", level=1, minutes=2, source="geometry", title="A finish in front of the concrete")
def tile_finish(draw: Draw) -> Problem:
    """From the concrete to the finished face."""
    out = draw.number((3, 8, 0.5, "in"), (80, 200, 10, "mm"))
    finish = draw.number((1, 3.5, 0.5, "in"), (25, 90, 5, "mm"))
    result = solved("tile-offset", wall_thickness="8 in", footing_projection=out, known_below=LOCATED, finish_depth=finish,
                    tile_outside_diameter=draw.text("4.5 in", "110 mm"))  # fmt: skip
    at = result["nearest_center"]
    shown = draw.text(f"{at / si('1 in'):g} in", f"{at / si('1 mm'):.0f} mm")
    key = _tape(result["probe_distances"][0], _inches(draw))
    slips = distinct(
        key,
        [
            Slip(
                "finish-added", at + finish.si, "The finish was added. It lies between tape and concrete: take it off."
            ),
            Slip("finish-left-out", at, "This is still measured from the concrete. The tape starts at the board."),
            Slip("finish-twice", at - 2 * finish.si, "The finish was taken off twice."),
        ],
    )
    return Problem(
        text=[
            f"By the drawings the tile's centre is {shown} from the concrete of the wall. A finished wall hides the concrete; "
            f"board, studs and insulation are {finish} deep."
        ],
        ask=f"How far from the face of the board is the centre of the tile? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        words=[f"From the concrete less the finish: {shown} − {finish} = {key.printed()}."],
        steps=("Tile centre when it touches the footing",),
    )


@tile(kind="number", level=2, minutes=3, source="geometry", title="What the core weighs")
def core_weight(draw: Draw) -> Problem:
    """Weight of a concrete core."""
    core = draw.number((4, 6, 0.5, "in"), (100, 160, 10, "mm"))
    slab = draw.number((3.5, 8, 0.5, "in"), (90, 200, 10, "mm"))
    result = solved("tile-offset", wall_thickness="8 in", footing_width="16 in", core_diameter=core, slab_thickness=slab,
                    known_below=LOCATED)  # fmt: skip
    key = near(result["core_weight"], 0.04, "concrete is 3 % lighter or heavier than this", unit=draw.text("lb", "kg"))
    slips = distinct(
        key,
        [
            Slip("diameter-for-radius", key.value * 4, "The diameter was put where the radius belongs."),
            Slip("square", key.value * 4 / pi, "The core was taken as square. A round one holds π/4 of that."),
            Slip("radius-twice-halved", key.value / 4, "The radius was halved once more: the area came out a quarter."),
        ],
    )
    density = draw.text("145 lb per cubic foot", "2323 kg per cubic metre")
    return Problem(
        text=[f"A core {core} across is cut through a slab {slab} thick. Take concrete at {density}."],
        ask=f"What does the core weigh, that somebody has to lift out or keep from falling? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Weight of the core",),
    )


def _section(draw: Draw, **more: object) -> Result:
    wall, footing = _wall(draw)
    return solved(
        "tile-offset", wall_thickness=wall, footing_width=footing, known_below=LOCATED,
        tile_gap_max=draw.number((2, 5, 0.25, "in"), (50, 130, 5, "mm")), **more,
    )  # fmt: skip


@tile(kind="drawing", level=2, minutes=3, source="geometry", title="Read the section: the strip for pilot holes")
def tile_strip(draw: Draw) -> Problem:
    """Width of the strip in which the tile's centre lies, read off a section."""
    result = _section(draw, drain_side="inside", tile_position="beside")
    low, high = result["nearest_center"], result["farthest_center"]
    key = Number(high - low, _inches(draw), si("1/4 in"), "the drawing's figures are rounded")
    slips = distinct(
        key,
        [
            Slip("farthest", high, "This is the farthest place from the wall, not the width of the strip."),
            Slip("nearest", low, "This is where the strip begins. Its width is the farther figure less this one."),
            Slip("sum", high + low, "The two figures were added. The strip lies between them."),
        ],
    )
    return Problem(
        text=["The section shows the tile at its nearest and at its farthest, both dashed."],
        ask=f"How wide is the strip in which the tile's centre may lie? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        words=["The strip reaches from the nearer centre to the farther one: the difference of the two figures."],
        drawing=("tile-section", result),
    )
