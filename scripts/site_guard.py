"""What is looked for in a page before and after it is parsed: blocks and references that would quietly become text."""
import re

from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString

LINE = re.compile(r"^\s*(/{3,})[ \t]*([\w-]+)?[ \t]*(\|.*)?$")
LEFT = re.compile(r"(?m)^ {0,3}///+ .*$")


class OpenAndClose(Preprocessor):
    """Looks at the lines before anything is parsed; code fences are out of the way by then."""

    def run(self, lines):
        known = self.md.parser.blockprocessors["blocks"].blocks
        stack = []
        for number, line in enumerate(lines, 1):
            m = LINE.match(line)
            if not m:
                continue
            length, name = len(m.group(1)), m.group(2)
            if name is None:
                if not stack or stack[-1][0] != length:
                    raise ValueError(f"line {number}: {m.group(1)} closes nothing")
                stack.pop()
            elif name.lower() not in known:
                raise ValueError(f"line {number}: no block named {name!r}; known: {', '.join(sorted(known))}")
            elif stack and stack[-1][0] <= length:
                outer = stack[-1]
                raise ValueError(f"line {number}: block {outer[1]!r} of line {outer[2]} is never closed"
                                 f" (or needs more slashes than the {name!r} in it)")
            else:
                stack.append((length, name, number))
        if stack:
            raise ValueError(f"line {stack[-1][2]}: block {stack[-1][1]!r} is never closed")
        return lines


class NothingLeft(Treeprocessor):
    """A block or source reference that is still text was not understood."""

    def run(self, root):
        for element in root.iter():
            for text in (element.text, element.tail):
                left = text and not isinstance(text, AtomicString) and LEFT.search(text)
                if left:
                    raise ValueError(f"block not understood (argument or option wrong): {left.group(0).strip()!r}")


class NoReferenceLeft(Treeprocessor):
    """Runs after the inline patterns: a reference that was not read would be printed as it stands."""

    def run(self, root):
        for element in root.iter():
            for text in (element.text, element.tail):
                if text and not isinstance(text, AtomicString) and element.tag not in ("code", "pre") and "{src" in text:
                    raise ValueError(f"source reference not understood: {text[text.index('{src'):][:60]!r}")
