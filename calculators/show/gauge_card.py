"""The card beside the gauge, to be printed: one table of all units, and room for a date and a name."""

from ..result import Result
from ..trade.gauge_card import NO_RADON, UNITS, figures, of
from .answer import source_line
from .figures import unit_text
from .markup import Markup, el

TITLE = "Suction gauge of the radon system"


def card(result: Result) -> Markup:
    """The card of a gauge-reading answer."""
    given = result.values["reading_then"]
    rows = of(given, result.outputs["expected_reading"])
    head = el("tr", el("td"), *(el("th", unit_text(unit), scope="col") for unit in UNITS))
    body = [
        el("tr", el("th", row.label, scope="row"), *(el("td", text) for text in figures(row.suction))) for row in rows
    ]
    table = el("table", el("thead", head), el("tbody", *body), class_="plain")
    wrapped = el("div", table, class_="table", tabindex="0", role="region", aria_label=TITLE)
    note = (
        "Mark: the reading at start-up as entered."
        if given is not None
        else "No mark was entered: what is expected stands for it."
    )
    return el(
        "div",
        el(
            "div",
            el("p", "Card for the gauge: print this page, cut it out, hang it up", class_="tag__where"),
            el(
                "div",
                el("p", TITLE, class_="tag__title"),
                wrapped,
                el("p", "At zero: look at plug, switch and hose, then call."),
                el("p", NO_RADON),
                el(
                    "dl",
                    *(
                        el("div", el("dt", label), el("dd", el("span", class_="rule"), class_="blank"))
                        for label in ("Marked on", "By")
                    ),
                ),
                class_="tag",
            ),
            el("p", note, class_="small"),
            source_line("ccah-2020", "Exhibit 2"),
            class_="tag__place",
        ),
        class_="gauge-card",
    )
