"""Read the whole catalogue: every file, every fault, in one run."""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel, ValidationError

from isofolio.entries.faults import translated
from isofolio.entries.problems import Place, Problem, did_you_mean
from isofolio.entries.records import (
    Change,
    Changes,
    Fluid,
    Interval,
    Limit,
    Limits,
    Particle,
    Particles,
    Plasma,
    Situation,
    Source,
    Substance,
    Word,
    Words,
)
from isofolio.entries.references import dangling, references
from isofolio.entries.tree import Path as TreePath
from isofolio.entries.tree import Tree, read_tree

# One entry a file, in a folder ...
FOLDERS: Mapping[str, type[BaseModel]] = MappingProxyType(
    {"fluids": Fluid, "substances": Substance, "situations": Situation, "sources": Source}
)
# ... and one list a file.
LISTS: Mapping[str, tuple[type[BaseModel], str]] = MappingProxyType(
    {
        "particles.yml": (Particles, "particles"),
        "plasma.yml": (Plasma, "intervals"),
        "limits.yml": (Limits, "limits"),
        "words.yml": (Words, "words"),
        "changes.yml": (Changes, "changes"),
    }
)


@dataclass(frozen=True)
class Catalogue:
    """The sound entries, by id, in alphabetical order."""

    fluids: Mapping[str, Fluid] = field(default_factory=dict)
    substances: Mapping[str, Substance] = field(default_factory=dict)
    situations: Mapping[str, Situation] = field(default_factory=dict)
    sources: Mapping[str, Source] = field(default_factory=dict)
    particles: Mapping[str, Particle] = field(default_factory=dict)
    intervals: tuple[Interval, ...] = ()
    limits: Mapping[str, Limit] = field(default_factory=dict)
    words: tuple[Word, ...] = ()
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True)
class Reading:
    """What a folder held: the sound entries, every problem, the notices, and where things stand.

    trees: by file ("fluids/glucose-5.yml"), so that a later finding can name its line.
    digest: 12 hex digits over the names and bytes of all files.
    """

    catalogue: Catalogue
    problems: tuple[Problem, ...]
    notices: tuple[Problem, ...]
    trees: Mapping[str, Tree]
    digest: str

    def problem(self, file: str, path: TreePath, message: str, fix: str = "") -> Problem:
        """A problem found later, at its line and column."""
        return self.trees[file].problem(path, message, fix)


def read_catalogue(folder: Path) -> Reading:
    """Read every YAML file of `folder`. Faults never raise: they are in `Reading.problems`.

    A folder that does not exist is a problem too.
    """
    if not folder.is_dir():
        message = f"there is no folder {folder.name}/ here"
        missing = Problem(folder.name, Place(1, 1), message, "Name it with --catalogue DIR.")
        return Reading(Catalogue(), (missing,), (), {}, "0" * 12)
    trees, problems = _trees(folder)
    records = {file: _record(tree, problems) for file, tree in trees.items()}
    problems += dangling(trees, records)
    catalogue = _catalogue({file: record for file, record in records.items() if record})
    notices = () if problems else tuple(_unused_sources(trees, records, catalogue))
    return Reading(catalogue, tuple(sorted(problems)), notices, trees, _digest(trees))


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder).as_posix()
        if path.is_file() and not inside.startswith("schemas/") and not path.name.startswith("."):
            yield inside, path


def _trees(folder: Path) -> tuple[dict[str, Tree], list[Problem]]:
    trees: dict[str, Tree] = {}
    problems: list[Problem] = []
    for file, path in _files(folder):
        if file.endswith(".md"):
            continue
        if path.is_symlink():
            problems.append(_whole_file(file, "a symbolic link", "Put the file itself here."))
            continue
        if _record_type(file) is None:
            problems.append(_whole_file(file, *_no_place(file)))
            continue
        trees[file] = read_tree(path.read_bytes(), file)
        problems += trees[file].problems
    return trees, problems


def _whole_file(file: str, message: str, fix: str) -> Problem:
    return Problem(file, Place(1, 1), message, fix)


def _no_place(file: str) -> tuple[str, str]:
    folder, _, name = file.rpartition("/")
    if folder in FOLDERS:
        return f"{name} is not a YAML entry", f"Entries of {folder}/ are named <id>.yml."
    guess = did_you_mean(folder or file, [*FOLDERS, *LISTS])
    return "no kind of entry has this place", f"{guess} See the table in README.md.".strip()


def _record_type(file: str) -> type[BaseModel] | None:
    folder, _, name = file.rpartition("/")
    if not folder:
        return LISTS[file][0] if file in LISTS else None
    return FOLDERS.get(folder) if name.endswith(".yml") else None


def _record(tree: Tree, problems: list[Problem]) -> BaseModel | None:
    """The record of one file, or None with its faults appended."""
    kind = _record_type(tree.file)
    if tree.root is None or kind is None:
        return None
    if not isinstance(tree.root, dict):
        problems.append(tree.problem((), "the entry is not a mapping", "Start with  id: ..."))
        return None
    try:
        record = kind.model_validate(tree.root)
    except ValidationError as error:
        problems += translated(tree, kind, error)
        return None
    misnamed = _misnamed(tree)
    problems += misnamed
    return None if misnamed else record


def _misnamed(tree: Tree) -> list[Problem]:
    if "/" not in tree.file:
        return []
    stem = tree.file.rpartition("/")[2].removesuffix(".yml")
    identifier = tree.root["id"]
    if identifier == stem:
        return []
    message = f'the id "{identifier}" is not the file name "{stem}"'
    fix = "Rename the file, or correct the id; an id never changes once published."
    return [tree.problem(("id",), message, fix)]


def _catalogue(records: Mapping[str, Any]) -> Catalogue:
    def folder(name: str) -> Mapping[str, Any]:
        chosen = (r for file, r in records.items() if file.startswith(f"{name}/"))
        return MappingProxyType({record.id: record for record in chosen})

    def listed(file: str) -> tuple[Any, ...]:
        record = records.get(file)
        return tuple(getattr(record, LISTS[file][1])) if record else ()

    def by_id(file: str) -> Mapping[str, Any]:
        return MappingProxyType({item.id: item for item in listed(file)})

    return Catalogue(
        fluids=folder("fluids"),
        substances=folder("substances"),
        situations=folder("situations"),
        sources=folder("sources"),
        particles=by_id("particles.yml"),
        intervals=listed("plasma.yml"),
        limits=by_id("limits.yml"),
        words=listed("words.yml"),
        changes=listed("changes.yml"),
    )


def _unused_sources(
    trees: Mapping[str, Tree], records: Mapping[str, Any], catalogue: Catalogue
) -> Iterator[Problem]:
    cited = {ref for record in records.values() for _, ref in references(record)}
    for identifier in catalogue.sources:
        if identifier not in cited:
            file = f"sources/{identifier}.yml"
            yield trees[file].problem((), "no entry cites this source", "Cite it or delete it.")


def _digest(trees: Mapping[str, Tree]) -> str:
    digest = hashlib.sha256()
    for file, tree in sorted(trees.items()):
        digest.update(f"{file}\0{tree.source}\0".encode())
    return digest.hexdigest()[:12]
