"""The slab on cells against exact fields; each row states its grid, its number of images and its tolerance.

Reasons for the tolerances: 0.2 percent beyond four cells and 1 percent within 1 m of a pit are what the handbook
promises; readings of a test hole are no better than 10 percent.
"""

import random
from math import cos, cosh, hypot, pi, sin

import pytest

from calculators.physics import slab_closed, slab_rectangle
from calculators.physics.slab_field import Equations, Field
from calculators.physics.slab_grid import Footing, Grid, OutsideGrid, cell_size
from calculators.physics.slab_outline import Outline
from calculators.physics.slab_solve import SingularMatrix
from calculators.physics.slab_source import Pit
from calculators.units import si

T = 5e-5  # m3/s/Pa
Q = si("50 cfm")
BORE = 0.1  # m
WIDE_HOUSE = [(0.0, 0.0, 12.0, 9.0)]
L_HOUSE = [(0.0, 0.0, 12.0, 9.0), (12.0, 3.0, 4.0, 5.0)]


def field(rectangles, pits, *, B=5.0, h=None, joint=0.0, footings=None, T=T):
    """A solved field; h as the program chooses it unless given."""
    outline = Outline(rectangles)
    grid = Grid(outline, h=h or cell_size(outline, B), T=T, L=T / B**2, joint=joint, footings=footings)
    return Field(Equations(grid), pits)


def exact(x, y, xs, ys, *, width, depth, B):
    """Exact suction; the series where it converges, images (to 20 B) close to the pit."""
    place = {"x": x, "y": y, "xs": xs, "ys": ys, "width": width, "depth": depth, "Q": Q, "T": T, "B": B}
    if max(abs(x - xs) / width, abs(y - ys) / depth) > 0.05:
        return slab_rectangle.rectangle_by_series(**place)
    return slab_rectangle.rectangle_by_images(**place)


def images_used(width, depth, B):
    """Pairs of images (x, y) that the exact form sums."""
    return slab_rectangle.images_needed(width=width, depth=depth, B=B)


# width, depth, B, h, pairs of images (x, y), tolerance beyond four cells, within 1 m, at the bore
ROWS = [
    (12.0, 9.0, 3.0, 0.5, (4, 5), 0.003, 0.01, 0.002),  # six cells per leakage length: the coarse end
    (12.0, 9.0, 5.0, 0.5, (6, 7), 0.002, 0.01, 0.002),
    (12.0, 9.0, 15.0, 0.5, (14, 18), 0.002, 0.01, 0.002),
    (12.19, 9.14, 5.0, 0.5, (6, 7), 0.002, 0.01, 0.002),  # 40 by 30 ft: cells cut by two walls
    (10.0, 6.3, 5.0, 0.5, (6, 9), 0.002, 0.01, 0.002),
    (12.0, 9.0, 2.0, 0.4, (3, 4), 0.004, 0.01, 0.002),  # five cells per leakage length, read out to four lengths
]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]}x{row[1]}-B{row[2]}")
def test_closed_rectangle_against_the_exact_field(row) -> None:
    """Six pits, three of them at walls, each read at 60 places out to four leakage lengths and at its bore."""
    width, depth, B, h, pairs, far, near, bore = row
    assert images_used(width, depth, B) == pairs
    dice = random.Random(7)
    pits = [(3.0, 3.0), (0.3, 0.3), (0.2, depth / 2), (width - 0.3, depth - 0.3)]
    pits += [(dice.uniform(0.2, width - 0.2), dice.uniform(0.2, depth - 0.2)) for _ in range(2)]
    for xs, ys in pits:
        found = field([(0.0, 0.0, width, depth)], [Pit(xs, ys, BORE, flow=Q)], B=B, h=h)
        for _ in range(60):
            x, y = dice.uniform(0, width), dice.uniform(0, depth)
            r = hypot(x - xs, y - ys)
            if r < BORE or r > 4 * B or 1 < r < 4 * h:
                continue
            wanted = exact(x, y, xs, ys, width=width, depth=depth, B=B)
            assert found.at(x, y) == pytest.approx(wanted, rel=near if r < 1 else far), (xs, ys, x, y)
        rim = [2 * pi * (k + 0.5) / 12 for k in range(12)]
        mean = (
            sum(exact(xs + BORE * cos(a), ys + BORE * sin(a), xs, ys, width=width, depth=depth, B=B) for a in rim) / 12
        )
        assert found.pit_suctions[0] == pytest.approx(mean, rel=bore)


@pytest.mark.parametrize(("h", "tolerance"), [(1.0, 0.01), (0.5, 0.002), (0.25, 0.0005)])
def test_halving_the_cells_brings_the_field_to_the_exact_one(h, tolerance) -> None:
    """B = 5 m, field at 12 places beyond 4 m; the error falls with the cells (6 by 7 pairs of images or the series)."""
    found = field(WIDE_HOUSE, [Pit(3.3, 2.9, BORE, flow=Q)], h=h)
    for x, y in ((7.5, 2.9), (9, 6), (11.9, 8.9), (0.1, 8.5), (6, 8), (11, 1)):
        assert found.at(x, y) == pytest.approx(exact(x, y, 3.3, 2.9, width=12, depth=9, B=5.0), rel=tolerance)


def test_the_far_field_is_that_of_a_point_source() -> None:
    """Cells of 1 m, B = 5 m: 4 to 7 m from the pit, in all directions, the mean error is under 8e-5.

    A source spread over cells counts with h^2/(24 B^2) = 1.7e-3 too much or too little unless half of its curvature is
    counted; the tolerance is a twentieth of that.  Four places of the pit in its cell, for each has its own small error.
    """
    errors = []
    for xs, ys in ((6.75, 6.75), (6.75, 7.25), (7.25, 6.75), (7.25, 7.25)):
        found = field([(0.0, 0.0, 14.0, 14.0)], [Pit(xs, ys, BORE, flow=Q)], h=1.0)
        for x, y in ((i + 0.5, j + 0.5) for i in range(14) for j in range(14)):
            if 4 < hypot(x - xs, y - ys) < 7:
                errors.append(found.at(x, y) / exact(x, y, xs, ys, width=14, depth=14, B=5.0) - 1)
    assert sum(errors) / len(errors) == pytest.approx(0, abs=8e-5)


def test_a_large_slab_is_the_endless_one() -> None:
    """40 by 40 m, B = 4 m, h = 0.8 m: within 0.2 percent of K0 to 8 m; the rim's image adds K0(8)."""
    found = field([(0.0, 0.0, 40.0, 40.0)], [Pit(20.0, 20.0, BORE, flow=Q)], B=4.0, h=0.8)
    for r in (0.3, 1.0, 4.0, 8.0):
        assert found.at(20 + r, 20) == pytest.approx(slab_closed.endless_slab(r=r, Q=Q, T=T, B=4.0), rel=2e-3)


def test_tight_slab_with_a_wall_joint_has_the_resistances_of_a_disc() -> None:
    """All air comes through the joint: the wall has Q over its conductance, the bore a disc's logarithm (1 percent)."""
    side, g = 10.0, 3e-7
    outline = Outline([(0.0, 0.0, side, side)])
    found = Field(Equations(Grid(outline, h=0.5, T=T, L=0.0, joint=g)), [Pit(5.0, 5.0, BORE, flow=Q)])
    rim = [found.at(k * 0.25 + 0.125, 0.0) for k in range(40)]
    assert sum(rim) / 40 == pytest.approx(Q / (4 * side * g), rel=1e-3)
    R = side / pi**0.5
    wanted = slab_closed.tight_disc(r=BORE, R=R, Q=Q, T=T, g=4 * side * g / (2 * pi * R))
    assert found.pit_suctions[0] == pytest.approx(wanted, rel=0.01)


@pytest.mark.parametrize("h", [1.0, 0.5])
def test_coarse_cells_decay_as_the_strip_does(h) -> None:
    """A strip of 30 by 3 m, B = 2 m: suction falls as cosh of the way to the far end over B, from 7.5 to 17.5 m.

    1.5e-3 for the two cells per leakage length: cells without the factor 1 - h^2/(12 B^2) would be 5e-2 off.
    """
    found = field([(0.0, 0.0, 30.0, 3.0)], [Pit(1.5, 1.5, BORE, flow=Q)], B=2.0, h=h)
    middle = h / 2 if h < 1 else 0.0  # read at the middle of a cell
    near, far = 7.5 + middle, 17.5 + middle
    wanted = cosh((30 - near) / 2) / cosh((30 - far) / 2)
    assert found.at(near, 1.5 + middle) / found.at(far, 1.5 + middle) == pytest.approx(wanted, rel=1.5e-3)


def turned(rectangles, x, y, flip_x, flip_y):
    """The plan 16 by 9 m and a place on it, mirrored."""
    plan = [(16 - px - w if flip_x else px, 9 - py - d if flip_y else py, w, d) for px, py, w, d in rectangles]
    return plan, 16 - x if flip_x else x, 9 - y if flip_y else y


@pytest.mark.parametrize("flip_x", [False, True])
@pytest.mark.parametrize("flip_y", [False, True])
@pytest.mark.parametrize(
    ("x", "y", "runs"),
    [(14, 8, (14, 2, 5, 0)), (14, 3, (14, 2, 0, 5)), (12, 8.5, (12, 0, 8.5, 0.5)), (12, 2, (12, 0, 2, 7)),
     (16, 5, (16, 0, 2, 3)), (4, 0, (4, 8, 0, 9)), (5, 5, (5, 11, 5, 4))],
)  # fmt: skip
def test_the_way_to_the_walls_from_a_place_at_a_wall(x, y, runs, flip_x, flip_y) -> None:
    """Left, right, below, above as read off the plan, for places on the walls of an L and its mirror images."""
    plan, at_x, at_y = turned(L_HOUSE, x, y, flip_x, flip_y)
    left, right, below, above = runs
    wanted = (*((right, left) if flip_x else (left, right)), *((above, below) if flip_y else (below, above)))
    assert Outline(plan).free_run(at_x, at_y) == pytest.approx(wanted)


@pytest.mark.parametrize(("x", "y"), [(14.0, 8.0), (14.0, 3.0), (12.0, 8.5)])
def test_a_pit_at_a_wall_serves_the_mirrored_plan_alike(x, y) -> None:
    """Symmetry: mirror the plan and the suction is mirrored with it, a pit right at a wall included."""
    places = [(15.0, 7.0), (13.0, 5.0), (10.0, 8.0), (2.0, 1.0)]
    readings = []
    for flip_x, flip_y in ((False, False), (True, False), (False, True), (True, True)):
        plan, xs, ys = turned(L_HOUSE, x, y, flip_x, flip_y)
        found = field(plan, [Pit(xs, ys, BORE, flow=Q)], h=0.5)
        readings.append([found.at(*turned(L_HOUSE, *place, flip_x, flip_y)[1:]) for place in places])
    for other in readings[1:]:
        assert other == pytest.approx(readings[0], rel=1e-6)


@pytest.mark.parametrize("bore", [0.02, 0.3, 0.9])
def test_the_width_of_the_pit_is_told_from_the_cells(bore) -> None:
    """Bores from a drill hole to a six-foot pit on 0.5 m cells: the exact mean round the rim within 0.5 percent."""
    found = field(WIDE_HOUSE, [Pit(5.1, 4.3, bore, flow=Q)], h=0.5)
    rim = [2 * pi * (k + 0.5) / 12 for k in range(12)]
    places = [(5.1 + bore * cos(a), 4.3 + bore * sin(a)) for a in rim]
    mean = sum(exact(x, y, 5.1, 4.3, width=12, depth=9, B=5.0) for x, y in places) / 12
    assert found.pit_suctions[0] == pytest.approx(mean, rel=0.005)
    assert found.at(5.1 + bore / 2, 4.3) == pytest.approx(found.pit_suctions[0], rel=0.005)


@pytest.mark.parametrize("gap", [0.4, 1.0, 1.7])
@pytest.mark.parametrize("t", [0.5, 0.9, 0.999])
def test_a_pit_beside_a_footing_does_not_hang_on_the_cells(gap, t) -> None:
    """Pit, a place beside it and one across the footing: cells of 0.5 and 0.2 m agree to 2 percent."""
    readings = []
    for h in (0.5, 0.2):
        footing = [Footing(6.0, 0.0, 6.0, 9.0, t)]
        found = field(WIDE_HOUSE, [Pit(6.0 - gap, 4.5, BORE, flow=Q)], h=h, footings=footing)
        readings.append([found.pit_suctions[0], found.at(5.0 - gap, 4.6), found.at(6.8, 4.5), found.at(9.5, 6.0)])
    assert readings[0] == pytest.approx(readings[1], rel=0.02)


def test_a_place_a_hair_outside_a_wall_belongs_to_the_cell_inside() -> None:
    """Half a millimetre of tape and units, at the four walls of a plus."""
    grid = Grid(Outline([(0.0, 3.0, 9.0, 3.0), (3.0, 0.0, 3.0, 9.0)]), h=0.5, T=T, L=1e-7)
    for out, inside in ((2.9995, 3.25), (6.0005, 5.75)):
        assert grid.center(grid.cell_at(out, 1.2)) == (inside, 1.25)
        assert grid.center(grid.cell_at(1.2, out)) == (1.25, inside)


@pytest.mark.parametrize("axis", [0, 1])
def test_a_wall_at_a_narrow_slot_leaks_on_its_own_side(axis) -> None:
    """Two wings 0.3 m apart share a line of 0.5 m cells: each wall's joint belongs to the cell of its own wing."""
    wings = [(0.0, 0.0, 2.0, 3.0), (2.3, 0.0, 2.0, 3.0), (0.0, 3.0, 4.3, 1.0)]
    plan = [(y, x, d, w) if axis else (x, y, w, d) for x, y, w, d in wings]
    grid = Grid(Outline(plan), h=0.5, T=T, L=1e-7, joint=1e-7)
    beside = {2.0: set(), 2.3: set()}
    for cell, middle, _ in grid.wall_pieces:
        if middle[axis] in beside and middle[1 - axis] < 3:
            beside[middle[axis]].add(grid.center(cell)[axis])
    assert beside == {2.0: {1.75}, 2.3: {2.25}}


@pytest.mark.parametrize("h", [0.4, 0.5, 0.37])
def test_a_tight_footing_from_wall_to_wall_leaves_no_gap(h) -> None:
    """Whatever the cells make of the wall, a line that ends at it is closed: 0.999 lets 1 percent or less through."""
    footing = [Footing(6.0, 0.0, 6.0, 9.0, 0.999)]
    found = field(WIDE_HOUSE, [Pit(4.0, 4.5, BORE, flow=Q)], h=h, footings=footing)
    beyond = sum(q for q, (i, _) in zip(found.leaks_by_cell(), found.grid.places, strict=True) if (i + 0.5) * h > 6)
    assert 0 < beyond < 0.01 * Q


def test_flow_drawn_is_flow_leaked() -> None:
    """Mass balance to 1e-10 with cut cells, an inner corner, a footing, a wall joint and three pits."""
    pits = [Pit(3.1, 3.3, 0.1, flow=0.01), Pit(14.7, 7.8, 0.3, flow=0.004), Pit(11.6, 8.9, 0.05, flow=0.002)]
    rectangles = [(0.0, 0.0, 12.13, 9.07), (12.13, 3.0, 4.0, 5.21)]
    found = field(rectangles, pits, joint=3e-7, footings=[Footing(12.13, 3, 12.13, 8.21, 0.9)])
    assert found.leaked() == pytest.approx(found.flow, rel=1e-10)
    assert sum(found.grid.areas) == pytest.approx(12.13 * 9.07 + 4 * 5.21, rel=1e-12)


def test_two_places_serve_each_other_alike() -> None:
    """Reciprocity: the suction at b from a pit at a is that at a from b; exact between cells, 0.2 percent as read."""
    a, b = Pit(3.1, 3.3, BORE, flow=Q), Pit(14.2, 6.1, BORE, flow=Q)
    footings = [Footing(12, 3, 12, 8, 0.9)]
    first, second = (field(L_HOUSE, [p], joint=1e-7, footings=footings) for p in (a, b))
    assert first.at(b.x, b.y) == pytest.approx(second.at(a.x, a.y), rel=2e-3)
    equations = first.equations
    i, j = 20, 400
    assert equations.solve({i: 1.0})[j] == pytest.approx(equations.solve({j: 1.0})[i], rel=1e-12)


def test_pits_add_up() -> None:
    """Superposition: two pits of given flow make the sum of the single fields."""
    a, b = Pit(3.0, 3.0, BORE, flow=0.01), Pit(9.0, 7.0, 0.2, flow=0.02)
    both, one, other = (field(WIDE_HOUSE, p) for p in ([a, b], [a], [b]))
    for x, y in ((3.2, 3.0), (6.0, 5.0), (11.0, 1.0)):
        assert both.at(x, y) == pytest.approx(one.at(x, y) + other.at(x, y), rel=1e-12)


def test_pits_of_given_suction_have_it() -> None:
    """Given suctions give flows; those flows give the suctions back, and a third pit of given flow is respected."""
    given = [Pit(3.0, 3.0, BORE, suction=120.0), Pit(9.0, 7.0, 0.2, suction=100.0), Pit(6.0, 1.0, BORE, flow=0.001)]
    found = field(WIDE_HOUSE, given)
    again = field(WIDE_HOUSE, [p._replace(suction=None, flow=q) for p, q in zip(given, found.flows, strict=True)])
    assert again.pit_suctions == pytest.approx(found.pit_suctions, rel=1e-12)
    assert found.pit_suctions[:2] == pytest.approx([120.0, 100.0], rel=1e-10)
    assert found.flows[2] == 0.001


def test_more_leakage_never_raises_any_suction() -> None:
    """At fixed flow, a leakier slab or a leakier joint lowers the suction at every place."""
    pit = [Pit(3.0, 3.0, BORE, flow=Q)]
    tight, leaky = field(WIDE_HOUSE, pit, B=6.0), field(WIDE_HOUSE, pit, B=5.0)
    jointed = field(WIDE_HOUSE, pit, B=6.0, joint=1e-6)
    for other in (leaky, jointed):
        assert all(low < high for low, high in zip(other.cells(), tight.cells(), strict=True))


def test_a_very_open_layer_is_one_pressure() -> None:
    """T to infinity: suction is flow over all leaks everywhere (1e-4 at T = 10 m3/s/Pa)."""
    outline = Outline(L_HOUSE)
    grid = Grid(outline, h=0.5, T=10.0, L=3e-7, joint=2e-7)
    found = Field(Equations(grid), [Pit(3.0, 3.0, BORE, flow=Q)])
    wanted = Q / (3e-7 * 128 + 2e-7 * 50)
    for x, y in ((0, 0), (3.0, 3.0), (15.9, 7.9)):
        assert found.at(x, y) == pytest.approx(wanted, rel=1e-4)


@pytest.mark.parametrize("h", [0.5, 0.25])
def test_a_footing_costs_what_its_conductance_says_whatever_the_grid(h) -> None:
    """A strip with a footing across: the jump is flow per metre over conductance (1 percent at both grids)."""
    t, width = 0.9, 3.0
    footing = [Footing(10.0, 0.0, 10.0, width, t)]
    found = field([(0.0, 0.0, 20.0, width)], [Pit(1.0, 1.5, BORE, flow=Q)], B=8.0, h=h, footings=footing)
    near = found.at(9.5, 1.5), found.at(9.0, 1.5)
    far = found.at(10.5, 1.5), found.at(11.0, 1.5)
    jump = (1.5 * near[0] - 0.5 * near[1] + near[0] * 0.5 - near[1] * 0.5) - (2 * far[0] - far[1])
    beyond = sum(q for q, (i, _) in zip(found.leaks_by_cell(), found.grid.places, strict=True) if (i + 0.5) * h > 10.0)
    wanted = beyond / width / slab_closed.footing_conductance(T=T, t=t)
    assert jump == pytest.approx(wanted, rel=0.01)


@pytest.mark.parametrize("h", [0.5, 0.3])
@pytest.mark.parametrize("run", [0.0, 2.0, 4.0, 6.0])
def test_a_slanting_footing_passes_what_its_length_passes(run, h) -> None:
    """Flow across a line that slants over ``run`` m of a 6 m strip is length times conductance times jump (5 percent).

    The footing is so tight that both sides are nearly one pressure each; the tolerance is for the layer's own part and
    for the ends of the cut links, which follow the line only to a cell.
    """
    t = 0.999
    footing = [Footing(10 - run / 2, 0.0, 10 + run / 2, 6.0, t)]
    found = field([(0.0, 0.0, 20.0, 6.0)], [Pit(3.0, 3.0, BORE, flow=Q)], B=60.0, h=h, footings=footing)
    sides = {True: [0.0, 0.0], False: [0.0, 0.0]}
    crossed = 0.0
    for cell, (s, leak) in enumerate(zip(found.cells(), found.leaks_by_cell(), strict=True)):
        x, y = found.grid.center(cell)
        beyond = x > 10 + run * (y / 6.0 - 0.5)
        crossed += leak if beyond else 0.0
        if beyond or x > 6:  # away from the pit
            area = found.grid.areas[cell]
            sides[beyond][0] += area * s
            sides[beyond][1] += area
    jump = sides[False][0] / sides[False][1] - sides[True][0] / sides[True][1]
    wanted = slab_closed.footing_conductance(T=T, t=t) * hypot(run, 6.0)
    assert crossed / jump == pytest.approx(wanted, rel=0.05)


def test_a_sealed_footing_leaves_the_other_part_alone() -> None:
    """Tightness 1 from wall to wall: no suction beyond, and the rest is the closed rectangle on its own."""
    footing = [Footing(12.0, 0.0, 12.0, 9.0, 1.0)]
    both = field([(0.0, 0.0, 18.0, 9.0)], [Pit(11.0, 3.0, BORE, flow=Q)], h=0.5, footings=footing)
    alone = field(WIDE_HOUSE, [Pit(11.0, 3.0, BORE, flow=Q)], h=0.5)
    assert both.at(15.0, 4.0) == 0
    assert both.unreached() == pytest.approx(1 / 3)
    assert alone.unreached() == 0
    assert both.leaked() == pytest.approx(Q, rel=1e-10)
    for x, y in ((3.0, 3.0), (6.0, 8.0), (9.0, 3.0)):
        assert both.at(x, y) == pytest.approx(alone.at(x, y), rel=0.01)
    assert len(set(both.grid.parts())) == 2


def test_open_footings_change_nothing() -> None:
    """Tightness 0 is no footing."""
    pit = [Pit(3.0, 3.0, BORE, flow=Q)]
    plain, open_one = field(L_HOUSE, pit), field(L_HOUSE, pit, footings=[Footing(12, 3, 12, 8, 0.0)])
    assert open_one.cells() == plain.cells()


def test_answers_by_place() -> None:
    """Corners go round from the lowest, then leftmost; the weakest place is one of them here; the map fits the plan."""
    found = field(L_HOUSE, [Pit(3.0, 3.0, BORE, flow=Q)], h=0.5)
    corners = [point for point, _ in found.corners()]
    assert corners == [(0, 0), (12, 0), (12, 3), (16, 3), (16, 8), (12, 8), (12, 9), (0, 9)]
    weakest = found.weakest()
    assert (weakest.x, weakest.y) in corners
    assert weakest.suction <= min(v for row in found.map().values for v in row if v is not None)
    plan = found.map()
    assert (len(plan.values), len(plan.values[0])) == (18, 32)
    assert (plan.x0, plan.y0) == (0.25, 0.25)
    assert plan.values[0][31] is None
    assert plan.values[8][31] == pytest.approx(found.at(plan.x0 + 31 * 0.5, plan.y0 + 8 * 0.5), rel=1e-3)
    assert found.covered(0.0) == 1
    assert found.covered(1e9) == 0
    assert 0 < found.covered(found.mean()) < 1


def test_house_air_is_the_share_of_the_slab_and_joint() -> None:
    """With half of the leakance in the soil and no joint, half of the air is the house's."""
    found = field(WIDE_HOUSE, [Pit(3.0, 3.0, BORE, flow=Q)])
    assert found.house_air_share(found.grid.L / 2) == pytest.approx(0.5, rel=1e-10)
    jointed = field(WIDE_HOUSE, [Pit(3.0, 3.0, BORE, flow=Q)], joint=1e-6)
    assert jointed.house_air_share(jointed.grid.L / 2) > 0.5


def test_refusals() -> None:
    """Short leakage lengths, places off the slab, and a slab that leaks nowhere are refused by name."""
    outline = Outline(WIDE_HOUSE)
    for B, plan in ((1.4, outline), (2.0, Outline([(0.0, 0.0, 60.0, 9.0)]))):
        with pytest.raises(OutsideGrid):
            cell_size(plan, B)
    with pytest.raises(ValueError, match="not on the slab"):
        field(WIDE_HOUSE, [Pit(13.0, 3.0, BORE, flow=Q)])
    with pytest.raises(SingularMatrix):
        Field(Equations(Grid(outline, h=0.5, T=T, L=0.0)), [Pit(3.0, 3.0, BORE, flow=Q)])
    with pytest.raises(ValueError, match="either a flow or a suction"):
        field(WIDE_HOUSE, [Pit(3.0, 3.0, BORE)])


def test_cells_fit_the_plan_and_the_leakage_length() -> None:
    """At most B/3, at most 60 along a side, and at most about 1600 in all."""
    for rectangles, B in ((WIDE_HOUSE, 1.5), (WIDE_HOUSE, 5.0), ([(0.0, 0.0, 40.0, 30.0)], 5.0), (L_HOUSE, 80.0)):
        outline = Outline(rectangles)
        h = cell_size(outline, B)
        grid = Grid(outline, h=h, T=T, L=1e-7)
        assert h <= B / 3
        assert max(grid.nx, grid.ny) <= 60
        assert len(grid.places) <= 1700
