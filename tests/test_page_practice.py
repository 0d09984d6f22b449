"""What the practice pages ask is answered, and nothing that is sent can bend it."""

import json

import pytest

from calculators.page_practice import practice
from calculators.practice import templates
from calculators.units import from_si


def ask(**request):
    """One request and its answer."""
    return json.loads(practice(json.dumps(request)))


@pytest.mark.parametrize("id", sorted(templates()))
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_problem_is_shown_marked_and_worked(id, units):
    """The question has its controls, the working its key; a wrong answer never shows the key."""
    problem = f"{id}/page/{units}"
    shown = ask(op="question", problem=problem, uid="p1")
    assert shown["ok"], shown
    assert "data-answer" in shown["html"]
    assert "style=" not in shown["html"]
    made = templates()[id].problem("page", units)
    marked = ask(op="mark", problem=problem, given="")
    assert marked["verdict"] == "unreadable"
    worked = ask(op="working", problem=problem)
    assert worked["ok"] and len(worked["html"]) > 40
    if hasattr(made.answer, "printed"):
        assert made.answer.printed() in worked["html"].replace("&#39;", "'")


@pytest.mark.parametrize("request_", [
    {}, {"op": "x"}, {"op": "question"}, {"op": "question", "problem": "a/b/us"}, {"op": "question", "problem": "pump-head/1/uk"},
    {"op": "question", "problem": "pump-head"}, {"op": "mark", "problem": ["x"]}, {"op": "open", "code": "<script>"}, {"op": "compose", "parts": ["x"]},
    {"op": "compose", "number": 999}, {"op": "compose", "number": "many"}, {"op": "collect", "code": "x", "codes": 5}, {"op": "hand-in", "code": 7},
])
def test_wrong_requests_get_words(request_):
    """Anything else is answered with words and without a fault."""
    answer = ask(**request_)
    assert answer["ok"] is False
    assert "fault" not in answer, answer
    assert json.loads(practice("{"))["ok"] is False
    assert json.loads(practice("[" * 5000))["ok"] is False


def test_warming_up_answers_nothing_but_yes():
    """The request that loads the problems early gives no text and no fault."""
    assert ask(op="warm") == {"ok": True}


def test_a_class_in_one_file():
    """Papers and keys of a class come as one file each; names stay data, and a list that is none is refused with words."""
    paper = ask(op="compose", number=3, seed="x", kinds=["house"])
    for format, name in (("class", "class.html"), ("class-key", "class-key.html")):
        made = ask(op="export", code=paper["code"], format=format, learners=["Ann", "<script>"])
        assert made["ok"] and made["name"] == name
        assert "<script>" not in made["text"] and "Ann" in made["text"]
    assert ask(op="export", code=paper["code"], format="class", learners=None)["ok"] is False


def test_a_class_from_paper_to_table():
    """A paper is composed, opened by two learners, handed in and collected; a foreign code is refused; CSV runs no formula."""
    paper = ask(op="compose", parts=["water-and-pump"], number=4, seed="class")
    one = ask(op="open", code=paper["code"], learner="=cmd")
    two = ask(op="open", code=paper["code"], learner="Second")
    assert one["ids"] != two["ids"] and len(one["html"]) == 4
    codes = [ask(op="hand-in", code=paper["code"], learner=name, given=["1 gpm", "", 0, [0]])["hand_in"] for name in ("=cmd", "Second")]
    table = ask(op="collect", code=paper["code"], codes=[*codes, codes[0], "nonsense", paper["code"]])
    assert [row["name"] for row in table["rows"]] == ["=cmd", "Second"]
    assert [row["text"].split(",")[0] for row in table["refused"]] == ["this code was changed", "this code belongs to another paper"]
    assert "\"'=cmd\"" in table["csv"]
    for format in ("qti", "gift", "paper", "key"):
        assert ask(op="export", code=paper["code"], format=format)["ok"]


def test_names_are_data():
    """A learner's name stands escaped on the printed paper."""
    paper = ask(op="compose", number=2, seed="x")
    assert "<script>" not in ask(op="export", code=paper["code"], format="key", learner="<script>alert(1)</script>")["text"]


def test_a_slip_shows_in_table_and_csv():
    """A learner who makes a known slip hands it in by its name: the table counts it, the CSV says it."""
    paper = ask(op="compose", kinds=["number"], number=3, seed="slips")
    made = ask(op="open", code=paper["code"], learner="Ann")
    problems = [templates()[id.split("/")[0]].problem(*id.split("/")[1:]) for id in made["ids"]]
    given = [f"{from_si(p.slips[0].value, p.answer.unit):.8g} {'' if p.answer.unit == '1' else p.answer.unit}" for p in problems]
    code = ask(op="hand-in", code=paper["code"], learner="Ann", given=given)["hand_in"]
    table = ask(op="collect", code=paper["code"], codes=[code])
    assert [row["count"] for row in table["slips"]] == [1, 1, 1]
    for problem in problems:
        assert f"slip: {problem.slips[0].name.replace('-', ' ')}" in table["csv"]
