"""Curves, roots and the operating point of fan, pipe, soil and leaks."""

from itertools import pairwise
from math import cos, exp

import pytest

from calculators.physics import curve, fan, openings, pipe
from calculators.physics.numerics import root
from calculators.units import factor, si

CFM = factor("cfm")
FAN = curve.Parabola(shutoff=400.0, free_flow=160 * CFM)
RESISTANCE = 6.35e4  # Pa s2/m6: 10 m of 4 in. with a factor of 0.022 and coefficients of 5


def square_loss(Q: float) -> float:
    """Pressure in Pa lost in a pipe of constant factor."""
    return RESISTANCE * Q * abs(Q)


def real_loss(bore: str) -> object:
    """Pressure lost in 10 m of smooth pipe with coefficients of 5, its factor that of each flow."""
    return lambda Q: pipe.total_loss(Q=Q, D=si(bore), k=1.5e-6, L=10, K=5, rho=1.2, mu=1.8e-5)


def lid(area: float) -> object:
    """Leak of a sharp-edged opening in cm2."""
    return lambda s: openings.orifice_flow(C=0.61, A=area * 1e-4, dp=s, rho=1.2)


@pytest.mark.parametrize(
    ("G", "area", "pit", "soil", "leak"),
    [
        (1.5e-4, 0, 234.5, 74.5, 0), (1.5e-4, 5, 211.9, 67.3, 12.1), (1.5e-4, 10, 191.0, 60.7, 23.1),
        (1.5e-4, 100, 35.5, 11.3, 99.4), (1.5e-4, 200, 11.0, 3.5, 110.8),
        (4e-4, 0, 115.4, 97.8, 0), (4e-4, 5, 106.9, 90.6, 8.6), (4e-4, 100, 27.9, 23.6, 88.1),
    ],
)  # fmt: skip
def test_leak_and_soil_share_the_fan(G: float, area: float, pit: float, soil: float, leak: float) -> None:
    """Pit suction, soil and lid flow as found by a separate root search with SciPy."""
    found = fan.operating_point(fan=FAN, pipe_loss=square_loss, soil_conductance=G, leak=lid(area))
    assert found.pit_suction == pytest.approx(pit, abs=0.1)
    assert found.soil_flow / CFM == pytest.approx(soil, abs=0.06)
    assert found.leak_flow / CFM == pytest.approx(leak, abs=0.06)


def test_everything_balances_at_the_operating_point() -> None:
    """Flows add up and the fan's pressure is pipe loss plus pit suction, factor of that flow included."""
    loss = real_loss("4.026 in")
    found = fan.operating_point(fan=FAN, pipe_loss=loss, soil_conductance=8e-5, leak=lid(30))
    assert found.flow == pytest.approx(found.soil_flow + found.leak_flow)
    assert found.fan_pressure == pytest.approx(FAN(found.flow))
    assert found.fan_pressure == pytest.approx(loss(found.flow) + found.pit_suction)


@pytest.mark.parametrize(("G", "cm2"), [(1.5e-4, 33.3), (4e-4, 46.0)])
def test_halving_area_halves_the_suction(G: float, cm2: float) -> None:
    """The area that is found, put into the lid, leaves exactly half of the sealed pit's suction."""
    sealed = fan.operating_point(fan=FAN, pipe_loss=square_loss, soil_conductance=G)
    area = fan.halving_area(fan=FAN, pipe_loss=square_loss, soil_conductance=G, sealed=sealed, rho=1.2)
    assert area * 1e4 == pytest.approx(cm2, abs=0.1)
    opened = fan.operating_point(fan=FAN, pipe_loss=square_loss, soil_conductance=G, leak=lid(area * 1e4))
    assert opened.pit_suction == pytest.approx(sealed.pit_suction / 2)


def test_a_dead_end_has_the_shut_off_pressure() -> None:
    """Without soil flow and leak nothing moves and the pit has all that the fan makes."""
    found = fan.operating_point(fan=FAN, pipe_loss=square_loss, soil_conductance=0)
    assert (found.flow, found.pit_suction) == (0, 400)


def test_a_fan_that_cannot_beat_the_draft_moves_nothing() -> None:
    """Buoyancy against the fan that is stronger than its shut-off pressure leaves no flow."""
    found = fan.operating_point(fan=FAN, pipe_loss=lambda Q: 500 + square_loss(Q), soil_conductance=1e-4)
    assert (found.flow, found.pit_suction) == (0, 0)


def test_a_leak_in_the_pipe_takes_from_the_pit() -> None:
    """An opening in the pipe lowers the pit's suction but not as much as the same opening at the pit."""
    loss = real_loss("3.068 in")

    def static(Q: float) -> float:
        return loss(Q) + pipe.velocity_pressure(rho=1.2, V=pipe.speed(Q=Q, D=si("3.068 in")))

    sealed = fan.operating_point(fan=FAN, pipe_loss=lambda Q: 2 * loss(Q), soil_conductance=8e-5)
    side = fan.operating_point(
        fan=FAN, pipe_loss=loss, soil_conductance=8e-5, pipe_leak=fan.PipeLeak(loss, static, lid(20))
    )
    pit = fan.operating_point(fan=FAN, pipe_loss=lambda Q: 2 * loss(Q), soil_conductance=8e-5, leak=lid(20))
    assert pit.pit_suction < side.pit_suction < sealed.pit_suction
    assert side.pipe_leak_suction == pytest.approx(side.pit_suction + static(side.soil_flow))
    assert side.flow == pytest.approx(side.soil_flow + side.pipe_leak_flow)
    assert side.fan_pressure == pytest.approx(side.pit_suction + loss(side.soil_flow) + loss(side.flow))


def test_beyond_the_entered_points_there_is_no_answer() -> None:
    """A point past the last one, or before the first, is refused and says which end."""
    short = curve.MonotoneCubic([0, 0.01, 0.02], [400, 390, 380])
    with pytest.raises(fan.OutsideCurve) as high:
        fan.operating_point(fan=short, pipe_loss=square_loss, soil_conductance=1e-3)
    assert high.value.end == "high"
    late = curve.MonotoneCubic([0.05, 0.06], [200, 100])
    with pytest.raises(fan.OutsideCurve) as low:
        fan.operating_point(fan=late, pipe_loss=square_loss, soil_conductance=1e-6)
    assert low.value.end == "low"


@pytest.mark.parametrize("top", [0.3, 400.0])
def test_a_curve_carried_on_crosses_zero_within_its_own_width(top: float) -> None:
    """So that a root beyond the last point is bracketed: unchanged inside, level before, no jump, below 0 one width on."""
    short = curve.MonotoneCubic([0.01, 0.02, 0.03], [top, 0.98 * top, 0.95 * top])
    longer = curve.carried_on(short)
    assert [longer(Q) for Q in (0.0, 0.01, 0.02, 0.03)] == [short(0.01), short(0.01), short(0.02), short(0.03)]
    assert longer(0.03 + 1e-9) == pytest.approx(0.95 * top)
    assert longer(0.05) < 0


def test_negative_soil_is_refused() -> None:
    """A conductance below 0 has no meaning."""
    with pytest.raises(ValueError, match="must not be negative"):
        fan.operating_point(fan=FAN, pipe_loss=square_loss, soil_conductance=-1e-5)


def test_the_cubic_goes_through_its_points_and_stays_between_them() -> None:
    """Between two points the curve never leaves their range, however uneven the points."""
    x, y = [0.0, 1.0, 2.0, 10.0, 10.5], [400.0, 399.0, 200.0, 190.0, 0.0]
    smooth = curve.MonotoneCubic(x, y)
    assert [smooth(place) for place in x] == pytest.approx(y)
    for i in range(4):
        inside = [smooth(x[i] + (x[i + 1] - x[i]) * k / 50) for k in range(51)]
        assert all(a >= b - 1e-9 for a, b in pairwise(inside))


@pytest.mark.parametrize(
    ("x", "y", "at", "value"),
    [
        ([0, 5, 20, 30, 45], [25, 23.5, 20, 14, 2], (2, 12, 25, 40),
         (24.372680851063834, 21.99403042977511, 17.416364296081277, 6.40083857442348)),
        ([0, 1, 3, 4], [4.0, 3.9, 1.0, 1.0], (0.5, 2, 3.5), (3.971323529411765, 2.4073529411764705, 1.0)),
        ([0, 1, 2], [4.0, 3.99, 0.0], (0.5, 1.5), (3.99749375, 2.74000625)),
        ([0, 1, 2], [0.0, 0.1, -5.0], (0.5, 1.5), (0.0875, -1.4875)),
    ],
)  # fmt: skip
def test_the_cubic_between_points(
    x: list[float], y: list[float], at: tuple[float, ...], value: tuple[float, ...]
) -> None:
    """Uneven points, a flat end and a sharp bend at an end: values of SciPy 1.17.1's PchipInterpolator."""
    smooth = curve.MonotoneCubic(x, y)
    assert [smooth(place) for place in at] == pytest.approx(value, rel=1e-12)


def test_two_points_make_a_straight_line() -> None:
    """With two points there is nothing but a line."""
    line = curve.MonotoneCubic([0, 2], [10, 4])
    assert [line(0.5), line(1.0), line(1.5)] == pytest.approx([8.5, 7.0, 5.5])


@pytest.mark.parametrize(("x", "y"), [([0], [1]), ([0, 1], [1]), ([0, 0], [1, 2]), ([1, 0], [1, 2])])
def test_points_that_make_no_curve_are_refused(x: list[float], y: list[float]) -> None:
    """Too few points, unequal numbers and places that do not rise are errors."""
    with pytest.raises(ValueError, match=r"points|rise"):
        curve.MonotoneCubic(x, y)


def test_a_curve_is_not_read_outside_its_points() -> None:
    """Neither cubic nor parabola is carried on beyond what was entered."""
    with pytest.raises(ValueError, match="outside"):
        curve.MonotoneCubic([0, 1], [1, 0])(1.01)
    with pytest.raises(ValueError, match="outside"):
        FAN(161 * CFM)
    with pytest.raises(ValueError, match="above 0"):
        curve.Parabola(shutoff=0, free_flow=1)


def test_a_scaled_curve_is_the_curve_times_its_factor() -> None:
    """A fan in thin air makes the same share of its pressure at every flow."""
    thin = curve.Scaled(FAN, factor=0.835)
    assert thin(80 * CFM) == pytest.approx(0.835 * FAN(80 * CFM))
    assert (thin.low, thin.high) == (FAN.low, FAN.high)


def test_a_rising_curve_is_noticed() -> None:
    """The first value above its forerunner is named; a flat curve does not rise."""
    assert curve.first_rise([3, 2, 2.5, 1]) == 2
    assert curve.first_rise([3, 3, 1]) is None


@pytest.mark.parametrize(
    ("function", "low", "high", "place"),
    [
        (lambda x: x**3 - 2, 0.0, 5.0, 2 ** (1 / 3)),
        (lambda x: cos(x) - x, 0.0, 1.0, 0.7390851332151607),
        (lambda x: exp(x) - 1e8, 0.0, 700.0, 18.420680743952367),
        (lambda x: 1e-9 - x, 0.0, 400.0, 1e-9),
        (lambda x: 1.0 if x > 0.3 else -1.0, 0.0, 1.0, 0.3),
        (lambda x: x, 0.0, 1.0, 0.0),
        (lambda x: x - 1, 0.0, 1.0, 1.0),
    ],
)
def test_roots(function, low: float, high: float, place: float) -> None:  # type: ignore[no-untyped-def]
    """Smooth, steep, flat and broken functions: the crossing is found to the last digits."""
    assert root(function, low, high) == pytest.approx(place, rel=1e-14, abs=1e-300)


@pytest.mark.parametrize(
    ("function", "low", "high", "words"),
    [
        (lambda x: x + 1, 0.0, 1.0, "same sign"),
        (lambda x: x, 1.0, 0.0, "above high end"),
        (lambda x: float("nan"), 0.0, 1.0, "finite"),
    ],
)
def test_without_a_bracket_there_is_no_root(function, low: float, high: float, words: str) -> None:  # type: ignore[no-untyped-def]
    """The search says why it cannot start."""
    with pytest.raises(ValueError, match=words):
        root(function, low, high)
