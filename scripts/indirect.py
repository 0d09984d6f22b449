"""Sends the indirect calls of a WebAssembly program through one small function for each kind of call.

A browser's optimizing compiler guesses where an indirect call leads from where it has led so far, and drops the whole
compiled function when it guessed wrong.  Python's interpreter calls everything from one large function: V8 compiled that
up to six times in the first seconds of a visit, each time for long enough to be felt at the keys.  A function that all
calls of a kind go through has seen too many targets for a guess.  The compiler puts the small function back in the place
of the call, so that nothing is lost where it matters.
"""

from collections.abc import Iterator

from scripts.wasm_file import behind, encoded, imported_functions, joined, number, sections, sized, taken

TYPES, IMPORTS, FUNCTIONS, CODE = 1, 2, 3, 10  # numbers of the sections
FUNCTION_TYPE, INT = b"\x60", b"\x7f"
CALL, CALL_INDIRECT, GET, END = b"\x10", b"\x11", b"\x20", b"\x0b"
BRANCH_TABLE, SELECT_TYPED, FLOAT, DOUBLE, LONG = 0x0E, 0x1C, 0x43, 0x44, 0xFC
# Instruction -> how many numbers follow it.  Those of the second table come behind LONG.
FOLLOWED = {
    **dict.fromkeys((0x00, 0x01, 0x05, 0x0B, 0x0F, 0x19, 0x1A, 0x1B, 0xD1, *range(0x45, 0xC5)), 0),
    **dict.fromkeys((0x02, 0x03, 0x04, 0x06, 0x07, 0x08, 0x09, 0x0C, 0x0D, 0x10, 0x18, 0x3F, 0x40, 0x41, 0x42, 0xD0, 0xD2), 1),
    **dict.fromkeys(range(0x20, 0x27), 1),
    **dict.fromkeys((0x11, *range(0x28, 0x3F)), 2),
}
FOLLOWED_LONG = {**dict.fromkeys(range(8), 0), **dict.fromkeys((8, 10, 12, 14), 2), **dict.fromkeys((9, 11, 13, 15, 16, 17), 1)}

Kind = tuple[int, int]  # type of the function that is called, and the table in which it stands


def through_helpers(program: bytes) -> bytes:
    """The program with each indirect call made by a helper; the helpers stand behind its own functions.

    Raises RuntimeError where it holds an instruction or a type that is not known here.
    """
    whole = sections(program)
    parts = dict(whole)
    types = listed_types(parts[TYPES])
    bodies = listed(parts[CODE])
    helpers: dict[Kind, int] = {}
    first = len(imported_functions(parts[IMPORTS])) + len(bodies)
    for i, body in enumerate(bodies):
        bodies[i] = replaced(body, helpers, first)
    bodies += [helper(len(types[kind][0]), kind, table) for kind, table in helpers]
    wanted = [(types[kind][0] + INT, types[kind][1]) for kind, _ in helpers]
    types += [one for one in dict.fromkeys(wanted) if one not in types]
    defined, at = number(parts[FUNCTIONS], 0)
    changed = {
        TYPES: encoded(len(types)) + b"".join(FUNCTION_TYPE + sized(given) + sized(back) for given, back in types),
        FUNCTIONS: encoded(defined + len(helpers)) + parts[FUNCTIONS][at:] + b"".join(encoded(types.index(one)) for one in wanted),
        CODE: encoded(len(bodies)) + b"".join(map(sized, bodies)),
    }
    return joined(program, [(kind, changed.get(kind, part)) for kind, part in whole])


def listed(section: bytes) -> list[bytes]:
    """The entries of a section in which a length stands in front of each."""
    count, at = number(section, 0)
    found = []
    for _ in range(count):
        entry, at = taken(section, at)
        found.append(entry)
    return found


def listed_types(section: bytes) -> list[tuple[bytes, bytes]]:
    """What each type of function is given and gives back, a byte for each value."""
    count, at = number(section, 0)
    found = []
    for _ in range(count):
        if section[at : at + 1] != FUNCTION_TYPE:
            raise RuntimeError(f"a type that is no plain function's: {section[at]:#x}")
        given, at = taken(section, at + 1)
        back, at = taken(section, at)
        found.append((given, back))
    return found


def replaced(body: bytes, helpers: dict[Kind, int], first: int) -> bytes:
    """A function's body with its indirect calls sent to ``helpers``, which are numbered from ``first`` as they are met."""
    out, kept = bytearray(), 0
    for start, end in instructions(body):
        if body[start : start + 1] == CALL_INDIRECT:
            kind, place = number(body, start + 1)
            table, _ = number(body, place)
            out += body[kept:start] + CALL + encoded(helpers.setdefault((kind, table), first + len(helpers)))
            kept = end
    return bytes(out + body[kept:])


def instructions(body: bytes) -> Iterator[tuple[int, int]]:
    """Where each instruction of a function's body begins, and the place behind it."""
    groups, at = number(body, 0)
    for _ in range(groups):  # of variables: how many, and the byte that says what they are
        at = behind(body, at) + 1
    while at < len(body):
        start, at = at, behind_instruction(body, at)
        yield start, at


def behind_instruction(body: bytes, at: int) -> int:
    code, at = body[at], at + 1
    if code in FOLLOWED:
        return behind(body, at, FOLLOWED[code])
    if code == LONG:
        longer, at = number(body, at)
        if longer in FOLLOWED_LONG:
            return behind(body, at, FOLLOWED_LONG[longer])
    elif code in (FLOAT, DOUBLE):
        return at + (4 if code == FLOAT else 8)
    elif code in (BRANCH_TABLE, SELECT_TYPED):
        count, at = number(body, at)
        return behind(body, at, count + (code == BRANCH_TABLE))
    raise RuntimeError(f"an instruction that is not known here: {code:#x}")


def helper(given: int, kind: int, table: int) -> bytes:
    """A body that hands on what it is given, the place in the table last."""
    return b"\x00" + b"".join(GET + encoded(i) for i in range(given + 1)) + CALL_INDIRECT + encoded(kind) + encoded(table) + END
