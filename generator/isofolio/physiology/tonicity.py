"""What of a fluid holds water outside cells after metabolism, and the free water in it."""

from isofolio.chemistry.amounts import Amounts, Answers, Particles, magnitude, weighted_sum
from isofolio.physiology.traits import (
    BECOMES_BICARBONATE,
    BURNT,
    MAY_BECOME_BICARBONATE,
    Trait,
    Traits,
)

PLASMA_CATIONS = 144.0
"""Sodium and potassium of a litre of normal plasma, 140 + 4 [mmol/L]."""

PLASMA_SODIUM = 140.0
"""Sodium of a litre of normal plasma, the denominator of a clinical clearance formula [mmol/L]."""

PLASMA_WATER_CATIONS = 154.84
"""The same 144 mmol per litre of plasma water, of which plasma is 0.93: 144 / 0.93 [mmol/L].

Source: Arch Dis Child 2004, table of in-vitro and in-vivo tonicity (144 beside 155, 7 % solids).
"""

PLASMA_EFFECTIVE_OSMOLARITY = 309.7
"""Twice that: effective particles of a litre of plasma water [mOsm/L]. A laboratory reports about
290 for plasma, because it measures and does not count."""

FREE_WATER_MINIMUM_SHARE = 0.95
"""Least share of sodium and potassium salts in the effective particles for which free water by
sodium and potassium is a fair statement [1]. This project's choice."""


def effective_osmolarity(particles: Particles, traits: Traits) -> Amounts:
    """Particles that still hold water outside cells after metabolism.

    Glucose is gone. Each organic anion is replaced, charge for charge, by bicarbonate, because
    the sodium that came with it stays: lactate and acetate one for one, citrate by three. All
    other ions and mannitol stay, potassium among them. A colloid is not counted. Not valid while
    blood glucose is high and unburnt.

    particles [mmol/L]; traits of each by id; a particle without a trait makes fluids that hold it
    unknown (NaN). Returns [mOsm/L].

    >>> ion = {"sodium": Trait(1, True, "stays"), "citrate": Trait(-3, True, "becomes-bicarbonate")}
    >>> effective_osmolarity({"sodium": 30.0, "citrate": 10.0}, ion)
    60.0
    """
    counts = {name: effective_particles(trait) for name, trait in traits.items()}
    return weighted_sum(particles, counts)


def effective_particles(trait: Trait) -> Amounts:
    """How many effective particles one particle leaves behind [1].

    >>> effective_particles(Trait(0, False, "burnt"))
    0.0
    """
    if trait.fate == BURNT:
        return 0.0
    if trait.fate in (BECOMES_BICARBONATE, MAY_BECOME_BICARBONATE):
        return magnitude(trait.charge)
    return 1.0


def tonicity_ratio(effective: Amounts, reference: float = PLASMA_EFFECTIVE_OSMOLARITY) -> Amounts:
    """Effective osmolarity of a fluid over that of plasma.

    effective [mOsm/L]; reference [mOsm/L]. Returns the ratio [1], always shown beside both
    numbers and never as a share of plasma alone.

    >>> round(tonicity_ratio(278.0), 2)
    0.9
    """
    return effective / reference


def free_water(
    sodium: Amounts, potassium: Amounts, denominator: float = PLASMA_WATER_CATIONS
) -> Amounts:
    """Electrolyte-free water in a litre of fluid: 1 - (Na + K) / 154.84.

    sodium, potassium [mmol/L]; denominator: by default the cations of plasma water; the cations
    of plasma itself (144) and its sodium alone (140) are published too, and with them 0.9 %
    saline seems to hold -7 % and -10 % [mmol/L]. Returns a fraction of a litre [1], negative for
    a fluid stronger than plasma. Publish only where `free_water_applies`.

    >>> round(free_water(154.0, 0.0), 3), free_water(0.0, 0.0)
    (0.005, 1.0)
    """
    return 1.0 - (sodium + potassium) / denominator


def free_water_applies(
    sodium: Amounts,
    potassium: Amounts,
    effective: Amounts,
    minimum_share: float = FREE_WATER_MINIMUM_SHARE,
) -> Answers:
    """Whether sodium and potassium salts make up enough of a fluid to speak of its free water.

    Their share is 2 (Na + K) over the effective osmolarity. Water and glucose hold nothing
    effective and pass; mannitol and magnesium sulfate do not. Unknown input gives no.

    sodium, potassium [mmol/L]; effective [mOsm/L]; minimum_share [1].

    >>> free_water_applies(131.0, 5.0, 278.0), free_water_applies(0.0, 0.0, 549.0)
    (True, False)
    """
    return 2.0 * (sodium + potassium) >= minimum_share * effective
