"""The job: one house solved whole, what hangs on what, what stays open, dates, and the sheet."""

import copy
import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from calculators import InputError, job, job_values, names, solve, tables
from calculators.show import sheet
from cases import PUMP
from job_files import DATA, LANE, LINE, PIPE, SMALL, lane, problems, small

JOBS = sorted((DATA / "jobs").glob("*.json"))


def opened(done: job.Job) -> list[tuple[str | None, str | None]]:
    """Calculator and field of what is open."""
    return [(entry.calculator, entry.field) for entry in done.open]


# --- the invented house


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_shipped_jobs_solve_whole(path: Path) -> None:
    """Each shipped file solves every calculator that it names, and says that it is invented."""
    file = json.loads(path.read_text("utf-8"))
    done = job.run(file)
    assert set(done.results) >= set(file["inputs"])
    assert file["invented"] is True
    assert not [entry for entry in done.open if entry.calculator], "a shipped job leaves nothing of a calculator open"


def test_quarry_lane_fails_where_it_is_meant_to() -> None:
    """The float starts above the tile, a window is too near, frost grows, the burner is untested, the gauge has changed; nothing else fails."""
    failed = {(name, check.id.partition(":")[0]) for name, check in job.run(LANE).failed()}
    assert failed >= {("pump-sizing", "float-below-tile"), ("discharge-clearances", "PA-02")}
    assert {name for name, _ in failed} <= {"pump-sizing", "discharge-clearances", "fan-point", "gauge-reading", "cold-stack", "spillage-check"}
    checks = {c["id"]: c for c in job.run(LANE).results["pump-sizing"].checks("us")}
    assert checks["float-below-tile"]["margin"]["value"] == pytest.approx(-2)
    clearance = {c["id"]: c for c in job.run(LANE).results["discharge-clearances"].checks("us")}["PA-02:openings[0]"]
    assert (clearance["required"]["value"], clearance["found"]["value"]) == (pytest.approx(2), pytest.approx(1.5))


def test_quarry_lane_in_working_order() -> None:
    """Calculators come in the order of the job, those whose results are taken before those that take them."""
    order = list(job.run(LANE).results)
    assert order.index("sump-sealing") < order.index("pump-sizing")
    rest = [name for name in order if name != "sump-sealing"]
    assert [name for name in names() if name in rest] == rest


def test_a_result_is_handed_on() -> None:
    """The pump lifts out of the pit's suction as sump-sealing gives it: no range, no rounding."""
    done = job.run(LANE)
    suction = done.results["sump-sealing"]["suction_open"]
    assert done.results["pump-sizing"].values["pit_suction"] == pytest.approx(suction, rel=1e-9)
    changed = copy.deepcopy(LANE)
    changed["inputs"]["sump-sealing"]["lid_gap"] = "1/4 in"
    assert job.run(changed).results["pump-sizing"].values["pit_suction"] < 0.8 * suction


def test_worked_inputs_have_no_references_left() -> None:
    """The inputs of a worked example solve by themselves and give the job's own answer."""
    inputs = job.worked_inputs(LANE, "pump-sizing")
    assert not any(job_values.is_reference(value) for value in inputs.values())
    assert solve("pump-sizing", inputs)["delivered_flow"] == pytest.approx(job.run(LANE).results["pump-sizing"]["delivered_flow"])
    with pytest.raises(InputError):
        job.worked_inputs(SMALL, "pump-sizing")


# --- house, inputs, references


def test_the_house_is_said_once() -> None:
    """A field of the house reaches every calculator that has it, and an own input comes before it."""
    raw = {
        "underslab_job": 1,
        "house": {"pipe_size": "4", "pipe_length": "33 ft", "elevation": "5000 ft"},
        "inputs": {"pipe-loss": {"flow": "60 cfm"}, "hole-flow": {"fluid": "air", "diameter": "1 in", "pressure": "9 Pa", "elevation": "0 ft"}},
    }
    done = job.run(raw)
    assert done.results["pipe-loss"].values["elevation"] == pytest.approx(1524)
    assert done.results["hole-flow"].values["elevation"] == 0


def test_an_own_input_beats_the_house_in_a_group() -> None:
    """An own inside diameter replaces the house's pipe size, an own soil preset the house's conductance: no conflict."""
    raw = small(pipe_loss={"flow": "60 cfm", "inside_diameter": "80 mm", "pipe_length": "9 m"})
    raw["house"] = {"pipe_size": "4", "pipe_length": "99 ft", "soil_conductance": "42 cfm/in WC"}
    done = job.run(raw)
    assert done.results["pipe-loss"].values["inside_diameter"] == pytest.approx(0.080)
    assert done.results["pipe-loss"].values["pipe_size"] is None
    assert done.results["pipe-loss"].values["pipe_length"] == pytest.approx(9)
    changed = lane()
    changed["inputs"]["sump-sealing"]["soil"] = "tight"
    assert job.run(changed).results["sump-sealing"].values["soil_conductance"] is None


def test_two_of_a_group_are_still_a_conflict() -> None:
    """Own input against own input, and house against house, stay conflicts, each named where it stands."""
    assert problems(small(pipe_loss={**PIPE, "inside_diameter": "4 in"})) == {"inputs.pipe-loss.pipe_size": "conflict"}
    house = {"underslab_job": 1, "house": {**PIPE, "inside_diameter": "4 in"}}
    assert set(problems(house)) == {"house.pipe_size"}


def test_null_in_a_job_is_left_out() -> None:
    """An own null lets the house's value through; null members of the file are left out."""
    raw = {**small(pipe_loss={"flow": "60 cfm", "pipe_size": None, "pipe_length": "9 m"}), "house": {"pipe_size": "3"}}
    assert job.run({**raw, "order": None, "started": None, "notes": None}).results["pipe-loss"].values["pipe_size"] == "3"


def test_what_the_house_alone_reaches_is_solved() -> None:
    """A calculator that is not named is solved when the house gives all that it needs, and not otherwise."""
    assert list(job.run({"underslab_job": 1, "house": PIPE}).results) == ["pipe-loss"]
    assert list(job.run({"underslab_job": 1, "house": {"pipe_size": "4"}}).results) == []
    assert list(job.run({"underslab_job": 1}).results) == []


def test_the_rules_of_the_file_are_the_houses() -> None:
    """rules at the top reach discharge-clearances; its own rules come before."""
    given = {"discharge": {"height_above_grade": "22 ft", "direction": "up"}}
    raw = {**small(discharge_clearances=given), "rules": ["us-pa"]}
    assert job.run(raw).results["discharge-clearances"].values["rules"] == ["us-pa"]
    own = {**small(discharge_clearances={**given, "rules": "irc-f"}), "rules": ["us-pa"]}
    assert job.run(own).results["discharge-clearances"].values["rules"] == ["irc-f"]


def test_order_may_be_said() -> None:
    """A given order is kept, save that a result is worked out before it is taken; others are left out."""
    raw = lane(order=["hole-flow", "pump-sizing", "sump-sealing"])
    assert list(job.run(raw).results) == ["hole-flow", "sump-sealing", "pump-sizing"]


REFERENCES = [
    ("@sump-sealing.suction", "choice"), ("@sump.suction_open", "choice"), ("@", "choice"), ("@sump-sealing", "choice"),
    ("@tile-offset.first_hole", "choice"), ("@pump-sizing.suction_lift", "conflict"),
]  # fmt: skip


@pytest.mark.parametrize(("reference", "kind"), REFERENCES, ids=[r for r, _ in REFERENCES])
def test_wrong_references_are_refused(reference: str, kind: str) -> None:
    """An unknown calculator or result, one that is not part of the job, and one's own result are problems at their field."""
    found = problems(small(pump_sizing={**LINE, "pit_suction": reference}))
    assert found == {"inputs.pump-sizing" + (".pit_suction" if kind == "choice" else ""): kind}


def test_a_circle_is_named() -> None:
    """Two calculators that take each other's results are refused, and the circle is said."""
    raw = small(
        pipe_loss={**PIPE, "pipe_length": "@pump-sizing.equivalent_length"},
        pump_sizing={**LINE, "pipe_length": "@pipe-loss.equivalent_length"},
    )
    with pytest.raises(InputError) as caught:
        job.run(raw)
    (one,) = caught.value.problems
    assert one["kind"] == "conflict"
    assert one["found"] == "pump-sizing -> pipe-loss -> pump-sizing"


def test_a_reference_of_the_wrong_dimension_is_a_problem() -> None:
    """A length where a pressure is wanted, a text where a number is wanted: refused at the field that took it."""
    for reference, kind in (("@pipe-loss.equivalent_length", "dimension"), ("@pipe-loss.comparison", "type")):
        raw = small(pipe_loss=PIPE, pump_sizing={**LINE, "pit_suction": reference})
        assert problems(raw) == {"inputs.pump-sizing.pit_suction": kind}


def test_what_cannot_be_handed_on_is_open() -> None:
    """A result that cannot be given, or a calculator still open, leaves its taker solved without it and said as open."""
    raw = small(pump_sizing=LINE, hole_flow={"fluid": "water", "diameter": "1 in", "head": "@pump-sizing.pump_head"})
    done = job.run(raw)
    assert opened(done) == [("hole-flow", "head")]
    assert "@pump-sizing.pump_head could not be given" in done.open[0].text
    assert list(done.results) == ["pump-sizing"]
    raw["inputs"]["pump-sizing"] = {**LINE, "static_lift": "15 ft", "pump": PUMP}
    assert list(job.run(raw).results) == ["pump-sizing", "hole-flow"]


# --- open


def test_what_is_missing_is_open_not_wrong() -> None:
    """A calculator that lacks a required field is listed as open with the field; the others are solved."""
    done = job.run({**small(pipe_loss={"flow": "60 cfm"}, hole_flow={"fluid": "water"}), "open": ["Ask the owner."], "notes": ["Seen in rain."]})
    assert opened(done) == [(None, None), ("pipe-loss", "pipe_size"), ("pipe-loss", "pipe_length"), ("hole-flow", "diameter"), ("hole-flow", "head")]
    assert done.results == {}
    assert done.open[0].text == "Ask the owner."
    assert done.notes == ["Seen in rain."]


def test_missing_inside_an_object_is_wrong() -> None:
    """A half-typed fan or fitting is a problem with its path, not something still open."""
    assert problems(small(pipe_loss={**PIPE, "fittings": [{"count": 2}]})) == {"inputs.pipe-loss.fittings[0].kind": "missing"}


# --- dates


DATES = [
    ("2026-11-20T14:30", "2026-11-21T14:30", "2026-12-20", "2028-11-20"),
    ("2026-11-20", "2026-11-21", "2026-12-20", "2028-11-20"),
    ("2028-02-29", "2028-03-01", "2028-03-30", "2030-02-28"),
    ("2026-12-31T23:59", "2027-01-01T23:59", "2027-01-30", "2028-12-31"),
    ("2027-01-31", "2027-02-01", "2027-03-02", "2029-01-31"),
]


@pytest.mark.parametrize(("started", "sooner", "later", "again"), DATES, ids=[row[0] for row in DATES])
def test_dates(started: str, sooner: str, later: str, again: str) -> None:
    """The follow-up test begins 24 h to 30 days after switch-on, the next one is due in two years, leap day or not."""
    dates = job.run({**SMALL, "started": started}).dates()
    assert [(d["no_sooner"], d["no_later"]) for d in dates] == [(sooner, later), (None, again)]
    assert all(tables.source(d["source"]) for d in dates)


def test_without_a_start_there_are_no_dates() -> None:
    """No date is made up: without the day of switch-on the list is empty and the sheet says what to enter."""
    done = job.run(SMALL)
    assert done.dates() == []
    assert "Enter the day the fan was first switched on" in sheet.text(done)


# --- what comes out


def test_shape_for_programs() -> None:
    """The answer has the agreed members, in JSON without NaN, and each result is the calculator's own answer."""
    done = job.run(LANE)
    data = json.loads(json.dumps(done.as_dict(), allow_nan=False))
    assert {"job", "version", "results", "open", "failed", "dates"} <= set(data)
    assert data["job"] == {name: LANE[name] for name in ("title", "invented", "units", "started", "rules")}
    assert list(data["results"]) == list(done.results)
    assert data["results"]["pipe-loss"] == json.loads(json.dumps(done.results["pipe-loss"].as_dict("us")))
    assert all(set(entry) == {"calculator", "field", "text"} for entry in data["open"])
    assert all(set(entry) == {"calculator", "check"} for entry in data["failed"])
    assert all(set(entry) == {"what", "no_sooner", "no_later", "source"} for entry in data["dates"])
    assert data["recorded"] == LANE["recorded"]


def test_units_of_the_file() -> None:
    """Results are shown in the units that the file names; without, in US units."""
    shown = {u: job.run({**SMALL, "units": u}).as_dict()["results"]["pipe-loss"]["results"]["total_loss"]["unit"] for u in ("us", "si", None)}
    assert shown == {"us": "in WC", "si": "Pa", None: "in WC"}


def test_hard_stops_come_first() -> None:
    """What stops the work stands before what merely fails, in the list and on the sheet."""
    raw = lane()
    raw["inputs"]["tile-offset"]["known_below"] = "not-located"
    raw["inputs"]["sump-sealing"]["pit_receives"] = "sewage"
    done = job.run(raw)
    stops = [check.stop for _, check in done.failed()]
    assert stops == sorted(stops, reverse=True)
    assert stops.count(True) == 2
    text = sheet.text(done)
    assert text.index("What stops the work") < text.index("What does not meet") < text.index("Still open")


def test_the_sheet_in_words() -> None:
    """The sheet holds the failed checks, what is open, results, the record to fill in, dates and notes, in working order."""
    text = sheet.text(job.run(LANE))
    heads = ["What stops the work", "What does not meet", "Still open", "What can hurt you", "Where to core", "Labels",
             "Measured on the job", "Start-up record", "Dates", "Notes"]  # fmt: skip
    assert [text.index(f"\n{head}") for head in heads] == sorted(text.index(f"\n{head}") for head in heads)
    for words in ("an invented house", "bedroom window over the garage", "Wanted at most 14 in., found 16 in., 2 in. too much", "Spillage test",
                  "21 November 2026, 14:30", "20 December 2026", "20 November 2028", "Footing projection  4 in. (18 November 2026)"):  # fmt: skip
        assert words in text


HOSTILE = ['<script>alert(1)</script>', '"><img src=x onerror=alert(1)>', "</style><b>", "&lt;i&gt; ' \" `", "\u202e\x00\u2028"]


class Page(HTMLParser):
    """Collects the elements, attributes and text of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: set[str] = set()
        self.words = ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data: str) -> None:
        self.words += data


def hostile(words: str) -> dict[str, Any]:
    """The house with these words wherever free text is read."""
    raw = lane(title=words, notes=[words], open=[words])
    raw["recorded"][0] |= {"who": words}
    raw["recorded"].append({"calculator": "sump-sealing", "field": "leaks", "value": {words: [words]}, "when": "2026-11-18"})
    raw["house"]["fan"]["name"] = words
    for opening in raw["inputs"]["discharge-clearances"]["openings"]:
        opening["name"] = words
    return raw


@pytest.mark.parametrize("words", HOSTILE, ids=["script", "image", "style", "entities", "controls"])
def test_typed_words_stay_words(words: str) -> None:
    """Whatever is typed into title, notes, names or records is text on the sheet, never an element or attribute."""
    same = "x" * len(words)  # as long as the hostile words: where a value stands hangs on its length
    plain, dirty = Page(sheet.page(job.run(hostile(same)))), Page(sheet.page(job.run(hostile(words))))
    assert dirty.tags == plain.tags
    assert dirty.attributes == plain.attributes
    if "\x00" not in words:
        assert dirty.words.count(words) >= 6
    part = Page(sheet.fragment(job.run(hostile(words))))
    assert part.tags == Page(sheet.fragment(job.run(hostile(same)))).tags


def test_the_sheet_needs_nothing_else() -> None:
    """The page holds its own style, no script, no handler, no inline style, and no address that is fetched."""
    html = sheet.page(job.run(LANE))
    page = Page(html)
    assert html.startswith("<!doctype html>")
    assert "script" not in page.tags
    assert not page.attributes & {"style", "src", "href", "action", "srcset", "background"}
    assert not any(name.startswith("on") for name in page.attributes)
    assert not re.search(r"url\(|@import|https?://", html)
    assert "default-src 'none'" in html
    assert page.tags.count("h1") == 1
