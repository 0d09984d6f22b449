"""A worked example as one section of a page, and the fragments that are put in its place when a number changes."""

from typing import Any

from .. import solve
from ..result import Result
from . import answer, arithmetic, plot
from .form import form
from .markup import Markup, el, join

DRAWINGS: dict[str, str] = {
    "tile-offset": "tile-section",
    "sump-sealing": "lid-section",
    "pump-sizing": "sump-section",
    "discharge-clearances": "clearance-sketch",
    "suction-reach": "suction-plan",
}
CARD = "gauge-reading"  # its drawing is a card to be printed


def worked(name: str, inputs: dict[str, Any], uid: str, heading: str) -> str:
    """The whole section as built: a complete worked example, and the form that a script wakes up.

    ``uid`` leads every id in it.  Raises InputError when the inputs do not solve.
    """
    system = "us"
    result = solve(name, inputs)
    now, later = {**first(result, system), **span(result, system)}, rest(result, system, uid)
    has_checks = bool(result.work.checks)
    drawn = name in DRAWINGS

    def slot(key: str, **attributes: Any) -> Markup:
        return el("div", {**now, **later}.get(key), data_slot=key, **attributes)

    return el(
        "section",
        el("h2", heading, class_="quiet", id=f"{uid}-t"),
        el("div", data_slot="stale"),
        slot("say"),
        el(
            "div",
            el("p", now["now"], class_="now", data_slot="now"),
            slot("range"),
            el("p", class_="hidden", role="status", aria_live="polite", aria_atomic="true", data_slot="spoken"),
            form(result.declaration, inputs, uid, system),
            class_="try",
        ),
        el("h2", "What was compared") if has_checks else None,
        slot("checks"),
        slot("drawing") if drawn or name == CARD else None,
        el("h2", "What can hurt you", hidden=not later["cautions"], data_with="cautions"),
        slot("cautions"),
        el("div", class_="slab", role="separator", aria_label="Below the slab: how it was worked out"),
        el("h2", "How it was worked out"),
        slot("results"),
        slot("plot"),
        slot("steps"),
        el("h2", "Not looked at", hidden=not later["left-out"], data_with="left-out"),
        slot("left-out"),
        el("h2", "Sources"),
        slot("sources"),
        arithmetic.stamp(result),
        class_="worked",
        aria_labelledby=f"{uid}-t",
        data_calculator=name,
        data_uid=uid,
    )


def first(result: Result, system: str) -> dict[str, Markup]:
    """The quick part: sentence and number; and the same sentence as text under ``status``."""
    sentence, status = answer.say(result, system)
    return {
        "say": sentence,
        "now": answer.now(result, system) or Markup(),
        "status": Markup(status),
    }


def span(result: Result, system: str) -> dict[str, Markup]:
    """The range of the number, by the name of its slot."""
    return {"range": answer.span_bar(result, system) or Markup()}


def rest(result: Result, system: str, uid: str) -> dict[str, Markup]:
    """Everything else, by the name of its slot."""
    name = result.declaration.name
    parts = {
        "checks": answer.checks(result, system),
        "cautions": answer.cautions(result),
        "results": arithmetic.results(result, system),
        "plot": join(plot.plot(one, system, f"{uid}-p{i}") for i, one in enumerate(result.work.plots)),
        "steps": arithmetic.steps(result, system),
        "left-out": arithmetic.left_out(result),
        "sources": arithmetic.sources(result),
    }
    if name in DRAWINGS:
        from .drawings import draw

        parts["drawing"] = Markup(draw(DRAWINGS[name], f"{uid}-d", result, system))
    if name == CARD:
        from .gauge_card import card

        parts["drawing"] = card(result)
    return {key: value or Markup() for key, value in parts.items()}
