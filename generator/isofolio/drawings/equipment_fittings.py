"""Fittings inside or on the side of a set: strainers, meshes, ports, inlets, valves."""

from isofolio.drawings.equipment_figure import Shapes, circle, line, path, polyline, rect
from isofolio.drawings.equipment_pieces import tube
from isofolio.drawings.svg import number


def strainer(left: float, right: float, y: float) -> Shapes:
    """A level filter across a chamber: a line with a row of short strokes under it; 4 px high."""
    gaps = round((right - left) / 6)
    step = (right - left) / gaps
    strokes = (
        line(left + step * index, y, left + step * index, y + 4, "eq-fine")
        for index in range(gaps + 1)
    )
    return (line(left, y, right, y), *strokes)


def mesh(x: float, top: float, width: float, height: float, gap: float = 8.0) -> Shapes:
    """A sleeve of mesh: its outline and threads that slant both ways, cut at the outline."""
    threads = []
    for index in range(-int(height // gap), int(width // gap) + 1):
        start = index * gap
        near, far = max(start, 0.0), min(start + height, width)
        if far > near:
            high, low = top + near - start, top + far - start
            threads.append(line(x + near, high, x + far, low, "eq-fine"))
            threads.append(line(x + width - near, high, x + width - far, low, "eq-fine"))
    return (rect(x, top, width, height, 3), *threads)


def side_port(x: float, y: float) -> Shapes:
    """A short arm that joins a tube from the upper right, closed by a resealing membrane.

    x: the middle of the tube; y: where the arm meets it; 30 px wide, 30 px high.
    """
    arm = f"M{number(x + 2)} {number(y)} L{number(x + 20)} {number(y - 18)}"
    plug = [(x + 14, y - 21), (x + 23, y - 12), (x + 31, y - 20), (x + 22, y - 29)]
    return (
        *tube(arm),
        polyline(plug, "eq-body", closed=True),
        line(x + 18, y - 25, x + 27, y - 16),
    )


def lid_inlet(x: float, foot: float) -> Shapes:
    """An air inlet with its filter on a lid; 14 px wide, 20 px high, open at the top."""
    return (
        rect(x - 3, foot - 8, 6, 8),
        rect(x - 8, foot - 20, 16, 12, 1),
        *(line(x - 6 + step, foot - 10, x - 2 + step, foot - 18, "eq-fine") for step in (0, 4, 8)),
    )


def lid_port(x: float, foot: float) -> Shapes:
    """A port for additions on a lid: a short tube with a membrane across; 16 px wide, 18 high."""
    return (
        rect(x - 6, foot - 12, 12, 12),
        rect(x - 8, foot - 18, 16, 7, 3),
        line(x - 4, foot - 14, x + 4, foot - 14, "eq-fine"),
    )


def valve_float(x: float, foot: float) -> Shapes:
    """A float over an outlet: it rises in the fluid and shuts the outlet as the last runs out."""
    disc = f"M{number(x - 14)} {number(foot)} Q{number(x)} {number(foot - 14)} "
    return (
        path(f"{disc}{number(x + 14)} {number(foot)} Z", "eq-body"),
        line(x - 6, foot, x, foot + 8),
        line(x + 6, foot, x, foot + 8),
    )


def syringe(x: float, top: float, height: float = 60.0) -> Shapes:
    """A syringe pointing down, with its needle; `height` is that of the barrel alone."""
    foot = top + height
    return (
        line(x - 9, top - 16, x + 9, top - 16),
        line(x, top - 16, x, top + height * 0.4),
        rect(x - 10, top, 20, height, 1),
        line(x - 16, top, x + 16, top),
        line(x - 10, top + height * 0.4, x + 10, top + height * 0.4),
        *(
            line(x - 10, top + height * share, x - 5, top + height * share, "eq-fine")
            for share in (0.55, 0.7, 0.85)
        ),
        polyline([(x - 4, foot), (x - 3, foot + 9), (x + 3, foot + 9), (x + 4, foot)]),
        line(x, foot + 9, x, foot + 42),
    )


def arrow(x1: float, y1: float, x2: float, y2: float, head: float = 5.0) -> Shapes:
    """A stroke with an open head at its second end; level or upright."""
    across, down = (y2 - y1 == 0), (x2 - x1 == 0)
    way_x = (x2 > x1) - (x2 < x1)
    way_y = (y2 > y1) - (y2 < y1)
    wings = [
        (x2 - way_x * head - (head if down else 0), y2 - way_y * head - (head if across else 0)),
        (x2, y2),
        (x2 - way_x * head + (head if down else 0), y2 - way_y * head + (head if across else 0)),
    ]
    return (line(x1, y1, x2, y2), polyline(wings))


def span(x: float, high: float, low: float) -> Shapes:
    """An upright measure between two heights, a short bar at each end."""
    return (
        line(x, high, x, low, "eq-fine"),
        line(x - 4, high, x + 4, high, "eq-fine"),
        line(x - 4, low, x + 4, low, "eq-fine"),
    )


def bubbles(*places: tuple[float, float, float]) -> Shapes:
    """Bubbles of air: middle and radius of each [px]."""
    return tuple(circle(x, y, radius) for x, y, radius in places)
