"""From a record to a solution: what a litre holds, what is unknown of it, and why."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from isofolio.chemistry.composition import (
    NOT_WHOLE,
    Composition,
    dissolve,
    millimoles_from_grams,
)
from isofolio.chemistry.formula import molar_mass
from isofolio.entries.reading import Catalogue
from isofolio.entries.records import Content, Fluid, Substance
from isofolio.entries.scalars import REASONS, Amount
from isofolio.measures.values import Value
from isofolio.vocabulary.units import factor

DECLARED_AS_IONS = "declared as ions: which salts were weighed is not known"

# Colloids without charged groups; gelatin and protein carry a charge that must be declared.
UNCHARGED_COLLOIDS = ("starch", "dextran")


@dataclass(frozen=True)
class Solution:
    """A litre of one fluid.

    composition: particles [mmol/L], the unknown ones with their reason.
    weighed: substances [mmol/L]; None where the fluid is declared as ions.
    masses: substances [g/L], colloids included; None for an amount that is not one number.
    colloid_mass [g/L]; polyanion: charge on the colloid [mEq/L].
    charges: charge numbers that this fluid's base decides (malate), by particle.
    ranges: low and high of amounts declared as a range or a bound, by particle [mmol/L].
    role: of the fluid, which decides what may be said of it in the body.
    """

    composition: Composition
    weighed: Mapping[str, float] | None
    masses: Mapping[str, float | None] = field(default_factory=dict)
    colloid_mass: Value = field(default_factory=lambda: Value(0.0))
    polyanion: Value = field(default_factory=lambda: Value(0.0))
    charges: Mapping[str, float] = field(default_factory=dict)
    ranges: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    role: str = "ready"


def concentration(amount: Amount, figure: float | None, wanted: str) -> float | None:
    """A figure of an amount in the wanted unit per litre; None where the units do not convert.

    >>> from isofolio.entries.scalars import parse_amount
    >>> twenty = parse_amount("20 mmol per 500 mL")
    >>> concentration(twenty, twenty.low, "mmol/L")
    40.0
    """
    if figure is None:
        return None
    per_litre = f"{amount.unit}/L" if amount.per_millilitres else amount.unit
    scale = factor(per_litre, wanted)
    if scale is None:
        return None
    return figure * scale * (1000.0 / amount.per_millilitres if amount.per_millilitres else 1.0)


def millimoles_of_particle(amount: Amount, figure: float | None, charge: int) -> float | None:
    """A declared particle [mmol/L], from mmol or from mEq by its charge."""
    direct = concentration(amount, figure, "mmol/L")
    if direct is not None or charge == 0:
        return direct
    equivalents = concentration(amount, figure, "mEq/L")
    return None if equivalents is None else equivalents / abs(charge)


def millimoles_of_substance(
    amount: Amount, figure: float | None, substance: Substance
) -> float | None:
    """A weighed substance [mmol/L], from grams by its formula as weighed, or from mmol."""
    direct = concentration(amount, figure, "mmol/L")
    if direct is not None or substance.formula is None:
        return direct
    grams = concentration(amount, figure, "g/L")
    if grams is None:
        return None
    return float(millimoles_from_grams(grams, molar_mass(substance.formula)))


def converts(content: Content, catalogue: Catalogue) -> bool:
    """Whether the amount of a content can be a concentration of what it names."""
    amount = content.amount
    if amount.high is None:
        return True
    if content.particle is not None:
        charge = catalogue.particles[content.particle].charge
        return millimoles_of_particle(amount, amount.high, charge) is not None
    substance = catalogue.substances[content.substance or ""]
    if substance.formula is None:
        return concentration(amount, amount.high, "g/L") is not None
    return millimoles_of_substance(amount, amount.high, substance) is not None


def solve(contents: Iterable[Content], complete: bool, catalogue: Catalogue) -> Solution:
    """What the contents of a recipe make of a litre of water."""
    gathered = _Gathered(catalogue)
    for content in contents:
        gathered.add(content)
    return gathered.solution(complete)


def solution_of(fluid: Fluid, catalogue: Catalogue) -> Solution:
    """The solution of an entry as declared."""
    return replace(solve(fluid.contents, fluid.complete, catalogue), role=fluid.role)


class _Gathered:
    """The contents of one recipe while they are added up."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.known: dict[str, float] = {}
        self.unknown: dict[str, str] = {}
        self.weighed: dict[str, float] = {}
        self.masses: dict[str, float | None] = {}
        self.ranges: dict[str, tuple[float, float]] = {}
        self.colloid_mass = 0.0
        self.colloids: list[Substance] = []
        self.declared_charge: float | None = None
        self.base = 0.0
        self.acids: list[tuple[Substance, float]] = []
        self.as_ions = False
        self.undeclared = False

    def add(self, content: Content) -> None:
        self.undeclared |= content.amount.state == "not declared"
        if content.particle is not None:
            self._add_particle(content.particle, content.amount)
            return
        substance = self.catalogue.substances[content.substance or ""]
        if substance.colloid is not None:
            self._add_colloid(substance, content)
        else:
            self._add_substance(substance, content.amount)

    def _add_particle(self, particle: str, amount: Amount) -> None:
        self.as_ions = True
        charge = self.catalogue.particles[particle].charge
        if amount.state == "exact":
            millimoles = millimoles_of_particle(amount, amount.low, charge)
            self.known[particle] = self.known.get(particle, 0.0) + (millimoles or 0.0)
            return
        self.unknown[particle] = REASONS[amount.state]
        high = millimoles_of_particle(amount, amount.high, charge)
        if high is not None:
            low = millimoles_of_particle(amount, amount.low, charge) or 0.0
            self.ranges[particle] = (low, high)

    def _add_substance(self, substance: Substance, amount: Amount) -> None:
        self.masses[substance.id] = self._grams(substance, amount)
        if amount.state != "exact":
            for particle in substance.releases:
                self.unknown[str(particle)] = REASONS[amount.state]
            return
        millimoles = millimoles_of_substance(amount, amount.low, substance) or 0.0
        self.weighed[substance.id] = self.weighed.get(substance.id, 0.0) + millimoles
        self.base += substance.base * millimoles
        if substance.acid is not None:
            self.acids.append((substance, millimoles))
        for name, released in dissolve(millimoles, _counts(substance)).items():
            self.known[name] = self.known.get(name, 0.0) + float(released)

    def _grams(self, substance: Substance, amount: Amount) -> float | None:
        if amount.state != "exact":
            return None
        grams = concentration(amount, amount.low, "g/L")
        if grams is None and substance.formula is not None:
            millimoles = concentration(amount, amount.low, "mmol/L") or 0.0
            return millimoles * molar_mass(substance.formula) / 1000.0
        return grams

    def _add_colloid(self, substance: Substance, content: Content) -> None:
        grams = concentration(content.amount, content.amount.low, "g/L")
        exact = grams if content.amount.state == "exact" else None
        self.masses[substance.id] = exact
        self.colloid_mass += exact if exact is not None else float("nan")
        self.colloids.append(substance)
        if content.charge is not None and content.charge.state == "exact":
            charge = concentration(content.charge, content.charge.low, "mEq/L") or 0.0
            self.declared_charge = (self.declared_charge or 0.0) + charge

    def solution(self, complete: bool) -> Solution:
        whole = complete and not self.undeclared
        unlisted = {} if whole else self._unlisted()
        charges, spent = self._acid_charges()
        return Solution(
            composition=Composition(
                known={k: v for k, v in self.known.items() if k not in self.unknown},
                unknown={**unlisted, **self.unknown},
                complete=whole,
            ),
            weighed=None if self.as_ions else self.weighed,
            masses=self.masses,
            colloid_mass=_colloid_value(self.colloid_mass),
            polyanion=self._polyanion(self.base - spent),
            charges=charges,
            ranges=self.ranges,
        )

    def _unlisted(self) -> dict[str, str]:
        listed = {*self.known, *self.unknown}
        return {p: NOT_WHOLE for p in self.catalogue.particles if p not in listed}

    def _acid_charges(self) -> tuple[dict[str, float], float]:
        """Charge numbers of weighed acids' anions by the base beside them; the base they use."""
        charges: dict[str, float] = {}
        left = self.base
        for substance, millimoles in self.acids:
            if substance.acid is None or millimoles == 0:
                continue
            used = min(left, millimoles * substance.acid.up_to)
            charges[str(substance.acid.particle)] = -used / millimoles
            left -= used
        return charges, self.base - left

    def _polyanion(self, base_left: float) -> Value:
        charged = [c for c in self.colloids if c.colloid not in UNCHARGED_COLLOIDS]
        if not charged:
            return Value(0.0)
        if self.declared_charge is not None:
            return Value(self.declared_charge)
        if base_left > 0:
            return Value(base_left)
        return Value(None, f"the charge of the {charged[0].colloid} is not declared")


def _counts(substance: Substance) -> dict[str, float]:
    return {str(particle): float(count) for particle, count in substance.releases.items()}


def _colloid_value(grams: float) -> Value:
    return Value(None, REASONS["range"]) if math.isnan(grams) else Value(grams)
