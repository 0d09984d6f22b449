"""Makes a zip for a stick from the built site: all pages and worked examples, no calculators, no script at all.

    python scripts/stick.py [site] [--to underslab-stick.zip]

The pages open from a folder (file://): every link names its file.  What needs a program is taken out, and each page
says that the calculators are not in this copy.  Two runs on the same build give the same bytes.
"""

import argparse
import posixpath
import re
import sys
import zipfile
from html import escape
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import urldefrag

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.toolbox import size

FOLDER = "underslab"
EARLIEST = (1980, 1, 1, 0, 0, 0)  # the first date that a zip archive can hold
KEPT = {".html", ".css", ".svg", ".png", ".txt"}
LEFT_OUT = ("404.html", "practice/", "set-a-paper/", "publish/")  # pages of a program, or of a host
POLICY = "default-src 'none'; style-src 'self' file:; img-src 'self' file: data:"
VOID = {"area", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "wbr"}
FOOT = "A copy for a stick: pages and worked examples. The calculators, the practice problems and your own job sheet are not in it."
HINT = "A worked example. The calculators are not in this copy, so its numbers cannot be changed here."
WORDS = f"""Underslab, a copy for a stick

Open {FOLDER}/index.html in a browser. Nothing has to be installed, and no network is needed.
{FOOT}
They are on the site, and there they work without a network too after one visit.

Local code and licensed practice come first. Rules change: look at the edition that each figure names.
"""


def left_out(address: str) -> bool:
    """Whether a file or page of the site, below its root, stays out of the copy."""
    return address.startswith(LEFT_OUT)


def needs_a_program(tag: str, values: dict[str, str]) -> bool:
    """Whether an element does nothing without a script."""
    names = values.get("class", "").split()
    return (
        tag == "script"
        or values.get("rel") in ("manifest", "apple-touch-icon", "modulepreload")
        or values.get("http-equiv", "").lower() == "content-security-policy"
        or (tag == "form" and (values.get("data-md-component") == "palette" or values.get("id") == "look-up"))
        or (tag == "label" and values.get("for") == "__search")
        or values.get("id") in ("__search", "offline-use")
        or "md-search" in names
        or (tag == "p" and "noprint" in names)
    )


class Page(HTMLParser):
    """Writes a page again without its program, every link to the file it means."""

    def __init__(self, html: str, address: str, site: Path) -> None:
        super().__init__(convert_charrefs=False)
        self.address, self.site = address, site
        self.out: list[str] = []
        self.deep: list[str] = []  # open elements of the part that is being left out
        self.instead = ""  # the words in place of the next text
        self.feed(html)
        self.close()

    @property
    def html(self) -> str:
        return "".join(self.out)

    def handle_decl(self, decl: str) -> None:
        self.out.append(f"<!{decl}>")

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        if self.deep or needs_a_program(tag, values):
            if tag not in VOID:
                self.deep.append(tag)
            return
        text = self.get_starttag_text() or ""
        for name in ("href", "src"):
            if name in values and not re.match(r"[a-zA-Z][\w+.-]*:|//", values[name]):
                meant = self.file(values[name])
                if meant is None:  # a page that is not in this copy: its words stay
                    text = re.sub(rf'\s{name}="[^"]*"', "", text, count=1)
                else:
                    text = text.replace(f'{name}="{escape(values[name])}"', f'{name}="{escape(meant)}"', 1)
        self.out.append(text)
        if tag == "head":
            self.out.append(f'\n<meta http-equiv="Content-Security-Policy" content="{POLICY}">')
        if values.get("id") == "offline-state":
            self.instead = FOOT
        if values.get("data-slot") == "engine" and "hint" in values.get("class", ""):
            self.instead = HINT

    handle_startendtag = handle_starttag

    def file(self, link: str) -> str | None:
        """The link to the very file, or None when that is not in this copy.  Raises ValueError for a dead link."""
        path, fragment = urldefrag(link)
        if not path:
            return link
        here = posixpath.dirname(self.address)
        target = posixpath.normpath(posixpath.join(here, path))
        if (self.site / target).is_dir():
            target = posixpath.join(target, "index.html").removeprefix("./")
        if not (self.site / target).is_file():
            raise ValueError(f"{self.address}: dead link {link}")
        if left_out(target) or Path(target).suffix not in KEPT:
            return None
        return posixpath.relpath(target, here or ".") + (f"#{fragment}" if fragment else "")

    def handle_endtag(self, tag: str) -> None:
        if self.deep:
            while self.deep and self.deep.pop() != tag:
                pass
        else:
            self.out.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        if not self.deep:
            self.out.append(escape(self.instead) if self.instead else data)
            self.instead = ""

    def handle_entityref(self, name: str) -> None:
        self.handle_raw(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self.handle_raw(f"&#{name};")

    def handle_raw(self, text: str) -> None:
        if not self.deep:
            self.out.append(text)


def files(site: Path) -> dict[str, bytes]:
    """Every file of the copy by its name below the folder."""
    made = {}
    for file in sorted(site.rglob("*")):
        name = file.relative_to(site).as_posix()
        if not file.is_file() or file.suffix not in KEPT or left_out(name) or name.startswith(("engine/", "search/")):
            continue
        made[name] = file.read_bytes()
        if file.suffix == ".html":
            made[name] = Page(made[name].decode(), name, site).html.encode()
    return made


def write(site: Path, target: Path) -> int:
    """Write the zip and return how many pages are in it."""
    copy = files(site)
    with zipfile.ZipFile(target, "w") as archive:
        for name, data in [("READ-ME.txt", WORDS.encode()), *((f"{FOLDER}/{name}", data) for name, data in copy.items())]:
            entry = zipfile.ZipInfo(name, EARLIEST)
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
            archive.writestr(entry, data, compresslevel=9)
    return sum(name.endswith(".html") for name in copy)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("site", nargs="?", type=Path, default=Path("site"))
    parser.add_argument("--to", type=Path, default=Path("build/underslab-stick.zip"))
    options = parser.parse_args()
    if not (options.site / "index.html").is_file():
        sys.exit(f"{options.site} holds no built site: python scripts/build.py")
    options.to.parent.mkdir(parents=True, exist_ok=True)
    pages = write(options.site.resolve(), options.to)
    print(f"{options.to}: {pages} pages, {size(options.to.stat().st_size)}.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
