"""The sheet and what the page asks of a job, without a browser: wording, labels, records, adding, taking off."""

import csv
import io
import json
import re
from typing import Any

import pytest

from calculators import job, names, page, page_job
from calculators.declare import Quantity
from calculators.show import arithmetic, sheet, sheet_parts_handover, sheet_parts_materials
from calculators.show.text import answer as plain_answer
from job_files import LANE, PIPE, lane, small


def asked(**request: Any) -> dict[str, Any]:
    """What the page gets: through text, as in the browser."""
    answer = json.loads(page.job(json.dumps(request)))
    assert "fault" not in answer, answer
    return answer


def answer_html(result: Any) -> str:
    """The results and the arithmetic of an answer as the page shows them."""
    return f"{arithmetic.results(result, 'us')}{arithmetic.steps(result, 'us')}"


def words(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html).split())


# --- wording


def full() -> dict[str, Any]:
    """The invented house with everything that can put a name of a program on the sheet."""
    raw = lane(rules=["us-pa", "sgm-sf-2017"])
    raw["recorded"] += [
        {"calculator": "pump-sizing", "field": "delivered_flow", "value": "30 gpm", "when": "2026-11-19", "who": "the installer"},
        {"calculator": "discharge-clearances", "field": "openings", "value": "seen", "when": "2026-11-19T08:00"},
    ]
    raw["inputs"]["pump-sizing"].pop("pump")
    raw["inputs"]["hole-flow"] = {"fluid": "water", "diameter": "1 in", "head": "@pump-sizing.pump_head"}
    raw["inputs"]["tile-offset"]["known_below"] = "not-located"
    return raw


@pytest.mark.parametrize("form", [sheet.text, sheet.page])
def test_no_name_of_a_program_reaches_the_reader(form: Any) -> None:
    """Neither ids of comparisons, nor paths, field names, references or ids of calculators and packs stand on the sheet."""
    shown = form(job.run(full()))
    said = shown if form is sheet.text else words(shown.partition("</style>")[2])
    assert not re.findall(r"\w+\[\d+\]|@\w+|\b[a-z]+_[a-z_]+\b|\b[A-Z]{2,6}-\d\d\b|\d{4}-\d\d-\d\d", said)
    plain = ("us-pa", "sgm-sf-2017", *(name for name in names() if "-" in name))
    assert [name for name in plain if re.search(rf"\b{name}\b", said)] == []


def test_open_names_field_and_reason_in_words() -> None:
    """What is missing is named as on the form, with the result that it waits for."""
    raw = full()
    opened = words(str(dict(sheet.pieces(job.run(raw)))["open"]))
    assert "Flow through a hole or a gap: Head of water is not given" in opened
    assert "“The pump, its pipe and its relief hole: head of the pump where it runs” could not be given" in opened


def test_every_date_is_said_as_people_say_it() -> None:
    """Dates and times of the job come out as 21 November 2026, 14:30."""
    part = words(dict(sheet.pieces(job.run(LANE)))["dates"])
    for said in ("no sooner than 21 November 2026, 14:30, no later than 20 December 2026", "no later than 20 November 2028", "every two years"):
        assert said in part


# --- labels


LABELS = [
    ("sgm-sf-2017", "Radon Reduction System", "8.4.2"), ("irc-f", "Radon Reduction System", "AF103.9"),
    ("us-mn", "Radon Gas Vent System", "1303.2402 subp. 5"),
]  # fmt: skip


@pytest.mark.parametrize(("pack", "text", "section"), LABELS, ids=[row[0] for row in LABELS])
def test_prescribed_label_is_quoted_with_its_section(pack: str, text: str, section: str) -> None:
    """The words that a chosen pack prescribes stand on system and pipe label, with document and section; the rest is ours."""
    html = dict(sheet.pieces(job.run(lane(rules=[pack]))))["labels"]
    assert html.count(f'<p class="tag__title">{text}</p>') == 2
    assert section in words(html)
    assert "the rest is ours" in html


def test_without_a_prescribed_text_the_label_says_that_it_is_ours() -> None:
    """No pack, or one without label rows, never makes our words look like a rule's."""
    for rules in (None, ["us-pa"]):
        html = words(dict(sheet.pieces(job.run(lane(rules=rules))))["labels"])
        assert "ours" in html
        assert "published" not in html
    assert "nothing on this sheet says that a rule is met" in sheet.text(job.run(lane(rules=None)))


def test_two_packs_give_both_pipe_labels() -> None:
    """Packs are never merged: each prescribed text has its own pipe label."""
    html = dict(sheet.pieces(job.run(lane(rules=["irc-f", "us-mn"]))))["labels"]
    assert 'tag__title">Radon Gas Vent System' in html
    assert 'tag__title">Radon Reduction System' in html


# --- start-up record


def test_each_place_of_a_record_is_a_result_with_that_unit() -> None:
    """Rows that are kept as records name a real result of a calculator, and the unit beside the line is read by it."""
    from calculators import declaration
    from calculators.reading import Reader

    for units in ("us", "si"):
        for row in sheet_parts_handover.rows_to_fill(job.run(lane(units=units))):
            if row.at:
                field = declaration(row.at[0]).results[row.at[1]]
                reader = Reader()
                assert isinstance(field, Quantity)
                reader.value(field, f"1 {row.unit}", "")
                assert not reader.problems


def test_the_record_holds_what_the_hand_over_needs() -> None:
    """Gauge and mark, flow, pit, test holes, alarms, permits, warranty, cost, tests, installer, and what was worked out of them."""
    part = words(dict(sheet.pieces(job.run(LANE)))["startup"])
    for label in ("Gauge at start-up, marked", "Flow at the outlet", "Suction in the pit", "Test hole A", "Carbon monoxide alarm", "High-water alarm", "Radon after", "Installer, licence", "worked out",
                  "Wanted at the weakest hole", "Permits", "Warranty", "Cost of the system", "Your own exposure", "Work begun, finished"):  # fmt: skip
        assert label in part


def test_the_form_of_the_spillage_test_has_both_tests_and_what_follows_a_failure() -> None:
    """Each thing is asked before and with the system; each burner by its name; a failure says who goes where, in order."""
    raw = lane()
    raw["inputs"]["spillage-check"]["appliances"].append({"name": "boiler", "kind": "natural-draft-furnace"})
    part = words(dict(sheet.pieces(job.run(raw)))["spillage"])
    for label in ("Base reading, every fan off, before", "Base reading, every fan off, with the system", "Worst case, every fan on, before",
                  "Room carbon monoxide", "Boiler, system off: spills for", "Boiler, system on: spills for", "Gas water heater, 40 kBtu/h class: draft and flue",
                  "Fans that ran", "Text that was followed", "put back"):  # fmt: skip
        assert label in part
    order = ["If it spills: 1. Appliance off", "2. Radon fan off", "Tell owner and occupants", "licensed heating or gas trade", "Take away suction", "Test again in the worst case"]
    assert [part.index(one) for one in order] == sorted(part.index(one) for one in order)


def test_what_the_job_knows_stands_on_the_owners_sheet() -> None:
    """Radon before and after from the test of the job and the yearly electricity; what was written by hand comes before."""
    part = words(dict(sheet.pieces(job.run(LANE)))["owner"])
    assert "Radon test before 9.4 pCi/L" in part
    assert re.search(r"Radon test after 1\.1\d* pCi/L", part)
    assert "kWh" in part
    own = words(dict(sheet.pieces(job.run(lane(notes=["Radon after: result, dates, device, who: 1.1 pCi/L, device C"]))))["owner"])
    assert "Radon test after 1.1 pCi/L, device C" in own


def test_materials_come_piece_by_piece_and_as_csv() -> None:
    """The list of pieces stands on the sheet with typed prices, and as CSV that a spreadsheet reads back."""
    raw = lane()
    raw["inputs"]["pipe-takeoff"]["prices"] = [{"item": "stick", "price": "24.5 money"}]
    done = job.run(raw)
    part = words(dict(sheet.pieces(done))["materials"])
    assert "Pipe, stick 4 × 4 in., 24.5 each, together 98 (your currency)" in part
    assert "Elbow, 90 degrees 3 × 4 in." in part
    head, *rows = csv.reader(io.StringIO(sheet_parts_materials.materials_csv(done)))
    assert head == ["item", "size", "quantity", "price each (your currency)", "cost (your currency)"]
    assert ["pipe, stick", "4 in.", "4", "24.50", "98.00"] in rows
    assert any(row[0].startswith("sealant") for row in rows)
    assert asked(do="sheet", file=raw)["csv"] == sheet_parts_materials.materials_csv(done)
    assert sheet_parts_materials.materials_csv(job.run({"underslab_job": 1})) == ""


def test_the_states_own_tag_has_its_place() -> None:
    """Where a chosen pack asks for a tag of the state the sheet keeps a frame for its number and says that it is bought there."""
    part = words(dict(sheet.pieces(job.run(lane(rules=["us-mn"]))))["labels"])
    assert "State tag no." in part
    assert "4620.7600 subp. 3" in part
    assert "State tag no." not in words(dict(sheet.pieces(job.run(LANE)))["labels"])


def test_money_is_said_in_one_way() -> None:
    """Text, HTML, the words of JSON and CSV all say the reader's own currency; the unit's name for programs stays in JSON only."""
    raw = lane()
    raw["inputs"]["pipe-takeoff"]["prices"] = [{"item": "stick", "price": "24.5 money"}]
    done = job.run(raw)
    shown = [sheet.text(done), words(sheet.page(done).partition("</style>")[2])]
    for name in ("running-cost", "pipe-takeoff"):
        result = done.results[name]
        shown += [plain_answer(result, "us"), words(str(answer_html(result)))]
        shown += [step["result"] for step in result.as_dict("us")["steps"] if step["units"][step["formula"].split()[0]].startswith("money")]
    wrong = page.answer(json.dumps({"calculator": "pipe-takeoff", "units": "us", "uid": "w1", "inputs": {
        **raw["inputs"]["pipe-takeoff"], "pipe_size": "4", "prices": [{"item": "stick", "price": "-3 money"}]}}))  # fmt: skip
    (problem,) = json.loads(wrong)["problems"]
    assert "your currency" in problem["text"]
    assert "money" not in problem["text"]
    for said in shown:
        assert "(your currency)" in said
        assert not re.search(r"\d money|\bmoney/", said)
    assert done.results["running-cost"].as_dict("us")["results"]["fan_cost"]["unit"] == "money"


def test_numbers_on_lines_become_records_words_stay_words() -> None:
    """A bare number takes the unit of its line and today's date; what cannot be read stays a note; a second call changes nothing."""
    raw = lane(notes=["Gauge at start-up, marked on the gauge: 1.3", "Flow at the outlet: 25 L/s", "Suction in the pit: good", "Seen in rain."])
    answer = asked(do="sheet", file=raw, today="2026-11-25")
    kept = {entry["field"]: (entry["value"], entry["when"]) for entry in answer["file"]["recorded"]}
    assert kept["gauge_suction"] == ("1.3 in WC", "2026-11-25")
    assert kept["flow"] == ("25 L/s", "2026-11-25")
    assert answer["file"]["notes"] == ["Suction in the pit: good", "Seen in rain."]
    again = asked(do="sheet", file=answer["file"], today="2026-11-26")
    assert "file" not in again
    assert "Suction in the pit: good" not in words(dict(again["pieces"])["notes"])


def test_a_sheet_that_cannot_be_made_gives_problems_in_words() -> None:
    """Every problem of a wrong file has a label in words and a sentence; the calculator that holds it is named for programs."""
    raw = {**small(pipe_loss={**PIPE, "flow": "60"}), "colour": "red", "house": {"elevation": "9 ft", "nonsense": 1}}
    answer = asked(do="sheet", file=raw)
    assert answer["ok"] is False
    assert {problem["field"] for problem in answer["problems"]} == {"colour", "house.nonsense"}
    (one,) = asked(do="sheet", file=small(pipe_loss={**PIPE, "flow": "60"}))["problems"]
    assert (one["label"], one["calculator"]) == ("Pressure lost in the vent pipe, Air flow", "pipe-loss")
    assert one["text"].endswith(".")
    for file in (None, [], "x", {}):
        assert asked(do="sheet", file=file)["ok"] is False


# --- adding, prefilling, taking off


NEW = {"underslab_job": 1, "title": "New", "house": {}, "inputs": {}}
PUMP_LINE = {"pit_diameter": "18 in", "inflow": "9 gpm", "static_lift": "9 ft", "pipe_size": "2", "pipe_length": "30 ft"}


def test_what_means_the_same_everywhere_is_said_once() -> None:
    """Vent pipe, fan, soil and elevation go to the house; what only this calculator reads stays with it."""
    file = asked(do="add", file=NEW, calculator="pipe-loss", inputs={**PIPE, "elevation": "420 ft"})["file"]
    assert file["house"] == {"pipe_size": "4", "pipe_length": "33 ft", "elevation": "420 ft"}
    assert file["inputs"] == {"pipe-loss": {"flow": "60 cfm"}}
    given = asked(do="prefill", file=file, calculator="fan-point")
    assert given["inputs"] == file["house"]
    assert set(given["from"]) == set(file["house"])


def test_adding_the_same_again_changes_nothing() -> None:
    """The house's own form values, added again in other words of the same size, leave the file as it is."""
    file = asked(do="add", file=NEW, calculator="pipe-loss", inputs=PIPE)["file"]
    again = asked(do="add", file=file, calculator="pipe-loss", inputs={**PIPE, "pipe_length": "396 in"})
    assert again["file"] == file
    assert again["said"] == []


@pytest.mark.parametrize("name", job.run(LANE).results)
def test_what_the_sheet_gives_a_form_comes_back_to_the_same_answer(name: str) -> None:
    """Prefilling each calculator of the invented house and adding it unchanged gives the same results and references."""
    done = job.run(LANE)
    given = asked(do="prefill", file=LANE, calculator=name)["inputs"]
    back = asked(do="add", file=LANE, calculator=name, inputs=given)["file"]
    again = job.run(back)
    for other in done.results:
        before, after = done.results[other].as_dict("us")["results"], again.results[other].as_dict("us")["results"]
        assert json.dumps(before) == json.dumps(after), other
    assert back["inputs"][name] == {k: v for k, v in LANE["inputs"].get(name, {}).items() if v is not None}
    assert back["house"] == LANE["house"]


def test_another_way_of_giving_a_thing_replaces_the_first_in_the_house() -> None:
    """A measured soil replaces the house's preset: two ways never stand beside each other."""
    fan = {"shutoff": "400 Pa", "free_flow": "160 cfm"}
    inputs = {"fan": fan, "pipe_size": "4", "pipe_length": "33 ft", "soil": "tight"}
    file = asked(do="add", file=NEW, calculator="fan-point", inputs=inputs)["file"]
    del inputs["soil"]
    file = asked(do="add", file=file, calculator="fan-point", inputs={**inputs, "soil_conductance": "42 cfm/in WC"})["file"]
    assert "soil" not in file["house"]
    assert file["house"]["soil_conductance"] == "42 cfm/in WC"


def test_pump_line_keeps_its_own_pipe() -> None:
    """The pump line's pipe never becomes the vent's, nor the vent's the pump line's, fittings included."""
    vent = {**NEW, "house": {"pipe_size": "4", "pipe_length": "33 ft", "fittings": [{"kind": "elbow-90", "count": 3}]}}
    assert asked(do="prefill", file=vent, calculator="pump-sizing")["inputs"] == {}
    file = asked(do="add", file=vent, calculator="pump-sizing", inputs=PUMP_LINE)["file"]
    assert file["house"] == vent["house"]
    assert job.run(file).results["pump-sizing"].values["fittings"] == []
    same = asked(do="add", file=vent, calculator="pump-sizing", inputs={**PUMP_LINE, "pipe_size": "4", "pipe_length": "33 ft"})["file"]
    assert same["inputs"]["pump-sizing"]["pipe_size"] == "4"


def test_wrong_input_is_refused_whole() -> None:
    """What cannot be read comes back as problems without a file, so that nothing of it can be kept."""
    for inputs in ({"flow": "x"}, {"mystery": 1}, "text", None):
        answer = asked(do="add", file=NEW, calculator="pipe-loss", inputs=inputs)
        assert answer["ok"] is False
        assert "file" not in answer


def test_taking_a_calculator_off_leaves_its_numbers_with_those_that_took_them() -> None:
    """References to a calculator that is taken off become the number that they stood for."""
    file = asked(do="drop", file=LANE, calculator="sump-sealing")["file"]
    before = job.run(LANE).results["pump-sizing"].values["pit_suction"]
    assert job.run(file).results["pump-sizing"].values["pit_suction"] == pytest.approx(before, rel=1e-5)
    assert "sump-sealing" not in file["inputs"]


def test_shared_fields_exist() -> None:
    """Each field that is said once for the house is an input of two calculators at least."""
    from calculators import declaration

    for field in (*page_job.WHOLE, *page_job.VENT):
        users = [name for name in names() if field in declaration(name).inputs and page_job.shared(name, field)]
        assert len(users) >= 2, field


def test_unknown_requests_are_faults_not_crashes() -> None:
    """Text that is no request, and an unknown thing to do, come back as data."""
    for text in ("", "[]", "{", '{"do": "x"}', '{"do": "add", "calculator": "nothing", "file": {"underslab_job": 1}}', "[" * 100_000):
        answer = json.loads(page.job(text))
        assert answer["ok"] is False
