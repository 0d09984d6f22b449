"""Ties a printed equation, its units and its source to the function that computes it."""

from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

Function = TypeVar("Function", bound=Callable[..., float])


class Formula(NamedTuple):
    """A printed equation: ``text`` is a Python equation, ``units`` the units in which it holds, by symbol."""

    text: str
    source: str
    units: dict[str, str]

    @property
    def symbol(self) -> str:
        """The symbol of the result (left side)."""
        return self.text.partition("=")[0].strip()

    @property
    def right(self) -> str:
        """The right side, a Python expression in the argument names."""
        return self.text.partition("=")[2].strip()


def formula(text: str, *, source: str, **units: str) -> Callable[[Function], Function]:
    """Attach the printed equation to a function of SI arguments.

    ``source`` is an id of ``data/sources.json``.  ``units`` names, for each symbol of the equation, the unit in which
    the equation holds: SI for physical laws, the published unit for an empirical one.  Raises ValueError when the
    left side is no single symbol with a unit.
    """
    printed = Formula(text, source, units)
    if printed.symbol not in units or not printed.right:
        raise ValueError(f"{text!r}: the left side must be one symbol with a unit")

    def attach(function: Function) -> Function:
        target: Any = function
        target.formula = printed
        return function

    return attach
