"""What suction-reach compares, warns of and leaves out, and its printed sums."""

from collections.abc import Sequence
from math import exp
from typing import Any

from ..physics import reach_parts
from ..physics.slab_bessel import k0
from ..physics.slab_closed import endless_slab_of, footing_conductance
from ..span import Span
from ..units import from_si
from ..work import Work
from .hole_cautions import every_hole
from .reach_field import Reach

PRESSURE, SHARE = "in WC|Pa", "%|%"
WANTED_HOLES = 4
OFF = 2.0  # times: a hole that reads so much more or less than the fit is named
OPEN_JOINT = 1.0  # m of layer: a joint that passes more than so much of it is open
NEAR = 1.0  # m from the pit, where the endless slab is printed beside the answer


def print_sums(work: Work, reach: Reach, joint: float) -> None:
    """Near field of the first pit, the footing, and the balance of air."""
    sheet = reach.sheet
    pit, Q = reach.plan.pits[0], reach.flows[0]
    if sheet.B is not None and not pit.on_tile and Q > 0:
        work.step(
            "As if the slab had no end: 1 m (3.3 ft) from pit 1, K = K0(r/B)",
            endless_slab_of,
            us={"s": "in WC", "Q": "cfm", "T": "cfm/in WC"},
            si={"Q": "L/s", "T": "L/s/Pa"},
            Q=Q,
            T=sheet.T,
            K=k0(NEAR / sheet.B),
        )
    tight = next((f for f in reach.plan.footings if 0 < f.tightness < 1), None)
    if tight:
        work.step(
            "Through the first footing, each length",
            footing_conductance,
            us={"g": "m3/s/Pa/m", "T": "m3/s/Pa"},
            T=sheet.T,
            t=tight.tightness,
        )
    if reach.flow <= 0:
        return
    A, s = reach.plan.outline.area, reach.mean
    sums = {"L": "cfm/ft2/in WC", "A": "ft2", "s": "in WC"}
    through = work.step(
        "Air through slab and soil", reach_parts.leaked_flow, us={"Q_s": "cfm", **sums}, L=sheet.L, A=A, s=s
    )
    if joint and not reach.endless:
        names = ("Q_j", "Q", "Q_s")
        work.step(
            "Left over: air through the wall joint",
            reach_parts.joint_flow,
            us=dict.fromkeys(names, "cfm"),
            si=dict.fromkeys(names, "L/s"),
            Q=reach.flow,
            Q_s=min(through, reach.flow),
        )
    if sheet.soil and reach.house_air is not None:
        sums = {"L_s": "cfm/ft2/in WC", "A": "ft2", "s": "in WC", "Q": "cfm"}
        work.step("Share of house air", reach_parts.house_air_share, us=sums, L_s=sheet.soil, A=A, s=s, Q=reach.flow)


def compare(work: Work, reach: Reach, target: float, weakest: Span, covered: float) -> None:
    """The weakest place, the whole floor, parts that hang together, holes."""
    work.at_least(
        "weakest-suction",
        "The weakest place of the slab has the suction wanted.",
        found=weakest.value,
        required=target,
        unit=PRESSURE,
        source="leaky-sheet",
    )
    work.at_least(
        "slab-covered",
        "The whole slab has the suction wanted, counted by squares.",
        found=covered,
        required=1.0,
        unit=SHARE,
        source="leaky-sheet",
    )
    work.at_most(
        "parts-joined",
        "Every part of the slab is joined through the layer to a pit or to the tile; a part that is not has no suction.",
        found=reach.unreached,
        required=0.0,
        unit=SHARE,
        source="leaky-sheet",
    )
    used = len(reach.sheet.holes)
    work.at_least(
        "enough-holes",
        "Four usable test holes or more, so that one is left over to show how well the sum fits this slab.",
        found=float(used) if used else None,
        required=float(WANTED_HOLES),
        unit="1|1",
        source="from-memory",
        needs=() if used else ("test_holes",),
    )
    if weakest.low < target <= weakest.value:
        work.caution(
            "warning",
            f"At the low end of its range the weakest place has {said(weakest.low)}, less than the {said(target)} wanted. "
            "This sum cannot decide it: a hole at that place, read with the fan on, can.",
            "derived",
        )


def said(pressure: float) -> str:
    """A suction in both units."""
    return f"{from_si(pressure, 'in WC'):.2g} in WC ({pressure:.2g} Pa)"


def cautions(work: Work, reach: Reach, state: str, tested: bool, joint: float) -> None:
    """What can hurt, and where the answer is weak."""
    work.caution(
        "danger",
        "Have lines, tubes and tendons located before each hole, a test hole too: gas, cable, water, heating, sewer, strands.",
        "rms-lb-2018",
    )
    every_hole(work)
    work.caution(
        "danger",
        "A fan that draws house air through this slab can turn the draft of a burner. Test for spillage before and after.",
        "henschel-1997",
    )
    work.caution(
        "note",
        "These suctions are the fan's alone. The house adds its own reading at each place, mostly below zero in winter: "
        "add it, and look at what the coldest week needs.",
        "derived",
    )
    if not tested:
        work.caution("note", "Without test holes this is a picture, not a design. The test is the accuracy.", "derived")
    if state == "damp":
        work.caution(
            "warning",
            "A damp layer carries less air than a dry one and changes with the weather. Test it as it is now, and again wet.",
            "hung-2018",
        )
    elif state == "unknown":
        work.caution("note", "Look for water in the test holes: a layer under water carries no suction.")
    for k in reach.plan.beside:
        work.caution(
            "warning",
            f"Pit {k + 1} lies within 1 ft (0.3 m) of a footing: there this sum can be 20 % off, and digging can "
            "undermine the footing. Never dig below it.",
            "derived",
        )
    if joint * OPEN_JOINT > reach.sheet.T:
        work.caution(
            "warning",
            "The joint at the wall is wide open against this layer: along the walls hardly any suction is left, and between "
            "a pit and a wall near it these figures are too high. Seal the joint, then work it out again.",
            "derived",
        )
    for k, flow in enumerate(reach.flows):
        if flow < 0:
            work.caution(
                "warning",
                f"Pit {k + 1} would push air back into the ground: the other pits pull harder there than it does.",
                "derived",
            )
    if reach.endless:
        work.caution(
            "warning",
            "Suction dies away here within a few steps. It was worked out as in a slab without end: beside a wall the "
            "true suction is up to twice as high" + (", and lower where the wall joint leaks." if joint else "."),
            "kruseman-de-ridder",
        )
    if any(pit.on_tile for pit in reach.plan.pits):
        work.caution(
            "note", "The tile is taken to be whole and dry all round. Water or silt in it ends its reach there."
        )


def of_fit(work: Work, reach: Reach, ratios: Sequence[tuple[str, float]]) -> None:
    """What the fit says about itself; ``ratios`` are holes with reading over model."""
    fit = reach.sheet.fit
    if fit is None:
        return
    if fit.dropped:
        listed = "; ".join(
            f"{name}, where the fitted slab would have {said(s)}"
            for name, s in zip(fit.dropped, fit.unseen, strict=True)
        )
        work.caution(
            "warning",
            f"Left out, for the reading is not above its baseline: {listed}. Suction did not show there, and the fit does "
            "not know why. Take the floor around it as not reached until a hole there answers.",
            "derived",
        )
    if fit.at_limit:
        work.caution(
            "warning",
            "The readings hardly fall with distance, or too fast: the leakage length ended at the limit of its search. "
            "Trust the suctions at the holes, not the length.",
            "derived",
        )
    if fit.spread is not None:
        work.caution(
            "note", f"A hole reads typically {exp(fit.spread):.2g} times more or less than the fitted slab.", "derived"
        )
    far = [name for name, ratio in ratios if not 1 / OFF <= ratio <= OFF]
    if far:
        work.caution(
            "warning",
            f"Off by more than twice from the fitted slab: {', '.join(far)}. Look there for a footing, a trench, a drain "
            "or a hole that is not in the plan.",
            "derived",
        )


def left_out(work: Work, values: dict[str, Any]) -> None:
    """What this answer does not look at."""
    work.not_looked_at(
        "Walls and block cores: there is no model for them here, and suction lost into them is not seen.",
        "Sheets over bare soil.",
        "Trenches, pipes and ducts under the slab, which lead suction along or away.",
        "Layers that change from place to place: one layer stands for the whole slab.",
        "Whether the fan can hold these suctions at this flow, and what lid and pipe lose.",
        "The house's own pull on the soil, which the weather changes.",
    )
    if values["joint_conductance"] == 0:
        work.not_looked_at("The joint between wall and floor: it was left at 0, as if sealed.")
