"""References between entries: each must name a file that exists."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from pydantic import BaseModel

from isofolio.entries.problems import Place, Problem, did_you_mean, quoted
from isofolio.entries.scalars import Reference
from isofolio.entries.tree import KEY, Path, Tree
from isofolio.vocabulary.terms import CATALOGUE_FOLDERS

# Kinds whose entries stand in one list file: the file, and the key of the list.
_LISTS = {"particles": "particles.yml", "limits": "limits.yml"}
_PLACES = {kind: f"{kind}/" for kind in CATALOGUE_FOLDERS} | _LISTS

# Where a record names another entry, and which.
Found = tuple[Path, Reference]

Known = Mapping[str, set[str] | None]


def _known_ids(trees: Mapping[str, Tree]) -> Known:
    """Ids by kind, judged by the files that exist; None where the list of them cannot be read.

    A file that has a problem of its own (its name, its place, its id) counts under every id that
    it may have been meant for, so that the problem is told once and not at every reference.
    """
    known: dict[str, set[str] | None] = {kind: set() for kind in CATALOGUE_FOLDERS}
    for file, tree in trees.items():
        folder, _, name = file.rpartition("/")
        kinds = [folder] if folder in known else CATALOGUE_FOLDERS if tree.problems else ()
        for kind in kinds:
            ids = known[kind]
            if ids is not None:
                ids.update(_ids_of(tree, name))
        if file in known:
            known[file] = None
    known |= {kind: _listed_ids(kind, trees.get(file)) for kind, file in _LISTS.items()}
    return known


def _ids_of(tree: Tree, name: str) -> set[str]:
    if tree.sound:
        return {name.removesuffix(".yml")}
    own = tree.root.get("id") if isinstance(tree.root, dict) else None
    return {name.partition(".")[0]} | ({str(own)} if isinstance(own, str) else set())


def _listed_ids(kind: str, tree: Tree | None) -> set[str] | None:
    items = tree.root.get(kind) if tree and isinstance(tree.root, dict) else None
    if not isinstance(items, list):
        return None
    ids = [item.get("id") for item in items if isinstance(item, dict)]
    return None if len(ids) < len(items) or None in ids else {str(i) for i in ids}


def references(value: Any, path: Path = ()) -> Iterator[Found]:
    """Every reference to another entry inside a record, with its path."""
    if isinstance(value, Reference):
        yield path, value
    elif value is None or isinstance(value, str):
        return  # most values are text: not asked what else they might be
    elif isinstance(value, BaseModel):
        for name, item in value:
            if type(item) is not str and item is not None:  # nor is the walk begun for them
                yield from references(item, (*path, name))
    elif isinstance(value, dict):
        for key, item in value.items():
            if isinstance(key, Reference):
                yield (*path, str(key), KEY), key
            yield from references(item, (*path, str(key)))
    elif isinstance(value, list | tuple):
        for number, item in enumerate(value):
            yield from references(item, (*path, number))


def dangling(trees: Mapping[str, Tree], named: Mapping[str, Sequence[Found]]) -> list[Problem]:
    """Every reference to an entry that does not exist; one problem where a whole list is gone.

    named: what the record of each file refers to.
    """
    known = _known_ids(trees)
    found = []
    needed = set()
    for file, references_of_file in named.items():
        for path, reference in references_of_file:
            needed.add(_LISTS.get(reference.kind, file))
            ids = known[reference.kind]
            if ids is not None and reference not in ids:
                message = f"there is no {quoted(reference)} in {_PLACES[reference.kind]}"
                found.append(trees[file].problem(path, message, _fix(reference, ids)))
    return found + [missing_list(file) for file in sorted(needed - set(trees))]


def missing_list(file: str) -> Problem:
    """One problem for a list file that is gone, however much of the catalogue hangs on it."""
    fix = "Put the file back: entries and rules look up what it lists."
    return Problem(file, Place(1, 1), f"there is no {file}", fix)


def _fix(reference: Reference, ids: set[str]) -> str:
    """The forms of a substance that was named without its hydrate, or the nearest id."""
    forms = sorted(i for i in ids if i.startswith(f"{reference}-"))
    if reference.kind == "substances" and forms:
        return f"Name the form that is weighed: {' or '.join(forms)}."
    guess = did_you_mean(reference, sorted(ids))
    return f"{guess} Write an entry for it, or correct the id.".strip()
