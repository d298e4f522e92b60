"""Write the handbook as data."""

import sys
from pathlib import Path

import click

from isofolio.commands.places import Places, fail, open_or_end, with_places
from isofolio.vocabulary.exports import EXPORT_WORDS


@click.command()
@click.argument("form", type=click.Choice(EXPORT_WORDS))
@click.option("--out", type=click.Path(path_type=Path), help="A file; without it, the terminal.")
@click.option("--stock", metavar="HOSPITAL", help="As the stock of one hospital has it.")
@with_places
def export(places: Places, form: str, out: Path | None, stock: str | None) -> None:
    """Write the handbook as data: the same bytes as on the Downloads page."""
    from isofolio.exports.writers import export_bytes

    handbook = open_or_end(places, "Nothing was exported", stock)
    data = export_bytes(handbook, form)
    if out is None and form == "xlsx" and sys.stdout.isatty():
        fail("A workbook is no text for a terminal. Name a file with --out FILE.xlsx.")
    if out is None:
        sys.stdout.buffer.write(data)
        return
    try:
        out.write_bytes(data)
    except OSError as error:
        fail(f"{out} cannot be written ({error.strerror}). Name another file with --out.")
    click.echo(f"Written to {out}.")
