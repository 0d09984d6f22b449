"""The labels of a finished system, filled in for an invented house."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import balloon, listed, spoken

SYSTEM = (  # what SGM-SF 2017 (12/20), 8.4.2 and 8.4.2.1, asks for; the data are invented
    "Radon Reduction System",
    "Installed 14 May 2026",
    "Start-up reading 1.3 in. WC (324 Pa)",
    "Gauge moved 20 % or at zero: call us",
    "Test for radon every 2 years",
    "State radon office: its number",
    "Installer, number, licence",
)
BOXES = (
    (3, 180.0, ("Radon Reduction", "System")),
    (4, 236.0, ("Keep closed,", "seal again")),
    (5, 292.0, ("Radon fan", "Do not switch off")),
)
MEANS = (
    "System label, near the gauge or within 12 in. (305 mm) of the electric panel",
    "Mark on the gauge: the reading when the goal was reached",
    "Pipe label, on each floor and in the attic",
    "Lid label: keep closed, seal again after service",
    "Breaker label: radon fan, do not switch off",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Five labels on one sheet; not to scale."""
    sheet = Sheet(350, 0, 0, 1)
    sheet.field("part", 34, 6, 354, 152)
    for i, words in enumerate(SYSTEM):
        sheet.text(words, 44, 28 + i * 19.0, name="strong" if i == 0 else "")
    balloon(sheet, 16, 20, 1)
    sheet.field("part", 34, 170, 112, 300)
    sheet.path("vent-out", [(54, 178), (54, 288), (92, 288), (92, 178)])
    sheet.path("vent-in", [(54, 178), (54, 288), (92, 288), (92, 178)])
    sheet.field("water", 51, 216, 57, 288)
    sheet.field("water", 89, 250, 95, 288)
    sheet.path("cross", [(42, 216), (66, 216)])
    sheet.path("cross", [(80, 250), (104, 250)])
    balloon(sheet, 16, 184, 2)
    sheet.path("pipe-out", [(148, 170), (148, 344)])
    sheet.path("pipe-in", [(148, 170), (148, 344)])
    for number, top, lines in BOXES:
        sheet.field("part", 204, top, 356, top + 46)
        for i, line in enumerate(lines):
            sheet.text(line, 212, top + 19 + i * 18.0)
        balloon(sheet, 184, top + 22, number)
    sheet.path("lead", [(154, 203), (172, 203)])
    drawn = sheet.figure(
        uid,
        "Labels of a finished system",
        f"Five labels with their words. {spoken(MEANS)}",
        "An invented house. The words that a rule prescribes stand in the table of label texts.",
    )
    return listed(drawn, MEANS)
