"""Read the whole catalogue and say what is wrong with it."""

import sys
from datetime import date
from typing import TYPE_CHECKING

import click

from isofolio.commands.places import CATALOGUE_FAULT, Places, fail, need_entries, with_places

if TYPE_CHECKING:
    from isofolio.entries.problems import Problem
    from isofolio.entries.records import Fluid


@click.command()
@click.option("--as-of", metavar="DATE", help="Also name the stamps that are due by this date.")
@with_places
def check(places: Places, as_of: str | None) -> None:
    """Read the whole catalogue and name every problem, with its line and its remedy."""
    from isofolio.handbook import check_catalogue

    if as_of is not None and not _is_date(as_of):
        fail(f'"{as_of}" is not a date. Write it as in 2026-11-25.')
    need_entries(places.catalogue)
    reading, problems = check_catalogue(places.catalogue)
    for problem in problems:
        click.echo(f"{problem.text()}\n")
    for notice in reading.notices:
        click.echo(f"notice: {notice.file}: {notice.message}. {notice.fix}")
    fluids = list(reading.catalogue.fluids.values())
    if as_of is not None:
        _say_due(fluids, as_of)
    click.echo(f"{len(reading.trees)} files, {len(fluids)} fluids, {_count(problems)}.")
    sys.exit(CATALOGUE_FAULT if problems else 0)


def _count(problems: tuple["Problem", ...]) -> str:
    return "1 problem" if len(problems) == 1 else f"{len(problems)} problems"


def _is_date(text: str) -> bool:
    """Whether a text is a date as catalogues write it: dates of that form compare as texts."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _say_due(fluids: list["Fluid"], as_of: str) -> None:
    for fluid in fluids:
        if fluid.review.due is not None and fluid.review.due <= as_of:
            click.echo(f"due: fluids/{fluid.id}.yml was to be reviewed by {fluid.review.due}")
