"""Problems on measuring radon, airing a room and handing over."""

from functools import partial
from math import log

from .draw import Draw
from .problem import Problem, Slip, distinct, near, options, ordered, solved, template

prove = partial(template, part="prove-and-hand-over")
READ = "figures are read to three digits"


@prove(kind="number", level=1, minutes=3, source="ms-qa-2019", title="Two devices side by side", calculator="radon-test")
def pair_difference(draw: Draw) -> Problem:
    """The relative percent difference of a pair."""
    low = draw.number((4, 9, 0.1, "pCi/L"), (150, 330, 5, "Bq/m3"))
    more = draw.number((0.8, 2.4, 0.1, "pCi/L"), (30, 90, 5, "Bq/m3"))
    high = low._replace(value=round(low.value + more.value, 3))
    key = near(abs(high.si - low.si) / ((high.si + low.si) / 2), 0.02, READ, unit="%")
    slips = distinct(key, [
        Slip("of-the-larger", (high.si - low.si) / high.si, "The difference was divided by the larger reading. It is divided by the mean of the two."),
        Slip("half-of-it", key.value / 2, "The difference was divided by the sum. The mean is half of the sum."),
        Slip("doubled", key.value * 2, "The difference was divided by half of the mean."),
    ])  # fmt: skip
    return Problem(
        text=[f"Two devices stood side by side for the same two days. They read {low} and {high}."],
        ask="What is their relative percent difference? Answer in %.", answer=key, slips=slips,
        words=["Difference of the two, divided by their mean."],
    )


@prove(kind="number", level=1, minutes=2, source="definition", title="By how much the level fell", calculator="radon-test")
def reduction(draw: Draw) -> Problem:
    """The reduction in percent from before and after."""
    before = draw.number((6, 30, 0.5, "pCi/L"), (220, 1100, 20, "Bq/m3"))
    after = draw.number((0.6, 2.4, 0.1, "pCi/L"), (25, 90, 5, "Bq/m3"))
    key = near(1 - after.si / before.si, 0.01, READ, unit="%")
    slips = distinct(key, [
        Slip("what-is-left", after.si / before.si, "This is what is left, not by how much it fell."),
        Slip("of-the-mean", (before.si - after.si) / ((before.si + after.si) / 2), "The fall was divided by the mean, as for a pair of devices. "
             "Here it is divided by the level before."),
    ])  # fmt: skip
    return Problem(
        text=[f"Before the work a house had {before}, after it {after}, both in tests that count."],
        ask="By how much did the level fall? Answer in %.", answer=key, slips=slips,
        words=["One minus the level after over the level before. One short test is good to about a quarter either way."],
    )


@prove(kind="number", level=2, minutes=3, source="mass-balance", title="How long to air the room", calculator="purge-time")
def airing(draw: Draw) -> Problem:
    """The time that removes most of what is in the air."""
    changes = draw.number((2, 10, 0.5, "1/h"))
    removal = draw.pick(("80 %", "90 %", "95 %"))
    result = solved("purge-time", air_changes=changes, removal=removal)
    key = near(result["time"], 0.02, READ, unit="min")
    part = float(removal.split()[0]) / 100
    rate = changes.value / 3600
    slips = distinct(key, [
        Slip("share-of-an-hour", part / rate, "The share was divided by the air changes, as if clean air pushed the old air out without mixing."),
        Slip("what-stays", log(1 / part) / rate, "The logarithm of the removed share was taken. What counts is what stays."),
        Slip("one-change", 1 / rate, "One change of air leaves more than a third of it."),
    ])  # fmt: skip
    return Problem(
        text=[f"A basement is aired with a fan at {changes.value:g} air changes an hour, well mixed."],
        ask=f"After how long is {removal} of what was in the air gone? Answer in min.", answer=key, slips=slips, solution=result,
    )


@prove(kind="choice", level=1, minutes=2, source="ccah-2020", title="What the gauge is", calculator="gauge-reading")
def gauge_is_not_radon(draw: Draw) -> Problem:
    """The gauge shows suction, not radon."""
    reading = draw.pick(("1.4", "0.9", "2.1", "0.4"))
    who = draw.pick(("The owner", "A neighbour", "The buyer's agent", "A colleague on his first day"))
    return Problem(
        text=[f"{who} points at the U-tube, which stands at {reading}, and asks whether the radon is below 4 now."],
        ask="What is the right answer?",
        answer=options(draw, """
            + The gauge shows suction, not radon. Only a radon test shows radon. | It says that the fan pulls; the test says what came of it.
            - Yes, it stands below 4. | Inches of water are not picocuries; the two have nothing to do with each other.
            - No, it would have to stand at zero. | At zero nothing is pulled at all: the gauge calls for service.
            - It will be, once the gauge has risen. | A gauge that rises can mean that less air comes, for instance because of water.
        """),
    )  # fmt: skip


@prove(kind="order", level=2, minutes=3, source="mah-2019", title="From switching on to the papers", calculator="radon-test")
def hand_over_order(draw: Draw) -> Problem:
    """The order of the last steps."""
    steps = ["Switch the system on and let the gauge settle", "Test every burner again, fan on, worst case", "Mark the gauge with the reading of that day",
             "Wait a day, the house closed for the last half of it", "Set the radon test where a device may stand, for two days or more",
             "Hand over papers, labels and the date of the next test"]  # fmt: skip
    gone = draw.pick((0, 2, None))
    return Problem(
        text=["The system is built, the lid is closed. There is a gas water heater in the basement."], ask="Put the last steps in order.",
        answer=ordered(draw, [s for i, s in enumerate(steps) if i != gone],
                       "The burner comes first: its gas harms in minutes, radon in years. The test waits until the level has settled."),
    )  # fmt: skip


@prove(kind="choice", level=2, minutes=2, source="mah-2019", title="What stops the work: the test that does not count", calculator="radon-test")
def test_stops(draw: Draw) -> Problem:
    """A test begun too soon or in the wrong place is not handed over."""
    fault, why = draw.pick((
        ("was begun two hours after the fan was switched on", "It must begin no sooner than 24 hours after the system starts."),
        ("stood on the lid of the pit", "A device stays 7 to 10 ft from a pit, by the rule that holds."),
        ("ran while the windows stood open in fine weather", "The house is closed for 12 hours before and all through a short test."),
        ("ran with the fan switched off to be fair", "It is to show the house as it will be: with the fan."),
    ))  # fmt: skip
    return Problem(
        text=[f"The papers are ready. The two-day test read 0.7 pCi/L; it {fault}."], ask="What stops the work here?",
        answer=options(draw, f"""
            + The test does not count and is made again. | {why}
            - The reading is so low that it must be an error. | Low readings happen. What decides is whether the test counts.
            - Nothing: 0.7 is far below the action level. | A number from a test that does not count says nothing either way.
            - The owner has not signed yet. | A signature does not make the test count.
        """),
    )  # fmt: skip
