"""Practice problems: templates by part of the job, each a function of a seed."""

from functools import cache
from importlib import import_module

from .marking import Mark, mark
from .problem import Problem, Template

__all__ = ["MODULES", "Mark", "Problem", "Template", "mark", "template", "templates"]

# One file a calculator or subject, in the order of the job; loaded when asked for.
MODULES = (
    "tile",
    "tile_judgement",
    "vacuum_test",
    "reach",
    "sump",
    "sump_judgement",
    "pump",
    "pump_line",
    "pump_judgement",
    "pipe",
    "pipe_judgement",
    "fan",
    "takeoff",
    "clearance",
    "clearance_judgement",
    "cold",
    "hole",
    "levels",
    "before",
    "building",
    "route",
    "burners",
    "radon",
    "after",
    "houses",
)


@cache
def templates() -> dict[str, Template]:
    """All templates by id, in the order of the job.  Raises ValueError when two have the same id."""
    found: dict[str, Template] = {}
    for module in MODULES:
        for thing in vars(import_module(f"{__name__}.{module}")).values():
            if isinstance(thing, Template):
                if thing.id in found:
                    raise ValueError(f"two templates are called {thing.id}")
                found[thing.id] = thing
    return found


def template(id: str) -> Template:
    """A template.  Raises KeyError for an unknown id."""
    return templates()[id]
