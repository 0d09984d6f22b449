"""What a calculator writes down while it works: steps, checks, cautions, what it left out, plots."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple


def given(value: float | None) -> float:
    """An input that the reader or the calculator has made sure of.  Raises ValueError when it is missing all the same."""
    if value is None:
        raise ValueError("an input that must be there is missing")
    return value


class Step(NamedTuple):
    """One line of arithmetic: the function that was called, with which SI values, and what it gave.

    ``us`` and ``si`` name, by symbol, the units in which the step is printed; symbols left out keep the formula's own.
    """

    title: str
    function: Any
    arguments: dict[str, float]
    value: float
    us: Mapping[str, str]
    si: Mapping[str, str]


class Check(NamedTuple):
    """One comparison.  ``required``, ``found`` and ``margin`` are SI floats shown in ``unit`` (``us|si``), or plain values."""

    id: str
    ok: bool | None
    text: str
    required: Any
    found: Any
    margin: float | None
    unit: str
    source: str
    section: str
    needs: tuple[str, ...]
    stop: bool


class Caution(NamedTuple):
    """A caution; ``level`` is danger, warning or note."""

    level: str
    text: str
    source: str


class Plot(NamedTuple):
    """Curves over one axis in SI values; each axis is (name, ``us|si`` unit, values)."""

    name: str
    title: str
    x: tuple[str, str, Sequence[float]]
    series: tuple[tuple[str, str, Sequence[float]], ...]
    point: tuple[float, float] | None


class Work:
    """Collects what a calculator does.  One is made for each solve; nothing in it is shared."""

    __slots__ = ("_drawn", "_to_draw", "cautions", "checks", "filled", "left_out", "steps")

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.checks: list[Check] = []
        self.cautions: list[Caution] = []
        self.left_out: list[str] = []
        self._drawn: list[Plot] = []
        self._to_draw: list[tuple[Any, ...]] = []
        self.filled: dict[str, Any] = {}

    def fill(self, name: str, given: Any, value: Any) -> Any:
        """The given input, or a default that depends on other inputs; a filled-in value is shown as a default."""
        if given is None:
            self.filled[name] = value
            return value
        return given

    def step(
        self,
        title: str,
        function: Callable[..., float],
        *,
        us: Mapping[str, str] | None = None,
        si: Mapping[str, str] | None = None,
        **arguments: float,
    ) -> float:
        """Call a physics function with SI arguments and keep the call as a line of the worked solution."""
        return self.apply(title, function, arguments, us=us, si=si)

    def apply(
        self,
        title: str,
        function: Callable[..., float],
        arguments: dict[str, float],
        *,
        us: Mapping[str, str] | None = None,
        si: Mapping[str, str] | None = None,
    ) -> float:
        """As ``step``, for arguments that come as a dictionary."""
        value = function(**arguments)
        self.steps.append(Step(title, function, arguments, value, us or {}, si or {}))
        return value

    def at_least(
        self,
        id: str,
        text: str,
        *,
        found: float | None,
        required: float | None,
        unit: str,
        source: str,
        section: str = "",
        needs: Sequence[str] = (),
        strict: bool = False,
        stop: bool = False,
    ) -> bool | None:
        """Compare ``found >= required`` (``>`` when strict); None when one is missing.  Returns the verdict."""
        margin = None if found is None or required is None else found - required
        ok = None if margin is None else (margin > 1e-9 if strict else margin >= -1e-9)
        return self.judge(
            id, text, ok=ok, required=required, found=found, margin=margin, unit=unit, source=source, section=section,
            needs=needs, stop=stop,
        )  # fmt: skip

    def at_most(
        self,
        id: str,
        text: str,
        *,
        found: float | None,
        required: float | None,
        unit: str,
        source: str,
        section: str = "",
        needs: Sequence[str] = (),
        stop: bool = False,
    ) -> bool | None:
        """Compare ``found <= required``; None when one is missing.  Returns the verdict."""
        margin = None if found is None or required is None else required - found
        ok = None if margin is None else margin >= -1e-9
        return self.judge(
            id, text, ok=ok, required=required, found=found, margin=margin, unit=unit, source=source, section=section,
            needs=needs, stop=stop,
        )  # fmt: skip

    def judge(
        self,
        id: str,
        text: str,
        *,
        ok: bool | None,
        required: Any = None,
        found: Any = None,
        margin: float | None = None,
        unit: str = "1|1",
        source: str,
        section: str = "",
        needs: Sequence[str] = (),
        stop: bool = False,
    ) -> bool | None:
        """A comparison of another kind.  A failed one with ``stop`` is a hard stop and needs a danger caution beside it."""
        self.checks.append(
            Check(id, ok, text, required, found, margin, unit, source, section, tuple(needs), stop and ok is False)
        )
        return ok

    def caution(self, level: str, text: str, source: str = "common-practice") -> None:
        """Add a caution (danger, warning, note)."""
        self.cautions.append(Caution(level, text, source))

    def stop(self, id: str, text: str, *, found: Any, required: Any, source: str, section: str = "") -> None:
        """A hard stop: a failed check and the danger caution that goes with it."""
        self.judge(id, text, ok=False, found=found, required=required, source=source, section=section, stop=True)
        self.caution("danger", text, source)

    def not_looked_at(self, *texts: str) -> None:
        """Say what this answer leaves out."""
        self.left_out.extend(texts)

    @property
    def plots(self) -> list[Plot]:
        """The plots; those put off are worked out now."""
        put_off, self._to_draw = self._to_draw, []
        for draw, *arguments in put_off:
            draw(*arguments)
        return self._drawn

    def plot_later(self, draw: Callable[..., None], *arguments: Any) -> None:
        """Put off a plot that takes time until somebody looks: the answer does not wait for it.

        ``draw`` is then called with these arguments; it calls ``plot``.
        """
        self._to_draw.append((draw, *arguments))

    def plot(
        self,
        name: str,
        title: str,
        x: tuple[str, str, Sequence[float]],
        *series: tuple[str, str, Sequence[float]],
        point: tuple[float, float] | None = None,
    ) -> None:
        """Add a plot of at most 201 points a series."""
        self._drawn.append(Plot(name, title, x, series, point))
