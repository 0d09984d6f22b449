"""The last gate before the site is published: reads every built page and lists what must not be there.

    python scripts/check_site.py [site]
"""

import gzip
import re
import statistics
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urldefrag, urlsplit

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.toolbox import size

CSP = "default-src 'none'; script-src 'self'; style-src 'self';"
NO_TEXT = {"script", "style", "pre", "code", "textarea"}  # a block may be shown there, and stands there on purpose
OUTSIDE = re.compile(r"(?i)^\s*(?:[a-z][a-z0-9+.-]*:)?//|^\s*(?:https?|ftp|javascript|blob):")
LOADING = {"src", "srcset", "poster", "data", "action", "formaction", "background", "ping", "manifest"}


class Page(HTMLParser):
    """What one page holds: its ids, its links, and its faults."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.ids: list[str] = []
        self.links: list[str] = []
        self.faults: list[str] = []
        self.policy_before_scripts = False
        self.open: list[str] = []
        self.scripts = 0
        self.feed(html)
        self.close()
        if not self.policy_before_scripts:
            self.faults.append("no content security policy before the first script")
        self.faults += [f"id '{name}' stands twice" for name in sorted({i for i in self.ids if self.ids.count(i) > 1})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        if tag in NO_TEXT:
            self.open.append(tag)
        if tag == "meta" and values.get("http-equiv", "").lower() == "content-security-policy":
            self.policy_before_scripts = self.scripts == 0 and values.get("content", "").startswith(CSP)
        if tag == "script":
            self.scripts += values.get("type") != "application/json"
            if "src" not in values and values.get("type") != "application/json":
                self.faults.append("a script inside the page")
        if tag == "style" or "style" in values:
            self.faults.append(f"a style inside the page ({tag})")
        if "id" in values:
            self.ids.append(values["id"])
        for name, value in values.items():
            self.look_at(tag, name, value)

    handle_startendtag = handle_starttag

    def look_at(self, tag: str, name: str, value: str) -> None:
        if name.startswith("on"):
            self.faults.append(f"an event attribute: {tag} {name}")
        loads = name in LOADING or (name in ("href", "xlink:href") and tag != "a")
        if loads and OUTSIDE.match(value):
            self.faults.append(f"loads from outside: {tag} {name}={value}")
        elif name in ("href", "src", "xlink:href") and not re.match(r"(?i)[a-z][a-z0-9+.-]*:|//", value):
            self.links.append(value)
        elif name == "href" and value.lower().startswith("javascript:"):
            self.faults.append(f"a script in a link: {value}")

    def handle_endtag(self, tag: str) -> None:
        if tag in NO_TEXT and tag in self.open:
            self.open.remove(tag)

    def handle_data(self, data: str) -> None:
        if not self.open and (found := re.search(r"(?m)^.*///.*$", data)):
            self.faults.append(f"a block that was not understood: {found.group().strip()[:100]}")


def check(site: Path) -> list[str]:
    """All faults of the site, one line each; an empty list means none."""
    pages = {file: Page(file.read_text(encoding="utf-8")) for file in sorted(site.rglob("*.html"))}
    problems = [f"{file.relative_to(site)}: {fault}" for file, page in pages.items() for fault in page.faults]
    for file, page in pages.items():
        dead = [link for link in page.links if not leads(link, file, site, pages)]
        problems += [f"{file.relative_to(site)}: dead link {link}" for link in dead]
    for file in sorted(site.rglob("*.css")):
        text = file.read_text(encoding="utf-8")
        problems += [f"{file.relative_to(site)}: loads from outside: {found}"
                     for found in re.findall(r"(?:@import|url\()\s*[\"']?((?:https?:)?//[^\"')]+)", text)]
    if not pages:
        problems.append(f"{site} holds no page")
    for needed in ("index.html", "404.html", "sw.js", "manifest.webmanifest"):
        if not (site / needed).is_file():
            problems.append(f"{needed} is missing")
    return problems


def leads(link: str, file: Path, site: Path, pages: dict[Path, Page]) -> bool:
    """Whether a link of this site arrives: at a file, and at the id that it names."""
    path, fragment = urldefrag(link)
    path = unquote(urlsplit(path).path)
    target = file if not path else site / path.lstrip("/") if path.startswith("/") else file.parent / path
    target = target.resolve()
    if not target.is_relative_to(site.resolve()):
        return False
    if target.is_dir():
        target /= "index.html"
    if not target.is_file():
        return False
    page = pages.get(target)
    return not fragment or page is None or unquote(fragment) in page.ids or fragment == "__top"


def summary(site: Path) -> str:
    """Sizes in one line, for the log."""
    packed = [len(gzip.compress(file.read_bytes(), 6)) for file in site.rglob("*.html")]
    files = [file for file in site.rglob("*") if file.is_file() and file.suffix not in (".br", ".gz")]
    everything = sum(file.stat().st_size for file in files)
    return (f"{len(packed)} pages; HTML gzip median {size(statistics.median(packed))}, largest {size(max(packed))}; "
            f"whole site {size(everything)}.")


def main() -> int:
    site = Path(sys.argv[1] if len(sys.argv) > 1 else "site").resolve()
    problems = check(site)
    print("\n".join(problems) if problems else summary(site))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
