"""What comes in from outside - requests, links, codes, files - is read as data: words or an answer, never a fault, never slow."""

import json
import time
import zlib
from base64 import urlsafe_b64encode
from contextlib import suppress
from html.parser import HTMLParser
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators import job, names, page
from calculators.declare import InputError
from calculators.page_practice import OPERATIONS, practice
from calculators.practice import mark, templates
from calculators.practice import paper as papers
from calculators.tables import table

LONG = 5.0  # seconds; the page ends a calculator that takes longer than its limit of 5 s
CODE = papers.compose(number=3, seed="s").code()
SCRIPTS = ["<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "\"><svg onload=alert(1)>", "javascript:alert(1)", "=HYPERLINK(1)",
           "\u202e\u0000", "{{7*7}}", "__proto__", "../../etc", "9" * 400, "1e999", "\ud800"]
texts = st.one_of(st.text(max_size=40), st.sampled_from(SCRIPTS), st.sampled_from([CODE, "us", "si", *sorted(templates())[:3]]))
plain = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-(10**30), 10**30), st.floats(allow_nan=False, allow_infinity=False), texts),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(texts, inner, max_size=4)), max_leaves=8,
)
MEMBERS = ("problem", "uid", "given", "parts", "levels", "number", "seed", "units", "minutes", "code", "learner", "codes", "format")
requests = st.fixed_dictionaries({"op": st.sampled_from([*OPERATIONS, "no-such"])}, optional=dict.fromkeys(MEMBERS, plain))
STEADY = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])


class Tags(HTMLParser):
    """The tags and event attributes of a fragment."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.events: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.events += [name for name, value in attrs if name.startswith("on") or (value or "").lower().lstrip().startswith("javascript:")]


def inert(html: str) -> bool:
    found = Tags(html)
    return not found.events and not found.tags & {"script", "img", "iframe", "object", "embed", "link", "style", "base", "meta"}


def htmls(data: Any) -> list[str]:
    """Every text of an answer that the page parses as HTML."""
    if isinstance(data, dict):
        return [text for name, inner in data.items() for text in (all_texts(inner) if name == "html" else htmls(inner))]
    return [text for inner in data for text in htmls(inner)] if isinstance(data, list) else []


def all_texts(data: Any) -> list[str]:
    if isinstance(data, str):
        return [data]
    return [text for inner in (data.values() if isinstance(data, dict) else data or ()) for text in all_texts(inner)]


@STEADY
@given(requests)
def test_any_practice_request_gets_words_or_an_answer(request):
    """Members of any kind give an answer or words, in time; what is parsed as HTML carries no script of the request."""
    started = time.monotonic()
    answer = json.loads(practice(json.dumps(request)))
    assert time.monotonic() - started < LONG
    assert "fault" not in answer, (request, answer)
    assert answer["ok"] or answer["text"]
    assert all(inert(html) for html in htmls(answer))


@pytest.mark.parametrize("text", [
    '{"op": "compose", "number": 1e999}', '{"op": "compose", "minutes": 1e999}', '{"op": "compose", "levels": [1e999]}', '{"op": "compose", "minutes": -5}',
    '{"op": "compose", "minutes": 1e30}', '{"op": "mark", "problem": "pump-head/1/us", "given": 1e999}', '{"op": "compose", "number": true, "seed": ""}',
    '{"op": "mark", "problem": "pump-head/1/us", "given": "1e999 ft"}', '{"op": "mark", "problem": "pump-head/1/us", "given": [1e999]}',
    '{"op": "hand-in", "code": "' + CODE + '", "given": {"0": 1}}', '{"op": "open", "code": "' + CODE + '", "learner": "\\ud800"}',
])
def test_numbers_beyond_every_number(text):
    """A number that JSON allows and no machine holds, or a bent one, is answered in words or marked, never a fault."""
    answer = json.loads(practice(text))
    assert "fault" not in answer, answer


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize("bad", ["1e999", '"1e999 ft"', '{"value": 1e999, "unit": "ft"}', '"\\ud800"', "[[[[]]]]", '"' + "9" * 5000 + ' ft"'])
def test_every_field_survives_every_bad_value(name, bad):
    """Each field of each calculator with a value that nothing can hold gives problems in words, and no fault."""
    from calculators import describe

    for field in describe(name)["inputs"]:
        text = f'{{"calculator": "{name}", "uid": "w1", "inputs": {{"{field["name"]}": {bad}}}}}'
        answer = json.loads(page.answer(text))
        assert "fault" not in answer, (field["name"], answer)
        assert all(inert(html) for html in htmls(answer))


@STEADY
@given(st.one_of(st.text(max_size=80), st.binary(max_size=80).map(lambda raw: urlsafe_b64encode(raw).decode()), plain.map(papers.packed)))
def test_any_code_is_a_paper_or_refused(code):
    """Whatever stands behind #p= or in the box for hand-in codes is read or refused with words."""
    paper = papers.paper_of(CODE)
    for read in (papers.paper_of, lambda text: papers.hand_in_of(paper, text)):
        with suppress(InputError):
            read(code)


@STEADY
@given(st.integers(0, len(CODE) - 1), st.characters(codec="utf-8"))
def test_a_bent_code_is_never_another_paper(place, sign):
    """One changed character gives the same paper or is refused; it never gives another one."""
    with suppress(InputError):
        assert papers.paper_of(CODE[:place] + sign + CODE[place + 1:]) == papers.paper_of(CODE)


def with_sum(raw: bytes) -> str:
    return urlsafe_b64encode(raw + zlib.crc32(raw).to_bytes(4, "big")).decode().rstrip("=")


def test_a_code_that_unpacks_to_too_much_is_refused():
    """A short code that would unpack to ten megabytes is refused, quickly."""
    started = time.monotonic()
    bomb = with_sum(zlib.compress(b'{"v":1,"t":["' + b"a" * 10_000_000 + b'"]}', 9))
    assert len(bomb) < papers.LONGEST
    with pytest.raises(InputError):
        papers.paper_of(bomb)
    assert time.monotonic() - started < 1


def test_names_in_a_hand_in_code_have_an_end():
    """A code with an endless name, or with one that a spreadsheet would run, does neither harm the table nor the file."""
    paper = papers.paper_of(CODE)
    marks = [mark(problem, "") for problem in paper.problems("a")]
    rows = [[m.verdict, m.credit, m.slip] for m in marks]
    long = papers.packed({"h": 1, "p": zlib.crc32(CODE.encode()), "n": "x" * 15_000, "r": rows})
    with pytest.raises(InputError):
        papers.hand_in_of(paper, long)
    for start in "=+-@\t\r\n":
        code = papers.hand_in(paper, f"{start}cmd", marks)
        answer = json.loads(practice(json.dumps({"op": "collect", "code": CODE, "codes": [code]})))
        assert f'\n"\'{start}cmd"' in answer["csv"], answer["csv"]


@STEADY
@given(st.dictionaries(st.sampled_from(["underslab_job", "title", "house", "inputs", "recorded", "open", "notes", "units", "invented", "x"]), plain))
def test_any_job_file_is_read_or_refused(data):
    """A job file of any kind, and the example with any of its members replaced, is solved or refused in words."""
    for file in (data, {**table("jobs/mill-terrace"), **data}):
        with suppress(InputError):
            job.run(json.loads(json.dumps(file)))


@STEADY
@given(st.sampled_from(["solve", "sheet", "prefill", "merge", "x"]), plain, plain)
def test_any_request_of_the_job_sheet_gets_words(do, file, inputs):
    """The job sheet's requests with files and inputs of any kind are answered, without a fault."""
    text = json.dumps({"stage": "job", "do": do, "uid": "j", "calculator": "pump-sizing", "file": file, "inputs": inputs, "units": "us"})
    answer = json.loads(page.answer(text))
    assert "fault" not in answer, answer
    assert all(inert(html) for html in htmls(answer))
