"""What keeps a fluid from being ranked beside another: the hard stops, listed and never scored.

Each stop is one line of STOPS: a test over whole sides at once, and its sentence for one pair. A
figure is compared with a limit at the precision in which the limit is written, as everywhere.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Limit
from isofolio.entries.reading import Catalogue
from isofolio.findings.differences import WIDTH, Side
from isofolio.findings.limits import figure_of
from isofolio.measures.columns import Array
from isofolio.measures.table import Table
from isofolio.wording.figures import amount, rounded

Flags: TypeAlias = NDArray[np.bool_]
Limits: TypeAlias = Mapping[str, Limit]

# What the stops look at besides the quantities of the score.
LOOKED_AT = (
    "potassium",
    "glucose_mass",
    "mannitol",
    "bicarbonate_yield",
    "osmolarity",
    "effective_osmolarity",
    "tonicity_ratio",
)
# Marks of a fluid that are no figures: 1 for yes, 0 for no; `known`: every figure it is judged by.
NOT_HUNG, COLLOID, KNOWN = "not hung as it is", "colloid", "known"

POTASSIUM, GLUCOSE = "substitute-stop-potassium", "substitute-stop-glucose-ratio"
BASE, STRONG = "substitute-stop-base", "substitute-stop-osmolarity"
LOW, HIGH = "class-osmolarity-low", "class-osmolarity-high"
NEEDED = (POTASSIUM, GLUCOSE, BASE, STRONG, LOW, HIGH)


Test: TypeAlias = Callable[[Side, Side, Limits], Flags]
Words: TypeAlias = Callable[[Side, Side, Limits], str]


@dataclass(frozen=True)
class Stop:
    """figure: what must be known of both before it is asked; test: of every pair of two sides;
    words: for one pair."""

    figure: str
    test: Test
    words: Words

    def applies(self, mine: Side, theirs: Side, limits: Limits) -> Flags:
        """Whether it stops each pair. An unknown figure stops by being unknown alone."""
        known = np.isfinite(mine[self.figure]) & np.isfinite(theirs[self.figure])
        return known & self.test(mine, theirs, limits)


def side_of(fluids: Sequence[Fluid], catalogue: Catalogue, table: Table) -> Side:
    """The figures and marks of fluids, an array each, in their order; a figure unknown is NaN."""
    rows = [table.rows[fluid.id] for fluid in fluids]
    widths = (limit.quantity for name, limit in catalogue.limits.items() if name.startswith(WIDTH))
    quantities = dict.fromkeys((*widths, *LOOKED_AT))
    figures = {quantity: table.numbers[quantity][rows] for quantity in quantities}
    colloid = [table.solutions[fluid.id].colloid for fluid in fluids]
    by_role = _marked(fluids, ("colloid", "blood-product"))
    marks = {
        NOT_HUNG: _marked(fluids, ("concentrate", "diluent")),
        COLLOID: np.maximum(colloid, by_role),
        KNOWN: np.all(np.isfinite(list(figures.values())), axis=0).astype(float),
    }
    return figures | marks


def _marked(fluids: Sequence[Fluid], roles: tuple[str, ...]) -> Array:
    return np.array([float(fluid.role in roles) for fluid in fluids])


def first_above(limit: Limit) -> float:
    """The least figure that lies above a limit at the precision in which the limit is written.

    >>> from isofolio.entries.scalars import parse_amount
    >>> first_above(Limit.model_construct(id="x", value=parse_amount("6 mmol/L")))
    6.5
    """
    return float(Decimal(repr(figure_of(limit))) + _half_step(limit))


def first_reached(limit: Limit) -> float:
    """The least figure that reaches a limit; every smaller one lies below it.

    >>> from isofolio.entries.scalars import parse_amount
    >>> first_reached(Limit.model_construct(id="x", value=parse_amount("250 mOsm/L")))
    249.5
    """
    return float(Decimal(repr(figure_of(limit))) - _half_step(limit))


def _half_step(limit: Limit) -> Decimal:
    return Decimal(5).scaleb(-limit.value.decimals - 1)


def stopped(mine: Side, theirs: Side, limits: Limits) -> Flags:
    """Whether anything stops each pair of two sides."""
    flags: Flags = np.any([stop.applies(mine, theirs, limits) for stop in STOPS], axis=0)
    return flags


def _in_one_only(mark: str, mine: Side, theirs: Side, _: Limits) -> Flags:
    return (mine[mark] > 0) ^ (theirs[mark] > 0)


def _says(sentence: str, *_: object) -> str:
    return sentence


def _reaches(figures: Array, least: Array | float) -> Flags:
    flags: Flags = figures >= least
    return flags


def _not_hung(mine: Side, theirs: Side, _: Limits) -> Flags:
    return (mine[NOT_HUNG] > 0) | (theirs[NOT_HUNG] > 0)


def _unknown(mine: Side, theirs: Side, _: Limits) -> Flags:
    return (mine[KNOWN] < 1) | (theirs[KNOWN] < 1)


def _potassium(mine: Side, theirs: Side, limits: Limits) -> Flags:
    gap = np.abs(mine["potassium"] - theirs["potassium"])
    return _reaches(gap, first_above(limits[POTASSIUM]))


def _glucose_ratio(mine: Side, theirs: Side, limits: Limits) -> Flags:
    less = np.minimum(mine["glucose_mass"], theirs["glucose_mass"])
    more = np.maximum(mine["glucose_mass"], theirs["glucose_mass"])
    return _reaches(more, less * first_above(limits[GLUCOSE])) & (less > 0)


def _body(side: Side, limits: Limits) -> NDArray[np.int64]:
    """Below, between or above the two class limits in the body: 0, 1, 2."""
    edges = first_reached(limits[LOW]), first_above(limits[HIGH])
    return np.digitize(side["effective_osmolarity"], edges)


def _body_differs(mine: Side, theirs: Side, limits: Limits) -> Flags:
    flags: Flags = _body(mine, limits) != _body(theirs, limits)
    return flags


def _base(mine: Side, theirs: Side, limits: Limits) -> Flags:
    least = first_above(limits[BASE])
    yields = mine["bicarbonate_yield"], theirs["bicarbonate_yield"]
    return _reaches(yields[0], least) ^ _reaches(yields[1], least)


def _strong(mine: Side, theirs: Side, limits: Limits) -> Flags:
    least = first_above(limits[STRONG])
    return _reaches(mine["osmolarity"], least) | _reaches(theirs["osmolarity"], least)


def _two(quantity: str, mine: Side, theirs: Side) -> str:
    return f"{amount(theirs[quantity].item())} beside {amount(mine[quantity].item())}"


def _says_potassium(mine: Side, theirs: Side, limits: Limits) -> str:
    most = limits[POTASSIUM].value.text
    return f"potassium {_two('potassium', mine, theirs)} mmol/L: more than {most} apart"


def _says_glucose_ratio(mine: Side, theirs: Side, limits: Limits) -> str:
    most = limits[GLUCOSE].value.text.removesuffix(" 1")
    return f"glucose {_two('glucose_mass', mine, theirs)} g/L: more than {most} times as much"


def _says_body(mine: Side, theirs: Side, limits: Limits) -> str:
    low, high = sorted((int(_body(mine, limits).item()), int(_body(theirs, limits).item())))
    named = " and ".join(limits[name].value.text for name in (LOW, HIGH)[low:high])
    figures = [rounded(s["effective_osmolarity"].item(), 0) for s in (theirs, mine)]
    return f"in the body {figures[0]} beside {figures[1]} mOsm/L: on the two sides of {named}"


def _says_base(mine: Side, theirs: Side, limits: Limits) -> str:
    figures = _two("bicarbonate_yield", mine, theirs)
    return f"base {figures} mEq/L: only one of the two above {limits[BASE].value.text}"


def _says_strong(mine: Side, theirs: Side, limits: Limits) -> str:
    figures = [rounded(s["osmolarity"].item(), 0) for s in (theirs, mine)]
    most = limits[STRONG].value.text
    return f"in the bag {figures[0]} beside {figures[1]} mOsm/L: not ranked above {most}"


STOPS: tuple[Stop, ...] = (
    Stop(NOT_HUNG, _not_hung, partial(_says, "one of the two is not hung as it is")),
    Stop(
        COLLOID, partial(_in_one_only, COLLOID), partial(_says, "a colloid in one of the two only")
    ),
    Stop(KNOWN, _unknown, partial(_says, "not every figure that is compared is known of both")),
    Stop("potassium", _potassium, _says_potassium),
    Stop(
        "glucose_mass",
        partial(_in_one_only, "glucose_mass"),
        partial(_says, "glucose in one of the two only"),
    ),
    Stop("glucose_mass", _glucose_ratio, _says_glucose_ratio),
    Stop("tonicity_ratio", _body_differs, _says_body),
    Stop(
        "mannitol",
        partial(_in_one_only, "mannitol"),
        partial(_says, "mannitol in one of the two only"),
    ),
    Stop("bicarbonate_yield", _base, _says_base),
    Stop("osmolarity", _strong, _says_strong),
)
