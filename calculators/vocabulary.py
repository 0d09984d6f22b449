"""Every input that two calculators share, worded once."""

from typing import Annotated, Any

from .declare import Choice, Count, Field, List, Quantity, Record, Text, si

PIPE_SIZES = ("1-1/4", "1-1/2", "2", "3", "4", "6")
FITTING_KINDS = (
    "elbow-90",
    "elbow-90-sweep",
    "elbow-45",
    "elbow-45-sweep",
    "tee-run",
    "tee-branch",
    "coupling",
    "check-valve",
    "ball-valve",
    "gate-valve",
    "entrance",
    "exit",
    "other",
)

Airflow = Annotated[float, Quantity("Air flow", "cfm", "L/s", "0.5 cfm", "1500 cfm")]
PipeSize = Annotated[
    str | None,
    Choice("Pipe size, nominal inches", PIPE_SIZES, help="Schedule 40 plastic pipe.", source="pipe-data-table"),
]
InsideDiameter = Annotated[
    float | None,
    Quantity(
        "Inside diameter",
        "in",
        "mm",
        "0.5 in",
        "24 in",
        help="Instead of a pipe size, for a pipe that is not in the table.",
    ),
]
PipeLength = Annotated[
    float, Quantity("Pipe length", "ft", "m", "0 ft", "2000 ft", help="Measured along the pipe, without fittings.")
]
Roughness = Annotated[
    float,
    Quantity(
        "Roughness of the pipe wall",
        "in",
        "mm",
        "0 mm",
        "3 mm",
        help="0.0015 mm is smooth plastic; corrugated pipe is not a roughness.",
        source="pipe-roughness",
    ),
]
Elevation = Annotated[
    float, Quantity("Elevation above sea level", "ft", "m", "-1500 ft", "15000 ft", source="isa-altitude-form")
]
AirTemperature = Annotated[
    float,
    Quantity(
        "Air temperature in the pipe",
        "degF",
        "degC",
        "-60 degF",
        "130 degF",
        help="Soil air is often near 55 °F (13 °C).",
        source="common-practice",
    ),
]
RelativeHumidity = Annotated[
    float,
    Quantity(
        "Relative humidity in the pipe",
        "%",
        "%",
        "0 %",
        "100 %",
        help="Soil air is close to saturated.",
        source="common-practice",
    ),
]

Fittings = Annotated[
    list[dict[str, Any]],
    List(
        "Fittings",
        Record(
            "Fitting",
            {
                "kind": Choice("Kind of fitting", FITTING_KINDS),
                "count": Count("How many", 0, 200),
                "loss_coefficient": Quantity(
                    "Loss coefficient",
                    "1",
                    "1",
                    "0",
                    "1000",
                    help="Overrides the table; for kind other it must be given.",
                ),
            },
            need=("kind",),
            defaults={"count": 1},
        ),
    ),
]

Fan = Annotated[
    dict[str, Any],
    Record(
        "Fan, from its data sheet",
        {
            "name": Text("Name"),
            "shutoff": Quantity("Pressure at no flow", "in WC", "Pa", "1 Pa", "5000 Pa"),
            "free_flow": Quantity("Flow at no pressure", "cfm", "L/s", "0.5 cfm", "1500 cfm"),
            "points": List(
                "Points of the curve",
                Record(
                    "Point",
                    {
                        "flow": Quantity("Flow", "cfm", "L/s", "0 cfm", "1500 cfm"),
                        "pressure": Quantity("Pressure", "in WC", "Pa", "0 Pa", "5000 Pa"),
                    },
                    need=("flow", "pressure"),
                ),
                2,
                40,
            ),
            "rating_density": Quantity("Air density of the data sheet", "kg/m3", "kg/m3", "0.5 kg/m3", "1.6 kg/m3"),
        },
        either=(("shutoff", "free_flow"), ("points",)),
        help="Two numbers, or the points of its curve.",
        source="fan-laws",
    ),
]

SoilConductance = Annotated[
    float | None,
    Quantity(
        "Soil conductance",
        "cfm/in WC",
        "L/s/Pa",
        "0 cfm/in WC",
        "2000 cfm/in WC",
        help="Flow that the soil gives for each unit of suction at the pit.",
    ),
]
PIT_TEST: dict[str, Field] = {
    "flow": Quantity("Flow drawn", "cfm", "L/s", "0.5 cfm", "1500 cfm"),
    "suction": Quantity("Suction at the pit", "in WC", "Pa", "0.1 Pa", "20000 Pa"),
}
SoilMeasured = Annotated[
    dict[str, Any] | None,
    Record(
        "Measured flow and suction",
        PIT_TEST,
        need=tuple(PIT_TEST),
        help="From a vacuum or fan test at the pit.",
    ),
]
SoilPreset = Annotated[
    str | None,
    Choice(
        "Soil, if nothing was measured",
        ("tight", "ordinary", "open"),
        help="A guess: the answer is then wide. Measure it.",
        source="from-memory",
    ),
]
SOIL_GROUP = ("soil_conductance", "measured", "soil")

RULE_PACKS = ("us-pa", "irc-f", "us-mn", "sgm-sf-2017", "rms-mf-2018", "cc-1000-2018")

SOIL_AIR = si("55 degF")
SATURATED = si("100 %")
SEA_LEVEL = si("0 ft")
