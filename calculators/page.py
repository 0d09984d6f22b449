"""What the page asks of the calculators: one text in, one text out, never an exception.

answer({"calculator", "inputs", "units": "us" | "si", "uid", "convert"?: true})
    -> {"ok": true, "html": {"say", "now"}, "status": text, "fields"?: {path: [number, unit]}}
    or {"ok": false, "problems": [{"field", "label", "said", "lead", "text"}], "fields"?}
span(the same) -> {"ok": true, "html": {"range"}}
rest(the same)
    -> {"ok": true, "html": {"checks", "cautions", "drawing", "results", "plot", "steps", "left-out", "sources"}}
warm(the same) -> {"ok": true}; see there
job({"do", ...}): see page_job
An unforeseen fault gives {"ok": false, "fault": text}.
"""

import gc
import json
import re
from importlib import import_module
from typing import Any

from . import InputError, Result, declaration, solve
from .declare import Declaration
from .trade import jsontext
from .wording import currency_named, label_of

LONGEST = 1_000_000
_last: tuple[str, Result] | None = None


def answer(text: str) -> str:
    """The first stage: solve, say it, give the number."""
    return _guarded(_answer, text)


def span(text: str) -> str:
    """The second stage: the range of the number, from the same inputs."""
    return _guarded(lambda request: _more(request, "span"), text)


def rest(text: str) -> str:
    """The third stage: everything else of the same inputs."""
    return _guarded(lambda request: _more(request, "rest"), text)


def prepare(name: str) -> None:
    """Import what the first answer of this calculator needs."""
    import_module(f"{__package__}.show.page")
    declaration(name)
    gc.freeze()  # all this stays: the collector need not look through it again with every few keys


def warm(text: str) -> str:
    """The quick stages for nothing: the browser compiles the interpreter's parts as they are used.  The answer kept stays."""
    return _guarded(_warm, text)


def job(text: str) -> str:
    """A whole job: its sheet, what a form adds to it, what it already knows of a form's fields."""
    from .page_job import ask

    return _guarded(ask, text)


def practice(text: str) -> str:
    """What the practice pages ask; loaded when the first of them does."""
    from .page_practice import practice as answer_practice

    return answer_practice(text)


def _guarded(work: Any, text: str) -> str:
    try:
        if len(text) > LONGEST:
            return json.dumps({"ok": False, "problems": [_whole("The input is larger than 1 MB.")]})
        return json.dumps(work(_request(text)), allow_nan=False)
    except InputError as error:
        return json.dumps({"ok": False, "problems": [_whole(str(error))]})
    except RecursionError:
        return json.dumps({"ok": False, "problems": [_whole("The input is nested too deeply.")]})
    except Exception as error:
        return json.dumps({"ok": False, "fault": f"{type(error).__name__}: {error}"[:400]})


def _request(text: str) -> dict[str, Any]:
    try:
        raw = jsontext.read(text)
    except ValueError:
        raise InputError([_problem("", "type", "this is not JSON")]) from None
    if not isinstance(raw, dict):
        raise InputError([_problem("", "type", "one JSON object is read here")])
    uid = raw.get("uid", "w")
    raw["uid"] = uid if isinstance(uid, str) and re.fullmatch(r"[\w-]{1,40}", uid) else "w"
    raw["units"] = "si" if raw.get("units") == "si" else "us"
    raw.setdefault("inputs", {})
    return raw


def _answer(request: dict[str, Any]) -> dict[str, Any]:
    from .show.page import first

    declared = declaration(request.get("calculator", ""))
    out: dict[str, Any] = {}
    if request.get("convert") and isinstance(request["inputs"], dict):
        from .show.convert import shown

        out["fields"] = shown(declared, request["inputs"], request["units"])
    try:
        result = _solved(request)
    except InputError as error:
        return {"ok": False, "problems": [_in_words(declared, problem) for problem in error.problems[:50]], **out}
    parts = first(result, request["units"])
    status = parts.pop("status")
    return {"ok": True, "html": parts, "status": status, **out}


def _more(request: dict[str, Any], stage: str) -> dict[str, Any]:
    from .show import page

    declared = declaration(request.get("calculator", ""))
    try:
        result = _solved(request)
    except InputError as error:
        return {"ok": False, "problems": [_in_words(declared, problem) for problem in error.problems[:50]]}
    system = request["units"]
    return {"ok": True, "html": page.span(result, system) if stage == "span" else page.rest(result, system, request["uid"])}


def _warm(request: dict[str, Any]) -> dict[str, Any]:
    from .show import page

    result = solve(request.get("calculator", ""), request["inputs"])
    page.first(result, request["units"])
    page.span(result, request["units"])
    return {"ok": True}


def _solved(request: dict[str, Any]) -> Result:
    """The result for these inputs; the last one is kept for the second stage and for the other units."""
    global _last  # noqa: PLW0603  one page has one reader
    key = json.dumps([request["calculator"], request["inputs"]], sort_keys=True)
    if _last is None or _last[0] != key:
        _last = (key, solve(request["calculator"], request["inputs"]))
    return _last[1]


def _problem(field: str, kind: str, text: str) -> dict[str, Any]:
    return {"field": field, "problem": text, "found": "", "accepts": "", "kind": kind}


def _whole(text: str) -> dict[str, str]:
    """A problem of the whole input."""
    return {"field": "", "label": "The input", "said": "was not read", "lead": "Not read.", "text": text}


def _in_words(declared: Declaration, problem: dict[str, Any]) -> dict[str, str]:
    """A problem as it stands at its field."""
    from .show.phrases import closed, names_in_words, problem_said, problem_words

    labels = {name: field.label for name, (field, _) in declared.inputs.items()}
    text = problem["problem"][:1].upper() + problem["problem"][1:]
    parts = [closed(names_in_words(text, labels))]
    accepts = problem["accepts"]
    if accepts and not accepts.startswith(("{", "[")) and problem["kind"] not in ("unknown-field", "choice"):
        parts.append(f"Wanted: {closed(names_in_words(accepts, labels))}")
    return {
        "field": problem["field"],
        "label": label_of(declared, problem["field"]),
        "said": problem_said(problem["kind"]),
        "lead": problem_words(problem["kind"]),
        "text": currency_named(" ".join(parts)),
    }
