"""The submersible pump in the pit, its pipe and its relief hole."""

from typing import Annotated, Any

from ..declare import REQUIRED, Choice, Flag, InputError, List, Quantity, Record, Refusal, calculator, refuse, si
from ..physics import pipe, water
from ..span import Span
from ..trade import pump_checks, pump_steps
from ..trade.equipment import pump_curve
from ..trade.pipework import add_up, bore_of, nearest_size
from ..trade.pumping import Line, Relief, settle
from ..units import from_si
from ..vocabulary import Fittings, InsideDiameter, PipeLength, PipeSize
from ..work import Work

Pit = Annotated[float, Quantity("Pit diameter", "in", "mm", "6 in", "12 ft", help="Inside.")]
Rise = Annotated[
    float | None,
    Quantity("Rise of the water in the pit", "in", "mm", "0.1 in", "15 ft", help="Pump off, timed, in a wet week."),
]
RiseTime = Annotated[float | None, Quantity("Time of that rise", "s", "s", "1 s", "24 h")]
Inflow = Annotated[float | None, Quantity("Water coming in", "gpm", "L/s", "0.1 gpm", "300 gpm")]
Texture = Annotated[
    str | None,
    Choice(
        "Soil round the house, if nothing was timed",
        ("sandy", "clay"),
        source="illinois-extension-sump",
        help="A rule of thumb for new houses. Time the rise instead.",
    ),
]
FloorArea = Annotated[float | None, Quantity("Floor area of the house", "ft2", "m2", "10 ft2", "100000 ft2")]
When = Annotated[str, Choice("Measured when it was", ("wet", "dry", "unknown"))]
Safety = Annotated[float, Quantity("Safety factor on the inflow", "1", "1", "1", "5", source="common-practice")]
Lift = Annotated[
    float,
    Quantity(
        "Static lift",
        "ft",
        "m",
        "0 ft",
        "200 ft",
        help="From the pump-off level to the highest point of the line, or to the outlet if that is higher.",
    ),
]
Method = Annotated[str, Choice("Friction by", ("hazen-williams", "darcy-weisbach"), source="hazen-williams")]
CFactor = Annotated[
    float,
    Quantity(
        "Hazen-Williams coefficient",
        "1",
        "1",
        "60",
        "160",
        source="ill-77-906",
        help="150 is new smooth plastic; 140 is used for the same pipe elsewhere.",
    ),
]
Rough = Annotated[float, Quantity("Roughness of the pipe wall", "in", "mm", "0 mm", "3 mm", source="pipe-roughness")]
Warm = Annotated[float, Quantity("Water temperature", "degF", "degC", "32 degF", "130 degF", source="common-practice")]
Pump = Annotated[
    dict[str, Any] | None,
    Record(
        "Pump, from its data sheet",
        {
            "points": List(
                "Points of the curve",
                Record(
                    "Point",
                    {
                        "flow": Quantity("Flow", "gpm", "L/s", "0 gpm", "1000 gpm"),
                        "head": Quantity("Head", "ft", "m", "0 ft", "1000 ft"),
                    },
                    need=("flow", "head"),
                ),
                2,
                40,
            ),
        },
        need=("points",),
    ),
]
Range = Annotated[float | None, Quantity("Switch range, pump on less pump off", "in", "mm", "0.1 in", "10 ft")]
HoleKind = Annotated[
    str,
    Choice(
        "Relief hole", ("none", "built-in", "drilled"), help="The small hole below the check valve that lets air out."
    ),
]
HoleDiameter = Annotated[float | None, Quantity("Relief hole diameter", "in", "mm", "0.02 in", "2 in")]
HoleFactor = Annotated[float, Quantity("Relief hole coefficient", "1", "1", "0.3", "1", source="umn-perforation-table")]
Suction = Annotated[
    float,
    Quantity(
        "Suction in the pit", "in WC", "Pa", "0 Pa", "5000 Pa", help="What the fan keeps in the pit; 0 without one."
    ),
]
Outdoors = Annotated[bool, Flag("The line ends outdoors")]
Freezing = Annotated[bool, Flag("It freezes where the line ends")]


def _height(label: str) -> Quantity:
    return Quantity(f"{label}, above the pit floor", "in", "mm", "0 in", "15 ft")


HoleHeight = Annotated[float | None, _height("Relief hole")]
ValveHeight = Annotated[float | None, _height("Check valve")]
LidHeight = Annotated[float | None, _height("Lid")]
OnHeight = Annotated[float | None, _height("Pump on")]
OffHeight = Annotated[float | None, _height("Pump off")]
InvertHeight = Annotated[float | None, _height("Tile invert")]
RestHeight = Annotated[float | None, _height("Resting water")]
GPM, FEET = "gpm", "ft"


@calculator(
    name="pump-sizing",
    part="water-and-pump",
    title="The pump, its pipe and its relief hole",
    main="delivered_flow",
    one_of={"inflow": ("inflow", "rise_height", "soil_texture"), "bore": ("pipe_size", "inside_diameter")},
    results={
        "delivered_flow": Quantity("Delivered out of the pit", "gpm", "L/s"),
        "inflow": Quantity("Water coming in", "gpm", "L/s"),
        "design_flow": Quantity("Design flow", "gpm", "L/s"),
        "total_dynamic_head": Quantity("Head at the design flow", "ft", "m"),
        "friction_head": Quantity("Friction at the design flow", "ft", "m"),
        "friction_gradient": Quantity("Friction per 100 ft of pipe", "ft/100 ft", "m/m"),
        "equivalent_length": Quantity("Equivalent length, fittings included", "ft", "m"),
        "pump_flow": Quantity("Through the pump", "gpm", "L/s"),
        "pump_head": Quantity("Head of the pump where it runs", "ft", "m"),
        "relief_flow": Quantity("Back through the relief hole", "gpm", "L/s"),
        "velocity": Quantity("Speed in the line", "ft/s", "m/s"),
        "storage_volume": Quantity("Water between the switch levels", "gal", "L"),
        "cycle_time": Quantity("One cycle at this inflow", "min", "min"),
        "starts_per_hour": Quantity("Starts per hour", "1/h", "1/h"),
        "worst_cycle_time": Quantity("Shortest possible cycle", "min", "min"),
        "suction_lift": Quantity("Rise of the pit water by the suction, at most", "in", "mm"),
        "trapped_air_height": Quantity("Pipe that can hold air after a run", "in", "mm"),
        "drain_back_time": Quantity("Time in which the pipe drains back", "s", "s"),
    },
)
def pump_sizing(
    work: Work,
    *,
    pit_diameter: Pit,
    inflow: Inflow = REQUIRED,
    rise_height: Rise = REQUIRED,
    rise_time: RiseTime = None,
    soil_texture: Texture = REQUIRED,
    floor_area: FloorArea = None,
    measured_when: When = "unknown",
    safety_factor: Safety = 1.5,
    static_lift: Lift,
    pipe_size: PipeSize = REQUIRED,
    inside_diameter: InsideDiameter = REQUIRED,
    pipe_length: PipeLength,
    fittings: Fittings = [],  # noqa: B006  read only
    pump: Pump = None,
    switch_range: Range = None,
    relief_hole: HoleKind = "none",
    relief_hole_diameter: HoleDiameter = None,
    relief_hole_coefficient: HoleFactor = 0.60,
    pump_off_height: OffHeight = None,
    pump_on_height: OnHeight = None,
    tile_invert_height: InvertHeight = None,
    relief_hole_height: HoleHeight = None,
    check_valve_height: ValveHeight = None,
    lid_height: LidHeight = None,
    resting_water_height: RestHeight = None,
    pit_suction: Suction = 0.0,
    ends_outdoors: Outdoors = True,
    freezing: Freezing = False,
    friction_method: Method = "hazen-williams",
    c_factor: CFactor = 150.0,
    roughness: Rough = si("0.0015 mm"),
    water_temperature: Warm = si("50 degF"),
) -> dict[str, Any]:
    """Inflow, pipe friction, relief hole and where the pump runs; cycling and levels in the pit.

    Friction by Hazen-Williams in its US form or by Darcy-Weisbach; the pump curve is a monotone cubic through its points.
    Raises Refusal for half an inflow measurement, a hole without a size, levels that disagree, a pump that would run
    beyond its points.  SI in and out.
    """
    wrong = _agree(rise_height, rise_time, soil_texture, floor_area, relief_hole, relief_hole_diameter)
    span = _switch_range(wrong, switch_range, pump_on_height, pump_off_height)
    refuse(wrong)
    flows = {"Q_d": GPM, "Q_i": GPM}
    Q_i = pump_steps.inflow(work, pit_diameter, inflow, _both(rise_height, rise_time), _both(soil_texture, floor_area))
    design = work.step(
        "Design flow", water.design_flow, us=flows, si=dict.fromkeys(flows, "L/s"), S=safety_factor, Q_i=Q_i
    )

    D = bore_of(pipe_size, inside_diameter)
    rho, mu = water.density(T=water_temperature), water.viscosity(T=water_temperature)
    h_p = work.step("Lift out of a pit under suction", water.suction_head, s=pit_suction, rho=rho)
    line = Line(
        D,
        pipe_length,
        add_up(fittings, pipe_size or nearest_size(D), "water", "equivalent-length"),
        c_factor if friction_method == "hazen-williams" else None,
        roughness,
        rho,
        mu,
        static_lift + h_p,
    )
    gradient, equivalent, friction, head = pump_steps.at_design(work, line, design, static_lift, h_p)
    relief = _relief(relief_hole, relief_hole_diameter, relief_hole_coefficient, relief_hole_height, pump_off_height)

    curve = pump_curve(pump) if pump else None
    run = settle(curve, line, relief) if curve else None
    ends = (
        (
            settle(curve, line._replace(c_factor=_older(line)), relief, scale=1.2, worth=line.fitted.greatest),
            settle(curve, line, relief, scale=0.8, worth=line.fitted.least),
        )
        if curve
        else None
    )
    V = pump_steps.running(work, run, relief, D)
    pit = (
        work.step(
            "Water between the switch levels",
            water.pit_volume,
            us={"V": "ft3", "D": "ft", "h": "ft"},
            D=pit_diameter,
            h=span,
        )
        if span
        else None
    )
    cycle, worst = pump_steps.cycling(work, pit, Q_i, run)
    lift = water.suction_head(s=pit_suction, rho=rho)
    air = (
        None
        if check_valve_height is None or pump_off_height is None
        else water.trapped_air_height(z_v=check_valve_height, z_off=pump_off_height)
    )
    drain = pump_steps.drain_back(work, relief, D, relief_hole_diameter, check_valve_height, relief_hole_height)

    pump_checks.compare(
        work,
        pump_checks.Facts(
            Q_i=Q_i,
            design=design,
            run=run,
            velocity=V,
            curve=curve,
            relief=relief,
            line=line,
            relief_hole=relief_hole,
            hole=relief_hole_height,
            valve=check_valve_height,
            lid=lid_height,
            on=pump_on_height,
            invert=tile_invert_height,
            rest=resting_water_height,
            lift=lift,
            measured_when=measured_when,
            drain=drain,
            pit=pit,
            fittings=fittings,
        ),
    )
    pump_checks.cautions(
        work, ends_outdoors=ends_outdoors, freezing=freezing, relief_hole=relief_hole, texture=soil_texture
    )
    if curve and run:
        work.plot_later(pump_steps.plot, work, curve, line, relief, run)
    flow_why = "fittings by the least and greatest table, pipe a little older, relief hole 20 % either way"
    bounds = line.fitted.bounds(line.per_k(design, gradient))
    f_low, f_high = (gradient * (pipe_length + b) for b in bounds)
    f_why = "least and greatest of the published values for these fittings"

    def spread(name: str) -> Any:
        if not run or not ends:
            return None
        value, a, b = (getattr(s, name) for s in (run, *ends))
        return Span(value, min(a, b), max(a, b), flow_why)

    speed = V and ends and Span(V, pipe.speed(Q=ends[0].delivered, D=D), pipe.speed(Q=ends[1].delivered, D=D), flow_why)
    return {
        "inflow": Q_i,
        "design_flow": design,
        "friction_gradient": gradient,
        "equivalent_length": equivalent,
        "friction_head": Span(friction, f_low, f_high, f_why) if fittings else friction,
        "total_dynamic_head": Span(head, head - friction + f_low, head - friction + f_high, f_why)
        if fittings
        else head,
        "velocity": speed if run else None,
        "pump_flow": spread("pump_flow"),
        "pump_head": spread("head"),
        "relief_flow": spread("relief_flow"),
        "delivered_flow": spread("delivered"),
        "storage_volume": pit,
        "cycle_time": cycle,
        "starts_per_hour": water.start_rate(t=cycle) if cycle else None,
        "worst_cycle_time": worst,
        "suction_lift": lift,
        "trapped_air_height": air,
        "drain_back_time": drain,
    }


def _agree(rise: Any, time: Any, texture: Any, area: Any, hole: str, diameter: Any) -> list[InputError]:
    wrong: list[InputError] = []
    for whole, part, value in ((rise, "rise_time", time), (texture, "floor_area", area)):
        if whole is not None and value is None:
            other = "rise_height" if part == "rise_time" else "soil_texture"
            wrong.append(
                Refusal(
                    part,
                    f"this belongs to {other} and must be given with it",
                    kind="missing",
                    accepts="a number with a unit",
                )
            )
    # A floor area alone is no contradiction: it is a fact of the house, and a job file says it once for all calculators.
    if rise is None and time is not None:
        wrong.append(
            Refusal(
                "rise_time",
                "this belongs to rise_height, which was not given",
                found="given alone",
                accepts="rise_height with rise_time",
            )
        )
    if hole != "none" and diameter is None:
        wrong.append(
            Refusal(
                "relief_hole_diameter", "a relief hole needs its diameter", kind="missing", accepts="such as 3/16 in"
            )
        )
    if hole == "none" and diameter is not None:
        wrong.append(
            Refusal(
                "relief_hole", "a hole diameter was given, but no hole", found="none", accepts="built-in or drilled"
            )
        )
    return wrong


def _both(first: Any, second: Any) -> Any:
    return None if first is None or second is None else (first, second)


def _switch_range(wrong: list[InputError], given: float | None, on: float | None, off: float | None) -> float | None:
    if on is None or off is None:
        return given
    if on <= off:
        wrong.append(
            Refusal(
                "pump_on_height",
                "the pump must start above the level at which it stops",
                found=f"{from_si(on, 'in'):g} in",
                accepts=f"more than {from_si(off, 'in'):g} in",
            )
        )
    elif given is not None and abs(given - (on - off)) > 0.01 * given:
        wrong.append(
            Refusal(
                "switch_range",
                "this is not the difference of the two levels",
                found=f"{from_si(given, 'in'):g} in",
                accepts=f"{from_si(on - off, 'in'):g} in, or leave it out",
            )
        )
    return on - off if given is None else given


def _relief(kind: str, diameter: float | None, coefficient: float, hole: float | None, off: float | None) -> Relief:
    if kind == "none" or diameter is None:
        return Relief(0.0, coefficient, 0.0)
    above = 0.0 if hole is None or off is None else hole - off
    return Relief(pipe.circle_area(D=diameter), coefficient, max(above, 0.0))


def _older(line: Line) -> float | None:
    """The coefficient of a second public chart for the same pipe: 140 where this one has 150."""
    return None if line.c_factor is None else line.c_factor * 140 / 150
