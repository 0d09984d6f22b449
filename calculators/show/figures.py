"""Numbers and units as people read them on a page."""

from typing import Any

from ..units import from_si, short
from ..wording import MONEY
from .markup import Markup, el

UNITS = {
    "degF": "°F",
    "degC": "°C",
    "in2": "in²",
    "ft2": "ft²",
    "m2": "m²",
    "cm2": "cm²",
    "ft3": "ft³",
    "m3": "m³",
    "m3/s": "m³/s",
    "kg/m3": "kg/m³",
    "Pa*s": "Pa·s",
    "in": "in.",
    "W/m2/K": "W/m²/K",
    "cm2/m2": "cm²/m²",
    "degF*day": "°F days",
    "degC*day": "°C days",
    "1": "",
    "1/h": "per h",
    "Bq/m3": "Bq/m³",
    "J/m3": "J/m³",
    "nSv m3/Bq/h": "nSv m³/Bq/h",
    **MONEY,
}


def unit_text(name: str) -> str:
    """A unit as it is printed beside a number; empty for a plain number."""
    return UNITS.get(name, name)


def decimals(value: float, digits: int = 3) -> int:
    """How many places after the point a number of this size gets."""
    size = abs(value)
    for places, least in enumerate((10 ** (digits - 1), 10 ** (digits - 2), 10 ** (digits - 3), 10 ** (digits - 4))):
        if size >= least * (1 - 1e-12):
            return places
    return digits + 1


def figure(value: float, places: int | None = None, *, keep: bool = False) -> str:
    """A number for a page: three digits or so (four where they say it all), thousands with a comma.

    Trailing zeros go unless ``keep`` is set.
    """
    if value == 0:
        return "0"
    size = abs(value)
    if size >= 1e7 or size < 1e-3:
        return powers(short(value, 3))
    if places is None:
        places = 4 if exact(value) else decimals(value)
    text = f"{value:,.{places}f}"
    if "." in text and not keep:
        text = text.rstrip("0").rstrip(".")
    return text.replace("-", "−")


def exact(value: float) -> bool:
    """Whether four digits say it all, as in 10.25: then all four are shown."""
    return abs(value) >= 0.01 and abs(float(f"{value:.4g}") - value) <= 1e-9 * abs(value)


def powers(text: str) -> str:
    """1.2e-05 as people write it: 1.2 × 10⁻⁵."""
    mantissa, mark, power = text.partition("e")
    if mark:
        raised = str(int(power)).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))
        mantissa = f"{mantissa} × 10{raised}"
    return mantissa.replace("-", "−")


def plain(value: float, unit: str, places: int | None = None) -> str:
    """Number and unit as plain text."""
    return f"{figure(value, places)} {unit_text(unit)}".rstrip()


def quantity(value: float, unit: str, places: int | None = None) -> Markup:
    """Number and unit that stay on one line."""
    return el(
        "span",
        el("span", figure(value, places), class_="n"),
        f" {unit_text(unit)}" if unit_text(unit) else None,
        class_="q",
    )


def typed(value: float) -> str:
    """A number as one would type it into a box."""
    return short(value, 6)


def pair_value(value: float, pair: str, system: str) -> tuple[float, str]:
    """An SI value in the unit of a ``us|si`` pair, and that unit."""
    unit = pair.split("|")[0 if system == "us" else -1]
    return from_si(value, unit), unit


def words(value: Any) -> str:
    """A plain value in words."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (list, tuple)):
        return ", ".join(words(item) for item in value) or "none"
    return str(value)
