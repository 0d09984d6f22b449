"""The words that a calculator's declaration is made of: what goes in, what comes out, how both are worded."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from .units import Other, difference, si, unit

__all__ = [
    "REQUIRED",
    "Checks",
    "Choice",
    "Count",
    "Curves",
    "Date",
    "Declaration",
    "Field",
    "Flag",
    "InputError",
    "List",
    "Map",
    "Other",
    "Quantity",
    "Record",
    "Refusal",
    "Several",
    "Table",
    "Text",
    "Texts",
    "calculator",
    "difference",
    "inputs_of",
    "si",
]

REQUIRED: Any = object()
PARTS = (
    "before-you-go",
    "read-the-building",
    "choose-the-route",
    "under-the-slab",
    "the-sump",
    "water-and-pump",
    "pipe-and-fan",
    "where-it-ends",
    "air-the-house-burns",
    "prove-and-hand-over",
    "look-up",
)
_BASES = (
    "1",
    "m",
    "m2",
    "m3",
    "m3/s",
    "m/s",
    "Pa",
    "Pa*s",
    "K",
    "s",
    "kg",
    "kg/m3",
    "W",
    "J",
    "Bq",
    "Bq/m3",
    "Bq/s",
    "Sv",
    "1/s",
    "m3/s/Pa",
    "m3/s/Pa/m",
    "m/s/Pa",
    "J*s/m3",
    "W/m2/K",
    "W/m/K",
    "s/m",
    "K*s",
    "money",
    "money/J",
)
_BASE_BY_DIMS = {unit(name).dims: name for name in reversed(_BASES)}


def base_unit(shown: str) -> str:
    """The SI base unit of a shown unit: ``m`` for ``in``, ``m3/s`` for ``cfm``.  Raises KeyError for a new dimension."""
    return "m/m" if shown == "m/m" else _BASE_BY_DIMS[unit(shown).dims]


class Field:
    """One thing that goes in or comes out: a label, what it means, and where its limits come from."""

    kind = "text"

    def __init__(self, label: str, *, help: str = "", source: str = "") -> None:
        self.label, self.help, self.source = label, help, source


class Text(Field):
    """Free text of at most 200 characters."""


class Flag(Field):
    """True or false."""

    kind = "flag"


class Date(Field):
    """A date or a date and time, ISO 8601, local."""

    kind = "date"


class Quantity(Field):
    """A number with a unit.

    ``us`` and ``si`` are the units it is shown in; ``low`` and ``high`` are texts with a unit, bounds included.
    ``by`` names a choice whose value picks the shown units: then ``us`` and ``si`` map that value to a unit.
    ``base`` overrides the SI base unit where a dimension has two names (J/m3 and Pa).  ``also`` is a quantity of
    another dimension that is read too, as ``Other``.
    """

    kind = "quantity"

    def __init__(
        self,
        label: str,
        us: str | Mapping[str, str],
        si: str | Mapping[str, str],
        low: str | None = None,
        high: str | None = None,
        *,
        by: str = "",
        base: str = "",
        difference: bool = False,
        also: "Quantity | None" = None,
        help: str = "",
        source: str = "",
    ) -> None:
        super().__init__(label, help=help, source=source)
        self.us, self.si, self.by, self.difference, self.also = us, si, by, difference, also
        self.base = base or base_unit(si if isinstance(si, str) else next(iter(si.values())))
        self.low, self.high = low, high
        self.low_si = None if low is None else _bound(low, difference)
        self.high_si = None if high is None else _bound(high, difference)

    def shown(self, system: str, values: Mapping[str, Any]) -> str:
        """The unit this is shown in, in the system ``us`` or ``si``."""
        units = self.us if system == "us" else self.si
        return units if isinstance(units, str) else units.get(values.get(self.by, ""), next(iter(units.values())))


def _bound(text: str, is_difference: bool) -> float:
    return difference(text) if is_difference else si(text)


class Count(Field):
    """A whole number."""

    kind = "count"

    def __init__(self, label: str, low: int = 0, high: int = 1000, *, help: str = "", source: str = "") -> None:
        super().__init__(label, help=help, source=source)
        self.low, self.high = low, high


class Choice(Field):
    """One of the listed words.  ``free`` is a quantity that may be given in their place."""

    kind = "choice"

    def __init__(
        self, label: str, choices: Iterable[str], *, free: Quantity | None = None, help: str = "", source: str = ""
    ) -> None:
        super().__init__(label, help=help, source=source)
        self.choices, self.free = tuple(choices), free


class Several(Choice):
    """Any of the listed words, at most ``most`` of them; ``alone`` are words that exclude the others."""

    def __init__(
        self,
        label: str,
        choices: Iterable[str],
        *,
        alone: Iterable[str] = (),
        least: int = 0,
        most: int = 20,
        help: str = "",
        source: str = "",
    ) -> None:
        super().__init__(label, choices, help=help, source=source)
        self.alone, self.least, self.most = tuple(alone), least, most


class Record(Field):
    """An object with named members.

    ``need`` lists the members that must be there; ``either`` lists groups of members of which exactly one whole group
    must be given; ``one_of`` names groups of members of which exactly one must be given, as a calculator's own;
    ``defaults`` holds SI values of members that may be left out.  ``calculator`` names the calculator whose whole input
    this is.
    """

    kind = "object"
    calculator = ""

    def __init__(
        self,
        label: str,
        fields: Mapping[str, Field],
        *,
        need: Iterable[str] = (),
        either: Iterable[tuple[str, ...]] = (),
        one_of: Mapping[str, tuple[str, ...]] | None = None,
        defaults: Mapping[str, Any] | None = None,
        help: str = "",
        source: str = "",
    ) -> None:
        super().__init__(label, help=help, source=source)
        self.fields, self.need, self.either, self.one_of, self.defaults = (
            dict(fields),
            tuple(need),
            tuple(either),
            dict(one_of or {}),
            dict(defaults or {}),
        )


class List(Field):
    """A list of objects of one shape."""

    kind = "list"

    def __init__(
        self, label: str, item: Record, low: int = 0, high: int = 50, *, help: str = "", source: str = ""
    ) -> None:
        super().__init__(label, help=help, source=source)
        self.item, self.low, self.high = item, low, high


class Table(Field):
    """A result of several rows; ``fields`` are its columns.  Rows are mappings of SI values."""

    kind = "table"

    def __init__(self, label: str, fields: Mapping[str, Field], *, help: str = "") -> None:
        super().__init__(label, help=help)
        self.fields = dict(fields)


class Amounts(Field):
    """A result that is a list of quantities of one kind."""

    kind = "list"

    def __init__(self, label: str, item: Quantity) -> None:
        super().__init__(label)
        self.item = item


class Texts(Field):
    """A result that is a list of sentences or names."""

    kind = "list"


class Checks(Field):
    """A column of a result table that holds a list of checks (``work.Check``)."""

    kind = "list"


class Curves(Field):
    """A result that is a set of plotted series."""

    kind = "curves"


class Map(Field):
    """A result that is a grid of ``item`` quantities over a plan in ``place`` units; a function gives it when asked for."""

    kind = "map"

    def __init__(self, label: str, item: Quantity, place: Quantity) -> None:
        super().__init__(label)
        self.item, self.place = item, place


class InputError(ValueError):
    """Input that was not understood or contradicts itself; ``problems`` is the list that the interfaces print."""

    def __init__(self, problems: list[dict[str, Any]], calculator: str | None = None) -> None:
        super().__init__("; ".join(f"{p['field'] or 'input'}: {p['problem']}" for p in problems))
        self.problems, self.calculator = problems, calculator


class Refusal(InputError):
    """A calculator refuses: a contradiction between fields (``conflict``) or a case outside its model (``outside-model``)."""

    def __init__(self, field: str, problem: str, *, found: str = "", accepts: str = "", kind: str = "conflict") -> None:
        super().__init__([{"field": field, "problem": problem, "found": found, "accepts": accepts, "kind": kind}])


def refuse(wrong: Sequence[InputError]) -> None:
    """Raise all that is wrong as one InputError; nothing when the list is empty."""
    if wrong:
        raise InputError([problem for error in wrong for problem in error.problems])


class Declaration:
    """All that the interfaces need to know of a calculator; read from its function once."""

    def __init__(
        self,
        function: Callable[..., dict[str, Any]],
        *,
        name: str,
        part: str,
        title: str,
        results: dict[str, Field],
        one_of: Mapping[str, tuple[str, ...]],
        at_most_one: Mapping[str, tuple[str, ...]],
        main: str,
    ) -> None:
        if part not in PARTS:
            raise ValueError(f"{name}: no part {part!r}")
        self.function, self.name, self.part, self.title = function, name, part, title
        self.results, self.one_of, self.at_most_one, self.main = results, dict(one_of), dict(at_most_one), main
        self.summary = (function.__doc__ or "").partition("\n")[0]
        self.inputs: dict[str, tuple[Field, Any]] = inputs_of(function)
        self._groups = {
            name: (group, members, needed)
            for groups, needed in ((self.at_most_one, False), (self.one_of, True))
            for group, members in groups.items()
            for name in members
        }

    def group_of(self, name: str) -> tuple[str, tuple[str, ...], bool] | None:
        """The group of inputs that exclude each other: its name, its members, whether one must be given."""
        return self._groups.get(name)

    def required(self, name: str) -> bool | str:
        """True, False, ``one-of:<group>`` (one must be given) or ``one-of?:<group>`` (at most one)."""
        group = self.group_of(name)
        if group:
            return f"one-of{'' if group[2] else '?'}:{group[0]}"
        return self.inputs[name][1] is REQUIRED


def inputs_of(function: Callable[..., Any]) -> dict[str, tuple[Field, Any]]:
    """The inputs of a calculator, in order: field and SI default (REQUIRED if there is none)."""
    code, defaults = function.__code__, function.__kwdefaults__ or {}
    names = code.co_varnames[code.co_argcount : code.co_argcount + code.co_kwonlyargcount]
    return {name: (function.__annotations__[name].__metadata__[0], defaults.get(name, REQUIRED)) for name in names}


def calculator(
    *,
    name: str,
    part: str,
    title: str,
    results: dict[str, Field],
    main: str = "",
    one_of: Mapping[str, tuple[str, ...]] | None = None,
    at_most_one: Mapping[str, tuple[str, ...]] | None = None,
) -> Callable[[Any], Any]:
    """Declare a keyword-only function of SI values as a calculator.

    Its annotated parameters are the inputs, ``results`` what it returns, ``main`` the result that is shown first (the
    first one if empty).  ``one_of`` names groups of inputs of which exactly one must be given, ``at_most_one`` groups
    that exclude each other.
    """

    def attach(function: Any) -> Any:
        function.declaration = Declaration(
            function,
            name=name,
            part=part,
            title=title,
            results=results,
            one_of=one_of or {},
            at_most_one=at_most_one or {},
            main=main or next(iter(results)),
        )
        return function

    return attach
