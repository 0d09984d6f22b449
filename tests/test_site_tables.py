"""The look-up tables that the calculators fill: every one stands on a page, and its figures are those that others print."""

import json
import re

import pint
import pytest

from calculators import tables
from scripts import check_prose, site_memory, site_sources, site_tables

PAGES = "\n".join(path.read_text(encoding="utf-8") for path in check_prose.pages())


def cells(name):
    """Head and rows of a table as text."""
    root = site_tables.table(name)
    return [cell.text for cell in root.iter("th")], [["".join(cell.itertext()) for cell in row.iter("td")] for row in root.iter("tr")][1:]


def first(cell):
    """The US figure of a cell."""
    return float(re.match(r"[\d.,]+", cell)[0].replace(",", ""))


@pytest.mark.parametrize("name", site_tables.TABLES)
def test_every_table_stands_on_a_page_and_is_full(name):
    """No table is made for nothing; every row has as many cells as the head."""
    assert f"/// table | {name}\n" in PAGES
    head, rows = cells(name)
    assert len(rows) >= 3
    assert all(len(row) == len(head) and all(row) for row in rows)


def test_a_misspelt_table_stops_the_build():
    """The near names are said."""
    with pytest.raises(ValueError, match="vent-loss"):
        site_tables.table("vent-los")


# Illinois Administrative Code, title 77, part 906, Appendix A, Exhibit I (C = 150): ft in 100 ft for 1-1/4, 1-1/2, 2 in.
EXHIBIT = {"10": (1.46, 0.70, 0.21), "15": (3.06, 1.45, 0.44), "20": (5.23, 2.46, 0.74), "30": (None, 5.22, 1.54), "40": (None, None, 2.62)}


@pytest.mark.parametrize("flow", EXHIBIT)
def test_friction_of_the_pump_line_is_the_printed_one(flow):
    """Within 5 percent or 0.02 ft: the printed table is uneven below 17 gpm."""
    _, rows = cells("water-loss")
    row = next(row for row in rows if row[0].startswith(f"{flow} "))
    for ours, printed in zip(row[1:], EXHIBIT[flow], strict=True):
        if printed is not None:
            assert first(ours) == pytest.approx(printed, rel=0.05, abs=0.02)


def test_speeds_are_those_of_the_standard():
    """SGM-SF 2017 (12/20), 6.3.8: 1,600 ft/min at 80 cfm in 3 in.; it counts with the nominal bore, so 3 percent apart."""
    _, rows = cells("vent-speed")
    at_80 = next(row for row in rows if row[0].startswith("80 "))
    assert first(at_80[1]) == pytest.approx(1600, rel=0.03)


def test_fall_of_18_feet():
    """SGM-SF 2017 (12/20), 6.2.2, 1/8 in. a foot: 2.25 in. over 18 ft."""
    _, rows = cells("fall")
    assert next(row for row in rows if row[0].startswith("18 ft"))[1].startswith("2.25 in.")


PINT = {"in WC": "inch_H2O", "mm WC": "millimeter_H2O", "ft WC": "foot_H2O", "kPa": "kilopascal", "Pa": "pascal", "cfm": "foot**3/minute", "m3/h": "meter**3/hour", "gpm": "gallon/minute",
        "L/min": "liter/minute", "L/s": "liter/second", "ft/min": "foot/minute", "m/s": "meter/second", "in": "inch", "ft": "foot", "ft2": "foot**2",
        "m2": "meter**2", "in2": "inch**2", "cm2": "cm**2", "ft3": "foot**3", "lb": "pound", "Btu/h": "Btu/hour", "W": "watt", "pCi/L": "picocurie/liter",
        "Bq/m3": "becquerel/meter**3", "gal": "gallon", "L": "liter", "kg": "kilogram", "m": "meter", "mm": "millimeter", "psi": "psi"}


@pytest.mark.parametrize("pair", site_tables.CONVERSIONS, ids="-".join)
def test_conversions_are_those_of_a_reference_library(pair):
    """The printed figure is that of pint, to its last digit."""
    unit, other = pair
    registry = pint.UnitRegistry()
    wanted = registry.Quantity(1, PINT.get(unit, unit)).to(PINT.get(other, other)).magnitude
    _, rows = cells("conversions")
    row = rows[site_tables.CONVERSIONS.index(pair)]
    assert float(row[1].split()[0]) == pytest.approx(wanted, rel=2e-4)


def test_decay_halves_in_3_8235_days():
    """Half-life of radon-222, nuclear data tables: half is left then, a quarter after 7.647 days."""
    _, rows = cells("decay")
    left = {row[0]: first(row[1]) for row in rows}
    half = next(share for words, share in left.items() if words.startswith("3.82"))
    assert half == pytest.approx(50, abs=0.1)
    assert left["1 days"] == pytest.approx(83.42, abs=0.05)


def test_pit_fills_as_a_cylinder():
    """18 in. pit, 1.1016 gal an inch (plane geometry): 12 in. at 10 gpm take 1.32 min."""
    _, rows = cells("pit-fills")
    assert first(next(row for row in rows if row[0].startswith("10 "))[1]) == pytest.approx(1.32, abs=0.05)


def test_packs_beside_each_other_hold_each_row_once():
    """Every row of every pack with a quantity of the table stands in the column of its own pack, and nowhere else."""
    head, rows = cells("packs")
    assert len(head) == len(tables.rule_packs()) + 1 and tuple(site_tables.PACKS) == tables.rule_packs()
    for column, pack in enumerate(tables.rule_packs(), 1):
        shown = re.findall(r"\[([\w-]+)\]", " ".join(row[column] for row in rows))
        wanted = [row["id"] for row in tables.rule_pack(pack)["rows"] if row["quantity"] in site_tables.SIDE_BY_SIDE]
        assert sorted(shown) == sorted(wanted)


def test_more_leak_leaves_less_suction():
    """The table of two legs falls from row to row, and the flow rises."""
    _, rows = cells("two-legs")
    suctions, flows = [first(row[1]) for row in rows], [first(row[2]) for row in rows]
    assert suctions == sorted(suctions, reverse=True) and flows == sorted(flows)


ROWS = json.loads(site_tables.DISAGREEMENTS.read_text(encoding="utf-8"))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["what"][:40])
def test_a_disagreement_is_one(row):
    """Two figures that differ, each with a source of the register."""
    (one, _, first_source), (other, _, second_source) = (site_tables.published(row[side]) for side in ("one", "other"))
    assert one != other
    for reference in (first_source, second_source):
        site_sources.source(reference)


def test_size_of_a_disagreement_is_worked_out():
    """Twice the figure is 2 times; a seventh more is 14 percent (21 and 24 in., RRNC/CCAH against Minnesota)."""
    _, rows = cells("disagreements")
    apart = {row[0]: row[3] for row in rows}
    assert apart["exposure from gas: divide by"] == "2 times"
    assert apart["room for a fan, width"] == "14 %"


def test_everything_remembered_is_listed():
    """Known figures from memory stand in the list; none that was seen does; every page that says so is named."""
    listed = {(name, value) for name, value, _ in site_memory.constants()}
    assert ("pipes, schedule 40, 1 1/4, outside diameter", "1.66 in") in listed
    assert not [name for name, _ in listed if name.startswith("pipes, schedule 40, 3,")]
    saying = {address for _, address, _ in site_memory.said()}
    wanted = {f"/{check_prose.name(path)}" for path in check_prose.pages() if "{src: from-memory" in path.read_text(encoding="utf-8")}
    assert wanted <= saying
