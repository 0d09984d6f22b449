"""The house, the riser, the year and the pipe: answers that move the way nature and arithmetic move, for any input."""

from itertools import pairwise
from math import copysign
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from calculators import InputError, solve
from calculators.units import si

FEW = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
FLOW = st.floats(0, 600)
MORE = st.floats(1.01, 3)
LEAKAGE = st.floats(300, 6000)
OUTDOORS = st.floats(-40, 100)
EXPONENT = st.floats(0.5, 1)
COUNT = st.integers(1, 40)
NOISE = 1e-9  # Pa, what rounding may leave


def fans(cfm: float, leakage: float, outdoors: float, exponent: float, count: int, **more: Any) -> Any:
    """spillage-check for a house; None where it refuses."""
    house = {"leakage_at_50Pa": f"{leakage} cfm", "exponent": exponent, "leak_count": count}
    given_ = {"house": house, "outdoor_temperature": f"{outdoors} degF", "exhausts": [{"flow": f"{cfm} cfm"}], "system_house_air": "0 cfm"}
    try:
        return solve("spillage-check", {**given_, **more})
    except InputError as error:
        if {one["kind"] for one in error.problems} != {"outside-model"}:
            raise
        return None


@FEW
@given(FLOW, MORE, LEAKAGE, OUTDOORS, EXPONENT, COUNT)
def test_more_fans_add_more_and_a_leakier_house_less(
    cfm: float, more: float, leakage: float, outdoors: float, exponent: float, count: int
) -> None:
    """More exhaust never adds less, more leakage never more, and what fans are off reads the same whatever they would do."""
    here = fans(cfm, leakage, outdoors, exponent, count)
    stronger = fans(cfm * more + 1, leakage, outdoors, exponent, count)
    leakier = fans(cfm, leakage * more, outdoors, exponent, count)
    assume(here and stronger and leakier)
    assert stronger["added_depressurization"] >= here["added_depressurization"] - NOISE
    assert leakier["added_depressurization"] <= here["added_depressurization"] + NOISE
    assert stronger["base_at_slab"] == pytest.approx(here["base_at_slab"], abs=1e-7)
    assert leakier["base_at_slab"] == pytest.approx(here["base_at_slab"], abs=1e-7)
    assert here["added_depressurization"] >= -NOISE
    span = here.outputs["added_depressurization"]
    assert span.low - NOISE <= span.value <= span.high + NOISE


@FEW
@given(FLOW, LEAKAGE, OUTDOORS, EXPONENT, COUNT, st.floats(0, 30))
def test_leaks_let_in_what_fans_take_out(
    cfm: float, leakage: float, outdoors: float, exponent: float, count: int, wind: float
) -> None:
    """Summed again leak by leak at the found pressure, the house takes in as much as its fans take out."""
    here = fans(cfm, leakage, outdoors, exponent, count, wind=f"{wind} mph")
    assume(here)
    gradient = next(s.value for s in here.work.steps if s.title == "Stack, for each unit of height")
    pull = next((s.value for s in here.work.steps if s.title == "Wind on the leaks"), 0.0)
    heights = [3.9] if count == 1 else [0.3 + i * 7.2 / (count - 1) for i in range(count)]
    each = leakage * si("1 cfm") / count
    total = 0.0
    for z in heights:
        drive = here["depressurization_at_slab"] - gradient * z - pull
        total += copysign(each * (abs(drive) / 50) ** exponent, drive)
    assert total == pytest.approx(cfm * si("1 cfm"), rel=1e-4, abs=1e-5)


@FEW
@given(st.lists(st.floats(0, 200), min_size=2, max_size=5), LEAKAGE, OUTDOORS, st.floats(0, 80))
def test_fans_are_one_sum_whatever_their_order(flows: list[float], leakage: float, outdoors: float, system: float) -> None:
    """Fans listed one by one, in any order, or as one flow give one answer; the system adds no less than nothing."""
    house = {"house": {"leakage_at_50Pa": f"{leakage} cfm"}, "outdoor_temperature": f"{outdoors} degF", "system_house_air": f"{system} cfm"}

    def added(listed: list[float]) -> Any:
        try:
            return solve("spillage-check", {**house, "exhausts": [{"flow": f"{flow} cfm"} for flow in listed]})
        except InputError:
            return None

    one, other, whole = added(flows), added(flows[::-1]), added([sum(flows)])
    assume(one and other and whole)
    for name in ("added_depressurization", "added_by_system"):
        assert other[name] == pytest.approx(one[name], rel=1e-6, abs=1e-7)
        assert whole[name] == pytest.approx(one[name], rel=1e-6, abs=1e-7)
    assert one["added_by_system"] >= -NOISE
    assert one["added_by_system"] <= one["added_depressurization"] + NOISE


@FEW
@given(FLOW, LEAKAGE, OUTDOORS, st.floats(0, 200), st.sampled_from(["power-vented", "shared-vent", "sealed"]))
def test_the_verdict_never_changes(cfm: float, leakage: float, outdoors: float, leak: float, kind: str) -> None:
    """Whatever is entered, the answer says: test it; doors and blower only widen the range upward."""
    plain = fans(cfm, leakage, outdoors, 0.65, 13, appliances=[{"kind": kind}])
    shut = fans(cfm, leakage, outdoors, 0.65, 13, door="closed", air_handler="on", return_leak_flow=f"{leak} cfm")
    assume(plain and shut)
    assert plain["verdict"].startswith("Test it.") and shut["verdict"] == plain["verdict"]
    assert next(c.ok for c in plain.work.checks if c.id == "spillage-test") is False
    assert shut["added_depressurization"] == plain["added_depressurization"]
    assert shut.outputs["added_depressurization"].high >= plain.outputs["added_depressurization"].high - NOISE


COLD = st.floats(-60, 40)
AIR = st.floats(0.5, 300)
LONG = st.floats(0.5, 100)
SIZE = st.sampled_from(["2", "3", "4", "6"])
KELVIN = 0.3  # the latent heat jumps at freezing; near it a wall may lie that much off the order


def riser(cfm: float, feet: float, outdoors: float, size: str, **more: Any) -> Any:
    """cold-stack for saturated soil air of 50 degF."""
    given_ = {"flow": f"{cfm} cfm", "outdoor_length": f"{feet} ft", "outdoor_temperature": f"{outdoors} degF", "pipe_size": size}
    return solve("cold-stack", {**given_, "soil_air_temperature": "50 degF", **more})


@FEW
@given(AIR, LONG, COLD, SIZE, st.floats(0, 100))
def test_air_in_the_riser_cools_toward_the_outdoors(cfm: float, feet: float, outdoors: float, size: str, humid: float) -> None:
    """Wall and air lie between outdoors and soil, the air only cools, the wall is never the warmer; water is not made."""
    result = riser(cfm, feet, outdoors, size, relative_humidity=f"{humid} %")
    walls, airs, _ = (axis[2] for axis in result.work.plots[0].series)
    low, high = si(f"{outdoors} degF"), si("50 degF")
    assert all(low - 1e-6 <= wall <= air + 1e-6 and air <= high + 1e-6 for wall, air in zip(walls[:-1], airs[:-1], strict=True))
    assert all(later <= earlier + 1e-9 for earlier, later in pairwise(airs))
    assert result["deposit_per_day"] + result["fog_per_day"] <= result["carried_per_day"] * (1 + 1e-9)
    assert (result["first_frost_distance"] is None) is (result["risk"] in ("none", "low"))


@FEW
@given(AIR, LONG, COLD, SIZE, st.floats(0.5, 4), st.floats(1, 20))
def test_insulation_and_milder_weather_warm_the_wall(
    cfm: float, feet: float, outdoors: float, size: str, inches: float, degrees: float
) -> None:
    """Foam never cools the wall at the outlet nor adds water to it; colder weather never warms it, and frost comes no later."""
    bare = riser(cfm, feet, outdoors, size)
    foam = riser(cfm, feet, outdoors, size, insulation_thickness=f"{inches} in")
    assert foam["wall_end_temperature"] >= bare["wall_end_temperature"] - KELVIN
    assert foam["exit_temperature"] >= bare["exit_temperature"] - KELVIN
    colder = riser(cfm, feet, max(outdoors - degrees, -60), size)
    assert colder["wall_end_temperature"] <= bare["wall_end_temperature"] + KELVIN
    if bare["first_frost_distance"] is not None:
        assert colder["first_frost_distance"] <= bare["first_frost_distance"] + 0.02 * feet * si("1 ft")


DAYS = st.floats(0, 12000)


def year(cfm: float, days: float, watts: float, **more: Any) -> Any:
    """running-cost with both prices."""
    prices = {"electricity": "0.2 money/kWh", "fuel": "1.5 money/therm"}
    given_ = {"fan_power": f"{watts} W", "house_air_flow": f"{cfm} cfm", "heating_degree_days": f"{days} degF*day", "prices": prices}
    return solve("running-cost", {**given_, **more})


@FEW
@given(FLOW, DAYS, st.floats(0, 300), st.floats(0.1, 0.95), st.floats(0, 14000))
def test_a_year_adds_up(cfm: float, days: float, watts: float, efficiency: float, feet: float) -> None:
    """Twice the air is twice the heat, fuel is heat over efficiency, thin air holds less, the parts make the whole."""
    here = year(cfm, days, watts, furnace_efficiency=efficiency)
    assert year(2 * cfm, days, watts)["heat_energy"] == pytest.approx(2 * here["heat_energy"])
    assert here["fuel_energy"] * efficiency == pytest.approx(here["heat_energy"])
    assert year(cfm, days, watts, elevation=f"{feet} ft")["heat_energy"] <= here["heat_energy"] * (1 + 1e-12)
    assert here["cost_per_year"] == pytest.approx(here["fan_cost"] + here["heat_cost"])
    assert here["fan_energy"] == pytest.approx(watts * 365 * 86400)


RUN = st.fixed_dictionaries({
    "length": st.floats(0.1, 60).map(lambda feet: f"{feet} ft"),
    "orientation": st.sampled_from(["horizontal", "vertical"]),
    "zone": st.sampled_from(["basement", "crawl-space", "living-space", "garage", "attic", "outdoors"]),
})  # fmt: skip


@FEW
@given(st.lists(RUN, min_size=1, max_size=8), st.floats(5, 30), st.randoms(use_true_random=False))
def test_a_pipe_counted_in_any_order(runs: list[dict[str, str]], stick: float, dice: Any) -> None:
    """Walked from the other end the pipe needs the same; cut into more runs it never needs fewer hangers or sticks."""

    def taken(listed: list[dict[str, str]]) -> Any:
        return solve("pipe-takeoff", {"runs": listed, "pipe_size": "4", "rules": "cc-1000-2018", "stick_length": f"{stick} ft"})

    there, back = taken(runs), taken(runs[::-1])
    for name in ("hangers", "sticks", "firestops", "joints"):
        assert there[name] == back[name]
    for name in ("drop_needed", "pipe_weight", "expansion", "total_length"):
        assert back[name] == pytest.approx(there[name])
    first = float(runs[0]["length"].split()[0])
    share = dice.uniform(0.1, 0.9)
    parts = [{**runs[0], "length": f"{first * part} ft"} for part in (share, 1 - share)]
    cut = taken([*parts, *runs[1:]])
    assert cut["hangers"] >= there["hangers"]
    assert cut["firestops"] == there["firestops"]
    assert cut["sticks"] == there["sticks"]
    assert cut.outputs["sticks"].high >= there.outputs["sticks"].high
    assert cut["expansion"] <= there["expansion"] * (1 + 1e-12)
    assert there.outputs["sticks"].low <= there["sticks"] <= there.outputs["sticks"].high
