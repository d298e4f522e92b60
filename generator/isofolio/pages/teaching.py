"""The index of teaching: tutorials, confusions, glossary, and what else an educator prints."""

from typing import Any

from isofolio.handbook import Handbook
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.pages.tutorials import LICENCE, TUTORIALS, tutorial_address
from isofolio.wording.addresses import (
    COMPARE,
    CONFUSIONS,
    GALLERY,
    GLOSSARY,
    PRACTICE_LABELS,
    SELF_TEST,
    TEACHING,
    WORKSHEETS,
)

# What else there is to teach with: label, address, what it is.
MORE = (
    ("Self-test", SELF_TEST, "questions computed from the catalogue, with an answer sheet"),
    ("Practice labels", PRACTICE_LABELS, "drawn labels to read, with and without answers"),
    ("Worksheets", WORKSHEETS, "sums with the reader's own figures, formula and caution beside"),
    ("Compare", COMPARE, "two to six fluids side by side, chosen by you or ready made"),
    ("Gallery", GALLERY, "drawings and charts for slides"),
)


def teaching_page(handbook: Handbook) -> Page:
    """Where an educator starts."""
    context: dict[str, Any] = {
        "draft": DRAFT,
        "tutorials": [(tutorial, tutorial_address(tutorial.id)) for tutorial in TUTORIALS],
        "confusions": CONFUSIONS,
        "confusion_count": len(handbook.catalogue.confusions),
        "glossary": GLOSSARY,
        "term_count": len(handbook.catalogue.glossary),
        "more": MORE,
        "licence": LICENCE,
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=TEACHING,
        title="Teaching",
        description="Teaching units with live figures, confusions, and a glossary.",
        body=rendered("teaching.html", TEACHING, context),
    )
