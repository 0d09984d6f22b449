"""GIFT text against a parser that is not ours."""

import json
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from calculators.practice.gift import text
from calculators.practice.paper import compose
from calculators.practice.problem import Number
from scripts import toolbox

ROOT = Path(__file__).resolve().parents[1]
PROGRAM = "import {parse} from 'gift-pegjs'; let t = ''; for await (const c of process.stdin) t += c; console.log(JSON.stringify(parse(t)));"


def parsed(words: str):
    """What the parser reads; CalledProcessError when it refuses."""
    done = subprocess.run([toolbox.node(), "--input-type=module", "-e", PROGRAM], input=words, capture_output=True, text=True, check=True,
                          cwd=ROOT / "scripts")
    return [item for item in json.loads(done.stdout) if item["type"] not in ("Category", "Description")]


def test_the_parser_reads_every_question():
    """A paper of sixty problems is read whole: numbers as numerical questions with all their slips."""
    for units in ("us", "si"):
        paper = compose(number=60, seed="gift", units=units)
        read = parsed(text(paper))
        problems = paper.problems()
        assert len(read) == len(problems)
        for item, problem in zip(read, problems, strict=True):
            if isinstance(problem.answer, Number):
                assert item["type"] == "Numerical"
                assert len(item["choices"]) == 1 + len(problem.slips)
