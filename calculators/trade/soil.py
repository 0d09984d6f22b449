"""How much air the soil gives: a figure, a test, or a remembered preset, each with its honest range."""

from typing import Any, NamedTuple

from ..declare import Refusal
from ..physics import fan
from ..tables import si_of, table
from ..units import from_si
from ..work import Work

CONDUCTANCE = "cfm/in WC"
PER_SUCTION = {"us": {"G": CONDUCTANCE, "Q_1": "cfm", "s_1": "in WC"}, "si": {"G": "L/s/Pa", "Q_1": "L/s"}}
SAME, ROUNDING = 0.9, 1e-9
MUCH_MORE = 1.5  # times the tested air, beyond which the answer says so
MORE_AIR = 1.3  # times: two tests closer than this cannot tell speed from a misreading


class Soil(NamedTuple):
    """Conductance [m3/s/Pa], the factor by which it may be larger or smaller [1], and why."""

    conductance: float
    factor: float
    why: str
    inertia: float = 0.0  # Pa s2/m6, what speed costs: stone only
    tested: float | None = None  # m3/s, the most air that a test drew


def soil_of(
    work: Work,
    soil_conductance: float | None,
    measured: dict[str, Any] | None,
    soil: str | None,
    again: dict[str, Any] | None = None,
) -> Soil:
    """The soil from one of its three inputs [SI].  A test becomes a step; a preset becomes a caution to measure.

    ``again`` is a second, stronger test: open stone then needs more suction for each air, and that is counted.
    Raises Refusal for a second test without a first one, or two that contradict each other.
    Sources: Darcy's law for a test, Forchheimer's for two; presets and factors are from memory.
    """
    if again is not None:
        return _speedy(work, measured, again)
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
    return Soil(conductance, factor, "soil as measured, 15 % either way", tested=measured["flow"])


def beyond_test(work: Work, soil: Soil, flow: float) -> None:
    """Say that the soil gives much more air [m3/s] than any test drew."""
    if soil.tested is None or flow <= MUCH_MORE * soil.tested:
        return
    air = f"{from_si(flow, 'cfm'):.0f} cfm ({from_si(flow, 'L/s'):.0f} L/s)"
    drawn = f"{from_si(soil.tested, 'cfm'):.0f} cfm ({from_si(soil.tested, 'L/s'):.0f} L/s)"
    work.caution(
        "warning",
        f"Here the soil gives {air}; the test drew {drawn}. In open stone fast air costs extra, so this can be too "
        "much. Test it again with a stronger pull and enter that too.",
        "reddy-1991",
    )


def _speedy(work: Work, first: dict[str, Any] | None, second: dict[str, Any]) -> Soil:
    """The soil from two tests at different flows: slow air, and what speed costs."""
    field = "measured_again"
    if first is None:
        raise Refusal(field, "a second test needs the first one", accepts="measured as well", kind="missing")
    (q_1, s_1), (q_2, s_2) = sorted((test["flow"], test["suction"]) for test in (first, second))
    if q_2 < MORE_AIR * q_1:
        raise Refusal(
            field,
            "the two tests draw nearly the same air: they cannot tell what speed costs",
            found=f"{from_si(q_1, 'cfm'):.4g} and {from_si(q_2, 'cfm'):.4g} cfm",
            accepts=f"one test with at least {MORE_AIR:g} times the air of the other",
        )
    slow, fast = s_1 / q_1, s_2 / q_2
    if SAME * slow <= fast <= slow * (1 + ROUNDING):  # as near as gauges read: speed costs nothing that shows
        return soil_of(work, None, {"flow": q_1, "suction": s_1}, None)._replace(tested=q_2)
    if not slow < fast < slow * q_2 / q_1:
        raise Refusal(
            field,
            "the stronger test must need as much suction for each cfm as the weaker one, or more, but not so much more that "
            "speed alone would take all",
            found=f"{from_si(s_1, 'in WC'):.4g} and {from_si(s_2, 'in WC'):.4g} in WC",
            accepts="readings that agree; read both again, the lid closed",
            kind="outside-model",
        )
    a = work.step("What speed costs in the soil", fan.soil_inertia, s_2=s_2, Q_2=q_2, s_1=s_1, Q_1=q_1)
    G = work.step(
        "Soil, slow air", fan.slow_conductance, us=PER_SUCTION["us"], si=PER_SUCTION["si"], s_1=s_1, Q_1=q_1, a=a
    )
    factor = float(table("soils")["range_factor"]["measured-soil"]["value"])
    return Soil(G, factor, "soil as measured at two flows, 15 % either way", a, q_2)
