"""Slab physics against independent numerical libraries (these are test tools only)."""

import random
from math import exp, log, pi

import mpmath
import numpy
import pytest
from scipy import special
from scipy.integrate import solve_bvp
from scipy.interpolate import RegularGridInterpolator
from scipy.linalg import cho_solve_banded, cholesky_banded
from scipy.optimize import curve_fit

from calculators.physics import slab_bessel
from calculators.physics.slab_closed import leaky_disc
from calculators.physics.slab_field import Equations, Field
from calculators.physics.slab_fit import Hole, fit_test
from calculators.physics.slab_gravel import Stone, skin_field
from calculators.physics.slab_grid import Footing, Grid
from calculators.physics.slab_outline import Outline
from calculators.physics.slab_probe import Reader, read
from calculators.physics.slab_solve import BandedCholesky, dense_solve
from calculators.physics.slab_source import Pit
from scripts.measure.slab import lower_band


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


@pytest.mark.parametrize("joint", [0.0, 3e-6])
def test_banded_factor_of_a_slab_against_scipy(joint: float) -> None:
    """The matrix of an L-shaped slab with a footing, solved by SciPy's banded Cholesky: the same to 11 digits."""
    plan = Outline([(0.0, 0.0, 12.0, 8.0), (12.0, 0.0, 8.0, 4.0)])
    grid = Grid(plan, h=0.5, T=1.1e-5, L=2.8e-7, joint=joint, footings=[Footing(12.0, 0.0, 12.0, 4.0, 0.9)])
    matrix = lower_band(grid)
    right = numpy.zeros(len(grid.places))
    right[grid.cell_at(3.2, 2.7)] = 0.01
    theirs = cho_solve_banded((cholesky_banded(matrix, lower=True), True), right)
    ours = Equations(grid).solve({grid.cell_at(3.2, 2.7): 0.01})
    assert ours == pytest.approx(list(theirs), rel=1e-11)


@pytest.mark.parametrize(
    ("Q", "k", "c", "B", "rw", "R"),
    [(0.0118, 2e-8, 20.0, 5.0, 0.25, 5.0), (0.0236, 2e-8, 20.0, 8.0, 0.25, 6.0), (0.0118, 2e-8, 20.0, 8.0, 0.1, 6.0),
     (0.0236, 9.6e-8, 12.0, 12.0, 0.15, 6.0)],
)  # fmt: skip
def test_stone_skin_against_the_whole_nonlinear_equation(
    Q: float, k: float, c: float, B: float, rw: float, R: float
) -> None:
    """Forchheimer's law in a closed leaky disc, solved by SciPy without any split: suction at the bore within 5 %.

    The skin is an approximation: it takes the flow to fall as 1 - r^2/R^2, so its error is some per cent of it.
    """
    mu, b = 1.8e-5, 0.1
    T = k * b / mu
    L = T / B**2

    def slopes(r: numpy.ndarray, y: numpy.ndarray) -> numpy.ndarray:
        s, q = y
        v = q / (2 * pi * r * b)
        return numpy.vstack([-mu / k * (v + c * v * numpy.abs(v)), -2 * pi * r * L * s])

    radii = numpy.geomspace(rw, R, 400)
    guess = numpy.vstack([numpy.full_like(radii, Q / (L * pi * R**2)), Q * (1 - (radii / R) ** 2)])
    exact = solve_bvp(slopes, lambda a, z: numpy.array([a[1] - Q, z[1]]), radii, guess, tol=1e-8, max_nodes=20000)
    assert exact.success
    linear = leaky_disc(r=rw, R=R, rw=rw, Q=Q, T=T, B=B)
    ours = linear + skin_field(Stone(k, b, c, mu), Q, rw, rw, R)
    assert ours == pytest.approx(float(exact.sol(rw)[0]), rel=0.05)
    assert ours > 1.02 * linear  # the stone costs something in each case


@pytest.mark.parametrize("seed", range(3))
def test_the_ranges_of_a_fit_are_scipys_standard_errors(seed: int) -> None:
    """Readings with 5 percent noise: best layer within 0.5 percent of SciPy's curve_fit, ranges within 15 percent of its.

    Theirs are linear about the best fit, ours follow the error and so lean to one side.
    """
    plan, pit, noise = Outline([(0.0, 0.0, 12.0, 9.0)]), Pit(3.0, 3.0, 0.1, flow=0.02), random.Random(seed)
    places = [(1.0, 8.0), (6.0, 4.0), (11.0, 8.0), (9.0, 1.0), (11.0, 1.0), (1.0, 1.0), (4.0, 7.0), (8.0, 6.0)]

    def logs(h: float, T: float, B: float) -> list[float]:
        field = Field(Equations(Grid(plan, h=h, T=T, L=T / B**2)), [pit])
        return [log(field.at(x, y)) for x, y in places]

    readings = [value + noise.gauss(0, 0.05) for value in logs(0.25, 3e-5, 6.0)]
    found = fit_test(plan, pit, [Hole(x, y, exp(value)) for (x, y), value in zip(places, readings, strict=True)])
    best, covariance = curve_fit(
        lambda _, ln_T, ln_B: logs(0.5, exp(ln_T), exp(ln_B)), places, readings, p0=(log(2e-5), log(5.0)), epsfcn=1e-6
    )
    assert (log(found.T), log(found.B)) == pytest.approx(tuple(best), abs=0.005)
    assert found.T_range is not None
    assert found.B_range is not None
    for (low, high), error in zip((found.T_range, found.B_range), numpy.sqrt(numpy.diag(covariance)), strict=True):
        assert log(high / low) / 2 == pytest.approx(error, rel=0.15)


@pytest.mark.parametrize(("method", "kinks", "within"), [("linear", [(6, 5)], 1e-12), ("cubic", [], 1e-3)])
def test_a_place_between_cells_is_read_as_scipy_reads_it(
    method: str, kinks: list[tuple[int, int]], within: float
) -> None:
    """Round a cell of the tile linearly, whatever the values; in the open a cubic surface, SciPy's solver being iterative."""
    grid = Grid(Outline([(0.0, 0.0, 6.0, 5.0)]), h=0.5, T=5e-5, L=5e-7)
    draw = random.Random(3)

    def surface(i: float, j: float) -> float:
        return (i - 5.5) ** 3 - 2 * (i - 6) ** 2 * (j - 4) + (j - 5) ** 3 + i * j

    values = [draw.random() if kinks else surface(i, j) for i, j in grid.places]
    by_place = [[values[grid.index[i, j]] for j in range(grid.ny)] for i in range(grid.nx)]
    theirs = RegularGridInterpolator((range(grid.nx), range(grid.ny)), by_place, method=method)
    ours = Reader(grid, [grid.index[place] for place in kinks])
    for _ in range(100):
        u, v = draw.uniform(5, 7), draw.uniform(4, 6)
        weights = ours.weights(grid.x0 + (u + 0.5) * grid.h, grid.y0 + (v + 0.5) * grid.h)
        assert read(weights, values) == pytest.approx(float(theirs((u, v))), abs=within)
