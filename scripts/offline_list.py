"""Writes the site's offline worker: every file of the site with its hash, in front of the code of scripts/sw.js."""

import base64
import hashlib
import json
from pathlib import Path

from scripts.toolbox import SCRIPTS

# Not part of what a reader opens: compressed doubles that a server picks by itself, the worker, words to the host.
NOT_KEPT = {".br", ".gz", ".map"}
NOT_OPENED = {"sw.js", "_headers"}


def offline_table(site: Path) -> dict[str, list[object]]:
    """Address below the site's root -> [SHA-256 in base64, size in bytes]; folders stand for their index page."""
    table: dict[str, list[object]] = {}
    for file in sorted(site.rglob("*")):
        if not file.is_file() or file.suffix in NOT_KEPT or file.relative_to(site).as_posix() in NOT_OPENED:
            continue
        data = file.read_bytes()
        address = file.relative_to(site).as_posix()
        if file.name == "index.html":
            address = address.removesuffix("index.html")
        table[address] = [base64.b64encode(hashlib.sha256(data).digest()).decode(), len(data)]
    return dict(sorted(table.items()))


def write_worker(site: Path) -> tuple[str, int, int]:
    """Write sw.js into the site; return the version, the number of files and their bytes together."""
    table = offline_table(site)
    listed = json.dumps(table, separators=(",", ":"))
    version = hashlib.sha256(listed.encode()).hexdigest()[:12]
    code = (SCRIPTS / "sw.js").read_text(encoding="utf-8")
    (site / "sw.js").write_text(f'const VERSION = "{version}";\nconst FILES = {listed};\n{code}', encoding="utf-8")
    return version, len(table), sum(int(str(size)) for _, size in table.values())
