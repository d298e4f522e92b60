"""What a change does to figures: every quantity before and after, with the size of the step.

A figure counts as changed where its printed text changes. It is loud where it is lost, appears in a
fluid that had none, or moves by JUMP or more. Quantities that may be negative are told by their
difference: a per cent of a figure near nothing says nothing.
"""

from collections.abc import Iterator

from isofolio.handbook import Handbook
from isofolio.measures.values import Value
from isofolio.review.effects import Both, Effect
from isofolio.vocabulary.quantities import QUANTITIES, QUANTITY_BY_ID
from isofolio.wording.bag import beside_interval
from isofolio.wording.figures import MINUS, amount, figure, rounded, spoken, unit_text

JUMP = 0.10
# Quantities that may be negative, and pH, whose steps are no ratio.
SIGNED = (
    "charge_gap",
    "sid_in_bag",
    "sid_in_body",
    "sid_in_body_low",
    "base_excess_1l",
    "ph_1l",
)
# What harms first when it is wrong stands first among figures; the rest as in every table.
HAZARDS = ("potassium", "calcium", "magnesium", "phosphate", "glucose", "sodium", "osmolarity")


def hazard_rank(quantity: str) -> int:
    """The place of a quantity among the changed figures of a fluid."""
    order = (*HAZARDS, *(q.id for q in QUANTITIES if q.id not in HAZARDS))
    return order.index(quantity) if quantity in order else len(order)


def changed_figures(both: Both) -> Iterator[Effect]:
    """An effect for each quantity of each fluid whose printed figure changes."""
    for pair in both.pairs:
        for quantity in both.after.quantities:
            before = both.before.value(pair.old, quantity)
            after = both.after.value(pair.new, quantity)
            if (before.number is None and after.number is None) or before == after:
                continue
            told = spoken(before, quantity), spoken(after, quantity)
            if told[0] != told[1]:
                loud = is_jump(before, after, quantity)
                size = size_of(before, after, quantity)
                yield Effect("figure", pair.entry, quantity, *told, size, loud)


def is_jump(before: Value, after: Value, quantity: str) -> bool:
    """Whether a step is loud: a figure lost, one where there was none, or JUMP of it and more.

    >>> is_jump(Value(40.0), Value(44.0), "potassium"), is_jump(Value(40.0), Value(43.0), "sodium")
    (True, False)
    """
    if before.number is None or after.number is None:
        return after.number is None
    if quantity in SIGNED:
        return False
    return abs(after.number - before.number) >= JUMP * abs(before.number) * (1 - 1e-9)


def size_of(before: Value, after: Value, quantity: str) -> str:
    """The size of a step in words.

    >>> size_of(Value(40.0), Value(400.0), "potassium"), size_of(Value(0.0), Value(4.0), "sodium")
    ('10 times', 'from none')
    >>> size_of(Value(300.0), Value(270.0), "glucose")
    '−10\\u202f%'
    """
    if before.number is None or after.number is None:
        return "no longer known" if after.number is None else "now known"
    if quantity in SIGNED or before.number * after.number < 0:
        return _difference(after.number - before.number, quantity)
    return relative_size(before.number, after.number)


def relative_size(before: float, after: float) -> str:
    """A step beside what it starts from.

    >>> relative_size(900.0, 800.0), relative_size(50.0, 55.0)
    ('−11\\u202f%', '+10\\u202f%')
    """
    if not before or not after:
        return "to none" if before else "from none"
    ratio = after / before
    if ratio >= 2:
        return f"{amount(ratio)} times"
    share = 100.0 * (ratio - 1.0)
    return f"{_signed(rounded(share, 1 if abs(share) < 9.95 else 0))}{unit_text('%')}"


def _difference(step: float, quantity: str) -> str:
    known = QUANTITY_BY_ID[quantity]
    return f"{_signed(figure(step, known))}{unit_text(known.unit)}"


def _signed(text: str) -> str:
    return text if text.startswith(MINUS) else f"+{text}"


def beside_plasma(both: Both) -> Iterator[Effect]:
    """An effect for each figure whose place beside the reference interval changes."""
    for pair in both.pairs:
        for quantity in both.after.beside:
            before = _place(both.before, pair.old, quantity)
            after = _place(both.after, pair.new, quantity)
            if before and after and before != after:
                yield Effect("plasma", pair.entry, quantity, before, after)


def _place(handbook: Handbook, fluid: str, quantity: str) -> str:
    """Below, within or above the interval, or none; "" where it cannot be told."""
    interval = handbook.beside.get(quantity)
    if interval is None or quantity not in QUANTITY_BY_ID:
        return ""
    low, high = interval.interval.low, interval.interval.high
    number = handbook.value(fluid, quantity).number
    if number is None or low is None or high is None:
        return ""
    return beside_interval(number, low, high, "").partition(",")[0]
