"""Situations: what is replaced, the fluids side by side, who says what, when to call."""

from collections.abc import Sequence
from typing import Any

from isofolio.entries.situations import Guidance, PublishedTable, SideBySide, Situation
from isofolio.findings.side_by_side import VOLUME, rows_of, unit_of
from isofolio.handbook import Handbook
from isofolio.measures.values import Value
from isofolio.pages.citations import cited
from isofolio.pages.page import Page, rendered
from isofolio.pages.stamp import stamp_line
from isofolio.pages.worksheets import worksheets_named
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.addresses import SITUATIONS, entry_address
from isofolio.wording.figures import amount, rounded, typeset

LOCAL = "local trigger, to be set"


def situations_page(handbook: Handbook) -> Page:
    """The list of situations."""
    situations = handbook.catalogue.situations.values()
    ordered = sorted(situations, key=lambda one: (not one.emergency, one.name))
    context = {"rows": [_link(one) for one in ordered]}
    return Page(
        path=SITUATIONS,
        title="Situations",
        description="What a fluid is reached for: what is replaced, and the fluids side by side.",
        body=rendered("situations.html", SITUATIONS, context),
    )


def emergencies(handbook: Handbook) -> list[tuple[str, str, str]]:
    """The emergency pages: name, address, summary."""
    return [
        (one.name, entry_address("situations", one.id), typeset(one.summary))
        for one in handbook.catalogue.situations.values()
        if one.emergency
    ]


def _link(one: Situation) -> dict[str, Any]:
    return {
        "name": one.name,
        "address": entry_address("situations", one.id),
        "summary": typeset(one.summary),
        "emergency": one.emergency,
    }


def situation_page(handbook: Handbook, one: Situation) -> Page:
    """The page of one situation."""
    path = entry_address("situations", one.id)
    catalogue = handbook.catalogue
    listing = [f for f in handbook.fluids if one.id in f.situations]
    context = {
        "one": _link(one),
        "first": typeset(one.first or ""),
        "replaced": typeset(one.replaced or ""),
        "fluids": [
            (
                typeset(catalogue.fluids[c.fluid].name),
                entry_address("fluids", c.fluid),
                typeset(c.why),
            )
            for c in one.fluids
        ],
        "trap": (typeset(one.trap.text), cited(one.trap.cite, catalogue)) if one.trap else None,
        "compared": [_compared(handbook, one, asked) for asked in one.compare],
        "tables": [published_table(handbook, table) for table in one.tables],
        "guidance": _guidance(handbook, one.guidance),
        "disagree": _guidance(handbook, one.disagree),
        "call": [typeset(text) for text in one.call],
        "worksheets": worksheets_named(one.worksheets),
        "local": LOCAL,
        "listing": [(typeset(f.name), entry_address("fluids", f.id)) for f in listing],
        "draft": stamp_line(one),
    }
    return Page(
        path=path,
        title=one.name,
        description=one.summary,
        body=rendered("situation.html", path, context),
        crumbs=(("Situations", SITUATIONS),),
    )


def published_table(handbook: Handbook, table: PublishedTable) -> dict[str, Any]:
    """A table of published figures, each row with its source."""
    return {
        "caption": typeset(table.caption),
        "columns": [typeset(column) for column in table.columns],
        "rows": [
            {
                "cells": [typeset(cell) for cell in row.cells],
                "cited": cited(row.cite, handbook.catalogue),
            }
            for row in table.rows
        ],
    }


def _guidance(handbook: Handbook, texts: Sequence[Guidance]) -> list[dict[str, Any]]:
    return [
        {
            "text": typeset(one.text),
            "year": one.year or "",
            "cited": cited(one.cite, handbook.catalogue),
        }
        for one in texts
    ]


def _compared(handbook: Handbook, one: Situation, asked: SideBySide) -> dict[str, Any]:
    candidates = [str(c.fluid) for c in one.fluids]
    rows = rows_of(asked, candidates, handbook.catalogue, handbook.measures)
    columns = [_heading(quantity) for quantity in asked.show]
    return {
        "question": typeset(asked.question),
        "columns": columns,
        "cited": cited(asked.cite, handbook.catalogue) if asked.cite else None,
        "rows": [
            {
                "name": typeset(row.fluid.name),
                "address": entry_address("fluids", row.fluid.id),
                "cells": _cells(asked, row.volume, dict(row.figures)),
            }
            for row in rows
        ],
    }


def _heading(quantity: str) -> tuple[str, str, str]:
    """Name of a column, its unit, and the symbol that stands for the name where room is short."""
    if quantity == VOLUME:
        return "volume", "mL", ""
    known = QUANTITY_BY_ID[quantity]
    return known.label, unit_of(quantity), known.symbol


def _cells(asked: SideBySide, volume: Value, figures: dict[str, Value]) -> list[str]:
    return [
        _shown(volume, VOLUME) if quantity == VOLUME else _shown(figures[quantity], quantity)
        for quantity in asked.show
    ]


def _shown(value: Value, quantity: str) -> str:
    if value.number is None:
        return value.reason
    if quantity != VOLUME and QUANTITY_BY_ID[quantity].unit == "1":
        return rounded(value.number, QUANTITY_BY_ID[quantity].decimals)
    return amount(value.number) if value.number else "none"
