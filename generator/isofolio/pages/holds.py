"""The largest object of a fluid page: what this bag holds, a row a substance, a column a size."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.findings.families import held
from isofolio.findings.limits import at_least
from isofolio.handbook import Handbook, millilitres
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.figures import HARD, RANGE, amount, rounded

NONE = "none"
NOT_DECLARED = "not declared"
AT_MOST = "at most"

# Every ready fluid answers these three, with "none" where it holds none of it.
ALWAYS_ASKED = ("sodium", "potassium", "glucose")
SIZES = 3
# A table that is tall already does not spend rows on what is absent.
MOST_WITH_NONE = 6


@dataclass(frozen=True)
class Size:
    """A column of the contents table."""

    label: str
    millilitres: float


def sizes(fluid: Fluid) -> list[Size]:
    """The columns of the contents table: at most three sizes, smallest first, then 1 L or 1 mL."""
    volumes = sorted({millilitres(container) for container in fluid.containers})
    last = Size(f"in 1{HARD}mL", 1.0) if _by_the_ampoule(fluid) else Size(f"in 1{HARD}L", 1000.0)
    chosen = volumes[:2] if _by_the_ampoule(fluid) else volumes[-SIZES:]
    return [Size(f"{rounded(v, 0)}{HARD}mL", v) for v in chosen if v != last.millilitres] + [last]


def _by_the_ampoule(fluid: Fluid) -> bool:
    return fluid.role == "concentrate"


def holds(handbook: Handbook, fluid: Fluid) -> Iterator[dict[str, Any]]:
    """The rows of "this bag holds": a row a substance, a cell a size."""
    there = set(held(fluid.id, handbook.measures))
    asked = set() if fluid.role in {"concentrate", "diluent"} else set(ALWAYS_ASKED)
    if len(there | asked) > MOST_WITH_NONE:
        asked = set()
    for quantity in (q for q in QUANTITY_BY_ID if q in there | asked):
        yield _row(handbook, fluid, quantity)
    if handbook.solution(fluid.id).colloid:
        yield _colloid_row(handbook, fluid)


def _row(handbook: Handbook, fluid: Fluid, quantity: str) -> dict[str, Any]:
    mass = _mass_per_litre(handbook, fluid, quantity)
    unit = "mmol" if mass is None else "g"
    name = QUANTITY_BY_ID[quantity].label
    if quantity == "glucose" and "glucose-monohydrate" in handbook.solution(fluid.id).masses:
        name = "glucose, as monohydrate"
    cells = [_marked(_cell(handbook, fluid, quantity, mass, size)) for size in sizes(fluid)]
    return {"name": name, "unit": unit, "cells": cells, "loud": _is_loud(handbook, fluid, quantity)}


def _marked(text: str) -> dict[str, Any]:
    """A cell, and whether it holds words: those are set smaller than figures."""
    return {"text": text, "words": text.startswith((NOT_DECLARED, AT_MOST))}


def _mass_per_litre(handbook: Handbook, fluid: Fluid, quantity: str) -> float | None:
    """Sugars are read in grams, as weighed; None for what is read in millimoles."""
    if quantity not in {"glucose", "mannitol"}:
        return None
    masses = handbook.solution(fluid.id).masses
    weighed = [masses.get(name) for name in (quantity, f"{quantity}-monohydrate")]
    known = [grams for grams in weighed if grams is not None]
    if known:
        return sum(known)
    return handbook.value(fluid.id, "glucose_mass").number if quantity == "glucose" else None


def _cell(handbook: Handbook, fluid: Fluid, quantity: str, mass: float | None, size: Size) -> str:
    share = size.millilitres / 1000.0
    value = handbook.value(fluid.id, quantity)
    if value.number == 0:
        return NONE
    if mass is not None:
        return amount(mass * share)
    if value.number is None:
        return range_text(handbook, fluid, quantity, share) or NOT_DECLARED
    return amount(value.number * share)


def range_text(handbook: Handbook, fluid: Fluid, quantity: str, share: float) -> str:
    declared = handbook.solution(fluid.id).ranges.get(quantity)
    if declared is None:
        return ""
    low, high = (number * share for number in declared)
    return f"{AT_MOST} {amount(high)}" if low == 0 else f"{amount(low)}{RANGE}{amount(high)}"


def _is_loud(handbook: Handbook, fluid: Fluid, quantity: str) -> bool:
    """Potassium above the cautionary limit is set larger than the rest.

    Not from plasma's upper limit on: the 5 mmol/L of a balanced fluid is no reason to shout.
    """
    limit = handbook.catalogue.limits.get("potassium-caution")
    if quantity != "potassium" or limit is None:
        return False
    return at_least(handbook.value(fluid.id, quantity).number, limit)


def _colloid_row(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    substances = handbook.catalogue.substances
    masses = handbook.solution(fluid.id).masses
    names = [substances[name].name.lower() for name in masses if substances[name].colloid]
    value = handbook.value(fluid.id, "colloid_mass")
    shares = [value.times(size.millilitres / 1000.0) for size in sizes(fluid)]
    texts = [share.reason if share.number is None else amount(share.number) for share in shares]
    cells = [_marked(text) for text in texts]
    name = ", ".join(names)
    if name[-1:].isdigit():  # "dextran 40 g" would read as forty grams
        name += ","
    return {"name": name, "unit": "g", "cells": cells, "loud": False}
