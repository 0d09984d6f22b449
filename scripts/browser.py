"""The system's Chromium, as tests, measurements and pictures start it: no window, nothing asked of the network by itself."""

import shutil

OPTIONS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-features=OptimizationHints,MediaRouter,Translate",
    "--enable-crash-reporter",  # without it a fault in WebAssembly ends the page of the headless shell, instead of being told
]
SHELL, *WHOLE = "chromium-headless-shell", "chromium", "chromium-browser"


def chromium(whole: bool = False) -> str:
    """Where the program is: the headless shell, the same engine without the program around it, which starts in a third
    of the time; with ``whole`` rather the browser as readers have it.  Raises RuntimeError when there is neither.
    """
    for name in [*WHOLE, SHELL] if whole else [SHELL, *WHOLE]:
        if found := shutil.which(name):
            return found
    raise RuntimeError(f"this needs Debian's package {SHELL}: python3 scripts/start.py test installs it")
