"""The openings of a pit and its lid, the sealant they take, and the area that halves the suction."""

from collections.abc import Callable
from math import ceil
from typing import Any

from ..declare import InputError, Refusal, refuse
from ..physics import fan as fans
from ..physics import openings, pipe, sealing, water
from ..physics.fan import OperatingPoint, OutsideCurve
from ..physics.openings import Gap, Hole
from ..span import LateSpan, Span
from ..units import from_si
from ..work import Work
from .soil import Soil
from .suction import Leak, System

SHUT = 1e-7  # m, a gap narrower than this is shut: thinner than any paper


def _in(length: float) -> str:
    return f"{from_si(length, 'in'):g} in"


def agree(lid: float, gap: float, penetrations: list[dict[str, Any]]) -> None:
    """Refuse what cannot be built: a gap or holes as wide as the lid, a pipe wider than its hole.  Lengths in m."""
    wrong: list[InputError] = []
    if gap >= lid / 2:
        wrong.append(
            Refusal(
                "lid_gap",
                "a gap as wide as half the lid is no gap; give it as other_open_area",
                found=_in(gap),
                accepts=f"less than {_in(lid / 2)}",
            )
        )
    for i, item in enumerate(penetrations):
        hole, through = item["hole_diameter"], item["diameter"]
        if through is not None and through > hole:
            wrong.append(
                Refusal(
                    f"penetrations[{i}].diameter",
                    "the pipe is wider than the hole it goes through",
                    found=_in(through),
                    accepts=f"at most the hole_diameter, {_in(hole)}",
                )
            )
        if hole > lid:
            wrong.append(
                Refusal(
                    f"penetrations[{i}].hole_diameter",
                    "the hole is wider than the lid",
                    found=_in(hole),
                    accepts=f"at most lid_diameter, {_in(lid)}",
                )
            )
    cut = sum(item["count"] * item["hole_diameter"] ** 2 for item in penetrations)
    if cut > lid**2 and not wrong:
        wrong.append(
            Refusal(
                "penetrations",
                "the holes together are larger than the lid",
                found=f"{from_si(pipe.circle_area(D=cut**0.5), 'in2'):.4g} in2",
                accepts=f"at most {from_si(pipe.circle_area(D=lid), 'in2'):.4g} in2",
            )
        )
    refuse(wrong)


def leaks(
    lid: float,
    gap: float,
    thickness: float,
    penetrations: list[dict[str, Any]],
    other: float,
    slots: list[dict[str, Any]],
) -> list[Leak]:
    """All openings through which house air reaches the pit; those that are sealed or have no width are left out."""
    found = [Leak("gap round the lid", Gap(gap, openings.rim_length(D=lid), thickness))]
    for i, item in enumerate(penetrations, 1):
        if item["sealed"]:
            continue
        hole, through = item["hole_diameter"], item["diameter"]
        if through is None:
            found.append(Leak(f"empty hole {i}", Hole(pipe.circle_area(D=hole)), item["count"]))
        else:
            ring = openings.annulus(hole=hole, pipe=through, depth=thickness)
            found.append(Leak(f"ring of hole {i}", ring, item["count"]))
    found.append(Leak("other opening", Hole(other)))
    for i, slot in enumerate(slots, 1):
        found.append(Leak(f"slot {i}", Gap(slot["gap"], slot["length"], slot["depth"])))
    return [
        leak for leak in found if leak.area > 0 and not (isinstance(leak.opening, Gap) and leak.opening.width < SHUT)
    ]


def drain_leaks(drains: list[dict[str, Any]], needed: float) -> list[Leak]:
    """Drains that let house air through: no trap is known, or its seal is below what is needed [m]."""
    return [
        Leak(f"{drain['kind']} drain {i}", Hole(drain["open_area"]))
        for i, drain in enumerate(drains, 1)
        if drain["open_area"] and not holds(drain, needed)
    ]


def holds(drain: dict[str, Any], needed: float) -> bool:
    """Whether a drain is known to have a trap seal as deep as needed [m]."""
    return drain["trap_seal"] is not None and drain["trap_seal"] >= needed - 1e-9


def print_areas(work: Work, found: list[Leak]) -> float:
    """The areas step by step; returns their sum [m2]."""
    for leak in found:
        if isinstance(leak.opening, Gap):
            work.step(
                f"Area of the {leak.name}",
                sealing.gaps_area,
                us={"A": "in2", "w": "in", "L": "in"},
                si={"A": "cm2", "w": "cm", "L": "cm"},
                n=float(leak.number),
                w=leak.opening.width,
                L=leak.opening.length,
            )
        elif "hole" in leak.name:
            work.step(
                f"Area of the {leak.name}",
                sealing.holes_area,
                us={"A": "in2", "D": "in"},
                si={"A": "cm2", "D": "cm"},
                n=float(leak.number),
                D=pipe.circle_diameter(A=leak.opening.area),
            )
    return sum(leak.area for leak in found)


def trap_seal(work: Work, fan: dict[str, Any]) -> float:
    """Depth of a trap seal [m] that stands against all the fan can do, with an inch to spare."""
    greatest = fan["points"][0]["pressure"] if fan["points"] else fan["shutoff"]
    return work.step("Trap seal needed", water.trap_seal_needed, p=greatest)


def sealant(
    work: Work,
    lid: float,
    penetrations: list[dict[str, Any]],
    slots: list[dict[str, Any]],
    bead: float,
    cartridge: float,
) -> tuple[float, int]:
    """Length of bead [m] and whole cartridges for the rim, the unsealed holes and the slots."""
    holes = sum(item["count"] * item["hole_diameter"] for item in penetrations if not item["sealed"])
    L = work.step(
        "Sealant to lay",
        sealing.bead_length,
        us=dict.fromkeys(("L", "D", "D_h", "L_s"), "ft"),
        D=lid,
        D_h=holes,
        L_s=sum(slot["length"] for slot in slots),
    )
    n = work.step(
        "Cartridges, before rounding up",
        sealing.cartridges,
        us={"b": "in", "L": "in", "V": "in3"},
        si={"b": "cm", "L": "cm", "V": "cm3"},
        b=bead,
        L=L,
        V=cartridge,
    )
    return L, ceil(n - 1e-9)


def ranged(value: float, ends: list[float], why: list[str]) -> Span:
    """A result between two ends."""
    return Span(value, min(ends), max(ends), "; ".join(why))


def halving(
    work: Work, system: System, ground: Soil, tight_at: Callable[[float], OperatingPoint]
) -> Span | None:
    """The open area [m2] that halves the suction of the sealed pit, over the range of the soil; None if it has none.

    ``tight_at`` gives the sealed pit with the soil's conductance times a factor [1].
    """
    if tight_at(1.0).pit_suction <= 0:
        return None

    lost = system.losses()

    def at(factor: float) -> float:
        return fans.halving_area(
            fan=system.fan,
            pipe_loss=lambda Q: lost(Q) - system.lift,
            soil_conductance=system.conductance * factor,
            sealed=tight_at(factor),
            rho=system.air.density,
        )

    try:
        value = at(1.0)
    except OutsideCurve:
        work.caution("note", "Half the suction lies beyond the entered fan curve: no area that halves it is given.")
        return None

    def work_out() -> Span:
        ends = [value]
        for factor in (1 / ground.factor, ground.factor):
            try:
                ends.append(at(factor))
            except OutsideCurve:
                continue
        return ranged(value, ends, [ground.why])

    return LateSpan(value, work_out)
