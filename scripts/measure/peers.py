"""Writes the pages that the site is compared with: stock Pyodide on the main thread, and JavaScript by hand."""

import shutil
import zipfile
from pathlib import Path

from scripts.toolbox import PYODIDE, ROOT

PAGES = Path(__file__).parent / "peers"
STOCK_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "pyodide-lock.json", "python_stdlib.zip")


def write(folder: Path) -> None:
    """Write both pages and all that they fetch into ``folder``."""
    shutil.copytree(PAGES, folder, dirs_exist_ok=True)
    (folder / "pyodide").mkdir()
    for name in STOCK_FILES:
        shutil.copyfile(PYODIDE / name, folder / "pyodide" / name)
    with zipfile.ZipFile(folder / "calculators.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        for file in sorted((ROOT / "calculators").rglob("*")):
            if file.suffix in (".py", ".json") and not file.name.endswith(".schema.json") and ".mypy" not in str(file):
                archive.write(file, file.relative_to(ROOT))
