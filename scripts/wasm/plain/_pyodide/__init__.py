"""What Pyodide imports first."""

import sys
from importlib import import_module

from . import _base as _base
from . import _importhook as _importhook


class Later(type(sys)):  # type: ignore[misc]
    """A module that Pyodide's core names at its start; the module itself comes when something of it is used."""

    def __getattr__(self, name: str) -> object:
        if name.startswith("__"):
            raise AttributeError(name)
        if sys.modules.get(self.__name__) is self:
            del sys.modules[self.__name__]
        return getattr(import_module(self.__name__), name)


# Nothing waits in the page's Python: no event loop, no coroutine.
traceback, inspect, asyncio = (sys.modules.setdefault(name, Later(name)) for name in ("traceback", "inspect", "asyncio"))
inspect.iscoroutinefunction = lambda function: False
asyncio.get_event_loop = None


def set_excepthook() -> None:
    """Python's own hook is good enough."""
