"""What helps to edit an entry."""

import click

from isofolio.commands.places import Places, fail, with_places


@click.command()
@click.argument("kind", type=click.Choice(["fluid", "stock"]))
@click.argument("identifier", metavar="ID")
@with_places
def new(places: Places, kind: str, identifier: str) -> None:
    """Write a commented entry to start from: a fluid, or the stock of a hospital."""
    from isofolio.entries.template import NewEntryError, write_new

    try:
        path = write_new(places.catalogue, kind, identifier)
    except NewEntryError as error:
        fail(str(error))
    click.echo(f"Written to {path}. Fill it in, then run  isofolio check.")
