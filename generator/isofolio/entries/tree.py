"""From the bytes of one YAML file to a tree of text, with the place of every part.

Only the plain part of YAML is admitted: one document of mappings, sequences and scalars. Anchors,
aliases, tags and merge keys are refused, and so is everything that would let a file of a few bytes
grow. Scalars stay text; an unquoted one is a `Plain`, so that a record can tell `no` from `"no"`.
"""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from functools import cached_property
from sys import intern
from typing import Any

import yaml

from isofolio.entries.characters import (
    LARGEST_FILE,
    decode,
    is_clean,
    one_line_end,
    place_at,
    refuse_escaped,
    refuse_invisible,
)
from isofolio.entries.problems import Fault, Place, Problem, excerpt, quoted
from isofolio.entries.syntax import explained

DEEPEST = 20
MOST_NODES = 20_000

Path = tuple[str | int, ...]
KEY = "[key]"
TWICE = "[twice]"
EMPTY = ("the file is empty", "Copy the template of its kind from README.md, or delete the file.")


class Plain(str):
    """A scalar written without quotes."""

    __slots__ = ()


@dataclass
class Tree:
    """What one file says, and the faults met.

    noted: the place of each path, for a tree that is read to learn them; None for all others.
    sound: a record was made of it, and it is an entry that bears its file's name.
    """

    file: str
    source: str
    problems: list[Problem] = field(default_factory=list)
    noted: dict[Path, Place] | None = None
    sound: bool = False

    @cached_property
    def root(self) -> Any:
        """Dicts, lists and text; None where there are faults. Read again where it was let go of."""
        with suppress(Fault):
            return _build(Tree(self.file, self.source))
        return None

    def let_go(self) -> None:
        """Forget what a sound entry says: its record says it in less memory."""
        self.sound = True
        del self.root

    @cached_property
    def places(self) -> dict[Path, Place]:
        """Where every part stands: its value by its path, its key by the path and KEY.

        The text is read again for it: a sound file is never asked, and the places of a large
        catalogue would take more memory than all that it says.
        """
        if self.noted is not None:
            return self.noted
        again = Tree(self.file, self.source, noted={})
        with suppress(Fault):
            _build(again)
        return again.places

    def note(self, path: Path, event: Any) -> None:
        """Keep the place of a path, in a tree that is read to learn them."""
        if self.noted is not None:
            self.noted[path] = _place(event)

    def place(self, path: Path) -> Place:
        """The place of `path`, or of its nearest known parent."""
        while path and path not in self.places:
            path = path[:-1]
        return self.places.get(path, Place(1, 1))

    def problem(self, path: Path, message: str, fix: str = "") -> Problem:
        """A problem at `path`, with the line it stands on."""
        return self.problem_at(self.place(path), message, fix)

    def problem_at(self, place: Place, message: str, fix: str = "") -> Problem:
        """A problem at a place of this file."""
        return Problem(self.file, place, message, fix, excerpt(self.source, place))


def read_tree(raw: bytes, file: str) -> Tree:
    """Parse one file. Its faults never raise: they are in `problems`, and then root is None."""
    tree = Tree(file, "")
    try:
        tree.source = decode(raw)
        refuse_invisible(tree.source)
        tree.root = _build(tree)
    except Fault as fault:
        tree.source = tree.source or _shown_source(raw)
        # The parser counts a line after the last one where a file ends in the middle of it.
        place = min(fault.place, place_at(tree.source))
        tree.problems.append(tree.problem_at(place, fault.message, fault.fix))
    if not tree.problems and tree.root == "":
        tree.problems.append(tree.problem_at(Place(1, 1), *EMPTY))
    if tree.problems:
        tree.root = None
    return tree


def _shown_source(raw: bytes) -> str:
    """What an editor sees of a file that cannot be decoded: its beginning, for the excerpt."""
    shown = raw[:LARGEST_FILE] if b"\0" not in raw[:4] else b""
    return one_line_end(shown.decode("utf-8-sig", "replace"))


def _events(source: str) -> Iterator[Any]:
    try:
        yield from yaml.parse(source, Loader=yaml.CSafeLoader)
    except yaml.MarkedYAMLError as error:
        raise explained(source, error) from None
    except (yaml.YAMLError, ValueError):
        # A character or a tag that the parser cannot even name.
        fix = "Copy the template of its kind from README.md and fill it in again."
        raise Fault(Place(1, 1), "the file cannot be read as YAML", fix) from None


def _place(event: Any) -> Place:
    return Place(event.start_mark.line + 1, event.start_mark.column + 1)


def _build(tree: Tree) -> Any:
    """Build the tree from the event stream: one pass, so that nothing can grow or loop."""
    events = iter(_Guarded(_events(tree.source)))
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            return _document(tree, events)
    raise Fault(Place(1, 1), *EMPTY)


def _document(tree: Tree, events: Iterator[Any]) -> Any:
    root = _node(tree, next(events), events, ())
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            raise Fault(
                _place(event),
                "a second document begins here",
                "One file holds one entry: split it.",
            )
    return root


class _Guarded:
    """The events, counted and refused where they leave the plain part of YAML."""

    def __init__(self, events: Iterator[Any]) -> None:
        self._events = events

    def __iter__(self) -> Iterator[Any]:
        depth = 0
        for number, event in enumerate(self._events):
            _refuse_event(event)
            if isinstance(event, yaml.CollectionStartEvent):
                depth += 1
            elif isinstance(event, yaml.CollectionEndEvent):
                depth -= 1
            if depth > DEEPEST:
                raise Fault(_place(event), f"more than {DEEPEST} levels", "Flatten the entry.")
            if number > MOST_NODES:
                raise Fault(_place(event), f"more than {MOST_NODES} values", "Split the entry.")
            yield event


def _refuse_event(event: Any) -> None:
    if isinstance(event, yaml.AliasEvent):
        name = quoted(f"*{event.anchor}")
        raise Fault(_place(event), f"the alias {name} is not allowed", "Write the value out again.")
    if getattr(event, "anchor", None):
        name = quoted(f"&{event.anchor}")
        fix = "Remove it, and write the value out wherever it is needed."
        raise Fault(_place(event), f"the anchor {name} is not allowed", fix)
    if getattr(event, "tag", None):
        tag = quoted(event.tag.replace("tag:yaml.org,2002:", "!!"))
        raise Fault(
            _place(event), f"the tag {tag} is not allowed", "Remove it: every value is text."
        )


def _node(tree: Tree, event: Any, events: Iterator[Any], path: Path) -> Any:
    tree.note(path, event)
    if isinstance(event, yaml.ScalarEvent):
        return _scalar(event)
    if isinstance(event, yaml.SequenceStartEvent):
        return _sequence(tree, events, path)
    return _mapping(tree, events, path)


def _refuse_escaped(event: Any) -> None:
    if not is_clean(event.value):
        refuse_escaped(event.value, _place(event))


def _scalar(event: Any) -> str:
    _refuse_escaped(event)
    # The parser gives the sign of the quotes as the style: "" for none.
    return str(event.value) if event.style else Plain(event.value)


def _sequence(tree: Tree, events: Iterator[Any], path: Path) -> list[Any]:
    items: list[Any] = []
    for event in events:
        if isinstance(event, yaml.SequenceEndEvent):
            break
        items.append(_node(tree, event, events, (*path, len(items))))
    return items


def _mapping(tree: Tree, events: Iterator[Any], path: Path) -> dict[str, Any]:
    pairs: dict[str, Any] = {}
    for event in events:
        if isinstance(event, yaml.MappingEndEvent):
            break
        key = _key(event)
        if key in pairs:
            _report_twice(tree, event, (*path, key))
            _node(tree, next(events), events, (*path, key, TWICE))
            continue
        tree.note((*path, key, KEY), event)
        pairs[key] = _node(tree, next(events), events, (*path, key))
    return pairs


def _report_twice(tree: Tree, event: Any, path: Path) -> None:
    first = tree.places[(*path, KEY)].line
    message = f"the key {quoted(str(path[-1]))} stands here again; it stood in line {first}"
    tree.problems.append(tree.problem_at(_place(event), message, "Keep one of the two."))


def _key(event: Any) -> str:
    if not isinstance(event, yaml.ScalarEvent):
        raise Fault(
            _place(event),
            "a list or a mapping stands where a key is expected",
            "Write  key: value.",
        )
    if event.value == "<<":
        raise Fault(_place(event), "the merge key << is not allowed", "Write the values out.")
    _refuse_escaped(event)
    return intern(event.value)  # the same few keys stand in every entry
