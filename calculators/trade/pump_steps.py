"""The worked arithmetic of pump-sizing: inflow, friction at the design flow, where the pump runs, cycling."""

from typing import Any

from ..physics import openings, pipe, totals, water
from ..tables import si_of, table
from ..work import Work
from .pumping import Line, Relief, Settled

GPM, FEET = "gpm", "ft"


def inflow(
    work: Work,
    pit: float,
    inflow: float | None,
    timed: tuple[float, float] | None,
    by_soil: tuple[str, float] | None,
) -> float:
    """Water coming in [m3/s]: as typed, from a timed rise, or by soil texture; with its step."""
    if inflow is not None:
        return inflow
    if timed is not None:
        return work.step(
            "Water coming in, from the timed rise",
            water.timed_inflow,
            us={"Q": "ft3/min", "D": "ft", "h": "ft", "t": "min"},
            D=pit,
            h=timed[0],
            t=timed[1],
        )
    if by_soil is None:
        raise ValueError("one way of giving the inflow is needed")
    row = table("inflow")["texture"][by_soil[0]]
    return work.step(
        "Water coming in, by soil texture",
        water.area_inflow,
        us={"Q": "gpm", "q": "gpm/ft2", "A": "ft2"},
        q=si_of(row) / si_of(row["per"]),
        A=by_soil[1],
    )


def at_design(work: Work, line: Line, Q: float, static_lift: float, h_p: float) -> tuple[float, float, float, float]:
    """Gradient, equivalent length, friction and total head at the design flow, with their steps."""
    V = pipe.speed(Q=Q, D=line.bore)
    if line.c_factor is not None:
        i = work.step("Friction at the design flow", water.hazen_williams_gradient, C=line.c_factor, Q=Q, d=line.bore)
    else:
        Re = work.step("Reynolds number", pipe.reynolds, rho=line.density, V=V, D=line.bore, mu=line.viscosity)
        piece, arguments = pipe.friction_piece(Re=Re, k=line.roughness, D=line.bore)
        f = work.apply("Friction factor", piece, arguments)
        i = work.step("Friction at the design flow", water.darcy_gradient, f=f, D=line.bore, V=V)
    if line.fitted.k:
        L = work.step(
            "Equivalent length",
            totals.equivalent_water_length,
            L_pipe=line.length,
            L_fittings=line.fitted.length,
            K=line.fitted.k,
            V=V,
            i=i,
        )
    else:
        L = work.step(
            "Equivalent length",
            totals.length_with_fittings,
            us=dict.fromkeys(("L", "L_pipe", "L_fittings"), FEET),
            L_pipe=line.length,
            L_fittings=line.fitted.length,
        )
    h_f = work.step("Friction head", water.friction_head, us={"h": FEET, "L": FEET}, i=i, L=L)
    H = work.step(
        "Head that the pump must make",
        water.total_dynamic_head,
        us=dict.fromkeys(("H", "h_s", "h_f", "h_p"), FEET),
        h_s=static_lift,
        h_f=h_f,
        h_p=h_p,
    )
    return i, L, h_f, H


def running(work: Work, run: Settled | None, relief: Relief, D: float) -> float | None:
    """Speed [m/s] in the line where the pump runs, with the steps of the relief hole; None without a pump."""
    if run is None:
        return None
    if relief.area:
        h = work.step(
            "Head behind the relief hole",
            water.relief_head,
            us=dict.fromkeys(("h_o", "H", "z"), FEET),
            H=run.head,
            z=relief.above_water,
        )
        work.step("Back through the relief hole", openings.orifice_flow_head, C=relief.coefficient, A=relief.area, h=h)
    names = dict.fromkeys(("Q_d", "Q_p", "Q_h"), GPM)
    work.step(
        "Delivered out of the pit",
        totals.delivered_flow,
        us=names,
        si=dict.fromkeys(names, "L/s"),
        Q_p=run.pump_flow,
        Q_h=run.relief_flow,
    )
    return work.step("Speed in the line", pipe.speed, us={"V": "ft/s", "Q": "ft3/s", "D": "ft"}, Q=run.delivered, D=D)


def cycling(work: Work, pit: float | None, Q_i: float, run: Settled | None) -> tuple[float | None, float | None]:
    """One cycle and the shortest possible cycle [s]; None where the pump does not keep up or was not given."""
    if pit is None or run is None or run.delivered <= 0:
        return None, None
    names = {"t": "min", "V": "gal", "Q_i": GPM, "Q_d": GPM}
    cycle = None
    if Q_i < run.delivered:
        cycle = work.step("One cycle at this inflow", water.cycle_time, us=names, V=pit, Q_i=Q_i, Q_d=run.delivered)
    return cycle, work.step(
        "Shortest possible cycle",
        water.worst_cycle_time,
        us={k: names[k] for k in ("t", "V", "Q_d")},
        V=pit,
        Q_d=run.delivered,
    )


def drain_back(
    work: Work, relief: Relief, D: float, d: float | None, valve: float | None, hole: float | None
) -> float | None:
    """Time [s] in which the pipe between valve and hole empties; None without a hole or its heights."""
    if not relief.area or d is None or valve is None or hole is None or valve <= hole:
        return None
    return work.step(
        "Time in which the pipe drains back", water.drain_back_time, D=D, d=d, C=relief.coefficient, L=valve - hole
    )


def plot(work: Work, curve: Any, line: Line, relief: Relief, run: Settled) -> None:
    """Plot the pump curve against what the line asks."""
    flows = [curve.low + (curve.high - curve.low) * i / 40 for i in range(40)] + [curve.high]  # never a digit beyond
    asked = [line.head(max(q - relief.flow(curve(q)), 0.0)) for q in flows]
    work.plot(
        "pump",
        "Pump curve and what the line asks",
        ("through the pump", "gpm|L/s", flows),
        ("pump", "ft|m", [curve(q) for q in flows]),
        ("lift and pipe", "ft|m", asked),
        point=(run.pump_flow, run.head),
    )
