"""Times the suction under a slab: on this machine's Python, in the browser's, and beside SciPy's banded solver.

    python scripts/measure/slab.py [--site build/site]

The site must have been built (scripts/build.py --out build/site); without it only this machine's Python is timed.
Everything is printed, nothing is judged: compare ratios of one run.  ``everything`` runs in both Pythons.
"""

import time
from math import log
from typing import Any

ENOUGH = 0.3  # s for each figure
CELLS = (0.75, 0.5, 0.4, 0.3, 0.25)  # m: 192 to 1728 cells of a slab of 12 x 9 m
LAYER, LENGTH = 5e-5, 5.0  # m3/s/Pa, m
PITS = ((3.0, 3.0), (9.0, 6.0))

TWO_PITS = {
    "slab": [{"width": "12 m", "depth": "9 m"}],
    "pits": [{"x": f"{x} m", "y": f"{y} m", "radius": "100 mm", "flow": "20 L/s"} for x, y in PITS],
    "layer_conductance": f"{LAYER} m3/s/Pa", "leakage_length": f"{LENGTH} m",
}
FAN = {"shutoff": "400 Pa", "free_flow": "160 cfm"}
HOUSE = {  # 128 m2 in an L, 512 cells
    "slab": [{"width": "12 m", "depth": "8 m"}, {"x": "12 m", "width": "8 m", "depth": "4 m"}],
    "footings": [{"x1": "12 m", "y1": "0 m", "x2": "12 m", "y2": "4 m"}],
    "pits": [{"x": "0.5 m", "y": "6 m", "radius": "230 mm", "suction": "125 Pa", "on_tile": True}],
    "tile": "perimeter", "layer_conductance": "1.1e-5 m3/s/Pa", "slab_leakance": "2.8e-7 m/s/Pa",
    "joint_conductance": "3e-7 m3/s/Pa/m",
}
LID = {"lid_diameter": "600 mm", "lid_gap": "1 mm", "fan": FAN, "pipe_size": "4", "pipe_length": "10 m"}
TESTED = {
    **{name: TWO_PITS[name] for name in ("slab",)}, "pits": TWO_PITS["pits"][:1], "test_flow": "20 L/s",
    "test_holes": [
        {"x": f"{x} m", "y": f"{y} m", "suction": f"{s} Pa", "baseline": "-1 Pa"}
        for x, y, s in ((5, 3, 66), (8, 3, 28), (11, 8, 10), (3, 8, 29), (11, 1, 13))
    ],
}


def least_ms(work: Any) -> float:
    """Least ms of one call, after one that does not count: whoever else uses the machine only adds."""
    work()
    found: list[float] = []
    begun = time.perf_counter()
    while time.perf_counter() - begun < ENOUGH or len(found) < 3:
        start = time.perf_counter()
        work()
        found.append((time.perf_counter() - start) * 1e3)
    return min(found)


def grid_of(h: float) -> Any:
    """The slab of two pits on cells of side h [m]."""
    from calculators.physics.slab_grid import Grid
    from calculators.physics.slab_outline import Outline

    return Grid(Outline([(0.0, 0.0, 12.0, 9.0)]), h=h, T=LAYER, L=LAYER / LENGTH**2)


def forget() -> None:
    """Cells and fits that are kept between two answers."""
    from calculators.physics import slab_tile
    from calculators.trade import reach_field, reach_layer

    slab_tile.factored.cache_clear()
    reach_field._grid.cache_clear()
    reach_layer._fit.cache_clear()


def house() -> None:
    """Tile, lid gap, riser and fan of the L-shaped house: the plan's flow per suction is the soil of the pit."""
    import calculators

    reach = calculators.solve("suction-reach", HOUSE)
    G = reach["flow"] / reach["pit_suctions"][0]
    calculators.solve("sump-sealing", {**LID, "soil_conductance": f"{G} m3/s/Pa"})


def everything(_: Any = None) -> dict[str, Any]:
    """ms of each part: cells against time, the whole solve, the house, the fit, the answer of the page in its stages."""
    import json

    import calculators
    from calculators import page
    from calculators.physics.slab_field import Equations, Field
    from calculators.physics.slab_source import Pit

    def fresh(name: str, inputs: dict[str, Any]) -> Any:
        def work() -> None:
            forget()
            calculators.solve(name, inputs)

        return work

    def staged(stage: str) -> Any:
        request = json.dumps({"calculator": "suction-reach", "inputs": TWO_PITS, "uid": "w1"})

        def work() -> None:
            if stage == "answer":
                forget()
                page._last = None
            getattr(page, stage)(request)

        return work

    pits = [Pit(x, y, 0.1, 0.02) for x, y in PITS]
    rows = []
    for h in CELLS:
        grid = grid_of(h)
        equations = Equations(grid)
        rows.append(
            {
                "cells": len(grid.places),
                "cells_ms": least_ms(lambda h=h: grid_of(h)),
                "factor": least_ms(lambda grid=grid: Equations(grid)),
                "pits": least_ms(lambda equations=equations: Field(equations, pits)),
                "solve": least_ms(lambda equations=equations: equations.solve({0: 1.0})),
            }
        )
    return {
        "rows": rows,
        "whole": {
            "suction-reach, 432 cells, two pits": least_ms(fresh("suction-reach", TWO_PITS)),
            "the same, a pit moved (cells kept)": least_ms(lambda: calculators.solve("suction-reach", TWO_PITS)),
            "L-shaped house: tile, lid gap, riser, fan": least_ms(lambda: (forget(), house())),
            "fit to five test holes": least_ms(fresh("suction-reach", TESTED)),
            "page, first stage": least_ms(staged("answer")),
            "page, second stage with the plan": least_ms(staged("rest")),
        },
    }


def slope(rows: list[dict[str, float]], what: str) -> float:
    """Exponent of the time against the number of cells: slope of the best line through the logarithms."""
    points = [(log(row["cells"]), log(row[what])) for row in rows]
    mx, my = (sum(p[i] for p in points) / len(points) for i in (0, 1))
    return sum((x - mx) * (y - my) for x, y in points) / sum((x - mx) ** 2 for x, _ in points)


def lower_band(grid: Any) -> Any:
    """The matrix of a grid, shape (bandwidth + 1, cells), as SciPy's banded solvers want its lower half."""
    import numpy

    n, band = len(grid.places), max(abs(i - j) for i, row in enumerate(grid.links) for j, _ in row)
    matrix = numpy.zeros((band + 1, n))
    matrix[0] = grid.diagonal()
    for i, row in enumerate(grid.links):
        for j, c in row:
            if j < i:
                matrix[i - j, j] = -c
    return matrix


def reference(h: float) -> tuple[float, float, float]:
    """SciPy's banded Cholesky on the same matrix: ms of factor and of solve, and the greatest difference of both answers."""
    import numpy
    from scipy.linalg import cho_solve_banded, cholesky_banded

    from calculators.physics.slab_field import Equations

    grid = grid_of(h)
    matrix = lower_band(grid)
    right = numpy.zeros(matrix.shape[1])
    right[0] = 1.0
    factor = cholesky_banded(matrix, lower=True)
    theirs = cho_solve_banded((factor, True), right)
    ours = numpy.array(Equations(grid).solve({0: 1.0}))
    return (
        least_ms(lambda: cholesky_banded(matrix, lower=True)),
        least_ms(lambda: cho_solve_banded((factor, True), right)),
        float(abs(ours / theirs - 1).max()),
    )


def main() -> None:
    """Print the tables."""
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
    parts = ("cells_ms", "factor", "pits", "solve")
    for where, times in found.items():
        print(f"\n{where}, ms\n  cells   making them   factor   two pits   one right side")
        for row in times["rows"]:
            print(f"  {row['cells']:5d}" + "".join(f"{row[part]:12.2f}" for part in parts))
        print("  slope" + "".join(f"{slope(times['rows'], part):12.2f}" for part in parts) + "   (time goes as cells to this power)")
        for what, ms in times["whole"].items():
            print(f"  {ms:8.1f}  {what}")
    print("\nSciPy's banded Cholesky on the same matrix, this machine, ms")
    print("  cells      factor   one right side   ours/SciPy: factor, side   greatest difference")
    for h, row in zip(CELLS, found["this Python"]["rows"], strict=True):
        factor, side, off = reference(h)
        print(f"  {row['cells']:5d}{factor:12.3f}{side:12.3f}{row['factor'] / factor:18.0f}{row['solve'] / side:10.0f}{off:18.1e}")


if __name__ == "__main__":
    main()
