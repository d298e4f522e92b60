"""Energy of glucose and of organic anions, each by the convention that a label uses."""

from isofolio.chemistry.amounts import Amounts, require_not_negative

KCAL_PER_G_ANHYDROUS = 4.0
"""Regulatory factor of carbohydrate, European labels [kcal/g of anhydrous glucose]."""

KCAL_PER_G_MONOHYDRATE = 3.4
"""Factor of United States labels [kcal/g of glucose monohydrate], 3.74 per gram anhydrous."""

KCAL_PER_MMOL_LACTATE = 0.321
"""Fitted to 9 kcal/L on the United States label of lactated Ringer's [kcal/mmol]."""

KCAL_PER_MMOL_ACETATE = 0.209
"""Heat of combustion of acetate, by which the label below closes [kcal/mmol]."""

KCAL_PER_MMOL_GLUCONATE = 0.66
"""Fitted to 21 kcal/L on the United States label of an acetate and gluconate fluid [kcal/mmol]."""

KJ_PER_KCAL = 4.184
"""Thermochemical calorie, exact by definition [kJ/kcal]."""


def energy(glucose_mass: Amounts) -> Amounts:
    """Energy of glucose by European labels: 4.0 kcal per gram of anhydrous glucose.

    glucose_mass: anhydrous [g/L]. Returns [kcal/L]. Mannitol counts 0.
    Source: UK product texts, 50 g/L printed as 200 kcal/L.

    >>> energy(50.0)
    200.0
    """
    require_not_negative(glucose_mass, "mass of glucose")
    return KCAL_PER_G_ANHYDROUS * glucose_mass


def energy_us(glucose_mass_monohydrate: Amounts) -> Amounts:
    """Energy of glucose by United States labels: 3.4 kcal per gram of the monohydrate.

    glucose_mass_monohydrate [g/L]. Returns [kcal/L].
    Source: United States labels, 50 g/L of hydrous dextrose printed as 170 kcal/L.

    >>> energy_us(50.0)
    170.0
    """
    require_not_negative(glucose_mass_monohydrate, "mass of glucose monohydrate")
    return KCAL_PER_G_MONOHYDRATE * glucose_mass_monohydrate


def energy_organic(lactate: Amounts, acetate: Amounts, gluconate: Amounts) -> Amounts:
    """Energy of organic anions, which United States labels print: 0.321 La + 0.209 Ac + 0.66 Gl.

    lactate, acetate, gluconate [mmol/L]. Returns [kcal/L], a figure of its own that is never
    added to the energy of glucose. Two of the three factors are fitted to labels.
    Source: United States labels, 9 and 21 kcal/L.

    >>> round(energy_organic(27.7, 0.0, 0.0)), round(energy_organic(0.0, 27.1, 23.0))
    (9, 21)
    """
    return (
        KCAL_PER_MMOL_LACTATE * lactate
        + KCAL_PER_MMOL_ACETATE * acetate
        + KCAL_PER_MMOL_GLUCONATE * gluconate
    )


def kilojoules(kilocalories: Amounts) -> Amounts:
    """Kilocalories in kilojoules: 4.184 kJ each.

    >>> round(kilojoules(200.0))
    837
    """
    return KJ_PER_KCAL * kilocalories
