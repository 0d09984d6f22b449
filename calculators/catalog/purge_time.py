"""How long to air a room before work goes on in it."""

from typing import Annotated, Any

from ..declare import Quantity, calculator
from ..physics import radon
from ..span import Span
from ..trade.radon_fields import AirChanges
from ..work import Work

POOR = 10.0  # times longer in a badly mixed room, at most

Removal = Annotated[
    float, Quantity("Share to be removed", "%", "%", "0 %", "99.999 %", help="Of what is in the air above fresh air.")
]
Mixing = Annotated[
    float,
    Quantity(
        "Mixing factor",
        "1",
        "1",
        "1",
        "10",
        source="common-practice",
        help="1 where fresh air reaches every corner, up to 10 where it passes straight from door to window.",
    ),
]


@calculator(
    name="purge-time",
    part="look-up",
    title="How long to air a room",
    main="time",
    results={
        "time": Quantity("Airing takes", "min", "min"),
        "volumes": Quantity("Fresh air used, in volumes of the room", "1", "1"),
    },
)
def purge_time(work: Work, *, air_changes: AirChanges, removal: Removal, mixing_factor: Mixing = 1.0) -> dict[str, Any]:
    """Time in which clean air flushes a share of a gas out of a room that nothing more enters.

    A well mixed room, slowed by the mixing factor; decay is left out.  SI in and out.
    """
    t = work.step("Airing takes", radon.purge_time, m=mixing_factor, R=removal, a=air_changes)
    work.caution(
        "danger",
        "This is not a time after which a room is fit to enter. If a carbon monoxide alarm sounds or a burner spills, get "
        "everybody out, call from outside, and let the fire service or a licensed person measure.",
    )
    work.caution(
        "warning",
        "Close the open pit, hole or pipe first. While soil gas comes in, the level stays up however long the room is aired.",
    )
    work.caution(
        "note",
        "A radon test needs a closed house from 12 hours before it begins: air the room well before that, not during it.",
        "mah-2019",
    )
    work.not_looked_at(
        "Gas that goes on coming in.",
        "Corners, closets and closed rooms that the fresh air does not reach.",
        "Radon decay products on dust, which settle and decay by themselves within hours.",
        "What the air outdoors brings in.",
    )
    return {
        "time": Span(
            t, t / mixing_factor, t / mixing_factor * POOR, "mixing factor from 1 to 10, as a room may have it"
        ),
        "volumes": air_changes * t,
    }
