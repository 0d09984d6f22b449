"""What the site ships and what it is made with, each with its licence as the package itself states it."""

import json
import re
import xml.etree.ElementTree as etree
from importlib.metadata import distribution
from pathlib import Path

from scripts import site_markup
from scripts.site_markup import sub
from scripts.toolbox import ROOT

MODULES = ROOT / "scripts" / "node_modules"
NOTICES = "third-party-licences.txt"
# Parts of the site that come from others: where the metadata is, and what of it is shipped.
SHIPPED = (
    ("pip", "mkdocs-material", "the frame of the pages: style sheets, the script of menu and search, icons"),
    ("pip", "mkdocs", "the search index"),
    ("npm", "pyodide", "Python in the page, made smaller: what is not called is out, plainer modules of ours stand for some of its own"),
    ("npm", "uqr", "the square code of a paper's link"),
)
# Inside the packages above and not in their metadata.
INSIDE = (
    ("CPython standard library and interpreter, in pyodide", "PSF-2.0", "the interpreter's own licence text"),
    ("Emscripten runtime, in pyodide", "MIT or NCSA", "from memory"),
    ("zlib, in pyodide", "Zlib", "from memory"),
    ("Material Design Icons, in mkdocs-material", "Apache-2.0", "file LICENSE beside the icons"),
)
WORDS = {"MIT License": "MIT", "BSD License": "BSD", "Apache Software License": "Apache-2.0"}


def pip(name: str) -> tuple[str, str, str]:
    """Version, licence and address that an installed Python package states of itself."""
    data = distribution(name).metadata
    classes = [line.rpartition(" :: ")[2] for line in data.get_all("Classifier", []) if line.startswith("License ::")]
    stated = data.get("License-Expression") or data.get("License") or ""
    licence = stated if stated and len(stated) < 60 else " and ".join(WORDS.get(one, one) for one in classes)
    urls = dict(line.split(", ", 1) for line in data.get_all("Project-URL", []))
    address = data.get("Home-page") or next((urls[key] for key in ("Homepage", "Source", "Repository", "Source Code") if key in urls), "")
    return data["Version"], licence, address


def npm(name: str) -> tuple[str, str, str]:
    """The same of an npm package."""
    data = json.loads((MODULES / name / "package.json").read_text(encoding="utf-8"))
    return data["version"], data.get("license", ""), re.sub(r"#readme$", "", data.get("homepage", ""))


READERS = {"pip": pip, "npm": npm}


def tools() -> list[tuple[str, str]]:
    """Packages that build the site and are not shipped, as the lists name them; test tools need not be installed."""
    shipped = {name for _, name, _ in SHIPPED}
    found = []
    names = re.findall(r"(?m)^([A-Za-z][\w.-]*)", (ROOT / "scripts" / "requirements.in").read_text(encoding="utf-8"))
    found += [("pip", name) for name in names]
    packages = json.loads((ROOT / "scripts" / "package.json").read_text(encoding="utf-8"))
    found += [("npm", name) for name in packages["dependencies"]]
    return [(kind, name) for kind, name in dict.fromkeys(found) if name not in shipped]


def row(kind: str, name: str, what: str = "") -> list[str]:
    """The cells of one package.  Raises ValueError when it states no licence."""
    version, licence, address = READERS[kind](name)
    if not licence:
        raise ValueError(f"{name} states no licence")
    return [f"{name} {version}", licence, *([what] if what else []), address]


def grid(label: str, head: tuple[str, ...], rows: list[list[str]]) -> etree.Element:
    """A table with links for cells that are addresses."""
    box = etree.Element("div")
    body = site_markup.table(box, head, label)
    for cells in rows:
        line = etree.SubElement(body, "tr")
        for text in cells:
            if text.startswith("https://"):
                sub(sub(line, "td"), "a", text.split("//")[1], href=text)
            else:
                sub(line, "td", text)
    return box


def table() -> etree.Element:
    """What is shipped, what is inside it, and the way to the texts of the licences."""
    shipped = [row(*one) for one in SHIPPED]
    inside = [[name, licence, stated, ""] for name, licence, stated in INSIDE]
    box = grid("Shipped with the site", ("package", "licence", "what of it", "where it comes from"), shipped + inside)
    line = sub(box, "p", "The notices of these packages, as they come with them: ")
    sub(line, "a", NOTICES, href=f"../{NOTICES}").tail = "."
    return box


def tool_table() -> etree.Element:
    """What the site is made with, and no reader gets."""
    return grid("Made with", ("package", "licence", "where it comes from"), [row(*one) for one in tools()])


def notices() -> str:
    """The licence files of the shipped packages, one after the other, as they stand."""
    parts = []
    for kind, name, _ in SHIPPED:
        if kind == "npm":
            texts = [file.read_text(encoding="utf-8") for file in sorted((MODULES / name).glob("LICEN[SC]E*"))]
        else:
            files = [file for file in distribution(name).files or () if re.search(r"dist-info/(licenses/)?LICEN[SC]E", str(file))]
            texts = [Path(str(file.locate())).read_text(encoding="utf-8") for file in files]
        version, licence, address = READERS[kind](name)
        said = "\n".join(texts).strip() or f"{licence}; the text of the licence and the source: {address}"
        parts.append(f"{name} {version} ({licence})\n{address}\n\n{said}\n")
    return f"\n{'-' * 100}\n\n".join(parts)


def write(site: Path) -> None:
    """Put the notices into the site."""
    (site / NOTICES).write_text(notices(), encoding="utf-8")
