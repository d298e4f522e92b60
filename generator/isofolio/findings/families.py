"""Which fluids are easily taken for one another: the same substances in another strength."""

import re
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from itertools import chain, islice

from isofolio.chemistry.composition import NOT_WHOLE
from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue
from isofolio.findings.when_asked import WhenAsked
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


# The id of a fluid, the quantity that tells it apart, and its figure.
LookAlike = tuple[str, str, float]


def look_alikes_of(catalogue: Catalogue, table: Table) -> Mapping[str, tuple[LookAlike, ...]]:
    """Of every fluid, by id, the others of its family that it may be taken for.

    The same ingredients first, then titles that begin with the same substance, those of the same
    strength before others; at most four. Retired fluids are left out.
    """
    shelf = [fluid for fluid in catalogue.fluids.values() if fluid.status != "retired"]
    of_same, of_kin = _grouped(shelf, ingredients), _grouped(shelf, first_substance)

    def of(fluid: Fluid) -> tuple[LookAlike, ...]:
        others = _family(fluid, of_same[ingredients(fluid)], of_kin[first_substance(fluid)])
        told = ((other.id, *_telling(fluid, other, table)) for other in others)
        return tuple(islice((one for one in told if len(one) == 3), MOST))

    return WhenAsked(
        catalogue.fluids, lambda names: {name: of(catalogue.fluids[name]) for name in names}
    )


def _grouped(
    fluids: Iterable[Fluid], shared: Callable[[Fluid], Hashable]
) -> defaultdict[Hashable, list[Fluid]]:
    """Fluids by what they share, so that a fluid is compared with its family alone."""
    groups: defaultdict[Hashable, list[Fluid]] = defaultdict(list)
    for fluid in fluids:
        groups[shared(fluid)].append(fluid)
    return groups


def _family(fluid: Fluid, same: Sequence[Fluid], kin: Sequence[Fluid]) -> Iterator[Fluid]:
    """The others of a family, nearest first; one after the other, for few of them are taken."""
    whole, strength = ingredients(fluid), first_strength(fluid)
    further = [one for one in kin if ingredients(one) != whole]
    as_strong = (one for one in further if first_strength(one) == strength)
    other_strength = (one for one in further if first_strength(one) != strength)
    return (o for o in chain(same, as_strong, other_strength) if o.id != fluid.id)


_TITLE = re.compile(r"(?P<substance>\D+?)(?: (?P<strength>\d[\d.]*) ?%.*)?")


def first_substance(fluid: Fluid) -> str:
    """The substance a title begins with: "Potassium chloride" of "Potassium chloride 0.3 % in ...".

    A title without a figure is its own substance.
    """
    found = _TITLE.fullmatch(fluid.name)
    return found["substance"] if found else fluid.name


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
