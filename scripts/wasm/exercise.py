"""Uses everything of the package once, inside Pyodide, so that every module of the standard library it needs is known.

It must not import anything that the page does not import: what it has imported is what gets packed.
"""

import json
import sys
import traceback


def everything(plan: dict[str, list]) -> int:
    """Import the modules of the plan, solve each calculator, print each job's sheet.

    Calculators are solved with nothing filled in and with what the plan's jobs fill in.
    Each request goes through the door that the page uses, in both systems of units.  Returns how many were answered.
    Raises RuntimeError when an answer tells of a fault of the program.
    """
    for name in plan["modules"]:
        __import__(name)
    traceback.format_exception(ValueError())  # as Pyodide's core does to tell of an error
    import calculators
    from calculators import job
    from calculators.show import sheet

    requests = [(name, {}) for name in calculators.names()]
    for raw in plan["jobs"]:
        done = job.run(raw)
        sheet.page(done)
        requests += [(name, job.inputs_of_job(done.file, name, done.results)[0]) for name in done.results]
    return sum(ask(name, inputs, units) for name, inputs in requests for units in ("us", "si"))


def ask(name: str, inputs: dict[str, object], units: str) -> int:
    from calculators import page

    text = json.dumps({"calculator": name, "inputs": inputs, "units": units, "uid": "w1", "convert": True})
    for said in (page.answer(text), page.rest(text)):
        if fault := json.loads(said).get("fault"):
            raise RuntimeError(f"{name}: {fault}")
    return 1


def modules_used() -> list[str]:
    """Names of what has been imported and is not part of the program itself."""
    return sorted(name for name, module in sys.modules.items() if module is not None and not built_in(module))


def built_in(module: object) -> bool:
    """Part of the program, or a name that stands for a module nobody has used."""
    place = getattr(module, "__spec__", None)
    return place is None or place.origin in ("frozen", "built-in")
