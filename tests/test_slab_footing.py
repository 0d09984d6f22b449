"""A footing across the cells is in series with the layer; each row can be added up by hand.

By its definition a footing of tightness t holds the share t of the resistance of a strip 0.5 m long: t / (1 - t) times
the layer's part, so for a layer of 2 the footing alone passes 2 * (1 - t) / (t * 0.5) a metre.
"""

import pytest

from calculators.physics.slab_grid import Footing, Grid
from calculators.physics.slab_outline import Outline

LAYER = 2.0  # m3/s/Pa, a round number for the sums


@pytest.mark.parametrize(("h", "t", "wanted"), [
    (0.5, 0.5, 1.0),    # layer 1/2, footing 1/(4 * 0.5) = 1/2
    (0.5, 0.75, 0.5),   # layer 1/2, footing 3/2
    (0.25, 0.5, 2 / 3), # layer 1/2, footing 1/(4 * 0.25) = 1
    (1.0, 0.5, 4 / 3),  # layer 1/2, footing 1/4
    (1.0, 1.0, 0.0),    # sealed off
])
def test_a_straight_footing_is_in_series(h, t, wanted):
    """What passes between two cells on both sides of a footing, and between two on the same side."""
    grid = Grid(Outline([(0.0, 0.0, 8.0, 2.0)]), h=h, T=LAYER, L=0.0, footings=[Footing(4.0, 0.0, 4.0, 2.0, t)])
    here, there, far = (grid.cell_at(x, 0.6) for x in (4.0 - h / 2, 4.0 + h / 2, 4.0 + 3 * h / 2))
    links = dict(grid.links[there])
    assert links.get(here, 0.0) == pytest.approx(wanted, rel=1e-9)
    assert links[far] == pytest.approx(LAYER, rel=1e-9)


def test_an_open_footing_is_none():
    grid = Grid(Outline([(0.0, 0.0, 8.0, 2.0)]), h=0.5, T=LAYER, L=0.0, footings=[Footing(4.0, 0.0, 4.0, 2.0, 0.0)])
    assert not grid.cut


def test_a_footing_where_the_slab_is_narrower_than_a_cell():
    """Half a cell's width is left: layer 1/1, footing 1/(4 * 0.25) = 1, together 1/2; and whole cells have their middle."""
    grid = Grid(Outline([(0.0, 0.0, 8.0, 1.75)]), h=0.5, T=LAYER, L=0.0, footings=[Footing(4.0, 0.0, 4.0, 1.75, 0.5)])
    narrow = [cell for cell, area in enumerate(grid.areas) if area < 0.5 * 0.5 * 0.9]
    crossed = [grid.cut[a, b] for a, b in grid.cut if a in narrow and b in narrow]
    assert crossed == pytest.approx([0.5] * len(crossed), rel=1e-9)
    assert len(crossed) == 2
    assert all(grid.middles[cell] == pytest.approx(grid.center(cell)) for cell in range(len(grid.areas)) if cell not in narrow)
