"""What a change of the catalogue does to every figure, word, warning and address."""

import re
import sys
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

import click

from isofolio.commands.places import Places, fail, need_entries, with_places
from isofolio.vocabulary.exits import CATALOGUE_FAULT, NOT_DOUBLE_CHECKED

if TYPE_CHECKING:
    from isofolio.review.comparison import Addresses, Comparison
    from isofolio.review.sides import Side

ANCHOR = re.compile(r'\sid="([^"]+)"')


@click.command()
@click.argument("base", metavar="BASE")
@click.argument("head", metavar="[HEAD]", required=False)
@click.option("--form", type=click.Choice(["markdown", "json"]), default="markdown")
@click.option("--out", type=click.Path(path_type=Path), help="A file; without it, the terminal.")
@with_places
def changes(places: Places, base: str, head: str | None, form: str, out: Path | None) -> None:
    """Say what a change does: two Git revisions or folders; HEAD is the working tree if left out.

    Exit 1: the new catalogue has problems. Exit 3: something that matters to safety changed and
    nobody has double-checked it since.
    """
    from isofolio.review.data import json_report
    from isofolio.review.report import report

    comparison = _compared(places, base, head)
    code = exit_code(comparison)
    text = json_report(comparison, code) if form == "json" else report(comparison)
    if out is None:
        sys.stdout.buffer.write(text.encode())
        sys.exit(code)
    try:
        out.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        fail(f"{out} cannot be written ({error.strerror}). Name another file with --out.")
    click.echo(f"Written to {out}.")
    sys.exit(code)


def exit_code(comparison: "Comparison") -> int:
    """0, or 1 for problems of the new side, or 3 for what nobody has double-checked."""
    if comparison.problems:
        return CATALOGUE_FAULT
    return NOT_DOUBLE_CHECKED if comparison.unchecked else 0


def _compared(places: Places, base: str, head: str | None) -> "Comparison":
    from isofolio.review.comparison import compare
    from isofolio.review.revisions import WORKING_TREE, Located, RevisionError, located
    from isofolio.review.sides import side_of

    need_entries(places.catalogue)
    with ExitStack() as stack:
        try:
            before = stack.enter_context(located(base, places.catalogue))
            after = Located(places.catalogue, WORKING_TREE)
            if head is not None:
                after = stack.enter_context(located(head, places.catalogue))
        except RevisionError as error:
            fail(str(error))
        sides = side_of(before.folder, before.label), side_of(after.folder, after.label)
    return compare(*sides, _addresses(*sides))


def _addresses(before: "Side", after: "Side") -> "tuple[Addresses, Addresses] | None":
    """The pages of both sides; None where they are alike or a page cannot be built."""
    if before.problems or after.problems or before.reading.digest == after.reading.digest:
        return None
    return _pages(before), _pages(after)


def _pages(side: "Side") -> "Addresses":
    """Every page of a side with its anchors: our own HTML, in which a quote is always an entity."""
    from isofolio.folio import pages_of
    from isofolio.handbook import handbook_of

    found = {}
    for file in pages_of(handbook_of(side.reading)):
        text = b"".join(file.made().pieces()).decode("utf-8")
        found[file.path] = frozenset(ANCHOR.findall(text))
    return found
