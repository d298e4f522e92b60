"""Numbers that stand for one fluid (a float) or for many fluids at once (an array)."""

from collections.abc import Mapping
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Amounts: TypeAlias = float | NDArray[np.float64]
"""A figure of one fluid, or of many fluids element by element. NaN means unknown."""

Particles: TypeAlias = Mapping[str, Amounts]
"""Concentration of each dissolved particle by its id [mmol/L]. A particle not listed is absent."""

Answers: TypeAlias = bool | NDArray[np.bool_]
"""Yes or no for one fluid, or for many fluids element by element."""

UNKNOWN = float("nan")
"""The number that stands for "not known". It spoils every sum that it enters, which is its use."""


def of(particles: Particles, particle: str) -> Amounts:
    """Concentration of one particle; a particle that is not listed is absent.

    particles: concentration of each dissolved particle [mmol/L].
    Returns its concentration [mmol/L]: 0.0 where it is not listed, NaN where it is unknown.

    >>> of({"sodium": 154.0}, "sodium"), of({"sodium": 154.0}, "potassium")
    (154.0, 0.0)
    """
    return particles.get(particle, 0.0)


def weighted_sum(amounts: Particles, weights: Particles) -> Amounts:
    """Sum of amount times weight over all particles, always added in the order of their ids.

    The fixed order makes the last digit independent of the order in which a fluid was written.
    A particle without a weight makes the sum unknown (NaN), but only in fluids that contain it.

    amounts: any amount by particle id; weights: what one unit of each counts for, same ids.
    Returns the sum, in the unit of amount times weight; 0.0 for no particle at all.

    >>> weighted_sum({"sodium": 2.0, "calcium": 3.0}, {"calcium": 2.0, "sodium": 1.0})
    8.0
    >>> weighted_sum({"sodium": 2.0, "xenon": 0.0}, {"sodium": 1.0})
    2.0
    >>> weighted_sum({"sodium": 2.0, "xenon": 1.0}, {"sodium": 1.0})
    nan
    """
    total: Amounts = 0.0
    for particle in sorted(amounts):
        total = total + _product(amounts[particle], weights.get(particle, UNKNOWN))
    return total


def plain(number: Amounts) -> Amounts:
    """A Python float for a single number, so that it prints and exports as one; arrays unchanged.

    >>> plain(np.float64(1.5))
    1.5
    """
    return number if np.ndim(number) else float(number)


def magnitude(number: Amounts) -> Amounts:
    """The number without its sign.

    >>> magnitude(-2.0)
    2.0
    """
    return plain(np.abs(number))


def require_not_negative(amount: Amounts, what: str) -> None:
    """Refuse a negative number where nature knows none. NaN (unknown) passes.

    Raises ValueError with a sentence that names the thing and the number.

    >>> require_not_negative(-1.0, "mass")
    Traceback (most recent call last):
    ValueError: mass is -1.0, and it cannot be negative: write it as 0 or more.
    """
    if isinstance(amount, float) and not amount < 0.0:  # by far the commonest call
        return
    _refuse(amount, np.less(amount, 0.0), f"{what} is {{}}, and it cannot be negative", "0 or more")


def require_positive(amount: Amounts, what: str) -> None:
    """Refuse zero or less where something is divided by it. NaN (unknown) passes.

    Raises ValueError with a sentence that names the thing and the number.

    >>> require_positive(0.0, "volume")
    Traceback (most recent call last):
    ValueError: volume is 0.0, and it must be above zero: write it as more than 0.
    """
    if isinstance(amount, float) and not amount <= 0.0:
        return
    wrong = np.less_equal(amount, 0.0)
    _refuse(amount, wrong, f"{what} is {{}}, and it must be above zero", "more than 0")


def _product(amount: Amounts, weight: Amounts) -> Amounts:
    if isinstance(amount, np.ndarray) or isinstance(weight, np.ndarray):
        # None of a particle counts for nothing, even where its weight is not known.
        return np.where(np.equal(amount, 0.0), 0.0, np.multiply(amount, weight))
    return 0.0 if amount == 0.0 else amount * weight


def _refuse(amount: Amounts, wrong: Answers, what: str, instead: str) -> None:
    if np.any(wrong):
        culprit = float(np.asarray(amount)[np.asarray(wrong)].flat[0])
        raise ValueError(f"{what.format(culprit)}: write it as {instead}.")
