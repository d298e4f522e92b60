"""Build the handbook, or show it while one edits."""

from pathlib import Path

import click

from isofolio.commands.places import Places, fail, need_entries, with_places


@click.command()
@click.option("--site-dir", type=click.Path(path_type=Path), help="Where the site goes.")
@click.option("--stock", metavar="HOSPITAL", help="Build for the stock of one hospital.")
@with_places
def build(places: Places, site_dir: Path | None, stock: str | None) -> None:
    """Build the handbook beside the old one, then put it in its place."""
    from isofolio.shell.building import BuildError, build_handbook

    need_entries(places.catalogue)
    try:
        live = build_handbook(places.project, places.catalogue, site_dir, stock)
    except BuildError as error:
        fail(str(error), error.code)
    click.echo(f"The handbook stands in {live}: open index.html there.")


@click.command()
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Where to listen.")
@with_places
def serve(places: Places, address: str) -> None:
    """Show the handbook while you edit; problems appear in the browser."""
    from isofolio.shell.building import BuildError, serve_handbook

    need_entries(places.catalogue)
    try:
        serve_handbook(places.project, places.catalogue, address)
    except BuildError as error:
        fail(str(error), error.code)
