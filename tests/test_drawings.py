"""The handbook's own drawings are true to the figures beside them: measured back from the markup."""

import re
import xml.etree.ElementTree as etree
from math import hypot, pi
from pathlib import Path

import pytest

from calculators.show import drawings
from calculators.show.drawings import (
    backup_levels,
    joist_holes,
    ladder,
    laundry_pit,
    pump_pipe,
    suction_fall,
    suction_pits,
    trap_depth,
    u_tube,
    winter_pull,
)
from calculators.units import si

CSS = Path(__file__).resolve().parents[1] / "docs" / "assets" / "css" / "drawing.css"


def parts(name, system="us"):
    """All elements of a drawing, and its texts."""
    root = etree.fromstring(f"<div>{drawings.draw(name, 'd1', None, system)}</div>")
    return root, [text.text for text in root.iter("text")]


def numbers(path):
    """The points of a path."""
    found = [float(n) for n in re.findall(r"-?[\d.]+", path.get("d"))]
    return list(zip(found[::2], found[1::2], strict=True))


def of_class(root, tag, name):
    """Elements of one kind and class."""
    return [item for item in root.iter(tag) if item.get("class") == name]


def test_joist_holes_are_a_third_of_the_depth_and_the_pipe_is_to_scale():
    """Circle of the pipe, dashed circle of the hole and the joist's depth keep their ratios; only the 2x12 takes the pipe."""
    root, words = parts("joist-holes")
    joists = [float(box.get("height")) for box in of_class(root, "rect", "wood")]
    pipes = [2 * float(c.get("r")) for c in of_class(root, "circle", "part")]
    holes = [2 * float(c.get("r")) for c in of_class(root, "circle", "level")]
    for (_, depth), tall, pipe, hole in zip(joist_holes.JOISTS, joists, pipes, holes, strict=True):
        assert pipe / tall == pytest.approx(3.5 / depth, rel=0.01)
        assert hole / tall == pytest.approx(1 / 3, rel=0.01)
    assert [w for w in words if w.startswith("hole")] == ["hole 2.42 in.", "hole 3.08 in.", "hole 3.75 in."]
    bad = [text.text for text in of_class(root, "text", "bad")]
    assert bad == ["hole 2.42 in.", "hole 3.08 in."]


def test_suction_pits_hold_the_volumes_that_they_name():
    """The half balls, measured with the slab as the rule, hold 0.25, 1 and 2 cubic feet."""
    root, _ = parts("suction-pits")
    slab = of_class(root, "rect", "conc")[0]
    scale = float(slab.get("height")) / si("4 in")
    for (cubic, _why), pit in zip(suction_pits.PITS, of_class(root, "path", "pit"), strict=True):
        across = [x for x, _ in numbers(pit)]
        radius = (max(across) - min(across)) / 2 / scale
        assert 2 / 3 * pi * radius**3 == pytest.approx(si(f"{cubic} ft3"), rel=0.02)


def test_traps_show_the_seal_that_is_left():
    """What is left of each seal is its depth less the suction, in the drawing and in its words."""
    root, words = parts("trap-depth")
    assert {"0.5 in. left", "4.5 in. left"} <= set(words)
    inch = trap_depth.SCALE * si("1 in")
    drawn = {numbers(line)[1][1] - numbers(line)[0][1] for line in of_class(root, "path", "lead")}
    for wanted in (1.5, 0.5, 4.5):
        assert any(tall == pytest.approx(wanted * inch, abs=0.2) for tall in drawn), wanted


@pytest.mark.parametrize(("system", "unit"), [("us", "inH2O"), ("si", "Pa")])
def test_u_tubes_show_the_difference_that_is_written_below(system, unit):
    """The two levels of each tube differ by the reading printed under it; the high and the low one are past 20 percent."""
    root, words = parts("u-tube", system)
    read = [
        si(f"{word} {unit}") for word in words if re.fullmatch(r"[\d.]+", word) and word not in ("1", "2", "3", "4")
    ]
    water = of_class(root, "rect", "water")
    for reading, left, right in zip(read, water[::3], water[1::3], strict=True):
        difference = float(right.get("y")) - float(left.get("y"))
        assert difference / u_tube.SCALE == pytest.approx(reading, abs=2)
    mark, zero, high, low = read
    assert zero == 0
    assert high > 1.2 * mark
    assert low < 0.8 * mark


@pytest.mark.parametrize("name", drawings._PAGES)
def test_every_number_in_a_drawing_is_in_its_list(name):
    """Balloons count 1, 2, 3 ... without a gap, one for each row of the list below the drawing."""
    root, _ = parts(name)
    found = sorted(int(text.text) for text in of_class(root, "text", "on-dot"))
    rows = len(root.findall(".//ol/li"))
    assert found == list(range(1, rows + 1))


@pytest.mark.parametrize("name", drawings.NAMES)
def test_every_class_of_a_drawing_has_a_colour(name):
    """No part of a drawing has a class that the style sheet does not know."""
    css = CSS.read_text(encoding="utf-8")
    root, _ = parts(name)
    used = {word for item in root.find(".//svg").iter() for word in (item.get("class") or "").split()}
    assert not [word for word in used if f".drawing .{word}" not in css]


def test_side_outlet_is_to_the_scale_of_the_pack():
    """SGM-SF 2017, 7.4.11: outlet 20 ft above grade, openings 10 ft away; the drawn ratio is 2, the near window lies inside."""
    root, words = parts("side-outlet")
    assert {"20 ft", "10 ft"} <= set(words)
    outlet = next(dot for dot in of_class(root, "circle", "dot") if dot.get("r") == "6.0")
    x, y = float(outlet.get("cx")), float(outlet.get("cy"))
    around = [abs(px - x) for px, _ in numbers(of_class(root, "path", "level")[0])]
    ground = float(of_class(root, "rect", "soil")[0].get("y"))
    assert (ground - y) / max(around) == pytest.approx(2, rel=0.01)
    near = of_class(root, "rect", "near")[0]
    corner = (float(near.get("x")) - x, float(near.get("y")) - y)
    assert hypot(*corner) < max(around)


def test_ladder_stands_at_one_in_four():
    """The foot stands out a quarter of the working length, and the rails rise 3 ft for an edge at 10 ft (29 CFR 1926.1053)."""
    root, words = parts("ladder")
    rail = numbers(of_class(root, "path", "edge")[0])
    (foot_x, foot_y), (top_x, top_y) = rail
    edge_y = foot_y - (foot_y - top_y) * ladder.EAVE / (ladder.EAVE + ladder.ABOVE)
    out = (top_x - foot_x) * ladder.EAVE / (ladder.EAVE + ladder.ABOVE)
    assert hypot(out, foot_y - edge_y) / out == pytest.approx(4, rel=0.01)
    assert {"2.6 ft", "3 ft"} <= set(words)


def test_laundry_trap_holds_six_inches_and_is_pulled_by_the_suction():
    """The two lines of the seal are 6 in. apart (SGM-SF 2017, 7.8.2); the water stands 1.5 in. lower on the room's side."""
    root, words = parts("laundry-pit")
    assert "6 in." in words
    leads = [numbers(line) for line in of_class(root, "path", "lead")]
    dip, weir = sorted((line[0][1] for line in leads if line[0][0] == 30 and line[0][1] == line[1][1]), reverse=True)
    assert dip - weir == pytest.approx(laundry_pit.SEAL * laundry_pit.UNIT)
    water = numbers(of_class(root, "path", "pipe-water")[0])
    assert water[0][1] - water[-1][1] == pytest.approx(laundry_pit.SUCTION * laundry_pit.UNIT)


def test_relief_hole_lies_between_the_pump_and_the_lid():
    """Below the lid and the valve, above the pump's outlet: the order of heights is the order of the page."""
    assert pump_pipe.OUTLET < pump_pipe.HOLE < pump_pipe.DEPTH < pump_pipe.UNION < pump_pipe.VALVE
    _, words = parts("pump-pipe")
    assert "4 in." in words


def test_second_pump_starts_above_the_first_and_the_alarm_above_both():
    """Levels rise in the order in which they act, and the first pump starts below the drain's mouth."""
    level = {words: inch for inch, words in backup_levels.LEVELS}
    assert level["pump off"] < level["pump on"] < level["drain's mouth"] < level["2nd pump on"] < level["alarm"] < level["lid"]


# K0 at r/B over K0 at the pit's radius/B: Abramowitz and Stegun, Table 9.8 (figures from memory, agreeing with SciPy).
FALL = {(20, 20): 0.42102444 / 3.11423403, (20, 10): 0.11389387 / 2.42706902, (10, 10): 0.42102444 / 2.42706902}


@pytest.mark.parametrize("place", FALL)
def test_suction_falls_as_the_bessel_function_of_a_leaky_sheet(place):
    """De Glee's solution, away from a pit of 1 ft radius."""
    assert suction_fall.PIT == 1
    assert suction_fall.share(*place) == pytest.approx(FALL[place], rel=1e-6)


def test_winter_names_the_pressures_of_its_page():
    """The three pressures in the drawing's list stand in the table of the page, worked out by the same calculator."""
    page = Path(__file__).resolve().parents[1] / "docs" / "04-under-the-slab" / "winter.md"
    text = page.read_text(encoding="utf-8")
    for outdoors in winter_pull.DAYS:
        row = re.search(rf"^\| {outdoors} °F \([^)]*\), no fans \| [\d.]+ in\. WC \(([\d.]+) Pa\)", text, re.MULTILINE)
        assert winter_pull.pull(outdoors) == pytest.approx(float(row[1]), abs=0.06)


@pytest.mark.parametrize("name", drawings.NAMES)
@pytest.mark.parametrize("system", ["us", "si"])
def test_words_of_a_drawing_end_with_one_stop(name, system):
    """Title and description hold no double full stop, as after "8 in."."""
    said = " ".join(drawings.draw(name, "d1", None, system).split())
    assert not re.search(r"\.\.(\s|<)", said)
