"""The system's Chromium, as tests, measurements and pictures start it: no window, nothing asked of the network by itself."""

import shutil

OPTIONS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-features=OptimizationHints,MediaRouter,Translate",
]


def chromium() -> str:
    """Where the program is.  Raises RuntimeError with the way out when there is none."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if not found:
        raise RuntimeError("this needs Debian's package chromium: python3 scripts/start.py test installs it")
    return found
