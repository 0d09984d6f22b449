"""What fan-point compares, and what can hurt you at the fan."""

from collections.abc import Sequence
from typing import Any

from ..physics import air, pipe
from ..units import from_si
from ..work import Work
from . import pipe_checks
from .airstate import Air
from .suction import System

PRESSURE = "in WC|Pa"


def compare(work: Work, rows: Sequence[tuple[str, dict[str, Any]]], target: float | None) -> None:
    """All comparisons: each fan against its system and the wanted suction, the first one's air speed."""
    for path, row in rows:
        tail = "" if path == "fan" else f":{path}"
        name = "The fan" if path == "fan" else f"{row['name'][:1].upper()}{row['name'][1:]}"
        draws = row["flow"] > 0
        work.judge(
            f"fan-draws{tail}",
            f"{name} makes more pressure than the system asks for at no flow.",
            ok=draws,
            found="air moves" if draws else "no air moves",
            required="air moves",
            source="network-balance",
        )
        if target is not None:
            work.at_least(
                f"target{tail}",
                f"{name} leaves the wanted suction in the pit.",
                found=row["pit_suction"],
                required=target,
                unit=PRESSURE,
                source="network-balance",
            )
    pipe_checks.air_speed(work, rows[0][1]["velocity"])


def _cfm(flow: float) -> str:
    return f"{from_si(flow, 'cfm'):.0f} cfm ({from_si(flow, 'L/s'):.0f} L/s)"


def _suction(pressure: float) -> str:
    return f"{from_si(pressure, 'in WC'):.2f} in WC ({pressure:.0f} Pa)"


def cautions(work: Work, row: dict[str, Any], in_pipe: bool, system: System, *, fittings: bool, plotted: bool) -> None:
    """The cautions of fan, gauge and house air."""
    if row["flow"] <= 0:
        work.caution(
            "warning", "This fan moves no air here: pipe and riser ask for more than it has.", "network-balance"
        )
    else:
        least = f"at least {_cfm(row['house_air'])} and " if row["house_air"] > 0 else ""
        work.caution(
            "danger",
            f"Of what the fan moves, {least}at most {_cfm(row['flow'])} can be house air. That can pull a burner's "
            "flue gas back into the room. Test for it under worst case, before and after the fan is on.",
            "henschel-1997",
        )
    work.caution(
        "danger",
        "Fan and wiring are work for a licensed electrician where the code says so. Switch it off and prove it "
        "dead before you open it. Keep the fan, and all pipe behind it, out of and away from the rooms that people "
        "live in.",
    )
    if in_pipe and row["flow"] > 0:
        work.caution(
            "warning",
            f"At its tap the gauge reads {_suction(row['gauge_suction'])} while the pit has "
            f"{_suction(row['pit_suction'])}: moving air reads higher than the pit. A leak can hide behind a good "
            "reading.",
            "bernoulli",
        )
    work.caution(
        "note", "The gauge shows suction at one place. It does not show radon, nor suction under the rest of the slab."
    )
    Re = pipe.reynolds(rho=system.air.density, V=row["velocity"], D=system.bore, mu=system.air.viscosity)
    pipe_checks.cautions(work, Re=Re, fittings=fittings)
    if plotted:
        work.caution("note", "Only the first fans are plotted; the table has all of them.")


def left_out(work: Work, *, lift: float | None, indoor: float | None, state: Air) -> None:
    """What the answer does not hold."""
    if lift is None:
        work.not_looked_at(
            "Lift by warm air in the riser; give riser_height and outdoor_temperature. It matters for small fans."
        )
    if indoor is None:
        work.not_looked_at("The warmer air of the house: one density stands for pipe, fan and leaks.")
    else:
        lighter = 1 - air.dry_density(p=state.pressure, T=indoor) / state.density
        side = "lighter" if lighter >= 0 else "heavier"
        work.not_looked_at(
            f"Indoor air is about {abs(lighter) * 100:.1f} % {side} than the pipe's air; flow through leaks is off "
            "by half of that."
        )
    work.not_looked_at(
        "Water lying in a sag of the pipe.",
        "Fittings between the pit and the gauge: only the pipe's entrance is counted in its reading.",
        "Wear of the fan, ice or a nest at the outlet.",
        "Whether the suction reaches under the whole slab; only test holes show that.",
    )
