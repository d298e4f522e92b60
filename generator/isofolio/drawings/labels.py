"""A plain label as a drawing: a frame, a large name, lines of text. No trade's layout or shape."""

from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.drawings.lettering import LINE, RISE, SIZE, fitting, wrap
from isofolio.drawings.svg import NAMESPACE, Element, checked_id, element, number, write

WIDTH, PAD, GAP = 380.0, 14.0, 7.0  # px: the label, its inner edge, between two of its lines
LARGE = 1.25  # how much larger the name is set than the rest


@dataclass(frozen=True)
class Row:
    """A line of a label; large: the name; quiet: what is said of the label itself."""

    text: str
    large: bool = False
    quiet: bool = False


def label_drawing(rows: Sequence[Row], *, identifier: str, title: str) -> str:
    """A label as SVG; its title and all its lines are read out instead of it.

    Raises ValueError for an identifier that cannot be an id.

    >>> label_drawing([Row("500 mL")], identifier="label-a", title="A label")[:4]
    '<svg'
    """
    checked_id(identifier)
    texts, bottom = [], PAD
    for row in rows:
        for line in _wrapped(row):
            bottom += LINE * (LARGE if row.large else 1.0)
            texts.append(_text(line, bottom - RISE, row))
        bottom += GAP
    height = bottom + PAD - GAP
    return write(_sheet(identifier, title, rows, height, texts))


def _sheet(
    identifier: str, title: str, rows: Sequence[Row], height: float, texts: Sequence[Element]
) -> Element:
    frame = element(
        "rect",
        {"x": 1, "y": 1, "width": WIDTH - 2, "height": height - 2, "class": "label-paper"},
    )
    spoken = "; ".join(row.text for row in rows)
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "width": WIDTH,
            "height": height,
            "viewBox": f"0 0 {number(WIDTH)} {number(height)}",
            "class": "label-drawing",
            "font-size": SIZE,
            "role": "img",
            "aria-labelledby": f"{identifier}-title {identifier}-text",
        },
        element("title", {"id": f"{identifier}-title"}, title),
        element("desc", {"id": f"{identifier}-text"}, spoken),
        frame,
        *texts,
    )


def _wrapped(row: Row) -> tuple[str, ...]:
    room = fitting(WIDTH - 2 * PAD)
    return wrap(row.text, room / LARGE if row.large else room)


def _text(line: str, y: float, row: Row) -> Element:
    kind = "label-name" if row.large else "label-quiet" if row.quiet else "label-text"
    return element("text", {"x": PAD, "y": y, "class": kind, **_size(row)}, line)


def _size(row: Row) -> dict[str, float]:
    return {"font-size": SIZE * LARGE} if row.large else {}
