"""Exact suction of one hole in a closed rectangular slab, by images or by a cosine series."""

from math import ceil, cos, exp, expm1, hypot, pi, sqrt

from .slab_bessel import k0

REACH = 20  # leakage lengths: K0(20) = 6e-10, images farther away add nothing
CLOSE = 1e-13  # share of the sum below which a term of the series is left out


def images_needed(*, width: float, depth: float, B: float) -> tuple[int, int]:
    """Number of image pairs in x and y that reach 20 leakage lengths [1, 1]; width, depth, B in m.

    Source: stop rule derived from K0(20) = 6e-10.
    """
    return ceil(REACH * B / (2 * width)) + 1, ceil(REACH * B / (2 * depth)) + 1


def rectangle_by_images(
    *, x: float, y: float, xs: float, ys: float, width: float, depth: float, Q: float, T: float, B: float
) -> float:
    """Suction [Pa] at (x, y) [m] of a hole at (xs, ys) [m] drawing Q [m3/s] from a closed slab width by depth [m].

    T [m3/s/Pa], B [m].  Errors: below 1e-7 of the suction at distance B; slow when B is much larger than the slab.
    Raises ValueError when the place is the hole itself.  Source: method of images on the endless leaky slab.
    """
    nx, ny = images_needed(width=width, depth=depth, B=B)
    total = 0.0
    for m in range(-nx, nx + 1):
        for px in (2 * m * width + xs, 2 * m * width - xs):
            for n in range(-ny, ny + 1):
                for py in (2 * n * depth + ys, 2 * n * depth - ys):
                    r = hypot(x - px, y - py)
                    if r < REACH * B:
                        total += k0(r / B)
    return Q / (2 * pi * T) * total


def rectangle_by_series(
    *, x: float, y: float, xs: float, ys: float, width: float, depth: float, Q: float, T: float, B: float
) -> float:
    """Suction [Pa] as ``rectangle_by_images``, by a cosine series along one side and exact decay along the other.

    Fast for any B.  Raises ValueError when the place is closer than 1/100 of a side to the hole in both directions.
    Source: separation of variables in div(T grad s) = T s / B^2 with closed walls.
    """
    if abs(x - xs) > abs(y - ys):
        x, y, xs, ys, width, depth = y, x, ys, xs, depth, width
    gap = abs(y - ys)
    if gap < depth / 100:
        raise ValueError("too near the hole for the series: use the images")
    total, m = 0.0, 0
    while True:
        along = m * pi / width
        kappa = sqrt(along * along + 1 / (B * B))
        decay = (
            exp(-kappa * gap)
            + exp(-kappa * (y + ys))
            + exp(kappa * (y + ys - 2 * depth))
            + exp(kappa * (gap - 2 * depth))
        )
        size = decay / (2 * kappa * -expm1(-2 * kappa * depth))
        total += (1 if m == 0 else 2) * size * cos(along * xs) * cos(along * x)
        if m and size < CLOSE * abs(total):
            return Q / (T * width) * total
        m += 1
