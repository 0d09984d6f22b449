"""What a published check is: a figure printed outside this project, beside the figure found here."""

from collections.abc import Callable
from dataclasses import dataclass

SEEN = ("seen", "secondary", "from memory")


@dataclass(frozen=True, slots=True)
class Check:
    """One printed figure and ours.

    ``id`` is unique; ``about`` names the calculator or physics module; ``source`` is an id of the register of
    sources and
    ``at`` the place in it; ``found`` computes our figure; ``printed`` and ``tolerance`` are in the same unit as
    found;
    ``because`` says why the tolerance is what it is; ``seen`` says whether the print itself was read.
    Raises ValueError when the reason, the place or the tolerance is missing.
    """

    id: str
    about: str
    source: str
    at: str
    found: Callable[[], float]
    printed: float
    tolerance: float
    because: str
    unit: str = "1"
    seen: str = "seen"

    def __post_init__(self) -> None:
        if not (self.id and self.about and self.source and self.at.strip() and self.because.strip()):
            raise ValueError(f"check {self.id!r}: id, about, source, at and because must all be said")
        if self.seen not in SEEN:
            raise ValueError(f"check {self.id!r}: seen is {self.seen!r}, accepted are {', '.join(SEEN)}")
        if not self.tolerance >= 0:
            raise ValueError(f"check {self.id!r}: tolerance {self.tolerance!r} must not be negative")

    @property
    def difference(self) -> float:
        """Ours minus the printed figure."""
        return self.found() - self.printed

    def holds(self) -> bool:
        """Whether ours lies within the tolerance of the printed figure."""
        return abs(self.difference) <= self.tolerance

    def __str__(self) -> str:
        """The row in words, for a test's message."""
        return (
            f"{self.source} {self.at}: printed {self.printed:g} {self.unit}, "
            f"found {self.found():g}, tolerance {self.tolerance:g}"
        )
