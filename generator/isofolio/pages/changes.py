"""What changed: the dated lines of the catalogue, newest first."""

from itertools import groupby
from typing import Any

from isofolio.entries.lists import Change
from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.pages.places import places
from isofolio.wording.addresses import CHANGES, change_anchor


def changes_page(handbook: Handbook) -> Page:
    """Every dated line, a heading a day, each line at an anchor of its own."""
    days = [
        (day, [_line(handbook, change) for change in changes])
        for day, changes in groupby(handbook.changes, lambda change: change.on)
    ]
    return Page(
        path=CHANGES,
        title="What changed",
        description="What changed in the catalogue, newest first.",
        body=rendered("changes.html", CHANGES, {"days": days, "digest": handbook.digest}),
    )


def _line(handbook: Handbook, change: Change) -> dict[str, Any]:
    anchor = change_anchor(change.on, change.text)
    return {"anchor": anchor, "text": change.text, "pages": places(handbook, change.pages)}
