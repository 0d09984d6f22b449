"""A level outlet in a wall and the distances of the one pack that has them."""

from math import sqrt

from ... import tables
from ...result import Result
from ...units import from_si, si
from ..markup import Markup
from .canvas import Sheet
from .parts import along, arc, arrow, balloon, feet, feet_both, listed, spoken

PACK = "sgm-sf-2017"
WALL = si("26 ft")


def _row(id: str) -> float:
    """A row of the pack in metres."""
    row = next(row for row in tables.rule_pack(PACK)["rows"] if row["id"] == id)
    return tables.si_of(row)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """A facade to scale: outlet, circle of the distance to openings, one window that is met and one that is not."""
    height, radius = _row("SGM17-02"), _row("SGM17-03")
    tall, around = round(from_si(height, "ft"), 2), round(from_si(radius, "ft"), 2)
    means = (
        f"Outlet through the wall, blowing level: {feet_both(tall)} above the ground, or more",
        f"No opening within {feet_both(around)} of it, measured to the part that can open",
        "Too near: this window opens inside the circle",
        "Far enough by this row: every other row still counts",
    )
    sheet = Sheet(352, 128, 328, 284 / WALL)
    x, y = along(sheet.x, "ft"), along(sheet.y, "ft")
    sheet.field("soil", 0, 328, 360, 352)
    sheet.field("part", x(-6), y(26), x(20), 328)
    outlet = (x(0), sheet.y(height))
    sheet.path("level", arc(*outlet, radius * sheet.scale, 0, 2, 48))
    for left, low, name in ((4.0, 14.5, "near"), (13.0, 6.0, "inside"), (-4.5, 4.0, "inside")):
        sheet.field(name, x(left), y(low + 4), x(left + 3), y(low))
        corners = ((left, low), (left, low + 4), (left + 3, low + 4), (left + 3, low), (left, low))
        sheet.path("edge", [(x(across), y(up)) for across, up in corners])
    sheet.add("circle", "dot", cx=outlet[0], cy=outlet[1], r=6.0)
    sheet.path("lead", [(x(-7.2), outlet[1]), (outlet[0] - 8, outlet[1])])
    sheet.path("lead", [(x(-7.2), 328), (x(-7.2), outlet[1])])
    sheet.text(feet(tall, system), x(-7.9), 200, anchor="end")
    reach = radius * sheet.scale * sqrt(0.5)
    arrow(sheet, outlet, (outlet[0] + reach, outlet[1] - reach), name="lead")
    sheet.text(feet(around, system), outlet[0] + 88, outlet[1] - 62, name="name")
    balloon(sheet, outlet[0] - 28, outlet[1] - 22, 1)
    balloon(sheet, outlet[0] + 58, outlet[1] - 20, 2)
    balloon(sheet, x(8.6), y(16.5), 3)
    balloon(sheet, x(17.6), y(8), 4)
    drawn = sheet.figure(
        uid,
        "A level outlet in a wall",
        f"A facade with an outlet, a circle round it and three windows. {spoken(means)}",
        "To scale. Existing homes standard, 2017, 7.4.11: the text itself says that a level outlet should be avoided. "
        "Other packs want the jet upward only.",
    )
    return listed(drawn, means)
