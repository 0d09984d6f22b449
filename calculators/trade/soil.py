"""How much air the soil gives: a figure, a test, or a remembered preset, each with its honest range."""

from typing import Any, NamedTuple

from ..physics import fan
from ..tables import si_of, table
from ..work import Work

CONDUCTANCE = "cfm/in WC"


class Soil(NamedTuple):
    """Conductance [m3/s/Pa], the factor by which it may be larger or smaller [1], and why."""

    conductance: float
    factor: float
    why: str


def soil_of(work: Work, soil_conductance: float | None, measured: dict[str, Any] | None, soil: str | None) -> Soil:
    """The soil from one of its three inputs [SI].  A test becomes a step; a preset becomes a caution to measure.

    Sources: Darcy's law for a test; presets and factors are from memory.
    """
    if soil is not None:
        row = table("soils")["soil"][soil]
        conductance, factor = si_of(row), float(row["factor"])
        work.caution(
            "warning",
            f"The soil was guessed ({soil}: {row['text']}). It may yield a third or three times as much air, and "
            "the range shows that. Measure it with a vacuum or a fan at the pit.",
            row["source"],
        )
        return Soil(conductance, factor, "soil guessed: a third to three times")
    factor = float(table("soils")["range_factor"]["measured-soil"]["value"])
    if soil_conductance is not None:
        return Soil(soil_conductance, factor, "soil as entered, 15 % either way")
    assert measured is not None  # the reader asks for one of the three
    conductance = work.step(
        "Soil, from the test",
        fan.soil_conductance,
        us={"G": CONDUCTANCE, "Q": "cfm", "s": "in WC"},
        si={"G": "L/s/Pa", "Q": "L/s"},
        Q=measured["flow"],
        s=measured["suction"],
    )
    return Soil(conductance, factor, "soil as measured, 15 % either way")
