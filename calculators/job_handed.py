"""Which result of one calculator is the input of another, so that a job offers it where nothing was typed yet."""

PIT = ("@sump-sealing.suction_open", "@fan-point.pit_suction")
HOUSE_AIR = ("@sump-sealing.leak_flow", "@fan-point.house_air")
COLD = (
    "@needed-suction.design_day.outdoor_temperature",
    "@spillage-check.outdoor_temperature",
    "@cold-stack.outdoor_temperature",
)
BEFORE = ("@radon-test.earlier_reading",)
HANDED: dict[str, dict[str, tuple[str, ...]]] = {
    "tile-loop": {"flow": ("@sump-sealing.soil_flow_open",), "pit_suction": PIT},
    "pump-sizing": {"pit_suction": PIT},
    "pipe-loss": {"flow": ("@fan-point.flow",)},
    "cold-stack": {
        "flow": ("@fan-point.flow",),
        "outdoor_temperature": COLD,
        "wind": ("@needed-suction.design_day.wind",),
    },
    "running-cost": {"house_air_flow": HOUSE_AIR},
    "spillage-check": {"system_house_air": HOUSE_AIR, "outdoor_temperature": COLD},
    "radon-units": {"value": BEFORE},
    "settling-time": {"air_changes": ("@entry-balance.air_changes",)},
    "entry-balance": {"concentration": BEFORE, "air_changes": ("@settling-time.air_changes",)},
}
# What was measured on the job and is asked for again.
RECORDED = {"gauge-reading": {"reading_then": ("fan-point", "gauge_suction")}}


def candidates(calculator: str, field: str) -> tuple[str, ...]:
    """References that can fill a field, the best first; never to the calculator itself."""
    found = HANDED.get(calculator, {}).get(field, ())
    return tuple(text for text in found if not text.startswith(f"@{calculator}."))
