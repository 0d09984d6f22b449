"""A link between browser and server that counts bytes, can be made slow, and can be cut.

The browser's own limits do not reach its workers; a relay between the two does.
"""

import asyncio
import threading
import time
from contextlib import suppress

# kbit/s down, kbit/s up, ms there and back
LINKS = {"none": (0, 0, 0), "slow4g": (1600, 750, 150), "fast4g": (9000, 1500, 170)}


class Link:
    """Listens on ``port`` and hands everything on to the server at ``target``; ``bytes`` counts what came from there."""

    def __init__(self, target: int, speed: str = "none") -> None:
        self.target, self.speed, self.whole = target, LINKS[speed], True
        self.bytes = self.requests = self.port = 0
        self.free = {"down": 0.0, "up": 0.0}  # when each direction has sent what it was given
        self.loop = asyncio.new_event_loop()
        ready = threading.Event()
        threading.Thread(target=self._run, args=(ready,), daemon=True).start()
        ready.wait()

    def _run(self, ready: threading.Event) -> None:
        asyncio.set_event_loop(self.loop)

        async def listen() -> None:
            server = await asyncio.start_server(self._client, "127.0.0.1", 0)
            self.port = server.sockets[0].getsockname()[1]
            ready.set()

        self.loop.run_until_complete(listen())
        self.loop.run_forever()
        open_still = asyncio.all_tasks(self.loop)
        for task in open_still:
            task.cancel()
        self.loop.run_until_complete(asyncio.gather(*open_still, return_exceptions=True))

    def close(self) -> None:
        self.loop.call_soon_threadsafe(self.loop.stop)

    async def _client(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        if not self.whole:
            return writer.transport.abort()
        await asyncio.sleep(self.speed[2] / 1000)
        try:
            from_server, to_server = await asyncio.open_connection("127.0.0.1", self.target)
        except OSError:
            return writer.transport.abort()
        ways = (self._pass(reader, to_server, "up"), self._pass(from_server, writer, "down"))
        with suppress(asyncio.CancelledError):  # the link was closed
            await asyncio.gather(*ways, return_exceptions=True)

    async def _pass(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, way: str) -> None:
        down, up, back = self.speed
        rate = (down if way == "down" else up) * 125.0  # bytes a second
        pending: asyncio.Queue[tuple[float, bytes]] = asyncio.Queue()
        sender = asyncio.ensure_future(self._send(pending, writer))
        with suppress(OSError):
            while data := await reader.read(4096 if rate else 1 << 18):
                if way == "down":
                    self.bytes += len(data)
                else:
                    self.requests += data.count(b" HTTP/1.1\r\n")
                due = time.monotonic()
                if rate:
                    due = self.free[way] = max(due, self.free[way]) + len(data) / rate
                    await asyncio.sleep(max(0.0, due - time.monotonic() - 0.05))
                pending.put_nowait((due + back / 2000, data))
        pending.put_nowait((time.monotonic() + back / 2000, b""))
        await sender

    async def _send(self, pending: "asyncio.Queue[tuple[float, bytes]]", writer: asyncio.StreamWriter) -> None:
        with suppress(OSError):
            while True:
                due, data = await pending.get()
                await asyncio.sleep(max(0.0, due - time.monotonic()))
                if not data:
                    break
                writer.write(data)
                await writer.drain()
        writer.close()
