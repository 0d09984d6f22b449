"""The project's server with a trouble, as a process of its own.

    python tests/troubled_server.py site --port 8000 [--die-at look-up/] [--asked FILE] [--days 4000] [--stale]

--die-at: the process is gone in the middle of its answer to this address. --asked: each address that the offline worker
asks for is written into FILE. --days: how far the clock of its headers is off; what it answers may be kept as long again, without a question.
--stale: it takes whatever the browser has for what it would send, sw.js excepted.
"""

import argparse
import os
import sys
import time
from http import HTTPStatus
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.serve import Handler, make_server

DAY = 86_400


class Troubled(Handler):
    """Answers as the server does until its trouble comes."""

    die_at: str | None = None
    asked: Path | None = None
    days = 0
    stale = False

    def do_GET(self, body: bool = True) -> None:
        if self.asked and self.headers.get("Referer", "").endswith("/sw.js"):
            with self.asked.open("a", encoding="utf-8") as file:
                file.write(self.path.removeprefix(self.base) + "\n")
        if self.stale and not self.path.endswith("/sw.js") and {"If-None-Match", "If-Modified-Since"} & set(self.headers):
            self.send_response(HTTPStatus.NOT_MODIFIED)
            return self.end_headers()
        super().do_GET(body)

    def reply(self, status: HTTPStatus, data: bytes, body: bool, headers: dict[str, str]) -> None:
        if self.days:
            del headers["Cache-Control"]
            headers |= {"Last-Modified": self.date_time_string(), "Expires": self.date_time_string(time.time() + 2 * self.days * DAY)}
        if self.die_at is not None and self.path == self.base + self.die_at:
            self.send_response(status)
            for name, value in headers.items():
                self.send_header(name, value)
            self.send_header("Content-Length", str(len(data)))
            self.end_headers()
            self.wfile.write(data[: len(data) // 2])
            self.wfile.flush()
            os._exit(9)
        super().reply(status, data, body, headers)

    def date_time_string(self, timestamp: float | None = None) -> str:
        return super().date_time_string(time.time() + self.days * DAY if timestamp is None else timestamp)


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("site", type=Path)
    parser.add_argument("--port", type=int)
    parser.add_argument("--base")
    parser.add_argument("--die-at")
    parser.add_argument("--asked", type=Path)
    parser.add_argument("--days", type=int, default=0)
    parser.add_argument("--stale", action="store_true")
    options = parser.parse_args()
    server = make_server(options.site, port=options.port, base=options.base)
    trouble = {"die_at": options.die_at, "asked": options.asked, "days": options.days, "stale": options.stale}
    server.RequestHandlerClass = type("TroubledHandler", (Troubled, server.RequestHandlerClass), trouble)
    server.serve_forever()


if __name__ == "__main__":
    main()
