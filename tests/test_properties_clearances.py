"""Promises of the clearances that hold for any outlet."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from calculators import solve, tables

QUICK = settings(max_examples=40, deadline=None)
SPAN = st.integers(-60, 60)  # quarter feet
AWAY = st.integers(0, 100)
PACK = st.sampled_from(tables.rule_packs())
OPENING = st.fixed_dictionaries(
    {"horizontal": AWAY, "vertical": SPAN}, optional={"height": st.integers(1, 20), "path": AWAY}
)
DISCHARGE = st.fixed_dictionaries(
    {"height_above_grade": st.integers(20, 160), "height_above_roof": SPAN},
    optional={"roof": st.just("side"), "direction": st.sampled_from(("up", "up-45", "horizontal")), "rain_cap": st.booleans()},
)


def typed(data: dict[str, Any], rise: int = 0) -> dict[str, Any]:
    """The members with units, the outlet raised by quarter feet."""
    lifted = ("height_above_grade", "height_above_roof", "vertical")
    return {
        name: f"{(value + (rise if name in lifted else 0)) / 4} ft" if isinstance(value, int) and not isinstance(value, bool) else value
        for name, value in data.items()
    }


def answer(pack: Any, discharge: dict[str, Any], openings: list[dict[str, Any]], rise: int = 0, **more: Any) -> dict[str, Any]:
    """The whole answer as data."""
    given = {"rules": pack, "discharge": typed(discharge, rise), "openings": [typed(o, rise) for o in openings], **more}
    return solve("discharge-clearances", given).as_dict()


HEIGHT_ROWS = {r["id"] for pack in tables.rule_packs() for r in tables.rule_pack(pack)["rows"]
               if r["quantity"] in ("height_above_grade", "above_roof_edge", "above_roof_surface")}  # fmt: skip


@QUICK
@given(PACK, DISCHARGE, st.integers(1, 40))
def test_raising_never_lowers_a_height_margin(pack: str, discharge: dict[str, Any], rise: int) -> None:
    """A taller riser never has less to spare in a row on height above ground or roof."""
    before, after = (answer(pack, discharge, [], by)["checks"] for by in (0, rise))
    later = {c["id"]: c for c in after}
    for check in before:
        if check["id"] in HEIGHT_ROWS and "margin" in check and check["id"] in later:
            assert later[check["id"]]["margin"]["si"] >= check["margin"]["si"]


@QUICK
@given(PACK, DISCHARGE, st.lists(OPENING, max_size=4), st.randoms())
def test_order_of_openings_is_irrelevant(pack: str, discharge: dict[str, Any], openings: list[Any], dice: Any) -> None:
    """The verdict, the worst margin and the riser do not depend on the order in which openings are listed."""
    mixed = list(openings)
    dice.shuffle(mixed)
    one, two = (answer(pack, discharge, listed)["results"] for listed in (openings, mixed))
    assert all(one[name] == two[name] for name in ("passes", "worst_margin", "shortest_riser"))


@QUICK
@given(DISCHARGE, OPENING)
def test_house_and_neighbour_are_mirror_images(discharge: dict[str, Any], opening: dict[str, Any]) -> None:
    """Rows on both kinds of opening judge the same geometry alike, whichever building it is in."""
    for pack in ("sgm-sf-2017", "cc-1000-2018"):
        mine = answer(pack, discharge, [opening])["checks"]
        theirs = answer(pack, discharge, [], adjacent_buildings=[typed(opening)])["checks"]
        mirrored = {c["id"].replace("adjacent_buildings", "openings"): (c["ok"], c.get("margin")) for c in theirs}
        assert mirrored == {c["id"]: (c["ok"], c.get("margin")) for c in mine}


@QUICK
@given(PACK, DISCHARGE, st.lists(OPENING, max_size=3))
def test_no_lower_riser_on_the_grid_meets_the_pack(pack: str, discharge: dict[str, Any], openings: list[Any]) -> None:
    """No height on a one-foot grid below the solved one meets the pack; where none was found, none on the grid does."""
    result = answer(pack, discharge, openings)["results"]["shortest_riser"]
    for rise in range(-discharge["height_above_grade"], 81, 4):
        tried = answer(pack, discharge, openings, rise)
        if tried["results"]["passes"] and any(c["id"] in HEIGHT_ROWS for c in tried["checks"]):
            assert result is not None
            assert (discharge["height_above_grade"] + rise) / 4 >= result["value"] - 1e-6
