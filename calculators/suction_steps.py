"""The printed arithmetic of an operating point: openings, soil, pipe, and the fan's own curve."""

from collections.abc import Sequence
from typing import Any

from .airstate import Air
from .physics import air as air_physics
from .physics import fan, openings, pipe, sealing, totals
from .physics.fan import OperatingPoint
from .physics.openings import Gap
from .suction import Leak, System
from .work import Work


def print_openings(work: Work, leaks: Sequence[Leak], s: float, air: Air, most: int = 3) -> None:
    """The arithmetic of the openings that let in most at suction s [Pa]."""
    for leak in sorted(leaks, key=lambda leak: -leak.flow(s, air))[:most]:
        opening = leak.opening
        if isinstance(opening, Gap):
            V = work.step(
                f"Air speed in the {leak.name}", openings.gap_speed, C=opening.coefficient, rho=air.density, dp=s,
                mu=air.viscosity, z=opening.depth, w=opening.width,
            )  # fmt: skip
            work.step(
                f"Flow through the {leak.name}",
                openings.gap_flow,
                us={"Q": "cfm", "V": "ft/min", "w": "ft", "L": "ft"},
                V=V,
                w=opening.width,
                L=opening.length * leak.number,
            )
        else:
            work.step(
                f"Flow through the {leak.name}",
                openings.orifice_flow,
                C=opening.coefficient,
                A=leak.area,
                dp=s,
                rho=air.density,
            )


def print_balance(work: Work, system: System, sheet: dict[str, Any], point: OperatingPoint, when: str) -> None:
    """The arithmetic of an operating point: soil, pipe, and the fan's own curve at the same flow."""
    soil = work.step(
        f"Soil air, {when}",
        fan.soil_flow,
        us={"Q": "cfm", "G": "cfm/in WC", "s": "in WC"},
        si={"Q": "L/s", "G": "L/s/Pa"},
        G=system.conductance,
        s=point.pit_suction,
    )
    names = ("Q", "Q_s", "Q_l")
    work.step(
        f"Through the fan, {when}",
        sealing.joined_flow,
        us=dict.fromkeys(names, "cfm"),
        si=dict.fromkeys(names, "L/s"),
        Q_s=soil,
        Q_l=point.flow - soil,
    )
    if point.flow <= 0:
        return
    V = work.step("Air speed in the pipe", pipe.speed, Q=point.flow, D=system.bore)
    state = system.air
    Re = work.step("Reynolds number", pipe.reynolds, rho=state.density, V=V, D=system.bore, mu=state.viscosity)
    piece, arguments = pipe.friction_piece(Re=Re, k=system.roughness, D=system.bore)
    f = work.step("Friction factor", piece, us={}, si={}, **arguments)
    straight = work.step(
        "Lost in straight pipe", pipe.straight_loss, f=f, L=system.length, D=system.bore, rho=state.density, V=V
    )
    lost = work.step(
        "Lost in fittings", totals.fittings_pressure, f=f, L_fittings=system.fitted.length, D=system.bore,
        K=system.fitted.k, rho=state.density, V=V,
    )  # fmt: skip
    dp = work.step(
        "Lost altogether",
        totals.total_pressure,
        us=dict.fromkeys(("dp", "dp_straight", "dp_fittings"), "in WC"),
        dp_straight=straight,
        dp_fittings=lost,
    )
    if not point.pipe_leak_flow:
        _balance(work, point.pit_suction, dp, system.lift)
    print_fan(work, sheet, system.air, point.flow)


def _balance(work: Work, s: float, dp: float, lift: float) -> None:
    inches = dict.fromkeys(("p_f", "s", "dp", "p_b"), "in WC")
    if lift:
        work.step("The fan must make", sealing.fan_pressure_with_lift, us=inches, s=s, dp=dp, p_b=lift)
    else:
        work.step("The fan must make", sealing.fan_pressure, us=inches, s=s, dp=dp)


def print_fan(work: Work, sheet: dict[str, Any], air: Air, flow: float) -> None:
    """The fan's own pressure at a flow [m3/s], when its curve is the parabola through two figures."""
    if sheet["points"]:
        return
    rated = sheet["rating_density"] or air_physics.ROOM_DENSITY
    p_r = work.step(
        "The fan's curve at that flow",
        fan.parabola_pressure,
        us={"p_f": "in WC", "p_0": "in WC", "Q": "cfm", "Q_0": "cfm"},
        si={"Q": "L/s", "Q_0": "L/s"},
        p_0=sheet["shutoff"],
        Q=flow,
        Q_0=sheet["free_flow"],
    )
    work.step(
        "The fan in this air",
        air_physics.fan_pressure_at_density,
        us={"p_f": "in WC", "p_r": "in WC"},
        p_r=p_r,
        rho=air.density,
        rho_r=rated,
    )
