"""What the tests share: the built site, a server process for it, and a browser."""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

if sys.platform != "emscripten":  # the browser's Python runs the plain tests only
    from hypothesis import settings

    settings.register_profile("steady", derandomize=True)  # a run that passed passes again; --hypothesis-profile=default explores
    settings.load_profile("steady")

ROOT = Path(__file__).resolve().parents[1]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Files that use the browser or its Python first: they take longest, and short ones fill both cores at the end."""
    long = {item.path for item in items if {"browser", "outcome"} & set(getattr(item, "fixturenames", []))}
    items.sort(key=lambda item: item.path not in long)


@pytest.fixture(scope="session")
def site() -> Path:
    """The whole built site: the one named by UNDERSLAB_SITE, else built now into build/site."""
    given = os.environ.get("UNDERSLAB_SITE")
    if given:
        assert (Path(given) / "sw.js").is_file(), f"{given} holds no built site"
        return Path(given)
    out = ROOT / "build" / "site"
    subprocess.run([sys.executable, ROOT / "scripts" / "build.py", "--out", out], check=True, cwd=ROOT)
    return out


@pytest.fixture
def copy(site: Path, tmp_path: Path) -> Path:
    """A copy of the site that a test may change."""
    return Path(shutil.copytree(site, tmp_path / "site"))


class ServerProcess:
    """The project's own server as a process of its own, so that ending it really ends it.

    ``port`` brings a server back at its old address; ``trouble``: options of tests/troubled_server.py.
    """

    def __init__(self, site: Path, base: str = "/", port: int = 0, trouble: tuple[str, ...] = ()) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = port or free.getsockname()[1]
        script = ROOT / "tests" / "troubled_server.py" if trouble else ROOT / "scripts" / "serve.py"
        command = [sys.executable, script, site, "--port", str(self.port), "--base", base, *trouble]
        self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        self.url = f"http://127.0.0.1:{self.port}{base}"
        self.wait(self.answers, "the server did not start")

    def answers(self) -> bool:
        with socket.socket() as probe:
            return probe.connect_ex(("127.0.0.1", self.port)) == 0

    def stop(self) -> None:
        """End the process and make sure that the port refuses a connection."""
        self.process.terminate()
        self.process.wait(timeout=10)
        self.wait(lambda: not self.answers(), "the port still answers")

    def wait(self, condition: Callable[[], bool], trouble: str) -> None:
        until = time.monotonic() + 10
        while not condition():
            assert time.monotonic() < until, trouble
            time.sleep(0.02)


@pytest.fixture
def serve() -> Iterator[Callable[..., ServerProcess]]:
    """Starts server processes: ``serve(folder, base="/handbook/")``; those still running are ended after the test."""
    started: list[ServerProcess] = []

    def start(site: Path, base: str = "/", port: int = 0, trouble: tuple[str, ...] = ()) -> ServerProcess:
        started.append(ServerProcess(site, base, port, trouble))
        return started[-1]

    yield start
    for server in started:
        if server.process.poll() is None:
            server.stop()


@pytest.fixture(scope="session")
def site_server(site: Path) -> Iterator[ServerProcess]:
    """One server for the whole run; ``site_server.url`` is the site's address."""
    server = ServerProcess(site)
    yield server
    server.stop()


@pytest.fixture(scope="session")
def browser() -> Iterator[object]:
    """Chromium without a window."""
    from playwright.sync_api import sync_playwright

    from scripts.browser import OPTIONS, chromium

    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium(), args=OPTIONS)
        yield running
        running.close()


@pytest.fixture
def page(browser) -> Iterator[object]:
    """A page in a fresh profile; the test fails when the page breaks its own policy or asks for anything from outside."""
    context = browser.new_context()
    opened = context.new_page()
    said: list[str] = []
    opened.on("console", lambda message: said.append(message.text) if re.search("Content Security Policy|'Trusted", message.text) else None)
    asked: list[str] = []
    opened.on("request", lambda request: asked.append(request.url))
    yield opened
    context.close()
    assert not said, said
    outside = [url for url in asked if not url.startswith(("http://127.0.0.1:", "data:", "blob:"))]
    assert not outside, outside


@pytest.fixture
def fresh(browser) -> Iterator[Callable[..., Any]]:
    """Pages in profiles of their own: ``fresh(color_scheme="dark")``; they are closed after the test."""
    contexts = []

    def start(**settings: object) -> Any:
        contexts.append(browser.new_context(**settings))
        return contexts[-1].new_page()

    yield start
    for context in contexts:
        context.close()


class Gate:
    """Holds a page's requests back until it is opened: ``page.route("**/*.js", gate.hold)``."""

    def __init__(self) -> None:
        self.held: list[Any] | None = []

    def hold(self, route: Any) -> None:
        route.continue_() if self.held is None else self.held.append(route)

    def open(self) -> None:
        held, self.held = self.held, None
        for route in held:
            route.continue_()


def poll(look: Callable[[], object], seconds: float = 20, every: float = 0.05) -> object:
    """The first true answer of ``look``; the page's policy forbids the browser's own waiting by expression."""
    until = time.monotonic() + seconds
    while not (answer := look()):
        assert time.monotonic() < until, "waited in vain"
        time.sleep(every)
    return answer


def ready(page: Any, seconds: float = 60) -> None:
    """Waits until the calculators of an open page answer."""
    poll(lambda: page.evaluate("document.documentElement.dataset.engine") == "ready", seconds)
