"""Every problem template proves itself over 200 seeds, in US and SI units."""

import re
from collections import Counter
from pathlib import Path

import pytest

from calculators import names, solve
from calculators.declare import PARTS
from calculators.practice import mark, templates
from calculators.practice.problem import House, Number, Options, Order
from calculators.show.drawings import NAMES, draw
from calculators.tables import source
from calculators.units import from_si
from cases import CASES

SEEDS = [f"t{i}" for i in range(200)]
ALL = sorted(templates())


PRAISE = re.compile(r"\b(safe|safely|pass|passes|passed|OK|okay|compliant)\b", re.IGNORECASE)


@pytest.fixture(scope="module", params=ALL)
def problems(request):
    """The problems of a template over all seeds, units taking turns; made once for all tests of the template."""
    id = request.param
    return [templates()[id].problem(seed, ("us", "si")[i % 2]) for i, seed in enumerate(SEEDS)]


def test_a_template_proves_itself(problems):
    """Right, slips, wrong and unreadable answers are marked as promised; text has no nonsense and does not leak the key."""
    keys = set()
    for problem in problems:
        words = " ".join((*problem.text, problem.ask))
        assert words == words.strip()
        assert not re.search(r"None|nan|\{|\}|  |e[-+]?\d{2}|\d\.\d{6}", words), words
        assert problem.ask.endswith(("?", "."))
        assert mark(problem, "").verdict == "unreadable"
        assert mark(problem, "abc").verdict == "unreadable"
        assert mark(problem, None).verdict == "unreadable"
        if isinstance(problem.answer, Number):
            keys.add(round(problem.answer.value, 9))
            _number(problem, words)
        elif isinstance(problem.answer, Options):
            _options(problem)
        elif isinstance(problem.answer, House):
            keys.add(problem.text)
            _house(problem)
        else:
            _order(problem)
    if problems[0].template.kind in ("number", "house"):
        assert len(keys) >= 20, "too few different problems"


def _number(problem, words):
    key = problem.answer
    assert key.tolerance > 0 and key.because
    printed = key.printed()
    assert not re.search(rf"(?<![\d./-]){re.escape(printed)}(?!\w)", words), f"the key stands in the text: {words}"
    assert mark(problem, printed).verdict == "right", (printed, key)
    exact = f"{from_si(key.value, key.unit):.10g} {'' if key.unit == '1' else key.unit}"
    assert mark(problem, exact).verdict == "right"
    values = [key.value]
    for slip in problem.slips:
        assert slip.because.endswith((".", "?")), slip.because
        assert min(abs(slip.value - v) for v in values) > key.tolerance, (problem.id, slip.name)
        values.append(slip.value)
        got = mark(problem, f"{from_si(slip.value, key.unit):.10g} {'' if key.unit == '1' else key.unit}")
        assert (got.verdict, got.slip) == ("slip", slip.name), (problem.id, slip.name, got)
    far = from_si(max(abs(v) for v in values) * 7.3 + 40 * key.tolerance, key.unit)
    assert mark(problem, f"{far:.6g} {'' if key.unit == '1' else key.unit}").verdict == "wrong"
    if key.unit not in ("1",):
        assert mark(problem, "12").verdict == "unreadable"
        assert mark(problem, "12 parsec").verdict == "unreadable"


def _options(problem):
    options = problem.answer.options
    assert len({option.text for option in options}) == len(options) >= 3
    assert all(option.because.endswith((".", "?")) for option in options)
    right = [i for i, option in enumerate(options) if option.right]
    assert right and len(right) < len(options)
    assert problem.answer.several or len(right) == 1
    assert mark(problem, right).verdict == "right"
    wrong = next(i for i in range(len(options)) if i not in right)
    assert mark(problem, [wrong]).verdict == "wrong"
    assert mark(problem, [len(options)]).verdict == "unreadable"


def _order(problem):
    order = problem.answer
    assert sorted(order.right) == list(range(len(order.shown)))
    assert mark(problem, list(order.right)).verdict == "right"
    assert mark(problem, list(reversed(order.right))).verdict == "wrong"
    assert mark(problem, [0]).verdict == "unreadable"
    assert list(order.right) != list(range(len(order.shown))), "shown in the right order already"


def _house(problem):
    """Every decision has a way that counts whole and one that does not; the mark is their mean, with a reason for each."""
    decisions = problem.answer.decisions
    assert len(decisions) >= 5
    assert len({decision.name for decision in decisions}) == len(decisions)
    for decision in decisions:
        credits = [way.credit for way in decision.ways]
        assert min(credits) < max(credits) == 1, (problem.id, decision)
        assert set(credits) <= {0, 0.5, 1}
        assert len({way.text for way in decision.ways}) == len(decision.ways) >= 3
        assert all(way.because.endswith(".") for way in decision.ways)
    best = [decision.best()[0] for decision in decisions]
    worst = [min(range(len(d.ways)), key=lambda i, d=d: d.ways[i].credit) for d in decisions]
    assert (mark(problem, best).verdict, mark(problem, best).credit) == ("right", 1)
    low = mark(problem, worst)
    assert low.credit == round(sum(min(way.credit for way in d.ways) for d in decisions) / len(decisions), 2)
    assert [part[2] for part in low.parts] == [d.ways[i].because for d, i in zip(decisions, worst, strict=True)]
    one_off = mark(problem, [worst[0], *best[1:]])
    assert one_off.verdict == "partly"
    assert one_off.slip == decisions[0].name.replace(" ", "-")
    for wrong in ([None, *best[1:]], best[1:], [*best, 0], [True, *best[1:]], [9, *best[1:]], [-1, *best[1:]], 3):
        assert mark(problem, wrong).verdict == "unreadable"
    assert decisions[1].name in mark(problem, [best[0], None, *best[2:]]).text


def test_no_problem_calls_anything_safe(problems):
    """Text, options, slips and words of a problem compare; none of them gives a clean bill."""
    for problem in problems:
        said = [*problem.text, problem.ask, *problem.words, *(slip.because for slip in problem.slips)]
        if isinstance(problem.answer, Options):
            said += [word for option in problem.answer.options for word in (option.text, option.because)]
        if isinstance(problem.answer, Order):
            said += [*problem.answer.shown, problem.answer.because]
        if isinstance(problem.answer, House):
            for decision in problem.answer.decisions:
                said += [decision.ask, *(word for way in decision.ways for word in (way.text, way.because))]
        found = [word for word in said if PRAISE.search(word.replace("safety factor", ""))]
        assert not found, found


def test_a_template_names_a_source_and_draws_what_it_shows(problems):
    """The source exists; a drawing is known and can be made in both systems; a drawing problem has one."""
    template = problems[0].template
    assert source(template.source)["kind"]
    assert template.title and template.minutes > 0
    for i, problem in enumerate(problems[:6]):
        assert (problem.drawing is not None) or template.kind != "drawing"
        if problem.drawing:
            name, result = problem.drawing
            assert name in NAMES
            assert "<svg" in str(draw(name, f"p{i}", result, problem.units))


def test_a_number_knows_slips(problems):
    """Every number asked comes with two slips at least, told apart from the key and from each other."""
    numbers = [p for p in problems if isinstance(p.answer, Number)]
    assert all(len(p.slips) >= 2 for p in numbers)


def test_the_same_seed_gives_the_same_problem(problems):
    """Two makings of one seed are equal word for word."""
    one, two = (problems[0].template.problem("s1", "us") for _ in range(2))
    assert (one.text, one.ask, one.answer, one.slips) == (two.text, two.ask, two.answer, two.slips)


def test_variants_are_equally_hard(problems):
    """The worked solutions of all variants have nearly the same number of lines."""
    lengths = [len(p.worked_steps()) for p in problems[:40]]
    assert max(lengths) - min(lengths) <= 2


def test_every_part_asks_what_stops_the_work():
    """Each part with problems holds one at least that asks for a judgement on safety."""
    asked = {t.part for t in templates().values() if "stops the work" in t.problem("s1").ask}
    assert asked == {t.part for t in templates().values()}


def test_no_part_is_thin():
    """Each part holds its number of templates and the kinds that fit it; every calculator is practised twice at least."""
    everything = templates().values()
    counts = Counter(t.part for t in everything)
    least = {
        "under-the-slab": 18,
        "the-sump": 14,
        "water-and-pump": 14,
        "pipe-and-fan": 20,
        "where-it-ends": 14,
    }
    assert {part: counts[part] for part in PARTS if counts[part] < least.get(part, 8)} == {}
    for part in PARTS:
        kinds = {t.kind for t in everything if t.part == part}
        assert {"number", "choice", "what-is-wrong"} <= kinds, (part, kinds)
        assert part == "look-up" or {"order"} & kinds, (part, kinds)
    practised = Counter(t.calculator for t in everything)
    assert {name: practised[name] for name in names() if practised[name] < 2} == {}
    assert sum(t.kind == "house" for t in everything) >= 3


def test_the_simulated_gauge_is_read_by_the_calculator():
    """The fault that was put into the fan's system is the first cause that gauge-reading gives for its reading."""
    for i in range(40):
        problem = templates()["yearly-look"].problem(f"g{i}", ("us", "si")[i % 2])
        right = next(option for option in problem.answer.options if option.right)
        assert problem.solution["causes"][0]["name"] == right.text


def test_templates_name_calculators_that_exist():
    """A template's calculator can be asked for; a reader is sent there."""
    assert {t.calculator for t in templates().values()} <= {*names(), ""}


SHORTCUTS = {  # the way people reckon it in their head, from the number of a slip
    "smaller-pipe": ("same", lambda v: v * (4.026 / 3.068) ** 5),
    "more-flow": ("linear", lambda v: v * 1.5),
    "gap-law": ("half", lambda v: v / 4),
}


@pytest.mark.parametrize("id", list(SHORTCUTS))
def test_the_rule_of_thumb_taught_is_marked_right(id):
    """Fifth power, square and cube, as the words say, lie within the tolerance of the calculator's key."""
    name, way = SHORTCUTS[id]
    for i, seed in enumerate(SEEDS):
        problem = templates()[id].problem(seed, ("us", "si")[i % 2])
        value = next(way(slip.value) for slip in problem.slips if slip.name == name)
        unit = problem.answer.unit
        assert mark(problem, f"{from_si(value, unit):.8g} {unit}").verdict == "right", problem.id


@pytest.mark.parametrize(
    ("calculator", "inputs"),
    [
        (
            "discharge-clearances",
            {"rules": ["us-pa"], "discharge": {"height_above_grade": "20 ft", "joined_to": "flue"}},
        ),
        (
            "discharge-clearances",
            {"rules": ["us-pa"], "discharge": {"height_above_grade": "20 ft", "joined_to": "plumbing-vent"}},
        ),
        (
            "discharge-clearances",
            {"rules": ["us-pa"], "discharge": {"height_above_grade": "20 ft", "joined_to": "duct"}},
        ),
        (
            "discharge-clearances",
            {"rules": ["us-pa"], "discharge": {"height_above_grade": "20 ft", "fan_location": "basement"}},
        ),
        (
            "discharge-clearances",
            {"rules": ["us-pa"], "discharge": {"height_above_grade": "20 ft", "fan_location": "window-well"}},
        ),
        ("tile-offset", {"wall_thickness": "8 in", "footing_width": "16 in", "known_below": ["not-located"]}),
        ("sump-sealing", {**CASES["sump-sealing"][0], "pit_receives": "sewage"}),
        ("sump-sealing", {**CASES["sump-sealing"][0], "pump_type": "pedestal"}),
    ],
)
def test_what_a_problem_says_stops_the_work_stops_the_calculator_too(calculator, inputs):
    """The judgement that problems teach is the one that the calculators make."""
    assert any(check.stop for check in solve(calculator, inputs).work.checks)


def test_the_template_in_the_guide_for_trainers_works():
    """The example of the guide is run as it is printed, and holds what every template must hold."""
    guide = (Path(__file__).resolve().parents[1] / "docs" / "teach.md").read_text(encoding="utf-8")
    code = guide.split("```text\n")[1].split("```")[0]
    space = {}
    exec(compile(code, "docs/teach.md", "exec"), space)
    made = [space["empty_hole"].problem(seed, ("us", "si")[i % 2]) for i, seed in enumerate(SEEDS)]
    assert len({round(problem.answer.value, 9) for problem in made}) >= 20
    for problem in made:
        _number(problem, " ".join((*problem.text, problem.ask)))
    assert "empty-hole" not in templates()
