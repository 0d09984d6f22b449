"""Packs the calculators for the browser: a wheel, compiled inside Pyodide, in one archive with the part of the
standard library that it uses; then puts Pyodide and that archive into the site.

    python scripts/pack.py            makes build/pack/library-<hash>.zip and says how large it is
    python scripts/pack.py --fetch    only fetches the tools for it
"""

import ast
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts import shrink
from scripts.toolbox import CACHE, PYODIDE, ROOT, SCRIPTS, run_node, sha256, size

PACK = ROOT / "build" / "pack"
LOCK = SCRIPTS / "requirements-pyodide.txt"
# The command line, whose argument parser stays out of the page, and the bridge to pint, which is not there.
NOT_IN_THE_PAGE = ("calculators.__main__", "calculators.practice.command", "calculators.quantities")
EARLIEST = "315532800"  # 1980-01-01, the first date that a zip archive can hold


def tool_wheels() -> Path:
    """Folder with the pinned wheels that run inside Pyodide; downloaded once for each state of their lock file."""
    folder = CACHE / f"pyodide-wheels-{sha256(LOCK.read_bytes())[:12]}"
    if not (folder / "complete").exists():
        shutil.rmtree(folder, ignore_errors=True)
        pip = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check"]
        pure = ["--python-version", "3.14", "--implementation", "py", "--abi", "none", "--platform", "any"]
        pinned = ["--require-hashes", "--no-deps", "--only-binary=:all:", "--requirement", LOCK]
        run_quiet([*pip, *pure, *pinned, "--dest", folder], "the tools for Pyodide did not come")
        (folder / "complete").touch()
    return folder


def run_quiet(command: list[object], trouble: str) -> None:
    environment = {**os.environ, "SOURCE_DATE_EPOCH": EARLIEST}
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(f"{trouble}:\n{(done.stdout + done.stderr)[-4000:]}")


def wheel(out: Path) -> Path:
    """Build the wheel of the package from a clean copy, so that nothing left over from an earlier build gets in."""
    with tempfile.TemporaryDirectory() as temporary:
        source = Path(temporary)
        shutil.copy(ROOT / "pyproject.toml", source)
        shutil.copytree(ROOT / "calculators", source / "calculators", ignore=shutil.ignore_patterns("__pycache__"))
        command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", out, source]
        run_quiet(command, "the wheel could not be built")
    return next(out.glob("*.whl"))


def plan(package: Path) -> dict[str, list[object]]:
    """What has to be used once to know which part of the standard library the page needs.

    That is every module of the package, every standard module that an import names anywhere in it (in functions too),
    and the package's own job files.
    """
    files = {".".join(file.relative_to(package.parent).with_suffix("").parts): file for file in package.rglob("*.py")}
    modules = {name.removesuffix(".__init__"): file for name, file in files.items() if name not in NOT_IN_THE_PAGE}
    late = set()
    for file in modules.values():
        for statement in ast.walk(ast.parse(file.read_bytes())):
            if isinstance(statement, ast.Import):
                late.update(alias.name for alias in statement.names)
            elif isinstance(statement, ast.ImportFrom) and statement.level == 0:
                late.add(statement.module or "")
    known = sorted(name for name in late if name.split(".")[0] in sys.stdlib_module_names)
    jobs = [json.loads(file.read_bytes()) for file in sorted((package / "data" / "jobs").glob("*.json"))]
    return {"modules": known + sorted(modules), "jobs": jobs}


def make_library(out: Path = PACK) -> Path:
    """Make the archive that the page's Python starts from; its name carries the hash of its contents."""
    shutil.rmtree(out, ignore_errors=True)
    out.mkdir(parents=True)
    settings = {
        "pyodide": PYODIDE, "tools": tool_wheels(), "wheel": wheel(out), "inside": SCRIPTS / "wasm", "out": out,
        "plan": plan(ROOT / "calculators"),
    }
    run_node(SCRIPTS / "wasm" / "pack.mjs", settings)
    made = out / "library.zip"
    return made.rename(out / f"library-{sha256(made.read_bytes())[:12]}.zip")


def put_engine(site: Path, library: Path) -> dict[str, int]:
    """Copy Pyodide and the library into the site and tell the worker about them; return file sizes in bytes."""
    lock = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))
    version = json.loads((PYODIDE / "package.json").read_text(encoding="utf-8"))["version"]
    program = shrink.engine(PYODIDE)
    # A file of the engine never changes under one name: the folder's name carries what the program was made of.
    folder = site / "engine" / f"{version}-{program.name.rpartition('-')[2]}"
    shutil.rmtree(folder.parent, ignore_errors=True)
    folder.mkdir(parents=True)
    sources = [*(program / name for name in shrink.PROGRAM), library]
    for source in sources:
        shutil.copyfile(source, folder / source.name)
    sizes = {source.name: source.stat().st_size for source in sources}
    build = {"home": f"../../engine/{folder.name}/", "library": library.name, "info": lock["info"], "sizes": sizes}
    line = f"var BUILD = {json.dumps(build)};"
    worker = site / "assets" / "js" / "worker.mjs"
    text, changed = re.subn(r"(?m)^var BUILD = .*;$", line, worker.read_text(encoding="utf-8"))
    if changed != 1:
        raise RuntimeError(f"{worker} has no line 'var BUILD = ...;' to fill in")
    worker.write_text(text, encoding="utf-8")
    return sizes


def main() -> None:
    if sys.argv[1:] == ["--fetch"]:
        tool_wheels()
        return
    library = make_library()
    report = json.loads((library.parent / "library.json").read_text(encoding="utf-8"))
    print(f"{library.relative_to(ROOT)}: {size(library.stat().st_size)} in {report['files']} files:")
    print(f"calculators {size(report['calculators'])}, {len(report['standard_library'])} standard modules.")


if __name__ == "__main__":
    main()
