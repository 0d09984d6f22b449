"""The command ``paper``: a practice paper as a page, a QTI package, GIFT text or data."""

from argparse import ArgumentParser, Namespace
from typing import Any

from ..declare import PARTS
from .paper import Paper, compose
from .problem import KINDS

FORMATS = ("html", "qti", "gift", "json")


def declare(command: ArgumentParser) -> None:
    """The options of the command."""
    command.add_argument(
        "--parts", default="", help=f"parts of the job, with commas: {', '.join(PARTS)}; all if left out"
    )
    command.add_argument("--levels", default="", help="levels 1, 2, 3, with commas; all if left out")
    command.add_argument("--kinds", default="", help=f"kinds, with commas: {', '.join(KINDS)}; all but house if left out")
    command.add_argument("--number", type=int, default=10, help="how many problems (10)")
    command.add_argument("--seed", default="1", help="equal seeds give equal papers (1)")
    command.add_argument("--learner", default="", help="a name or number: the same problems with other numbers")
    command.add_argument("--minutes", type=int, default=0, help="time; the sum of the problems if left out")
    command.add_argument("--units", choices=("us", "si"), default="us")
    command.add_argument("--format", choices=FORMATS, default="html")
    command.add_argument("--out", metavar="FILE", help="write to a file; needed for a QTI package")
    command.add_argument("--no-key", action="store_true", help="html: leave the key out")


def made(arguments: Namespace) -> bytes:
    """The paper in the wanted format.  Raises InputError for a choice that no paper fits."""
    parts = [part.strip() for part in arguments.parts.split(",") if part.strip()]
    levels = [int(level) if level.strip().isdecimal() else 0 for level in arguments.levels.split(",") if level.strip()]
    paper = compose(
        parts=parts,
        levels=levels,
        kinds=[kind.strip() for kind in arguments.kinds.split(",") if kind.strip()],
        number=arguments.number,
        seed=arguments.seed,
        units=arguments.units,
        minutes=arguments.minutes,
    )
    if arguments.format == "qti":
        from .qti import package

        return package(paper, arguments.learner)
    if arguments.format == "gift":
        from .gift import text

        return text(paper, arguments.learner).encode()
    if arguments.format == "json":
        import json

        return (
            json.dumps(data(paper, arguments.learner), indent=2, ensure_ascii=False, allow_nan=False) + "\n"
        ).encode()
    from ..show.paper import page

    return page(paper, arguments.learner, key=not arguments.no_key).encode()


def data(paper: Paper, learner: str = "") -> dict[str, Any]:
    """A paper as plain data: its code, and each problem with key, tolerance, slips and worked lines."""
    from ..show.paper import drawing_in_words, key_lines
    from .problem import House, Number, Options

    rows = []
    for problem in paper.problems(learner):
        template, answer = problem.template, problem.answer
        row: dict[str, Any] = {
            "template": template.id,
            "part": template.part,
            "kind": template.kind,
            "level": template.level,
            "minutes": template.minutes,
            "source": template.source,
            "text": list(problem.text),
            "ask": problem.ask,
        }
        if isinstance(answer, Number):
            row["key"] = {
                "si": answer.value,
                "unit": answer.unit,
                "si_tolerance": answer.tolerance,
                "because": answer.because,
            }
            row["slips"] = [{"name": slip.name, "si": slip.value, "because": slip.because} for slip in problem.slips]
        elif isinstance(answer, Options):
            row["options"] = [option._asdict() for option in answer.options]
        elif isinstance(answer, House):
            row["decisions"] = [
                {"name": made.name, "ask": made.ask, "ways": [way._asdict() for way in made.ways]} for made in answer.decisions
            ]
        else:
            row["shown"], row["right"] = list(answer.shown), list(answer.right)
        if problem.drawing:
            row["drawing"] = drawing_in_words(problem)
        row["working"] = key_lines(problem)
        rows.append(row)
    return {
        "paper": {"code": paper.code(), "seed": paper.seed, "units": paper.units, "minutes": paper.time()},
        "problems": rows,
    }
