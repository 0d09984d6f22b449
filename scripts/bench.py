"""Measures speed and size of the built site beside two pages that do the same small calculation, in one run.

    python scripts/bench.py [--site build/site] [--quick] [--build] [--runs 5] [--link slow4g] [--only keys]

The site must have been built with --compress (scripts/build.py --out build/site --compress).  Compared with: stock
Pyodide on the page's thread, and JavaScript by hand.  Everything is printed, nothing is judged: times depend on the
machine and on who else uses it, so compare the ratios, or two runs made one after the other.

First answer: from the start of navigation to the frame after the answer to an edit that is made as early as the field
takes it.  Cold: fresh profile.  Warm: second visit.  Offline: second visit, every connection refused.  Next: fresh profile,
the start page was open for 20 s.  Readable: until the frame after the worked example stands there as the page was built.
"4x": all of the page's processes get a quarter of the time.  Keys: one edit after the other, on a first visit and on the next one, for
which the browser has kept what it compiled; text = until the answer is put.
"""

import argparse
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path
from typing import Any

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.build import compress_all
from scripts.measure import peers, solving
from scripts.measure.link import LINKS, Link
from scripts.measure.shipped import in_wasm
from scripts.measure.visit import Page, profile, visit
from scripts.serve import Server, make_server
from scripts.toolbox import ROOT, size

# Calculator -> the field that is edited.
EDITED = {
    "pipe-loss": "flow", "pump-sizing": "static_lift", "sump-sealing": "pipe_length", "tile-offset": "wall_thickness",
    "discharge-clearances": "discharge.height_above_grade", "fan-point": "elevation",
    "suction-reach": "layer_conductance",  # a field of 349 cells
}
STOCK = Page("stock Pyodide", "stock.html", "#flow", 75, "#answer")
SCRIPT = Page("JavaScript", "script.html", "#flow", 75, "#answer")
MODES = ("cold", "warm", "offline", "next")
PARTS = ("sizes", "solving", "first", "keys")
RHYTHMS = {"quick": 30, "with pauses": 250}  # ms from an answer to the next key


class Bench:
    """What the measurements share: browser, servers, how often, what to print."""

    def __init__(self, options: argparse.Namespace, playwright: Any, servers: dict[str, Server]) -> None:
        self.browser, self.options = playwright.chromium, options
        self.ports = {name: server.server_address[1] for name, server in servers.items()}

    def link(self, page: Page, speed: str = "none") -> Link:
        return Link(self.ports["peers" if page in (STOCK, SCRIPT) else "site"], speed)

    def expected(self, page: Page) -> str:
        """The answer to the edit, from a visit that is not counted."""
        link = self.link(page)
        with profile() as folder:
            found = visit(self.browser, page, link, folder)
        link.close()
        return str(found["text"])

    def first(self, page: Page, mode: str, expect: str, slow: float = 1) -> list[dict[str, Any]]:
        """Visits in this mode: cold, warm, offline or next."""
        found = []
        for _ in range(self.options.runs):
            link = self.link(page, self.options.link)
            with profile() as folder:
                if mode in ("warm", "offline"):
                    visit(self.browser, page, link, folder, expect=expect, settle=True)
                link.whole = mode != "offline"
                found.append(visit(self.browser, page, link, folder, expect=expect, slow=slow, other=mode == "next"))
            link.close()
        return found

    def keys(self, page: Page, slow: float, gap: float) -> list[dict[str, Any]]:
        """A first visit and the next one."""
        link = self.link(page)
        values = [f"{page.value * (1 + 0.01 * (1 + i % 10)):.4g}" for i in range(self.options.keys)]
        with profile() as folder:
            found = [visit(self.browser, page, link, folder, slow=slow, keys=(values, gap), settle=first) for first in (True, False)]
        link.close()
        return [one["keys"] for one in found]


def page_of(site: Path, calculator: str) -> Page:
    """The page that holds a calculator, and a value beside the one that stands in the edited field."""
    for file in sorted(site.rglob("index.html")):
        text = file.read_text(encoding="utf-8")
        if f'data-calculator="{calculator}"' in text:
            section = text[text.index(f'data-calculator="{calculator}"') :]
            box = re.search(rf'<input[^>]*data-path="{re.escape(EDITED[calculator])}"[^>]* value="([\d.]+)', section)
            if not box:
                raise RuntimeError(f"{file}: no number stands in {EDITED[calculator]}")
            lead = f'section[data-calculator="{calculator}"]'
            return Page(calculator, file.parent.relative_to(site).as_posix() + "/", f'{lead} [data-path="{EDITED[calculator]}"]',
                        float(box[1]) * 1.25, f'{lead} [data-slot="now"]')
    raise RuntimeError(f"no page of {site} holds {calculator}")


def middle(values: list[float]) -> float:
    return statistics.median(values)


def p95(values: list[float]) -> float:
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]


def spread(values: list[float]) -> str:
    return f"{middle(values):.0f} ({min(values):.0f}-{max(values):.0f})"


def table(title: str, head: list[str], rows: list[list[str]]) -> None:
    widths = [max(len(row[i]) for row in [head, *rows]) for i in range(len(head))]
    print(f"\n{title}")
    for row in [head, *rows]:
        print("  " + "  ".join(cell.ljust(w) if i == 0 else cell.rjust(w) for i, (cell, w) in enumerate(zip(row, widths, strict=True))))
    sys.stdout.flush()


def first_answers(bench: Bench, site: Page) -> None:
    expect = {page: bench.expected(page) for page in (site, STOCK, SCRIPT)}
    rows = []
    sizes: dict[Page, list[float]] = {}
    used: dict[Page, list[float]] = {}
    ways = [(mode, slow) for slow in ((1,) if bench.options.quick else (1, 4)) for mode in MODES]
    for mode, slow in ways:
        times: dict[Page, list[float]] = {}
        for page in (site, STOCK, SCRIPT) if mode in ("cold", "warm") else (site,):
            found = bench.first(page, mode, expect[page], slow)
            times[page] = [one["answered"] for one in found]
            if (mode, slow) == ("cold", 1):
                sizes[page] = [one["bytes"] for one in found]
                used[page] = [one["memory"] for one in found]
            if page == site:
                longest, readable = (max(one[what] for one in found) for what in ("longest", "readable"))
        if mode == "warm":
            warm = times
        base = times if mode in ("cold", "warm") else warm  # what the other two do not have: their second visit
        name = mode if slow == 1 else f"{mode}, 4x"
        rows.append([name, spread(times[site]), *(spread(times[p]) if p in times else "-" for p in (STOCK, SCRIPT)),
                     *(f"{middle(times[site]) / middle(base[p]):.2f}" for p in (STOCK, SCRIPT)), f"{readable:.0f}", f"{longest:.0f}"])
    head = ["first answer, ms", "Underslab", "stock Pyodide", "JavaScript", "/stock", "/JavaScript", "readable, most", "longest task"]
    how = f"median (least-most) of {bench.options.runs}, link {bench.options.link}"
    table(f"First live answer on the page of {site.name}: {how}", head, rows)
    rows = []
    for name, amounts in (("bytes fetched", sizes), ("memory of the pages' processes", used)):
        counts = [middle(amounts[page]) for page in (site, STOCK, SCRIPT)]
        rows.append([name, *map(size, counts), f"{counts[0] / counts[1]:.2f}", f"{counts[0] / counts[2]:.1f}"])
    table("Cold, until the first live answer", ["", "Underslab", "stock Pyodide", "JavaScript", "/stock", "/JavaScript"], rows)


def keystrokes(bench: Bench, pages: list[Page]) -> None:
    for slow in (4,) if bench.options.quick else (1, 4):
        rows = []
        for page in pages:
            for rhythm, gap in RHYTHMS.items():
                row = [f"{page.name}, {rhythm}"]
                for found in bench.keys(page, slow, gap):
                    text = [one[0] for one in found["times"] if one[0] is not None]
                    frame = [one[1] for one in found["times"]]
                    row += [f"{middle(text):.1f}", f"{p95(text):.1f}", f"{p95(frame):.1f}", f"{found['longest']:.0f}",
                            str(len(frame) - len(text))]
                rows.append(row)
        columns = ["text median", "text p95", "frame p95", "longest task", "lost"]
        head = ["from key to answer, ms", *(f"{visit}: {column}" if column == columns[0] else column
                                            for visit in ("first visit", "next") for column in columns)]
        table(f"Keys, pages slowed {slow} times" if slow > 1 else "Keys, full speed", head, rows)


def solving_times(site: Path) -> None:
    from calculators import job

    raw = json.loads((ROOT / "calculators" / "data" / "jobs" / "quarry-lane.json").read_bytes())
    done = job.run(raw)
    asked = {name: job.inputs_of_job(done.file, name, done.results)[0] for name in done.results}
    script = Path(solving.__file__)
    fresh = "import sys, json, solving; print(json.dumps(solving.everything(json.load(sys.stdin))))"
    environment = {**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{script.parent}"}
    native = json.loads(subprocess.run([sys.executable, "-c", fresh], input=json.dumps(asked), env=environment, check=True,
                                       capture_output=True, text=True).stdout)
    wasm = in_wasm(script, site, asked)
    rows = [["catalogue imported", f"{native['import']:.0f}", f"{wasm['import']:.0f}", f"{wasm['import'] / native['import']:.1f}", "", ""]]
    for name, own in native["solve"].items():
        there = wasm["solve"][name]
        rows.append([name, f"{own['solve']:.2f}", f"{there['solve']:.2f}", f"{there['solve'] / own['solve']:.1f}",
                     f"{there['first']:.2f}", f"{there['rest']:.1f}"])
    head = ["ms", "CPython", "wasm", "wasm/CPython", "wasm, first answer", "wasm, the rest"]
    table(f"Solving the Quarry Lane house (wasm under Node, which starts Python in {wasm['start']:.0f} ms)", head, rows)


def files(site: Path) -> None:
    rows = []
    for file in sorted((site / "engine").glob("*/*")):
        if file.suffix not in (".br", ".gz"):
            packed = file.with_name(file.name + ".br")
            rows.append([file.name, size(file.stat().st_size), size(packed.stat().st_size) if packed.is_file() else "-"])
    total = sum(f.stat().st_size for f in (site / "engine").glob("*/*.br"))
    table("The calculator part of the site", ["file", "raw", "brotli"], [*rows, ["together", "", size(total)]])


def build_time() -> None:
    with tempfile.TemporaryDirectory() as out:
        start = time.perf_counter()
        command = [sys.executable, ROOT / "scripts" / "build.py", "--out", Path(out) / "site"]
        subprocess.run(command, check=True, cwd=ROOT, stdout=subprocess.DEVNULL)
        spent = time.perf_counter() - start
        pages = len(list((Path(out) / "site").rglob("index.html")))
    table("Building the site, without compression", ["s", "pages", "s a page"], [[f"{spent:.1f}", str(pages), f"{spent / pages:.3f}"]])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--site", type=Path, default=ROOT / "build" / "site")
    parser.add_argument("--quick", action="store_true", help="two visits each, few keys: a look, not a figure")
    parser.add_argument("--build", action="store_true", help="also build the site once and time that")
    parser.add_argument("--runs", type=int, default=5, help="visits for each first answer")
    parser.add_argument("--keys", type=int, default=40, help="keys for each page and rhythm")
    parser.add_argument("--link", choices=list(LINKS), default="none", help="speed of the network for first answers")
    parser.add_argument("--only", choices=PARTS, action="append", help="just this part; may be given again for another")
    options = parser.parse_args()
    if options.quick:
        options.runs, options.keys = 2, 15
    site = options.site.resolve()
    if not list((site / "engine").glob("*/*.wasm.br")):
        sys.exit(f"{site} is no compressed site: python scripts/build.py --out {site} --compress")
    from playwright.sync_api import sync_playwright

    wanted = options.only or PARTS
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} at the start")
    if "sizes" in wanted:
        files(site)
    if "solving" in wanted:
        solving_times(site)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        peers.write(Path(folder))
        compress_all(Path(folder))
        servers = {"site": make_server(site, port=0), "peers": make_server(Path(folder), port=0)}
        for server in servers.values():
            threading.Thread(target=server.serve_forever, daemon=True).start()
        bench = Bench(options, playwright, servers)
        pages = [page_of(site, name) for name in EDITED]
        if "first" in wanted:
            first_answers(bench, pages[0])
        if "keys" in wanted:
            keystrokes(bench, [*pages, STOCK, SCRIPT])
    if options.build:
        build_time()
    print(f"\nload {os.getloadavg()[0]:.1f} at the end")


if __name__ == "__main__":
    main()
