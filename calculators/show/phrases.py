"""Words of the pages: how choices are spelled out, how an answer is said in one sentence, which inputs go together."""

import re
from typing import Any

from ..tables import RULE_PACKS, rule_pack

CHOICES = {
    "elbow-90": "90 degree elbow, sharp",
    "elbow-90-sweep": "90 degree elbow, long sweep",
    "elbow-45": "45 degree elbow, sharp",
    "elbow-45-sweep": "45 degree elbow, long sweep",
    "tee-run": "tee, straight through",
    "tee-branch": "tee, through the branch",
    "hazen-williams": "Hazen-Williams",
    "darcy-weisbach": "Darcy-Weisbach",
    "unknown": "not known",
    "up-45": "45 degrees up",
    "beside": "beside the footing",
    "on-footing": "on the footing",
    "none-found": "located, nothing found",
    "not-located": "not located",
    "cable": "electric cable",
    "gas": "gas line",
    "water": "water",
    "heating": "heating tubes",
    "tendon": "tendons",
    "icrp-137": "ICRP 137",
    "unscear": "UNSCEAR",
    "never": "never smoked",
    "initial": "first test",
    "follow-up": "second test",
    "post-mitigation": "test after the work",
    "right-place": "in the right place",
    "wrong-place": "in a wrong place",
    "retest-now": "test again now",
    "retest-later": "test again later",
    "long-term-test": "long-term test",
    "below-level": "below the action level",
    "invalid": "the test does not count",
    "side": "up the side of the house",
    "through-roof": "through the roof",
    "joined_to": "joined to",
}

# What the main result says, as the start of a sentence; {main} is the number with its unit.
MAIN = {
    "tile-offset": "The first core goes {main} from the finished wall",
    "sump-sealing": "With this lid the pit keeps {main} of its suction",
    "pump-sizing": "The pump delivers {main}",
    "pipe-loss": "The pipe loses {main}",
    "discharge-clearances": "The nearest distance has {main} to spare",
    "hole-flow": "{main} goes through the opening",
    "fan-point": "Fan, pipe and soil settle at {main} of suction in the pit",
    "needed-suction": "On the day of the test at least {main} of suction has to be read",
    "suction-reach": "The weakest place of the slab has {main} of suction",
    "tile-loop": "The far end of the tile keeps {main} of suction",
    "cold-stack": "In this weather {main} of water or frost stays on the wall",
    "pipe-takeoff": "The level runs must fall {main}",
    "running-cost": "A year costs {main}",
    "spillage-check": "All fans together add {main} of depressurization",
    "vent-route": "First in order: {main}",
    "radon-test": "The test reads {main}",
    "settling-time": "{main} after switch-on a test reads at most 5 % high",
    "radon-units": "This is {main}",
    "purge-time": "Airing takes {main}",
    "entry-balance": "{main} of radon come in all the time",
}
# The few words beside the large number.
BESIDE = {
    "tile-offset": "from the finished wall to the centre of the first core",
    "sump-sealing": "of the suction is kept",
    "pump-sizing": "delivered",
    "pipe-loss": "lost altogether",
    "discharge-clearances": "to spare at the nearest",
    "hole-flow": "through the opening",
    "fan-point": "of suction in the pit",
    "needed-suction": "or more, to be read on the day of the test",
    "suction-reach": "of suction at the weakest place, by the fan alone",
    "tile-loop": "of suction at the far end of the tile",
    "cold-stack": "of water or frost on the wall",
    "pipe-takeoff": "of fall on the level runs",
    "running-cost": "for a year, fan and house air",
    "spillage-check": "added by all fans together; the test decides",
    "radon-test": "mean of the test",
    "settling-time": "after switch-on, then a test reads at most 5 % high",
    "radon-units": "of radon",
    "purge-time": "of airing",
    "entry-balance": "of radon come in",
}
# The same for a number below zero, which is printed without its sign.
SHORT = {"discharge-clearances": "too little at the nearest"}
# What a comparison that is not met means for the work; by check id.
# {found}, {wanted} and {miss} are numbers with their units, {who} is what the check is about.
NOT_MET = {
    "speed-noise": "the air is heard: {found} where {wanted} is the most",
    "speed-condensate": "water on its wall no longer runs back against {found} of air",
    "footing-projects": "the footing projects {found}, less than one should: measure again",
    "delivers": "{wanted} is wanted",
    "inflow-below-delivery": "water comes in faster than that",
    "velocity": "it moves too slowly to carry grit",
    "float-below-tile": "it starts {miss} too late: the water would close the drain tile first",
    "resting-water": "resting water, raised by the suction, reaches the level at which it starts",
    "hole-place": "the relief hole is in the wrong place",
    "valve-opens": "it may not open its check valve",
    "check-valve": "there is no check valve",
    "wall-above-freezing": "the wall there is below freezing",
    "room-to-fall": "there is only {found} of room",
    "straight-run": "a straight run of {found} is longer than {wanted}",
    "limit": "an appliance's limit is {wanted}: test it",
    "far-end": "the far end of the range reaches {found}, and an appliance's limit is {wanted}: test it",
    "spillage-test": "the test that decides is not done: test it",
    "start-delay": "this one begins {found} after the fan, and {wanted} is the least",
    "test-length": "this one lasts {found}, and {wanted} is the least",
    "reads-high": "this one begins sooner and reads {found} times the final level",
    "closed-before": "the house was closed for {found} before, and {wanted} is the least",
    "data-hours": "it holds {found} of data, and {wanted} is the least",
    "fan-ran": "the fan did not run all through it",
    "placed": "the device stood in the wrong place",
    "below-level": "the action level is {wanted}",
    "weakest-suction": "{wanted} is wanted everywhere",
    "slab-covered": "only {found} of the slab has what is wanted",
    "parts-joined": "{found} of the slab is joined to no pit",
    "enough-holes": "too few test holes were usable",
    "trap": "a trap is too shallow for what the fan can do",
}
# What is said when nothing that was compared is missed; by calculator.
MET = {
    "discharge-clearances": "the rows that could be judged are met",
    "vent-route": "no hard stop among those that could be judged",
    "spillage-check": "both tests held, to be repeated after any change, and what could be compared is met",
}
# Results that are shares and are shown as percent.
SHARES = ("suction_kept",)
# Inputs that belong to one way of giving a thing.
TOGETHER: dict[str, dict[str, tuple[str, ...]]] = {
    "running-cost": {"flow": ("house_air_share",)},
    "hole-flow": {"width": ("length", "depth")},
    "pump-sizing": {"rise_height": ("rise_time",), "rise_time": ("rise_height",), "soil_texture": ("floor_area",)},
}
# Members of objects that few jobs need.
SELDOM = ("loss_coefficient", "known", "device", "path", "in_jet_path", "rating_density")
# Groups of which one member is given, as a question.
GROUPS = {
    "bore": "The pipe is given by",
    "size": "The opening is given by",
    "drive": "It is driven by",
    "footing": "The footing is given by",
    "entry": "Known is",
    "soil": "The soil is given by",
    "inflow": "The inflow is given by",
    "fan": "The fan is given as",
    "layer": "The layer is given by",
    "leakage": "What leaks is given by",
    "pit_size": "The pit is given by",
    "house_air": "The house air is given by",
    "outside": "The air outside the pipe is given by",
}
PROBLEMS = {
    "missing": "Not given.",
    "conflict": "Does not go together.",
    "outside-model": "Not worked out.",
    "bounds": "Outside what is read.",
    "unknown-field": "Not known.",
}
SAID = {
    "missing": "is not given",
    "conflict": "does not go together with the rest",
    "outside-model": "lies outside what is worked out here",
    "bounds": "is outside what is read",
    "unknown-field": "is not known here",
}


def choice(word: str) -> str:
    """A word that can be chosen, spelled out."""
    if word in RULE_PACKS:
        pack = rule_pack(word)
        return f"{pack['title']}"
    if word in CHOICES:
        return CHOICES[word]
    return word if word[:1].isdigit() else word.replace("-", " ")


def lower_first(text: str) -> str:
    """The text as the rest of a sentence: its first letter small unless it is an abbreviation or a symbol."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[1:2] == " " else text


def closed(text: str) -> str:
    """The text with a full stop."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def first_sentence(text: str) -> str:
    """The first sentence, and the second one if it is an order not to do something."""
    parts = re.split(r"(?<=[.!?]) (?=[A-Z])", text)
    keep = 2 if len(parts) > 1 and parts[1].startswith(("Do not", "No ", "Stop")) else 1
    return closed(" ".join(parts[:keep]))


def problem_words(kind: str) -> str:
    """The words that lead an explanation at a field."""
    return PROBLEMS.get(kind, "Not read.")


def problem_said(kind: str) -> str:
    """The same in a sentence that begins with the name of the field."""
    return SAID.get(kind, "was not read")


def names_in_words(text: str, labels: dict[str, Any]) -> str:
    """A text in which input names such as pipe_size stand as their labels."""
    for name in sorted(labels, key=len, reverse=True):
        if "_" in name and name in text:
            text = text.replace(name, f"“{labels[name]}”")
    return text
