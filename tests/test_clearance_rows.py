"""Every row of every rule pack on the outlet: at its limit, just below it, without its number."""

from copy import deepcopy
from typing import Any

import pytest

from calculators import solve
from outlets import CAPPED, CC, IRC, LEVEL, MF, MN, PA, SGM, SIDE, THROUGH, check, riser
from published import Check


def over_roof(rules: str, **more: Any) -> float:
    """How far the shortest riser ends above the roof or its edge, in ft; the edge is 21 ft up."""
    return riser(rules, {"height_above_grade": "20 ft", "height_above_roof": "-1 ft", "direction": "up", **more}) - 21


ROUNDING = "a limit, found by solving for the height; only rounding lies between"
CHECKS = [
    Check(f"clearance-{id}", "discharge-clearances", source, at, found, printed, 1e-6, ROUNDING, "ft", seen)
    for id, source, at, found, printed, seen in [
        # 25 Pa. Code 240.308(b)(3): 10 ft above the nearest ground.
        ("pa-grade", "25-pa-code-240", "240.308(b)(3)",
         lambda: riser(PA, {"height_above_grade": "6 ft", "height_above_roof": "5 ft", "direction": "up"}), 10, "seen"),
        # 25 Pa. Code 240.308(b)(4): 2 ft above the top of an opening that is nearer than 10 ft.
        ("pa-opening", "25-pa-code-240", "240.308(b)(4)",
         lambda: riser(PA, SIDE, openings=[{"horizontal": "5 ft", "vertical": "1 ft"}]) - 21, 2, "seen"),
        # 25 Pa. Code 240.308(b)(6)(i): 12 in. above the roof surface.
        ("pa-roof", "25-pa-code-240", "240.308(b)(6)(i)", lambda: over_roof(PA), 1, "seen"),
        # IRC Appendix F, AF103.5.3: 12 in. above the roof; 2 ft above an opening.
        ("irc-roof", "irc-app-f-2012", "AF103.5.3", lambda: over_roof(IRC), 1, "seen"),
        ("irc-opening", "irc-app-f-2012", "AF103.5.3",
         lambda: riser(IRC, {"height_above_grade": "20 ft", "height_above_roof": "1 ft"},
                       openings=[{"horizontal": "4 ft", "vertical": "0 ft"}]) - 20, 2, "seen"),
        # Minn. R. 1303.2402 subp. 5 as quoted in a public code: 12 in. above the roof.
        ("mn-roof", "minn-r-1303", "1303.2402 subp. 5", lambda: over_roof(MN), 1, "secondary"),
        # SGM-SF 2017, 7.4.11: level 20 ft, diffused 15 ft above grade.
        ("sgm-level", "sgm-sf-2017", "7.4.11", lambda: riser(SGM, {**LEVEL, "height_above_grade": "8 ft"}), 20, "seen"),
        ("sgm-cap", "sgm-sf-2017", "7.4.11", lambda: riser(SGM, {**CAPPED, "height_above_grade": "8 ft"}), 15, "seen"),
        # RMS-MF 2018 (12/20), 6.4.10: 1 ft pitched, 18 in. flat, 6 in. over the roof edge.
        ("mf-pitched", "rms-mf-2018", "6.4.10(a)", lambda: over_roof(MF), 1, "seen"),
        ("mf-flat", "rms-mf-2018", "6.4.10(c)", lambda: over_roof(MF, roof_form="flat"), 1.5, "seen"),
        ("mf-edge", "rms-mf-2018", "6.4.10(b)", lambda: over_roof(MF, roof="side"), 0.5, "seen"),
    ]
]  # fmt: skip


@pytest.mark.parametrize("row", CHECKS, ids=lambda row: row.id)
def test_limits_are_those_of_the_rule(row: Check) -> None:
    """The least height that meets a row is the figure that the rule prints."""
    assert row.holds(), row


# Pack, check, discharge, lists, where the number goes, at the limit, just below it.
ROWS = [
    (PA, "PA-01", SIDE, {}, "discharge.height_above_grade", "10 ft", "9 ft 11 in"),  # 25 Pa. Code 240.308(b)(3)
    (PA, "PA-02:openings[0]", SIDE, {"openings": [{"vertical": "0 ft"}]}, "openings[0].horizontal", "10 ft", "9.99 ft"),
    (PA, "PA-02:openings[0]", SIDE, {"openings": [{"horizontal": "3 ft"}]}, "openings[0].vertical", "2 ft", "1.99 ft"),
    (PA, "PA-05", SIDE, {}, "discharge.horizontal_to_wall_above", "5 ft", "4 ft 11 in"),  # 240.308(b)(5)
    (PA, "PA-06:adjacent_buildings[0]", SIDE, {"adjacent_buildings": [{"vertical": "0 ft"}]},
     "adjacent_buildings[0].horizontal", "10 ft", "9.9 ft"),  # 240.308(b)(6)
    (PA, "PA-07", THROUGH, {}, "discharge.height_above_roof", "12 in", "11 in"),  # 240.308(b)(6)(i)
    (IRC, "IRC-01", THROUGH, {}, "discharge.height_above_roof", "12 in", "11 in"),  # AF103.5.3
    (IRC, "IRC-02:openings[0]", THROUGH, {"openings": [{"vertical": "0 ft"}]}, "openings[0].horizontal", "10 ft", "9 ft"),
    (IRC, "IRC-02:openings[0]", THROUGH, {"openings": [{"horizontal": "1 ft"}]}, "openings[0].vertical", "2 ft", "23 in"),
    (IRC, "IRC-03:adjacent_buildings[0]", THROUGH, {"adjacent_buildings": [{"vertical": "0 ft"}]},
     "adjacent_buildings[0].horizontal", "10 ft", "9 ft"),
    (MN, "MN-01:openings[0]", THROUGH, {"openings": [{"vertical": "0 ft"}]}, "openings[0].horizontal", "10 ft", "9 ft"),
    (MN, "MN-02", THROUGH, {}, "discharge.height_above_roof", "12 in", "11 in"),  # Minn. R. 1303.2402 subp. 5
    (SGM, "SGM17-01:openings[0]", LEVEL, {"openings": [{"vertical": "0 ft", "in_jet_path": True}]},
     "openings[0].horizontal", "20 ft", "19.9 ft"),  # SGM-SF 2017 7.4.8
    (SGM, "SGM17-02", LEVEL, {}, "discharge.height_above_grade", "20 ft", "19 ft"),  # 7.4.11
    (SGM, "SGM17-03:openings[0]", LEVEL, {"openings": [{"vertical": "0 ft"}]}, "openings[0].horizontal", "10 ft", "9 ft"),
    (SGM, "SGM17-04", CAPPED, {}, "discharge.height_above_grade", "15 ft", "14 ft"),
    (SGM, "SGM17-05:openings[0]", CAPPED, {"openings": [{"horizontal": "2 ft"}]}, "openings[0].vertical", "4 ft", "3 ft"),
    (SGM, "SGM17-05:adjacent_buildings[0]", CAPPED, {"adjacent_buildings": [{"vertical": "0 ft"}]},
     "adjacent_buildings[0].horizontal", "15 ft", "14 ft"),
    (MF, "RMSMF-02", THROUGH, {}, "discharge.height_above_roof", "1 ft", "11 in"),  # RMS-MF 2018 6.4.10(a)
    (MF, "RMSMF-03", SIDE, {}, "discharge.height_above_roof", "6 in", "5 in"),  # 6.4.10(b)
    (MF, "RMSMF-04", {**THROUGH, "roof_form": "flat"}, {}, "discharge.height_above_roof", "18 in", "17 in"),  # 6.4.10(c)
    (MF, "RMSMF-05", {**SIDE, "height_above_roof": "-1 ft"}, {}, "discharge.height_above_grade", "20 ft", "19 ft"),
    (CC, "CC-01:openings[0]", SIDE, {"openings": [{"horizontal": "2 ft"}]}, "openings[0].vertical", "4 ft", "3.9 ft"),  # 9.7.1
    (CC, "CC-01:openings[0]", SIDE, {"openings": [{"vertical": "1 ft"}]}, "openings[0].horizontal", "10 ft", "9.9 ft"),
    (CC, "CC-02:people_areas[0]", SIDE, {"people_areas": [{"horizontal": "2 ft"}]}, "people_areas[0].vertical", "10 ft", "9 ft"),
    (CC, "CC-02:people_areas[0]", SIDE, {"people_areas": [{"vertical": "2 ft"}]}, "people_areas[0].horizontal", "10 ft", "9 ft"),
]  # fmt: skip


def put(data: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """A copy of the input with the member at the path set."""
    data = deepcopy(data)
    head, _, member = path.partition(".")
    name, _, rest = head.partition("[")
    (data[name][int(rest.rstrip("]"))] if rest else data[name])[member] = value
    return data


def row_at(case: Any, value: Any) -> dict[str, Any]:
    """The check of a row case with its number set."""
    pack, id, discharge, lists, path, _, _ = case
    inputs = put({"rules": pack, "discharge": discharge, **lists}, path, value)
    return check(solve("discharge-clearances", inputs).as_dict(), id)


@pytest.mark.parametrize("case", ROWS, ids=[f"{c[1]}-{c[4].rpartition('.')[2]}" for c in ROWS])
def test_row_at_its_limit(case: Any) -> None:
    """At exactly the limit a row is met with nothing to spare; just below it is not; its section stands beside it."""
    at, below = row_at(case, case[5]), row_at(case, case[6])
    assert at["ok"] is True
    assert at["margin"]["si"] == pytest.approx(0, abs=1e-9)
    assert below["ok"] is False
    assert below["margin"]["si"] < 0
    assert at["section"]


MISSING = [c for c in ROWS if c[4] not in ("discharge.height_above_grade", "discharge.horizontal_to_wall_above")]


@pytest.mark.parametrize("case", MISSING, ids=[f"{c[1]}-{c[4].rpartition('.')[2]}" for c in MISSING])
def test_row_without_its_number(case: Any) -> None:
    """A row that lacks its number is not judged and names the field; the whole is then neither met nor not met."""
    lacking = row_at(case, None)
    assert lacking["ok"] is None
    assert case[4] in lacking["needs"]
    assert "margin" not in lacking
    answer = solve("discharge-clearances", put({"rules": case[0], "discharge": case[2], **case[3]}, case[4], None))
    assert answer["passes"] is None
    assert case[1] in answer["not_judged"]
