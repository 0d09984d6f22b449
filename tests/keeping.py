"""What the tests of the kept site share: the line in the foot, what is kept, a first visit, a changed site."""

from pathlib import Path

from conftest import poll

READY = "Ready for the basement."
ASK = """async (request) => {
  const {startEngine, ask} = await import(new URL('assets/js/engine.js', window.__md_scope));
  startEngine();
  return await ask(request);
}"""


def line(page) -> str:
    return page.evaluate("document.getElementById('offline-state')?.textContent ?? ''")


def kept(page) -> list[str]:
    """Addresses that are kept, in all versions together."""
    return page.evaluate(
        "async () => (await Promise.all((await caches.keys()).map(async n => (await (await caches.open(n)).keys())"
        ".map(r => r.url)))).flat()"
    )


def versions(page) -> list[str]:
    """Names of the kept versions of the site; the memory of a started Python is none."""
    return [name for name in page.evaluate("caches.keys()") if not name.startswith("underslab-memory ")]


def first_visit(page, url: str) -> None:
    page.goto(url)
    poll(lambda: line(page) == READY)


def change_home(site: Path, old: str, new: str) -> None:
    home = site / "index.html"
    home.write_text(home.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")


def rebuild_worker(site: Path) -> None:
    from scripts.offline_list import write_worker

    write_worker(site)


def room(page, url: str, **size: int) -> None:
    """The room that the browser gives to this address; as much as ever without a number."""
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", {"origin": url.rstrip("/"), **size})
