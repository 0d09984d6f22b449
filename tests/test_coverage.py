"""The coverage table is true: what it names exists, and what it lacks is shown as a gap."""

from calculators import names, tables
from calculators.practice import templates
from calculators.show.text import PART_TITLES
from scripts.site_coverage import problems, table

ROWS = tables.table("coverage")["rows"]


def test_every_row_names_what_exists():
    """Parts, calculators and sources of each row exist; a row without a part says why."""
    for row in ROWS:
        assert row["part"] in PART_TITLES or (row["part"] is None and row["gap"])
        assert set(row["calculators"]) <= set(names())
        assert tables.source(row["source"])
    assert len("".join(table().itertext())) > 500


def test_every_part_and_calculator_is_practised():
    """Every part of the job has problems, and most subjects that are not gaps have one."""
    parts = {t.part for t in templates().values()}
    assert parts == set(PART_TITLES)
    bare = [row["subject"] for row in ROWS if row["part"] and not problems(row)]
    assert len(bare) <= 3, bare
