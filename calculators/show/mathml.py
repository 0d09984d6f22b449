"""Printed equations as MathML and as a spoken line, from the same Python text that is tested against its function."""

import ast
from collections.abc import Mapping
from functools import lru_cache

from .figures import powers
from .markup import Markup, el, join

GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "delta": "δ",
    "epsilon": "ε",
    "zeta": "ζ",
    "eta": "η",
    "theta": "θ",
    "kappa": "κ",
    "lam": "λ",
    "lambda_": "λ",
    "mu": "μ",
    "nu": "ν",
    "pi": "π",
    "rho": "ρ",
    "sigma": "σ",
    "tau": "τ",
    "phi": "φ",
    "psi": "ψ",
    "omega": "ω",
    "Delta": "Δ",
    "Omega": "Ω",
}
CHANGES = {"dp": "p", "dT": "T", "dh": "h", "dP": "P"}
ADD, MULTIPLY, NEGATE, POWER, ATOM = range(5)
_OPERATORS = {ast.Add: "+", ast.Sub: "−"}
_SPOKEN = {ast.Add: "plus", ast.Sub: "minus", ast.Mult: "times", ast.Div: "over", ast.Pow: "to the power"}
NEGATIVE = ("−", "-")


def equation(text: str) -> Markup:
    """An equation such as ``dp = f * L / D`` as MathML.  Raises SyntaxError for text that is no equation."""
    left, right = _parts(text)
    return _math(join((symbol(left), _mo("="), _Writer({}).row(right))), spoken(text))


def substituted(text: str, numbers: Mapping[str, str]) -> Markup:
    """The right side with numbers in place of the names, led by "="."""
    right = _parts(text)[1]
    said = _Speaker(numbers).say(right)
    return _math(join((_mo("="), _Writer(numbers).row(right))), f"equals {said}")


@lru_cache(maxsize=512)
def spoken(text: str) -> str:
    """The equation in words: "dp equals f times L over D"."""
    left, right = _parts(text)
    return f"{left.replace('_', ' ')} equals {_Speaker({}).say(right)}"


@lru_cache(maxsize=512)
def _parts(text: str) -> tuple[str, ast.expr]:
    tree = ast.parse(text.strip(), mode="exec").body
    if len(tree) != 1 or not isinstance(tree[0], ast.Assign) or not isinstance(tree[0].targets[0], ast.Name):
        raise SyntaxError(f"no equation: {text!r}")
    return tree[0].targets[0].id, tree[0].value


@lru_cache(maxsize=512)
def symbol(name: str) -> Markup:
    """A name as a symbol: Greek letters, a change as Δ, words and digits after it as a subscript."""
    base, _, below = name.partition("_")
    if not below and len(base) > 1 and base.rstrip("0123456789") != base and base.rstrip("0123456789"):
        below = base[len(base.rstrip("0123456789")) :]
        base = base[: len(base) - len(below)]
    if base in CHANGES:
        letter = el("mrow", el("mi", "Δ"), el("mi", CHANGES[base]))
    else:
        letter = el("mi", GREEK.get(base, base))
    if not below:
        return letter
    under = el("mn", below) if below.isdigit() else el("mtext", below.replace("_", " "))
    return el("msub", letter, under)


def _math(row: Markup, words: str) -> Markup:
    return el("div", el("math", el("mrow", row), display="block", aria_label=words), class_="math")


def _mo(sign: str) -> Markup:
    return el("mo", sign, stretchy="false")


def _number(text: str) -> Markup:
    mantissa, mark, power = text.replace("−", "-").partition("e")
    shown = el("mn", mantissa.replace("-", "−"))
    if not mark:
        return shown
    return el("mrow", shown, _mo("×"), el("msup", el("mn", "10"), el("mn", str(int(power)).replace("-", "−"))))


def _fraction(above: Markup, below: Markup) -> Markup:
    """A fraction that keeps its size inside another one."""
    return el("mfrac", el("mrow", above), el("mrow", below), displaystyle="true")


class _Writer:
    """Writes an expression; ``numbers`` are put in the place of names."""

    def __init__(self, numbers: Mapping[str, str]) -> None:
        self.numbers = numbers

    def row(self, node: ast.expr) -> Markup:
        return self.write(node)[0]

    def write(self, node: ast.expr) -> tuple[Markup, int]:
        """Markup and how tightly it holds together."""
        if isinstance(node, ast.BinOp):
            return self.binary(node)
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            return el("mrow", _mo("−"), self.held(node.operand, MULTIPLY)), NEGATE
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            return self.call(node.func.id, node.args)
        if isinstance(node, ast.Name):
            text = self.numbers.get(node.id)
            if text is None:
                return symbol(node.id), ATOM
            return _number(text), NEGATE if text.startswith(NEGATIVE) else POWER if "e" in text else ATOM
        if isinstance(node, ast.Constant) and isinstance(node.value, (int, float)):
            text = repr(node.value)
            return _number(text), POWER if "e" in text else ATOM
        raise SyntaxError(f"not written as an equation: {ast.dump(node)[:80]}")

    def binary(self, node: ast.BinOp) -> tuple[Markup, int]:
        if isinstance(node.op, (ast.Mult, ast.Div)):
            return self.chain(node)
        if isinstance(node.op, ast.Pow):
            return el("msup", self.held(node.left, ATOM), el("mrow", self.row(node.right))), POWER
        if isinstance(node.op, (ast.Add, ast.Sub)):
            right = self.held(node.right, MULTIPLY if isinstance(node.op, ast.Sub) else ADD, negative=False)
            return el("mrow", self.row(node.left), _mo(_OPERATORS[type(node.op)]), right), ADD
        raise SyntaxError(f"no sign for {type(node.op).__name__}")

    def chain(self, node: ast.expr) -> tuple[Markup, int]:
        """A chain such as ``f * L / D * rho * V ** 2 / 2``: a row of fractions and factors, from left to right."""
        links: list[tuple[bool, ast.expr]] = []
        while isinstance(node, ast.BinOp) and isinstance(node.op, (ast.Mult, ast.Div)):
            links.append((isinstance(node.op, ast.Div), node.right))
            node = node.left
        groups: list[tuple[list[ast.expr], list[ast.expr]]] = [([node], [])]
        for divides, factor in reversed(links):
            if divides:
                groups[-1][1].append(factor)
            elif groups[-1][1]:
                groups.append(([factor], []))
            else:
                groups[-1][0].append(factor)
        parts: list[Markup] = []
        for above, below in groups:
            parts += [] if not parts else [self.times()]
            if below:
                parts.append(_fraction(self.product(above), self.product(below)))
            else:
                parts.append(self.product(above, alone=len(groups) == 1))
        return (parts[0], POWER) if len(parts) == 1 and groups[0][1] else (el("mrow", *parts), MULTIPLY)

    def times(self) -> Markup:
        return _mo("×" if self.numbers else "·")

    def product(self, factors: list[ast.expr], alone: bool = True) -> Markup:
        if len(factors) == 1 and alone:
            return self.row(factors[0])
        parts: list[Markup] = []
        for i, factor in enumerate(factors):
            parts += ([self.times()] if i else []) + [self.held(factor, MULTIPLY, negative=False)]
        return join(parts)

    def held(self, node: ast.expr, least: int, *, negative: bool = True) -> Markup:
        """The expression, in brackets when it does not hold together tightly enough or is negative behind a sign."""
        shown, tight = self.write(node)
        loose = tight < least or (tight == NEGATE and not negative)
        return el("mrow", _mo("("), shown, _mo(")")) if loose else shown

    def call(self, name: str, arguments: list[ast.expr]) -> tuple[Markup, int]:
        inner = [self.row(argument) for argument in arguments]
        if name == "sqrt":
            return el("msqrt", inner[0]), ATOM
        if name == "exp" and not any(isinstance(n, ast.Div) for n in ast.walk(arguments[0])):
            return el("msup", el("mi", "e"), el("mrow", inner[0])), POWER
        if name == "abs":
            return el("mrow", _mo("|"), inner[0], _mo("|")), ATOM
        known = {"log10": el("msub", el("mi", "log"), el("mn", "10")), "log": el("mi", "ln")}
        listed: list[Markup] = []
        for i, one in enumerate(inner):
            listed += ([_mo(",")] if i else []) + [one]
        return el("mrow", known.get(name) or el("mi", name), _mo("("), *listed, _mo(")")), ATOM


class _Speaker:
    """Says an expression in words."""

    def __init__(self, numbers: Mapping[str, str]) -> None:
        self.numbers = numbers

    def say(self, node: ast.expr) -> str:
        if isinstance(node, ast.BinOp):
            left, right = self.say(node.left), self.say(node.right)
            if isinstance(node.op, ast.Pow) and right in ("2", "3"):
                return f"{left} {'squared' if right == '2' else 'cubed'}"
            if isinstance(node.op, ast.Div) and isinstance(node.right, ast.BinOp):
                right = f"the whole of {right}"
            return f"{left} {_SPOKEN[type(node.op)]} {right}"
        if isinstance(node, ast.UnaryOp):
            return f"minus {self.say(node.operand)}"
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            listed = " and ".join(self.say(argument) for argument in node.args)
            words = {
                "sqrt": "the square root of",
                "exp": "e to the power",
                "abs": "the size of",
                "log10": "the log to base 10 of",
                "log": "the natural log of",
                "min": "the lesser of",
                "max": "the greater of",
            }
            return f"{words.get(node.func.id, node.func.id)} {listed}"
        if isinstance(node, ast.Name):
            number = self.numbers.get(node.id)
            return powers(number) if number else node.id.replace("_", " ")
        return powers(repr(node.value)) if isinstance(node, ast.Constant) else "something"
