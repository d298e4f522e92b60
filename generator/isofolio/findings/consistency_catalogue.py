"""What only the whole catalogue can show to be wrong: names, ids, intervals, memory."""

import unicodedata
from collections.abc import Iterator

from isofolio.entries.fluids import Fluid
from isofolio.entries.problems import Problem, quoted
from isofolio.entries.reading import Reading
from isofolio.entries.tree import Path
from isofolio.vocabulary.quantities import IN_PLASMA

Finding = Iterator[Problem]

# List files, the list in each, and what must stand in it once.
LISTS = (("particles.yml", "particles", "id"), ("limits.yml", "limits", "id"))
WORDS = ("words.yml", "words", "word")


def nothing_from_memory(reading: Reading) -> Finding:
    """A figure that somebody remembers is not printed with a source."""
    for file, tree in reading.trees.items():
        if "memory" not in tree.source and "\\" not in tree.source:
            continue  # only a backslash can spell the word in another way
        for path, value in _leaves(tree.root):
            if path and path[-1] == "seen" and value == "memory":
                message = "a figure from memory would be printed as if it had a source"
                fix = "Read a source for it, write  cite: common practice, or leave the figure out."
                yield reading.problem(file, path, message, fix)


def _leaves(node: object, path: Path = ()) -> Iterator[tuple[Path, object]]:
    if isinstance(node, dict):
        for key, item in node.items():
            yield from _leaves(item, (*path, key))
    elif isinstance(node, list):
        for number, item in enumerate(node):
            yield from _leaves(item, (*path, number))
    else:
        yield path, node


def names_are_single(reading: Reading) -> Finding:
    """No two fluids share a name, unless words.yml says that the word is ambiguous."""
    ambiguous = {_plain(word.word) for word in reading.catalogue.words}
    owners: dict[str, str] = {}
    for fluid in reading.catalogue.fluids.values():
        for kind, name, path in _names(fluid):
            owner = owners.setdefault(_plain(name), fluid.id)
            if owner != fluid.id and _plain(name) not in ambiguous:
                message = f"the {kind} {quoted(name)} belongs to {owner} already"
                fix = "Make it longer, or declare the word in words.yml with both candidates."
                yield reading.problem(f"fluids/{fluid.id}.yml", path, message, fix)


def _names(fluid: Fluid) -> Iterator[tuple[str, str, Path]]:
    yield "title", fluid.name, ("name",)
    for number, other in enumerate(fluid.also_known_as):
        yield other.kind, other.name, ("also_known_as", number, "name")


def _plain(name: str) -> str:
    """A name as people compare it: no capitals, single spaces, one way to write each letter."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def ids_are_single(reading: Reading) -> Finding:
    """No two entries with a page of their own share an id."""
    catalogue = reading.catalogue
    owners: dict[str, str] = {}
    pages = {
        "fluids": catalogue.fluids,
        "substances": catalogue.substances,
        "situations": catalogue.situations,
        "comparisons": catalogue.comparisons,
    }
    for folder, entries in pages.items():
        for identifier in entries:
            owner = owners.setdefault(identifier, folder)
            if owner != folder:
                message = f'the id "{identifier}" belongs to {owner}/{identifier}.yml already'
                fix = "Give one of the two another id."
                yield reading.problem(f"{folder}/{identifier}.yml", ("id",), message, fix)


def lists_have_single_ids(reading: Reading) -> Finding:
    """No id, and no ambiguous word, stands twice in a list file."""
    for file, key, name in (*LISTS, WORDS):
        tree = reading.trees.get(file)
        root = tree.root if tree is not None else None
        items = root.get(key) if isinstance(root, dict) else None
        seen: set[str] = set()
        for number, item in enumerate(items if isinstance(items, list) else ()):
            text = item.get(name) if isinstance(item, dict) else None
            if not isinstance(text, str):
                continue
            if _plain(text) in seen:
                message = f"the {name} {quoted(text)} stands twice"
                fix = "Keep one of the two."
                yield reading.problem(file, (key, number, name), message, fix)
            seen.add(_plain(text))


def intervals_fit(reading: Reading) -> Finding:
    """An interval of plasma has two ends, in the unit of its quantity."""
    for number, interval in enumerate(reading.catalogue.intervals):
        amount, unit = interval.interval, IN_PLASMA[interval.quantity].unit
        if amount.state != "range" or amount.unit != unit or amount.per_millilitres:
            message = f'"{amount.text}" is not an interval of {interval.quantity}'
            fix = f"Write both ends and the unit, as in 3 to 4 {unit}."
            fix = "Write both ends without a unit, as in 3 to 4." if unit == "1" else fix
            yield reading.problem("plasma.yml", ("intervals", number, "interval"), message, fix)


def one_interval_beside(reading: Reading) -> Finding:
    """One interval a quantity is the one printed beside the fluids."""
    chosen: set[str] = set()
    for number, interval in enumerate(reading.catalogue.intervals):
        if not interval.beside:
            continue
        if interval.quantity in chosen:
            message = f"two intervals of {interval.quantity} are marked beside: yes"
            fix = "Keep the mark on one of them."
            yield reading.problem("plasma.yml", ("intervals", number, "beside"), message, fix)
        chosen.add(interval.quantity)
