"""Compares a published site with its build, file by file.

    python scripts/published.py https://example.org/handbook/ [site] [--workers 4]

Fetches every file that the build holds from the address and compares its SHA-256; looks at the types that a browser
needs, at the worker's cache rule, at the page's policy where the host sends one, at the page for wrong addresses, and
whether the version is the one of the build.  Ends with status 1 and one line for each difference.
"""

import argparse
import base64
import hashlib
import re
import sys
import urllib.error
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote, urljoin

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.offline_list import offline_table

TYPES = {
    "": "text/html", ".html": "text/html", ".js": "text/javascript", ".mjs": "text/javascript", ".css": "text/css",
    ".wasm": "application/wasm", ".svg": "image/svg+xml", ".json": "application/json",
    ".webmanifest": "application/manifest+json",
}
ALSO = {"text/javascript": {"application/javascript"}, "application/manifest+json": {"application/json"}}
LARGEST = 40_000_000  # bytes; no file of the site comes near it
PATIENCE = 60  # seconds for one file


class Answer(NamedTuple):
    """What a host gave for one address."""

    status: int
    body: bytes
    headers: dict[str, str]


def fetch(url: str) -> Answer:
    """One file as it comes, not compressed.  A host that cannot be reached is an answer with status 0."""
    request = urllib.request.Request(url, headers={"Accept-Encoding": "identity", "Cache-Control": "no-cache"})
    try:
        with urllib.request.urlopen(request, timeout=PATIENCE) as reply:
            return Answer(reply.status, reply.read(LARGEST), {k.lower(): v for k, v in reply.headers.items()})
    except urllib.error.HTTPError as trouble:
        return Answer(trouble.code, trouble.read(LARGEST), {k.lower(): v for k, v in trouble.headers.items()})
    except (OSError, ValueError) as trouble:
        return Answer(0, str(trouble).encode(), {})


def version(worker: bytes) -> str:
    """The version that a worker file carries, or a question mark."""
    found = re.match(rb'const VERSION = "([0-9a-f]+)";', worker)
    return found[1].decode() if found else "?"


def compare(path: str, wanted: str, url: str) -> list[str]:
    """What is wrong with one published file."""
    answer = fetch(urljoin(url, quote(path)))
    name = path or "(home page)"
    if answer.status != 200:
        return [f"{name}: status {answer.status or answer.body.decode(errors='replace')[:80]}"]
    wrong = []
    found = base64.b64encode(hashlib.sha256(answer.body).digest()).decode()
    if found != wanted:
        wrong.append(f"{name}: other bytes than in the build ({len(answer.body)} bytes came)")
    suffix = Path(path).suffix if not path.endswith("/") else ""
    kind, given = TYPES.get(suffix), answer.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind and given != kind and given not in ALSO.get(kind, set()):
        wrong.append(f"{name}: sent as {given or 'nothing'}, wanted {kind}")
    policy = answer.headers.get("content-security-policy", "")
    if suffix == ".mjs" and policy and "'wasm-unsafe-eval'" not in policy:
        wrong.append(f"{name}: sent with a policy without 'wasm-unsafe-eval'; the calculators cannot start")
    return wrong


def differences(site: Path, url: str, workers: int = 4) -> list[str]:
    """All differences between the build and what is published at the address, one line each; none means equal."""
    url = url if url.endswith("/") else f"{url}/"
    table = offline_table(site)
    worker = fetch(urljoin(url, "sw.js"))
    ours = (site / "sw.js").read_bytes()
    wrong = []
    if worker.status != 200:
        wrong.append(f"sw.js: status {worker.status or worker.body.decode(errors='replace')[:80]}")
    elif worker.body != ours:
        wrong.append(f"sw.js: version {version(worker.body)} is published, the build is {version(ours)}")
    elif "max-age" in (rule := worker.headers.get("cache-control", "")) and not re.search(r"max-age=0|no-cache", rule):
        wrong.append(f"sw.js: may be kept ({rule}); readers would not hear of a new version")
    if not worker.status:
        return wrong  # nobody there: every other line would say the same
    with ThreadPoolExecutor(workers) as pool:
        for lines in pool.map(lambda row: compare(row[0], str(row[1][0]), url), table.items()):
            wrong += lines
    missing = fetch(urljoin(url, "no-such-page-here/"))
    if missing.status != 404:
        wrong.append(f"a wrong address gives status {missing.status}, wanted 404")
    return wrong


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("url", help="address of the published site, with its folder")
    parser.add_argument("site", nargs="?", type=Path, default=Path("site"), help="the build (site)")
    parser.add_argument("--workers", type=int, default=4, help="files asked for at the same time (4)")
    options = parser.parse_args()
    if not (options.site / "sw.js").is_file():
        sys.exit(f"{options.site} holds no built site")
    wrong = differences(options.site.resolve(), options.url, options.workers)
    ours = version((options.site / "sw.js").read_bytes())
    print("\n".join(wrong) if wrong else f"The same: version {ours}, {len(offline_table(options.site.resolve()))} files.")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
