"""The practice page and the trainer's page as built: every part with its problems; the scripts wake them up.

What only a script can do stands in ``data-needs-script``: there from the first paint, so that nothing below it jumps, and
taken away by the style sheet where no script runs.
"""

import xml.etree.ElementTree as etree

from calculators.practice import templates
from calculators.show.text import PART_TITLES
from scripts.site_markup import sub, table

STOP = "What stops the work"
KINDS = (("number", "a number"), ("choice", "one of several"), ("several", "all that fit"), ("order", "put in order"),
         ("drawing", "read the drawing"), ("what-is-wrong", "what is wrong here?"), ("house", "practice house"))
LEVELS = (("1", "1 first steps"), ("2", "2 usual"), ("3", "3 hard"))


def practice() -> etree.Element:
    """The learner's page: state, the problem's place, all problems by part, what is kept."""
    root = etree.Element("div", {"data-practice": ""})
    sub(root, "p", "", data_slot="state", role="status")
    etree.SubElement(root, "div", {"data-slot": "paper"})
    own = etree.SubElement(root, "div", {"data-slot": "own", "data-needs-script": ""})
    acts = etree.SubElement(own, "div", {"class": "acts"})
    sub(acts, "button", "Next problem for me", type="button", class_="act act--main", data_act="next")
    sub(own, "h2", "The problem", class_="hidden")
    etree.SubElement(own, "div", {"data-slot": "problem"})
    _ready(own)
    sub(own, "h2", "Slips that came more than once", hidden="hidden")
    etree.SubElement(own, "ul", {"class": "plain", "data-slot": "slips"})
    sub(root, "h2", "All problems, by part of the job", id="all-problems")
    for part, title in PART_TITLES.items():
        mine = [t for t in templates().values() if t.part == part]
        if not mine:
            continue
        box = etree.SubElement(root, "section", {"data-part": part})
        sub(box, "h3", title, id=f"part-{part}")
        sub(box, "p", f"{len(mine)} problems", class_="small", data_slot="part-state")
        listed = etree.SubElement(box, "ul", {"class": "asked"})
        for template in mine:
            stop = {"data_stop": "yes"} if template.title.startswith(STOP) else {}
            sub(listed, "li", template.title, data_template=template.id, **stop)
    acts = etree.SubElement(root, "div", {"class": "acts", "data-needs-script": ""})
    sub(acts, "button", "Forget my progress", type="button", class_="act", data_act="forget")
    return root


def _ready(own: etree.Element) -> None:
    """What is practised before the first job, part by part; the script fills it from what this browser keeps."""
    sub(own, "h2", "Ready for the first job?", id="ready")
    sub(own, "p", "", data_slot="ready-say", role="status")
    sub(own, "p", "Counted is what was right at your last try. A part is practised with four problems right.", class_="small")
    head = ("part of the job", "problems right", "what stops the work", "slips that came back")
    body = table(own, head, "What is practised, part by part")
    for part, title in PART_TITLES.items():
        line = etree.SubElement(body, "tr", {"data-ready": part})
        sub(etree.SubElement(line, "th", {"scope": "row"}), "a", title, href=f"#part-{part}")
        for slot in ("right", "stops", "back"):
            sub(line, "td", "–", data_slot=slot)


def set_paper() -> etree.Element:
    """The trainer's page: what to choose, then link, code, print, exports, class list and hand-in codes."""
    root = etree.Element("div", {"data-set-paper": ""})
    sub(root, "p", "", data_slot="said", role="status")
    box = etree.SubElement(root, "div", {"data-needs-script": ""})
    form = etree.SubElement(box, "form", {"class": "numbers", "novalidate": "novalidate", "autocomplete": "off"})
    _boxes(form, "Parts of the job; none chosen means all", "part",
           [(part, title) for part, title in PART_TITLES.items() if any(t.part == part for t in templates().values())], "checkbox")
    _boxes(form, "Levels; none chosen means all", "level", LEVELS, "checkbox")
    _boxes(form, "Kinds; none chosen means all but practice houses", "kind", KINDS, "checkbox")
    _boxes(form, "Units", "paper-units", (("us", "US"), ("si", "SI")), "radio", "us")
    for id, label, value in (("number", "How many problems", "10"), ("minutes", "Minutes; empty means the sum of the problems", ""),
                             ("seed", "Seed: equal seeds give equal papers", "spring")):
        field = etree.SubElement(form, "div", {"class": "field"})
        sub(field, "label", label, for_=id)
        ask = etree.SubElement(field, "div", {"class": "ask"})
        mode = "text" if id == "seed" else "numeric"
        etree.SubElement(ask, "input", {"id": id, "type": "text", "inputmode": mode, "value": value, "maxlength": "40"})
    acts = etree.SubElement(form, "div", {"class": "acts"})
    sub(acts, "button", "Make the paper", type="submit", class_="act act--main")
    made = etree.SubElement(box, "div", {"data-when": "paper", "hidden": "hidden"})
    sub(made, "h2", "Hand it out", id="hand-it-out")
    sub(made, "p", "The link carries the whole paper behind its #, which no server sees.", class_="small")
    etree.SubElement(made, "p", {"data-slot": "link", "class": "link-line"})
    etree.SubElement(made, "div", {"data-slot": "qr"})
    acts = etree.SubElement(made, "div", {"class": "acts"})
    for act, text in (("copy", "Copy the link"), ("print-paper", "Paper for the printer"), ("print-key", "Paper with key"),
                      ("gift", "GIFT text"), ("qti", "QTI package")):
        sub(acts, "button", text, type="button", class_="act", data_act=act)
    sub(made, "h2", "Preview", id="preview")
    etree.SubElement(made, "div", {"data-slot": "preview"})
    _area(box, "class-list", "Class list, one name a line; it stays in this browser", "learners", "A printed paper for each name")
    acts = box[-1]
    sub(acts, "button", "Key and guide for each name", type="button", class_="act", data_act="learners-key")
    _area(box, "codes", "Hand-in codes, one a line", "collect", "Show the results")
    field = etree.SubElement(box, "div", {"class": "field"})
    sub(field, "label", "The paper's link, if the paper was made earlier", for_="paper-code")
    ask = etree.SubElement(field, "div", {"class": "ask"})
    etree.SubElement(ask, "input", {"id": "paper-code", "type": "text"})
    etree.SubElement(box, "div", {"data-slot": "table"})
    acts = etree.SubElement(box, "div", {"class": "acts"})
    sub(acts, "button", "Results as CSV", type="button", class_="act", data_act="csv")
    return root


def _boxes(form: etree.Element, legend: str, name: str, words, kind: str, on: str = "") -> None:
    group = etree.SubElement(form, "fieldset", {"class": "choice"})
    sub(group, "legend", legend)
    picks = etree.SubElement(group, "div", {"class": "picks"})
    for value, text in words:
        pick = etree.SubElement(picks, "label", {"class": "pick"})
        etree.SubElement(pick, "input", {"type": kind, "name": name, "value": value} | ({"checked": "checked"} if value == on else {}))
        sub(pick, "span", text)


def _area(box: etree.Element, id: str, label: str, act: str, text: str) -> None:
    field = etree.SubElement(box, "div", {"class": "field field--area"})
    sub(field, "label", label, for_=id)
    etree.SubElement(field, "textarea", {"id": id, "rows": "6", "spellcheck": "false"}).text = ""
    acts = etree.SubElement(box, "div", {"class": "acts"})
    sub(acts, "button", text, type="button", class_="act", data_act=act)
