"""The page of the worksheets: six forms, empty, each with its formula, source and caution."""

from typing import Any

from isofolio.handbook import Handbook
from isofolio.pages.citations import NO_SOURCE, SEEN, Cited
from isofolio.pages.page import Page, rendered
from isofolio.teaching.fields import Field, Sheet, plain
from isofolio.teaching.needs import Backing
from isofolio.teaching.sheets import POLICY, SHEETS, TEACHING_LINE
from isofolio.teaching.worksheets_data import fluids_for
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
    """The address of a worksheet, with the fluid that its first list is to show.

    >>> worksheet_address("contents", "glucose-5")
    'worksheets.html#contents=glucose-5'
    """
    return f"{WORKSHEETS}#{sheet}={fluid}" if fluid else f"{WORKSHEETS}#{sheet}"


def _sheet(handbook: Handbook, sheet: Sheet) -> dict[str, Any]:
    first = next((field.id for field in sheet.fields if field.kind == "fluid"), "")
    return {
        "id": sheet.id,
        "title": sheet.title,
        "does": sheet.does,
        "fields": [_field(handbook, sheet, field, field.id == first) for field in sheet.fields],
        "formula": sheet.formula,
        "backing": [_cited(handbook, backing) for backing in sheet.backing],
        "caution": sheet.caution,
    }


def _field(handbook: Handbook, sheet: Sheet, field: Field, linked: bool) -> dict[str, Any]:
    """linked: the options are anchors, so that a link to a sheet with a fluid leads somewhere."""
    if field.kind == "fluid":
        options = [
            {
                "value": fluid.id,
                "label": fluid.name,
                "anchor": f"{sheet.id}={fluid.id}" if linked else "",
            }
            for fluid in fluids_for(handbook, field.fluids)
        ]
    else:
        options = [{"value": value, "label": label, "anchor": ""} for value, label in field.options]
    return {
        "id": f"{sheet.id}-{field.id}",
        "label": field.label,
        "kind": field.kind,
        "unit": field.unit,
        "needed": field.needed,
        "options": options,
        "bounds": f"{plain(field.low)} to {plain(field.high)}",
    }


def _cited(handbook: Handbook, backing: Backing) -> Cited:
    """A backing as pages cite; a source that the catalogue does not hold is told without link."""
    linked = backing.source in handbook.catalogue.sources
    address = source_address(backing.source) if linked else ""
    seen = SEEN.get(backing.seen, "")
    return Cited(backing.text or NO_SOURCE, address, backing.at, seen, "")
