"""One calculator a file.  ``NAMES`` lists them in the order of the job; the file of ``pipe-loss`` is ``pipe_loss``."""

NAMES = (
    "tile-offset",
    "needed-suction",
    "tile-loop",
    "sump-sealing",
    "pump-sizing",
    "pipe-loss",
    "fan-point",
    "discharge-clearances",
    "spillage-check",
    "hole-flow",
)
