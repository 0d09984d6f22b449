"""What an imperfect lid costs, and what must not be sealed."""

from typing import Annotated, Any

from ..declare import REQUIRED, Choice, Count, Flag, List, Quantity, Record, Table, Text, calculator, si
from ..physics import sealing
from ..physics.fan import OperatingPoint
from ..trade import sump_checks, sump_parts
from ..trade.airstate import soil_air
from ..trade.equipment import fan_curve
from ..trade.pipework import add_up, bore_of, nearest_size
from ..trade.soil import soil_of
from ..trade.suction import System, corners, open_flow, operate, plotted, refusing, scaled, sealed, settle, span, titled
from ..trade.suction import why_leaks as leaks_why
from ..trade.suction_steps import print_balance, print_openings
from ..vocabulary import (
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

DRAINS = ("daylight", "floor", "window-well", "condensate", "downspout")

Lid = Annotated[float, Quantity("Lid diameter", "in", "mm", "6 in", "12 ft")]
LidGap = Annotated[
    float, Quantity("Gap between lid and rim, all round", "in", "mm", "0 in", "6 in", help="0 when it is sealed.")
]
Thickness = Annotated[
    float,
    Quantity(
        "Lid thickness", "in", "mm", "0.5 mm", "12 in", help="The way of the air through a gap.", source="from-memory"
    ),
]
Penetrations = Annotated[
    list[dict[str, Any]],
    List(
        "Holes in the lid",
        Record(
            "Hole",
            {
                "diameter": Quantity(
                    "Pipe or cord in it, outside diameter",
                    "in",
                    "mm",
                    "0.05 in",
                    "24 in",
                    help="Left out: an empty hole.",
                ),
                "hole_diameter": Quantity("Hole diameter", "in", "mm", "0.05 in", "36 in"),
                "count": Count("How many", 0, 50),
                "sealed": Flag("Sealed"),
            },
            need=("hole_diameter",),
            defaults={"count": 1, "sealed": False},
        ),
    ),
]
OtherArea = Annotated[float, Quantity("Other open area into the pit", "in2", "cm2", "0 in2", "2000 in2")]
Slots = Annotated[
    list[dict[str, Any]],
    List(
        "Open slots, such as a drain slot at the wall",
        Record(
            "Slot",
            {
                "length": Quantity("Slot length", "ft", "m", "0.1 in", "1000 ft"),
                "gap": Quantity("Slot width", "in", "mm", "0.001 in", "6 in"),
                "depth": Quantity("Slot depth, along the air", "in", "mm", "0.1 mm", "60 in"),
            },
            need=("length", "gap", "depth"),
        ),
        help="Each is taken to see the whole suction of the pit.",
    ),
]
Bead = Annotated[
    float, Quantity("Bead of sealant, thickness", "in", "mm", "1 mm", "2 in", help="Round.", source="common-practice")
]
Cartridge = Annotated[
    float, Quantity("Sealant in one cartridge", "fl oz", "mL", "1 mL", "5 L", source="common-practice")
]
Receives = Annotated[str, Choice("What the pit receives", ("ground-water", "laundry", "sewage", "unknown"))]
OnlyDrain = Annotated[str, Choice("The pit is the only floor drain", ("yes", "no", "unknown"))]
Drains = Annotated[
    list[dict[str, Any]],
    List(
        "Drains that end in the pit or its tile",
        Record(
            "Drain",
            {
                "kind": Choice("Kind of drain", DRAINS),
                "trap_seal": Quantity(
                    "Depth of its trap seal", "in", "mm", "0 in", "48 in", help="0 when there is none."
                ),
                "open_area": Quantity("Open area if it is not trapped", "in2", "cm2", "0 in2", "2000 in2"),
            },
            need=("kind",),
        ),
    ),
]
PumpType = Annotated[str, Choice("Pump", ("submersible", "pedestal", "none"))]
Alarm = Annotated[str, Choice("High-water alarm is on a circuit", ("separate", "same", "none", "unknown"))]
Fastened = Annotated[bool | None, Flag("The lid is fastened and comes off again")]
Grommets = Annotated[bool | None, Flag("Cord and pipes pass through grommets or boots")]
View = Annotated[bool | None, Flag("The water can be seen through the lid")]
Access = Annotated[bool | None, Flag("A hand can reach the pump without breaking the seal of the whole lid")]
Valve = Annotated[bool | None, Flag("There is a check valve")]
WaterWay = Annotated[bool | None, Flag("Water on the floor has another way out", help="Such as a trapped inlet.")]


@calculator(
    name="sump-sealing",
    part="the-sump",
    title="What an imperfect lid costs",
    main="suction_kept",
    one_of={"bore": ("pipe_size", "inside_diameter"), "soil": SOIL_GROUP},
    results={
        "suction_kept": Quantity("Share of the suction that is kept", "1", "1"),
        "suction_open": Quantity("Suction in the pit as it is", "in WC", "Pa"),
        "suction_sealed": Quantity("Suction in the pit when sealed", "in WC", "Pa"),
        "leak_flow": Quantity("House air through the openings", "cfm", "L/s"),
        "soil_flow_open": Quantity("Soil air as it is", "cfm", "L/s"),
        "soil_flow_sealed": Quantity("Soil air when sealed", "cfm", "L/s"),
        "fan_flow_open": Quantity("Through the fan as it is", "cfm", "L/s"),
        "open_area": Quantity("Open area", "in2", "cm2"),
        "halving_area": Quantity("Open area that halves the suction", "in2", "cm2"),
        "lid_off_flow": Quantity("Air drawn with the lid off", "cfm", "L/s"),
        "trap_seal_needed": Quantity("Trap seal needed", "in", "mm"),
        "bead_length": Quantity("Sealant to lay", "ft", "m"),
        "cartridges": Count("Cartridges", 0, 100_000),
        "leaks": Table(
            "Where the house air comes in",
            {
                "name": Text("Opening"),
                "area": Quantity("Area", "in2", "cm2"),
                "flow": Quantity("Flow", "cfm", "L/s"),
            },
        ),
    },
)
def sump_sealing(
    work: Work,
    *,
    lid_diameter: Lid,
    lid_gap: LidGap = 0.0,
    lid_thickness: Thickness = si("10 mm"),
    penetrations: Penetrations = [],  # noqa: B006  read only
    other_open_area: OtherArea = 0.0,
    slots: Slots = [],  # noqa: B006  read only
    drains: Drains = [],  # noqa: B006  read only
    fan: Fan,
    pipe_size: PipeSize = REQUIRED,
    inside_diameter: InsideDiameter = REQUIRED,
    pipe_length: PipeLength,
    fittings: Fittings = [],  # noqa: B006  read only
    soil_conductance: SoilConductance = REQUIRED,
    measured: SoilMeasured = REQUIRED,
    soil: SoilPreset = REQUIRED,
    pit_receives: Receives = "unknown",
    only_floor_drain: OnlyDrain = "unknown",
    water_way: WaterWay = None,
    pump_type: PumpType = "submersible",
    alarm_circuit: Alarm = "unknown",
    check_valve: Valve = None,
    lid_fastened: Fastened = None,
    grommets: Grommets = None,
    view_port: View = None,
    hand_access: Access = None,
    sealant_bead: Bead = si("3/8 in"),
    cartridge_volume: Cartridge = si("10.1 fl oz"),
    fitting_method: FittingMethod = "equivalent-length",
    roughness: Roughness = SMOOTH,
    air_temperature: AirTemperature = SOIL_AIR,
    relative_humidity: RelativeHumidity = SATURATED,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Suction in the pit with the lid as it is and with all of it sealed, and the house air that the openings draw.

    Fan, pipe, soil and openings are solved together; one gap law for narrow and wide gaps.  Raises Refusal for a pipe
    wider than its hole, a gap or holes wider than the lid, a fan curve that ends before the answer.  SI in and out.
    """
    sump_parts.agree(lid_diameter, lid_gap, penetrations)
    D = bore_of(pipe_size, inside_diameter)
    fitted = add_up(fittings, pipe_size or nearest_size(D), "air", fitting_method)
    state = soil_air(work, elevation=elevation, air_temperature=air_temperature, relative_humidity=relative_humidity)
    ground = soil_of(work, soil_conductance, measured, soil)
    curve = fan_curve(fan, state.density)
    path = "fan.points" if fan["points"] else "fan"
    system = System(curve, path, D, roughness or 0.0, pipe_length, fitted, state, ground.conductance)

    needed = sump_parts.trap_seal(work, fan)
    leaks = sump_parts.leaks(lid_diameter, lid_gap, lid_thickness, penetrations, other_open_area, slots)
    leaks += sump_parts.drain_leaks(drains, needed)
    area = sump_parts.print_areas(work, leaks)
    bead, cartridges = sump_parts.sealant(work, lid_diameter, penetrations, slots, sealant_bead, cartridge_volume)

    tight_at = sealed(system)
    tight = refusing(system, lambda: tight_at(1.0))
    leaky = settle(system, leaks) if leaks else tight
    kept = None
    if tight.pit_suction > 0:
        print_balance(work, system, fan, tight, ", lid sealed")
        if leaks:
            print_openings(work, leaks, leaky.pit_suction, state)
            print_balance(work, system, fan, leaky, ", as it is")
        kept = work.step(
            "Share of the suction that is kept",
            sealing.suction_kept,
            us={"s_o": "in WC", "s_s": "in WC"},
            s_o=leaky.pit_suction,
            s_s=tight.pit_suction,
        )

    def at(soil: float, way: float) -> tuple[Any, Any]:
        lid_sealed = tight_at(soil)
        return lid_sealed, operate(system, scaled(leaks, way), soil=soil) if leaks else lid_sealed

    reached = corners(at, ground.factor, bool(leaks))
    why, with_leaks = [ground.why], [ground.why, *leaks_why(leaks)]
    lid_off = open_flow(system)
    half = sump_parts.halving(work, system, ground, tight_at)
    sump_checks.compare(
        work, pit_receives=pit_receives, only_floor_drain=only_floor_drain, water_way=water_way, pump_type=pump_type,
        alarm_circuit=alarm_circuit, drains=drains, needed=needed, draws=tight.pit_suction > 0,
        flags={"lid-fastened": lid_fastened, "grommets": grommets, "view-port": view_port, "hand-access": hand_access,
               "check-valve": check_valve},
    )  # fmt: skip
    sump_checks.cautions(
        work, lid_off=lid_off, greatest=curve.high, leak=leaky.leak_flow, pump_type=pump_type, drains=drains,
        fittings=bool(fittings), starts=curve.low,
    )  # fmt: skip
    views = [("lid sealed", []), *([("as it is", leaks)] if leaks else [])]
    title = f"Fan against pipe and pit, lid sealed{' and as it is' if leaks else ''}"
    work.plot_later(_plot, work, title, system, views, leaky)

    least, most = scaled(leaks, -1), scaled(leaks, 1)
    area_range = [sum(leak.area for leak in side) for side in (least, most)]
    return {
        "suction_kept": None
        if kept is None
        else span(
            kept,
            reached,
            lambda c: c[1].pit_suction / c[0].pit_suction if c[0].pit_suction > 0 else kept,
            with_leaks,
        ),
        "suction_open": span(leaky.pit_suction, reached, lambda c: c[1].pit_suction, with_leaks),
        "suction_sealed": span(tight.pit_suction, reached, lambda c: c[0].pit_suction, why),
        "leak_flow": span(leaky.leak_flow, reached, lambda c: c[1].leak_flow, with_leaks) if leaks else 0.0,
        "soil_flow_open": span(leaky.soil_flow, reached, lambda c: c[1].soil_flow, with_leaks),
        "soil_flow_sealed": span(tight.soil_flow, reached, lambda c: c[0].soil_flow, why),
        "fan_flow_open": span(leaky.flow, reached, lambda c: c[1].flow, with_leaks),
        "open_area": sump_parts.ranged(area, area_range, leaks_why(leaks)) if leaks else area,
        "halving_area": half,
        "lid_off_flow": lid_off,
        "trap_seal_needed": needed,
        "bead_length": bead,
        "cartridges": cartridges,
        "leaks": [
            {"name": leak.name, "area": leak.area, "flow": leak.flow(leaky.pit_suction, state)} for leak in leaks
        ],
    }


def _plot(work: Work, title: str, system: System, views: list[tuple[str, Any]], leaky: OperatingPoint) -> None:
    x, *series = plotted(system, views, leaky)
    work.plot("lid", titled(title, series), x, *series, point=(leaky.flow, leaky.fan_pressure))
