"""What this program has written into a published copy: one file there remembers it.

It is written before the first file and after the last, so that a publish that was cut short can be
finished, and so that nothing is ever deleted that this program did not write.
"""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from isofolio.publishing.checksums import is_digest, is_path_within

STATE = ".isofolio-publish.json"
SCHEMA = 1
NOTE = "Written by isofolio publish, which needs it to go on. Do not change or delete it."
# Folders whose files pages load. A published copy holds each under the digest of its content.
ASSET_FOLDERS = ("scripts", "styles", "drawings")
ASSET = re.compile(rf"({'|'.join(ASSET_FOLDERS)})-[0-9a-f]{{12}}/")


class StateError(Exception):
    """The state file cannot be read; the message says what to do."""


@dataclass(frozen=True)
class Publish:
    """One publish: path and digest of each of its files, and whether the last was written."""

    files: Mapping[str, str]
    finished: bool


def begun(before: tuple[Publish, ...], files: Mapping[str, str]) -> tuple[Publish, ...]:
    """The publishes, newest first, with one of `files` at their head; a rerun adds none."""
    if before and before[0].files == files:
        return before
    return (Publish(files, finished=False), *before)


def ended(publishes: tuple[Publish, ...], left: Mapping[str, str]) -> tuple[Publish, ...]:
    """The publishes to remember once the newest is whole; `left`: what could not be deleted."""
    rest = (Publish(left, finished=True),) if left else ()
    newest = Publish(publishes[0].files, finished=True)
    return (newest, *_not_outdated(publishes), *rest)


def kept_files(publishes: tuple[Publish, ...]) -> dict[str, str]:
    """The files of earlier publishes that stay: what pages load that were opened before this one.

    A publish that was cut short may have shown pages too: all that follow the last finished one.
    """
    return {
        path: digest
        for publish in _not_outdated(publishes)
        for path, digest in publish.files.items()
        if ASSET.match(path)
    }


def _not_outdated(publishes: tuple[Publish, ...]) -> tuple[Publish, ...]:
    """The publishes before the newest, up to and with the first that was finished."""
    earlier = publishes[1:]
    ends = (number for number, publish in enumerate(earlier, start=1) if publish.finished)
    return earlier[: next(ends, len(earlier))]


def known_digests(publishes: Iterable[Publish]) -> dict[str, set[str]]:
    """Every path that this program wrote or was about to write, with the digests it gave it."""
    known: dict[str, set[str]] = {}
    for publish in publishes:
        for path, digest in publish.files.items():
            known.setdefault(path, set()).add(digest)
    return known


def state_text(publishes: Iterable[Publish]) -> bytes:
    """The state file as it is written."""
    listed = [{"finished": one.finished, "files": dict(one.files)} for one in publishes]
    state = {"schema": SCHEMA, "note": NOTE, "publishes": listed}
    return json.dumps(state, indent=1, sort_keys=True).encode("utf-8")


def read_state(folder: Path) -> tuple[Publish, ...]:
    """The publishes that a copy remembers, newest first; none where it has no state file.

    Raises StateError for a file that this program did not write so: deleting by it would be
    dangerous.
    """
    path = folder / STATE
    if not path.exists():
        return ()
    try:
        return parse_state(path.read_bytes())
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise StateError(
            f"{path} cannot be used ({error}): it was changed by something else. Publish to a new, "
            "empty folder, and delete this one when nobody reads it any more."
        ) from None


def parse_state(content: bytes) -> tuple[Publish, ...]:
    """The publishes of a state file. Raises ValueError and its like where it is none of ours."""
    state = json.loads(content)
    if state["schema"] != SCHEMA:
        raise ValueError(f"it has the form {state['schema']!r}, this program writes {SCHEMA}")
    return tuple(_publish(one["files"], one["finished"]) for one in state["publishes"])


def _publish(files: dict[str, str], finished: object) -> Publish:
    for path, digest in files.items():
        if not (is_path_within(path) and is_digest(digest)):
            raise ValueError(f"{path!r} is no file of this folder")
    return Publish(files, finished is True)
