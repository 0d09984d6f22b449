"""Makes few small files of the many that the browser's own code is written in: one style sheet, one script a page kind.

Each further file costs a turn of the network, or of the offline worker, before the page is whole.
"""

import json
import subprocess
from pathlib import Path

from scripts.toolbox import SCRIPTS

ENTRIES = ("css/site.css", "js/scope.js", "js/palette.js", "js/early.js", "js/engine.js", "js/site.js", "js/practice.js",
           "js/set-paper.js", "js/plan.js")
# The engine must be one and the same in all scripts of a page; the others are fetched when they are used.
APART = ("./engine.js", "./plan.js", "./vendor/uqr.mjs")
BROWSERS = "chrome109,firefox115,safari16.4"


def bundle(site: Path) -> None:
    """Put the bundled files in place of what they are made of.  Raises RuntimeError with the bundler's words."""
    assets = site / "assets"
    report = site / "bundle.json"
    options = ["--bundle", "--minify", "--format=esm", "--charset=utf8", f"--target={BROWSERS}", "--log-level=warning"]
    places = [f"--outdir={assets}", f"--outbase={assets}", "--allow-overwrite", f"--metafile={report}"]
    command = [SCRIPTS / "node_modules" / ".bin" / "esbuild", *(assets / name for name in ENTRIES), *options, *places,
               *(f"--external:{name}" for name in APART)]
    done = subprocess.run(command, cwd=site, capture_output=True, text=True, check=False)
    if done.returncode or done.stderr:
        raise RuntimeError(f"the bundler says:\n{done.stderr[-4000:]}")
    made = json.loads(report.read_text(encoding="utf-8"))
    report.unlink()
    for name in {*made["inputs"]} - {*made["outputs"]}:
        (site / name).unlink()
