"""Publish the whole site in one step: a copy is written beside the old one, and the two exchanged.

Only where the system can (Linux, within one file system), and only when it is asked for: a folder
that is exported or mounted by itself would go on showing the old copy, or nothing.
"""

import shutil
from collections.abc import Callable
from pathlib import Path

from isofolio.publishing.checksums import digest_of
from isofolio.publishing.lock import LOCK
from isofolio.publishing.plan import Plan
from isofolio.publishing.state import STATE, Publish, begun, ended, kept_files, state_text
from isofolio.publishing.swap import exchange_in_one_step, folder_beside
from isofolio.publishing.writing import make_folders, write_beside


class CannotExchangeError(Exception):
    """The system cannot exchange the two folders; the message says what to do."""


def publish_in_one_step(
    plan: Plan, target: Path, before: tuple[Publish, ...], progress: Callable[[int, int], object]
) -> None:
    """Put a whole new copy where `target` is. Raises CannotExchangeError or OSError.

    Whatever goes wrong, `target` is as it was.
    """
    publishes = begun(before, plan.files)
    new = folder_beside(target)
    try:
        _keep(target, new, kept_files(publishes))
        make_folders(new, plan.files)
        for count, path in enumerate(sorted(plan.files), start=1):
            write_beside(new / path, plan.content(path))
            progress(count, len(plan.files))
        write_beside(new / STATE, state_text(ended(publishes, {})))
        # The lock goes with the old folder: the new one must not be free before we are done.
        shutil.copyfile(target / LOCK, new / LOCK)
        if not exchange_in_one_step(new, target.resolve()):
            raise CannotExchangeError(
                f"{target} cannot be exchanged in one step on this system or disk; nothing was "
                "changed. Publish without --exchange: file by file, with pages open."
            )
    finally:
        # The old copy, or a new one that did not come to its place.
        shutil.rmtree(new, ignore_errors=True)


def _keep(target: Path, new: Path, kept: dict[str, str]) -> None:
    """Take over what pages load that were opened before; what is gone or changed is left out."""
    make_folders(new, kept)
    for path, digest in kept.items():
        content = (target / path).read_bytes() if (target / path).is_file() else b""
        if digest_of(content) == digest:
            write_beside(new / path, content)
