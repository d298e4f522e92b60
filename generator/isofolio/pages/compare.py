"""The page on which a reader sets fluids side by side, and the data that its script needs.

Each fluid has a small data script of its own, so that a choice of three reads three of them,
however large the catalogue is.
"""

from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import Any

from markupsafe import Markup

from isofolio.drawings.ions import Column, symbol
from isofolio.drawings.patterns import pattern_definitions
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.columns import (
    TALLEST,
    described,
    named_column,
    plasma_column,
    tallest_of,
)
from isofolio.pages.comparing import (
    ALL_LINES,
    GROUPS,
    NOT_COMPARED,
    SAID,
    WORDS,
    cell,
    plasma_text,
    said,
)
from isofolio.pages.comparisons import PLASMA_CHOICE, dilution_sentence
from isofolio.pages.fluid import role_words
from isofolio.pages.label import plasma_cited
from isofolio.pages.live import live
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.pages.scripts import data_script, entry_script, short
from isofolio.vocabulary.terms import FEWEST_COMPARED, MOST_COMPARED
from isofolio.wording.addresses import COMPARE, COMPARE_DATA, GALLERY, entry_address, fluid_data
from isofolio.wording.figures import typeset

# How much weaker than they are fluids may be drawn here, so that strong ones fit on one scale.
DRAWN_AT = (1, 5, 20, 100)


def compare_page(handbook: Handbook) -> Page:
    """The choice, and the ready-made comparisons, which need no script."""
    context = {
        "draft": DRAFT,
        "groups": _choices(handbook),
        "fewest": FEWEST_COMPARED,
        "most": MOST_COMPARED,
        "patterns": Markup(pattern_definitions()),
        "plasma_cited": plasma_cited(handbook),
        "ready": list(_ready_made(handbook)),
        "gallery": GALLERY,
    }
    return Page(
        path=COMPARE,
        title="Compare",
        description="Two to six fluids and plasma side by side: ion columns and every figure.",
        body=rendered("compare.html", COMPARE, context),
        scripts=("scripts/compare.js",),
    )


def _choices(handbook: Handbook) -> list[tuple[str, list[tuple[str, str]]]]:
    """The fluids by what they are, for the list to choose from."""
    groups: dict[str, list[tuple[str, str]]] = {}
    for fluid in handbook.fluids:
        option = (fluid.id, typeset(fluid.name))
        groups.setdefault(role_words(handbook, fluid), []).append(option)
    return [(role, sorted(options, key=lambda one: one[1])) for role, options in groups.items()]


def _ready_made(handbook: Handbook) -> Iterator[dict[str, str]]:
    for comparison in handbook.catalogue.comparisons.values():
        yield {
            "name": typeset(comparison.name),
            "address": entry_address("comparisons", comparison.id),
            "says": live(handbook, comparison.points[0]) if comparison.points else "",
        }


def compare_files(handbook: Handbook) -> Iterator[tuple[str, Callable[[], str]]]:
    """Path of every data script of the page, and what makes its text."""
    factors = cache(lambda: _factors(handbook))
    yield COMPARE_DATA, lambda: data_script("compare", _common_data(handbook, factors()))
    for fluid in handbook.fluids:
        yield fluid_data(fluid.id), partial(_fluid_script, handbook, fluid, factors)


def _fluid_script(handbook: Handbook, fluid: Fluid, factors: Callable[[], list[int]]) -> str:
    return entry_script("compared", fluid.id, _fluid_data(handbook, fluid, factors()))


def _factors(handbook: Handbook) -> list[int]:
    """The dilutions that some fluid of the catalogue needs, and all below them."""
    strongest = max((tallest_of(handbook, fluid.id) for fluid in handbook.fluids), default=0.0)
    needed = next((f for f in DRAWN_AT if strongest / f <= TALLEST), DRAWN_AT[-1])
    return [factor for factor in DRAWN_AT if factor <= needed]


def _common_data(handbook: Handbook, factors: list[int]) -> dict[str, Any]:
    return {
        "words": WORDS,
        "rows": [
            {"name": line.name, "group": group, "plasma": plasma_text(handbook, line)}
            for group, quantities in GROUPS
            for line in ALL_LINES
            if line.quantity in quantities
        ],
        "said": [question for _, question in SAID],
        "notCompared": NOT_COMPARED,
        "ways": [{"by": f, "sentence": dilution_sentence(f, plasma=True)} for f in factors],
        "plasma": {"name": PLASMA_CHOICE, "columns": {"1": _symbol(plasma_column(handbook), "p")}},
    }


def _fluid_data(handbook: Handbook, fluid: Fluid, factors: list[int]) -> dict[str, Any]:
    tallest = tallest_of(handbook, fluid.id)
    words = said(handbook, fluid)
    cells = [cell(handbook, fluid.id, line) for line in ALL_LINES]
    return {
        "name": typeset(fluid.name),
        "at": entry_address("fluids", fluid.id),
        "said": [words[key] for key, _ in SAID],
        "cells": [[one.text, short(one.number)] for one in cells],
        "columns": {
            str(factor): _symbol(named_column(handbook, fluid.id, factor), fluid.id)
            for factor in factors
            if tallest / factor <= TALLEST
        },
    }


def _symbol(column: Column, identifier: str) -> dict[str, Any]:
    drawn = symbol(column, identifier=f"column-{identifier}")
    return {
        "id": drawn.identifier,
        "width": short(drawn.width),
        "height": short(drawn.height),
        "top": short(drawn.top),
        "label": f"{column.title}: {described(column)}",
        "markup": drawn.markup,
    }
