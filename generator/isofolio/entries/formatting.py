"""One way to write an entry down: keys in order, spaces, quotes, line ends, the modeline.

No value is written anew, so `0.90` stays `0.90`. What is read is the same before and after, or
nothing is changed.
"""

import re
from collections.abc import Iterator
from typing import Any

import yaml

from isofolio.entries.files import record_type
from isofolio.entries.ordering import in_order
from isofolio.entries.schema import modeline
from isofolio.entries.tree import Plain, read_tree

_MODELINE = re.compile(r"^# *yaml-language-server:.*\n?", re.MULTILINE)
_HEAD = re.compile(r"(?:[ \t]*(?:#.*)?\n)*(?:[ \t]*#.*\Z)?")


class FormatError(Exception):
    """A file that is left as it is; the message says why and what to do."""


def formatted(raw: bytes, file: str) -> bytes:
    """A file of the catalogue as `isofolio fmt` writes it. Raises FormatError.

    file: its place in the catalogue, as in fluids/glucose-5.yml.
    """
    kind = record_type(file)
    if kind is None:
        raise FormatError(f"{file}: no kind of entry has this place. See catalogue/README.md.")
    tree = read_tree(raw, file)
    if tree.problems:
        raise FormatError(tree.problems[0].text())
    source = tree.source if tree.source.endswith("\n") else tree.source + "\n"
    ordered = _checked(in_order(_with_modeline(source, file), kind), source, file)
    return _checked(_spaced(ordered), source, file).encode()


def _checked(text: str, before: str, file: str) -> str:
    """The text, if the same is read from it as from the one before."""
    if not _same(read_tree(text.encode(), file).root, read_tree(before.encode(), file).root):
        raise FormatError(f"{file}: it cannot be put in order. Write it plainly, as  key: value.")
    return text


def _same(one: Any, other: Any) -> bool:
    """Whether two trees say the same, down to what is written without quotes."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_same, one, other))
    return bool(one == other) and isinstance(one, Plain) == isinstance(other, Plain)


def _with_modeline(text: str, file: str) -> str:
    """The text below the line by which an editor finds its schema."""
    head = _HEAD.match(text)
    end = head.end() if head else 0
    rest = re.sub(r"\A(?:[ \t]*\n)+", "", _MODELINE.sub("", text[:end]) + text[end:])
    return f"{modeline(file)}\n{rest}"


def _spaced(text: str) -> str:
    """No space at the end of a line, no two blank lines, none at the end; values stay as they are.

    A value of several lines keeps all of them.
    """
    inside = _inside_values(text)
    lines = text.removesuffix("\n").split("\n")
    while len(lines) - 1 not in inside and not lines[-1].strip():
        lines.pop()
    kept: list[str] = []
    for number, line in enumerate(lines):
        trimmed = line if number in inside else line.rstrip()
        if trimmed or number in inside or kept[-1]:
            kept.append(trimmed)
    return "\n".join(kept) + "\n"


def _inside_values(text: str) -> set[int]:
    """The numbers, from 0, of the lines whose end lies inside a value of several lines."""
    lines: set[int] = set()
    events: Iterator[Any] = yaml.parse(text, Loader=yaml.CSafeLoader)
    for event in events:
        first, last = event.start_mark.line, event.end_mark.line
        if isinstance(event, yaml.ScalarEvent):
            lines.update(range(first, last))
    return lines
