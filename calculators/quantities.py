"""pint in and out, for Python on a computer; the page never loads it."""

import functools
from typing import Any

import pint


@functools.lru_cache(maxsize=1)
def registry() -> pint.UnitRegistry:
    """pint's own registry, with money added."""
    units: pint.UnitRegistry = pint.UnitRegistry()
    units.define("money = [currency]")
    return units


@functools.lru_cache(maxsize=256)
def spelled(unit: str) -> str:
    """A unit of our table, or a product of such units, as pint spells it.  Raises KeyError for an unknown unit."""
    from .units import factors_of, pint_name

    return "*".join(f"({pint_name(name)})**{power}" for name, power in factors_of(unit)) or "dimensionless"


def to_quantity(si: float, si_unit: str, unit: str, *, difference: bool = False) -> pint.Quantity[Any]:
    """An SI value as a pint quantity in the given unit."""
    units = registry()
    if unit in ("degC", "degF"):
        name = ("delta_" if difference else "") + spelled(unit).strip("()").split(")**")[0]
        return units.Quantity(si, "delta_degree_Celsius" if difference else "kelvin").to(name)
    return units.Quantity(si, units.Unit(spelled(si_unit))).to(units.Quantity(spelled(unit)).units)


def from_quantity(quantity: Any, si_unit: str, *, difference: bool = False) -> float:
    """A pint quantity as a float in the given SI unit.  Raises pint.DimensionalityError for a wrong dimension."""
    if si_unit == "K":
        target = "delta_degree_Celsius" if difference else "kelvin"
        return float(quantity.to(target).magnitude)
    return float(quantity.to(registry().Unit(spelled(si_unit))).magnitude)
