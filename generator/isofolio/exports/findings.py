"""The parts of the exported document that are judged: classes, vein, cautions, audit, others."""

from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook

Plain = dict[str, Any]

# Which quantity explains why a class is null.
CLASS_OF = {"osmolarity_class": "osmolarity", "tonicity_class": "tonicity_ratio"}


def classes(handbook: Handbook, fluid: Fluid) -> Plain:
    """hypo, iso or hyper by the class limits; null with its reason."""
    found = handbook.judgements[fluid.id].classes
    reasons = {
        name: handbook.value(fluid.id, CLASS_OF[name]).reason
        for name, word in found.items()
        if word is None
    }
    return {**found, "reasons": reasons}


def vein(handbook: Handbook, fluid: Fluid) -> Plain:
    """The vein statement and the figure that decides it."""
    statement = handbook.judgements[fluid.id].vein
    return {"word": statement.word, "because": statement.because}


def cautions(handbook: Handbook, fluid: Fluid) -> list[str]:
    """The ids of the cautions a fluid raises, most severe first."""
    return [caution.id for caution in handbook.judgements[fluid.id].cautions]


def audit(handbook: Handbook, fluid: Fluid) -> list[Plain]:
    """Every declared value beside ours; a null figure is explained by its line."""
    return [
        {
            "quantity": line.quantity,
            "declared": line.declared,
            "computed": line.computed,
            "verdict": line.verdict,
            "explanation": line.explanation,
            "source": line.source,
        }
        for line in handbook.audit.get(fluid.id, ())
    ]


def alternatives(handbook: Handbook, fluid: Fluid) -> list[Plain]:
    """What may be discussed when the fluid is missing: by score, then id; the stopped ones last."""
    return [
        {
            "id": other.id,
            "score": other.score,
            "stops": list(other.stops),
            "reasons": list(other.reasons),
        }
        for other in handbook.alternatives.get(fluid.id, ())
    ]
