"""What pump-sizing compares, and what can hurt you at the pit."""

from typing import Any, NamedTuple

from ..physics import water
from ..physics.curve import MonotoneCubic
from ..tables import si_of, table
from ..work import Work
from .pit_cautions import pump_under_lid
from .pumping import Line, Relief, Settled, opening_head

GPM, FEET, INCHES, SECONDS = "gpm|L/s", "ft|m", "in|mm", "s|s"


class Facts(NamedTuple):
    """What the checks look at; SI, None where it was not given."""

    Q_i: float
    design: float
    run: Settled | None
    velocity: float | None
    curve: MonotoneCubic | None
    relief: Relief
    line: Line
    relief_hole: str
    hole: float | None
    valve: float | None
    lid: float | None
    on: float | None
    invert: float | None
    rest: float | None
    lift: float
    measured_when: str
    drain: float | None
    pit: float | None
    fittings: list[dict[str, Any]]


def compare(work: Work, facts: Facts) -> None:
    """All comparisons of a pump, its line and its pit."""
    limits = table("inflow")["limits"]
    delivered = facts.run.delivered if facts.run else None
    needs_pump = () if facts.run else ("pump",)
    work.at_least(
        "delivers",
        "The pump delivers the design flow, with the relief hole open."
        if facts.relief.area
        else "The pump delivers the design flow.",
        found=delivered,
        required=facts.design,
        unit=GPM,
        source="common-practice",
        needs=needs_pump,
    )
    work.at_most(
        "inflow-below-delivery",
        "The water coming in is less than the pump delivers.",
        found=facts.Q_i,
        required=delivered,
        unit=GPM,
        source="mil-hdbk-1005-9a",
        section="2.5.3.6",
        needs=needs_pump,
    )
    least = limits["velocity-minimum"]
    work.at_least(
        "velocity",
        "The water moves fast enough to carry grit.",
        found=facts.velocity,
        required=si_of(least),
        unit="ft/s|m/s",
        source=least["source"],
        section=least["section"],
        needs=needs_pump,
    )
    _wet_week(work, facts)
    _levels(work, facts)
    if facts.relief.area:
        _hole(work, facts)
    _valve(work, facts)


def _wet_week(work: Work, facts: Facts) -> None:
    wet = facts.measured_when == "wet"
    work.judge(
        "wet-week",
        "The inflow was measured in a wet week. A dry week can hide the flow that matters.",
        ok=True if wet else None,
        found=facts.measured_when,
        required="wet",
        source="common-practice",
        needs=() if wet else ("measured_when",),
    )


def _levels(work: Work, facts: Facts) -> None:
    needs = tuple(
        name for name, value in (("pump_on_height", facts.on), ("tile_invert_height", facts.invert)) if value is None
    )
    margin = None if facts.invert is None or facts.on is None else facts.invert - facts.on
    work.judge(
        "float-below-tile",
        "The pump starts below the tile invert, so that water does not shut the air path from the tile.",
        ok=None if margin is None else margin > 1e-9,
        required=facts.invert,
        found=facts.on,
        margin=margin,
        unit=INCHES,
        source="geometry",
        needs=needs,
    )
    needs = tuple(
        name for name, value in (("resting_water_height", facts.rest), ("pump_on_height", facts.on)) if value is None
    )
    raised = None if facts.rest is None else facts.rest + facts.lift
    margin = None if facts.on is None or raised is None else facts.on - raised
    work.judge(
        "resting-water",
        "Resting water, raised by the suction, stays below the level at which the pump starts.",
        ok=None if margin is None else margin > 1e-9,
        required=facts.on,
        found=raised,
        margin=margin,
        unit=INCHES,
        source="hydrostatics",
        needs=needs,
    )


def _hole(work: Work, facts: Facts) -> None:
    heights = {"relief_hole_height": facts.hole, "lid_height": facts.lid, "check_valve_height": facts.valve}
    needs = tuple(name for name, value in heights.items() if value is None)
    limit = None if facts.lid is None or facts.valve is None else min(facts.lid, facts.valve)
    margin = None if limit is None or facts.hole is None else limit - facts.hole
    work.judge(
        "hole-place",
        "The relief hole is in the pit, below the lid and below the check valve.",
        ok=None if margin is None else margin > 1e-9,
        required=limit,
        found=facts.hole,
        margin=margin,
        unit=INCHES,
        source="relief-hole-trade",
        needs=needs,
    )
    rest = None if facts.pit is None else water.off_time(V=facts.pit, Q_i=facts.Q_i)
    needs = tuple(
        name for name, value in (("check_valve_height", facts.drain), ("switch_range", rest)) if value is None
    )
    work.at_most(
        "drain-back",
        "The pipe below the valve drains back within the time that the pump rests, so that the next start finds no air.",
        found=facts.drain,
        required=rest,
        unit=SECONDS,
        source="orifice-textbook",
        needs=needs,
    )


def _valve(work: Work, facts: Facts) -> None:
    if not any(item["kind"] == "check-valve" for item in facts.fittings) and facts.valve is None:
        work.judge(
            "check-valve",
            "A check valve keeps the riser's water from running back and starting the pump again.",
            ok=None,
            source="ndsu-ae1573",
            needs=("fittings", "check_valve_height"),
        )
        return
    cracking = si_of(table("inflow")["limits"]["check-valve-opening"])
    required = water.valve_opening_head(h_s=facts.line.rise, h_p=0.0, h_c=cracking)
    found = None if facts.curve is None else opening_head(facts.curve, facts.relief)
    work.at_least(
        "valve-opens",
        "The pump opens the check valve against its full column, before anything flows.",
        found=found,
        required=required,
        unit=FEET,
        source="from-memory",
        needs=() if facts.curve else ("pump",),
    )


def cautions(work: Work, *, ends_outdoors: bool, freezing: bool, relief_hole: str, texture: str | None) -> None:
    """The cautions of the pit and the line."""
    pump_under_lid(work)
    work.caution("warning", "Never end the line in a sanitary sewer.", "cpc-2013")
    if ends_outdoors:
        text = (
            "The line ends where it freezes: a blocked outlet fills the pit. Let it fall all the way and give it a second "
            "way out near the wall."
            if freezing
            else "An outlet that is blocked, or sends the water back to the wall, fills the pit again."
        )
        work.caution("warning", text, "ndsu-news-2005")
    if relief_hole == "none":
        work.caution(
            "warning",
            "No relief hole: air caught below the check valve can keep the pump from starting to lift. Look for the hole that the "
            "maker built in, or ask the maker before you drill one.",
            "relief-hole-trade",
        )
    else:
        work.caution(
            "note",
            "Aim the jet down into the pit, away from float and cord, and clean the hole once a year. The maker's instruction comes first.",
            "relief-hole-trade",
        )
    if texture:
        work.caution(
            "warning",
            "A rate by soil texture is a rule of thumb for new houses. Time the rise in a wet week before you choose a pump.",
            "illinois-extension-sump",
        )
    work.caution(
        "note",
        "Where a finished basement depends on the pump, a second pump on a battery is the owner's to decide on; say it in writing.",
    )
    work.not_looked_at(
        "Water that the stone round the pit holds, and the room that pump and pipe take in it.",
        "Voltage drop on a long cord.",
        "A blocked, frozen or flooded outlet.",
        "Wear of the pump.",
    )
