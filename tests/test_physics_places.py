"""Places and distances: the footing drain beside the wall, the outlet beside the window."""

import pytest

from calculators.physics import clearance, tile
from calculators.units import factor, si

INCH, FOOT = factor("in"), factor("ft")


@pytest.mark.parametrize(
    ("wall", "footing", "P", "center"), [(8, 16, 4, 6.25), (8, 20, 6, 8.25), (10, 20, 5, 7.25), (10, 24, 7, 9.25)]
)
def test_tile_touching_the_footing(wall: float, footing: float, P: float, center: float) -> None:
    """Wall centred on its footing, 4.5 in. tile against it: the centre from the inside face, by hand."""
    found = tile.footing_projection(b=footing * INCH, t=wall * INCH)
    assert found == pytest.approx(P * INCH)
    assert tile.tile_center(P=found, d=4.5 * INCH, g=0) == pytest.approx(center * INCH)


def hole(**other: float) -> float:
    """First hole in inches for an 8 in. wall on a 16 in. footing, gap 0 to 4 in., 5 in. core."""
    given = {"P": 4.0, "d": 4.5, "g_1": 0.0, "g_2": 4.0, "D": 5.0, "m": 0.5, "t_f": 0.0} | other
    return tile.first_hole(**{k: v * INCH for k, v in given.items()}) / INCH


def test_first_hole() -> None:
    """The first core is cut over the middle of the likely range, in front of the finish, and never into the footing."""
    assert hole() == pytest.approx(8.25)
    assert hole(t_f=4.5) == pytest.approx(3.75)
    assert hole(g_2=0) == pytest.approx(7.0)  # 4 + 5/2 + 1/2: the core would else touch the footing
    assert tile.from_finished_face(x=si("10.25 in"), t_f=si("4.5 in")) == pytest.approx(5.75 * INCH)


def test_a_footing_narrower_than_its_wall_is_refused() -> None:
    """Such a footing has no projection."""
    with pytest.raises(ValueError, match="less than the wall"):
        tile.footing_projection(b=0.15, t=0.2)


def test_a_footing_as_narrow_as_its_wall_has_no_projection() -> None:
    """A wall that is its own footing projects nowhere."""
    assert tile.footing_projection(b=0.2, t=0.2) == 0


def test_half_an_inch_stays_between_core_and_footing() -> None:
    """The usual margin is half an inch."""
    assert pytest.approx(INCH / 2) == tile.CORE_MARGIN


def test_core_mass() -> None:
    """A 5 in. core of a 4 in. slab of 2300 kg/m3 weighs about 3 kg."""
    assert tile.core_mass(rho=2300, D=si("5 in"), t=si("4 in")) == pytest.approx(2.96, abs=0.01)


def test_touching_ranges_overlap() -> None:
    """A range that ends where the other begins has a place in common with it."""
    assert tile.intervals_meet(low_1=6.25, high_1=10.25, low_2=9, high_2=12)
    assert tile.intervals_meet(low_1=6, high_1=9, low_2=9, high_2=12)
    assert not tile.intervals_meet(low_1=6, high_1=8.9, low_2=9, high_2=12)


@pytest.mark.parametrize(("v", "H", "g"), [(4, 3, 4), (-1, 3, 0), (-3, 3, 0), (-5, 3, 2), (0, 3, 0)])
def test_vertical_gap(v: float, H: float, g: float) -> None:
    """Above the opening its top counts, below it its bottom, beside it nothing."""
    assert clearance.vertical_gap(v=v, H=H) == g


def test_slant_distance() -> None:
    """Six feet to the side and a foot and a half up are 6.18 ft."""
    assert clearance.slant_distance(h=6 * FOOT, g=1.5 * FOOT) / FOOT == pytest.approx(6.18, abs=0.005)
    assert clearance.slant_distance(h=6, g=8) == 10


def test_rise_for_distance() -> None:
    """Raised by what is found, the slant distance is the one asked for; where it is there already, 0."""
    v = clearance.rise_for_distance(d=10, h=6)
    assert clearance.slant_distance(h=6, g=v) == 10
    assert clearance.rise_for_distance(d=10, h=11) == 0


def test_spread_cone() -> None:
    """At 45 degrees the cone is as wide as it is high, at 11 degrees a fifth; below the outlet there is none."""
    capped, plain = clearance.cone_slope(degrees=45), clearance.cone_slope(degrees=11)
    assert clearance.spread_radius(m=capped, z=3) == pytest.approx(3)
    assert clearance.spread_radius(m=plain, z=3) == pytest.approx(0.583, abs=0.001)
    assert clearance.spread_radius(m=capped, z=-3) == 0
    assert clearance.cone_clearance(h=2, m=capped, z=3) == pytest.approx(-1)
    assert clearance.cone_clearance(h=2, m=capped, z=-3) == 2
