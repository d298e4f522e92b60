"""The page of the worksheets: six forms, empty, each with its formula, source and caution."""

from collections.abc import Iterator, Sequence
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.citations import NO_SOURCE, SEEN, Cited
from isofolio.pages.page import Page, rendered
from isofolio.pages.tutorials import TUTORIAL_BY_ID, tutorial_address
from isofolio.teaching.fields import Field, Sheet, plain
from isofolio.teaching.needs import Backing
from isofolio.teaching.sheets import POLICY, SHEETS, TEACHING_LINE
from isofolio.teaching.worksheets_data import fluids_for, is_offered
from isofolio.wording.addresses import WORKSHEETS, source_address

DRAFT = "Draft: not yet checked by a pharmacist or doctor."


def worksheets_page(handbook: Handbook) -> Page:
    """All worksheets. Links may name a fluid: worksheets.html#contents=glucose-5."""
    context = {
        "sheets": [_sheet(handbook, sheet) for sheet in SHEETS],
        "teaching_line": TEACHING_LINE,
        "policy": POLICY,
        "draft": DRAFT,
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=WORKSHEETS,
        title="Worksheets",
        description="What a volume and a rate entered by the reader would deliver.",
        body=rendered("worksheets.html", WORKSHEETS, context),
        scripts=("scripts/worksheets-data.js", "scripts/worksheets.js"),
    )


def worksheet_address(sheet: str, fluid: str = "") -> str:
    """The address of a worksheet, with the fluid that its list is to show.

    >>> worksheet_address("contents", "glucose-5")
    'worksheets.html#contents=glucose-5'
    """
    return f"{WORKSHEETS}#{sheet}={fluid}" if fluid else f"{WORKSHEETS}#{sheet}"


def worksheets_for(handbook: Handbook, fluid: Fluid) -> list[tuple[str, str]]:
    """Title and address of every worksheet that offers a fluid, which the link then chooses."""
    return [
        (sheet.title, worksheet_address(sheet.id, fluid.id))
        for sheet in SHEETS
        if any(is_offered(handbook, fluid, field.fluids) for field in _lists(sheet))
    ]


def worksheets_named(chosen: Sequence[str]) -> list[tuple[str, str]]:
    """Title and address of some worksheets, no fluid chosen, in the order of the page.

    >>> worksheets_named(["drops"])
    [('Drops and pump rate', 'worksheets.html#drops')]
    """
    return [(sheet.title, worksheet_address(sheet.id)) for sheet in SHEETS if sheet.id in chosen]


def _lists(sheet: Sheet) -> list[Field]:
    return [field for field in sheet.fields if field.kind == "fluid"]


def _sheet(handbook: Handbook, sheet: Sheet) -> dict[str, Any]:
    return {
        "id": sheet.id,
        "title": sheet.title,
        "does": sheet.does,
        "fields": list(_fields(handbook, sheet)),
        "formula": sheet.formula,
        "backing": [_cited(handbook, backing) for backing in sheet.backing],
        "caution": sheet.caution,
        "lesson": TUTORIAL_BY_ID[sheet.lesson].title,
        "lesson_address": tutorial_address(sheet.lesson),
    }


def _fields(handbook: Handbook, sheet: Sheet) -> Iterator[dict[str, Any]]:
    """The questions; a link with a fluid leads to the first list that offers it."""
    led_to: set[str] = set()
    for field in sheet.fields:
        made = _field(handbook, field)
        for option in made["options"] if field.kind == "fluid" else ():
            if option["value"] not in led_to:
                option["anchor"] = f"{sheet.id}={option['value']}"
                led_to.add(option["value"])
        yield made | {"id": f"{sheet.id}-{field.id}"}


def _field(handbook: Handbook, field: Field) -> dict[str, Any]:
    options = list(field.options)
    if field.kind == "fluid":
        options = [(fluid.id, fluid.name) for fluid in fluids_for(handbook, field.fluids)]
    return {
        "label": field.label,
        "kind": field.kind,
        "unit": field.unit,
        "needed": field.needed,
        "options": [{"value": value, "label": label, "anchor": ""} for value, label in options],
        "bounds": f"{plain(field.low)} to {plain(field.high)}",
    }


def _cited(handbook: Handbook, backing: Backing) -> Cited:
    """A backing as pages cite; a source that the catalogue does not hold is told without link."""
    linked = backing.source in handbook.catalogue.sources
    address = source_address(backing.source) if linked else ""
    seen = SEEN.get(backing.seen, "")
    return Cited(backing.text or NO_SOURCE, address, backing.at, seen, "")
