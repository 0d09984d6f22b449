"""What goes into suction-reach: the plan, the pits, the layer, what leaks, and the test holes."""

from typing import Annotated, Any

from ..declare import Choice, Flag, List, Quantity, Record, si
from ..tables import si_of, table

TABLE = table("soils")
STATES = ("dry", "damp", "water-in-test-holes", "unknown")
LAYERS, CONDITIONS = tuple(TABLE["layer"]), tuple(TABLE["slab_condition"])
SHEET = ("cfm/in WC", "L/s/Pa")
LEAKANCE = ("cfm/ft2/in WC", "m/s/Pa")
JOINT = ("cfm/in WC/ft", "L/s/Pa/m")


def _place(label: str) -> Quantity:
    return Quantity(label, "ft", "m", "-2000 ft", "2000 ft")


def _size(label: str, low: str = "6 in") -> Quantity:
    return Quantity(label, "ft", "m", low, "2000 ft")


ACROSS, UP = _place("Across x"), _place("Up y")
READING = ("in WC", "Pa", "-1000 Pa", "5000 Pa")
PIT_SIZE = {
    "radius": Quantity("Radius of the pit", "in", "mm", "0.5 in", "72 in"),
    "dug_volume": Quantity("Volume dug out", "ft3", "L", "0.01 ft3", "900 ft3", help="Drawn on as half a ball."),
}

Slab = Annotated[
    list[dict[str, Any]],
    List(
        "Slab, as rectangles that touch or overlap",
        Record(
            "Rectangle",
            {
                "x": _place("Left x"),
                "y": _place("Low y"),
                "width": _size("Width"),
                "depth": _size("Depth"),
            },
            need=("width", "depth"),
            defaults={"x": 0.0, "y": 0.0},
        ),
        1,
        12,
        help="Inside the walls. Choose one corner as zero: x runs across the plan, y up it. Depth is its size along y.",
    ),
]
Pits = Annotated[
    list[dict[str, Any]],
    List(
        "Pits that the fan draws on",
        Record(
            "Pit",
            {
                "x": ACROSS,
                "y": UP,
                **PIT_SIZE,
                "flow": Quantity("Air drawn", "cfm", "L/s", "0 cfm", "1500 cfm"),
                "suction": Quantity("Suction in the pit", "in WC", "Pa", "0 Pa", "5000 Pa"),
                "on_tile": Flag("The drain tile ends in this pit"),
            },
            need=("x", "y"),
            one_of={"pit_size": ("radius", "dug_volume"), "drive": ("flow", "suction")},
        ),
        1,
        50,
    ),
]
TileKind = Annotated[str, Choice("Drain tile", ("none", "perimeter"), help="Inside the footing, all round.")]
TileOffset = Annotated[
    float,
    Quantity("Tile, distance from the wall", "in", "mm", "1 in", "120 in", source="from-memory"),
]
TileDiameter = Annotated[
    float, Quantity("Inside diameter of the tile", "in", "mm", "0.5 in", "24 in", source="pipe-data-table")
]
TileFriction = Annotated[
    float, Quantity("Friction factor of the tile (Darcy)", "1", "1", "0.005", "1", source="from-memory")
]
Footings = Annotated[
    list[dict[str, Any]],
    List(
        "Footings under the slab",
        Record(
            "Footing",
            {
                "x1": _place("From x"),
                "y1": _place("From y"),
                "x2": _place("To x"),
                "y2": _place("To y"),
                "tightness": Quantity("Tightness", "1", "1", "0", "1", help="0 lets air through, 1 is sealed off."),
            },
            need=("x1", "y1", "x2", "y2"),
            defaults={"tightness": float(TABLE["footing_tightness"]["value"])},
        ),
        help="The outer walls are closed already.",
        source="from-memory",
    ),
]
Conductance = Annotated[
    float | None,
    Quantity("Layer conductance", *SHEET, "1e-7 L/s/Pa", "1000 L/s/Pa", help="From a test with several holes."),
]
Layer = Annotated[
    str | None,
    Choice(
        "Layer under the slab, if nothing was measured", LAYERS, help="A guess: test instead.", source="from-memory"
    ),
]
Thickness = Annotated[float, Quantity("Thickness of the layer", "in", "mm", "0.2 in", "120 in", source="crc-2013")]
LeakageLength = Annotated[
    float | None,
    Quantity("Leakage length", "ft", "m", "0.1 m", "2000 m", help="Over it suction falls to about a third."),
]
SlabLeakance = Annotated[
    float | None,
    Quantity("Leakage of the slab", *LEAKANCE, "0 m/s/Pa", "1e-3 m/s/Pa", help="Air through each square of floor."),
]
SlabCondition = Annotated[
    str | None, Choice("Slab, if its leakage was not measured", CONDITIONS, help="A guess.", source="from-memory")
]
SoilLeakance = Annotated[
    float | None,
    Quantity(
        "Exchange with outdoor air through the soil",
        *LEAKANCE,
        "0 m/s/Pa",
        "1e-3 m/s/Pa",
        help="With it the share of house air can be told.",
    ),
]
WallJoint = Annotated[
    float,
    Quantity("Joint between wall and floor, each length", *JOINT, "0 L/s/Pa/m", "1000 L/s/Pa/m", help="0 is sealed."),
]
State = Annotated[str, Choice("State of the layer", STATES)]
Gravel = Annotated[
    dict[str, Any] | None,
    Record(
        "Open stone in which air speed costs suction",
        {
            "permeability": Quantity("Permeability", "m2", "m2", "1e-16 m2", "1e-4 m2"),
            "inertia": Quantity("Inertia", "s/m", "s/m", "0 s/m", "1000 s/m", help="0 for fine fill."),
        },
        need=("permeability", "inertia"),
        source="reddy-1991",
    ),
]
TestHoles = Annotated[
    list[dict[str, Any]] | None,
    List(
        "Test holes",
        Record(
            "Test hole",
            {
                "x": ACROSS,
                "y": UP,
                "suction": Quantity("Reading, on", *READING),
                "baseline": Quantity("Reading, off", *READING),
            },
            need=("x", "y", "suction"),
            defaults={"baseline": 0.0},
        ),
        1,
        40,
        help="Read with the fan or vacuum on, and off. Suction counts above zero, a hole that blows up below it. Three holes "
        "or more fit the layer.",
    ),
]
TestFlow = Annotated[
    float | None, Quantity("Air drawn in that test", "cfm", "L/s", "0.01 cfm", "1500 cfm", help="At the test's pit.")
]
TestPit = Annotated[
    dict[str, Any] | None,
    Record(
        "Hole at which the test drew, if it is not the one pit",
        {"x": ACROSS, "y": UP, **PIT_SIZE},
        need=("x", "y"),
        one_of={"pit_size": ("radius", "dug_volume")},
    ),
]
Target = Annotated[
    float,
    Quantity("Suction wanted everywhere", "in WC", "Pa", "0 Pa", "5000 Pa", source="from-memory"),
]
Probes = Annotated[
    list[dict[str, Any]], List("Places to read", Record("Place", {"x": ACROSS, "y": UP}, need=("x", "y")))
]

THICK, TILE_OFFSET, TILE_DIAMETER = si_of(TABLE["layer_thickness"]), si("6 in"), si("4 in")
FRICTION = float(table("tile")["tile"]["friction_factor"]["value"])
LEAST = si_of(TABLE["target_suction"])
