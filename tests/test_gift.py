"""GIFT text against a parser that is not ours."""

import json
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from calculators.practice.gift import text
from calculators.practice.paper import compose
from calculators.practice.problem import House, Number
from scripts import toolbox

PROGRAM = "import {parse} from 'gift-pegjs'; let t = ''; for await (const c of process.stdin) t += c; console.log(JSON.stringify(parse(t)));"


def parsed(words: str):
    """What the parser reads; CalledProcessError when it refuses."""
    done = subprocess.run([toolbox.node(), "--input-type=module", "-e", PROGRAM], input=words, capture_output=True, text=True, check=True,
                          cwd=toolbox.ROOT / "scripts")
    return [item for item in json.loads(done.stdout) if item["type"] not in ("Category", "Description")]


def test_the_parser_reads_every_question():
    """A paper of sixty problems is read whole: numbers as numerical questions with all their slips."""
    for units in ("us", "si"):
        paper = compose(number=60, seed="gift", units=units)
        read = parsed(text(paper))
        # A practice house stands there as one question for each of its decisions.
        problems = [p for p in paper.problems() for _ in range(len(p.answer.decisions) if isinstance(p.answer, House) else 1)]
        assert len(read) == len(problems)
        for item, problem in zip(read, problems, strict=True):
            if isinstance(problem.answer, House):
                assert item["type"] == "MC"
                assert sum(bool(choice["isCorrect"]) for choice in item["choices"]) == 1
            if isinstance(problem.answer, Number):
                assert item["type"] == "Numerical"
                assert len(item["choices"]) == 1 + len(problem.slips)


def test_a_practice_house_becomes_questions_with_their_shares():
    """Each decision is a question; ways that count half carry 50 %; the text says that the house was taken apart."""
    paper = compose(number=3, seed="h", kinds=["house"])
    words = text(paper)
    read = parsed(words)
    decisions = [decision for problem in paper.problems() for decision in problem.answer.decisions]
    assert len(read) == len(decisions)
    assert words.count("questions, each with the whole of the house") == 3
    for item, decision in zip(read, decisions, strict=True):
        shares = [100 if choice["isCorrect"] else float(choice["weight"] or 0) for choice in item["choices"]]
        whole = decision.best()[0]
        assert shares == [100 if i == whole else way.credit * 100 for i, way in enumerate(decision.ways)]
