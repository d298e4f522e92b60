"""References between entries: each must name a file that exists."""

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from isofolio.entries.problems import Problem, did_you_mean
from isofolio.entries.scalars import Reference
from isofolio.entries.tree import KEY, Path, Tree
from isofolio.vocabulary.terms import CATALOGUE_FOLDERS


def _known_ids(trees: Mapping[str, Tree]) -> dict[str, set[str] | None]:
    """Ids by kind, judged by the files that exist; None where the list of them cannot be read."""
    known: dict[str, set[str] | None] = {kind: set() for kind in CATALOGUE_FOLDERS}
    for file in trees:
        folder, _, name = file.rpartition("/")
        ids = known.get(folder)
        if ids is not None:
            ids.add(name.removesuffix(".yml"))
    known["particles"] = _particle_ids(trees.get("particles.yml"))
    return known


def _particle_ids(tree: Tree | None) -> set[str] | None:
    if tree is None:
        return set()
    try:
        return {str(item["id"]) for item in tree.root["particles"]}
    except (TypeError, KeyError):
        return None


def references(value: Any, path: Path = ()) -> Iterator[tuple[Path, Reference]]:
    """Every reference to another entry inside a record, with its path."""
    if isinstance(value, Reference):
        yield path, value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from references(getattr(value, name), (*path, name))
    elif isinstance(value, dict):
        for key, item in value.items():
            if isinstance(key, Reference):
                yield (*path, str(key), KEY), key
            yield from references(item, (*path, str(key)))
    elif isinstance(value, list | tuple):
        for number, item in enumerate(value):
            yield from references(item, (*path, number))


def dangling(trees: Mapping[str, Tree], records: Mapping[str, BaseModel | None]) -> list[Problem]:
    known = _known_ids(trees)
    found = []
    for file, record in records.items():
        for path, reference in references(record):
            ids = known[reference.kind]
            if ids is None or reference in ids:
                continue
            message = f'there is no "{reference}" in {reference.kind}'
            fix = f"{did_you_mean(reference, ids)} Write an entry for it, or correct the id."
            found.append(trees[file].problem(path, message, fix.strip()))
    return found
