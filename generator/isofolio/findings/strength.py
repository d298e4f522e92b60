"""Which fluids are ready to hang and yet strong: check which strength is in the hand."""

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue
from isofolio.findings.limits import above
from isofolio.measures.table import Table

STRONG_LIMITS = ("strong-solution", "potassium-small-vein")


def is_strong(fluid: Fluid, catalogue: Catalogue, table: Table) -> bool:
    """Whether a ready fluid lies above one of the limits of a strong solution."""
    limits = [catalogue.limits[name] for name in STRONG_LIMITS if name in catalogue.limits]
    return fluid.role == "ready" and any(
        above(table.value(fluid.id, limit.quantity).number, limit) for limit in limits
    )
