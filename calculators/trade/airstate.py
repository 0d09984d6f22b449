"""The air of a pipe, worked out step by step: one density and viscosity for pipe, fan and leak."""

from typing import NamedTuple

from ..physics import air
from ..work import Work


class Air(NamedTuple):
    """Pressure [Pa], density [kg/m3] and viscosity [Pa*s] of the air."""

    pressure: float
    density: float
    viscosity: float


def soil_air(work: Work, *, elevation: float, air_temperature: float, relative_humidity: float) -> Air:
    """Moist air at an elevation [m], temperature [K] and relative humidity [1], with its steps."""
    p = work.step("Air pressure at this elevation", air.pressure_at, us={"z": "m"}, z=elevation)
    p_s = work.step("Vapour pressure when saturated", air.saturation_pressure, T=air_temperature)
    e = work.step("Vapour pressure of this air", air.vapour_pressure, phi=relative_humidity, p_s=p_s)
    rho = work.step("Air density", air.density, p=p, e=e, T=air_temperature)
    mu = work.step("Air viscosity", air.viscosity, T=air_temperature)
    return Air(p, rho, mu)
