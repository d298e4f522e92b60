"""Where everything in a row of ion columns stands: bars, rooms for labels, labels.

Heights are measured upwards from the base line ("rise"), as the charge is; only the painter turns
them over.  A label goes inside its segment when two lines fit there, else beside it, kept apart
from its neighbours; a long label of the very last column stands above the column.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from isofolio.drawings.captions import BAR, fits_inside, side_lines, side_wrap
from isofolio.drawings.lettering import LINE, balance, fitting, spread, width
from isofolio.drawings.stacks import (
    Column,
    Segment,
    Sugar,
    ions_height,
    present,
    sugar_amount,
)

GAP = 1.0  # px between + and -
PAIR = 2 * BAR + GAP
HEIGHT = 250.0  # px from the base line to the top of the scale
OUTER_ROOM = 46.0  # px for labels outside the first and the last column, more if they need it
EMPTY_ROOM = 20.0  # px there when no label does: a narrower drawing is shrunk less on a page
MIDDLE_ROOM = 60.0  # px between two fluids, more if the labels need it
LEADER = 10.0  # px from a column to its labels, crossed by the leader line
CLEAR = 6.0  # px between two labels that share a line
EDGE = 2.0  # px that labels keep from the base line and from the tick of the scale
PLUS, MINUS = -1, 1  # cations stand left, anions right


@dataclass(frozen=True)
class Bar:
    """One drawn segment: low and high edge as rise [px], and where its words stand."""

    column: int
    side: int
    segment: Segment
    low: float
    high: float
    words: str  # inside, beside or above

    @property
    def middle(self) -> float:
        """Rise of the middle of the segment [px]."""
        return (self.low + self.high) / 2


@dataclass(frozen=True)
class SugarBox:
    """The dashed outline of a sugar: edges as rise [px], cut where it passes the scale."""

    column: int
    low: float
    high: float
    cut: bool
    words: str  # inside, beside or above
    lines: tuple[str, ...]


@dataclass(frozen=True)
class SideLabel:
    """A label in a room between columns: `anchor` is the rise it points at, `rise` its own."""

    room: int  # 0 stands left of the first column
    side: int  # PLUS: left of its column, MINUS: right of it
    anchor: float
    lines: tuple[str, ...]
    rise: float

    @property
    def height(self) -> float:
        """Room that the lines take [px]."""
        return len(self.lines) * LINE


@dataclass(frozen=True)
class Plan:
    """All places of one drawing; lefts are the left edges of the columns [px]."""

    columns: tuple[Column, ...]
    scale: float
    height: float
    rooms: tuple[float, ...]
    lefts: tuple[float, ...]
    bars: tuple[Bar, ...]
    sugars: tuple[SugarBox, ...]
    labels: tuple[SideLabel, ...]

    @property
    def width(self) -> float:
        """Width of the whole drawing [px]."""
        return sum(self.rooms) + len(self.columns) * PAIR


def plan(columns: Sequence[Column], scale: float, height: float | None = None) -> Plan:
    """Places for columns side by side on one scale [mEq/L].

    height: of the scale [px]; without it 250, or more when one room holds very many labels.
    Raises ValueError when a given height is too low for the labels.
    """
    tall = _needed_height(columns, scale) if height is None else height
    bars = _bars(columns, tall / scale)
    sugars = _sugars(columns, scale, tall)
    labels = _side_labels(bars, sugars)
    rooms = _rooms(labels, len(columns))
    lefts = tuple(sum(rooms[: index + 1]) + index * PAIR for index in range(len(columns)))
    crowned = [bar.high for bar in bars if bar.words == "above"]
    ceilings = [tall] * len(columns) + (crowned or [tall])
    placed = _spread_rooms(labels, rooms, ceilings)
    return Plan(tuple(columns), scale, tall, rooms, lefts, bars, sugars, placed)


def _bars(columns: Sequence[Column], ratio: float) -> tuple[Bar, ...]:
    """The segments of all columns, stacked from the base line; ratio: px for one mEq/L."""
    bars: list[Bar] = []
    for index, column in enumerate(columns):
        for side, segments in ((PLUS, column.cations), (MINUS, column.anions)):
            low = 0.0
            for segment in present(segments):
                high = low + segment.milliequivalents * ratio
                words = "inside" if fits_inside(segment, high - low) else "beside"
                bars.append(Bar(index, side, segment, low, high, words))
                low = high
    if bars and _may_crown(bars, columns):
        bars[-1] = replace(bars[-1], words="above")
    return tuple(bars)


def _may_crown(bars: Sequence[Bar], columns: Sequence[Column]) -> bool:
    """Whether the last segment of all may carry its label above the column.

    Its label is long, no sugar stands there, a neighbour leaves the axis its place, and the
    labels under it find room below the top of the column.
    """
    top, last = bars[-1], len(columns) - 1
    free = top.column == last > 0 and top.side == MINUS and not sugar_amount(columns[last])
    under = [bar for bar in bars[:-1] if (bar.column, bar.side) == (last, MINUS)]
    lines = sum(len(side_lines(bar.segment)) for bar in under if bar.words == "beside")
    long = top.words == "beside" and len(side_lines(top.segment)) > 2
    return free and long and lines * LINE + 2 * EDGE <= top.high


def crest(plan: Plan, column: int) -> float:
    """Rise of the taller side of a column [px]; a label above it must clear both."""
    return max((bar.high for bar in plan.bars if bar.column == column), default=0.0)


def crown_lines(bar: Bar, last_room: float) -> tuple[str, ...]:
    """The label above the last column, as wide as the pair and the room outside it."""
    return balance(bar.segment.text, fitting(PAIR + last_room - EDGE))


def _sugars(columns: Sequence[Column], scale: float, height: float) -> tuple[SugarBox, ...]:
    boxes = (
        _sugar_box(index, ions_height(column), column.sugar, scale, height)
        for index, column in enumerate(columns)
        if column.sugar is not None and column.sugar.millimoles > 0
    )
    return tuple(boxes)


def _sugar_box(index: int, ions: float, sugar: Sugar, scale: float, height: float) -> SugarBox:
    """A sugar on top of the ions, its words inside, else above, else beside the outline."""
    ratio = height / scale
    low, high = ions * ratio, min(scale, ions + sugar.millimoles) * ratio
    cut = ions + sugar.millimoles > scale
    lines = balance(sugar.text, fitting(PAIR))
    needed = len(lines) * LINE + EDGE
    if needed + EDGE <= high - low:
        return SugarBox(index, low, high, cut, "inside", lines)
    if needed + EDGE <= height - high:
        return SugarBox(index, low, high, cut, "above", lines)
    return SugarBox(index, low, high, cut, "beside", side_wrap(sugar.text))


def _side_labels(bars: Sequence[Bar], sugars: Sequence[SugarBox]) -> tuple[SideLabel, ...]:
    """Labels that stand beside what they name, still at its very height."""
    labels = [
        SideLabel(
            bar.column + (bar.side == MINUS),
            bar.side,
            bar.middle,
            side_lines(bar.segment),
            bar.middle,
        )
        for bar in bars
        if bar.words == "beside"
    ]
    for box in sugars:
        if box.words == "beside":
            middle = (box.low + box.high) / 2
            labels.append(SideLabel(box.column, PLUS, middle, box.lines, middle))
    return tuple(labels)


def _rooms(labels: Sequence[SideLabel], count: int) -> tuple[float, ...]:
    """Width of each room: as designed, or as wide as its widest label and the leaders."""
    rooms = [EMPTY_ROOM, *[MIDDLE_ROOM] * (count - 1), EMPTY_ROOM]
    for label in labels:
        outer = label.room in (0, count)
        least, leaders = (OUTER_ROOM, LEADER) if outer else (MIDDLE_ROOM, 2 * LEADER)
        rooms[label.room] = max(rooms[label.room], least, width(label.lines) + leaders)
    return tuple(rooms)


def _needed_height(columns: Sequence[Column], scale: float) -> float:
    labels = _side_labels(_bars(columns, HEIGHT / scale), _sugars(columns, scale, HEIGHT))
    needs = (
        sum(label.height for label in labels if label.room == room) + 2 * EDGE
        for room in range(len(columns) + 1)
    )
    return max([HEIGHT, *needs])


def _spread_rooms(
    labels: Sequence[SideLabel], rooms: Sequence[float], ceilings: Sequence[float]
) -> tuple[SideLabel, ...]:
    """Keep labels apart, room by room; two sides of a room only mind each other if they meet."""
    placed: list[SideLabel] = []
    for index, (room, ceiling) in enumerate(zip(rooms, ceilings, strict=True)):
        here = [label for label in labels if label.room == index]
        left = [label for label in here if label.side == MINUS]
        right = [label for label in here if label.side == PLUS]
        taken = sum(width(line for label in side for line in label.lines) for side in (left, right))
        groups = (here,) if taken + CLEAR + 2 * LEADER > room else (left, right)
        for together in groups:
            placed.extend(_spread_labels(together, ceiling))
    return tuple(placed)


def _spread_labels(labels: Sequence[SideLabel], ceiling: float) -> list[SideLabel]:
    ordered = sorted(labels, key=lambda label: (label.anchor, label.side))
    rises = spread(
        [label.anchor for label in ordered],
        [label.height for label in ordered],
        EDGE,
        ceiling - EDGE,
    )
    return [replace(label, rise=rise) for label, rise in zip(ordered, rises, strict=True)]


def centred_room(plan: Plan, index: int) -> float:
    """Width for words centred over or under a column [px], half of each room between columns."""
    last = len(plan.columns) - 1
    left = plan.rooms[index] / (1 if index == 0 else 2)
    right = plan.rooms[index + 1] / (1 if index == last else 2)
    return PAIR + 2 * min(left, right) - CLEAR
