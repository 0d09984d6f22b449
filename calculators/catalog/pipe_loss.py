"""Pressure lost in the vent pipe, from the suction point to the outlet."""

from typing import Annotated, Any

from ..declare import Choice, Quantity, Table, Text, calculator, si
from ..physics import pipe, totals
from ..span import Span
from ..tables import si_of, table
from ..trade import pipe_checks
from ..trade.airstate import Air, soil_air
from ..trade.pipework import FittingSum, add_up, bore_of, nearest_size
from ..vocabulary import (
    SATURATED,
    SEA_LEVEL,
    SOIL_AIR,
    Airflow,
    AirTemperature,
    Elevation,
    Fittings,
    InsideDiameter,
    PipeLength,
    PipeSize,
    RelativeHumidity,
    Roughness,
)
from ..work import Work

FittingMethod = Annotated[
    str,
    Choice(
        "Fittings counted as",
        ("equivalent-length", "loss-coefficient"),
        help="Published figures for one fitting differ by a factor of 2 to 3.",
    ),
]
COMPARED = ("3", "4", "6")
SMOOTH = si("0.0015 mm")
PRESSURE, SPEED = "in WC|Pa", "ft/min|m/s"


@calculator(
    name="pipe-loss",
    part="pipe-and-fan",
    title="Pressure lost in the vent pipe",
    main="total_loss",
    one_of={"bore": ("pipe_size", "inside_diameter")},
    results={
        "total_loss": Quantity("Lost altogether", "in WC", "Pa"),
        "straight_loss": Quantity("Lost in straight pipe", "in WC", "Pa"),
        "fitting_loss": Quantity("Lost in fittings", "in WC", "Pa"),
        "velocity": Quantity("Air speed", "ft/min", "m/s"),
        "velocity_pressure": Quantity("Velocity pressure", "in WC", "Pa"),
        "equivalent_length": Quantity("Equivalent length, fittings included", "ft", "m"),
        "reynolds": Quantity("Reynolds number", "1", "1"),
        "friction_factor": Quantity("Friction factor (Darcy)", "1", "1"),
        "density": Quantity("Air density", "kg/m3", "kg/m3"),
        "viscosity": Quantity("Air viscosity", "Pa*s", "Pa*s"),
        "comparison": Table(
            "The same flow in other sizes",
            {
                "pipe_size": Text("Pipe size"),
                "total_loss": Quantity("Lost altogether", "in WC", "Pa"),
                "velocity": Quantity("Air speed", "ft/min", "m/s"),
            },
        ),
    },
)
def pipe_loss(
    work: Work,
    *,
    flow: Airflow,
    pipe_size: PipeSize = None,
    inside_diameter: InsideDiameter = None,
    pipe_length: PipeLength,
    fittings: Fittings = [],  # noqa: B006  read only
    fitting_method: FittingMethod = "equivalent-length",
    roughness: Roughness = SMOOTH,
    air_temperature: AirTemperature = SOIL_AIR,
    relative_humidity: RelativeHumidity = SATURATED,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Pressure lost by air that flows steadily through a round pipe with fittings.

    Darcy-Weisbach with Colebrook's friction factor; f = 64/Re below Reynolds number 2300 and a straight line in f up to
    4000.  Raises Refusal for a fitting without a published value.  SI in and out.
    """
    D = bore_of(pipe_size, inside_diameter)
    size = pipe_size or nearest_size(D)
    fitted = add_up(fittings, size, "air", fitting_method)

    state = soil_air(work, elevation=elevation, air_temperature=air_temperature, relative_humidity=relative_humidity)
    V = work.step("Air speed in the pipe", pipe.speed, us={"V": "ft/min", "Q": "cfm", "D": "ft"}, Q=flow, D=D)
    Re = work.step("Reynolds number", pipe.reynolds, rho=state.density, V=V, D=D, mu=state.viscosity)
    piece, arguments = pipe.friction_piece(Re=Re, k=roughness, D=D)
    f = work.apply("Friction factor", piece, arguments)
    VP = work.step("Velocity pressure", pipe.velocity_pressure, rho=state.density, V=V)
    straight = work.step("Lost in straight pipe", pipe.straight_loss, f=f, L=pipe_length, D=D, rho=state.density, V=V)
    lost = work.step(
        "Lost in fittings",
        totals.fittings_pressure,
        f=f,
        L_fittings=fitted.length,
        D=D,
        K=fitted.k,
        rho=state.density,
        V=V,
    )
    total = work.step(
        "Lost altogether",
        totals.total_pressure,
        us={"dp": "in WC", "dp_straight": "in WC", "dp_fittings": "in WC"},
        dp_straight=straight,
        dp_fittings=lost,
    )
    equivalent = work.step(
        "Equivalent length",
        totals.equivalent_length,
        us={"L": "ft", "L_pipe": "ft", "L_fittings": "ft", "D": "ft"},
        L_pipe=pipe_length,
        L_fittings=fitted.length,
        K=fitted.k,
        D=D,
        f=f,
    )

    _compare(work, V, Re, fittings)
    work.plot_later(_plot, work, flow, total, D, roughness, pipe_length, fitted, state)
    per_length = straight / pipe_length if pipe_length else f / D * VP
    low, high = (per_length * bound for bound in fitted.bounds(D / f))
    why = "least and greatest of the published values for these fittings"
    return {
        "total_loss": Span(total, straight + low, straight + high, why) if fittings else total,
        "straight_loss": straight,
        "fitting_loss": Span(lost, low, high, why) if fittings else lost,
        "velocity": V,
        "velocity_pressure": VP,
        "equivalent_length": equivalent,
        "reynolds": Re,
        "friction_factor": f,
        "density": state.density,
        "viscosity": state.viscosity,
        "comparison": _other_sizes(flow, pipe_size, fittings, fitting_method, roughness, pipe_length, state),
    }


def _compare(work: Work, V: float, Re: float, fittings: list[dict[str, Any]]) -> None:
    pipe_checks.air_speed(work, V)
    pipe_checks.cautions(work, Re=Re, fittings=bool(fittings))
    work.not_looked_at(
        "Water lying in a sag of the pipe.",
        "Leaking joints.",
        "A screen, ice or a nest at the outlet.",
        "Lift by warm air in the riser.",
    )


def _loss(Q: float, D: float, roughness: float, pipe_length: float, fitted: FittingSum, state: Air) -> float:
    return pipe.total_loss(
        Q=Q, D=D, k=roughness, L=pipe_length + fitted.length, K=fitted.k, rho=state.density, mu=state.viscosity
    )


def _plot(
    work: Work,
    flow: float,
    total: float,
    D: float,
    roughness: float,
    pipe_length: float,
    fitted: FittingSum,
    state: Air,
) -> None:
    flows = [flow * 2 * i / 40 for i in range(41)]
    losses = [_loss(Q, D, roughness, pipe_length, fitted, state) if Q else 0.0 for Q in flows]
    work.plot(
        "loss",
        "Pressure lost against flow",
        ("air flow", "cfm|L/s", flows),
        ("this pipe", PRESSURE, losses),
        point=(flow, total),
    )


def _other_sizes(
    flow: float,
    pipe_size: str | None,
    fittings: list[dict[str, Any]],
    method: str,
    roughness: float,
    pipe_length: float,
    state: Air,
) -> list[dict[str, Any]]:
    sizes = table("pipes")["schedule-40"]
    compared = sorted({*COMPARED, *([pipe_size] if pipe_size else [])}, key=lambda size: si_of(sizes[size]["bore"]))
    rows = []
    for size in compared:
        D = si_of(sizes[size]["bore"])
        loss = _loss(flow, D, roughness, pipe_length, add_up(fittings, size, "air", method), state)
        rows.append({"pipe_size": size, "total_loss": loss, "velocity": pipe.speed(Q=flow, D=D)})
    return rows
