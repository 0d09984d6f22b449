"""JSON that came from outside, read without trusting it."""

import json
import re
from typing import Any

DEEPEST = 60  # levels of lists and objects; a whole job file has fewer than ten


def read(text: str) -> Any:
    """The data that a JSON text holds.

    Raises ValueError when it is no JSON (NaN and Infinity are none) and RecursionError when it is nested deeper than
    any input: the browser's Python has a small stack and would not survive that.
    """
    depth = 0
    for sign in re.findall(r"[\[\]{}]", text):
        depth += 1 if sign in "[{" else -1
        if depth > DEEPEST:
            raise RecursionError("nested too deeply")
    return json.loads(text, parse_constant=_no_constant)


def _no_constant(name: str) -> Any:
    raise ValueError(f"{name} is no JSON")
