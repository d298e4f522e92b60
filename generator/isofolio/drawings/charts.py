"""A chart of points: fluids by two of their figures, told apart by shape as well as by fill.

It stands on the page before any script runs and on paper, and goes onto slides by itself. Points
on one spot are one mark with several names. A mark is labelled where its name touches nothing.
"""

from isofolio.drawings.chart_labels import AWAY, guide_place, labels_of
from isofolio.drawings.chart_plan import (
    LEFT,
    TALL,
    WIDE,
    Chart,
    tick_text,
    ticks,
    x_of,
    y_of,
)
from isofolio.drawings.lettering import LINE, RISE, SIZE, fitting, wrap
from isofolio.drawings.marks import mark_shape
from isofolio.drawings.svg import NAMESPACE, Attribute, Element, checked_id, element, number, write

KEY_ROOM = 250.0  # px, one entry of the key
FAINT = 0.3  # opacity of the grid


def draw(chart: Chart, *, titled: bool = False) -> str:
    """The chart as a whole `svg` element; titled where no page says above it what it shows.

    Raises ValueError for an id that cannot be one.
    """
    key, deep = _key(chart)
    parts = [*_grid(chart), *_guides(chart), *_marks(chart), *_labels(chart), *key]
    sky = 2 * LINE if titled else 0.0
    if titled:
        parts.append(_words(chart.title, 0.0, LINE - sky, "start", "ion-title"))
    name = checked_id(f"chart-{chart.id}")
    attributes: dict[str, Attribute] = {
        "xmlns": NAMESPACE,
        "width": WIDE,
        "height": TALL + deep + sky,
        "viewBox": f"0 {number(-sky)} {number(WIDE)} {number(TALL + deep + sky)}",
        "class": "ion-drawing ion-drawing-wide",
        "font-size": SIZE,
        "role": "img",
        "aria-labelledby": f"{name}-title {name}-description",
    }
    spoken = [
        element("title", {"id": f"{name}-title"}, chart.title),
        element("desc", {"id": f"{name}-description"}, chart.description),
    ]
    return write(element("svg", attributes, *spoken, *parts))


def _words(text: str, x: float, y: float, anchor: str, kind: str = "ion-second") -> Element:
    return element("text", {"x": x, "y": y, "text-anchor": anchor, "class": kind}, text)


def _line(x1: float, y1: float, x2: float, y2: float, kind: str, **more: Attribute) -> Element:
    return element("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2, "class": kind, **more})


def _grid(chart: Chart) -> list[Element]:
    """Axes with their numbers and titles, and a faint grid."""
    left, right = x_of(chart, chart.across.low), x_of(chart, chart.across.high)
    low, high = y_of(chart, chart.up.low), y_of(chart, chart.up.high)
    faint: dict[str, Attribute] = {"stroke-opacity": FAINT}
    parts: list[Element] = []
    for value in ticks(chart.across):
        x = x_of(chart, value)
        parts.append(_line(x, low, x, high, "ion-leader", **faint))
        parts.append(_words(tick_text(value), x, low + LINE + 2, "middle"))
    for value in ticks(chart.up):
        y = y_of(chart, value)
        parts.append(_line(left, y, right, y, "ion-leader", **faint))
        parts.append(_words(tick_text(value), left - 8, y + RISE, "end"))
    parts.append(_line(left, low, right, low, "ion-line"))
    parts.append(_line(left, low, left, high, "ion-line"))
    parts.append(_words(chart.across.title, (left + right) / 2, low + 2.6 * LINE, "middle"))
    parts.append(_words(chart.up.title, 0.0, LINE, "start"))
    return parts


def _guides(chart: Chart) -> list[Element]:
    parts: list[Element] = []
    for guide in chart.guides:
        x1, x2 = (x_of(chart, point[0]) for point in (guide.start, guide.end))
        y1, y2 = (y_of(chart, point[1]) for point in (guide.start, guide.end))
        if guide.area:
            box: dict[str, Attribute] = {"x": x1, "y": y2, "width": x2 - x1, "height": y1 - y2}
            shape = {**box, "class": "ion-sugar", "stroke-dasharray": "2 2"}
            parts.append(element("rect", shape))
        else:
            parts.append(_line(x1, y1, x2, y2, "ion-sugar", **{"stroke-dasharray": "6 3"}))
        parts.append(_words(guide.label, *guide_place(chart, guide), "end", "ion-second ion-halo"))
    return parts


def _marks(chart: Chart) -> list[Element]:
    kinds = {kind.id: kind for kind in chart.kinds}
    parts = []
    for mark in chart.shown:
        kind = kinds[mark.kind]
        fill = f"ion-segment ion-fill-{kind.family}"
        said = element("title", {}, "; ".join(mark.names))
        shape = mark_shape(kind.shape, x_of(chart, mark.x), y_of(chart, mark.y))
        parts.append(element(shape.name, {**dict(shape.attributes), "class": fill}, said))
    return parts


def _labels(chart: Chart) -> list[Element]:
    return [
        _words(label.text, label.x, label.y, label.anchor, "ion-text ion-halo")
        for label in labels_of(chart)
    ]


def _key(chart: Chart) -> tuple[list[Element], float]:
    """The key under the plot, and how deep it reaches [px]: only kinds that are drawn."""
    there = {mark.kind for mark in chart.shown}
    kinds = [kind for kind in chart.kinds if kind.id in there]
    across = int((WIDE - LEFT) // KEY_ROOM)
    parts: list[Element] = []
    deep = 0.0
    for start in range(0, len(kinds), across):
        lines = 1
        for place, kind in enumerate(kinds[start : start + across]):
            x, y = LEFT + place * KEY_ROOM, TALL + deep + LINE / 2
            shape = mark_shape(kind.shape, x, y)
            fill = f"ion-segment ion-fill-{kind.family}"
            parts.append(element(shape.name, {**dict(shape.attributes), "class": fill}))
            words = wrap(kind.label, fitting(KEY_ROOM - 3 * AWAY))
            lines = max(lines, len(words))
            parts += [
                _words(text, x + 1.5 * AWAY, y + RISE + row * LINE, "start", "ion-text")
                for row, text in enumerate(words)
            ]
        deep += lines * LINE + 4
    return parts, deep
