"""The workings of what is in the bag: charges, masses of sugar, osmolarity, energy."""

from collections.abc import Iterator

from isofolio.chemistry.energy import (
    KCAL_PER_G_ANHYDROUS,
    KCAL_PER_G_MONOHYDRATE,
    KCAL_PER_MMOL_ACETATE,
    KCAL_PER_MMOL_GLUCONATE,
    KCAL_PER_MMOL_LACTATE,
)
from isofolio.chemistry.formula import molar_mass
from isofolio.measures.chemical import GLUCOSE, GLUCOSE_MONOHYDRATE
from isofolio.measures.workings_case import Case
from isofolio.measures.workings_particles import molar
from isofolio.measures.workings_terms import Parts, Term, Working, digits, exact

KCAL_PER_MMOL = {
    "lactate": KCAL_PER_MMOL_LACTATE,
    "acetate": KCAL_PER_MMOL_ACETATE,
    "gluconate": KCAL_PER_MMOL_GLUCONATE,
}


def charge_lines(case: Case) -> Iterator[Working]:
    """Milliequivalents of all cations and of all anions."""
    yield from case.sum_line(
        "cation_charge",
        "sum over the positive ions of millimoles × charge number",
        case.pieces(lambda _, charge, __: max(charge, 0.0)),
    )
    yield from case.sum_line(
        "anion_charge",
        "sum over the negative ions of millimoles × charge number",
        case.pieces(lambda _, charge, __: max(-charge, 0.0)),
    )


def gap_lines(case: Case) -> Iterator[Working]:
    """What is missing for electroneutrality."""
    if case.number("charge_gap") is None:
        return
    signs = {"cation_charge": 1.0, "anion_charge": -1.0, "polyanion_charge": -1.0}
    names = {"cation_charge": "positive", "anion_charge": "negative", "polyanion_charge": "colloid"}
    pieces = [
        (case.term(quantity, names[quantity]), sign)
        for quantity, sign in signs.items()
        if case.number(quantity)
    ]
    yield from case.sum_line(
        "charge_gap",
        "positive charge − negative charge − charge on the colloid",
        pieces,
        "Where the salts are weighed nothing is left over; what labels round leaves a little.",
    )


def osmolarity_lines(case: Case) -> Iterator[Working]:
    """Every particle counted as if it were alone."""
    colloid = "The colloid is not counted." if case.solution.colloid else ""
    yield from case.sum_line(
        "osmolarity",
        "sum of all dissolved particles",
        case.pieces(lambda _, __, ___: 1.0),
        f"Every particle counts as if it were alone. {colloid}".strip(),
    )


def glucose_lines(case: Case) -> Iterator[Working]:
    """Grams of glucose in its two forms."""
    forms = {"glucose_mass": GLUCOSE, "glucose_mass_monohydrate": GLUCOSE_MONOHYDRATE}
    for quantity, formula in forms.items():
        grams = case.number(quantity)
        if grams:
            mass = molar(molar_mass(formula))
            expression: Parts = (case.term("glucose"), "×", mass, "÷", exact(1000.0))
            words = "millimoles per litre × molar mass ÷ 1000"
            yield from case.line(quantity, words, expression, digits(grams, 2, least=2, most=4))


def energy_lines(case: Case) -> Iterator[Working]:
    """Kilocalories of glucose, by two conventions, and of organic anions."""
    factors = {
        "energy": ("glucose_mass", KCAL_PER_G_ANHYDROUS, "anhydrous glucose"),
        "energy_us": ("glucose_mass_monohydrate", KCAL_PER_G_MONOHYDRATE, "glucose monohydrate"),
    }
    for quantity, (mass, per_gram, what) in factors.items():
        kilocalories = case.number(quantity)
        if kilocalories:
            formula = f"kilocalories per gram × grams of {what}"
            expression: Parts = (exact(per_gram, "kcal/g"), "×", case.term(mass))
            yield from case.line(quantity, formula, expression, digits(kilocalories, 0, least=1))
    yield from case.sum_line(
        "energy_organic",
        "sum of millimoles × kilocalories per millimole",
        _organic(case),
        "A figure of its own, never added to that of glucose. The factors of lactate and "
        "gluconate are fitted to labels.",
    )


def _organic(case: Case) -> list[tuple[Term, float]]:
    return case.pieces(lambda particle, _, __: KCAL_PER_MMOL.get(particle, 0.0))
