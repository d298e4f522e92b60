"""The working of every figure of a fluid: what its page shows of it."""

from collections.abc import Iterator, Sequence
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.measures.workings import workings_of
from isofolio.measures.workings_terms import Working
from isofolio.pages.method import method_address
from isofolio.vocabulary.quantities import (
    CHEMICAL_QUANTITIES,
    PARTICLE_QUANTITIES,
    QUANTITY_BY_ID,
)
from isofolio.wording.addresses import METHOD
from isofolio.wording.bag import listed
from isofolio.wording.workings import working_text

GROUPS = (
    ("In a litre", frozenset(q.id for q in PARTICLE_QUANTITIES)),
    ("Charge, osmolarity, energy", frozenset(q.id for q in CHEMICAL_QUANTITIES)),
)
IN_THE_BODY = "In a standard adult"


def working_context(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    """What `working_part.html` shows: the groups of figures, and the reasons of missing ones."""
    lines = workings_of(fluid, handbook.catalogue, handbook.measures)
    return {
        "worked": {line.quantity for line in lines},
        "working_groups": [
            {"title": title, "figures": list(_figures(group))} for title, group in _grouped(lines)
        ],
        "without_working": _reasons(handbook, fluid),
    }


def _grouped(lines: Sequence[Working]) -> Iterator[tuple[str, list[Working]]]:
    """Lines by group, in the order of reading; a group without lines is left out."""
    titles = [*(title for title, _ in GROUPS), IN_THE_BODY]
    for title in titles:
        group = [line for line in lines if _group_of(line.quantity) == title]
        if group:
            yield title, group


def _group_of(quantity: str) -> str:
    return next((title for title, ids in GROUPS if quantity in ids), IN_THE_BODY)


def _figures(lines: Sequence[Working]) -> Iterator[dict[str, Any]]:
    """One figure after the other, each with its lines; a formula only where it is a new one."""
    before = ""
    for quantity in dict.fromkeys(line.quantity for line in lines):
        shown = []
        for line in (each for each in lines if each.quantity == quantity):
            shown.append(_line(line, line.formula != before))
            before = line.formula
        yield {
            "id": f"working-{quantity}",
            "name": QUANTITY_BY_ID[quantity].label,
            "method": method_address(quantity),
            "lines": shown,
        }


def _line(line: Working, with_formula: bool) -> dict[str, str]:
    return {
        "step": line.name if line.step else "",
        "method": f"{METHOD}#{line.method}" if line.step else "",
        "formula": line.formula if with_formula else "",
        "arithmetic": working_text(line),
        "note": line.note,
    }


def _reasons(handbook: Handbook, fluid: Fluid) -> list[tuple[str, str]]:
    """Every reason for a missing figure, and the figures that it keeps from being worked."""
    kept: dict[str, list[str]] = {}
    for quantity in handbook.quantities:
        value = handbook.value(fluid.id, quantity)
        if value.number is None:
            kept.setdefault(value.reason, []).append(QUANTITY_BY_ID[quantity].label)
    return [(reason, listed(names)) for reason, names in kept.items()]
