"""Files that come with the package, read from a folder or out of a zip (as in the browser)."""

import os
from typing import Any

_DATA = os.path.join(os.path.dirname(__file__), "data")
_LOADER: Any = globals()["__loader__"]


def read(name: str) -> bytes:
    """The file ``data/<name>``.  Raises OSError when there is none."""
    return bytes(_LOADER.get_data(os.path.join(_DATA, name)))
