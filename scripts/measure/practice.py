"""Times papers and marks of the practice problems: on this machine's Python, and in the browser's.

    python scripts/measure/practice.py [--site build/site]

The site must have been built (scripts/build.py --out build/site); without it only this machine's Python is timed.
Everything is printed, nothing is judged.  A slow phone takes about four times the figures of the browser's Python.
"""

import json
import time
from typing import Any

NUMBER = 20
SEEDS = 8


def asked_of(page: Any, **request: Any) -> tuple[dict[str, Any], float]:
    """The answer of the practice page, and ms.  Raises RuntimeError when it refuses."""
    start = time.perf_counter()
    answer = json.loads(page.practice(json.dumps(request)))
    spent = (time.perf_counter() - start) * 1e3
    if not answer["ok"]:
        raise RuntimeError(f"{request}: {answer}")
    return answer, spent


def everything(_: Any = None) -> dict[str, Any]:
    """ms of the first paper, of later ones, and of marking each of their problems."""
    from calculators import page

    _, warm = asked_of(page, op="warm")
    papers, marks = [], []
    for seed in range(SEEDS):
        paper, spent = asked_of(page, op="compose", number=NUMBER, seed=f"s{seed}")
        papers.append(spent)
        for problem in paper["ids"]:
            marks.append(asked_of(page, op="mark", problem=problem, given="3")[1])
    later = sorted(papers[1:])
    return {"warm": warm, "first": papers[0], "later": later[len(later) // 2], "slowest": later[-1],
            "mark": sorted(marks)[len(marks) // 2], "slowest_mark": max(marks)}


def main() -> None:
    """Print the table."""
    import argparse
    import sys
    from pathlib import Path

    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
    from scripts.measure.shipped import in_wasm
    from scripts.toolbox import ROOT

    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--site", type=Path, default=ROOT / "build" / "site")
    found = {"this Python": everything()}
    if wasm := in_wasm(Path(__file__), parser.parse_args().site):
        found["in the browser's Python"] = wasm
    words = {"warm": "made ready while the page is read", "first": f"first paper of {NUMBER}", "later": "later papers, median",
             "slowest": "later papers, slowest", "mark": "marking one problem, median", "slowest_mark": "marking, slowest"}
    for where, times in found.items():
        print(f"\n{where}, ms")
        for name, said in words.items():
            print(f"  {times[name]:8.1f}  {said}")


if __name__ == "__main__":
    main()
