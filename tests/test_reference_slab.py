"""Slab physics against independent numerical libraries (these are test tools only)."""

import mpmath
import pytest
from scipy import special

from calculators.physics import slab_bessel
from calculators.physics.slab_solve import BandedCholesky, dense_solve


@pytest.mark.parametrize("x", [1e-5, 1e-3, 0.1, 0.7, 2.0, 9.0, 60.0, 300.0])
def test_bessel_functions_against_scipy(x: float) -> None:
    """K0, K1, I0, I1 agree with SciPy to 13 digits over eight decades."""
    pairs = [("k0", special.k0), ("k1", special.k1), ("i0", special.i0), ("i1", special.i1)]
    for name, reference in pairs:
        assert getattr(slab_bessel, name)(x) == pytest.approx(float(reference(x)), rel=2e-13), name


@pytest.mark.parametrize(("u", "beta"), [(0.01, 0.1), (0.1, 0.5), (0.01, 1.0), (0.001, 0.01), (1, 0.1), (0.625, 5)])
def test_leaky_well_function_against_mpmath(u: float, beta: float) -> None:
    """W(u, r/B) agrees with 30-digit quadrature to 10 digits."""
    with mpmath.workdps(30):
        places = [u, max(2 * u, beta), 5 + beta, mpmath.inf]
        exact = mpmath.quad(lambda y: mpmath.exp(-y - beta**2 / (4 * y)) / y, places)
    assert slab_bessel.leaky_well(u, beta) == pytest.approx(float(exact), rel=1e-10)


def test_banded_factor_against_elimination() -> None:
    """The banded factor and plain elimination give the same answer for a small net of links."""
    n = 14
    pairs = [(i, i + 1, 1.0 + 0.1 * i) for i in range(n - 1)] + [(i, i + 4, 0.3 + 0.05 * i) for i in range(n - 4)]
    links: list[list[tuple[int, float]]] = [[] for _ in range(n)]
    for a, b, c in pairs:
        links[a].append((b, c))
        links[b].append((a, c))
    diagonal = [0.01 + sum(c for _, c in row) for row in links]
    matrix = [[0.0] * n for _ in range(n)]
    for i in range(n):
        matrix[i][i] = diagonal[i]
        for j, c in links[i]:
            matrix[i][j] = -c
    right = [((7 * i) % 5) - 1.0 for i in range(n)]
    assert BandedCholesky(diagonal, links).solve(right) == pytest.approx(dense_solve(matrix, right), rel=1e-11)
