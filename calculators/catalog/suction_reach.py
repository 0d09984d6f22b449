"""How far the suction of pits or of the drain tile carries under a slab."""

from math import exp
from typing import Any

from ..declare import Amounts, Map, Quantity, Record, Refusal, Table, Text, Texts, calculator
from ..physics import reach_parts
from ..physics.slab_tile import Tile
from ..span import Span
from ..trade import reach_checks
from ..trade import reach_fields as fields
from ..trade.airstate import Air, soil_air
from ..trade.reach_field import Reach, reach_of
from ..trade.reach_layer import Sheet, entered, fitted
from ..trade.reach_plan import Plan, on_slab, plan_of, test_pit
from ..vocabulary import SATURATED, SEA_LEVEL, SOIL_AIR, AirTemperature, Elevation, RelativeHumidity
from ..work import Work

PLACE = {"x": Quantity("x", "ft", "m"), "y": Quantity("y", "ft", "m")}
SUCTION = Quantity("Suction", "in WC", "Pa")


@calculator(
    name="suction-reach",
    part="under-the-slab",
    title="How far the suction carries",
    main="weakest_suction",
    at_most_one={
        "layer": ("layer_conductance", "layer", "test_holes"),
        "leakage": ("leakage_length", "slab_leakance", "slab_condition"),
    },
    results={
        "weakest_suction": Quantity("Suction at the weakest place", "in WC", "Pa"),
        "weakest": Record("Weakest place", {**PLACE, "suction": SUCTION}),
        "covered_fraction": Quantity("Share of the slab with the suction wanted", "%", "%"),
        "mean_suction": Quantity("Mean suction under the slab", "in WC", "Pa"),
        "flow": Quantity("Air drawn by all pits", "cfm", "L/s"),
        "pit_suctions": Amounts("Suction in the pits", SUCTION),
        "pit_flows": Amounts("Air drawn by each pit", Quantity("Air drawn", "cfm", "L/s")),
        "corner_suctions": Amounts("Suction at the corners", SUCTION),
        "probe_suctions": Amounts("Suction at the places asked for", SUCTION),
        "layer_conductance": Quantity("Conductance of the layer", *fields.SHEET),
        "leakage_length": Quantity("Leakage length", "ft", "m"),
        "house_air_share": Quantity("Share of the air that comes from the house", "%", "%"),
        "holes_dropped": Texts("Test holes left out"),
        "places": Table("Place by place", {"name": Text("Place"), **PLACE, "suction": SUCTION}),
        "fit": Table(
            "Test holes against the fitted slab",
            {
                "hole": Text("Hole"),
                "read": Quantity("Made by the test", "in WC", "Pa"),
                "model": Quantity("Fitted slab", "in WC", "Pa"),
                "ratio": Quantity("Read, times the fitted", "1", "1"),
            },
        ),
        "map": Map("Suction over the plan", SUCTION, Quantity("Place", "ft", "m")),
    },
)
def suction_reach(
    work: Work,
    *,
    slab: fields.Slab,
    pits: fields.Pits,
    tile: fields.TileKind = "none",
    tile_offset: fields.TileOffset = fields.TILE_OFFSET,
    tile_diameter: fields.TileDiameter = fields.TILE_DIAMETER,
    tile_friction_factor: fields.TileFriction = fields.FRICTION,
    footings: fields.Footings = [],  # noqa: B006  read only
    layer_conductance: fields.Conductance = None,
    layer: fields.Layer = None,
    test_holes: fields.TestHoles = None,
    layer_thickness: fields.Thickness = fields.THICK,
    leakage_length: fields.LeakageLength = None,
    slab_leakance: fields.SlabLeakance = None,
    slab_condition: fields.SlabCondition = None,
    soil_leakance: fields.SoilLeakance = None,
    joint_conductance: fields.WallJoint = 0.0,
    gravel: fields.Gravel = None,
    test_flow: fields.TestFlow = None,
    test_pit: fields.TestPit = None,
    target_suction: fields.Target = fields.LEAST,
    probes: fields.Probes = [],  # noqa: B006  read only
    layer_state: fields.State = "unknown",
    air_temperature: AirTemperature = SOIL_AIR,
    relative_humidity: RelativeHumidity = SATURATED,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Suction under a slab that leaks, from pits in an even layer below it, with or without a drain tile round it.

    The layer is a thin sheet into which slab, soil and wall joint leak; footings close parts of it off.  With test holes
    the sheet is fitted to them.  Raises Refusal for a flooded layer, too few holes, places off the slab, stone too open
    for the flow, and a slab that leaks nowhere.  SI in and out.
    """
    if layer_state == "water-in-test-holes":
        raise Refusal(
            "layer_state",
            "water stands in the test holes: a flooded layer has no way for air, and no suction reaches through it. "
            "Lower the water first",
            found=layer_state,
            accepts="a drained layer: dry or damp",
            kind="outside-model",
        )
    air = _air(work, elevation, air_temperature, relative_humidity)
    line = None
    if tile == "perimeter":
        line = Tile(tile_offset, tile_diameter, tile_friction_factor, air().density)
    plan = plan_of(work, slab=slab, pits=pits, footings=footings, tile=line)
    for k, probe in enumerate(probes):
        on_slab(plan.outline, probe["x"], probe["y"], f"probes[{k}]")
    given = {
        "slab": slab, "layer_conductance": layer_conductance, "layer": layer, "test_holes": test_holes, "gravel": gravel,
        "layer_thickness": layer_thickness, "leakage_length": leakage_length, "slab_leakance": slab_leakance,
        "slab_condition": slab_condition, "soil_leakance": soil_leakance, "joint_conductance": joint_conductance,
    }  # fmt: skip
    sheet = _tested(work, given, plan, test_pit, test_flow, air) if test_holes else entered(work, given, air)
    reach = reach_of(plan, sheet, joint_conductance)
    reach_checks.print_sums(work, reach, joint_conductance)

    weakest = reach.span(*reach.weakest)
    weakest = weakest if isinstance(weakest, Span) else Span(weakest, weakest, weakest, "suction of the pit as entered")
    covered = reach.covered(target_suction)
    reach_checks.compare(work, reach, target_suction, weakest, covered)
    rows = _fit_rows(work, reach)
    reach_checks.of_fit(work, reach, [(row["hole"], row["ratio"]) for row in rows])
    reach_checks.cautions(work, reach, layer_state, bool(test_holes), joint_conductance)
    reach_checks.left_out(work, given)
    asked = [reach.span(p["x"], p["y"]) for p in probes]
    corners = [reach.span(*place, suction) for place, suction in reach.corners]
    in_pits = [
        s if p.suction is not None else reach.ranged(s, capped=False)
        for p, s in zip(plan.pits, reach.suctions, strict=True)
    ]
    drawn = [
        q if p.flow is not None else reach.ranged(q, capped=False) for p, q in zip(plan.pits, reach.flows, strict=True)
    ]
    return {
        "weakest_suction": weakest,
        "weakest": {"x": reach.weakest.x, "y": reach.weakest.y, "suction": weakest},
        "covered_fraction": Span(
            covered,
            reach.covered(target_suction * sheet.factor),
            reach.covered(target_suction / sheet.factor),
            sheet.why,
        ),
        "mean_suction": reach.ranged(reach.mean),
        "flow": reach.flow if all(p.flow is not None for p in plan.pits) else reach.ranged(reach.flow, capped=False),
        "pit_suctions": in_pits,
        "pit_flows": drawn,
        "corner_suctions": corners,
        "probe_suctions": asked,
        "layer_conductance": sheet.T_span,
        "leakage_length": sheet.B_span,
        "house_air_share": reach.house_air,
        "holes_dropped": [f"{name}: not above its baseline" for name in sheet.fit.dropped] if sheet.fit else [],
        "places": _places(reach, probes, (in_pits, corners, asked, weakest)),
        "fit": rows,
        "map": reach.map,
    }


def _air(work: Work, elevation: float, temperature: float, humidity: float) -> Any:
    """The air, worked out and printed only when something asks for it."""
    known: list[Air] = []

    def air() -> Air:
        if not known:
            known.append(soil_air(work, elevation=elevation, air_temperature=temperature, relative_humidity=humidity))
        return known[0]

    return air


def _tested(
    work: Work, given: dict[str, Any], plan: Plan, pit: dict[str, Any] | None, flow: float | None, air: Any
) -> Sheet:
    """The sheet fitted to the test holes.  Raises Refusal without the flow of the test or for a hole off the slab."""
    if flow is None:
        raise Refusal(
            "test_flow",
            "the air that the test drew must be given: suctions alone do not tell how well the layer carries air",
            accepts="a flow with a unit (cfm, L/s)",
            kind="missing",
        )
    for k, hole in enumerate(given["test_holes"]):
        on_slab(plan.outline, hole["x"], hole["y"], f"test_holes[{k}]")
    source = test_pit(work, pit, plan.pits, plan.outline, flow)
    return fitted(work, given, plan.outline, source, plan.footings, air)


def _fit_rows(work: Work, reach: Reach) -> list[dict[str, Any]]:
    """Each used hole: what the test made there, what the fitted slab gives, how many times it is off."""
    if reach.sheet.fit is None:
        return []
    rows: list[dict[str, Any]] = []
    for hole, residual in zip(reach.sheet.holes, reach.sheet.fit.residuals, strict=True):
        read = hole.suction - hole.baseline
        name = hole.name.partition(" (")[0]
        rows.append({"hole": name, "read": read, "model": read / exp(residual), "ratio": exp(residual)})
    worst = max(rows, key=lambda row: max(row["ratio"], 1 / row["ratio"]))
    work.step(
        f"Farthest off: {worst['hole']}, read over fitted",
        reach_parts.read_over_model,
        s_r=worst["read"],
        s_m=worst["model"],
    )
    return rows


def _places(reach: Reach, probes: list[dict[str, Any]], found: tuple[Any, ...]) -> list[dict[str, Any]]:
    """Pits, corners, places asked for and the weakest one, with their suctions."""
    in_pits, corners, asked, weakest = found
    rows = [("pit", p.x, p.y, s) for p, s in zip(reach.plan.pits, in_pits, strict=True)]
    rows += [("corner", *place, s) for (place, _), s in zip(reach.corners, corners, strict=True)]
    rows += [("place asked for", p["x"], p["y"], s) for p, s in zip(probes, asked, strict=True)]
    counts: dict[str, int] = {}
    listed = []
    for kind, x, y, s in rows:
        counts[kind] = counts.get(kind, 0) + 1
        listed.append({"name": f"{kind} {counts[kind]}", "x": x, "y": y, "suction": s})
    return [*listed, {"name": "weakest place", "x": reach.weakest.x, "y": reach.weakest.y, "suction": weakest}]
