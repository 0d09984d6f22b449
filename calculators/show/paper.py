"""A practice paper for the printer: the problems, and apart from them the key with its marking guide."""

from .. import packaged
from ..practice.paper import Paper
from ..practice.problem import House, Number, Options, Problem
from ..result import printed_step
from ..units import from_si, short
from .markup import escape

LETTERS = "abcdefghijklmnop"


def page(paper: Paper, learner: str = "", *, key: bool = True) -> str:
    """One HTML file that needs nothing else: the paper, then the key on a new page."""
    problems = paper.problems(learner)
    title = f"Practice paper {paper.seed}" + (f", {learner}" if learner else "")
    style = packaged.read("sheet.css").decode()
    parts = [
        "<!doctype html>",
        '<html lang="en">',
        f'<head><meta charset="utf-8"><title>{escape(title)}</title>',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">",
        f"<style>{style}</style></head>",
        f"<body><main><h1>{escape(title)}</h1>",
        f"<p>{len(problems)} problems, {paper.time()} minutes. The houses are invented.</p>",
        '<dl><div><dt>Name</dt><dd><span class="rule"></span></dd></div></dl>',
    ]
    parts += [_asked(problem, i) for i, problem in enumerate(problems, 1)]
    if key:
        parts.append('<h1 class="new-page">Key and marking guide</h1>')
        parts += [_solved(problem, i) for i, problem in enumerate(problems, 1)]
    parts.append("</main></body></html>")
    return "\n".join(parts) + "\n"


def _asked(problem: Problem, number: int) -> str:
    text = "".join(f"<p>{escape(line)}</p>" for line in problem.text)
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
