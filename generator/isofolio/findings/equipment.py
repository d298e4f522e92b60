"""What a fluid needs of equipment, and why: from its containers, its role and its figures."""

from collections.abc import Mapping

from isofolio.entries.equipment import Equipment, Need
from isofolio.entries.reading import Catalogue
from isofolio.findings.conditions import Subject, holds


def needs(entry: Equipment, subject: Subject) -> tuple[Need, ...]:
    """The reasons why a fluid needs a piece; none for what is withdrawn, for it is not hung."""
    if subject.fluid.status != "current":
        return ()
    return tuple(
        need for need in entry.needed_by if all(holds(one, subject) for one in need.applies)
    )


def needed(catalogue: Catalogue, subject: Subject) -> Mapping[str, tuple[Need, ...]]:
    """The pieces that a fluid needs, by id, each with its reasons."""
    found = {one.id: needs(one, subject) for one in catalogue.equipment.values()}
    return {identifier: reasons for identifier, reasons in found.items() if reasons}
