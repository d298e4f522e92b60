"""Links from the entries that teach to other pages: words and address."""

from collections.abc import Sequence

from isofolio.handbook import Handbook
from isofolio.pages.tutorials import FOLDER, TUTORIAL_BY_ID
from isofolio.vocabulary.terms import CATALOGUE_FOLDERS
from isofolio.wording.addresses import page_address
from isofolio.wording.figures import typeset

Place = tuple[str, str]


def places(handbook: Handbook, pages: Sequence[str]) -> list[Place]:
    """Label and address of each page that an entry names."""
    return [(place_label(handbook, page), page_address(page)) for page in pages]


def place_label(handbook: Handbook, page: str) -> str:
    """How a page is called: the name of its entry, and the part of it that is meant."""
    path, _, anchor = page.partition("#")
    folder, _, identifier = path.partition("/")
    if folder == FOLDER:
        tutorial = TUTORIAL_BY_ID.get(identifier)
        return f"Tutorial: {tutorial.title}" if tutorial else path
    entries = getattr(handbook.catalogue, folder) if folder in CATALOGUE_FOLDERS else {}
    part = anchor.replace("-", " ")
    if identifier:
        name = entries[identifier].name if identifier in entries else path
        return typeset(f"{name}, {part}" if part else name)
    if anchor in entries:
        return typeset(entries[anchor].name)
    return f"{path.capitalize()}, {part}" if part else path.capitalize()
