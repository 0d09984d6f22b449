"""Every figure says where it comes from, and every source that is named stands in the register."""

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from calculators import tables

ROOT = Path(__file__).resolve().parents[1]
CODE = ROOT / "calculators"
DATA = CODE / "data"
REGISTER = tables.table("sources")
KINDS = {"published", "derived", "common practice", "from memory", "demo"}
MARKS = {"seen", "secondary", "from memory"}
ROW_MARKS = MARKS | {"derived", "common practice"}
TABLES = sorted(p.name for p in DATA.glob("*.json") if p.name not in ("sources.json", "units.json", "job.schema.json"))


def records(data: object, path: str = "") -> Iterator[tuple[str, dict]]:
    """Every object inside `data` with its path."""
    if isinstance(data, dict):
        yield path, data
        for key, value in data.items():
            yield from records(value, f"{path}.{key}")
    elif isinstance(data, list):
        for i, value in enumerate(data):
            yield from records(value, f"{path}[{i}]")


def named_in_code(text: str) -> set[str]:
    """Source ids in one module: source="..." in calls and signatures, "source": "..." in dicts, cautions."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.keyword) and node.arg == "source":
            found |= constants(node.value)
        elif (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute)
            and node.func.attr == "caution"
            and len(node.args) > 2
        ):
            found |= constants(node.args[2])
        elif isinstance(node, ast.Dict):
            for key, value in zip(node.keys, node.values, strict=True):
                if isinstance(key, ast.Constant) and key.value == "source":
                    found |= constants(value)
        elif isinstance(node, ast.FunctionDef):
            arguments = node.args
            for name, value in zip(arguments.kwonlyargs, arguments.kw_defaults, strict=True):
                if name.arg == "source" and value is not None:
                    found |= constants(value)
            for name, value in zip(reversed(arguments.args), reversed(arguments.defaults), strict=False):
                if name.arg == "source":
                    found |= constants(value)
    return found


def constants(node: ast.expr) -> set[str]:
    """Text constants that an expression can give: itself, or either side of a choice."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value:
        return {node.value}
    if isinstance(node, ast.IfExp):
        return constants(node.body) | constants(node.orelse)
    return set()


def named_in_page(text: str) -> set[str]:
    """Source ids in one page: {src: id section} in the text and `source: id` among the options of a block."""
    found = set(re.findall(r"\{src:\s*([^\s}]+)", text))
    for block in re.findall(r"^/// [a-z].*\n((?:    .*\n)+)", text, re.MULTILINE):
        found |= set(re.findall(r"^    source:\s*(\S+)", block, re.MULTILINE))
    return found


def test_register_is_whole() -> None:
    """Each entry has a kind and a citation; a published one also an edition and how it was seen."""
    for id, entry in REGISTER.items():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", id), id
        assert entry["kind"] in KINDS, id
        assert re.fullmatch(r".{15,}\.", entry["citation"]), id
        assert set(entry) <= {"kind", "citation", "section", "edition", "mark", "note"}, id
        if entry["kind"] == "published":
            assert entry["edition"].strip(), id
            assert entry["mark"] in {"seen", "secondary"}, id
        if entry.get("mark") == "from memory":
            assert entry["kind"] == "from memory", f"{id}: not seen, so it is not called published"


def test_register_has_no_double() -> None:
    """No edition of a document stands in the register twice."""
    citations = [(entry["citation"], entry.get("edition")) for entry in REGISTER.values()]
    assert len(set(citations)) == len(citations)


def test_general_kinds_have_an_entry() -> None:
    """A figure without a document can always say which kind it is."""
    for id, kind in [
        ("common-practice", "common practice"),
        ("from-memory", "from memory"),
        ("demo", "demo"),
        ("derived", "derived"),
        ("geometry", "derived"),
        ("hydrostatics", "derived"),
    ]:
        assert tables.source(id)["kind"] == kind


@pytest.mark.parametrize("name", TABLES)
def test_tables_name_registered_sources(name: str) -> None:
    """Each `source` in a data table is an id of the register."""
    for path, record in records(json.loads((DATA / name).read_text("utf-8"))):
        if isinstance(record.get("source"), str):
            assert record["source"] in REGISTER, f"{name}{path}: {record['source']}"


@pytest.mark.parametrize("name", [n for n in TABLES if not n.startswith("rules-")])
def test_each_figure_has_source_and_mark(name: str) -> None:
    """Each figure of a table stands with its source and mark, in itself or in the record that holds it."""

    def check(data: object, path: str, held: bool) -> int:
        if isinstance(data, list):
            return sum(check(x, f"{path}[{i}]", held) for i, x in enumerate(data))
        if not isinstance(data, dict):
            return 0
        if "source" in data:
            assert data.get("mark") in ROW_MARKS, f"{name}{path}: mark {data.get('mark')!r}"
            held = True
        assert held or not {"value", "low", "high"} & set(data), f"{name}{path}: a figure without a source"
        return held + sum(check(x, f"{path}.{k}", held) for k, x in data.items())

    assert check(json.loads((DATA / name).read_text("utf-8")), "", False) > 0


def test_marks_do_not_promise_more_than_the_source() -> None:
    """A row from a source that was itself not seen never says "seen"."""
    for name in TABLES:
        for path, record in records(json.loads((DATA / name).read_text("utf-8"))):
            if record.get("mark") == "seen":
                assert REGISTER[record["source"]]["kind"] == "published", f"{name}{path}"
                assert REGISTER[record["source"]]["mark"] == "seen", f"{name}{path}: the source is secondary"


def test_code_names_registered_sources() -> None:
    """Each source id in Python, of equations, inputs, checks and cautions, is an id of the register."""
    found = {(path.name, id) for path in sorted(CODE.rglob("*.py")) for id in named_in_code(path.read_text("utf-8"))}
    assert len(found) > 10, "the search finds nothing any more"
    assert [pair for pair in sorted(found) if pair[1] not in REGISTER] == []


def test_pages_name_registered_sources() -> None:
    """Each source id in the handbook's pages is an id of the register."""
    found = {
        (path.name, id)
        for path in sorted((ROOT / "docs").rglob("*.md"))
        for id in named_in_page(path.read_text("utf-8"))
    }
    assert len(found) > 10, "the search finds nothing any more"
    assert [pair for pair in sorted(found) if pair[1] not in REGISTER] == []


def test_search_finds_what_it_should() -> None:
    """The search sees ids in calls, cautions, defaults, choices and blocks, and not in other text."""
    code = """
w.caution("note", "x", "a-1")
f(source="b-2" if x else "c-3")
d = {"source": "d-4", "other": "no"}
def g(*, source="e-5"): "no"
"""
    assert named_in_code(code) == {"a-1", "b-2", "c-3", "d-4", "e-5"}
    assert named_in_page("x {src: a-1 P3303.1.2} y\n/// caution | danger\n    source: b-2\n\nsource: no\n///\n") == {
        "a-1",
        "b-2",
    }


def test_fittings_table_is_complete() -> None:
    """Each kind, size, use and method has rows or says "none"."""
    data = tables.table("fittings")
    assert data["sizes"] == list(tables.table("pipes")["schedule-40"])
    for kind in data["kinds"]:
        for size in data["sizes"]:
            for use in ("air", "water"):
                for method, unit in (("equivalent-length", "ft"), ("loss-coefficient", "1")):
                    cell = data["rows"][kind][size][use][method]
                    if cell == "none":
                        assert tables.fitting(kind, size, use, method) == []
                        continue
                    assert cell != [], f"{kind} {size} {use} {method}: an empty cell does not say why"
                    assert all(row["unit"] == unit and row["value"] > 0 for row in cell), (
                        f"{kind} {size} {use} {method}"
                    )
    assert set(data["rows"]) == set(data["kinds"])
    assert all(set(sizes) == set(data["sizes"]) for sizes in data["rows"].values())


def test_each_fitting_has_a_value_in_air_and_water() -> None:
    """Every kind can be used without a typed loss coefficient, but "other" and the coupling: no table has one."""
    data = tables.table("fittings")
    for kind in data["kinds"]:
        for size in data["sizes"]:
            for use in data["uses"]:
                any_value = any(tables.fitting(kind, size, use, method) for method in data["methods"])
                assert any_value == (kind not in ("other", "coupling")), (kind, size, use)


# CC-1000 Companion Guidance (1-2018), page 10, 8.6: equivalent length in ft of 3, 4 and 6 in.
AIR = [
    ("elbow-90-sweep", (3, 6, 15)),
    ("elbow-90", (11, 15, 20)),
    ("elbow-45-sweep", (2, 3, 6)),
    ("elbow-45", (5, 6, None)),
]
# IRC 2018, Appendix A, Table A.2.2, page 822: 1-1/4, 1-1/2 and 2 in.
WATER = [("elbow-45", (1.61, 1.88, 2.41)), ("elbow-90", (3.45, 4.02, 5.17)), ("tee-branch", (6.90, 8.04, 10.3))]
# Public engineering datasheet of length-to-diameter ratios, same sizes; the 13.4 is 100 bores.
VALVES = [("check-valve", (11.5, 13.4, 17.2)), ("gate-valve", (0.92, 1.07, 1.38)), ("tee-run", (2.3, 2.68, 3.45))]


@pytest.mark.parametrize(("kind", "printed"), AIR)
def test_vent_fittings_as_printed(kind: str, printed: tuple[float | None, ...]) -> None:
    """The first row for air is the standard's own companion table, as printed."""
    for size, value in zip(("3", "4", "6"), printed, strict=True):
        first = tables.fitting(kind, size, "air", "equivalent-length")[0]
        assert (first["source"] == "cc-1000-companion-2018") == (value is not None)
        if value is not None:
            assert first["value"] == value


@pytest.mark.parametrize(
    ("kind", "printed", "source"),
    [(*row, "irc-2018-app-a") for row in WATER] + [(*row, "engineering-datasheet") for row in VALVES],
)
def test_water_fittings_as_printed(kind: str, printed: tuple[float, ...], source: str) -> None:
    """The first row for water is Table A.2.2 where it has the fitting, and the datasheet for the rest."""
    for size, value in zip(("1-1/4", "1-1/2", "2"), printed, strict=True):
        first = tables.fitting(kind, size, "water", "equivalent-length")[0]
        assert (first["value"], first["source"]) == (value, source)


def test_loss_coefficients_as_printed() -> None:
    """Loss coefficients of IRC 2018 Table A.2.2 (45, 90, tee: 0.42, 0.90, 1.80) come first, for every size and use."""
    for kind, printed in (("elbow-45", 0.42), ("elbow-90", 0.90), ("tee-branch", 1.80)):
        for size in tables.table("fittings")["sizes"]:
            for use in ("air", "water"):
                assert tables.fitting(kind, size, use, "loss-coefficient")[0]["value"] == printed


# ASTM D1785 dimensions as restated by an engineering table: nominal, outside diameter, minimum wall, bore, lb/ft.
PIPES = [
    ("2", 2.375, 0.154, 2.067, 0.68),
    ("3", 3.500, 0.216, 3.068, 1.41),
    ("4", 4.500, 0.237, 4.026, 2.01),
    ("6", 6.625, 0.280, 6.065, 3.53),
]


@pytest.mark.parametrize(("size", "outside", "wall", "bore", "weight"), PIPES)
def test_pipes_as_printed(size: str, outside: float, wall: float, bore: float, weight: float) -> None:
    """Pipe sizes are as printed, and the bore is the outside diameter less two minimum walls."""
    row = tables.pipe(size)
    assert [row[k]["value"] for k in ("outside_diameter", "minimum_wall", "bore", "weight")] == [
        outside,
        wall,
        bore,
        weight,
    ]
    assert bore == pytest.approx(outside - 2 * wall, abs=0.001)


def test_small_pipes_agree_with_their_walls() -> None:
    """The bores of 1-1/4 and 1-1/2 in. (IRC 2018 Table A.2.2: 1.380, 1.610) fit the remembered diameters and walls."""
    for size, bore in (("1-1/4", 1.380), ("1-1/2", 1.610)):
        row = tables.pipe(size)
        assert row["bore"]["value"] == bore
        assert bore == pytest.approx(row["outside_diameter"]["value"] - 2 * row["minimum_wall"]["value"], abs=1e-9)


@pytest.mark.parametrize(
    "call",
    [
        lambda: tables.source("nothing"),
        lambda: tables.rule_pack("nothing"),
        lambda: tables.pipe("5"),
        lambda: tables.fitting("elbow", "4", "air", "equivalent-length"),
        lambda: tables.table("nothing"),
    ],
)
def test_unknown_names_say_what_is_known(call) -> None:
    """A name that is not in a table is a KeyError that quotes it."""
    with pytest.raises(KeyError, match=r"nothing|'5'|'elbow'"):
        call()


def test_tables_are_read_once() -> None:
    """The same table is the same object the second time."""
    assert tables.table("pipes") is tables.table("pipes")
