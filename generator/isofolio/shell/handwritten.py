"""Hand-written pages: what the frame prints of each, and which of them are tutorials."""

from mkdocs.structure.pages import Page

from isofolio.entries.problems import Place, Problem
from isofolio.folio import SiteFile
from isofolio.pages.tutorials import CRUMBS, FOLDER, SCRIPTS, TUTORIAL_BY_ID
from isofolio.shell.frame import HOME


def described(page: Page) -> SiteFile:
    """A hand-written page, described as the handbook describes its own."""
    path = page.file.dest_uri
    tutorial = TUTORIAL_BY_ID.get(tutorial_of(page))
    title = tutorial.title if tutorial else str(page.title or path)
    above = CRUMBS if tutorial else (("Home", HOME),)
    return SiteFile(
        path=path,
        content="",
        title=title,
        description=tutorial.aim if tutorial else str(page.meta.get("description", "")),
        scripts=SCRIPTS if tutorial else (),
        crumbs=() if path == HOME else (*above, (title, path)),
    )


def tutorial_of(page: Page) -> str:
    """The id of the tutorial that a page is; empty for any other page."""
    folder, _, name = page.file.src_uri.rpartition("/")
    return name.removesuffix(".md") if folder == FOLDER else ""


def unlisted(page: Page, file: str) -> list[Problem]:
    """A tutorial that no list of tutorials leads to."""
    if not tutorial_of(page) or tutorial_of(page) in TUTORIAL_BY_ID:
        return []
    fix = "Add a line for it to TUTORIALS in isofolio/pages/tutorials.py, or move the file."
    return [Problem(file, Place(1, 1), "this tutorial is not in the list of tutorials", fix)]
