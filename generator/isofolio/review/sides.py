"""One side of a comparison: a catalogue as today's program reads it, sound or not.

A catalogue of long ago may have entries that no longer load. What loads is compared as entries,
what can be computed is compared as figures, and the rest as text.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from isofolio.entries.files import FOLDERS, LISTS
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Catalogue, Reading
from isofolio.entries.references import references
from isofolio.findings.consistency import sound_fluids
from isofolio.handbook import Handbook, check_catalogue, handbook_of

# The lists that must be whole for anything to be computed.
NEEDED = ("limits", "particles")
Records = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True)
class Side:
    """label: how the report calls it; records: every entry that loads, by kind and id;
    unread: the first problem of each file that does not load."""

    label: str
    reading: Reading
    problems: tuple[Problem, ...]
    records: Records
    unread: Mapping[str, Problem]

    def text(self, file: str) -> str | None:
        """What a file says, or None where there is no such file."""
        tree = self.reading.trees.get(file)
        return None if tree is None else tree.source


def side_of(folder: Path, label: str) -> Side:
    """Read one side."""
    reading, problems = check_catalogue(folder)
    records = records_of(reading.catalogue)
    return Side(label, reading, problems, records, dict(_unread(reading, records, problems)))


def records_of(catalogue: Catalogue) -> Records:
    """Every entry by kind and id; what stands in a list is an entry of its own."""
    found: dict[str, Mapping[str, Any]] = {kind: getattr(catalogue, kind) for kind in FOLDERS}
    found["particles"] = catalogue.particles
    found["limits"] = catalogue.limits
    found["plasma"] = {interval_id(one): one for one in catalogue.intervals}
    found["changes"] = {f"{one.on}, {one.text}": one for one in catalogue.changes}
    found["words"] = {one.word: one for one in catalogue.words}
    found["not-instead"] = {one.id: one for one in catalogue.not_instead}
    return found


def interval_id(interval: Any) -> str:
    """What tells one reference interval from another: quantity and population, or its place."""
    return str(interval.quantity if interval.beside else f"{interval.quantity}, {_who(interval)}")


def _who(interval: Any) -> str:
    return f"{interval.population}, {interval.cite.source}, {interval.cite.at}"


def _unread(
    reading: Reading, records: Records, problems: tuple[Problem, ...]
) -> Iterator[tuple[str, Problem]]:
    first = {problem.file: problem for problem in reversed(problems)}
    for file, tree in reading.trees.items():
        kind, _, name = file.rpartition("/")
        if not kind:
            loaded = file in LISTS and bool(_listed(reading, file)) == bool(tree.root)
        else:
            loaded = name.removesuffix(".yml") in records.get(kind, {})
        if not loaded and file in first:
            yield file, first[file]


def _listed(reading: Reading, file: str) -> Any:
    field = {"plasma.yml": "intervals", "not-instead.yml": "not_instead"}.get(file)
    return getattr(reading.catalogue, field or file.removesuffix(".yml"))


def computed(side: Side, other: Side) -> tuple[Handbook | None, tuple[str, ...]]:
    """Everything that can be computed of a side, and the lists that were borrowed for it.

    Without its limits or particles nothing can be computed: those of the other side stand in.
    Without both there is no handbook.
    """
    catalogue = side.reading.catalogue
    borrowed = tuple(name for name in NEEDED if _faulty(side, name))
    if any(_faulty(other, name) for name in borrowed):
        return None, ()
    lent = {name: getattr(other.reading.catalogue, name) for name in borrowed}
    faulty = frozenset(problem.file for problem in side.problems)
    return handbook_from(side.reading, replace(catalogue, **lent), faulty), borrowed


def _faulty(side: Side, name: str) -> bool:
    file = f"{name}.yml"
    return file not in side.reading.trees or any(one.file == file for one in side.problems)


def handbook_from(reading: Reading, catalogue: Catalogue, faulty: frozenset[str]) -> Handbook:
    """The handbook of what can be computed in a catalogue: a side's own, or one with an edit made.

    faulty: files with a problem; a substance or a fluid among them is left out, and with a
    substance everything that is weighed of it.
    """
    catalogue = replace(catalogue, substances=_sound_substances(catalogue, faulty))
    chosen = replace(reading, catalogue=catalogue)
    fluids = {f.id: f for f in sound_fluids(chosen) if f"fluids/{f.id}.yml" not in faulty}
    kept = replace(
        catalogue,
        fluids=MappingProxyType(fluids),
        cautions=_with_limits(catalogue.cautions, catalogue),
        mixing=_with_limits(catalogue.mixing, catalogue),
    )
    return handbook_of(replace(reading, catalogue=kept))


def _sound_substances(catalogue: Catalogue, faulty: frozenset[str]) -> Mapping[str, Any]:
    """The substances without a problem that are like none that has one."""
    kept = {n: s for n, s in catalogue.substances.items() if f"substances/{n}.yml" not in faulty}
    while lost := [n for n, s in kept.items() if not _names_kept(s, kept)]:
        kept = {name: entry for name, entry in kept.items() if name not in lost}
    return MappingProxyType(kept)


def _names_kept(substance: Any, kept: Mapping[str, Any]) -> bool:
    return all(ref in kept for _, ref in references(substance) if ref.kind == "substances")


def _with_limits(entries: Mapping[str, Any], catalogue: Catalogue) -> Mapping[str, Any]:
    """The entries whose conditions name limits that are there."""
    return MappingProxyType(
        {
            name: entry
            for name, entry in entries.items()
            if all(r in catalogue.limits for _, r in references(entry) if r.kind == "limits")
        }
    )
