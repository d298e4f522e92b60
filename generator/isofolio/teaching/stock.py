"""What questions are drawn from: fluids whose whole composition is known, and their containers."""

from collections.abc import Callable, Sequence

from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Source
from isofolio.handbook import Handbook, millilitres
from isofolio.wording.addresses import entry_address
from isofolio.wording.figures import typeset

LITRE = 1000.0
SMALLEST_BAG = 100.0
"""mL: a smaller container of a fluid that is ready to hang is not asked about."""


def known_fluids(handbook: Handbook, roles: Sequence[str]) -> list[Fluid]:
    """Current fluids of these roles with nothing unknown in them."""

    def is_known(fluid: Fluid) -> bool:
        composition = handbook.solution(fluid.id).composition
        return composition.complete and not composition.unknown

    chosen = (f for f in handbook.fluids if f.role in roles and f.status == "current")
    return [fluid for fluid in chosen if is_known(fluid)]


def ready(handbook: Handbook, wanted: Callable[[Fluid], bool]) -> list[Fluid]:
    """Fluids that are hung as they are, sold in bags, and wanted."""
    return [f for f in known_fluids(handbook, ("ready",)) if bags(f) and wanted(f)]


def bags(fluid: Fluid) -> list[float]:
    """The volumes of a fluid's containers from 100 mL on, each once [mL]."""
    return sorted({v for v in map(millilitres, fluid.containers) if v >= SMALLEST_BAG})


def parts_of_a_litre(fluid: Fluid) -> list[float]:
    """Of these, the containers that are no litre: there the slips show."""
    return [volume for volume in bags(fluid) if volume != LITRE]


def number(handbook: Handbook, fluid: Fluid, quantity: str) -> float:
    """A quantity per litre; 0 where it is not known."""
    return handbook.value(fluid.id, quantity).number or 0.0


def grams(handbook: Handbook, fluid: Fluid, substance: str) -> float:
    """Grams of a weighed substance in a litre; 0 where none is weighed."""
    return handbook.solution(fluid.id).masses.get(substance) or 0.0


def said_by(source: Source) -> str:
    """Who says so and when, for a sentence: body or first author, and the year."""
    who = source.body or str(source.authors).split(",")[0]
    return f"{who}, {source.year or 'no year in the text'}"


def taught_by(fluid: Fluid, anchor: str, what: str) -> tuple[str, str]:
    """The section of a fluid's page that teaches it: label and address."""
    return f"{typeset(fluid.name)}: {what}", entry_address("fluids", fluid.id, anchor)
