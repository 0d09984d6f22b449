"""HTML, SVG and MathML as text that is escaped by construction: only ``Markup`` is put in as it stands."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Any

VOID = frozenset({"input", "br", "hr"})
_WORDS = {"class_": "class", "for_": "for"}
_NAMES: dict[str, str] = {}


class Markup(str):
    """Text that is markup already.  Made by ``el`` and ``join`` only."""

    __slots__ = ()


@lru_cache(4096)  # class names, words and figures come again and again
def escape(text: str) -> str:
    """The text with the signs that mean something in markup written as references; control characters are dropped."""
    if not text.isprintable():
        text = "".join(c for c in text if c >= " " or c in "\n\t")
    return (
        text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace('"', "&quot;")
        .replace("'", "&#39;")
    )


def unescape(markup: str) -> str:
    """What ``escape`` was given, but for its control characters."""
    for sign, name in (("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"), ("'", "&#39;"), ("&", "&amp;")):
        markup = markup.replace(name, sign)
    return markup


def _name(keyword: str) -> str:
    name = _NAMES.get(keyword)
    if name is None:
        name = _WORDS.get(keyword) or keyword.replace("_", "-")
        if name == "style" or name.startswith("on") or not name.replace("-", "").isalnum():
            raise ValueError(f"attribute {name!r} is not written here")  # the site's policy would refuse it anyway
        _NAMES[keyword] = name
    return name


def el(tag: str, *children: Any, **attributes: Any) -> Markup:
    """An element.  Children: Markup, text, None (left out); attributes: True stands alone, None and False are left out.

    Underscores in attribute names stand for hyphens.  Raises ValueError for style and event attributes.
    """
    parts = ["<", tag]
    for keyword, value in attributes.items():
        if value is None or value is False:
            continue
        parts.append(f" {_name(keyword)}" if value is True else f' {_name(keyword)}="{escape(str(value))}"')
    parts.append(">")
    if tag in VOID:
        return Markup("".join(parts))
    for child in children:
        if child.__class__ is Markup:
            parts.append(child)
        elif child is not None:
            parts.append(escape(str(child)))
    parts.append(f"</{tag}>")
    return Markup("".join(parts))


def join(parts: Iterable[Any]) -> Markup:
    """Several pieces of markup or text, one after the other."""
    return Markup("".join([p if p.__class__ is Markup else escape(str(p)) for p in parts if p is not None]))
