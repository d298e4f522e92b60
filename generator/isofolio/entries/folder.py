"""What lies in a catalogue folder, whatever the file system allows to lie there."""

from collections.abc import Iterator
from pathlib import Path

# Entries lie one folder deep; a little deeper each misplaced file is still named by itself.
DEEPEST_FOLDER = 4


def files_in(folder: Path) -> Iterator[tuple[str, Path]]:
    """The files below a folder by their printable names, in order.

    Links are not followed. Hidden ones, schemas and texts are no entries. A folder that cannot be
    looked into, or lies too deep, stands for what is in it.
    """
    for path in sorted(_below(folder)):
        yield printable_name(path.relative_to(folder).as_posix()), path


def _below(folder: Path) -> Iterator[Path]:
    waiting = [(folder, 0)]
    while waiting:
        current, depth = waiting.pop()
        inside = _inside(current) if depth <= DEEPEST_FOLDER else None
        if inside is None:
            yield current
        for path in inside or ():
            if path.name.startswith(".") or (depth == 0 and path.name == "schemas"):
                continue
            if path.is_dir() and not path.is_symlink():
                waiting.append((path, depth + 1))
            elif path.suffix != ".md":
                yield path


def _inside(folder: Path) -> list[Path] | None:
    try:
        return list(folder.iterdir())
    except OSError:
        return None


def printable_name(name: str) -> str:
    """A file name that can be printed and encoded, whatever the file system allows.

    >>> printable_name("fluids/glucose\\udcff.yml")
    'fluids/glucose\\\\udcff.yml'
    """
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in name)
