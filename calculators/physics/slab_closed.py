"""Closed forms of the suction under a slab: an endless leaky slab, discs, strips, stone, and the soil's own numbers.

Suction s [Pa] is positive below the pressure above the slab.  T is the sheet conductance of the layer,
B = sqrt(T / L) the leakage length over which suction dies away when the slab leaks L per square metre.
"""

from math import cosh, exp, log, log10, pi, sqrt, tanh

from .formula import formula
from .slab_bessel import i0, i1, k0, k1

SAUM_DISTANCE = 10 * 0.3048  # m: the index is the drop per 10 ft
GAP_FACTOR = 12  # plane laminar flow between two walls
LINK_WIDTH = 0.5  # m, width of gravel under a footing to which its tightness refers (convention of this handbook)
PEACEMAN = 0.198  # radius, in cells, at which the exact field equals the value of a square cell with a well
ERGUN_VISCOUS = 150  # Ergun 1952
ERGUN_INERTIAL = 1.75  # Ergun 1952


@formula("T = k * b / mu", source="leaky-sheet", T="m3/s/Pa", k="m2", b="m", mu="Pa*s")
def layer_conductance(*, k: float, b: float, mu: float) -> float:
    """Sheet conductance T [m3/s/Pa] of a layer of permeability k [m2], thickness b [m], air viscosity mu [Pa*s].

    Raises ZeroDivisionError when mu is 0. Source: Darcy's law over the thickness of the layer.
    """
    return k * b / mu


@formula("B = sqrt(T / (L + Ls))", source="leaky-sheet", B="m", T="m3/s/Pa", L="m/s/Pa", Ls="m/s/Pa")
def leakage_length(*, T: float, L: float, Ls: float) -> float:
    """Leakage length B [m] of a layer T [m3/s/Pa] under a slab that leaks L [m/s/Pa] above soil that leaks Ls [m/s/Pa].

    Raises ZeroDivisionError when nothing leaks. Source: leaky sheet, div(T grad s) = (L + Ls) s.
    """
    return sqrt(T / (L + Ls))


@formula("g = w ** 3 / (12 * mu * z)", source="laminar-flow", g="m3/s/Pa/m", w="m", mu="Pa*s", z="m")
def joint_conductance(*, w: float, mu: float, z: float) -> float:
    """Conductance g [m3/s/Pa per m] of a wall joint w [m] wide and z [m] deep at viscosity mu [Pa*s].

    Holds to about 1 mm; wider joints pass less than this. Raises ZeroDivisionError when mu or z is 0.
    Source: plane laminar flow.
    """
    return w**3 / (GAP_FACTOR * mu * z)


@formula("dp = 12 * mu * z * q / w ** 3 + C * rho * q ** 2 / (2 * w ** 2)", source="baker-sharples-ward-1987",
         dp="Pa", mu="Pa*s", z="m", q="m3/s/m", w="m", C="1", rho="kg/m3")  # fmt: skip
def crack_pressure(*, q: float, w: float, z: float, mu: float, rho: float, C: float) -> float:
    """Pressure dp [Pa] that drives q [m3/s per m] through a long slab crack w [m] wide and z [m] deep.

    mu [Pa*s], rho [kg/m3]; C [1] is 1.5 for a straight crack. Raises ZeroDivisionError when w is 0.
    Source: Baker, Sharples and Ward 1987 (from memory).
    """
    return GAP_FACTOR * mu * z * q / w**3 + C * rho * q**2 / (2 * w**2)


@formula("g = T * (1 - t) / (t * 0.5)", source="derived", g="m3/s/Pa/m", T="m3/s/Pa", t="1")
def footing_conductance(*, T: float, t: float) -> float:
    """Conductance g [m3/s/Pa per m] across the line of a footing of tightness t (0 open, 1 sealed off).

    T [m3/s/Pa] is the layer's. Raises ZeroDivisionError at t = 0 (no footing: nothing to cross).
    Source: of a strip 0.5 m wide, the share t of the whole resistance is the footing's.
    """
    return T * (1 - t) / (t * LINK_WIDTH)


@formula("r = (3 * V / (2 * pi)) ** (1 / 3)", source="geometry", r="m", V="m3")
def dug_radius(*, V: float) -> float:
    """Radius r [m] of the half sphere that holds the dug volume V [m3]. Source: geometry."""
    return (3 * V / (2 * pi)) ** (1 / 3)


@formula("s = Q / (2 * pi * T) * K", source="kruseman-de-ridder", s="Pa", Q="m3/s", T="m3/s/Pa", K="1")
def endless_slab_of(*, Q: float, T: float, K: float) -> float:
    """Suction s [Pa] in an endless leaky slab with one hole: flow Q [m3/s], layer T [m3/s/Pa], K = K0(r/B) [1].

    Source: De Glee; steady end of Hantush and Jacob 1955, by analogy with a well in a leaky aquifer.
    """
    return Q / (2 * pi * T) * K


def endless_slab(*, r: float, Q: float, T: float, B: float) -> float:
    """Suction [Pa] at distance r [m] from a hole that draws Q [m3/s] from an endless leaky slab.

    T [m3/s/Pa], B [m]. Raises ValueError when r or B is not above 0. Source: as ``endless_slab_of``.
    """
    return endless_slab_of(Q=Q, T=T, K=k0(r / B))


def leaky_disc(*, r: float, R: float, rw: float, Q: float, T: float, B: float) -> float:
    """Suction [Pa] at r [m] in a disc of radius R [m] with a closed rim, hole of radius rw [m] at its centre.

    Q [m3/s], T [m3/s/Pa], B [m]; all air enters through the slab between rw and R.
    Raises ValueError unless 0 < rw <= r <= R. Source: Bessel solution of the leaky sheet.
    """
    if not 0 < rw <= r <= R:
        raise ValueError(f"the place must lie between the hole and the rim: {rw} <= {r} <= {R}")
    a, b = i1(R / B), k1(R / B)
    scale = Q * B / (2 * pi * rw * T) / (a * k1(rw / B) - b * i1(rw / B))
    return scale * (a * k0(r / B) + b * i0(r / B))


@formula("s = Q / (2 * pi * T) * log10(R / r) / log10(exp(1)) + Q / (2 * pi * R * g)", source="leaky-sheet",
         s="Pa", Q="m3/s", T="m3/s/Pa", R="m", r="m", g="m3/s/Pa/m")  # fmt: skip
def tight_disc(*, r: float, R: float, Q: float, T: float, g: float) -> float:
    """Suction s [Pa] at r [m] in a tight disc that leaks only at its rim R [m] through a joint g [m3/s/Pa per m].

    Q [m3/s], T [m3/s/Pa]. Raises ValueError when r or R is not above 0. Source: radial Darcy flow.
    """
    return Q / (2 * pi * T) * log10(R / r) / log10(exp(1)) + Q / (2 * pi * R * g)


@formula("s = se * (exp((a - x) / B) + exp((x - a) / B)) / (exp(a / B) + exp(-a / B))", source="leaky-sheet",
         s="Pa", se="Pa", x="m", a="m", B="m")  # fmt: skip
def strip(*, x: float, se: float, a: float, B: float) -> float:
    """Suction s [Pa] at x [m] from a long edge held at se [Pa]; the other side, a [m] away, is closed.

    B [m]. Raises ZeroDivisionError when B is 0. Source: leaky sheet, one direction.
    """
    return se * cosh((a - x) / B) / cosh(a / B)


def strip_flow(*, se: float, a: float, B: float, T: float) -> float:
    """Flow [m3/s per m] into an edge at suction se [Pa] from a strip a [m] wide: se T/B tanh(a/B).

    T [m3/s/Pa], B [m]. Raises ZeroDivisionError when B is 0. Source: slope of ``strip`` at its edge.
    """
    return se * T / B * tanh(a / B)


@formula("ratio = 2 / (exp(a / B) + exp(-a / B))", source="leaky-sheet", ratio="1", a="m", B="m")
def middle_share(*, a: float, B: float) -> float:
    """Suction in the middle over that at the edges [1], strip 2a [m] wide with suction along both sides, B [m].

    Raises ZeroDivisionError when B is 0. Source: ``strip``.
    """
    return 1 / cosh(a / B)


@formula("s = mu * Q / (2 * pi * k * b) * log10(r2 / r1) / log10(exp(1)) + mu * c / k * (Q / (2 * pi * b)) ** 2"
         " * (1 / r1 - 1 / r2)", source="reddy-1991",
         s="Pa", mu="Pa*s", Q="m3/s", k="m2", b="m", c="s/m", r1="m", r2="m")  # fmt: skip
def stone_loss(*, r1: float, r2: float, Q: float, k: float, b: float, mu: float, c: float) -> float:
    """Suction s [Pa] lost between r2 and r1 [m] in open stone under a tight slab, flow Q [m3/s].

    k [m2], b [m], mu [Pa*s], inertia c [s/m] in grad s = (mu/k)(v + c v^2).
    Raises ValueError when a radius is not above 0. Source: Forchheimer's law, radial, as used by Reddy and others 1991.
    """
    return mu * Q / (2 * pi * k * b) * log(r2 / r1) + mu * c / k * (Q / (2 * pi * b)) ** 2 * (1 / r1 - 1 / r2)


@formula("s = a * (Q / (2 * pi * b)) ** m * (r1 ** (1 - m) - r2 ** (1 - m)) / (m - 1)", source="reddy-1991",
         s="Pa", a="Pa/m", Q="m3/s", b="m", m="1", r1="m", r2="m")  # fmt: skip
def power_loss(*, r1: float, r2: float, Q: float, a: float, b: float, m: float) -> float:
    """Suction s [Pa] lost between r2 and r1 [m] when the slope of suction is a v^m, v [m/s] the face speed.

    a [Pa/m at 1 m/s], exponent m [1], b [m], Q [m3/s]. Raises ZeroDivisionError at m = 1.
    Source: the form of Reddy and others 1991; no exponent of theirs was seen.
    """
    return a * (Q / (2 * pi * b)) ** m * (r1 ** (1 - m) - r2 ** (1 - m)) / (m - 1)


@formula("k = e ** 3 * d ** 2 / (150 * (1 - e) ** 2)", source="derived", k="m2", e="1", d="m")
def stone_permeability(*, e: float, d: float) -> float:
    """Permeability k [m2] of clean stone of grain d [m] and porosity e [1]; fines cut it 3 to 30 times.

    Raises ZeroDivisionError at e = 1. Source: viscous part of Ergun's equation (1952).
    """
    return e**3 * d**2 / (ERGUN_VISCOUS * (1 - e) ** 2)


@formula("c = 1.75 * rho * d / (150 * mu * (1 - e))", source="derived", c="s/m", rho="kg/m3", d="m", mu="Pa*s", e="1")
def stone_inertia(*, e: float, d: float, rho: float, mu: float) -> float:
    """Inertia c [s/m] of stone of grain d [m], porosity e [1], air rho [kg/m3] and mu [Pa*s].

    Raises ZeroDivisionError at e = 1. Source: ratio of the two parts of Ergun's equation (1952).
    """
    return ERGUN_INERTIAL * rho * d / (ERGUN_VISCOUS * mu * (1 - e))


@formula("drop = 1 - (s2 / s1) ** (3.048 / d)", source="saum-1996", drop="1", s1="Pa", s2="Pa", d="m")
def drop_per_ten_feet(*, s1: float, s2: float, d: float) -> float:
    """Share [1] of the suction lost in 10 ft (3.048 m), from readings s1 and s2 [Pa] that lie d [m] apart.

    Not a property of the soil: it falls with distance from the hole. Raises ZeroDivisionError when s1 or d is 0.
    Source: the constant percentage rule of Saum 1996.
    """
    return 1 - (s2 / s1) ** (SAUM_DISTANCE / d)


@formula("s = sc + Q / (2 * pi * T) * log10(0.198 * h / rw) / log10(exp(1))", source="peaceman-1978",
         s="Pa", sc="Pa", Q="m3/s", T="m3/s/Pa", h="m", rw="m")  # fmt: skip
def bore_suction(*, sc: float, Q: float, T: float, h: float, rw: float) -> float:
    """Suction s [Pa] at a hole of radius rw [m] in the middle of a square cell of side h [m] whose value is sc [Pa].

    Q [m3/s], T [m3/s/Pa]; negative correction for a pit wider than 0.198 h is right.
    Raises ValueError when h or rw is not above 0. Source: Peaceman 1978 (from memory).
    """
    return sc + Q / (2 * pi * T) * log(PEACEMAN * h / rw)
