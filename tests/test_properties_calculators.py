"""Promises that hold for any input: nothing but a named problem is raised, and answers move the way nature moves."""

import json
from collections.abc import Callable
from time import perf_counter
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators import InputError, declaration, job, names, page, solve
from calculators.declare import Choice, Count, Field, Flag, List, Quantity, Record, Several, Text
from calculators.units import from_si, read
from cases import CASES, PUMP

QUICK = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
FEW = settings(QUICK, max_examples=25)
LONGEST = 5.0  # seconds; the slowest answer takes a tenth of one
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12)
    | st.sampled_from(["60 cfm", "9 ft", "-1 in WC", "1/0 in", "9' 13\"", "1e999 ft", "4", "@pipe-loss.total_loss", "nan ft", "9 ft ft", "%"]),
    lambda inner: st.lists(inner, max_size=4)
    | st.dictionaries(st.sampled_from(["value", "unit", "kind", "count", "points", "flow"]) | st.text(max_size=6), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


def only_problems(run: Callable[[], Any]) -> Any:
    """What ``run`` gives, or None when it raises the one error that inputs may raise; anything else fails the test."""
    began = perf_counter()
    done, problems = None, None
    try:
        done = run()
    except InputError as error:
        problems = error.problems
    assert perf_counter() - began < LONGEST
    if problems is not None:
        assert problems
        for one in problems:
            assert set(one) == {"field", "problem", "found", "accepts", "kind"}
            assert all(isinstance(value, str) and len(value) <= 2000 for value in one.values())
        json.dumps(problems)
    return done


def near(field: Field) -> st.SearchStrategy[Any]:
    """Values that are mostly understood: within the bounds of the field, its words, its members."""
    if isinstance(field, Quantity):
        low = field.low_si if field.low_si is not None else -1e3
        high = field.high_si if field.high_si is not None else 1e3
        shown = field.us if isinstance(field.us, str) else next(iter(field.us.values()))

        def typed(si: float) -> str:
            return f"{from_si(si, shown, difference=field.difference)!r} {shown}"

        middle = st.floats(0, 1).map(lambda u: low + (high - low) * u**6)
        return st.sampled_from([low, high]).map(typed) | middle.map(typed)
    if isinstance(field, Several):
        return st.lists(st.sampled_from(field.choices), max_size=3) | st.sampled_from(field.choices)
    if isinstance(field, Choice):
        return st.sampled_from(field.choices)
    if isinstance(field, Count):
        return st.integers(field.low, field.high)
    if isinstance(field, Flag):
        return st.booleans()
    if isinstance(field, Text):
        return st.text(max_size=20)
    if isinstance(field, List):
        return st.lists(near(field.item), min_size=field.low, max_size=max(field.low, 4))
    if isinstance(field, Record):
        ways = field.either or ((),)
        return st.one_of(*(record(field, way, {name for other in ways for name in other}) for way in ways))
    return JSON


def record(field: Record, way: tuple[str, ...], exclusive: set[str]) -> st.SearchStrategy[Any]:
    """An object with the members that it needs, those of one way of giving it, and any of the others."""
    needed = {name: near(field.fields[name]) for name in (*field.need, *way)}
    others = {name: near(member) for name, member in field.fields.items() if name not in needed and name not in exclusive}
    return st.fixed_dictionaries(needed, optional=others)


def one_of_each_group(name: str, changed: dict[str, Any], good: dict[str, Any]) -> dict[str, Any]:
    """The good input with some fields changed; of a group whose members exclude each other only one is kept."""
    declared = declaration(name)
    raw = {**changed, **{field: value for field, value in good.items() if field not in changed}}
    for members in (*declared.one_of.values(), *declared.at_most_one.values()):
        for field in [known for known in raw if known in members][1:]:
            raw.pop(field)
    return raw


@pytest.mark.parametrize("name", names())
def test_any_json_is_answered_or_refused(name: str) -> None:
    """Any JSON whatever, as the whole input or in place of some fields, is solved or refused with problems, quickly."""
    fields = st.sampled_from(list(declaration(name).inputs))

    @QUICK
    @given(JSON, st.dictionaries(fields, JSON, max_size=4), st.sampled_from(CASES[name]))
    def check(whole: Any, some: dict[str, Any], good: dict[str, Any]) -> None:
        only_problems(lambda: solve(name, whole))
        solved = only_problems(lambda: solve(name, {**good, **some}))
        if solved is not None:
            json.dumps([solved.as_dict(system) for system in ("us", "si")], allow_nan=False)

    check()


@pytest.mark.parametrize("name", names())
def test_anything_within_bounds_is_answered_or_refused(name: str) -> None:
    """Every field anywhere within its bounds, the ends too: an answer without NaN, or problems; the page says the same."""
    inputs = declaration(name).inputs
    some = st.fixed_dictionaries({}, optional={n: near(f) for n, (f, _) in inputs.items()})

    @settings(QUICK, max_examples=120)
    @given(some, st.sampled_from(CASES[name]), st.integers(0, 9))
    def check(changed: dict[str, Any], good: dict[str, Any], alone: int) -> None:
        raw = changed if alone == 9 else one_of_each_group(name, changed, good)
        solved = only_problems(lambda: solve(name, raw))
        said = json.loads(page.answer(json.dumps({"calculator": name, "inputs": raw, "units": "us"})))
        assert "fault" not in said, said["fault"]
        assert said["ok"] is (solved is not None)
        if solved is not None:
            json.dumps(solved.as_dict(), allow_nan=False)
            for value in solved.as_dict()["results"].values():
                if isinstance(value, dict) and "low" in value:
                    assert value["low"] <= value["value"] <= value["high"]

    check()


@QUICK
@given(JSON, st.dictionaries(st.sampled_from([*job.MEMBERS, *job.OBJECTS, *job.LISTS]), JSON, max_size=5))
@example(None, {"recorded": [{"calculator": "pipe-loss", "field": [], "value": 1, "when": "2026-11-18"}]})
@example(None, {"started": "9999-12-31"})
@example(None, {"house": {"pipe_size": "@hole-flow.flow"}, "inputs": {"hole-flow": {"diameter": "@hole-flow.flow"}}})
def test_any_job_is_answered_or_refused(whole: Any, members: dict[str, Any]) -> None:
    """Any JSON as a job file, or as its members, is solved or refused with problems."""
    only_problems(lambda: job.run(whole))
    done = only_problems(lambda: job.run({"underslab_job": 1, **members}))
    if done is not None:
        json.dumps(done.as_dict(), allow_nan=False)


@QUICK
@given(st.text(max_size=40))
def test_any_text_is_answered_by_the_page(text: str) -> None:
    """The page's engine gives JSON for any text, never an exception and never a fault."""
    for asked in (text, json.dumps({"calculator": text, "inputs": {}}), json.dumps({"calculator": "pipe-loss", "inputs": {"flow": text}})):
        for stage in (page.answer, page.rest):
            assert "fault" not in json.loads(stage(asked))


TINY_PUMP = {"points": [{"flow": "2.9e-39 gpm", "head": "1000 ft"}, {"flow": "1000 gpm", "head": "0 ft"}]}
TINY_FAN = {"points": [{"flow": "1e-266 cfm", "pressure": "0 Pa"}, {"flow": "1500 cfm", "pressure": "0 Pa"}]}


def test_curves_that_begin_next_to_nothing() -> None:
    """Points a hair above no flow are answered or refused: no root is looked for below them or without end."""
    hole = {"relief_hole": "built-in", "relief_hole_diameter": "3/16 in", "relief_hole_height": "0 in"}
    only_problems(lambda: solve("pump-sizing", {**CASES["pump-sizing"][0], **hole, "pump": TINY_PUMP}))
    for name in ("sump-sealing", "fan-point"):
        only_problems(lambda name=name: solve(name, {**CASES[name][0], "fan": TINY_FAN}))


# --- monotone


FLOW = st.floats(1, 400)
LENGTH = st.floats(0, 500)
MORE = st.floats(1.01, 3)
SIZE = st.sampled_from(["2", "3", "4", "6"])
KIND = st.sampled_from(["elbow-90", "elbow-90-sweep", "elbow-45", "tee-run", "tee-branch"])
METHOD = st.sampled_from(["equivalent-length", "loss-coefficient"])


def lost(flow: float, size: str, length: float, **more: Any) -> float:
    """Pressure lost in Pa for a flow in cfm and a length in ft."""
    return solve("pipe-loss", {"flow": f"{flow} cfm", "pipe_size": size, "pipe_length": f"{length} ft", **more})["total_loss"]


@FEW
@given(FLOW, MORE, SIZE, LENGTH, KIND, st.integers(0, 9), METHOD)
def test_more_flow_more_pipe_and_more_fittings_lose_more(
    flow: float, more: float, size: str, length: float, kind: str, count: int, method: str
) -> None:
    """Pressure lost rises with flow and fittings, and never falls with length; a larger pipe loses less."""
    given = {"fittings": [{"kind": kind, "count": count}], "fitting_method": method}
    here = lost(flow, size, length, **given)
    if here > 0:
        assert lost(min(flow * more, 1200), size, length, **given) > here
    assert lost(flow, size, length * more, **given) >= here
    added = {**given, "fittings": [{"kind": kind, "count": count + 1}]}
    assert lost(flow, size, length, **added) > here
    rows = solve("pipe-loss", {"flow": f"{flow} cfm", "pipe_size": size, "pipe_length": f"{length} ft", "fittings": [{"kind": "elbow-90"}],
                               "fitting_method": "loss-coefficient"})["comparison"]  # fmt: skip
    losses = [row["total_loss"] for row in rows]
    assert losses == sorted(losses, reverse=True)


def pumped(lift: float, **more: Any) -> Any:
    """The pump of the cases with some fittings; None where it would run beyond its points."""
    inputs = {
        "pit_diameter": "18 in", "inflow": "9 gpm", "static_lift": f"{lift} ft", "pipe_size": "1-1/2", "pipe_length": "30 ft",
        "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "check-valve"}], "pump": PUMP, **more,
    }  # fmt: skip
    return only_problems(lambda: solve("pump-sizing", inputs))


@FEW
@given(st.floats(4, 27), st.floats(0, 6), st.floats(0.05, 0.4), st.floats(0.01, 0.2), st.floats(0, 8))
def test_a_pump_delivers_less_the_more_it_has_to_do(lift: float, higher: float, hole: float, wider: float, suction: float) -> None:
    """More lift, a larger relief hole, more suction in the pit or more pipe: never more water delivered."""
    given = {"relief_hole": "drilled", "relief_hole_diameter": f"{hole} in"}
    here = pumped(lift, **given)
    if here is None:
        return
    delivered = here["delivered_flow"]
    larger = {**given, "relief_hole_diameter": f"{hole + wider} in"}
    changes = {
        "lift": pumped(lift + higher, **given), "hole": pumped(lift, **larger), "none": pumped(lift),
        "suction": pumped(lift, **given, pit_suction=f"{suction} in WC"), "length": pumped(lift, **given, pipe_length="60 ft"),
    }  # fmt: skip
    slack = 1e-9
    for change in ("lift", "hole", "suction", "length"):
        if changes[change] is not None:
            assert changes[change]["delivered_flow"] <= delivered + slack, change
    if changes["hole"] is not None and delivered > 0:
        assert changes["hole"]["relief_flow"] > here["relief_flow"]
    if changes["none"] is not None:
        assert changes["none"]["delivered_flow"] >= delivered - slack
    assert here["pump_flow"] == pytest.approx(here["delivered_flow"] + here["relief_flow"], abs=1e-9)


@FEW
@given(st.floats(0.02, 20), MORE, st.floats(0.1, 4000), st.sampled_from(["air", "water"]))
def test_more_area_and_more_pressure_pass_more(inches: float, more: float, pascal: float, fluid: str) -> None:
    """A wider hole or gap, or more pressure, passes more; a deeper gap never more."""

    def flow(**given: str) -> float:
        return solve("hole-flow", {"fluid": fluid, "pressure": f"{pascal} Pa", **given})["flow"]

    hole = {"diameter": f"{inches} in"}
    gap = {"width": f"{inches / 10} in", "length": "3 ft", "depth": "1/2 in"}
    assert flow(diameter=f"{inches * more} in") > flow(**hole)
    assert flow(**gap) < flow(**{**gap, "width": f"{inches / 10 * more} in"})
    assert flow(**{**gap, "depth": f"{more} in"}) <= flow(**gap) * (1 + 1e-12)
    assert flow(**{**hole, "pressure": f"{pascal * more} Pa"}) > flow(**hole)


@FEW
@given(st.floats(4, 20), st.floats(0, 30), st.floats(0, 12), st.floats(0, 12), st.floats(2, 12), st.floats(0, 3))
def test_probes_rise_and_hold_the_first_hole(wall: float, wider: float, gap: float, more: float, core: float, finish: float) -> None:
    """Pilot holes rise from the wall, the first core is one of them, and the core never touches the footing."""
    result = only_problems(lambda: solve("tile-offset", {
        "wall_thickness": f"{wall} in", "footing_width": f"{wall + wider} in", "tile_gap_min": f"{gap} in", "tile_gap_max": f"{gap + more} in",
        "core_diameter": f"{core} in", "finish_depth": f"{finish} in", "drain_side": "inside",
    }))  # fmt: skip
    if result is None:
        return
    probes = result["probe_distances"]
    assert probes == sorted(probes)
    assert min(abs(p - result["first_hole"]) for p in probes) <= 1e-5
    assert result["nearest_center"] <= result["farthest_center"]
    edge = result["first_hole"] + read(f"{finish} in", "m") - read(f"{core / 2} in", "m")
    assert edge >= result["footing_projection"] + read("0.5 in", "m") - 1e-9


# --- units


METRIC = {"in": "mm", "ft": "m", "cfm": "L/s", "gpm": "L/s", "in WC": "Pa", "degF": "degC", "ft2": "m2", "in2": "cm2"}


def in_other_units(value: Any) -> Any:
    """Every text with a unit again in a metric unit; lists and objects through and through."""
    if isinstance(value, dict):
        return {name: in_other_units(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [in_other_units(inner) for inner in value]
    if isinstance(value, str):
        for us, si in METRIC.items():
            try:
                return {"value": from_si(read(value, us if us not in ("in", "ft") else "m"), si), "unit": si}
            except ValueError:
                continue
    return value


@pytest.mark.parametrize("name", names())
def test_the_unit_of_an_input_makes_no_difference(name: str) -> None:
    """Every case typed in metric units gives the same SI results as in US units."""
    for inputs in CASES[name]:
        texts = {
            field
            for field, (declared, _) in declaration(name).inputs.items()
            if isinstance(declared, (Choice, Text)) or getattr(declared, "difference", False)  # 70 F degrees are not 21 degC
        }
        metric = {field: value if field in texts else in_other_units(value) for field, value in inputs.items()}
        here, there = solve(name, inputs), solve(name, metric)
        for key in here.declaration.results:
            if isinstance(here[key], float):
                assert there[key] == pytest.approx(here[key], rel=1e-7, abs=1e-12), key


@FEW
@given(st.floats(1, 400), st.sampled_from(["cfm", "L/s", "m3/h", "m3/s", "ft3/min", "gpm"]), st.sampled_from(["us", "si"]))
def test_one_flow_in_any_unit(cfm: float, unit: str, system: str) -> None:
    """A flow in any unit that is read is the same flow, and its echo reads back as itself."""
    flow = read(f"{cfm} cfm", "m3/s")
    here = solve("pipe-loss", {"flow": {"value": from_si(flow, unit), "unit": unit}, "pipe_size": "4", "pipe_length": "33 ft"})
    assert here.values["flow"] == pytest.approx(flow, rel=1e-10)
    again = solve("pipe-loss", here.as_dict(system)["inputs"])
    assert again["total_loss"] == pytest.approx(here["total_loss"], rel=1e-9)
