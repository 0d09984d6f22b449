"""A published copy against its build, and the headers that a host is asked to send."""

import shutil
import threading
from collections.abc import Iterator
from http import HTTPStatus
from pathlib import Path

import pytest

from conftest import poll
from scripts import headers, published
from scripts import serve as server_of

PAGE = "07-pipe-and-fan/pipe-loss/"


@pytest.fixture
def copy(site: Path, tmp_path: Path) -> Path:
    """A published copy that a test may change."""
    return Path(shutil.copytree(site, tmp_path / "published"))


@pytest.fixture
def host(site: Path) -> Iterator[str]:
    """The site on a host that reads the built _headers, in a folder of it."""
    words = (site / headers.NAME).read_text(encoding="utf-8").replace("\n/", "\n/handbook/").replace("/*\n", "/handbook/*\n", 1)

    class Host(server_of.Handler):
        def reply(self, status: HTTPStatus, data: bytes, body: bool, given: dict[str, str]) -> None:
            super().reply(status, data, body, {**given, **headers.headers_for(words, self.path.partition("?")[0])})

    Host.root, Host.base = site.resolve(), "/handbook/"
    with server_of.Server(("127.0.0.1", 0), Host) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{running.server_address[1]}/handbook/"
        running.shutdown()


@pytest.mark.parametrize("base", ["/", "/some/folder/"])
def test_the_same_site_is_the_same(site, serve, base):
    """A published site that is the build gives no line, at the root and in a folder."""
    assert published.differences(site, serve(site, base).url) == []


def test_one_wrong_byte_is_named(site, copy, serve):
    """One changed byte in one file is found and the file is named; nothing else is."""
    file = copy / "look-up" / "index.html"
    data = bytearray(file.read_bytes())
    data[len(data) // 2] ^= 1
    file.write_bytes(data)
    wrong = published.differences(site, serve(copy).url)
    assert [line.partition(":")[0] for line in wrong] == ["look-up/"]
    assert "other bytes" in wrong[0]


def test_missing_and_foreign_files_and_versions_are_named(site, copy, serve):
    """A file that was not copied, another version's worker, and a page to which a host added something are all named."""
    (copy / "assets" / "mark.svg").unlink()
    worker = copy / "sw.js"
    worker.write_text(worker.read_text(encoding="utf-8").replace(published.version(worker.read_bytes()), "0123456789ab"), encoding="utf-8")
    home = copy / "index.html"
    home.write_text(home.read_text(encoding="utf-8").replace("</body>", "<!-- counted --></body>"), encoding="utf-8")
    wrong = "\n".join(published.differences(site, serve(copy).url))
    assert "assets/mark.svg: status 404" in wrong
    assert "version 0123456789ab is published" in wrong
    assert "(home page): other bytes" in wrong


def test_nobody_there_is_one_line(site, serve):
    """With the server dead there is one line that says so."""
    server = serve(site)
    server.stop()
    wrong = published.differences(site, server.url)
    assert len(wrong) == 1
    assert "sw.js: status" in wrong[0]


def test_wrong_types_are_named(site, monkeypatch, serve):
    """A host that hands out WebAssembly and modules as plain bytes is told so."""
    server = serve(site)
    real = published.fetch

    def plain(url: str) -> published.Answer:
        answer = real(url)
        return answer._replace(headers={"content-type": "application/octet-stream"}) if url.endswith((".wasm", ".mjs")) else answer

    monkeypatch.setattr(published, "fetch", plain)
    wrong = published.differences(site, server.url)
    assert any("wanted application/wasm" in line for line in wrong)
    assert any("wanted text/javascript" in line for line in wrong)
    assert all("sent as application/octet-stream" in line for line in wrong)


def test_the_command_says_the_version(site, serve, monkeypatch, capsys):
    """The command prints the version and ends well, or prints the differences and ends with 1."""
    url = serve(site).url
    monkeypatch.setattr("sys.argv", ["published.py", url, str(site)])
    assert published.main() == 0
    assert f"version {published.version((site / 'sw.js').read_bytes())}" in capsys.readouterr().out
    monkeypatch.setattr("sys.argv", ["published.py", f"{url}nowhere/", str(site)])
    assert published.main() == 1


def test_a_host_with_headers_serves_a_working_site(host, site, page):
    """With the built headers sent by a host nothing is blocked, the calculator answers, and the site is the same."""
    answer = page.goto(host + PAGE)
    assert "'wasm-unsafe-eval'" in answer.headers["content-security-policy"]
    assert answer.headers["x-content-type-options"] == "nosniff"
    page.locator('input[data-path="flow"]').fill("70")
    before = page.locator(".now").first.inner_text()
    page.locator('input[data-path="flow"]').fill("90")
    poll(lambda: page.locator(".now").first.inner_text() != before, seconds=60)
    assert published.differences(site, host) == []


def test_headers_never_stand_twice(site):
    """For no file of the site do two rules name the same header: hosts would join their values."""
    text = (site / headers.NAME).read_text(encoding="utf-8")
    for file in [path for path in site.rglob("*") if path.is_file()]:
        path = "/" + file.relative_to(site).as_posix()
        blocks = [block.splitlines() for block in text.strip().split("\n\n")]
        names = [line.strip().partition(":")[0] for head, *lines in blocks if headers.fnmatchcase(path, head) for line in lines]
        assert len(names) == len(set(names)), path


def test_the_version_stands_on_the_page(page, site_server):
    """The foot of a page names the edition that the package has."""
    import calculators

    page.goto(site_server.url + "look-up/")
    assert f"Underslab {calculators.__version__}" in page.locator("footer").inner_text()
