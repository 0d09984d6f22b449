"""The decision table of vent-route as one list for a page: every rule with its routes, its words and its source."""

import xml.etree.ElementTree as etree

from markdown.util import AtomicString

from calculators.trade import route_rules, routes
from scripts import site_markup
from scripts.site_markup import sub
from scripts.site_sources import figure, put_source

EFFECTS = {
    "stop": ("Hard stops", "A route with one of these comes last, and stays in the list with the reason."),
    "drawback": ("Drawbacks", "Each counts as one. Fewer come first; equal counts are a tie."),
    "for": ("What speaks for a route", "Named, but not counted."),
    "crossing": ("What a crossing needs", "Named for every wall, floor and roof on the route."),
    "verify": ("To look at", "Put on the list for the visit."),
}


def table() -> etree.Element:
    """All rules, grouped by what they do."""
    box = etree.Element("div", {"class": "rule-packs"})
    for effect, (title, words) in EFFECTS.items():
        sub(box, "h3", title, id=f"route-{effect}")
        sub(box, "p", words, class_="small")
        body = site_markup.table(box, ("when this is so", "what it says"), f"Rules: {title}")
        for rule in route_rules.rules():
            if rule["effect"] == effect:
                row(body, rule)
    return box


def row(body: etree.Element, rule: dict) -> None:
    """One rule as a line of two cells, so that a phone has room for its words; its id is the anchor."""
    line = etree.SubElement(body, "tr", {"id": f"route-{rule['id']}"})
    about = "all" if len(rule["routes"]) == len(routes.SHORT) else ", ".join(routes.SHORT[kind] for kind in rule["routes"])
    cell = sub(line, "td", rule["found"])
    sub(cell, "p", f"Routes: {about}", class_="small")
    cell = sub(line, "td", " ".join([rule["text"], *distances(rule)]))
    cited = [("", f"{rule['source']} {rule.get('section', '')}")]
    cited += [(f"{pack}: ", f"{id} {section}") for pack, (id, section) in rule.get("by_pack", {}).items()]
    for lead, reference in cited:
        part = etree.SubElement(cell, "p", {"class": "src"})
        if lead:
            part.text = AtomicString(lead)
            part = etree.SubElement(part, "span")
        put_source(part, reference.strip())


def distances(rule: dict) -> list[str]:
    """The figures that a rule compares with, pack by pack; its own figure where a chosen pack has none."""
    said = []
    for pack, id in rule.get("limits", {}).items():
        above = rule.get("above", {}).get(pack)
        if pack == "else":
            said.append(f"no pack: {id}" + (f", or {above} above" if above else ""))
            continue
        over = f", or {figure(route_rules.pack_row(pack, above))} above ({above})" if above else ""
        said.append(f"{pack}: {figure(route_rules.pack_row(pack, id))} ({id}){over}")
    return [f"Compared with {'; '.join(said)}."] if said else []
