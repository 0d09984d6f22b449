"""A paper as a QTI 2.2 package: one item a problem, a test, a manifest; tolerances and slip feedback included."""

import io
import zipfile
from typing import Any

from ..units import from_si
from .paper import Paper
from .problem import House, Number, Options, Order, Problem

QTI = "http://www.imsglobal.org/xsd/imsqti_v2p2"
CP = "http://www.imsglobal.org/xsd/imscp_v1p1"
XSI = "http://www.w3.org/2001/XMLSchema-instance"
PLACES = {
    QTI: f"{QTI} http://www.imsglobal.org/xsd/qti/qtiv2p2/imsqti_v2p2p4.xsd",
    CP: f"{CP} http://www.imsglobal.org/xsd/imscp_v1p1.xsd",
}
MATCH = "http://www.imsglobal.org/question/qti_v2p2/rptemplates/match_correct"
DAY = (1980, 1, 1, 0, 0, 0)  # packages of the same paper are byte for byte the same


def package(paper: Paper, learner: str = "") -> bytes:
    """The zip of the whole paper."""
    items = {f"item-{i:02d}": item(problem, f"item-{i:02d}") for i, problem in enumerate(paper.problems(learner), 1)}
    files = {f"{name}.xml": element for name, element in items.items()}
    files["test.xml"] = test(paper, list(items))
    files["imsmanifest.xml"] = manifest(list(items))
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as bundle:
        for name, element in files.items():
            bundle.writestr(zipfile.ZipInfo(name, DAY), written(element), zipfile.ZIP_DEFLATED)
    return out.getvalue()


class Element:
    """An XML element to be written; the standard library's own would cost every visitor 20 kB to fetch."""

    def __init__(self, tag: str, attributes: dict[str, str], text: str = "") -> None:
        self.tag, self.attributes, self.text = tag, attributes, text
        self.children: list[Element] = []

    def markup(self, escape: Any) -> str:
        """The element as text; ``escape`` guards what stands in it."""
        head = "".join(f' {name}="{escape(value)}"' for name, value in self.attributes.items())
        inside = escape(self.text) + "".join(child.markup(escape) for child in self.children)
        return f"<{self.tag}{head}>{inside}</{self.tag}>" if inside else f"<{self.tag}{head}/>"


def written(element: Element) -> bytes:
    """An element as an XML file."""
    from ..show.markup import escape

    return f'<?xml version="1.0" encoding="UTF-8"?>\n{element.markup(escape)}'.encode()


def root(tag: str, space: str, **attributes: str) -> Element:
    """A root element in its default namespace with its schema location."""
    return Element(tag, {"xmlns": space, "xmlns:xsi": XSI, "xsi:schemaLocation": PLACES[space], **attributes})


def sub(parent: Element, tag: str, text: str = "", **attributes: str) -> Element:
    """A child element."""
    child = Element(tag, attributes, text)
    parent.children.append(child)
    return child


def item(problem: Problem, name: str) -> Element:
    """One problem as an assessment item."""
    made = root(
        "assessmentItem", QTI, identifier=name, title=problem.template.title, adaptive="false", timeDependent="false"
    )
    answer = problem.answer
    if isinstance(answer, Number):
        _number(made, problem, answer)
    elif isinstance(answer, Options):
        _options(made, problem, answer)
    elif isinstance(answer, House):
        _house(made, problem, answer)
    else:
        _order(made, problem, answer)
    return made


def _declare(made: Element, cardinality: str, base: str, values: list[str]) -> None:
    response = sub(made, "responseDeclaration", identifier="RESPONSE", cardinality=cardinality, baseType=base)
    correct = sub(response, "correctResponse")
    for value in values:
        sub(correct, "value", value)


def _score(made: Element) -> None:
    sub(
        sub(
            sub(made, "outcomeDeclaration", identifier="SCORE", cardinality="single", baseType="float"), "defaultValue"
        ),
        "value",
        "0",
    )


def _body(made: Element, problem: Problem) -> Element:
    body = sub(made, "itemBody")
    for text in problem.text:
        sub(body, "p", text)
    if problem.drawing:
        from ..show.paper import drawing_in_words

        sub(body, "p", drawing_in_words(problem))
    return body


def _number(made: Element, problem: Problem, key: Number) -> None:
    def shown(value: float) -> str:
        return f"{from_si(value, key.unit):.6g}"

    _declare(made, "single", "float", [shown(key.value)])
    _score(made)
    sub(made, "outcomeDeclaration", identifier="FEEDBACK", cardinality="single", baseType="identifier")
    body = _body(made, problem)
    asked = sub(body, "p", problem.ask + " ")
    sub(asked, "textEntryInteraction", responseIdentifier="RESPONSE", expectedLength="12")
    condition = sub(sub(made, "responseProcessing"), "responseCondition")
    width = f"{key.tolerance * abs(from_si(1.0, key.unit, difference=True)):.6g}"
    branch = sub(condition, "responseIf")
    compared = sub(branch, "equal", toleranceMode="absolute", tolerance=f"{width} {width}")
    sub(compared, "variable", identifier="RESPONSE")
    sub(compared, "correct", identifier="RESPONSE")
    sub(sub(branch, "setOutcomeValue", identifier="SCORE"), "baseValue", "1", baseType="float")
    for slip in problem.slips:
        branch = sub(condition, "responseElseIf")
        compared = sub(branch, "equal", toleranceMode="absolute", tolerance=f"{width} {width}")
        sub(compared, "variable", identifier="RESPONSE")
        sub(compared, "baseValue", shown(slip.value), baseType="float")
        sub(sub(branch, "setOutcomeValue", identifier="FEEDBACK"), "baseValue", slip.name, baseType="identifier")
    for slip in problem.slips:
        said = sub(made, "modalFeedback", outcomeIdentifier="FEEDBACK", identifier=slip.name, showHide="show")
        sub(said, "p", slip.because)


def _options(made: Element, problem: Problem, answer: Options) -> None:
    """A choice; of several, each right one counts its share and each wrong one takes it off, as in our own marking."""
    right = [f"o{i}" for i, option in enumerate(answer.options) if option.right]
    many = "multiple" if answer.several else "single"
    _declare(made, many, "identifier", right)
    mapping = sub(made.children[0], "mapping", lowerBound="0", defaultValue="0")
    for i, option in enumerate(answer.options):
        share = 1 / len(right) if option.right else -1 / len(right) if answer.several else 0
        sub(mapping, "mapEntry", mapKey=f"o{i}", mappedValue=f"{share:.6g}")
    _score(made)
    sub(made, "outcomeDeclaration", identifier="FEEDBACK", cardinality=many, baseType="identifier")
    most = "0" if answer.several else "1"
    asked = sub(
        _body(made, problem), "choiceInteraction", responseIdentifier="RESPONSE", shuffle="false", maxChoices=most
    )
    sub(asked, "prompt", problem.ask)
    for i, option in enumerate(answer.options):
        sub(asked, "simpleChoice", option.text, identifier=f"o{i}")
    done = sub(made, "responseProcessing")
    sub(sub(done, "setOutcomeValue", identifier="SCORE"), "mapResponse", identifier="RESPONSE")
    sub(sub(done, "setOutcomeValue", identifier="FEEDBACK"), "variable", identifier="RESPONSE")
    for i, option in enumerate(answer.options):
        said = sub(made, "modalFeedback", outcomeIdentifier="FEEDBACK", identifier=f"o{i}", showHide="show")
        sub(said, "p", option.because)


def _order(made: Element, problem: Problem, answer: Order) -> None:
    _declare(made, "ordered", "identifier", [f"s{place}" for place in answer.right])
    _score(made)
    asked = sub(_body(made, problem), "orderInteraction", responseIdentifier="RESPONSE", shuffle="false")
    sub(asked, "prompt", problem.ask)
    for i, step in enumerate(answer.shown):
        sub(asked, "simpleChoice", step, identifier=f"s{i}")
    sub(made, "responseProcessing", template=MATCH)


def _house(made: Element, problem: Problem, house: House) -> None:
    """One item with a choice for each decision; the score is the mean of what the chosen ways count."""
    count = len(house.decisions)
    for i, decision in enumerate(house.decisions):
        response = sub(made, "responseDeclaration", identifier=f"RESPONSE{i}", cardinality="single", baseType="identifier")
        sub(sub(response, "correctResponse"), "value", f"w{decision.best()[0]}")
        mapping = sub(response, "mapping", defaultValue="0")
        for place, way in enumerate(decision.ways):
            sub(mapping, "mapEntry", mapKey=f"w{place}", mappedValue=f"{way.credit / count:.6g}")
    _score(made)
    for i in range(count):
        sub(made, "outcomeDeclaration", identifier=f"FEEDBACK{i}", cardinality="single", baseType="identifier")
    body = _body(made, problem)
    sub(body, "p", problem.ask)
    for i, decision in enumerate(house.decisions):
        asked = sub(body, "choiceInteraction", responseIdentifier=f"RESPONSE{i}", shuffle="false", maxChoices="1")
        sub(asked, "prompt", decision.ask)
        for place, way in enumerate(decision.ways):
            sub(asked, "simpleChoice", way.text, identifier=f"w{place}")
    done = sub(made, "responseProcessing")
    added = sub(sub(done, "setOutcomeValue", identifier="SCORE"), "sum")
    for i in range(count):
        sub(added, "mapResponse", identifier=f"RESPONSE{i}")
    for i in range(count):
        sub(sub(done, "setOutcomeValue", identifier=f"FEEDBACK{i}"), "variable", identifier=f"RESPONSE{i}")
    for i, decision in enumerate(house.decisions):
        for place, way in enumerate(decision.ways):
            said = sub(made, "modalFeedback", outcomeIdentifier=f"FEEDBACK{i}", identifier=f"w{place}", showHide="show")
            sub(said, "p", f"{decision.name}: counts {way.credit:.0%}. {way.because}")


def test(paper: Paper, names: list[str]) -> Element:
    """The test that holds the items in order."""
    made = root("assessmentTest", QTI, identifier="paper", title=f"Practice paper {paper.seed}")
    sub(made, "timeLimits", maxTime=str(paper.time() * 60))
    part = sub(made, "testPart", identifier="part", navigationMode="nonlinear", submissionMode="simultaneous")
    section = sub(part, "assessmentSection", identifier="section", title="Problems", visible="true")
    for name in names:
        sub(section, "assessmentItemRef", identifier=name, href=f"{name}.xml")
    return made


def manifest(names: list[str]) -> Element:
    """The package's manifest."""
    made = root("manifest", CP, identifier="underslab-paper")
    about = sub(made, "metadata")
    sub(about, "schema", "QTIv2.2 Package")
    sub(about, "schemaversion", "1.0.0")
    sub(made, "organizations")
    resources = sub(made, "resources")
    whole = sub(resources, "resource", identifier="test", type="imsqti_test_xmlv2p2", href="test.xml")
    sub(whole, "file", href="test.xml")
    for name in names:
        sub(whole, "dependency", identifierref=name)
    for name in names:
        single = sub(resources, "resource", identifier=name, type="imsqti_item_xmlv2p2", href=f"{name}.xml")
        sub(single, "file", href=f"{name}.xml")
    return made
