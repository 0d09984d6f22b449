"""What fan and house air cost in a year: printed examples, the season's heat, prices, what is refused."""

from typing import Any

import pytest

from calculators import InputError, describe, solve
from calculators.physics import heat
from calculators.show.answer import say
from calculators.show.house import inputs_of
from calculators.units import factor, si
from published import Check

FAN = {"fan_power": "100 W", "house_air_flow": "0 cfm", "heating_degree_days": "6000 degF*day"}
SEASON = {"fan_power": "0 W", "house_air_flow": "30 cfm", "heating_degree_days": "6000 degF*day"}
MMBTU, KWH = factor("MMBtu"), factor("kWh")


def run(**given: Any) -> Any:
    """The answer for these inputs; None takes one out."""
    return solve("running-cost", {name: value for name, value in given.items() if value is not None})


def an_hour(cfm: float, difference: float) -> float:
    """Heat in Btu/h of a flow [cfm] over a steady temperature difference [F]: a year of it is 365 degree days for each F."""
    result = run(**{**SEASON, "house_air_flow": f"{cfm} cfm", "heating_degree_days": f"{365 * difference} degF*day"})
    return result["heat_energy"] / factor("Btu") / 8760


CHECKS = [
    Check("running-cost-fan", "running-cost", "heat-cost-examples", "100 W all year at $0.12/kWh",
          lambda: run(**FAN, prices={"electricity": "0.12 money/kWh"})["cost_per_year"], 105.12, 0.005,
          "printed in cents", "dollars"),
    Check("running-cost-house", "running-cost", "heat-cost-examples", "0.018 x 0.8 x 12,000 x 60",
          lambda: an_hour(0.8 * 12000 / 60, 60), 10368, 0.001 * 10368,
          "the print rounds heat and density of air to 0.018 Btu/(ft3 F)", "Btu/h"),
    Check("running-cost-108", "running-cost", "heat-cost-examples", "1.08 = 0.075 x 0.24 x 60",
          lambda: an_hour(1, 1), 1.08, 0.001 * 1.08, "the print rounds heat and density of air", "Btu/h per cfm and F"),
    # ASHRAE Fundamentals 2021, chapter 16, office example: Atlanta has 1,814 K d of heating, which is 3,265 F d.
    Check("running-cost-atlanta", "running-cost", "ashrae-hof-2021-16", "office example, 1,814 K d",
          lambda: run(**{**SEASON, "heating_degree_days": "1814 degC*day"}).values["heating_degree_days"] / factor("degF*day"),
          3265, 1, "rounded to whole degree days", "F d"),
]  # fmt: skip


@pytest.mark.parametrize("one", CHECKS, ids=lambda one: one.id)
def test_published(one: Check) -> None:
    """Our figure agrees with the printed one within the tolerance that the row explains."""
    assert one.holds(), str(one)


def test_a_season_of_house_air() -> None:
    """30 cfm over 6,000 F days is 4.666 MMBtu in the air and 5.832 MMBtu of fuel at 80 percent (derived from 1.08)."""
    result = run(**SEASON)
    assert result["heat_energy"] / MMBTU == pytest.approx(4.666, rel=1e-3)
    assert result["fuel_energy"] / MMBTU == pytest.approx(5.832, rel=1e-3)
    assert result["fuel_energy"] / factor("therm") == pytest.approx(58.3, rel=1e-3)


def test_a_flow_and_its_share_are_the_house_air() -> None:
    """Half of 60 cfm costs what 30 cfm cost."""
    half = run(**{**SEASON, "house_air_flow": None}, flow="60 cfm", house_air_share="50 %")
    assert half["heat_energy"] == pytest.approx(run(**SEASON)["heat_energy"])
    assert half["house_air"] == pytest.approx(si("30 cfm"))


def test_house_air_may_cost_nothing_or_all_of_it() -> None:
    """The heat's range runs from nothing to the whole flow, and the cost's from the fan alone to everything."""
    result = run(**{**SEASON, "fan_power": "60 W"}, prices={"electricity": "0.2 money/kWh", "fuel": "1 money/therm"})
    assert (result.outputs["heat_energy"].low, result.outputs["heat_energy"].high) == (0, result["heat_energy"])
    span = result.outputs["cost_per_year"]
    assert span.low == pytest.approx(result["fan_cost"]) and span.high == span.value
    assert result["cost_per_year"] == pytest.approx(result["fan_cost"] + result["heat_cost"])


def test_cooling_is_counted_only_when_asked_for() -> None:
    """900 F days of cooling through 30 cfm need a third of their heat in electricity; without them there is no figure."""
    without, with_ = run(**SEASON), run(**SEASON, cooling_degree_days="900 degF*day")
    assert without["cooling_energy"] is None and without["cooling_cost"] is None
    assert with_["cooling_energy"] == pytest.approx(0.15 * with_["heat_energy"] / 3)
    assert any("Cooling" in text for text in without.work.left_out)
    assert not any("Cooling" in text for text in with_.work.left_out)


@pytest.mark.parametrize(
    ("prices", "known"),
    [(None, set()), ({"electricity": "0.2 money/kWh"}, {"fan_cost"}), ({"fuel": "1 money/therm"}, {"heat_cost"})],
)
def test_nothing_is_assumed_about_prices(prices: dict[str, str] | None, known: set[str]) -> None:
    """A price that is left out leaves its cost and the total null, and the answer says so."""
    result = run(**{**SEASON, "fan_power": "60 W"}, prices=prices)
    assert {name for name in ("fan_cost", "heat_cost") if result[name] is not None} == known
    assert result["cost_per_year"] is None
    assert any("Nothing is assumed" in c.text for c in result.work.cautions)


def test_the_price_of_fuel_in_any_unit() -> None:
    """A therm is 29.3 kWh: the same price for either gives the same cost."""
    therm = run(**SEASON, prices={"electricity": "0 money/kWh", "fuel": "1.465355 money/therm"})
    kwh = run(**SEASON, prices={"electricity": "0 money/kWh", "fuel": "0.05 money/kWh"})
    assert therm["cost_per_year"] == pytest.approx(kwh["cost_per_year"], rel=1e-3)


def test_thin_air_holds_less_heat() -> None:
    """At 5,000 ft the same flow carries 17 percent less heat, as its density (derived from the standard atmosphere)."""
    assert run(**SEASON, elevation="5000 ft")["heat_energy"] / run(**SEASON)["heat_energy"] == pytest.approx(0.832, abs=0.002)


def test_a_better_furnace_burns_less() -> None:
    """Fuel is heat over efficiency: the heat in the air stays, the fuel falls."""
    old, new = run(**SEASON, furnace_efficiency="0.8"), run(**SEASON, furnace_efficiency="0.95")
    assert old["heat_energy"] == new["heat_energy"]
    assert old["fuel_energy"] / new["fuel_energy"] == pytest.approx(0.95 / 0.8)


def test_the_fan_is_not_to_be_switched_off() -> None:
    """The answer warns against saving by switching the fan off, and prints the currency as it was typed."""
    result = run(**FAN, currency="US dollars")
    assert any(c.text.startswith("Do not switch the fan off") for c in result.work.cautions)
    assert result["currency"] == "US dollars"
    assert result["fan_energy"] / KWH == pytest.approx(876)
    assert heat.AIR_HEAT == 1006


def refused(**given: Any) -> dict[str, str]:
    """Fields and kinds of the problems of a refused input."""
    with pytest.raises(InputError) as error:
        run(**given)
    return {one["field"]: one["kind"] for one in error.value.problems}


@pytest.mark.parametrize(
    ("changed", "problem"),
    [
        ({"house_air_flow": None}, {"house_air_flow": "missing"}),
        ({"flow": "60 cfm"}, {"house_air_flow": "conflict"}),
        ({"house_air_flow": None, "flow": "60 cfm"}, {"house_air_share": "missing"}),
        ({"house_air_share": "40 %"}, {"house_air_share": "conflict"}),
        ({"heating_degree_days": "6000 degF"}, {"heating_degree_days": "dimension"}),
        ({"furnace_efficiency": "0"}, {"furnace_efficiency": "bounds"}),
        ({"prices": {"electricity": "0.12"}}, {"prices.electricity": "unit"}),
    ],
)
def test_refusals(changed: dict[str, Any], problem: dict[str, str]) -> None:
    """Half a way of giving the house air, two ways of it, wrong dimensions and no efficiency are refused at the field."""
    assert refused(**{**SEASON, **changed}) == problem


def test_it_stands_in_the_job() -> None:
    """It belongs to pipe and fan, and the handbook's house reaches it with the lid's leak as house air."""
    assert describe("running-cost")["part"] == "pipe-and-fan"
    result = solve("running-cost", inputs_of("running-cost"))
    assert say(result, "us")[1].startswith("A year costs ")
    assert result["house_air"] > 0
