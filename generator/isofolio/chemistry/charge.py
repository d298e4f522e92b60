"""Electric charge of what is dissolved: cations, anions, and what a colloid has to carry."""

from collections.abc import Mapping

import numpy as np

from isofolio.chemistry.amounts import Amounts, Particles, magnitude, plain, weighted_sum

PHOSPHATE_PK2 = 6.80
"""Apparent second pK of phosphoric acid in plasma at 37 °C [1]. From memory; gives 1.80 at 7.4."""


def milliequivalents(millimoles: Amounts, charge: Amounts) -> Amounts:
    """Charge carried by an ion: mEq = |z| mmol.

    millimoles [mmol/L]; charge z: its charge number, signed or not [1]. Returns [mEq/L].

    >>> milliequivalents(2.5, -2)
    5.0
    """
    return millimoles * magnitude(charge)


def cation_charge(particles: Particles, charges: Particles) -> Amounts:
    """Sum of the positive charge: concentration times charge number, over all cations.

    particles [mmol/L]; charges: signed charge number of each particle by id [1], a number or an
    array where it differs between fluids. A particle without a charge number makes the sum of
    a fluid that holds it unknown (NaN). Returns a magnitude [mEq/L].

    >>> cation_charge({"calcium": 2.0, "chloride": 4.0}, {"calcium": 2, "chloride": -1})
    4.0
    """
    return weighted_sum(particles, {name: _positive(z) for name, z in charges.items()})


def anion_charge(particles: Particles, charges: Particles) -> Amounts:
    """Sum of the negative charge: concentration times charge number, over all anions.

    The charge of a colloid (`polyanion`) is not in it. Arguments as for `cation_charge`.
    Returns a magnitude [mEq/L].

    >>> anion_charge({"calcium": 2.0, "chloride": 4.0}, {"calcium": 2, "chloride": -1})
    4.0
    """
    return weighted_sum(particles, {name: _positive(-z) for name, z in charges.items()})


def charge_gap(cations: Amounts, anions: Amounts, polyanion: Amounts = 0.0) -> Amounts:
    """What is missing for electroneutrality: cations - anions - polyanion, magnitudes [mEq/L].

    Zero within rounding where every ion is known; below 1e-6 where the ions come from weighed
    salts. It is shown, never used to invent a missing ion.

    >>> charge_gap(154.0, 120.0, 34.0)
    0.0
    """
    return cations - anions - polyanion


def polyanion_charge(base: Amounts, other_acids: Amounts = 0.0) -> Amounts:
    """Charge of a dissolved polyanion (gelatin) from the base that neutralises it.

    base: sodium hydroxide or its like added as such [mEq/L]; other_acids: the part of it that
    neutralises acids given by themselves (malic, hydrochloric) [mEq/L]. Returns a magnitude
    [mEq/L]. Example: 1.36 g/L of NaOH on 4 % succinylated gelatin.

    >>> round(polyanion_charge(1.36 * 1000 / 39.997), 1)
    34.0
    """
    return base - other_acids


def charge_from_base(base: Amounts, acid: Amounts, up_to: float = float("inf")) -> Amounts:
    """Mean charge number of an acid's anion in the bag, from the base that neutralises it.

    base: sodium hydroxide or its like added as such [mEq/L]; acid [mmol/L]; up_to: protons that
    the acid can give [1]. Returns z, negative [1]; NaN where there is no acid, which counts for
    nothing in the sums. A malic acid brought to pH 5 to 6 with about its own amount of sodium
    hydroxide is -1 in the bag, not the -2 of its formula.

    >>> charge_from_base(5.0, 5.0, up_to=2)
    -1.0
    >>> charge_from_base(0.0, 0.0)
    nan
    """
    some = np.where(np.equal(acid, 0.0), np.nan, acid)
    return plain(-np.minimum(base / some, up_to))


def charge_left_to(
    anion: str, releases: Mapping[str, float], charges: Mapping[str, float]
) -> float:
    """Charge number that one anion must carry so that a weighed salt is neutral.

    anion: id of the particle; releases: particles per formula unit by id; charges: charge
    numbers of all its other particles by id [1]. Used for phosphate, which is -1 in KH2PO4 and
    -2 in K2HPO4. Raises ValueError where the salt does not release that anion, KeyError where
    another particle's charge is not given.

    >>> charge_left_to("phosphate", {"potassium": 2, "phosphate": 1}, {"potassium": 1})
    -2.0
    """
    if not releases.get(anion):
        raise ValueError(
            f"the salt releases {', '.join(sorted(releases)) or 'nothing'} and no {anion}: "
            "name one of its own particles."
        )
    others = (name for name in sorted(releases) if name != anion)
    return -sum(releases[name] * charges[name] for name in others) / releases[anion]


def phosphate_charge(ph: Amounts, pk2: Amounts = PHOSPHATE_PK2) -> Amounts:
    """Mean charge number of inorganic phosphate: -(1 + 1 / (1 + 10^(pK2 - pH))).

    ph, from 5 to 9 [1]; pk2: second pK of phosphoric acid under the conditions meant [1].
    Returns z [1], between -1 and -2. A milliequivalent of phosphate means nothing without a pH.

    >>> round(phosphate_charge(7.4), 2)
    -1.8
    """
    return plain(-(1.0 + 1.0 / (1.0 + np.power(10.0, pk2 - ph))))


def label_tolerance(units: Mapping[str, float], charges: Mapping[str, float]) -> float:
    """How far the charges of a correctly rounded label may fail to close: half a unit of each ion.

    Each half is multiplied by the ion's charge number, and all are added.

    units: the last declared digit of each ion on the label [mmol/L], by id (1 for "131", 0.1 for
    "5.4"); charges: charge numbers by id [1]. Returns a magnitude [mEq/L].
    Raises KeyError for an ion without a charge number.

    >>> label_tolerance({"sodium": 1.0, "calcium": 1.0}, {"sodium": 1, "calcium": 2})
    1.5
    """
    return sum(0.5 * units[name] * abs(charges[name]) for name in sorted(units))


def _positive(charge: Amounts) -> Amounts:
    return plain(np.maximum(charge, 0.0))
