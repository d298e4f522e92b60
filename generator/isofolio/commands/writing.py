"""Writing a file of the catalogue so that a full disk or a lost connection spoils nothing."""

from pathlib import Path

from isofolio.commands.places import fail


def write_whole(path: Path, content: bytes) -> None:
    """Write beside the file, then put it in its place; ends the run where that cannot be done."""
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_bytes(content)
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        fail(f"{path} cannot be written ({error.strerror}). It is as it was.")
