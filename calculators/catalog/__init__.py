"""One calculator a file.  ``NAMES`` lists them in the order of the job; a file's name is its calculator's with ``_``."""

NAMES = (
    "tile-offset",
    "sump-sealing",
    "pump-sizing",
    "pipe-loss",
    "fan-point",
    "discharge-clearances",
    "hole-flow",
)
