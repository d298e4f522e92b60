"""The codes of UCUM, the Unified Code for Units of Measure, for the units of our closed table.

Case-sensitive codes, each an atom of UCUM's published table with a metric prefix. `unit` has no
code here: UCUM's `U` is the enzyme unit and `[iU]` the international one, and an entry that says
"unit" says neither.
"""

NUMERATOR_CODES = {
    "g": "g",
    "mg": "mg",
    "mmol": "mmol",
    "mEq": "meq",
    "mOsm": "mosm",
    "kcal": "kcal",
    "kJ": "kJ",
    "mL": "mL",
    "L": "L",
    "unit": None,
    "mmHg": "mm[Hg]",
    "1": "1",
}
DENOMINATOR_CODES = {"L": "L", "mL": "mL", "100 mL": "dL", "kg": "kg", "h": "h", "day": "d"}


def ucum_code(unit: str) -> str | None:
    """The UCUM code of a unit of `units.UNITS`, or of "%" as a share of a whole; None for no code.

    Raises KeyError for a unit outside the table.

    >>> ucum_code("mEq/100 mL"), ucum_code("mOsm/kg"), ucum_code("%"), ucum_code("unit/h")
    ('meq/dL', 'mosm/kg', '%', None)
    """
    if unit == "%":
        return "%"
    top, _, below = unit.partition("/")
    code = NUMERATOR_CODES[top]
    if not below or code is None:
        return code
    return f"{code}/{DENOMINATOR_CODES[below]}"
