"""Writes the one archive that the page's Python starts from: the used standard library, and the calculators.

Runs inside Pyodide, so that the compiled code is of the right kind.  Everything is stored, not deflated: the server's
compression then works on the whole.
"""

import ast
import importlib._bootstrap_external as bootstrap
import importlib.util
import json
import marshal
import sys
import types
import zipfile
from pathlib import Path

from pyodide_build.cli.py_compile import main as py_compile

STOCK = f"/lib/python{sys.version_info[0]}{sys.version_info[1]}.zip"

PLAIN = Path(__file__).with_name("plain")  # what stands for some of Pyodide's own modules: see DEVELOPERS.md

EARLIEST = (1980, 1, 1, 0, 0, 0)
HEADER = 16  # bytes in front of the code in a compiled file

NOT_READ = ".schema.json"  # for editors and other programs; the calculators do not read it

# Imported by the exercise itself, or frozen into the program: not needed in the page.
ONLY_HERE = {"exercise", "importlib._bootstrap", "importlib._bootstrap_external"}

# Asked for at the start by modules that do without when they are not there, and never used here.
DONE_WITHOUT = {
    "bz2", "lzma", "compression", "compression._common", "compression._common._streams",
    "compression.zstd", "compression.zstd._zstdfile",
}

READ_ONCE = "read_once.py"  # of our own, beside the calculators: see there

# Not imported while the library is made, but when a browser starts it or a text of another coding is met.
ALSO = {"encodings.ascii", "encodings.latin_1", "encodings.idna"}


def make(wheel: str, used: set[str], target: str) -> str:
    """Write the archive; return a report as JSON text."""
    keep = (used | ALSO) - ONLY_HERE - DONE_WITHOUT
    entries = {**standard_library(keep), **package(wheel), READ_ONCE + "c": compiled(READ_ONCE, beside(READ_ONCE))}
    with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(entries):
            archive.writestr(zipfile.ZipInfo(name, EARLIEST), entries[name])
    own = sum(len(data) for name, data in entries.items() if name.startswith("calculators/"))
    modules = sorted(name for name in entries if not name.startswith(("calculators/", READ_ONCE)))
    total = sum(map(len, entries.values()))
    report = {"files": len(entries), "bytes": total, "calculators": own, "standard_library": modules}
    return json.dumps(report, indent=1)


def plainer_stock(target: str) -> None:
    """Write the whole standard library with our own modules in it, to find out what is imported then."""
    with zipfile.ZipFile(STOCK) as stock, zipfile.ZipFile(target, "w") as copy:
        for name in stock.namelist():
            copy.writestr(name, module_of(stock, name))


def module_of(stock: zipfile.ZipFile, name: str) -> bytes:
    """A file of the standard library, or the one of our own in its place."""
    return (PLAIN / name).read_bytes() if (PLAIN / name).is_file() else stock.read(name)


def beside(name: str) -> bytes:
    return Path(__file__).with_name(name).read_bytes()


def package(wheel: str) -> dict[str, bytes]:
    """The calculators, made plainer and compiled by pyodide-build; their data files without their blanks."""
    light = Path(wheel).parent / "light" / Path(wheel).name
    light.parent.mkdir()
    with zipfile.ZipFile(wheel) as archive, zipfile.ZipFile(light, "w") as copy:
        for name in archive.namelist():
            data = archive.read(name)
            copy.writestr(name, plainer(data.decode()) if name.endswith(".py") else data)
    py_compile([str(light), "--compression-level", "0", "--keep", "--silent"], standalone_mode=False)
    compiled = next(file for file in light.parent.glob("*.whl") if file != light)
    with zipfile.ZipFile(compiled) as archive:
        names = [name for name in archive.namelist() if ".dist-info/" not in name and not name.endswith(NOT_READ)]
        return {name: lighter(name, archive.read(name)) for name in names}


def plainer(source: str) -> str:
    """A module without what only a reader of it needs: docstrings, and annotations of functions and variables.

    A calculator keeps its annotations, which are its form, and the first line of its docstring; a class keeps its fields'
    names.
    """
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if not isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)):
            continue
        declared = any(isinstance(d, ast.Call) and ast.unparse(d.func) == "calculator" for d in getattr(node, "decorator_list", []))
        if said := ast.get_docstring(node):
            node.body[:1] = [ast.Expr(ast.Constant(said.partition("\n")[0]))] if declared else []
        if isinstance(node, ast.ClassDef):
            node.body = [*names_of_fields(node), *(part for old in node.body for part in unannotated(old))]
        else:
            node.body = [part for old in node.body for part in unannotated(old)]
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)) and not declared:
            node.returns = None
            given = node.args
            for argument in (*given.posonlyargs, *given.args, *given.kwonlyargs, given.vararg, given.kwarg):
                if argument:
                    argument.annotation = None
        if not node.body and not isinstance(node, ast.Module):
            node.body = [ast.Pass()]
    return ast.unparse(ast.fix_missing_locations(tree))


def names_of_fields(declared: ast.ClassDef) -> list[ast.stmt]:
    """What typing asks a class for, as a plain table: it need not be worked out then."""
    fields = [ast.Constant(field.target.id) for field in declared.body if isinstance(field, ast.AnnAssign)]
    table = ast.Dict(list(fields), [ast.Constant(None) for _ in fields])
    return [ast.Assign([ast.Name("__annotations__", ast.Store())], table)] if fields else []


def unannotated(statement: ast.stmt) -> list[ast.stmt]:
    """``x: int = 0`` as ``x = 0``, ``x: int`` as nothing."""
    if not isinstance(statement, ast.AnnAssign):
        return [statement]
    return [ast.Assign([statement.target], statement.value)] if statement.value else []


def lighter(name: str, data: bytes) -> bytes:
    """A compiled file without its line table (an error report then names the function only); JSON without blanks."""
    if name.endswith(".json"):
        return json.dumps(json.loads(data), ensure_ascii=False, separators=(",", ":")).encode()
    if not name.endswith(".pyc"):
        return data
    return data[:HEADER] + marshal.dumps(bare(marshal.loads(data[HEADER:])))


def standard_library(keep: set[str]) -> dict[str, bytes]:
    """The modules to keep, compiled, without the tables that only line numbers in error reports need."""
    entries = {}
    with zipfile.ZipFile(STOCK) as stock:
        for name in stock.namelist():
            module = name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
            if name.endswith(".py") and module in keep:
                entries[name + "c"] = compiled(name, module_of(stock, name))
    return entries


def compiled(name: str, source: bytes) -> bytes:
    code = bare(compile(source, name, "exec", dont_inherit=True, optimize=2))
    return bytes(bootstrap._code_to_hash_pyc(code, importlib.util.source_hash(source), False))


def bare(code: types.CodeType) -> types.CodeType:
    inner = tuple(bare(item) if isinstance(item, types.CodeType) else item for item in code.co_consts)
    return code.replace(co_linetable=b"", co_filename="", co_consts=inner)
