"""A fault of the catalogue, told so that an editor can mend it without asking anybody."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from itertools import groupby

EXCERPT_LENGTH = 160
# A column further right than FAR is shown with LEAD characters before it.
FAR = 120
LEAD = 100
QUOTED_LENGTH = 60
# An entry has some forty lines: with more faults than that in one file, something else is wrong.
MOST_TOLD = 100


@dataclass(frozen=True, order=True)
class Place:
    """Where something stands in a file: line and column, both counted from 1."""

    line: int
    column: int


@dataclass(frozen=True, order=True)
class Problem:
    """One fault: what happened, where, and what to do next."""

    file: str
    place: Place
    message: str
    fix: str = ""
    excerpt: str = ""

    def text(self) -> str:
        """The fault as printed: place and message, the line with a caret, the fix.

        >>> problem = Problem("fluids/a.yml", Place(2, 7), "no such role", "Fix it.", "role: x")
        >>> print(problem.text())
        fluids/a.yml:2:7: no such role
            2 | role: x
              |       ^
          Fix it.
        """
        lines = [f"{self.file}:{self.place.line}:{self.place.column}: {self.message}"]
        if self.excerpt:
            number = str(self.place.line)
            caret = " " * (self.place.column - 1 - _hidden(self.place.column)) + "^"
            lines += [f"    {number} | {self.excerpt}", f"    {' ' * len(number)} | {caret}"]
        if self.fix:
            lines.append(f"  {self.fix}")
        return "\n".join(lines)


class Fault(Exception):
    """A file that cannot be read further; carries its one problem."""

    def __init__(self, place: Place, message: str, fix: str) -> None:
        super().__init__(message)
        self.place, self.message, self.fix = place, message, fix


def excerpt(source: str, place: Place) -> str:
    """The line of `source` at `place`, cut on both sides to what can be printed.

    The cut on the left depends on the column alone, so that `Problem.text` sets the caret right.
    """
    lines = _lines(source)
    if not 0 < place.line <= len(lines):
        return ""
    hidden = _hidden(place.column)
    line = ("…" if hidden else "") + lines[place.line - 1][hidden + bool(hidden) :]
    shown = line if len(line) <= EXCERPT_LENGTH else line[: EXCERPT_LENGTH - 1] + "…"
    return _printable(shown)


@lru_cache(maxsize=4)
def _lines(source: str) -> tuple[str, ...]:
    return tuple(source.split("\n"))


def _hidden(column: int) -> int:
    """How many characters of a line are cut on its left so that `column` is shown."""
    return 0 if column <= FAR else column - 1 - LEAD


def _printable(text: str) -> str:
    plain = text.replace("\t", " ").replace("\n", " ")
    return "".join(character if character.isprintable() else "·" for character in plain)


def bounded(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems in order, each once; of a file with very many the first, and one for the rest."""
    found: list[Problem] = []
    for file, group in groupby(sorted(set(problems)), key=lambda problem: problem.file):
        of_file = list(group)
        found += of_file[:MOST_TOLD]
        if len(of_file) > MOST_TOLD:
            message = f"{len(of_file) - MOST_TOLD} more problems in this file from here on"
            fix = "Mend those that are told above, then check again."
            found.append(Problem(file, of_file[MOST_TOLD].place, message, fix))
    return tuple(found)


def quoted(text: str) -> str:
    """A value as a message repeats it: in quotes, on one line, and not at any length.

    >>> quoted("ready")
    '"ready"'
    """
    shown = text if len(text) <= QUOTED_LENGTH else text[: QUOTED_LENGTH - 1] + "…"
    return f'"{_printable(shown)}"'


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A guess at what was meant, as a sentence, or nothing.

    >>> did_you_mean("sodum", ["sodium", "chloride"])
    'Did you mean "sodium"?'
    """
    guesses = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f'Did you mean "{guesses[0]}"?' if guesses else ""
