"""Where to drill for the footing drain: distances from the wall, before anything is cored."""

from typing import Annotated, Any

from ..declare import Amounts, Choice, Flag, InputError, Quantity, Refusal, Several, calculator, refuse, si
from ..physics import tile
from ..span import Span
from ..tables import si_of, table
from ..trade.hole_cautions import every_hole
from ..units import from_si
from ..work import Work, given

BELOW = ("gas", "water", "cable", "heating", "tendon", "sewer", "none-found", "not-located")

Wall = Annotated[
    float,
    Quantity(
        "Foundation wall thickness", "in", "mm", "2 in", "48 in", help="The concrete or block, without any finish."
    ),
]
FootingWidth = Annotated[
    float | None,
    Quantity("Footing width", "in", "mm", "2 in", "120 in", help="The wall is taken to stand on its middle."),
]
Projection = Annotated[
    float | None,
    Quantity(
        "Footing projection inside the wall",
        "in",
        "mm",
        "0 in",
        "60 in",
        help="Instead of the width, when the footing was seen or probed.",
    ),
]
TileDiameter = Annotated[
    float, Quantity("Outside diameter of the drain tile", "in", "mm", "1 in", "24 in", source="irc-2021")
]
LeastGap = Annotated[
    float, Quantity("Least gap between footing and tile", "in", "mm", "0 in", "60 in", source="common-practice")
]
GreatestGap = Annotated[
    float, Quantity("Greatest gap between footing and tile", "in", "mm", "0 in", "60 in", source="from-memory")
]
Finish = Annotated[
    float,
    Quantity(
        "Finish in front of the concrete", "in", "mm", "0 in", "24 in", help="Stud wall, insulation, board: all of it."
    ),
]
Side = Annotated[str, Choice("Side of the footing on which the drain lies", ("inside", "outside", "unknown"))]
Position = Annotated[
    str,
    Choice("The tile lies", ("beside", "on-footing", "unknown"), help="Beside the footing, or on top of its ledge."),
]
Core = Annotated[float, Quantity("Core diameter", "in", "mm", "0.5 in", "24 in", source="common-practice")]
Slab = Annotated[float, Quantity("Slab thickness", "in", "mm", "0.5 in", "36 in", source="common-practice")]
Known = Annotated[
    list[str],
    Several(
        "What is known to lie in or under the slab here",
        BELOW,
        alone=("none-found", "not-located"),
        least=1,
        help="none-found means that somebody has located and found nothing.",
    ),
]

DANGERS = {
    "gas": "A gas line is known here. Do not drill until the gas supplier or a licensed person has marked it and agreed to the place.",
    "water": "A water line is known here. Mark it, know its shut-off, and keep the hole away from it.",
    "cable": "A cable is known here. Have it switched off and proved dead, or move the hole.",
    "heating": "Heating tubes are known here. A thermal camera shows where, not how deep; keep clear or move the hole.",
    "tendon": "Tendons are known here. A cut strand can burst out of the slab. No hole before a specialist has marked them.",
    "sewer": "A sewer is known here. Its trench also leads suction away; move the hole.",
}


@calculator(
    name="tile-offset",
    part="under-the-slab",
    title="Where to core for the footing drain",
    main="first_hole",
    one_of={"footing": ("footing_width", "footing_projection")},
    results={
        "first_hole": Quantity("First core, centre from the finished face", "in", "mm"),
        "probe_distances": Amounts("Pilot holes, from the finished face", Quantity("Pilot hole", "in", "mm")),
        "footing_projection": Quantity("Footing projection", "in", "mm"),
        "nearest_center": Quantity("Tile centre at the nearest, from the concrete", "in", "mm"),
        "farthest_center": Quantity("Tile centre at the farthest, from the concrete", "in", "mm"),
        "common_practice_low": Quantity("Habit of the trade, from", "in", "mm"),
        "common_practice_high": Quantity("Habit of the trade, to", "in", "mm"),
        "overlaps_common_practice": Flag("The habit meets this range"),
        "drilling_depth": Quantity("Stop drilling at this depth", "in", "mm"),
        "core_weight": Quantity("Weight of the core", "lb", "kg"),
    },
)
def tile_offset(
    work: Work,
    *,
    wall_thickness: Wall,
    footing_width: FootingWidth = None,
    footing_projection: Projection = None,
    tile_outside_diameter: TileDiameter = si("4.5 in"),
    tile_gap_min: LeastGap = si("0 in"),
    tile_gap_max: GreatestGap = si("4 in"),
    finish_depth: Finish = si("0 in"),
    drain_side: Side = "unknown",
    tile_position: Position = "unknown",
    core_diameter: Core = si("5 in"),
    slab_thickness: Slab = si("4 in"),
    known_below: Known = ["not-located"],  # noqa: B006  read only
) -> dict[str, Any]:
    """Distances from the wall at which the footing drain is likely to lie, and where the first core may go.

    The wall is centred on its footing.  Raises Refusal when the footing is narrower than the wall, the gaps are in the
    wrong order, or the finish reaches beyond the tile.  SI in and out.
    """
    _agree(wall_thickness, footing_width, tile_gap_min, tile_gap_max)
    lengths = {"P": "in", "b": "in", "t": "in"}
    P = (
        footing_projection
        if footing_projection is not None
        else work.step(
            "Footing projection",
            tile.footing_projection,
            us=lengths,
            si=_mm(lengths),
            b=given(footing_width),
            t=wall_thickness,
        )
    )
    _below(work, known_below)
    least = table("tile")["footing"]["projection_min"]
    work.at_least(
        "footing-projects",
        "A footing projects this far at least; less hints at a wrong measure.",
        found=P,
        required=si_of(least),
        unit="in|mm",
        source=least["source"],
        section=least["section"],
    )
    habit = table("tile")["habits"][0]
    low, high = si_of(habit, "low"), si_of(habit, "high")
    out: dict[str, Any] = {
        "footing_projection": P,
        "common_practice_low": low,
        "common_practice_high": high,
        "overlaps_common_practice": None,
        "first_hole": None,
        "probe_distances": None,
        "nearest_center": None,
        "farthest_center": None,
        "drilling_depth": slab_thickness,
        "core_weight": work.step(
            "Weight of the core",
            tile.core_mass,
            rho=si_of(table("tile")["core"]["concrete_density"]),
            D=core_diameter,
            t=slab_thickness,
        ),
    }
    _side(work, drain_side, tile_position)
    _always(work)
    if drain_side == "outside" or tile_position == "on-footing":
        return out

    names = {"x": "in", "P": "in", "d": "in", "g": "in"}
    nearest = work.step(
        "Tile centre when it touches the footing",
        tile.tile_center,
        us=names,
        si=_mm(names),
        P=P,
        d=tile_outside_diameter,
        g=tile_gap_min,
    )
    farthest = work.step(
        "Tile centre at the greatest gap",
        tile.tile_center,
        us=names,
        si=_mm(names),
        P=P,
        d=tile_outside_diameter,
        g=tile_gap_max,
    )
    names = dict.fromkeys(("x", "P", "d", "g_1", "g_2", "D", "m", "t_f"), "in")
    first = work.step(
        "First core, from the finished face",
        tile.first_hole,
        us=names,
        si=_mm(names),
        P=P,
        d=tile_outside_diameter,
        g_1=tile_gap_min,
        g_2=tile_gap_max,
        D=core_diameter,
        m=tile.CORE_MARGIN,
        t_f=finish_depth,
    )
    if nearest - finish_depth <= 0 or first <= 0:
        raise Refusal(
            "finish_depth",
            "the finish reaches beyond the place of the tile; measure from the concrete instead",
            found=f"{from_si(finish_depth, 'in'):g} in",
            accepts=f"less than {from_si(min(nearest, first + finish_depth), 'in'):g} in",
        )
    probes = [nearest - finish_depth, first, farthest - finish_depth]
    return out | {
        "nearest_center": nearest,
        "farthest_center": farthest,
        "first_hole": Span(
            first, nearest - finish_depth, farthest - finish_depth, "least and greatest gap between footing and tile"
        ),
        "probe_distances": _rising(probes),
        "overlaps_common_practice": tile.intervals_meet(low_1=nearest, high_1=farthest, low_2=low, high_2=high),
    }


def _mm(names: dict[str, str]) -> dict[str, str]:
    return dict.fromkeys(names, "mm")


def _rising(values: list[float]) -> list[float]:
    """The values in rising order; those less than a hundredth of a millimetre apart count once."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > 1e-5:
            kept.append(value)
    return kept


def _agree(wall: float, width: float | None, gap_min: float, gap_max: float) -> None:
    wrong: list[InputError] = []
    if width is not None and width < wall:
        wrong.append(
            Refusal(
                "footing_width",
                "the footing is narrower than the wall that stands on it",
                found=f"{from_si(width, 'in'):g} in",
                accepts=f"at least the wall thickness, {from_si(wall, 'in'):g} in",
            )
        )
    if gap_min > gap_max:
        wrong.append(
            Refusal(
                "tile_gap_max",
                "the greatest gap is less than the least gap",
                found=f"{from_si(gap_max, 'in'):g} in",
                accepts=f"at least tile_gap_min, {from_si(gap_min, 'in'):g} in",
            )
        )
    refuse(wrong)


def _below(work: Work, known_below: list[str]) -> None:
    if known_below == ["not-located"]:
        work.stop(
            "located",
            "Nothing has been located under this slab. Do not drill: have lines, tubes and tendons located here first.",
            found="not-located",
            required="located",
            source="rms-lb-2018",
            section="11.2.1(b)",
        )
        return
    work.judge(
        "located",
        "What lies in and under the slab here has been located.",
        ok=True,
        found=", ".join(known_below),
        required="located",
        source="rms-lb-2018",
        section="11.2.1(b)",
    )
    for item in known_below:
        if item in DANGERS:
            work.caution("danger", DANGERS[item])


def _side(work: Work, drain_side: str, tile_position: str) -> None:
    if drain_side == "outside":
        work.judge(
            "reachable",
            "A drain outside the footing cannot be met by a hole inside. Use the sump if the drain ends there, or a pit in "
            "the fill under the slab.",
            ok=False,
            found="outside",
            required="inside",
            source="geometry",
        )
    elif tile_position == "on-footing":
        work.judge(
            "reachable",
            "A tile on top of the footing lies within the footing's own reach: no core beside the footing meets it. Use the "
            "sump, or open the slab edge by hand.",
            ok=False,
            found="on-footing",
            required="beside",
            source="geometry",
        )
    elif drain_side == "unknown":
        work.judge(
            "reachable",
            "The side of the drain is not known. Inside, it lies in the range given; outside, no hole reaches it. Drill only a "
            "small pilot hole, and only after locating.",
            ok=None,
            source="ndsu-ae1573",
            needs=("drain_side",),
        )
    else:
        work.judge(
            "reachable",
            "The drain lies inside the footing, where a hole through the slab can meet it.",
            ok=True,
            found="inside",
            required="inside",
            source="ndsu-ae1573",
        )


def _always(work: Work) -> None:
    every_hole(work)
    work.caution("note", "Probe with small pilot holes first. Cut the core only where the pilot holes agree.")
    work.not_looked_at(
        "A slab edge poured in one piece with its footing: it has no tile inside.",
        "A footing that steps, turns or was widened.",
        "A drain that was never built, or is crushed or full of silt.",
    )
