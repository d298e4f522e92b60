"""Drawings of what stands in the vein: the peripheral cannula and the central line."""

from collections.abc import Callable

from isofolio.drawings.equipment_figure import (
    Figure,
    Part,
    Shapes,
    circle,
    line,
    path,
    polyline,
    rect,
    words,
)
from isofolio.drawings.equipment_fittings import arrow
from isofolio.drawings.equipment_pieces import pinch_clamp, tube

WIDTH = 340.0
AXIS = 88.0  # px, height of the needle in the upper view of the cannula


def peripheral_cannula() -> Figure:
    """A cannula over its needle as it goes in, and left in the vein without the needle."""
    parts = (
        Part("point of the needle", _needle(), (22, 40), (20, AXIS - 2)),
        Part("cannula: the soft tube that stays", _sheath(), (90, 40), (90, AXIS - 7), True, True),
        Part("wings", _wings(), (136, 36), (164, AXIS - 36)),
        Part("hub, in the colour of its size", _hub(), (214, 40), (202, AXIS - 15), True, True),
        Part("flashback chamber", _flashback(), (256, 40), (250, AXIS - 11), True),
        Part("vent plug: air out, blood held", _plug(), (314, 52), (290, AXIS - 8)),
        Part("vein", _vein(), (26, 242), (66, 222)),
        Part("cannula in the vein, the needle gone", _inside(), (70, 188), (124, 240), True),
        Part("line locked to the hub", _joined(), (312, 148), (296, 172)),
    )
    ground = (line(8, 202, 328, 202), words("skin", 24, 192, kind="eq-second"))
    saying = (
        "Above, the cannula on its needle; below, the cannula in the vein with the needle gone."
    )
    return Figure("peripheral-cannula", "A peripheral cannula", saying, WIDTH, 272, ground, parts)


def _needle() -> Shapes:
    """Its slanted point, and the rest of it, hidden in the cannula and the hub."""
    point = [(8, AXIS + 3), (24, AXIS - 3), (32, AXIS - 3), (32, AXIS + 3)]
    return (
        polyline(point, "eq-body", closed=True),
        line(36, AXIS - 2, 220, AXIS - 2, "eq-fine eq-hidden"),
        line(36, AXIS + 2, 220, AXIS + 2, "eq-fine eq-hidden"),
    )


def _sheath() -> Shapes:
    """The soft tube, close to the needle at its tip."""
    above = [(32, AXIS - 4), (44, AXIS - 6), (150, AXIS - 7)]
    below = [(150, AXIS + 7), (44, AXIS + 6), (32, AXIS + 4)]
    return (polyline([*above, *below], "eq-body", closed=True),)


def _hub() -> Shapes:
    """The hub with the flange that the next part locks on."""
    above = [(150, AXIS - 8), (160, AXIS - 15), (214, AXIS - 15)]
    below = [(214, AXIS + 15), (160, AXIS + 15), (150, AXIS + 8)]
    return (polyline([*above, *below], "eq-body", closed=True), rect(214, AXIS - 18, 6, 36, 1))


def _wings() -> Shapes:
    """Two flaps that hold the hub to the skin, seen from above."""
    upper = [
        (162, AXIS - 15),
        (158, AXIS - 34),
        (164, AXIS - 40),
        (186, AXIS - 40),
        (194, AXIS - 15),
    ]
    return (polyline(upper), polyline([(x, 2 * AXIS - y) for x, y in upper]))


def _flashback() -> Shapes:
    """The chamber behind the hub, with the first blood in it."""
    return (
        rect(220, AXIS - 11, 62, 22, 3),
        line(228, AXIS - 4, 262, AXIS - 4, "eq-fine"),
        line(234, AXIS + 1, 256, AXIS + 1, "eq-fine"),
        line(228, AXIS + 6, 248, AXIS + 6, "eq-fine"),
    )


def _plug() -> Shapes:
    strokes = (
        line(284 + 5 * step, AXIS + 5, 289 + 5 * step, AXIS - 5, "eq-fine") for step in (0, 1)
    )
    return (rect(282, AXIS - 8, 14, 16, 1), *strokes)


def _vein() -> Shapes:
    """The two walls of a vein under the skin, and the way the blood runs."""
    return (line(8, 222, 328, 222), line(8, 260, 328, 260), *arrow(92, 242, 66, 242))


def _inside() -> Shapes:
    """The tube from the vein through the skin, and its hub lying on the skin."""
    hub = [(222, 184), (256, 168), (264, 186), (230, 202)]
    return (
        *tube("M112 242 C150 242 176 228 204 208 L228 192"),
        polyline(hub, "eq-body", closed=True),
    )


def _joined() -> Shapes:
    return (*tube("M262 176 C282 166 300 172 328 190"), rect(259, 171, 10, 12, 1))


def central_access() -> Figure:
    """A line with three lumens: clamps, the junction, three openings, a cut across the shaft."""
    parts = (
        Part("ends, each closed by a connector or a cap", _each(_capped, 34), (20, 22), (26, 42)),
        Part("clamps", _each(pinch_clamp, 74), (74, 18), (77, 36)),
        Part("junction, stitched or stuck to the skin", _junction(), (166, 38), (168, 82)),
        Part(
            "shaft in the vein",
            tube("M186 96 L206 96 C262 96 262 176 262 216"),
            (302, 122),
            (255, 141),
            False,
            True,
        ),
        Part("opening nearest the skin", _side_hole(262, 200), (318, 188), (266, 199), True),
        Part("opening in the middle", _side_hole(262, 236), (318, 228), (266, 235), True),
        Part(
            "opening at the tip",
            (*tube("M262 214 L262 286"), *arrow(262, 288, 262, 302, 4)),
            (318, 268),
            (264, 282),
            True,
            True,
        ),
        Part(
            "cut across the shaft: three lumens, not one size",
            _cut(104, 252),
            (40, 226),
            (90, 238),
            True,
        ),
    )
    ground = (
        *tube("M42 46 L110 46 C142 46 146 96 172 96"),
        *tube("M42 96 L172 96"),
        *tube("M42 146 L110 146 C142 146 146 96 172 96"),
        line(146, 252, 256, 252, "eq-fine eq-hidden"),
        line(234, 176, 234, 306),
        line(290, 176, 290, 306),
        words("large vein", 226, 292, anchor="end", kind="eq-second"),
    )
    saying = "Three ways that stay apart from the ends outside to three openings in the vein."
    return Figure(
        "central-access", "A central line with three lumens", saying, WIDTH, 312, ground, parts
    )


def _each(piece: Callable[[float, float], Shapes], x: float) -> Shapes:
    """The same piece on each of the three arms."""
    return tuple(shape for y in (46.0, 96.0, 146.0) for shape in piece(x, y))


def _capped(x: float, y: float) -> Shapes:
    """A capped end of an arm, pointing left; 20 px wide."""
    return (rect(x - 6, y - 7, 14, 14, 1), rect(x - 14, y - 5, 8, 10, 2))


def _junction() -> Shapes:
    """The piece where the arms join the shaft, with its two eyes for a stitch."""
    return (
        rect(160, 82, 28, 28, 4),
        path("M166 82 L166 70 L182 70 L182 82"),
        path("M166 110 L166 122 L182 122 L182 110"),
        circle(174, 76, 2),
        circle(174, 116, 2),
    )


def _side_hole(x: float, y: float) -> Shapes:
    """An opening in the wall of the shaft, and the flow out of it."""
    return (rect(x + 1, y - 4, 5, 8, 1), *arrow(x + 10, y, x + 24, y, 4))


def _cut(x: float, y: float) -> Shapes:
    """The shaft cut across: one large lumen and two small ones, with walls between them."""
    return (
        circle(x, y, 34),
        path(
            f"M{x - 27:g} {y - 3:g} C{x - 24:g} {y - 26:g} {x - 12:g} {y - 29:g} {x:g} {y - 29:g} "
            f"C{x + 12:g} {y - 29:g} {x + 24:g} {y - 26:g} {x + 27:g} {y - 3:g} Z"
        ),
        circle(x - 13, y + 13, 9),
        circle(x + 13, y + 13, 9),
    )
