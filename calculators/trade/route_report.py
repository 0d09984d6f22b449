"""Writes down what the decision table said of each route: rows, checks, questions, crossings, cautions."""

from collections.abc import Callable, Sequence
from typing import Any

from ..tables import rule_pack
from ..work import Check, Work
from .route_rules import EFFECTS, Outcome, cited, outcome, rules, source_words
from .routes import INDOORS, Route, free_part

EFFECT_WORDS = {
    "stop": "hard stop", "drawback": "drawback", "for": "speaks for it", "crossing": "crossing", "verify": "to look at",
}  # fmt: skip
FIELDS = {  # facts that are worked out from inputs of another name
    "fan_place": ("fan_location",), "garage_free_part": ("garage_part_without_rooms",), "on_line": ("found_on_line",),
    "joist_takes_pipe": ("joist_depth", "pipe_size"), "side_allowed": ("rules",),
}  # fmt: skip
PLACE_FIELDS = {  # facts of a wall, or of the spot where the pipe leaves the roof
    "opening_near": "nearest_opening",
    "side_opening_near": "nearest_opening", "neighbour_near": "neighbour", "deck_near": "deck", "taller_wall_near": "taller_wall",
    "side_too_low": "outlet_height", "bad_spot": "bad_spot", "low_on_slope": "low_on_slope",
    **{name: name for name in ("shared", "service_drop", "gas_meter", "street_side", "under_eave")},
}  # fmt: skip
FIRE = "Every hole between garage, dwellings or storeys is a path for fire. Close each the way its listed system says before you leave."
STRUCTURE = "No joist, truss or plate is cut to make a route fit. Move the route, or ask the person who may decide."
LADDER = (
    "Looking for a route takes you up ladders and into attics. No roof in wind, wet or frost, nobody alone, and no ladder "
    "within reach of overhead wires: if in doubt, stop and call the utility."
)
GAS = "Keep pipe, fan and switch away from gas meters, regulator vents and flues. The gas supplier says how far."
DUST = "Old ceilings, duct wrap and floor tiles may hold asbestos, old paint lead. No cut before it is known."


def short_list(route: Route, effect: str) -> list[str]:
    """The few words of the rules of one effect that apply."""
    return [rule["short"] for rule in route.having(effect)]


def route_row(
    route: Route, place: int, places: Sequence[int], packs: Sequence[str], storeys: int, lowest: str
) -> dict[str, Any]:
    """A route as a row of the result."""
    stops, drawbacks = route.counts
    ties = places.count(place)
    counted = f"{_number(stops, 'hard stop')}, {_number(drawbacks, 'drawback')}"
    return {
        "rank": place,
        "route": route.name,
        "why": f"{counted[:1].upper()}{counted[1:]}"
        + (f"; equal with {_number(ties - 1, 'other')}." if ties > 1 else "."),
        "fan_place": route.fan,
        "hard_stops": short_list(route, "stop"),
        "drawbacks": short_list(route, "drawback"),
        "speaks_for": short_list(route, "for"),
        "crossings": list(dict.fromkeys(row["crossing"] for row in crossings([route], packs, storeys, lowest))),
        "verify": verify_in_brief(route),
        "checks": [check for o in route.outcomes if (check := as_check(o, route, packs))],
    }


def in_order(routes: Sequence[Route], places: Sequence[int]) -> str:
    """All routes in a line by their short names: equal ones together, closed ones at the end."""
    open_ones: dict[int, list[str]] = {}
    for route, place in zip(routes, places, strict=True):
        if not route.counts[0]:
            open_ones.setdefault(place, []).append(route.short)
    parts = [f"{place}: {' or '.join(names)}" for place, names in open_ones.items()]
    closed = [route.short for route in routes if route.counts[0]]
    return "; ".join(parts + ([f"closed: {', '.join(closed)}"] if closed else []))


def _number(count: int, thing: str) -> str:
    return f"{count or 'no'} {thing}{'s' if count != 1 else ''}"


def as_check(found: Outcome, route: Route, packs: Sequence[str]) -> Check | None:
    """A hard stop or drawback that was looked for, as a check of the route; None for other rules."""
    rule = found.rule
    if rule["effect"] not in ("stop", "drawback"):
        return None
    id, section = cited(rule, packs)
    text = rule["text"] if found.applies else rule.get("clear") or f"Not found: {rule['found']}."
    if found.applies is None:
        text = f"Not known: {rule['found']}."
    ok = None if found.applies is None else not found.applies
    needs = tuple(dict.fromkeys(name for fact in found.unknown for name in fields_of(fact, route)))
    stop = rule["effect"] == "stop" and found.applies is True
    return Check(f"{rule['id']}:{route.key}", ok, text, None, None, None, "1|1", id, section, needs, stop)


def fields_of(fact: str, route: Route) -> tuple[str, ...]:
    """The inputs that would tell a fact of a route."""
    where = (
        "roof_outlet"
        if route.kind not in ("wall", "side")
        else route.key.replace("side", "walls").replace("wall[", "walls[")
    )
    if fact == "bedroom_beside":
        return (f"{where}.bedroom_behind",) if route.kind in ("wall", "side") else ("bedroom_beside_line",)
    if fact in PLACE_FIELDS:
        return (f"{where}.{PLACE_FIELDS[fact]}",) if where not in ("wall", "walls") else ("walls",)
    return FIELDS.get(fact, (fact,))


def route_checks(work: Work, route: Route, packs: Sequence[str]) -> None:
    """The hard stops that were looked for on a route that comes first: each is clear, or not known."""
    for found in route.outcomes:
        check = as_check(found, route, packs)
        if check and found.rule["effect"] == "stop":
            work.checks.append(check._replace(text=f"{route.short[:1].upper()}{route.short[1:]}: {_lower(check.text)}"))


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def fan_check(work: Work, site: dict[str, Any]) -> None:
    """The wanted place of the fan, once for the whole house: it may be wrong whatever the route is."""
    wanted = site["fan_location"]
    if wanted is None:
        return
    facts = {
        "fan_place": wanted,
        "garage_free_part": free_part(site),
        "indoor_fan_accepted": site["indoor_fan_accepted"],
        "attic": None if site["attic"] == "unknown" else site["attic"],
        "rules": site["rules"],
    }
    judged = [outcome(rule, facts) for rule in rules() if rule.get("fan")]
    worst = next((o for o in judged if o.applies), None) or next((o for o in judged if o.applies is None), judged[0])
    id, section = cited(worst.rule, site["rules"])
    if worst.applies:
        work.stop("fan-place", worst.rule["text"], found=wanted, required="elsewhere", source=id, section=section)
        return
    needs = [name for fact in worst.unknown for name in FIELDS.get(fact, (fact,))]
    text = (
        f"The fan may not be where this is so: {worst.rule['found']}."
        if needs
        else "No rule of the table speaks against this place of the fan."
    )
    work.judge("fan-place", text, ok=None if needs else True, found=wanted, source=id, section=section, needs=needs)


CLOSE, AGAINST = "Could close it: ", "Could count against it: "


def to_verify(routes: Sequence[Route]) -> list[str]:
    """What to look at, first what could close a route, then what could count against it, then the rest."""
    said: dict[str, list[str]] = {}
    asked: dict[str, str] = {}
    parts: tuple[tuple[str, Callable[[Route], list[str]]], ...] = (
        (CLOSE, lambda route: [o.rule["asks"] for o in route.open("stop")]),
        (AGAINST, lambda route: [o.rule["asks"] for o in route.open("drawback")]),
        ("", lambda route: [rule["text"] for rule in route.having("verify")]),
        ("", lambda route: [o.rule["asks"] for e in ("verify", "crossing") for o in route.open(e)]),
    )
    for lead, of in parts:
        for route in routes:
            for text in of(route):  # a question is put once, where it weighs most
                names = said.setdefault(asked.setdefault(text, lead) + text, [])
                names += [route.short] if route.short not in names else []
    return [text if len(names) == len(routes) else f"{text} ({', '.join(names)})" for text, names in said.items()]


def verify_in_brief(route: Route) -> list[str]:
    """The same for one route: its questions in two lines, the rest in a few words each."""
    close = list(dict.fromkeys(o.rule["asks"] for o in route.open("stop")))
    against = [asks for asks in dict.fromkeys(o.rule["asks"] for o in route.open("drawback")) if asks not in close]
    lines = [lead + " ".join(asks) for lead, asks in ((CLOSE, close), (AGAINST, against)) if asks]
    return lines + short_list(route, "verify")


def crossings(routes: Sequence[Route], packs: Sequence[str], storeys: int, lowest: str) -> list[dict[str, Any]]:
    """What each wall, floor and roof on the routes needs, from below upwards as the table has it."""
    return [
        {
            "route": route.short,
            "crossing": _floors(storeys, lowest) if rule["where"].startswith("floors") else rule["where"],
            "needs": rule["text"],
            "source": source_words(*cited(rule, packs)),
        }
        for route in routes
        for rule in route.having("crossing")
    ]


def _floors(storeys: int, lowest: str) -> str:
    """The floors above the pit that a pipe inside goes through, and the top ceiling."""
    if lowest == "unknown":
        return "every floor above the pit, and the top ceiling"
    floors = storeys if lowest == "basement" else storeys - 1
    return f"{floors} floor{'s' if floors != 1 else ''} and the top ceiling" if floors else "the top ceiling"


def rules_used(routes: Sequence[Route], packs: Sequence[str]) -> list[dict[str, Any]]:
    """Each rule that spoke, with the routes that it spoke of: stops, drawbacks, what speaks for a route, what to look at."""
    rows = []
    for effect in EFFECTS:
        for rule in rules():
            about = [route.short for route in routes if any(o.rule is rule and o.applies for o in route.outcomes)]
            if rule["effect"] == effect and about and effect != "crossing":
                words = {
                    "rule": rule["id"],
                    "effect": EFFECT_WORDS[effect],
                    "routes": ", ".join(about),
                    "text": rule["text"],
                }
                rows.append({**words, "source": source_words(*cited(rule, packs))})
    return rows


def cautions(work: Work, site: dict[str, Any], first: Sequence[Route]) -> None:
    """What can hurt somebody while a route is looked for and cut."""
    work.caution("danger", LADDER)
    kinds = {route.kind for route in first}
    if kinds & {"chase", "closets", "garage"} or not kinds:
        work.caution("danger", FIRE)
        work.caution("danger", STRUCTURE, "crc-2013")
    work.caution("warning", DUST, "osha-1910-1001")
    if kinds & {"wall", "side"} or any(wall["gas_meter"] for wall in site["walls"]):
        work.caution("warning", GAS)
    if site["ducts_under_slab"]:
        work.caution(
            "warning",
            "Ducts lie in or under the slab. No hole before they are found: through one the fan draws house air.",
        )
    if site["indoor_fan_accepted"] and site["fan_location"] in INDOORS:
        work.caution(
            "danger",
            "A fan indoors has pipe under pressure above it. A leak there blows soil gas into the house.",
            "ccah-2020",
        )
    work.caution(
        "note",
        "A pipe past a garage or another dwelling is a fire question first. Ask the official before you promise a route.",
    )
    for id in site["rules"]:
        pack = rule_pack(id)
        work.caution(
            "note", f"{pack['title']}, {pack['edition']}. Check what is in force where you work.", pack["source"]
        )


def left_out(work: Work, site: dict[str, Any]) -> None:
    """What the order does not know of."""
    work.not_looked_at(
        "Nothing is weighed: a drawback that decides for you counts as one, like any other. Read them, do not only count them.",
        "What is not known counts neither way. A route that nobody looked at can stand too high.",
        "Distances of the outlet in full: may the vent end here?",
        "Length, fittings and loss of the pipe; water and ice in it; what it costs.",
        "What lies behind boards, and whether the floor below can be reached by suction from there.",
    )
    if not site["walls"]:
        work.not_looked_at("No outside wall was described; one unknown wall stands for all.")
    if not site["rules"]:
        work.not_looked_at(
            "No rule pack was chosen: distances are those of the consumer guide, and no text allows an outlet at the side."
        )
