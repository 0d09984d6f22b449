"""Promises of the physics that hold for any sensible input."""

from math import isfinite, sqrt

from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.physics import air, clearance, curve, fan, openings, pipe, tile, water

QUICK = settings(max_examples=60, deadline=None)


def between(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats in a closed range."""
    return st.floats(low, high, allow_nan=False)


FLOW = between(1e-5, 1.0)
BORE = between(0.012, 0.6)
ROUGHNESS = between(0, 3e-3)


@QUICK
@given(between(1, 1e8), between(0, 0.05))
def test_friction_factor_is_positive_and_bounded(Re: float, relative: float) -> None:
    """The factor lies between 0.005 and 64 for every Reynolds number from 1 up."""
    assert 0.005 < pipe.friction_factor(Re=Re, k=relative, D=1.0) <= 64


@QUICK
@given(FLOW, between(1.001, 3), BORE, ROUGHNESS, between(0, 300))
def test_more_flow_loses_more(Q: float, times: float, D: float, k: float, L: float) -> None:
    """Raising the flow never lowers the loss, in any regime."""
    of = {"D": D, "k": k, "L": L, "K": 4.0, "rho": 1.2, "mu": 1.8e-5}
    assert pipe.total_loss(Q=Q * times, **of) >= pipe.total_loss(Q=Q, **of)


@QUICK
@given(FLOW, BORE, between(1.01, 2), between(0.1, 100))
def test_a_wider_pipe_loses_less(Q: float, D: float, times: float, L: float) -> None:
    """The same flow loses less in a wider smooth pipe."""
    of = {"Q": Q, "k": 0.0, "L": L, "K": 1.0, "rho": 1.2, "mu": 1.8e-5}
    assert pipe.total_loss(D=D * times, **of) <= pipe.total_loss(D=D, **of)


GAP = {"w": between(1e-6, 1.5), "z": between(1e-4, 0.3), "dp": between(1e-3, 5000)}


@QUICK
@given(**GAP)
def test_gap_law_stays_below_both_limits(w: float, z: float, dp: float) -> None:
    """No gap passes more than an orifice, nor more than laminar flow between plates."""
    V = openings.gap_speed(C=0.61, rho=1.2, dp=dp, mu=1.8e-5, z=z, w=w)
    orifice, plates = 0.61 * sqrt(2 * dp / 1.2), dp * w**2 / (12 * 1.8e-5 * z)
    assert 0 < V <= min(orifice, plates) * (1 + 1e-12)
    assert isfinite(V)


@QUICK
@given(**GAP, times=between(1.01, 10))
def test_gap_law_rises_with_width_and_pressure(w: float, z: float, dp: float, times: float) -> None:
    """Wider or pulled harder, a gap passes more."""
    of = {"C": 0.61, "rho": 1.2, "mu": 1.8e-5, "z": z}
    V = openings.gap_speed(dp=dp, w=w, **of)
    assert openings.gap_speed(dp=dp, w=w * times, **of) >= V
    assert openings.gap_speed(dp=dp * times, w=w, **of) > V


@st.composite
def falling_points(draw: st.DrawFn) -> tuple[list[float], list[float]]:
    """Points of a fan curve: flow from 0, pressure falling to 0."""
    steps = draw(st.lists(st.tuples(between(0.005, 0.05), between(1, 200)), min_size=1, max_size=8))
    x, y = [0.0], [0.0]
    for wide, high in steps:
        x.append(x[-1] + wide)
        y.append(y[-1] + high)
    return x, [y[-1] - v for v in y]


@QUICK
@given(falling_points(), between(0, 1))
def test_a_falling_curve_falls_everywhere(points: tuple[list[float], list[float]], share: float) -> None:
    """The curve through falling points never rises and never leaves the range of its neighbours."""
    x, y = points
    smooth = curve.MonotoneCubic(x, y)
    for i in range(len(x) - 1):
        place = x[i] + share * (x[i + 1] - x[i])
        assert y[i + 1] - 1e-9 <= smooth(min(place, x[-1])) <= y[i] + 1e-9


@QUICK
@given(falling_points(), between(1e-6, 1e-3), between(0, 0.02), between(0, 1e5))
def test_the_operating_point_balances(points: tuple[list[float], list[float]], G: float, area: float, R: float) -> None:
    """For any falling fan the flows add up, and the pressures too."""
    smooth = curve.MonotoneCubic(*points)

    def leak(s: float) -> float:
        return openings.orifice_flow(C=0.61, A=area, dp=s, rho=1.2)

    found = fan.operating_point(fan=smooth, pipe_loss=lambda Q: R * Q * Q, soil_conductance=G, leak=leak)
    top = smooth(0)
    assert 0 <= found.pit_suction <= top
    assert abs(smooth(min(found.flow, smooth.high)) - R * found.flow**2 - found.pit_suction) < 1e-6 * top + 1e-6
    assert abs(found.flow - found.soil_flow - found.leak_flow) < 1e-12


@QUICK
@given(between(1e-6, 1e-3), between(0, 0.02), between(1.05, 5))
def test_a_larger_leak_never_raises_the_suction(G: float, area: float, times: float) -> None:
    """Opening the lid further lowers the pit's suction and the soil's flow."""
    one = curve.Parabola(shutoff=400, free_flow=0.08)

    def pit(A: float) -> float:
        return fan.operating_point(
            fan=one, pipe_loss=lambda Q: 6e4 * Q * Q, soil_conductance=G,
            leak=lambda s: openings.orifice_flow(C=0.61, A=A, dp=s, rho=1.2),
        ).pit_suction  # fmt: skip

    assert pit(area * times + 1e-6) <= pit(area) + 1e-9


@QUICK
@given(between(273.2, 333.1), between(0.1, 50))
def test_water_is_heaviest_at_four_degrees_and_thins_with_heat(T: float, warmer: float) -> None:
    """Density never passes that at 4 degC, viscosity falls with every degree."""
    assert water.density(T=T) <= water.density(T=277.133) + 1e-6
    if T + warmer <= 333.1:
        assert water.viscosity(T=T + warmer) < water.viscosity(T=T)


@QUICK
@given(between(-400, 4500), between(222, 327), between(0, 1))
def test_moist_air_is_lighter_than_dry(z: float, T: float, phi: float) -> None:
    """Vapour lightens the air; the density stays positive at every elevation."""
    p = air.pressure_at(z=z)
    e = air.vapour_pressure(phi=phi, p_s=air.saturation_pressure(T=T))
    assert 0 < air.density(p=p, e=e, T=T) <= air.dry_density(p=p, T=T)


@QUICK
@given(between(1e-4, 1e-2), between(1e-6, 1 - 1e-6), between(1e-3, 1))
def test_no_cycle_is_shorter_than_the_worst(Q_d: float, share: float, V: float) -> None:
    """Whatever the inflow, the pump starts at most as often as at half its delivery."""
    assert water.cycle_time(V=V, Q_i=share * Q_d, Q_d=Q_d) >= water.worst_cycle_time(V=V, Q_d=Q_d) * (1 - 1e-9)


@QUICK
@given(between(0, 50), between(-20, 20), between(0, 5))
def test_an_opening_is_no_nearer_than_its_nearest_part(h: float, v: float, H: float) -> None:
    """The slant distance is at least the horizontal one and at most that to either edge."""
    d = clearance.slant_distance(h=h, g=clearance.vertical_gap(v=v, H=H))
    assert h <= d + 1e-12
    for edge in (v, -v - H):
        assert d <= sqrt(h**2 + edge**2) + 1e-12


@QUICK
@given(between(0.1, 0.4), between(0, 0.5), between(0.05, 0.2), between(0, 0.2), between(0.05, 0.3))
def test_the_first_core_misses_the_footing(wall: float, more: float, d: float, gap: float, D: float) -> None:
    """However wide the core, half an inch of concrete stays between it and the footing."""
    P = tile.footing_projection(b=wall + more, t=wall)
    x = tile.first_hole(P=P, d=d, g_1=0, g_2=gap, D=D, m=tile.CORE_MARGIN, t_f=0)
    assert x - D / 2 >= P + tile.CORE_MARGIN - 1e-12
