"""A line drawing with numbered parts: what it is made of, and how it becomes SVG.

Every drawing of equipment shows a function (a chamber, a filter, a vent), never a make.  Strokes,
colours and type come from the style sheet (equipment.css); measures are px of the viewBox, and a
drawing shown at its own size has type of 12.8 CSS px.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.drawings.lettering import RISE, SIZE
from isofolio.drawings.svg import (
    NAMESPACE,
    Attribute,
    Element,
    checked_id,
    element,
    group,
    number,
    write,
)

CIRCLE = 10.0  # px, radius of a circle that holds a number
DOT = 2.2  # px, radius of the dot at the end of a leader

Point = tuple[float, float]
Shapes = tuple[Element, ...]


@dataclass(frozen=True)
class Part:
    """One numbered part: its name, what is drawn for it, and where its number stands.

    label: centre of the number's circle; point: where the leader ends, on the part; accent: the
    part or parts that the figure is about; behind: painted before the parts that stand in it.
    """

    name: str
    shapes: Shapes
    label: Point
    point: Point
    accent: bool = False
    behind: bool = False


@dataclass(frozen=True)
class Figure:
    """A drawing: its ground (what carries no number), then its parts, numbered from 1 in order.

    saying: one sentence, read out instead of the picture, before the list of parts.
    """

    identifier: str
    title: str
    saying: str
    width: float
    height: float
    ground: Shapes
    parts: tuple[Part, ...]


def listed(figure: Figure) -> tuple[tuple[int, str], ...]:
    """The numbers of a drawing and the names they stand for, in order."""
    return tuple((index, part.name) for index, part in enumerate(figure.parts, start=1))


def draw(figure: Figure) -> str:
    """A figure as a whole ``svg`` element, with its name and a description that lists the parts.

    Raises ValueError for an identifier that cannot be one.
    """
    name = checked_id(f"equipment-{figure.identifier}")
    attributes: dict[str, Attribute] = {
        "xmlns": NAMESPACE,
        "width": figure.width,
        "height": figure.height,
        "viewBox": f"0 0 {number(figure.width)} {number(figure.height)}",
        "class": "eq-drawing",
        "font-size": SIZE,
        "role": "img",
        "aria-labelledby": f"{name}-title {name}-description",
    }
    spoken = [
        element("title", {"id": f"{name}-title"}, figure.title),
        element("desc", {"id": f"{name}-description"}, _description(figure)),
    ]
    numbers = [
        mark
        for index, part in enumerate(figure.parts, start=1)
        for mark in _numbered(index, part.label, part.point)
    ]
    return write(element("svg", attributes, *spoken, *figure.ground, *_drawn(figure), *numbers))


def _description(figure: Figure) -> str:
    named = "; ".join(f"{index} {name}" for index, name in listed(figure))
    return f"{figure.saying} Parts: {named}."


def _drawn(figure: Figure) -> list[Element]:
    """One group a part, so that a test can see what a number points at; what is behind first."""
    in_order = sorted(enumerate(figure.parts, start=1), key=lambda item: not item[1].behind)
    return [
        group(
            {"class": "eq-part eq-accent" if part.accent else "eq-part", "data-part": str(index)},
            list(part.shapes),
        )
        for index, part in in_order
    ]


def _numbered(index: int, label: Point, point: Point) -> list[Element]:
    """The leader with its dot, the circle, the number in it."""
    (x, y), (to_x, to_y) = label, point
    far = math.dist(label, point)
    start_x, start_y = x + (to_x - x) * CIRCLE / far, y + (to_y - y) * CIRCLE / far
    ends = {"x1": start_x, "y1": start_y, "x2": to_x, "y2": to_y}
    return [
        element("line", {**ends, "class": "eq-leader"}),
        element("circle", {"cx": to_x, "cy": to_y, "r": DOT, "class": "eq-dot"}),
        element("circle", {"cx": x, "cy": y, "r": CIRCLE, "class": "eq-circle"}),
        words(str(index), x, y, kind="eq-number"),
    ]


def words(
    text: str, x: float, middle: float, *, anchor: str = "middle", kind: str = "eq-text"
) -> Element:
    """A line of text whose small letters are centred on a height [px]."""
    return element("text", {"x": x, "y": middle + RISE, "text-anchor": anchor, "class": kind}, text)


def line(x1: float, y1: float, x2: float, y2: float, kind: str = "") -> Element:
    """A straight stroke."""
    return element("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2, **_kind(kind)})


def rect(
    x: float, y: float, width: float, height: float, corner: float = 0.0, *, kind: str = "eq-body"
) -> Element:
    """A rectangle; its paper hides what lies behind it, unless another kind is named."""
    size: dict[str, Attribute] = {"x": x, "y": y, "width": width, "height": height}
    if corner:
        size["rx"] = corner
    return element("rect", {**size, **_kind(kind)})


def circle(x: float, y: float, radius: float, kind: str = "eq-body") -> Element:
    """A circle, with paper in it unless another kind is named."""
    return element("circle", {"cx": x, "cy": y, "r": radius, **_kind(kind)})


def path(data: str, kind: str = "") -> Element:
    """A stroke by absolute M, L, Q, C and Z only: the tests read the points out of it."""
    return element("path", {"d": data, **_kind(kind)})


def polyline(points: Sequence[Point], kind: str = "", *, closed: bool = False) -> Element:
    """Straight strokes from point to point."""
    steps = " L".join(f"{number(x)} {number(y)}" for x, y in points)
    return path(f"M{steps}{' Z' if closed else ''}", kind)


def _kind(kind: str) -> dict[str, Attribute]:
    return {"class": kind} if kind else {}
