"""Flow of water or air through one hole or gap: the small tool behind lids and relief holes."""

from typing import Annotated, Any

from ..declare import REQUIRED, Choice, Quantity, Refusal, Text, calculator, si
from ..physics import openings, pipe, water
from ..span import Span
from ..trade.airstate import soil_air
from ..vocabulary import SATURATED, SEA_LEVEL, SOIL_AIR, AirTemperature, Elevation
from ..work import Work, given

COMPRESSIBLE = si("20 kPa")
PITCH = si("50 degF")

Fluid = Annotated[str, Choice("Fluid", ("water", "air"))]
Diameter = Annotated[float | None, Quantity("Hole diameter", "in", "mm", "0.001 in", "60 in")]
Area = Annotated[float | None, Quantity("Hole area", "in2", "cm2", "1e-6 in2", "3600 in2")]
Width = Annotated[
    float | None,
    Quantity("Gap width", "in", "mm", "0.001 in", "60 in", help="The narrow way, with a length and a depth."),
]
Length = Annotated[float | None, Quantity("Gap length", "ft", "m", "0.001 in", "1000 ft")]
Depth = Annotated[float | None, Quantity("Gap depth, along the flow", "in", "mm", "0.001 in", "60 in")]
Coefficient = Annotated[
    float | None,
    Quantity(
        "Discharge coefficient",
        "1",
        "1",
        "0.05",
        "1",
        source="umn-perforation-table",
        help="0.60 for water and 0.61 for air, a sharp edge, unless given.",
    ),
]
Head = Annotated[float | None, Quantity("Head of water", "ft", "m", "0 ft", "700 ft")]
Pressure = Annotated[float | None, Quantity("Pressure difference", "in WC", "Pa", "0 Pa", "2 MPa")]
WaterTemperature = Annotated[
    float, Quantity("Water temperature", "degF", "degC", "32 degF", "130 degF", source="common-practice")
]


@calculator(
    name="hole-flow",
    part="look-up",
    title="Flow through a hole or a gap",
    main="flow",
    one_of={"size": ("diameter", "area", "width"), "drive": ("head", "pressure")},
    results={
        "flow": Quantity("Flow", {"water": "gpm", "air": "cfm"}, {"water": "L/s", "air": "L/s"}, by="fluid"),
        "velocity": Quantity(
            "Mean speed in the opening", {"water": "ft/s", "air": "ft/min"}, {"water": "m/s", "air": "m/s"}, by="fluid"
        ),
        "regime": Text("What limits it"),
    },
)
def hole_flow(
    work: Work,
    *,
    fluid: Fluid,
    diameter: Diameter = REQUIRED,
    area: Area = REQUIRED,
    width: Width = REQUIRED,
    length: Length = None,
    depth: Depth = None,
    coefficient: Coefficient = None,
    head: Head = REQUIRED,
    pressure: Pressure = REQUIRED,
    air_temperature: AirTemperature = SOIL_AIR,
    water_temperature: WaterTemperature = PITCH,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Flow of water or air through a sharp-edged hole, or through a gap with its wall friction.

    Raises Refusal for half a gap, a head of air, and air driven by over 20 kPa (its density then changes).  SI in and out.
    """
    _agree(fluid, width, length, depth, head, pressure)
    C = work.fill(
        "coefficient", coefficient, openings.WATER_COEFFICIENT if fluid == "water" else openings.AIR_COEFFICIENT
    )
    if fluid == "water":
        rho = work.step("Density of the water", water.density, T=water_temperature)
        mu = water.viscosity(T=water_temperature)
    else:
        state = soil_air(work, elevation=elevation, air_temperature=air_temperature, relative_humidity=SATURATED)
        rho, mu = state.density, state.viscosity
    dp = (
        given(pressure)
        if head is None
        else work.step("Pressure of this head", water.head_pressure, us={"h": "m"}, rho=rho, h=head)
    )

    if width is not None:
        V = work.step("Mean speed in the gap", openings.gap_speed, C=C, rho=rho, dp=dp, mu=mu, z=given(depth), w=width)
        Q = work.step("Flow", openings.gap_flow, V=V, w=width, L=given(length))
        regime = openings.gap_regime(C=C, rho=rho, dp=dp, mu=mu, z=given(depth), w=width)
        spread, why = (0.5, 2.0), "a gap's width enters up to cubed: times or divided by 2"
    else:
        A = (
            area
            if area is not None
            else work.step("Area of the hole", pipe.circle_area, us={"A": "in2", "D": "in"}, D=given(diameter))
        )
        if head is not None:
            Q = work.step("Flow", openings.orifice_flow_head, C=C, A=A, h=head)
        else:
            Q = work.step("Flow", openings.orifice_flow, C=C, A=A, dp=dp, rho=rho)
        V, regime = Q / A, "orifice"
        spread, why = (0.8, 1.2), "edge and coefficient of a real hole: 20 % either way"

    work.caution(
        "warning",
        "An opening in a pit or lid that draws room air can back-draft a burner in the same room. Test it under worst case."
        if fluid == "air"
        else "Keep a jet away from cord, float and outlet; unplug before a hand goes into the pit.",
    )
    work.not_looked_at("A rough, long or rounded edge.", "A hole that silts up or rusts open.")
    if fluid == "air":
        work.not_looked_at("Change of density along the way; small below 20 kPa.")
    return {
        "flow": Span(Q, spread[0] * Q, spread[1] * Q, why),
        "velocity": Span(V, spread[0] * V, spread[1] * V, why),
        "regime": regime,
    }


def _agree(
    fluid: str,
    width: float | None,
    length: float | None,
    depth: float | None,
    head: float | None,
    pressure: float | None,
) -> None:
    for name, value in (("length", length), ("depth", depth)):
        if width is not None and value is None:
            raise Refusal(name, "a gap needs width, length and depth", accepts="a length such as 6 ft", kind="missing")
        if width is None and value is not None:
            raise Refusal(
                name, "this belongs to a gap; give its width too", found="no width", accepts="width, length and depth"
            )
    if fluid == "air" and head is not None:
        raise Refusal("head", "a head is of water; for air give a pressure", found="a head", accepts="pressure")
    if fluid == "air" and pressure is not None and pressure > COMPRESSIBLE:
        raise Refusal(
            "pressure",
            "above 20 kPa the density of the air changes on its way through; this law does not hold",
            kind="outside-model",
            found=f"{pressure:.0f} Pa",
            accepts="at most 20 kPa",
        )
