"""The job sheet in Chromium, on the built site: adding, flowing on, keeping, files, other tabs, paper, no network."""

import contextlib
import json
import re
import time
from pathlib import Path
from typing import Any

import pytest

from conftest import Gate, poll
from job_files import LANE, PIPE, lane
from test_every_page import violations
from test_frame_browser import SHIFTS

SHEET = "job-sheet/"
PIPE_LOSS = "07-pipe-and-fan/pipe-loss/"
FAN_POINT = "07-pipe-and-fan/fan-and-system/"
PUMP = "06-water-and-pump/pump-sizing/"
GAUGE = "Gauge at start-up, marked on the gauge"
PREFIX = "underslab:job:"


def stored(page: Any) -> list[dict[str, Any]]:
    """The job files that the browser keeps."""
    texts = page.evaluate(
        "Object.keys(localStorage).filter(k => k.startsWith('underslab:job:')).sort().map(k => localStorage.getItem(k))"
    )
    return [json.loads(text)["file"] for text in texts]


def keep(page: Any, url: str, file: Any, key: str = "one", *, now: bool = True) -> None:
    """Puts a job into the browser as if it had been kept before."""
    page.goto(url + "privacy-and-offline/")
    text = file if isinstance(file, str) else json.dumps({"mark": "m", "changed": "2026-11-20", "file": file})
    page.evaluate("([key, text]) => localStorage.setItem(key, text)", [PREFIX + key, text])
    if now:
        page.evaluate("id => localStorage.setItem('underslab:job-now', id)", key)


def small(title: str = "Small house") -> dict[str, Any]:
    return {"underslab_job": 1, "title": title, "inputs": {"pipe-loss": dict(PIPE)}}


class Sheet:
    """The job sheet in an open page."""

    def __init__(self, page: Any, url: str) -> None:
        self.page, self.url = page, url

    def open(self) -> "Sheet":
        self.page.goto(self.url + SHEET)
        return self

    def ready(self) -> "Sheet":
        poll(lambda: self.page.locator("[data-sheet] [data-write]").count() > 3, seconds=60)
        return self

    def press(self, act: str) -> None:
        self.page.locator(f".desk [data-act={act}]").first.click()

    def said(self) -> str:
        return self.page.locator(".desk [data-slot=said]").inner_text()

    def trouble(self) -> str:
        return self.page.locator(".desk [data-slot=trouble]").inner_text()

    def title(self) -> str:
        return self.page.locator(".sheet__head p").inner_text()

    def line(self, label: str) -> Any:
        return self.page.locator(f'[data-write="{label}"]')

    def titles(self) -> list[str]:
        return [text for text in self.page.locator("#job-picker option").all_inner_texts() if "The example" not in text]

    def upload(self, name: str, data: bytes) -> None:
        self.page.locator(".desk input[type=file]").set_input_files(
            {"name": name, "mimeType": "application/json", "buffer": data}
        )


@pytest.fixture
def sheet(page: Any, site_server: Any) -> Sheet:
    """The sheet of a fresh browser, not opened yet."""
    return Sheet(page, site_server.url)


def add(page: Any) -> str:
    """Presses "Add to job sheet" and gives what the page says then."""
    page.locator("[data-act=job]").click()
    said = page.locator("[data-slot=job]")
    poll(lambda: re.match(r"(Added|Not added|The calculator)", said.inner_text()), seconds=60)
    return said.inner_text()


def box(page: Any, path: str) -> Any:
    return page.locator(f'section.worked input[data-path="{path}"]')


def value_words(page: Any, path: str) -> str:
    """What stands in a box with the unit beside it."""
    at = page.locator(f'section.worked [data-at="{path}"]')
    unit = at.locator("select.unit")
    return f"{box(page, path).input_value()} {unit.input_value() if unit.count() else ''}".strip()


# --- adding and flowing


def test_numbers_come_onto_the_sheet_and_are_typed_once(sheet: Sheet) -> None:
    """What is added on one calculator's page stands on the sheet and in the other calculator's boxes, said where from."""
    page = sheet.page
    page.goto(sheet.url + PIPE_LOSS)
    box(page, "pipe_length").fill("47")
    assert "Added to House of" in add(page)
    (file,) = stored(page)
    assert file["house"]["pipe_length"] == "47 ft"
    assert "pipe_length" not in file["inputs"]["pipe-loss"]
    page.goto(sheet.url + FAN_POINT)
    poll(lambda: value_words(page, "pipe_length") == "47 ft", seconds=60)
    hint = page.locator('section.worked [data-at="pipe_length"] .from-job')
    assert "whole house" in (hint.text_content() or "")
    assert box(page, "fan.shutoff").input_value() == "", "nothing of the example is mixed with the house's own numbers"
    sheet.open().ready()
    assert "47 ft" in page.locator("[data-part=house]").inner_text()
    assert "Pressure lost in the vent pipe" in page.locator("[data-part=of-pipe-loss]").inner_text()


def test_a_changed_house_value_says_whom_it_changes(sheet: Sheet) -> None:
    """A value of the house that is typed anew is changed for all, and the page names the calculators that use it."""
    page = sheet.page
    keep(page, sheet.url, {**small(), "house": {"elevation": "400 ft", "pipe_length": "33 ft"},
                           "inputs": {"pipe-loss": {"flow": "60 cfm", "pipe_size": "4"}, "hole-flow": {"fluid": "air", "diameter": "1 in", "pressure": "9 Pa"}}})
    page.goto(sheet.url + PIPE_LOSS)
    poll(lambda: box(page, "elevation").input_value() == "400", seconds=60)
    page.locator("section.worked details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    box(page, "elevation").fill("900")
    said = add(page)
    assert "changed for the whole house" in said
    assert stored(page)[0]["house"]["elevation"] == "900 ft"


def test_pump_line_is_not_the_vent_pipe(sheet: Sheet) -> None:
    """The pump line's size and fittings stay its own: the vent pipe's never come into its boxes."""
    page = sheet.page
    keep(page, sheet.url, {"underslab_job": 1, "title": "Pipes", "house": {"pipe_size": "4", "pipe_length": "33 ft", "fittings": [{"kind": "elbow-90", "count": 3}], "floor_area": "900 ft2"}})
    page.goto(sheet.url + PUMP)
    poll(lambda: "from the job sheet" in page.locator("[data-slot=job]").inner_text(), seconds=60)
    assert box(page, "pipe_length").input_value() == ""
    assert page.locator('section.worked [data-list="fittings"] [data-row]').count() == 0


def test_reference_stays_a_reference(sheet: Sheet) -> None:
    """A number that the job takes from another calculator is shown, and stays taken from there when the form is added again."""
    page = sheet.page
    keep(page, sheet.url, LANE)
    page.goto(sheet.url + PUMP)
    poll(lambda: page.locator('[data-at="pit_suction"] .from-job').count() == 1, seconds=60)
    box(page, "static_lift").fill("10")
    assert add(page).startswith("Added")
    own = stored(page)[0]["inputs"]["pump-sizing"]
    assert (own["pit_suction"], own["static_lift"]) == ("@sump-sealing.suction_open", "10 ft")


def test_wrong_number_is_not_added(sheet: Sheet) -> None:
    """What cannot be read is not put on the sheet: the page says which field, and the job stays as it was."""
    page = sheet.page
    keep(page, sheet.url, small())
    page.goto(sheet.url + PIPE_LOSS)
    poll(lambda: "from the job sheet" in page.locator("[data-slot=job]").inner_text(), seconds=60)
    box(page, "flow").fill("6,5")
    said = add(page)
    assert said.startswith("Not added.")
    assert "Air flow" in said
    assert "pipe-loss" not in said
    assert stored(page) == [small()]


def test_link_of_the_sheet_opens_the_calculator_with_its_numbers(sheet: Sheet) -> None:
    """Each calculator's part leads to its page with the numbers of this job, and can be taken off the sheet."""
    page = sheet.page
    keep(page, sheet.url, lane(title="Lane"))
    sheet.open().ready()
    page.locator("[data-part=of-pump-sizing] a").first.click()
    poll(lambda: value_words(page, "static_lift") == "9 ft", seconds=60)
    sheet.open().ready()
    page.locator("[data-part=of-sump-sealing] [data-act=drop]").click()
    poll(lambda: page.locator("[data-part=of-sump-sealing]").count() == 0)
    file = stored(page)[0]
    assert "sump-sealing" not in file["inputs"]
    assert str(file["inputs"]["pump-sizing"]["pit_suction"]).endswith("in WC"), "what it took stays as a number"


# --- keeping


def test_every_key_is_kept(sheet: Sheet) -> None:
    """What is typed on the sheet is there after a reload, also when the page dies right after the last key."""
    page = sheet.page
    keep(page, sheet.url, lane())
    sheet.open().ready()
    sheet.line("State tag no.").fill("T 4711")
    page.reload()
    sheet.ready()
    assert sheet.line("State tag no.").input_value() == "T 4711"
    page.wait_for_timeout(700)
    sheet.line("Owner, phone").fill("the owner, 555 0100")
    with contextlib.suppress(Exception):
        page.goto("chrome://crash", timeout=2000)  # kills the renderer, so nothing of the page can tidy up
    time.sleep(2)  # the service worker dies with it; a visit in the same moment would wait for the dead one
    again = page.context.new_page()
    again.goto(sheet.url + SHEET)
    assert {"Owner, phone: the owner, 555 0100", "State tag no.: T 4711"} <= set(stored(again)[0]["notes"])


def test_a_measured_number_becomes_a_record(sheet: Sheet) -> None:
    """A gauge reading is kept with its unit and day as a record of the job; words are kept as a note; nothing is lost."""
    page = sheet.page
    keep(page, sheet.url, lane())
    sheet.open().ready()
    sheet.line(GAUGE).fill("1.3")
    poll(lambda: any(e.get("field") == "gauge_suction" for e in stored(page)[0]["recorded"]))
    entry = next(e for e in stored(page)[0]["recorded"] if e["field"] == "gauge_suction")
    assert entry["value"] == "1.3 in WC"
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", entry["when"])
    sheet.line("Suction in the pit").fill("about one")
    page.wait_for_timeout(1500)
    assert "Suction in the pit: about one" in stored(page)[0]["notes"]
    page.reload()
    sheet.ready()
    assert "1.3 in WC" in page.locator("[data-part=owner]").inner_text()
    assert sheet.line("Suction in the pit").input_value() == "about one"
    sheet.line(GAUGE).fill("")
    assert not any(e["field"] == "gauge_suction" for e in stored(page)[0]["recorded"])


def test_house_form_reaches_sheet_and_dates(sheet: Sheet) -> None:
    """Name, day of the start, rules and open things typed in the form stand on the sheet, with the dates that follow."""
    page = sheet.page
    sheet.open()
    sheet.press("new")
    sheet.ready()
    page.locator("[data-house=title]").fill("Mill Road house")
    page.locator("[data-house=day]").fill("2026-11-20")
    page.locator("[data-house=open]").fill("Ask for the key.\nLook at the attic.")
    page.locator("[data-house=rules][value=us-mn]").check()
    poll(lambda: "20 November 2028" in page.locator("[data-part=dates]").inner_text())
    assert sheet.title() == "Mill Road house"
    assert "Look at the attic." in page.locator("[data-part=open]").inner_text()
    labels = page.locator("[data-part=labels]").inner_text()
    assert "Radon Gas Vent System" in labels
    assert "1303.2402 subp. 5" in labels
    page.locator("[data-house=rules][value=us-pa]").check()
    page.locator("[data-house=rules][value=irc-f]").click()
    assert "At most two" in sheet.said()
    (file,) = stored(page)
    assert (file["title"], file["started"], file["rules"]) == ("Mill Road house", "2026-11-20", ["us-pa", "us-mn"])


def test_full_disk_is_said_and_nothing_is_lost(sheet: Sheet) -> None:
    """With no room left the sheet says so, keeps what was kept before, offers a file, and goes on once there is room."""
    page = sheet.page
    keep(page, sheet.url, lane())
    sheet.open().ready()
    sheet.line("State tag no.").fill("T 1")
    page.wait_for_timeout(1200)
    page.evaluate("""() => {
        for (let size = 1 << 20; size >= 1; size >>= 1) {
            for (let n = 0; ; n++) {
                try { localStorage.setItem(`fill-${size}-${n}`, "x".repeat(size)); } catch { break; }
            }
        }
    }""")
    before = stored(page)
    sheet.line("State tag no.").fill("T 1 " + "long " * 40)
    assert "no room left" in page.locator(".desk__ask").inner_text()
    assert stored(page) == before
    with page.expect_download() as saved:
        page.locator(".desk__ask [data-act=save]").click()
    assert "T 1 long" in Path(saved.value.path()).read_text("utf-8")
    page.evaluate("Object.keys(localStorage).filter(k => k.startsWith('fill-')).forEach(k => localStorage.removeItem(k))")
    sheet.line("State tag no.").press_sequentially("!")
    assert page.locator(".desk__ask").inner_text() == ""
    assert any("T 1 long" in note for note in stored(page)[0]["notes"])


def test_several_jobs(sheet: Sheet) -> None:
    """Jobs are chosen by name; each keeps its own; deleting asks first and takes one only."""
    page = sheet.page
    keep(page, sheet.url, small("First house"), "a")
    keep(page, sheet.url, small("Second house"), "b")
    sheet.open().ready()
    assert sheet.titles() == ["First house", "Second house"]
    assert sheet.title() == "Second house"
    page.locator("#job-picker").select_option(label="First house")
    sheet.ready()
    poll(lambda: sheet.title() == "First house")
    sheet.press("delete")
    assert "First house" in page.locator(".desk__ask").inner_text()
    page.locator("[data-act=not]").click()
    assert len(stored(page)) == 2
    sheet.press("delete")
    page.locator("[data-act=really]").click()
    assert [file["title"] for file in stored(page)] == ["Second house"]
    page.locator("#job-picker").select_option("")
    assert "invented" in sheet.title()
    assert page.locator("[data-write]").count() == 0


def test_two_tabs_never_overwrite_each_other(sheet: Sheet) -> None:
    """A change in one tab is taken up by an idle one; a tab where somebody types is told and writes nothing over it."""
    page = sheet.page
    keep(page, sheet.url, lane())
    sheet.open().ready()
    other = Sheet(page.context.new_page(), sheet.url).open().ready()
    page.evaluate("document.activeElement.blur()")
    other.line("State tag no.").fill("from the other tab")
    poll(lambda: sheet.line("State tag no.").count() and sheet.line("State tag no.").input_value() == "from the other tab")
    other.page.evaluate("document.activeElement.blur()")
    sheet.line("Address").fill("mine")
    poll(lambda: other.line("Address").count() and other.line("Address").input_value() == "mine")
    # Both type at once: the one whose state is old writes nothing.
    page.evaluate("addEventListener('storage', (event) => event.stopImmediatePropagation(), true)")
    page.evaluate("""() => { const key = Object.keys(localStorage).find(k => k.startsWith('underslab:job:'));
        const kept = JSON.parse(localStorage.getItem(key)); kept.mark = 'another'; kept.file.notes.push('State tag no.: newer');
        localStorage.setItem(key, JSON.stringify(kept)); }""")
    sheet.line("Owner, phone").fill("older tab")
    assert "another tab" in page.locator(".desk__ask").inner_text()
    (file,) = stored(page)
    assert "State tag no.: newer" in file["notes"]
    assert "Owner, phone: older tab" not in file["notes"]
    page.locator("[data-act=fork]").click()
    sheet.ready()
    assert len(stored(page)) == 2
    assert sheet.line("Owner, phone").input_value() == "older tab"


def test_broken_record_is_said_and_kept(sheet: Sheet) -> None:
    """What the browser keeps but cannot be read is never written over: it can be saved as it is, or deleted."""
    page = sheet.page
    keep(page, sheet.url, '{"mark": "m", "file": {"title": "Half', "x")
    sheet.open()
    assert "cannot be read" in sheet.said()
    with page.expect_download() as saved:
        sheet.press("save")
    assert Path(saved.value.path()).read_text("utf-8") == '{"mark": "m", "file": {"title": "Half'
    assert page.evaluate("localStorage.getItem('underslab:job:x')") == '{"mark": "m", "file": {"title": "Half'


def test_job_that_no_longer_solves_is_explained(sheet: Sheet) -> None:
    """A kept job that the calculators refuse names the field in words and lets the calculator be taken off."""
    page = sheet.page
    wrong = small()
    wrong["inputs"]["pipe-loss"]["flow"] = "60 ft"
    wrong["inputs"]["hole-flow"] = {"fluid": "water", "diameter": "1 in", "head": "1 ft"}
    keep(page, sheet.url, wrong)
    sheet.open()
    poll(lambda: "Air flow" in sheet.trouble(), seconds=60)
    assert stored(page) == [wrong]
    page.locator("[data-slot=trouble] [data-act=drop]").click()
    sheet.ready()
    assert list(stored(page)[0]["inputs"]) == ["hole-flow"]


# --- files


def test_file_goes_out_and_comes_back_the_same(sheet: Sheet, browser: Any) -> None:
    """A saved file opens in another browser as the same job, and the command line's own reader takes it."""
    from calculators import job

    page = sheet.page
    keep(page, sheet.url, lane(title="Out and back"))
    sheet.open().ready()
    with page.expect_download() as saved:
        sheet.press("save")
    assert saved.value.suggested_filename == "out-and-back.json"
    data = Path(saved.value.path()).read_bytes()
    assert json.loads(data) == lane(title="Out and back")
    job.run(json.loads(data))
    context = browser.new_context()
    fresh = Sheet(context.new_page(), sheet.url).open()
    fresh.upload("job.json", data)
    fresh.ready()
    assert stored(fresh.page) == [lane(title="Out and back")]
    fresh.upload("job.json", data)
    poll(lambda: len(stored(fresh.page)) == 2)
    assert len(set(fresh.titles())) == 2
    context.close()


def test_share_hands_over_a_file_where_the_device_can(sheet: Sheet) -> None:
    """With file sharing the job goes to it as a file; without it is saved; both are said."""
    page = sheet.page
    keep(page, sheet.url, small())
    sheet.open().ready()
    with page.expect_download():
        sheet.press("share")
    poll(lambda: "was saved instead" in sheet.said())
    page.evaluate("""() => {
        window.shared = [];
        Object.defineProperty(navigator, "canShare", {value: (data) => data.files[0].type === "text/plain"});
        Object.defineProperty(navigator, "share", {value: async (data) => { window.shared.push([data.files[0].name, await data.files[0].text()]); }});
    }""")
    sheet.press("share")
    poll(lambda: "handed over" in sheet.said())
    ((name, text),) = page.evaluate("window.shared")
    assert name == "small-house.txt"
    assert json.loads(text) == small()


def test_older_file_opens_with_a_note(sheet: Sheet) -> None:
    """A file of a lower version opens, and the sheet says which version it was."""
    sheet.open()
    sheet.upload("old.json", json.dumps({**small("Old house"), "underslab_job": 0}).encode())
    sheet.ready()
    assert "version 0" in sheet.page.locator("[data-part=notes]").inner_text()


HOSTILE = {
    "not JSON": (b"<html>", "not JSON"),
    "cut off": (json.dumps(LANE).encode()[:900], "not JSON"),
    "not text": (b"\xff\xfe\x00\x01" * 9, "not be read as text"),
    "a list": (b"[1, 2]", "one JSON object"),
    "another thing": (b'{"name": "x"}', "no such member"),
    "newer": (json.dumps({**LANE, "underslab_job": 7}).encode(), "version 7"),
    "large": (json.dumps({**LANE, "notes": ["x" * 2_000_000]}).encode(), "larger than 1 MB"),
    "deep": (b'{"underslab_job": 1, "house": ' + b'{"fan":' * 3000 + b"1" + b"}" * 3001, "nested too deeply"),
    "wrong number": (json.dumps({**small(), "inputs": {"pipe-loss": {**PIPE, "flow": "-1 cfm"}}}).encode(), "Air flow"),
    "prototype": (b'{"underslab_job": 1, "__proto__": {"polluted": true}}', "no such member"),
}


def test_hostile_files_are_refused_and_nothing_is_overwritten(sheet: Sheet) -> None:
    """Each wrong file is refused in words; the job in hand and all that is kept stay as they were; nothing of it runs."""
    page = sheet.page
    keep(page, sheet.url, small())
    sheet.open().ready()
    for name, (data, words) in HOSTILE.items():
        sheet.upload(f"{name}.json", data)
        poll(lambda words=words: "nothing was changed" in sheet.trouble().lower() and words in sheet.trouble(), seconds=30)
        assert stored(page) == [small()], name
        assert sheet.title() == "Small house", name
        assert page.evaluate("({}).polluted === undefined")
    sheet.upload("fine.json", json.dumps(small("Fine")).encode())
    poll(lambda: sheet.title() == "Fine")


def test_markup_in_a_file_is_text(sheet: Sheet) -> None:
    """Script and markup in title, notes, names and records of a file are shown as text and never run."""
    page = sheet.page
    bad = "<img src=x onerror=document.title='hit'><script>document.title='hit'</script>\" autofocus onfocus=alert(1) x=\""
    raw = lane(title=bad[:190], notes=[bad, f"{GAUGE}: {bad}"], open=[bad])
    raw["recorded"][0] |= {"who": bad[:190]}
    raw["house"]["fan"]["name"] = bad[:190]
    raw["inputs"]["spillage-check"]["appliances"][0]["name"] = bad[:190]
    sheet.open()
    sheet.upload("bad.json", json.dumps(raw).encode())
    sheet.ready()
    assert page.title() != "hit"
    assert page.locator("[data-sheet] img, [data-sheet] script, .desk img, .desk script, [onfocus], [onerror]").count() == 0
    assert bad[:60] in page.locator("[data-part=open]").inner_text()
    assert sheet.line(GAUGE).input_value() == bad


# --- paper, network, access


def test_paper_has_every_row_and_no_control(sheet: Sheet) -> None:
    """On paper each part, row and typed value stands, nothing to press does, and a small job takes three pages at most."""
    page = sheet.page
    keep(page, sheet.url, small())
    sheet.open().ready()
    sheet.line("State tag no.").fill("T 4711")
    page.wait_for_timeout(1200)
    pdf = page.pdf(format="Letter")
    assert len(re.findall(rb"/Type\s*/Page[^s]", pdf)) <= 3
    page.emulate_media(media="print")
    hidden = page.locator("[data-sheet] :is(dt, dd, li, h2)").evaluate_all(
        "all => all.filter(one => one.getClientRects().length === 0).map(one => one.textContent)"
    )
    assert hidden == []
    for act in page.locator(".desk button, .desk select, .desk form, [data-sheet] button, [data-sheet] a, [data-sheet] .acts").all():
        assert not act.is_visible()
    assert sheet.line("State tag no.").is_visible()


def test_sheet_works_without_a_network(page: Any, site: Path, serve: Any) -> None:
    """With the server dead the sheet opens, works out the job, takes a key and keeps it; a calculator adds to it."""
    server = serve(site)
    page.goto(server.url)
    poll(lambda: page.locator("#offline-state").inner_text() == "Ready for the basement.", seconds=60)
    server.stop()
    sheet = Sheet(page, server.url).open()
    sheet.press("new")
    sheet.ready()
    page.goto(server.url + PIPE_LOSS)
    page.locator("[data-act=job]").wait_for()
    page.locator("[data-act=reset]").click()
    assert "Added" in add(page)
    sheet.open().ready()
    assert page.locator("[data-part=of-pipe-loss]").count() == 1


def test_without_the_engine_the_job_is_kept_and_can_be_saved(sheet: Sheet) -> None:
    """When the calculators do not start the sheet says so in words; the job can still be saved and is not touched."""
    page = sheet.page
    keep(page, sheet.url, small())
    page.route(re.compile(r".*worker\.mjs.*"), lambda route: route.abort())
    sheet.open()
    poll(lambda: "did not start" in page.locator(".desk [data-slot=engine]").inner_text(), seconds=60)
    with page.expect_download() as saved:
        sheet.press("save")
    assert json.loads(Path(saved.value.path()).read_text("utf-8")) == small()
    assert stored(page) == [small()]


def test_without_script_the_page_is_the_example(browser: Any, site_server: Any) -> None:
    """With scripts off the page holds the whole sheet of the invented house, labels and owner's sheet included, no control."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site_server.url + SHEET)
    words = page.locator("[data-sheet]").inner_text()
    for part in ("Quarry Lane house", "What does not meet", "Start-up record", "Labels", "Owner's sheet"):
        assert part in words
    assert page.locator("[data-sheet] :is(input, button)").count() == 0
    context.close()


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_a_sheet_in_use(browser: Any, site_server: Any, width: int, scheme: str) -> None:
    """axe-core finds no violation on a job in hand with its form unfolded and a question open, nor sideways scroll."""
    context = browser.new_context(viewport={"width": width, "height": 844}, color_scheme=scheme, bypass_csp=True)
    page = context.new_page()
    keep(page, site_server.url, lane())
    sheet = Sheet(page, site_server.url).open().ready()
    page.locator(".desk details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    sheet.press("delete")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    small_targets = page.locator(".desk :is(button, select, input:not([type=radio]):not([type=checkbox]):not([type=file])), [data-sheet] :is(button, input)").evaluate_all(
        "all => all.filter(one => one.getClientRects().length && one.getBoundingClientRect().height < 47.5).map(one => one.outerHTML.slice(0, 90))"
    )
    assert small_targets == []
    context.close()


@pytest.mark.parametrize("width", [412, 1350])
def test_the_example_is_not_seen_before_ones_own_job(page, site_server, width):
    """Nothing jumps while a kept job comes in the place of the example, and the example is back when it is chosen."""
    sheet = Sheet(page, site_server.url)
    page.set_viewport_size({"width": width, "height": 900})
    keep(page, sheet.url, small())
    page.add_init_script(SHIFTS)
    page.route("**/engine/**/*.wasm", (gate := Gate()).hold)
    sheet.open()
    poll(lambda: "calculators" in page.locator(".desk [data-slot=engine]").inner_text())
    assert not page.locator("[data-example-only]").is_visible()
    assert not page.get_by_text("Quarry Lane", exact=False).first.is_visible()
    gate.open()
    sheet.ready()
    assert sheet.title() == "Small house"
    assert page.evaluate("shifted()") < 0.05
    page.locator("#job-picker").select_option("")
    poll(lambda: page.locator("[data-example-only]").is_visible())
