"""A paper: problems chosen by part and level, a variant for each learner, and the codes that carry both."""

import base64
import binascii
import json
import zlib
from collections.abc import Sequence
from typing import Any, NamedTuple

from ..declare import PARTS, InputError
from ..trade import jsontext
from . import templates
from .draw import Draw
from .marking import Mark
from .problem import KINDS, Problem

MOST = 60
MOST_MINUTES = 600
LONGEST = 20_000
LONGEST_NAME = 60
SHORT = tuple(kind for kind in KINDS if kind != "house")


class Paper(NamedTuple):
    """What makes a paper: template ids in order, seed, units, minutes (0 = the sum of its problems)."""

    ids: tuple[str, ...]
    seed: str
    units: str
    minutes: int

    def problems(self, learner: str = "") -> list[Problem]:
        """The problems of one learner: the same templates for all, with numbers of his own."""
        return [templates()[id].problem(f"{self.seed}.{learner}.{i}", self.units) for i, id in enumerate(self.ids)]

    def time(self) -> int:
        """Minutes that the paper is meant to take."""
        return self.minutes or sum(templates()[id].minutes for id in self.ids)

    def code(self) -> str:
        """The paper as a short text for a link."""
        return packed({"v": 1, "t": self.ids, "s": self.seed, "u": self.units, "m": self.minutes})


def problem_of_input(field: str, text: str, *, kind: str, found: Any = "", accepts: str = "") -> InputError:
    """One problem of a wrong paper in the form that all interfaces print."""
    return InputError([{"field": field, "problem": text, "found": str(found)[:80], "accepts": accepts, "kind": kind}])


def compose(
    *,
    parts: Sequence[str] = (),
    levels: Sequence[int] = (),
    kinds: Sequence[str] = (),
    number: int = 10,
    seed: str = "1",
    units: str = "us",
    minutes: int = 0,
) -> Paper:
    """Choose problems, spread over the parts; practice houses, which take a quarter of an hour each, only where asked for.

    Raises InputError for unknown parts, levels, kinds or sizes.
    """
    unknown = [part for part in parts if part not in PARTS]
    if unknown:
        raise problem_of_input(
            "parts", "there is no such part", kind="choice", found=unknown[0], accepts=", ".join(PARTS)
        )
    if any(level not in (1, 2, 3) for level in levels):
        raise problem_of_input("levels", "levels are 1, 2 and 3", kind="choice", found=levels, accepts="1, 2, 3")
    if any(kind not in KINDS for kind in kinds):
        raise problem_of_input("kinds", "there is no such kind", kind="choice", found=kinds, accepts=", ".join(KINDS))
    if not 1 <= number <= MOST:
        raise problem_of_input(
            "number", "a paper holds 1 to 60 problems", kind="bounds", found=number, accepts="1 to 60"
        )
    if not 0 <= minutes <= MOST_MINUTES:
        raise problem_of_input("minutes", "a paper takes 0 to 600 minutes", kind="bounds", found=minutes)
    if units not in ("us", "si"):
        raise problem_of_input("units", "units are us or si", kind="choice", found=units, accepts="us, si")
    if not 0 < len(seed) <= 40:
        raise problem_of_input("seed", "a seed has 1 to 40 characters", kind="length", found=seed)
    chosen = [
        t
        for t in templates().values()
        if (not parts or t.part in parts) and (not levels or t.level in levels) and t.kind in (kinds or SHORT)
    ]
    if not chosen:
        raise problem_of_input("parts", "no problem fits these parts, levels and kinds", kind="conflict")
    draw = Draw(f"paper:{seed}", units)
    piles = {
        part: draw.shuffled([t.id for t in chosen if t.part == part])
        for part in PARTS
        if any(t.part == part for t in chosen)
    }
    ids: list[str] = []
    while len(ids) < number:  # part by part in turn; nothing comes twice before everything came once
        left = {part: list(pile) for part, pile in piles.items()}
        while any(left.values()) and len(ids) < number:
            for pile in left.values():
                if pile and len(ids) < number:
                    ids.append(pile.pop(0))
    order = list(templates())
    return Paper(
        tuple(sorted(ids, key=lambda id: (PARTS.index(templates()[id].part), templates()[id].level, order.index(id)))),
        seed,
        units,
        minutes,
    )


def packed(data: Any) -> str:
    """Data as a short text that a link can carry, with a check sum."""
    raw = zlib.compress(json.dumps(data, separators=(",", ":"), ensure_ascii=False).encode("utf-8", "replace"), 9)
    return base64.urlsafe_b64encode(raw + zlib.crc32(raw).to_bytes(4, "big")).decode().rstrip("=")


def unpacked(code: str) -> Any:
    """The data of ``packed``.  Raises InputError for a text that was changed, cut or never was one."""
    refused = problem_of_input(
        "code", "this code was changed, cut short, or belongs to something else", kind="type", found=code
    )
    if not 0 < len(code) <= LONGEST:
        raise refused
    try:
        raw = base64.b64decode(code.strip() + "=" * (-len(code.strip()) % 4), altchars=b"-_", validate=True)
        body, sum_ = raw[:-4], raw[-4:]
        if zlib.crc32(body).to_bytes(4, "big") != sum_:
            raise refused
        text = zlib.decompressobj().decompress(body, LONGEST * 10)
        return jsontext.read(text.decode())
    except (ValueError, binascii.Error, zlib.error, RecursionError):
        raise refused from None


def paper_of(code: str) -> Paper:
    """The paper of a link.  Raises InputError for a code that is not one of a paper, or of problems not known here."""
    data = unpacked(code)
    good = (
        isinstance(data, dict) and data.get("v") == 1 and isinstance(data.get("t"), list) and 0 < len(data["t"]) <= MOST
    )
    if not good or not all(isinstance(id, str) and id in templates() for id in data["t"]):
        raise problem_of_input("code", "this code is no paper that this version knows", kind="type", found=code)
    seed, units, minutes = data.get("s"), data.get("u"), data.get("m")
    known = isinstance(seed, str) and 0 < len(seed) <= 40 and units in ("us", "si")
    if not known or not isinstance(minutes, int) or not 0 <= minutes <= MOST_MINUTES:
        raise problem_of_input("code", "this code is no paper that this version knows", kind="type", found=code)
    return Paper(tuple(data["t"]), seed, units, minutes)


def hand_in(paper: Paper, learner: str, marks: Sequence[Mark]) -> str:
    """A learner's hand-in code: the paper's check sum, the name, and each verdict with its slip."""
    rows = [[mark.verdict, round(mark.credit, 2), mark.slip] for mark in marks]
    return packed({"h": 1, "p": zlib.crc32(paper.code().encode()), "n": learner[:LONGEST_NAME], "r": rows})


def hand_in_of(paper: Paper, code: str) -> tuple[str, list[Mark]]:
    """Name and verdicts of a hand-in code.  Raises InputError for a code of another paper or a changed one."""
    data = unpacked(code)
    if not isinstance(data, dict) or data.get("h") != 1 or data.get("p") != zlib.crc32(paper.code().encode()):
        raise problem_of_input("code", "this code belongs to another paper", kind="conflict", found=code)
    rows, name = data.get("r"), data.get("n")
    if not isinstance(name, str) or len(name) > LONGEST_NAME or not isinstance(rows, list) or len(rows) != len(paper.ids) or not all(map(_row, rows)):
        raise problem_of_input("code", "this code was not made by this handbook", kind="type", found=code)
    return name, [Mark(verdict, float(credit), "", slip) for verdict, credit, slip in rows]


def _row(row: Any) -> bool:
    return (
        isinstance(row, list)
        and len(row) == 3
        and row[0] in ("right", "slip", "partly", "wrong", "unreadable", "left")
        and isinstance(row[1], (int, float))
        and 0 <= row[1] <= 1
        and isinstance(row[2], str)
        and len(row[2]) <= 60
    )
