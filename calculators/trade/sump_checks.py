"""What sump-sealing compares, and what can hurt you at the lid."""

from typing import Any

from ..tables import rule_pack, si_of
from ..units import from_si
from ..work import Work
from .pit_cautions import pump_under_lid
from .sump_parts import holds

INCHES = "in|mm"
FLAGS = {
    "lid-fastened": (
        "lid_fastened",
        "The lid is fastened so that it stays, and comes off again for service.",
        "ccah-2020",
        "404.1.1",
    ),
    "grommets": (
        "grommets",
        "Cord and pipes pass through the lid in grommets or boots, so that they can be taken out.",
        "ccah-2020",
        "404.1.1",
    ),
    "view-port": ("view_port", "The water can be seen without opening the lid.", "rms-lb-2018", "7.5 advisory"),
    "hand-access": ("hand_access", "Pump and float can be reached by hand for service.", "common-practice", ""),
    "check-valve": (
        "check_valve",
        "A check valve on the pump or its pipe keeps the water from running back.",
        "rms-lb-2018",
        "7.5.3",
    ),
}


def flow_words(flow: float) -> str:
    """A flow [m3/s] in both systems of units, for a sentence."""
    return f"{from_si(flow, 'cfm'):.0f} cfm ({from_si(flow, 'L/s'):.0f} L/s)"


def compare(
    work: Work,
    *,
    pit_receives: str,
    only_floor_drain: str,
    water_way: bool | None,
    pump_type: str,
    alarm_circuit: str,
    drains: list[dict[str, Any]],
    needed: float,
    draws: bool,
    flags: dict[str, bool | None],
) -> None:
    """All comparisons of pit, pump, lid and drains."""
    if not draws:
        work.judge(
            "fan-draws",
            "The fan makes no suction against this system.",
            ok=False,
            found="no suction",
            required="suction in the pit",
            source="network-balance",
        )
    _pit(work, pit_receives)
    _pump(work, pump_type)
    _floor(work, only_floor_drain, water_way)
    _traps(work, pit_receives, drains, needed)
    for id, given in flags.items():
        if id == "check-valve" and pump_type == "none":
            continue
        field, text, source, section = FLAGS[id]
        work.judge(
            id,
            text,
            ok=given,
            found=given,
            required=True,
            source=source,
            section=section,
            needs=() if given is not None else (field,),
        )
    if pump_type != "none":
        work.judge(
            "alarm",
            "A high-water alarm is on another circuit than the pump, so that one tripped breaker does not silence "
            "both.",
            ok=None if alarm_circuit == "unknown" else alarm_circuit == "separate",
            found=None if alarm_circuit == "unknown" else alarm_circuit,
            required="separate",
            source="common-practice",
            needs=("alarm_circuit",) if alarm_circuit == "unknown" else (),
        )


def _pit(work: Work, receives: str) -> None:
    if receives == "sewage":
        work.stop(
            "pit-kind",
            "This is a sewage or ejector pit. It has a gas-tight cover and a vent of its own that stays open to "
            "the air: never draw on it, never open it for this work. Look for the drain-water pit.",
            found=receives,
            required="ground-water",
            source="cpc-2013",
            section="710.10",
        )
    elif receives == "laundry":
        work.caution(
            "danger",
            "If this pit has a bolted cover and a vent pipe of its own it is an ejector pit: stop and leave it "
            "shut. If laundry water only runs into a drain-water pit, keep that drain working and trap it.",
            "cpc-2013",
        )
    else:
        known = receives == "ground-water"
        work.judge(
            "pit-kind",
            "The pit receives ground water only.",
            ok=True if known else None,
            found=receives if known else None,
            required="ground-water",
            source="cpc-2013",
            section="710.10",
            needs=() if known else ("pit_receives",),
        )


def _pump(work: Work, pump_type: str) -> None:
    if pump_type == "pedestal":
        work.stop(
            "pump-kind",
            "A pedestal pump has its motor above the pit and its float rod through the lid: it cannot be sealed "
            "in. Have it replaced by a submersible pump before a lid goes on.",
            found=pump_type,
            required="submersible",
            source="common-practice",
        )


def _floor(work: Work, only: str, way: bool | None) -> None:
    if only == "yes" and way is not True:
        work.stop(
            "water-way",
            "The pit is the only way out for water on this floor, and no other way is known. Do not seal it before "
            "the lid has a trapped inlet or the floor another drain.",
            found="another way" if way else "no other way" if way is False else "not said",
            required="another way for water",
            source="rms-lb-2018",
            section="7.5.2",
        )
        return
    known = only != "unknown"
    work.judge(
        "water-way",
        "Water on the floor has a way out when the lid is sealed.",
        ok=True if known or way else None,
        found="another way" if way else "not the only drain" if known else None,
        required="another way for water",
        source="rms-lb-2018",
        section="7.5.2",
        needs=() if known or way else ("only_floor_drain",),
    )


def _traps(work: Work, receives: str, drains: list[dict[str, Any]], needed: float) -> None:
    for i, drain in enumerate(drains):
        field = f"drains[{i}].trap_seal"
        work.at_least(
            f"trap:{field}",
            f"The trap of the {drain['kind']} drain is deep enough for all that the fan can do, with an inch to spare.",
            found=drain["trap_seal"],
            required=needed,
            unit=INCHES,
            source="hydrostatics",
            needs=() if drain["trap_seal"] is not None else (field,),
        )
        if drain["kind"] == "condensate":
            _machine(work, f"machine-drain:{field}", drain["trap_seal"], field)
    if receives == "laundry":
        seals = [drain["trap_seal"] for drain in drains if drain["trap_seal"] is not None]
        _machine(work, "laundry-trap", min(seals) if seals else None, "drains")


def _machine(work: Work, id: str, seal: float | None, field: str) -> None:
    row = next(row for row in rule_pack("sgm-sf-2017")["rows"] if row["quantity"] == "trap_seal")
    work.at_least(
        id,
        "A machine's drain into soil or pit has a trap this deep. A one-way valve, a condensate pump or another "
        "drain does as well.",
        found=seal,
        required=si_of(row),
        unit=INCHES,
        source=row["source"],
        section=row["section"],
        needs=() if seal is not None else (field,),
    )


def cautions(
    work: Work,
    *,
    lid_off: float | None,
    greatest: float,
    leak: float,
    pump_type: str,
    drains: list[dict[str, Any]],
    fittings: bool,
    starts: float,
) -> None:
    """The cautions of the lid, the pit and the pump; what was not looked at."""
    drawn = f"about {flow_words(lid_off)}" if lid_off is not None else f"more than {flow_words(greatest)}"
    work.caution(
        "danger",
        f"Switch the fan off before the lid is opened. With the lid off it draws {drawn} out of the house, and a "
        "burner can then pull its flue gas back into the room. Carbon monoxide gives no warning.",
        "henschel-1997",
    )
    if leak > 0:
        work.caution(
            "danger",
            f"The openings draw about {flow_words(leak)} of house air all the time. That too can back-draft a "
            "burner: test it under worst case, before and after the work.",
            "henschel-1997",
        )
    if pump_type != "none":
        pump_under_lid(work)
    work.caution(
        "warning",
        "Once it is sealed, water can no longer run into the pit from above. Give the floor another way, such as a "
        "trapped inlet in the lid.",
        "rms-lb-2018",
    )
    work.caution(
        "warning",
        "An open pit gives off soil gas. Air the room while you work at it, and keep children and the curious away "
        "from the hole.",
    )
    work.caution(
        "note",
        "Use a gasket or a sealant that peels off again, such as silicone, so that the next pump change does not "
        "destroy the lid.",
        "ccah-2020",
    )
    work.caution(
        "note",
        "A rough-in standard for new houses does not allow the suction point in a sump lid; other rules do. Check "
        "what is in force where you work.",
        "rrnc-2020",
    )
    if starts > 0:
        work.caution(
            "note",
            "The fan's curve does not start at no flow, so its greatest suction is not known: the trap seal needed "
            "is at least this.",
        )
    if not fittings:
        work.caution("note", "No fittings were entered. Elbows cost suction before the lid does.")
    _left_out(work, drains)


def _left_out(work: Work, drains: list[dict[str, Any]]) -> None:
    for drain in drains:
        if drain["open_area"] is None and not holds(drain, float("inf")):
            work.not_looked_at(
                f"Air through the {drain['kind']} drain, should its trap be dry: no open area was given."
            )
    work.not_looked_at(
        "The rim between basin and concrete.",
        "Openings of the drain tile elsewhere: a broken line, a clean-out, hollow block walls.",
        "Whether the suction reaches under the slab; only test holes show that.",
        "Wear of the fan, and fittings by another table.",
        "The colder air of the soil and the warmer air of the house: one density stands for both.",
    )
