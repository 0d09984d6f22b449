"""How suction falls away from a pit, for three leakage lengths."""

from ...physics.slab_closed import endless_slab
from ...result import Result
from ...units import si
from ..figures import figure as figure_text
from ..markup import Markup
from .canvas import Sheet
from .parts import along, feet, feet_both, listed, spoken

LENGTHS = (40.0, 20.0, 10.0)  # ft
PIT, FAR = 1.0, 42.0  # ft: pit's radius, end of the axis


def share(far: float, length: float) -> float:
    """Suction at a distance over the suction at the pit's edge, both in feet, for a leakage length in feet."""
    at, edge = (endless_slab(r=si(f"{r} ft"), Q=1.0, T=1.0, B=si(f"{length} ft")) for r in (far, PIT))
    return at / edge


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Three curves over the distance from the pit."""
    means = [
        f"Leakage length {feet_both(length)}: at {feet_both(20)} there is {figure_text(share(20, length) * 100, 0)} % left"
        for length in LENGTHS
    ]
    sheet = Sheet(250, 48, 206, 292 / (FAR * si("1 ft")))
    x = along(sheet.x, "ft")
    tall = 178.0

    def y(part: float) -> float:
        return 206 - tall * part

    sheet.path("edge", [(52, 20), (52, 206), (352, 206)])
    for part in (0.25, 0.5, 0.75, 1.0):
        sheet.path("lead", [(52, y(part)), (352, y(part))])
        sheet.text(f"{part * 100:.0f} %", 48, y(part) + 5, anchor="end")
    for far in (0, 10, 20, 30, 40):
        sheet.path("lead", [(x(far), 206), (x(far), 211)])
        sheet.text(feet(far, system), x(far), 228, anchor="end" if far == 40 else "middle")
    for number, length in enumerate(LENGTHS, 1):
        places = [PIT + (FAR - PIT) * i / 60 for i in range(61)]
        sheet.path("edge", [(x(r), y(share(r, length))) for r in places])
        at = {1: 26.0, 2: 15.0, 3: 7.0}[number]
        sheet.add("circle", "dot", cx=x(at), cy=y(share(at, length)), r=11.0)
        sheet.text(str(number), x(at), y(share(at, length)) + 5.5, anchor="middle", name="on-dot")
    drawn = sheet.figure(
        uid,
        "Suction away from a pit",
        f"Three curves that fall from 100 % at the pit's edge. {spoken(means)}",
        f"Share of the suction at the edge of a pit of {feet_both(PIT)} radius, over the distance. An endless leaky slab; "
        "walls, footings and the tile change it.",
    )
    return listed(drawn, means)
