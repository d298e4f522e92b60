"""How plasma sodium would change by arithmetic, for a volume that the reader enters.

A description, not a plan: losses in urine go on meanwhile, and only measuring again tells. No
function here proposes a volume or a rate.
"""

from collections.abc import Mapping
from types import MappingProxyType

from isofolio.chemistry.amounts import Amounts, require_not_negative, require_positive

BODY_WATER_FACTORS: Mapping[str, float] = MappingProxyType(
    {"man": 0.6, "woman": 0.5, "older man": 0.5, "older woman": 0.45}
)
"""Litres of body water per kilogram [L/kg]. A teaching text, cut-off 65 years; not for children."""


def total_body_water(weight: Amounts, factor: Amounts) -> Amounts:
    """Body water: weight times factor.

    weight [kg]; factor: water per kilogram, by sex and age or a reader's own [L/kg].
    Returns [L].
    Raises ValueError for a weight or factor that is not above zero.

    >>> total_body_water(70.0, BODY_WATER_FACTORS["man"])
    42.0
    """
    require_positive(weight, "weight")
    require_positive(factor, "body water factor")
    return weight * factor


def sodium_change(
    sodium: Amounts,
    potassium: Amounts,
    serum_sodium: Amounts,
    body_water: Amounts,
    volume: Amounts = 1.0,
) -> Amounts:
    """Change of plasma sodium after any volume: V (Na + K - serum Na) / (TBW + V).

    sodium, potassium of the fluid [mmol/L]; serum_sodium [mmol/L]; body_water TBW [L]; volume V
    [L]. Returns [mmol/L]. With V = 1 this is the per-litre rule. Potassium counts as sodium.
    Raises ValueError for a negative volume or a body water that is not above zero.
    Source: method of Adrogué and Madias, N Engl J Med 2000;342:1493; any volume: Chen et al.,
    Kidney360 2021;2:365.

    >>> round(sodium_change(513.3, 0.0, 115.0, 35.0, volume=0.150), 2)
    1.7
    """
    require_not_negative(volume, "volume")
    require_positive(body_water, "body water")
    return volume * (sodium + potassium - serum_sodium) / (body_water + volume)


def sodium_change_linear(
    sodium: Amounts,
    potassium: Amounts,
    serum_sodium: Amounts,
    body_water: Amounts,
    volume: Amounts = 1.0,
) -> Amounts:
    """The per-litre change multiplied by the volume, which is exact for one litre only.

    Arguments as for `sodium_change`; shown beside it to teach the difference. Returns [mmol/L].

    >>> round(sodium_change_linear(513.3, 0.0, 115.0, 35.0, volume=0.150), 2)
    1.66
    """
    require_not_negative(volume, "volume")
    return volume * sodium_change(sodium, potassium, serum_sodium, body_water)
