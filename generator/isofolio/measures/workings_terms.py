"""What a line of arithmetic is made of: numbers as they will be printed, and signs between them.

Nothing is written here: `wording` sets a line as text. But how many digits a number shows is part
of the arithmetic, because the next line goes on with what this one shows.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

SIGNIFICANT = 5


@dataclass(frozen=True)
class Term:
    """A number of a printed line.

    decimals: digits shown after the point; unit: printed next to it; name: of what it counts.
    """

    number: float
    decimals: int
    unit: str = ""
    name: str = ""

    @property
    def printed(self) -> float:
        """The number that the page shows, half rounded away from zero as `wording` does it.

        >>> Term(2.5, 0).printed
        3.0
        """
        places = Decimal(1).scaleb(-self.decimals)
        return float(Decimal(repr(self.number)).quantize(places, rounding=ROUND_HALF_UP))


Part = Term | str
Parts = tuple[Part, ...]
Pieces = list[tuple[Term, float]]


@dataclass(frozen=True)
class Working:
    """One line of arithmetic that a reader can follow with a pencil.

    quantity: the id of the figure it belongs to; name: what this line gives; formula: in words
    and symbols, with the factors in the order of the expression.
    expression: terms, and between them + − × ÷ ( ) and, where a law needs them, √, ^, e and log.
    result: as printed, with its unit. method: anchor of the function on the Method page.
    note: what is assumed, in a sentence. step: whether the line only prepares the figure; then
    its result is made of the numbers that the lines before it show.
    """

    quantity: str
    name: str
    formula: str
    expression: Parts
    result: Term
    method: str
    note: str = ""
    step: bool = False


def digits(size: float, preferred: int, *, least: int = 3, most: int = SIGNIFICANT) -> int:
    """Digits after the point: the preferred number, within the significant digits allowed.

    size: the number, or the largest number of a sum; least, most: significant digits.

    >>> digits(130.96, 2), digits(5133.47, 2), digits(0.0123, 2)
    (2, 1, 4)
    """
    if size == 0:
        return preferred
    before = math.floor(math.log10(abs(size))) + 1
    return max(0, min(max(preferred, least - before), most - before))


def exact(number: float, unit: str = "", name: str = "") -> Term:
    """A constant or a count, with all its digits.

    >>> exact(309.7).decimals, exact(42.0).decimals
    (1, 0)
    """
    return Term(number, _all_decimals(number), unit, name)


def shown(number: float, decimals: int, unit: str = "", name: str = "") -> Term:
    """A computed number with so many decimals, or with fewer where those say all of it."""
    return Term(number, min(decimals, _all_decimals(number) if number else decimals), unit, name)


def amount(number: float, unit: str = "", name: str = "") -> Term:
    """A concentration: two decimals, five significant digits at most."""
    return shown(number, digits(number, 2), unit, name)


def settled(number: float, decimals: int, unit: str = "", name: str = "") -> Term:
    """The result of a step, cut to what is shown, so that the next line goes on with just that."""
    return Term(Term(number, decimals).printed, decimals, unit, name)


def total(number: float, pieces: Pieces, unit: str) -> Term:
    """The result of a sum: one decimal, none from 1000 on, for its terms carry no more."""
    largest = max([abs(number), *(abs(term.number * factor) for term, factor in pieces)])
    return shown(number, digits(largest, 1, least=2, most=4), unit)


def finer(term: Term) -> Term:
    """The same number with one decimal: a sum above 1000 hides it, and the next line needs it."""
    return replace(term, decimals=max(term.decimals, min(1, _all_decimals(term.number))))


def summed(pieces: Pieces) -> Parts:
    """Terms times factors, added; what counts negative is subtracted.

    >>> [part if isinstance(part, str) else part.number
    ...  for part in summed([(exact(2.0), 2.0), (exact(4.0), -1.0)])]
    [2.0, '×', 2.0, '−', 4.0]
    """
    parts: list[Part] = []
    for term, factor in pieces:
        below = (term.number < 0) != (factor < 0)
        size = replace(term, number=abs(term.number))
        if parts:
            parts += ["−" if below else "+", size]
        else:
            parts.append(replace(size, number=-size.number) if below else size)
        parts += [] if abs(factor) == 1 else ["×", _counted(abs(factor))]
    return tuple(parts)


def joined(sums: Iterable[Parts]) -> Parts:
    """Several products, added."""
    parts: list[Part] = []
    for product in sums:
        parts += ["+", *product] if parts else [*product]
    return tuple(parts)


def _counted(factor: float) -> Term:
    return Term(factor, min(SIGNIFICANT, _all_decimals(factor)))


def _all_decimals(number: float) -> int:
    exponent = Decimal(repr(float(number))).normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0
