"""Underslab's calculators: ``solve``, ``describe``, ``names``.  A calculator is loaded when it is asked for."""

from importlib import import_module
from typing import Any

from .catalog import NAMES
from .declare import Declaration, InputError
from .describe import description  # loaded here: a later loading would put the module in the place of describe below
from .result import VERSION, Result
from .work import Work

__all__ = ["VERSION", "InputError", "Result", "declaration", "describe", "names", "solve"]
__version__ = VERSION


def names() -> tuple[str, ...]:
    """The names of all calculators, in the order of the job."""
    return NAMES


def declaration(name: str) -> Declaration:
    """The declaration of a calculator.  Raises InputError for an unknown name."""
    if name not in NAMES:
        raise InputError(
            [
                {
                    "field": "",
                    "problem": "there is no such calculator",
                    "found": str(name)[:80],
                    "accepts": ", ".join(NAMES),
                    "kind": "choice",
                }
            ]
        )
    short = name.replace("-", "_")
    return getattr(import_module(f"{__name__}.catalog.{short}"), short).declaration


def solve(name: str, inputs: dict[str, Any]) -> Result:
    """Solve a calculator for inputs with units (texts, ``{"value", "unit"}`` objects or pint quantities).

    Raises InputError with the list of all problems when the input is not understood, contradicts itself or lies
    outside the model.
    """
    from .reading import read_inputs

    declared = declaration(name)
    values, defaults = read_inputs(declared, inputs)
    work = Work()
    try:
        outputs = declared.function(work, **values)
    except InputError as error:
        error.calculator = name
        raise
    return Result(declared, values, defaults, outputs, work)


def describe(name: str) -> dict[str, Any]:
    """A calculator's inputs and results as plain data.  Raises InputError for an unknown name."""
    return description(declaration(name))
