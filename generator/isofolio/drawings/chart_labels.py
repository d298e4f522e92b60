"""The words at the marks of a chart: each where it touches no mark, no guide and no other word."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from isofolio.drawings.chart_plan import (
    FOOT,
    LEFT,
    RIGHT,
    TALL,
    TOP,
    WIDE,
    Chart,
    Guide,
    Mark,
    x_of,
    y_of,
)
from isofolio.drawings.lettering import LINE, RISE, width
from isofolio.drawings.marks import RADIUS

AWAY = 9.0  # px from the middle of a mark to its label

Box = tuple[float, float, float, float]  # left, top, right, bottom [px]


def _meets(one: Box, other: Box) -> bool:
    apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
    return not apart


@dataclass(frozen=True)
class Label:
    """Words at a mark: where their base line begins, is centred or ends [px]."""

    text: str
    x: float
    y: float
    anchor: str


def labels_of(chart: Chart) -> Iterator[Label]:
    """The names of marks that find room for them, those with the shortest name first."""
    spots = {(mark.x, mark.y): (x_of(chart, mark.x), y_of(chart, mark.y)) for mark in chart.shown}
    taken = [(x - RADIUS, y - RADIUS, x + RADIUS, y + RADIUS) for x, y in spots.values()]
    taken += [_guide_box(chart, guide) for guide in chart.guides]
    for mark in sorted(chart.shown, key=lambda one: (len(label_text(one)), one.x, one.y)):
        place = spots.pop((mark.x, mark.y), None)
        found = _free(label_text(mark), place, taken) if place else None
        if found:
            box, label = found
            taken.append(box)
            yield label


def _guide_box(chart: Chart, guide: Guide) -> Box:
    x, y = guide_place(chart, guide)
    return (x - width([guide.label]), y - LINE, x, y)


def label_text(mark: Mark) -> str:
    """The shortest name of a mark, and how many more stand there."""
    more = len(mark.names) - 1
    shortest = min(mark.names, key=lambda name: (len(name), name))
    return f"{shortest} + {more} more" if more else shortest


def _free(text: str, spot: tuple[float, float], taken: Sequence[Box]) -> tuple[Box, Label] | None:
    """A label beside its mark that touches nothing, and its box; None where there is no room."""
    x, y = spot
    room, half = width([text]), LINE / 2
    places = (
        ((x + AWAY, y - half, x + AWAY + room, y + half), "start", x + AWAY),
        ((x - AWAY - room, y - half, x - AWAY, y + half), "end", x - AWAY),
        ((x - room / 2, y - AWAY - LINE, x + room / 2, y - AWAY), "middle", x),
        ((x - room / 2, y + AWAY, x + room / 2, y + AWAY + LINE), "middle", x),
    )
    for box, anchor, at in places:
        inside = box[0] > LEFT and box[2] < WIDE and box[1] > TOP and box[3] < TALL - FOOT
        if inside and not any(_meets(box, other) for other in taken):
            return box, Label(text, at, (box[1] + box[3]) / 2 + RISE, anchor)
    return None


def guide_place(chart: Chart, guide: Guide) -> tuple[float, float]:
    """Where the words of a guide end [px]: over its far end, kept inside the plot."""
    x, y = x_of(chart, guide.end[0]), y_of(chart, guide.end[1])
    room = width([guide.label])
    return min(max(x, LEFT + room), WIDE - RIGHT), max(y - 5, TOP - 4)
