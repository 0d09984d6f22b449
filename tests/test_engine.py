"""The page's side of the calculator engine: order of answers, watchdog, restart, words when it does not start."""

import pytest

from conftest import poll

# A worker that speaks the protocol and does at once what a test asks of it.
STAND_IN = """
let turn = 0;
self.onmessage = ({data: {id, text}}) => {
  const {calculator, n} = JSON.parse(text);
  if (calculator === "hang") for (;;);
  if (calculator === "break") throw new Error("broken on purpose");
  if (calculator === "fault") return self.postMessage({id, fault: "Traceback ..."});
  setTimeout(() => self.postMessage({id, text: JSON.stringify({n, turn: ++turn, name: self.name})}), 150);
};
self.postMessage({stage: "fetching", done: 5, total: 10});
self.postMessage({ready: true});
"""
OPEN = """async () => {
  document.head.append(Object.assign(document.createElement("meta"), {name: "calculators", content: "pipe-loss"}));
  window.engine = await import(new URL('assets/js/engine.js', window.__md_scope));
  window.told = [];
  engine.startEngine({
    onProgress: (news) => told.push(["progress", news.stage, news.done, news.total]),
    onReady: () => told.push(["ready"]),
    onFail: ({message, final}) => told.push(["fail", message, final]),
  });
}"""


@pytest.fixture
def stand_in(browser, site_server):
    """A page whose worker is replaced: ``stand_in(code)`` opens it; no stored copies come in between."""
    context = browser.new_context(service_workers="block")

    def start(code: str = STAND_IN, **answer: object):
        page = context.new_page()
        page.route("**/worker.mjs", lambda route: route.fulfill(
            **{"status": 200, "content_type": "text/javascript", "body": code, **answer}))
        page.goto(site_server.url)
        page.evaluate(OPEN)
        return page

    yield start
    context.close()


def told(page) -> list[list[object]]:
    return page.evaluate("told")


def send(page, name: str, **request: object) -> None:
    """Ask without waiting; the outcome comes to stand in ``window[name]``."""
    page.evaluate("""([name, request]) => {
      window[name] = null;
      engine.ask(request).then((answer) => { window[name] = {answer}; }, (error) => {
        window[name] = {error: error.message, kind: error instanceof engine.EngineError ? "EngineError" : error.constructor.name}; });
    }""", [name, request])


def outcome(page, name: str, seconds: float = 20) -> dict[str, object]:
    return poll(lambda: page.evaluate("(name) => window[name]", name), seconds)


def test_tells_progress_and_ready(stand_in):
    """The page hears of waiting, of bytes and of readiness, in this order, and the state stands in the document."""
    page = stand_in()
    poll(lambda: ["ready"] in told(page))
    assert told(page) == [["progress", "waiting", 0, 0], ["progress", "fetching", 5, 10], ["ready"]]
    assert page.evaluate("document.documentElement.dataset.engine") == "ready"


def test_names_the_pages_calculators_to_the_worker(stand_in):
    """The worker learns through its name which calculators the page holds."""
    page = stand_in()
    send(page, "a", calculator="x", n=1)
    assert '"calculators":["pipe-loss"]' in outcome(page, "a")["answer"]["name"]


def test_newest_request_of_a_form_wins(stand_in):
    """Of many quick edits the last one is answered; those that it overtook resolve to null; none waits for ever."""
    page = stand_in()
    for n in range(5):
        send(page, f"r{n}", calculator="x", uid="one", n=n)
    assert outcome(page, "r4")["answer"]["n"] == 4
    assert [outcome(page, f"r{n}")["answer"] for n in range(4)] == [None] * 4
    assert outcome(page, "r4")["answer"]["turn"] <= 2


def test_the_same_asked_again_is_worked_out_once(stand_in):
    """What is under way answers the newer request; the older one is overtaken, and another question between counts."""
    page = stand_in()
    poll(lambda: ["ready"] in told(page))
    for name, n in (("a", 1), ("b", 1)):
        send(page, name, calculator="x", uid="one", n=n)
    assert outcome(page, "b")["answer"]["turn"] == 1
    assert outcome(page, "a")["answer"] is None
    for name, n in (("c", 1), ("d", 2), ("e", 1)):
        send(page, name, calculator="x", uid="one", n=n)
    assert [outcome(page, name)["answer"] for name in "cd"] == [None, None]
    assert outcome(page, "e")["answer"]["n"] == 1


def test_forms_do_not_overtake_each_other(stand_in):
    """Two forms of one page both get their answers."""
    page = stand_in()
    send(page, "a", calculator="x", uid="one", n=1)
    send(page, "b", calculator="x", uid="two", n=2)
    assert outcome(page, "a")["answer"]["n"] == 1
    assert outcome(page, "b")["answer"]["n"] == 2


def test_quick_stage_goes_before_the_rest(stand_in):
    """While the engine is busy a quick answer is put before another form's slower remainder."""
    page = stand_in()
    poll(lambda: ["ready"] in told(page))
    send(page, "busy", calculator="x", uid="one", n=0)
    send(page, "quick", calculator="x", uid="two", n=1)
    send(page, "rest", calculator="x", uid="three", n=2, stage="rest")
    assert outcome(page, "quick")["answer"]["turn"] < outcome(page, "rest")["answer"]["turn"]


def test_endless_calculation_is_stopped(stand_in):
    """A calculation that does not end is stopped with words after 5 s, and the next request is answered."""
    page = stand_in()
    send(page, "stuck", calculator="hang", uid="one")
    lost = outcome(page, "stuck", 9)
    assert lost["kind"] == "EngineError"
    assert "took too long" in lost["error"]
    send(page, "next", calculator="x", uid="one", n=7)
    assert outcome(page, "next")["answer"]["n"] == 7
    assert ["progress", "restarting", 0, 0] in told(page)


def test_broken_worker_is_started_again_but_not_for_ever(stand_in):
    """A worker that dies is started again; one that dies each time is given up with words."""
    page = stand_in()
    for n in range(4):
        send(page, f"r{n}", calculator="break", uid="one")
        assert outcome(page, f"r{n}")["kind"] == "EngineError"
    poll(lambda: page.evaluate("engine.engineState()") == "failed")
    last = told(page)[-1]
    assert last[0] == "fail"
    assert last[2] is True
    assert "worked example" in last[1]
    send(page, "after", calculator="x")
    assert outcome(page, "after")["kind"] == "EngineError"


def test_fault_of_the_program_is_told(stand_in):
    """A fault inside Python rejects that request only."""
    page = stand_in()
    send(page, "bad", calculator="fault", uid="one")
    assert outcome(page, "bad")["kind"] == "EngineError"
    send(page, "good", calculator="x", uid="one", n=3)
    assert outcome(page, "good")["answer"]["n"] == 3


@pytest.mark.parametrize("answer", [{"status": 404, "body": ""}, {"body": "throw new Error('no')"},
                                    {"body": "postMessage({fail: 'no WebAssembly here'})"}])
def test_engine_that_does_not_start_is_said(stand_in, answer):
    """When the worker cannot start the page is told so in words, and pending requests are turned down."""
    page = stand_in(**answer)
    send(page, "a", calculator="x")
    assert "did not start" in outcome(page, "a")["error"]
    poll(lambda: page.evaluate("engine.engineState()") == "failed")
    assert told(page)[-1][0] == "fail"
    assert told(page)[-1][2] is True


def test_silent_engine_is_given_up(stand_in):
    """A worker of which nothing is heard is given up after 20 s."""
    page = stand_in("/* says nothing */")
    page.clock.install()
    page.reload()
    page.evaluate(OPEN)
    send(page, "a", calculator="x")
    page.clock.fast_forward(19_000)
    assert page.evaluate("engine.engineState()") == "starting"
    page.clock.fast_forward(1_500)
    assert "did not start" in outcome(page, "a")["error"]


@pytest.mark.parametrize("lost", ["pyodide.asm.wasm", "library-*.zip", "pyodide.asm.mjs", "pyodide.mjs"])
def test_lost_file_of_the_engine_is_noticed(browser, site_server, lost):
    """When a file of the engine cannot be had the page is told soon, not after a long wait."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    context.route(f"**/{lost}", lambda route: route.fulfill(status=503, body="no"))
    page.goto(site_server.url)
    page.evaluate(OPEN)
    poll(lambda: page.evaluate("engine.engineState()") == "failed", 10)
    context.close()


def test_saving_visitors_start_the_engine_by_asking(browser, site_server):
    """A visitor who saves data downloads the engine only when a number is changed."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.add_init_script("Object.defineProperty(navigator, 'connection', {value: {saveData: true}})")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(site_server.url)
    page.evaluate(OPEN)
    page.wait_for_timeout(1500)
    assert page.evaluate("engine.engineState()") == "waiting"
    assert not [url for url in asked if "/engine/" in url]
    send(page, "a", calculator="none")
    assert isinstance(outcome(page, "a")["answer"], dict)
    context.close()
