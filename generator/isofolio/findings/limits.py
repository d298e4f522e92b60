"""Comparing a figure with a limit: at the precision in which the limit is written.

A bag of potassium chloride 0.3 % computes to 40.24 mmol/L and is everywhere called 40. A limit
written "40 mmol/L" is therefore compared with whole millimoles; one written "0.80" with hundredths.
"""

from decimal import ROUND_HALF_UP, Decimal

from isofolio.entries.lists import Limit


def figure_of(limit: Limit) -> float:
    """The figure of a limit, in its unit. Raises ValueError for a limit that is not one figure."""
    if limit.value.low is None or limit.value.state != "exact":
        raise ValueError(f"the limit {limit.id} is not one figure: write it as in 40 mmol/L.")
    return limit.value.low


def at_precision(number: float, limit: Limit) -> float:
    """A figure rounded half away from zero to the decimals in which the limit is written.

    >>> from isofolio.entries.scalars import parse_amount
    >>> forty = Limit.model_construct(id="x", value=parse_amount("40 mmol/L"))
    >>> at_precision(40.24, forty), at_precision(40.5, forty)
    (40.0, 41.0)
    """
    step = Decimal(1).scaleb(-limit.value.decimals)
    return float(Decimal(repr(float(number))).quantize(step, rounding=ROUND_HALF_UP))


def above(number: float | None, limit: Limit) -> bool:
    """Whether a figure lies above a limit; an unknown figure does not."""
    return number is not None and at_precision(number, limit) > figure_of(limit)


def at_least(number: float | None, limit: Limit) -> bool:
    """Whether a figure reaches a limit; an unknown figure does not."""
    return number is not None and at_precision(number, limit) >= figure_of(limit)


def below(number: float | None, limit: Limit) -> bool:
    """Whether a figure lies below a limit; an unknown figure does not."""
    return number is not None and at_precision(number, limit) < figure_of(limit)


def at_most(number: float | None, limit: Limit) -> bool:
    """Whether a figure does not exceed a limit; an unknown figure does not count."""
    return number is not None and at_precision(number, limit) <= figure_of(limit)
