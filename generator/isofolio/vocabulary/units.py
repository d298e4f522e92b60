"""The closed table of units, and factors between them.

pint multiplies magnitudes inside this table; it never reads a text and it refuses to add mOsm
to mmol, because each counted thing has its own dimension here.
"""

from functools import cache
from typing import Any

NUMERATORS = ("g", "mg", "mmol", "mEq", "mOsm", "kcal", "kJ", "mL", "L", "unit", "mmHg", "1")
DENOMINATORS = ("", "L", "mL", "100 mL", "kg", "h", "day")

UNITS = tuple(
    top if not below else f"{top}/{below}" for top in NUMERATORS for below in DENOMINATORS
)

_DEFINITIONS = """
gram = [mass] = g
milligram = 0.001 gram = mg
kilogram = 1000 gram = kg
millimole = [substance] = mmol
milliequivalent = [charge_amount] = mEq
milliosmole = [osmoles] = mOsm
kilocalorie = [heat] = kcal
kilojoule = kilocalorie / 4.184 = kJ
litre = [volume] = L
millilitre = 0.001 litre = mL
unit = [activity]
mmHg = [pressure]
hour = [time] = h
day = 24 hour
"""


@cache
def _registry() -> Any:
    import pint

    registry: Any = pint.UnitRegistry(None)
    for line in _DEFINITIONS.strip().splitlines():
        registry.define(line)
    return registry


def _quantity(unit: str) -> Any:
    registry = _registry()
    if unit == "%":  # "% w/v": grams in 100 mL
        return registry.Quantity(10.0, registry.gram / registry.litre)
    top, _, below = unit.partition("/")
    number, _, denominator = below.rpartition(" ")
    result = registry.Quantity(1.0, "" if top == "1" else top)
    if not below:
        return result
    return result / registry.Quantity(float(number or 1), denominator)


@cache
def factor(unit: str, wanted: str) -> float | None:
    """What a number in `unit` is multiplied by to become `wanted`; None where they do not convert.

    unit, wanted: texts of `UNITS`, or "%" for grams per 100 mL.

    >>> factor("mmol/100 mL", "mmol/L")
    10.0
    >>> factor("%", "g/L")
    10.0
    >>> factor("mOsm/L", "mmol/L") is None
    True
    """
    ratio = _quantity(unit) / _quantity(wanted)
    if not ratio.dimensionless:
        return None
    return round(float(ratio.to_base_units().magnitude), 12)
