"""Publish a site file by file, to a folder where its pages are open: a Windows file share.

Assets first, under names that no page asks for yet; then pages that are new; then those that
readers have, the home page last. So a page read at any moment is whole, finds what it loads, and
leads to pages that exist. What earlier pages load stays until the next publish; then it is deleted.
"""

import errno
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from isofolio.publishing.checksums import CHECKSUMS, digest_of, files_below
from isofolio.publishing.copies import CopyError, open_copy
from isofolio.publishing.lock import LOCK, LockedError, locked
from isofolio.publishing.one_step import CannotExchangeError, publish_in_one_step
from isofolio.publishing.plan import Plan, PlanError, plan_of
from isofolio.publishing.state import (
    ASSET,
    STATE,
    Publish,
    StateError,
    begun,
    ended,
    kept_files,
    known_digests,
    read_state,
    state_text,
)
from isofolio.publishing.swap import MARK
from isofolio.publishing.writing import (
    HALF,
    HeldOpenError,
    delete,
    half_of,
    make_folders,
    write_beside,
)

HOME = "index.html"
OWN = frozenset({STATE, LOCK, STATE + HALF})
REMEDIES = {
    errno.ENOSPC: "The disk is full: make room",
    errno.EDQUOT: "The quota of the disk is used up: make room",
    errno.EFBIG: "The file is larger than the system allows: have the limit raised",
    errno.EROFS: "The disk may only be read: have it opened for writing",
    errno.EACCES: "You may not write there: have the right given to you",
    errno.EPERM: "You may not write there: have the right given to you",
    errno.ENOENT: "A folder is missing: look whether the share is connected",
}
# Is told how many files of the copy stand there, and of how many.
Progress = Callable[[int, int], object]
OTHER_REMEDY = "Look whether the share can be reached"


TOLD = (CannotExchangeError, CopyError, HeldOpenError, LockedError, PlanError, StateError)


class PublishError(Exception):
    """Nothing, or not everything, was published; the message says what and what to do next."""


@dataclass(frozen=True)
class Published:
    """What was done. left: files to delete that are held open or were changed by others."""

    written: int
    unchanged: int
    deleted: int
    left: tuple[str, ...]


def publish(
    site: Path, target: Path, progress: Progress | None = None, exchange: bool = False
) -> Published:
    """Make the folder `target` a published copy of the built `site`. Raises PublishError.

    A publish that was cut short is finished by publishing again. exchange: not file by file, but
    by one exchange of the whole folder.
    """
    try:
        _refuse_one_in_the_other(site.resolve(), target.resolve())
        with open_copy(site) as source:
            plan = plan_of(source)
            # Never its parents: a share that is not connected would be made on the own disk.
            target.mkdir(exist_ok=True)
            with locked(target):
                way = _publish_whole if exchange else _publish_by_file
                return way(plan, target, progress or _say_nothing)
    except TOLD as error:
        raise PublishError(str(error)) from None
    except OSError as error:
        raise PublishError(_told(error, target)) from None


def _say_nothing(done: int, of: int) -> None:
    """The progress that nobody looks at."""
    del done, of


def _publish_whole(plan: Plan, target: Path, progress: Progress) -> Published:
    before = read_state(target)
    others = _files_of_others(target, before)
    if others:
        raise PublishError(
            f"{target} holds {others[0]}, which this program did not put there: it would go with "
            "the old folder. Move it away, or publish without --exchange."
        )
    publish_in_one_step(plan, target, before, progress)
    return Published(written=len(plan.files), unchanged=0, deleted=0, left=())


def _publish_by_file(plan: Plan, target: Path, progress: Progress) -> Published:
    before = read_state(target)
    _refuse_files_of_others(target, before, plan.files)
    publishes = begun(before, plan.files)
    write_beside(target / STATE, state_text(publishes))
    make_folders(target, plan.files)
    written = 0
    for count, path in enumerate(in_order(plan.files, target), start=1):
        if not _stands(target / path, plan.files[path]):
            write_beside(target / path, plan.content(path))
            written += 1
        progress(count, len(plan.files))
    _delete_halves(target, known_digests(publishes))
    deleted, left = _delete_outdated(target, publishes)
    write_beside(target / STATE, state_text(ended(publishes, left)))
    unchanged = len(plan.files) - written
    return Published(written, unchanged, deleted, tuple(left))


def in_order(paths: Iterable[str], target: Path) -> list[str]:
    """The files of a copy as they are written."""
    return sorted(paths, key=lambda path: (_rank(path, target), path))


def _rank(path: str, target: Path) -> int:
    """Assets, other data, new pages, pages that readers have, the home page, the seals."""
    if ASSET.match(path):
        return 0
    if path in (MARK, CHECKSUMS):
        return 5
    if not path.endswith(".html"):
        return 1
    if path == HOME:
        return 4
    return 3 if (target / path).exists() else 2


def _stands(path: Path, digest: str) -> bool:
    """Whether a file is there with these very bytes."""
    return path.is_file() and digest_of(path.read_bytes()) == digest


def _delete_outdated(target: Path, publishes: tuple[Publish, ...]) -> tuple[int, dict[str, str]]:
    """Delete what only publishes before the last one need; how many, and what could not be."""
    stay = {**kept_files(publishes), **publishes[0].files}
    deleted, left = 0, {}
    for path, digests in sorted(known_digests(publishes).items()):
        place = target / path
        if path in stay or not place.is_file():
            continue
        if digest_of(place.read_bytes()) in digests and delete(place):
            deleted += 1
            _delete_empty_folders(place.parent, target)
        else:
            left[path] = min(digests)
    return deleted, left


def _delete_empty_folders(folder: Path, target: Path) -> None:
    """Delete a folder and those above it within the copy, as far as they are empty."""
    with suppress(OSError):
        while folder != target:
            folder.rmdir()
            folder = folder.parent


def _delete_halves(target: Path, known: Mapping[str, object]) -> None:
    """Delete what an earlier publish had half written when it was cut short."""
    for path in known:
        half_of(target / path).unlink(missing_ok=True)


def _refuse_files_of_others(
    target: Path, before: tuple[Publish, ...], files: Mapping[str, str]
) -> None:
    """Raise PublishError where files that this program did not write would be mixed with ours."""
    others = _files_of_others(target, before)
    if others and not before:
        raise PublishError(
            f"{target} is neither empty nor a published copy: it holds {others[0]}, which this "
            "program did not put there. Name an empty folder, or one that does not exist."
        )
    if in_the_way := sorted(set(others) & set(files)):
        raise PublishError(
            f"{target / in_the_way[0]} was put there by others, and the handbook has a page of "
            "that name. Move it away, then publish again."
        )


def _files_of_others(target: Path, before: tuple[Publish, ...]) -> list[str]:
    ours = known_digests(before)
    return [path for path in files_below(target) if path not in ours and path not in OWN]


def _refuse_one_in_the_other(site: Path, target: Path) -> None:
    if site == target or site in target.parents or target in site.parents:
        raise PublishError(
            f"{target} and the site at {site} are one folder, or one is in the other. "
            "Publish to a folder of its own."
        )


def _told(error: OSError, target: Path) -> str:
    """What went wrong, where, and what to do next."""
    remedy = REMEDIES.get(error.errno or 0, OTHER_REMEDY)
    return (
        f"{error.filename or target}: {error.strerror or error}. {remedy}, then publish again: it "
        "goes on where it stopped. Each page there is whole, the old one or the new one."
    )
