"""Every drawing of equipment, by the id of its page: one function, one figure.

The drawings are our own.  They show how a thing works (what drips, filters, vents, locks), never
the shape of a make, and every number on them is keyed to the list of parts on the page.
"""

from collections.abc import Callable, Mapping
from functools import partial

from isofolio.drawings.equipment_access import central_access, peripheral_cannula
from isofolio.drawings.equipment_containers import glass_bottle, semi_rigid_bottle, soft_bag
from isofolio.drawings.equipment_figure import Figure, draw, listed
from isofolio.drawings.equipment_label import reading_a_label
from isofolio.drawings.equipment_lines import (
    in_line_filter,
    multi_lumen_extension,
    needle_free_connector,
    pump_set,
)
from isofolio.drawings.equipment_reading import (
    checks_before_hanging,
    graduations_and_overfill,
    ports_and_additives,
)
from isofolio.drawings.equipment_sets import gravity_set, small_volume_set, transfusion_set

FIGURES: Mapping[str, Callable[[], Figure]] = {
    "gravity-set": gravity_set,
    "transfusion-set": transfusion_set,
    "small-volume-set": small_volume_set,
    "pump-set": pump_set,
    "multi-lumen-extension": multi_lumen_extension,
    "needle-free-connector": needle_free_connector,
    "in-line-filter": in_line_filter,
    "peripheral-cannula": peripheral_cannula,
    "central-access": central_access,
    "soft-bag": soft_bag,
    "semi-rigid-bottle": semi_rigid_bottle,
    "glass-bottle": glass_bottle,
    "ports-and-additives": ports_and_additives,
    "graduations-and-overfill": graduations_and_overfill,
    "reading-a-label": reading_a_label,
    "checks-before-hanging": checks_before_hanging,
}


def equipment_drawing(identifier: str) -> str:
    """One drawing as a whole ``svg`` element.

    Raises KeyError for an id that has no drawing.

    >>> equipment_drawing("gravity-set").startswith('<svg xmlns="http://www.w3.org/2000/svg"')
    True
    """
    return draw(FIGURES[identifier]())


def numbered_parts(identifier: str) -> tuple[tuple[int, str], ...]:
    """The numbers on a drawing and what each points at: the page's list of parts has the same.

    Raises KeyError for an id that has no drawing.

    >>> numbered_parts("transfusion-set")[3]
    (4, 'mesh')
    """
    return listed(FIGURES[identifier]())


EQUIPMENT_DRAWINGS: Mapping[str, Callable[[], str]] = {
    identifier: partial(equipment_drawing, identifier) for identifier in FIGURES
}
