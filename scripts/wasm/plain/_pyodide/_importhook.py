"""Nothing of JavaScript is imported by Python here, apart from what Pyodide registers at its start."""

import sys


class Finder:
    """Keeps what was registered."""

    def __init__(self) -> None:
        self.jsproxies: dict[str, object] = {}


jsfinder = Finder()


def register_js_module(name: str, jsproxy: object) -> None:
    jsfinder.jsproxies[name] = sys.modules[name] = jsproxy  # type: ignore[assignment]


def register_js_finder() -> None:
    """No finder: what was registered stands among the modules."""


def register_windows_finder() -> None:
    """Nor one for paths of another system."""


def register_module_not_found_hook(packages: object) -> None:
    """A module that is not there is not in a package either."""


def add_note_to_module_not_found_error(error: ModuleNotFoundError) -> None:
    """Nor is there a word to add about packages."""
