"""Where a litre goes: osmotic equilibrium between the fluid outside and inside cells.

Standard adult of 70 kg with 42 L of water. All effective particles of the fluid are taken to stay
outside cells (potassium too), water moves until both sides have one osmolarity, and a quarter of
what stays outside is plasma. Excretion, the glycocalyx and everything that depends on time are
left out. The plasma effect of a colloid is not computed.
"""

from dataclasses import dataclass

from isofolio.chemistry.amounts import Amounts, require_not_negative
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY

EXTRACELLULAR_VOLUME = 14.0
"""Water outside cells of the standard adult [L]. This project's choice, from textbooks."""

INTRACELLULAR_VOLUME = 28.0
"""Water inside cells of the standard adult [L]. This project's choice, from textbooks."""

PLASMA_SHARE = 0.25
"""Share of plasma in a gain of extracellular fluid, at equilibrium, crystalloids only [1]."""


@dataclass(frozen=True)
class WaterShift:
    """Gain of each compartment from the volume given [mL]; per litre given, that is mL/L.

    plasma_gain is the part of ecf_gain that stays in plasma. A negative icf_gain means that cells
    lose water.
    """

    ecf_gain: Amounts
    icf_gain: Amounts
    plasma_gain: Amounts


def equilibrate(
    effective: Amounts,
    volume: Amounts = 1.0,
    *,
    extracellular: Amounts = EXTRACELLULAR_VOLUME,
    intracellular: Amounts = INTRACELLULAR_VOLUME,
    osmolarity: Amounts = PLASMA_EFFECTIVE_OSMOLARITY,
) -> WaterShift:
    """Exact equilibrium after any volume of a fluid.

    New osmolarity = (osmolarity TBW + effective V) / (TBW + V); cells, which gain no particles,
    then hold their water times osmolarity / new osmolarity.

    effective: effective osmolarity of the fluid [mOsm/L]; volume given [L]; extracellular,
    intracellular water [L] and osmolarity [mOsm/L] before. Returns gains in mL for that volume.
    Raises ValueError for a negative volume or osmolarity.

    >>> shift = equilibrate(0.0)
    >>> round(shift.ecf_gain), round(shift.icf_gain), round(shift.plasma_gain)
    (333, 667, 83)
    """
    require_not_negative(effective, "effective osmolarity")
    require_not_negative(volume, "volume")
    body_water = extracellular + intracellular
    particles = osmolarity * body_water + effective * volume
    cells = intracellular * osmolarity * (body_water + volume) / particles
    return _shift(volume, cells - intracellular)


def teaching_split(free_water: Amounts, volume: Amounts = 1.0) -> WaterShift:
    """The rule of textbooks: free water spreads over all water, the rest stays outside cells.

    Of a volume V with free water e, V (1 - e) stays outside, V e goes one third outside and two
    thirds inside. free_water e [1], not for a fluid stronger than plasma (ValueError if
    negative); volume V [L]. Returns gains in mL. Beside the exact figure, for teaching.

    >>> half_strength = teaching_split(0.5)
    >>> round(half_strength.plasma_gain), round(half_strength.icf_gain)
    (167, 333)
    """
    require_not_negative(free_water, "free water")
    require_not_negative(volume, "volume")
    return _shift(volume, volume * free_water * 2.0 / 3.0)


def _shift(volume: Amounts, into_cells: Amounts) -> WaterShift:
    outside = 1000.0 * (volume - into_cells)
    return WaterShift(outside, 1000.0 * into_cells, PLASMA_SHARE * outside)
