"""Times every calculator, on this machine's Python and in the browser's: the same lines run in both."""

import json
import time
from typing import Any

ENOUGH = 0.1  # s for each figure


def timed(work: Any) -> float:
    """Mean ms of one call, after one that does not count."""
    work()
    count, start = 0, time.perf_counter()
    while (spent := time.perf_counter() - start) < ENOUGH:
        work()
        count += 1
    return spent / count * 1e3


def everything(asked: dict[str, dict[str, Any]]) -> dict[str, Any]:
    """``asked`` maps a calculator to inputs.  Returns ms of the catalogue's import, and of solve, first and rest of each."""
    start = time.perf_counter()
    import calculators
    from calculators import page

    for name in calculators.names():
        calculators.declaration(name)
    out: dict[str, Any] = {"import": (time.perf_counter() - start) * 1e3, "solve": {}}
    for name, inputs in asked.items():
        request = json.dumps({"calculator": name, "inputs": inputs, "uid": "w1"})
        solve = timed(lambda name=name, inputs=inputs: calculators.solve(name, inputs))
        kept = timed(lambda request=request: page.answer(request))
        page._last = None  # so that the plots, which wait until they are looked at, count too
        start = time.perf_counter()
        page.rest(request)
        rest = (time.perf_counter() - start) * 1e3 - solve
        out["solve"][name] = {"solve": solve, "first": solve + kept, "rest": rest}
    return out
