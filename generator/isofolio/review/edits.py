"""Which entries a change adds, edits, renames, retires or removes, and which of their fields."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from isofolio.entries.fluids import Fluid
from isofolio.entries.records import Citation
from isofolio.entries.scalars import Amount
from isofolio.entries.stamps import digest
from isofolio.review.sides import Side

ADDED, CHANGED, RENAMED, RETIRED, REMOVED = "added", "changed", "renamed", "retired", "removed"
# Kinds that stand in one list a file.
LISTED = ("limits", "particles", "plasma", "words", "not-instead", "changes")


@dataclass(frozen=True)
class FieldChange:
    """A field before and after, in words; of a list what is lost and what is new."""

    field: str
    before: str
    after: str


@dataclass(frozen=True)
class Edit:
    """kind: folder or list; id: after the change (before it, of a removed entry); old: the id
    before a renaming, else the same; before, after: the records, None where there is none."""

    kind: str
    id: str
    old: str
    action: str
    before: Any
    after: Any

    @property
    def entry(self) -> str:
        """Kind and id."""
        return f"{self.kind}/{self.id}"

    @property
    def file(self) -> str:
        """The file it stands in."""
        return f"{self.kind}.yml" if self.kind in LISTED else f"{self.entry}.yml"

    @property
    def name(self) -> str:
        """How a person calls the entry."""
        record = self.after if self.after is not None else self.before
        return str(getattr(record, "name", None) or getattr(record, "title", None) or self.id)

    @property
    def fields(self) -> tuple[FieldChange, ...]:
        """What was edited in it."""
        return tuple(field_changes(self.before, self.after))


def edits_between(before: Side, after: Side) -> tuple[Edit, ...]:
    """Every edit, by kind and id. What does not load on one side is no edit: it is told as text."""
    found: list[Edit] = []
    for kind in (kind for kind in after.records if kind != "expected"):
        unread = {_entry_of(file) for side in (before, after) for file in side.unread}
        old = {n: r for n, r in before.records[kind].items() if not _is_unread(kind, n, unread)}
        new = {n: r for n, r in after.records[kind].items() if not _is_unread(kind, n, unread)}
        found += _edits(kind, old, new)
    return tuple(found)


def _entry_of(file: str) -> str:
    return file.removesuffix(".yml")


def _is_unread(kind: str, name: str, unread: set[str]) -> bool:
    return kind in unread or f"{kind}/{name}" in unread


def _edits(kind: str, old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Edit]:
    gone = {name: old[name] for name in old if name not in new}
    come = {name: new[name] for name in new if name not in old}
    renamed = {} if kind in LISTED else _renamed(gone, come)
    for name in sorted({*old, *new} - set(renamed)):
        if name in renamed.values():
            source = next(before for before, after in renamed.items() if after == name)
            yield Edit(kind, name, source, RENAMED, old[source], new[name])
        elif name in gone:
            yield Edit(kind, name, name, REMOVED, old[name], None)
        elif name in come:
            yield Edit(kind, name, name, ADDED, None, new[name])
        elif old[name] != new[name]:
            yield Edit(kind, name, name, _how(old[name], new[name]), old[name], new[name])


def _how(before: Any, after: Any) -> str:
    was, now = getattr(before, "status", ""), getattr(after, "status", "")
    return RETIRED if now == "retired" != was else CHANGED


def _renamed(gone: Mapping[str, Any], come: Mapping[str, Any]) -> dict[str, str]:
    """New id by old of entries that went and came again under another id."""
    found: dict[str, str] = {}
    for old, before in gone.items():
        same = [n for n in come if n not in found.values() and _is_same(before, come[n])]
        if same:
            found[old] = same[0]
    return found


def _is_same(before: Any, after: Any) -> bool:
    """Whether two entries of one kind are one entry: all but the id, the name, or the contents."""
    if before.model_copy(update={"id": after.id}) == after:
        return True
    if isinstance(before, Fluid):
        return before.name == after.name or (
            bool(before.contents) and digest(before) == digest(after)
        )
    return getattr(before, "name", None) is not None and before.name == after.name


def field_changes(before: BaseModel | None, after: BaseModel | None) -> Iterator[FieldChange]:
    """Every field that differs; none of an entry that stands on one side only."""
    if before is None or after is None:
        return
    for name in type(after).model_fields:
        old, new = getattr(before, name), getattr(after, name)
        if old == new:
            continue
        if isinstance(old, list) and isinstance(new, list):
            lost, come = [o for o in old if o not in new], [n for n in new if n not in old]
            yield FieldChange(name, in_words(lost), in_words(come))
        else:
            yield FieldChange(name, in_words(old), in_words(new))


def in_words(value: Any) -> str:
    """A value of an entry in one line.

    >>> from isofolio.entries.fluids import Content
    >>> in_words([Content(substance="glucose", amount="50 g/L")])
    'glucose 50 g/L'
    """
    if isinstance(value, list):
        return "; ".join(in_words(item) for item in value)
    if isinstance(value, dict):
        return ", ".join(f"{key} {in_words(item)}" for key, item in value.items())
    if isinstance(value, BaseModel):
        return _record_in_words(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value.text if isinstance(value, Amount) else str(value or "")


def _record_in_words(record: BaseModel) -> str:
    """The fields one after the other; a citation inside another record is left out."""
    values = [getattr(record, name) for name in type(record).model_fields]
    inside = [v for v in values if isinstance(record, Citation) or not isinstance(v, Citation)]
    words = [in_words(value) for value in inside]
    return (", " if isinstance(record, Citation) else " ").join(word for word in words if word)
