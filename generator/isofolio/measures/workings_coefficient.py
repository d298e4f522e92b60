"""The expressions of osmotic coefficients, with the numbers of one salt or sugar put in."""

from isofolio.chemistry.osmosis import CLOSEST_APPROACH, DEBYE_HUECKEL
from isofolio.chemistry.solutes import LinearCoefficient, PitzerParameters
from isofolio.measures.workings_terms import Part, Parts, Term, exact

LINEAR = "1 + slope × molality"
EQUAL = "1 − z² A √I ÷ (1 + 1.2 √I) + m B + m² C"
UNEQUAL = "1 − |z₊z₋| A √I ÷ (1 + 1.2 √I) + m B × 2ν₊ν₋ ÷ ν + m² C × 2(ν₊ν₋)^1.5 ÷ ν"
SINGLE_B = "B = b0 + b1 ÷ e^(2 √I)"
DOUBLE_B = "B = b0 + b1 ÷ e^(1.4 √I) + b2 ÷ e^(12 √I)"
ONE = exact(1.0)


def linear_expression(sugar: LinearCoefficient, millimoles: Term, water: Term) -> Parts:
    """1 + slope × molality, the molality from the amount and the water."""
    molality: Parts = (millimoles, "÷", water, "÷", exact(1000.0))
    return (ONE, *_signed(sugar.slope), "×", *molality)


def pitzer_formula(salt: PitzerParameters) -> str:
    """The equation in symbols, as it stands for a salt of these charges."""
    equation = EQUAL if salt.cations * salt.anions == 1 else UNEQUAL
    alone = "m, the molality of the salt alone at this ionic strength I"
    return f"{equation}; {DOUBLE_B if _is_double(salt) else SINGLE_B}; {alone}"


def pitzer_expression(salt: PitzerParameters, strength: Term) -> Parts:
    """The coefficient of `osmotic_coefficient`, written out for one salt."""
    return (
        *(ONE, "−", *_charges(salt), exact(DEBYE_HUECKEL), "×", *_root(strength)),
        *("÷", "(", ONE, "+", exact(CLOSEST_APPROACH), "×", *_root(strength), ")"),
        *("+", *_alone(salt, strength), *_pairs(salt), "×", "(", *_short_range(salt, strength)),
        *(")", *_triples(salt, strength)),
    )


def _charges(salt: PitzerParameters) -> Parts:
    product = salt.cation_charge * salt.anion_charge
    return () if product == 1 else (exact(product), "×")


def _root(strength: Term) -> Parts:
    return ("√", Term(strength.number, strength.decimals))


def _alone(salt: PitzerParameters, strength: Term) -> Parts:
    """The molality at which this salt alone would have the strength."""
    bare = Term(strength.number, strength.decimals)
    per_mole = 0.5 * (salt.cations * salt.cation_charge**2 + salt.anions * salt.anion_charge**2)
    return (bare,) if per_mole == 1 else (bare, "÷", exact(per_mole))


def _pairs(salt: PitzerParameters) -> Parts:
    product, ions = salt.cations * salt.anions, salt.cations + salt.anions
    return () if product == 1 else ("×", exact(2.0 * product), "÷", exact(float(ions)))


def _triples(salt: PitzerParameters, strength: Term) -> Parts:
    if not salt.c:
        return ()
    sign, size = _signed(salt.c)
    product, ions = salt.cations * salt.anions, salt.cations + salt.anions
    molality = _alone(salt, strength)
    base = molality if len(molality) == 1 else ("(", *molality, ")")
    squared: Parts = (sign, *base, "^", exact(2.0), "×", size)
    if product == 1:
        return squared
    power: Parts = ("×", exact(2.0), "×", exact(float(product)), "^", exact(1.5))
    return (*squared, *power, "÷", exact(float(ions)))


def _short_range(salt: PitzerParameters, strength: Term) -> Parts:
    """b0 + b1 ÷ e^(2 √I); a salt of two double charges has 1.4 and a third term."""
    double = _is_double(salt)
    first: Parts = (exact(salt.b0), *_signed(salt.b1), *_fading(1.4 if double else 2.0, strength))
    return (*first, *_signed(salt.b2), *_fading(12.0, strength)) if double else first


def _is_double(salt: PitzerParameters) -> bool:
    return salt.cation_charge == 2 and salt.anion_charge == 2


def _fading(factor: float, strength: Term) -> Parts:
    return ("÷", "e", "^", "(", exact(factor), "×", *_root(strength), ")")


def _signed(number: float) -> tuple[Part, Part]:
    return ("−" if number < 0 else "+", exact(abs(number)))
