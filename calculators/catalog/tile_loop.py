"""How even the suction is round the drain tile, and what water or a blockage in it costs."""

from typing import Annotated, Any, NamedTuple

from ..declare import Quantity, Refusal, Table, calculator, si
from ..physics import pipe, tile_parts
from ..physics import tile_loop as tile
from ..span import Span
from ..tables import table
from ..trade.airstate import soil_air
from ..units import from_si
from ..vocabulary import SATURATED, SEA_LEVEL, SOIL_AIR, AirTemperature, Elevation, RelativeHumidity
from ..work import Work

ROWS = table("tile")["tile"]
FRICTION, MOMENTUM = ROWS["friction_factor"], ROWS["momentum_loss"]
USUAL = float(FRICTION["value"])
PRESSURE, POINTS = "in WC|Pa", 80
DEPTHS = (0.0, 0.25, 0.5, 0.75, 0.9)  # of the bore, rows of the table of water
CHOKED, FULL, UNEVEN = 0.75, 0.999, 0.8  # shares of the bore under water, share of the suction left

TileDiameter = Annotated[
    float,
    Quantity(
        "Inside diameter of the tile",
        "in",
        "mm",
        "0.5 in",
        "24 in",
        help="Usually 4 in (102 mm).",
        source="pipe-data-table",
    ),
]
LoopLength = Annotated[
    float, Quantity("Length of the loop", "ft", "m", "1 ft", "2000 ft", help="All round, from the pit back to the pit.")
]
Flow = Annotated[
    float,
    Quantity(
        "Air that the whole loop brings", "cfm", "L/s", "0 cfm", "1500 cfm", help="Without what leaks into the pit."
    ),
]
Friction = Annotated[
    float,
    Quantity(
        "Friction factor (Darcy)",
        "1",
        "1",
        "0.005",
        "1",
        help="Corrugated tile about 0.06 (0.05 to 0.10), smooth pipe about 0.02.",
        source="from-memory",
    ),
]
PitSuction = Annotated[float, Quantity("Suction in the pit", "in WC", "Pa", "0.1 Pa", "5000 Pa")]
WaterDepth = Annotated[
    float,
    Quantity("Water in the tile, share of its diameter", "1", "1", "0", "1", help="0 is dry, 1 is full to the top."),
]
BlockedAt = Annotated[
    float | None,
    Quantity(
        "Blocked at, along the loop from the pit",
        "ft",
        "m",
        "0 ft",
        "2000 ft",
        help="Crushed, silted up or cut off there. Both ways then end at that place.",
    ),
]
Target = Annotated[float | None, Quantity("Suction wanted at the far end", "in WC", "Pa", "0 Pa", "5000 Pa")]
WITH_AIR = ("farthest_suction", "evenness", "leg_loss", "momentum_loss", "resistance_factor", "velocity", "legs")
LEG = {
    "length": Quantity("Length", "ft", "m"),
    "flow": Quantity("Air that it brings", "cfm", "L/s"),
    "leg_loss": Quantity("Lost to friction", "in WC", "Pa"),
    "momentum_loss": Quantity("Lost to speed", "in WC", "Pa"),
    "far_suction": Quantity("Suction at its end", "in WC", "Pa"),
}


@calculator(
    name="tile-loop",
    part="under-the-slab",
    title="Suction round the drain tile",
    main="farthest_suction",
    results={
        "farthest_suction": Quantity("Suction at the far end of the tile", "in WC", "Pa"),
        "evenness": Quantity("Share of the pit's suction that is left there", "%", "%"),
        "leg_loss": Quantity("Lost to friction on the longer way", "in WC", "Pa"),
        "momentum_loss": Quantity("Lost to speeding up air that joins", "in WC", "Pa"),
        "resistance_factor": Quantity("Resistance against the dry tile", "1", "1"),
        "velocity": Quantity("Air speed where the longer way ends at the pit", "ft/min", "m/s"),
        "legs": Table("Both ways round", LEG),
        "water": Table(
            "What water costs at the same flow",
            {
                "water_depth": Quantity("Share of the diameter under water", "1", "1"),
                "resistance_factor": Quantity("Resistance against the dry tile", "1", "1"),
                "leg_loss": LEG["leg_loss"],
                "far_suction": Quantity("Suction at the far end", "in WC", "Pa"),
            },
        ),
    },
)
def tile_loop(
    work: Work,
    *,
    tile_diameter: TileDiameter = si("4 in"),
    loop_length: LoopLength,
    flow: Flow,
    pit_suction: PitSuction,
    friction_factor: Friction = USUAL,
    water_depth: WaterDepth = 0.0,
    blocked_at: BlockedAt = None,
    target_suction: Target = None,
    air_temperature: AirTemperature = SOIL_AIR,
    relative_humidity: RelativeHumidity = SATURATED,
    elevation: Elevation = SEA_LEVEL,
) -> dict[str, Any]:
    """Suction along a drain tile that air joins evenly on both ways round to the pit.

    The ways part in the middle of the loop, or where it is blocked.  Water in the tile leaves less room and counts as
    wall.  A full tile has no answer but a failed check.  Raises Refusal for a blockage beyond the loop.  SI in and out.
    """
    if blocked_at is not None and blocked_at > loop_length:
        raise Refusal(
            "blocked_at",
            "this place lies beyond the end of the loop",
            found=f"{from_si(blocked_at, 'ft'):g} ft",
            accepts=f"at most loop_length, {from_si(loop_length, 'ft'):g} ft",
        )
    state = soil_air(work, elevation=elevation, air_temperature=air_temperature, relative_humidity=relative_humidity)
    work.judge(
        "air-path",
        "Water leaves air a way through the tile.",
        ok=water_depth < FULL,
        found=f"{water_depth * 100:.3g} % of its height",
        required="not full",
        source="derived",
    )
    whole = _Loop(
        tile_diameter, friction_factor, state.density, tile.legs(loop=loop_length, Q=flow, blocked_at=blocked_at)
    )
    table_of_water = _water(whole, pit_suction, water_depth)
    _caution(work, water_depth, blocked_at)
    if water_depth >= FULL:
        work.caution("warning", "A full tile passes no air. Lower the water first: the pump must start below the tile.")
        return {**dict.fromkeys(WITH_AIR), "water": table_of_water}

    space = tile.air_space(D=tile_diameter, depth=water_depth)
    longer = max(whole.legs, key=lambda leg: leg.length)
    friction, momentum, V = _printed(work, whole, space, longer, water_depth)
    lost = friction + momentum
    least = whole.lost(space, longer, f=_scaled(friction_factor, "low"), K=MOMENTUM["low"])
    most = whole.lost(space, longer, f=_scaled(friction_factor, "high"), K=MOMENTUM["high"])
    carried = work.at_most(
        "carries",
        "The longer way loses no more than the pit has, so suction reaches its end.",
        found=lost,
        required=pit_suction,
        unit=PRESSURE,
        source="derived",
    )
    far = even = None
    if carried:
        far = work.step("Left at the far end", tile_parts.far_suction, s=pit_suction, dp=friction, dp_m=momentum)
        even = work.step("Share that is left", tile.evenness, dp=lost, s=pit_suction)
        _plot(work, whole, space, pit_suction, loop_length, friction_factor)
    else:
        work.caution(
            "warning",
            "This flow cannot come through this tile at this suction: it would lose more than there is. Less air comes "
            "then, most of it from near the pit.",
            "derived",
        )
    if even is not None and even < UNEVEN:
        work.caution(
            "note",
            "Far parts of the tile pull clearly less than near ones, so less air joins there than is reckoned here: "
            "the losses are an upper bound.",
            "derived",
        )
    if target_suction is not None:
        work.at_least(
            "target",
            "The far end of the tile has the suction wanted.",
            found=0.0 if far is None else far,
            required=target_suction,
            unit=PRESSURE,
            source="derived",
        )
    usual = friction_factor == USUAL
    rough = f"friction factor {FRICTION['low']:g} to {FRICTION['high']:.2f}"
    speeds = "joining air loses nothing to twice its velocity pressure"
    why = f"{rough}; {speeds}" if usual else speeds
    return {
        "farthest_suction": None if far is None else _within(far, pit_suction - most[2], pit_suction - least[2], why),
        "evenness": None if even is None else _within(even, 1 - most[2] / pit_suction, 1 - least[2] / pit_suction, why),
        "leg_loss": Span(friction, least[0], most[0], rough) if usual else friction,
        "momentum_loss": Span(momentum, least[1], most[1], speeds),
        "resistance_factor": space.resistance_factor,
        "velocity": V,
        "legs": [whole.row(space, leg, pit_suction) for leg in whole.legs],
        "water": table_of_water,
    }


class _Loop(NamedTuple):
    """Tile and air: bore [m], friction factor [1], density [kg/m3], the two ways round."""

    bore: float
    friction: float
    density: float
    legs: tuple[tile.Leg, tile.Leg]

    def lost(self, space: tile.AirSpace, leg: tile.Leg, *, f: float, K: float) -> tuple[float, float, float]:
        """Lost to friction, to speed, and both together [Pa] on one way, its friction factor and K [1] given."""
        V = leg.flow / space.area
        friction = tile.leg_loss(f=f, L=leg.length, D=space.hydraulic_diameter, rho=self.density, V=V)
        momentum = tile.momentum_loss(K=K, rho=self.density, V=V)
        return friction, momentum, friction + momentum

    def usual(self, space: tile.AirSpace, leg: tile.Leg) -> tuple[float, float, float]:
        """As lost, with the friction factor entered and the middle of K."""
        return self.lost(space, leg, f=self.friction, K=MOMENTUM["value"])

    def row(self, space: tile.AirSpace, leg: tile.Leg, suction: float) -> dict[str, Any]:
        """One way round as a row of the table."""
        friction, momentum, both = self.usual(space, leg)
        far = suction - both if both <= suction else None
        return {**leg._asdict(), "leg_loss": friction, "momentum_loss": momentum, "far_suction": far}


def _within(value: float, low: float, high: float, why: str) -> Span:
    return Span(value, max(0.0, low), high, why)


def _scaled(friction: float, end: str) -> float:
    """The friction factor at one end of its range; a figure of one's own has none."""
    return float(FRICTION[end]) if friction == USUAL else friction


def _printed(work: Work, whole: _Loop, space: tile.AirSpace, leg: tile.Leg, depth: float) -> tuple[float, float, float]:
    """Friction and momentum loss [Pa] and speed [m/s] of the longer way, with their steps."""
    area = work.step(
        "Area of the tile", pipe.circle_area, us={"A": "in2", "D": "in"}, si={"A": "cm2", "D": "cm"}, D=whole.bore
    )
    if depth > 0:
        work.step(
            "Resistance with this water in it",
            tile_parts.resistance,
            us=dict.fromkeys(("A", "A_0"), "in2") | dict.fromkeys(("D", "D_h"), "in"),
            si=dict.fromkeys(("A", "A_0"), "cm2"),
            A_0=area,
            A=space.area,
            D=whole.bore,
            D_h=space.hydraulic_diameter,
        )
    V = work.step(
        "Air speed where the longer way ends at the pit",
        tile_parts.area_speed,
        us={"V": "ft/min", "Q": "cfm", "A": "ft2"},
        Q=leg.flow,
        A=space.area,
    )
    friction = work.step(
        "Lost to friction on the longer way",
        tile.leg_loss,
        f=whole.friction,
        L=leg.length,
        D=space.hydraulic_diameter,
        rho=whole.density,
        V=V,
    )
    momentum = work.step(
        "Lost to speeding up air that joins", tile.momentum_loss, K=float(MOMENTUM["value"]), rho=whole.density, V=V
    )
    return friction, momentum, V


def _water(whole: _Loop, suction: float, depth: float) -> list[dict[str, Any]]:
    """Resistance and what is left at the far end for several depths of water, the entered one among them."""
    rows = []
    longer = max(whole.legs, key=lambda leg: leg.length)
    for share in sorted({*DEPTHS, *([depth] if depth < FULL else [])}):
        space = tile.air_space(D=whole.bore, depth=share)
        friction, _, both = whole.usual(space, longer)
        rows.append(
            {
                "water_depth": share,
                "resistance_factor": space.resistance_factor,
                "leg_loss": friction,
                "far_suction": suction - both if both <= suction else None,
            }
        )
    return rows


def _caution(work: Work, depth: float, blocked_at: float | None) -> None:
    work.caution("danger", "Unplug the pump before a hand, a camera or a hose goes into the pit.")
    work.caution(
        "warning",
        "Air from an opened pit or tile is strong in radon. Air the room, keep the opening short, and close it again.",
    )
    if CHOKED <= depth < FULL:
        work.caution(
            "warning",
            "A tile three quarters full or more is a blockage for air. Half full can still be lived with.",
            "derived",
        )
    if depth > 0:
        work.caution(
            "note",
            "Water stands in the tile while the pump starts above its bottom. Suction does not change that: tile and "
            "pit have the same.",
            "hydrostatics",
        )
    if blocked_at is not None:
        work.caution(
            "note",
            "With one blockage both ways still bring suction up to it. What lies between two blockages has no tile at "
            "all: only a test hole shows what reaches there.",
        )
    work.caution("note", "This is the suction inside the tile. Only test holes show how far it reaches under the slab.")
    work.not_looked_at(
        "Whether the tile goes all the way round, and whether it is silted, crushed or full of roots.",
        "Corners and tees of the tile.",
        "The way of the air from the stone through the slots into the tile.",
        "Ground that yields more air at one place than at another: air is taken to join evenly.",
        "Slow, smooth flow, which loses less than reckoned.",
    )


def _plot(work: Work, whole: _Loop, space: tile.AirSpace, suction: float, loop: float, friction: float) -> None:
    """Suction along the loop from the pit and back, as entered and at the worse end of the range."""
    parting = whole.legs[0].length
    places = sorted({parting, *(loop * i / POINTS for i in range(POINTS + 1))})

    def along(f: float, K: float) -> list[float]:
        lost = [whole.lost(space, leg, f=f, K=K) for leg in whole.legs]
        values = []
        for place in places:
            near = place <= parting and parting > 0
            leg, (rub, speed, _) = (whole.legs[0], lost[0]) if near else (whole.legs[1], lost[1])
            x = (place if near else loop - place) / leg.length
            gone = rub * tile_parts.friction_share(x) + speed * tile_parts.momentum_share(x)
            values.append(max(0.0, suction - gone))
        return values

    worst = along(_scaled(friction, "high"), MOMENTUM["high"])
    usual = along(friction, MOMENTUM["value"])
    work.plot(
        "along",
        "Suction along the tile, from the pit round and back",
        ("distance along the tile", "ft|m", places),
        ("in the tile", PRESSURE, usual),
        ("rougher tile, air that joins without speed", PRESSURE, worst),
        point=(parting, usual[places.index(parting)]),
    )
