"""All fluids in one table."""

from typing import Any

from isofolio.entries.records import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.fluid import role_words
from isofolio.pages.page import Page, rendered
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.addresses import ALL_FLUIDS, entry_address
from isofolio.wording.figures import figure, typeset

SHOWN = (
    "sodium",
    "potassium",
    "calcium",
    "magnesium",
    "chloride",
    "bicarbonate",
    "lactate",
    "acetate",
    "glucose_mass",
    "osmolarity",
)
SHORT = {"glucose_mass": "glucose g/L", "osmolarity": "mOsm/L in the bag"}
UNKNOWN = "?"


def fluids_page(handbook: Handbook) -> Page:
    """The table of every fluid."""
    quantities = [QUANTITY_BY_ID[q] for q in SHOWN]
    columns: list[dict[str, Any]] = [
        {"key": "name", "label": "fluid", "words": True},
        {"key": "role", "label": "role", "words": True},
    ]
    columns += [
        {"key": q.id, "label": SHORT.get(q.id, q.label), "words": False} for q in quantities
    ]
    ordered = sorted(handbook.fluids, key=lambda fluid: fluid.status == "retired")
    context = {"columns": columns, "rows": [_row(handbook, fluid) for fluid in ordered]}
    return Page(
        path=ALL_FLUIDS,
        title="All fluids",
        description="Every fluid of the cupboard in one table, per litre.",
        body=rendered("fluids.html", ALL_FLUIDS, context),
    )


def _row(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    return {
        "name": typeset(fluid.name),
        "address": entry_address("fluids", fluid.id),
        "role": fluid.role,
        "role_words": role_words(handbook, fluid),
        "cells": [_cell(handbook, fluid, quantity) for quantity in SHOWN],
    }


def _cell(handbook: Handbook, fluid: Fluid, quantity: str) -> dict[str, str]:
    value = handbook.value(fluid.id, quantity)
    if value.number is None:
        return {"text": UNKNOWN, "title": value.reason}
    text = "" if value.number == 0 else figure(value.number, QUANTITY_BY_ID[quantity])
    return {"text": text, "title": ""}
