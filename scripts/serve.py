"""A small server for the built site, for looking at it and for the tests; not meant for a network.

    python scripts/serve.py [site] [--port 8000] [--host 127.0.0.1] [--base /handbook/]

It gives .mjs and .wasm their right types (a browser compiles WebAssembly while it loads only then), sends FILE.br or
FILE.gz where the browser takes it and the file is there, lets the browser keep what never changes, as scripts/headers.py
asks a host to, and answers 304 to the rest where it has not changed.
"""

import argparse
import sys
from fnmatch import fnmatchcase
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.headers import CACHING

TYPES = {
    ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8", ".json": "application/json", ".wasm": "application/wasm",
    ".zip": "application/zip", ".svg": "image/svg+xml", ".png": "image/png", ".txt": "text/plain; charset=utf-8",
    ".xml": "application/xml", ".webmanifest": "application/manifest+json", ".csv": "text/csv; charset=utf-8",
    ".ico": "image/x-icon",
}
COMPRESSED = ((".br", "br"), (".gz", "gzip"))


class Handler(BaseHTTPRequestHandler):
    """Answers GET and HEAD below one folder."""

    protocol_version = "HTTP/1.1"
    root = Path()
    base = "/"

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: the address has been printed, and errors show in the browser."""

    def do_HEAD(self) -> None:
        self.do_GET(body=False)

    def do_GET(self, body: bool = True) -> None:
        path = unquote(urlsplit(self.path).path)
        file = self.find(path)
        if file is None and not path.endswith("/") and self.find(path + "/"):
            return self.reply(HTTPStatus.MOVED_PERMANENTLY, b"", body, {"Location": path + "/"})
        status = HTTPStatus.OK if file else HTTPStatus.NOT_FOUND
        file = file or self.root / "404.html"
        if not file.is_file():
            return self.reply(status, b"not found", body, {"Content-Type": TYPES[".txt"]})
        headers = {"Content-Type": TYPES.get(file.suffix, "application/octet-stream"), "Vary": "Accept-Encoding"}
        accepted = self.headers.get("Accept-Encoding", "")
        for suffix, coding in COMPRESSED:
            packed = file.with_name(file.name + suffix)
            if coding in accepted and packed.is_file():
                file, headers["Content-Encoding"] = packed, coding
                break
        state = file.stat()
        rules = (rule for pattern, rule in CACHING.items() if fnmatchcase(path.removeprefix(self.base), pattern))
        headers |= {"ETag": f'"{state.st_mtime_ns:x}-{state.st_size:x}{file.suffix}"', "Cache-Control": next(rules, "no-cache")}
        if status == HTTPStatus.OK and self.headers.get("If-None-Match") == headers["ETag"]:
            return self.reply(HTTPStatus.NOT_MODIFIED, b"", False, headers)
        return self.reply(status, file.read_bytes(), body, headers)

    def find(self, path: str) -> Path | None:
        if not path.startswith(self.base):
            return None
        file = (self.root / path.removeprefix(self.base)).resolve()
        if not file.is_relative_to(self.root):
            return None
        if path.endswith("/"):
            file /= "index.html"
        return file if file.is_file() else None

    def reply(self, status: HTTPStatus, data: bytes, body: bool, headers: dict[str, str]) -> None:
        self.send_response(status)
        for name, value in headers.items():
            self.send_header(name, value)
        if status != HTTPStatus.NOT_MODIFIED:
            self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        if body:
            self.wfile.write(data)


class Server(ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that leaves in the middle of an answer is no news."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def make_server(site: Path, host: str = "127.0.0.1", port: int = 8000, base: str = "/", tries: int = 20) -> Server:
    """A server for the site on the first free port from ``port`` on; 0 takes any.  Raises OSError when none is free."""
    base = f"/{base.strip('/')}/".replace("//", "/")
    handler = type("SiteHandler", (Handler,), {"root": site.resolve(), "base": base})
    for number in range(port, port + tries):
        try:
            return Server((host, number), handler)
        except OSError:
            if port == 0 or number == port + tries - 1:
                raise
    raise AssertionError("not reached")


def address(server: Server) -> str:
    host, port = server.server_address[:2]
    base = server.RequestHandlerClass.base  # type: ignore[attr-defined]
    return f"http://{'127.0.0.1' if host == '0.0.0.0' else host}:{port}{base}"


def main() -> None:
    parser = argparse.ArgumentParser(description="Serve the built site on this machine.")
    parser.add_argument("site", nargs="?", type=Path, default=Path("site"))
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--host", default="127.0.0.1")
    parser.add_argument("--base", default="/", help="folder of the host that the site seems to lie in")
    options = parser.parse_args()
    if not (options.site / "index.html").is_file():
        sys.exit(f"{options.site} has no index.html: build the site first (python scripts/build.py)")
    with make_server(options.site, options.host, options.port, options.base) as server:
        print(f"Underslab is at {address(server)}   (Ctrl+C ends it)", flush=True)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print()


if __name__ == "__main__":
    main()
