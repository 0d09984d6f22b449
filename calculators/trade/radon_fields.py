"""What the radon calculators share: how a level and a room are asked for, decay, figures out of the table of limits."""

from typing import Annotated, Any

from ..declare import Quantity, si
from ..physics import radon
from ..tables import si_of, table
from ..work import Work

LEVEL, HOURS = "pCi/L|Bq/m3", "h|h"
PCI = {"us": "pCi/L", "si": "Bq/m3"}
OUTDOOR = si("0.4 pCi/L")

AirChanges = Annotated[
    float,
    Quantity(
        "Air changes",
        "1/h",
        "1/h",
        "0.01 1/h",
        "60 1/h",
        help="How often in an hour outdoor air fills the room once. A tight house 0.1, a usual one 0.25 to 0.5.",
    ),
]


def level(label: str, low: str, high: str, *, help: str = "", source: str = "") -> Quantity:
    """A radon level, shown in pCi/L or Bq/m3."""
    return Quantity(label, PCI["us"], PCI["si"], low, high, help=help, source=source)


def in_units(system: str, *symbols: str) -> dict[str, str]:
    """The printed unit of symbols that are radon levels."""
    return dict.fromkeys(symbols, PCI[system])


def limit(*keys: str | int) -> dict[str, Any]:
    """A row of the table of limits: ``limit("test", "start-delay")``."""
    found: Any = table("limits")
    for key in keys:
        found = found[key]
    return dict(found)


def decay(work: Work) -> float:
    """The decay constant of radon [1/s], as a step."""
    return work.step("Decay of radon", radon.decay_constant, T_h=si_of(limit("decay", "half-life")))
