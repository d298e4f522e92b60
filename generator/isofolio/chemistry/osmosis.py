"""Osmotically active particles: theoretical osmolarity, and an estimate per kg of water.

Two different figures. Osmolarity counts every particle as if it were alone and is what labels
print. Osmolality is what a freezing point measures; here it is estimated from the weighed salts
with Debye-Hückel-Pitzer osmotic coefficients at 25 °C.
"""

from collections.abc import Iterable, Mapping

import numpy as np

from isofolio.chemistry.amounts import (
    Amounts,
    Answers,
    Particles,
    plain,
    require_not_negative,
    require_positive,
    weighted_sum,
)
from isofolio.chemistry.solutes import Behaviour, LinearCoefficient, PitzerParameters, Solute

DEBYE_HUECKEL = 0.3915
"""Debye-Hückel slope of the osmotic coefficient, water at 25 °C [(kg/mol)^(1/2)]."""

CLOSEST_APPROACH = 1.2
"""Pitzer's b, the same for all electrolytes [(kg/mol)^(1/2)]."""

WATER_DENSITY = 0.99705
"""Mass of a litre of pure water at 25 °C [kg/L]."""

FREEZING_POINT_CONSTANT = 1.860
"""Depression of the freezing point of water [°C per Osm/kg]. USP <785>."""

HIGHEST_TABULATED = 6.0
"""Ionic strength up to which coefficients of the salts themselves are used [mol/kg]. Two published
sets of parameters agree within 3 % up to there for chlorides, acetates and magnesium sulfate, but
for phosphates only up to 2 (monobasic potassium) or 4 (dibasic)."""

HIGHEST_ASSUMED = 1.0
"""The same where one salt is only taken to be like another [mol/kg]. Concentrated sodium lactate
taken to be like sodium chloride comes out at twice its measured osmolality."""


def theoretical_osmolarity(particles: Particles) -> Amounts:
    """Sum of dissolved particles, each counted as if it were alone (osmotic coefficient 1).

    particles: concentration of each dissolved particle [mmol/L]; colloids are not particles here.
    Returns the osmolarity that labels print [mOsm/L].
    Source: USP <785>, osmolarity.

    >>> theoretical_osmolarity({"sodium": 154.0, "chloride": 154.0})
    308.0
    """
    return weighted_sum(particles, dict.fromkeys(particles, 1.0))


def osmolarity_from_masses(ingredients: Iterable[tuple[float, float, float]]) -> float:
    """Theoretical osmolarity straight from weighed ingredients: 1000 sum(nu m / M).

    ingredients: triples of mass [g/L], molar mass in the form as weighed [g/mol] and particles
    per formula unit [1]. Returns [mOsm/L]. Raises ValueError for a molar mass not above zero.
    Source: USP <785>, osmolarity.

    >>> round(osmolarity_from_masses([(9.0, 58.44, 2)]))
    308
    """
    total = 0.0
    for grams, molar_mass, particles in ingredients:
        require_positive(molar_mass, "molar mass")
        total += 1000.0 * particles * grams / molar_mass
    return total


def water_content(particles: Particles, volumes: Mapping[str, float]) -> Amounts:
    """Water in a litre of solution: 0.99705 (1 - sum c V).

    particles [mmol/L]; volumes: partial molar volume of each particle in water at 25 °C, by id
    [cm3/mol]. A particle without one makes the answer unknown (NaN) in fluids that hold it.
    Returns [kg of water per L]. The volumes are those at infinite dilution.

    >>> round(water_content({"sodium": 154.0, "chloride": 154.0},
    ...                     {"sodium": -1.21, "chloride": 17.83}), 4)
    0.9945
    """
    # mmol/L times cm3/mol is a millionth of a litre per litre.
    return WATER_DENSITY * (1.0 - weighted_sum(particles, volumes) * 1e-6)


def osmotic_coefficient(ionic_strength: Amounts, salt: PitzerParameters) -> Amounts:
    """Osmotic coefficient of a salt in a solution of a given ionic strength, at 25 °C.

    phi = 1 - |z+ z-| A sqrt(I) / (1 + 1.2 sqrt(I)) + m (2 n+ n- / n) B + m^2 (2 (n+ n-)^1.5 / n) C,
    with m the molality at which this salt alone would have that ionic strength,
    B = b0 + b1 exp(-2 sqrt(I)); for 2-2 salts B = b0 + b1 exp(-1.4 sqrt(I)) + b2 exp(-12 sqrt(I)).
    A is 0.3915, z+ and z- are the charge numbers, n+ and n- the ions of a formula unit, n both.

    ionic_strength [mol/kg]; salt: its parameters. Returns phi [1]. Good to about 6 mol/kg for
    1-1 salts, less for others.
    Source: Pitzer and Mayorga, J Phys Chem 1973;77:2300.

    >>> round(osmotic_coefficient(0.1, PitzerParameters(0.0765, 0.2664, 0.00127)), 4)
    0.9321
    """
    require_not_negative(ionic_strength, "ionic strength")
    ions = salt.cations + salt.anions
    per_mole = 0.5 * (salt.cations * salt.cation_charge**2 + salt.anions * salt.anion_charge**2)
    molality = ionic_strength / per_mole
    root = np.sqrt(ionic_strength)
    long_range = DEBYE_HUECKEL * root / (1.0 + CLOSEST_APPROACH * root)
    pairs = 2.0 * salt.cations * salt.anions / ions
    triples = 2.0 * (salt.cations * salt.anions) ** 1.5 / ions
    return plain(
        1.0
        - salt.cation_charge * salt.anion_charge * long_range
        + molality * pairs * _short_range(root, salt)
        + molality**2 * triples * salt.c
    )


def ionic_strength(solutes: Mapping[str, Solute], molalities: Particles) -> Amounts:
    """Ionic strength of a mixture: half the sum of z^2 m over all ions.

    solutes by id; molalities of the same ids [mol/kg]. Returns [mol/kg].

    >>> sugar, salt = Solute(1, 0.0, LinearCoefficient(0.022)), Solute(2, 1.0, LinearCoefficient(0))
    >>> ionic_strength({"salt": salt, "sugar": sugar}, {"salt": 0.154, "sugar": 0.278})
    0.154
    """
    return weighted_sum(molalities, {name: each.ionic_strength for name, each in solutes.items()})


def osmolality(solutes: Mapping[str, Solute], millimoles: Particles, water: Amounts) -> Amounts:
    """Estimated osmolality of a solution of weighed substances: sum of nu m phi.

    nu: particles per formula unit; m: molality; phi: osmotic coefficient. Every salt has the
    coefficient that it would have alone at the mixture's ionic strength; a sugar that of its own
    molality.

    solutes by id; millimoles: of the same ids [mmol/L]; an id that is not in solutes makes the
    fluids that hold it unknown (NaN). water: `water_content` [kg/L].
    Returns [mOsm/kg], an estimate with the error of `osmolality_error`; a measurement is printed
    as such, beside it, never in its place.
    Source: USP <785>, osmolality; coefficients as in `osmotic_coefficient`.

    >>> salt = Solute(2, 1.0, PitzerParameters(0.0765, 0.2664, 0.00127))
    >>> round(osmolality({"salt": salt}, {"salt": 154.0}, 0.9945), 1)
    286.8
    """
    require_positive(water, "water content")
    molalities = {name: amount / water / 1000.0 for name, amount in millimoles.items()}
    strength = ionic_strength(solutes, molalities)
    weights = {
        name: 1000.0 * each.particles * _coefficient(each.behaviour, strength, molalities[name])
        for name, each in solutes.items()
        if name in molalities
    }
    return weighted_sum(molalities, weights)


def all_tabulated(solutes: Mapping[str, Solute], millimoles: Particles) -> Answers:
    """Whether every substance that a fluid holds has osmotic coefficients of its own.

    solutes by id; millimoles: of the same ids [mmol/L]. An amount that is unknown gives no.

    >>> likened = Solute(2, 1.0, PitzerParameters(0.0765, 0.2664, 0.00127), tabulated=False)
    >>> all_tabulated({"lactate": likened}, {"lactate": 28.0})
    False
    """
    likened = {name: 0.0 if each.tabulated else 1.0 for name, each in solutes.items()}
    none = np.equal(weighted_sum(millimoles, likened), 0.0)
    return none if np.ndim(none) else bool(none)


def osmolality_applies(strength: Amounts, all_tabulated: Answers) -> Answers:
    """Whether the estimate may be printed at all at this ionic strength.

    strength: ionic strength [mol/kg]; all_tabulated: whether every salt has coefficients of its
    own. True up to 6 mol/kg, or up to 1 mol/kg where one is only "taken to be like" another.
    Unknown strength gives no.

    >>> osmolality_applies(2.0, True), osmolality_applies(7.4, False)
    (True, False)
    """
    highest = np.where(all_tabulated, HIGHEST_TABULATED, HIGHEST_ASSUMED)
    within = np.less_equal(strength, highest)
    return within if np.ndim(within) else bool(within)


def osmolality_error(strength: Amounts, all_tabulated: Answers, bicarbonate: Amounts) -> Amounts:
    """How far the estimated osmolality may be from the truth, as a rule of this project.

    3 % below 1 mol/kg of ionic strength where every substance has coefficients of its own, else
    5 %. With bicarbonate 5 %, and 8 % from 1 mol/kg on: published coefficients of sodium
    bicarbonate disagree (0.902 and 0.926 at 0.15 mol/kg).

    strength: ionic strength [mol/kg]; all_tabulated: as for `osmolality_applies`; bicarbonate
    [mmol/L]. Returns plus or minus [%]; NaN where an input is unknown or the estimate does not
    apply.

    >>> osmolality_error(0.155, True, 0.0), osmolality_error(1.06, True, 1000.0)
    (3.0, 8.0)
    """
    strong = np.greater_equal(strength, 1.0)
    ordinary = np.where(strong | np.logical_not(all_tabulated), 5.0, 3.0)
    with_bicarbonate = np.where(strong, 8.0, 5.0)
    error = np.where(np.greater(bicarbonate, 0.0), with_bicarbonate, ordinary)
    usable = np.logical_and(osmolality_applies(strength, all_tabulated), ~np.isnan(bicarbonate))
    return plain(np.where(usable, error, np.nan))


def freezing_point_depression(osmolality: Amounts) -> Amounts:
    """How far a solution freezes below water: 1.860 °C per Osm/kg.

    osmolality [mOsm/kg]. Returns [°C]. Source: USP <785>.

    >>> round(freezing_point_depression(286.0), 3)
    0.532
    """
    return FREEZING_POINT_CONSTANT * osmolality / 1000.0


def osmolality_from_freezing_point(depression: Amounts) -> Amounts:
    """Osmolality [mOsm/kg] from the depression of the freezing point [°C], a positive number.

    >>> round(osmolality_from_freezing_point(0.532))
    286
    """
    return 1000.0 * depression / FREEZING_POINT_CONSTANT


def _short_range(root: Amounts, salt: PitzerParameters) -> Amounts:
    if salt.cation_charge == 2 and salt.anion_charge == 2:
        pairs = salt.b1 * np.exp(-1.4 * root) + salt.b2 * np.exp(-12.0 * root)
        return plain(salt.b0 + pairs)
    return plain(salt.b0 + salt.b1 * np.exp(-2.0 * root))


def _coefficient(behaviour: Behaviour, strength: Amounts, molality: Amounts) -> Amounts:
    if isinstance(behaviour, PitzerParameters):
        return osmotic_coefficient(strength, behaviour)
    if isinstance(behaviour, LinearCoefficient):
        return 1.0 + behaviour.slope * molality
    return behaviour.ratio
