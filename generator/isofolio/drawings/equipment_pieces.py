"""Pieces that several drawings share: tube, spike, drip chamber, clamp, connector, bag."""

from isofolio.drawings.equipment_figure import Shapes, circle, line, path, polyline, rect
from isofolio.drawings.svg import number


def tube(data: str) -> Shapes:
    """A soft tube along a path: two walls with paper between them.

    Drawn as a wide stroke under a narrower one of paper, so that any bend keeps both walls.
    """
    return (path(data, "eq-tube-wall"), path(data, "eq-tube-bore"))


def spike(x: float, top: float) -> Shapes:
    """A piercing spike, point upwards, on its flange; 62 px high, 40 px wide."""
    point = [
        (x - 5, top + 54),
        (x - 5, top + 14),
        (x + 1, top),
        (x + 5, top + 16),
        (x + 5, top + 54),
    ]
    return (polyline(point, "eq-body"), rect(x - 20, top + 54, 40, 8, 2))


def air_inlet(x: float, y: float) -> Shapes:
    """A side arm that lets air in through a filter, with its cap swung open; 34 px wide."""
    return (
        rect(x, y, 14, 8),
        rect(x + 14, y - 5, 10, 18, 1),
        *(line(x + 14, y + step, x + 24, y + step + 4) for step in (-4.0, 1.0, 6.0)),
        path(f"M{number(x + 24)} {number(y - 5)} L{number(x + 32)} {number(y - 13)}"),
        rect(x + 29, y - 21, 7, 9, 1),
    )


def drip_chamber(x: float, top: float, height: float, wide: float = 44) -> Shapes:
    """A see-through chamber and its neck to the tube; 12 px higher than its straight wall.

    x: its middle; top, height: of the straight wall.
    """
    left, right, foot = x - wide / 2, x + wide / 2, top + height
    outline = [(left, top), (left, foot), (x - 4, foot + 12), (x + 4, foot + 12), (right, foot)]
    return (polyline([*outline, (right, top)], "eq-body", closed=True),)


def surface(left: float, right: float, level: float) -> Shapes:
    """The surface of a fluid between two walls, with three dashes under it: no shading."""
    middle, step = (left + right) / 2, (right - left) / 6
    return (
        line(left, level, right, level),
        line(middle - 2 * step, level + 5, middle - step, level + 5, "eq-fine"),
        line(middle + 0.4 * step, level + 5, middle + 1.6 * step, level + 5, "eq-fine"),
        line(middle - 0.6 * step, level + 10, middle + 0.4 * step, level + 10, "eq-fine"),
    )


def drop(x: float, top: float, size: float = 5.0) -> Shapes:
    """A falling drop."""
    foot = top + 2.4 * size
    return (
        path(
            f"M{number(x)} {number(top)} "
            f"C{number(x + size)} {number(top + 1.4 * size)} {number(x + size)} {number(foot)} "
            f"{number(x)} {number(foot)} "
            f"C{number(x - size)} {number(foot)} {number(x - size)} {number(top + 1.4 * size)} "
            f"{number(x)} {number(top)} Z"
        ),
    )


def roller_clamp(x: float, top: float) -> Shapes:
    """A housing with a wheel that pinches the tube; 28 px wide, 56 px high, narrower below."""
    housing = [(x - 14, top), (x + 14, top), (x + 8, top + 56), (x - 14, top + 56)]
    return (
        polyline(housing, "eq-body", closed=True),
        line(x - 6, top, x - 6, top + 56),
        circle(x + 3, top + 20, 8),
        circle(x + 3, top + 20, 1.5),
    )


def pinch_clamp(x: float, y: float) -> Shapes:
    """A pinch clamp on a level tube, its lever raised; 20 px wide, 22 px high."""
    return (
        rect(x - 10, y - 6, 20, 12, 1),
        line(x - 10, y, x + 10, y, "eq-fine"),
        polyline([(x - 10, y - 6), (x + 10, y - 16), (x + 10, y - 11), (x + 2, y - 7)]),
    )


def luer_end(x: float, top: float) -> Shapes:
    """The locking end of a line, pointing down, with its cover beside the tip; 40 px high."""
    return (
        rect(x - 8, top, 16, 18, 2),
        line(x - 8, top + 6, x + 8, top + 6, "eq-fine"),
        line(x - 8, top + 12, x + 8, top + 12, "eq-fine"),
        polyline([(x - 4, top + 18), (x - 3, top + 34), (x + 3, top + 34), (x + 4, top + 18)]),
    )


def bag(x: float, top: float, width: float, height: float) -> Shapes:
    """A soft bag that hangs: its seam, the eye it hangs by, the wall of the space for fluid."""
    right, foot, middle = x + width, top + height, x + width / 2
    seam = (
        f"M{number(x)} {number(top + 8)} Q{number(x)} {number(top)} {number(x + 8)} {number(top)} "
        f"L{number(right - 8)} {number(top)} Q{number(right)} {number(top)} {number(right)} "
        f"{number(top + 8)} L{number(right)} {number(foot)} L{number(x)} {number(foot)} Z"
    )
    space = (
        f"M{number(x + 7)} {number(top + 30)} Q{number(middle)} {number(top + 18)} "
        f"{number(right - 7)} {number(top + 30)} L{number(right - 7)} {number(foot - 16)} "
        f"Q{number(middle)} {number(foot)} {number(x + 7)} {number(foot - 16)} Z"
    )
    return (path(seam, "eq-body"), path(space))


def port_outlet(x: float, top: float) -> Shapes:
    """The port for the spike, pointing down, with its twist-off cap; 22 px wide, 44 px high."""
    return (
        rect(x - 8, top, 16, 22),
        rect(x - 10, top + 22, 20, 8, 1),
        polyline([(x - 4, top + 30), (x - 9, top + 44), (x + 9, top + 44), (x + 4, top + 30)]),
    )


def port_additive(x: float, top: float) -> Shapes:
    """The port for additions, pointing down, a thick membrane at its end; 20 px wide, 32 high."""
    return (
        rect(x - 7, top, 14, 20),
        rect(x - 10, top + 20, 20, 12, 4),
        line(x - 5, top + 32, x - 5, top + 24, "eq-fine"),
        line(x + 5, top + 32, x + 5, top + 24, "eq-fine"),
        line(x - 5, top + 24, x + 5, top + 24, "eq-fine"),
    )


def scale(x: float, top: float, step: float, count: int, length: float = 10.0) -> Shapes:
    """Marks of a scale, the first and every fifth longer."""
    return tuple(
        line(
            x,
            top + index * step,
            x + (length if index % 5 == 0 else length * 0.55),
            top + index * step,
        )
        for index in range(count)
    )
