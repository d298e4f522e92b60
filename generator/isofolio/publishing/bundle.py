"""A whole site in one zip file, with its checksums, where it comes from and what made it.

Same site, same program, same bytes: names in order, one fixed date, one kind of right. (Another
version of zlib may pack the same files into other bytes; the provenance names the one used.)
"""

import json
import platform
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from isofolio import __version__
from isofolio.publishing.bill import BillError, bill_of_materials
from isofolio.publishing.checksums import CHECKSUMS, checksums_text, digest_of
from isofolio.publishing.copies import Copy, CopyError, open_copy
from isofolio.publishing.swap import MARK, REQUIRED
from isofolio.publishing.writing import half_of

PROVENANCE = "provenance.json"
BILL = "bom.json"
CHART_LIBRARY = "scripts/plotly.min.js"
# The earliest date that a zip file can hold: the bundle knows no clock.
DATE = (1980, 1, 1, 0, 0, 0)
UNIX = 3
READABLE = 0o100644 << 16


class BundleError(Exception):
    """No bundle was made; the message says why and what to do."""


@dataclass(frozen=True)
class Revision:
    """The state of the source from which the site was built.

    commit: its name in git; modified: whether files differ from it.
    """

    commit: str
    modified: bool


def write_bundle(site: Path, out: Path | None, revision: Revision | None = None) -> Path:
    """Pack the built `site`; return the zip file, which takes its place in one step.

    out: None for a file in this folder, named after the catalogue's digest. Raises BundleError.
    """
    try:
        with open_copy(site) as copy:
            listed = _whole_list(copy)
            built_from = _built_from(copy)
            target = out or Path(f"isofolio-{built_from.get('digest', 'handbook')}.zip")
            added = _added(copy, listed, built_from, revision)
            _write(target, _members(copy, listed, added))
            return target
    except (CopyError, BillError) as error:
        raise BundleError(str(error)) from None
    except OSError as error:
        raise BundleError(
            f"{error.filename or out}: {error.strerror or error}. No bundle was made. Name a file "
            "in a folder that exists and that you may write, with --out."
        ) from None


def _whole_list(copy: Copy) -> dict[str, str]:
    listed = copy.checksums()
    if missing := [name for name in REQUIRED if name not in listed]:
        raise BundleError(f"{', '.join(missing)}: missing. This is no complete site: build it.")
    return {path: digest for path, digest in listed.items() if path not in (PROVENANCE, BILL)}


def _added(
    copy: Copy, listed: dict[str, str], built_from: dict[str, str], revision: Revision | None
) -> dict[str, bytes]:
    """What a bundle holds besides the site."""
    provenance = {
        "schema": 1,
        "built_from": built_from,
        "source": None if revision is None else vars(revision),
        "bundled_by": {
            "isofolio": __version__,
            "python": platform.python_version(),
            "zlib": zlib.ZLIB_RUNTIME_VERSION,
        },
        "site_checksums": digest_of(checksums_text(listed)),
    }
    library = copy.read(CHART_LIBRARY) if CHART_LIBRARY in copy.names else None
    return {PROVENANCE: _json(provenance), BILL: _json(bill_of_materials(library))}


def _built_from(copy: Copy) -> dict[str, str]:
    """What the site says of itself: the catalogue's date and digest, the program's version."""
    lines = (copy.read(MARK) or b"").decode("utf-8").splitlines()[1:]
    pairs = (line.partition(" ") for line in lines)
    return {name: value.removeprefix("of ") for name, _, value in pairs}


def _json(value: dict[str, Any]) -> bytes:
    return (json.dumps(value, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def _members(
    copy: Copy, listed: dict[str, str], added: dict[str, bytes]
) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of every file, in order. Raises BundleError for a damaged one."""
    digests = listed | {name: digest_of(content) for name, content in added.items()}
    made = added | {CHECKSUMS: checksums_text(digests)}
    for name in sorted({*digests, CHECKSUMS}):
        content = made[name] if name in made else copy.read(name)
        if content is None or (name not in made and digest_of(content) != digests[name]):
            raise BundleError(f"{name} in the site is missing or was changed. Build it again.")
        yield name, content


def _write(target: Path, members: Iterator[tuple[str, bytes]]) -> None:
    half = half_of(target)
    try:
        with zipfile.ZipFile(half, "w") as bundle:
            for name, content in members:
                bundle.writestr(_entry(name), content, zipfile.ZIP_DEFLATED, 9)
        half.replace(target)
    finally:
        with suppress(OSError):
            half.unlink(missing_ok=True)


def _entry(name: str) -> zipfile.ZipInfo:
    """One file of the zip file, the same on every system and day."""
    entry = zipfile.ZipInfo(name, DATE)
    entry.create_system = UNIX
    entry.external_attr = READABLE
    return entry
