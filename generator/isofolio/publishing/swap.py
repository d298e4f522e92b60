"""Put a new site where the old one stands, in one step, or leave the old one as it is.

A site is written into a folder beside the live one, looked at, and only then exchanged with it.
Linux exchanges two folders in one call; elsewhere two renames do it, and the first is undone when
the second fails.
"""

import ctypes
import errno
import os
import secrets
import shutil
import sys
from pathlib import Path

# Every site carries this file. A folder without it was not written by this program.
MARK = "built-from.txt"
REQUIRED = ("index.html", "404.html", MARK)

AT_FDCWD = -100
RENAME_EXCHANGE = 2
# A kernel or a file system (many network shares) that cannot exchange answers with one of these.
CANNOT_EXCHANGE = frozenset({errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP, errno.EPERM})


class SwapError(Exception):
    """The new site was not put in place; the message says where each folder is now."""


def folder_beside(live: Path) -> Path:
    """Make an empty folder beside `live`, on the same file system, and return it.

    Its name starts with a full stop, so that nobody takes it for the site: `.site-1f3a5b7c`.
    Raises OSError when the parent cannot be written.
    """
    live = live.resolve()
    live.parent.mkdir(parents=True, exist_ok=True)
    new = live.parent / f".{live.name}-{secrets.token_hex(4)}"
    new.mkdir()
    return new


def faults_of_site(folder: Path) -> list[str]:
    """What makes `folder` unfit to be published, one sentence each; empty when it is fit."""
    missing = [f"{name} is missing" for name in REQUIRED if not (folder / name).is_file()]
    pages = sorted(folder.rglob("*.html"))
    empty = [page for page in pages if page.stat().st_size == 0]
    return missing + [f"{page.relative_to(folder).as_posix()} is empty" for page in empty]


def replace_site(new: Path, live: Path) -> Path | None:
    """Put the folder `new` at `live`; return the folder that still holds what stood there, if any.

    A previous site of ours is removed, except for its hidden files (`.git`, `.nojekyll`), which
    move to the new one. Anything else that stood there is kept, and its new place is returned.
    Raises SwapError, with `live` byte for byte as it was, when `new` is unfit or cannot be moved.
    """
    live = live.resolve()
    if faults := faults_of_site(new):
        raise SwapError(f"{new} is no complete site: {'; '.join(faults)}. {live} is unchanged.")
    if live.exists() and not live.is_dir():
        raise SwapError(f"{live} is a file. Remove it, or build to another folder.")
    try:
        old = _exchange(new, live)
    except OSError as error:
        raise SwapError(
            f"The new site could not be put at {live} ({error.strerror or error}). What stood "
            "there is unchanged. Close the programs that use that folder, or build to another one."
        ) from error
    return None if old is None else _clear_away(old, live)


def _exchange(new: Path, live: Path) -> Path | None:
    """Put `new` at `live`; return where the previous folder is now, None if there was none."""
    if not live.exists():
        new.rename(live)
        return None
    if exchange_in_one_step(new, live):
        return new
    return _exchange_in_two_steps(new, live)


def exchange_in_one_step(new: Path, live: Path) -> bool:
    """Exchange the two folders by renameat2; False where the platform cannot.

    Raises OSError for any other failure.
    """
    if sys.platform != "linux":
        return False
    library = ctypes.CDLL(None, use_errno=True)
    if not hasattr(library, "renameat2"):
        return False
    names = (os.fsencode(new), os.fsencode(live))
    if library.renameat2(AT_FDCWD, names[0], AT_FDCWD, names[1], RENAME_EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in CANNOT_EXCHANGE:
        return False
    raise OSError(number, os.strerror(number), str(live))


def _exchange_in_two_steps(new: Path, live: Path) -> Path:
    """Move `live` aside, then `new` to its place; undo the first step when the second fails."""
    aside = new.with_name(new.name + "-old")
    live.rename(aside)
    try:
        new.rename(live)
    except OSError as error:
        try:
            aside.rename(live)
        except OSError:
            raise SwapError(
                f"The new site could not be put at {live} ({error.strerror or error}), and the "
                f"previous one could not be put back. It is whole, in {aside}: rename it to {live}."
            ) from error
        raise
    return aside


def _clear_away(old: Path, live: Path) -> Path | None:
    """Remove a previous site of ours; return `old` where it is not ours or could not be removed."""
    if any(old.iterdir()) and not (old / MARK).is_file():
        return old
    try:
        for entry in sorted(old.glob(".*")):
            entry.rename(live / entry.name)
    except OSError:
        return old
    shutil.rmtree(old, ignore_errors=True)
    return old if old.exists() else None
