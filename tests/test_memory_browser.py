"""The memory of a started Python that is kept on the device: taken over at the next start, never in the way."""

import json

import pytest

from calculators.show.house import inputs_of, reached
from conftest import poll, ready
from keeping import ASK, READY, line, room

PAGE = "07-pipe-and-fan/pipe-loss/"
SIZES = """async () => {
  const found = [];
  for (const name of await caches.keys()) {
    if (!name.startsWith("underslab-memory ")) continue;
    const cache = await caches.open(name);
    for (const key of await cache.keys()) found.push((await (await cache.match(key)).arrayBuffer()).byteLength);
  }
  return found.filter((bytes) => bytes > 0); // the note of the rehearsal is empty
}"""
SPOIL = """async () => {
  const name = (await caches.keys()).find((name) => name.startsWith("underslab-memory "));
  const cache = await caches.open(name);
  const key = (await cache.keys()).find(({url}) => !url.endsWith("&rehearsed"));
  const whole = new Uint8Array(await (await cache.match(key)).arrayBuffer());
  await cache.put(key, new Response(SPOILT));
}"""
LEAST = 20_000_000  # bytes: Python's memory is never smaller


def from_memory(page) -> bool:
    """Whether the Python of this page took over a memory."""
    return marked(page, "started from memory")


def marked(page, name: str) -> bool:
    return page.workers[0].evaluate("(name) => performance.getEntriesByName(name).length > 0", name)


def open_ready(page, url: str) -> None:
    page.goto(url)
    ready(page, 30)


def kept(page) -> bool:
    sizes = page.evaluate(SIZES)
    return len(sizes) == 1 and sizes[0] > LEAST


def request(name: str, stage: str = "first") -> dict:
    return {"calculator": name, "inputs": inputs_of(name), "units": "us", "uid": "t", "stage": stage}


def answers(page) -> dict[str, str]:
    """Both stages of each calculator for our own house."""
    asked = [(name, stage) for name in reached() for stage in ("first", "rest")]
    found = {f"{name}, {stage}": page.evaluate(ASK, request(name, stage)) for name, stage in asked}
    assert all(one["ok"] for one in found.values())
    return {key: json.dumps(one) for key, one in found.items()}


@pytest.fixture
def visited(page, site_server):
    """A page of a first visit whose memory is kept."""
    open_ready(page, site_server.url + PAGE)
    assert not from_memory(page)
    poll(lambda: kept(page))
    return page


def test_second_start_takes_the_memory_over_and_answers_the_same(visited):
    """All calculators, those too that the first page did not use, give to the letter what they gave before."""
    before = answers(visited)
    assert len(before) > 20
    open_ready(visited, visited.url)
    assert from_memory(visited)
    assert answers(visited) == before


def test_nothing_typed_is_in_it(page, site_server):
    """A number typed before the memory is written does not lie in it."""
    page.goto(site_server.url + PAGE)
    typed = request("pipe-loss")
    typed["inputs"] = {**typed["inputs"], "flow": "73.912648 cfm"}  # the house's own inputs serve every test
    assert page.evaluate(ASK, typed)["ok"]
    poll(lambda: kept(page))
    holds = """async (text) => {
      const name = (await caches.keys()).find((name) => name.startsWith("underslab-memory "));
      const [kept] = await (await caches.open(name)).matchAll();
      return new TextDecoder("latin1").decode(await kept.arrayBuffer()).includes(text);
    }"""
    assert page.evaluate(holds, "pipe-loss")
    assert not page.evaluate(holds, "73.912648")


def test_the_rehearsal_is_once(visited):
    """Where nobody asks, the whole house is worked through; the next start does not do it again, and answers as before."""
    before = visited.evaluate(ASK, request("pipe-loss"))
    poll(lambda: marked(visited, "rehearsed"), 30)
    assert visited.evaluate(ASK, request("pipe-loss")) == before
    open_ready(visited, visited.url)
    visited.wait_for_timeout(4000)
    assert not marked(visited, "rehearsed")


def test_the_rehearsal_waits_for_the_reader(visited):
    """Who asks while it goes on is answered, and it goes on when nobody does."""
    poll(lambda: marked(visited, "rehearsal"))
    assert visited.evaluate(ASK, request("suction-reach"))["ok"]
    assert not marked(visited, "rehearsed")
    poll(lambda: marked(visited, "rehearsed"), 30)


@pytest.mark.parametrize("spoilt", ["new Uint8Array(0)", "whole.subarray(0, 9_000_000)", "whole.fill(7, 0, 4096)", "whole.fill(7, 4096)"],
                         ids=["empty", "cut off", "head overwritten", "all overwritten but the head"])
def test_a_spoilt_memory_is_thrown_away(visited, spoilt):
    """The page answers all the same, and a good one takes its place."""
    visited.evaluate(SPOIL.replace("SPOILT", spoilt))
    open_ready(visited, visited.url)
    assert not from_memory(visited)
    assert visited.evaluate(ASK, request("pipe-loss"))["ok"]
    poll(lambda: kept(visited))
    open_ready(visited, visited.url)
    assert from_memory(visited)


def test_where_room_runs_out_the_pages_come_first(page, copy, serve):
    """A memory kept before there was a word of the pages makes room for them, and the calculators go on without it."""
    worker = copy / "sw.js"
    worker.rename(copy / "sw.away")
    server = serve(copy)
    room(page, server.url, quotaSize=42_000_000)  # for either, not for both
    open_ready(page, server.url + PAGE)
    poll(lambda: kept(page))
    (copy / "sw.away").rename(worker)
    open_ready(page, page.url)
    assert from_memory(page)
    poll(lambda: line(page) == READY)
    assert page.evaluate(SIZES) == []
    open_ready(page, page.url)
    assert page.evaluate(ASK, request("pipe-loss"))["ok"]
    page.wait_for_timeout(3000)  # the next try to keep it finds no room
    assert page.evaluate(SIZES) == []
