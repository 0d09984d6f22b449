"""Indirect calls sent through helpers: the program does what it did, and nothing else makes an indirect call."""

import subprocess

import pytest

from scripts.indirect import CALL_INDIRECT, CODE, instructions, listed, through_helpers
from scripts.toolbox import SCRIPTS, node
from scripts.wasm_file import joined, sections

# Calls of two kinds from among instructions of every form that has to be stepped over.
TEXT = """(module
  (import "from" "twice" (func $twice (param i32) (result i32)))
  (memory 1)
  (table 4 funcref)
  (elem (i32.const 0) $twice $square $sum $halved)
  (global $seen (mut i32) (i32.const 0))
  (func $square (param i32) (result i32) (i32.mul (local.get 0) (local.get 0)))
  (func $sum (param i32 i64) (result i64) (i64.add (i64.extend_i32_s (local.get 0)) (local.get 1)))
  (func $halved (param i32) (result i32) (i32.trunc_sat_f64_s (f64.div (f64.convert_i32_s (local.get 0)) (f64.const 2))))
  (func (export "one") (param i32 i32) (result i32)
    (global.set $seen (i32.add (global.get $seen) (i32.const 1)))
    (call_indirect (param i32) (result i32) (local.get 1) (local.get 0)))
  (func (export "chosen") (param i32) (result i32) (local f32 i64)
    (local.set 1 (f32.const 1.5))
    (local.set 2 (i64.const -1234567890123))
    (block $other
      (block $second
        (block $first (br_table $first $second $other (local.get 0)))
        (return (call_indirect (param i32) (result i32) (i32.const 21) (i32.const 0))))
      (memory.fill (i32.const 0) (i32.const 7) (i32.const 4))
      (return (call_indirect (param i32) (result i32) (i32.load8_u offset=2 (i32.const 1)) (i32.const 1))))
    (i32.wrap_i64 (call_indirect (param i32 i64) (result i64)
      (select (result i32) (i32.const 40) (i32.const 50) (i32.const 1)) (i64.const 2) (i32.const 2)))))"""
RUN = """const module = new WebAssembly.Module(require("fs").readFileSync(process.argv[1]));
const {one, chosen} = new WebAssembly.Instance(module, {from: {twice: (x) => 2 * x}}).exports;
console.log([one(0, 9), one(1, 9), one(3, 9), chosen(0), chosen(1), chosen(2)].join(" "));"""


@pytest.fixture(scope="module")
def program(tmp_path_factory) -> bytes:
    folder = tmp_path_factory.mktemp("indirect")
    (folder / "small.wat").write_text(TEXT, encoding="utf-8")
    assembler = SCRIPTS / "node_modules" / "binaryen" / "bin" / "wasm-as"
    subprocess.run([node(), assembler, folder / "small.wat", "--all-features", "-o", folder / "small.wasm"], check=True)
    return (folder / "small.wasm").read_bytes()


def indirect_calls(program: bytes) -> list[int]:
    """How many of them each of the program's own functions makes."""
    found = []
    for body in listed(dict(sections(program))[CODE]):
        places = list(instructions(body))
        assert places[-1][1] == len(body)
        found.append(sum(body[start : start + 1] == CALL_INDIRECT for start, _ in places))
    return found


def test_the_program_does_what_it_did(program, tmp_path):
    """A browser's machine takes both programs and they answer the same; the answers are sums that anybody can check."""
    said = []
    for name, made in (("before", program), ("after", through_helpers(program))):
        file = tmp_path / f"{name}.wasm"
        file.write_bytes(made)
        said.append(subprocess.run([node(), "-e", RUN, file], check=True, capture_output=True, text=True).stdout.split())
    assert said[0] == ["18", "81", "4", "42", "49", "42"]
    assert said[1] == said[0]


def test_only_helpers_call_indirectly(program):
    """Two kinds of call, two helpers, behind the program's own functions."""
    before, after = indirect_calls(program), indirect_calls(through_helpers(program))
    assert sum(before) == 4
    assert after == [0] * len(before) + [1, 1]


def test_the_shipped_program_calls_through_helpers(site):
    """Of its thousands of functions only the helpers at the end make an indirect call, and each makes one."""
    calls = indirect_calls(next((site / "engine").glob("*/pyodide.asm.wasm")).read_bytes())
    helpers = sum(calls)
    assert len(calls) > 10_000
    assert 10 < helpers < 100
    assert calls == [0] * (len(calls) - helpers) + [1] * helpers


def test_an_unknown_instruction_is_refused(program):
    """A newer program is not taken apart wrongly."""
    parts = [(kind, part.replace(b"\xfc\x0b", b"\xfc\x7e") if kind == CODE else part) for kind, part in sections(program)]
    with pytest.raises(RuntimeError, match="0xfc"):
        through_helpers(joined(program, parts))


def test_taken_apart_and_put_together(program):
    """The file is the same to the byte."""
    assert joined(program, sections(program)) == program
