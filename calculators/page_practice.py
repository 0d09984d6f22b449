"""What the practice pages ask: one text in, one text out, never an exception.

Each request is {"op": ...}; the answer is {"ok": true, ...} or {"ok": false, "text": words}.
"""

import base64
import json
from collections.abc import Callable
from typing import Any

from .declare import InputError
from .practice import Problem, mark, template
from .practice import paper as papers
from .trade import jsontext

LONGEST = 1_000_000


def practice(text: str) -> str:
    """Answer one request of a practice page."""
    try:
        if len(text) > LONGEST:
            return _said("The request is larger than 1 MB.")
        request = jsontext.read(text)
        operation = OPERATIONS.get(request.get("op", "")) if isinstance(request, dict) else None
        if operation is None:
            return _said("This was not understood.")
        return json.dumps({"ok": True, **operation(request)}, allow_nan=False)
    except InputError as error:
        return _said(f"{error.problems[0]['problem'].capitalize()}.")
    except (KeyError, TypeError, ValueError, OverflowError, RecursionError):
        return _said("This was not understood.")
    except Exception as error:
        return json.dumps({"ok": False, "fault": f"{type(error).__name__}: {error}"[:400]})


def _said(text: str) -> str:
    return json.dumps({"ok": False, "text": text})


def _problem(request: dict[str, Any]) -> Problem:
    """The problem of ``template/seed/units``.  Raises KeyError or ValueError for another text."""
    id, seed, units = str(request["problem"])[:200].split("/")
    if units not in ("us", "si") or not 0 < len(seed) <= 80:
        raise ValueError("no such problem")
    return template(id).problem(seed, units)


def _uid(request: dict[str, Any]) -> str:
    uid = str(request.get("uid", "p"))
    return uid if uid.replace("-", "").isalnum() and len(uid) < 20 else "p"


def _warm(_request: dict[str, Any]) -> dict[str, Any]:
    """Load what problems need, while the reader still looks at the page."""
    from . import declaration
    from .practice import templates

    for name in {made.calculator for made in templates().values()} - {""}:
        declaration(name)
    return {}


def _list(request: dict[str, Any]) -> dict[str, Any]:
    from .show.practice import catalogue
    from .show.text import PART_TITLES

    return {"templates": catalogue(), "parts": PART_TITLES}


def _question(request: dict[str, Any]) -> dict[str, Any]:
    from .show.practice import question

    return {"html": question(_problem(request), _uid(request))}


def _mark(request: dict[str, Any]) -> dict[str, Any]:
    from .show.practice import diagnosis

    problem = _problem(request)
    result = mark(problem, request.get("given"))
    said = next((slip.because for slip in problem.slips if slip.name == result.slip), "")
    return {
        "verdict": result.verdict,
        "credit": result.credit,
        "slip": result.slip,
        "because": said,
        "html": diagnosis(problem, result),
    }


def _working(request: dict[str, Any]) -> dict[str, Any]:
    from .show.practice import working

    return {"html": working(_problem(request))}


def _compose(request: dict[str, Any]) -> dict[str, Any]:
    paper = papers.compose(
        parts=request.get("parts") or (),
        levels=request.get("levels") or (),
        kinds=request.get("kinds") or (),
        number=int(request.get("number", 10)),
        seed=str(request.get("seed", "1")),
        units=request.get("units", "us"),
        minutes=int(request.get("minutes") or 0),
    )
    return {"code": paper.code(), **_opened(paper, "", "p")}


def _open(request: dict[str, Any]) -> dict[str, Any]:
    return _opened(papers.paper_of(str(request["code"])), str(request.get("learner", ""))[:60], _uid(request))


def _opened(paper: papers.Paper, learner: str, uid: str) -> dict[str, Any]:
    from .show.practice import question

    problems = paper.problems(learner)
    return {
        "time": paper.time(),
        "units": paper.units,
        "seed": paper.seed,
        "ids": [problem.id for problem in problems],
        "html": [question(problem, f"{uid}{i}") for i, problem in enumerate(problems, 1)],
    }


def _hand_in(request: dict[str, Any]) -> dict[str, Any]:
    paper = papers.paper_of(str(request["code"]))
    learner = str(request.get("learner", ""))[:60]
    given = request.get("given") or []
    problems = paper.problems(learner)
    marks = [mark(problem, given[i] if i < len(given) else None) for i, problem in enumerate(problems)]
    return {"hand_in": papers.hand_in(paper, learner, marks), "credit": sum(m.credit for m in marks), "of": len(marks)}


def _collect(request: dict[str, Any]) -> dict[str, Any]:
    """The table of a class: names and verdicts, the slips by how often they came, codes that were refused, and CSV."""
    paper = papers.paper_of(str(request["code"]))
    titles = [template(id).title for id in paper.ids]
    rows: list[dict[str, Any]] = []
    refused: list[dict[str, str]] = []
    slips: dict[tuple[int, str], int] = {}
    written: list[list[str]] = []
    for code in dict.fromkeys([str(code).strip() for code in request.get("codes", [])][:500]):  # each code once
        if not code:
            continue
        try:
            name, marks = papers.hand_in_of(paper, code)
        except InputError as error:
            refused.append({"code": code[:24], "text": error.problems[0]["problem"]})
            continue
        rows.append(
            {"name": name, "credit": round(sum(m.credit for m in marks), 2), "verdicts": [m.verdict for m in marks]}
        )
        written.append([m.verdict + (f": {m.slip.replace('-', ' ')}" if m.slip else "") for m in marks])
        for i, m in enumerate(marks):
            if m.slip:
                slips[(i, m.slip)] = slips.get((i, m.slip), 0) + 1
    common = [
        {"problem": titles[i], "slip": slip.replace("-", " "), "count": count}
        for (i, slip), count in sorted(slips.items(), key=lambda item: -item[1])
    ]
    head = ["name", "credit", *(f"{i} {title}" for i, title in enumerate(titles, 1))]
    lines = [head, *([row["name"], str(row["credit"]), *said] for row, said in zip(rows, written, strict=True))]
    return {
        "titles": titles,
        "rows": rows,
        "refused": refused,
        "slips": common,
        "csv": "".join(_csv(line) for line in lines),
    }


def _csv(cells: list[str]) -> str:
    """One line of CSV; a cell that a spreadsheet would run as a formula is made text."""
    safe = [f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t", "\r", "\n") else cell for cell in cells]
    return ",".join('"' + cell.replace('"', '""') + '"' for cell in safe) + "\r\n"


def _export(request: dict[str, Any]) -> dict[str, Any]:
    paper, learner = papers.paper_of(str(request["code"])), str(request.get("learner", ""))[:60]
    if request.get("format") == "qti":
        from .practice.qti import package

        return {"name": "paper.zip", "base64": base64.b64encode(package(paper, learner)).decode()}
    if request.get("format") == "gift":
        from .practice.gift import text

        return {"name": "paper.gift.txt", "text": text(paper, learner)}
    from .show.paper import class_page, page

    if request.get("format") in ("class", "class-key"):
        key = request["format"] == "class-key"
        names = [str(name)[:60] for name in request["learners"]][: papers.MOST]
        return {"name": "class-key.html" if key else "class.html", "text": class_page(paper, names, key=key)}
    key = request.get("format") != "paper"
    return {"name": "key.html" if key else "paper.html", "text": page(paper, learner, key=key)}


OPERATIONS: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
    "warm": _warm,
    "list": _list,
    "question": _question,
    "mark": _mark,
    "working": _working,
    "compose": _compose,
    "open": _open,
    "hand-in": _hand_in,
    "collect": _collect,
    "export": _export,
}
