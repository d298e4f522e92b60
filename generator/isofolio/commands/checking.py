"""Read the whole catalogue and say what is wrong with it."""

import sys
from typing import TYPE_CHECKING

import click

from isofolio.commands.places import Places, need_entries, with_places
from isofolio.commands.reviewing import need_date
from isofolio.vocabulary.exits import CATALOGUE_FAULT

if TYPE_CHECKING:
    from isofolio.entries.problems import Problem
    from isofolio.entries.reading import Catalogue


@click.command()
@click.option("--as-of", metavar="DATE", help="Also name the stamps that are due by this date.")
@with_places
def check(places: Places, as_of: str | None) -> None:
    """Read the whole catalogue and name every problem, with its line and its remedy."""
    from isofolio.handbook import check_catalogue

    if as_of is not None:
        need_date(as_of)
    need_entries(places.catalogue)
    reading, problems = check_catalogue(places.catalogue)
    for problem in problems:
        click.echo(f"{problem.text()}\n")
    for notice in reading.notices:
        click.echo(f"notice: {notice.file}: {notice.message}. {notice.fix}")
    if as_of is not None:
        _say_due(reading.catalogue, as_of)
    click.echo(
        f"{len(reading.trees)} files, {len(reading.catalogue.fluids)} fluids, {_count(problems)}."
    )
    sys.exit(CATALOGUE_FAULT if problems else 0)


def _count(problems: tuple["Problem", ...]) -> str:
    return "1 problem" if len(problems) == 1 else f"{len(problems)} problems"


def _say_due(catalogue: "Catalogue", as_of: str) -> None:
    from isofolio.review.reviews import reviewed

    for one in reviewed(catalogue):
        due = one.stamp.due
        if due is not None and due <= as_of:
            click.echo(f"due: {one.kind}/{one.id}.yml was to be reviewed by {due}")
