"""Whether a substance can be computed with: its formula, its hydrate, its charge, its osmosis."""

import re
from collections.abc import Iterator, Mapping

from isofolio.chemistry.formula import molar_mass
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Catalogue, Reading
from isofolio.entries.substances import Particle, Substance

Finding = Iterator[Problem]

WATERS = {
    "anhydrous": 0,
    "monohydrate": 1,
    "dihydrate": 2,
    "trihydrate": 3,
    "hexahydrate": 6,
    "heptahydrate": 7,
}


def sound_substances(catalogue: Catalogue) -> frozenset[str]:
    """The ids of substances whose formula is known and whose particles carry no net charge."""
    return frozenset(
        substance.id
        for substance in catalogue.substances.values()
        if not _formula_fault(substance)
        and _particles_read(substance, catalogue.particles)
        and not _net_charge(substance, catalogue.particles)
    )


def formulas_are_known(reading: Reading) -> Finding:
    """Every symbol of a formula is one of an element."""
    for substance in reading.catalogue.substances.values():
        fault = _formula_fault(substance)
        if fault:
            what, _, how = fault.partition("; ")
            fix = f"{how[:1].upper()}{how[1:]}"
            yield reading.problem(_file(substance), ("formula",), what, fix)


def _formula_fault(substance: Substance) -> str:
    try:
        if substance.formula is not None:
            molar_mass(substance.formula)
    except ValueError as error:
        return str(error)
    return ""


def hydrates_fit(reading: Reading) -> Finding:
    """The water of crystallisation in a formula is that of the hydrate's name."""
    for substance in reading.catalogue.substances.values():
        if substance.formula is None or substance.hydrate is None:
            continue
        waters = sum(int(n or 1) for n in re.findall(r"\(H2O\)([0-9]{0,3})", substance.formula))
        if waters != WATERS[substance.hydrate]:
            named = WATERS[substance.hydrate]
            message = f'the formula holds {waters} (H2O), and "{substance.hydrate}" means {named}'
            fix = "Correct the one that is wrong: the millimoles in every gram hang on it."
            yield reading.problem(_file(substance), ("hydrate",), message, fix)


def salts_are_neutral(reading: Reading) -> Finding:
    """What a salt releases carries no net charge; an acid and a base are balanced in the fluid."""
    particles = reading.catalogue.particles
    for substance in reading.catalogue.substances.values():
        if not _particles_read(substance, particles):
            continue
        charge = _net_charge(substance, particles)
        if charge:
            message = f"the particles it releases carry a net charge of {charge:+d}"
            message += f" beside its base of {substance.base}" if substance.base else ""
            fix = "Correct the counts, or say base: or acid:."
            yield reading.problem(_file(substance), ("releases",), message, fix)


def _particles_read(substance: Substance, particles: Mapping[str, Particle]) -> bool:
    return set(substance.releases) <= set(particles)


def _net_charge(substance: Substance, particles: Mapping[str, Particle]) -> int:
    """The charge that nothing balances; the base beside an acid decides that of its anion."""
    if substance.acid is not None:
        return 0
    charge = sum(particles[p].charge * n for p, n in substance.releases.items())
    return charge - substance.base


def osmosis_can_be_computed(reading: Reading) -> Finding:
    """A likeness names a substance with figures of its own; Pitzer figures need two ions."""
    substances = reading.catalogue.substances
    for substance in substances.values():
        osmosis = substance.osmosis
        if osmosis is None:
            continue
        model = substances.get(osmosis.like or "")
        if model is not None and (model.osmosis is None or model.osmosis.like is not None):
            message = f"{model.id} has no figures of its own"
            fix = "Name a substance whose osmosis gives b0, b1 and c, a slope or a ratio."
            yield reading.problem(_file(substance), ("osmosis", "like"), message, fix)
        if osmosis.b0 is not None and not _is_salt(substance, reading.catalogue.particles):
            message = "b0, b1 and c hold for a salt of one cation and one anion only"
            fix = "Give a slope, a ratio, or the substance it is like."
            yield reading.problem(_file(substance), ("osmosis", "b0"), message, fix)


def _is_salt(substance: Substance, particles: Mapping[str, Particle]) -> bool:
    if not _particles_read(substance, particles):
        return True  # the missing particle is the problem
    charges = sorted(particles[p].charge for p in substance.releases)
    return len(charges) == 2 and charges[0] < 0 < charges[1]


def _file(substance: Substance) -> str:
    return f"substances/{substance.id}.yml"
