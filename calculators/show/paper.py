"""A practice paper for the printer: the problems, and apart from them the key with its marking guide."""

from collections.abc import Sequence
from re import search, sub

from .. import packaged
from ..practice.paper import Paper
from ..practice.problem import House, Number, Options, Problem
from ..result import printed_step
from ..units import from_si, short
from .drawings import draw
from .markup import escape, unescape

LETTERS = "abcdefghijklmnop"


def page(paper: Paper, learner: str = "", *, key: bool = True) -> str:
    """One HTML file that needs nothing else: the paper, then the key on a new page."""
    parts = _paper(paper, learner)
    if key:
        parts += _key(paper, learner, "Key and marking guide")
    return _file(_title(paper, learner), parts)


def class_page(paper: Paper, learners: Sequence[str], *, key: bool) -> str:
    """One file for a class: the paper of each learner, or the key of each, every one on its own pages."""
    parts: list[str] = []
    for learner in learners:
        parts += _key(paper, learner, f"Key and marking guide: {_title(paper, learner)}") if key else _paper(paper, learner)
    return _file(f"Practice paper {paper.seed}, class", parts)


def _title(paper: Paper, learner: str) -> str:
    return f"Practice paper {paper.seed}" + (f", {learner}" if learner else "")


def _file(title: str, parts: Sequence[str]) -> str:
    style = "".join(packaged.read(name).decode() for name in ("sheet.css", "paper.css"))
    head = [
        "<!doctype html>",
        '<html lang="en">',
        f'<head><meta charset="utf-8"><title>{escape(title)}</title>',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">",
        f"<style>{style}</style></head>",
        "<body><main>",
    ]
    return "\n".join([*head, *parts, "</main></body></html>"]) + "\n"


def _paper(paper: Paper, learner: str) -> list[str]:
    problems = paper.problems(learner)
    return [
        f'<h1 class="new-page">{escape(_title(paper, learner))}</h1>',
        f"<p>{len(problems)} problems, {paper.time()} minutes. The houses are invented.</p>",
        '<dl><div><dt>Name</dt><dd><span class="rule"></span></dd></div></dl>',
        *(_asked(problem, i) for i, problem in enumerate(problems, 1)),
    ]


def _key(paper: Paper, learner: str, title: str) -> list[str]:
    return [
        f'<h1 class="new-page">{escape(title)}</h1>',
        *(_solved(problem, i) for i, problem in enumerate(paper.problems(learner), 1)),
    ]


def _asked(problem: Problem, number: int) -> str:
    text = "".join(f"<p>{escape(line)}</p>" for line in problem.text) + drawn(problem, f"d{number}")
    head = f"<section><h2>{number}. {escape(problem.template.title)}</h2>{text}<p><b>{escape(problem.ask)}</b></p>"
    answer = problem.answer
    if isinstance(answer, Number):
        return head + '<p class="blank-line"><span class="rule"></span></p></section>'
    if isinstance(answer, House):
        asked = [
            f"<p>{number}.{i} {escape(decision.ask)}</p>{_lettered([way.text for way in decision.ways])}"
            for i, decision in enumerate(answer.decisions, 1)
        ]
        return head + "".join(asked) + "</section>"
    items = [option.text for option in answer.options] if isinstance(answer, Options) else list(answer.shown)
    return f"{head}{_lettered(items)}</section>"


def drawn(problem: Problem, uid: str) -> str:
    """The drawing of a problem, if it has one."""
    return str(draw(problem.drawing[0], uid, problem.drawing[1], problem.units)) if problem.drawing else ""


def drawing_in_words(problem: Problem) -> str:
    """What the drawing of a problem shows, for formats that hold no drawing: its description and its legend."""
    made = drawn(problem, "w")
    told = search(r"<desc[^>]*>(.*?)</desc>", made)
    if not told:
        return ""
    legend = sub(r"<[^>]+>", " ", made.partition("</svg>")[2].partition("<details")[0])
    return "The drawing in words: " + " ".join(unescape(f"{told[1]} {legend}").split())


def _lettered(items: list[str]) -> str:
    return "<ul>" + "".join(f"<li>({LETTERS[i]}) {escape(item)}</li>" for i, item in enumerate(items)) + "</ul>"


def _solved(problem: Problem, number: int) -> str:
    head = f"<section><h2>{number}. {escape(problem.template.title)}</h2>"
    return head + "".join(f"<p>{escape(line)}</p>" for line in key_lines(problem)) + "</section>"


def key_lines(problem: Problem) -> list[str]:
    """Key, tolerance and its reason, the slips with their values, the worked steps, in words."""
    answer = problem.answer
    if isinstance(answer, Number):
        scale = abs(from_si(1.0, answer.unit, difference=True))
        lines = [f"Key: {answer.printed()}, give or take {short(answer.tolerance * scale, 2)} ({answer.because})."]
        lines += [f"{short(from_si(slip.value, answer.unit), 4)}: {slip.because}" for slip in problem.slips]
    elif isinstance(answer, Options):
        right = [LETTERS[i] for i, option in enumerate(answer.options) if option.right]
        lines = [f"Key: {', '.join(right)}."] + [
            f"({LETTERS[i]}) {option.because}" for i, option in enumerate(answer.options)
        ]
    elif isinstance(answer, House):
        lines = ["Each decision counts the same; the mean of all is the mark of the house."]
        for i, decision in enumerate(answer.decisions, 1):
            lines.append(f"{i} {decision.name}: {' or '.join(LETTERS[place] for place in decision.best())}.")
            lines += [f"({LETTERS[j]}) counts {way.credit:.0%}. {way.because}" for j, way in enumerate(decision.ways)]
    else:
        lines = [f"Key: {', '.join(LETTERS[place] for place in answer.right)}. {answer.because}"]
    for step in problem.worked_steps():
        shown = printed_step(step, problem.units)
        lines.append(f"{shown['title']}: {shown['formula']} = {shown['substituted']} = {shown['result']}")
    return [*lines, *problem.words]
