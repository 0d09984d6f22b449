"""Our own house through every calculator, so that the browser compiles the parts of the interpreter that they use.

What it has compiled it keeps for the next visits, but V8 only from a million bytes on, which one calculator does not reach.
"""

from collections.abc import Iterator

from . import declaration, names, solve
from .job import inputs_of_job, running
from .show.house import OURS
from .show.page import first, rest, span
from .tables import table

UNITS = ("us", "si", "us")  # a turn for each: what is compiled is what was used often


def steps() -> Iterator[str]:
    """A little work at each step, for nothing, so that one who types does not wait; gives a calculator's name."""
    for name in names():
        declaration(name)
        yield name
    job = yield from running(table(f"jobs/{OURS}"))
    asked = {name: inputs_of_job(job.file, name, job.results)[0] for name in job.results}
    for units in UNITS:
        for name, inputs in asked.items():
            result = solve(name, inputs)
            first(result, units)
            span(result, units)
            yield name
            rest(result, units, "rehearsal")
            yield name
