"""What a page asks of Python: one text in, one text out, whatever the text is."""

import json
import string
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators import declaration, page, solve
from calculators.physics import fan
from calculators.show.house import inputs_of, reached
from calculators.span import Span

NAMES = reached()


def answer(calculator: Any, inputs: Any, **more: Any) -> dict[str, Any]:
    return json.loads(page.answer(json.dumps({"calculator": calculator, "inputs": inputs, **more})))


def rest(calculator: Any, inputs: Any, **more: Any) -> dict[str, Any]:
    return json.loads(page.rest(json.dumps({"calculator": calculator, "inputs": inputs, **more})))


def span(calculator: Any, inputs: Any, **more: Any) -> dict[str, Any]:
    return json.loads(page.span(json.dumps({"calculator": calculator, "inputs": inputs, **more})))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("units", ["us", "si"])
def test_first_stage_says_it_and_later_stages_show_the_rest(name, units):
    """The quick answer holds sentence and number; then comes the range, then everything else; all as fragments."""
    first = answer(name, inputs_of(name), units=units, uid="w7")
    assert first["ok"] is True
    assert set(first["html"]) == {"say", "now"}
    assert first["status"]
    assert "<" not in first["status"]
    second = span(name, inputs_of(name), units=units)
    ranged = isinstance(solve(name, inputs_of(name)).outputs[declaration(name).main], Span)
    assert set(second["html"]) == {"range"}
    assert second["html"]["range"].startswith('<figure class="range">') == ranged
    third = rest(name, inputs_of(name), units=units, uid="w7")
    assert third["ok"] is True
    assert {"checks", "cautions", "results", "plot", "steps", "left-out", "sources"} <= set(third["html"])
    assert "w7-" in "".join(third["html"].values()) or not third["html"]["plot"]


def test_first_stage_does_not_work_out_the_range(monkeypatch):
    """The number comes before the corners of its range are solved; the second stage solves them, once."""
    inputs, solved = inputs_of("sump-sealing"), []
    plain = fan.operating_point
    monkeypatch.setattr(fan, "operating_point", lambda **given: solved.append(given) or plain(**given))
    assert answer("sump-sealing", inputs)["ok"]
    quick = len(solved)
    assert span("sump-sealing", inputs)["ok"]
    assert quick <= 2 < len(solved)
    whole = len(solved)
    assert rest("sump-sealing", inputs)["ok"]
    assert len(solved) == whole


def test_later_stages_use_the_solution_of_the_first(monkeypatch):
    """The rest is written from the result that the first stage solved; other inputs are solved again."""
    inputs = inputs_of("pipe-loss")
    answer("pipe-loss", inputs)
    solved = []
    monkeypatch.setattr(page, "solve", lambda *given: solved.append(given) or solve(*given))
    assert rest("pipe-loss", inputs)["ok"]
    assert solved == []
    assert rest("pipe-loss", {**inputs, "flow": "61 cfm"})["ok"]
    assert len(solved) == 1


def test_warming_solves_anew_and_leaves_the_kept_answer(monkeypatch):
    """A warm turn solves anew each time, and the reader's own solution stays for the second stage."""
    inputs = inputs_of("pipe-loss")
    answer("pipe-loss", inputs)
    kept = page._last
    solved = []
    monkeypatch.setattr(page, "solve", lambda *given: solved.append(given) or solve(*given))
    for turn in (1, 2):
        assert json.loads(page.warm(json.dumps({"calculator": "pipe-loss", "inputs": inputs}))) == {"ok": True}
        assert len(solved) == turn
    assert page._last is kept
    assert json.loads(page.warm("{"))["ok"] is False
    assert page._last is kept


def test_problems_stand_at_their_fields_in_words():
    """Every problem names its path, the label a reader knows, and a sentence; names with underscores do not appear."""
    found = answer(
        "pump-sizing", {**inputs_of("pump-sizing"), "static_lift": "32,5 ft", "pit_diameter": "3 gpm", "mystery": 1}
    )
    assert found["ok"] is False
    by_field = {problem["field"]: problem for problem in found["problems"]}
    assert by_field["static_lift"]["label"] == "Static lift"
    assert "decimal comma" in by_field["static_lift"]["text"]
    assert by_field["static_lift"]["said"] == "was not read"
    assert "does not measure this" in by_field["pit_diameter"]["text"]
    assert by_field["mystery"]["lead"] == "Not known."
    both = answer("hole-flow", {"fluid": "water", "diameter": "1 in", "area": "1 in2", "head": "1 ft"})["problems"][0]
    assert both["said"].startswith("does not go together")
    pump = answer("pump-sizing", {"pit_diameter": "18 in"})["problems"]
    assert "_" not in " ".join(problem["text"] + problem["label"] for problem in pump)


def test_path_into_a_list_is_named_as_people_count():
    """Lists count from 0 in a path and from 1 in words."""
    declared = declaration("discharge-clearances")
    assert page.label_of(declared, "openings[0].vertical") == "Openings of this house 1, outlet above the top of it"
    assert page.label_of(declared, "") == "The input"
    assert page.label_of(declared, "no.such[3]") == "no.such[3]"
    assert page.label_of(declared, "openings[0].nope") == "Openings of this house 1"
    assert page.label_of(declared, "openings[0].²") == "Openings of this house 1"


def test_numbers_come_back_in_the_other_system():
    """With convert every quantity that was read comes back in the asked system by its path; what was not read is left out."""
    inputs = {**inputs_of("pump-sizing"), "static_lift": "9 ft", "pipe_length": "thirty feet"}
    found = answer("pump-sizing", inputs, units="si", convert=True)
    assert found["ok"] is False
    assert found["fields"]["static_lift"] == ["2.7432", "m"]
    assert found["fields"]["pump.points[2].head"] == ["3.048", "m"]
    assert "pipe_length" not in found["fields"]
    assert "fields" not in answer("pump-sizing", inputs, units="si")


@pytest.mark.parametrize("text", [
    "", "{", "[]", "null", "3", '"x"', "{}", '{"calculator": 3}', '{"calculator": "pump"}', '{"calculator": ["pump-sizing"]}',
    '{"calculator": "pump-sizing", "inputs": 3}', '{"calculator": "pump-sizing", "inputs": {"static_lift": NaN}}',
    '{"calculator": "pump-sizing", "inputs": null}', '{"calculator": "pump-sizing", "units": {"a": 1}, "uid": ["x"]}',
])  # fmt: skip
@pytest.mark.parametrize("stage", [page.answer, page.rest])
def test_wrong_text_is_answered_with_problems(stage, text):
    """Whatever comes in that is no request gives problems in words, no exception and no fault."""
    found = json.loads(stage(text))
    assert found["ok"] is False
    assert found["problems"]
    assert "fault" not in found


def test_text_over_one_megabyte_is_refused():
    """More than a megabyte is not read at all."""
    found = json.loads(
        page.answer(json.dumps({"calculator": "pump-sizing", "inputs": {"static_lift": "9" * 1_000_001}}))
    )
    assert "1 MB" in found["problems"][0]["text"]


def test_deep_nesting_is_refused():
    """Nesting that the reader cannot follow is a problem in words."""
    deep = '{"calculator": "pump-sizing", "inputs": {"a": ' + "[" * 100_000 + "]" * 100_000 + "}}"
    assert json.loads(page.answer(deep))["ok"] is False


def test_unforeseen_fault_is_an_answer_too(monkeypatch):
    """A fault of the program comes back as text, so that the page can say so; the worker lives on."""

    def broken(*_given: Any) -> None:
        raise ZeroDivisionError("a < b")

    monkeypatch.setattr(page, "solve", broken)
    monkeypatch.setattr(page, "_last", None)
    found = answer("pipe-loss", inputs_of("pipe-loss"))
    assert found == {"ok": False, "fault": "ZeroDivisionError: a < b"}


@pytest.mark.parametrize("uid", ["<b>", 'x" y="', "a b", "", 7, None, ["w1"], "w" * 300])
def test_uid_from_outside_never_becomes_markup(uid):
    """The prefix of ids is a plain word; anything else is replaced."""
    html = "".join(rest("pump-sizing", inputs_of("pump-sizing"), uid=uid)["html"].values())
    assert 'id="w-d-t"' in html


SCALARS = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False, allow_infinity=False), st.text(string.printable, max_size=20),
    st.sampled_from(["9 ft", "18 gpm", "1/0 in", "<b>", "9' 4-1/2\"", "-3 in", "1e309 m", "none", "0 Pa", "60 cfm", "1-1/2"]),
)  # fmt: skip
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=8), inner, max_size=3)),
    max_leaves=8,
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(NAMES), st.data())
def test_any_input_gets_an_answer_or_problems(name, data):
    """Inputs of any kind in any field give an answer or problems in words, never a fault."""
    known = list(declaration(name).inputs)
    changes = data.draw(st.dictionaries(st.sampled_from([*known, "mystery"]), VALUES, max_size=4))
    found = answer(name, {**inputs_of(name), **changes}, convert=True, units="si")
    assert "fault" not in found, found
    if not found["ok"]:
        assert all(problem["text"] and problem["label"] for problem in found["problems"])
        assert not rest(name, {**inputs_of(name), **changes})["ok"]
    else:
        assert "fault" not in rest(name, {**inputs_of(name), **changes}, units="si")
