"""Radon in every unit: printed figures of unit, dose and risk, the table that is looked up and never scaled."""

from typing import Any

import pytest

from calculators import InputError, solve
from calculators.units import factor, from_si, si
from published import Check

PCI = factor("pCi/L")
LEVELS = (20, 10, 8, 4, 2, 1.3)
EPA_2003 = {"smoker": (260, 150, 120, 62, 32, 20), "never": (36, 18, 15, 7, 4, 2)}
EPA_1992 = {"smoker": (135, 71, 57, 29, 15, 9), "never": (8, 4, 3, 2, 1, 1)}  # superseded, still found in print


def level(value: str, **more: Any) -> Any:
    """The answer for a level with some other inputs."""
    return solve("radon-units", {"value": value, **more})


def risk(pci: float, who: str) -> Any:
    """Risk per 1,000 at a level in pCi/L, or None."""
    return level(f"{pci} pCi/L", smoking=who)["risk_per_1000"]


def millisieverts(value: str, **more: Any) -> float:
    return level(value, **more)["dose"] * 1000


def months(value: str, hours: str, F: float) -> float:
    return from_si(level(value, hours=hours, equilibrium_factor=F)["wlm"], "WLM")


CHECKS = [
    Check("radon-units-action-level", "radon-units", "eur-respir-2017", "Table 1, 4 pCi/L", lambda: level("4 pCi/L")["bq_per_m3"],
          148, 1e-9, "exact by definition of the curie", "Bq/m3"),
    Check("radon-units-survey-mean", "radon-units", "marcinowski-1994", "abstract, arithmetic mean 1.25 pCi/L",
          lambda: level("1.25 pCi/L")["bq_per_m3"], 46.3, 0.1, "the abstract converts from more digits", "Bq/m3"),
    Check("radon-units-working-level", "radon-units", "beir-vii", "glossary, working level",
          lambda: from_si(level("100 pCi/L", equilibrium_factor=1)["working_level"], "WL"), 1, 1e-9, "exact: 100 pCi/L in equilibrium", "WL"),
    Check("radon-units-working-month", "radon-units", "beir-vii", "glossary, working-level month, 1 WL for 170 h",
          lambda: months("1 WL", "170 h", 0.4), 1, 1e-9, "exact by definition", "WLM"),
    Check("radon-units-energy", "radon-units", "beir-vii", "glossary, working level in J/m3", lambda: level("1 WL")["paec"], 2.08e-5, 1e-12,
          "printed to three digits and taken over", "J/m3"),
    Check("radon-units-wlm-divisor-100", "radon-units", "sgm-sf-2017", "11.3, hours x pCi/L / 100 / 170 for 40 h at 10 pCi/L",
          lambda: months("10 pCi/L", "40 h", 1), 40 * 10 / 100 / 170, 1e-9, "the printed rule counts with full equilibrium", "WLM"),
    Check("radon-units-wlm-divisor-200", "radon-units", "rms-mf-2018", "11.1.2, hours x pCi/L / 200 / 170 for 40 h at 10 pCi/L",
          lambda: months("10 pCi/L", "40 h", 0.5), 40 * 10 / 200 / 170, 1e-9, "the printed rule counts with half equilibrium", "WLM"),
    Check("radon-units-dose-icrp", "radon-units", "icrp-137", "summary, 300 Bq/m3 for 2,000 h",
          lambda: millisieverts("300 Bq/m3", hours="2000 h"), 4, 0.05, "printed to one digit", "mSv"),
    Check("radon-units-dose-unscear", "radon-units", "unscear-radon", "40 Bq/m3, F 0.4, 7,000 h",
          lambda: millisieverts("40 Bq/m3", dose_coefficient="unscear"), 1.0, 0.05, "printed to two digits", "mSv", "from memory"),
    *(
        Check(f"radon-units-risk-{who}-{pci}", "radon-units", "epa-402-r-03-003", f"table, {who}, {pci} pCi/L",
              lambda pci=pci, who=who: risk(pci, who), printed, 1e-9, "the printed row", "per 1,000")
        for who, row in EPA_2003.items()
        for pci, printed in zip(LEVELS, row, strict=True)
    ),
]  # fmt: skip


@pytest.mark.parametrize("row", CHECKS, ids=lambda row: row.id)
def test_published(row: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert row.holds(), str(row)


@pytest.mark.parametrize("who", EPA_1992)
def test_the_superseded_table_is_not_used(who: str) -> None:
    """No level of the table gives the risk of the table of 1992, which is lower by half or more."""
    for pci, old in zip(LEVELS, EPA_1992[who], strict=True):
        assert risk(pci, who) > 1.5 * old


def test_risk_is_read_between_rows_and_never_scaled() -> None:
    """Between rows the risk lies on the straight line between them; it is not the row of 4 pCi/L times a ratio."""
    assert risk(6, "smoker") == pytest.approx(62 + (120 - 62) / 2)
    assert risk(15, "smoker") == pytest.approx(205)
    assert risk(15, "smoker") != pytest.approx(62 * 15 / 4, rel=0.05)
    found = level("6 pCi/L", smoking="never").outputs["risk_per_1000"]
    assert (found.low, found.high) == (7, 15)


@pytest.mark.parametrize(("pci", "who"), [(20.1, "smoker"), (0.39, "smoker"), (1.29, "never"), (20.1, "never"), (0, "never")])
def test_outside_the_table_there_is_no_risk(pci: float, who: str) -> None:
    """Above 20 pCi/L and below the first row the risk is not given, and a note says where the table ends."""
    result = level(f"{pci} pCi/L", smoking=who)
    assert result["risk_per_1000"] is None
    assert any("lies outside" in caution.text for caution in result.work.cautions)


def test_both_groups_stand_side_by_side() -> None:
    """While it is not said who breathes the air no single risk is given; the table names both groups."""
    result = level("4 pCi/L")
    assert result["risk_per_1000"] is None
    assert [(row["who"], row["risk_per_1000"]) for row in result["risks"]] == [("never smoked", 7), ("smoker", 62)]


def test_the_row_seen_once_is_marked() -> None:
    """The smokers' row at 0.4 pCi/L gives 3 and says that it was seen in one copy only; higher up nothing is said."""
    low, high = level("0.4 pCi/L", smoking="smoker"), level("4 pCi/L", smoking="smoker")
    assert low["risk_per_1000"] == 3
    assert any("one copy" in caution.text for caution in low.work.cautions)
    assert not any("one copy" in caution.text for caution in high.work.cautions)


def test_a_working_level_is_read_too() -> None:
    """0.02 WL at factor 0.5 is 4 pCi/L; echoed it stays a working level, and a level beyond the bound is refused."""
    result = level("0.02 WL", equilibrium_factor=0.5)
    assert result["pci_per_l"] / PCI == pytest.approx(4)
    echo = result.as_dict("us")["inputs"]["value"]
    assert (echo["value"], echo["unit"]) == (0.02, "WL")
    assert level("0.02 WL")["pci_per_l"] / PCI == pytest.approx(5)
    with pytest.raises(InputError) as caught:
        level("101 WL")
    assert [(p["field"], p["kind"]) for p in caught.value.problems] == [("value", "bounds")]


@pytest.mark.parametrize(("value", "kind"), [("5 ft", "dimension"), ("5", "unit"), ("-1 Bq/m3", "bounds"), ("5 xyz", "unit"), (5, "unit")])
def test_what_is_no_level_is_refused(value: Any, kind: str) -> None:
    """A length, a bare number, a level below 0 and an unknown unit are problems of the kind that they are."""
    with pytest.raises(InputError) as caught:
        solve("radon-units", {"value": value})
    assert [(p["field"], p["kind"]) for p in caught.value.problems] == [("value", kind)]


def test_a_working_level_needs_some_equilibrium() -> None:
    """Without decay products a working level says nothing about radon; a level in pCi/L needs none."""
    with pytest.raises(InputError) as caught:
        level("0.02 WL", equilibrium_factor=0)
    assert caught.value.problems[0]["field"] == "equilibrium_factor"
    assert level("4 pCi/L", equilibrium_factor=0)["dose"] == 0


def test_dose_coefficients() -> None:
    """ICRP's follows F over 0.4, UNSCEAR's follows F, a number is taken as it is; the range spans the published two."""
    coefficient = {"icrp-137": 6.7 * 0.6 / 0.4, "unscear": 9 * 0.6, "5 nSv m3/Bq/h": 5}
    for given, per_gas in coefficient.items():
        found = millisieverts("100 Bq/m3", hours="1000 h", equilibrium_factor=0.6, dose_coefficient=given)
        assert found == pytest.approx(per_gas * 100 * 1000 * 1e-6, rel=1e-9)
    span = level("100 Bq/m3").outputs["dose"]
    assert (span.low, span.high) == (pytest.approx(0.1 * 7 * 3.6e-3), pytest.approx(0.1 * 7 * 6.7e-3))
    assert not hasattr(level("100 Bq/m3", dose_coefficient={"value": 5, "unit": "nSv*m3/Bq/h"}).outputs["dose"], "low")


def test_a_level_just_met_is_reached() -> None:
    """4 pCi/L reaches the US level and not Canada's 200 Bq/m3; the list rises and names who set each level."""
    rows = level("4 pCi/L")["levels"]
    assert [row["level"] for row in rows] == sorted(row["level"] for row in rows)
    reached = {row["where"]: row["reached"] for row in rows}
    assert reached["United States"] is True and reached["Canada"] is False
    assert all(row["source"] for row in rows)


def test_two_worker_limits_are_not_one() -> None:
    """0.3 WL for 2,080 h is 3.67 WLM; 30 pCi/L at half equilibrium is half of that: neither is turned into the other."""
    assert months("0.3 WL", "2080 h", 0.5) == pytest.approx(3.67, abs=0.005)
    assert months("30 pCi/L", "2080 h", 0.5) == pytest.approx(1.84, abs=0.005)
    assert any("4 WLM in 12 months" in caution.text for caution in level("4 pCi/L").work.cautions)


def test_units_of_the_answer() -> None:
    """Decay products are shown in WL, exposure in WLM, dose in mSv, in both systems."""
    for system in ("us", "si"):
        shown = level("148 Bq/m3").as_dict(system)["results"]
        assert [shown[name]["unit"] for name in ("working_level", "wlm", "dose", "pci_per_l", "bq_per_m3")] == [
            "WL", "WLM", "mSv", "pCi/L", "Bq/m3",
        ]  # fmt: skip
    assert shown["wlm"]["si"] == pytest.approx(148 * 0.4 / 3700 * 2.08e-5 * 7000 * 3600)
    assert si("1 WLM") == pytest.approx(12.7296)
