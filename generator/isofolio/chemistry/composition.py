"""Amounts of substance: from grams to millimoles, from salts to particles, from parts to a mix."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from isofolio.chemistry.amounts import Amounts, Particles, require_not_negative, require_positive

NOT_WHOLE = "the source does not give the whole composition"


@dataclass(frozen=True)
class Composition:
    """What one litre of one fluid is known to hold.

    known: particles by id [mmol/L]; unknown: particles by id with the reason why not.
    complete: whether a particle in neither list is absent; where it is false, such a particle is
    not known either, because the source does not give the whole composition.
    """

    known: Mapping[str, float] = field(default_factory=dict)
    unknown: Mapping[str, str] = field(default_factory=dict)
    complete: bool = True

    def reason(self, particle: str) -> str:
        """Why a particle has no figure; "" where it has one (0 for absent included).

        >>> Composition({"sodium": 154.0}, complete=False).reason("potassium")
        'the source does not give the whole composition'
        """
        if particle in self.unknown:
            return self.unknown[particle]
        return "" if self.complete or particle in self.known else NOT_WHOLE


def millimoles_from_grams(grams: Amounts, molar_mass: float) -> Amounts:
    """Amount of substance in a mass: n = 1000 m / M.

    grams: mass in the form as weighed [g or g/L]; molar_mass: of that same form [g/mol].
    Returns the amount [mmol or mmol/L]. Raises ValueError for a negative mass or a molar mass
    that is not above zero.

    >>> round(millimoles_from_grams(9.0, 58.44), 1)
    154.0
    """
    require_not_negative(grams, "mass")
    require_positive(molar_mass, "molar mass")
    return 1000.0 * grams / molar_mass


def grams_from_millimoles(millimoles: Amounts, molar_mass: float) -> Amounts:
    """Mass of an amount of substance: m = n M / 1000. The inverse of `millimoles_from_grams`.

    >>> round(grams_from_millimoles(154.0, 58.44), 2)
    9.0
    """
    require_not_negative(millimoles, "amount of substance")
    require_positive(molar_mass, "molar mass")
    return millimoles * molar_mass / 1000.0


def hydrate_factor(hydrate_mass: float, anhydrous_mass: float) -> float:
    """Grams of the hydrate that hold one gram of the anhydrous substance: M(hydrate) / M(dry).

    Both molar masses [g/mol] are of the same number of formula units. Returns the factor [1].
    Raises ValueError if the hydrate is lighter than the substance in it.

    >>> round(hydrate_factor(198.171, 180.156), 5)
    1.1
    """
    require_positive(anhydrous_mass, "molar mass of the anhydrous substance")
    if hydrate_mass < anhydrous_mass:
        raise ValueError(
            f"a hydrate of {hydrate_mass} g/mol is lighter than its anhydrous form of "
            f"{anhydrous_mass} g/mol: give the hydrate first, then the anhydrous form."
        )
    return hydrate_mass / anhydrous_mass


def dissolve(millimoles: Amounts, releases: Mapping[str, float]) -> dict[str, Amounts]:
    """Particles that a dissolved substance sets free.

    millimoles: of the substance [mmol/L]; releases: particles per formula unit, by id.
    Returns particles by id [mmol/L]; nothing for a substance that releases nothing (a colloid).

    >>> dissolve(1.0, {"calcium": 1, "chloride": 2})
    {'calcium': 1.0, 'chloride': 2.0}
    """
    return {particle: millimoles * count for particle, count in releases.items()}


def sum_particles(parts: Iterable[Particles]) -> dict[str, Amounts]:
    """Particles of several substances in the same litre, added by id [mmol/L].

    For floats and arrays; `sum_compositions` also carries what is not known.

    >>> sum_particles([{"sodium": 1.0, "chloride": 1.0}, {"chloride": 2.0}])
    {'chloride': 3.0, 'sodium': 1.0}
    """
    collected: dict[str, list[Amounts]] = {}
    for part in parts:
        for particle, amount in part.items():
            collected.setdefault(particle, []).append(amount)
    return {particle: _add(collected[particle]) for particle in sorted(collected)}


def sum_compositions(parts: Iterable[Composition]) -> Composition:
    """What several contents of one litre hold together.

    A particle that is unknown in one part is unknown in the sum, with that part's reason. The
    sum is complete only if every part is. The order of the parts does not matter, to the last bit.

    >>> salt, potash = Composition({"chloride": 154.0}), Composition({"chloride": 20.0})
    >>> sum_compositions([salt, potash]).known
    {'chloride': 174.0}
    """
    together = list(parts)
    names = sorted({name for part in together for name in (*part.known, *part.unknown)})
    reasons = {name: _reasons(name, together) for name in names}
    known = {
        name: math.fsum(part.known.get(name, 0.0) for part in together)
        for name in names
        if not reasons[name]
    }
    unknown = {name: reason for name, reason in reasons.items() if reason}
    return Composition(known, unknown, all(part.complete for part in together))


def mix(
    parts: Sequence[tuple[Composition, float]], total_volume: float | None = None
) -> Composition:
    """Composition of fluids poured together: c = sum(c_i V_i) / V. Volumes are taken as additive.

    parts: pairs of composition [mmol/L] and volume [L]. total_volume [L]: the volume that the
    amounts are divided by; the sum of the parts if not given, the bag's nominal volume if a
    small addition is to be ignored, as labels of admixtures do. Additivity is right within 0.3 %
    up to one tenth of concentrate, and within 2 % for 50 % glucose or 23 % sodium chloride; the
    overfill of a bag (3 to 8 %) is larger than either.
    Raises ValueError for a negative volume or a total that is not above zero.

    >>> bag, ampoule = Composition({"potassium": 0.0}), Composition({"potassium": 2012.0})
    >>> round(mix([(bag, 1.0), (ampoule, 0.010)]).known["potassium"], 2)
    19.92
    >>> round(mix([(bag, 1.0), (ampoule, 0.010)], total_volume=1.0).known["potassium"], 2)
    20.12
    """
    for _, volume in parts:
        require_not_negative(volume, "volume")
    total = math.fsum(volume for _, volume in parts) if total_volume is None else total_volume
    require_positive(total, "total volume")
    poured = [_diluted(part, volume / total) for part, volume in parts if volume != 0.0]
    return sum_compositions(poured)


def _diluted(part: Composition, share: float) -> Composition:
    known = {particle: amount * share for particle, amount in part.known.items()}
    return Composition(known, part.unknown, part.complete)


def _reasons(name: str, parts: Iterable[Composition]) -> str:
    reasons = {part.reason(name) for part in parts} - {""}
    return "; ".join(sorted(reasons))


def _add(terms: Sequence[Amounts]) -> Amounts:
    if all(isinstance(term, float | int) for term in terms):
        return math.fsum(terms)
    total: Amounts = 0.0
    for term in terms:
        total = total + term
    return total
