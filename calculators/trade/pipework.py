"""Pipes and fittings as the tables have them: bores, and what each fitting is worth by which table."""

from collections.abc import Sequence
from functools import cache
from typing import Any, NamedTuple

from ..declare import Refusal, refuse
from ..tables import fitting, pipe, si_of, table

NO_VALUE = "no published value; give a loss_coefficient"


def bore_of(pipe_size: str | None, inside_diameter: float | None) -> float:
    """Bore [m]: the typed inside diameter, or the schedule 40 minimum-wall bore of the nominal size."""
    return inside_diameter if inside_diameter is not None else si_of(pipe(str(pipe_size))["bore"])


def nearest_size(bore: float) -> str:
    """The nominal size whose bore [m] is nearest; its fittings stand for those of a pipe that is not in the table."""
    sizes = table("pipes")["schedule-40"]
    return min(sizes, key=lambda size: abs(si_of(sizes[size]["bore"]) - bore))


class Worth(NamedTuple):
    """What ``number`` fittings of one kind are worth by each table: lengths [m], loss coefficients [1], and the one used."""

    number: int
    lengths: tuple[float, ...]
    coefficients: tuple[float, ...]
    by_length: bool

    def each(self, per_k: float) -> list[float]:
        """Equivalent length [m] of one by each table; ``per_k`` [m] is the length that one unit of K is worth (D/f)."""
        return [*self.lengths, *(k * per_k for k in self.coefficients)]


class FittingSum:
    """All fittings of a pipe: ``length`` [m] and ``k`` [1] add up those used; ``bounds`` gives least and greatest."""

    def __init__(self, worths: Sequence[Worth], sources: Sequence[str]) -> None:
        self.worths, self.sources = tuple(worths), tuple(dict.fromkeys(sources))
        self.length = sum(w.number * w.lengths[0] for w in worths if w.by_length)
        self.k = sum(w.number * w.coefficients[0] for w in worths if not w.by_length)

    def equivalent(self, per_k: float) -> float:
        """Equivalent length [m] of all fittings; ``per_k`` [m] is the length that one unit of K is worth (D/f)."""
        return self.length + self.k * per_k

    def least(self, per_k: float) -> float:
        """The equivalent length [m] when each fitting is worth the least that a table says."""
        return sum(w.number * min(w.each(per_k)) for w in self.worths)

    def greatest(self, per_k: float) -> float:
        """The equivalent length [m] when each fitting is worth the most that a table says."""
        return sum(w.number * max(w.each(per_k)) for w in self.worths)

    def bounds(self, per_k: float) -> tuple[float, float]:
        """Least and greatest equivalent length [m] of the tables that have a value."""
        return self.least(per_k), self.greatest(per_k)


@cache
def published(kind: str, size: str, use: str) -> tuple[tuple[float, ...], tuple[float, ...], tuple[str, ...]]:
    """What the tables say of one fitting: lengths [m], loss coefficients [1], and the source of the first of each."""
    if kind == "other":
        return (), (), ("", "")
    lengths, coefficients = (fitting(kind, size, use, by) for by in ("equivalent-length", "loss-coefficient"))
    return (
        tuple(si_of(row) for row in lengths),
        tuple(float(row["value"]) for row in coefficients),
        tuple(rows[0]["source"] if rows else "" for rows in (lengths, coefficients)),
    )


def add_up(fittings: Sequence[dict[str, Any]], size: str, use: str, method: str) -> FittingSum:
    """Look the fittings up.  Raises Refusal for a kind without a published value and no typed loss coefficient."""
    worths, sources, wrong = [], [], []
    for i, item in enumerate(fittings):
        count, kind, typed = item["count"], item["kind"], item["loss_coefficient"]
        if typed is not None:
            worths.append(Worth(count, (), (typed,), False))
            continue
        lengths, coefficients, (of_length, of_coefficient) = published(kind, size, use)
        if not lengths and not coefficients:
            wrong.append(
                Refusal(
                    f"fittings[{i}].kind",
                    NO_VALUE,
                    found=kind,
                    accepts="a loss_coefficient beside it",
                    kind="outside-model",
                )
            )
            continue
        by_length = bool(lengths) and (method == "equivalent-length" or not coefficients)
        worths.append(Worth(count, lengths, coefficients, by_length))
        sources.append(of_length if by_length else of_coefficient)
    refuse(wrong)
    return FittingSum(worths, sources)
