"""Writing and deleting where others read: a file there is the old one or the new one, never half.

On a Windows share a file that another program holds open can often not be replaced; that is tried
again for some seconds before it is told.
"""

import contextlib
import os
import time
from collections.abc import Callable, Iterable
from pathlib import Path, PurePosixPath

# A file half written ends so, in the folder of the whole one; nobody else may take this name.
HALF = ".isofolio-half"
# Pauses between the attempts to replace or delete a file that is held open [s].
PAUSES = (0.1, 0.2, 0.4, 0.8, 1.6, 3.2)


class HeldOpenError(Exception):
    """A file stayed open in another program; the message says which and what to do."""


def write_beside(target: Path, content: bytes) -> None:
    """Write a file beside the old one and put it in its place in one step."""
    half = half_of(target)
    try:
        with half.open("wb") as file:
            file.write(content)
            file.flush()
            # On the disk before it takes the place of a file that is.
            os.fsync(file.fileno())
        _patiently(lambda: half.replace(target), target)
    except (OSError, HeldOpenError):
        with contextlib.suppress(OSError):
            half.unlink(missing_ok=True)
        raise


def make_folders(target: Path, paths: Iterable[str]) -> None:
    """Make every folder of a copy's files, those above first."""
    folders = {folder for path in paths for folder in PurePosixPath(path).parents}
    for folder in sorted(folders):
        (target / folder).mkdir(exist_ok=True)


def half_of(target: Path) -> Path:
    """Where a file is written before it takes its place."""
    return target.with_name(target.name + HALF)


def delete(target: Path) -> bool:
    """Delete a file; False where it stays open in another program."""
    try:
        _patiently(lambda: target.unlink(missing_ok=True), target)
    except HeldOpenError:
        return False
    return True


def _patiently(act: Callable[[], object], target: Path) -> None:
    """Try an act on a file until nobody holds it open any more, for some seconds."""
    for pause in (*PAUSES, None):
        try:
            act()
        except PermissionError as error:
            if pause is None:
                raise HeldOpenError(
                    f"{target} could not be replaced or deleted ({error.strerror}): a program on "
                    "some computer holds it open, or it may not be changed. Close what shows it, "
                    "then publish again."
                ) from error
            time.sleep(pause)
        else:
            return
