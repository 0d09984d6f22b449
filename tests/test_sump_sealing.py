"""The lid of a pit: what openings cost, what must not be sealed, what is refused.

No published table of a leaky lid was found.  The rows of ``BALANCE`` were worked out outside this project's code for an
invented fan and a pipe of fixed friction; they are derived regression values, not published checks.
"""

from itertools import pairwise
from math import ceil, isclose, pi

import pytest

from calculators import InputError, solve
from calculators.physics import fan, openings
from calculators.physics.curve import Parabola
from calculators.units import si

DEMO = {"shutoff": "400 Pa", "free_flow": "160 cfm"}
CFM = si("1 cfm")
PIT = {
    "lid_diameter": "24 in",
    "fan": DEMO,
    "pipe_size": "4",
    "pipe_length": "33 ft",
    "soil_conductance": "42 cfm/in WC",
}
RHO = 1.2
BORE = si("4.026 in")
FIXED = (0.022 * 10 / BORE + 5) * RHO / 2 / (pi / 4 * BORE**2) ** 2  # Pa s2/m6: f 0.022, 10 m, K 5

# gap area [cm2], soil conductance [m3/s/Pa] -> pit suction [Pa], soil and lid flow [cfm]; derived, see above
BALANCE = [
    (0, 1.5e-4, 234.5, 74.5, 0.0),
    (5, 1.5e-4, 211.9, 67.3, 12.1),
    (10, 1.5e-4, 191.0, 60.7, 23.1),
    (100, 1.5e-4, 35.5, 11.3, 99.4),
    (200, 1.5e-4, 11.0, 3.5, 110.8),
    (0, 4e-4, 115.4, 97.8, 0.0),
    (5, 4e-4, 106.9, 90.6, 8.6),
    (10, 4e-4, 99.0, 83.9, 16.6),
    (100, 4e-4, 27.9, 23.6, 88.1),
    (200, 4e-4, 10.1, 8.5, 105.9),
]


def solved(**changed: object) -> object:
    """The answer for the pit above with some inputs changed; None takes one out."""
    return solve("sump-sealing", {name: value for name, value in {**PIT, **changed}.items() if value is not None})


def checks(result: object) -> dict[str, dict]:
    """The checks of an answer by id."""
    return {check["id"]: check for check in result.checks("us")}


def refused(**changed: object) -> dict:
    """The one problem of an input that is refused."""
    with pytest.raises(InputError) as caught:
        solved(**changed)
    assert len(caught.value.problems) == 1
    return caught.value.problems[0]


@pytest.mark.parametrize(("area", "soil", "pit", "soil_flow", "lid_flow"), BALANCE)
def test_balance_of_an_invented_fan(area: float, soil: float, pit: float, soil_flow: float, lid_flow: float) -> None:
    """Fan, pipe of fixed friction, soil and an opening settle where the table says (to its last printed digit)."""
    point = fan.operating_point(
        fan=Parabola(shutoff=400, free_flow=160 * CFM),
        pipe_loss=lambda Q: FIXED * Q**2,
        soil_conductance=soil,
        leak=lambda s: openings.orifice_flow(C=0.61, A=area * 1e-4, dp=s, rho=RHO),
    )
    assert abs(point.pit_suction - pit) < 0.15
    assert abs(point.soil_flow / CFM - soil_flow) < 0.1
    assert abs(point.leak_flow / CFM - lid_flow) < 0.1


@pytest.mark.parametrize(("soil", "pit", "area"), [(1e-5, 398, 33), (8e-5, 315, 30), (4e-4, 115, 46)])
def test_presets_with_the_invented_fan(soil: float, pit: float, area: float) -> None:
    """Sealed suction [Pa] and halving area [cm2] of the three presets are the derived ones, to their printed digits."""
    system = {
        "fan": Parabola(shutoff=400, free_flow=160 * CFM),
        "pipe_loss": lambda Q: FIXED * Q**2,
        "soil_conductance": soil,
    }
    assert abs(fan.operating_point(**system).pit_suction - pit) < 0.6
    assert abs(fan.halving_area(**system, sealed=fan.operating_point(**system), rho=RHO) * 1e4 - area) < 0.6


@pytest.mark.parametrize(("w", "V"), [(0.5, 6.52), (1, 8.16), (2, 8.64), (3, 8.73), (6, 8.79)])
def test_one_law_for_narrow_and_wide_gaps(w: float, V: float) -> None:
    """A gap 10 mm deep at 125 Pa has the derived speed at every width: no jump where it gets wide."""
    found = openings.gap_speed(C=0.61, rho=RHO, dp=125, mu=1.8e-5, z=0.01, w=w / 1000)
    assert abs(found - V) < 0.006


def test_a_wider_gap_never_keeps_more() -> None:
    """Past 2 mm, where two laws would not meet, a wider gap still lets in more and keeps less."""
    widths = ["0.5 mm", "1 mm", "1.9 mm", "1.99 mm", "2 mm", "2.01 mm", "3 mm", "10 mm", "50 mm"]
    found = [solved(lid_gap=w) for w in widths]
    for before, after in pairwise(found):
        assert after["leak_flow"] > before["leak_flow"]
        assert after["suction_open"] < before["suction_open"]
        assert after["suction_sealed"] == before["suction_sealed"]


def test_sealed_lid_keeps_all() -> None:
    """Without openings the two states are one: all the suction is kept and no house air comes in."""
    found = solved()
    assert found["suction_kept"] == 1
    assert found["suction_open"] == found["suction_sealed"]
    assert found["leak_flow"] == 0 and found["open_area"] == 0


def test_pressures_and_flows_add_up() -> None:
    """Soil and leaks make the fan's flow, the leaks of the list make the leak, and the printed arithmetic ends there."""
    found = solved(
        lid_gap="1/16 in", slots=[{"length": "6 ft", "gap": "1/8 in", "depth": "4 in"}], other_open_area="1 in2"
    )
    assert isclose(found["soil_flow_open"] + found["leak_flow"], found["fan_flow_open"], rel_tol=1e-9)
    assert isclose(sum(leak["flow"] for leak in found["leaks"]), found["leak_flow"], rel_tol=1e-6)
    assert isclose(sum(leak["area"] for leak in found["leaks"]), found["open_area"], rel_tol=1e-9)
    steps = [(step.title, step.value) for step in found.work.steps]
    must = [value for title, value in steps if title == "The fan must make"]
    does = [value for title, value in steps if title == "The fan in this air"]
    assert len(must) == len(does) == 2
    assert all(isclose(a, b, rel_tol=1e-6) for a, b in zip(must, does, strict=True))


def test_half_the_suction_is_left_at_the_halving_area() -> None:
    """Opening the area that is said to halve the suction halves it."""
    area = solved()["halving_area"]
    found = solved(other_open_area={"value": area * 1e4, "unit": "cm2"})
    assert isclose(found["suction_kept"], 0.5, rel_tol=1e-6)


def test_rings_and_empty_holes() -> None:
    """A 48 mm pipe in a 60 mm hole opens about 10 cm2; without a pipe the whole hole is open; a sealed one is not."""
    ring = {"diameter": "48 mm", "hole_diameter": "60 mm"}
    assert isclose(solved(penetrations=[ring])["open_area"], pi / 4 * (0.060**2 - 0.048**2), rel_tol=1e-9)
    assert isclose(solved(penetrations=[{**ring, "count": 3}])["open_area"], 3 * pi / 4 * (0.060**2 - 0.048**2))
    assert isclose(solved(penetrations=[{"hole_diameter": "60 mm"}])["open_area"], pi / 4 * 0.060**2)
    assert solved(penetrations=[{**ring, "sealed": True}])["open_area"] == 0
    assert solved(penetrations=[{**ring, "diameter": "60 mm"}])["open_area"] == 0


def test_sealant() -> None:
    """The bead runs round the lid, round unsealed holes and along slots; cartridges are rounded up."""
    found = solved(
        penetrations=[
            {"diameter": "2 in", "hole_diameter": "3 in", "count": 2},
            {"hole_diameter": "5 in", "sealed": True},
        ],
        slots=[{"length": "10 ft", "gap": "1/4 in", "depth": "4 in"}],
    )
    inches = pi * (24 + 6) + 120
    assert isclose(found["bead_length"], inches * 0.0254, rel_tol=1e-12)
    ounces = inches * pi / 4 * 0.375**2 / 1.8046875  # 1 fl oz is 231/128 in3
    assert found["cartridges"] == ceil(ounces / 10.1) == 2
    assert found.result("cartridges", "us") == {"value": 2, "unit": "1", "si": 2}


def test_trap_seal_needed_is_shut_off_and_an_inch() -> None:
    """400 Pa is 1.61 in of water; with the inch to spare 2.61 in, whatever the pipe and soil are."""
    assert abs(si("2.61 in") - solved()["trap_seal_needed"]) < si("0.005 in")
    assert solved(soil_conductance="400 cfm/in WC")["trap_seal_needed"] == solved()["trap_seal_needed"]


def test_shallow_and_unknown_traps_join_the_leak() -> None:
    """A drain leaks when its trap is too shallow or not known; a deep one keeps the air out."""
    drain = {"kind": "floor", "open_area": "4 cm2"}
    deep, shallow = solved(drains=[{**drain, "trap_seal": "3 in"}]), solved(drains=[{**drain, "trap_seal": "2 in"}])
    unknown = solved(drains=[drain])
    id = "trap:drains[0].trap_seal"
    assert deep["leak_flow"] == 0 and checks(deep)[id]["ok"] is True
    assert shallow["leak_flow"] > 0 and checks(shallow)[id]["ok"] is False
    assert unknown["leak_flow"] == shallow["leak_flow"] and checks(unknown)[id]["ok"] is None
    assert checks(unknown)[id]["needs"] == ["drains[0].trap_seal"]


def test_trap_exactly_deep_enough_meets() -> None:
    """A trap of just the depth that is needed meets the comparison."""
    found = solved(drains=[{"kind": "daylight", "trap_seal": solved().result("trap_seal_needed", "us")}])
    assert checks(found)["trap:drains[0].trap_seal"]["ok"] is True


@pytest.mark.parametrize(
    ("given", "id"),
    [
        ({"pit_receives": "sewage"}, "pit-kind"),
        ({"pump_type": "pedestal"}, "pump-kind"),
        ({"only_floor_drain": "yes"}, "water-way"),
        ({"only_floor_drain": "yes", "water_way": False}, "water-way"),
    ],
)
def test_hard_stops(given: dict, id: str) -> None:
    """A sewage pit, a pedestal pump and the only way out for water stop the work, with a danger caution, and still answer."""
    found = solved(**given)
    stop = checks(found)[id]
    assert stop["ok"] is False and stop["stop"] is True
    assert any(c.level == "danger" and c.text == stop["text"] for c in found.work.cautions)
    assert found["suction_open"] > 0


def test_another_way_for_water_lifts_the_stop() -> None:
    """With a trapped inlet the only floor drain may be covered."""
    assert checks(solved(only_floor_drain="yes", water_way=True))["water-way"]["ok"] is True


def test_what_was_not_said_is_not_judged() -> None:
    """Flags and choices that were left out give null and name themselves; given ones are judged."""
    open_ones = checks(solved())
    fields = {"lid-fastened": "lid_fastened", "grommets": "grommets", "view-port": "view_port",
              "hand-access": "hand_access", "check-valve": "check_valve"}  # fmt: skip
    for id, field in fields.items():
        assert open_ones[id]["ok"] is None and open_ones[id]["needs"] == [field]
        assert checks(solved(**{field: True}))[id]["ok"] is True
        assert checks(solved(**{field: False}))[id]["ok"] is False
    assert open_ones["alarm"]["ok"] is None and open_ones["pit-kind"]["ok"] is None
    assert checks(solved(alarm_circuit="same"))["alarm"]["ok"] is False
    assert checks(solved(alarm_circuit="separate"))["alarm"]["ok"] is True


def test_laundry_asks_for_a_trap() -> None:
    """A pit with laundry water gives a danger caution and asks for the 6 in trap of SGM-SF 7.8.2."""
    found = solved(pit_receives="laundry", drains=[{"kind": "floor", "trap_seal": "4 in"}])
    trap = checks(found)["laundry-trap"]
    assert trap["ok"] is False and trap["source"] == "sgm-sf-2017" and isclose(trap["required"]["value"], 6)
    assert any("ejector" in c.text and c.level == "danger" for c in found.work.cautions)


def test_lid_off_is_said_with_its_number() -> None:
    """The danger caution gives the flow that an open pit takes out of the house, and the fan meets the pipe there."""
    found = solved(lid_gap="1/8 in")
    flow = found["lid_off_flow"]
    assert flow > found["fan_flow_open"]
    text = next(c.text for c in found.work.cautions if "lid off" in c.text)
    assert f"{flow / CFM:.0f} cfm" in text
    wide = solved(other_open_area="2000 in2")
    assert abs(wide["fan_flow_open"] / flow - 1) < 0.001


@pytest.mark.parametrize(
    ("given", "factor"), [({"soil": "ordinary"}, 3), ({"soil_conductance": "42 cfm/in WC"}, 1.15),
                          ({"measured": {"flow": "42 cfm", "suction": "1 in WC"}}, 1.15)]
)  # fmt: skip
def test_ranges_of_the_soil(given: dict, factor: float) -> None:
    """A guessed soil is solved at a third and three times, a typed or measured one at 15 % either way; the result says so."""
    one = {"soil_conductance": None, **given}
    span = solved(**one).outputs["suction_sealed"]
    soil = 8e-5 if "soil" in given else si("42 cfm/in WC")
    ends = [
        solved(soil_conductance={"value": soil * f, "unit": "m3/s/Pa"})["suction_sealed"] for f in (factor, 1 / factor)
    ]
    assert isclose(span.low, ends[0], rel_tol=1e-9) and isclose(span.high, ends[1], rel_tol=1e-9)
    assert ("guessed" in span.why) == ("soil" in given)


def test_ranges_of_the_openings() -> None:
    """A gap counts for half to twice, a hole for 20 % either way, and the result names what it has."""
    gap = solved(lid_gap="1 mm").outputs["open_area"]
    assert isclose(gap.high / gap.value, 2) and isclose(gap.value / gap.low, 2) and "gap" in gap.why
    hole = solved(other_open_area="5 cm2").outputs["open_area"]
    assert isclose(hole.high / hole.value, 1.2) and isclose(hole.low / hole.value, 0.8) and "hole" in hole.why
    kept = solved(other_open_area="5 cm2").outputs["suction_kept"]
    assert kept.low < kept.value < kept.high and "gap" not in kept.why


def test_altitude_takes_suction() -> None:
    """Thin air takes pressure from the fan: at 5,000 ft the sealed pit has less."""
    assert solved(elevation="5000 ft")["suction_sealed"] < 0.9 * solved()["suction_sealed"]


def test_a_fan_without_pressure_fails_and_answers() -> None:
    """A fan that makes no suction is an answer: a failed check, no flow, nothing to halve."""
    dead = {"points": [{"flow": "0 cfm", "pressure": "0 Pa"}, {"flow": "50 cfm", "pressure": "0 Pa"}]}
    found = solved(fan=dead, lid_gap="1 mm")
    assert checks(found)["fan-draws"]["ok"] is False
    assert found["suction_kept"] is None and found["halving_area"] is None and found["fan_flow_open"] == 0


def test_an_answer_beyond_the_entered_curve_is_refused() -> None:
    """Where the fan's points end before the answer there is no answer."""
    short = {"points": [{"flow": "0 cfm", "pressure": "400 Pa"}, {"flow": "60 cfm", "pressure": "350 Pa"}]}
    problem = refused(fan=short, lid_gap="1/4 in")
    assert problem["field"] == "fan.points" and problem["kind"] == "outside-model"


def test_a_range_stops_where_the_curve_ends() -> None:
    """A corner of the range beyond the entered curve is not made up: the range stops there and says so."""
    short = {"points": [{"flow": "0 cfm", "pressure": "400 Pa"}, {"flow": "70 cfm", "pressure": "330 Pa"}]}
    found = solved(fan=short, soil="ordinary", soil_conductance=None)
    span = found.outputs["fan_flow_open"]
    assert "end of the fan's entered curve" in span.why
    assert isclose(span.high, 70 * CFM, rel_tol=1e-6)
    assert found["halving_area"] is None and found["lid_off_flow"] is None
    assert any("more than 70 cfm" in c.text for c in found.work.cautions)


@pytest.mark.parametrize(
    ("given", "field", "kind"),
    [
        ({"penetrations": [{"diameter": "3 in", "hole_diameter": "2 in"}]}, "penetrations[0].diameter", "conflict"),
        ({"penetrations": [{"hole_diameter": "30 in"}]}, "penetrations[0].hole_diameter", "conflict"),
        ({"penetrations": [{"hole_diameter": "10 in", "count": 9}]}, "penetrations", "conflict"),
        ({"lid_diameter": "8 in", "lid_gap": "5 in"}, "lid_gap", "conflict"),
        ({"lid_gap": "-1 mm"}, "lid_gap", "bounds"),
        ({"lid_gap": float("nan")}, "lid_gap", "bounds"),
        ({"lid_diameter": None}, "lid_diameter", "missing"),
        ({"fan": None}, "fan", "missing"),
        ({"soil": "tight"}, "soil_conductance", "conflict"),
        ({"soil_conductance": None}, "soil_conductance", "missing"),
        ({"inside_diameter": "4 in"}, "pipe_size", "conflict"),
        ({"fittings": [{"kind": "other"}]}, "fittings[0].kind", "outside-model"),
        ({"slots": [{"length": "3 ft", "gap": "1 mm"}]}, "slots[0].depth", "missing"),
        ({"drains": [{"kind": "kitchen"}]}, "drains[0].kind", "choice"),
    ],
)
def test_wrong_input_is_refused_at_its_field(given: dict, field: str, kind: str) -> None:
    """Contradictions and numbers that mean nothing are refused where they stand."""
    problem = refused(**given)
    assert (problem["field"], problem["kind"]) == (field, kind)


def test_a_line_cut_at_the_top_of_the_plot_is_said() -> None:
    """Tight soil asks for more than the plot shows: the title says that the level line goes on rising."""
    steep, flat = (
        solved(soil_conductance="2 cfm/in WC").work.plots[0],
        solved(soil_conductance="800 cfm/in WC").work.plots[0],
    )
    assert "goes on rising" in steep.title and "goes on rising" not in flat.title
    assert all(len(series[2]) == len(steep.x[2]) <= 201 for series in steep.series)
