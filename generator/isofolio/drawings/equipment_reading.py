"""Drawings of what is read and done before a bag hangs: ports, scale, checks."""

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
from isofolio.drawings.equipment_fittings import arrow, span, syringe
from isofolio.drawings.equipment_pieces import (
    bag,
    drip_chamber,
    drop,
    port_additive,
    port_outlet,
    scale,
    surface,
)

LEFT, RIGHT = 30.0, 310.0  # px, where the numbers stand on either side
WIDTH = 340.0


def ports_and_additives() -> Figure:
    """A bag taken down, its ports up, an addition on its way in; a bag hung without mixing."""
    upright = (rect(109, 152, 14, 20), rect(106, 140, 20, 12, 4))
    parts = (
        Part("bag taken down, its ports up", _taken_down(), (16, 240), (34, 240), False, True),
        Part("outlet port, for the spike", _outlet_up(), (26, 110), (54, 134)),
        Part("port for additions", upright, (158, 168), (122, 166), True, True),
        Part(
            "membrane that closes again", (line(106, 146, 126, 146),), (82, 112), (108, 146), True
        ),
        Part("needle, straight in", syringe(116, 40, 46), (160, 108), (117, 112)),
        Part("layer that was not mixed in", _layer(), (326, 216), (287, 184), True),
        Part("first fluid to run, far too strong", _first_drops(), (194, 266), (234, 262), True),
    )
    ground = (*bag(200, 30, 112, 170), rect(242, 36, 28, 8, 4), *port_additive(278, 200))
    saying = "Left, an addition goes in with the ports up; right, a heavy layer lies at the ports."
    return Figure(
        "ports-and-additives", "Ports, and what is added", saying, WIDTH, 320, ground, parts
    )


def _taken_down() -> Shapes:
    """A bag that stands on its head, so that its ports point up."""
    seam = "M34 172 L34 292 Q34 300 42 300 L138 300 Q146 300 146 292 L146 172 Z"
    space = "M40 186 Q90 172 140 186 L140 270 Q90 284 40 270 Z"
    return (path(seam, "eq-body"), path(space), *surface(40, 140, 204), rect(76, 286, 28, 8, 4))


def _outlet_up() -> Shapes:
    cap = [(56, 142), (51, 128), (69, 128), (64, 142)]
    return (rect(52, 150, 16, 22), rect(50, 142, 20, 8, 1), polyline(cap))


def _layer() -> Shapes:
    """The boundary of a heavy layer at the foot of a bag, and the specks that stand for it."""
    places = [(214 + 18 * step, 184) for step in range(5)] + [
        (234 + 18 * step, 191) for step in range(3)
    ]
    return (
        path("M207 178 L305 178", "eq-hidden"),
        *(circle(x, y, 1.5, "eq-solid") for x, y in places),
    )


def _first_drops() -> Shapes:
    """The port with a spike in it, and the chamber that the first drops fall into."""
    return (
        rect(234, 200, 16, 22),
        rect(226, 222, 32, 6, 2),
        *drip_chamber(242, 236, 50, 34),
        rect(238, 228, 8, 16),
        *drop(242, 250, 4),
        *surface(225, 259, 272),
    )


def graduations_and_overfill() -> Figure:
    """A bag with its scale, read at eye level; more fluid in it than the label says."""
    level = 146.0
    full = (path("M107 62 L233 62", "eq-hidden"),)
    bulge = (path("M233 156 C222 174 222 194 233 212", "eq-hidden"),)
    named = (words("500\u00a0mL", 170, 222, kind="eq-strong"),)
    parts = (
        Part("level of a full bag", full, (LEFT, 56), (112, 62)),
        Part("more than the label says", span(206, 65, 84), (RIGHT, 62), (206, 74), True),
        Part("scale", scale(146, 86, 24, 5, 30), (RIGHT, 104), (163, 110), True),
        Part("surface of the fluid", (line(107, level, 233, level),), (RIGHT, 146), (226, 146)),
        Part("eye, level with the surface", _eye(30, level), (LEFT, 182), (31, 150)),
        Part("walls that bulge", bulge, (RIGHT, 190), (225, 184), True),
        Part("volume that the label names", named, (LEFT, 232), (142, 222)),
    )
    numbers = tuple(words(str(100 * row), 140, 86 + 24 * row, anchor="end") for row in range(5))
    hung = (*bag(100, 14, 140, 236), rect(155, 20, 30, 8, 4))
    ground = (*hung, *port_outlet(148, 250), *port_additive(192, 250), *numbers)
    saying = "The scale is a guide: the walls bulge, and the bag holds more than its label says."
    return Figure(
        "graduations-and-overfill", "The scale on a bag", saying, WIDTH, 304, ground, parts
    )


def _eye(x: float, y: float) -> Shapes:
    """An eye and its line of sight to the wall of the bag."""
    lids = (
        f"M{x - 16:g} {y:g} Q{x:g} {y - 14:g} {x + 16:g} {y:g} Q{x:g} {y + 14:g} {x - 16:g} {y:g} Z"
    )
    return (path(lids, "eq-body"), circle(x, y, 5), line(x + 20, y, 96, y, "eq-hidden"))


def checks_before_hanging() -> Figure:
    """A bag still in its opened wrap, the set for it and the patient's band: where to look."""
    squeeze = (*arrow(48, 216, 66, 216, 5), *arrow(216, 216, 198, 216, 5))
    caps = (*port_outlet(112, 254), *port_additive(152, 254))
    printed, expiry = _text_block(86, 84, (62, 56, 40)), _text_block(86, 138, (34, 46))
    extra = (rect(154, 92, 34, 40, 2, kind="eq-hidden"),)
    parts = (
        Part("outer wrap, whole and dry inside", _wrap(), (14, 36), (34, 56)),
        Part("full name, every strength, volume", printed, (14, 92), (86, 93), True),
        Part("expiry and batch", expiry, (14, 146), (86, 147)),
        Part("fluid clear, held against the light", _loupe(160, 176), (246, 168), (174, 172), True),
        Part("squeezed: no leak", squeeze, (14, 244), (52, 216), True),
        Part("ports sealed", caps, (14, 292), (105, 284), True),
        Part("label of anything added", extra, (246, 132), (188, 122)),
        Part("prescription and the patient's band", _order_and_band(), (326, 138), (300, 118)),
        Part(
            "right set, in date, its vent shut for a bag",
            _small_set(286, 186),
            (322, 266),
            (305, 254),
        ),
    )
    ground = (*bag(66, 34, 132, 220), rect(117, 40, 30, 8, 4), *surface(73, 191, 70))
    saying = "A bag in its opened wrap, the patient's band and the set: nine places to look at."
    return Figure(
        "checks-before-hanging", "Checks before hanging", saying, WIDTH, 330, ground, parts
    )


def _wrap() -> Shapes:
    """The wrap, torn open along its top."""
    torn = [(34, 22), (58, 26), (80, 20), (108, 26), (140, 20), (170, 26), (200, 20), (228, 24)]
    outline = [*torn, (228, 312), (34, 312)]
    return (polyline(outline, "eq-hidden", closed=True),)


def _text_block(x: float, top: float, lengths: tuple[int, ...]) -> Shapes:
    """Lines that stand for print."""
    return tuple(
        line(x, top + 9 * row, x + length, top + 9 * row) for row, length in enumerate(lengths)
    )


def _loupe(x: float, y: float) -> Shapes:
    return (circle(x, y, 15, ""), line(x + 11, y + 11, x + 22, y + 22), circle(x - 4, y + 3, 1, ""))


def _order_and_band() -> Shapes:
    """A sheet with lines on it, and below it a band for the wrist with its plate."""
    ring = "M252 100 C252 86 320 86 320 100 C320 114 252 114 252 100 Z"
    return (
        rect(264, 16, 44, 58, 2),
        *_text_block(271, 28, (30, 22, 30, 26, 14)),
        path(ring, "eq-body"),
        path("M258 100 C258 92 314 92 314 100", "eq-fine"),
        rect(268, 101, 36, 20, 2),
        *_text_block(273, 107, (24, 16)),
    )


def _small_set(x: float, y: float) -> Shapes:
    """The top of a set: spike, vent with its cap shut, chamber."""
    return (
        polyline(
            [(x - 4, y + 34), (x - 4, y + 8), (x + 1, y), (x + 4, y + 9), (x + 4, y + 34)],
            "eq-body",
        ),
        rect(x - 15, y + 34, 30, 6, 2),
        rect(x - 6, y + 40, 12, 12),
        rect(x + 6, y + 42, 8, 6),
        rect(x + 14, y + 39, 7, 12, 1),
        *drip_chamber(x, y + 52, 50, 36),
        *surface(x - 18, x + 18, y + 82),
    )
