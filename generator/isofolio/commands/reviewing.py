"""Review stamps: writing one down, and listing all."""

import csv
import io
from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING

import click

from isofolio.commands.places import Places, fail, need_entries, with_places
from isofolio.commands.writing import write_whole
from isofolio.vocabulary.exits import CATALOGUE_FAULT
from isofolio.vocabulary.terms import REVIEW_STATES

if TYPE_CHECKING:
    from isofolio.entries.reading import Reading


def need_date(text: str) -> str:
    """A date as catalogues write it: dates of that form compare as texts. Ends the run at another.

    >>> need_date("2026-11-25")
    '2026-11-25'
    """
    try:
        known = date.fromisoformat(text).isoformat() == text
    except ValueError:
        known = False
    if not known:
        fail(f'"{text}" is not a date. Write it as in 2026-11-25.')
    return text


@click.command()
@click.argument("identifier", metavar="ID")
@click.option("--state", required=True, type=click.Choice(REVIEW_STATES), help="What it becomes.")
@click.option("--by", metavar="WHO", help="Who checked it: a role or initials.")
@click.option("--second", metavar="WHO", help="Who checked it again: another person.")
@click.option("--on", metavar="DATE", help="The day of the check.")
@click.option("--due", metavar="DATE", help="The day by which it is to be checked again.")
@with_places
def review(places: Places, identifier: str, **options: str | None) -> None:
    """Write down that somebody checked an entry as it is now."""
    from isofolio.review.stamping import StampError, entry_to_stamp, new_stamp, with_stamp

    told = {name: text for name, text in options.items() if text is not None}
    for name in ("on", "due"):
        if name in told:
            need_date(told[name])
    reading = _sound(places)
    try:
        file, record = entry_to_stamp(reading.catalogue, identifier)
        stamp = new_stamp(record, told)
        path = places.catalogue / file
        content = with_stamp(path.read_bytes(), stamp)
    except StampError as error:
        fail(f"{error} Nothing was written.")
    write_whole(path, content)
    click.echo(f"{file} is {stamp.state}. Run  isofolio changes  and open a pull request.")


@click.command()
@click.option("--as-of", required=True, metavar="DATE", help="The day on which to judge them.")
@click.option("--form", type=click.Choice(["table", "csv"]), default="table", show_default=True)
@with_places
def reviews(places: Places, as_of: str, form: str) -> None:
    """List every review stamp: its state, who gave it, when it is due, whether it still counts."""
    from isofolio.exports.csv_text import inert
    from isofolio.review.reviews import COLUMNS, reviewed, row, summary

    need_date(as_of)
    entries = reviewed(_sound(places).catalogue)
    rows = [COLUMNS, *(row(one, as_of) for one in entries)]
    if form == "csv":
        click.echo(_csv([inert(text) for text in cells] for cells in rows), nl=False)
        return
    click.echo(_table(rows))
    click.echo(f"\nAs of {as_of}: {summary(entries, as_of)}")


def _sound(places: Places) -> "Reading":
    """The reading of a catalogue without problems: nobody signs for what does not hold."""
    from isofolio.handbook import check_catalogue

    need_entries(places.catalogue)
    reading, problems = check_catalogue(places.catalogue)
    if problems:
        texts = "\n\n".join(problem.text() for problem in problems)
        fail(f"{texts}\n\nMend the catalogue first.", CATALOGUE_FAULT)
    return reading


def _csv(rows: Iterable[list[str]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue()


def _table(rows: list[tuple[str, ...]]) -> str:
    """Columns under one another, without the names, which the ids already tell."""
    shown = [(*cells[:1], *cells[2:]) for cells in rows]
    widths = [max(map(len, column)) for column in zip(*shown, strict=True)]
    lines = ("  ".join(map(str.ljust, cells, widths)).rstrip() for cells in shown)
    return "\n".join(lines)
