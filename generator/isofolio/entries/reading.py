"""Read the whole catalogue: every file, every fault, in one run."""

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel, ValidationError

from isofolio.entries.cautions import Caution
from isofolio.entries.characters import LARGEST_FILE
from isofolio.entries.comparisons import Comparison
from isofolio.entries.equipment import Equipment
from isofolio.entries.expected import Expected
from isofolio.entries.faults import translated
from isofolio.entries.fluids import Fluid
from isofolio.entries.folder import files_in
from isofolio.entries.lists import (
    Change,
    Changes,
    Interval,
    Limit,
    Limits,
    NotInstead,
    NotInsteads,
    Plasma,
    Source,
    Word,
    Words,
)
from isofolio.entries.mixing import Mixing
from isofolio.entries.problems import Place, Problem, did_you_mean, quoted
from isofolio.entries.references import Found, dangling, references
from isofolio.entries.situations import Situation
from isofolio.entries.stock import Stock
from isofolio.entries.substances import Particle, Particles, Substance
from isofolio.entries.teaching import Confusion, Term
from isofolio.entries.tree import Path as TreePath
from isofolio.entries.tree import Tree, read_tree

# One entry a file, in a folder ...
FOLDERS: Mapping[str, type[BaseModel]] = MappingProxyType(
    {
        "fluids": Fluid,
        "substances": Substance,
        "situations": Situation,
        "sources": Source,
        "cautions": Caution,
        "comparisons": Comparison,
        "mixing": Mixing,
        "equipment": Equipment,
        "stock": Stock,
        "glossary": Term,
        "confusions": Confusion,
        "expected": Expected,
    }
)
# ... and one list a file.
LISTS: Mapping[str, tuple[type[BaseModel], str]] = MappingProxyType(
    {
        "particles.yml": (Particles, "particles"),
        "plasma.yml": (Plasma, "intervals"),
        "limits.yml": (Limits, "limits"),
        "words.yml": (Words, "words"),
        "not-instead.yml": (NotInsteads, "cases"),
        "changes.yml": (Changes, "changes"),
    }
)


@dataclass(frozen=True)
class Catalogue:
    """The sound entries, by id, in alphabetical order; stocked: the hospital laid over them."""

    fluids: Mapping[str, Fluid] = field(default_factory=dict)
    substances: Mapping[str, Substance] = field(default_factory=dict)
    situations: Mapping[str, Situation] = field(default_factory=dict)
    sources: Mapping[str, Source] = field(default_factory=dict)
    cautions: Mapping[str, Caution] = field(default_factory=dict)
    comparisons: Mapping[str, Comparison] = field(default_factory=dict)
    mixing: Mapping[str, Mixing] = field(default_factory=dict)
    equipment: Mapping[str, Equipment] = field(default_factory=dict)
    stock: Mapping[str, Stock] = field(default_factory=dict)
    stocked: Stock | None = None
    glossary: Mapping[str, Term] = field(default_factory=dict)
    confusions: Mapping[str, Confusion] = field(default_factory=dict)
    expected: Mapping[str, Expected] = field(default_factory=dict)
    particles: Mapping[str, Particle] = field(default_factory=dict)
    intervals: tuple[Interval, ...] = ()
    limits: Mapping[str, Limit] = field(default_factory=dict)
    words: tuple[Word, ...] = ()
    not_instead: tuple[NotInstead, ...] = ()
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True)
class Reading:
    """What a folder held: the sound entries, every problem, the notices, and where things stand.

    trees: by file ("fluids/glucose-5.yml"), so that a later finding can name its line.
    digest: 12 hex digits over the names and texts of all files, however their lines end.
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
    return reading_of({file: _tree(file, path) for file, path in files_in(folder)})


def reading_of(trees: Mapping[str, Tree]) -> Reading:
    """What the trees of a catalogue say, by file; no disk is touched."""
    problems = [problem for tree in trees.values() for problem in tree.problems]
    records = {file: record_of(tree, problems) for file, tree in trees.items()}
    named = {file: tuple(references(record)) for file, record in records.items()}
    problems += dangling(trees, named)
    catalogue = _catalogue({file: record for file, record in records.items() if record})
    notices = () if problems else tuple(_unused_sources(trees, named, catalogue))
    return Reading(catalogue, tuple(sorted(problems)), notices, trees, _digest(trees))


def _tree(file: str, path: Path) -> Tree:
    """The tree of one file; without a root, and with one problem, where it cannot be read."""
    if path.is_symlink():
        return _refused(file, "a link, not a file", "Put what it leads to here, in its place.")
    if path.is_dir():
        fix = "Ask who owns it for the right to read it. Folders in folders hold no entries."
        return _refused(file, "the folder cannot be looked into", fix)
    if not path.is_file():
        return _refused(file, "no ordinary file", "Remove it: an entry is a text file.")
    if record_type(file) is None:
        return _refused(file, *_no_place(file))
    try:
        with path.open("rb") as opened:
            return read_tree(opened.read(LARGEST_FILE + 1), file)
    except OSError as error:
        message = f"the file cannot be read: {error.strerror or error}"
        return _refused(file, message, "Ask who owns the file for the right to read it.")


def _refused(file: str, message: str, fix: str) -> Tree:
    return Tree(file, "", problems=[Problem(file, Place(1, 1), message, fix)])


def _no_place(file: str) -> tuple[str, str]:
    folder, _, name = file.rpartition("/")
    if folder in FOLDERS:
        stem = name.partition(".")[0]
        return f'the name {quoted(name)} does not end in ".yml"', f"Name it {stem}.yml, or move it."
    guess = did_you_mean(folder or file, [*FOLDERS, *LISTS])
    return "no kind of entry has this place", f"{guess} See the table in README.md.".strip()


def record_type(file: str) -> type[BaseModel] | None:
    """The record of a file by its place in the catalogue, or None where it has no place there."""
    folder, _, name = file.rpartition("/")
    if not folder:
        return LISTS[file][0] if file in LISTS else None
    return FOLDERS.get(folder) if name.endswith(".yml") else None


def record_of(tree: Tree, problems: list[Problem]) -> BaseModel | None:
    """The record of one file, or None with its faults appended."""
    kind = record_type(tree.file)
    if tree.root is None or kind is None:
        return None
    if not isinstance(tree.root, dict):
        first = LISTS[tree.file][1] if tree.file in LISTS else "id"
        problems.append(tree.problem((), "the file is not a mapping", f"Start with  {first}: …"))
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
    message = f"the id {quoted(identifier)} is not the file name {quoted(stem)}"
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

    folders: dict[str, Any] = {name: folder(name) for name in FOLDERS}
    return Catalogue(
        **folders,
        particles=by_id("particles.yml"),
        intervals=listed("plasma.yml"),
        limits=by_id("limits.yml"),
        words=listed("words.yml"),
        not_instead=listed("not-instead.yml"),
        changes=listed("changes.yml"),
    )


def _unused_sources(
    trees: Mapping[str, Tree], named: Mapping[str, Sequence[Found]], catalogue: Catalogue
) -> Iterator[Problem]:
    cited = {ref for found in named.values() for _, ref in found if ref.kind == "sources"}
    for identifier in catalogue.sources:
        if identifier not in cited:
            file = f"sources/{identifier}.yml"
            yield trees[file].problem((), "no entry cites this source", "Cite it or delete it.")


def _digest(trees: Mapping[str, Tree]) -> str:
    digest = hashlib.sha256()
    for file, tree in sorted(trees.items()):
        digest.update(f"{file}\0{tree.source}\0".encode())
    return digest.hexdigest()[:12]
