"""Pyodide's JavaScript without what nothing in it can reach (scripts/unused.mjs)."""

import pytest

from scripts.shrink import REACH
from scripts.toolbox import run_node

PROGRAM = """
var read=p=>files.get(p),files=new Map,idle=function(){return draw()};
var started=boot();
function boot(){return read("x")}
function draw(){return canvas}
draw.sig="vi";
boot.sig="i";
var canvas={size:3},stopped=register(()=>halt());
function halt(){}
function register(f){return f}
function _write(){return helper()}
function _glDraw(){return helper(draw)}
function helper(){return key.canvas}
var key={paint:1};
Module["read"]=read;Module["draw"]=draw;Module["_glDraw"]=_glDraw;
var wasmImports={write:_write,glDraw:_glDraw,named};
function named(){}
function other(){}
return Module
"""


def left(tmp_path, program: str, starter: str = "Module.read()", imports: tuple[str, ...] = ("write",)) -> str:
    script, start = tmp_path / "program.mjs", tmp_path / "starter.mjs"
    script.write_text(f"async function make(Module){{{program}}}export default make;", encoding="utf-8")
    start.write_text(starter, encoding="utf-8")
    return run_node(REACH, {"script": script, "starter": start, "imports": imports})


def test_what_nothing_names_goes(tmp_path):
    """Functions, tables and what is said of them go when only each other name them; what acts when it is made stays."""
    text = left(tmp_path, PROGRAM)
    for gone in ("idle", "function draw", "canvas=", "draw.sig", "_glDraw", 'Module["draw"]', "function named", "function other"):
        assert gone not in text, gone
    for kept in ("read=p=>", "files=new Map", "var started=boot()", "function boot", "boot.sig", "stopped=register", "function halt",
                 "function _write", "function helper", "key={paint:1}", 'Module["read"]=read', "var wasmImports={write:_write};"):  # fmt: skip
        assert kept in text, kept


@pytest.mark.parametrize(("starter", "imports", "kept"), [
    ("Module.draw()", ("write",), 'Module["draw"]=draw'), ("", ("write", "glDraw"), "function draw"), ("", ("named",), "function named"),
])
def test_what_is_asked_for_stays(tmp_path, starter, imports, kept):
    """By the program that starts it, or by WebAssembly."""
    assert kept in left(tmp_path, PROGRAM, starter, imports)


def test_another_build_is_refused(tmp_path):
    """A program without the table, or with it beside something else, is not cut."""
    for program in ("function f(){}", "var wasmImports={write:f},more=1;function f(){}"):
        with pytest.raises(RuntimeError, match="wasmImports"):
            left(tmp_path, program)


def test_the_shipped_one_has_no_graphics(site):
    """Nothing of Pyodide's three-dimensional graphics and windows is fetched."""
    text = next((site / "engine").glob("*/pyodide.asm.mjs")).read_text(encoding="utf-8")
    assert "_emscripten_gl" not in text
    assert len(text) < 400_000
