"""Before the work: the record of radon breathed, lines, old materials, engines, cords."""

from functools import partial

from ..units import from_si, short
from .draw import Draw, Shown
from .problem import Problem, Slip, but_one, distinct, near, options, ordered, several, solved, template

before = partial(template, part="before-you-go")
READ = "figures are read to three digits"
MONTH = 170  # hours of a working month


@before(kind="number", level=2, minutes=3, source="sgm-sf-2017", title="The installer's own exposure")
def own_exposure(draw: Draw) -> Problem:
    """Working level months by gas divided by 100."""
    hours = draw.number((3, 12, 0.5, "h"))
    level = draw.number((8, 60, 1, "pCi/L"))
    wlm = hours.value * level.value / 100 / MONTH * 12.7296
    key = near(wlm, 0.02, READ, unit="WLM")
    slips = distinct(key, [
        Slip("by-200", wlm / 2, "The gas was divided by 200, as another standard does. The question names the one that divides by 100."),
        Slip("no-170", wlm * MONTH, "The 170 hours of a working month were forgotten: this is in working level hours."),
        Slip("no-100", wlm * 100, "The gas was taken for working levels. At full equilibrium 100 pCi/L are one."),
    ])  # fmt: skip
    return Problem(
        text=[f"An installer works {hours.value:g} hours in a basement that had {level} before the work. "
              "His standard counts the gas at full equilibrium: divide by 100."],
        ask="What goes into his exposure record? Answer in WLM.", answer=key, slips=slips,
        words=["Hours times pCi/L, divided by 100 and by the 170 hours of a working month."],
    )  # fmt: skip


@before(kind="choice", level=1, minutes=2, source="osha-1926-1153-table-1", title="What stops the work: dust")
def dust_stops(draw: Draw) -> Problem:
    """Dry work on concrete indoors."""
    tool = draw.pick(("a hammer drill without a shroud", "a dry core drill", "a dry saw", "a chisel hammer"))
    vacuum = draw.pick(("a household vacuum", "a broom", "a shop vacuum without a fine filter"))
    return Problem(
        text=[f"A helper brings {tool} and {vacuum} for the hole in the slab. The furnace blower runs."], ask="What stops the work here?",
        answer=options(draw, """
            + Dry work without a shroud and a matching vacuum, or water, is not begun. | Concrete dust carries silica, and the blower spreads it through the house.
            - The hole is too small to bother. | Small holes make fine dust too, and it stays in the air.
            - Nothing, if he wears a mask. | The mask is the last layer. The dust is stopped where it is made.
            - Nothing, if the door is open. | An open door does not take fine dust from the air of a basement.
        """),
    )  # fmt: skip


@before(kind="number", level=2, minutes=4, source="ill-32-422", title="A year in other people's basements", calculator="radon-units")
def exposure_year(draw: Draw) -> Problem:
    """Working level months of a year at the equilibrium that was measured."""
    level = draw.number((6, 30, 1, "pCi/L"), (200, 1100, 50, "Bq/m3"))
    hours = Shown(draw.whole(6, 24) * 25, "h")
    share = draw.pick((0.3, 0.35, 0.4, 0.45, 0.5))
    result = solved("radon-units", value=level, hours=hours, equilibrium_factor=share)
    key = near(result["wlm"], 0.02, READ, unit="WLM")
    slips = distinct(key, [
        Slip("full-equilibrium", key.value / share, "The gas was counted at full equilibrium. Here the share was measured: only that part counts."),
        Slip("no-170", key.value * MONTH, "The 170 hours of a working month were forgotten: this is in working level hours."),
        Slip("share-twice", key.value * share, "The equilibrium was put in twice."),
        Slip("twelve-months", key.value / 12, "It was divided by twelve months. The hours of the whole year count together."),
    ])  # fmt: skip
    gas = draw.text("100 pCi/L at full equilibrium are 1 WL", "3700 Bq/m³ at full equilibrium are 1 WL")
    return Problem(
        text=[f"In a year an installer spends {hours.value:g} hours in basements with {level} on average. The decay products were measured: "
              f"an equilibrium of {share:g}. {gas}; 170 hours at 1 WL are 1 WLM."],
        ask="What is the exposure of that year? Answer in WLM.", answer=key, slips=slips, solution=result,
        steps=("Decay products", "Exposure in this time"),
        words=["Illinois allows a worker 4 WLM in 12 months: 32 Ill. Adm. Code 422.70(e). Airing before the work is what lowers it."],
    )  # fmt: skip


@before(kind="number", level=3, minutes=4, source="ill-32-422", title="Hours that are left this year")
def hours_left(draw: Draw) -> Problem:
    """Hours until the yearly limit is used up, by gas divided by 100."""
    used = draw.number((0.4, 3.2, 0.1, "WLM"))
    level = draw.number((15, 60, 1, "pCi/L"))
    rate = level.value / 100 / MONTH
    key = near((4 - used.value) / rate * 3600, 0.02, READ, unit="h")
    slips = distinct(key, [
        Slip("whole-limit", 4 / rate * 3600, "The whole limit was taken. What is already in the record comes off first."),
        Slip("used-part", used.value / rate * 3600, "This is the time that would give what he already has. The question asks what is left."),
        Slip("no-170", (4 - used.value) / rate * 3600 / MONTH, "The 170 hours of a working month were forgotten."),
        Slip("by-200", (4 - used.value) / rate * 7200, "The gas was divided by 200, as another standard does. The record here divides by 100."),
    ])  # fmt: skip
    return Problem(
        text=[f"Illinois allows 4 WLM in 12 months. An installer's record for these 12 months stands at {used}. The next houses have {level}; "
              "his record divides the gas by 100."],
        ask="After how many hours in such houses is the limit used up? Answer in h.", answer=key, slips=slips,
        words=["What is left, times 170 hours, divided by pCi/L over 100. Airing the room first buys more than any watch."],
    )  # fmt: skip


@before(kind="what-is-wrong", level=2, minutes=3, source="derived", title="Two sheets, two figures")
def mixed_formulas(draw: Draw) -> Problem:
    """Exposure written by two formulas that differ by two, or with a slip of its own."""
    hours, level = draw.number((4, 9, 1, "h")), draw.number((14, 40, 2, "pCi/L"))
    more = Shown(hours.value + draw.whole(1, 3), "h")
    monday = hours.value * level.value / 100 / MONTH
    faults = {
        "Two formulas are mixed: one sheet divides the gas by 100, the other by 200.": more.value * level.value / 200 / MONTH,
        "On Tuesday the 170 hours were left out.": more.value * level.value / 100,
        "Tuesday's hours are missing: Monday's were written again.": monday,
    }
    right = draw.pick(tuple(faults))
    because = f"By Monday's way Tuesday would be {short(more.value * level.value / 100 / MONTH, 2)} WLM."
    lines = "\n".join(f"{'+' if text == right else '-'} {text} | {because if text == right else 'Work Tuesday out by that slip: it gives another figure.'}" for text in faults)
    return Problem(
        text=[f"Monday's sheet: {hours.value:g} hours at {level}, {short(monday, 2)} WLM. Tuesday's sheet: {more.value:g} hours at the same level, "
              f"{short(faults[right], 2)} WLM."],
        ask="What is wrong here?", answer=options(draw, f"{lines}\n- Nothing: exposure varies from day to day. | The level and the formula are the same; only the hours differ."),
        words=["SGM-SF 2017, 11.3, divides by 100; RMS-MF 2018, 11.1.2, by 200. Name the one you use and keep to it."],
    )  # fmt: skip


OLD = (
    ("grey floor tiles of 9 by 9 in. (23 cm) lie glued on the slab, just where the hole must go", "the tiles and their glue"),
    ("a white wrap hangs torn from the heating pipes above the pit", "the torn wrap"),
    ("the ceiling over the planned route was sprayed with a rough coat", "the sprayed coat"),
)


@before(kind="choice", level=1, minutes=2, source="osha-1910-1001", title="What stops the work: old material")
def asbestos_stops(draw: Draw) -> Problem:
    """Material that counts as asbestos until a laboratory says otherwise."""
    seen, what = draw.pick(OLD)
    year = draw.whole(1930, 1979)
    return Problem(
        text=[f"The house is of {year}; {seen}. A helper has the drill in his hand."], ask="What stops the work here?",
        answer=options(draw, f"""
            + {what[0].upper()}{what[1:]}: no cut before a laboratory has said what is in it. | In a building of 1980 or earlier such material counts as asbestos until then.
            - Nothing, if it is kept wet. | Wet work is for trained people with a permit to do it. You do not know yet what it is.
            - Nothing, with a dust mask. | A dust mask is made for other dust, and the fibres stay in the house.
            - The owner says that it is new enough. | Saying does not test it. The year of the house counts until a sample does.
        """),
    )  # fmt: skip


@before(kind="choice", level=1, minutes=1, source="niosh-96-118a", title="What stops the work: the engine")
def engine_stops(draw: Draw) -> Problem:
    """A petrol engine indoors."""
    tool = draw.pick(("petrol saw", "pressure washer with a petrol engine", "small generator", "petrol pump"))
    opened = draw.pick(("two doors and a window", "the hatch and all windows", "the garage door"))
    return Problem(
        text=[f"The breaker has tripped. A colleague carries a {tool} into the basement and opens {opened}."], ask="What stops the work here?",
        answer=options(draw, f"""
            + The engine: no petrol engine indoors, whatever is open. | Carbon monoxide rises within minutes. A plumber with a petrol saw was poisoned in just such a basement.
            - Nothing: {opened} are enough. | Open doors and fans did not help the people of that alert.
            - Nothing, for ten minutes. | Minutes are enough, and nobody smells it.
            - Only the noise. | Ears can be covered. The gas cannot be seen.
        """),
    )  # fmt: skip


@before(kind="choice", level=2, minutes=2, source="epa-40-cfr-745", title="A strap on old paint")
def lead_paint(draw: Draw) -> Problem:
    """Outside paint that is disturbed, against the small job of the federal rule."""
    year = draw.whole(1910, 1989)
    area = draw.number((6, 38, 2, "ft2"), (0.6, 3.4, 0.2, "m2"))
    old, small = year < 1978, from_si(area.si, "ft2") <= 20
    words = {
        "new": ("By the year of the house the federal lead rule does not ask for anything here.", "It begins with houses built before 1978."),
        "small": ("The rule covers the paint, but so small an outside job is exempt under conditions; read them.", "Up to 20 ft² (1.9 m²) outside, with no window replaced and nothing torn down."),
        "full": ("The rule holds: a certified renovator, or a test that finds no lead.", "The house is from before 1978, and the patch is larger than 20 ft² (1.9 m²)."),
    }  # fmt: skip
    right = "full" if old and not small else "small" if old else "new"
    lines = "\n".join(f"{'+' if name == right else '-'} {text} | {why if name == right else 'Look at the year and the size again.'}" for name, (text, why) in words.items())
    return Problem(
        text=[f"Straps and a saddle for an outside riser will disturb {area} of paint. The house was built in {year}."],
        ask="What does the federal lead rule say?",
        answer=options(draw, f"{lines}\n- It speaks of schools only. | It speaks of housing built before 1978, and of places where small children are."),
        words=["States may ask for more. Children live where the dust lands: cover the ground in any case."],
    )  # fmt: skip


@before(kind="several", level=2, minutes=2, source="common-practice", title="What the marks do not show")
def lines_left(draw: Draw) -> Problem:
    """Lines that a marking crew of the utilities does not mark."""
    right = draw.shuffled([
        "The owner's gas line from the meter to the garage heater | It is his own. The crew marks what member utilities own.",
        "Heating tubes in the slab | No utility owns them. Ask, warm the floor, scan.",
        "The cable to the shed | Behind the meter everything is the owner's.",
        "The tendons of the slab | They are part of the building. Only a scan or a drawing shows them.",
    ])[: draw.whole(2, 3)]  # fmt: skip
    wrong = draw.shuffled([
        "The utility's gas main in the street | A member utility owns it: this is what the crew marks.",
        "The power company's cable up to the meter | It ends where the utility's part ends, and is marked.",
        "The town's water main | The town marks its own.",
    ])[:2]
    return Problem(
        text=[f"The marking crew was here {draw.pick(('yesterday', 'on Monday', 'last week'))}. The lawn carries paint, and somebody says that the slab is clear."],
        ask="Which of these did the crew not mark?", answer=several(draw, right, wrong),
    )  # fmt: skip


@before(kind="order", level=1, minutes=2, source="common-practice", title="Before the van leaves")
def day_order(draw: Draw) -> Problem:
    """The questions of the first step in their order."""
    steps = but_one(draw, [
        "Ask whether you may do this work in this state",
        "Get the permits that the town wants",
        "Ask for the year of the house and look for old material",
        "Have lines, tubes and tendons located",
        "Set up power with ground-fault protection, light and air",
        "Write hours and radon level into the exposure record",
    ], (1, 2, 4))  # fmt: skip
    return Problem(
        text=[f"A job in the next state, a house of {draw.whole(1950, 1975)} with an unfinished basement."], ask="Put the questions and steps in order.",
        answer=ordered(draw, steps, "Paper first, then what is in the building, then the ground. A no moves the job, not the question. The record is closed last, with the hours as they were."),
    )  # fmt: skip
