"""Chemical formulas in one canonical grammar, and their molar masses."""

import re
from functools import cache

EXAMPLE = "write it as in NaCl, C6H12O6 or, with water of crystallisation, CaCl2(H2O)2"
LONGEST_FORMULA = 100

_SYMBOL = re.compile(r"[A-Z][a-z]?")
_COUNT = re.compile(r"[0-9]*")


@cache
def molar_mass(formula: str) -> float:
    """Molar mass of a substance in exactly the form that is weighed, hydrate water included.

    formula: grammar `([A-Z][a-z]?[0-9]*|(...)[0-9]*)+`, groups in round brackets, not nested.
    Charges, dots, spaces and signs are refused before any library sees them, because libraries
    read them in different ways and silently (`CaCl2.2H2O` becomes 136.08 in one, 147.01 in
    another). Returns the molar mass [g/mol].
    Raises ValueError with a sentence that says what is wrong and how to write it.
    Source: standard atomic weights, CIAAW 2021, abridged, as periodictable ships them.

    >>> round(molar_mass("CaCl2(H2O)2"), 3)
    147.008
    >>> molar_mass("CaCl2.2H2O")
    Traceback (most recent call last):
    ValueError: formula 'CaCl2.2H2O': '.' at character 6 is not allowed; write it as in NaCl, \
C6H12O6 or, with water of crystallisation, CaCl2(H2O)2.
    """
    counts = sorted(atoms(formula).items())
    return sum(_atomic_weight(symbol, formula) * number for symbol, number in counts)


def atoms(formula: str) -> dict[str, int]:
    """How many atoms of each element one formula unit holds.

    formula: see `molar_mass`. Raises ValueError as there.

    >>> atoms("CaCl2(H2O)2")
    {'Ca': 1, 'Cl': 2, 'H': 4, 'O': 2}
    """
    if not formula:
        raise ValueError(f"formula is empty; {EXAMPLE}.")
    if len(formula) > LONGEST_FORMULA:
        raise ValueError(f"formula of {len(formula)} characters is too long; {EXAMPLE}.")
    counts: dict[str, int] = {}
    position = 0
    while position < len(formula):
        position = _read_part(formula, position, counts)
    return counts


def _read_part(formula: str, position: int, counts: dict[str, int]) -> int:
    if formula[position] != "(":
        return _read_element(formula, position, counts, 1)
    closing = formula.find(")", position)
    if closing < 0:
        raise _fault(formula, f"the bracket at character {position + 1} is never closed")
    if closing == position + 1:
        raise _fault(formula, f"the bracket at character {position + 1} is empty")
    times, end = _read_count(formula, closing + 1)
    inside = position + 1
    while inside < closing:
        inside = _read_element(formula, inside, counts, times)
    return end


def _read_element(formula: str, position: int, counts: dict[str, int], times: int) -> int:
    symbol = _SYMBOL.match(formula, position)
    if symbol is None:
        raise _fault(formula, f"{formula[position]!r} at character {position + 1} is not allowed")
    number, end = _read_count(formula, symbol.end())
    counts[symbol.group()] = counts.get(symbol.group(), 0) + number * times
    return end


def _read_count(formula: str, position: int) -> tuple[int, int]:
    digits = _COUNT.match(formula, position)
    if digits is None or not digits.group():
        return 1, position
    if digits.group().startswith("0"):
        raise _fault(
            formula, f"the count {digits.group()!r} at character {position + 1} is not one"
        )
    return int(digits.group()), digits.end()


def _fault(formula: str, what: str) -> ValueError:
    return ValueError(f"formula {formula!r}: {what}; {EXAMPLE}.")


def _atomic_weight(symbol: str, formula: str) -> float:
    import periodictable

    # Isotope names (D, T) are not among them, and the neutron's small n is no symbol of ours.
    known = {element.symbol: element for element in periodictable.elements}
    if symbol not in known:
        raise _fault(formula, f"{symbol!r} is not the symbol of an element")
    return float(known[symbol].mass)
