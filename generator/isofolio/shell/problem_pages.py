"""While a catalogue has problems, `serve` shows them wherever the editor's browser stands."""

from collections.abc import Iterable
from pathlib import Path

from isofolio.folio import FURTHER, NAVIGATION, SiteFile

TEMPLATE = "problems.html"


def headline(count: int) -> str:
    """The title of the page.

    >>> headline(1)
    'The catalogue has one problem'
    >>> headline(3)
    'The catalogue has 3 problems'
    """
    return f"The catalogue has {'one problem' if count == 1 else f'{count} problems'}"


def problem_pages(count: int, catalogue: Path, known: Iterable[str]) -> list[SiteFile]:
    """A page at every address a reader may stand on; the template lists the `count` problems.

    That is every address which a file name of the catalogue implies (sound or not), those of the
    navigation, and the `known` ones: pages of the last good build and hand-written pages.
    A tab on any other address would show "not found" and never reload.
    """
    entries = sorted(catalogue.glob("*/*.yml"))
    implied = [f"{entry.parent.name}/{entry.stem}.html" for entry in entries]
    shown = [address.partition("#")[0] for _, address in (*NAVIGATION, *FURTHER)]
    paths = sorted({"index.html", "404.html", *implied, *shown, *known})
    return [SiteFile(path=path, content="", title=headline(count)) for path in paths]
