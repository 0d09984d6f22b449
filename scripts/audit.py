"""Asks the registries for known faults of the pinned packages, in Python and in JavaScript.

    python scripts/audit.py

Needs the network.  Ends with 0 when both answered and know of nothing, 1 when a fault is known, 3 when a registry or its
tool did not answer: then nothing is known.  pip-audit is put into a folder of its own for this, not into .venv.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.toolbox import SCRIPTS, node

LOCKS = ("requirements.txt", "requirements-test.txt", "requirements-pyodide.txt")
FINE, KNOWN, SILENT = 0, 1, 3
PATIENCE = 240  # seconds


def run(command: list[object], where: Path = SCRIPTS, environment: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    words = [str(word) for word in command]
    try:
        return subprocess.run(words, cwd=where, env=environment, capture_output=True, text=True, timeout=PATIENCE, check=False)
    except subprocess.TimeoutExpired:
        return subprocess.CompletedProcess(words, SILENT, "", "no answer in time")


def npm() -> tuple[int, str]:
    """What npm's registry knows about the packages of package-lock.json."""
    home = node().parent.parent
    program = home / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
    environment = {**os.environ, "PATH": f"{home / 'bin'}{os.pathsep}{os.environ.get('PATH', '')}"}
    done = run([node(), program, "audit", "--json", "--package-lock-only"], environment=environment)
    return read_npm(done.stdout or done.stderr)


def read_npm(text: str) -> tuple[int, str]:
    """The verdict in npm's report."""
    try:
        report = json.loads(text)
        counts = report["metadata"]["vulnerabilities"]
    except (ValueError, KeyError, TypeError):
        return SILENT, f"npm: no answer ({' '.join(text.split())[:160]})"
    if not counts["total"]:
        return FINE, f"npm: nothing known about {report['metadata']['dependencies']['total']} packages."
    named = ", ".join(f"{name} ({one.get('severity')})" for name, one in report.get("vulnerabilities", {}).items())
    return KNOWN, f"npm: {counts['total']} known: {named}"


def pip() -> tuple[int, str]:
    """What the Python index knows about the packages of the three lists."""
    with tempfile.TemporaryDirectory() as folder:
        program = Path(folder) / "bin" / "python"
        for command in ([sys.executable, "-m", "venv", folder], [program, "-m", "pip", "install", "--quiet", "pip-audit"]):
            if (done := run(command)).returncode:
                return SILENT, f"pip: pip-audit could not be installed ({' '.join(done.stderr.split())[-160:]})"
        said = []
        for lock in LOCKS:
            options = ["--format", "json", "--disable-pip", "--require-hashes", "--requirement", SCRIPTS / lock]
            done = run([program, "-m", "pip_audit", *options])
            verdict, words = read_pip(done.stdout, done.stderr)
            said.append(f"{lock}: {words}")
            if verdict != FINE:
                return verdict, "pip: " + "; ".join(said)
    return FINE, "pip: " + "; ".join(said)


def read_pip(text: str, trouble: str = "") -> tuple[int, str]:
    """The verdict in pip-audit's report."""
    try:
        rows = json.loads(text)["dependencies"]
    except (ValueError, KeyError, TypeError):
        return SILENT, f"no answer ({' '.join(trouble.split())[-160:]})"
    bad = [f"{row['name']} {row.get('version')}: {', '.join(one['id'] for one in row['vulns'])}" for row in rows if row.get("vulns")]
    skipped = [row["name"] for row in rows if "skip_reason" in row]
    if bad:
        return KNOWN, "; ".join(bad)
    return (SILENT, f"not looked at: {', '.join(skipped)}") if skipped else (FINE, f"nothing known about {len(rows)} packages")


def main() -> int:
    verdicts = [npm(), pip()]
    print("\n".join(words for _, words in verdicts))
    return next((status for status in (KNOWN, SILENT) if status in {verdict for verdict, _ in verdicts}), FINE)


if __name__ == "__main__":
    sys.exit(main())
