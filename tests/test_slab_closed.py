"""Closed forms of the suction under a slab: printed values, limits of one into another, and identities."""

from itertools import pairwise
from math import cosh, exp, log, pi, tanh

import pytest

from calculators.physics import slab_bessel, slab_closed, slab_gravel, slab_rectangle
from calculators.units import factor, si
from published import Check

LAYER = 5e-5  # m3/s/Pa, an open gravel layer
FIFTY = si("50 cfm")

CHECKS = [
    *[
        Check(f"bessel-{name}-{x}", "slab_bessel", "abramowitz-stegun", f"Tables 9.8 and 9.9, {name.upper()}({x})",
              lambda name=name, x=x: getattr(slab_bessel, name)(x), printed, 6e-10 * max(1.0, printed),
              "printed to ten digits", seen="from memory")
        for name, x, printed in [
            ("k0", 0.1, 2.4270690247), ("k0", 0.5, 0.9244190712), ("k0", 1, 0.4210244382), ("k0", 2, 0.1138938727),
            ("k0", 5, 0.0036910983), ("k1", 1, 0.6019072302), ("k1", 0.1, 9.8538447809),
        ]
    ],
    Check("leaky-well-late", "slab_bessel", "leaky-well-package", "well function at late time, r/B = 0.5",
          lambda: slab_bessel.leaky_well(1e-9, 0.5), 1.848838, 1e-6, "printed to seven digits", seen="secondary"),
    Check("leaky-well-late-k0", "slab_bessel", "leaky-well-package", "well function at late time, r/B = 0.5",
          lambda: 2 * slab_bessel.k0(0.5), 1.848838, 1e-6, "its limit is 2 K0(r/B)", seen="secondary"),
    Check("leaky-well-lecture", "slab_bessel", "leaky-well-lecture", "W(0.625, 5)",
          lambda: slab_bessel.leaky_well(0.625, 5), 0.00737984, 1e-5 * 0.00737984,
          "the page's rule has 1000 panels and is 3e-6 low", seen="secondary"),
    Check("saum-example", "slab_closed", "saum-1996", "first page, worked example",
          lambda: slab_closed.drop_per_ten_feet(s1=si("1 in WC"), s2=si("0.1 in WC"), d=si("10 ft")), 0.9, 1e-12,
          "both readings are exact", seen="seen"),
]  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_printed_values(check: Check) -> None:
    """Printed values are met within their own digits."""
    assert check.holds(), str(check)


@pytest.mark.parametrize("x", [0.01, 0.3, 1.0, 4.0, 30.0, 250.0])
def test_bessel_wronskian(x: float) -> None:
    """I0 K1 + I1 K0 = 1/x to rounding, which ties both families together."""
    b = slab_bessel
    assert b.i0(x) * b.k1(x) + b.i1(x) * b.k0(x) == pytest.approx(1 / x, rel=1e-13)


def test_bessel_refuses_outside_its_range() -> None:
    """K at 0 and below, and I below 0, are errors and not numbers."""
    for call in (lambda: slab_bessel.k0(0.0), lambda: slab_bessel.k1(-1.0), lambda: slab_bessel.i0(-1.0)):
        with pytest.raises(ValueError):
            call()


def test_leaky_disc_of_great_radius_is_the_endless_slab() -> None:
    """A rim 12 leakage lengths away is not felt (K0(12)), nor is a small hole's own area."""
    for r in (0.5, 2.0, 10.0):
        disc = slab_closed.leaky_disc(r=r, R=60, rw=0.01, Q=FIFTY, T=LAYER, B=5)
        assert disc == pytest.approx(slab_closed.endless_slab(r=r, Q=FIFTY, T=LAYER, B=5), rel=2e-5)


def test_leaky_disc_leaks_what_the_hole_draws() -> None:
    """The air that enters over the disc is the hole's flow (Simpson rule of 2000 panels, 1e-6)."""
    R, rw, B, n = 6.0, 0.1, 4.0, 2000
    step = (R - rw) / n

    def ring(k: int) -> float:
        r = min(rw + k * step, R)
        return 2 * pi * r * LAYER / B**2 * slab_closed.leaky_disc(r=r, R=R, rw=rw, Q=FIFTY, T=LAYER, B=B)

    total = (ring(0) + ring(n) + sum(ring(k) * (4 if k % 2 else 2) for k in range(1, n))) * step / 3
    assert total == pytest.approx(FIFTY, rel=1e-6)


def test_tight_disc_is_one_pressure_when_its_joint_is_fine() -> None:
    """Tight slab, hairline joint: the loss at the rim is Q/(2 pi R g), and the bore adds the logarithm."""
    Q = si("25 cfm")
    rim = slab_closed.tight_disc(r=6, R=6, Q=Q, T=LAYER, g=3e-7)
    assert rim == pytest.approx(Q / (2 * pi * 6 * 3e-7), rel=1e-12)
    bore = slab_closed.tight_disc(r=0.1, R=6, Q=Q, T=LAYER, g=3e-7)
    assert bore - rim == pytest.approx(Q / (2 * pi * LAYER) * log(60), rel=1e-12)


def test_strip_and_its_flow_agree() -> None:
    """The flow into the edge is T times the slope there, and the middle of a strip with two edges is 1/cosh(a/B)."""
    edge = {"se": 100.0, "a": 4.5, "B": 5.0}
    slope = (slab_closed.strip(x=0, **edge) - slab_closed.strip(x=1e-5, **edge)) / 1e-5
    assert slab_closed.strip_flow(T=LAYER, **edge) == pytest.approx(LAYER * slope, rel=1e-5)
    assert slab_closed.strip_flow(T=LAYER, **edge) == pytest.approx(100 * LAYER / 5 * tanh(0.9), rel=1e-12)
    assert slab_closed.middle_share(a=4.5, B=5) == pytest.approx(1 / cosh(0.9), rel=1e-12)
    assert slab_closed.strip(x=4.5, **edge) == pytest.approx(100 * slab_closed.middle_share(a=4.5, B=5), rel=1e-12)


def test_stone_loss_is_the_integral_of_its_slope() -> None:
    """Viscous and inertial loss between two radii equal the summed slope (midpoint rule in ln r, 1e-6)."""
    k, b, mu, c, n = 2e-8, 0.1, 1.8e-5, 20.0, 4000
    step = log(5 / 0.25) / n
    total = 0.0
    for i in range(n):
        r = 0.25 * exp((i + 0.5) * step)
        v = FIFTY / (2 * pi * r * b)
        total += mu / k * (v + c * v * v) * r * step
    assert slab_closed.stone_loss(r1=0.25, r2=5, Q=FIFTY, k=k, b=b, mu=mu, c=c) == pytest.approx(total, rel=1e-6)
    power = slab_closed.power_loss(r1=0.25, r2=5, Q=FIFTY, a=mu * c / k, b=b, m=2)
    viscous = slab_closed.stone_loss(r1=0.25, r2=5, Q=FIFTY, k=k, b=b, mu=mu, c=0)
    assert power == pytest.approx(total - viscous, rel=1e-6)


@pytest.mark.parametrize("B", [2.0, 5.0, 15.0])
def test_images_and_cosine_series_agree(B: float) -> None:
    """Two independent exact forms of the closed rectangle, 12 by 9 m, hole (3, 3); images to 20 B, so 1e-6 at 10 m."""
    for x, y in ((11.9, 8.9), (3.0, 7.0), (9.0, 3.2), (0.0, 0.0)):
        place = {"x": x, "y": y, "xs": 3.0, "ys": 3.0, "width": 12.0, "depth": 9.0, "Q": FIFTY, "T": LAYER, "B": B}
        images = slab_rectangle.rectangle_by_images(**place)
        assert slab_rectangle.rectangle_by_series(**place) == pytest.approx(images, rel=1e-6)


def test_the_drop_per_ten_feet_is_no_constant_of_a_slab() -> None:
    """B = 10 ft: the drop falls from 85 to 68 percent over four successive steps of 10 ft from 1 ft."""
    ft = factor("ft")
    s = [slab_closed.endless_slab(r=(1 + 10 * k) * ft, Q=FIFTY, T=LAYER, B=10 * ft) for k in range(5)]
    drops = [slab_closed.drop_per_ten_feet(s1=a, s2=b, d=10 * ft) for a, b in pairwise(s)]
    assert drops == sorted(drops, reverse=True)
    assert drops[0] - drops[-1] > 0.1


def test_gap_stone_and_pit_rules_scale_as_they_must() -> None:
    """Joints go with width cubed; a crack without inertia is that joint; a half sphere holds its volume."""
    joint = slab_closed.joint_conductance
    assert joint(w=1e-3, mu=1.8e-5, z=0.1) == pytest.approx(8 * joint(w=5e-4, mu=1.8e-5, z=0.1))
    q = 1e-5
    dp = slab_closed.crack_pressure(q=q, w=5e-4, z=0.1, mu=1.8e-5, rho=1.2, C=0)
    assert q / dp == pytest.approx(joint(w=5e-4, mu=1.8e-5, z=0.1))
    radius = slab_closed.dug_radius(V=0.02)
    assert 2 / 3 * pi * radius**3 == pytest.approx(0.02)
    assert slab_closed.footing_conductance(T=LAYER, t=1.0) == 0


@pytest.mark.parametrize("r", [0.2, 1.0, 4.0])
def test_the_inertia_ratio_is_that_of_the_two_slopes(r: float) -> None:
    """In an endless layer: slope of the stone's extra part over Darcy's mu v/k, v through the cylinder at r."""
    stone = slab_gravel.Stone(k=2e-8, b=0.1, c=20, mu=1.8e-5)
    near, far = (slab_gravel.skin_field(stone, FIFTY, r + d, 0.1, 1e9) for d in (-1e-5, 1e-5))
    darcy = stone.mu / stone.k * FIFTY / (2 * pi * r * stone.b)
    assert slab_gravel.inertia_ratio(stone, FIFTY, r) == pytest.approx((near - far) / 2e-5 / darcy, rel=1e-6)


def test_the_stone_skin_is_the_integral_of_its_slope_and_ends_at_the_rim() -> None:
    """Slope of the extra part is c mu/k v^2 with the flow Q(1 - r^2/R^2), and the part is 0 at the rim."""
    stone = slab_gravel.Stone(k=2e-8, b=0.1, c=20, mu=1.8e-5)
    R = 6.0
    assert slab_gravel.skin_field(stone, FIFTY, R, 0.1, R) == 0
    for r in (0.2, 1.0, 4.0):
        near, far = (slab_gravel.skin_field(stone, FIFTY, r + d, 0.1, R) for d in (-1e-5, 1e-5))
        v = FIFTY * (1 - r * r / R**2) / (2 * pi * r * 0.1)
        assert (near - far) / 2e-5 == pytest.approx(stone.mu * stone.c / stone.k * v * v, rel=1e-6)
