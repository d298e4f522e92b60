"""The working of the estimated osmolality: amounts, water, ionic strength, coefficients, sum."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from isofolio.chemistry.composition import millimoles_from_grams
from isofolio.chemistry.osmosis import (
    WATER_DENSITY,
    ionic_strength,
    osmotic_coefficient,
    water_content,
)
from isofolio.chemistry.solutes import FixedCoefficient, LinearCoefficient, Solute
from isofolio.entries.substances import Substance
from isofolio.measures.chemical import solute_of
from isofolio.measures.workings_case import Case, step
from isofolio.measures.workings_coefficient import (
    LINEAR,
    linear_expression,
    pitzer_expression,
    pitzer_formula,
)
from isofolio.measures.workings_particles import WEIGHED, substance_product
from isofolio.measures.workings_terms import (
    Part,
    Parts,
    Term,
    Working,
    amount,
    digits,
    exact,
    joined,
    settled,
    summed,
)

QUANTITY = "osmolality"
COEFFICIENT = "osmotic coefficient of"
FIXED = "assumed to be the same at every strength"
MILLION = exact(1_000_000.0)
CHARGES_SQUARED = (
    "Half the sum of the charge numbers squared is 1 for a salt of two single charges, 3 for "
    "calcium chloride or magnesium chloride, 4 for magnesium sulfate."
)


@dataclass(frozen=True)
class _Dissolved:
    """One weighed substance: its record, how it behaves, its amount as printed [mmol/L]."""

    substance: Substance
    solute: Solute
    millimoles: Term
    likeness: str

    @property
    def name(self) -> str:
        return self.substance.name.lower()


def osmolality_lines(case: Case) -> Iterator[Working]:
    """The estimate step by step; nothing where there is none, or nothing is dissolved."""
    dissolved = list(_dissolved(case))
    if not case.number(QUANTITY) or not dissolved:
        return
    yield from (_amount_line(case, each) for each in dissolved)
    water = _water_line(case)
    yield water
    strength = _strength_line(dissolved, water.result)
    if strength.result.number:
        yield strength
    coefficients = [_coefficient_line(each, water.result, strength.result) for each in dissolved]
    yield from _merged(coefficients)
    yield from _sum_line(case, dissolved, [line.result for line in coefficients], water.result)


def _dissolved(case: Case) -> Iterator[_Dissolved]:
    for name, millimoles in (case.solution.weighed or {}).items():
        substance = case.catalogue.substances[name]
        solute = solute_of(substance, case.catalogue)
        if solute is not None and millimoles:
            yield _Dissolved(
                substance, solute, amount(millimoles, "mmol/L"), _likeness(case, substance)
            )


def _likeness(case: Case, substance: Substance) -> str:
    """The sentence for a salt whose coefficients are those of another."""
    if substance.osmosis is None or substance.osmosis.like is None:
        return ""
    other = case.catalogue.substances[substance.osmosis.like].name.lower()
    return f"No coefficients of {substance.name.lower()} are known: those of {other} stand in."


def _amount_line(case: Case, each: _Dissolved) -> Working:
    contents = (c for c in case.fluid.contents if c.substance == each.substance.id)
    expression = joined([substance_product(c.amount, each.substance) for c in contents])
    name = f"amount of {each.name}"
    result = each.millimoles
    return step(QUANTITY, name, millimoles_from_grams, WEIGHED, expression, result=result)


def _water_line(case: Case) -> Working:
    there = list(case.particles())
    volumes = {particle.id: particle.volume or 0.0 for particle, _, _ in there}
    held = {particle.id: term.printed for particle, term, _ in there}
    expelled = [(term, -(particle.volume or 0.0)) for particle, term, _ in there]
    expression: Parts = (
        *(exact(WATER_DENSITY, "kg/L"), "×", "("),
        *summed([(MILLION, 1.0), *expelled]),
        *(")", "÷", MILLION),
    )
    return step(
        QUANTITY,
        "water in a litre",
        water_content,
        "0.99705 × (1000000 − sum of millimoles × molar volume) ÷ 1000000",
        expression,
        result=settled(float(water_content(held, volumes)), 5, "kg/L"),
        note="Molar volumes in mL per mol, at 25 °C; a negative one adds.",
    )


def _strength_line(dissolved: list[_Dissolved], water: Term) -> Working:
    solutes = {each.substance.id: each.solute for each in dissolved}
    pieces = [
        (Term(each.millimoles.number, each.millimoles.decimals, name=each.name), weight)
        for each in dissolved
        if (weight := each.solute.ionic_strength)
    ]
    molalities = {e.substance.id: e.millimoles.printed / water.printed / 1000.0 for e in dissolved}
    strength = float(ionic_strength(solutes, molalities))
    return step(
        QUANTITY,
        "ionic strength",
        ionic_strength,
        "half the sum of millimoles × charge number squared, per kg of water ÷ 1000",
        (*_grouped(summed(pieces)), "÷", water, "÷", exact(1000.0)),
        result=settled(strength, digits(strength, 5, least=4), "mol/kg"),
        note=CHARGES_SQUARED if any(weight != 1 for _, weight in pieces) else "",
    )


def _coefficient_line(each: _Dissolved, water: Term, strength: Term) -> Working:
    """The osmotic coefficient at the strength that is printed; fixed ones are as they are."""
    behaviour = each.solute.behaviour
    name = f"{COEFFICIENT} {each.name}"
    expression: Parts
    if isinstance(behaviour, FixedCoefficient):
        words, result = FIXED, exact(behaviour.ratio)
        expression = (result,)
    elif isinstance(behaviour, LinearCoefficient):
        molality = each.millimoles.printed / water.printed / 1000.0
        words, result = LINEAR, settled(1.0 + behaviour.slope * molality, 5)
        expression = linear_expression(behaviour, each.millimoles, water)
    else:
        words = pitzer_formula(behaviour)
        result = settled(float(osmotic_coefficient(strength.printed, behaviour)), 5)
        expression = pitzer_expression(behaviour, strength)
    return step(
        *(QUANTITY, name, osmotic_coefficient, words, expression),
        result=result,
        note=each.likeness,
    )


def _merged(lines: list[Working]) -> Iterator[Working]:
    """Each coefficient once: salts with the same expression share a line."""
    for expression in dict.fromkeys(line.expression for line in lines):
        same = [line for line in lines if line.expression == expression]
        names = [line.name.removeprefix(COEFFICIENT).strip() for line in same]
        notes = dict.fromkeys(line.note for line in same if line.note)
        yield replace(same[0], name=f"{COEFFICIENT} {' and '.join(names)}", note=" ".join(notes))


def _sum_line(
    case: Case, dissolved: list[_Dissolved], coefficients: list[Term], water: Term
) -> Iterator[Working]:
    parts: list[Part] = []
    for each, coefficient in zip(dissolved, coefficients, strict=True):
        millimoles = Term(each.millimoles.number, each.millimoles.decimals, name=each.name)
        particles = each.solute.particles
        count: Parts = (exact(particles), "×") if particles != 1 else ()
        parts += [*(["+"] if parts else []), *count, millimoles, "×", coefficient]
    number = case.number(QUANTITY) or 0.0
    error = case.number("osmolality_error") or 0.0
    yield from case.line(
        QUANTITY,
        "sum of particles per formula unit × millimoles × osmotic coefficient, per kg of water",
        (*_grouped(tuple(parts)), "÷", water),
        digits(number, 0, least=2),
        f"An estimate at 25 °C, taken to be good within {error:g} %. "
        "A measurement is printed beside it, never in its place.",
    )


def _grouped(parts: Parts) -> Parts:
    """In brackets where something is added."""
    return ("(", *parts, ")") if {"+", "−"} & {p for p in parts if isinstance(p, str)} else parts
