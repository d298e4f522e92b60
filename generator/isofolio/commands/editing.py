"""What helps to edit an entry."""

import click

from isofolio.commands.places import Places, fail, with_places


@click.command()
@click.argument("kind", type=click.Choice(["fluid"]))
@click.argument("identifier", metavar="ID")
@with_places
def new(places: Places, kind: str, identifier: str) -> None:
    """Write a commented entry to start from."""
    from isofolio.entries.template import NewEntryError, write_new_fluid

    del kind
    try:
        path = write_new_fluid(places.catalogue, identifier)
    except NewEntryError as error:
        fail(str(error))
    click.echo(f"Written to {path}. Fill it in, then run  isofolio check.")
