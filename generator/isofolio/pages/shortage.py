"""When the shelf is empty: what to discuss with pharmacy, fluid by fluid, and how it is ranked."""

from collections.abc import Iterator
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Limit
from isofolio.findings.alternatives import Alternative
from isofolio.findings.differences import SINGLE, WEIGHT, WIDTH
from isofolio.findings.stops import BASE, GLUCOSE, HIGH, LOW, POTASSIUM, STRONG
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.page import Page, rendered
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.addresses import SHORTAGE, entry_address
from isofolio.wording.figures import HARD, capital, rounded, typeset, written

TITLE = "When the shelf is empty"
POLICY = (
    "Discuss with pharmacy. Local policy and pharmacy decide: this order is a judgement of this "
    "project and is not validated."
)
NOTHING = "Every other fluid of this catalogue is stopped. Ask pharmacy."
SHOWN = 3


def shortage_page(handbook: Handbook) -> Page:
    """Every fluid with the first of its alternatives, and how they are ranked."""
    contexts = [alternatives_context(handbook, fluid) for fluid in handbook.fluids]
    context = {
        "title": TITLE,
        "policy": POLICY,
        "terms": list(_terms(handbook)),
        "rules": list(_rules(handbook)),
        "judged": _judged(handbook),
        "cases": [
            (entry.loud, typeset(entry.text), cited(entry.cite, handbook.catalogue))
            for entry in handbook.catalogue.not_instead
        ],
        "ranked": [one for one in contexts if one["rows"]],
        "others": [one for one in contexts if not one["rows"]],
    }
    return Page(
        path=SHORTAGE,
        title=TITLE,
        description="What to discuss with pharmacy when a fluid is missing, and what differs.",
        body=rendered("shortage.html", SHORTAGE, context),
    )


def alternatives_context(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    """What a page shows of the alternatives of one fluid: the first few, or why there are none."""
    found = handbook.alternatives.scored(fluid.id, SHOWN)
    return {
        "id": fluid.id,
        "name": typeset(fluid.name),
        "address": entry_address("fluids", fluid.id),
        "rows": [_row(handbook, one) for one in found],
        "further": max(0, handbook.alternatives.counted(fluid.id) - SHOWN),
        "why": _why(handbook, fluid),
        "policy": POLICY,
        "all": f"{SHORTAGE}#{fluid.id}",
    }


def _why(handbook: Handbook, fluid: Fluid) -> str:
    """Why nothing stands beside a fluid, and what to do."""
    why = handbook.alternatives.why_not.get(fluid.id)
    return f"Not ranked: {why}. Ask pharmacy." if why else NOTHING


def _row(handbook: Handbook, one: Alternative) -> dict[str, Any]:
    points = "" if one.score is None else f"{rounded(one.score, 1)}{HARD}steps"
    return {
        "name": typeset(handbook.catalogue.fluids[one.id].name),
        "address": entry_address("fluids", one.id),
        "word": one.word,
        "points": points,
        "reasons": typeset("; ".join(one.reasons)) or "no figure that is compared",
        "warnings": [typeset(text) for text in one.warnings],
        "not_instead_for": [typeset(text) for text in one.not_instead_for],
    }


def _terms(handbook: Handbook) -> Iterator[dict[str, str]]:
    """The quantities of the score: one step, and what it counts."""
    limits = handbook.catalogue.limits
    for name, limit in limits.items():
        weight = limits.get(WEIGHT + name.removeprefix(WIDTH))
        if name.startswith(WIDTH) and weight is not None:
            yield {"name": _name(limit), "step": _figure(limit), "counts": _figure(weight)}


def _rules(handbook: Handbook) -> Iterator[dict[str, str]]:
    """The limits of the stops and of the words, with their own texts."""
    limits = handbook.catalogue.limits
    for name in (POTASSIUM, GLUCOSE, BASE, STRONG, LOW, HIGH, *SINGLE):
        limit = limits.get(name)
        if limit is not None:
            text = BODY if name in (LOW, HIGH) else limit.text
            label = "effective osmolarity in the body" if name in (LOW, HIGH) else _name(limit)
            yield {"name": label, "figure": _figure(limit), "text": typeset(text)}


BODY = "One fluid below it and the other not, or one above it and the other not: stopped."
NAMES = {
    "glucose_ratio": "ratio of glucose",
    "substitute_steps": "steps of one quantity",
    "substitute_score": "steps in all",
}


def _name(limit: Limit) -> str:
    known = QUANTITY_BY_ID.get(limit.quantity)
    return known.label if known else NAMES.get(limit.quantity, limit.quantity.replace("_", " "))


def _figure(limit: Limit) -> str:
    return written(limit.value.text)


def _judged(handbook: Handbook) -> str:
    """What backs the figures of the ranking, each reason once."""
    limits = handbook.catalogue.limits.items()
    said = [limit.cite.at for name, limit in limits if name.startswith((WIDTH, WEIGHT, *SINGLE))]
    return ". ".join(capital(text) for text in dict.fromkeys(said)) + "."
