"""Drawings of what holds the fluid: soft bag, semi-rigid bottle, glass bottle."""

from isofolio.drawings.equipment_figure import (
    Figure,
    Part,
    Shapes,
    line,
    path,
    polyline,
    rect,
)
from isofolio.drawings.equipment_fittings import arrow, bubbles, span
from isofolio.drawings.equipment_pieces import bag, port_additive, port_outlet, scale, surface

LEFT, RIGHT = 30.0, 310.0  # px, where the numbers stand on either side
WIDTH = 340.0


def soft_bag() -> Figure:
    """A bag that falls in on itself as it empties; it needs no air."""
    x, top, wide, tall = 90.0, 20.0, 160.0, 250.0
    fallen = (
        path("M108 96 C124 140 124 190 108 236", "eq-hidden"),
        path("M232 96 C216 140 216 190 232 236", "eq-hidden"),
        *arrow(100, 166, 118, 166, 4),
        *arrow(240, 166, 222, 166, 4),
    )
    parts = (
        Part("eye to hang it by", (rect(155, 26, 30, 9, 4),), (LEFT, 30), (158, 30)),
        Part("air that came with it", span(210, 50, 74), (RIGHT, 52), (210, 60)),
        Part("surface of the fluid", surface(97, 243, 78), (LEFT, 72), (104, 78)),
        Part("walls that fall in as it empties", fallen, (RIGHT, 120), (229, 108), True),
        Part(
            "label",
            (
                rect(132, 110, 76, 62, 0, kind=""),
                line(140, 124, 200, 124, "eq-fine"),
                line(140, 134, 186, 134, "eq-fine"),
                line(140, 158, 194, 158, "eq-fine"),
            ),
            (LEFT, 132),
            (132, 134),
        ),
        Part("scale", scale(128, 186, 8, 8, 12), (LEFT, 214), (130, 210)),
        Part(
            "outlet port, with its twist-off cap",
            port_outlet(148, 270),
            (LEFT, 304),
            (144, 292),
            True,
        ),
        Part(
            "port for additions, with its membrane",
            port_additive(192, 270),
            (RIGHT, 304),
            (196, 292),
        ),
        Part(
            "outer wrap, off only when needed",
            (rect(70, 8, 200, 326, 6, kind="eq-hidden"),),
            (RIGHT, 220),
            (270, 220),
        ),
    )
    saying = "A soft bag hangs by an eye; its walls fall in as it empties, so it needs no vent."
    return Figure("soft-bag", "A soft bag", saying, WIDTH, 342, bag(x, top, wide, tall), parts)


def semi_rigid_bottle() -> Figure:
    """A plastic bottle that gives only in part, so that it empties ever more slowly."""
    wall = (
        "M112 46 Q112 34 124 34 L216 34 Q228 34 228 46 L228 206 Q228 222 214 228 L204 236 "
        "L204 250 L136 250 L136 236 L126 228 Q112 222 112 206 Z"
    )
    dent = (
        path("M112 84 C130 110 130 150 112 184", "eq-hidden"),
        path("M228 84 C210 110 210 150 228 184", "eq-hidden"),
    )
    ports = (rect(144, 250, 16, 18, 1), line(144, 258, 160, 258, "eq-fine"))
    mark = (*arrow(152, 318, 152, 276, 5),)
    parts = (
        Part("ring to hang it by", (path("M156 34 C150 12 190 12 184 34"),), (LEFT, 22), (157, 25)),
        Part(
            "space that grows, with less and less pressure in it",
            span(190, 40, 200),
            (RIGHT, 60),
            (190, 66),
            True,
        ),
        Part("walls that give only in part", dent, (RIGHT, 128), (218, 118), True),
        Part("scale, bent as the walls give", scale(136, 78, 14, 9, 12), (LEFT, 106), (138, 106)),
        Part(
            "last of the fluid, slow to come", surface(115, 225, 204), (LEFT, 196), (120, 204), True
        ),
        Part("port for the set: look for the arrow", (*ports, *mark), (LEFT, 290), (152, 300)),
        Part(
            "port for additions, which can look the same",
            (rect(180, 250, 16, 18, 1), line(180, 258, 196, 258, "eq-fine")),
            (RIGHT, 276),
            (194, 264),
        ),
    )
    saying = "A bottle of soft plastic hangs with its ports down; its walls give only in part."
    return Figure(
        "semi-rigid-bottle",
        "A semi-rigid bottle",
        saying,
        WIDTH,
        330,
        (path(wall, "eq-body"),),
        parts,
    )


def glass_bottle() -> Figure:
    """A glass bottle on a set with its air inlet open: air bubbles in as fluid leaves."""
    wall = (
        "M108 50 Q108 34 124 34 L216 34 Q232 34 232 50 L232 190 C232 214 196 208 196 232 "
        "L196 252 L144 252 L144 232 C144 208 108 214 108 190 Z"
    )
    inlet = (*_inlet(190, 292),)
    air = (*bubbles((184, 226, 3), (188, 204, 3.5), (182, 180, 4), (190, 152, 4.5), (184, 126, 5)),)
    parts = (
        Part("strap to hang it by", _strap(), (LEFT, 24), (134, 20)),
        Part(
            "wall that cannot give", (path(wall, "eq-body"),), (RIGHT, 130), (232, 130), False, True
        ),
        Part(
            "air over the fluid",
            (*surface(108, 232, 104), *span(132, 84, 100)),
            (LEFT, 88),
            (132, 92),
        ),
        Part("air that comes in as fluid leaves", air, (RIGHT, 186), (187, 180), True),
        Part("spike, through the stopper", _pierced(), (LEFT, 226), (160, 232)),
        Part(
            "stopper: pierce the ring in the middle",
            _stopper(),
            (LEFT, 262),
            (146, 262),
            behind=True,
        ),
        Part("air inlet, open, with its filter", inlet, (RIGHT, 276), (222, 298), True),
        Part(
            "drip chamber",
            (rect(150, 320, 40, 40), *surface(150, 190, 346)),
            (LEFT, 336),
            (150, 336),
        ),
    )
    saying = "A glass bottle hangs neck down; air comes in through an open inlet as fluid leaves."
    return Figure("glass-bottle", "A glass bottle", saying, WIDTH, 370, (), parts)


def _strap() -> Shapes:
    return (
        path("M116 70 L116 46 C120 18 140 14 170 14 C200 14 220 18 224 46 L224 70", "eq-fine"),
        line(108, 70, 232, 70),
        line(108, 78, 232, 78),
    )


def _stopper() -> Shapes:
    """The stopper in the neck under its metal ring."""
    return (rect(150, 238, 40, 14), rect(140, 252, 60, 18, 2), line(140, 262, 200, 262, "eq-fine"))


def _pierced() -> Shapes:
    """The spike inside the bottle's neck, and its housing below: fluid down, air up."""
    return (
        polyline([(160, 300), (160, 226), (166, 214), (176, 222), (176, 300)], "eq-body"),
        line(169, 222, 169, 300, "eq-fine"),
        rect(146, 284, 46, 36, 2),
    )


def _inlet(x: float, y: float) -> Shapes:
    """The open side arm: air goes in through a filter towards the spike."""
    return (
        rect(x + 2, y, 22, 12),
        rect(x + 24, y - 6, 14, 24, 1),
        *(line(x + 25, y - 3 + step, x + 37, y + 3 + step, "eq-fine") for step in (0, 6, 12)),
        *arrow(x + 72, y + 6, x + 44, y + 6, 5),
    )
