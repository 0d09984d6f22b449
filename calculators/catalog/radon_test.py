"""From the readings of a radon test to what is done next."""

from typing import Annotated, Any

from ..declare import Choice, Count, Date, Flag, List, Quantity, Record, Table, Text, calculator, si
from ..physics import radon
from ..span import Span
from ..tables import si_of
from ..trade.radon_decision import SCATTER, Case, decide, in_words
from ..trade.radon_fields import LEVEL, PCI, in_units, level, limit
from ..trade.radon_pairs import apart, means, pairs, sort_out
from ..trade.radon_when import Facts, agree, conditions, due, moment
from ..work import Work

SHORT = "a short test is no better than 25 % either way"

Protocol = Annotated[
    str,
    Choice(
        "Which test this is",
        ("initial", "follow-up", "post-mitigation"),
        help="The first one, the one that follows a high first one, or the one after the work.",
    ),
]
ActionLevel = Annotated[float, level("Action level", "0.1 pCi/L", "100 pCi/L", source="epa-citizens-guide")]
Readings = Annotated[
    list[dict[str, Any]],
    List(
        "Readings",
        Record(
            "Reading",
            {
                "value": level("Reading", "0 pCi/L", "1000000 pCi/L"),
                "location": Text("Place in the house", help="Devices side by side have the same place."),
                "device": Text("Device"),
                "role": Choice(
                    "What it is",
                    ("primary", "duplicate", "blank", "spike"),
                    help="A duplicate stands beside a primary; a blank was never opened; a spike was exposed to a known level.",
                ),
                "known": level("Known level of a spike", "0.1 pCi/L", "1000000 pCi/L"),
            },
            need=("value",),
            defaults={"role": "primary"},
        ),
        1,
        500,
    ),
]
Earlier = Annotated[
    float | None,
    level(
        "Earlier reading",
        "0.01 pCi/L",
        "1000000 pCi/L",
        help="Of the first test, for a follow-up; of the test before the work, for one after it.",
    ),
]
SystemStart = Annotated[str | None, Date("The system was started", help="Day and hour, such as 2026-11-20T14:30.")]
TestStart = Annotated[str | None, Date("The test began", help="Day and hour, such as 2026-11-21T18:00.")]
ClosedHours = Annotated[
    float | None,
    Quantity(
        "House closed before the test",
        "h",
        "h",
        "0 h",
        "10000 h",
        help="Windows shut, doors used only to go in and out; and it stayed so to the end.",
    ),
]
TestHours = Annotated[float | None, Quantity("The test lasted", "h", "h", "1 h", "20000 h")]
LeftOut = Annotated[
    float,
    Quantity(
        "First hours left out of the readings",
        "h",
        "h",
        "0 h",
        "10000 h",
        help="Only for a monitor that reads every hour, when it was set up before the house was ready.",
    ),
]
FanRan = Annotated[bool | None, Flag("The fan ran all through it", help="Seen at the gauge before and after.")]
Placement = Annotated[
    str,
    Choice(
        "The devices stood",
        ("right-place", "wrong-place", "unknown"),
        source="ill-32-422",
        help="7 ft (2.1 m) from the sump, 3 ft (0.9 m) from outside doors and windows, 1 ft (0.3 m) from outside walls, "
        "20 in. to 6 ft (0.5 to 1.8 m) above the floor, in the lowest room that is lived in.",
    ),
]
Detection = Annotated[
    float | None, level("Detection limit of the laboratory", "0.01 pCi/L", "10 pCi/L", help="It stands on the report.")
]


@calculator(
    name="radon-test",
    part="prove-and-hand-over",
    title="What the radon test says",
    main="mean",
    results={
        "mean": Quantity("Mean of the test", *PCI.values()),
        "decision": Text("Decision"),
        "what_to_do": Text("What to do"),
        "valid": Flag("The test counts"),
        "compared_level": Quantity("Level that is compared", *PCI.values()),
        "reduction_percent": Quantity("Fallen by", "%", "%"),
        "locations": Table(
            "Places",
            {
                "location": Text("Place"),
                "mean": Quantity("Mean", *PCI.values()),
                "count": Count("Readings"),
            },
        ),
        "pairs": Table(
            "Pairs side by side",
            {
                "location": Text("Place"),
                "first": Quantity("One", *PCI.values()),
                "second": Quantity("The other", *PCI.values()),
                "mean": Quantity("Mean", *PCI.values()),
                "rpd": Quantity("Relative difference", "%", "%"),
                "band": Text("Band"),
            },
        ),
        "next_test": Table(
            "Tests that follow",
            {
                "what": Text("What"),
                "no_sooner": Text("No sooner"),
                "no_later": Text("No later"),
                "source": Text("Source"),
            },
        ),
    },
)
def radon_test(
    work: Work,
    *,
    protocol: Protocol = "initial",
    readings: Readings,
    action_level: ActionLevel = si("4 pCi/L"),
    earlier_reading: Earlier = None,
    system_started_at: SystemStart = None,
    test_started_at: TestStart = None,
    test_hours: TestHours = None,
    hours_left_out: LeftOut = 0.0,
    closed_house_hours: ClosedHours = None,
    fan_confirmed: FanRan = None,
    placement: Placement = "unknown",
    detection_limit: Detection = None,
) -> dict[str, Any]:
    """Mean of a radon test, whether the test counts, and what follows from it.

    Means of places from primary and duplicate devices; pairs judged by ANSI/AARST MS-QA, conditions by MAH and EPA.
    Raises Refusal without a primary reading and for times that contradict each other.  SI in and out.
    """
    after_work = protocol == "post-mitigation"
    facts = Facts(
        after_work,
        moment(system_started_at),
        moment(test_started_at),
        closed_house_hours,
        test_hours,
        hours_left_out,
        fan_confirmed,
        placement,
    )
    agree(facts)
    places, blanks, spikes = sort_out(readings)
    mean, rows = means(work, places)
    pair_rows, beyond = pairs(work, places, detection_limit)
    verdicts = [*conditions(work, facts), (not beyond, "readings")]
    apart(work, blanks, spikes, detection_limit)
    said = [verdict for verdict, _ in verdicts]
    valid = False if False in said else None if None in said else True

    compared = mean
    if protocol == "follow-up" and earlier_reading is not None and not facts.long:
        compared = work.step(
            "Mean of both tests",
            radon.mean_of_two,
            us=in_units("us", "m", "x_1", "x_2"),
            x_1=earlier_reading,
            x_2=mean,
        )
    failed = [field for verdict, field in verdicts if verdict is False]
    _against_level(work, compared, action_level, failed, rows)
    repeated = any(len(place.primaries) + len(place.duplicates) > 1 for place in places)
    case = Case(
        protocol, valid, compared, action_level, earlier_reading, facts.long, repeated, max(row["mean"] for row in rows)
    )
    decision = decide(case)
    fallen = _fallen(work, earlier_reading, mean, facts) if after_work else None
    _earlier(work, protocol, earlier_reading)
    _cautions(work, mean, action_level, after_work, decision, facts)
    _plot(work, places, action_level, earlier_reading)
    return {
        "mean": _spread(mean, facts),
        "decision": decision,
        "what_to_do": in_words(decision, case),
        "valid": valid,
        "compared_level": _spread(compared, facts),
        "reduction_percent": fallen,
        "locations": rows,
        "pairs": pair_rows,
        "next_test": due(decision, facts),
    }


def _spread(value: float, facts: Facts) -> Any:
    return value if facts.long else Span(value, value * (1 - SCATTER), value * (1 + SCATTER), SHORT)


def _against_level(work: Work, compared: float, action: float, failed: list[str], rows: list[dict[str, Any]]) -> None:
    """The level against the action level, which is reached when it is just met; not judged when the test does not count."""
    if failed:
        work.judge(
            "below-level",
            "Not compared with the action level: the test does not count.",
            ok=None,
            required=action,
            found=compared,
            unit=LEVEL,
            source="epa-citizens-guide",
            needs=failed,
        )
        return
    text = "The level stays below the action level."
    levels = [("below-level", text, compared)]
    if len(rows) > 1:
        levels += [
            (
                f"below-level:{row['location']}",
                f"{row['location']}: the level there stays below the action level.",
                row["mean"],
            )
            for row in rows
        ]
    for id, said, found in levels:
        work.judge(
            id,
            said,
            ok=found < action * (1 - 1e-9),
            required=action,
            found=found,
            margin=action - found,
            unit=LEVEL,
            source="epa-citizens-guide",
        )
    high = [row["location"] for row in rows if row["mean"] >= action * (1 - 1e-9)]
    if high and compared < action * (1 - 1e-9) and len(rows) > 1:
        work.caution(
            "warning",
            f"The mean is below the action level, but not every place is: {', '.join(high)[:300]}. Treat that part of the house by "
            "itself; another part does not thin it out.",
        )


def _fallen(work: Work, earlier: float | None, mean: float, facts: Facts) -> Any:
    """Share by which the level fell, with the scatter of both tests; None without an earlier reading."""
    if earlier is None:
        return None
    fell = work.step("Fallen by", radon.reduction, us=in_units("us", "C_1", "C_2"), C_1=earlier, C_2=mean)
    after = 0.0 if facts.long else SCATTER
    low = radon.reduction(C_1=earlier * (1 - SCATTER), C_2=mean * (1 + after))
    high = radon.reduction(C_1=earlier * (1 + SCATTER), C_2=mean * (1 - after))
    return Span(fell, low, high, "scatter of a short test before and after")


def _earlier(work: Work, protocol: str, earlier: float | None) -> None:
    if earlier is not None or protocol == "initial":
        return
    work.judge(
        "earlier-reading",
        "The reading before the work is known, so that one can say by how much the level fell."
        if protocol == "post-mitigation"
        else "The first reading is known, so that the mean of both tests can decide.",
        ok=None,
        source="epa-citizens-guide",
        needs=("earlier_reading",),
    )


def _cautions(work: Work, mean: float, action: float, after_work: bool, decision: str, facts: Facts) -> None:
    if after_work:
        work.caution("warning", "The gauge shows suction, not radon. Only a radon test shows radon.")
        work.caution(
            "warning",
            "Never switch the fan off for a test, for the summer or for a journey: radon is back within a day.",
        )
    if decision == "fix" and after_work:
        work.caution(
            "danger",
            "Whoever changes fan, sealing or flow tests for back-drafting again. If a carbon monoxide alarm sounds, get everybody "
            "out and call from outside.",
        )
    consider = si_of(limit("action_levels", 1))
    if abs(action - si("4 pCi/L")) < 1e-6 and consider <= mean < action:
        work.caution("note", "Between 2 and 4 pCi/L the EPA says: consider fixing.", "epa-citizens-guide")
    if mean < si_of(limit("outdoor", "usual")):
        work.caution(
            "note",
            "This is below the usual level outdoors. Look at the device and its report before you believe it.",
            "epa-citizens-guide",
        )
    if not facts.long:
        work.caution(
            "note",
            "One short test is a look at a few days; levels swing with weather and season. A long-term test in the heating "
            "season says more.",
            "usgs-reimer-1998",
        )
    work.not_looked_at(
        "Whether somebody opened windows or moved a device.",
        "Season and weather: windy or stormy days lift or lower a short test.",
        "Radon from well water, concrete or stone, and rooms without a device.",
        "Whether a licensed tester or laboratory is asked for where you work.",
    )


def _plot(work: Work, places: list[Any], action: float, earlier: float | None) -> None:
    """Readings in order against the action level; the earlier reading stands at 0."""
    counted = [read.value for place in places for read in (*place.primaries, *place.duplicates)][:200]
    numbers = [float(i) for i in range(1, len(counted) + 1)]
    if earlier is not None:
        counted, numbers = [earlier, *counted], [0.0, *numbers]
    if len(counted) < 2:
        return
    work.plot(
        "readings",
        "Readings against the action level",
        (
            "reading (0: the earlier one)" if earlier is not None else "reading",
            "1|1",
            numbers,
        ),
        ("reading", LEVEL, counted),
        ("action level", LEVEL, [action] * len(counted)),
    )
