"""The handbook's own house: inputs of one calculator as the job file has them."""

from functools import cache
from typing import Any

from .. import declaration
from ..job import Job, inputs_of_job, run
from ..tables import table

OURS = "quarry-lane"


@cache
def solved(name: str = OURS) -> Job:
    """The solved job of this name.  Raises KeyError when there is no such job."""
    return run(table(f"jobs/{name}"))


def inputs_of(calculator: str, name: str = OURS) -> dict[str, Any]:
    """The inputs of a calculator in a job, values from the house and from earlier calculators put in.

    Raises KeyError when the job has no inputs for it.
    """
    job = solved(name)
    if calculator not in job.file["inputs"]:
        raise KeyError(f"job {name!r} has no inputs for {calculator!r}; it has: {', '.join(job.file['inputs'])}")
    inputs, _open = inputs_of_job(job.file, calculator, job.results)
    known = declaration(calculator).inputs
    return {field: value for field, value in inputs.items() if field in known}
