"""Job files that the tests start from, and what a refused one says."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from calculators import InputError, job

DATA = Path(__file__).resolve().parents[1] / "calculators" / "data"
LANE = json.loads((DATA / "jobs" / "quarry-lane.json").read_text("utf-8"))
PIPE = {"flow": "60 cfm", "pipe_size": "4", "pipe_length": "33 ft"}
LINE = {"pit_diameter": "18 in", "inflow": "9 gpm", "static_lift": "9 ft", "pipe_size": "2", "pipe_length": "30 ft"}
SMALL = {"underslab_job": 1, "inputs": {"pipe-loss": PIPE}}


def lane(**changed: Any) -> dict[str, Any]:
    """The Quarry Lane file with some members changed."""
    return {**copy.deepcopy(LANE), **changed}


def small(**inputs: Any) -> dict[str, Any]:
    """A job of a few calculators: ``small(pipe_loss={...})``."""
    return {"underslab_job": 1, "inputs": {name.replace("_", "-"): given for name, given in inputs.items()}}


def changed(path: str, value: Any) -> dict[str, Any]:
    """The small job with one thing put in its place: ``inputs.pipe-loss.flow`` or ``recorded``."""
    raw: dict[str, Any] = copy.deepcopy(SMALL)
    *way, last = path.split(".")
    place = raw
    for name in way:
        place = place.setdefault(name, {})
    place[last] = value
    return raw


def problems(raw: Any) -> dict[str, str]:
    """Kind of each problem of a refused job, by path."""
    with pytest.raises(InputError) as caught:
        job.run(raw)
    for one in caught.value.problems:
        assert set(one) == {"field", "problem", "found", "accepts", "kind"}
        assert all(isinstance(value, str) for value in one.values())
    return {one["field"]: one["kind"] for one in caught.value.problems}
