"""Arithmetic of rates for the worksheets: drops, pumps, glucose load, published daily needs."""

import numpy as np

from isofolio.chemistry.amounts import Amounts, plain, require_not_negative, require_positive

MINUTES_PER_HOUR = 60.0

SODIUM_PER_LITRE = 30.0
"""Sodium beside maintenance water: 3 mmol per 100 mL [mmol/L]. Holliday and Segar 1957."""

POTASSIUM_PER_LITRE = 20.0
"""Potassium beside maintenance water: 2 mmol per 100 mL [mmol/L]. Holliday and Segar 1957."""

CHLORIDE_PER_LITRE = 20.0
"""Chloride beside maintenance water: 2 mmol per 100 mL [mmol/L]. Holliday and Segar 1957."""


def drops_per_minute(volume: Amounts, minutes: Amounts, drops_per_ml: Amounts) -> Amounts:
    """Drops to count: mL times drops per mL over minutes.

    volume [mL]; minutes [min]; drops_per_ml: printed on the set, 20 or 60 by ISO 8536-4 [1/mL].
    Returns [drops/min], not rounded. Raises ValueError for a time or a set that is not above
    zero, or a negative volume.

    >>> round(drops_per_minute(1000.0, 8 * 60.0, 20.0), 1)
    41.7
    """
    require_not_negative(volume, "volume")
    require_positive(minutes, "time")
    require_positive(drops_per_ml, "drops per mL")
    return volume * drops_per_ml / minutes


def pump_rate(volume: Amounts, hours: Amounts) -> Amounts:
    """Volume over time: volume [mL] over hours [h]. Returns [mL/h].

    >>> pump_rate(1000.0, 8.0)
    125.0
    """
    require_not_negative(volume, "volume")
    require_positive(hours, "time")
    return volume / hours


def running_time(volume: Amounts, rate: Amounts) -> Amounts:
    """Hours that a volume [mL] lasts at a rate [mL/h]. Returns [h].

    >>> running_time(500.0, 125.0)
    4.0
    """
    require_not_negative(volume, "volume")
    require_positive(rate, "rate")
    return volume / rate


def glucose_rate(glucose_mass: Amounts, rate: Amounts, weight: Amounts) -> Amounts:
    """Glucose delivered: g/L times mL/h over kg and 60.

    glucose_mass: anhydrous [g/L]; rate [mL/h]; weight [kg]. Returns [mg/kg/min].
    Raises ValueError for a weight that is not above zero or anything negative.

    >>> round(glucose_rate(100.0, 100.0, 70.0), 2)
    2.38
    """
    require_not_negative(glucose_mass, "glucose")
    require_not_negative(rate, "rate")
    require_positive(weight, "weight")
    return glucose_mass * rate / (weight * MINUTES_PER_HOUR)


def maintenance_per_day(weight: Amounts) -> Amounts:
    """Published water need of a child: 100 mL/kg to 10 kg, then 50, above 20 kg 20 mL/kg a day.

    weight [kg], above zero (ValueError). Returns [mL/day]; what was published, not a prescription.
    Source: Holliday and Segar, Pediatrics 1957;19:823.

    >>> maintenance_per_day(32.0)
    1740.0
    """
    return _banded(weight, (100.0, 50.0, 20.0))


def maintenance_per_hour(weight: Amounts) -> Amounts:
    """The 4-2-1 rule: 4 mL/kg/h to 10 kg, then 2, above 20 kg 1 mL/kg/h.

    A rounded form of `maintenance_per_day` that does not agree with it: at 30 kg it gives 70 mL/h,
    1680 mL a day, beside 1700. weight [kg], above zero (ValueError). Returns [mL/h].
    Common practice, no source.

    >>> maintenance_per_hour(30.0)
    70.0
    """
    return _banded(weight, (4.0, 2.0, 1.0))


def maintenance_ions(millilitres: Amounts) -> dict[str, Amounts]:
    """Sodium, potassium and chloride published beside maintenance water: 3, 2 and 2 per 100 mL.

    millilitres of maintenance water [mL/day]. Returns particles by id [mmol/day].
    Source: Holliday and Segar, Pediatrics 1957;19:823.

    >>> {name: round(amount, 1) for name, amount in maintenance_ions(1740.0).items()}
    {'sodium': 52.2, 'potassium': 34.8, 'chloride': 34.8}
    """
    require_not_negative(millilitres, "volume")
    litres = millilitres / 1000.0
    return {
        "sodium": SODIUM_PER_LITRE * litres,
        "potassium": POTASSIUM_PER_LITRE * litres,
        "chloride": CHLORIDE_PER_LITRE * litres,
    }


def _banded(weight: Amounts, per_kilogram: tuple[float, float, float]) -> Amounts:
    require_positive(weight, "weight")
    first = np.minimum(weight, 10.0)
    second = np.clip(np.subtract(weight, 10.0), 0.0, 10.0)
    above = np.maximum(np.subtract(weight, 20.0), 0.0)
    return plain(per_kilogram[0] * first + per_kilogram[1] * second + per_kilogram[2] * above)
