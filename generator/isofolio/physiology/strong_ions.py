"""Strong ion difference of a fluid, in the bag and once the body has burnt its organic anions.

Bicarbonate is not a strong ion: sodium bicarbonate has the difference of its sodium. Phosphate
and protein are weak acids and are left out here; `dilution` counts them by themselves.

The charge of a colloid (gelatin) is an argument of its own. Left at 0 the functions return what
tables print, the difference of the small ions: 34 mEq/L for 4 % succinylated gelatin in saline.
Given, the polyanion counts as the non-volatile anion that it is, which leaves 0, as for saline:
the figure that decides the effect on pH.
"""

from isofolio.chemistry.amounts import Amounts, Particles, magnitude, weighted_sum
from isofolio.physiology.traits import (
    BECOMES_BICARBONATE,
    BICARBONATE,
    MAY_BECOME_BICARBONATE,
    METABOLISED,
    Trait,
    Traits,
)


def sid_in_bag(particles: Particles, traits: Traits, polyanion: Amounts = 0.0) -> Amounts:
    """Strong ion difference in the bag: Na + K + 2 Ca + 2 Mg - Cl - 2 SO4 - organic anions.

    About 0 for every balanced fluid. particles [mmol/L]; traits of each by id; polyanion: charge
    of a colloid to count as strong [mEq/L]. Returns [mEq/L]; NaN where a particle that the fluid
    holds has no trait.

    >>> ions = {"sodium": Trait(1, True, "stays"), "bicarbonate": Trait(-1, False, "stays")}
    >>> sid_in_bag({"sodium": 150.0, "bicarbonate": 150.0}, ions)
    150.0
    """
    return _difference(particles, traits, frozenset(), polyanion)


def sid_in_body(particles: Particles, traits: Traits, polyanion: Amounts = 0.0) -> Amounts:
    """Strong ion difference after full metabolism: as in the bag, without the burnt anions.

    Lactate, acetate, malate and citrate no longer count, and gluconate neither, which is the
    upper end of what is known of gluconate; `sid_in_body_low` is the lower. Arguments and unit
    as `sid_in_bag`.
    Source: Morgan, Crit Care 2005;9:204: metabolised anions do not count against a fluid.

    >>> ions = {"sodium": Trait(1, True, "stays"),
    ...         "lactate": Trait(-1, True, "becomes-bicarbonate")}
    >>> sid_in_body({"sodium": 28.0, "lactate": 28.0}, ions)
    28.0
    """
    return _difference(particles, traits, METABOLISED, polyanion)


def sid_in_body_low(particles: Particles, traits: Traits, polyanion: Amounts = 0.0) -> Amounts:
    """Strong ion difference after metabolism if gluconate is excreted unchanged.

    Every particle that only may become bicarbonate is kept as an anion. Arguments and unit as
    `sid_in_bag`.

    >>> ions = {"sodium": Trait(1, True, "stays"),
    ...         "gluconate": Trait(-1, True, "may-become-bicarbonate")}
    >>> sid_in_body_low({"sodium": 23.0, "gluconate": 23.0}, ions)
    0.0
    """
    return _difference(particles, traits, METABOLISED - {MAY_BECOME_BICARBONATE}, polyanion)


def bicarbonate_yield(particles: Particles, traits: Traits) -> Amounts:
    """Bicarbonate that a litre becomes: its own, and the charge of every anion that is burnt.

    Gluconate counts in full, as in `sid_in_body`. In an electrically neutral fluid without
    phosphate or colloid the two figures are therefore the same number, by two roads.
    particles [mmol/L]; traits by id. Returns [mEq/L].

    >>> ions = {"bicarbonate": Trait(-1, False, "stays"),
    ...         "citrate": Trait(-3, True, "becomes-bicarbonate")}
    >>> bicarbonate_yield({"bicarbonate": 10.0, "citrate": 5.0}, ions)
    25.0
    """
    yields = {name: _bicarbonate_from(name, trait) for name, trait in traits.items()}
    return weighted_sum(particles, yields)


def _difference(
    particles: Particles, traits: Traits, gone: frozenset[str], polyanion: Amounts
) -> Amounts:
    counted = {name: _strong_charge(trait, gone) for name, trait in traits.items()}
    return weighted_sum(particles, counted) - polyanion


def _strong_charge(trait: Trait, gone: frozenset[str]) -> Amounts:
    return trait.charge if trait.strong and trait.fate not in gone else 0.0


def _bicarbonate_from(name: str, trait: Trait) -> Amounts:
    if name == BICARBONATE:
        return 1.0
    if trait.fate in (BECOMES_BICARBONATE, MAY_BECOME_BICARBONATE):
        return magnitude(trait.charge)
    return 0.0
