"""Writes down what was found on a discharge: checks, hard stops, distances, cautions, what was left out."""

from typing import Any

from ..physics import clearance
from ..tables import rule_pack
from ..work import Check, Work
from .clearance_rules import FAN_ROWS, Outcome, unjudged_rows
from .clearance_targets import ABOUT, LISTS, called, reach

FEET = "ft|m"
SHOWN = 3  # targets whose distances are worked out in the steps
INDOORS = ("basement", "crawl-space", "window-well", "conditioned")
LEAK = "A leak on the pressure side of a fan blows soil gas into the house."
CARRIERS = {
    "flue": "The pipe is joined to a flue. Part them: burnt gas with carbon monoxide, or soil gas, can be driven into "
    "the house.",
    "plumbing-vent": "The pipe is joined to a plumbing vent. Part them: the fan can empty traps and drive soil gas and "
    "sewer gas into the house.",
    "duct": "The pipe is joined to an air duct. Part them: soil gas would be carried through the house.",
}
GIVEN = {
    "openings": "openings of this house",
    "adjacent_buildings": "openings of adjacent buildings",
    "people_areas": "decks, patios and walkways",
}


def stops(work: Work, discharge: dict[str, Any]) -> bool:
    """Whether the pipe is joined to something that carries gas or air; that always stops the work."""
    joined = discharge["joined_to"]
    if joined in CARRIERS:
        work.stop("joined-to", CARRIERS[joined], found=joined, required="nothing", source="common-practice")
        return True
    work.judge(
        "joined-to",
        "The pipe is joined to no flue, plumbing vent or duct.",
        ok=True,
        found=joined,
        required="nothing",
        source="common-practice",
    )
    return False


def adopt(work: Work, outcome: Outcome, discharge: dict[str, Any]) -> Check:
    """Add an outcome to the checks; a hard stop with its danger caution.  Returns the check."""
    row = outcome.row
    if outcome.stop:
        text = f"{outcome.text} {LEAK} Do not switch it on there."
        found, required, source = outcome.found, outcome.required, row["source"]
        work.stop(outcome.id, text, found=found, required=required, source=source, section=row["section"])
    else:
        work.judge(
            outcome.id,
            outcome.text,
            ok=outcome.ok,
            required=outcome.required,
            found=outcome.found,
            margin=outcome.margin,
            unit=FEET,
            source=row["source"],
            section=row["section"],
            needs=outcome.needs,
        )
    return work.checks[-1]


def finding(pack_id: str, outcomes: list[Outcome], passes: bool | None) -> str:
    """The verdict in one sentence; it never says that a code is met."""
    failed = [o.id for o in outcomes if o.ok is False]
    judged = len([o for o in outcomes if o.ok is not None])
    open_rows = len(outcomes) - judged
    rest = f"; {open_rows} not judged" if open_rows else ""
    if failed:
        which = f"{len(failed)} of the {judged} comparisons with pack {pack_id} that could be judged"
        return f"Does not meet {which}: {', '.join(failed)}{rest}."
    if passes is None:
        lacking = [o.id for o in outcomes if o.ok is None and o.row["quantity"] not in FAN_ROWS]
        why = f"without a number for {', '.join(lacking)}" if lacking else "no row that was seen speaks of this outlet"
        return f"Pack {pack_id} cannot be judged as a whole: {why}."
    return f"Meets the rows of pack {pack_id} that could be judged ({judged} compared{rest})."


def show_distances(work: Work, site: dict[str, Any], judged: dict[str, list[Outcome]]) -> None:
    """Work out the distance to the targets that decide, a few of them at most."""
    least: dict[str, float] = {}
    for outcomes in judged.values():
        for o in outcomes:
            if "[" in o.about and o.margin is not None:
                least[o.about] = min(o.margin, least.get(o.about, o.margin))
    paths = {f"{name}[{i}]": target for name in LISTS.values() for i, target in enumerate(site[name])}
    for path in sorted(least, key=lambda p: least[p])[:SHOWN]:
        target = paths[path]
        h, v, who = target["horizontal"], target["vertical"], called(target, path)
        if h is None or v is None:
            continue
        us, si = dict.fromkeys("gvH", "ft"), dict.fromkeys("gvH", "m")
        H = reach(target, v)
        gap = work.step(f"Height between outlet and {who}", clearance.vertical_gap, us=us, si=si, v=v, H=H)
        us, si = dict.fromkeys("dhg", "ft"), dict.fromkeys("dhg", "m")
        straight = work.step(f"Straight distance to {who}", clearance.slant_distance, us=us, si=si, h=h, g=gap)
        if target["path"] is not None and target["path"] < straight - 1e-3:
            work.caution(
                "warning",
                f"The string to {who} is shorter than the straight distance of its other measures. Measure again.",
                "geometry",
            )


def snow(work: Work, discharge: dict[str, Any], depth: float | None) -> None:
    """Compare the outlet with the snow; common practice, a row of no pack."""
    if depth is None:
        work.not_looked_at("Snow: no depth was given.")
        return
    side = discharge["roof"] == "side"
    height = discharge["height_above_grade"] if side else discharge["height_above_roof"]
    where = "ground" if side else "roof"
    name = "height_above_grade" if side else "height_above_roof"
    work.judge(
        "snow",
        f"The outlet ends above the deepest snow on the {where}. Habit of the trade; a row of no pack.",
        ok=None if height is None else height > depth,
        required=depth,
        found=height,
        unit=FEET,
        source="common-practice",
        needs=() if height is not None else (f"discharge.{name}",),
    )
    if height is not None and height <= depth:
        work.caution("warning", "Snow can bury this outlet. The exhaust then has no way out and the suction is lost.")


def cautions(work: Work, rules: list[str], site: dict[str, Any]) -> None:
    """What can hurt at the outlet, and how each pack is to be read."""
    discharge = site["discharge"]
    work.caution(
        "danger",
        "The exhaust can hold hundreds of times the radon of a room. Keep your face out of it; do not let it end where "
        "people sit.",
    )
    work.caution(
        "danger",
        "Before a ladder goes up, look for overhead wires. If ladder, pipe and tools cannot stay well away from them, "
        "stop and call the utility.",
    )
    work.caution("warning", "Ice falls from outlets and pipes. Keep them clear of doors, walks and play places.")
    fan_stopped = any(check.stop for check in work.checks)
    no_row = "No row on this was seen in the chosen pack; move it all the same."
    if not fan_stopped and (discharge["fan_location"] in INDOORS or discharge["conditioned_space_above_fan"]):
        work.caution("danger", f"The fan stands in or below the house. {LEAK} {no_row}")
    if discharge["pressure_pipe_inside"] and not fan_stopped:
        work.caution("danger", f"Pipe on the pressure side runs inside the house. {LEAK} {no_row}")
    for id in rules:
        pack = rule_pack(id)
        note = f"{pack['title']}, {pack['edition']}. {pack['in_force_note']} Check what is in force where you work."
        work.caution("note", note, pack["source"])
        for note in pack["reading_notes"]:
            work.caution("note", f"{id}: {note}", pack["source"])


def left_out(work: Work, rules: list[str], site: dict[str, Any]) -> list[str]:
    """Say which geometry was taken as not there, and which parts of the packs were not seen; returns the latter."""
    absent = [words for name, words in GIVEN.items() if not site[name]]
    if absent:
        work.not_looked_at(f"Taken as not there, because none were given: {'; '.join(absent)}.")
    discharge = site["discharge"]
    if discharge["horizontal_to_wall_above"] is None and not discharge["wall_higher_than_pipe"]:
        work.not_looked_at("Taken as not there: a wall taller than the pipe.")
    way = "up the side of the house" if discharge["roof"] == "side" else "through the roof"
    work.not_looked_at(f"The pipe is taken to go {way}.")
    unseen = []
    for id in rules:
        rows = rule_pack(id)["rows"]
        skipped = [kind for row in rows for kind in row["condition"].get("opening_kind_not", ())]
        for i, target in enumerate(site["openings"]):
            if target["kind"] in skipped:
                who = called(target, f"openings[{i}]")
                work.not_looked_at(f"{who}: {id} does not count a {target['kind']} as an opening.")
        about = [row.get("applies_to", ABOUT[row["quantity"]]) for row in rows if row["quantity"] in ABOUT]
        asked = {LISTS[kind] for kinds in about for kind in kinds}
        for name, words in GIVEN.items():
            if site[name] and name not in asked:
                work.not_looked_at(f"{words[0].upper()}{words[1:]} were given, but no row on them was seen in {id}.")
        unseen += [f"{id}: not seen: {part}" for part in rule_pack(id)["not_seen"]]
        work.not_looked_at(*(f"{id} {row}" for row in unjudged_rows(id)))
    work.not_looked_at(*unseen)
    work.not_looked_at(
        "Property lines, flues of burners, and whatever was not entered.", "Where wind carries the exhaust."
    )
    return unseen
