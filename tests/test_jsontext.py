"""JSON from outside: a text must not be able to break the browser's Python."""

import json

import pytest

from calculators import page
from calculators.trade import jsontext


@pytest.mark.parametrize("sign", ["[", '{"a":'])
@pytest.mark.parametrize("depth", [100, 5000, 100_000])
def test_deep_nesting_is_refused_unread(sign, depth):
    """However deep a text is nested, it is refused before it is read."""
    with pytest.raises(RecursionError):
        jsontext.read(sign * depth)
    said = json.loads(page.answer('{"calculator": "pump-sizing", "inputs": ' + sign * depth))
    assert "nested too deeply" in said["problems"][0]["text"]


def test_usual_depths_are_read():
    """Lists beside each other do not count as deep, nor do closed ones."""
    data = {"rows": [{"points": [[i, i]]} for i in range(500)]}
    assert jsontext.read(json.dumps(data)) == data


@pytest.mark.parametrize("text", ["", "{", "NaN", '{"a": Infinity}', "[1,]"])
def test_what_is_no_json_is_refused(text):
    """NaN and Infinity are no JSON, and broken texts are refused."""
    with pytest.raises(ValueError):
        jsontext.read(text)
