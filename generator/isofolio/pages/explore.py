"""Every fluid on four charts, with the table beside them; whole without any script."""

from collections.abc import Iterator
from typing import Any

from markupsafe import Markup

from isofolio.drawings.charts import draw
from isofolio.drawings.patterns import pattern_definitions
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.charts import KINDS, Told, cell_text, charts, hung, kind_of
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.addresses import EXPLORE, GALLERY, entry_address
from isofolio.wording.figures import typeset, unit_text

SHOWN = (
    "osmolarity",
    "effective_osmolarity",
    "sodium",
    "chloride",
    "sid_in_body",
    "base_excess_1l",
    "glucose_mass",
    "energy",
    "energy_us",
)


def explore_page(handbook: Handbook) -> Page:
    """The charts as drawings that scripts may replace, and the table of their figures."""
    context = {
        "draft": DRAFT,
        "charts": [_chart(told) for told in charts(handbook)],
        "patterns": Markup(pattern_definitions()),
        "heads": [_head(quantity) for quantity in SHOWN],
        "rows": [_row(handbook, fluid) for fluid in hung(handbook)],
        "unknown": list(_unknown(handbook)),
        "left_out": len(handbook.fluids) - len(hung(handbook)),
    }
    return Page(
        path=EXPLORE,
        title="Explore",
        description="Every fluid on four charts, with the table of their figures beside.",
        body=rendered("explore.html", EXPLORE, context),
        scripts=("scripts/explore.js",),
    )


def _chart(told: Told) -> dict[str, Any]:
    chart = told.chart
    return {
        "id": chart.id,
        "title": chart.title,
        "says": told.says,
        "drawing": Markup(draw(chart)),
        "beyond": ", ".join(told.beyond),
        "gallery": f"{GALLERY}#{chart.id}",
    }


def _unknown(handbook: Handbook) -> Iterator[tuple[str, str]]:
    """The fluids of which some figure is not known, and each reason once."""
    for fluid in hung(handbook):
        cells = [cell_text(handbook, fluid, quantity) for quantity in SHOWN]
        reasons = dict.fromkeys(text for text, known in cells if not known)
        if reasons:
            yield typeset(fluid.name), "; ".join(reasons)


def _head(quantity: str) -> str:
    shown = QUANTITY_BY_ID[quantity]
    return typeset(f"{shown.label},{unit_text(shown.unit)}")


def _row(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    words = {kind.id: kind.label for kind in KINDS}
    return {
        "name": typeset(fluid.name),
        "address": entry_address("fluids", fluid.id),
        "kind": words[kind_of(handbook, fluid)],
        "cells": [cell_text(handbook, fluid, quantity) for quantity in SHOWN],
    }
