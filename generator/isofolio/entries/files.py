"""What one file of the catalogue says by itself: its tree, its record, what it refers to."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

from pydantic import BaseModel, ValidationError

from isofolio.entries.cautions import Caution
from isofolio.entries.characters import LARGEST_FILE
from isofolio.entries.comparisons import Comparison
from isofolio.entries.equipment import Equipment
from isofolio.entries.expected import Expected
from isofolio.entries.faults import translated
from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Changes, Limits, NotInsteads, Plasma, Source, Words
from isofolio.entries.mixing import Mixing
from isofolio.entries.problems import Place, Problem, did_you_mean, quoted
from isofolio.entries.references import Found, references
from isofolio.entries.situations import Situation
from isofolio.entries.stock import Stock
from isofolio.entries.substances import Particles, Substance
from isofolio.entries.teaching import Confusion, Term
from isofolio.entries.tree import Tree, read_tree

# One entry a file, in a folder ...
FOLDERS: Mapping[str, type[BaseModel]] = MappingProxyType(
    {
        "fluids": Fluid,
        "substances": Substance,
        "situations": Situation,
        "sources": Source,
        "cautions": Caution,
        "comparisons": Comparison,
        "mixing": Mixing,
        "equipment": Equipment,
        "stock": Stock,
        "glossary": Term,
        "confusions": Confusion,
        "expected": Expected,
    }
)
# ... and one list a file.
LISTS: Mapping[str, tuple[type[BaseModel], str]] = MappingProxyType(
    {
        "particles.yml": (Particles, "particles"),
        "plasma.yml": (Plasma, "intervals"),
        "limits.yml": (Limits, "limits"),
        "words.yml": (Words, "words"),
        "not-instead.yml": (NotInsteads, "cases"),
        "changes.yml": (Changes, "changes"),
    }
)


@dataclass(frozen=True)
class Told:
    """What one file says by itself: it follows from the file's name and its bytes alone.

    record: None where the file has a problem. problems: of its text, then of its record.
    named: every reference to another entry.
    """

    tree: Tree
    record: BaseModel | None
    problems: tuple[Problem, ...]
    named: tuple[Found, ...]


@dataclass
class LastReading:
    """What the files of a folder said when it was last read: bytes and what they told, by file.

    A file that could not be read has no bytes, and is looked at anew.
    `serve` alone hands one down, for it reads the same files again after every edit.
    """

    files: Mapping[str, tuple[bytes | None, Told]] = field(default_factory=dict)

    def told(self, file: str, raw: bytes) -> Told | None:
        """What a file of this name with these bytes says, if that was read."""
        before = self.files.get(file)
        return before[1] if before is not None and before[0] == raw else None


def told_by(path: Path, file: str, last: LastReading) -> tuple[bytes | None, Told]:
    """The bytes of one file and what it says; a problem where it cannot be read, never a fault.

    file: its name in the catalogue ("fluids/glucose-5.yml").
    """
    refused = _why_not_opened(path, file)
    if refused:
        return None, told_of(_refused(file, *refused))
    try:
        with path.open("rb") as opened:
            raw = opened.read(LARGEST_FILE + 1)
    except OSError as error:
        message = f"the file cannot be read: {error.strerror or error}"
        fix = "Ask who owns the file for the right to read it."
        return None, told_of(_refused(file, message, fix))
    return raw, last.told(file, raw) or told_of(read_tree(raw, file))


def told_of(tree: Tree) -> Told:
    """What a tree says."""
    problems = list(tree.problems)
    record = record_of(tree, problems)
    if record is not None and "/" in tree.file:
        tree.let_go()
    return Told(tree, record, tuple(problems), tuple(references(record)))


def _why_not_opened(path: Path, file: str) -> tuple[str, str] | None:
    """Message and fix for what is no entry, whatever it holds."""
    if path.is_symlink():
        return "a link, not a file", "Put what it leads to here, in its place."
    if path.is_dir():
        fix = "Ask who owns it for the right to read it. Folders in folders hold no entries."
        return "the folder cannot be looked into", fix
    if not path.is_file():
        return "no ordinary file", "Remove it: an entry is a text file."
    return _no_place(file) if record_type(file) is None else None


def _refused(file: str, message: str, fix: str) -> Tree:
    return Tree(file, "", problems=[Problem(file, Place(1, 1), message, fix)])


def _no_place(file: str) -> tuple[str, str]:
    folder, _, name = file.rpartition("/")
    if folder in FOLDERS:
        stem = name.partition(".")[0]
        return f'the name {quoted(name)} does not end in ".yml"', f"Name it {stem}.yml, or move it."
    guess = did_you_mean(folder or file, [*FOLDERS, *LISTS])
    return "no kind of entry has this place", f"{guess} See the table in README.md.".strip()


def record_type(file: str) -> type[BaseModel] | None:
    """The record of a file by its place in the catalogue, or None where it has no place there."""
    folder, _, name = file.rpartition("/")
    if not folder:
        return LISTS[file][0] if file in LISTS else None
    return FOLDERS.get(folder) if name.endswith(".yml") else None


def record_of(tree: Tree, problems: list[Problem]) -> BaseModel | None:
    """The record of one file, or None with its faults appended."""
    kind = record_type(tree.file)
    if tree.root is None or kind is None:
        return None
    if not isinstance(tree.root, dict):
        first = LISTS[tree.file][1] if tree.file in LISTS else "id"
        problems.append(tree.problem((), "the file is not a mapping", f"Start with  {first}: …"))
        return None
    try:
        record = kind.model_validate(tree.root)
    except ValidationError as error:
        problems += translated(tree, kind, error)
        return None
    misnamed = _misnamed(tree)
    problems += misnamed
    return None if misnamed else record


def _misnamed(tree: Tree) -> list[Problem]:
    if "/" not in tree.file:
        return []
    stem = tree.file.rpartition("/")[2].removesuffix(".yml")
    identifier = tree.root["id"]
    if identifier == stem:
        return []
    message = f"the id {quoted(identifier)} is not the file name {quoted(stem)}"
    fix = "Rename the file, or correct the id; an id never changes once published."
    return [tree.problem(("id",), message, fix)]
