"""What a bag can be asked for by a figure: particles, weighed substances, osmolarity."""

from collections.abc import Iterator
from dataclasses import dataclass

from isofolio.entries.fluids import Declared, Fluid
from isofolio.entries.substances import Substance
from isofolio.finder.words import ALSO_MEASURED, COLLOID_WORDS
from isofolio.handbook import Handbook
from isofolio.measures.solutions import concentration, millimoles_of_particle
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES, QUANTITY_BY_ID
from isofolio.vocabulary.terms import HYDRATES
from isofolio.wording.figures import amount

PARTICLE, GRAMS, MILLIMOLES, TOTAL = "particle", "grams", "millimoles", "total"
OSMOLARITY = "osmolarity"


@dataclass(frozen=True)
class Measured:
    """Something that can be asked for.

    kind: a particle [mmol], a weighed substance in grams or millimoles, or a total of the litre.
    charge: what turns mmol into mEq; 0 where mEq make no sense. words: how it is named.
    """

    key: str
    kind: str
    label: str
    unit: str
    charge: int
    words: tuple[str, ...]


@dataclass(frozen=True)
class Held:
    """A figure of a fluid, per litre.

    figures: the computed one first, then what labels declare otherwise; empty where unknown.
    shown: as people read it.
    """

    key: str
    figures: tuple[float, ...]
    shown: str


def measured(handbook: Handbook) -> tuple[Measured, ...]:
    """Everything that can be asked for, in a fixed order."""
    total = QUANTITY_BY_ID[OSMOLARITY]
    return (
        *(_particle(handbook, quantity.id) for quantity in PARTICLE_QUANTITIES),
        Measured(OSMOLARITY, TOTAL, total.label, total.unit, 0, (OSMOLARITY,)),
        *_substances(handbook),
    )


def held(handbook: Handbook, fluid: Fluid) -> Iterator[Held]:
    """What a fluid holds, and what is not known of it; what it does not hold is left out."""
    for key in (*(quantity.id for quantity in PARTICLE_QUANTITIES), OSMOLARITY):
        value = handbook.value(fluid.id, key)
        if value.number is None:
            yield Held(key, (), value.reason)
        elif value.number:
            figures = (value.number, *_declared(handbook, fluid, key, value.number))
            yield Held(key, figures, amount(value.number))
    yield from _weighed(handbook, fluid)


def without_hydrate(substance: Substance) -> str:
    """The name of a substance, whatever water it is weighed with.

    >>> without_hydrate(Substance.model_construct(name="Calcium chloride dihydrate"))
    'calcium chloride'
    """
    words = substance.name.lower().replace(",", " ").split()
    return " ".join(word for word in words if word not in HYDRATES)


def _particle(handbook: Handbook, key: str) -> Measured:
    quantity = QUANTITY_BY_ID[key]
    particle = handbook.catalogue.particles.get(key)
    charge = abs(particle.charge) if particle else 0
    words = (quantity.label, *ALSO_MEASURED.get(key, ()))
    return Measured(key, PARTICLE, quantity.label, quantity.unit, charge, words)


def _substances(handbook: Handbook) -> Iterator[Measured]:
    grouped: dict[str, list[Substance]] = {}
    for substance in handbook.catalogue.substances.values():
        grouped.setdefault(without_hydrate(substance), []).append(substance)
    for name, members in grouped.items():
        spoken = (name, *ALSO_MEASURED.get(name, ()))
        cations = tuple(_cations(handbook, members[0]))
        colloid = COLLOID_WORDS.get(members[0].colloid or "")
        # Grams of a salt are asked for by its metal too: "1 g calcium in 10 mL".
        said = (*spoken, colloid) if colloid else (*spoken, *(metal for metal, _ in cations))
        yield Measured(f"g {name}", GRAMS, name, "g/L", 0, said)
        if not colloid:
            charge = sum(charges for _, charges in cations)
            yield Measured(f"mmol {name}", MILLIMOLES, name, "mmol/L", charge, spoken)


def _cations(handbook: Handbook, substance: Substance) -> Iterator[tuple[str, int]]:
    """The metals of a salt, and how many positive charges of each a millimole sets free."""
    for identifier, count in substance.releases.items():
        particle = handbook.catalogue.particles[identifier]
        if particle.charge > 0:
            yield particle.name, particle.charge * count


def _weighed(handbook: Handbook, fluid: Fluid) -> Iterator[Held]:
    solution = handbook.solution(fluid.id)
    grams: dict[str, float] = {}
    millimoles: dict[str, float] = {}
    for identifier, mass in solution.masses.items():
        name = without_hydrate(handbook.catalogue.substances[identifier])
        if mass is not None:
            grams[name] = grams.get(name, 0.0) + mass
        moles = (solution.weighed or {}).get(identifier)
        if moles is not None:
            millimoles[name] = millimoles.get(name, 0.0) + moles
    for unit, amounts in (("g", grams), ("mmol", millimoles)):
        for name, number in amounts.items():
            yield Held(f"{unit} {name}", (number,), amount(number))


def _declared(handbook: Handbook, fluid: Fluid, key: str, computed: float) -> tuple[float, ...]:
    """Figures that labels print otherwise than we compute: a reader types what she reads."""
    found = {amount(computed): computed}
    for group in fluid.declared:
        number = _declared_figure(handbook, group, key)
        if number is not None:
            found.setdefault(amount(number), number)
    return tuple(found.values())[1:]


def _declared_figure(handbook: Handbook, group: Declared, key: str) -> float | None:
    declared = group.values.get(key)
    if declared is None or declared.state != "exact":
        return None
    particle = handbook.catalogue.particles.get(key)
    if particle is None:
        return concentration(declared, declared.low, QUANTITY_BY_ID[key].unit)
    return millimoles_of_particle(declared, declared.low, particle.charge)
