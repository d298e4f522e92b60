"""The command line.

Exit codes: 0 good, 1 the catalogue or a copy has problems, 2 wrong use or a fault of the machine,
3 a change that matters to safety and that nobody has double-checked.
"""

import io
import sys
from pathlib import Path

import click

from isofolio import __version__
from isofolio.commands.building import build, serve
from isofolio.commands.cards import card
from isofolio.commands.changing import changes
from isofolio.commands.checking import check
from isofolio.commands.editing import new
from isofolio.commands.exporting import export
from isofolio.commands.formatting import fmt
from isofolio.commands.publishing import bundle, publish, verify
from isofolio.commands.reviewing import review, reviews
from isofolio.commands.schemas import schema

COMMANDS = (
    check,
    changes,
    build,
    serve,
    publish,
    bundle,
    verify,
    new,
    fmt,
    schema,
    review,
    reviews,
    export,
    card,
)


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


for command in COMMANDS:
    main.add_command(command)
