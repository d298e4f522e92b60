"""Figures in the prose of entries, as the handbook computes them."""

from isofolio.handbook import Handbook
from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.figures import HARD, amount, spoken, typeset, written
from isofolio.wording.placeholders import PLASMA, Placeholder, filled

NONE = "none"
# What is left of a sum of floating-point figures that cancel [any unit of a quantity].
NOISE = 1e-9


def live(handbook: Handbook, text: str) -> str:
    """The text with every figure in it, typeset."""
    return typeset(filled(text, lambda placeholder: told(handbook, placeholder)))


def told(handbook: Handbook, placeholder: Placeholder) -> str:
    """What stands in the place of one placeholder. Raises KeyError for what does not exist."""
    subject, quantity = placeholder.subject, placeholder.quantity
    if not quantity:
        return handbook.catalogue.fluids[subject].name
    if subject == PLASMA:
        return written(handbook.beside[quantity].interval.text)
    if placeholder.millilitres is not None:
        return in_volume(handbook, subject, quantity, placeholder.millilitres)
    value = level(handbook.value(subject, quantity))
    if value.number == 0 and QUANTITY_BY_ID[quantity].scales:
        return NONE
    return spoken(value, quantity)


def in_volume(handbook: Handbook, fluid: str, quantity: str, millilitres: float) -> str:
    """What so many millilitres hold, with its unit; none, or the reason for no figure."""
    value = level(handbook.in_container(fluid, quantity, millilitres))
    if value.number is None:
        return value.reason
    unit = QUANTITY_BY_ID[quantity].container_unit
    return f"{amount(value.number)}{HARD}{unit}" if value.number else NONE


def level(value: Value) -> Value:
    """The value itself; 0 for what only floating-point arithmetic keeps from it.

    >>> level(Value(3.6e-15)).number, level(Value(0.2)).number
    (0.0, 0.2)
    """
    if value.number is not None and abs(value.number) < NOISE:
        return Value(0.0)
    return value
