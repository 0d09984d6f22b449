"""Makes Pyodide's program smaller for the page, and steady under an optimizing compiler (scripts/indirect.py).

Pyodide offers about 8,500 functions and variables to compiled packages that may be loaded later.  Underslab loads
none.  So everything that Pyodide's own JavaScript does not name is taken off that list, in the WebAssembly file and in
the JavaScript file beside it; what nothing else calls then goes too, on both sides (binaryen's wasm-opt, unused.mjs).
It saves a tenth of what a phone fetches.  The tests of the browser's Python run on the result.
"""

import json
import re
import shutil
import subprocess
from pathlib import Path

from scripts import indirect, wasm_file
from scripts.toolbox import CACHE, SCRIPTS, node, run_node, sha256
from scripts.wasm_file import FUNCTION, VARIABLE, behind, encoded, imported_functions, joined, number, sections, taken

PROGRAM = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
OPTIMIZER, READER = (SCRIPTS / "node_modules" / name for name in ("binaryen", "acorn"))
REACH = SCRIPTS / "unused.mjs"

IMPORTS, EXPORTS = 2, 7  # numbers of the sections that list what a WebAssembly file takes and offers
# Written as the program came: newer ways of writing are not read by every browser.
FEATURES = (
    "bulk-memory", "bulk-memory-opt", "call-indirect-overlong", "exception-handling", "multivalue", "mutable-globals",
    "nontrapping-float-to-int", "reference-types", "sign-ext",
)
ASSIGNED = re.compile(r'(?<=[;{])(\w+)=(?:Module\["\w+"\]=)?wasmExports\["(\w+)"\](?:\.value(?:>>>0)?)?(?:;|$)')


def engine(pyodide: Path) -> Path:
    """Folder with the smaller program; made once for each state of Pyodide, of the tools and of what makes it here.

    Raises RuntimeError when the files are not built as expected or the optimizer fails.
    """
    made_of = [(pyodide / name).read_bytes() for name in PROGRAM]
    made_of += [(tool / "package.json").read_bytes() for tool in (OPTIMIZER, READER)]
    made_of += [Path(file).read_bytes() for file in (__file__, REACH, indirect.__file__, wasm_file.__file__)]
    folder = CACHE / f"engine-{sha256(b''.join(sha256(part).encode() for part in made_of))[:12]}"
    if not (folder / "complete").exists():
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        starter, script, program = (Path(shutil.copy(pyodide / name, folder)) for name in PROGRAM)
        text, used = without_unused(script.read_text(encoding="utf-8"), starter.read_text(encoding="utf-8"))
        script.write_text(text, encoding="utf-8")
        program.write_bytes(without_exports(program.read_bytes(), used))
        optimize(program)
        taken_up = imported_functions(dict(sections(program.read_bytes()))[IMPORTS])
        script.write_text(run_node(REACH, {"script": script, "starter": starter, "imports": taken_up}), encoding="utf-8")
        program.write_bytes(indirect.through_helpers(program.read_bytes()))
        (folder / "complete").touch()
    return folder


def without_unused(script: str, starter: str) -> tuple[str, set[str]]:
    """The JavaScript without the variables that it only fills and never reads; and all names that it does use."""
    begin = script.find("function assignWasmExports(wasmExports){")
    end = script.find("}", begin)
    declared = script.rfind("var ", 0, begin)
    variables = script[declared + 4 : begin].rstrip(";").split(",")
    if min(begin, end, declared) < 0 or not all(re.fullmatch(r"[\w$]+", name) for name in variables):
        raise RuntimeError("pyodide.asm.mjs is not built as scripts/shrink.py expects: see assignWasmExports there")
    used = set(re.findall(r"[A-Za-z_$][\w$]*", script[:declared] + script[end:] + starter))
    gone: set[str] = set()

    def drop(match: re.Match[str]) -> str:
        if is_used(match[2], used):
            return match[0]
        gone.add(match[1])
        return ""

    body = ASSIGNED.sub(drop, script[begin:end])
    kept = ",".join(name for name in variables if name not in gone)
    return f"{script[:declared]}var {kept};{body}{script[end:]}", used


def is_used(name: str, used: set[str]) -> bool:
    """JavaScript puts an underscore in front of what WebAssembly offers."""
    return name in used or f"_{name}" in used


def without_exports(program: bytes, used: set[str]) -> bytes:
    """The WebAssembly file without the functions and variables of its list that are not used."""
    return joined(program, [(kind, fewer(part, used) if kind == EXPORTS else part) for kind, part in sections(program)])


def fewer(section: bytes, used: set[str]) -> bytes:
    kept = [item for name, of, item in exports(section) if of not in (FUNCTION, VARIABLE) or is_used(name, used)]
    return encoded(len(kept)) + b"".join(kept)


def exports(section: bytes) -> list[tuple[str, int, bytes]]:
    """Name, kind and bytes of each entry of the list."""
    count, at = number(section, 0)
    found = []
    for _ in range(count):
        start = at
        name, at = taken(section, at)
        kind, at = section[at], behind(section, at + 1)
        found.append((name.decode(), kind, section[start:at]))
    return found


def optimize(program: Path) -> None:
    optimizer = OPTIMIZER / json.loads((OPTIMIZER / "package.json").read_text(encoding="utf-8"))["bin"]["wasm-opt"]
    options = ["--mvp-features", *(f"--enable-{name}" for name in FEATURES), "--remove-unused-module-elements"]
    command = [node(), optimizer, program, *options, "--strip-debug", "--strip-producers", "-o", program]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(f"wasm-opt failed:\n{(done.stdout + done.stderr)[-4000:]}")
