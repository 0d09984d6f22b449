"""How well the layer under a slab carries suction and how much leaks into it: entered, guessed, or fitted to a test."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from math import exp, log, sqrt
from typing import Any, NamedTuple

from ..declare import InputError, Refusal
from ..physics import reach_parts
from ..physics.slab_closed import layer_conductance, leakage_length
from ..physics.slab_fit import Fit, Hole, TooFewHoles, fit_test, usable
from ..physics.slab_gravel import Stone
from ..physics.slab_grid import Footing
from ..physics.slab_outline import Outline, Rectangle, outline_of
from ..physics.slab_source import Pit
from ..span import Span
from ..tables import si_of, table
from ..work import Work
from .airstate import Air
from .reach_plan import snapped

SOILS = table("soils")
SHEET = {"T": "cfm/in WC", "B": "ft", "L": "cfm/ft2/in WC", "Ls": "cfm/ft2/in WC"}  # units that go together
PRINTED_HOLES = 6
CUT_OFF = 50.0  # of the logarithm: such a residual means that the plan lets no suction through at all


class Sheet(NamedTuple):
    """Layer T [m3/s/Pa], leakance of slab and soil L [m/s/Pa], of the soil alone (None: not known), leakage length B [m]
    (None: nothing leaks through slab or soil), stone, factor of the suctions [1] and why, what was fitted."""

    T: float
    L: float
    soil: float | None
    B: float | None
    stone: Stone | None
    factor: float
    why: str
    T_span: Any
    B_span: Any
    fit: Fit | None = None
    holes: Sequence[Hole] = ()


def factor(name: str) -> float:
    """A range factor [1] of the table of soils."""
    return float(SOILS["range_factor"][name]["value"])


def entered(work: Work, given: dict[str, Any], air: Callable[[], Air]) -> Sheet:
    """The sheet from what was typed or chosen.  Raises Refusal when layer or leakage is missing or contradicts itself."""
    _complete(given)
    logs = [log(factor("uncalibrated"))]
    why = "layer and leakage not tested here: a quarter to four times"
    T, layer_factor = _layer(work, given, air)
    slab, slab_factor = given["slab_leakance"], 1.0
    if given["slab_condition"] is not None:
        row = SOILS["slab_condition"][given["slab_condition"]]
        slab, slab_factor = si_of(row), float(row["factor"])
    for guess, name in ((layer_factor, "layer"), (slab_factor, "slab")):
        if guess > 1:
            logs.append(log(guess))
            work.caution(
                "warning",
                f"The {name} was guessed. The true figure may be {guess:g} times more or less, and the range shows that. "
                "Measure it with a vacuum and test holes.",
                "from-memory",
            )
    wide = exp(sqrt(sum(one * one for one in logs)))  # independent guesses: their logarithms add as squares
    if len(logs) > 1:
        why = f"not tested, and partly guessed: {wide:.2g} times either way"
    L, B = _leakage(work, T, given["leakage_length"], slab, given["soil_leakance"])
    soil = given["soil_leakance"] if given["leakage_length"] is not None else given["soil_leakance"] or 0.0
    of_B = exp(sqrt(log(layer_factor) ** 2 + log(slab_factor) ** 2) / 2)
    guessed = "guessed from memory"
    return Sheet(
        T, L, soil, B, _stone(work, given, air), wide, why,
        Span(T, T / layer_factor, T * layer_factor, guessed) if layer_factor > 1 else T,
        Span(B, B / of_B, B * of_B, guessed) if of_B > 1 and B is not None and given["leakage_length"] is None else B,
    )  # fmt: skip


def _complete(given: dict[str, Any]) -> None:
    """Layer and leakage must be given in some way; both gaps are told at once."""
    problems: list[dict[str, Any]] = []
    for names, more in (
        (("layer_conductance", "layer", "test_holes"), ("gravel",)),
        (("leakage_length", "slab_leakance", "slab_condition"), ()),
    ):
        if all(given[name] is None for name in (*names, *more)):
            listed = ", ".join((*names, *more))
            problems.append(
                {
                    "field": names[0],
                    "problem": f"one of {listed} must be given",
                    "found": "",
                    "accepts": listed,
                    "kind": "missing",
                }
            )
    if problems:
        raise InputError(problems)
    if given["gravel"] is not None and given["layer"] is not None:
        raise Refusal(
            "gravel",
            "the stone's permeability and a guessed layer exclude each other",
            found=f"layer {given['layer']}",
            accepts="gravel with layer_thickness, or with layer_conductance",
        )


def _layer(work: Work, given: dict[str, Any], air: Callable[[], Air]) -> tuple[float, float]:
    """T [m3/s/Pa] and the factor by which a guess of it may be off (1: no guess)."""
    if given["layer_conductance"] is not None:
        return given["layer_conductance"], 1.0
    guess = 1.0
    if given["layer"] is not None:
        row = SOILS["layer"][given["layer"]]
        k, guess = si_of(row), float(row["factor"])
    else:
        k = given["gravel"]["permeability"]
    T = work.step("Conductance of the layer", layer_conductance, k=k, b=given["layer_thickness"], mu=air().viscosity)
    return T, guess


def _leakage(
    work: Work, T: float, length: float | None, slab: float | None, soil: float | None
) -> tuple[float, float | None]:
    """L [m/s/Pa] of slab and soil together, and B [m]."""
    if length is not None:
        return _whole(work, T, length, soil), length
    L = (slab or 0.0) + (soil or 0.0)
    if L == 0:
        return 0.0, None
    return L, work.step("Leakage length", leakage_length, us=SHEET, T=T, L=slab or 0.0, Ls=soil or 0.0)


def _whole(work: Work, T: float, B: float, soil: float | None) -> float:
    """L [m/s/Pa] of slab and soil together from B [m].  Raises Refusal when the soil alone would leak more."""
    L = work.step(
        "Leakage of slab and soil", reach_parts.whole_leakance, us={name: SHEET[name] for name in "TBL"}, T=T, B=B
    )
    if soil is not None and soil > L * (1 + 1e-9):
        raise Refusal(
            "soil_leakance",
            "the soil alone would leak more than this leakage length allows for slab and soil together",
            found=f"{soil:.4g} m/s/Pa",
            accepts=f"at most {L:.4g} m/s/Pa",
        )
    return L


def _stone(work: Work, given: dict[str, Any], air: Callable[[], Air]) -> Stone | None:
    gravel = given["gravel"]
    if gravel is None or gravel["inertia"] == 0:
        return None
    return Stone(gravel["permeability"], given["layer_thickness"], gravel["inertia"], air().viscosity)


def fitted(
    work: Work,
    given: dict[str, Any],
    outline: Outline,
    pit: Pit,
    footings: Sequence[Footing],
    air: Callable[[], Air],
) -> Sheet:
    """The sheet that meets the test holes best.

    Raises Refusal when a guess stands beside them or too few are usable.
    """
    for name in ("slab_leakance", "slab_condition"):
        if given[name] is not None:
            raise Refusal(
                name,
                "the test holes find the leakage: it cannot be given beside them",
                found=str(given[name]),
                accepts="leakage_length, if it is known; else leave it out",
            )
    holes = [
        Hole(h["x"], h["y"], h["suction"], h["baseline"], f"hole {k + 1} (test_holes[{k}])")
        for k, h in enumerate(map(snapped, given["test_holes"]))
    ]
    kept, _ = usable(holes)
    try:
        slab = [snapped(r) for r in given["slab"]]
        rectangles = tuple((r["x"], r["y"], r["width"], r["depth"]) for r in slab)
        fit = _fit(rectangles, pit, tuple(holes), given["joint_conductance"], tuple(footings), given["leakage_length"])
    except TooFewHoles as error:
        raise Refusal("test_holes", str(error), found=f"{len(kept)} usable", kind="outside-model") from None
    except (ValueError, ArithmeticError):  # no layer at all gives what was read
        raise _contradicted() from None
    if any(abs(residual) > CUT_OFF for residual in fit.residuals):
        raise _contradicted()
    for hole in kept[:PRINTED_HOLES]:
        title = f"Made by the test at {hole.name.partition(' (')[0]}"
        work.step(title, reach_parts.net_reading, r_on=hole.suction, r_off=hole.baseline)
    L = _whole(work, fit.T, fit.B, given["soil_leakance"])
    four = len(kept) >= 4
    size = factor("fitted-from-four" if four else "fitted-from-three")
    why = f"fitted to {len(kept)} test holes: {size:g} times either way"
    spans = [
        Span(value, *span, "what fits the holes nearly as well")
        if span
        else Span(value, value / size, value * size, why)
        for value, span in ((fit.T, fit.T_range), (fit.B, fit.B_range))
    ]
    stone = _stone(work, given, air)
    B_span = fit.B if given["leakage_length"] is not None else spans[1]
    return Sheet(fit.T, L, given["soil_leakance"], fit.B, stone, size, why, spans[0], B_span, fit, kept)


def _contradicted() -> Refusal:
    return Refusal(
        "test_holes",
        "no layer fits these readings in this plan: was suction read where a footing seals the floor off, or is the wall "
        "joint entered too open?",
        accepts="footings less tight, a tighter joint, or holes on the test pit's side",
        kind="outside-model",
    )


@lru_cache(maxsize=8)
def _fit(
    rectangles: tuple[Rectangle, ...],
    pit: Pit,
    holes: tuple[Hole, ...],
    joint: float,
    footings: tuple[Footing, ...],
    B: float | None,
) -> Fit:
    """The fit, kept: a change of pit or target afterwards need not fit again."""
    return fit_test(outline_of(rectangles), pit, holes, joint=joint, footings=footings, B=B)
