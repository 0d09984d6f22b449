"""Runs a measuring script in the browser's Python, under Node, with the library that a built site ships."""

import json
from pathlib import Path
from typing import Any

from scripts.toolbox import PYODIDE, run_node


def in_wasm(script: Path, site: Path, asked: Any = None) -> dict[str, Any]:
    """What ``everything(asked)`` of the script returns there, and ``start``, ms; empty when the site holds no library."""
    libraries = sorted(site.glob("engine/*/library-*.zip"))
    if not libraries:
        return {}
    settings = {"pyodide": PYODIDE, "engine": libraries[0].parent, "library": libraries[0], "script": script, "asked": asked or {}}
    found: dict[str, Any] = json.loads(run_node(Path(__file__).with_name("solving.mjs"), settings).splitlines()[-1])
    return found
