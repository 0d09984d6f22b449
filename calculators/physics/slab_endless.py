"""Pits in a slab so leaky that its walls hardly matter: the endless slab, for leakage lengths too short for cells."""

from collections.abc import Sequence
from math import hypot

from .slab_closed import endless_slab
from .slab_gravel import solve_flows
from .slab_outline import Outline
from .slab_source import Pit


class EndlessField:
    """Suction of pits in an endless leaky slab with layer T [m3/s/Pa] and leakage length B [m].

    Walls, joints and footings are not looked at: beside them the true suction is up to twice as high, beyond a
    footing lower.  Raises ValueError when a pit has neither or both of flow and suction, or T or B is not above 0.
    Source: De Glee's solution, added up.
    """

    def __init__(self, pits: Sequence[Pit], *, T: float, B: float) -> None:
        if not (T > 0 and B > 0):
            raise ValueError("T and B must be above 0")
        self.pits, self.T, self.B = list(pits), T, B
        matrix = [[self._unit(p.x, p.y, q) for q in self.pits] for p in self.pits]
        self.flows, self.pit_suctions = solve_flows(self.pits, matrix, [0.0] * len(self.pits), None, 0.0)

    @property
    def flow(self) -> float:
        """All air drawn [m3/s]."""
        return sum(self.flows)

    def _unit(self, x: float, y: float, pit: Pit) -> float:
        return endless_slab(r=max(hypot(x - pit.x, y - pit.y), pit.radius), Q=1.0, T=self.T, B=self.B)

    def at(self, x: float, y: float) -> float:
        """Suction [Pa] at a place [m]."""
        return sum(q * self._unit(x, y, pit) for q, pit in zip(self.flows, self.pits, strict=True))

    def over(self, outline: Outline, step: float) -> list[tuple[float, float, float, float]]:
        """Squares of a side [m] over a plan: x, y [m] of the middle, area on the slab [m2], suction there [Pa]."""
        x1, y1, x2, y2 = outline.box
        out = []
        for j in range(int((y2 - y1) / step - 1e-9) + 1):
            for i in range(int((x2 - x1) / step - 1e-9) + 1):
                x, y = x1 + i * step, y1 + j * step
                area = outline.area_in(x, y, x + step, y + step)
                if area > 0:
                    out.append((x + step / 2, y + step / 2, area, self.at(x + step / 2, y + step / 2)))
        return out
