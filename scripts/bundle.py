"""Makes few small files of the many that the browser's own code is written in: one style sheet, one script a page kind.

Each further file costs a turn of the network, or of the offline worker, before the page is whole; and each rule of a
style sheet is tried on every element of a page, whether it can fit one or not.
"""

import json
import subprocess
from pathlib import Path

from scripts.toolbox import SCRIPTS, node

ENTRIES = ("css/site.css", "js/scope.js", "js/palette.js", "js/engine.js", "js/site.js", "js/practice.js",
           "js/set-paper.js", "js/plan.js")
WORKER = "js/worker.mjs"  # by itself and to be read by people: scripts/pack.py fills in a line
# The engine must be one and the same in all scripts of a page; the others are fetched when they are used.
APART = ("./engine.js", "./plan.js", "./vendor/uqr.mjs")
BROWSERS = "chrome109,firefox115,safari16.4"


def bundle(site: Path) -> None:
    """Put the bundled files in place of what they are made of.  Raises RuntimeError with the bundler's words."""
    assets = site / "assets"
    apart = [f"--external:{name}" for name in APART]
    made = [bundled(site, [*(assets / name for name in ENTRIES), "--minify", f"--outdir={assets}", f"--outbase={assets}", *apart]),
            bundled(site, [assets / WORKER, f"--outfile={assets / WORKER}"])]
    for name in {name for report in made for name in report["inputs"]} - {name for report in made for name in report["outputs"]}:
        (site / name).unlink()


def bundled(site: Path, options: list[str | Path]) -> dict[str, dict[str, object]]:
    """Run the bundler; what it read and wrote."""
    report = site / "bundle.json"
    always = ["--bundle", "--format=esm", "--charset=utf8", f"--target={BROWSERS}", "--log-level=warning", "--allow-overwrite"]
    run(["esbuild", *options, *always, f"--metafile={report}"], site)
    made: dict[str, dict[str, object]] = json.loads(report.read_text(encoding="utf-8"))
    report.unlink()
    return made


def trim_theme(site: Path) -> None:
    """Take out of the theme's style sheets what fits nothing in the pages and scripts.  Raises RuntimeError as above."""
    content = ["**/*.html", "assets/js/*.js", "assets/javascripts/*.js"]
    sheets = site / "assets" / "stylesheets"
    run(["purgecss", "--css", *sorted(sheets.glob("*.css")), "--content", *content, "--output", sheets], site)


def run(command: list[str | Path], site: Path) -> None:
    """Run a tool of scripts/node_modules in the site's folder, under the pinned Node: the machine may have none."""
    tool, *arguments = command
    program = [node(), SCRIPTS / "node_modules" / ".bin" / tool]
    done = subprocess.run([*program, *arguments], cwd=site, capture_output=True, text=True, check=False)
    if done.returncode or done.stderr:
        raise RuntimeError(f"{tool} says:\n{done.stderr[-4000:]}")
