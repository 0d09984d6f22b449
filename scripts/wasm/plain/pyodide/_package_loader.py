"""No package is loaded into the page's Python: all is in the one archive.  What Pyodide asks for at its start."""

import sys


class Folder:
    """A path as Pyodide asks for its letters."""

    def __init__(self, path: str) -> None:
        self.path = path

    def __str__(self) -> str:
        return self.path


SITE_PACKAGES = Folder(f"/lib/python{sys.version_info.major}.{sys.version_info.minor}/site-packages")
DSO_DIR = Folder("/usr/lib")


def init_loaded_packages() -> None:
    """There are none."""
