"""Builds the site twice, in two folders under different circumstances, and compares the two byte by byte.

    python scripts/reproduce.py [--compress]

The second build has another path, another time zone and language, another order of sets, and no results of the first.
Takes as long as two builds from scratch; ends with status 1 and the names of the files that differ.
"""

import argparse
import filecmp
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.toolbox import CACHE, ROOT

FOLDERS = ("calculators", "docs", "scripts", "tests")
CIRCUMSTANCES = (
    ("one", {"PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C.UTF-8"}),
    ("another folder/with a longer name", {"PYTHONHASHSEED": "77", "TZ": "Asia/Kathmandu", "LC_ALL": "C"}),
)


def clone(folder: Path) -> None:
    """A copy of the project as it stands, without anything that an earlier build left; the fetched tools are shared."""
    folder.mkdir(parents=True)
    for name in FOLDERS:
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__", "node_modules", "look-up.json"))
    for file in ROOT.iterdir():
        if file.is_file():
            shutil.copy(file, folder)
    (folder / "scripts" / "node_modules").symlink_to(ROOT / "scripts" / "node_modules")
    (folder / ".cache").mkdir()
    for wheels in CACHE.glob("pyodide-wheels-*"):
        (folder / ".cache" / wheels.name).symlink_to(wheels)


def differences(one: Path, two: Path) -> list[str]:
    """Files that are missing on one side or differ."""
    names = {file.relative_to(side).as_posix() for side in (one, two) for file in side.rglob("*") if file.is_file()}
    _, unequal, missing = filecmp.cmpfiles(one, two, sorted(names), shallow=False)
    return sorted([*(f"differs: {name}" for name in unequal), *(f"only in one: {name}" for name in missing)])


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--compress", action="store_true", help="the compressed doubles of a release too (slow)")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        sites = []
        for name, environment in CIRCUMSTANCES:
            folder = Path(place) / name
            clone(folder)
            command = [sys.executable, "scripts/build.py", "--out", "site", *(["--compress"] if options.compress else [])]
            done = subprocess.run(command, cwd=folder, env={**os.environ, **environment}, capture_output=True, text=True, check=False)
            if done.returncode:
                sys.exit(f"the build in {name!r} failed:\n{(done.stdout + done.stderr)[-3000:]}")
            sites.append(folder / "site")
        found = differences(*sites)
        count = sum(file.is_file() for file in sites[0].rglob("*"))
    print("\n".join(found) if found else f"Two builds, {count} files, equal byte by byte.")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
