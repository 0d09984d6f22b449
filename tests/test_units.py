"""The page's unit table against pint, and what is read as a number with a unit."""

import math

import pint
import pytest

from calculators import units
from calculators.quantities import from_quantity, registry, to_quantity

OWN = {"Bq": {"s": -1}, "Sv": {"m": 2, "s": -2}}  # bases of our own; in pint a becquerel is 1/s and a sievert m2/s2
BASES = {"m": "[length]", "kg": "[mass]", "s": "[time]", "K": "[temperature]", "money": "[currency]"}


@pytest.mark.parametrize("name", units.TABLE)
def test_each_row_is_what_pint_says(name):
    """Factor, offset and dimension of every unit are those of pint's registry (inch of water: conventional, inch_H2O)."""
    row = units.TABLE[name]
    if name in ("degC", "degF"):
        one, zero = (registry().Quantity(value, row["pint"]).to("kelvin").magnitude for value in (1, 0))
        assert row["offset"] == pytest.approx(zero, rel=1e-14)
        assert row["factor"] == pytest.approx(one - zero, rel=1e-12)
        return
    base = registry().parse_expression(row["pint"])
    base = (base if hasattr(base, "to_base_units") else registry().Quantity(base)).to_base_units()
    assert row["factor"] == pytest.approx(base.magnitude, rel=1e-14)
    dims: dict[str, float] = {}
    for unit, power in row["dims"].items():
        for own, count in OWN.get(unit, {unit: 1}).items():
            dims[BASES[own]] = dims.get(BASES[own], 0) + power * count
    assert dims == {key: power for key, power in base.dimensionality.items() if power}


def test_the_table_is_in_step_with_its_generator():
    """units.json is what scripts/make_units.py writes."""
    from scripts import make_units
    assert make_units.rows() == units.TABLE


READ = [
    ("9 ft", "m", 9 * 0.3048), ("9'", "m", 9 * 0.3048), ("9' 4-1/2\"", "m", 112.5 * 0.0254), ("9 ft 4 1/2 in", "m", 112.5 * 0.0254),
    ("4 1/2\"", "m", 4.5 * 0.0254), ("-2' 3\"", "m", -27 * 0.0254), ("9½ in", "m", 9.5 * 0.0254), ("4-1/2 in", "m", 4.5 * 0.0254),
    ("1/2 in", "m", 0.0127), (".5 in", "m", 0.0127), ("1,600 ft/min", "m/s", 1600 * 0.3048 / 60), ("−2 ft", "m", -0.6096),
    ("1e-6 m2", "m2", 1e-6), ("60 ft3/min", "m3/s", 60 * 0.3048**3 / 60), ("60 cfm", "m3/s", 60 * 0.3048**3 / 60),
    ("36 m^3/h", "m3/s", 0.01), ("10 L/s", "m3/s", 0.01), ("18 gpm", "m3/s", 18 * 231 * 0.0254**3 / 60),
    ("1 \"wc", "Pa", 249.08891), ("1 inwc", "Pa", 249.08891), ("1 in H2O", "Pa", 249.08891), ("1 in. WC", "Pa", 249.08891),
    ("1 ft WC", "Pa", 12 * 249.08891), ("1 kPa", "Pa", 1000), ("1 mPa", "Pa", 0.001), ("1 MPa", "Pa", 1e6), ("1 PA", "Pa", 1),
    ("55 °F", "K", (55 + 459.67) / 1.8), ("55F", "K", (55 + 459.67) / 1.8), ("-5 degC", "K", 268.15),
    ("50 %", "%", 0.5), ("0.5 1", "%", 0.5), ("50 %", "1", 0.5), ("150", "1", 150), ("4 pCi/L", "Bq/m3", 148), ("1 WLM", "J*s/m3", 12.7296),
    ("42 cfm/in WC", "m3/s/Pa", 42 * 0.3048**3 / 60 / 249.08891), ("0.61 ft/100 ft", "m/m", 0.0061), ("6000 degF*day", "K*s", 6000 / 1.8 * 86400),
]


@pytest.mark.parametrize(("text", "into", "expected"), READ)
def test_texts_that_are_read(text, into, expected):
    """Numbers, fractions, feet and inches, aliases and products are read as the trade writes them."""
    assert units.read(text, into) == pytest.approx(expected, rel=1e-12)


REFUSED = [
    ("9", "m", "unit"), ("9 xyz", "m", "unit"), ("", "m", "type"), ("nan m", "m", "type"), ("inf m", "m", "type"), ("abc", "m", "type"),
    ("9 gpm", "m", "dimension"), ("9 in WC", "m", "dimension"), ("32,5 ft", "m", "type"), ("1,60 ft", "m", "type"), ("0,500 m", "m", "type"),
    ("9 ft 12 in", "m", "type"), ("9.5 ft 2 in", "m", "type"), ("1/0 in", "m", "type"), ("50", "%", "unit"), ("1 mpa", "Pa", "unit"),
    ("4' 2\"", "Pa", "dimension"), ("3' WC", "Pa", "unit"), ("1e400 m", "m", "bounds"), ("--3 in", "m", "type"), ("4 Hz", "Bq/m3", "unit"),
    ("(3 ft)", "m", "type"), ("4 1/h", "Bq/m3", "dimension"),
]


@pytest.mark.parametrize(("text", "into", "kind"), REFUSED)
def test_texts_that_are_refused(text, into, kind):
    """Anything else is refused with the kind of what is wrong, never guessed."""
    with pytest.raises(units.UnitError) as refused:
        units.read(text, into)
    assert refused.value.kind == kind
    assert str(refused.value)


def test_a_decimal_comma_is_named():
    """The message for a decimal comma says what to write instead."""
    with pytest.raises(units.UnitError, match="decimal comma"):
        units.read("32,5 ft", "m")


def test_a_temperature_difference_has_no_offset():
    """A swing of 70 degF is 38.889 K."""
    assert units.read("70 degF", "K", difference=True) == pytest.approx(70 / 1.8)
    assert units.from_si(70 / 1.8, "degF", difference=True) == pytest.approx(70)


@pytest.mark.parametrize("name", units.TABLE)
def test_shown_values_are_read_back(name):
    """A value written in any unit is read back as the same value."""
    dims = units.unit(name)
    base = "*".join(f"{base}^{power}" for base, power in dims.dims) or "1"
    if name in ("%", "ft/100 ft", "in/ft", "ppm"):
        base = "%"
    value = 3.25 * dims.factor + dims.offset
    assert units.read(f"{units.from_si(value, name)} {name}", base) == pytest.approx(value, rel=1e-11)


def test_pint_quantities_go_in_and_out():
    """A result asked for as a pint quantity has the value and dimension of the float behind it."""
    assert from_quantity(registry().Quantity(18, "gallon/minute"), "m3/s") == pytest.approx(units.si("18 gpm"))
    assert to_quantity(units.si("18 gpm"), "m3/s", "gpm").to("liter/second").magnitude == pytest.approx(units.si("18 gpm") * 1000)
    assert to_quantity(units.si("55 degF"), "K", "degF").magnitude == pytest.approx(55)
    assert to_quantity(units.si("1 in WC"), "Pa", "in WC").to("pascal").magnitude == pytest.approx(249.08891)
    with pytest.raises(pint.DimensionalityError):
        from_quantity(registry().Quantity(1, "meter"), "m3/s")


def test_shown_numbers_are_tidy():
    """9 ft is shown as 9, not as 9.000000000000002."""
    assert units.from_si(units.si("9 ft"), "ft") == 9
    assert not math.isnan(units.from_si(0.0, "in WC"))
