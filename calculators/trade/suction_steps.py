"""The printed arithmetic of an operating point: openings, soil, pipe, and the fan's own curve."""

from collections.abc import Sequence
from typing import Any

from ..physics import air as air_physics
from ..physics import fan, openings, pipe, sealing, totals
from ..physics.fan import OperatingPoint
from ..physics.openings import Gap
from ..work import Work
from .airstate import Air
from .suction import Leak, PipeHole, System


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


def print_balance(
    work: Work, system: System, sheet: dict[str, Any], point: OperatingPoint, when: str, leak: PipeHole | None = None
) -> None:
    """The arithmetic of an operating point: soil, pipe, and the fan's own curve at the same flow.

    ``when`` ends some titles (", lid sealed"); ``leak`` is a hole in the pipe, where there is one.
    """
    if system.inertia and system.conductance:
        speedy = {"s": point.pit_suction, "G": system.conductance, "a": system.inertia}
        soil = work.step(f"Soil air{when}, its speed counted", fan.inertial_soil_flow, us={}, si={}, **speedy)
    else:
        soil = work.step(
            f"Soil air{when}",
            fan.soil_flow,
            us={"Q": "cfm", "G": "cfm/in WC", "s": "in WC"},
            si={"Q": "L/s", "G": "L/s/Pa"},
            G=system.conductance,
            s=point.pit_suction,
        )
    pit = _join(work, f"{'Out of the pit' if leak else 'Through the fan'}{when}", soil, point.leak_flow)
    if point.flow <= 0:
        return
    before, at = 0.0, 0.0
    if leak:
        before, at = _pipe_leak(work, system, point, pit, leak), leak.distance
    rho, after = system.air.density, ", after it" if leak else ""
    f, V = _friction(work, system, point.flow, after)
    straight = work.step(
        f"Lost in straight pipe{after}", pipe.straight_loss, f=f, L=system.length - at, D=system.bore, rho=rho, V=V
    )
    fittings = {"f": f, "L_fittings": system.fitted.length, "D": system.bore, "K": system.fitted.k, "rho": rho, "V": V}
    lost = work.step("Lost in fittings", totals.fittings_pressure, us={}, si={}, **fittings)
    dp = work.step(
        "Lost altogether",
        totals.total_pressure,
        us=dict.fromkeys(("dp", "dp_straight", "dp_fittings"), "in WC"),
        dp_straight=before + straight,
        dp_fittings=lost,
    )
    _balance(work, point.pit_suction, dp, system.lift)
    print_fan(work, sheet, system.air, point.flow)


def _join(work: Work, title: str, one: float, other: float) -> float:
    names = ("Q", "Q_s", "Q_l")
    us, si = dict.fromkeys(names, "cfm"), dict.fromkeys(names, "L/s")
    return work.step(title, sealing.joined_flow, us=us, si=si, Q_s=one, Q_l=other)


def _friction(work: Work, system: System, flow: float, where: str) -> tuple[float, float]:
    """Friction factor [1] and speed [m/s] at a flow [m3/s]."""
    state = system.air
    V = work.step(f"Air speed in the pipe{where}", pipe.speed, Q=flow, D=system.bore)
    Re = work.step(f"Reynolds number{where}", pipe.reynolds, rho=state.density, V=V, D=system.bore, mu=state.viscosity)
    piece, arguments = pipe.friction_piece(Re=Re, k=system.roughness, D=system.bore)
    return work.step(f"Friction factor{where}", piece, us={}, si={}, **arguments), V


def _pipe_leak(work: Work, system: System, point: OperatingPoint, pit: float, leak: PipeHole) -> float:
    """The pipe up to its leak, and what comes in there; returns the loss [Pa] up to it."""
    before, V, rho = 0.0, 0.0, system.air.density
    if pit > 0:
        f, V = _friction(work, system, pit, ", before the leak")
        before = work.step(
            "Lost in straight pipe, before the leak",
            pipe.straight_loss,
            f=f,
            L=leak.distance,
            D=system.bore,
            rho=rho,
            V=V,
        )
    s = work.step(
        "Suction in the pipe at its leak", pipe.tap_suction, s=point.pit_suction, K=0.0, rho=rho, V=V, dp=before
    )
    hole = leak.hole
    side = work.step(
        "Flow into the leak of the pipe", openings.orifice_flow, C=hole.coefficient, A=hole.area, dp=s, rho=rho
    )
    _join(work, "Through the fan", pit, side)
    return before


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
