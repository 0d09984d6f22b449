"""Problems on the outlet: distances, heights and the rows of rule packs that they are compared with."""

from functools import partial
from typing import Any

from ..physics import clearance as distances
from ..result import Result
from ..tables import rule_pack, si_of
from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Number, Problem, Slip, distinct, named, near, options, solved, template

outlet = partial(template, part="where-it-ends", calculator="discharge-clearances")
TAPE = "a tape beside a wall is read to about an inch (3 cm)"
UP: dict[str, Any] = {"roof": "side", "direction": "up", "fan_location": "outdoors"}


def _row(pack: str, id: str) -> dict[str, Any]:
    found: dict[str, Any] = next(row for row in rule_pack(pack)["rows"] if row["id"] == id)
    return found


def _unit(draw: Draw) -> str:
    return str(draw.text("ft", "m"))


def _window(draw: Draw, level: Shown, vertical: Shown, height: Shown) -> Result:
    """An outlet up the side of the house, high above ground and roof edge, and one window of this house."""
    window = {"name": "window", "kind": "window", "horizontal": level, "vertical": vertical, "height": height}
    discharge = {"height_above_grade": draw.text("26 ft", "8 m"), "height_above_roof": draw.text("3 ft", "0.9 m"), **UP}
    return solved("discharge-clearances", rules=["us-pa"], discharge=discharge, openings=[window])


def _straight(draw: Draw, drawn: bool) -> Problem:
    """Straight distance from an outlet above a window to its top."""
    level = draw.number((3, 9, 0.5, "ft"), (0.9, 2.7, 0.1, "m"))
    above = draw.number((2, 7, 0.5, "ft"), (0.6, 2.1, 0.1, "m"))
    height = draw.number((3, 5, 0.5, "ft"), (0.9, 1.5, 0.1, "m"))
    result = _window(draw, level, above, height)
    h, v = level.si, above.si
    key = near(distances.slant_distance(h=h, g=v), 0.015, TAPE, unit=_unit(draw), least=si("1 in"))
    slips = distinct(
        key,
        [
            Slip(
                "sum", h + v, "Level and height were added. The string goes straight: root of the sum of the squares."
            ),
            Slip("level-only", h, "This is the level distance. The outlet is higher than the window too."),
            Slip("height-only", v, "This is the height alone. The outlet also stands to the side."),
            Slip(
                "from-the-sill",
                distances.slant_distance(h=h, g=v + height.si),
                "This is measured from the sill. The nearest part that opens is the top of the opening.",
            ),
        ],
    )
    said = (
        f"An outlet stands {level} to the side of a window that is {height} high, and {above} above the window's top."
    )
    return Problem(
        text=["The sketch shows an outlet above and beside a window that opens. Its list gives the distances."]
        if drawn
        else [said],
        ask=f"How far is it in a straight line from the outlet to the nearest part of the window? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Height between outlet and window", "Straight distance to window"),
        drawing=("clearance-sketch", result) if drawn else None,
    )


@outlet(kind="number", level=1, minutes=3, source="geometry", title="Straight distance to a window")
def slant(draw: Draw) -> Problem:
    """Straight distance from numbers in the text."""
    return _straight(draw, drawn=False)


@outlet(kind="drawing", level=2, minutes=3, source="geometry", title="Read the sketch: straight distance to a window")
def slant_drawing(draw: Draw) -> Problem:
    """Straight distance from numbers in a sketch."""
    return _straight(draw, drawn=True)


@outlet(kind="number", level=2, minutes=3, source="25-pa-code-240", title="How much higher?")
def raise_outlet(draw: Draw) -> Problem:
    """What is missing to the row on the height above an opening."""
    level = draw.number((3, 6, 0.5, "ft"), (0.9, 1.8, 0.1, "m"))
    above = draw.number((0.2, 1.6, 0.1, "ft"), (0.05, 0.45, 0.01, "m"))
    height = draw.number((2.5, 5, 0.5, "ft"), (0.8, 1.5, 0.1, "m"))
    result = _window(draw, level, above, height)
    needed = si_of(_row("us-pa", "PA-03"))
    key = Number(
        result["shortest_riser"] - result.values["discharge"]["height_above_grade"], _unit(draw), si("1 in"), TAPE
    )
    slips = distinct(
        key,
        [
            Slip(
                "whole-height", needed, "This is the whole height that the row asks for. A part of it is there already."
            ),
            Slip("as-it-is", above.si, "This is what is there. The question asks what is missing."),
            Slip(
                "other-pack",
                si_of(_row("cc-1000-2018", "CC-01")) - above.si,
                "4 ft is a row of CC-1000 2018, for new buildings. The row asked about is another.",
            ),
            Slip(
                "ten-feet",
                si("10 ft") - above.si,
                "10 ft is a distance. By its other half the row is met 2 ft above the opening.",
            ),
            Slip(
                "from-the-ground-up",
                needed + height.si - above.si,
                "The window's own height was added. The height counts from the top of the opening.",
            ),
        ],
    )
    return Problem(
        text=[
            f"In Pennsylvania an outlet ends {above} above the top of a window that is {height} high, {level} to its side. "
            f"25 Pa. Code 240.308(b)(4) asks for 10 ft (3.05 m) of distance, or {draw.text('2 ft', '0.61 m')} above the top of the opening."
        ],
        ask=f"How much higher must the outlet go at least, to meet that row? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        words=[
            f"{short(from_si(needed, key.unit), 2)} {key.unit} − {above} = {key.printed()}. A straight distance of 10 ft would take more."
        ],
    )


@outlet(kind="number", level=3, minutes=5, source="25-pa-code-240", title="The shortest riser")
def shortest_riser(draw: Draw) -> Problem:
    """Least height above grade by ground, roof edge and window together."""
    edge = draw.number((11, 20, 0.5, "ft"), (3.4, 6, 0.1, "m"))
    over = draw.number((0.5, 4, 0.5, "ft"), (0.2, 1.2, 0.1, "m"))
    top = Shown(round(edge.value + over.value, 2), edge.unit)
    level = draw.number((3, 6, 0.5, "ft"), (0.9, 1.8, 0.1, "m"))
    height = draw.number((2.5, 4, 0.5, "ft"), (0.8, 1.2, 0.1, "m"))
    now = Shown(round(edge.value + draw.text(0.5, 0.15), 2), edge.unit)
    below = Shown(round(now.value - top.value, 2), edge.unit)
    window = {"name": "dormer window", "kind": "window", "horizontal": level, "vertical": below, "height": height}
    discharge = {"height_above_grade": now, "height_above_roof": draw.text("0.5 ft", "0.15 m"), **UP}
    result = solved("discharge-clearances", rules=["us-pa"], discharge=discharge, openings=[window])
    key = Number(result["shortest_riser"], _unit(draw), si("1.5 in"), TAPE)
    slips = distinct(
        key,
        [
            Slip("roof-edge-only", edge.si, "This clears the roof edge. The dormer's window opens above it."),
            Slip("ground-only", si("10 ft"), "10 ft above the ground is one row. All rows count together."),
            Slip("window-top", top.si, "This is level with the top of the window. The row asks for 2 ft above it."),
            Slip(
                "from-the-sill",
                top.si - height.si + si("2 ft"),
                "2 ft above the sill lies within the opening. Measure from its top.",
            ),
            Slip("four-feet", top.si + si("4 ft"), "4 ft is a row of CC-1000 2018. The row given here asks for 2 ft."),
        ],
    )
    return Problem(
        text=[
            f"A pipe goes up the side of a house in Pennsylvania. Heights above the ground: roof edge {edge}, top of a dormer window "
            f"{top}; the window is {height} high and {level} to the side.",
            "25 Pa. Code 240.308(b): 10 ft (3.05 m) above the ground; above the roof edge; 10 ft from an opening, or "
            "2 ft (0.61 m) above its top.",
        ],
        ask=f"How high above the ground must the outlet be at least, by these rows? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        words=[
            f"{top} and 2 ft above it: {key.printed()}. The other rows ask for less. Snow, wind and your own code come on top."
        ],
    )


PAIRS = (("us-pa", "cc-1000-2018"), ("us-pa", "us-mn"), ("irc-f", "us-mn"), ("irc-f", "cc-1000-2018"))


@outlet(kind="choice", level=2, minutes=3, source="cc-1000-2018", title="Two packs, one window")
def two_packs(draw: Draw) -> Problem:
    """Which of two packs' rows on one window are met."""
    pair = draw.pick(PAIRS)
    level = draw.number((4, 8, 1, "ft"), (1.2, 2.4, 0.1, "m"))
    above = draw.number((1, 7, 1, "ft"), (0.3, 2.1, 0.3, "m"))
    window = {"name": "window", "kind": "window", "horizontal": level, "vertical": above, "height": "4 ft"}
    discharge = {"height_above_grade": "30 ft", "height_above_roof": "6 ft", **UP}
    result = solved("discharge-clearances", rules=list(pair), discharge=discharge, openings=[window])
    rows = [next(c for c in pack["checks"] if c.id.endswith(":openings[0]")) for pack in result["packs"]]
    met = [bool(row.ok) for row in rows]
    names = {
        "us-pa": "25 Pa. Code 240.308(b)(4): 10 ft (3.05 m) away, or 2 ft (0.61 m) above the top of the opening",
        "irc-f": "IRC Appendix F, AF103.6.1: 10 ft (3.05 m) away, or the opening 2 ft (0.61 m) below the outlet",
        "us-mn": "Minn. R. 1303.2402 subp. 5: 10 ft (3.05 m) away from openings",
        "cc-1000-2018": "CC-1000 2018, 9.7.1: 4 ft (1.2 m) above the opening, or 10 ft (3 m) to its side",
    }
    called = {"us-pa": "Pennsylvania's", "irc-f": "the IRC's", "us-mn": "Minnesota's", "cc-1000-2018": "CC-1000's"}
    says = " ".join(
        f"{called[id][0].upper()}{called[id][1:]} row is {'met' if ok else 'not met'}."
        for id, ok in zip(pair, met, strict=True)
    )
    texts = {
        (True, True): "The outlet meets both rows",
        (True, False): f"It meets {called[pair[0]]} row and does not meet {called[pair[1]]}",
        (False, True): f"It does not meet {called[pair[0]]} row and meets {called[pair[1]]}",
        (False, False): "It meets neither row",
    }
    lines = "\n".join(f"{'+' if case == tuple(met) else '-'} {said}. | {says}" for case, said in texts.items())
    return Problem(
        text=[
            f"An outlet that points up stands {level} to the side of a window and {above} above its top. Two rows: "
            f"{names[pair[0]]}. {names[pair[1]]}."
        ],
        ask="What does the comparison say?",
        answer=options(draw, lines),
        words=[
            "Packs disagree. What is in force where you work decides; the figure of another place is no excuse and no duty."
        ],
    )


FAULTS: tuple[tuple[str, str, dict[str, Any]], ...] = (
    ("PA-01", "It ends {low} above the ground.", {"height_above_grade": "low"}),
    ("PA-05", "A chimney wall, taller than the pipe, stands {wall} beside it.", {"horizontal_to_wall_above": "wall"}),
    ("PA-06", "The neighbour's bedroom window is {near} away, level with the outlet.", {}),
    ("PA-08-cap", "A rain cap sits on it.", {"rain_cap": True}),
)


@outlet(kind="choice", level=2, minutes=2, source="25-pa-code-240", title="Which row is not met?")
def failing_row(draw: Draw) -> Problem:
    """One fault, and the row of the Pennsylvania pack that it fails."""
    id, said, change = draw.pick(FAULTS)
    numbers = {
        "low": draw.number((6, 9, 0.5, "ft"), (1.8, 2.8, 0.1, "m")),
        "wall": draw.number((2, 4.5, 0.5, "ft"), (0.6, 1.4, 0.1, "m")),
        "near": draw.number((5, 9, 0.5, "ft"), (1.5, 2.8, 0.1, "m")),
    }
    high = draw.number((14, 24, 1, "ft"), (4.5, 7.5, 0.5, "m"))
    discharge = {"height_above_grade": high, "height_above_roof": "2 ft", **UP} | {
        name: numbers.get(str(value), value) for name, value in change.items()
    }
    beside = (
        [{"name": "bedroom window", "kind": "window", "horizontal": numbers["near"], "vertical": "0 ft"}]
        if id == "PA-06"
        else []
    )
    result = solved("discharge-clearances", rules=["us-pa"], discharge=discharge, adjacent_buildings=beside)
    failed = {check.id.split(":")[0] for check in result.work.checks if check.ok is False}
    text = {
        "PA-01": "(b)(3): at least 10 ft (3.05 m) above the nearest ground",
        "PA-05": "(b)(5): at least 5 ft (1.52 m), level, from a wall taller than the pipe",
        "PA-06": "(b)(6): at least 10 ft (3.05 m) from an opening of an adjacent structure",
        "PA-08-cap": "(b)(2): no rain cap",
    }
    lines = "\n".join(
        f"{'+' if row in failed else '-'} 240.308{words} | "
        f"{'This row is not met here.' if row in failed else 'Nothing that is told here is against this row.'}"
        for row, words in text.items()
    )
    tall = "" if id == "PA-01" else f" It ends {high} above the ground."
    return Problem(
        text=[
            f"A pipe goes up the side of a house in Pennsylvania and ends above the roof edge, pointing up.{tall} {said.format(**numbers)}"
        ],
        ask="Which row of 25 Pa. Code 240.308 is not met?",
        answer=options(draw, lines),
    )


@outlet(kind="choice", level=2, minutes=2, source="rms-mf-2018", title="Roof forms")
def roof_forms(draw: Draw) -> Problem:
    """The least height above a roof by its form."""
    form, id, where = draw.pick(
        (
            ("through a pitched roof", "RMSMF-02", "where it comes out"),
            ("up the side of the building", "RMSMF-03", "at the roof edge"),
            ("through a flat roof", "RMSMF-04", "at the roof"),
        )
    )
    row = _row("rms-mf-2018", id)
    unit, digits = draw.text("in", "cm"), draw.text(3, 2)
    shown = {
        name: f"{short(from_si(si_of(_row('rms-mf-2018', name)), unit), digits)} {unit}"
        for name in ("RMSMF-02", "RMSMF-03", "RMSMF-04")
    }
    seen, other = f"RMS-MF 2018, {row['section']}.", "That is the row for another form of roof."
    lines = "\n".join(
        f"{'+' if name == id else '-'} {words} | {seen if name == id else other}" for name, words in shown.items()
    )
    return Problem(
        text=[f"A pipe goes {form}. Measured {where}, RMS-MF 2018 gives one figure for each form of roof."],
        ask="How high above it must the pipe end at least?",
        answer=options(
            draw, lines + f"\n- {draw.text('4 ft', '1.2 m')} | That is a height above openings, from CC-1000 2018."
        ),
        words=["Pennsylvania and the IRC ask for 12 in. (30 cm) above a roof that the pipe goes through."],
    )
