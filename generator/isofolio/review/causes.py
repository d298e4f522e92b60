"""Which edit does what: each edit is made alone on the old catalogue, and what it does there is its
own. So one edit that touches forty fluids is told once, and nothing is guessed from names."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from isofolio.entries.files import FOLDERS
from isofolio.entries.reading import Catalogue
from isofolio.handbook import Handbook
from isofolio.review.edits import ADDED, REMOVED, RENAMED, Edit
from isofolio.review.effects import Effect, both_of
from isofolio.review.judged import computed_effects
from isofolio.review.sides import Side, handbook_from

# Making an edit alone takes about a tenth of a second. Beyond so many, only edits that can touch
# other entries are tried; the others are known by the entry they stand in.
MOST_TRIED = 30
# Entries that others lean on. A new one changes nothing by itself and may be needed by an edit.
LEANED_ON = ("substances", "particles", "limits")
# What no figure and no judgement reads.
UNREAD = ("sources", "situations", "glossary", "confusions", "comparisons", "equipment")
LISTS_UNREAD = ("changes", "words", "stock")
FIELDS = {"plasma": "intervals", "not-instead": "not_instead"}

Causes = Mapping[Effect, tuple[str, ...]]


def causes_of(
    effects: Sequence[Effect], edits: Sequence[Edit], sides: tuple[Side, Side], start: Handbook
) -> Causes:
    """The entries whose edit explains each effect; none where only several together do."""
    base, head = sides
    renamed = renamings(edits)
    faulty = frozenset(problem.file for problem in base.problems)
    unsound = {problem.file for problem in head.problems}
    alone: dict[str, frozenset[Effect]] = {}
    sound = [edit for edit in edits if edit.file not in unsound]
    for edit in _tried(sound):
        catalogue = _with_edit(start.catalogue, edit, sound)
        handbook = handbook_from(base.reading, catalogue, faulty - {edit.file})
        alone[edit.entry] = frozenset(computed_effects(both_of(start, handbook, renamed)))
    edited = {edit.entry for edit in edits}
    return {effect: _cause(effect, alone, edited) for effect in effects}


def renamings(edits: Sequence[Edit]) -> dict[str, str]:
    """New address by old of the entries that a change renames."""
    return {f"{e.kind}/{e.old}": e.entry for e in edits if e.action == RENAMED}


def _cause(
    effect: Effect, alone: Mapping[str, frozenset[Effect]], edited: set[str]
) -> tuple[str, ...]:
    """The entry's own edit if that does it, else every edit that does it alone, else its own."""
    found = [entry for entry, does in alone.items() if effect in does]
    if effect.entry in found or (not found and effect.entry in edited):
        return (effect.entry,)
    return tuple(found)


def _tried(edits: Sequence[Edit]) -> list[Edit]:
    read = [edit for edit in edits if edit.kind not in (*UNREAD, *LISTS_UNREAD)]
    tried = [e for e in read if not (e.kind in LEANED_ON and e.action in {REMOVED, RENAMED})]
    return tried if len(tried) <= MOST_TRIED else [e for e in tried if e.kind != "fluids"]


def _with_edit(catalogue: Catalogue, edit: Edit, edits: Sequence[Edit]) -> Catalogue:
    """The old catalogue with one edit made, and with what is new to lean on."""
    new = [one for one in edits if one.action == ADDED and one.kind in LEANED_ON]
    for one in (*(one for one in new if one is not edit), edit):
        catalogue = _made(catalogue, one)
    return catalogue


def _made(catalogue: Catalogue, edit: Edit) -> Catalogue:
    """A catalogue with one entry put in, put in place of another, or taken out."""
    field = FIELDS.get(edit.kind, edit.kind)
    entries: Any = getattr(catalogue, field)
    if edit.kind in FIELDS:
        kept = tuple(one for one in entries if one != edit.before)
        return _with(catalogue, field, kept if edit.after is None else (*kept, edit.after))
    changed = {name: entry for name, entry in entries.items() if name != edit.old}
    if edit.after is not None:
        changed[edit.id] = edit.after
    ordered = sorted(changed.items()) if field in FOLDERS else changed.items()
    return _with(catalogue, field, MappingProxyType(dict(ordered)))


def _with(catalogue: Catalogue, field: str, value: Any) -> Catalogue:
    return replace(catalogue, **{field: value})
