"""What a problem is: text, question, key with its tolerance, the slips that people make, the worked solution."""

import json
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from .. import solve
from ..declare import PARTS
from ..result import Result
from ..units import from_si, short
from .draw import Draw, spelled

KINDS = ("number", "choice", "several", "order", "drawing", "what-is-wrong", "house")
TRIES = 20


class Slip(NamedTuple):
    """An answer that a usual slip gives: its SI value, and the explanation that the learner gets."""

    name: str
    value: float
    because: str


class Number(NamedTuple):
    """A number is asked: SI key, the unit it is asked in, SI tolerance and why it is that wide."""

    value: float
    unit: str
    tolerance: float
    because: str

    def printed(self) -> str:
        """The key as people write it."""
        return f"{short(from_si(self.value, self.unit), 4)} {spelled(self.unit)}".removesuffix(" 1")


class Option(NamedTuple):
    """One option: its text, whether it is right, and why (shown after the answer)."""

    text: str
    right: bool
    because: str


class Options(NamedTuple):
    """A choice: the options in the order shown; ``several`` when more than one may be right."""

    options: tuple[Option, ...]
    several: bool = False


class Order(NamedTuple):
    """Steps to be put in order: as shown, and the right order as places in ``shown``; ``because`` says what decides."""

    shown: tuple[str, ...]
    right: tuple[int, ...]
    because: str


class Way(NamedTuple):
    """One way to decide: its text, what it counts from 0 to 1, and why (shown after the answer)."""

    text: str
    credit: float
    because: str


class Decision(NamedTuple):
    """One decision in a practice house: a word for it, the question, the ways in the order shown."""

    name: str
    ask: str
    ways: tuple[Way, ...]

    def best(self) -> list[int]:
        """The places of the ways that count whole."""
        return [i for i, way in enumerate(self.ways) if way.credit == 1]


class House(NamedTuple):
    """A practice house: several decisions, each graded by a calculator; the whole counts their mean."""

    decisions: tuple[Decision, ...]


class Problem:
    """One variant of a template."""

    def __init__(
        self,
        *,
        text: Sequence[str],
        ask: str,
        answer: Number | Options | Order | House,
        slips: Iterable[Slip] = (),
        solution: Result | None = None,
        steps: Sequence[str] = (),
        words: Sequence[str] = (),
        drawing: tuple[str, Result] | None = None,
    ) -> None:
        self.text, self.ask, self.answer, self.slips = tuple(text), ask, answer, tuple(slips)
        self.solution, self.steps, self.words, self.drawing = solution, tuple(steps), tuple(words), drawing
        self.template: Template
        self.seed, self.units = "", "us"

    @property
    def id(self) -> str:
        """Template, seed and units: enough to make the same problem again."""
        return f"{self.template.id}/{self.seed}/{self.units}"

    def worked_steps(self) -> list[Any]:
        """The calculator's own steps that lead to the key: those named, else all."""
        if self.solution is None:
            return []
        found = self.solution.work.steps
        return [step for step in found if step.title in self.steps] if self.steps else list(found)


class Template:
    """A maker of problems: ``make(draw)`` gives one; the rest says where it belongs."""

    def __init__(
        self,
        make: Callable[[Draw], Problem],
        *,
        id: str,
        part: str,
        kind: str,
        level: int,
        minutes: int,
        source: str,
        calculator: str,
        title: str,
    ) -> None:
        if part not in PARTS or kind not in KINDS or level not in (1, 2, 3):
            raise ValueError(f"{id}: part {part!r}, kind {kind!r} or level {level!r} is not known")
        self.make, self.id, self.part, self.kind, self.level = make, id, part, kind, level
        self.minutes, self.source, self.calculator, self.title = minutes, source, calculator, title

    def problem(self, seed: str, units: str = "us") -> Problem:
        """The variant of this seed, in US or SI units; one that gives its key away, or tells no slips apart, is drawn anew."""
        for again in range(TRIES):
            made = self.make(Draw(f"{self.id}:{seed}:{units}{f':{again}' if again else ''}", units))
            if _fit(made):
                break
        made.template, made.seed, made.units = self, seed, units
        return made


def _fit(problem: Problem) -> bool:
    """Whether the key of a number does not stand in the text and two slips at least can be told from it."""
    key = problem.answer
    if not isinstance(key, Number):
        return True
    words = " ".join((*problem.text, problem.ask))
    return len(problem.slips) >= 2 and not re.search(rf"(?<![\d./-]){re.escape(key.printed())}(?!\w)", words)


def template(
    *, part: str, kind: str, level: int, minutes: int, source: str, title: str, calculator: str = ""
) -> Callable[[Any], Template]:
    """Declare a function of a Draw as a template; its id is the function's name with ``-``."""

    def attach(make: Callable[[Draw], Problem]) -> Template:
        return Template(
            make,
            id=make.__name__.replace("_", "-"),
            part=part,
            kind=kind,
            level=level,
            minutes=minutes,
            source=source,
            calculator=calculator,
            title=title,
        )

    return attach


def near(value: float, share: float, because: str, *, unit: str, least: float = 0.0) -> Number:
    """A number whose tolerance is a share of the key, at least ``least`` (SI)."""
    return Number(value, unit, max(abs(value) * share, least), because)


def choice(draw: Draw, right: tuple[str, str], *wrong: tuple[str, str]) -> Options:
    """One right option and the wrong ones, each (text, why), shuffled."""
    return Options(
        tuple(draw.shuffled([Option(*right[:1], True, right[1]), *(Option(w[0], False, w[1]) for w in wrong)]))
    )


def several(draw: Draw, right: Iterable[str], wrong: Iterable[str]) -> Options:
    """Several right options and the wrong ones, each a line of ``said | why``, shuffled."""
    return options(draw, "\n".join([*(f"+ {line}" for line in right), *(f"- {line}" for line in wrong)]), several=True)


def ordered(draw: Draw, steps: Sequence[str], because: str) -> Order:
    """Steps given in their right order, shown in another."""
    places = draw.shuffled(range(len(steps)))
    if places == sorted(places):
        places = places[1:] + places[:1]
    shown = tuple(steps[place] for place in places)
    return Order(shown, tuple(places.index(i) for i in range(len(steps))), because)


def but_one(draw: Draw, steps: Sequence[str], spare: Sequence[int]) -> list[str]:
    """The steps without one of those at the places ``spare``, so that variants differ."""
    left_out = draw.pick(spare)
    return [step for i, step in enumerate(steps) if i != left_out]


def distinct(number: Number, slips: Iterable[Slip]) -> list[Slip]:
    """The slips above nought whose values differ from the key and from each other by more than the tolerance."""
    kept: list[Slip] = []
    for slip in slips:
        apart = [abs(slip.value - number.value), *(abs(slip.value - other.value) for other in kept)]
        if slip.value > 0 and all(gap > 2.1 * number.tolerance for gap in apart):
            kept.append(slip)
    return kept


def filled(inputs: Any) -> Any:
    """Inputs for a calculator from shown numbers: each printed as the learner reads it, in lists and records too."""
    if isinstance(inputs, Mapping):
        return {name: filled(value) for name, value in inputs.items()}
    if isinstance(inputs, list):
        return [filled(item) for item in inputs]
    return str(inputs) if hasattr(inputs, "unit") else inputs


def solved(calculator: str, /, **inputs: Any) -> Result:
    """The calculator's answer to the numbers shown; asked twice, it is worked out once."""
    return _solved(calculator, json.dumps(filled(inputs), sort_keys=True))


@lru_cache(maxsize=256)
def _solved(calculator: str, inputs: str) -> Result:
    return solve(calculator, json.loads(inputs))


def options(draw: Draw, text: str, *, several: bool = False) -> Options:
    """A choice from lines of ``+ right | why`` and ``- wrong | why``, shuffled; ``several`` when more may be right.

    A line that starts otherwise goes on with the one before it.
    """
    lines: list[str] = []
    for line in filter(None, map(str.strip, text.splitlines())):
        if line[0] in "+-":
            lines.append(line)
        else:
            lines[-1] += f" {line}"
    found = []
    for line in lines:
        said, because = line[1:].split("|")
        found.append(Option(said.strip(), line[0] == "+", because.strip()))
    return Options(tuple(draw.shuffled(found)), several)


def named(unit: str) -> str:
    """The unit as a question names it: those that read as a word of their own are written out."""
    return {"in": "inches", "in WC": "inches of water (in WC)", "in2": "square inches"}.get(unit) or spelled(unit)
