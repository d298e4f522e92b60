"""Bring a finished handbook to where readers open it, and look whether it is still whole there."""

import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from isofolio.commands.places import fail, find_places, need_entries

if TYPE_CHECKING:
    from isofolio.publishing.bundle import Revision
    from isofolio.publishing.publish import Published

# `check` says so of a catalogue, `verify` of a copy.
COPY_FAULT = 1


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--site", type=click.Path(path_type=Path), help="A built site; else build one.")
@click.option("--stock", metavar="HOSPITAL", help="Build for the stock of one hospital.")
@click.option("--exchange", is_flag=True, help="All in one step (Linux, one disk).")
@click.pass_context
def publish(
    context: click.Context, folder: Path, site: Path | None, stock: str | None, exchange: bool
) -> None:
    """Bring the handbook to a file share where its pages may be open."""
    from isofolio.publishing.publish import PublishError, publish

    source = _built_site(context, site, stock)
    try:
        done = publish(source, folder, _count if sys.stderr.isatty() else None, exchange)
    except PublishError as error:
        fail(str(error))
    click.echo(_told(done, folder))


def _count(done: int, of: int) -> None:
    click.echo(f"\r{done} of {of} files", nl=done == of, err=True)


def _told(done: "Published", folder: Path) -> str:
    lines = [
        f"Published to {folder}: {done.written} files written, {done.unchanged} unchanged, "
        f"{done.deleted} deleted."
    ]
    lines += [
        f"{path} could not be deleted: it is open, or was changed by others. The next publish "
        "tries again."
        for path in done.left
    ]
    return "\n".join(lines)


@click.command()
@click.option("--out", type=click.Path(path_type=Path), help="The zip file; else one is named.")
@click.option("--site", type=click.Path(path_type=Path), help="A built site; else build one.")
@click.option("--stock", metavar="HOSPITAL", help="Build for the stock of one hospital.")
@click.pass_context
def bundle(context: click.Context, out: Path | None, site: Path | None, stock: str | None) -> None:
    """Pack the handbook into one zip file, with checksums, provenance and bill of materials."""
    from isofolio.publishing.bundle import BundleError, write_bundle

    source = _built_site(context, site, stock)
    # Of a site that was built elsewhere nobody knows the revision.
    revision = _revision(find_places(*context.obj).project) if site is None else None
    try:
        target = write_bundle(source, out, revision)
    except BundleError as error:
        fail(str(error))
    click.echo(f"Written to {target}: unpack it anywhere and open index.html.")


def _revision(project: Path) -> "Revision | None":
    """The revision of the project's folder, where git keeps one."""
    from isofolio.publishing.bundle import Revision

    commit = _git(project, "rev-parse", "--verify", "HEAD")
    if commit is None:
        return None
    return Revision(commit, modified=bool(_git(project, "status", "--porcelain")))


def _git(project: Path, *arguments: str) -> str | None:
    """What git answers in a folder; None where there is no git or no repository."""
    command = ["git", "-C", str(project), *arguments]
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except OSError:
        return None
    return done.stdout.strip() if done.returncode == 0 else None


@click.command()
@click.argument("copy", metavar="DIR|ZIP", type=click.Path(path_type=Path))
def verify(copy: Path) -> None:
    """Look for changed, missing or extra files and dead links in a site, a share or a bundle."""
    from isofolio.publishing.copies import CopyError
    from isofolio.publishing.verify import faults_of_copy

    try:
        faults = faults_of_copy(copy)
    except CopyError as error:
        fail(f"{copy}: {error}")
    for fault in faults:
        click.echo(fault)
    if faults:
        click.echo(f"{copy} is not what was built. Publish, build or copy it again.")
        sys.exit(COPY_FAULT)
    click.echo(f"{copy} is as it was built: every file, link and anchor.")


def _built_site(context: click.Context, site: Path | None, stock: str | None) -> Path:
    """The site that was named, or the project's, built now: what is published is never stale."""
    from isofolio.shell.building import BuildError, build_handbook

    if site is not None:
        if stock is not None:
            fail("--site names a site that is built; --stock builds one. Give one of them.")
        return site
    places = find_places(*context.obj)
    need_entries(places.catalogue)
    try:
        return build_handbook(places.project, places.catalogue, None, stock)
    except BuildError as error:
        fail(str(error), error.code)
