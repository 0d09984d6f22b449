"""Where fan, pipe, soil and leaks settle, and what the gauge shows there."""

from typing import Annotated, Any

from ..declare import REQUIRED, Choice, List, Quantity, Record, Refusal, Table, Text, calculator
from ..physics import air
from ..physics.openings import Hole
from ..trade import fan_checks, fan_results
from ..trade.airstate import Air, soil_air
from ..trade.equipment import fan_curve
from ..trade.pipework import add_up, bore_of, nearest_size
from ..trade.soil import beyond_test, soil_of
from ..trade.suction import Leak, PipeHole, System, settle
from ..units import from_si
from ..vocabulary import (
    PIT_TEST,
    SATURATED,
    SEA_LEVEL,
    SOIL_AIR,
    SOIL_GROUP,
    AirTemperature,
    Elevation,
    Fan,
    Fittings,
    InsideDiameter,
    PipeLength,
    PipeSize,
    RelativeHumidity,
    Roughness,
    SoilConductance,
    SoilMeasured,
    SoilPreset,
)
from ..work import Work
from .pipe_loss import SMOOTH, FittingMethod

PLOTTED = 4  # fans that get a plot of their own

Fans = Annotated[
    list[dict[str, Any]],
    List(
        "Fans to compare", Fan.__metadata__[0], 1, 50, help="The first one gives the results; all stand in the table."
    ),
]
OpenArea = Annotated[
    float,
    Quantity(
        "Open area at the pit",
        "in2",
        "cm2",
        "0 in2",
        "2000 in2",
        help="Gaps in lid or slab at the suction point, as one sharp-edged hole.",
    ),
]
InPipe = Annotated[
    dict[str, Any] | None,
    Record(
        "Leak in the suction pipe",
        {
            "area": Quantity("Area of the leak", "in2", "cm2", "0 in2", "200 in2"),
            "distance_from_pit": Quantity("Distance from the pit along the pipe", "ft", "m", "0 ft", "2000 ft"),
        },
        need=("area", "distance_from_pit"),
        help="All fittings are taken to lie behind it.",
    ),
]
MeasuredAgain = Annotated[
    dict[str, Any] | None,
    Record(
        "The same test with a stronger pull",
        PIT_TEST,
        need=tuple(PIT_TEST),
        help="In open stone fast air costs extra suction. Two tests tell how much; one is enough in fine soil.",
        source="reddy-1991",
    ),
]
Position = Annotated[
    str,
    Choice(
        "The gauge is tapped into",
        ("pipe", "pit"),
        help="A U-tube on the riser is tapped into the pipe. Its reading holds the loss of the pipe's entrance: half "
        "the velocity pressure, unless the fittings say otherwise.",
    ),
]
Distance = Annotated[float, Quantity("Distance of the tap from the pit, along the pipe", "ft", "m", "0 ft", "2000 ft")]
Riser = Annotated[
    float | None, Quantity("Height of the riser outdoors or in a cold attic", "ft", "m", "0 ft", "300 ft")
]
Outdoor = Annotated[float | None, Quantity("Outdoor temperature", "degF", "degC", "-60 degF", "130 degF")]
Indoor = Annotated[
    float | None,
    Quantity(
        "Indoor temperature",
        "degF",
        "degC",
        "32 degF",
        "120 degF",
        help="Only said: leaks are reckoned with the pipe's air.",
    ),
]
Target = Annotated[float | None, Quantity("Suction wanted in the pit", "in WC", "Pa", "0 Pa", "5000 Pa")]
RESULTS = {
    "pit_suction": Quantity("Suction in the pit", "in WC", "Pa"),
    "flow": Quantity("Through the fan", "cfm", "L/s"),
    "gauge_suction": Quantity("Suction at the gauge", "in WC", "Pa"),
    "fan_pressure": Quantity("Pressure of the fan", "in WC", "Pa"),
    "pipe_loss": Quantity("Lost in the pipe", "in WC", "Pa"),
    "soil_flow": Quantity("Soil air", "cfm", "L/s"),
    "leak_flow": Quantity("House air through the openings at the pit", "cfm", "L/s"),
    "pipe_leak_flow": Quantity("House air through the leak in the pipe", "cfm", "L/s"),
    "house_air": Quantity("House air that the fan takes", "cfm", "L/s"),
    "velocity": Quantity("Air speed in the pipe", "ft/min", "m/s"),
    "margin": Quantity("Fan pressure in reserve, up to no flow", "in WC", "Pa"),
    "above_target": Quantity("Pit suction above the wanted one", "in WC", "Pa"),
}


@calculator(
    name="fan-point",
    part="pipe-and-fan",
    title="Where fan, pipe and soil settle",
    main="pit_suction",
    one_of={
        "fan": ("fan", "fans"),
        "bore": ("pipe_size", "inside_diameter"),
        "soil": SOIL_GROUP,
    },
    results={
        **RESULTS,
        "lift": Quantity("Help from the warm riser", "in WC", "Pa"),
        "fans": Table("All fans", {"name": Text("Fan"), **RESULTS}),
    },
)
def fan_point(
    work: Work,
    *,
    fan: Fan = REQUIRED,
    fans: Fans = REQUIRED,
    pipe_size: PipeSize = REQUIRED,
    inside_diameter: InsideDiameter = REQUIRED,
    pipe_length: PipeLength,
    fittings: Fittings = [],  # noqa: B006  read only
    soil_conductance: SoilConductance = REQUIRED,
    measured: SoilMeasured = REQUIRED,
    soil: SoilPreset = REQUIRED,
    measured_again: MeasuredAgain = None,
    open_area: OpenArea = 0.0,
    pipe_leak: InPipe = None,
    gauge_position: Position = "pipe",
    gauge_distance: Distance = 0.0,
    target_pit_suction: Target = None,
    riser_height: Riser = None,
    outdoor_temperature: Outdoor = None,
    indoor_temperature: Indoor = None,
    fitting_method: FittingMethod = "equivalent-length",
    roughness: Roughness = SMOOTH,
    air_temperature: AirTemperature = SOIL_AIR,
    relative_humidity: RelativeHumidity = SATURATED,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Flow, pit suction and gauge reading at which the fan meets what pipe, soil and leaks ask for.

    The friction factor follows the flow; fan pressure goes with the density of the air.  Raises Refusal for a point
    outside the fan's entered curve and for a tap or leak beyond the end of the pipe.  SI in and out.
    """
    _agree(pipe_length, pipe_leak, gauge_position, gauge_distance)
    D = bore_of(pipe_size, inside_diameter)
    size = pipe_size or nearest_size(D)
    fitted = add_up(fittings, size, "air", fitting_method)
    state = soil_air(work, elevation=elevation, air_temperature=air_temperature, relative_humidity=relative_humidity)
    ground = soil_of(work, soil_conductance, measured, soil, measured_again)
    known_lift = _lift(work, state, riser_height, outdoor_temperature)
    lift = known_lift or 0.0
    setting = fan_results.Setting(
        [Leak("opening at the pit", Hole(open_area))] if open_area > 0 else [],
        PipeHole(Hole(pipe_leak["area"]), pipe_leak["distance_from_pit"]) if pipe_leak and pipe_leak["area"] else None,
        gauge_position == "pipe",
        gauge_distance,
        fan_results.entrance(fittings, size, fitted),
        ground,
        target_pit_suction,
    )
    sheets = [("fan", fan)] if fan else [(f"fans[{i}]", sheet) for i, sheet in enumerate(fans)]
    rows, first = [], None
    for i, (path, sheet) in enumerate(sheets):
        curve = fan_curve(sheet, state.density, path)
        where = f"{path}.points" if sheet["points"] else path
        system = System(curve, where, D, roughness or 0.0, pipe_length, fitted, state, ground.conductance, lift, ground.inertia)
        point = settle(system, setting.leaks, pipe_hole=setting.hole)
        row = fan_results.row(system, setting, point)
        rows.append({"name": sheet["name"] or f"fan {i + 1}", **row})
        if first is None:
            first = (system, point, row)
            fan_results.print_point(work, system, setting, sheet, point)
        if i < PLOTTED:
            work.plot_later(fan_results.plot_point, work, system, setting, point, rows[i]["name"], i, len(sheets))
    assert first is not None  # the reader asks for one fan at least
    system, point, row = first
    fan_checks.compare(work, [(path, rows[i]) for i, (path, _) in enumerate(sheets)], target_pit_suction)
    fan_checks.cautions(work, row, setting.in_pipe, system, fittings=bool(fittings), plotted=len(sheets) > PLOTTED)
    beyond_test(work, ground, point.soil_flow)
    fan_checks.left_out(work, lift=known_lift, indoor=indoor_temperature, state=state)
    return {**fan_results.ranged(system, setting, row), "lift": known_lift, "fans": rows}


def _agree(length: float, leak: dict[str, Any] | None, position: str, distance: float) -> None:
    for field, place in (
        ("pipe_leak.distance_from_pit", leak["distance_from_pit"] if leak else 0.0),
        ("gauge_distance", distance),
    ):
        if place > length:
            raise Refusal(
                field,
                "this place lies beyond the end of the pipe",
                found=f"{from_si(place, 'ft'):g} ft",
                accepts=f"at most pipe_length, {from_si(length, 'ft'):g} ft",
            )
    if position == "pit" and distance > 0:
        raise Refusal(
            "gauge_distance",
            "a gauge in the pit has no distance along the pipe",
            found=f"{from_si(distance, 'ft'):g} ft",
            accepts="gauge_position pipe, or no distance",
        )


def _lift(work: Work, state: Air, height: float | None, outdoor: float | None) -> float | None:
    """What the riser's warm air helps [Pa]; None when height or outdoor temperature is not known."""
    if height is None or outdoor is None:
        return None
    rho_o = work.step("Density outdoors, dry", air.dry_density, p=state.pressure, T=outdoor)
    return work.step("Help from the warm riser", air.buoyancy, rho_o=rho_o, rho_i=state.density, H=height)
