"""The handbook as JSON."""

import json
from collections.abc import Iterable, Iterator
from typing import Any

from isofolio.exports.document import DOCUMENT_PARTS
from isofolio.exports.figures import exported
from isofolio.handbook import Handbook


def json_export(handbook: Handbook) -> str:
    """The document as JSON text: the same catalogue and program give the same bytes.

    Keys stand in the contract's order; numbers carry 12 significant digits. Raises ValueError
    where a number is not finite: JSON knows no NaN, and unknown is null with a reason.
    """
    return "".join(json_pieces(handbook))


def json_pieces(handbook: Handbook) -> Iterator[str]:
    """The same text in pieces, so that the document of thousands is never held whole."""
    return pieces_of((key, part(handbook)) for key, part in DOCUMENT_PARTS)


def pieces_of(parts: Iterable[tuple[str, Any]]) -> Iterator[str]:
    """JSON text of an object by its keys and values; of an iterator one item after the other.

    >>> "".join(pieces_of([("a", 1.5), ("b", iter(["c"]))]))
    '{\\n "a": 1.5,\\n "b": [\\n  "c"\\n ]\\n}\\n'
    """
    before = "{"
    for key, value in parts:
        yield f"{before}\n {_text(key)}: "
        yield from _value(value)
        before = ","
    yield "\n}\n"


def _value(node: Any) -> Iterator[str]:
    """A value one level deep; of a list that is made as it is read, one item after the other."""
    if not isinstance(node, Iterator):
        yield _deeper(_text(node), 1)
        return
    before = "["
    for item in node:
        yield f"{before}\n  {_deeper(_text(item), 2)}"
        before = ","
    yield "[]" if before == "[" else "\n ]"


def _deeper(text: str, levels: int) -> str:
    """JSON as it stands so many levels deep; no text in it holds a line end of its own."""
    return text.replace("\n", "\n" + " " * levels)


def _text(node: Any) -> str:
    return strict_json(_rounded(node)).removesuffix("\n")


def strict_json(made: Any) -> str:
    """JSON text of plain dicts and lists, keys in their order, one to a line.

    Raises ValueError where a number is not finite.
    """
    return json.dumps(made, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def _rounded(node: Any) -> Any:
    if isinstance(node, float):
        return exported(node)
    if isinstance(node, dict):
        return {key: _rounded(item) for key, item in node.items()}
    if isinstance(node, list):
        return [_rounded(item) for item in node]
    return node
