"""Drawings of what stands between a set and a vein: pump, extension, connector, filter."""

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
from isofolio.drawings.equipment_fittings import arrow, bubbles
from isofolio.drawings.equipment_pieces import (
    drip_chamber,
    drop,
    luer_end,
    pinch_clamp,
    roller_clamp,
    surface,
    tube,
)
from isofolio.drawings.svg import number

LEFT, RIGHT = 44.0, 296.0  # px, where the numbers stand on either side
WIDTH = 340.0


def pump_set() -> Figure:
    """A pump with its set: the stretch it squeezes, the guard against free flow, the air sensor."""
    chamber = (*drip_chamber(150, 14, 58), rect(146, 14, 8, 10), *drop(150, 29, 3.5))
    parts = (
        Part("drip chamber", (*chamber, *surface(128, 172, 52)), (LEFT, 40), (128, 40)),
        Part("pump", _pump(), (RIGHT, 126), (252, 132), False, True),
        Part("guard against free flow", _jaws(150, 136, 14), (LEFT, 143), (137, 143), True),
        Part("stretch that the pump squeezes", _squeezed(150, 162), (RIGHT, 224), (154, 224), True),
        Part("fingers of the pump", _fingers(150, 176), (LEFT, 194), (128, 196)),
        Part("air sensor", (*_jaws(150, 258, 20), circle(150, 268, 2)), (RIGHT, 268), (170, 268)),
        Part("roller clamp", roller_clamp(150, 322), (LEFT, 346), (137, 346), True),
        Part("end with its lock", luer_end(150, 414), (RIGHT, 434), (156, 424)),
    )
    ground = (*tube("M150 82 L150 106"), *tube("M150 292 L150 416"))
    saying = (
        "Inside the pump fingers squeeze one stretch of the set; a guard and a sensor watch it."
    )
    return Figure("pump-set", "A set in a pump", saying, WIDTH, 466, ground, parts)


def _pump() -> Shapes:
    """The case with its panel, and the plain tube that runs through it."""
    return (
        rect(104, 106, 148, 186, 8),
        rect(188, 160, 50, 28, 2),
        words("mL/h", 213, 174),
        *(circle(198 + 15 * step, 204, 4) for step in range(3)),
        *tube("M150 106 L150 292"),
    )


def _jaws(x: float, top: float, height: float) -> Shapes:
    """Two blocks that face each other over the tube; 52 px wide in all."""
    return (rect(x - 26, top, 20, height, 1), rect(x + 6, top, 20, height, 1))


def _squeezed(x: float, top: float) -> Shapes:
    """The soft stretch between its two collars; 80 px high."""
    walls = f"M{number(x)} {number(top)} L{number(x)} {number(top + 80)}"
    return (*tube(walls), rect(x - 8, top, 16, 6, 1), rect(x - 8, top + 76, 16, 6, 1))


def _fingers(x: float, top: float) -> Shapes:
    """Five fingers of a wave that runs down the stretch, and the plate that they press against."""
    reach = (10.0, 6.0, 4.0, 6.0, 10.0)
    rods = (rect(x - 34, top + 11 * row, 34 - gap, 7, 1) for row, gap in enumerate(reach))
    return (*rods, line(x + 8, top - 4, x + 8, top + 54))


def multi_lumen_extension() -> Figure:
    """Three arms that become one line: clamps, a one-way valve, the stretch they share."""
    arms = (
        *tube("M64 60 L150 60 C184 60 186 110 214 110"),
        *tube("M64 110 L214 110"),
        *tube("M64 160 L150 160 C184 160 186 110 214 110"),
    )
    ends = tuple(shape for y in (60, 110, 160) for shape in _end(56, y))
    clamps = tuple(shape for y in (60, 110, 160) for shape in pinch_clamp(96, y))
    valve = (
        circle(140, 60, 10),
        polyline([(136, 54), (136, 66), (145, 60)], closed=True),
        line(145, 54, 145, 66),
    )
    parts = (
        Part("end of an arm, closed by a cap or a connector", ends, (24, 26), (48, 58)),
        Part("clamp of an arm", clamps, (96, 20), (99, 50)),
        Part("one-way valve", valve, (168, 28), (146, 52), True),
        Part(
            "where the arms meet",
            (path("M206 100 L226 100 L232 110 L226 120 L206 120 Z", "eq-body"),),
            (214, 66),
            (216, 103),
        ),
        Part("stretch they all share", tube("M232 110 L290 110"), (262, 66), (262, 110), True),
        Part("end at the cannula", _male(290, 110), (302, 160), (304, 114)),
    )
    saying = "Three arms, each with a clamp, run into one line to the cannula."
    return Figure(
        "multi-lumen-extension", "An extension with three arms", saying, WIDTH, 190, arms, parts
    )


def _end(x: float, y: float) -> Shapes:
    """A capped end of an arm, pointing left; 20 px wide."""
    return (rect(x - 6, y - 7, 14, 14, 1), rect(x - 14, y - 5, 8, 10, 2))


def _male(x: float, y: float) -> Shapes:
    """The locking end of a level line, pointing right; 34 px wide."""
    return (
        rect(x, y - 8, 16, 16, 2),
        line(x + 6, y - 8, x + 6, y + 8, "eq-fine"),
        line(x + 11, y - 8, x + 11, y + 8, "eq-fine"),
        polyline([(x + 16, y - 4), (x + 30, y - 3), (x + 30, y + 3), (x + 16, y + 4)]),
    )


def needle_free_connector() -> Figure:
    """A connector cut open, shut on the left and pushed open by a line on the right."""
    shut, opened = 92.0, 224.0
    faces = (*_face(shut, 92),)
    parts = (
        Part("line or syringe that opens it", _tip(opened, 32), (300, 44), (230, 44)),
        Part("surface to clean", faces, (40, 70), (84, 90), True),
        Part("membrane, shut", _membrane(shut), (30, 126), (84, 112), True),
        Part("membrane, pushed aside", _parted(opened), (312, 124), (240, 128), True),
        Part("housing", (*_housing(shut), *_housing(opened)), (158, 70), (120, 104), False, True),
        Part("space that fluid passes and stays in", _space(opened), (312, 176), (232, 170)),
        Part("lock to the cannula or line", (*_lock(shut), *_lock(opened)), (30, 214), (80, 218)),
    )
    saying = "A membrane closes the way; the tip of a line pushes it aside and fluid passes."
    return Figure("needle-free-connector", "A needle-free connector", saying, WIDTH, 264, (), parts)


def _housing(x: float) -> Shapes:
    """The body of a connector, cut open: wide above, a neck below."""
    left = [(x - 20, 92), (x - 28, 104), (x - 28, 180), (x - 10, 200), (x - 10, 214)]
    right = [(2 * x - a, b) for a, b in left]
    return (polyline(left), polyline(right))


def _face(x: float, y: float) -> Shapes:
    return (line(x - 20, y, x + 20, y), line(x - 20, y + 4, x + 20, y + 4, "eq-fine"))


def _membrane(x: float) -> Shapes:
    """A plug that fills the top, with its slit shut."""
    plug = [(x - 20, 98), (x + 20, 98), (x + 24, 106), (x + 12, 134), (x - 12, 134), (x - 24, 106)]
    return (polyline(plug, "eq-body", closed=True), line(x, 98, x, 134))


def _parted(x: float) -> Shapes:
    """The plug in two halves, pressed to the wall by the tip between them."""
    half = [(x - 20, 100), (x - 8, 104), (x - 7, 140), (x - 18, 146), (x - 26, 112)]
    return (
        polyline(half, "eq-body", closed=True),
        polyline([(2 * x - a, b) for a, b in half], "eq-body", closed=True),
    )


def _tip(x: float, top: float) -> Shapes:
    """The tip of a syringe or line, pointing down into the connector; 110 px high."""
    barrel = [
        (x - 16, top),
        (x - 16, top + 44),
        (x - 6, top + 50),
        (x - 5, top + 110),
        (x + 5, top + 110),
        (x + 6, top + 50),
        (x + 16, top + 44),
        (x + 16, top),
    ]
    return (polyline(barrel, "eq-body"), *arrow(x, top + 60, x, top + 98, 4))


def _space(x: float) -> Shapes:
    """Fluid round the way through: its dashes."""
    return (
        line(x - 14, 160, x - 4, 160, "eq-fine"),
        line(x + 4, 160, x + 14, 160, "eq-fine"),
        line(x - 8, 170, x + 8, 170, "eq-fine"),
        line(x - 12, 180, x - 4, 180, "eq-fine"),
        line(x + 4, 180, x + 12, 180, "eq-fine"),
        line(x - 4, 192, x + 4, 192, "eq-fine"),
    )


def _lock(x: float) -> Shapes:
    """The collar with its thread, and the tip in it."""
    return (
        rect(x - 16, 208, 32, 30, 2, kind=""),
        polyline([(x - 6, 208), (x - 5, 244), (x + 5, 244), (x + 6, 208)], "eq-body"),
        *(line(x - 16, y, x - 10, y + 3, "eq-fine") for y in (214, 221, 228)),
        *(line(x + 10, y + 3, x + 16, y, "eq-fine") for y in (214, 221, 228)),
    )


def in_line_filter() -> Figure:
    """A filter cut open: fluid passes one membrane, air leaves by another."""
    sheet = (
        rect(96, 124, 148, 8),
        *(line(102 + 6 * step, 124, 98 + 6 * step, 132, "eq-fine") for step in range(24)),
    )
    vent = (
        rect(196, 70, 34, 10),
        *(line(202 + 6 * step, 70, 202 + 6 * step, 80, "eq-fine") for step in range(5)),
        *arrow(213, 66, 213, 46, 4),
    )
    caught = (
        *bubbles((150, 104, 3), (162, 112, 2)),
        polyline([(118, 112), (124, 108), (127, 114), (121, 118)], closed=True),
        polyline([(136, 116), (141, 113), (143, 119)], closed=True),
    )
    body = f"M{number(88)} 80 L252 80 L252 168 L88 168 Z"
    parts = (
        Part(
            "inlet, from the bag",
            (*tube("M20 102 L88 102"), *arrow(34, 118, 68, 118)),
            (42, 66),
            (48, 102),
        ),
        Part("vent for air, over a membrane that sheds water", vent, (268, 50), (226, 74), True),
        Part("housing", (path(body, "eq-body"),), (120, 44), (120, 80), False, True),
        Part("what is held back: particles, air", caught, (156, 44), (151, 101)),
        Part("membrane that lets the fluid through", sheet, (60, 152), (100, 128), True),
        Part(
            "outlet, to the patient",
            (*tube("M252 148 L322 148"), *arrow(272, 166, 306, 166)),
            (296, 122),
            (290, 148),
        ),
    )
    saying = "Fluid comes in above a membrane, leaves below it; air goes out through a vent."
    return Figure("in-line-filter", "A filter in the line", saying, WIDTH, 196, (), parts)
