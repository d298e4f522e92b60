"""Drawings of the sets a bag hangs on: gravity, transfusion, small volumes."""

from isofolio.drawings.equipment_figure import Figure, Part, Shapes, path, rect
from isofolio.drawings.equipment_fittings import (
    lid_inlet,
    lid_port,
    mesh,
    side_port,
    strainer,
    valve_float,
)
from isofolio.drawings.equipment_pieces import (
    air_inlet,
    drip_chamber,
    drop,
    luer_end,
    roller_clamp,
    scale,
    spike,
    surface,
    tube,
)

LEFT, RIGHT = 44.0, 296.0  # px, where the numbers stand on either side
WIDTH = 340.0


def gravity_set() -> Figure:
    """An infusion set for gravity: spike, air inlet, drip chamber, filter, clamp, port, end."""
    parts = (
        Part("spike", spike(170, 14), (LEFT, 40), (168, 46)),
        Part("air inlet with its filter and cap", air_inlet(177, 84), (RIGHT, 64), (197, 90), True),
        Part("drip tube", (rect(166, 98, 8, 18), *drop(170, 121, 4)), (LEFT, 96), (168, 108), True),
        Part("surface of the fluid", surface(148, 192, 152), (LEFT, 146), (154, 152), True),
        Part("drip chamber", drip_chamber(170, 98, 92), (RIGHT, 136), (192, 136), True, True),
        Part("filter", strainer(152, 188, 182), (RIGHT, 184), (184, 183)),
        Part("roller clamp", roller_clamp(170, 222), (LEFT, 246), (157, 246)),
        Part("injection port", side_port(203, 362), (RIGHT, 330), (231, 340)),
        Part("end with its lock", luer_end(203, 404), (LEFT, 424), (197, 414)),
    )
    ground = (
        *tube("M170 200 L170 290 C170 330 203 312 203 348 L203 406"),
        rect(163, 76, 14, 22),
    )
    saying = "Fluid comes in at the spike, drips into a chamber and runs down a tube with a clamp."
    return Figure("gravity-set", "A gravity infusion set", saying, WIDTH, 456, ground, parts)


def transfusion_set() -> Figure:
    """A set for blood: a chamber with a coarse mesh, filled over it, above a drip chamber."""
    lower = (*drip_chamber(170, 218, 76), *surface(148, 192, 266))
    drops = (rect(166, 218, 8, 14), *drop(170, 238, 4))
    over = surface(142, 198, 100)
    parts = (
        Part("spike, with no air inlet", spike(170, 14), (LEFT, 40), (168, 46)),
        Part(
            "filter chamber", drip_chamber(170, 84, 108, 56), (LEFT, 152), (142, 152), False, True
        ),
        Part("surface of the blood, over the mesh", over, (RIGHT, 92), (194, 100), True),
        Part("mesh", mesh(154, 116, 32, 74), (RIGHT, 152), (182, 152), True),
        Part("drip chamber", lower, (LEFT, 246), (148, 246), False, True),
        Part("drops, to count", drops, (RIGHT, 232), (172, 244)),
        Part("roller clamp", roller_clamp(170, 336), (LEFT, 360), (157, 360)),
        Part("end with its lock", luer_end(170, 424), (RIGHT, 444), (176, 434)),
    )
    ground = (rect(163, 76, 14, 8), *tube("M170 202 L170 220"), *tube("M170 304 L170 426"))
    saying = "Blood passes a mesh in the upper chamber before it drips in the lower one."
    return Figure("transfusion-set", "A transfusion set", saying, WIDTH, 476, ground, parts)


def small_volume_set() -> Figure:
    """A set with a measuring chamber: only what stands in the chamber can run in."""
    drops = (rect(168.5, 286, 3, 14), *drop(170, 303, 2.5))
    lower = (*drip_chamber(170, 286, 62), *surface(148, 192, 326))
    inlet = lid_inlet(200, 110)
    parts = (
        Part("upper clamp, to the bag", roller_clamp(170, 22), (LEFT, 46), (157, 46), True),
        Part("air inlet of the chamber, with its filter", inlet, (RIGHT, 84), (203, 97)),
        Part("port for additions", lid_port(140, 110), (LEFT, 92), (138, 100)),
        Part("measuring chamber", _chamber(), (RIGHT, 150), (214, 150), True, True),
        Part("scale", scale(126, 132, 10, 11), (LEFT, 172), (130, 172), True),
        Part("float that shuts the outlet", valve_float(170, 250), (RIGHT, 244), (180, 248)),
        Part("drip chamber", lower, (RIGHT, 316), (192, 314), False, True),
        Part("fine drip tube", drops, (LEFT, 282), (169, 294)),
        Part("lower clamp, to the patient", roller_clamp(170, 386), (LEFT, 410), (157, 410)),
    )
    ground = (*tube("M170 8 L170 112"), *tube("M170 358 L170 462"), rect(163, 268, 14, 18))
    saying = "A clamp shuts the bag off; what stands in the chamber drips in, and no more."
    return Figure(
        "small-volume-set", "A set with a measuring chamber", saying, WIDTH, 470, ground, parts
    )


def _chamber() -> Shapes:
    """The measuring chamber: lid, straight wall, funnel, and the surface of what is in it."""
    wall = "M126 118 L126 246 L158 270 L182 270 L214 246 L214 118 Z"
    return (path(wall, "eq-body"), rect(120, 110, 100, 8, 2), *surface(126, 214, 162))
