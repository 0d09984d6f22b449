"""What a changed reading of the gauge can mean, and what to look at first."""

from typing import Annotated, Any

from ..declare import Count, Flag, InputError, Quantity, Several, Table, Text, Texts, calculator
from ..nested import inputs_record
from ..physics import gauge
from ..physics.numerics import root
from ..span import Span
from ..tables import si_of, table
from ..trade import gauge_card
from ..trade.gauge_faults import SEEN, explained
from ..trade.gauge_model import Built, Fault, Shown, built
from ..trade.gauge_rank import Ranked, Reading, as_row, first_look, ranked
from ..units import from_si
from ..work import Work
from .fan_point import fan_point

PRESSURE, SHARE = "in WC|Pa", "%|%"
CHANGE = table("limits")["gauge"]["change"]

AsBuilt = Annotated[
    dict[str, Any],
    inputs_record(
        fan_point.declaration,
        "The system as it was built",
        help="All that fan-point asks for. If several fans are entered, the first one counts.",
    ),
]
Mark = Annotated[
    float | None,
    Quantity(
        "Reading at start-up (the mark)",
        "in WC",
        "Pa",
        "0 Pa",
        "5000 Pa",
        help="Marked when the work was finished. It fits the soil to this house.",
    ),
]
Now = Annotated[float, Quantity("Reading now", "in WC", "Pa", "0 Pa", "5000 Pa")]
Zero = Annotated[
    float | None,
    Quantity(
        "What the gauge shows with its hose off",
        "in WC",
        "Pa",
        "-500 Pa",
        "500 Pa",
        help="0 if it stood at zero. Left out: not looked at, and the gauge itself stays among the causes.",
    ),
]
FlowNow = Annotated[
    float | None, Quantity("Air flow measured in the pipe now, at the fan", "cfm", "L/s", "0 cfm", "1500 cfm")
]
Seen = Annotated[list[str], Several("What was seen or heard", SEEN, help="Whatever is true now.")]


@calculator(
    name="gauge-reading",
    part="pipe-and-fan",
    title="What the gauge says",
    main="expected_reading",
    results={
        "expected_reading": Quantity("Reading expected of the system as built", "in WC", "Pa"),
        "band_low": Quantity("Least that is still as built", "in WC", "Pa"),
        "band_high": Quantity("Most that is still as built", "in WC", "Pa"),
        "reading": Quantity("Reading now, less the gauge's zero", "in WC", "Pa"),
        "change": Quantity("Change against the mark, or against what is expected without one", "%", "%"),
        "first_look": Text("Look at first"),
        "causes": Table(
            "What it can be, best first; equal ranks are equally good",
            {
                "rank": Count("Rank"),
                "cause": Text("Short name"),
                "name": Text("Cause"),
                "means": Text("What it would mean"),
                "gauge": Quantity("Gauge then", "in WC", "Pa"),
                "flow": Quantity("Flow then", "cfm", "L/s"),
                "pit_suction": Quantity("Pit then", "in WC", "Pa"),
                "fits": Flag("Fits what was measured and seen"),
                "evidence": Text("Seen"),
                "look_at": Text("Look at"),
                "tells_apart": Text("Tells it from the next"),
            },
        ),
        "card": Texts("Card for the gauge"),
    },
)
def gauge_reading(
    work: Work,
    *,
    as_built: AsBuilt,
    reading_then: Mark = None,
    reading_now: Now,
    zero_offset: Zero = None,
    flow_now: FlowNow = None,
    seen: Seen = [],  # noqa: B006  read only
) -> dict[str, Any]:
    """Causes that can make the gauge read what it reads, in order, each with what gauge and flow would show.

    Each cause is put into the model of the whole system in the size that comes nearest to the reading.  The order says
    how near each comes; it is no likelihood.  Raises Refusal as fan-point does.  SI in and out.
    """
    found = _as_built(work, as_built)
    expected = found["gauge_suction"]
    reading = reading_now
    if zero_offset is not None:
        reading = max(
            0.0, work.step("Reading, less the gauge's zero", gauge.less_zero, s_r=reading_now, s_0=zero_offset)
        )
    mark = expected.value if reading_then is None else reading_then
    changed = work.step("Change against the mark", gauge.change, s=reading, s_m=mark) if mark > 0 else None

    system = built(as_built, found["lift"])
    soil, reached = _fit(system, reading_then)
    base = system.shows(Fault(soil=soil)) or Shown(expected.value, found["pit_suction"].value, found["flow"].value)
    scale = reading_then / base.gauge if reading_then and base.gauge > 0 else 1.0  # 1 where the model reads its mark
    causes = explained(system, base, reading / scale, soil=soil, zero_known=zero_offset is not None)
    order = ranked(causes, Reading(reading / scale, flow_now, tuple(seen)))
    _compare(work, reading, expected, changed, reading_then)
    _fitted(work, soil, reached)
    _caution(work, order, seen, base)
    return {
        "expected_reading": expected,
        "band_low": expected.low,
        "band_high": expected.high,
        "reading": reading,
        "change": changed,
        "first_look": first_look(order, seen, changed),
        "causes": [as_row(row, order, scale) for row in order],
        "card": _card(expected, reading_then),
    }


def _as_built(work: Work, as_built: dict[str, Any]) -> dict[str, Any]:
    """What fan-point finds for the system as built; its steps stand here too, its faults at ``as_built``."""
    other = Work()
    try:
        found = fan_point(other, **as_built)
    except InputError as error:
        for problem in error.problems:
            problem["field"] = f"as_built.{problem['field']}"
        raise
    work.steps += other.steps
    return found


def _fit(system: Built, mark: float | None) -> tuple[float, bool]:
    """The factor on the soil that makes the sound system read its mark, within the soil's own range; whether it does."""
    if mark is None:
        return 1.0, True
    most = system.setting.soil.factor

    def off(factor: float) -> float | None:
        shown = system.shows(Fault(soil=factor))
        return None if shown is None else shown.gauge - mark

    ends = [(factor, off(factor)) for factor in (1 / most, most)]
    known = [(factor, value) for factor, value in ends if value is not None]
    if len(known) < 2 or known[0][1] * known[1][1] > 0:
        nearest = min([*known, (1.0, off(1.0) or 0.0)], key=lambda end: abs(end[1]))
        return nearest[0], abs(nearest[1]) <= si_of(table("limits")["gauge"]["readable"])
    return root(lambda factor: off(factor) or 0.0, 1 / most, most, tolerance=1e-9), True


def _compare(work: Work, reading: float, expected: Span, changed: float | None, mark: float | None) -> None:
    limit = si_of(CHANGE)
    work.judge(
        "change",
        "The gauge has changed by less than the owner's sheet allows before a service call"
        + (", against its mark." if mark is not None else ", against what is expected; the mark was not entered."),
        ok=None if changed is None else abs(changed) < limit - 1e-9,
        found=None if changed is None else abs(changed),
        required=limit,
        margin=None if changed is None else limit - abs(changed),
        unit=SHARE,
        source=CHANGE["source"],
        section=CHANGE["section"],
        needs=["reading_then"] if changed is None else [],
    )
    for id, value, text in (
        ("as-built", reading, "The reading now lies in the range of the system as built."),
        ("mark", mark, "The mark lies in the range of the system as built."),
    ):
        inside = None if value is None else expected.low - 1e-9 <= value <= expected.high + 1e-9
        work.judge(
            id,
            text,
            ok=inside,
            found=None if value is None else _suction(value),
            required=f"{_suction(expected.low)} to {_suction(expected.high)}",
            source="network-balance",
            needs=["reading_then"] if value is None else [],
        )


def _fitted(work: Work, soil: float, reached: bool) -> None:
    """Say how the mark was met."""
    if reached and abs(soil - 1) > 1e-3:
        work.caution(
            "note",
            f"The soil is taken as {soil * 100:.0f} % of what was entered, inside its range: so the model reads the mark.",
            "network-balance",
        )
    if not reached:
        work.caution(
            "warning",
            "The mark does not fit the system as entered, however its soil is taken. Look at fan, pipe and openings of "
            "the input first. The causes are reckoned from the change against the mark.",
            "network-balance",
        )


def _suction(pressure: float) -> str:
    return f"{from_si(pressure, 'in WC'):.2f} in WC ({pressure:.0f} Pa)"


def _caution(work: Work, order: list[Ranked], seen: list[str], base: Shown) -> None:
    work.caution(
        "note",
        "The gauge is not the radon level. It shows suction at one place in the pipe. Only a radon test shows radon.",
        "mah-2019",
    )
    work.caution(
        "danger",
        "A fan that stands still may start by itself. Pull the plug or lock the switch and prove it dead before a hand "
        "goes in. A fan that was full of water is replaced, not dried.",
    )
    first = {row.explained.cause.model for row in order if row.rank == 1}
    if first & {"pit-opening", "lid-off", "pipe-opening", "pipe-apart"}:
        work.caution(
            "danger",
            "An open lid or pipe draws air out of the house. That can pull a burner's flue gas back into the room: look at "
            "burners before you go on, and test for spillage after the repair.",
            "henschel-1997",
        )
    if first & {"choked-behind"} or "frost" in seen:
        work.caution(
            "danger",
            "An outlet on a roof is looked at from the ground first. No ladder or roof work in ice or wind, or alone. Ice "
            "is not hacked out while the fan has power.",
        )
    work.caution(
        "warning",
        "Strong radon comes out of an open pit or pipe. Air the room and do not leave it open over night.",
    )
    if order[0].explained.shown.gauge > base.gauge * 1.05:
        work.caution(
            "warning", "A gauge that has risen has not improved: less air comes, or the soil is shut off.", "derived"
        )
    work.caution(
        "note",
        "The order says how near each cause comes to what was measured. It is no likelihood, and two causes can be there "
        "at once.",
        "derived",
    )
    work.not_looked_at(
        "Two causes at the same time.",
        "Weather: wind on the outlet and a cold riser shift the reading a little.",
        "Blocked taps and dirt in the hose, other than as a hose that feels nothing.",
        "Whether the suction still reaches under the whole slab.",
    )


def _card(expected: Span, mark: float | None) -> list[str]:
    """The card as text, in every unit."""
    said = [f"{line.label}: {gauge_card.said(line.suction)}." for line in gauge_card.of(mark, expected)]
    return [*said, "Call for service also at zero.", gauge_card.NO_RADON]
