"""One writer at a time: a file in the copy says who writes there."""

import contextlib
import os
import platform
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

LOCK = ".isofolio-publish.lock"


class LockedError(Exception):
    """Somebody else publishes there, or did not come to the end; the message says who and when."""


@contextlib.contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Hold the lock of a folder. Raises LockedError; a lock of others is never broken."""
    path = folder / LOCK
    try:
        file = path.open("x", encoding="utf-8")
    except FileExistsError:
        raise LockedError(_who_holds(path)) from None
    try:
        with file:
            file.write(_holder())
        yield
    finally:
        with contextlib.suppress(OSError):
            path.unlink()


def _holder() -> str:
    """Who holds the lock: computer, process and time, for a person to look up."""
    now = datetime.now(UTC).strftime("%Y-%m-%d %H:%M:%S UTC")
    return f"computer {platform.node()}, process {os.getpid()}, since {now}"


def _who_holds(path: Path) -> str:
    try:
        holder = path.read_text(encoding="utf-8", errors="replace").strip()
    except OSError:
        holder = ""
    return (
        f"Somebody is publishing to {path.parent} ({holder or 'nothing says who'}). Wait for the "
        f"end. If that process no longer runs, it was cut short: delete {path} and publish again."
    )
