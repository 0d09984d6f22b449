"""The unit table, and how the numbers and units that people type are read and written.

The table is generated from a pint registry (``scripts/make_units.py``) and proved against it by a test.
"""

import json
import math
import re
from functools import cache, lru_cache
from typing import Any, NamedTuple

from . import packaged


class UnitError(ValueError):
    """A text that is no value with a unit; ``kind`` is ``type`` (number), ``unit`` or ``dimension``."""

    def __init__(self, kind: str, message: str) -> None:
        super().__init__(message)
        self.kind = kind


class Unit(NamedTuple):
    """A unit: SI value = value * factor + offset; ``dims`` are sorted (base unit, power) pairs."""

    name: str
    factor: float
    offset: float
    dims: tuple[tuple[str, int], ...]


class Other(float):
    """An SI value of the other dimension that a field also reads, such as radon given in working levels."""

    __slots__ = ()


TABLE: dict[str, Any] = json.loads(packaged.read("units.json"))
_NAMES: dict[str, str] = {alias: name for name, row in TABLE.items() for alias in (name, *row["aliases"])}
_FOLDED: dict[str, str] = {}
for _alias, _name in _NAMES.items():
    _folded = _alias.casefold()
    _FOLDED[_folded] = _name if _FOLDED.get(_folded, _name) == _name else ""  # "" = only the exact case is read


def _known(text: str) -> str | None:
    return _NAMES.get(text) or _FOLDED.get(text.casefold()) or None


def _atom(text: str) -> tuple[str, int]:
    """One unit with an optional power: ``m3``, ``ft^2``, ``s``."""
    name = _known(text)
    if name:
        return name, 1
    match = re.fullmatch(r"(.*?)\s*\^?\s*(-?\d)", text)
    name = _known(match[1]) if match else None
    if not match or not name:
        raise UnitError("unit", f"the unit {text!r} is not known")
    return name, int(match[2])


@lru_cache(maxsize=512)
def factors_of(text: str) -> tuple[tuple[str, int], ...]:
    """The known units and powers that a product such as ``m3/s/Pa`` is made of.  Raises UnitError."""
    text = " ".join(text.split())
    name = _known(text)
    if name:
        return ((name, 1),)
    text = text.replace("Sv m3", "Sv*m3")  # dose coefficients are printed with a space for times
    parts = re.split(r"\s*([*/·])\s*", text)
    factors = []
    for i in range(0, len(parts), 2):
        name, power = _atom(parts[i])
        factors.append((name, -power if i and parts[i - 1] == "/" else power))
    return tuple(factors)


@lru_cache(maxsize=512)
def unit(text: str) -> Unit:
    """The unit with this name, one of its other spellings, or a product of units.  Raises UnitError."""
    factors = factors_of(text)
    if len(factors) == 1 and factors[0][1] == 1:
        row = TABLE[factors[0][0]]
        return Unit(factors[0][0], row["factor"], row["offset"], tuple(row["dims"].items()))
    factor = 1.0
    dims: dict[str, int] = {}
    for name, power in factors:
        row = TABLE[name]
        factor *= row["factor"] ** power
        for base, count in row["dims"].items():
            dims[base] = dims.get(base, 0) + count * power
    return Unit(" ".join(text.split()), factor, 0.0, tuple(sorted((b, c) for b, c in dims.items() if c)))


def pint_name(name: str) -> str:
    """How pint spells a unit of the table."""
    return str(TABLE[name]["pint"])


def factor(text: str) -> float:
    """SI value of one of this unit (no offset).  Raises UnitError."""
    return unit(text).factor


def from_si(value: float, text: str, *, difference: bool = False) -> float:
    """An SI value in this unit, rounded to 12 digits so that 9 ft is shown as 9."""
    into = unit(text)
    return round_digits((value - (0.0 if difference else into.offset)) / into.factor)


def round_digits(value: float, digits: int = 12) -> float:
    """The value with so many significant digits."""
    return float(f"{value:.{digits}g}")


_FOLD = str.maketrans(
    {
        "\u2212": "-",
        "\u2013": "-",
        "\u2012": "-",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "\u2007": " ",
        "\u2032": "'",
        "\u2019": "'",
        "\u2018": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u201c": '"',
        "\u2044": "/",
        "\u00d7": "*",
        "\u00b2": "2",
        "\u00b3": "3",
    }
)
_FRACTIONS = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}


def fold(text: str) -> str:
    """Typographic minus, primes, fractions and spaces as plain characters."""
    if not text.isascii():
        text = text.translate(_FOLD)
        for sign, plain in _FRACTIONS.items():
            text = text.replace(sign, f" {plain}")
    return " ".join(text.split())


_PLAIN = r"(?:\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+\.\d*|\.\d+|\d+)(?:[eE][+-]?\d+)?"
_NUMBER = re.compile(rf"([+-]?)\s*(?:(\d+)[ -])?(?:(\d+)/(\d+)(?!\d)|({_PLAIN}))(?![\d.,])")
_COMMA = re.compile(r"[+-]?\s*\d*,\d+")


def read_number(text: str) -> tuple[float, str]:
    """The number that a folded text starts with, and what follows it.  Raises UnitError."""
    match = _NUMBER.match(text)
    if match and match[2] and not match[3]:  # "4 1/2" needs a fraction after the whole number; "4 in" does not
        match = re.match(rf"([+-]?)\s*()()()({_PLAIN})(?![\d.,])", text)
    if not match:
        if _COMMA.match(text):
            raise UnitError("type", "a decimal comma is not read; write a point, as in 32.5")
        raise UnitError("type", "this does not start with a number")
    if match[3]:
        if int(match[4]) == 0:
            raise UnitError("type", "a fraction cannot have 0 below the line")
        value = int(match[2] or 0) + int(match[3]) / int(match[4])
    else:
        if re.fullmatch(r"0,\d{3}", match[5]):
            raise UnitError("type", "a decimal comma is not read; write a point, as in 32.5")
        value = float(match[5].replace(",", ""))
    if not math.isfinite(value):
        raise UnitError("bounds", "this number is too large to be read")
    return (-value if match[1] == "-" else value), text[match.end() :].strip()


_FEET = re.compile(r"([+-]?)\s*([^'a-zA-Z\"]+?)\s*(?:'|(?:feet|foot|ft\.?)(?=\s|$))\s*(.*)", re.IGNORECASE)
_INCHES = re.compile(r"(.*?)\s*(?:\"|inches|inch|in\.?)", re.IGNORECASE)


def _feet_and_inches(text: str) -> float | None:
    """Metres, when the text is ``9'``, ``9' 4-1/2"`` or ``4 1/2"``; else None.  Raises UnitError."""
    inch = factor("in")
    feet = _FEET.fullmatch(text)
    if feet and (feet[3] or "'" in text):
        whole, rest = read_number(feet[2].strip())
        inches = _INCHES.fullmatch(feet[3]) if feet[3] else None
        if rest or (feet[3] and not inches):
            return None
        number, rest = read_number(inches[1]) if inches else (0.0, "")
        if rest or number < 0:
            raise UnitError("type", "inches after feet are read as in 9' 4-1/2\"")
        if inches and (whole != int(whole) or number >= 12):
            raise UnitError("type", "with inches the feet must be whole and the inches under 12, as in 9' 4-1/2\"")
        return (-1 if feet[1] == "-" else 1) * (whole * 12 + number) * inch
    if text.endswith('"') and text.count('"') == 1:
        number, rest = read_number(text[:-1])
        return None if rest else number * inch
    return None


@lru_cache(maxsize=256)  # from one key to the next all fields but one read the same
def read(text: str, si_unit: str, *, difference: bool = False) -> float:
    """The SI value of a text such as ``18 gpm`` or ``9' 4-1/2"``.

    ``si_unit`` gives the dimension that is wanted.  Raises UnitError of kind ``type`` (no number), ``unit``
    (missing or unknown unit) or ``dimension``.
    """
    text = fold(text)
    want = unit(si_unit)
    length = _feet_and_inches(text)
    if length is not None:
        if want.dims != (("m", 1),):
            raise UnitError("dimension", "feet and inches are a length")
        return length
    number, rest = read_number(text)
    return to_si(number, rest, si_unit, difference=difference)


def to_si(number: float, name: str, si_unit: str, *, difference: bool = False) -> float:
    """The SI value of a number in the unit ``name``.  Raises UnitError as ``read`` does."""
    want = unit(si_unit)
    if not name:
        if want.dims or si_unit == "%":
            raise UnitError("unit", "the unit is missing")
        return number
    given = unit(name)
    if given.dims != want.dims:
        raise UnitError("dimension", f"the unit {given.name} does not measure this")
    value = number * given.factor + (0.0 if difference else given.offset)
    if not math.isfinite(value):
        raise UnitError("bounds", "this number is too large to be read")
    return value


@cache
def si(text: str) -> float:
    """The SI value of a text written by us, such as ``si("55 degF")``.  Raises UnitError."""
    text = fold(text)
    number, name = read_number(text)
    return to_si(number, name, name or "1")


def difference(text: str) -> float:
    """The SI value of a temperature difference written by us: ``difference("70 degF")`` is 38.889 K."""
    number, name = read_number(fold(text))
    return number * factor(name)


def short(value: float, digits: int = 4) -> str:
    """A number as people write it: four digits, no trailing zeros, powers of ten only where they are needed."""
    if value == 0:
        return "0"
    size = abs(value)
    if size >= 1e6 or size < 1e-4:
        mantissa, _, power = f"{value:.{digits - 1}e}".partition("e")
        return f"{mantissa.rstrip('0').rstrip('.')}e{int(power)}"
    text = f"{value:.{digits}g}"
    if "e" in text:
        text = f"{float(text):.0f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
