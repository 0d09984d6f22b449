"""Write calculators/data/units.json from a pint registry, so that the page needs no unit library.

    python scripts/make_units.py

Each row: the name that is printed, the same unit as pint spells it, and other spellings that people type.
"""

import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from calculators.quantities import registry  # noqa: E402

TARGET = ROOT / "calculators/data/units.json"
BASES = {
    "[length]": "m", "[mass]": "kg", "[time]": "s", "[temperature]": "K", "[currency]": "money",
}
OWN_DIMENSION = {  # a becquerel is not a hertz and a sievert is not a gray: the wrong one is refused
    "Bq": "Bq", "kBq": "Bq", "pCi": "Bq", "nCi": "Bq", "Sv": "Sv", "mSv": "Sv", "uSv": "Sv", "nSv": "Sv",
}
ROWS: list[tuple[str, str, str]] = [
    ("1", "dimensionless", ""), ("%", "percent", "percent"), ("ppm", "ppm", ""),
    ("in", "inch", "in. inch inches"), ("ft", "foot", "ft. foot feet"), ("yd", "yard", "yard yards"),
    ("mi", "mile", "mile miles"),
    ("m", "meter", "metre metres meter meters"), ("mm", "millimeter", ""), ("cm", "centimeter", ""),
    ("km", "kilometer", ""), ("um", "micrometer", "µm μm"),
    ("gal", "gallon", "gallon gallons"), ("fl oz", "fluid_ounce", "floz"), ("L", "liter", "l litre litres liter liters"),
    ("mL", "milliliter", "ml"),
    ("cfm", "foot**3/minute", "CFM ft3/min cu_ft/min"), ("gpm", "gallon/minute", "GPM gal/min"),
    ("s", "second", "sec second seconds"), ("min", "minute", "minute minutes"), ("h", "hour", "hr hour hours"),
    ("day", "day", "days d"), ("yr", "year", "year years"),
    ("mph", "mile/hour", ""),
    ("Pa", "pascal", "pascal pascals"), ("kPa", "kilopascal", ""), ("hPa", "hectopascal", ""), ("mbar", "millibar", ""),
    ("MPa", "megapascal", ""), ("mPa", "millipascal", ""), ("psi", "pound_force_per_square_inch", ""),
    ("in WC", "inch_H2O", '"wc "w.c. inwc in_w.c. in._WC in._w.c. in_H2O inH2O in._H2O "H2O iwc in_wg inwg "wg'),
    ("ft WC", "12*inch_H2O", "ftwc ft_H2O ftH2O ft_w.c."),
    ("mm WC", "millimeter_H2O", "mmwc mm_H2O mmH2O"),
    ("in Hg", "inch_Hg", "inHg"),
    ("K", "kelvin", "kelvin"), ("degC", "degree_Celsius", "C °C deg_C celsius"),
    ("degF", "degree_Fahrenheit", "F °F deg_F fahrenheit"),
    ("kg", "kilogram", ""), ("g", "gram", ""), ("lb", "pound", "lbs pound pounds lbm"), ("oz", "ounce", ""),
    ("W", "watt", "watt watts"), ("kW", "kilowatt", ""), ("hp", "horsepower", ""),
    ("J", "joule", ""), ("kJ", "kilojoule", ""), ("MJ", "megajoule", ""), ("Wh", "watt_hour", ""),
    ("kWh", "kilowatt_hour", "kwh"), ("Btu", "Btu", "BTU btu"), ("MMBtu", "1e6*Btu", "MMBTU"),
    ("therm", "US_therm", "therms"), ("N", "newton", ""), ("lbf", "pound_force", ""),
    ("Bq", "becquerel", ""), ("kBq", "kilobecquerel", ""), ("pCi", "picocurie", ""), ("nCi", "nanocurie", ""),
    ("Sv", "sievert", ""), ("mSv", "millisievert", ""), ("uSv", "microsievert", "µSv μSv"), ("nSv", "nanosievert", ""),
    ("WL", "2.08e-5*joule/meter**3", ""), ("WLM", "170*2.08e-5*hour*joule/meter**3", ""),
    ("money", "money", ""),
    ("ft/100 ft", "percent", "ft/100ft"), ("in/ft", "inch/foot", "in./ft in_per_ft"),
]


def rows() -> dict[str, dict[str, object]]:
    """The unit table: SI factor, dimension and other spellings of each unit."""
    table = {}
    for name, spelled, aliases in ROWS:
        quantity = registry().Quantity(spelled) if spelled[0].isdigit() else registry().Quantity(1, spelled)
        if name in ("degC", "degF"):
            delta = registry().Quantity(1, "delta_" + spelled).to_base_units()
            zero = registry().Quantity(0, spelled).to_base_units().magnitude
            base, offset = delta, zero
        else:
            base, offset = quantity.to_base_units(), 0.0
        dims = {BASES[key]: int(power) for key, power in base.dimensionality.items()}
        if name in OWN_DIMENSION:
            dims = {OWN_DIMENSION[name]: 1}
        table[name] = {
            "factor": float(f"{base.magnitude:.15g}"), "offset": float(f"{offset:.15g}"),
            "dims": dict(sorted(dims.items())), "pint": spelled,
            "aliases": [alias.replace("_", " ") for alias in aliases.split()],
        }
    return table


def main() -> None:
    """Write the table, one unit a line."""
    lines = [f"  {json.dumps(name)}: {json.dumps(row, ensure_ascii=False)}" for name, row in rows().items()]
    TARGET.write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
