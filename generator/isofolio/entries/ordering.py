"""The keys of a file in the order of its record: pieces of text change places, none is rewritten.

A comment line belongs to the key below it. Of a mapping inside an entry that holds comment lines
the order is kept as it is: what they speak of cannot be known.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import yaml
from pydantic import BaseModel

from isofolio.entries.faults import keys_at
from isofolio.entries.tree import Path


@dataclass(frozen=True)
class _Written:
    """A text, with one kind of line end, and the record that tells the order of its keys."""

    text: str
    kind: type[BaseModel]


@dataclass(frozen=True)
class _Block:
    """A key of a block mapping: the comment and blank lines above it, and its own lines."""

    key: str
    lead: str
    body: str


def in_order(text: str, kind: type[BaseModel]) -> str:
    """The text of a file, its keys in the order of `kind`; its head and foot stay."""
    root = yaml.compose(text, Loader=yaml.CSafeLoader)
    if not isinstance(root, yaml.MappingNode) or root.flow_style:
        return text
    written, first_key = _Written(text, kind), root.start_mark.index
    start = _lead(text, first_key, _head(text, first_key), 0)
    foot = _lead(text, len(text), end_of(root), 0)
    blocks = _sorted(written, _blocks(written, root, (), start, foot), ())
    body = "".join(block.lead + block.body for block in blocks)
    return text[:start] + body.lstrip() + (text[foot:] if text[foot:].strip() else "")


def _head(text: str, first_key: int) -> int:
    """Where the head of a file ends: after its modeline, or after a blank line below that."""
    blank = text.rfind("\n\n", 0, first_key)
    first_line = text.find("\n", 0, first_key) + 1
    return max(first_line, blank + 2 if blank >= 0 else 0)


def _lead(text: str, position: int, floor: int, column: int) -> int:
    """Where the comments and blank lines above a line begin that stand at `column` or left of it.

    floor: where the text before them ends.
    """
    start = text.rfind("\n", 0, position) + 1
    while start > floor:
        above = text.rfind("\n", 0, start - 1) + 1
        line = text[above : start - 1]
        comment = line.lstrip().startswith("#") and len(line) - len(line.lstrip()) <= column
        if above < floor or (line.strip() and not comment):
            break
        start = above
    return start


def end_of(node: Any) -> int:
    """Where the text of a node ends: a block has no end of its own but that of its last part."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style or not node.value:
        return int(node.end_mark.index)
    last = node.value[-1]
    return end_of(last[1] if isinstance(node, yaml.MappingNode) else last)


def _blocks(written: _Written, node: Any, path: Path, start: int, stop: int) -> list[_Block]:
    """The keys of a block mapping, whose text stands between `start` and `stop`."""
    text, pairs, column = written.text, node.value, node.start_mark.column
    starts = [start]
    for (_, before), (key, _) in pairwise(pairs):
        starts.append(_lead(text, key.start_mark.index, end_of(before), column))
    return [
        _Block(
            key=key.value,
            lead=text[begin : key.start_mark.index - column]
            if begin < key.start_mark.index
            else "",
            body=_pair(written, (key, value), path, end),
        )
        for (key, value), begin, end in zip(pairs, starts, [*starts[1:], stop], strict=True)
    ]


def _sorted(written: _Written, blocks: list[_Block], path: Path) -> list[_Block]:
    return sorted(blocks, key=lambda block: _rank(written, block.key, path))


def _rank(written: _Written, key: str, path: Path) -> int:
    """The place of a key in its record; a key that no record knows comes last."""
    known = keys_at(written.kind, path)
    return known.index(key) if key in known else len(known)


def _pair(written: _Written, pair: tuple[Any, Any], path: Path, stop: int) -> str:
    """A key and its value, and what follows it up to `stop`."""
    key, value = pair
    name = written.text[key.start_mark.index : key.end_mark.index]
    between = written.text[key.end_mark.index : value.start_mark.index]
    if ":" in between and "\n" not in between:
        between = ": "
    return name + between + _value(written, value, (*path, key.value), stop)


def _value(written: _Written, node: Any, path: Path, stop: int) -> str:
    """The text of a node from its start to `stop`, its own keys in their order."""
    if isinstance(node, yaml.ScalarNode):
        return _scalar(written.text, node) + written.text[node.end_mark.index : stop]
    if node.flow_style:
        return _flow(written, node, path) + written.text[node.end_mark.index : stop]
    if isinstance(node, yaml.MappingNode):
        return _nested(written, node, path, stop)
    return _items(written, node, path, stop)


def _scalar(text: str, node: Any) -> str:
    """A value as written; out of single quotes into double ones, where that changes nothing."""
    shown = text[node.start_mark.index : node.end_mark.index]
    if node.style != "'" or any(sign in shown for sign in '\n"\\'):
        return shown
    return f'"{node.value}"'


def _nested(written: _Written, node: Any, path: Path, stop: int) -> str:
    """A block mapping inside another, or behind the hyphen of a list."""
    start = node.start_mark.index
    blocks = _blocks(written, node, path, start, stop)
    if not _commented(written.text, start, stop):
        blocks = _sorted(written, blocks, path)
    indent = " " * node.start_mark.column
    first, *others = blocks
    return first.body + "".join(block.lead + indent + block.body for block in others)


def _commented(text: str, start: int, stop: int) -> bool:
    """Whether comment lines stand in a mapping, or between it and the key that it belongs to."""
    line = text.rfind("\n", 0, start) + 1
    behind_hyphen = bool(text[line:start].strip())
    above = text.rfind("\n", 0, max(line - 1, 0)) + 1
    lines = text[start if behind_hyphen else above : stop].split("\n")
    return any(line.lstrip().startswith("#") for line in lines)


def _items(written: _Written, node: Any, path: Path, stop: int) -> str:
    """A block list: its items stay in their order."""
    text, items = written.text, node.value
    made = text[node.start_mark.index : items[0].start_mark.index]
    for number, item in enumerate(items):
        following = items[number + 1] if number + 1 < len(items) else None
        end, next_start = stop, stop
        if following is not None:
            next_start = following.start_mark.index
            end = _lead(text, next_start, end_of(item), node.start_mark.column)
        made += _value(written, item, (*path, number), end) + text[end:next_start]
    return made


def _flow(written: _Written, node: Any, path: Path) -> str:
    """A list in [ ] or a mapping in { }; on one line with one space after each comma and colon."""
    whole = written.text[node.start_mark.index : node.end_mark.index]
    if whole[0] not in "{[" or not node.value:
        return whole
    parts = _parts(written, node, path)
    if "\n" not in whole:
        return whole[0] + ", ".join(_in_flow_order(written, node, path, parts)) + whole[-1]
    gaps = _gaps(written.text, node)
    if not any("#" in gap for gap in gaps):
        parts = _in_flow_order(written, node, path, parts)
    return "".join(gap + part for gap, part in zip(gaps, [*parts, ""], strict=True))


def _parts(written: _Written, node: Any, path: Path) -> list[str]:
    if isinstance(node, yaml.MappingNode):
        return [_pair(written, pair, path, end_of(pair[1])) for pair in node.value]
    return [_value(written, i, (*path, n), end_of(i)) for n, i in enumerate(node.value)]


def _in_flow_order(written: _Written, node: Any, path: Path, parts: list[str]) -> list[str]:
    if not isinstance(node, yaml.MappingNode):
        return parts
    ranks = [_rank(written, key.value, path) for key, _ in node.value]
    return [parts[n] for n in sorted(range(len(parts)), key=lambda n: ranks[n])]


def _gaps(text: str, node: Any) -> list[str]:
    """What stands before, between and after the parts of a flow collection."""
    pairs = isinstance(node, yaml.MappingNode)
    starts = [(part[0] if pairs else part).start_mark.index for part in node.value]
    ends = [end_of(part[1] if pairs else part) for part in node.value]
    before, after = [node.start_mark.index, *ends], [*starts, node.end_mark.index]
    return [text[end:start] for end, start in zip(before, after, strict=True)]
