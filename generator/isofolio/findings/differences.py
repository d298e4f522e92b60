"""How far two fluids are apart: each difference in steps, capped, weighted, added up.

A judgement of this project, not validated. Every number of it stands in limits.yml: an id that
begins with substitute-width- names a quantity and how much of it is one step, the id with
substitute-weight- how much a step counts, substitute-cap how many steps one quantity counts at
most, substitute-small and substitute-large where the words change.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from isofolio.entries.lists import Limit
from isofolio.findings.limits import figure_of
from isofolio.measures.columns import Array
from isofolio.vocabulary.quantities import QUANTITY_BY_ID, Quantity
from isofolio.wording.figures import MINUS, rounded

WIDTH, WEIGHT = "substitute-width-", "substitute-weight-"
SINGLE = ("substitute-cap", "substitute-small", "substitute-large")

SMALL, MODERATE, LARGE = "small difference", "moderate difference", "large difference"

# A difference of this size is printed in whole numbers, a smaller one to one decimal.
WHOLE_FROM = 20.0

Side: TypeAlias = Mapping[str, Array]
"""Figures by quantity, of one fluid or of many: arrays that can be laid against another side."""


@dataclass(frozen=True)
class Term:
    """One quantity of the sum: width, how much of it is a step; weight, what a step counts [1]."""

    quantity: str
    width: float
    weight: float


@dataclass(frozen=True)
class Scale:
    """The terms in the order of limits.yml, and the figures that hold for all of them [steps]."""

    terms: tuple[Term, ...]
    cap: float
    small: float
    large: float


def not_described(limits: Mapping[str, Limit], needed: Sequence[str]) -> str:
    """What keeps limits.yml from describing a ranking, and what to do; "" where it does.

    needed: ids that are read besides those of the scale.
    """
    names = [name.removeprefix(WIDTH) for name in limits if name.startswith(WIDTH)]
    pairs = [start + name for name in names or ["sodium"] for start in (WIDTH, WEIGHT)]
    ids = [*needed, *SINGLE, *pairs]
    lacking = [name for name in ids if name not in limits]
    if lacking:
        return f"limits.yml does not hold {', '.join(lacking)}: add it"
    for name in (WIDTH + name for name in names):
        if limits[name].quantity not in QUANTITY_BY_ID:
            return f"limits.yml, {name}: {limits[name].quantity} is not computed: name another"
        if figure_of(limits[name]) <= 0:
            return f"limits.yml, {name}: a step of nothing: write how much one step is"
    return ""


def scale_of(limits: Mapping[str, Limit]) -> Scale:
    """The scale that limits.yml describes. Raises KeyError where a limit of it is missing."""
    names = [name.removeprefix(WIDTH) for name in limits if name.startswith(WIDTH)]
    terms = [
        Term(
            quantity=limits[WIDTH + name].quantity,
            width=figure_of(limits[WIDTH + name]),
            weight=figure_of(limits[WEIGHT + name]),
        )
        for name in names
    ]
    return Scale(tuple(terms), *(figure_of(limits[name]) for name in SINGLE))


def contribution(term: Term, mine: Side, theirs: Side, cap: float) -> Array:
    """What one quantity adds to the score: weight times the least of |difference| / width and cap.

    cap [steps]. Returns weighted steps [1], the same in both directions, 0 for equal figures.

    >>> mine, theirs = {"sodium": np.array([154.0])}, {"sodium": np.array([131.0])}
    >>> contribution(Term("sodium", 10.0, 0.5), mine, theirs, 5.0).tolist()
    [1.15]
    """
    steps = np.abs(mine[term.quantity] - theirs[term.quantity]) / term.width
    return term.weight * np.minimum(steps, cap)


def score(mine: Side, theirs: Side, scale: Scale) -> Array:
    """The distance of fluids from fluids: the sum of what every quantity adds.

    mine and theirs are laid against each other as numpy broadcasts them. The terms are added in
    one order, so that a pair has the same score in both directions to the last digit. Returns
    weighted steps [1]; 0 for a fluid and itself; NaN where a figure is unknown.

    Source: judgement of this project, not validated.

    >>> scale = Scale((Term("sodium", 10.0, 1.0), Term("chloride", 8.0, 1.0)), 5.0, 5.0, 12.0)
    >>> saline = {"sodium": np.array([154.0]), "chloride": np.array([154.0])}
    >>> half = {"sodium": np.array([77.0]), "chloride": np.array([77.0])}
    >>> score(saline, half, scale).tolist(), score(saline, saline, scale).tolist()
    ([10.0], [0.0])
    """
    total: Array = np.zeros(())
    for term in scale.terms:
        total = total + contribution(term, mine, theirs, scale.cap)
    return total


def word_for(points: float, scale: Scale) -> str:
    """The word for a score, judged as it is printed, to one decimal.

    >>> scale = Scale((), cap=5.0, small=5.0, large=12.0)
    >>> [word_for(points, scale) for points in (4.94, 4.96, 12.0, 12.1)]
    ['small difference', 'moderate difference', 'moderate difference', 'large difference']
    """
    printed = float(rounded(points, 1))
    if printed < scale.small:
        return SMALL
    return LARGE if printed > scale.large else MODERATE


def differences(mine: Side, theirs: Side, scale: Scale) -> tuple[str, ...]:
    """What differs between two fluids, in words and figures, what counts most first.

    mine: the fluid that is missing; theirs: the one in its place; each with a single figure.
    Of two quantities that count the same, because both reach the cap, the one with more steps
    comes first. A difference too small to print is left out.
    """
    ordered = sorted(scale.terms, key=lambda term: _size(term, mine, theirs, scale), reverse=True)
    told = (
        difference_words(
            QUANTITY_BY_ID[term.quantity], mine[term.quantity].item(), theirs[term.quantity].item()
        )
        for term in ordered
    )
    return tuple(words for words in told if words)


def _size(term: Term, mine: Side, theirs: Side, scale: Scale) -> tuple[float, float]:
    """What a quantity adds, and what it would add without the cap."""
    capped = contribution(term, mine, theirs, scale.cap)
    return float(capped.item()), float(contribution(term, mine, theirs, np.inf).item())


def difference_words(quantity: Quantity, mine: float, theirs: float) -> str:
    """One difference: their figure beside mine, and by how much; "" where nothing would show.

    The difference is that of the printed figures, so that a reader who subtracts finds the same.

    >>> difference_words(QUANTITY_BY_ID["sodium"], 154.0, 130.96)
    'sodium 131 beside 154 mmol/L, 23 lower'
    >>> difference_words(QUANTITY_BY_ID["calcium"], 0.0, 1.84)
    'calcium 1.8 mmol/L beside none'
    >>> difference_words(QUANTITY_BY_ID["calcium"], 1.84, 0.0)
    'no calcium beside 1.8 mmol/L'
    """
    name = quantity.label.partition(",")[0]
    decimals = 0 if abs(theirs - mine) >= WHOLE_FROM else 1
    here, there = rounded(mine, decimals), rounded(theirs, decimals)
    gap = _plain(there) - _plain(here)
    here, there = here.removesuffix(".0"), there.removesuffix(".0")
    if gap == 0:
        return ""
    if quantity.scales and theirs == 0:
        return f"no {name} beside {here} {quantity.unit}"
    if quantity.scales and mine == 0:
        return f"{name} {there} {quantity.unit} beside none"
    size = rounded(abs(gap), decimals).removesuffix(".0")
    return (
        f"{name} {there} beside {here} {quantity.unit}, {size} {'higher' if gap > 0 else 'lower'}"
    )


def _plain(printed: str) -> float:
    return float(printed.replace(MINUS, "-"))
