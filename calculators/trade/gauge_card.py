"""The card beside the gauge: mark, where to call, what the system as built should read, in every unit of a gauge."""

from typing import NamedTuple

from ..span import Span
from ..tables import si_of, table
from ..units import from_si

# Unit on the scale of a gauge -> places after the point to which such a scale can be read.
UNITS = {"in WC": 2, "Pa": 0, "mm WC": 1, "mbar": 2}
NO_RADON = "This gauge shows suction, not radon. Test for radon at least every two years."


class Line(NamedTuple):
    """One line of the card: what it is, and the suction [Pa]."""

    label: str
    suction: float


def of(mark: float | None, expected: Span) -> list[Line]:
    """The card's lines for a mark [Pa] and the range expected of the system as built [Pa], which stands in for no mark."""
    mark = expected.value if mark is None else mark
    share = si_of(table("limits")["gauge"]["change"])
    return [
        Line("Mark", mark),
        Line("Call for service at or below", mark * (1 - share)),
        Line("Call for service at or above", mark * (1 + share)),
        Line("As built, worked out", expected.value),
        Line("As built, least", expected.low),
        Line("As built, most", expected.high),
    ]


def figures(suction: float) -> list[str]:
    """A suction [Pa] as each kind of gauge shows it, without the unit."""
    return [f"{from_si(suction, unit):.{places}f}" for unit, places in UNITS.items()]


def said(suction: float) -> str:
    """A suction [Pa] in all units, the first one in front."""
    first, *others = (f"{text} {unit}" for text, unit in zip(figures(suction), UNITS, strict=True))
    return f"{first} ({', '.join(others)})"
