"""One radon level in every unit, the exposure and dose it gives, and the published risk."""

from itertools import pairwise
from typing import Annotated, Any

from ..declare import Choice, Flag, Other, Quantity, Refusal, Table, Text, calculator, si
from ..physics import radon
from ..span import Span
from ..tables import si_of, table
from ..trade.radon_fields import PCI, in_units, limit
from ..units import from_si
from ..work import Work

COEFFICIENT = "nSv m3/Bq/h"
PER_GAS = "Sv*m3/Bq/s"
PEOPLE = ("never", "smoker")
LEAST_F = 0.01

WorkingLevel = Quantity("Working level", "WL", "WL", "0 WL", "100 WL", base="J/m3")
Value = Annotated[
    float,
    Quantity(
        "Radon level",
        *PCI.values(),
        "0 pCi/L",
        "1000000 pCi/L",
        also=WorkingLevel,
        help="Radon in pCi/L or Bq/m3, or its decay products in WL.",
    ),
]
Equilibrium = Annotated[
    float,
    Quantity(
        "Equilibrium factor",
        "1",
        "1",
        "0",
        "1",
        source="icrp-137",
        help="How far the decay products have grown in: 0.4 in usual rooms. Some US rules count with 0.5.",
    ),
]
Hours = Annotated[
    float,
    Quantity(
        "Time spent there", "h", "h", "0 h", "1000000 h", source="iaea-gsr-3", help="A year at home is about 7,000 h."
    ),
]
Coefficient = Annotated[
    Any,
    Choice(
        "Dose coefficient",
        ("icrp-137", "unscear"),
        free=Quantity(
            "Dose coefficient of radon gas", COEFFICIENT, COEFFICIENT, "0 nSv m3/Bq/h", "1000 nSv m3/Bq/h", base=PER_GAS
        ),
        source="icrp-137",
        help="Two published ones differ by nearly a factor of 2. A number counts per radon gas and is used as it is.",
    ),
]
Smoking = Annotated[str, Choice("For whom the risk is looked up", ("never", "smoker", "unknown"))]


@calculator(
    name="radon-units",
    part="look-up",
    title="Radon units, dose and risk",
    main="bq_per_m3",
    results={
        "bq_per_m3": Quantity("Radon in Bq/m³", "Bq/m3", "Bq/m3"),
        "pci_per_l": Quantity("Radon in pCi/L", "pCi/L", "pCi/L"),
        "eec": Quantity("Equilibrium equivalent concentration", *PCI.values()),
        "working_level": Quantity("Decay products", "WL", "WL", base="J/m3"),
        "paec": Quantity("Potential alpha energy", "J/m3", "J/m3", base="J/m3"),
        "wlm": Quantity("Exposure in this time", "WLM", "WLM", base="J*s/m3"),
        "dose": Quantity("Effective dose in this time", "mSv", "mSv"),
        "risk_per_1000": Quantity("Lung cancer deaths per 1,000 people, over a lifetime at this level", "1", "1"),
        "risks": Table(
            "The same for both groups",
            {"who": Text("Who"), "risk_per_1000": Quantity("Per 1,000", "1", "1")},
        ),
        "levels": Table(
            "Levels set by others",
            {
                "where": Text("Where"),
                "level": Quantity("Level", *PCI.values()),
                "reached": Flag("Reached"),
                "source": Text("Source"),
            },
        ),
    },
)
def radon_units(
    work: Work,
    *,
    value: Value,
    equilibrium_factor: Equilibrium = radon.EQUILIBRIUM,
    hours: Hours = si("7000 h"),
    dose_coefficient: Coefficient = "icrp-137",
    smoking: Smoking = "unknown",
) -> dict[str, Any]:
    """A radon level in all units, working-level months and dose for the hours spent there, risk from EPA's table of 2003.

    The risk is interpolated between two rows of the table and never scaled; outside the table there is none.
    Raises Refusal for a working level with hardly any equilibrium.  SI in and out.
    """
    F = equilibrium_factor
    if isinstance(value, Other):
        if F < LEAST_F:
            raise Refusal(
                "equilibrium_factor",
                "a working level gives a radon level only with an equilibrium factor",
                found=f"{F:g}",
                accepts=f"at least {LEAST_F:g}",
            )
        W = float(value)
        EEC = work.step("Equilibrium equivalent concentration", radon.equilibrium_of_level, W=W)
        C = work.step("Radon that goes with it", radon.gas_of_progeny, us=in_units("us", "EEC", "C"), EEC=EEC, F=F)
    else:
        C = value
        EEC = work.step(
            "Equilibrium equivalent concentration",
            radon.equilibrium_concentration,
            us=in_units("us", "EEC", "C"),
            F=F,
            C=C,
        )
        W = work.step("Decay products", radon.working_level, EEC=EEC)
    exposed = work.step("Exposure in this time", radon.working_months, W=W, t=hours)
    k, spread = _coefficient(work, dose_coefficient, F)
    H = work.step("Effective dose in this time", radon.dose, us={"H": "nSv"}, k=k, C=C, t=hours)
    risks = {who: _risk(work, C, who, smoking) for who in PEOPLE}
    _cautions(work, C, smoking, risks)
    return {
        "bq_per_m3": C,
        "pci_per_l": C,
        "eec": EEC,
        "working_level": W,
        "paec": W,
        "wlm": exposed,
        "dose": Span(
            H, spread[0] * C * hours, spread[1] * C * hours, "the two published coefficients at this equilibrium"
        )
        if spread
        else H,
        "risk_per_1000": risks.get(smoking),
        "risks": [{"who": _who(who), "risk_per_1000": risk} for who, risk in risks.items()],
        "levels": _levels(C),
    }


def _coefficient(work: Work, given: Any, F: float) -> tuple[float, tuple[float, float] | None]:
    """Coefficient of radon gas [Sv m3/(Bq s)], and the least and greatest of the published ones; a number has none."""
    if isinstance(given, float):
        return given, None
    gas, progeny = (si_of(limit("dose", name)) for name in ("icrp-137", "unscear"))
    ways: dict[str, tuple[str, Any, dict[str, float]]] = {
        "icrp-137": ("Dose coefficient at this equilibrium", radon.gas_coefficient, {"k_0": gas, "F": F}),
        "unscear": ("Dose coefficient of radon gas", radon.progeny_coefficient, {"k_e": progeny, "F": F}),
    }
    both = [function(**arguments) for _, function, arguments in ways.values()]
    return work.apply(*ways[given]), (min(both), max(both))


def _rows(who: str) -> list[tuple[float, float]]:
    """Level and risk of each row of the table for a group, rising."""
    return sorted(
        (si_of(row["at"]), float(row["value"])) for row in table("limits")["risk_per_1000"] if row["who"] == who
    )


def _risk(work: Work, C: float, who: str, asked: str) -> Any:
    """Risk per 1,000 on the line between the two rows that hold the level; None outside the table."""
    rows = _rows(who)
    if not rows[0][0] * (1 - 1e-9) <= C <= rows[-1][0] * (1 + 1e-9):
        return None
    lower, upper = next(pair for pair in pairwise(rows) if pair[1][0] * (1 + 1e-9) >= C)
    arguments = {"R_1": lower[1], "R_2": upper[1], "C": C, "C_1": lower[0], "C_2": upper[0]}
    risk = (
        work.apply(f"Risk between two rows of EPA's table of 2003, {_who(who)}", radon.risk_between, arguments)
        if who == asked
        else radon.risk_between(**arguments)
    )
    printed = next((row for row in (lower, upper) if abs(row[0] - C) <= 1e-9 * C), None)
    if printed:
        return printed[1]
    return Span(risk, lower[1], upper[1], "the two rows of the table between which the level lies")


def _who(who: str) -> str:
    return {"never": "never smoked", "smoker": "smoker"}[who]


def _levels(C: float) -> list[dict[str, Any]]:
    """Action and reference levels, rising; a level that is just met counts as reached."""
    rows = sorted((si_of(row), row["where"], row["source"]) for row in table("limits")["action_levels"])
    return [{"where": where, "level": at, "reached": at * (1 - 1e-9) <= C, "source": id} for at, where, id in rows]


def _cautions(work: Work, C: float, smoking: str, risks: dict[str, Any]) -> None:
    if smoking == "unknown":
        work.caution(
            "note",
            "Say for whom, smoker or never smoked, and one risk is given; until then both stand side by side.",
            "epa-402-r-03-003",
        )
    elif risks[smoking] is None:
        low, high = (from_si(row[0], "pCi/L") for row in (_rows(smoking)[0], _rows(smoking)[-1]))
        work.caution(
            "note",
            f"The table runs from {low:g} to {high:g} pCi/L for this group. This level lies outside, so no risk is given.",
            "epa-402-r-03-003",
        )
    if _rows("smoker")[1][0] > C and risks["smoker"] is not None:
        work.caution(
            "note", "The row for smokers at 0.4 pCi/L was seen in one copy of the table only.", "epa-402-r-03-003"
        )
    work.caution(
        "note",
        "A risk is for a whole lifetime at this level, a dose for the hours entered. Neither says what will happen to one person.",
        "epa-402-r-03-003",
    )
    work.caution(
        "warning",
        "The hours that you work in such a house count for you too: one state allows a worker 4 WLM in 12 months. Air the "
        "room, and write down level and hours.",
        "ill-32-422",
    )
    work.not_looked_at(
        "How far the decay products have really grown in: that was taken from the equilibrium factor.",
        "Change of the level with season, weather and floor.",
        "Other exposure, and thoron.",
    )
