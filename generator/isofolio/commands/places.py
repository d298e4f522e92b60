"""Where a command works, and how it ends when it cannot."""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from isofolio.vocabulary.exits import CATALOGUE_FAULT, ENVIRONMENT_FAULT

if TYPE_CHECKING:
    from isofolio.handbook import Handbook

PROJECT_MARK = "mkdocs.yml"


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


def open_or_end(places: Places, without: str, stock: str | None = None) -> "Handbook":
    """The handbook of a sound catalogue; otherwise every problem, and what was not done."""
    from isofolio.handbook import open_handbook

    need_entries(places.catalogue)
    opened = open_handbook(places.catalogue, stock)
    if opened.handbook is None:
        texts = "\n\n".join(problem.text() for problem in opened.problems)
        fail(f"{texts}\n\n{without}: mend the catalogue first.", CATALOGUE_FAULT)
    return opened.handbook
