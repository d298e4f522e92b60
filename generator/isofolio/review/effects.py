"""One thing that a change does: on which entry, what, from what to what."""

from dataclasses import dataclass

from isofolio.handbook import Handbook

# Where the report tells each kind; what is loud stands in the second place whatever its kind.
UNREAD, UNANNOUNCED, LOUD, ENTRIES, FIGURES, GAINED, OTHERS, ADDRESSES, UNCITED = range(9)
LEVELS = {
    "recipe": ENTRIES,
    "limit": ENTRIES,
    "figure": FIGURES,
    "plasma": FIGURES,
    "caution gained": GAINED,
    "alternatives": OTHERS,
    "address": ADDRESSES,
    "declared": UNCITED,
    "stamp": UNCITED,
}


@dataclass(frozen=True)
class Effect:
    """kind: one of CHANGE_KINDS; entry: kind and id of what it shows on, as "fluids/glucose-5".

    what: the quantity, caution, substance ... that changes; before, after: in words, "" where there
    is none; size: of a changed figure; loud: told before everything else.
    """

    kind: str
    entry: str
    what: str = ""
    before: str = ""
    after: str = ""
    size: str = ""
    loud: bool = False

    @property
    def level(self) -> int:
        """Its place in the report."""
        return LOUD if self.loud else LEVELS.get(self.kind, LOUD)

    @property
    def id(self) -> str:
        """The id of the entry it shows on."""
        return self.entry.partition("/")[2]


@dataclass(frozen=True)
class Pair:
    """A fluid on both sides: its id before, its id after, and the entry that effects are told of
    (an edit made alone leaves another's new id aside)."""

    old: str
    new: str
    entry: str


@dataclass(frozen=True)
class Both:
    """Two handbooks to compare: before and after, and the fluids that both have.

    renamed: new address by old, as "fluids/a" -> "fluids/b".
    """

    before: Handbook
    after: Handbook
    pairs: tuple[Pair, ...]
    renamed: dict[str, str]


def both_of(before: Handbook, after: Handbook, renamed: dict[str, str]) -> Both:
    """Two handbooks with their pairs of fluids."""
    pairs = []
    for old in before.catalogue.fluids:
        entry = renamed.get(f"fluids/{old}", f"fluids/{old}")
        new = entry.partition("/")[2]
        there = next((one for one in (new, old) if one in after.catalogue.fluids), None)
        if there is not None:
            pairs.append(Pair(old, there, entry))
    return Both(before, after, tuple(pairs), renamed)
