"""Radon in a room: units and dose, decay, how a level settles, purging, the balance of entry, and pairs of
readings."""

from math import exp, log

from .constants import DAY, HOUR
from .formula import formula

HALF_LIFE = 3.8235 * DAY  # s, radon-222
RADON_DECAY = log(2) / HALF_LIFE  # 1/s
WORKING_LEVEL_RADON = 3700.0  # Bq/m3 of radon in equilibrium with its progeny that make one working level (100 pCi/L)
WORKING_LEVEL = 2.08e-5  # J/m3 of potential alpha energy
WORKING_MONTH = 170 * HOUR  # s
EQUILIBRIUM = 0.4  # indoor equilibrium factor for which the coefficient of radon gas is stated (ICRP 137)


@formula("EEC = F * C", source="definition", EEC="Bq/m3", F="1", C="Bq/m3")
def equilibrium_concentration(*, F: float, C: float) -> float:
    """Equilibrium equivalent concentration EEC [Bq/m3] of radon C [Bq/m3] at equilibrium factor F [1].

    Source: definition.
    """
    return F * C


@formula("c_p = 2.08e-5 * EEC / 3700", source="beir-vii", c_p="J/m3", EEC="Bq/m3")
def alpha_energy(*, EEC: float) -> float:
    """Potential alpha energy c_p [J/m3] of an equilibrium equivalent concentration EEC [Bq/m3].

    Source: one working level is 2.08e-5 J/m3 (BEIR VII, glossary) and 100 pCi/L in equilibrium.
    """
    return WORKING_LEVEL * EEC / WORKING_LEVEL_RADON


@formula("W = EEC / 100", source="beir-vii", W="WL", EEC="pCi/L")
def working_level(*, EEC: float) -> float:
    """Working level W [J/m3] of an equilibrium equivalent concentration EEC [Bq/m3]; printed in WL and pCi/L.

    Source: 100 pCi/L in equilibrium make one working level (BEIR VII, glossary).
    """
    return WORKING_LEVEL * EEC / WORKING_LEVEL_RADON


@formula("EEC = 100 * W", source="beir-vii", EEC="pCi/L", W="WL")
def equilibrium_of_level(*, W: float) -> float:
    """Equilibrium equivalent concentration EEC [Bq/m3] of a working level W [J/m3]; printed in pCi/L and WL.

    Source: as working_level, turned round.
    """
    return WORKING_LEVEL_RADON * W / WORKING_LEVEL


@formula("X = W * t / 170", source="beir-vii", X="WLM", W="WL", t="h")
def working_months(*, W: float, t: float) -> float:
    """Exposure X [J*s/m3] at working level W [J/m3] over time t [s]; printed in working-level months, WL and hours.

    Source: a working-level month is 170 hours at one working level (BEIR VII, glossary).
    """
    return W * t


@formula("C = EEC / F", source="definition", C="Bq/m3", EEC="Bq/m3", F="1")
def gas_of_progeny(*, EEC: float, F: float) -> float:
    """Radon C [Bq/m3] that goes with an equilibrium equivalent concentration EEC [Bq/m3] at equilibrium factor F [1].

    Raises ZeroDivisionError when F is 0. Source: definition.
    """
    return EEC / F


@formula("X = c_p * t", source="beir-vii", X="J*s/m3", c_p="J/m3", t="s")
def exposure(*, c_p: float, t: float) -> float:
    """Exposure X [J*s/m3] to alpha energy c_p [J/m3] over time t [s]; one working-level month is 12.73 J*s/m3.

    Source: BEIR VII, glossary (170 hours at one working level).
    """
    return c_p * t


@formula("H = k * C * t", source="icrp-137", H="nSv", k="nSv*m3/Bq/h", C="Bq/m3", t="h")
def dose(*, k: float, C: float, t: float) -> float:
    """Effective dose H [Sv] at coefficient k [Sv*m3/Bq/s] of radon gas, level C [Bq/m3] and time t [s].

    Printed with k in nSv per Bq h/m3 and t in hours. Source: definition of the dose coefficient (ICRP 137).
    """
    return k * C * t


@formula("k = k_0 * F / 0.4", source="icrp-137", k="nSv*m3/Bq/h", k_0="nSv*m3/Bq/h", F="1")
def gas_coefficient(*, k_0: float, F: float) -> float:
    """Dose coefficient k [Sv*m3/Bq/s] of radon gas at equilibrium factor F [1], from k_0 stated for F = 0.4.

    Source: ICRP 137 (dose follows the progeny, so the coefficient of the gas follows F).
    """
    return k_0 * F / EQUILIBRIUM


@formula("k = k_e * F", source="unscear-radon", k="nSv*m3/Bq/h", k_e="nSv*m3/Bq/h", F="1")
def progeny_coefficient(*, k_e: float, F: float) -> float:
    """Dose coefficient k [Sv*m3/Bq/s] of radon gas at equilibrium factor F [1], from k_e stated for the progeny.

    Source: UNSCEAR states its coefficient for the equilibrium equivalent concentration, which is F times the gas.
    """
    return k_e * F


@formula(
    "R = R_1 + (R_2 - R_1) * (C - C_1) / (C_2 - C_1)",
    source="derived",
    R="1",
    R_1="1",
    R_2="1",
    C="pCi/L",
    C_1="pCi/L",
    C_2="pCi/L",
)
def risk_between(*, R_1: float, R_2: float, C: float, C_1: float, C_2: float) -> float:
    """Risk R [per 1,000] at level C [Bq/m3] on the straight line between two rows of a table.

    Rows R_1 at C_1 and R_2 at C_2 [Bq/m3]. Raises ZeroDivisionError when both rows are of one level.
    Source: the straight line between the rows is ours; the table is EPA's (402-R-03-003).
    """
    return R_1 + (R_2 - R_1) * (C - C_1) / (C_2 - C_1)


@formula("lam = log10(2) / (log10(exp(1)) * T_h)", source="radioactive-decay", lam="1/h", T_h="h")
def decay_constant(*, T_h: float) -> float:
    """Decay constant lam [1/s] of half-life T_h [s]: the natural logarithm of 2 over T_h; printed per hour.

    Raises ZeroDivisionError when T_h is 0. Source: law of radioactive decay.
    """
    return log(2) / T_h


@formula("x = exp(-lam * t)", source="radioactive-decay", x="1", lam="1/h", t="h")
def decayed(*, lam: float, t: float) -> float:
    """Share x [1] left after time t [s] at decay constant lam [1/s]. Source: law of radioactive decay."""
    return exp(-lam * t)


@formula("x = exp(-(a + lam) * t)", source="mass-balance", x="1", a="1/h", lam="1/h", t="h")
def excess_left(*, a: float, lam: float, t: float) -> float:
    """Share x [1] of the excess over the final level that is left time t [s] after the entry changed.

    Air changes a [1/s], decay constant lam [1/s]. Source: balance of a well mixed room.
    """
    return exp(-(a + lam) * t)


@formula("t = log10(1 / x) / (log10(exp(1)) * (a + lam))", source="mass-balance", t="h", x="1", a="1/h", lam="1/h")
def settling_time(*, x: float, a: float, lam: float) -> float:
    """Time t [s] after which share x [1] of an excess over the final level is left.

    Air changes a [1/s], decay constant lam [1/s]: the natural logarithm of 1/x over a + lam.
    Raises ValueError unless 0 < x <= 1. Source: balance of a well mixed room.
    """
    if not 0 < x <= 1:
        raise ValueError(f"x = {x!r} must be above 0 and at most 1")
    return log(1 / x) / (a + lam)


@formula(
    "r = 1 + (r_0 - 1) * exp(-(a + lam) * t_0) * (1 - exp(-(a + lam) * t)) / ((a + lam) * t)",
    source="mass-balance",
    r="1",
    r_0="1",
    a="1/h",
    lam="1/h",
    t_0="h",
    t="h",
)
def mean_ratio(*, r_0: float, a: float, lam: float, t_0: float, t: float) -> float:
    """Mean of a test over the final level r [1]: start ratio r_0 [1] at switch-on, start delay t_0 [s], length t [s].

    Air changes a [1/s], decay constant lam [1/s]. Raises ZeroDivisionError when t is 0.
    Source: balance of a well mixed room, averaged over the test.
    """
    k = a + lam
    return 1 + (r_0 - 1) * exp(-k * t_0) * (1 - exp(-k * t)) / (k * t)


def delay_for_mean(*, r_0: float, a: float, lam: float, t: float, r: float) -> float:
    """Delay [s] from which a test of length t [s] reads at most r [1] times the final level; 0 when it does at once.

    Arguments as mean_ratio. Raises ValueError unless r is above 1. Source: mean_ratio solved for the delay.
    """
    if not r > 1:
        raise ValueError(f"r = {r!r}: the mean only comes near the final level, so r must be above 1")
    at_once = mean_ratio(r_0=r_0, a=a, lam=lam, t_0=0.0, t=t)
    if at_once <= r:
        return 0.0
    return log((at_once - 1) / (r - 1)) / (a + lam)


@formula("t = m * log10(1 / (1 - R)) / (log10(exp(1)) * a)", source="mass-balance", t="h", m="1", R="1", a="1/h")
def purge_time(*, m: float, R: float, a: float) -> float:
    """Time t [s] in which air changes a [1/s] of clean air remove share R [1], mixing factor m [1].

    The equation is m/a times the natural logarithm of 1/(1 - R). Raises ValueError unless 0 <= R < 1 and a is above
    0.
    Source: balance of a well mixed room without entry; the mixing factor is common practice.
    """
    if not (0 <= R < 1 and a > 0):
        raise ValueError(f"R = {R!r} must be from 0 to below 1 and a = {a!r} 1/s above 0")
    return m * log(1 / (1 - R)) / a


@formula(
    "C = (3600 * E / V + a * C_o) / (a + lam)",
    source="mass-balance",
    C="Bq/m3",
    E="Bq/s",
    V="m3",
    a="1/h",
    C_o="Bq/m3",
    lam="1/h",
)
def steady_level(*, E: float, V: float, a: float, C_o: float, lam: float) -> float:
    """Level C [Bq/m3] in a room of volume V [m3] that E [Bq/s] enters and a [1/s] air changes of C_o [Bq/m3] flush.

    Decay constant lam [1/s]. Raises ZeroDivisionError when V is 0. Source: balance of a well mixed room.
    """
    return (E / V + a * C_o) / (a + lam)


@formula(
    "E = V * (C * (a + lam) - a * C_o) / 3600",
    source="mass-balance",
    E="Bq/s",
    V="m3",
    C="Bq/m3",
    a="1/h",
    lam="1/h",
    C_o="Bq/m3",
)
def entry_rate(*, V: float, C: float, a: float, lam: float, C_o: float) -> float:
    """Entry E [Bq/s] that holds level C [Bq/m3] in volume V [m3] with air changes a [1/s] of outdoor air C_o [Bq/m3].

    Decay constant lam [1/s]. Negative when the room is below what outdoor air alone would leave.
    Source: balance of a well mixed room.
    """
    return V * (C * (a + lam) - a * C_o)


@formula("C_b = a * C_o / (a + lam)", source="mass-balance", C_b="Bq/m3", a="1/h", C_o="Bq/m3", lam="1/h")
def outdoor_level(*, a: float, C_o: float, lam: float) -> float:
    """Level C_b [Bq/m3] that outdoor air of C_o [Bq/m3] alone leaves in a room: a little decays on the way.

    Air changes a [1/s], decay constant lam [1/s]. Source: balance of a well mixed room without entry.
    """
    return a * C_o / (a + lam)


@formula("m = S / n", source="definition", m="Bq/m3", S="Bq/m3", n="1")
def mean_of(*, S: float, n: float) -> float:
    """Mean m [Bq/m3] of n values that add up to S [Bq/m3]. Raises ZeroDivisionError when n is 0. Source: definition."""
    return S / n


@formula("m = (x_1 + x_2) / 2", source="definition", m="Bq/m3", x_1="Bq/m3", x_2="Bq/m3")
def mean_of_two(*, x_1: float, x_2: float) -> float:
    """Mean m [Bq/m3] of two readings x_1 and x_2 [Bq/m3]. Source: definition."""
    return (x_1 + x_2) / 2


@formula("e = (x - x_k) / x_k", source="definition", e="1", x="Bq/m3", x_k="Bq/m3")
def relative_error(*, x: float, x_k: float) -> float:
    """Error e [1] of a reading x [Bq/m3] of a device that was exposed to a known level x_k [Bq/m3].

    Raises ZeroDivisionError when x_k is 0. Source: definition.
    """
    return (x - x_k) / x_k


@formula("RPD = abs(x_1 - x_2) / ((x_1 + x_2) / 2)", source="ms-qa-2019", RPD="1", x_1="Bq/m3", x_2="Bq/m3")
def relative_difference(*, x_1: float, x_2: float) -> float:
    """Relative difference RPD [1] of a pair of readings x_1 and x_2 [Bq/m3].

    Raises ZeroDivisionError when both are 0. Source: ANSI/AARST MS-QA 2019, 3.5.
    """
    return abs(x_1 - x_2) / ((x_1 + x_2) / 2)


@formula("r = 1 - C_2 / C_1", source="definition", r="1", C_2="Bq/m3", C_1="Bq/m3")
def reduction(*, C_2: float, C_1: float) -> float:
    """Share r [1] by which the level fell from C_1 to C_2 [Bq/m3]. Raises ZeroDivisionError when C_1 is 0.

    Source: definition.
    """
    return 1 - C_2 / C_1
