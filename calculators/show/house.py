"""The handbook's own house: inputs of one calculator as its job file has them."""

from functools import cache
from typing import Any

from ..job import run, worked_inputs
from ..tables import table

OURS = "quarry-lane"


def reached(name: str = OURS) -> tuple[str, ...]:
    """The calculators that a job reaches, in working order."""
    return tuple(run(table(f"jobs/{name}")).results)


@cache
def inputs_of(calculator: str, name: str = OURS) -> dict[str, Any]:
    """The inputs of a calculator in a job, values from the house and from earlier calculators put in.

    Raises KeyError when there is no such job, InputError when the job does not reach the calculator.  Callers must not
    change what they get.
    """
    return worked_inputs(table(f"jobs/{name}"), calculator)
