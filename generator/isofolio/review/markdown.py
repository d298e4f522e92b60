"""Text of entries in a Markdown report: it may hold anything, and none of it may do anything.

Signs that mean something in Markdown or HTML are written so that they are only shown. What a Git
host makes active by itself (a mention, an issue, an address, a little picture) is broken by a WORD
JOINER, which has no width and forbids a line break.
"""

import re
from collections.abc import Iterable, Sequence

JOINER = "\u2060"
LONGEST = 160
_ENTITIES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", "|": "&#124;", "`": "&#96;", "~": "&#126;"}
_MEANT = re.compile(r"([\\*_\[\]])")
# A sign directly before a word: @name, #12, !12, $1, %3 are references on one host or another.
_REFERENCE = re.compile(r"([@#!$%~^](?=[\w{(])|&(?=\d))")
_ADDRESS = re.compile(r"(?<=\w:)(?=//)|(?<=www)(?=\.)|(?<=mailto:)|(?<=xmpp:)", re.IGNORECASE)
_SPACES = re.compile(r"[^\S\u00a0\u202f]+")
_PICTURE = re.compile(r":(?=[\w+-]+:)")


def escaped(text: str, longest: int = LONGEST) -> str:
    """Any text as it is shown, on one line, and not at any length.

    >>> escaped("a | b <img>")
    'a &#124; b &lt;img&gt;'
    >>> escaped("@nurse") == "@" + JOINER + "nurse"
    True
    """
    line = _SPACES.sub(" ", text).strip()
    line = "".join(c for c in line if c.isprintable() or c in "\u00a0\u202f")
    shown = line if len(line) <= longest else line[: longest - 1].rstrip() + "…"
    shown = _REFERENCE.sub(rf"\1{JOINER}", shown)
    shown = _ADDRESS.sub(JOINER, shown)
    shown = _PICTURE.sub(f":{JOINER}", shown)
    shown = "".join(_ENTITIES.get(character, character) for character in shown)
    return _MEANT.sub(r"\\\1", shown)


def code(text: str, longest: int = LONGEST) -> str:
    """An id, a file or an address of the catalogue, set as code; other text as it is shown.

    >>> code("fluids/glucose-5.yml")
    '`fluids/glucose-5.yml`'
    """
    plain = re.fullmatch(r"[A-Za-z0-9 ._:/#=+-]+", text) and len(text) <= longest
    return f"`{text}`" if plain else escaped(text, longest)


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """The lines of a table of cells that are Markdown already; nothing without rows."""
    lines = [_row(row) for row in rows]
    return [_row(head), _row(["---"] * len(head)), *lines] if lines else []


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def listed(names: Sequence[str], most: int) -> str:
    """Names in a sentence, the further ones counted.

    >>> listed(["a", "b", "c"], 2)
    'a, b and 1 more'
    """
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
