"""Which mixing entries speak of a fluid, and the other way round."""

from collections.abc import Mapping, Sequence

from isofolio.entries.mixing import Mixing
from isofolio.entries.reading import Catalogue
from isofolio.findings.conditions import Subject, holds
from isofolio.findings.when_asked import WhenAsked
from isofolio.measures.table import Table


def concerns(entry: Mixing, subject: Subject) -> bool:
    """Whether an entry speaks of a fluid: every condition holds; no condition, no fluid."""
    return bool(entry.concerns) and all(holds(one, subject) for one in entry.concerns)


def mixing_of(catalogue: Catalogue, table: Table) -> Mapping[str, tuple[Mixing, ...]]:
    """The mixing entries of every fluid, by id, in the order of what is told first."""
    entries = sorted(catalogue.mixing.values(), key=lambda entry: (entry.first, entry.id))

    def of(names: Sequence[str]) -> dict[str, tuple[Mixing, ...]]:
        subjects = {name: Subject(catalogue.fluids[name], catalogue, table) for name in names}
        return {
            name: tuple(entry for entry in entries if concerns(entry, subject))
            for name, subject in subjects.items()
        }

    return WhenAsked(catalogue.fluids, of)
