"""Radon in numbers: units, decay products, dose, what a room holds, how long it takes to clear."""

from functools import partial
from math import log

from .draw import Draw, Shown
from .problem import Problem, Slip, choice, distinct, named, near, solved, template

look = partial(template, part="look-up")
READ = "figures are read to three digits"


@look(kind="number", level=1, minutes=2, source="definition", title="From one unit to the other", calculator="radon-units")
def other_unit(draw: Draw) -> Problem:
    """Radon level in the unit of the other side of the ocean."""
    level = draw.number((50, 900, 10, "Bq/m3"), (1.2, 24, 0.2, "pCi/L"))
    result = solved("radon-units", value=level)
    key = near(result["bq_per_m3"], 0.015, "37 is exact; figures are read to three digits", unit=draw.text("pCi/L", "Bq/m3"))
    factor = draw.text(1 / 37, 37)
    slips = distinct(key, [
        Slip("wrong-way", Shown(level.value / factor, key.unit).si, "It was turned the wrong way round: 1 pCi/L is 37 Bq/m³."),
        Slip("hundred", Shown(level.value * draw.text(0.01, 100), key.unit).si, "100 is the step from pCi/L to working levels. Between the two units it is 37."),
        Slip("thirty", Shown(level.value * draw.text(1 / 30, 30), key.unit).si, "30 is too coarse. 1 pCi/L is 37 Bq/m³."),
    ])  # fmt: skip
    return Problem(
        text=[f"A report from {draw.text('Canada', 'the United States')} gives {level}."], ask=f"What is that in {named(key.unit)}?", answer=key, slips=slips,
        words=["1 pCi/L is 37 Bq/m³, exactly."],
    )  # fmt: skip


@look(kind="number", level=2, minutes=3, source="definition", title="Decay products in the room", calculator="radon-units")
def working_level(draw: Draw) -> Problem:
    """Working level from gas and equilibrium factor."""
    level = draw.number((5, 60, 1, "pCi/L"), (200, 2200, 20, "Bq/m3"))
    share = draw.pick((0.3, 0.35, 0.4, 0.45, 0.5, 0.6))
    result = solved("radon-units", value=level, equilibrium_factor=share)
    key = near(result["working_level"], 0.02, READ, unit="WL")
    slips = distinct(key, [
        Slip("full-equilibrium", key.value / share, "The gas was counted at full equilibrium. Only a part of the decay products stays in the air."),
        Slip("divided", key.value / share**2, "It was divided by the equilibrium. It is a share: multiply."),
        Slip("no-hundred", key.value * draw.text(100, 3700), draw.text("The 100 pCi/L of a working level were forgotten.", "The 3700 Bq/m³ of a working level were forgotten.")),
    ])  # fmt: skip
    one = draw.text("100 pCi/L", "3700 Bq/m³")
    return Problem(
        text=[f"A room has {level}. The equilibrium is {share:g}; {one} at full equilibrium are 1 WL."], ask="How many working levels are in the air? Answer in WL.",
        answer=key, slips=slips, solution=result, steps=("Equilibrium equivalent concentration", "Decay products"),
    )  # fmt: skip


@look(kind="number", level=3, minutes=4, source="icrp-137", title="Dose of a year at home", calculator="radon-units")
def year_dose(draw: Draw) -> Problem:
    """Effective dose from level, hours and the coefficient of ICRP 137."""
    level = draw.number((2, 20, 0.5, "pCi/L"), (80, 740, 20, "Bq/m3"))
    hours = Shown(draw.whole(50, 75) * 100, "h")
    result = solved("radon-units", value=level, hours=hours)
    gas = draw.text(248, 6.7)  # nSv for each pCi/L or Bq/m3 and hour
    key = near(result["dose"], 0.03, "the coefficient has two digits", unit="mSv")
    slips = distinct(key, [
        Slip("equilibrium-again", key.value * 0.4, "The equilibrium of 0.4 is in this coefficient already."),
        Slip("without-it", key.value / 0.4, "It was divided by the equilibrium, which is in the coefficient already."),
        Slip("whole-year", key.value * 8760 / hours.value, "All hours of the year were taken. Only those in the house count."),
        Slip("micro", key.value * 1000, "A million nSv are one mSv. A thousand were taken for it."),
    ])  # fmt: skip
    each = draw.text("pCi/L", "Bq/m³")
    return Problem(
        text=[f"A house has {level} all year. Somebody spends {hours.value:,.0f} hours there. ICRP 137 at the usual equilibrium: {gas:g} nSv in each hour for each {each} of gas."],
        ask="What is the dose of that year? Answer in mSv.", answer=key, slips=slips, solution=result,
        steps=("Dose coefficient at this equilibrium", "Effective dose in this time"), words=["Level × hours × coefficient, divided by a million. Bodies differ on the coefficient; name the one you use."],
    )  # fmt: skip


@look(kind="number", level=3, minutes=4, source="mass-balance", title="What a given entry holds in a room", calculator="entry-balance")
def level_held(draw: Draw) -> Problem:
    """Steady level from entry rate, volume, air changes and outdoor air."""
    volume = draw.number((8000, 20000, 500, "ft3"), (220, 560, 20, "m3"))
    changes = draw.number((0.2, 0.8, 0.05, "1/h"))
    entry = draw.number((150, 600, 10, "pCi/s"), (5, 22, 0.5, "Bq/s"))
    outdoor = draw.text(Shown(0.4, "pCi/L"), Shown(15, "Bq/m3"))
    result = solved("entry-balance", volume=volume, air_changes=changes, entry_rate=entry, outdoor=outdoor)
    key = near(result["concentration"], 0.03, "decay takes about 1 %; figures are read to three digits", unit=outdoor.unit)
    rate = changes.value / 3600
    slips = distinct(key, [
        Slip("outdoors-left-out", key.value - outdoor.si, "The air that comes in brings radon of its own."),
        Slip("hour-for-second", outdoor.si + entry.si / volume.si / changes.value, "The air changes are per hour, the entry is per second."),
        Slip("volume-left-out", outdoor.si + entry.si / rate / 1000 if draw.units == "us" else entry.si / rate, "The volume was left out: the larger the house, the thinner the radon."),
        Slip("twice-the-air", outdoor.si + entry.si / volume.si / (2 * rate), "Twice the air was taken. One air change an hour is the whole volume once."),
    ])  # fmt: skip
    litres = draw.text(" (1 ft³ is 28.3 L)", "")
    return Problem(
        text=[f"{entry} of radon enter a house of {volume}{litres} with {changes.value:g} air changes an hour. Outdoor air has {outdoor}."],
        ask=f"What level does it settle at? Answer in {named(key.unit)}.", answer=key, slips=slips, solution=result,
        steps=("Level from outdoor air alone", "Level in the room"), words=["Entry divided by the air that leaves, and what the outdoor air brings. Decay takes about 1 % here."],
    )  # fmt: skip


@look(kind="number", level=2, minutes=3, source="mass-balance", title="More air or less entry?", calculator="entry-balance")
def level_by_air(draw: Draw) -> Problem:
    """What another air change makes of a level; outdoor air sets the floor."""
    level = draw.number((6, 24, 0.5, "pCi/L"), (220, 900, 20, "Bq/m3"))
    outdoor = draw.text(Shown(0.4, "pCi/L"), Shown(15, "Bq/m3"))
    first, times = draw.number((0.2, 0.5, 0.05, "1/h")), draw.pick((2, 3, 4))
    second = Shown(round(first.value * times, 6), "1/h")
    volume = "12,000 ft3"
    entry = solved("entry-balance", volume=volume, air_changes=first, concentration=level, outdoor=outdoor)["entry_rate"]
    result = solved("entry-balance", volume=volume, air_changes=second, entry_rate=Shown(entry, "Bq/s"), outdoor=outdoor)
    key = near(result["concentration"], 0.03, "decay is left out by hand: about 1 %", unit=level.unit)
    slips = distinct(key, [
        Slip("outdoors-thinned", level.si / times, "The outdoor part was thinned as well. Outdoor air keeps its own radon."),
        Slip("less-for-each", level.si - (level.si - outdoor.si) / times, "The part that goes was taken for the part that stays."),
        Slip("outdoors-twice", key.value + outdoor.si, "Outdoor air was added to a level that holds it already."),
        Slip("root", outdoor.si + (level.si - outdoor.si) / times**0.5, "The root was taken. The level goes with the air itself."),
    ])  # fmt: skip
    return Problem(
        text=[f"A house has {level} at {first.value:g} air changes an hour; outdoor air has {outdoor}. The same radon enters, and the air changes become {second.value:g} an hour."],
        ask=f"What is the level then? Answer in {named(key.unit)}.", answer=key, slips=slips, solution=result,
        words=[f"What is above outdoors, divided by {times}, and the outdoor level on top. Airing alone costs heat all winter and can draw more soil gas in."],
    )  # fmt: skip


@look(kind="number", level=3, minutes=3, source="mass-balance", title="A corner that mixes badly", calculator="purge-time")
def bad_mixing(draw: Draw) -> Problem:
    """Purge time with a mixing factor."""
    changes, factor = draw.number((3, 12, 0.5, "1/h")), draw.pick((2, 3, 4))
    removal = draw.pick(("80 %", "90 %", "95 %"))
    result = solved("purge-time", air_changes=changes, removal=removal, mixing_factor=factor)
    part = float(removal.split()[0]) / 100
    rate = changes.value / 3600
    key = near(result["time"], 0.02, READ, unit="min")
    slips = distinct(key, [
        Slip("well-mixed", key.value / factor, "This is the time of a well mixed room. Here it takes longer."),
        Slip("faster", key.value / factor**2, "Bad mixing was counted as help. It makes the time longer."),
        Slip("share-of-an-hour", factor * part / rate, "The share was divided by the air changes, as if clean air pushed the old air out."),
        Slip("what-stays", factor * log(1 / part) / rate, "The logarithm of the removed share was taken. What counts is what stays."),
    ])  # fmt: skip
    return Problem(
        text=[f"A pit room is aired at {changes.value:g} air changes an hour, but its corner mixes badly: a factor of {factor} is taken for it."],
        ask=f"After how long is {removal} of the old air gone there? Answer in min.", answer=key, slips=slips, solution=result,
    )  # fmt: skip


@look(kind="what-is-wrong", level=2, minutes=3, source="eur-respir-2017", title="A level in the wrong unit", calculator="radon-units")
def mixed_units(draw: Draw) -> Problem:
    """A report compares a number in one unit with a level in the other."""
    level = draw.number((1.6, 12, 0.2, "pCi/L"))
    other = round(level.value * 37)
    where, limit = draw.pick((("Canada", 200), ("the World Health Organization", 100), ("the European Union", 300)))
    reached = other >= limit
    right = (f"The units are mixed: {level} is {other} Bq/m³, {'at or above' if reached else 'below'} that level.", f"1 pCi/L is 37 Bq/m³: {level.value:g} × 37 = {other}.")
    return Problem(
        text=[f"A report says: “The house has {level}. That is far below {limit}, the level of {where}.” The level of {where} is {limit} Bq/m³."],
        ask="What is wrong here?",
        answer=choice(draw, right, (f"Nothing: {level.value:g} is less than {limit}.", "Numbers of two units were compared."),
                      (f"It was turned the wrong way: {level} is {level.value / 37:.2g} Bq/m³.", "A pCi/L is more than a Bq/m³, not less."),
                      ("Only tests of a year may be compared.", "The length of the test is another question. The units come first.")),
    )  # fmt: skip


