"""What a chart of points is made of, and where its values stand."""

import math
from dataclasses import dataclass

WIDE, TALL = 760.0, 440.0  # px of the plot and what stands round it, without the key
LEFT, RIGHT, TOP, FOOT = 64.0, 16.0, 28.0, 52.0  # px round the plot
TICKS = 8  # at most so many steps on an axis


@dataclass(frozen=True)
class Axis:
    """title: with unit; low, high: the ends of what is shown, in that unit; quantity: its id."""

    title: str
    low: float
    high: float
    quantity: str = ""


@dataclass(frozen=True)
class Kind:
    """A sort of mark: its words in the key, its shape, and the family whose fill it wears."""

    id: str
    label: str
    shape: str
    family: str


@dataclass(frozen=True)
class Mark:
    """A point of the chart and the names of everything that stands there."""

    x: float
    y: float
    kind: str
    names: tuple[str, ...]


@dataclass(frozen=True)
class Guide:
    """A line from one point to another, or the area between them, with a few words."""

    label: str
    start: tuple[float, float]
    end: tuple[float, float]
    area: bool = False


@dataclass(frozen=True)
class Chart:
    """Everything that a chart shows; marks beyond the ends of an axis are not drawn."""

    id: str
    title: str
    description: str
    across: Axis
    up: Axis
    kinds: tuple[Kind, ...]
    marks: tuple[Mark, ...]
    guides: tuple[Guide, ...] = ()

    @property
    def shown(self) -> tuple[Mark, ...]:
        """The marks between the ends of both axes."""
        return tuple(mark for mark in self.marks if self.holds(mark))

    def holds(self, mark: Mark) -> bool:
        """Whether a mark stands between the ends of both axes."""
        across = self.across.low <= mark.x <= self.across.high
        return across and self.up.low <= mark.y <= self.up.high


def step_of(low: float, high: float) -> float:
    """A step of 1, 2 or 5 times a power of ten that makes at most eight steps.

    >>> step_of(0.0, 700.0), step_of(-2.0, 11.0)
    (100.0, 2.0)
    """
    least = (high - low) / TICKS
    power = 10.0 ** math.floor(math.log10(least))
    return next(power * times for times in (1.0, 2.0, 5.0, 10.0) if power * times >= least)


def x_of(chart: Chart, value: float) -> float:
    """How far from the left a value across stands [px]."""
    share = (value - chart.across.low) / (chart.across.high - chart.across.low)
    return LEFT + share * (WIDE - LEFT - RIGHT)


def y_of(chart: Chart, value: float) -> float:
    """How far from the top a value upwards stands [px]."""
    share = (value - chart.up.low) / (chart.up.high - chart.up.low)
    return TALL - FOOT - share * (TALL - FOOT - TOP)


def ticks(axis: Axis) -> list[float]:
    """The values at which an axis carries a number."""
    step = step_of(axis.low, axis.high)
    first, last = math.ceil(axis.low / step - 1e-9), math.floor(axis.high / step + 1e-9)
    return [step * count for count in range(first, last + 1)]


def tick_text(value: float) -> str:
    """The number at a tick, with a true minus sign."""
    return f"{value:g}".replace("-", "\u2212")
