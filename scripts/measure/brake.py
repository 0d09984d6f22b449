"""Slows the browser's pages down as a whole, workers too, by stopping and continuing their processes.

The browser's own brake slows the main thread only, so that a page with a worker looks faster than it is.
"""

import os
import signal
import threading
import time
from pathlib import Path

SLICE = 0.003  # s that the pages run at a time
LOOK_AGAIN = 0.1  # s after which new processes are looked for


def browser_process(profile: str) -> int:
    """The process id of the browser that was started with this profile folder; 0 if there is none."""
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            command = (folder / "cmdline").read_bytes()
        except OSError:
            continue
        if f"--user-data-dir={profile}".encode() in command and b"--type=" not in command:
            return int(folder.name)
    return 0


def page_processes(browser: int) -> list[int]:
    """The processes below this browser that draw pages and run their scripts."""
    parents: dict[int, int] = {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            parents[int(folder.name)] = int((folder / "stat").read_text().rpartition(")")[2].split()[1])
        except (OSError, ValueError, IndexError):
            continue
    found = []
    for process in parents:
        above = process
        while above in parents and above != browser:
            above = parents[above]
        try:
            if above == browser and b"--type=renderer" in Path(f"/proc/{process}/cmdline").read_bytes():
                found.append(process)
        except OSError:
            continue
    return found


def memory(pages: list[int]) -> int:
    """Bytes that these processes use, what they share with others by parts."""
    told = [Path(f"/proc/{page}/smaps_rollup").read_text() for page in pages]
    return sum(1024 * int(line.split()[1]) for text in told for line in text.splitlines() if line.startswith("Pss:"))


class Brake:
    """Gives the pages of a browser one part in ``times`` of the time, until ``release``."""

    def __init__(self, browser: int, times: float) -> None:
        self.browser, self.times, self.on = browser, times, times > 1
        self.thread = threading.Thread(target=self._run, daemon=True)
        self.thread.start()

    def _run(self) -> None:
        pages: list[int] = []
        looked = 0.0
        while self.on:
            if time.monotonic() - looked > LOOK_AGAIN:
                pages, looked = page_processes(self.browser), time.monotonic()
            self._all(pages, signal.SIGSTOP)
            time.sleep(SLICE * (self.times - 1))
            self._all(pages, signal.SIGCONT)
            time.sleep(SLICE)

    @staticmethod
    def _all(pages: list[int], told: signal.Signals) -> None:
        for page in pages:
            try:
                os.kill(page, told)
            except ProcessLookupError:
                continue

    def release(self) -> None:
        self.on = False
        self.thread.join()
