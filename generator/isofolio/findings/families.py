"""Which fluids are easily taken for one another: the same substances in another strength."""

import re
from collections.abc import Iterator

from isofolio.chemistry.composition import NOT_WHOLE
from isofolio.entries.reading import Catalogue
from isofolio.entries.records import Fluid
from isofolio.measures.table import Table
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES

# Compared in this order: what hurts most when it is another figure comes first.
TELLING = (
    "potassium",
    "calcium",
    "magnesium",
    "sodium",
    "bicarbonate",
    "phosphate",
    "glycerophosphate",
    "mannitol",
    "glucose_mass",
    "lactate",
    "chloride",
    "colloid_mass",
)
MOST = 4


def ingredients(fluid: Fluid) -> frozenset[str]:
    """What a fluid is made of, hydrates counted as one substance.

    Titles of the same ingredients in other strengths are the commonest mix-up on a shelf
    (common practice, no source).
    """
    return frozenset(
        str(content.substance or content.particle).removesuffix("-monohydrate")
        for content in fluid.contents
    )


def look_alikes(
    fluid: Fluid, catalogue: Catalogue, table: Table
) -> tuple[tuple[str, str, float], ...]:
    """Fluids of the same family: id, the quantity that tells them apart, and its figure.

    The same ingredients first, then titles that begin with the same substance, those of the same
    strength before others; at most four. Retired fluids are left out.
    """
    others = [o for o in catalogue.fluids.values() if o.id != fluid.id and o.status != "retired"]
    same = [o for o in others if ingredients(o) == ingredients(fluid)]
    kin = [o for o in others if o not in same and first_substance(o) == first_substance(fluid)]
    kin.sort(key=lambda other: first_strength(other) != first_strength(fluid))
    found = ((other.id, _telling(fluid, other, table)) for other in [*same, *kin])
    return tuple((identifier, *told) for identifier, told in found if told)[:MOST]


_TITLE = re.compile(r"(?P<substance>\D+?)(?: (?P<strength>\d[\d.]*) ?%.*)?")


def first_substance(fluid: Fluid) -> str:
    """The substance a title begins with: "Potassium chloride" of "Potassium chloride 0.3 % in ...".

    A title without a figure is its own substance.
    """
    found = _TITLE.fullmatch(fluid.name)
    return found["substance"].strip() if found else fluid.name


def first_strength(fluid: Fluid) -> str:
    """The first figure of a title, as written; "" where it has none."""
    found = _TITLE.fullmatch(fluid.name)
    return (found["strength"] or "") if found else ""


def _telling(fluid: Fluid, other: Fluid, table: Table) -> tuple[str, float] | tuple[()]:
    """The first quantity that differs by more than a twentieth, and the other fluid's figure."""
    for quantity in TELLING:
        mine = table.value(fluid.id, quantity).number
        theirs = table.value(other.id, quantity).number
        if mine is None or theirs is None:
            continue
        if abs(mine - theirs) > 0.05 * max(mine, theirs):
            return quantity, theirs
    return ()


def held(fluid_id: str, table: Table) -> Iterator[str]:
    """The particle quantities a fluid holds or may hold, in the order of tables.

    What an incomplete composition does not mention is not listed: nothing is said of it.
    """
    for quantity in PARTICLE_QUANTITIES:
        value = table.value(fluid_id, quantity.id)
        if value.number != 0 and value.reason != NOT_WHOLE:
            yield quantity.id
