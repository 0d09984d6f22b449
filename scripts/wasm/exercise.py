"""Uses everything of the package once, inside Pyodide, so that every module of the standard library it needs is known.

It must not import anything that the page does not import: what it has imported is what gets packed.
"""

import json
import sys


def everything(plan: dict[str, list]) -> None:
    """Import the modules of the plan, solve each calculator empty and as the plan's requests say, see one error.

    Each request goes through the door that the page uses, in both systems of units.
    """
    for name in plan["modules"]:
        __import__(name)
    import calculators
    from calculators import page

    requests = [[name, {}] for name in calculators.names()] + plan["requests"]
    for number, (name, inputs) in enumerate(requests):
        for units in ("us", "si"):
            text = json.dumps({"calculator": name, "inputs": inputs, "units": units, "uid": f"w{number}"})
            json.loads(page.answer(text))
            json.loads(page.rest(text))


def modules_used() -> list[str]:
    """Names of what has been imported and is not part of the program itself."""
    return sorted(name for name, module in sys.modules.items() if module is not None and not built_in(module))


def built_in(module: object) -> bool:
    return getattr(getattr(module, "__spec__", None), "origin", None) in ("frozen", "built-in")
