"""References of a job file: into lists and objects, to inputs and to the house; what is typed once reaches everything."""

import copy
import time
from itertools import pairwise
from typing import Any

import pytest

from calculators import job, job_values, page_job, solve
from calculators.show import sheet
from job_files import LANE, LINE, PIPE, lane, problems, small

SEALING = {"lid_diameter": "24 in", "lid_gap": "1/16 in", "fan": {"shutoff": "400 Pa", "free_flow": "160 cfm"},
           "pipe_size": "4", "pipe_length": "33 ft", "soil_conductance": "42 cfm/in WC"}  # fmt: skip
SPILLAGE = {
    "house": {"leakage_at_50Pa": "1,900 cfm"}, "outdoor_temperature": "5 degF",
    "exhausts": [{"name": "dryer", "flow": "150 cfm"}, {"name": "what the lid lets in", "flow": "@sump-sealing.leak_flow"}],
}  # fmt: skip


def pair() -> dict[str, Any]:
    """A job in which an entry of a list takes the result of another calculator."""
    return small(sump_sealing=copy.deepcopy(SEALING), spillage_check=copy.deepcopy(SPILLAGE))


def test_a_reference_inside_a_list_is_filled() -> None:
    """The flow of one exhaust is what sump-sealing gives, and follows it."""
    done = job.run(pair())
    leak = done.results["sump-sealing"]["leak_flow"]
    assert done.results["spillage-check"].values["exhausts"][1]["flow"] == pytest.approx(leak, rel=1e-9)
    changed = pair()
    changed["inputs"]["sump-sealing"]["lid_gap"] = "1/4 in"
    more = job.run(changed).results["spillage-check"].values["exhausts"]
    assert more[1]["flow"] > 1.5 * leak
    assert more[0]["flow"] == pytest.approx(150 * 0.3048**3 / 60)


def test_a_reference_counts_for_the_order() -> None:
    """The calculator that gives stands before the one whose list takes, whatever order is asked for."""
    raw = pair() | {"order": ["spillage-check", "sump-sealing"]}
    assert list(job.run(raw).results) == ["sump-sealing", "spillage-check"]


def test_the_way_into_objects_lists_and_tables() -> None:
    """A member of an object, an entry of a list that was typed and a row of a result table can each be taken."""
    raw = small(
        pipe_loss=PIPE,
        needed_suction={
            "house": {"leakage_at_50Pa": "1900 cfm"},
            "test_day": {"outdoor_temperature": "52 degF", "indoor_temperature": "68 degF", "exhaust": "0 cfm"},
            "design_day": {"outdoor_temperature": "5 degF", "indoor_temperature": "70 degF", "exhaust": "@spillage-check.exhausts[0].flow"},
        },
        spillage_check={**SPILLAGE, "exhausts": SPILLAGE["exhausts"][:1], "outdoor_temperature": "@cold-stack.outdoor_temperature"},
        cold_stack={"flow": "60 cfm", "pipe_size": "4", "outdoor_length": "22 ft", "outdoor_temperature": "5 degF"},
        hole_flow={"fluid": "air", "diameter": "1 in", "pressure": "@pipe-loss.comparison[1].total_loss"},
    )
    done = job.run(raw)
    assert done.results["needed-suction"].values["design_day"]["exhaust"] == pytest.approx(150 * 0.3048**3 / 60)
    assert done.results["spillage-check"].values["outdoor_temperature"] == pytest.approx(258.15, abs=1e-6)
    row = done.results["pipe-loss"]["comparison"][1]
    assert done.results["hole-flow"].values["pressure"] == pytest.approx(row["total_loss"])


def test_a_field_of_the_house_that_nobody_reads_is_said_in_words() -> None:
    """A reference in a list of the house stands on the sheet as the name of what it stands for."""
    raw = small(sump_sealing=copy.deepcopy(SEALING)) | {"house": {"exhausts": [{"name": "lid", "flow": "@sump-sealing.leak_flow"}]}}
    said = sheet.text(job.run(raw))
    assert "@" not in said
    assert "house air through the openings" in said


def test_the_house_may_be_referred_to_from_inside() -> None:
    """@house.field stands for what is said once, also in a list, and a field of the house may stand for a result."""
    raw = pair()
    raw["house"] = {"floor_area": "1,450 ft2", "wind": "@cold-stack.wind"}
    raw["inputs"]["cold-stack"] = {"flow": "60 cfm", "pipe_size": "4", "outdoor_length": "22 ft", "outdoor_temperature": "5 degF", "wind": "7 mph"}
    raw["inputs"]["needed-suction"] = {
        "house": {"leakage_at_50Pa": "@spillage-check.house.leakage_at_50Pa"},
        "test_day": {"outdoor_temperature": "52 degF", "indoor_temperature": "68 degF", "exhaust": "0 cfm"},
        "design_day": {"outdoor_temperature": "5 degF", "indoor_temperature": "70 degF", "exhaust": "0 cfm", "wind": "@house.wind"},
    }
    done = job.run(raw)
    assert done.results["needed-suction"].values["design_day"]["wind"] == pytest.approx(7 * 0.44704)
    assert done.results["needed-suction"].values["house"]["leakage_at_50Pa"] == pytest.approx(1900 * 0.3048**3 / 60)


EXHAUST = "inputs.spillage-check.exhausts[1].flow"
WRONG = [
    ("@sump-sealing.leak", EXHAUST, "choice"), ("@sump.leak_flow", EXHAUST, "choice"), ("@house.leak", EXHAUST, "choice"), ("@", EXHAUST, "choice"),
    ("@sump-sealing.leak_flow.low", EXHAUST, "choice"), ("@sump-sealing.leak_flow[0]", EXHAUST, "choice"),
    ("@sump-sealing.penetrations[0].colour", EXHAUST, "choice"), ("@pipe-loss.flow", EXHAUST, "choice"),
    ("@spillage-check.exhausts[0].flow", "inputs.spillage-check", "conflict"),
    ("@sump-sealing.suction_open", EXHAUST, "dimension"), ("@sump-sealing.lid_diameter", EXHAUST, "dimension"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "path", "kind"), WRONG, ids=[row[0] for row in WRONG])
def test_wrong_references_inside_are_problems_at_their_path(text: str, path: str, kind: str) -> None:
    """Unknown names, ways that lead nowhere, one's own values and wrong dimensions are refused where they stand."""
    raw = pair()
    raw["inputs"]["spillage-check"]["exhausts"][1]["flow"] = text
    assert problems(raw) == {path: kind}


def test_a_circle_in_the_house_is_named() -> None:
    """Two fields of the house that stand for each other are refused."""
    raw = small(pipe_loss={"flow": "60 cfm", "pipe_size": "4"})
    raw["house"] = {"pipe_length": "@house.riser_height", "riser_height": "@house.pipe_length"}
    found = problems(raw)
    assert set(found.values()) == {"conflict"}


def test_references_cannot_be_piled_up() -> None:
    """Lists of the house whose entries stand for other lists are refused at once, however they branch."""
    lists = ("exhausts", "penetrations", "drains", "openings", "walls", "test_holes", "probes")
    raw = pair()
    raw["house"] = {one: [f"@house.{other}"] * 40 for one, other in pairwise(lists)}
    raw["inputs"]["spillage-check"]["exhausts"] = ["@house.exhausts"] * 40
    began = time.monotonic()
    assert "length" in problems(raw).values()
    assert time.monotonic() - began < 20, "no time is promised; it must only not hang"
    assert "length" in problems({**small(pipe_loss=PIPE), "house": {"fittings": ["@house.exhausts[0]"] * 40, "exhausts": [f"@house.walls[{i}]" for i in range(40)]}}).values()


def test_what_cannot_be_handed_into_a_list_is_open() -> None:
    """A required member that waits for another calculator leaves its calculator open with the reason; nothing is guessed."""
    raw = pair()
    del raw["inputs"]["sump-sealing"]["lid_diameter"]
    done = job.run(raw)
    assert ("spillage-check", "exhausts") in [(entry.calculator, entry.field) for entry in done.open]
    assert "spillage-check" not in done.results
    assert any("@sump-sealing.leak_flow could not be given" in entry.text for entry in done.open)
    assert "@" not in sheet.text(done), "the sheet says it in words"
    raw = pair()
    raw["inputs"]["spillage-check"]["exhausts"][1]["flow"] = "@sump-sealing.penetrations[3].diameter"
    assert [entry.calculator for entry in job.run(raw).open] == ["spillage-check"]


def test_names_in_a_list_are_no_references() -> None:
    """A free text inside a list may begin with @."""
    raw = pair()
    raw["inputs"]["spillage-check"]["exhausts"][0]["name"] = "@sump-sealing.leak_flow"
    assert job.run(raw).results["spillage-check"].values["exhausts"][0]["name"] == "@sump-sealing.leak_flow"


def test_the_system_as_built_is_the_houses() -> None:
    """gauge-reading takes fan, pipe and soil of the job; what is said for it alone comes before, group by group."""
    done = job.run(LANE)
    built = done.results["gauge-reading"].values["as_built"]
    assert built["pipe_length"] == pytest.approx(33 * 0.3048)
    assert done.results["gauge-reading"]["expected_reading"] == pytest.approx(done.results["fan-point"]["gauge_suction"])
    own = lane()
    own["inputs"]["gauge-reading"]["as_built"] = {"soil": "tight", "pipe_length": "60 ft"}
    built = job.run(own).results["gauge-reading"].values["as_built"]
    assert (built["soil"], built["soil_conductance"]) == ("tight", None)
    assert built["pipe_length"] == pytest.approx(60 * 0.3048)
    bare = small(gauge_reading={"reading_now": "1 in WC"})
    assert [(entry.calculator, entry.field) for entry in job.run(bare).open] == [("gauge-reading", "as_built")]


def test_the_day_of_the_start_is_typed_once() -> None:
    """The test after the work takes day and hour of the start from the job."""
    done = job.run(LANE)
    assert done.results["radon-test"].values["system_started_at"] == LANE["started"]
    assert "system_started_at" not in LANE["inputs"]["radon-test"]


# --- what the browser asks


def asked(do: str, file: Any, **more: Any) -> dict[str, Any]:
    answer = page_job.ask({"do": do, "file": file, **more})
    assert answer["ok"], answer
    return answer


def test_a_calculator_opened_later_is_offered_what_the_job_knows() -> None:
    """The pump is offered the pit's suction; kept as it was offered it stays a reference, changed it is a number."""
    raw = small(sump_sealing=copy.deepcopy(SEALING))
    known = asked("prefill", raw, calculator="pump-sizing")
    suction = job.run(raw).results["sump-sealing"]["suction_open"]
    assert solve("pump-sizing", {**LINE, "pit_suction": known["inputs"]["pit_suction"]}).values["pit_suction"] == pytest.approx(suction, rel=5e-4)
    assert "imperfect lid" in known["from"]["pit_suction"]
    kept = asked("add", raw, calculator="pump-sizing", inputs={**LINE, "pit_suction": known["inputs"]["pit_suction"]})["file"]
    assert kept["inputs"]["pump-sizing"]["pit_suction"] == "@sump-sealing.suction_open"
    other = asked("add", raw, calculator="pump-sizing", inputs={**LINE, "pit_suction": "1 in WC"})["file"]
    assert other["inputs"]["pump-sizing"]["pit_suction"] == "1 in WC"
    assert "pit_suction" not in asked("prefill", small(pump_sizing=LINE, sump_sealing=SEALING), calculator="pump-sizing")["inputs"], "what was left out on purpose stays out"


def test_a_measured_gauge_is_offered_as_the_mark() -> None:
    """The reading at start-up is the mark that gauge-reading compares with."""
    raw = lane(recorded=[{"calculator": "fan-point", "field": "gauge_suction", "value": "1.2 in WC", "when": "2026-11-20"}])
    del raw["inputs"]["gauge-reading"]
    known = asked("prefill", raw, calculator="gauge-reading")
    assert known["inputs"]["reading_then"] == "1.2 in WC"
    assert "Measured" in known["from"]["reading_then"]


def test_adding_again_keeps_the_references_inside() -> None:
    """A changed row leaves the reference of another row; a changed number of that row replaces it."""
    raw = pair()
    known = asked("prefill", raw, calculator="spillage-check")
    assert "exhausts[1].flow" in known["from"]
    inputs = copy.deepcopy(known["inputs"])
    inputs["exhausts"][0]["flow"] = "170 cfm"
    rows = asked("add", raw, calculator="spillage-check", inputs=inputs)["file"]["inputs"]["spillage-check"]["exhausts"]
    assert [row["flow"] for row in rows] == ["170 cfm", "@sump-sealing.leak_flow"]
    inputs["exhausts"][1]["flow"] = "30 cfm"
    rows = asked("add", raw, calculator="spillage-check", inputs=inputs)["file"]["inputs"]["spillage-check"]["exhausts"]
    assert [row["flow"] for row in rows] == ["170 cfm", "30 cfm"]


def test_what_was_taken_from_a_dropped_calculator_stays_as_a_number() -> None:
    """Also inside a list and in the house."""
    raw = pair() | {"house": {"pit_suction": "@sump-sealing.suction_open"}}
    left = asked("drop", raw, calculator="sump-sealing")["file"]
    assert left["inputs"]["spillage-check"]["exhausts"][1]["flow"].endswith("cfm")
    assert left["house"]["pit_suction"].endswith("in WC")
    before, after = (job.run(one).results["spillage-check"]["added_depressurization"] for one in (raw, left))
    assert after == pytest.approx(before, rel=1e-4)


def test_every_hand_over_exists() -> None:
    """Each result that is offered to another calculator is one of the catalogue and has the unit that is asked."""
    from calculators import declaration
    from calculators.job_handed import HANDED, RECORDED

    for name, fields in HANDED.items():
        for field, texts in fields.items():
            wanted = declaration(name).inputs[field][0]
            for text in texts:
                place, result, way = job_values.parse(text) or ("", "", ())
                declared = declaration(place)
                given: Any = declared.results.get(result) or declared.inputs[result][0]
                for step in way:
                    given = given.fields[step]
                assert given.base == wanted.base, (name, field, text)
    for name, fields in RECORDED.items():
        assert all(field in declaration(name).inputs and result in declaration(other).results for field, (other, result) in fields.items())
