"""Drawings by name, to scale, from the numbers of an answer or of the handbook's own house."""

from importlib import import_module
from typing import Any

_CALCULATORS = {
    "tile-section": "tile-offset",
    "sump-section": "pump-sizing",
    "lid-section": "sump-sealing",
    "clearance-sketch": "discharge-clearances",
    "suction-plan": "suction-reach",
}
# Drawings of the handbook alone: their numbers stand in them, no calculator gives them.
_PAGES = (
    "u-tube",
    "test-holes-plan",
    "trap-depth",
    "pipe-fall",
    "joist-holes",
    "garage-penetration",
    "three-routes",
    "fan-places",
    "worst-case",
    "suction-pits",
    "roof-boot",
    "device-place",
    "time-line",
    "parts-of-a-house",
    "membrane",
    "block-wall",
    "ice-stages",
    "ladder",
    "finished-basement",
    "passive-pipe",
    "duct-under-slab",
    "quiet-mount",
    "laundry-pit",
    "pump-pipe",
    "backup-levels",
    "discharge-line",
    "side-outlet",
    "condensate-bypass",
    "labels",
    "draft-hood",
    "pipe-ends",
    "suction-fall",
    "tile-loop",
    "winter-pull",
)
NAMES = (*_CALCULATORS, *_PAGES)


def draw(name: str, uid: str, result: Any = None, system: str = "us") -> str:
    """The drawing as a figure; ``uid`` leads its ids.  Without a result it shows the handbook's own house.

    Raises LookupError for an unknown name.
    """
    if name not in NAMES:
        raise LookupError(f"known drawings: {', '.join(NAMES)}")
    if result is None and name in _CALCULATORS:
        from ... import solve
        from ..house import inputs_of

        result = solve(_CALCULATORS[name], inputs_of(_CALCULATORS[name]))
    module = import_module(f"{__name__}.{name.replace('-', '_')}")
    drawn: str = module.figure(result, uid, system)
    return drawn
