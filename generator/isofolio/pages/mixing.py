"""Mixing in sentences, drug first: the list from either side, and a page a pair."""

from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.entries.mixing import Mixing
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.page import Page, rendered
from isofolio.pages.stamp import stamp_line
from isofolio.vocabulary.terms import MIXING_KINDS
from isofolio.wording.addresses import MIXING, entry_address
from isofolio.wording.figures import typeset

NOT_LOOKED_UP = "Not looked up: ask pharmacy, or read the current monograph."
# What stands below the pairs that were found for a drug, a fluid, or the two.
REST = (
    "Each holds for the way in which the two met there, and for no other. Read its page for what "
    "was tested and what to use instead; ask pharmacy."
)

MODES = {
    "same bag": "in the same bag, for hours",
    "same line": "in the same line, for minutes",
    "same vein after a flush": "in the same vein, one after the other with a flush",
    "sorption": "taken up by the plastic of bag and set",
    "diluent": "what the drug is first put into",
}


def pairs(handbook: Handbook) -> list[Mixing]:
    """Every entry, in the order of the list."""
    return sorted(handbook.catalogue.mixing.values(), key=lambda one: (one.first, one.id))


def mixing_page(handbook: Handbook) -> Page:
    """The list of pairs."""
    rows = {entry.id: _row(entry) for entry in pairs(handbook)}
    context = {
        "groups": [
            (kind, [row for row in rows.values() if row["kind"] == kind]) for kind in MIXING_KINDS
        ],
        "by_fluid": [
            {
                "id": fluid.id,
                "name": typeset(fluid.name),
                "address": entry_address("fluids", fluid.id, "mixing"),
                "rows": [rows[entry.id] for entry in handbook.mixing[fluid.id]],
            }
            for fluid in handbook.fluids
        ],
        "drugs": sorted({row["first"] for row in rows.values()}, key=str.lower),
        "modes": MODES,
        "blank": NOT_LOOKED_UP,
        "rest": REST,
    }
    return Page(
        path=MIXING,
        title="Mixing",
        description="What was found when two of them met, who tested it, what to use instead.",
        body=rendered("mixing.html", MIXING, context),
        scripts=("scripts/joining.js",),
    )


def mixing_context(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    """What the page of a fluid shows of mixing: the entries that speak of it."""
    return {
        "mixing": [_row(entry) for entry in handbook.mixing[fluid.id]],
        "mixing_blank": NOT_LOOKED_UP,
    }


def _row(entry: Mixing) -> dict[str, Any]:
    return {
        "id": entry.id,
        "name": entry.name,
        "first": entry.first,
        "second": entry.second,
        "kind": entry.kind,
        "mode": entry.mode,
        "finding": entry.finding,
        "disagree": bool(entry.disagree),
        "told": _told(entry),
        "address": entry_address("mixing", entry.id),
    }


def _told(entry: Mixing) -> str:
    """What was found, in which way they met, and that sources disagree where they do."""
    disagree = "; sources disagree" if entry.disagree else ""
    return f"{entry.finding} ({MODES[entry.mode]}){disagree}"


def pair_page(handbook: Handbook, entry: Mixing) -> Page:
    """The page of one pair."""
    path = entry_address("mixing", entry.id)
    catalogue = handbook.catalogue
    fluids = [f for f in handbook.fluids if any(e.id == entry.id for e in handbook.mixing[f.id])]
    context = {
        "row": _row(entry),
        "mode_words": MODES[entry.mode],
        "what_happens": typeset(entry.what_happens),
        "tested": typeset(entry.tested or ""),
        "instead": typeset(entry.instead),
        "cites": [cited(one, catalogue) for one in entry.cites],
        "disagree": [(typeset(v.text), cited(v.cite, catalogue)) for v in entry.disagree],
        "note": typeset(entry.note or ""),
        "fluids": [(typeset(f.name), entry_address("fluids", f.id)) for f in fluids],
        "draft": stamp_line(entry),
    }
    return Page(
        path=path,
        title=entry.name,
        description=f"{entry.name}: {entry.finding}, {MODES[entry.mode]}.",
        body=rendered("mixing_entry.html", path, context),
        crumbs=(("Mixing", MIXING),),
    )
