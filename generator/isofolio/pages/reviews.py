"""The reviews: every entry with its stamp, drafts counted in words."""

from typing import Any

from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.review.reviews import Reviewed, reviewed, stamped_kinds
from isofolio.wording.addresses import CAUTIONS, CONFUSIONS, GLOSSARY, REVIEWS, entry_address
from isofolio.wording.figures import typeset

KINDS = {
    "fluids": "Fluids",
    "situations": "Situations",
    "cautions": "Cautions",
    "comparisons": "Comparisons",
    "mixing": "Mixing",
    "equipment": "Equipment",
    "stock": "Stock of a hospital",
    "glossary": "Glossary",
    "confusions": "Confusions",
}
# Kinds whose entries stand together on one page.
TOGETHER = {"cautions": CAUTIONS, "glossary": GLOSSARY, "confusions": CONFUSIONS}
NOBODY = "nobody yet"


def reviews_page(handbook: Handbook) -> Page:
    """Every entry that carries a stamp, kind by kind."""
    entries = reviewed(handbook.catalogue)
    groups = {kind: [one for one in entries if one.kind == kind] for kind in stamped_kinds()}
    context = {
        "said": _in_words(entries),
        "groups": [
            (kind, KINDS[kind], _in_words(listed), [_row(one) for one in listed])
            for kind, listed in groups.items()
            if listed
        ],
    }
    return Page(
        path=REVIEWS,
        title="Reviews",
        description="Which entries were checked, by whom, and when they are due again.",
        body=rendered("reviews.html", REVIEWS, context),
    )


def _in_words(entries: tuple[Reviewed, ...] | list[Reviewed]) -> str:
    """How many were checked, and how many not, in sentences."""
    drafts = sum(one.state == "draft" for one in entries)
    twice = sum(one.state == "double-checked" for one in entries)
    changed = sum(one.changed for one in entries)
    if drafts == len(entries):
        said = f"None of {drafts} has been checked by a pharmacist or doctor: all are drafts."
    else:
        once = len(entries) - drafts - twice
        said = f"Of {len(entries)}, {twice} were checked by two people, {once} by one; "
        said += f"{drafts} are drafts." if drafts else "none is a draft."
    return f"{said} {changed} changed since they were checked." if changed else said


def _row(one: Reviewed) -> dict[str, Any]:
    signed = one.state != "draft"
    return {
        "name": typeset(one.name),
        "address": _address(one),
        "state": "draft, changed since it was checked" if one.changed else one.state,
        "by": one.stamp.by if signed else NOBODY,
        "second": (one.stamp.second or NOBODY) if signed else "",
        "on": one.stamp.on if signed else "",
        "due": one.stamp.due if signed else "",
    }


def _address(one: Reviewed) -> str:
    """Where an entry is read; a hospital's stock has no page."""
    if one.kind == "stock":
        return ""
    together = TOGETHER.get(one.kind)
    return f"{together}#{one.id}" if together else entry_address(one.kind, one.id)
