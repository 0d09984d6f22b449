"""Practice problems as parts of a page: the question with its controls, the diagnosis, the key with its working."""

from typing import Any

from ..practice import Mark, Problem, templates
from ..practice.problem import House, Number, Options, Order
from ..units import from_si, short
from .answer import shape, source_line
from .arithmetic import step_line
from .markup import Markup, el, join

LEVELS = {1: "first steps", 2: "usual", 3: "hard"}
STATES = {"right": "in", "slip": "out", "wrong": "out", "partly": "out", "unreadable": "open"}
LEADS = {
    "right": "Right.",
    "slip": "A known slip.",
    "wrong": "Not this.",
    "partly": "In part.",
    "unreadable": "Not read.",
}


def question(problem: Problem, uid: str) -> Markup:
    """The whole problem with its controls; the form's script only collects what is chosen."""
    about = f"{LEVELS[problem.template.level]}, about {problem.template.minutes} minutes"
    return el(
        "section",
        el("h3", problem.template.title, id=f"{uid}-t"),
        el("p", about, class_="small"),
        *(el("p", line) for line in problem.text),
        _drawing(problem, uid),
        el("p", problem.ask, class_="ask-line", id=f"{uid}-q"),
        el(
            "form",
            el("fieldset", el("legend", "Your answer", class_="hidden"), controls(problem, uid)),
            el(
                "div",
                el("button", "Check", type="submit", class_="act act--main"),
                el("button", "Show the working", type="button", class_="act", data_act="working"),
                class_="acts",
            ),
            class_="numbers",
            novalidate=True,
            autocomplete="off",
        ),
        el("div", class_="diagnosis", data_slot="diagnosis", hidden=True),
        source_line(problem.template.source),
        class_="problem",
        aria_labelledby=f"{uid}-t",
        data_problem=problem.id,
        data_kind=kind_of(problem),
    )


def kind_of(problem: Problem) -> str:
    """How the answer is given: number, one, several, order or house."""
    if isinstance(problem.answer, Number):
        return "number"
    if isinstance(problem.answer, Order):
        return "order"
    if isinstance(problem.answer, House):
        return "house"
    return "several" if problem.answer.several else "one"


def controls(problem: Problem, uid: str) -> Markup:
    """The boxes for the answer."""
    answer = problem.answer
    if isinstance(answer, Number):
        unit = "" if answer.unit == "1" else answer.unit
        return el(
            "div",
            el("label", "Your answer", for_=f"{uid}-a"),
            el("p", "Another unit of the same kind may be typed behind the number.", class_="hint", id=f"{uid}-h"),
            el(
                "div",
                el(
                    "input",
                    id=f"{uid}-a",
                    type="text",
                    inputmode="decimal",
                    data_answer=True,
                    data_unit=unit,
                    aria_describedby=f"{uid}-q {uid}-h",
                ),
                el("span", unit, class_="unit") if unit else None,
                class_="ask",
            ),
            class_="field",
        )
    if isinstance(answer, Options):
        return _picks([option.text for option in answer.options], f"{uid}-a", "checkbox" if answer.several else "radio")
    if isinstance(answer, House):
        return el(
            "div",
            *(
                el(
                    "fieldset",
                    el("legend", f"{i + 1}. {decision.ask}"),
                    _picks([way.text for way in decision.ways], f"{uid}-a{i}", "radio"),
                    class_="choice",
                    data_decision=True,
                )
                for i, decision in enumerate(answer.decisions)
            ),
        )
    places = [str(n) for n in range(1, len(answer.shown) + 1)]
    return el(
        "div",
        *(
            el(
                "div",
                el("label", step, for_=f"{uid}-{i}"),
                el(
                    "div",
                    el(
                        "select",
                        el("option", "", value=""),
                        *(el("option", p, value=p) for p in places),
                        id=f"{uid}-{i}",
                        data_answer=True,
                        data_place=str(i),
                    ),
                    class_="ask",
                ),
                class_="field",
            )
            for i, step in enumerate(answer.shown)
        ),
    )


def _picks(texts: list[str], name: str, kind: str) -> Markup:
    return el(
        "div",
        *(
            el(
                "label",
                el("input", type=kind, name=name, value=str(i), data_answer=True),
                el("span", text),
                class_="pick pick--line",
            )
            for i, text in enumerate(texts)
        ),
        class_="picks picks--lines",
    )


def _drawing(problem: Problem, uid: str) -> Markup | None:
    if problem.drawing is None:
        return None
    from .paper import drawn

    return Markup(drawn(problem, uid))


def diagnosis(problem: Problem, mark: Mark) -> Markup:
    """What came of the answer: the shape, one word, the explanation; never the key before it is asked for."""
    state = STATES[mark.verdict]
    return join(
        [
            el(
                "div",
                shape(state, True),
                el("p", f"{LEADS[mark.verdict]} {mark.text}".replace("Right. Right.", "Right.")),
                class_=f"say is-{state}",
            ),
            el("p", f"Counted {mark.credit:.0%}.") if mark.verdict == "partly" else None,
            el(
                "ul",
                *(
                    el("li", el("b", f"{name[0].upper()}{name[1:]}, counted {credit:.0%}: "), because)
                    for name, credit, because in mark.parts
                ),
                class_="plain",
            )
            if mark.parts
            else None,
        ]
    )


def working(problem: Problem) -> Markup:
    """Key, tolerance with its reason, the slips, and the calculator's own steps."""
    answer = problem.answer
    parts: list[Markup | None] = []
    if isinstance(answer, Number):
        width = short(answer.tolerance * abs(from_si(1.0, answer.unit, difference=True)), 2)
        parts.append(el("p", el("b", answer.printed()), f", give or take {width}: {answer.because}."))
    elif isinstance(answer, Options):
        parts.append(
            el(
                "ul",
                *(
                    el("li", el("b", "Right: " if o.right else "Not: "), f"{o.text} {o.because}")
                    for o in answer.options
                ),
                class_="plain",
            )
        )
    elif isinstance(answer, House):
        for decision in answer.decisions:
            parts.append(el("h4", decision.ask))
            parts.append(
                el(
                    "ul",
                    *(el("li", el("b", f"{way.text}, counts {way.credit:.0%}: "), way.because) for way in decision.ways),
                    class_="plain",
                )
            )
    else:
        parts.append(el("ol", *(el("li", answer.shown[place]) for place in answer.right)))
        parts.append(el("p", answer.because))
    parts += [el("p", line) for line in problem.words]
    steps = problem.worked_steps()
    if steps:
        parts.append(el("ol", *(step_line(step, problem.units) for step in steps), class_="steps"))
    if problem.slips:
        parts.append(el("h4", "What usual slips give"))
        parts.append(
            el(
                "ul",
                *(el("li", el("b", _value(problem, slip.value)), f": {slip.because}") for slip in problem.slips),
                class_="plain",
            )
        )
    return join(parts)


def _value(problem: Problem, value: float) -> str:
    unit = problem.answer.unit if isinstance(problem.answer, Number) else "1"
    return f"{short(from_si(value, unit), 4)} {unit}".removesuffix(" 1")


def catalogue() -> list[dict[str, Any]]:
    """All templates as plain data, in the order of the job."""
    return [
        {"id": t.id, "part": t.part, "title": t.title, "level": t.level, "minutes": t.minutes, "kind": t.kind}
        for t in templates().values()
    ]
