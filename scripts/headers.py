"""Writes the file that many static hosts read their response headers from, and reads it back for a test.

    python scripts/headers.py [site] [--base /handbook/]

The policy is the one of the pages, with what a worker needs: it takes its policy from its own response.  Where the site
lies in a folder of its host, name that folder: the rules count from the host's root.
"""

import argparse
import re
from fnmatch import fnmatchcase
from html import unescape
from pathlib import Path

NAME = "_headers"
CACHING = {"sw.js": "no-cache", "engine/*": "public, max-age=31536000, immutable"}
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')


def policy(site: Path) -> str:
    """The policy of the pages as a header.  Raises ValueError when the home page has none."""
    found = POLICY.search((site / "index.html").read_text(encoding="utf-8"))
    if not found:
        raise ValueError("the home page has no policy")
    parts = [part.strip() for part in unescape(found[1]).split(";") if part.strip()]
    named = [f"{part} 'wasm-unsafe-eval'" if part.startswith("script-src ") else part for part in parts]
    return "; ".join([*named, "frame-ancestors 'none'"])


def rules(site: Path) -> dict[str, dict[str, str]]:
    """Path patterns below the site's root and their headers.  No header stands in two patterns that can both fit."""
    return {
        "*": {
            "Content-Security-Policy": policy(site),
            "X-Content-Type-Options": "nosniff",
            "Referrer-Policy": "no-referrer",
            "Cross-Origin-Opener-Policy": "same-origin",
            "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
        },
        **{pattern: {"Cache-Control": rule} for pattern, rule in CACHING.items()},
        "*.mjs": {"Content-Type": "text/javascript; charset=utf-8"},
        "*.wasm": {"Content-Type": "application/wasm"},
        "*.webmanifest": {"Content-Type": "application/manifest+json"},
    }


def write(site: Path, base: str = "/") -> None:
    """Write the file into the site's root."""
    base = f"/{base.strip('/')}/".replace("//", "/")
    blocks = [
        "\n".join([base + pattern, *(f"  {name}: {value}" for name, value in headers.items())])
        for pattern, headers in rules(site).items()
    ]
    (site / NAME).write_text("\n\n".join(blocks) + "\n", encoding="utf-8")


def headers_for(text: str, path: str) -> dict[str, str]:
    """The headers that a host reads out of the file's text for one path, from the host's root."""
    found: dict[str, str] = {}
    for block in text.strip().split("\n\n"):
        pattern, *lines = block.splitlines()
        if fnmatchcase(path, pattern):
            found |= dict(line.strip().split(": ", 1) for line in lines)
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("site", nargs="?", type=Path, default=Path("site"))
    parser.add_argument("--base", default="/", help="folder of the host that the site lies in")
    options = parser.parse_args()
    write(options.site, options.base)
    print((options.site / NAME).read_text(encoding="utf-8"), end="")


if __name__ == "__main__":
    main()
