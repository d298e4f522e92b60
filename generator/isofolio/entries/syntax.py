"""What the YAML parser says of a malformed file, in our words and at the place that matters."""

from typing import Any

from isofolio.entries.problems import Fault, Place

INDENT = "Indent with spaces only, and start each key under the key above it."

# Beginning of what the parser says -> message, fix.
_EXPLAINED = (
    ("found a tab character", "a tab stands where spaces are expected", INDENT),
    ("could not find expected ':'", "a line without a colon", "Write  key: value."),
    (
        "did not find expected '-' indicator",
        "a list goes on without its hyphen",
        "Start each item with a hyphen, and the hyphens one below the other.",
    ),
    ("did not find expected <document start>", "this line stands too far to the left", INDENT),
    (
        "found unexpected end of stream",
        "the quote that starts here is never closed",
        "Close it where the text ends.",
    ),
    (
        "did not find expected alphabetic",
        "a value that starts with & or *",
        "Put the value in quotes.",
    ),
    ("mapping keys are not allowed", "a value that starts with ?", "Put the value in quotes."),
    (
        "block sequence entries are not allowed",
        "a list that starts beside its key",
        "Write the list as [a, b], or start each item on a line of its own.",
    ),
    (
        "did not find expected comment or line break",
        "a value that starts with > or |",
        "Put the value in quotes.",
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
    ("found incompatible YAML", "a line that starts with %", "Remove the line."),
    ("found unknown directive", "a line that starts with %", "Remove the line."),
)
# Where the parser's context, not the place at which it gave up, is what an editor looks for.
_AT_CONTEXT = (
    "could not find expected ':'",
    "found unexpected end of stream",
    "did not find expected alphabetic",
)


def explained(source: str, error: Any) -> Fault:
    """The fault that a marked error of the parser stands for."""
    said = str(error.problem or error.context)
    place = _place(error.problem_mark or error.context_mark)
    began = _place(error.context_mark or error.problem_mark)
    before = _before(source, place)
    if said.startswith("mapping values are not allowed"):
        return Fault(place, *_second_colon(before))
    if said.startswith("found character that cannot start"):
        return Fault(place, *_odd_character(source, place))
    if said.startswith("did not find expected key"):
        return Fault(place, *_after_value(before))
    if said.startswith("did not find expected ','"):
        return _open_bracket(source, place, began)
    for beginning, message, fix in _EXPLAINED:
        if said.startswith(beginning):
            return Fault(began if beginning in _AT_CONTEXT else place, message, fix)
    fix = "Compare the line with the template in README.md."
    return Fault(place, f"the file is not YAML: {said}", fix)


def _place(mark: Any) -> Place:
    return Place(mark.line + 1, mark.column + 1) if mark else Place(1, 1)


def _before(source: str, place: Place) -> str:
    """What stands on the line before `place`."""
    lines = source.split("\n")
    return lines[place.line - 1][: place.column - 1] if place.line <= len(lines) else ""


def _second_colon(before: str) -> tuple[str, str]:
    if ": " in before:
        return 'a second ": " in one line', 'Put the text in quotes, as in  at: "Table 2: rows".'
    return "this key does not stand under the key above it", INDENT


def _odd_character(source: str, place: Place) -> tuple[str, str]:
    lines = source.split("\n")
    character = lines[place.line - 1][place.column - 1 : place.column]
    if character == "\t":
        return "a tab stands where spaces are expected", INDENT
    return f"a value that starts with {character}", "Put the value in quotes."


def _after_value(before: str) -> tuple[str, str]:
    if before.strip():
        return (
            "text goes on after a closing quote or bracket",
            "Look for a quote that ends too early or too late; inside single quotes "
            "an apostrophe is written twice.",
        )
    return "this line does not stand under the line above it", INDENT


def _open_bracket(source: str, place: Place, opened: Place) -> Fault:
    opening = source.split("\n")[opened.line - 1][opened.column - 1]
    closing = {"{": "}", "[": "]"}.get(opening, "}")
    if place.line > opened.line:
        return Fault(opened, f"this {opening} is never closed", f"Write {closing} at its end.")
    fix = 'Quote a text that holds ": ", as in  {at: "Table 2: rows", seen: read}.'
    return Fault(place, f"a comma or {closing} is missing before this", fix)
