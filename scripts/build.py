"""Builds the whole site with one command: generated pages, MkDocs, the calculator engine, the offline list, the gate.

    python scripts/build.py [--out site] [--compress]

Any warning or fault ends it with a message and exit status 1.  ``--compress`` also writes FILE.br and FILE.gz beside
each file, for a server that hands them out; that is slow the first time and needed for a release only.
"""

import argparse
import gzip
import importlib.util
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts import bundle, check_site, headers, offline_list, pack, site_licences
from scripts.toolbox import CACHE, ROOT, sha256, size

# Left by the theme: source maps, word lists of other languages, a sitemap that is of no use without a fixed address.
NOT_SHIPPED = ("**/*.map", "assets/javascripts/lunr/**/*", "sitemap.xml", "sitemap.xml.gz")
WORTH_COMPRESSING = {".html", ".js", ".mjs", ".css", ".json", ".wasm", ".zip", ".svg", ".txt", ".xml", ".webmanifest"}


def build(out: Path, compress: bool = False) -> None:
    """Build the site into ``out``.  Raises RuntimeError or CalledProcessError at the first step that fails."""
    step("Writing the generated pages")
    if importlib.util.find_spec("scripts.pages"):
        run(sys.executable, "-m", "scripts.pages")
    step("Building the pages")
    run(sys.executable, "-m", "mkdocs", "--quiet", "build", "--strict", "--clean", "--site-dir", out)
    tidy(out)
    vendor(out)
    bundle.bundle(out)
    bundle.trim_theme(out)
    step("Packing the calculators for the browser")
    sizes = pack.put_engine(out, pack.make_library())
    headers.write(out)
    site_licences.write(out)
    version, files, total = offline_list.write_worker(out)
    step("Looking the site over")
    problems = check_site.check(out)
    if problems:
        raise RuntimeError("\n".join(["the site is not fit to be published:", *problems]))
    if compress:
        step("Compressing")
        compress_all(out)
    print(check_site.summary(out))
    print(f"Engine: {', '.join(f'{name} {size(count)}' for name, count in sizes.items())}.")
    print(f"Kept offline: {files} files, {size(total)}, version {version}.")


def step(text: str) -> None:
    print(f"{text} ...", flush=True)


def run(*command: str | Path) -> None:
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}  # the theme's notice about its successor is known
    subprocess.run([str(part) for part in command], cwd=ROOT, env=environment, check=True)


def tidy(site: Path) -> None:
    for pattern in NOT_SHIPPED:
        for file in site.glob(pattern):
            if file.is_file():
                file.unlink()
    lunr = site / "assets" / "javascripts" / "lunr"
    if lunr.exists():
        shutil.rmtree(lunr)


def vendor(site: Path) -> None:
    """Copy the one library that pages use in the browser: it draws a paper's link as a square code."""
    target = site / "assets" / "js" / "vendor" / "uqr.mjs"
    target.parent.mkdir(exist_ok=True)
    shutil.copyfile(ROOT / "scripts" / "node_modules" / "uqr" / "dist" / "index.mjs", target)


def compressed(data: bytes, suffix: str) -> Path:
    """The data as ``.br`` or ``.gz``, kept by their hash: what is slow is done once."""
    import brotli

    copy = CACHE / "compressed" / (sha256(data) + suffix)
    if not copy.exists():
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(brotli.compress(data, quality=11, lgwin=24) if suffix == ".br" else gzip.compress(data, 9, mtime=0))
    return copy


def compress_all(site: Path) -> None:
    """Write FILE.br and FILE.gz where they are smaller."""
    for file in sorted(site.rglob("*")):
        if not file.is_file() or file.suffix not in WORTH_COMPRESSING:
            continue
        data = file.read_bytes()
        for suffix in (".br", ".gz"):
            copy = compressed(data, suffix)
            if copy.stat().st_size < len(data):
                shutil.copyfile(copy, file.with_name(file.name + suffix))


def main() -> int:
    parser = argparse.ArgumentParser(description="Build the whole site.")
    parser.add_argument("--out", type=Path, default=ROOT / "site")
    parser.add_argument("--compress", action="store_true", help="also write .br and .gz files, for a release")
    options = parser.parse_args()
    started = time.monotonic()
    try:
        build(options.out.resolve(), options.compress)
    except (RuntimeError, OSError) as trouble:
        print(trouble, file=sys.stderr)
        return 1
    except subprocess.CalledProcessError as trouble:
        print(f"{' '.join(trouble.cmd)} ended with {trouble.returncode}", file=sys.stderr)
        return 1
    print(f"Built {options.out} in {time.monotonic() - started:.1f} s.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
