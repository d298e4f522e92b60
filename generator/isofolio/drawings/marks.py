"""The shapes of marks in a chart, so that colour never tells them apart alone."""

import math
from collections.abc import Callable

from isofolio.drawings.svg import Element, element, number

RADIUS = 6.0  # px, of the circle that a shape stands in


def _ring(corners: int, turn: float = 0.0, inner: float = 1.0) -> Callable[[float, float], str]:
    """Corners on a circle, the first upwards and turned [degrees]; every second one drawn in."""

    def points(x: float, y: float) -> str:
        found = []
        for corner in range(corners):
            angle = math.radians(360.0 * corner / corners + turn - 90.0)
            reach = RADIUS * (inner if corner % 2 else 1.0)
            found.append(
                f"{number(x + reach * math.cos(angle))} {number(y + reach * math.sin(angle))}"
            )
        return " ".join(found)

    return points


def _plus(x: float, y: float) -> str:
    """A plus sign with arms as thick as a third of its width."""
    far, near = RADIUS, RADIUS / 3
    corners = [(-near, -far), (near, -far), (near, -near), (far, -near), (far, near), (near, near)]
    corners += [(-across, -down) for across, down in corners]
    return " ".join(f"{number(x + across)} {number(y + down)}" for across, down in corners)


# The names are those of the chart library, which draws the same figures when scripts run.
SHAPES: dict[str, Callable[[float, float], str]] = {
    "square": _ring(4, turn=45.0),
    "diamond": _ring(4),
    "triangle-up": _ring(3),
    "triangle-down": _ring(3, turn=180.0),
    "hexagon": _ring(6),
    "star": _ring(10, inner=0.45),
    "cross": _plus,
}


def mark_shape(shape: str, x: float, y: float) -> Element:
    """A mark round a point [px]. Raises KeyError for a shape that is not in the list.

    >>> mark_shape("circle", 10.0, 10.0).name, mark_shape("square", 10.0, 10.0).name
    ('circle', 'polygon')
    """
    if shape == "circle":
        return element("circle", {"cx": x, "cy": y, "r": RADIUS - 0.5})
    return element("polygon", {"points": SHAPES[shape](x, y)})
