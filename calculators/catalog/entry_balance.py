"""Radon that comes into a room, and the level that it holds there."""

from typing import Annotated, Any

from ..declare import REQUIRED, Quantity, Refusal, calculator
from ..physics import radon
from ..trade.radon_fields import OUTDOOR, AirChanges, decay, in_units, level
from ..units import from_si
from ..work import Work

US = {"E": "pCi/s", "V": "L", **in_units("us", "C", "C_o")}
SETTLED = 0.05  # share of the way that is left when a level counts as settled

Volume = Annotated[
    float, Quantity("Volume of the room", "ft3", "m3", "10 ft3", "100000 ft3", help="All rooms whose air mixes.")
]
Entry = Annotated[
    float | None, Quantity("Radon entering", "pCi/s", "Bq/s", "0 pCi/s", "10000000 pCi/s", help="Or give the level.")
]
Level = Annotated[float | None, level("Level in the room", "0 pCi/L", "1000000 pCi/L", help="A mean that has settled.")]
Outdoor = Annotated[float, level("Level outdoors", "0 pCi/L", "20 pCi/L", source="epa-citizens-guide")]


@calculator(
    name="entry-balance",
    part="look-up",
    title="Radon entering and the level it holds",
    main="entry_rate",
    one_of={"entry": ("entry_rate", "concentration")},
    results={
        "concentration": Quantity("Level in the room", "pCi/L", "Bq/m3"),
        "entry_rate": Quantity("Radon entering", "pCi/s", "Bq/s"),
        "outdoor_level": Quantity("Level from outdoor air alone", "pCi/L", "Bq/m3"),
        "settling_time": Quantity("Settles to within 5 % in", "h", "h"),
    },
)
def entry_balance(
    work: Work,
    *,
    volume: Volume,
    air_changes: AirChanges,
    entry_rate: Entry = REQUIRED,
    concentration: Level = REQUIRED,
    outdoor: Outdoor = OUTDOOR,
) -> dict[str, Any]:
    """The level that radon entering at a steady rate holds in a well mixed room, or the entry that a level needs.

    Outdoor air brings some and decay takes some.  Raises Refusal for a level below what outdoor air alone leaves.
    SI in and out.
    """
    lam = decay(work)
    base = work.step(
        "Level from outdoor air alone",
        radon.outdoor_level,
        us=in_units("us", "C_b", "C_o"),
        a=air_changes,
        C_o=outdoor,
        lam=lam,
    )
    if concentration is None:
        assert entry_rate is not None
        C = work.step(
            "Level in the room", radon.steady_level, us=US, E=entry_rate, V=volume, a=air_changes, C_o=outdoor, lam=lam
        )
        E = entry_rate
    else:
        if concentration < base * (1 - 1e-9):
            raise Refusal(
                "concentration",
                "outdoor air alone leaves more than this in the room",
                found=f"{from_si(concentration, 'pCi/L'):.3g} pCi/L",
                accepts=f"at least {from_si(base, 'pCi/L'):.3g} pCi/L, or a lower level outdoors",
            )
        C = concentration
        E = work.step("Radon entering", radon.entry_rate, us=US, V=volume, C=C, a=air_changes, lam=lam, C_o=outdoor)
        E = max(E, 0.0)
    settled = work.step(
        "Time in which a change settles to within 5 %", radon.settling_time, x=SETTLED, a=air_changes, lam=lam
    )
    work.caution(
        "warning",
        "Do not cure a house by airing alone: an open basement window can also draw more soil gas in, and it is shut in winter.",
    )
    work.caution("note", "The gauge shows suction, not radon. Only a radon test shows radon.")
    work.not_looked_at(
        "Rooms whose air does not mix with this one.",
        "Entry that changes with weather, season and suction: this is one steady rate.",
        "Which way the radon came: soil, well water, concrete or stone.",
    )
    return {"concentration": C, "entry_rate": E, "outdoor_level": base, "settling_time": settled}
