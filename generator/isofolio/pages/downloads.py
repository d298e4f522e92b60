"""The downloads: all figures as data."""

from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.wording.addresses import DOWNLOADS

FILES = (
    ("downloads/isofolio.json", "JSON", "everything: contents, figures, reasons, sources"),
    ("downloads/isofolio.csv", "CSV", "a row a fluid and quantity, with unit and reason"),
)


def downloads_page(handbook: Handbook) -> Page:
    """The files a reader may take away."""
    context = {"files": FILES, "date": handbook.date, "digest": handbook.digest}
    return Page(
        path=DOWNLOADS,
        title="Downloads",
        description="All figures of the handbook as data files.",
        body=rendered("downloads.html", DOWNLOADS, context),
    )
