"""The schemas that an editor's completion reads."""

import sys
from pathlib import Path

import click

from isofolio.commands.places import Places, fail, with_places
from isofolio.commands.writing import write_whole
from isofolio.vocabulary.exits import CATALOGUE_FAULT


@click.command()
@click.option("--check", is_flag=True, help="Write nothing; exit 1 where a schema is stale.")
@with_places
def schema(places: Places, check: bool) -> None:
    """Write the schema of every kind of entry, for an editor's completion."""
    from isofolio.entries.schema import SCHEMAS, schemas

    folder = places.catalogue / SCHEMAS
    wanted = {folder / name: text.encode() for name, text in schemas()}
    stale = [path for path, content in wanted.items() if _bytes(path) != content]
    gone = sorted(set(folder.glob("*.json")) - set(wanted))
    if check:
        _say_stale([*stale, *gone])
        return
    _renew(folder, {path: wanted[path] for path in stale}, gone)
    click.echo(f"{len(wanted)} schemas in {folder}: {len(stale)} written, {len(gone)} removed.")


def _bytes(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _say_stale(paths: list[Path]) -> None:
    for path in paths:
        click.echo(f"stale: {path.parent.name}/{path.name}")
    if paths:
        click.echo("Run  isofolio schema  and commit what it writes.")
        sys.exit(CATALOGUE_FAULT)
    click.echo("Every schema is what the records say.")


def _renew(folder: Path, stale: dict[Path, bytes], gone: list[Path]) -> None:
    try:
        folder.mkdir(exist_ok=True)
        for path in gone:
            path.unlink()
    except OSError as error:
        fail(f"{error.filename}: {error.strerror}. Ask who owns the folder.")
    for path, content in stale.items():
        write_whole(path, content)
