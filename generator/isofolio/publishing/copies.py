"""One way to read a copy of the site, whether it is a folder or a zip file."""

import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from isofolio.publishing.checksums import CHECKSUMS, ChecksumsError, files_below, read_checksums


class CopyError(Exception):
    """What was named is no copy of a site; the message says what to name."""


@dataclass(frozen=True)
class Copy:
    """A copy of the site. names: each file, twice where a zip file holds it twice."""

    names: tuple[str, ...]
    read: Callable[[str], bytes | None]

    def checksums(self) -> dict[str, str]:
        """Every file that should be here with its digest. Raises CopyError."""
        content = self.read(CHECKSUMS) if CHECKSUMS in self.names else None
        if content is None:
            raise CopyError(
                f"There is no {CHECKSUMS} in it that can be read, so nothing says what it should "
                "hold. Name the folder of a site that this program built or published, or a bundle."
            )
        try:
            return read_checksums(content)
        except ChecksumsError as error:
            raise CopyError(f"{error} The list itself is damaged: make a new copy.") from None


@contextmanager
def open_copy(place: Path) -> Iterator[Copy]:
    """The copy at `place`. Raises CopyError where there is neither a folder nor a zip file."""
    if place.is_dir():
        yield Copy(tuple(files_below(place)), lambda name: _read_file(place / name))
        return
    if not place.is_file():
        raise CopyError(f"There is nothing at {place}. Name a folder or a zip file.")
    try:
        bundle = zipfile.ZipFile(place)
    except (OSError, zipfile.BadZipFile) as error:
        raise CopyError(f"{place} cannot be read as a zip file ({error}).") from None
    with bundle:
        names = [name for name in bundle.namelist() if not name.endswith("/")]
        yield Copy(tuple(sorted(names)), lambda name: _read_member(bundle, name))


def _read_file(path: Path) -> bytes | None:
    """The bytes of a file; None where it cannot be read."""
    try:
        return path.read_bytes()
    except OSError:
        return None


def _read_member(bundle: zipfile.ZipFile, name: str) -> bytes | None:
    """The bytes of one file of a zip file; None where they are damaged."""
    try:
        return bundle.read(name)
    except (OSError, zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError):
        return None
