"""What the vent pipe needs besides pipe: hangers, fall, room to move, sticks, weight, a list of materials."""

from typing import Annotated, Any

from ..declare import Choice, Count, List, Quantity, Record, Several, Table, Text, Texts, calculator, si
from ..physics import runs as physics
from ..span import Span
from ..tables import pipe as pipe_of
from ..tables import si_of
from ..trade import materials
from ..vocabulary import RULE_PACKS, Fittings, PipeSize
from ..work import Work

SLOPE = si("0.125 in/ft")  # SGM-SF 2017 (12/20), 6.2.2
LONGEST = si("30 ft")  # IAPMO IS 9, 2.3.2
LENGTH, FALL = "ft|m", "in|mm"
FEET, SPACES = dict.fromkeys(("L", "L_h", "L_v"), "ft"), dict.fromkeys(("L", "s"), "ft")
INCHES_PER_FOOT = {"h": "in", "m": "in/ft", "L": "ft"}
LEAST, MOST = 2.8e-5 * 9 / 5, 3.125e-5 * 9 / 5  # 1/K: a worked example, and 3/8 in. in 100 ft for each 10 degF

Runs = Annotated[
    list[dict[str, Any]],
    List(
        "Runs of pipe, in order from the suction point to the outlet",
        Record(
            "Run",
            {
                "length": Quantity("Length", "ft", "m", "0 ft", "2000 ft"),
                "orientation": Choice("It lies", ("horizontal", "vertical")),
                "zone": Choice("Where", materials.ZONES),
            },
            need=("length", "orientation"),
            defaults={"zone": "unknown"},
        ),
        1,
        50,
        help="A new run at every turn and at every wall, floor and ceiling.",
    ),
]
Stick = Annotated[float, Quantity("Length of a stick", "ft", "m", "1 ft", "100 ft", source="common-practice")]
Swing = Annotated[
    float,
    Quantity(
        "Temperature swing of the pipe",
        "degF",
        "degC",
        "0 degF",
        "250 degF",
        difference=True,
        help="Warmest less coldest. Outdoors it is far more than in a basement.",
        source="iapmo-is-9",
    ),
]
Rules = Annotated[list[str] | None, Several("Rule pack", RULE_PACKS, least=1, most=2)]
Spaced = Annotated[float | None, Quantity("Hangers on level pipe, as planned", "ft", "m", "0.5 ft", "100 ft")]
SpacedUp = Annotated[float | None, Quantity("Supports on upright pipe, as planned", "ft", "m", "0.5 ft", "100 ft")]
Room = Annotated[
    float | None,
    Quantity(
        "Height that the level runs can fall",
        "in",
        "mm",
        "0 in",
        "100 ft",
        help="Between the ends, under what is there.",
    ),
]
Prices = Annotated[
    list[dict[str, Any]],
    List(
        "Prices",
        Record(
            "Price",
            {
                "item": Choice("Piece", materials.ITEMS),
                "price": Quantity("Price of one", "money", "money", "0 money", "1000000000 money"),
            },
            need=("item", "price"),
        ),
        help="Only what is typed is counted.",
    ),
]


@calculator(
    name="pipe-takeoff",
    part="pipe-and-fan",
    title="Hangers, fall, movement, materials",
    main="drop_needed",
    results={
        "drop_needed": Quantity("The level runs must fall", "in", "mm"),
        "hangers": Count("Hangers and supports"),
        "expansion": Quantity("The longest run moves by", "in", "mm"),
        "sticks": Quantity("Sticks of pipe", "1", "1"),
        "pipe_weight": Quantity("Weight of the pipe", "lb", "kg"),
        "total_length": Quantity("Pipe altogether", "ft", "m"),
        "joints": Count("Ends to cement"),
        "firestops": Count("Crossings that must resist fire"),
        "hangers_by_run": Table(
            "Hangers, run by run",
            {
                "run": Count("Run"),
                "length": Quantity("Length", "ft", "m"),
                "orientation": Text("It lies"),
                "zone": Text("Where"),
                "spacing": Quantity("Longest spacing", "ft", "m"),
                "hangers": Count("Hangers"),
            },
        ),
        "crossings": Table("Crossings", {"leaves": Text("From"), "enters": Text("Into"), "needs": Text("Needs")}),
        "materials": Table(
            "Materials",
            {
                "item": Text("Piece"),
                "size": Text("Size"),
                "quantity": Count("How many"),
                "price": Quantity("Each", "money", "money"),
                "cost": Quantity("Cost", "money", "money"),
            },
        ),
        "cost": Quantity("Cost of what has a price", "money", "money"),
        "materials_csv": Texts("The same as lines of CSV"),
    },
)
def pipe_takeoff(
    work: Work,
    *,
    runs: Runs,
    pipe_size: PipeSize,
    fittings: Fittings = [],  # noqa: B006  read only
    rules: Rules = None,
    stick_length: Stick = si("10 ft"),
    temperature_swing: Swing = 70 * 5 / 9,
    horizontal_spacing: Spaced = None,
    vertical_spacing: SpacedUp = None,
    available_drop: Room = None,
    prices: Prices = [],  # noqa: B006  read only
) -> dict[str, Any]:
    """Hangers by a rule pack's spacing, fall at 1/8 in. per ft, growth with temperature, sticks, weight and materials.

    A spacing that is typed takes the place of the pack's; without either there is no count.  SI in and out.
    """
    size = pipe_of(str(pipe_size))
    level = sum(run["length"] for run in runs if run["orientation"] == "horizontal")
    upright = sum(run["length"] for run in runs if run["orientation"] == "vertical")
    total = work.step("Pipe altogether", physics.total_length, us=FEET, L_h=level, L_v=upright)
    drop = work.step("The level runs must fall", physics.drop, us=INCHES_PER_FOOT, m=SLOPE, L=level)
    mass = work.step(
        "Weight of the pipe",
        physics.pipe_mass,
        us={"M": "lb", "m_l": "lb/ft", "L": "ft"},
        m_l=si_of(size["weight"]),
        L=total,
    )
    longest = max(run["length"] for run in runs)
    growth = work.step(
        "The longest run moves by",
        physics.expansion,
        us={"dL": "in", "L": "in"},
        si={"dL": "mm", "L": "mm"},
        a=physics.PVC_EXPANSION,
        L=longest,
        dT=temperature_swing,
    )
    planned = {"horizontal": horizontal_spacing, "vertical": vertical_spacing}
    rows = _hangers(work, runs, rules or [], planned)
    hangers = None if any(row["hangers"] is None for row in rows) else sum(row["hangers"] for row in rows)

    crossed = materials.crossings(runs)
    listed = materials.pieces(runs, stick_length, hangers, fittings, [row["piece"] for row in crossed])
    bought, cost, unpriced = materials.priced(listed, prices, str(pipe_size))
    sticks = physics.whole_pieces(length=total, each=stick_length)
    by_run = sum(physics.whole_pieces(length=run["length"], each=stick_length) for run in runs)
    _compare(work, rules or [], planned, longest, drop, available_drop)
    _caution(work, runs, hangers, unpriced)
    return {
        "drop_needed": drop,
        "hangers": hangers,
        "expansion": Span(
            growth,
            physics.expansion(a=LEAST, L=longest, dT=temperature_swing),
            physics.expansion(a=MOST, L=longest, dT=temperature_swing),
            "least and greatest of the published figures for this plastic",
        ),
        "sticks": Span(float(sticks), float(sticks), float(by_run), "every offcut used, or a new stick for every run"),
        "pipe_weight": mass,
        "total_length": total,
        "joints": _joints(dict(listed)),
        "firestops": None if _unknown(runs) else sum(row["piece"] == "firestop" for row in crossed),
        "hangers_by_run": rows,
        "crossings": [{key: row[key] for key in ("leaves", "enters", "needs")} for row in crossed],
        "materials": bought,
        "cost": cost,
        "materials_csv": materials.csv(bought),
    }


def _unknown(runs: list[dict[str, Any]]) -> bool:
    return len(runs) > 1 and any(run["zone"] == "unknown" for run in runs)


def _hangers(
    work: Work, runs: list[dict[str, Any]], packs: list[str], planned: dict[str, float | None]
) -> list[dict[str, Any]]:
    """Hangers of each run at the typed spacing, else at the shortest that the chosen packs ask for."""
    asked = [materials.spacing(pack) for pack in packs]
    rows = []
    for i, run in enumerate(runs):
        kind = run["orientation"]
        known = [found for one in asked if (found := one.metres(kind)) is not None]
        spacing = planned[kind] if planned[kind] is not None else min(known, default=None)
        number = None
        if spacing is not None:
            title = f"Spaces on run {i + 1}; rounded up, its hangers"
            work.step(title, physics.spaces, us=SPACES, L=run["length"], s=spacing)
            number = physics.whole_pieces(length=run["length"], each=spacing)
        rows.append({"run": i + 1, **run, "spacing": spacing, "hangers": number})
    return rows


def _joints(listed: dict[str, int]) -> int:
    """Ends to cement: three at a tee, two at every other fitting and coupling."""
    fitted = {
        item: number for item, number in listed.items() if item not in ("stick", "hanger", "firestop", "weather-seal")
    }
    return sum(number * (3 if item == "tee-run" else 2) for item, number in fitted.items())


def _compare(
    work: Work, packs: list[str], planned: dict[str, float | None], longest: float, drop: float, room: float | None
) -> None:
    for pack in packs:
        found = materials.spacing(pack)
        for kind in ("horizontal", "vertical"):
            row = getattr(found, kind)
            if row is None:
                way = "level" if kind == "horizontal" else "upright"
                work.judge(
                    f"no-row-{kind}:{pack}",
                    f"Supports of {way} pipe: no row of this pack ({pack}) was seen that says how far apart they may be.",
                    ok=None,
                    source="definition",
                    needs=("rules",),
                )
            elif planned[kind] is not None:
                work.at_most(
                    row["id"],
                    row["text"],
                    found=planned[kind],
                    required=found.metres(kind),
                    unit=LENGTH,
                    source=row["source"],
                    section=row["section"],
                )
    work.at_most(
        "straight-run",
        "No straight run is longer than the 30 ft (9.1 m) at which one standard wants an expansion joint, an offset or a restraint.",
        found=longest,
        required=LONGEST,
        unit=LENGTH,
        source="iapmo-is-9",
        section="2.3.2",
    )
    work.at_least(
        "room-to-fall",
        "There is room for the level runs to fall 1/8 in. per ft (1 %) toward the suction point.",
        found=room,
        required=drop,
        unit=FALL,
        source="sgm-sf-2017",
        section="6.2.2",
        needs=() if room is not None else ("available_drop",),
    )


def _caution(work: Work, runs: list[dict[str, Any]], hangers: int | None, unpriced: list[str]) -> None:
    work.caution(
        "danger",
        "Primer and cement fumes burn and stun. Air the room, put every burner and pilot out, wear gloves and goggles, close the "
        "can.",
    )
    zones = {run["zone"] for run in runs}
    if "outdoors" in zones or "attic" in zones:
        work.caution(
            "danger",
            "Ladders and roofs: tie the ladder, three rungs above the edge, look up for wires first, nobody alone, nothing in ice "
            "or wind. In an attic step only on joists.",
        )
    if "garage" in zones:
        work.caution(
            "warning",
            "Wall and ceiling between garage and house hold back fire and exhaust gas. Close the gap round the pipe as the code "
            "in force asks; views on plastic pipe there differ, so ask before you cut.",
            "crc-2013",
        )
    if hangers is None:
        work.caution(
            "warning",
            "No hangers were counted, because no spacing is known. Choose a rule pack that has rows on supports, or type the "
            "spacing that is in force where you work.",
            "definition",
        )
    work.caution(
        "note",
        "A support belongs within 3 ft (0.9 m) of the outlet, and within 18 in. (46 cm) of an attic fan.",
        "sgm-sf-2017",
    )
    work.caution(
        "note",
        "Hangers hold down as well as up, let the pipe move and never squeeze it. Do not hang it on other pipes, ducts or "
        "appliances.",
        "iapmo-is-9",
    )
    if unpriced:
        work.caution("note", f"Without a price, and not in the cost: {', '.join(unpriced)}.", "definition")
    if _unknown(runs):
        work.not_looked_at("Fire stops and seals at crossings: the zone of a run is not known.")
    work.not_looked_at(
        "Primer, cement, straps, screws, labels, fan and switch.",
        "Offcuts, damage and a spare stick.",
        "Bell ends: sticks that have them need no couplings.",
        "The way round beams and ducts, and whether framing may be cut.",
        "The hole in the slab: the first run begins there.",
    )
