"""Puts the real output of the README's worked call into the README; the test compares.

    python scripts/readme.py
"""

import re
import shlex
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
README = ROOT / "README.md"
PLACE = re.compile(r"```\n(python3 -m calculators solve [^\n]+)\n```\n\n<!-- output -->\n.*?<!-- end -->", re.DOTALL)


def filled(text: str) -> str:
    """The README with each marked call followed by what it prints now.  Raises ValueError when no call is marked."""
    if not PLACE.search(text):
        raise ValueError("README.md marks no call with <!-- output -->")

    def put(match: re.Match[str]) -> str:
        words = shlex.split(match[1])
        done = subprocess.run([sys.executable, *words[1:]], capture_output=True, text=True, check=True, cwd=ROOT)
        return f"```\n{match[1]}\n```\n\n<!-- output -->\n```\n{done.stdout.rstrip()}\n```\n<!-- end -->"

    return PLACE.sub(put, text)


if __name__ == "__main__":
    README.write_text(filled(README.read_text(encoding="utf-8")), encoding="utf-8")
