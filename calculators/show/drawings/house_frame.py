"""An invented house in section: basement, two storeys, attic, garage with a room over half of it.  Lengths in feet."""

from ...units import si
from .canvas import Sheet

FT = si("1 ft")
WALL, GARAGE, EDGE = 24.0, 33.0, 42.0  # house to garage wall; edge of the room above; garage's outer wall
SLAB, FIRST, SECOND, CEILING, RIDGE = -6.5, 2.0, 10.5, 19.0, 25.0
LEFT, TOP = 5.0, 29.0  # ft of air at the left and above the ground
Spot = tuple[float, float]


class House:
    """The house on a sheet of its own; ``at`` turns feet into units of the sheet."""

    def __init__(self, extra: float = 0.0, top: float = TOP) -> None:
        scale = 360 / (LEFT + EDGE + 3)
        self.floor = (top - SLAB + 2.2) * scale  # the drawing's lower edge, in units of the sheet
        self.sheet = Sheet(self.floor + extra, LEFT * scale, top * scale, scale / FT)
        self._ground()
        self._frame()

    def at(self, x: float, y: float) -> Spot:
        """Feet right of the house's left wall and above the ground, in units of the sheet."""
        return self.sheet.x(x * FT), self.sheet.y(y * FT)

    def line(self, name: str, *points: Spot) -> None:
        """A line through points in feet."""
        self.sheet.path(name, [self.at(x, y) for x, y in points])

    def field(self, name: str, left: float, top: float, right: float, bottom: float) -> None:
        """A rectangle between two corners in feet."""
        self.sheet.field(name, *self.at(left, top), *self.at(right, bottom))

    def pipe(self, *points: Spot) -> None:
        """A vent pipe through points in feet."""
        self.line("vent-out", *points)
        self.line("vent-in", *points)

    def ring(self, x: float, y: float, name: str = "part", radius: float = 4.5) -> None:
        """A small circle at a place in feet."""
        px, py = self.at(x, y)
        self.sheet.add("circle", name, cx=px, cy=py, r=radius)

    def fan(self, x: float, y: float) -> None:
        """A fan on its pipe."""
        px, py = self.at(x, y)
        self.sheet.field("part", px - 7, py - 8, px + 7, py + 8)
        self.sheet.path("edge", [(px - 7, py + 8), (px + 7, py - 8)])

    def _ground(self) -> None:
        (_, ground), (left, slab), (right, _) = self.at(0, 0), self.at(0, SLAB), self.at(WALL, SLAB)
        self.sheet.field("soil", 0, ground, 360, self.floor)
        self.sheet.field("inside", left, ground, right, slab)
        self.sheet.field("conc", left - 5, slab, right + 5, slab + 6)
        self.field("conc", WALL, 0, EDGE, -0.6)

    def _frame(self) -> None:
        for x, low, high in ((0, SLAB, CEILING), (WALL, SLAB, SECOND), (GARAGE, SECOND, CEILING), (EDGE, 0, SECOND)):
            self.line("wall", (x, low), (x, high))
        self.line("edge", (0, FIRST), (WALL, FIRST))
        self.line("edge", (0, SECOND), (EDGE, SECOND))
        self.line("edge", (0, CEILING), (GARAGE, CEILING))
        self.line("edge", (WALL, SECOND), (WALL, CEILING))
        self.line("wall", (-1, CEILING - 0.3), (GARAGE / 2, RIDGE), (GARAGE + 1, CEILING - 0.3))
        self.line("wall", (GARAGE, SECOND + 4.5), (EDGE + 1, SECOND - 0.4))
