"""Writes what the pages need and nobody types: the list behind the look-up box.

    python -m scripts.pages
"""

import json
import re
from pathlib import Path

from scripts import site_glossary
from scripts.toolbox import ROOT

DOCS = ROOT / "docs"
TARGET = DOCS / "assets" / "look-up.json"
EVERYDAY = {  # what people call a thing that a page calls otherwise
    "sump": "crock pit basin hole",
    "pit": "crock basin sump",
    "drain": "tile footing french weeping perforated",
    "lid": "cover cap",
    "manometer": "gauge u-tube tube",
    "gauge": "manometer u-tube meter",
    "fan": "blower motor",
    "vent": "stack riser pipe exhaust",
    "outlet": "discharge end exhaust",
    "back-draft": "spillage backdraft draft co carbon monoxide",
    "burner": "furnace heater boiler gas flue",
    "laundry": "washer washing machine",
    "sheet": "membrane plastic liner barrier poly",
    "crawl": "dirt floor",
    "block": "cinder cmu hollow",
    "footing": "footer foundation",
    "sealant": "caulk",
    "frost": "ice frozen freeze",
    "freeze": "ice frozen frost",
    "noise": "hum loud sound",
    "quiet": "noise hum loud sound",
    "alarm": "beep buzzer",
    "power fails": "battery generator outage",
    "backflow": "rpz",
    "silica": "dust",
    "coupling": "boot rubber",
    "stub": "rough-in",
    "passive": "rough-in stub stack builder",
    "hanger": "strap support clamp",
    "slope": "pitch fall",
    "condensate": "sweat drip",
    "relief hole": "weep",
    "back in": "re-entrainment",
    "check valve": "flapper one-way",
}
ASKED_AS = {  # everyday names that are looked for as such: each gets a line of its own in the list
    "01-before-you-go/dust-and-air/": ("Silica", "Ladder", "Lifting"),
    "02-read-the-building/block-walls/": ("Cinder block",),
    "02-read-the-building/crawl-space/": ("Dirt floor", "Plastic sheet", "Membrane"),
    "02-read-the-building/old-systems/": ("Rough-in", "Stub", "Passive pipe"),
    "04-under-the-slab/find-the-drain/": ("French drain", "Weeping tile", "Footer drain"),
    "05-the-sump/": ("Crock", "Basin", "Pit"),
    "05-the-sump/laundry/": ("Washer",),
    "06-water-and-pump/relief-hole/": ("Weep hole",),
    "06-water-and-pump/backup/": ("Battery backup", "Generator"),
    "08-where-it-ends/re-entry/": ("Re-entrainment",),
    "09-air-the-house-burns/spillage-test/": ("Backdraft",),
}


def front_matter(text: str) -> dict[str, str]:
    """Title and description of a page."""
    match = re.match(r"---\n(.*?)\n---\n", text, re.DOTALL)
    rows = (line.partition(":") for line in (match[1].splitlines() if match else ()))
    return {key.strip(): value.strip().strip("\"'") for key, _, value in rows}


def address(path: Path, anchor: str = "") -> str:
    """The address of a page below the site's root."""
    relative = path.relative_to(DOCS).with_suffix("")
    folder = relative.parent if relative.name == "index" else relative
    return ("" if str(folder) == "." else f"{folder.as_posix()}/") + (f"#{anchor}" if anchor else "")


def slug(heading: str) -> str:
    """The anchor that the site gives a heading."""
    return re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", heading).strip().lower())


def words(text: str) -> str:
    """Words to find a page by: its own and their everyday names."""
    found = text.lower()
    return " ".join([found, *(names for word, names in EVERYDAY.items() if word in found)])


def entries() -> list[dict[str, str]]:
    """Pages, their headings and the glossary's terms."""
    rows = []
    for path in sorted(DOCS.rglob("*.md")):
        if "theme" in path.relative_to(DOCS).parts:
            continue
        text = path.read_text(encoding="utf-8")
        head = front_matter(text)
        title = head.get("title", path.stem)
        headings = re.findall(r"^#{2,3} (.+?)(?:\s*\{.*\})?$", text, re.MULTILINE)
        row = {"t": title, "u": address(path), "w": words(f"{title} {head.get('description', '')}")}
        worked = re.search(r"^/// worked \| (\S+)", text, re.MULTILINE)
        rows.append(row | ({"c": worked[1]} if worked else {}))
        rows += [{"t": f"{name} ({title})", "u": row["u"], "w": ""} for name in ASKED_AS.get(row["u"], ())]
        common = ("what you decide here", "what can hurt you", "how it works", "worked example", "figures to remember", "common mistakes",
                  "what your local code may change")
        rows += [{"t": f"{heading} ({title})", "u": address(path, slug(heading)), "w": words(heading)}
                 for heading in headings if heading.lower() not in common and len(heading) > 2]
        if path == site_glossary.GLOSSARY:
            rows += [{"t": term, "u": address(path, anchor), "w": words(f"{term} {also}")} for term, anchor, also in glossary(text)]
    return rows


def glossary(text: str) -> list[tuple[str, str, str]]:
    """Terms with their anchors and the other names that their sentences give them."""
    found = re.findall(r"^- \*\*(.+?)\*\*\{ #([\w-]+) \}: (.*)$", text, re.MULTILINE)
    return [(term, anchor, " ".join(re.findall(r"(?:also|everyday names are) ([^.]*)", said))) for term, anchor, said in found]


def main() -> None:
    """Write the list."""
    TARGET.write_text(json.dumps(entries(), ensure_ascii=False, separators=(",", ":")), encoding="utf-8")


if __name__ == "__main__":
    main()
