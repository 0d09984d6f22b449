"""A paper as GIFT text, a plain-text question format that learning systems read; tolerances and slips included."""

from ..units import from_si
from .paper import Paper
from .problem import Decision, House, Number, Option, Options, Order, Problem


def escaped(text: str) -> str:
    """Text with GIFT's own signs marked as plain, on one line."""
    for sign in "\\~=#{}:":
        text = text.replace(sign, "\\" + sign)
    return " ".join(text.split())


def figure(value: float) -> str:
    """A number as GIFT reads it."""
    return f"{value:.6g}" if 1e-4 <= abs(value) < 1e6 or value == 0 else f"{value:.6f}"


def text(paper: Paper, learner: str = "") -> str:
    """The whole paper.  Problems stand between blank lines; the category names the part."""
    lines = ["// Practice paper. Numbers are answered in the unit that the question names.", ""]
    part = ""
    for i, problem in enumerate(paper.problems(learner), 1):
        if problem.template.part != part:
            part = problem.template.part
            lines += [f"$CATEGORY: Underslab/{part}", ""]
        lines += [question(problem, i), ""]
    return "\n".join(lines) + "\n"


def question(problem: Problem, number: int) -> str:
    """One problem; a practice house as one question for each decision, which the format can hold."""
    if isinstance(problem.answer, House):
        return _house(problem, problem.answer, number)
    stem = escaped(" ".join(filter(None, (*problem.text, _drawing(problem), problem.ask))))
    title = escaped(f"{number} {problem.template.title}")
    return f"::{title}:: {stem} {{\n{_answers(problem)}\n}}"


def _drawing(problem: Problem) -> str:
    """The drawing in words: the format holds text only."""
    if problem.drawing is None:
        return ""
    from ..show.paper import drawing_in_words

    return drawing_in_words(problem)


def _house(problem: Problem, house: House, number: int) -> str:
    told = escaped(" ".join(problem.text))
    count = len(house.decisions)
    parts = [f"// Problem {number} is one house with {count} decisions. It stands here as {count} questions, each with the whole of the house."]
    for i, decision in enumerate(house.decisions, 1):
        title = escaped(f"{number}.{i} {problem.template.title}, {decision.name}")
        ways = "\n".join(_way(decision, place) for place in range(len(decision.ways)))
        parts.append(f"::{title}:: {told} {escaped(decision.ask)} {{\n{ways}\n}}")
    return "\n\n".join(parts)


def _way(decision: Decision, place: int) -> str:
    """One way: the first that counts whole is the right answer, the others carry their share."""
    way = decision.ways[place]
    mark = "=" if place == decision.best()[0] else f"~%{100 * way.credit:g}%" if way.credit else "~"
    return f"{mark}{escaped(way.text)}#{escaped(way.because)}"


def _answers(problem: Problem) -> str:
    answer = problem.answer
    if isinstance(answer, Number):
        shown = [f"=%100%{_near(answer.value, answer)}#{escaped('Right. ' + answer.because + '.')}"]
        shown += [f"=%0%{_near(slip.value, answer)}#{escaped(slip.because)}" for slip in problem.slips]
        return "#\n" + "\n".join(shown)
    if isinstance(answer, Options):
        return "\n".join(_option(answer, option) for option in answer.options)
    if isinstance(answer, Order):
        return _places(answer)
    raise TypeError(f"GIFT has no form for {type(answer).__name__}")


def _near(value: float, key: Number) -> str:
    scale = abs(from_si(1.0, key.unit, difference=True))
    return f"{figure(from_si(value, key.unit))}:{figure(key.tolerance * scale)}"


def _option(answer: Options, option: Option) -> str:
    words, right, because = option
    if not answer.several:
        return f"{'=' if right else '~'}{escaped(words)}#{escaped(because)}"
    count = sum(o.right for o in answer.options)
    share = f"%{100 / count:.5f}%" if right else f"%-{100 / count:.5f}%"
    return f"~{share}{escaped(words)}#{escaped(because)}"


def _places(answer: Order) -> str:
    return "\n".join(f"={place} -> {escaped(answer.shown[i])}" for place, i in enumerate(answer.right, 1))
