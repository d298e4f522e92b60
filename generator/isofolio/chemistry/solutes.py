"""How a weighed substance behaves osmotically: its particles and its osmotic coefficient."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class PitzerParameters:
    """Osmotic behaviour of one strong electrolyte of a single cation and a single anion.

    b0, b1, c: Pitzer's beta(0), beta(1), C(phi) at 25 °C [kg/mol, kg/mol, (kg/mol)^2]; b2: a third
    term that only 2-2 salts have [kg/mol]. cations, anions: ions per formula unit;
    cation_charge, anion_charge: magnitudes. Older tables print (4/3) beta for 2-1 and 1-2
    salts: divide before filling in.
    """

    b0: float
    b1: float
    c: float
    b2: float = 0.0
    cations: float = 1
    anions: float = 1
    cation_charge: float = 1
    anion_charge: float = 1


@dataclass(frozen=True)
class LinearCoefficient:
    """Osmotic behaviour of an uncharged molecule: phi = 1 + slope m. slope [kg/mol]."""

    slope: float


@dataclass(frozen=True)
class FixedCoefficient:
    """An osmotic coefficient assumed to be the same at any strength [1]."""

    ratio: float


Behaviour = PitzerParameters | LinearCoefficient | FixedCoefficient


@dataclass(frozen=True)
class Solute:
    """One weighed substance, as the osmolality estimate sees it.

    particles: dissolved particles per formula unit [1]; ionic_strength: half the sum of z^2 over
    them [1], 0 for a sugar; behaviour: its osmotic coefficient, its own or that of the substance
    it is taken to be like; tabulated: whether that is its own, from a table. A fluid of which
    only ions are known can be given as ions, each one a Solute like sodium chloride.
    """

    particles: float
    ionic_strength: float
    behaviour: Behaviour
    tabulated: bool = True


def solute(
    releases: Mapping[str, float],
    charges: Mapping[str, float],
    behaviour: Behaviour,
    tabulated: bool = True,
) -> Solute:
    """A Solute from what its substance releases.

    releases: particles per formula unit by id; charges: charge numbers of those particles by id
    [1] (phosphate: those it has in this salt). Raises KeyError for a particle without a charge.

    >>> solute({"calcium": 1, "chloride": 2}, {"calcium": 2, "chloride": -1},
    ...        FixedCoefficient(0.86)).ionic_strength
    3.0
    """
    strength = sum(0.5 * releases[name] * charges[name] ** 2 for name in sorted(releases))
    return Solute(float(sum(releases.values())), strength, behaviour, tabulated)


def electrolyte(
    releases: Mapping[str, float],
    charges: Mapping[str, float],
    *,
    b0: float,
    b1: float,
    c: float,
    b2: float = 0.0,
) -> PitzerParameters:
    """Pitzer parameters of a salt, with the stoichiometry read from what the salt releases.

    releases, charges: as for `solute`. Raises ValueError unless the salt has one sort of cation
    and one sort of anion.

    >>> electrolyte({"calcium": 1, "chloride": 2}, {"calcium": 2, "chloride": -1},
    ...             b0=0.3159, b1=1.614, c=-0.00034).anions
    2
    """
    cations = [name for name in releases if charges[name] > 0]
    anions = [name for name in releases if charges[name] < 0]
    if len(cations) != 1 or len(anions) != 1 or len(releases) != 2:
        raise ValueError(
            f"a salt that releases {', '.join(sorted(releases)) or 'nothing'} is not one cation "
            "and one anion: give it a fixed ratio, or the substance it is like."
        )
    cation, anion = cations[0], anions[0]
    counts = (releases[cation], releases[anion], charges[cation], -charges[anion])
    return PitzerParameters(b0, b1, c, b2, *counts)
