"""The whole decision table of vent-route can be read on one page."""

import re

import markdown
import pytest

from calculators import tables
from calculators.trade import route_rules
from scripts import site_routes


@pytest.fixture(scope="module")
def page() -> str:
    """The block as a page gets it."""
    return markdown.markdown("# Table\n\n/// routes\n///\n", extensions=["scripts.site_blocks"])


def test_every_rule_stands_on_the_page_with_words_and_source(page: str) -> None:
    """Each rule has a line of its own with when it holds, what it says and a link to its source."""
    lines = dict(re.findall(r'<tr id="route-([a-z-]+)">(.*?)</tr>', page, re.DOTALL))
    assert list(lines) == [rule["id"] for effect in site_routes.EFFECTS for rule in route_rules.rules() if rule["effect"] == effect]
    for rule in route_rules.rules():
        body = lines[rule["id"]]
        assert rule["found"].replace("&", "&amp;") in body
        assert rule["text"] in body
        for id in (rule["source"], *(id for id, _ in rule.get("by_pack", {}).values())):
            assert f"#{id}" in body, rule["id"]


def test_the_page_shows_the_figures_of_each_pack(page: str) -> None:
    """Where packs have figures of their own, the line shows each with its row, as the pack has it."""
    seen = 0
    for rule in route_rules.rules():
        for pack, id in rule.get("limits", {}).items():
            if pack != "else":
                row = next(row for row in tables.rule_pack(pack)["rows"] if row["id"] == id)
                assert re.search(rf"{pack}: {row['value']:g}\u00a0{row['unit']} \([\d.]+\u00a0m\) \({id}\)", page), (rule["id"], pack)
                seen += 1
    assert seen > 8


def test_effects_are_all_explained() -> None:
    """The page has a heading and a sentence for every effect that a rule can have."""
    assert set(site_routes.EFFECTS) == set(route_rules.EFFECTS)
