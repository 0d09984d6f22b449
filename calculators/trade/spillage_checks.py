"""What spillage-check compares with limits, where it stops the work, and its cautions."""

from typing import Any

from ..physics import air, openings
from ..physics import house as physics
from ..span import Span
from ..tables import table
from ..units import from_si, si
from ..work import Work
from . import spillage_words as words

PRESSURE, BAND = "in WC|Pa", "cm2/m2|cm2/m2"
CFM_US, CFM_SI = dict.fromkeys(("Q", "Q_r"), "cfm"), dict.fromkeys(("Q", "Q_r"), "L/s")
AREAS = {"a": "cm2/m2", "A": "cm2"}
REFERENCE = 4.0  # Pa, pressure of the leakage area: ASHRAE Fundamentals 2021, chapter 16, section 10


def leakage(work: Work, house: physics.House, p: float, T: float, floor: float | None) -> float | None:
    """Leakage area at 4 Pa for each floor area, and what a published model says of it."""
    rows = table("limits")["leakage_band"]
    found = None
    if floor is not None:
        Q = work.step(
            "Air leakage at 4 Pa",
            physics.leakage_flow,
            us=CFM_US,
            si=CFM_SI,
            Q_r=house.flow_50,
            dp=REFERENCE,
            dp_r=physics.TEST_PRESSURE,
            n=house.exponent,
        )
        rho = work.step("Air density indoors", air.dry_density, p=p, T=T)
        A = work.step("Leakage area at 4 Pa", openings.orifice_area, Q=Q, C=1.0, dp=REFERENCE, rho=rho)
        found = work.step("For each floor area", physics.leakage_per_floor, us=AREAS, si=AREAS, A=A, F=floor)
    work.at_least(
        "leakage-band",
        "The house leaks more, for its floor, than the tight small houses in which a model study looked for trouble. The "
        "study says itself that it does not predict the single house.",
        found=found,
        required=si(f"{rows[0]['high']} {rows[0]['unit']}"),
        unit=BAND,
        source="henschel-1997",
        needs=() if floor is not None else ("floor_area",),
    )
    return found


def compare(work: Work, rows: list[dict[str, Any]], span: Span, whole: bool) -> None:
    """Each appliance with its limit, at the value and at the far end; not judged while the system's part is missing."""
    for i, row in enumerate(rows):
        if row["limit"] is None:
            continue
        judged = whole or row["margin"] < 0
        work.at_most(
            f"limit:appliances[{i}]",
            f"At {row['name']} the fans add less than the limit that a programme table gives for its kind.",
            found=row["added"] if judged else None,
            required=row["limit"],
            unit=PRESSURE,
            source="depressurization-limits",
            needs=() if judged else ("system_house_air",),
        )
        if judged and row["margin"] >= 0:
            work.at_most(
                f"far-end:appliances[{i}]",
                f"At {row['name']} the far end of the range stays below that limit, too.",
                found=span.high,
                required=row["limit"],
                unit=PRESSURE,
                source="depressurization-limits",
            )


def tested(work: Work, before: str, after: str) -> None:
    """Whether the test that decides was done."""
    spelled = {"not-yet": "not yet", "did-not-spill": "did not spill", "spilled": "spilled"}
    work.judge(
        "spillage-test",
        "This house was tested for spillage in the worst case, before the system ran and with it running.",
        ok="not-yet" not in (before, after) and "spilled" not in (before, after),
        required="both tests, nothing spilled",
        found=f"before: {spelled[before]}; with the system: {spelled[after]}",
        source="astm-e1998",
    )


def stops(work: Work, *, solid_fuel: bool, whole_house_fan: bool, spilled: bool) -> None:
    """The hard stops."""
    if spilled:
        work.stop("spilled", words.SPILLED, found="spilled", required="no spillage", source="common-practice")
    if solid_fuel:
        work.stop(
            "solid-fuel", words.SOLID_FUEL, found="solid fuel", required="a specialist's test", source="common-practice"
        )
    if whole_house_fan:
        work.stop(
            "whole-house-fan",
            words.WHOLE_HOUSE,
            found="whole-house fan",
            required="locked out, in writing",
            source="common-practice",
        )


def cautions(
    work: Work,
    span: Span,
    rows: list[dict[str, Any]],
    exhausts: list[dict[str, Any]],
    system: float | None,
    handler: str,
    leak: float | None,
) -> None:
    """The cautions, and what was not looked at."""
    work.caution("danger", words.VERDICT, "henschel-1997")
    work.caution(
        "danger",
        "Carbon monoxide kills without a smell. Carry a meter and read the room air before you begin; above 35 ppm stop, "
        "burner off, air in, people out. If anyone feels ill, call the emergency number from outside.",
        "sws-2-0105",
    )
    work.caution(
        "danger",
        "Fire can roll out of a burner that cannot draw. Keep face and sleeves away and know where the gas valve is. Repairs "
        "are for the licensed trade.",
        "astm-e1998",
    )
    if not rows:
        work.caution(
            "warning",
            "No appliance was entered, so nothing was compared with a limit. Walk the house: water heater, furnace, boiler, "
            "fireplace, stove, gas dryer, also in garage and attic.",
        )
    if rows and any(row["margin"] is not None and 0 <= row["margin"] < span.high - span.value for row in rows):
        work.caution(
            "warning", "The range reaches past a limit: closed doors, blower or wrong leakage can use it up.", "derived"
        )
    if not exhausts:
        flows = "; ".join(_flow(row) for row in table("limits")["exhaust_flows"])
        work.caution(
            "warning",
            f"No exhaust was entered. Look for them all. Flows as one manual has them: {flows}.",
            "oil-heat-manual",
        )
    if system is None:
        work.caution(
            "warning",
            "The house air that the radon system takes was not entered and counts as none here. If you do not know it, enter "
            "the whole flow of the fan.",
            "derived",
        )
    if handler == "on" and not leak:
        work.caution(
            "warning",
            "The blower runs, but the leak of its return ducts is not given: nothing was added for it. It is often the "
            "strongest fan in the house. Shut the return grille in the appliance room and test with the blower on.",
        )
    if handler == "off":
        work.caution(
            "note",
            "The blower counts as off. Test with it on as well, and keep the worse of the two.",
            "worst-case-sheet-2010",
        )
    work.caution(
        "note",
        "The limits were seen only in a trade page that restates a US programme. Use the table that is in force where you "
        "work; one Canadian standard has others.",
        "depressurization-limits",
    )
    work.not_looked_at(
        "Whether vent and chimney are sound, sized and open. A bad vent spills without any fan.",
        "Doors: the house counts as one space. A closed appliance room with its own exhaust can be further down than the range.",
        "Wind at the chimney's top, and gusts.",
        "Appliances, fans and fireplaces that were not entered.",
        "Carbon monoxide that a burner makes: only a meter reads it.",
    )


def _flow(row: dict[str, Any]) -> str:
    low, high = row.get("low", row.get("value")), row.get("high", row.get("value"))
    both = [f"{low:g}" if low == high else f"{low:g} to {high:g}"]
    ends = [f"{from_si(si(f'{flow} cfm'), 'L/s'):.0f}" for flow in (low, high)]
    both.append(ends[0] if low == high else f"{ends[0]} to {ends[1]}")
    return f"{row['what']} {both[0]} cfm ({both[1]} L/s)"
