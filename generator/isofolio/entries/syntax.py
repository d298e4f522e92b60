"""What the YAML parser says of a malformed file, in our words and at the place that matters."""

from typing import Any

from isofolio.entries.problems import Fault, Place

INDENT = "Indent with spaces only, and start each key under the key above it."

QUOTE = "Put the value in quotes."

# Beginning of what the parser says -> message, fix.
_EXPLAINED = (
    ("found a tab character", "a tab stands where spaces are expected", INDENT),
    (
        "did not find expected '-' indicator",
        "this line does not stand under the lines of the list above it",
        "Start each item with a hyphen under the hyphens above, and its keys under one another.",
    ),
    ("did not find expected <document start>", "this line stands too far to the left", INDENT),
    ("did not find expected node content", "a value is missing here", "Write the value."),
    ("mapping keys are not allowed", "a value that starts with ?", QUOTE),
    ("found unexpected ':'", "a value with a colon in it", QUOTE),
    (
        "block sequence entries are not allowed",
        "a list that starts beside its key",
        "Write the list as [a, b], or start each item on a line of its own.",
    ),
    (
        "found unknown escape character",
        "a backslash inside double quotes",
        "Use single quotes, or write the backslash twice.",
    ),
    (
        "found invalid Unicode character escape",
        "a backslash code that stands for no character",
        "Write the character itself.",
    ),
    (
        "did not find expected hexdecimal number",
        "a backslash code that stands for no character",
        "Use single quotes, or write the character itself.",
    ),
    ("exceeded maximum nesting", "brackets in brackets, too many levels", "Flatten the entry."),
)
# The same for what is told best where it began, by what the parser was doing or saying then.
_FROM_THE_START = (
    (
        "could not find expected ':'",
        "this line is neither a key with its value nor an item of a list",
        "Write  key: value  with a space after the colon, or start an item with a hyphen.",
    ),
    (
        "found unexpected end of stream",
        "the quote that starts here is never closed",
        "Close it where the text ends.",
    ),
    (
        "found unexpected document indicator",
        "the quote that starts here is never closed",
        "Close it where the text ends.",
    ),
    ("found incompatible YAML", "a line that starts with %", "Remove the line."),
    ("found duplicate %", "a line that starts with %", "Remove the line."),
    ("found undefined tag handle", "a value that starts with !", QUOTE),
    ("while scanning a directive", "a line that starts with %", "Remove the line."),
    ("while scanning a %", "a line that starts with %", "Remove the line."),
    ("while scanning a tag", "a value that starts with !", QUOTE),
    ("while parsing a tag", "a value that starts with !", QUOTE),
    ("while scanning an anchor", "a value that starts with &", QUOTE),
    ("while scanning an alias", "a value that starts with *", QUOTE),
    ("while scanning a block scalar", "a value that starts with > or |", QUOTE),
)


def explained(source: str, error: Any) -> Fault:
    """The fault that a marked error of the parser stands for."""
    said = str(error.problem or error.context)
    place = _place(error.problem_mark or error.context_mark)
    began = _place(error.context_mark or error.problem_mark)
    if said.startswith("did not find expected ','"):
        return _open_bracket(source, place, began)
    for beginning, judge in _JUDGED:
        if said.startswith(beginning):
            return Fault(place, *judge(source, place))
    for beginning, message, fix in _EXPLAINED:
        if said.startswith(beginning):
            return Fault(place, message, fix)
    for beginning, message, fix in _FROM_THE_START:
        if said.startswith(beginning) or str(error.context).startswith(beginning):
            return Fault(began, message, fix)
    fix = "Compare the line with the template in README.md."
    return Fault(place, f"the file is not YAML: {said}", fix)


def _place(mark: Any) -> Place:
    return Place(mark.line + 1, mark.column + 1) if mark else Place(1, 1)


def _before(source: str, place: Place) -> str:
    """What stands on the line before `place`."""
    lines = source.split("\n")
    return lines[place.line - 1][: place.column - 1] if place.line <= len(lines) else ""


def _character(source: str, place: Place) -> str:
    """The character at `place`; none at the end of a line."""
    lines = source.split("\n")
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    return line[place.column - 1 : place.column]


def _second_colon(source: str, place: Place) -> tuple[str, str]:
    if ": " in _before(source, place):
        return 'a second ": " in one line', 'Put the text in quotes, as in  at: "Table 2: rows".'
    return "this key does not stand under the key above it", INDENT


def _odd_character(source: str, place: Place) -> tuple[str, str]:
    character = _character(source, place)
    if character == "\t":
        return "a tab stands where spaces are expected", INDENT
    return f"a value that starts with {character}", "Put the value in quotes."


def _after_value(source: str, place: Place) -> tuple[str, str]:
    if _before(source, place).strip():
        return (
            "text goes on after a closing quote or bracket",
            "Look for a quote that ends too early or too late; inside single quotes "
            "an apostrophe is written twice.",
        )
    return "this line does not stand under the line above it", INDENT


# What the parser calls by one name and an editor by two: the line decides.
_JUDGED = (
    ("mapping values are not allowed", _second_colon),
    ("found character that cannot start", _odd_character),
    ("did not find expected key", _after_value),
)


def _open_bracket(source: str, place: Place, opened: Place) -> Fault:
    opening, found = _character(source, opened), _character(source, place)
    closing = {"{": "}", "[": "]"}.get(opening, "}")
    if place.line > opened.line or found in {"}", "]"}:
        return Fault(opened, f"this {opening} is never closed", f"Write {closing} at its end.")
    fix = 'Quote a text that holds ": ", as in  {at: "Table 2: rows", seen: read}.'
    return Fault(place, f"a comma or {closing} is missing before this", fix)
