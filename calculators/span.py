"""A number with the range in which it may honestly lie."""

from collections.abc import Callable
from typing import Any


class Span:
    """A result with its honest range: ``low <= value <= high`` in SI, and what made the range."""

    __slots__ = ("high", "low", "value", "why")

    def __init__(self, value: float, low: float, high: float, why: str) -> None:
        self.value, self.low, self.high, self.why = value, min(low, value), max(high, value), why


class LateSpan(Span):
    """A Span whose range is worked out when somebody looks at it: the number itself does not wait for that."""

    __slots__ = ("_work_out",)

    def __init__(self, value: float, work_out: Callable[[], Span]) -> None:
        self.value, self._work_out = value, work_out

    def __getattr__(self, name: str) -> Any:
        if name not in Span.__slots__:
            raise AttributeError(name)
        found = self._work_out()
        self.low, self.high, self.why = found.low, found.high, found.why
        return getattr(self, name)
