"""What is said on wards and is not so: each with a figure that the handbook computes."""

from typing import Any

from isofolio.entries.teaching import Confusion
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.live import live
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.pages.places import places
from isofolio.pages.tutorials import CRUMBS
from isofolio.wording.addresses import CONFUSIONS, entry_address
from isofolio.wording.figures import typeset


def confusions_page(handbook: Handbook) -> Page:
    """All confusions on one page; the anchor of each is its id."""
    ordered = sorted(handbook.catalogue.confusions.values(), key=lambda one: one.name.casefold())
    context: dict[str, Any] = {
        "draft": DRAFT,
        "confusions": [_row(handbook, confusion) for confusion in ordered],
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=CONFUSIONS,
        title="Confusions",
        description="What is often said of intravenous fluids, what is true, and why it matters.",
        body=rendered("confusions.html", CONFUSIONS, context),
        crumbs=CRUMBS,
    )


def _row(handbook: Handbook, confusion: Confusion) -> dict[str, Any]:
    fluids = handbook.catalogue.fluids
    shown = [(typeset(fluids[one].name), entry_address("fluids", one)) for one in confusion.see]
    return {
        "id": confusion.id,
        "name": typeset(confusion.name),
        "said": live(handbook, confusion.said),
        "truth": live(handbook, confusion.truth),
        "why": live(handbook, confusion.why),
        "cited": cited(confusion.cite, handbook.catalogue),
        "see": shown + places(handbook, confusion.pages),
    }
