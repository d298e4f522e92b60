"""The downloads: all figures as data, and what a program that reads them may rely on."""

from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.vocabulary.exports import EXPORT_FORMS, POLICY, SCHEMA
from isofolio.vocabulary.purpose import PURPOSE
from isofolio.wording.addresses import CHANGES, DOWNLOADS, download_address

# The columns of the CSV file, for whoever reads it without this page's company.
CSV_COLUMNS = (
    ("id, name", "the fluid: its id never changes, its name may"),
    ("quantity, unit", "what is told, and in which unit; per litre unless the unit says otherwise"),
    ("value", "the figure with 12 significant digits; empty where unknown"),
    ("reason", "why there is no value"),
    ("low, high", "of an amount declared as a range or a bound; then value is empty"),
    ("review", "draft, checked or double-checked"),
    ("built_from", "digest of the catalogue and version of the program"),
)


def downloads_page(handbook: Handbook) -> Page:
    """The files a reader may take away."""
    files = [(download_address(form.file), form.label, form.holds) for form in EXPORT_FORMS]
    context = {
        "files": files,
        "date": handbook.date,
        "digest": handbook.digest,
        "purpose": PURPOSE,
        "columns": CSV_COLUMNS,
        "schema": SCHEMA,
        "policy": POLICY,
        "changes": CHANGES,
    }
    return Page(
        path=DOWNLOADS,
        title="Downloads",
        description="All figures of the handbook as data files.",
        body=rendered("downloads.html", DOWNLOADS, context),
    )
