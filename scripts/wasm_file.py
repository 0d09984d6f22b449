"""Reads and writes the parts of a WebAssembly file: numbers, sections, the list of what is imported."""

FUNCTION, TABLE, MEMORY, VARIABLE = 0, 1, 2, 3  # what can be imported and offered; 4 is the tag of an exception
HEAD = 8  # bytes before the first section


def number(data: bytes, at: int) -> tuple[int, int]:
    """A number of seven bits a byte, and the place behind it."""
    value = shift = 0
    while True:
        byte = data[at]
        at, value, shift = at + 1, value | (byte & 127) << shift, shift + 7
        if byte < 128:
            return value, at


def behind(data: bytes, at: int, count: int = 1) -> int:
    """The place behind so many numbers."""
    for _ in range(count):
        while data[at] > 127:
            at += 1
        at += 1
    return at


def encoded(value: int) -> bytes:
    out = bytearray()
    while value > 127:
        out.append(value & 127 | 128)
        value >>= 7
    return bytes([*out, value])


def sized(part: bytes) -> bytes:
    return encoded(len(part)) + part


def taken(data: bytes, at: int) -> tuple[bytes, int]:
    """The bytes that a length stands in front of, and the place behind them."""
    length, start = number(data, at)
    return data[start : start + length], start + length


def sections(program: bytes) -> list[tuple[int, bytes]]:
    """Kind and contents of each section, in their order."""
    found, at = [], HEAD
    while at < len(program):
        kind = program[at]
        part, at = taken(program, at + 1)
        found.append((kind, part))
    return found


def joined(head: bytes, parts: list[tuple[int, bytes]]) -> bytes:
    return head[:HEAD] + b"".join(bytes([kind]) + sized(part) for kind, part in parts)


def imported_functions(section: bytes) -> list[str]:
    """Names of the functions of an import section."""
    count, at = number(section, 0)
    functions = []
    for _ in range(count):
        _, at = taken(section, at)
        name, at = taken(section, at)
        kind, at = section[at], at + 1
        if kind == FUNCTION:
            functions.append(name.decode())
        at += kind == TABLE  # the kind of what the table holds
        if kind in (TABLE, MEMORY):
            limits = 2 if section[at] & 1 else 1
            at = behind(section, at + 1, limits)
        elif kind == FUNCTION:
            at = behind(section, at)
        else:
            at += 2  # a variable's kind and whether it changes, or an exception's tag
    return functions
