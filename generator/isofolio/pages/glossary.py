"""The glossary: every term with its text, its other names and what to read next."""

from typing import Any

from isofolio.entries.teaching import Term
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.live import live
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.pages.places import places
from isofolio.pages.tutorials import CRUMBS
from isofolio.wording.addresses import GLOSSARY
from isofolio.wording.figures import typeset


def glossary_page(handbook: Handbook) -> Page:
    """All terms, by name; the anchor of each is its id."""
    terms = sorted(handbook.catalogue.glossary.values(), key=lambda term: term.name.casefold())
    context: dict[str, Any] = {
        "draft": DRAFT,
        "terms": [_row(handbook, term) for term in terms],
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=GLOSSARY,
        title="Glossary",
        description="The words of this handbook, each in one or two sentences.",
        body=rendered("glossary.html", GLOSSARY, context),
        crumbs=CRUMBS,
    )


def _row(handbook: Handbook, term: Term) -> dict[str, Any]:
    return {
        "id": term.id,
        "name": typeset(term.name),
        "other_names": [typeset(name) for name in term.also_known_as],
        "text": live(handbook, term.text),
        "cited": cited(term.cite, handbook.catalogue),
        "see": [
            (handbook.catalogue.glossary[other].name, f"{GLOSSARY}#{other}") for other in term.see
        ],
        "pages": places(handbook, term.pages),
    }
