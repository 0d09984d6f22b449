"""One visit of a page in a fresh or a known profile of the browser: how long until the first live answer, and keys."""

import json
import tempfile
from pathlib import Path
from typing import Any, NamedTuple

from scripts.browser import OPTIONS, chromium
from scripts.measure.brake import Brake, browser_process, memory, page_processes
from scripts.measure.link import Link

PROBE = (Path(__file__).parent / "probe.js").read_text(encoding="utf-8")
KEPT = "() => document.getElementById('offline-state')?.textContent.startsWith('Ready') ?? true"
OTHER, OPEN = "", 20_000  # the start page, and ms that it is open before a page is called that was not opened before
STARTING = 2000  # ms in which the browser is busy with itself
STORING = 4000  # ms that the page and the browser get to write their caches


class Page(NamedTuple):
    """A page to measure: address below the server, the field to edit, its new value, where the answer stands."""

    name: str
    path: str
    field: str
    value: float
    answer: str


def visit(browser: Any, page: Page, link: Link, profile: str, *, expect: str = "", slow: float = 1,
          keys: tuple[list[str], float] | None = None, settle: bool = False, other: bool = False) -> dict[str, Any]:
    """Open the page once; times in ms, sizes in bytes.  Raises TimeoutError (of playwright) when no answer comes.

    With ``other`` the start page is open for a while first, as slow as the page itself.
    """
    link.bytes = link.requests = 0
    wanted = {"field": page.field, "answer": page.answer, "value": f"{page.value:g}", "expect": expect}
    context = browser.launch_persistent_context(
        profile, executable_path=chromium(whole=True), headless=True, viewport={"width": 412, "height": 823}, args=OPTIONS)
    brake = None
    try:
        context.add_init_script(PROBE.replace("__WANTED__", json.dumps(wanted)))
        opened = context.pages[0] if context.pages else context.new_page()
        opened.set_default_timeout(120_000)
        if not settle:
            opened.wait_for_timeout(STARTING)
        if slow > 1:
            brake = Brake(browser_process(profile), slow)
        if other:
            opened.goto(f"http://127.0.0.1:{link.port}/{OTHER}", wait_until="commit")
            opened.wait_for_timeout(OPEN)
        opened.goto(f"http://127.0.0.1:{link.port}/{page.path}", wait_until="commit")
        found = opened.evaluate("() => window.bench.first")
        found |= {"bytes": link.bytes, "requests": link.requests, "memory": memory(page_processes(browser_process(profile)))}
        if keys:
            opened.wait_for_timeout(1000)
            found["keys"] = opened.evaluate("([values, gap]) => window.bench.keys(values, gap)", list(keys))
        if brake:
            brake.release()
            brake = None
        if settle:
            for _ in range(120):
                if opened.evaluate(KEPT):
                    break
                opened.wait_for_timeout(500)
            opened.wait_for_timeout(STORING)
    finally:
        if brake:
            brake.release()
        context.close()
    return found


def profile() -> "tempfile.TemporaryDirectory[str]":
    """A fresh profile folder."""
    return tempfile.TemporaryDirectory(prefix="bench-", ignore_cleanup_errors=True)
