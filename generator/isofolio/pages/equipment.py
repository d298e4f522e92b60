"""Equipment: what a fluid hangs from, drawn and told part by part."""

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from isofolio.drawings.equipment import EQUIPMENT_DRAWINGS
from isofolio.entries.equipment import Equipment, Need
from isofolio.entries.fluids import Fluid
from isofolio.entries.records import Note
from isofolio.findings.conditions import Subject
from isofolio.findings.equipment import needed, needs
from isofolio.handbook import Handbook
from isofolio.pages.citations import Cited, cited
from isofolio.pages.page import Page, rendered
from isofolio.pages.situations import published_table
from isofolio.pages.stamp import stamp_line
from isofolio.pages.worksheets import worksheets_named
from isofolio.vocabulary.terms import EQUIPMENT_KINDS
from isofolio.wording.addresses import ALL_FLUIDS, EQUIPMENT, entry_address
from isofolio.wording.figures import typeset

# What is taken up first: the container, the set on it, down to the vein; the checks stand last.
HANGING = ("container", "set", "filter", "connector", "cannula", "central access", "label")
MOST_LISTED = 24


def equipment_page(handbook: Handbook) -> Page:
    """The list of equipment."""
    entries = handbook.catalogue.equipment.values()
    groups = [
        (kind, [_link(one) for one in entries if one.kind == kind]) for kind in EQUIPMENT_KINDS
    ]
    return Page(
        path=EQUIPMENT,
        title="Equipment",
        description="What a fluid hangs from: sets, connectors, filters, cannulae, containers.",
        body=rendered("equipment.html", EQUIPMENT, {"groups": groups}),
    )


def equipment_context(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    """What the page of a fluid says of equipment: each piece that it needs, and why."""
    found = needed(handbook.catalogue, _subject(handbook, fluid))
    pieces = sorted(
        (handbook.catalogue.equipment[identifier] for identifier in found),
        key=lambda one: HANGING.index(one.kind),
    )
    return {"equipment": [_link(one) | {"why": _why(handbook, found[one.id])} for one in pieces]}


def _subject(handbook: Handbook, fluid: Fluid) -> Subject:
    return Subject(fluid, handbook.catalogue, handbook.measures)


def _why(handbook: Handbook, reasons: Sequence[Need]) -> list[tuple[str, Cited]]:
    return [(typeset(need.why), cited(need.cite, handbook.catalogue)) for need in reasons]


def _needing(handbook: Handbook, one: Equipment) -> list[dict[str, Any]]:
    """Each reason to need a piece, with its fluids; a long list is told by its number."""
    if not one.needed_by:
        return []
    found = [(fluid, needs(one, _subject(handbook, fluid))) for fluid in handbook.fluids]
    groups = []
    for need in one.needed_by:
        fluids = [fluid for fluid, reasons in found if need in reasons]
        links = [(typeset(f.name), entry_address("fluids", f.id)) for f in fluids]
        many = len(links) if len(links) > MOST_LISTED else 0
        why, backing = _why(handbook, [need])[0]
        groups.append({"why": why, "cited": backing, "links": links, "many": many})
    return [group for group in groups if group["links"]]


def _link(one: Equipment) -> dict[str, str]:
    return {
        "name": one.name,
        "address": entry_address("equipment", one.id),
        "summary": typeset(one.summary),
    }


def _notes(handbook: Handbook, notes: Sequence[Note]) -> list[tuple[str, Cited]]:
    return [(typeset(note.text), cited(note.cite, handbook.catalogue)) for note in notes]


def piece_page(handbook: Handbook, one: Equipment) -> Page:
    """The page of one piece of equipment."""
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
        "needing": _needing(handbook, one),
        "all_fluids": ALL_FLUIDS,
        "worksheets": worksheets_named(one.worksheets),
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
