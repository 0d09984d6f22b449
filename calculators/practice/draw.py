"""Seeded numbers for problems: rounded first, so that the key comes from what the learner reads."""

import random
from collections.abc import Sequence
from re import sub
from typing import Any, NamedTuple, TypeVar

from ..units import short, si

Item = TypeVar("Item")


def spelled(unit: str) -> str:
    """A unit as people write it: squares and cubes raised, degrees with their sign.  Readers of units take both."""
    raised = sub(r"(?<=[a-z])([23])\b", lambda power: "²³"[int(power[1]) - 2], unit)
    return sub(r"\bdeg(?=[CF]\b)", "°", raised)


class Shown(NamedTuple):
    """A number as the problem shows it: value and unit; ``str`` is what is printed and what a calculator reads."""

    value: float
    unit: str

    def __str__(self) -> str:
        return f"{short(self.value, 6)} {spelled(self.unit)}".removesuffix(" 1")

    @property
    def si(self) -> float:
        """The same in SI."""
        return si(str(self))


class Draw:
    """All chance of one problem.  Equal seeds give equal problems, on any Python."""

    def __init__(self, seed: str, units: str) -> None:
        self.random, self.units = random.Random(seed), units

    def number(
        self, us: tuple[float, float, float, str], metric: tuple[float, float, float, str] | None = None
    ) -> Shown:
        """A number between low and high in whole steps: (low, high, step, unit), in US units and in SI.

        Without ``metric`` the US numbers serve both.
        """
        low, high, step, unit = us if self.units == "us" or metric is None else metric
        steps = round((high - low) / step)
        return Shown(round(low + step * self.whole(0, steps), 9), unit)

    def whole(self, low: int, high: int) -> int:
        """A whole number from low to high, both included."""
        return low + self.random.randrange(high - low + 1)

    def pick(self, items: Sequence[Item]) -> Item:
        """One of the items."""
        return items[self.random.randrange(len(items))]

    def shuffled(self, items: Sequence[Item]) -> list[Item]:
        """The items in another order."""
        left, out = list(items), []
        while left:
            out.append(left.pop(self.random.randrange(len(left))))
        return out

    def text(self, us: Any, metric: Any) -> Any:
        """The first in US units, the second in SI."""
        return us if self.units == "us" else metric
