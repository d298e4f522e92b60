"""From a record to a solution: what a litre holds, what is unknown of it, and why."""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from isofolio.chemistry.composition import (
    NOT_WHOLE,
    Composition,
    dissolve,
    millimoles_from_grams,
)
from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.reading import Catalogue
from isofolio.entries.scalars import REASONS, Amount
from isofolio.entries.substances import Substance
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
    colloid: whether the recipe names one; colloid_mass [g/L]; polyanion: its charge [mEq/L]. Where
    the recipe is not whole and names none, whether there is one is not known.
    charges: charge numbers that this fluid's base decides (malate), by particle.
    ranges: low and high of amounts declared as a range or a bound, by particle [mmol/L].
    role: of the fluid, which decides what may be said of it in the body.
    """

    composition: Composition
    weighed: Mapping[str, float] | None
    masses: Mapping[str, float | None] = field(default_factory=dict)
    colloid: bool = False
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


@dataclass
class _Sum:
    """An amount added up from parts: lowest and highest possible, and why it is not one figure."""

    low: float = 0.0
    high: float = 0.0
    reason: str = ""

    def add(self, low: float | None, high: float | None, amount: Amount) -> None:
        self.low += low or 0.0
        self.high += math.inf if high is None else high
        self.reason = self.reason or REASONS.get(amount.state, "")

    @property
    def number(self) -> float | None:
        return None if self.reason else self.low

    @property
    def value(self) -> Value:
        return Value(self.number, self.reason)

    @property
    def range(self) -> tuple[float, float] | None:
        return (self.low, self.high) if self.reason and math.isfinite(self.high) else None


class _Gathered:
    """The contents of one recipe while they are added up."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.particles: defaultdict[str, _Sum] = defaultdict(_Sum)
        self.masses: defaultdict[str, _Sum] = defaultdict(_Sum)
        self.weighed: defaultdict[str, float] = defaultdict(float)
        self.colloid = False
        self.colloid_mass = _Sum()
        self.charges: list[Value] = []
        self.base = 0.0
        self.acids: defaultdict[str, float] = defaultdict(float)
        self.as_ions = False
        self.undeclared = False

    def add(self, content: Content) -> None:
        self.undeclared |= content.amount.state == "not declared"
        if content.particle is not None:
            self._add_particle(content.particle, content.amount)
            return
        substance = self.catalogue.substances[content.substance or ""]
        self._add_mass(substance, content.amount)
        if substance.colloid is not None:
            self._add_colloid(substance, content)
        else:
            self._add_substance(substance, content.amount)

    def _add_particle(self, particle: str, amount: Amount) -> None:
        self.as_ions = True
        charge = self.catalogue.particles[particle].charge
        low, high = (millimoles_of_particle(amount, f, charge) for f in (amount.low, amount.high))
        self.particles[particle].add(low, high, amount)

    def _add_mass(self, substance: Substance, amount: Amount) -> None:
        low, high = (_grams(substance, amount, f) for f in (amount.low, amount.high))
        self.masses[substance.id].add(low, high, amount)

    def _add_substance(self, substance: Substance, amount: Amount) -> None:
        figures = (amount.low, amount.high)
        low, high = (millimoles_of_substance(amount, figure, substance) for figure in figures)
        counts = {str(particle): float(n) for particle, n in substance.releases.items()}
        lowest, highest = dissolve(low or 0.0, counts), dissolve(high or 0.0, counts)
        for name in counts:
            top = None if high is None else float(highest[name])
            self.particles[name].add(float(lowest[name]), top, amount)
        if amount.state == "exact" and low is not None:
            self.weighed[substance.id] += low
            self.base += substance.base * low
            if substance.acid is not None:
                self.acids[substance.id] += low

    def _add_colloid(self, substance: Substance, content: Content) -> None:
        amount = content.amount
        low, high = (concentration(amount, f, "g/L") for f in (amount.low, amount.high))
        self.colloid = True
        self.colloid_mass.add(low, high, amount)
        if substance.colloid not in UNCHARGED_COLLOIDS:
            self.charges.append(_declared_charge(substance, content.charge))

    def solution(self, complete: bool) -> Solution:
        whole = complete and not self.undeclared
        unknown = {name: part.reason for name, part in self.particles.items() if part.reason}
        if not whole:
            unlisted = (p for p in self.catalogue.particles if p not in self.particles)
            unknown |= dict.fromkeys(unlisted, NOT_WHOLE)
        known = whole or self.colloid
        charges, spent = self._acid_charges()
        return Solution(
            composition=Composition(
                known={n: part.low for n, part in self.particles.items() if not part.reason},
                unknown=unknown,
                complete=whole,
            ),
            weighed=None if self.as_ions else dict(self.weighed),
            masses={name: part.number for name, part in self.masses.items()},
            colloid=self.colloid,
            colloid_mass=self.colloid_mass.value if known else Value(None, NOT_WHOLE),
            polyanion=self._polyanion(self.base - spent) if known else Value(None, NOT_WHOLE),
            charges=charges,
            ranges={n: part.range for n, part in self.particles.items() if part.range},
        )

    def _acid_charges(self) -> tuple[dict[str, float], float]:
        """Charge numbers of weighed acids' anions by the base beside them; the base they use."""
        charges: dict[str, float] = {}
        left = self.base
        for name, millimoles in self.acids.items():
            acid = self.catalogue.substances[name].acid
            if acid is None or millimoles == 0:
                continue
            used = min(left, millimoles * acid.up_to)
            charges[str(acid.particle)] = -used / millimoles
            left -= used
        return charges, self.base - left

    def _polyanion(self, base_left: float) -> Value:
        """The charge on the colloids: declared for each, or what the base left over neutralises."""
        undeclared = [value for value in self.charges if value.number is None]
        if not undeclared:
            return Value(sum(value.number or 0.0 for value in self.charges))
        return Value(base_left) if base_left > 0 else undeclared[0]


def _declared_charge(substance: Substance, charge: Amount | None) -> Value:
    if charge is None or charge.state != "exact":
        return Value(None, f"the charge of the {substance.colloid} is not declared")
    return Value(concentration(charge, charge.low, "mEq/L") or 0.0)


def _grams(substance: Substance, amount: Amount, figure: float | None) -> float | None:
    """A weighed amount in grams per litre, from grams or from millimoles by its formula."""
    grams = concentration(amount, figure, "g/L")
    if grams is not None or substance.formula is None:
        return grams
    millimoles = concentration(amount, figure, "mmol/L")
    return None if millimoles is None else millimoles * molar_mass(substance.formula) / 1000.0
