"""One calculator a file.  ``NAMES`` lists them in the order of the job; the file of ``pipe-loss`` is ``pipe_loss``."""

NAMES = (
    "vent-route",
    "tile-offset",
    "needed-suction",
    "tile-loop",
    "sump-sealing",
    "pump-sizing",
    "pipe-loss",
    "fan-point",
    "gauge-reading",
    "pipe-takeoff",
    "running-cost",
    "discharge-clearances",
    "cold-stack",
    "spillage-check",
    "radon-test",
    "settling-time",
    "hole-flow",
    "radon-units",
    "purge-time",
    "entry-balance",
)
