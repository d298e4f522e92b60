"""What an alternative is not for: sentences of not-instead.yml, each raised by one of a few cases.

"Not instead of this for a line that carries blood" makes sense only where the missing fluid itself
is free of what the case looks for: each case therefore looks at both.
"""

from collections.abc import Callable, Mapping

from isofolio.entries.lists import NotInstead
from isofolio.entries.substances import Particle
from isofolio.findings.conditions import Subject
from isofolio.findings.limits import above, below
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES
from isofolio.wording.bag import listed
from isofolio.wording.figures import amount

# Below it a fluid is slightly hypotonic; the difference of potassium that counts.
WEAK, MORE_POTASSIUM = "tonicity-slightly-hypotonic", "not-instead-potassium"
NEEDED = (WEAK, MORE_POTASSIUM)


def raised(mine: Subject, theirs: Subject) -> tuple[NotInstead, ...]:
    """The sentences that hold for `theirs` in the place of `mine`, in the order of the file."""
    cases = mine.catalogue.not_instead
    return tuple(entry for entry in cases if CASES[entry.case](mine, theirs))


def anion_swap(mine: Subject, theirs: Subject) -> str:
    """That the base comes as another anion, or in one of the two only; "" where it is the same."""
    here, there = _bases(mine), _bases(theirs)
    if set(here) == set(there):
        return ""
    if not here:
        return f"a base, {_told(there)}, beside none"
    if not there:
        return f"no base beside {_told(here)}"
    return f"another base, {_told(there)} beside {_told(here)}"


def _bases(subject: Subject) -> dict[str, float]:
    """Bicarbonate, and the anions that the body turns, or may turn, into it [mmol/L], by name."""
    particles = subject.catalogue.particles
    anions = [q for q in PARTICLE_QUANTITIES if q.id in particles and _is_base(particles[q.id])]
    return {anion.label: held for anion in anions if (held := subject.number(anion.id))}


def _is_base(particle: Particle) -> bool:
    becomes = particle.fate in ("becomes-bicarbonate", "may-become-bicarbonate")
    return becomes or particle.id == "bicarbonate"


def _told(anions: Mapping[str, float]) -> str:
    return f"{listed([f'{name} {amount(held)}' for name, held in anions.items()])} mmol/L"


def _holds(subject: Subject, *quantities: str) -> bool:
    return any(subject.number(quantity) for quantity in quantities)


def _weak(subject: Subject) -> bool:
    return below(subject.number("tonicity_ratio"), subject.catalogue.limits[WEAK])


def _calcium_added(mine: Subject, theirs: Subject) -> bool:
    return _holds(theirs, "calcium") and not _holds(mine, "calcium")


def _spoils_blood(subject: Subject) -> bool:
    return _holds(subject, "calcium", "glucose_mass") or _weak(subject)


def _blood_line(mine: Subject, theirs: Subject) -> bool:
    """Also where a source lets only the missing fluid share the line."""
    only_mine = mine.fluid.with_blood is not None and theirs.fluid.with_blood is None
    return not _spoils_blood(mine) and (_spoils_blood(theirs) or only_mine)


def _raised_pressure(mine: Subject, theirs: Subject) -> bool:
    return _weak(theirs) and not _weak(mine)


def _brain_injury(mine: Subject, theirs: Subject) -> bool:
    base = ("lactate", "acetate")
    return _holds(theirs, *base) and not _holds(mine, *base)


def _high_potassium(mine: Subject, theirs: Subject) -> bool:
    here, there = mine.number("potassium"), theirs.number("potassium")
    more = None if here is None or there is None else there - here
    return above(more, mine.catalogue.limits[MORE_POTASSIUM])


def _always(_: Subject, __: Subject) -> bool:
    return True


CASES: Mapping[str, Callable[[Subject, Subject], bool]] = {
    "calcium-added": _calcium_added,
    "blood-line": _blood_line,
    "raised-pressure": _raised_pressure,
    "brain-injury": _brain_injury,
    "high-potassium": _high_potassium,
    "diluting-drugs": _always,
}
