"""The catalogue of a revision or of a folder: what BASE and HEAD of `isofolio changes` may name.

A revision is unpacked from `git archive` into a temporary folder: neither the working tree nor the
repository is touched, and no file can land outside that folder.
"""

import io
import os
import subprocess
import tarfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

CATALOGUE = "catalogue"
WORKING_TREE = "the working tree"


class RevisionError(Exception):
    """There is no such side; the message says why and what to do."""


@dataclass(frozen=True)
class Located:
    """A catalogue folder, and how a report calls it: never by a path of this machine."""

    folder: Path
    label: str


@contextmanager
def located(named: str, catalogue: Path) -> Iterator[Located]:
    """The catalogue that a folder or a Git revision names; it stands while the context lasts.

    catalogue: the one of this run, whose repository knows the revisions. A folder comes before a
    revision of the same name. Raises RevisionError.
    """
    folder = Path(named)
    if folder.is_dir():
        yield Located(_in_project(folder), folder.resolve().name)
        return
    with TemporaryDirectory(prefix="isofolio-") as made:
        yield Located(_unpacked(named, catalogue, Path(made)), named)


def _in_project(folder: Path) -> Path:
    """A catalogue folder, or the one inside a project folder."""
    inside = folder / CATALOGUE
    chosen = inside if inside.is_dir() else folder
    if not any(chosen.glob("*/*.yml")):
        raise RevisionError(
            f"{folder} holds no catalogue. Name a project folder, a catalogue folder or a revision."
        )
    return chosen


def _unpacked(revision: str, catalogue: Path, into: Path) -> Path:
    if revision.startswith("-"):
        raise RevisionError(f'"{revision}" is no revision. Name a branch, a tag or a commit.')
    found = _asked(catalogue, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    if found is None:
        raise RevisionError(_why_not(revision, catalogue))
    archive = _archive(catalogue, _text(found))
    if archive is None:
        message = f"The revision {revision} holds no folder {catalogue.name}/. Name a newer one."
        raise RevisionError(message)
    try:
        with tarfile.open(fileobj=io.BytesIO(archive)) as opened:
            opened.extractall(into, filter="data")
    except (tarfile.TarError, OSError) as error:
        message = f"The catalogue of {revision} cannot be unpacked: {error}. Name another revision."
        raise RevisionError(message) from None
    return into


def _archive(catalogue: Path, commit: str) -> bytes | None:
    """The catalogue's folder of a commit as a tar file; None where the commit does not hold it."""
    top = _asked(catalogue, "rev-parse", "--show-toplevel")
    within = _asked(catalogue, "rev-parse", "--show-prefix")
    if top is None or within is None:
        return None
    place = f"{commit}:{_text(within).rstrip('/')}"
    return _asked(Path(_text(top)), "archive", "--format=tar", place)


def _text(answer: bytes) -> str:
    return os.fsdecode(answer).removesuffix("\n")


def _why_not(revision: str, catalogue: Path) -> str:
    if _asked(catalogue, "rev-parse", "--git-dir") is None:
        return (
            f"{revision} is no folder, and {catalogue.name}/ stands in no Git repository. "
            "Name a folder, or run this in a clone."
        )
    return (
        f"There is no folder and no revision {revision}. See  git branch --all  and  git tag; "
        "in a shallow clone fetch it first:  git fetch origin BRANCH."
    )


def _asked(catalogue: Path, *arguments: str) -> bytes | None:
    """What Git answers in the catalogue's folder; None where it refuses."""
    try:
        done = subprocess.run(
            ["git", "-C", str(catalogue), *arguments], capture_output=True, check=False
        )
    except OSError:
        message = "There is no command git here. Install Git, or name two folders."
        raise RevisionError(message) from None
    return done.stdout if done.returncode == 0 else None
