"""A very small SVG writer: escaped text and attributes, short numbers, no style attributes.

The content security policy of the site blocks ``style="..."``, so the writer refuses it.  Colours
come from classes in the style sheet and from presentation attributes such as ``fill="url(#id)"``.
The same elements always give the same bytes.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape

NAMESPACE = "http://www.w3.org/2000/svg"

Attribute = str | float

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9-]*")
_IDENTIFIER = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
# Characters that XML 1.0 forbids even when escaped (production 2 of the recommendation).
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Element:
    """One SVG element: a name, attributes already written as text, children in order."""

    name: str
    attributes: tuple[tuple[str, str], ...]
    children: tuple["Element | str", ...]


def number(value: float) -> str:
    """A coordinate with at most two decimals, no trailing zeros and no negative zero.

    value: a length or a position [px of the viewBox].
    Raises ValueError for infinity and not-a-number: they would spoil the whole drawing.

    >>> number(12.0), number(1 / 3), number(-0.001)
    ('12', '0.33', '0')
    """
    if not math.isfinite(value):
        raise ValueError(f"a coordinate of a drawing is {value}; only finite numbers can be drawn")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def safe_text(text: str) -> str:
    """Text escaped for an element or an attribute; characters XML forbids become U+FFFD.

    >>> safe_text('<b> & "c"')
    '&lt;b&gt; &amp; &quot;c&quot;'
    """
    return escape(_FORBIDDEN.sub("\ufffd", text), quote=True)


def checked_id(text: str) -> str:
    """The text itself, when it can stand as an id on a page.

    Raises ValueError otherwise (a space would split ``aria-labelledby`` into two references).

    >>> checked_id("columns-glucose-5")
    'columns-glucose-5'
    """
    if not _IDENTIFIER.fullmatch(text):
        raise ValueError(
            f"{text!r} cannot be the id of a drawing; start with a letter and use only letters, "
            "digits, hyphens and underscores"
        )
    return text


def element(name: str, attributes: Mapping[str, Attribute], *children: Element | str) -> Element:
    """One element; text children and attribute values are escaped when it is written.

    Raises ValueError for a name that is no name, and for a style attribute or an event handler.

    >>> write(element("text", {"x": 1.5}, "a < b"))
    '<text x="1.5">a &lt; b</text>'
    """
    for key in (name, *attributes):
        if not _NAME.fullmatch(key):
            raise ValueError(f"{key!r} is no name of an element or attribute of a drawing")
    for key in attributes:
        if key == "style" or key.lower().startswith("on"):
            raise ValueError(f"{key!r} is blocked on our pages; use a class, and no script")
    written = tuple(
        (key, value if isinstance(value, str) else number(value))
        for key, value in attributes.items()
    )
    return Element(name, written, children)


def group(attributes: Mapping[str, Attribute], children: list[Element]) -> Element:
    """A ``g`` element around a list of elements."""
    return element("g", attributes, *children)


def write(item: Element | str) -> str:
    """The element as text, in the order given, with nothing between the tags.

    >>> write(element("g", {"class": "a"}, element("line", {"x1": 0, "x2": 2.50})))
    '<g class="a"><line x1="0" x2="2.5"/></g>'
    """
    if isinstance(item, str):
        return safe_text(item)
    attributes = "".join(f' {key}="{safe_text(value)}"' for key, value in item.attributes)
    if not item.children:
        return f"<{item.name}{attributes}/>"
    inside = "".join(write(child) for child in item.children)
    return f"<{item.name}{attributes}>{inside}</{item.name}>"
