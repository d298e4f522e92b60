"""Numbers as people read them: the only rounding in the project.

Half is rounded away from zero, once, in decimal arithmetic. U+202F stands before %, U+00A0 before
a unit, so that a figure and its unit never part at a line end.
"""

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache

from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import QUANTITY_BY_ID, Quantity

NARROW = "\u202f"
HARD = "\u00a0"
MINUS = "\u2212"
RANGE = "\u2013"

FINE_BELOW = 20.0


def rounded(number: float, decimals: int) -> str:
    """Half away from zero, with a true minus sign.

    >>> rounded(1.25, 1), rounded(-0.04, 1), rounded(-2.5, 0)
    ('1.3', '0.0', '−3')
    """
    exact = Decimal(repr(float(number)))
    text = str(exact.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP))
    if text.startswith("-"):
        return text[1:] if not text.strip("-0.") else MINUS + text[1:]
    return text


def amount(number: float) -> str:
    """An amount in a bag or a litre: one decimal below 20, none from there on, whole where whole.

    >>> amount(277.54), amount(5.366), amount(0.0), amount(12.5), amount(10.0)
    ('278', '5.4', '0', '12.5', '10')
    """
    if abs(number) >= FINE_BELOW or number == 0:
        return rounded(number, 0)
    if abs(number) < 0.095:  # one decimal would hide it
        return rounded(number, 2)
    return rounded(number, 1).removesuffix(".0")


def figure(number: float, quantity: Quantity) -> str:
    """The figure alone, by the quantity's own rule."""
    if quantity.decimals == 1 and quantity.unit != "1":
        return amount(number)
    return rounded(number, quantity.decimals)


def unit_text(unit: str) -> str:
    """A unit with its space: nothing for a pure number, the narrow one before %."""
    if unit in {"", "1"}:
        return ""
    return f"{NARROW}%" if unit == "%" else f"{HARD}{unit}"


def spoken(value: Value, quantity_id: str) -> str:
    """Figure and unit, or the reason why there is none.

    >>> spoken(Value(277.54), "glucose") == "278" + HARD + "mmol/L"
    True
    """
    quantity = QUANTITY_BY_ID[quantity_id]
    if value.number is None:
        return value.reason
    return figure(value.number, quantity) + unit_text(quantity.unit)


def capital(text: str) -> str:
    """A name or reason as a sentence begins; pH keeps its small letter.

    >>> capital("osmolarity in the bag"), capital("pH after one litre")
    ('Osmolarity in the bag', 'pH after one litre')
    """
    return text if text.startswith("pH") else text[0].upper() + text[1:]


_STRENGTH = re.compile(r"(\d+(?:\.\d+)?) ?%")


def typeset(text: str) -> str:
    """A name or sentence with unbreakable figures: "0.9 %" keeps its sign.

    >>> typeset("Glucose 5 %") == "Glucose" + HARD + "5" + NARROW + "%"
    True
    """
    return _typeset(str(text))


# The same names, units and sentences stand on many pages of one build.
@lru_cache(maxsize=10_000)
def _typeset(text: str) -> str:
    held = _STRENGTH.sub(rf"\1{NARROW}%", text)
    held = re.sub(r"(?<=\w) (?=\d[\d.]*\u202f%)", HARD, held)
    return re.sub(rf"(?<=\d) (?=({_UNITS})(?![A-Za-z]))", HARD, held)


_UNITS = "g|mg|kg|mmol|mol|mEq|mOsm|kcal|kJ|mL|L|mmHg|h|min|cm|mm|°C|units?"


def strength_pairs(name: str) -> tuple[tuple[str, str], ...]:
    """The pairs of substance and strength in a title; one pair with no figure where it has none.

    >>> strength_pairs("Sodium chloride 0.9 %") == (("Sodium chloride", "0.9" + NARROW + "%"),)
    True
    >>> strength_pairs("Compound sodium lactate")
    (('Compound sodium lactate', ''),)
    """
    pairs: list[tuple[str, str]] = []
    start = 0
    for found in _STRENGTH.finditer(name):
        pairs.append((name[start : found.start()].strip(), f"{found[1]}{NARROW}%"))
        start = found.end()
    rest = name[start:].strip(" ,")
    if rest or not pairs:
        pairs.append((rest, ""))
    return tuple(pairs)


def written(text: str) -> str:
    """A declared amount as its source writes it, typeset: "4.5 to 7.0" becomes "4.5–7.0"."""
    return typeset(re.sub(r"(?<=\d) to (?=\d)", RANGE, text.removesuffix(" 1")))
