"""Acid-base state after a volume of fluid: a teaching model of one well-mixed compartment.

Strong ions, albumin and phosphate are mixed by volume into the extracellular fluid and the pH is
solved from charge balance at constant carbon dioxide pressure. The model assumes 14 L of
extracellular fluid with plasma's albumin and phosphate throughout, no haemoglobin, no response of
kidneys or cells, no loss of albumin, full metabolism of organic anions and no Donnan effect. It
gives a direction and a rough size, and it overstates both.
"""

from dataclasses import dataclass

import numpy as np

from isofolio.chemistry.amounts import Amounts, plain, require_not_negative, require_positive
from isofolio.physiology.acid_base import bicarbonate, sid_effective, standard_base_excess
from isofolio.physiology.compartments import EXTRACELLULAR_VOLUME

LOWEST_PH = 2.0
HIGHEST_PH = 12.0
HALVINGS = 60
"""Halvings of the interval between them; the width that is left is below the last digit."""


@dataclass(frozen=True)
class Blood:
    """Acid-base state of the extracellular fluid, for one patient or element by element.

    strong_ions: strong ion difference less any colloid's charge [mEq/L]; pco2 [mmHg];
    albumin [g/L]; phosphate [mmol/L].
    """

    strong_ions: Amounts
    pco2: Amounts
    albumin: Amounts
    phosphate: Amounts


@dataclass(frozen=True)
class AcidBase:
    """What the model answers: ph [1], bicarbonate [mmol/L], standard base_excess [mmol/L]."""

    ph: Amounts
    bicarbonate: Amounts
    base_excess: Amounts


def blood(
    ph: Amounts = 7.4, pco2: Amounts = 40.0, albumin: Amounts = 42.0, phosphate: Amounts = 1.1
) -> Blood:
    """Blood of a given pH, by default the standard adult of the handbook.

    ph [1]; pco2 [mmHg]; albumin [g/L]; phosphate [mmol/L]. Its strong ion difference follows
    from charge balance: 38.23 mEq/L by default.

    >>> round(blood().strong_ions, 2)
    38.23
    """
    return Blood(sid_effective(ph, pco2, albumin, phosphate), pco2, albumin, phosphate)


def acid_base(state: Blood) -> AcidBase:
    """pH, bicarbonate and base excess of blood, solved from charge balance by bisection.

    Returns NaN where an input is unknown or no pH from 2 to 12 balances the charges. Albumin and
    phosphate must not be negative (ValueError).

    >>> round(acid_base(blood()).ph, 6), round(acid_base(blood()).base_excess, 2)
    (7.4, 0.09)
    """
    require_not_negative(state.albumin, "albumin")
    require_not_negative(state.phosphate, "phosphate")
    ph = _solve(state)
    carbonate = bicarbonate(state.pco2, ph)
    return AcidBase(ph, carbonate, standard_base_excess(carbonate, ph))


def infuse(
    before: Blood,
    sid: Amounts,
    volume: Amounts = 1.0,
    *,
    polyanion: Amounts = 0.0,
    albumin: Amounts = 0.0,
    phosphate: Amounts = 0.0,
    volume_before: Amounts = EXTRACELLULAR_VOLUME,
    volume_after: Amounts | None = None,
) -> Blood:
    """Blood after a volume of fluid has spread through the extracellular fluid.

    sid: `sid_in_body` of the fluid [mEq/L]; volume given [L]; polyanion: charge of a colloid that
    the body neither exhales nor burns [mEq/L], so that gelatin acts as the saline it is dissolved
    in; albumin [g/L] and phosphate [mmol/L] of the fluid; volume_before, volume_after of the
    extracellular fluid [L]. Without volume_after all of the fluid stays there. Give it, by
    `equilibrate`, for glucose and for hypertonic fluids, whose water moves.
    Raises ValueError for a negative volume or an extracellular volume that is not above zero.

    >>> after = infuse(blood(), sid=0.0)
    >>> round(acid_base(after).ph, 3), round(acid_base(after).base_excess, 1)
    (7.373, -1.7)
    """
    require_not_negative(volume, "volume")
    require_positive(volume_before, "extracellular volume")
    after = volume_before + volume if volume_after is None else volume_after
    require_positive(after, "extracellular volume after the infusion")

    def mixed(held: Amounts, given: Amounts) -> Amounts:
        return (held * volume_before + given * volume) / after

    return Blood(
        mixed(before.strong_ions, sid - polyanion),
        before.pco2,
        mixed(before.albumin, albumin),
        mixed(before.phosphate, phosphate),
    )


def _solve(state: Blood) -> Amounts:
    low: Amounts = LOWEST_PH
    high: Amounts = HIGHEST_PH
    within = (_excess(state, low) >= 0.0) & (_excess(state, high) <= 0.0)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        too_acid = np.greater(_excess(state, middle), 0.0)
        low, high = np.where(too_acid, middle, low), np.where(too_acid, high, middle)
    return plain(np.where(within, (low + high) / 2.0, np.nan))


def _excess(state: Blood, ph: Amounts) -> Amounts:
    """Strong ions less what balances them; falls as pH rises, so that it has one zero."""
    return state.strong_ions - sid_effective(ph, state.pco2, state.albumin, state.phosphate)
