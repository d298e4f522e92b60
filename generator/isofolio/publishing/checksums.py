"""The list of every file of a site with its SHA-256, in the form that `sha256sum -c` reads."""

import hashlib
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

# Stands in the root of every site, and lists every file there but itself.
CHECKSUMS = "SHA256SUMS"


class ChecksumsError(Exception):
    """The list is missing or cannot be read; the message says what to do."""


def digest_of(content: bytes) -> str:
    """SHA-256 of a file's bytes, in hexadecimal.

    Source: FIPS 180-4; the test compares its published example.
    """
    return hashlib.sha256(content).hexdigest()


def _digest_of(path: Path) -> str:
    """The same of a file, which is never held whole."""
    with path.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def files_below(folder: Path) -> list[str]:
    """The path of every file below a folder, from its root, in order."""
    files = (path for path in folder.rglob("*") if path.is_file() or path.is_symlink())
    return sorted(path.relative_to(folder).as_posix() for path in files)


def write_checksums(folder: Path) -> None:
    """List every file of a finished site in it."""
    listed = {path: _digest_of(folder / path) for path in files_below(folder) if path != CHECKSUMS}
    (folder / CHECKSUMS).write_bytes(checksums_text(listed))


def checksums_text(digests: Mapping[str, str]) -> bytes:
    """The list as it is written: digest, two spaces, path; ordered by path."""
    lines = (f"{digest}  {path}\n" for path, digest in sorted(digests.items()))
    return "".join(lines).encode("utf-8")


def read_checksums(content: bytes) -> dict[str, str]:
    """Path and digest of each line. Raises ChecksumsError for a line that is none.

    >>> read_checksums(b"ab  index.html")
    Traceback (most recent call last):
    isofolio.publishing.checksums.ChecksumsError: SHA256SUMS, line 1: no digest and path.
    """
    listed: dict[str, str] = {}
    lines = content.decode("utf-8", errors="replace").splitlines()
    for number, line in enumerate(lines, start=1):
        digest, _, path = line.partition("  ")
        if not is_digest(digest) or not is_path_within(path) or path in listed:
            raise ChecksumsError(f"{CHECKSUMS}, line {number}: no digest and path.")
        listed[path] = digest
    return listed


def is_digest(text: object) -> bool:
    """Whether a value read from a file is a SHA-256 as we write it."""
    return isinstance(text, str) and len(text) == 64 and set(text) <= set("0123456789abcdef")


def is_path_within(text: str) -> bool:
    """Whether a path read from a file stays below the folder it is joined to, on any system.

    >>> [is_path_within(path) for path in ("fluids/a.html", "../a", "/a", "C:/a", "a\\\\b", "")]
    [True, False, False, False, False, False]
    """
    parts = PurePosixPath(text).parts
    plain = text == "/".join(parts) and not any(character in text for character in "\\:\0")
    return plain and bool(parts) and not text.startswith("/") and ".." not in parts
