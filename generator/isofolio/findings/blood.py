"""Whether a fluid may share a line with blood: never a bare yes or no."""

from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.entries.cautions import Caution
from isofolio.entries.fluids import Fluid
from isofolio.entries.records import Citation

NOT_LOOKED_UP = "Not looked up: ask the blood bank."


@dataclass(frozen=True)
class BloodStatement:
    """text: the answer; cite: what backs it; caution: id of the caution it comes from, or ""."""

    text: str
    cite: Citation | None = None
    caution: str = ""


def blood_of(fluid: Fluid, cautions: Sequence[Caution]) -> BloodStatement:
    """The most severe caution that speaks of blood; else what the entry says; else unknown."""
    for caution in cautions:
        if caution.said_by == "blood":
            return BloodStatement(caution.imperative, caution.cite, caution.id)
    if fluid.with_blood is not None:
        return BloodStatement(fluid.with_blood.text, fluid.with_blood.cite)
    return BloodStatement(NOT_LOOKED_UP)
