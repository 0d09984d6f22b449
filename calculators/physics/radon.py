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
    "C = (E / V + a * C_o) / (a + lam)",
    source="mass-balance",
    C="Bq/m3",
    E="Bq/s",
    V="m3",
    a="1/s",
    C_o="Bq/m3",
    lam="1/s",
)
def steady_level(*, E: float, V: float, a: float, C_o: float, lam: float) -> float:
    """Level C [Bq/m3] in a room of volume V [m3] that E [Bq/s] enters and a [1/s] air changes of C_o [Bq/m3] flush.

    Decay constant lam [1/s]. Raises ZeroDivisionError when V is 0. Source: balance of a well mixed room.
    """
    return (E / V + a * C_o) / (a + lam)


@formula(
    "E = V * (C * (a + lam) - a * C_o)",
    source="mass-balance",
    E="Bq/s",
    V="m3",
    C="Bq/m3",
    a="1/s",
    lam="1/s",
    C_o="Bq/m3",
)
def entry_rate(*, V: float, C: float, a: float, lam: float, C_o: float) -> float:
    """Entry E [Bq/s] that holds level C [Bq/m3] in volume V [m3] with air changes a [1/s] of outdoor air C_o [Bq/m3].

    Decay constant lam [1/s]. Negative when the room is below what outdoor air alone would leave.
    Source: balance of a well mixed room.
    """
    return V * (C * (a + lam) - a * C_o)


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
