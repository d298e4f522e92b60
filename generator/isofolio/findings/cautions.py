"""The cautions of every fluid: exactly those whose conditions hold, most severe first."""

from collections.abc import Callable, Iterable

from isofolio.entries.cautions import Caution
from isofolio.findings.conditions import Subject, holds
from isofolio.vocabulary.terms import SIGNAL_WORDS


def cautions_of(subject: Subject) -> tuple[Caution, ...]:
    """Every caution that a fluid raises, danger first, then by id."""
    catalogue = subject.catalogue
    raised = [caution for caution in catalogue.cautions.values() if raises(caution, subject)]
    return tuple(sorted(raised, key=lambda caution: (severity(caution), caution.id)))


def ordered(cautions: Iterable[Caution], raised_by: Callable[[str], int]) -> tuple[Caution, ...]:
    """The same, and within one signal word the caution that fewest fluids raise first.

    What is said of everything tells a reader less than what is said of this fluid.
    raised_by: how many fluids raise the caution of an id.
    """

    def rank(caution: Caution) -> tuple[int, int, str]:
        return severity(caution), raised_by(caution.id), caution.id

    return tuple(sorted(cautions, key=rank))


def raises(caution: Caution, subject: Subject) -> bool:
    """Whether every condition holds and none of the exceptions does."""
    for condition in caution.applies:
        if not holds(condition, subject):
            return False
    return not any(holds(condition, subject) for condition in caution.unless)


def severity(caution: Caution) -> int:
    """0 for danger, rising to 3 for notice."""
    return SIGNAL_WORDS.index(caution.signal)
