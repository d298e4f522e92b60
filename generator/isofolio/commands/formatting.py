"""Put entries in order, so that order never fails a review."""

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from isofolio.commands.places import Places, fail, need_entries, with_places
from isofolio.commands.writing import write_whole
from isofolio.vocabulary.exits import CATALOGUE_FAULT


@click.command()
@click.option("--check", is_flag=True, help="Write nothing; exit 1 where a file is out of order.")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path), metavar="[FILE...]")
@with_places
def fmt(places: Places, check: bool, files: tuple[Path, ...]) -> None:
    """Put keys, spaces, quotes and line ends of entries in order; without FILE, of all."""
    need_entries(places.catalogue)
    chosen = list(_chosen(places.catalogue, files))
    changed, faults = _formatted(chosen)
    for path, content in {} if check else changed.items():
        write_whole(path, content)
    for path in changed:
        click.echo(f"{'out of order' if check else 'put in order'}: {_shown(places, path)}")
    for fault in faults:
        click.echo(f"{fault}\n", err=True)
    click.echo(f"{_count(len(chosen))} looked at, {_outcome(len(changed), check)}")
    sys.exit(CATALOGUE_FAULT if faults or (check and changed) else 0)


def _chosen(catalogue: Path, files: tuple[Path, ...]) -> Iterator[tuple[str, Path]]:
    """The files to look at, with their place in the catalogue; ends the run at one outside it."""
    from isofolio.entries.folder import files_in

    if not files:
        yield from files_in(catalogue)
    for path in files:
        if not path.is_file():
            fail(f"There is no file {path}. Nothing was written.")
        if catalogue.resolve() not in path.resolve().parents:
            fail(f"{path} is no file of {catalogue}. Nothing was written.")
        yield path.resolve().relative_to(catalogue.resolve()).as_posix(), path


def _formatted(files: list[tuple[str, Path]]) -> tuple[dict[Path, bytes], list[str]]:
    """What is to be written, by file; and what cannot be read."""
    from isofolio.entries.formatting import FormatError, formatted

    changed: dict[Path, bytes] = {}
    faults = []
    for file, path in files:
        try:
            before = path.read_bytes()
            after = formatted(before, file)
        except FormatError as error:
            faults.append(str(error))
        except OSError as error:
            faults.append(f"{file}: {error.strerror}. It was left as it is.")
        else:
            changed |= {path: after} if after != before else {}
    return changed, faults


def _shown(places: Places, path: Path) -> str:
    return path.resolve().relative_to(places.catalogue.resolve()).as_posix()


def _count(number: int) -> str:
    return "1 file" if number == 1 else f"{number} files"


def _outcome(changed: int, check: bool) -> str:
    if not changed:
        return "none out of order."
    return f"{_count(changed)} " + ("out of order: run  isofolio fmt" if check else "put in order.")
