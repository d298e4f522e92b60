"""Plasma as Stewart and Figge see it: bicarbonate, weak acids, base excess, strong ion gap."""

import numpy as np

from isofolio.chemistry.amounts import Amounts, plain, require_positive

CARBON_DIOXIDE_SOLUBILITY = 0.0307
"""Dissolved carbon dioxide in plasma at 37 °C [mmol/L per mmHg]."""

CARBONIC_ACID_PK = 6.1
"""First apparent pK of carbonic acid in plasma at 37 °C [1]."""

STANDARD_BICARBONATE = 24.4
"""Bicarbonate at which the standard base excess at pH 7.40 is 0 [mmol/L]."""

STANDARD_PH = 7.4


def bicarbonate(pco2: Amounts, ph: Amounts) -> Amounts:
    """Bicarbonate of plasma: 0.0307 pCO2 10^(pH - 6.1).

    pco2 [mmHg]; ph [1]. Returns [mmol/L]. Source: Henderson-Hasselbalch equation. (A form with
    12.2 pCO2 / 10^-pH stands in one published table of definitions without its exponent.)

    >>> round(bicarbonate(40.0, 7.4), 2)
    24.5
    """
    return plain(
        CARBON_DIOXIDE_SOLUBILITY * pco2 * np.power(10.0, np.subtract(ph, CARBONIC_ACID_PK))
    )


def ph_from_bicarbonate(bicarbonate: Amounts, pco2: Amounts) -> Amounts:
    """pH of plasma: 6.1 + log10(HCO3 / (0.0307 pCO2)).

    bicarbonate [mmol/L]; pco2 [mmHg], both above zero. Returns [1]. Raises ValueError otherwise.

    >>> round(ph_from_bicarbonate(24.5, 40.0), 2)
    7.4
    """
    require_positive(bicarbonate, "bicarbonate")
    require_positive(pco2, "carbon dioxide pressure")
    return plain(CARBONIC_ACID_PK + np.log10(bicarbonate / (CARBON_DIOXIDE_SOLUBILITY * pco2)))


def pco2_from_bicarbonate(bicarbonate: Amounts, ph: Amounts) -> Amounts:
    """Carbon dioxide pressure that belongs to a bicarbonate and a pH [mmHg].

    bicarbonate [mmol/L]; ph [1].

    >>> round(pco2_from_bicarbonate(24.5, 7.4), 1)
    40.0
    """
    dissolved = bicarbonate / np.power(10.0, np.subtract(ph, CARBONIC_ACID_PK))
    return plain(dissolved / CARBON_DIOXIDE_SOLUBILITY)


def albumin_charge(albumin: Amounts, ph: Amounts) -> Amounts:
    """Negative charge of albumin: albumin (0.123 pH - 0.631).

    albumin [g/L]; ph [1], the fit is for pH 6.9 to 7.9. Returns a magnitude [mEq/L].
    Source: Figge, Mydosh, Fencl, J Lab Clin Med 1992;120:713.

    >>> round(albumin_charge(44.0, 7.4), 1)
    12.3
    """
    return albumin * (0.123 * ph - 0.631)


def phosphate_charge(phosphate: Amounts, ph: Amounts) -> Amounts:
    """Negative charge of inorganic phosphate: Pi (0.309 pH - 0.469).

    phosphate [mmol/L]; ph [1], near 7.4. Returns a magnitude [mEq/L].
    Source: Figge, Mydosh, Fencl, J Lab Clin Med 1992;120:713.

    >>> round(phosphate_charge(1.0, 7.4), 4)
    1.8176
    """
    return phosphate * (0.309 * ph - 0.469)


def standard_base_excess(bicarbonate: Amounts, ph: Amounts) -> Amounts:
    """Standard base excess: 0.9287 (HCO3 - 24.4 + 14.83 (pH - 7.4)).

    bicarbonate [mmol/L]; ph [1]. Returns [mmol/L]. Form of the van Slyke equation for
    extracellular fluid; the constants come from memory.

    >>> round(standard_base_excess(24.5, 7.4), 2)
    0.09
    """
    return 0.9287 * (bicarbonate - STANDARD_BICARBONATE + 14.83 * (ph - STANDARD_PH))


def sid_effective(ph: Amounts, pco2: Amounts, albumin: Amounts, phosphate: Amounts) -> Amounts:
    """Effective strong ion difference: bicarbonate plus the charge of albumin and phosphate.

    ph [1]; pco2 [mmHg]; albumin [g/L]; phosphate [mmol/L]. Returns [mEq/L].

    >>> round(sid_effective(7.4, 40.0, 42.0, 1.1), 2)
    38.23
    """
    weak_acids = albumin_charge(albumin, ph) + phosphate_charge(phosphate, ph)
    return bicarbonate(pco2, ph) + weak_acids


def sid_apparent(
    *,
    sodium: Amounts,
    potassium: Amounts,
    ionised_calcium: Amounts,
    magnesium: Amounts,
    chloride: Amounts,
    lactate: Amounts,
) -> Amounts:
    """Apparent strong ion difference of plasma: Na + K + 2 Ca + 2 Mg - Cl - lactate.

    All [mmol/L], calcium the ionised part. Returns [mEq/L].

    >>> round(sid_apparent(sodium=140.0, potassium=4.0, ionised_calcium=1.2, magnesium=0.8,
    ...                    chloride=104.0, lactate=1.0), 1)
    43.0
    """
    divalent = 2.0 * (ionised_calcium + magnesium)
    return sodium + potassium + divalent - chloride - lactate


def strong_ion_gap(apparent: Amounts, effective: Amounts) -> Amounts:
    """Strong ion gap: SIDa - SIDe, the charge of unmeasured anions [mEq/L].

    >>> strong_ion_gap(43.0, 38.0)
    5.0
    """
    return apparent - effective
