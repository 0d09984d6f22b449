"""From the hour the fan starts to the next test: the time line of proof."""

from ...result import Result
from ..markup import Markup
from .canvas import Sheet
from .parts import balloon, listed, spoken

# MAH-2019 7.3.2 (12 h, 24 h, 46 h of data in a row) and 8.5.9.2 (2 years); EPA 402-K-06-094 (30 days).
STOPS = (("0 h", 34.0), ("12 h", 90.0), ("24 h", 146.0), ("70 h", 202.0), ("30 d", 268.0), ("2 y", 328.0))
MEANS = (
    "Fan starts: write down date and hour",
    "House closed, at the latest 12 hours before the data begin",
    "Data may begin, 24 hours after the start",
    "46 hours of data in a row, at the least: 24 h and 46 h make 70 h at the earliest",
    "First test made within 30 days",
    "Test again within 2 years, and with any sale",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Not to scale after 70 hours; up to there even steps for 12, 12 and 46 hours."""
    sheet = Sheet(112, 0, 0, 1)
    y = 66.0
    sheet.path("wall", [(34, y), (232, y)])
    sheet.path("level", [(232, y), (354, y)])
    at = dict(STOPS)
    sheet.field("conc", at["12 h"], y + 9, at["70 h"], y + 21)
    sheet.field("lid", at["24 h"], y + 25, at["70 h"], y + 37)
    for number, (words, x) in enumerate(STOPS, 1):
        sheet.path("edge", [(x, y - 10), (x, y + 9)])
        balloon(sheet, x, y - 22, number)
        sheet.text(words, x, 22, anchor="middle")
    sheet.text("closed", at["12 h"] - 6, y + 22, anchor="end")
    sheet.text("data", at["24 h"] - 6, y + 40, anchor="end")
    drawn = sheet.figure(
        uid,
        "Time line of the test",
        f"A line with six marks. {spoken(MEANS)}",
        "The earliest that counts. Steps not to scale. Upper bar: the house is closed. Lower bar: the device counts.",
    )
    return listed(drawn, MEANS)
