"""The workings of what is dissolved: from grams, or from what is declared, to millimoles."""

from collections.abc import Iterator

from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Content
from isofolio.entries.scalars import Amount
from isofolio.entries.substances import Substance
from isofolio.measures.solutions import millimoles_of_substance
from isofolio.measures.workings_case import Case
from isofolio.measures.workings_terms import (
    Parts,
    Term,
    Working,
    digits,
    exact,
    joined,
    shown,
)
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES
from isofolio.vocabulary.units import factor

WEIGHED = "grams per litre × 1000 ÷ molar mass"
COUNTED = " × particles per formula unit"
DECLARED = "as declared"
DECLARED_OTHERWISE = "declared, brought to millimoles in a litre"
WATER_INCLUDED = "The molar mass is that of the form weighed, its water included."


def particle_lines(case: Case) -> Iterator[Working]:
    """Every particle that has a figure: what each content gives, added."""
    for quantity in PARTICLE_QUANTITIES:
        number = case.number(quantity.id)
        if not number:
            continue
        counted = _counted_as(case, quantity.id)
        products = [p for content in case.fluid.contents if (p := _product(case, content, counted))]
        expression = joined(products)
        yield from case.line(
            quantity.id,
            _formula(expression),
            expression,
            digits(number, 2),
            WATER_INCLUDED if _has_water(case, counted) else "",
        )


def colloid_lines(case: Case) -> Iterator[Working]:
    """The mass of a colloid, as declared."""
    grams = [
        converted(content.amount, "g/L")
        for content in case.fluid.contents
        if content.substance and case.catalogue.substances[content.substance].colloid
    ]
    if case.number("colloid_mass"):
        yield from case.line("colloid_mass", DECLARED, joined(grams), 2)


def polyanion_lines(case: Case) -> Iterator[Working]:
    """The charge on a colloid: declared, or the base that is left for it."""
    number = case.number("polyanion_charge")
    if not number:
        return
    declared = [c.charge for c in case.fluid.contents if c.charge and c.charge.state == "exact"]
    if declared:
        sums = joined([converted(charge, "mEq/L") for charge in declared])
        yield from case.line("polyanion_charge", DECLARED, sums, digits(number, 2))
        return
    formula = "base in grams per litre × 1000 ÷ its molar mass, less what other acids take up"
    expression = (*joined(_bases(case)), *_acids(case))
    note = "The base that is weighed into the bag and is left over has neutralised the colloid."
    yield from case.line("polyanion_charge", formula, expression, digits(number, 2), note)


def converted(declared: Amount, wanted: str) -> Parts:
    """A declared amount in the wanted unit, with the factors that bring it there."""
    per = declared.per_millilitres
    number = declared.low or 0.0
    term = Term(number, declared.decimals, declared.unit)
    scale = factor(f"{declared.unit}/L" if per else declared.unit, wanted) or 1.0
    parts: Parts = (term,) if scale == 1 else (term, "×", exact(scale))
    return (*parts, "×", exact(1000.0), "÷", exact(per, "mL")) if per else parts


def molar(grams_per_mole: float) -> Term:
    """A molar mass, as tables print it."""
    return Term(grams_per_mole, 3, "g/mol")


def substance_product(amount: Amount, substance: Substance) -> Parts:
    """Millimoles per litre of a weighed substance."""
    if substance.formula is None or amount.unit.startswith("mmol"):
        return _named(converted(amount, "mmol/L"), substance.name)
    grams = _named(converted(amount, "g/L"), substance.name)
    return (*grams, "×", exact(1000.0), "÷", molar(molar_mass(substance.formula)))


def _product(case: Case, content: Content, counted: set[str]) -> Parts:
    """What one content gives of the particles that count; nothing where it gives none."""
    if content.particle is not None:
        return _declared(case, content) if content.particle in counted else ()
    substance = case.catalogue.substances[content.substance or ""]
    count = sum(times for particle, times in substance.releases.items() if particle in counted)
    if not count or not content.amount.low:
        return ()
    product = substance_product(content.amount, substance)
    return product if count == 1 else (*product, "×", exact(float(count)))


def _declared(case: Case, content: Content) -> Parts:
    charge = abs(case.catalogue.particles[content.particle or ""].charge)
    if content.amount.unit.startswith("mEq") and charge:
        return (*converted(content.amount, "mEq/L"), "÷", exact(float(charge)))
    return converted(content.amount, "mmol/L")


def _formula(expression: Parts) -> str:
    """In words, what the expression does."""
    weighed = [p for p in expression if isinstance(p, Term) and p.unit == "g/mol"]
    if not weighed:
        return DECLARED if len(expression) == 1 else DECLARED_OTHERWISE
    counts = any(
        isinstance(part, Term) and part.unit == "g/mol" and expression[i + 1 : i + 2] == ("×",)
        for i, part in enumerate(expression)
    )
    added = ", added over what is weighed" if len(weighed) > 1 else ""
    return WEIGHED + (COUNTED if counts else "") + added


def _has_water(case: Case, counted: set[str]) -> bool:
    substances = [
        case.catalogue.substances[c.substance] for c in case.fluid.contents if c.substance
    ]
    return any(s.hydrate not in {None, "anhydrous"} and counted & {*s.releases} for s in substances)


def _named(parts: Parts, name: str) -> Parts:
    first = parts[0]
    if isinstance(first, str):
        raise ValueError(f"{first!r} stands where an amount is expected: begin with the amount.")
    return (Term(first.number, first.decimals, first.unit, name.lower()), *parts[1:])


def _counted_as(case: Case, quantity: str) -> set[str]:
    return {p.id for p in case.catalogue.particles.values() if (p.counts_as or p.id) == quantity}


def _bases(case: Case) -> Iterator[Parts]:
    for content in case.fluid.contents:
        substance = case.catalogue.substances.get(content.substance or "")
        if substance is not None and substance.base:
            product = substance_product(content.amount, substance)
            yield product if substance.base == 1 else (*product, "×", exact(float(substance.base)))


def _acids(case: Case) -> Parts:
    """The base that acids take up, subtracted: their millimoles times the charge it gives them."""
    parts: list[Term | str] = []
    for particle, charge in case.solution.charges.items():
        name = case.catalogue.particles[particle].name
        weighed = sum(_weighed_acid(case, content, particle) for content in case.fluid.contents)
        parts += ["−", shown(weighed, 4, name=name), "×", shown(-charge, 5)]
    return tuple(parts)


def _weighed_acid(case: Case, content: Content, particle: str) -> float:
    """Millimoles of a weighed acid of that anion; what a label declares as ions is not counted."""
    substance = case.catalogue.substances.get(content.substance or "")
    if substance is None or substance.acid is None or substance.acid.particle != particle:
        return 0.0
    return millimoles_of_substance(content.amount, content.amount.low, substance) or 0.0
