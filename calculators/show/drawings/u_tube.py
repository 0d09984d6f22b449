"""The U-tube on the pipe: at its mark, at zero, too high, too low."""

from ...result import Result
from ...units import from_si, si
from ..figures import figure as figure_text
from ..figures import unit_text
from ..markup import Markup
from .canvas import Sheet
from .parts import balloon, listed, spoken

MARK = si("1.2 inH2O")  # demo: the reading on the day the goal was reached
SHARE = 0.2  # a change by which the owner calls; ANSI/AARST CCAH-2020, Exhibit 2
SCALE = 34 / si("1 inH2O")  # units of the sheet for a pascal of difference
CASES = (("at its mark", 1.0), ("zero", 0.0), ("high", 1.5), ("low", 0.6))
ZERO, TOP, FOOT = 122.0, 52.0, 186.0
MEANS = (
    "At its mark: the difference of both levels is the suction of the first day",
    "Zero: no suction. Look at power, tube and lid",
    "High, by 20 % or more: less air comes to the gauge. Look for water in a dip, a flooded pit, wet soil",
    "Low, by 20 % or more: a new way in for air, a weak fan, or an outlet that is choked",
)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Four gauges side by side, the same scale; the numbers are read as the difference of the two levels."""
    sheet = Sheet(246, 0, 0, 1)
    for i, (_, share) in enumerate(CASES):
        _tube(sheet, 45.0 + 90 * i, i + 1, MARK * share, system)
    mark, low, high = (_both(MARK * share) for share in (1, 1 - SHARE, 1 + SHARE))
    drawn = sheet.figure(
        uid,
        "Four readings of a U-tube",
        f"Four U-tubes, left leg to the pipe, right leg open to the room. The mark is {mark}. {spoken(MEANS)}",
        f"Left leg: to the pipe. Short strokes: the mark, {mark} here (invented). Call below {low} or above {high}.",
    )
    return listed(drawn, MEANS)


def _written(pascals: float, system: str) -> str:
    unit = "inH2O" if system == "us" else "Pa"
    value = round(from_si(pascals, unit), 2 if system == "us" else 0)
    return f"{figure_text(value)} {'in. WC' if system == 'us' else unit_text(unit)}"


def _both(pascals: float) -> str:
    return f"{_written(pascals, 'us')} ({_written(pascals, 'si')})"


def _tube(sheet: Sheet, x: float, number: int, suction: float, system: str) -> None:
    left, right, bore = x - 17, x + 17, 6.0
    rise = suction * SCALE / 2
    outer = [(left - bore, TOP - 8), (left - bore, FOOT), (right + bore, FOOT), (right + bore, TOP)]
    inner = [
        (left + bore, TOP - 8),
        (left + bore, FOOT - 2 * bore),
        (right - bore, FOOT - 2 * bore),
        (right - bore, TOP),
    ]
    sheet.field("water", left - bore + 1, ZERO - rise, left + bore - 1, FOOT - 1)
    sheet.field("water", right - bore + 1, ZERO + rise, right + bore - 1, FOOT - 1)
    sheet.field("water", left, FOOT - 2 * bore + 1, right, FOOT - 1)
    sheet.path("edge", outer)
    sheet.path("edge", inner)
    for side, level in ((left, ZERO - rise), (right, ZERO + rise)):
        sheet.path("edge", [(side - bore, level), (side + bore, level)])
    mark = MARK * SCALE / 2
    sheet.path("edge", [(left - bore - 9, ZERO - mark), (left - bore - 1, ZERO - mark)])
    sheet.path("edge", [(right + bore + 1, ZERO + mark), (right + bore + 9, ZERO + mark)])
    sheet.path("wall", [(left, TOP - 8), (left, 30), (x - 40, 30)])
    balloon(sheet, x + 20, 22, number)
    value, _, unit = _written(suction, system).partition(" ")
    sheet.text(value, x, FOOT + 24, anchor="middle", name="strong" if number == 1 else "bad")
    sheet.text(unit, x, FOOT + 44, anchor="middle")
