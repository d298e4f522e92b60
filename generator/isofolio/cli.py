"""The command line. Exit codes: 0 good, 1 the catalogue has problems, 2 wrong use or machine."""

import io
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from isofolio import __version__

if TYPE_CHECKING:
    from isofolio.entries.problems import Problem
    from isofolio.entries.records import Fluid

PROJECT_MARK = "mkdocs.yml"
CATALOGUE_FAULT = 1
ENVIRONMENT_FAULT = 2


def fail(message: str, code: int = ENVIRONMENT_FAULT) -> NoReturn:
    """End with a sentence and an exit code; never with a traceback."""
    click.echo(message, err=True)
    sys.exit(code)


def find_project(start: Path) -> Path | None:
    """The nearest folder at or above `start` that holds mkdocs.yml and catalogue/."""
    for folder in (start, *start.parents):
        if (folder / PROJECT_MARK).is_file() and (folder / "catalogue").is_dir():
            return folder
    return None


@dataclass(frozen=True)
class Places:
    """Where this run works."""

    project: Path
    catalogue: Path


def find_places(project: Path | None, catalogue: Path | None) -> Places:
    """The folders that the options name or that stand here; ends the run where there are none."""
    project = project or find_project(Path.cwd())
    if project is None or not (project / PROJECT_MARK).is_file():
        fail(
            f"No project {'here' if project is None else f'in {project}'}: a project folder holds "
            "mkdocs.yml and catalogue/. Go to one, or name it with --project DIR."
        )
    chosen = catalogue or project / "catalogue"
    if not chosen.is_dir():
        fail(f"There is no catalogue folder at {chosen}. Name one with --catalogue DIR.")
    return Places(project, chosen)


def need_entries(catalogue: Path) -> None:
    """End the run where a folder is no catalogue: nothing wrong in nothing is no good news."""
    if not any(catalogue.glob("*/*.yml")):
        fail(f"{catalogue} holds no entry. Name the folder of a catalogue with --catalogue DIR.")


def with_places(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command its places when it runs: `--help` needs no project."""

    @click.pass_context
    @wraps(command)
    def run(context: click.Context, *arguments: Any, **options: Any) -> None:
        command(find_places(*context.obj), *arguments, **options)

    return run


def forgive_console() -> None:
    """A terminal that lacks a character shows its code in place of it, and nothing breaks off."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="isofolio")
@click.option("--project", type=click.Path(path_type=Path), help="The project folder.")
@click.option("--catalogue", type=click.Path(path_type=Path), help="Another catalogue folder.")
@click.pass_context
def main(context: click.Context, project: Path | None, catalogue: Path | None) -> None:
    """A reviewed catalogue of intravenous fluids becomes an offline handbook."""
    forgive_console()
    context.obj = (project, catalogue)


@main.command()
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
        click.echo(f"notice: {notice.file}: {notice.message} {notice.fix}")
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


@main.command()
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


@main.command()
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


@main.command()
@click.argument("form", type=click.Choice(["json", "csv"]))
@click.option("--out", type=click.Path(path_type=Path), help="A file; without it, the terminal.")
@with_places
def export(places: Places, form: str, out: Path | None) -> None:
    """Write every figure as data."""
    from isofolio.exports.csv_text import csv_export
    from isofolio.exports.json_text import json_export
    from isofolio.handbook import open_handbook

    need_entries(places.catalogue)
    opened = open_handbook(places.catalogue)
    if opened.handbook is None:
        texts = "\n\n".join(problem.text() for problem in opened.problems)
        fail(f"{texts}\n\nNothing was exported: mend the catalogue first.", CATALOGUE_FAULT)
    text = json_export(opened.handbook) if form == "json" else csv_export(opened.handbook)
    if out is None:
        sys.stdout.buffer.write(text.encode())
        return
    try:
        out.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        fail(f"{out} cannot be written ({error.strerror}). Name another file with --out.")
    click.echo(f"Written to {out}.")


@main.command()
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


@main.command()
@click.argument("fluids", nargs=-1, required=True, metavar="FLUID...")
@click.option("--out", type=click.Path(path_type=Path), help="A folder; without it, this one.")
@with_places
def card(places: Places, fluids: tuple[str, ...], out: Path | None) -> None:
    """Write the one-page cards of chosen fluids into one file to print."""
    from isofolio.handbook import open_handbook
    from isofolio.pages.card import CARD_STYLES, cards_file

    need_entries(places.catalogue)
    opened = open_handbook(places.catalogue)
    if opened.handbook is None:
        texts = "\n\n".join(problem.text() for problem in opened.problems)
        fail(f"{texts}\n\nNo card was written: mend the catalogue first.", CATALOGUE_FAULT)
    unknown = [one for one in fluids if one not in opened.handbook.catalogue.fluids]
    if unknown:
        fail(
            f"No fluid has the id {', '.join(unknown)}. An id is the name of a file in "
            "catalogue/fluids, without .yml."
        )
    target = (out or Path.cwd()) / "cards.html"
    try:
        styles = [(places.project / one).read_text(encoding="utf-8") for one in CARD_STYLES]
        text = cards_file(opened.handbook, tuple(dict.fromkeys(fluids)), styles)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        fail(f"{error.filename}: {error.strerror}. Nothing was written; name a folder with --out.")
    click.echo(f"Written to {target}: open it and print.")
