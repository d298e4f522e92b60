"""What an ion column is made of, before anything is drawn: segments, sugar, scale.

Nothing here knows a record of the catalogue; the pages hand over plain figures and ready words.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.vocabulary.terms import COLOURS

FAMILIES = COLOURS
# Sodium and chloride are plain; every other family wears a pattern besides its colour.
PATTERNED = FAMILIES[1:4] + FAMILIES[5:]

USUAL_SCALE = 156.0  # mEq/L: plasma, and every fluid that is not stronger, fills the height
TALLEST_SCALE = 300.0  # mEq/L: above it plasma beside the fluid would be too low to read


@dataclass(frozen=True)
class Segment:
    """One ion of a column.

    particle: its id; symbol: as printed ("Na\u207a"); milliequivalents: charge per litre [mEq/L];
    family: one of FAMILIES, which gives fill and pattern; text: the whole label ("Na\u207a 131").
    """

    particle: str
    symbol: str
    milliequivalents: float
    family: str
    text: str


@dataclass(frozen=True)
class Sugar:
    """Uncharged sugar that stands on the ions: millimoles [mmol/L] and the words for it."""

    millimoles: float
    text: str


@dataclass(frozen=True)
class Column:
    """One fluid, or plasma: cations and anions from the base line upwards, sugar on top.

    title: the words above it; note: a sentence below it, or an empty text; whole: whether
    every ion is known, since an empty column is else no column without ions.
    """

    title: str
    cations: tuple[Segment, ...]
    anions: tuple[Segment, ...]
    sugar: Sugar | None = None
    note: str = ""
    whole: bool = True

    @property
    def empty(self) -> str:
        """What is said of a column that holds no ion."""
        return "no ions" if self.whole else "ions not known"


def present(segments: Sequence[Segment]) -> tuple[Segment, ...]:
    """The segments that hold anything: an absent ion (0 mEq/L) has neither bar nor label."""
    return tuple(segment for segment in segments if segment.milliequivalents > 0)


def height_of(segments: Sequence[Segment]) -> float:
    """Sum of the charge in one column [mEq/L]."""
    return math.fsum(segment.milliequivalents for segment in segments)


def ions_height(column: Column) -> float:
    """The taller of the two columns of a fluid, on which its sugar stands [mEq/L]."""
    return max(height_of(column.cations), height_of(column.anions))


def sugar_amount(column: Column) -> float:
    """Sugar of a fluid [mmol/L], 0 where it holds none."""
    return column.sugar.millimoles if column.sugar else 0.0


def check_column(column: Column) -> None:
    """Refuse what cannot be drawn honestly.

    Raises ValueError for an amount that is negative or not finite, for an unknown family, and
    for an ion without words: a bar whose number is nowhere would be a picture without a figure.
    """
    for segment in column.cations + column.anions:
        _check_amount(column.title, segment.particle, segment.milliequivalents, segment.text)
        if segment.family not in FAMILIES:
            raise ValueError(
                f"{column.title}: {segment.particle} has the family {segment.family!r}; "
                f"use one of {', '.join(FAMILIES)}"
            )
    if column.sugar:
        _check_amount(column.title, "sugar", column.sugar.millimoles, column.sugar.text)


def _check_amount(title: str, name: str, amount: float, text: str) -> None:
    if not math.isfinite(amount) or amount < 0:
        raise ValueError(f"{title}: {name} is {amount}; draw only known amounts of 0 or more")
    if amount > 0 and not text.strip():
        raise ValueError(f"{title}: {name} has no words; give it a label with its number and unit")


def scale_for(column: Column) -> float | None:
    """Full height of the drawing of a fluid [mEq/L for ions, mmol/L for sugar].

    156 for everyday fluids, the fluid's own total (rounded up, so that the tick is a whole number)
    up to 300.  Sugar may make it 300 at most; what stands above is cut and told in words.
    Returns None when the ions alone pass 300: then draw the fluid diluted, with a sentence.
    Raises ValueError for a column that cannot be drawn (see check_column).

    >>> glucose = Column("glucose 5 %", (), (), Sugar(277.5, "glucose 278 mmol"))
    >>> scale_for(glucose)
    278.0
    >>> strong = Segment("sodium", "Na\u207a", 1000.0, "sodium", "Na\u207a 1000")
    >>> scale_for(Column("sodium bicarbonate 8.4 %", (strong,), ())) is None
    True
    """
    check_column(column)
    ions = ions_height(column)
    if ions > TALLEST_SCALE:
        return None
    wanted = min(TALLEST_SCALE, ions + sugar_amount(column))
    return float(max(USUAL_SCALE, math.ceil(wanted)))


def common_scale(columns: Sequence[Column]) -> float:
    """One scale that holds every column [mEq/L].

    Raises ValueError, with the title, for a fluid whose ions pass 300 mEq/L.
    """
    scales: list[float] = []
    for column in columns:
        scale = scale_for(column)
        if scale is None:
            raise ValueError(
                f"{column.title}: {ions_height(column):g} mEq/L is too tall to draw beside plasma; "
                "pass the column of the fluid diluted to 300 mEq/L or less, and say so in its note"
            )
        scales.append(scale)
    return max(scales)
