"""Breaks the physics one number at a time and counts how often the tests notice.

    python scripts/mutate.py [--each 8] [--seed 1] [--named-tests] [FILE ...]

A mutant is one file of calculators/physics with one fault: a constant a tenth too large, an exponent a tenth too large,
a unit constant (hour, inch, gallon ...) a tenth too large, or a multiplication turned into a division.  Each runs in a
scratch copy: first the tests of physics, then those that name the module, then, while nobody has noticed, the other
tests without a browser.  Steps, tolerances and sizes of the numerical methods, and the ends between which a root is
looked for, are left alone: they change how long an answer takes.
It takes an hour or more and is no part of the tests; the aim is 95 % caught.
"""

import argparse
import ast
import copy
import os
import random
import re
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import suppress
from importlib import import_module
from pathlib import Path

import pytest

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scripts.toolbox import ROOT

PHYSICS = ROOT / "calculators" / "physics"
NEEDED = ("calculators", "tests", "scripts", "docs", "pyproject.toml", "mkdocs.yml", "README.md", "DEVELOPERS.md")
TOO_LARGE = 1.1
# Names that say how finely a method works, not what the world is like.
METHOD = re.compile(
    r"STEP|SMALLEST|NEAR|CLOSE|MOST|ROUNDING|TINY|WITHIN|EPSILON|HALF$|SCAN|GOLDEN|USUAL_T|REACH|SAMPLES|SLIVER|SNAP"
    r"|PER_LENGTH|USUAL_CELL|LEAST|THREE|CLEAR_OF_FROST|EARLY|_RANGE|T_FAR"
)
# Tests of the site, the browser and the practice papers: slow, and about other things than physics.
SLOW = re.compile(
    r"browser|offline|every_page|engine|gift|paper|pack|wasm|practice|route_page|readme|contrast|recipes|published_site"
    r"|stick|hostile|layers|jsontext|indirect|unused"
)
LIMIT, HUNG = 300, "ran on without an end"  # seconds: a mutant that hangs is noticed too
LIBRARIES = ("hypothesis", "pint", "scipy.special", "scipy.optimize", "scipy.interpolate", "fluids", "mpmath", "iapws", "psychrolib")


class Mutant(ast.NodeTransformer):
    """Changes the place numbered ``at``; with none it only counts the places and notes what each is."""

    def __init__(self, at: int = -1) -> None:
        self.at, self.places = at, []  # type: int, list[str]

    def here(self, node: ast.AST, what: str) -> bool:
        self.places.append(f"{node.lineno}: {what}")  # type: ignore[attr-defined]
        return len(self.places) - 1 == self.at

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        node.body = [self.visit(line) for line in node.body]  # neither decorators nor defaults
        return node

    def visit_Assign(self, node: ast.Assign) -> ast.AST:
        name = ast.unparse(node.targets[0])
        if name.isupper() and METHOD.search(name):
            return node
        if name.isupper():
            node.value = self.table(node.value, f"as {name}")
        node.value = self.visit(node.value)
        return node

    def visit_Call(self, node: ast.Call) -> ast.AST:
        called = ast.unparse(node.func)
        if called == "root":
            node.args[0] = self.visit(node.args[0])  # the ends of a search only say where to look
            return node
        return node if called in ("range", "len", "int", "ceil", "enumerate") else self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> ast.AST:
        return node

    def visit_Subscript(self, node: ast.Subscript) -> ast.AST:
        return node

    def visit_JoinedStr(self, node: ast.JoinedStr) -> ast.AST:
        return node

    def visit_Raise(self, node: ast.Raise) -> ast.AST:
        return node

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        said = ast.unparse(node)[:60]
        if "len(" in said:
            return node  # a place in a list
        if isinstance(node.op, ast.Pow):
            if not of_method(node.left) and self.here(node, f"exponent of {said}"):
                node.right = larger(node.right)
        elif isinstance(node.op, ast.Mult | ast.Div) and not (isinstance(node.left, ast.List)):
            if not (of_method(node.left) or of_method(node.right)):  # a number beside a tolerance is part of it
                node.left, node.right = self.number(node.left, f"in {said}"), self.number(node.right, f"in {said}")
            if self.here(node, f"times and divided by in {said}"):
                node.op = ast.Div() if isinstance(node.op, ast.Mult) else ast.Mult()
        elif isinstance(node.op, ast.Add | ast.Sub) and not (of_method(node.left) or of_method(node.right)):
            node.left, node.right = self.number(node.left, f"in {said}"), self.number(node.right, f"in {said}")
        return self.generic_visit(node)

    def table(self, node: ast.expr, where: str) -> ast.expr:
        """A constant, or the numbers of a tuple of constants."""
        if isinstance(node, ast.Tuple):
            node.elts = [self.table(one, where) for one in node.elts]
            return node
        return self.number(node, where)

    def number(self, node: ast.expr, where: str) -> ast.expr:
        """A literal, with its minus sign, or a named constant; perhaps made larger."""
        bare = node.operand if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub) else node
        literal = isinstance(bare, ast.Constant) and type(bare.value) in (int, float) and bare.value not in (0, 0.0)
        named = isinstance(node, ast.Name) and len(node.id) > 1 and node.id.isupper() and not of_method(node)
        if (literal or named) and self.here(node, f"{ast.unparse(node)} {where}"):
            return larger(node)
        return node


def of_method(node: ast.expr) -> bool:
    """Whether this is the name of a step, a tolerance or a size of a numerical method."""
    return isinstance(node, ast.Name) and node.id.isupper() and bool(METHOD.search(node.id))


def larger(node: ast.expr) -> ast.expr:
    return ast.fix_missing_locations(ast.copy_location(ast.BinOp(node, ast.Mult(), ast.Constant(TOO_LARGE)), node))


def mutants(file: Path, each: int, seed: int) -> Iterator[tuple[str, str]]:
    """What was broken and the broken text, ``each`` at most, drawn by the seed."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    counter = Mutant()
    counter.visit(copy.deepcopy(tree))
    chosen = list(range(len(counter.places)))
    random.Random(f"{file.name}:{seed}").shuffle(chosen)
    for at in sorted(chosen[:each]):
        broken = Mutant(at).visit(copy.deepcopy(tree))
        yield counter.places[at], ast.unparse(ast.fix_missing_locations(broken))


def tests_of(module: str, whole: bool) -> list[list[str]]:
    """Test files without a browser as they are asked: physics, those that name the module, when ``whole`` the rest."""
    quick = [file for file in sorted((ROOT / "tests").glob("test_*.py")) if not SLOW.search(file.name)]
    close = [file for file in quick if file.name.startswith("test_physics") or file.name == "test_formulas.py"
             or (module.partition("_")[0] in file.name and "properties" not in file.name)]
    named = [file for file in quick if re.search(rf"\b{module}\b", file.read_text(encoding="utf-8")) and file not in close]
    rest = [file for file in quick if file not in close and file not in named]
    return [[f"tests/{file.name}" for file in files] for files in (close, named, *([rest] if whole else []))]


class WithoutSite:
    """Leaves out the tests of the built site: the copy has none, and a page's words say nothing of physics."""

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = [item for item in items if "site" not in getattr(item, "fixturenames", ())]


def failing(copy_: Path, tests: list[str]) -> str:
    """The first of these tests that fails there, or an empty text.

    The copy is tested in a fork that has the large libraries imported already, but nothing of this project.
    """
    said = copy_ / "said.txt"
    child = os.fork()
    if not child:
        heard = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(heard, 1)
        os.dup2(heard, 2)
        os.chdir(copy_)
        sys.path[:] = [str(copy_), *(place for place in sys.path if place not in ("", str(ROOT), str(ROOT / "scripts")))]
        for name in [name for name in sys.modules if name.partition(".")[0] in ("scripts", "calculators")]:
            del sys.modules[name]
        options = ["-x", "-q", "-n0", "--no-header", "--tb=no", "-p", "no:cacheprovider"]
        status = pytest.main([*options, *tests], plugins=[WithoutSite()])
        sys.stdout.flush()
        os._exit(0 if status == pytest.ExitCode.NO_TESTS_COLLECTED else int(status))
    until = time.monotonic() + LIMIT
    while (ended := os.waitpid(child, os.WNOHANG)) == (0, 0):
        if time.monotonic() > until:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            return HUNG
        time.sleep(0.02)
    found = re.search(r"(?:FAILED|ERROR) (\S+)", said.read_text(encoding="utf-8", errors="replace"))
    return (found[1] if found else f"status {ended[1]}") if ended[1] else ""


def caught(copy_: Path, module: str, whole: bool) -> str:
    """The test that notices, or an empty text."""
    return next((by for files in tests_of(module, whole) if files and (by := failing(copy_, files))), "")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("files", nargs="*", type=Path, help="files of calculators/physics; all when none is named")
    parser.add_argument("--each", type=int, default=8, help="mutants a file (8)")
    parser.add_argument("--seed", default="1", help="another seed breaks other places")
    parser.add_argument("--named-tests", action="store_true", help="only tests of physics or that name the module: stricter")
    options = parser.parse_args()
    os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
    sys.dont_write_bytecode = True
    for name in LIBRARIES:
        with suppress(ImportError):
            import_module(name)
    files = [PHYSICS / file.name for file in options.files] or sorted(PHYSICS.glob("*.py"))
    total, missed, started = 0, [], time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        scratch = Path(folder)
        for name in NEEDED:
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, scratch / name, ignore=shutil.ignore_patterns("__pycache__", "node_modules"))
            else:
                shutil.copy(ROOT / name, scratch)
        # A test that fails on sound physics notices nothing.
        asked = {test for file in files for tests in tests_of(file.stem, not options.named_tests) for test in tests}
        if wrong := failing(scratch, sorted(asked)):
            sys.exit(f"fails on sound physics too, so nothing would be known: {wrong}")
        for file in files:
            place = scratch / file.relative_to(ROOT)
            sound = place.read_text(encoding="utf-8")
            for what, broken in mutants(file, options.each, options.seed):
                place.write_text(broken, encoding="utf-8")
                by = caught(scratch, file.stem, not options.named_tests)
                total += 1
                if not by:
                    missed.append(f"{file.name} {what}")
                print(f"{'caught' if by else 'MISSED'}  {file.name} {what}  {by}", flush=True)
            place.write_text(sound, encoding="utf-8")
    share = 100 * (total - len(missed)) / total if total else 0.0
    print(f"\n{total - len(missed)} of {total} caught ({share:.1f} %) in {(time.monotonic() - started) / 60:.0f} min.")
    print("\n".join(f"not noticed: {line}" for line in missed))
    return 0 if share >= 95 else 1


if __name__ == "__main__":
    sys.exit(main())
