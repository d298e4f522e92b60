"""Equipment: what a fluid hangs from, drawn and told part by part."""

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from isofolio.drawings.equipment import EQUIPMENT_DRAWINGS
from isofolio.entries.equipment import Equipment
from isofolio.entries.records import Fluid, Note
from isofolio.findings.conditions import Subject, holds
from isofolio.handbook import Handbook
from isofolio.pages.citations import Cited, cited
from isofolio.pages.page import Page, rendered
from isofolio.pages.situations import published_table
from isofolio.pages.stamp import stamp_line
from isofolio.vocabulary.terms import EQUIPMENT_KINDS
from isofolio.wording.addresses import EQUIPMENT, entry_address
from isofolio.wording.figures import typeset


def equipment_pages(handbook: Handbook) -> list[Page]:
    """The list of equipment, and a page for each."""
    entries = list(handbook.catalogue.equipment.values())
    groups = [
        (kind, [_link(one) for one in entries if one.kind == kind]) for kind in EQUIPMENT_KINDS
    ]
    index = Page(
        path=EQUIPMENT,
        title="Equipment",
        description="What a fluid hangs from: sets, connectors, filters, cannulae, containers.",
        body=rendered("equipment.html", EQUIPMENT, {"groups": groups}),
    )
    return [index, *(_page(handbook, one) for one in entries)]


def is_needed(handbook: Handbook, one: Equipment, fluid: Fluid) -> bool:
    """Whether a fluid needs a piece: every condition holds; no condition, no fluid."""
    subject = Subject(fluid, handbook.catalogue, handbook.measures)
    return bool(one.needed_by) and all(holds(c, subject) for c in one.needed_by)


def equipment_context(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    """What the page of a fluid says of equipment."""
    entries = handbook.catalogue.equipment.values()
    return {"equipment": [_link(one) for one in entries if is_needed(handbook, one, fluid)]}


def _link(one: Equipment) -> dict[str, str]:
    return {
        "name": one.name,
        "address": entry_address("equipment", one.id),
        "summary": typeset(one.summary),
    }


def _notes(handbook: Handbook, notes: Sequence[Note]) -> list[tuple[str, Cited]]:
    return [(typeset(note.text), cited(note.cite, handbook.catalogue)) for note in notes]


def _page(handbook: Handbook, one: Equipment) -> Page:
    path = entry_address("equipment", one.id)
    catalogue = handbook.catalogue
    context = {
        "one": _link(one),
        "drawing": Markup(EQUIPMENT_DRAWINGS[one.drawing]()),
        "parts": [
            (part.number, part.name, typeset(part.text), cited(part.cite, catalogue))
            for part in one.parts
        ],
        "how": _notes(handbook, one.how),
        "facts": _notes(handbook, one.facts),
        "disagree": [(typeset(v.text), cited(v.cite, catalogue)) for v in one.disagree],
        "goes_wrong": _notes(handbook, one.goes_wrong),
        "figures": [published_table(handbook, table) for table in one.figures],
        "fluids": [
            (typeset(fluid.name), entry_address("fluids", fluid.id))
            for fluid in handbook.fluids
            if is_needed(handbook, one, fluid)
        ],
        "see": [_link(catalogue.equipment[other]) for other in one.see],
        "draft": stamp_line(one),
    }
    return Page(
        path=path,
        title=one.name,
        description=one.summary,
        body=rendered("equipment_entry.html", path, context),
        crumbs=(("Equipment", EQUIPMENT),),
    )
