"""Runs a text as Python, and imports by a path: no parsing of what a console would be given."""

import _ast
from importlib import import_module

ONLY_TREE = 0x400  # ast.PyCF_ONLY_AST


def eval_code(
    source: str, globals: dict | None = None, locals: dict | None = None, *, filename: str = "<exec>", **ignored: object
) -> object:
    """Run a text; the value of the last statement if it is an expression, else None."""
    scope = {} if globals is None else globals
    tree = compile(source.strip(), filename, "exec", ONLY_TREE)
    last = tree.body.pop() if tree.body and isinstance(tree.body[-1], _ast.Expr) else None
    exec(compile(tree, filename, "exec"), scope, locals)
    return eval(compile(_ast.Expression(last.value), filename, "eval"), scope, locals) if last else None


def pyimport_impl(path: str) -> object:
    """A module, or a name in one."""
    stem, _, name = path.rpartition(".")
    if not stem:
        return import_module(path)
    module = import_module(stem)
    return getattr(module, name) if hasattr(module, name) else import_module(path)
