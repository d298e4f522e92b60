"""Write every figure as data."""

import sys
from pathlib import Path

import click

from isofolio.commands.places import Places, fail, open_or_end, with_places


@click.command()
@click.argument("form", type=click.Choice(["json", "csv"]))
@click.option("--out", type=click.Path(path_type=Path), help="A file; without it, the terminal.")
@with_places
def export(places: Places, form: str, out: Path | None) -> None:
    """Write every figure as data."""
    from isofolio.exports.csv_text import csv_export
    from isofolio.exports.json_text import json_export

    handbook = open_or_end(places, "Nothing was exported")
    text = json_export(handbook) if form == "json" else csv_export(handbook)
    if out is None:
        sys.stdout.buffer.write(text.encode())
        return
    try:
        out.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        fail(f"{out} cannot be written ({error.strerror}). Name another file with --out.")
    click.echo(f"Written to {out}.")
