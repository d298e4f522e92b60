"""Read the whole catalogue: every file, every fault, in one run."""

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Any

from isofolio.entries.cautions import Caution
from isofolio.entries.comparisons import Comparison
from isofolio.entries.equipment import Equipment
from isofolio.entries.expected import Expected
from isofolio.entries.files import FOLDERS, LISTS, LastReading, Told, told_by
from isofolio.entries.fluids import Fluid
from isofolio.entries.folder import files_in
from isofolio.entries.lists import Change, Interval, Limit, NotInstead, Source, Word
from isofolio.entries.mixing import Mixing
from isofolio.entries.problems import Place, Problem
from isofolio.entries.references import Found, dangling
from isofolio.entries.situations import Situation
from isofolio.entries.stock import Stock
from isofolio.entries.substances import Particle, Substance
from isofolio.entries.teaching import Confusion, Term
from isofolio.entries.tree import Path as TreePath
from isofolio.entries.tree import Tree


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


def read_catalogue(folder: Path, last: LastReading | None = None) -> Reading:
    """Read every YAML file of `folder`. Faults never raise: they are in `Reading.problems`.

    A folder that does not exist is a problem too. last: what the files said before, and what they
    say now.
    """
    if not folder.is_dir():
        message = f"there is no folder {folder.name}/ here"
        missing = Problem(folder.name, Place(1, 1), message, "Name it with --catalogue DIR.")
        return Reading(Catalogue(), (missing,), (), {}, "0" * 12)
    last = last or LastReading()
    last.files = {file: told_by(path, file, last) for file, path in files_in(folder)}
    return reading_of({file: told for file, (_, told) in last.files.items()})


def reading_of(told: Mapping[str, Told]) -> Reading:
    """What the files of a catalogue say together; no disk is touched."""
    trees = {file: one.tree for file, one in told.items()}
    named = {file: one.named for file, one in told.items()}
    problems = [problem for one in told.values() for problem in one.problems]
    problems += dangling(trees, named)
    catalogue = _catalogue({file: one.record for file, one in told.items() if one.record})
    notices = () if problems else tuple(_unused_sources(trees, named, catalogue))
    return Reading(catalogue, tuple(sorted(problems)), notices, trees, _digest(trees))


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
