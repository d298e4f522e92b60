"""The review stamps of the catalogue: what was checked, by whom, and whether it still counts."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from isofolio.entries.files import FOLDERS
from isofolio.entries.reading import Catalogue
from isofolio.entries.records import Review
from isofolio.entries.stamps import stamp_of, state

COLUMNS = ("entry", "name", "state", "by", "second", "on", "due", "standing")
CHANGED = "changed since it was checked: counts as a draft"
OVERDUE = "overdue"


@dataclass(frozen=True)
class Reviewed:
    """An entry and its stamp. state: what the stamp counts as now."""

    kind: str
    id: str
    name: str
    state: str
    stamp: Review

    @property
    def changed(self) -> bool:
        """Whether it is another text than the one that was checked."""
        return self.stamp.state != self.state

    def overdue(self, as_of: str) -> bool:
        """Whether a stamp that counts was to be renewed by `as_of`, a date as 2026-11-25."""
        return self.state != "draft" and (self.stamp.due or "") <= as_of

    def standing(self, as_of: str) -> str:
        """What there is to say of its stamp on a day; nothing where all is well."""
        if self.changed:
            return CHANGED
        return OVERDUE if self.overdue(as_of) else ""


def stamped_kinds() -> tuple[str, ...]:
    """The folders whose entries carry a stamp."""
    return tuple(kind for kind, record in FOLDERS.items() if "review" in record.model_fields)


def reviewed(catalogue: Catalogue) -> tuple[Reviewed, ...]:
    """Every entry that carries a stamp, kind by kind."""
    return tuple(
        Reviewed(kind, one.id, one.name, state(one), stamp_of(one))
        for kind in stamped_kinds()
        for one in getattr(catalogue, kind).values()
    )


def row(one: Reviewed, as_of: str) -> tuple[str, ...]:
    """An entry in the order of COLUMNS; the state is the one that counts."""
    stamp = one.stamp
    told = [one.state, stamp.by, stamp.second, stamp.on, stamp.due, one.standing(as_of)]
    return (f"{one.kind}/{one.id}", one.name, *(text or "" for text in told))


def summary(entries: Iterable[Reviewed], as_of: str = "") -> str:
    """How many of each state, in a sentence.

    >>> summary([Reviewed("fluids", "a", "A", "draft", Review(state="draft"))])
    '1 entry: 0 double-checked, 0 checked, 1 draft.'
    """
    listed = tuple(entries)
    states = Counter(one.state for one in listed)
    drafts = "1 draft" if states["draft"] == 1 else f"{states['draft']} drafts"
    counted = f"{states['double-checked']} double-checked, {states['checked']} checked, {drafts}"
    late = sum(one.overdue(as_of) for one in listed) if as_of else 0
    changed = sum(one.changed for one in listed)
    more = f"; {changed} changed since they were checked" if changed else ""
    more += f"; {late} overdue" if late else ""
    return f"{'1 entry' if len(listed) == 1 else f'{len(listed)} entries'}: {counted}{more}."
