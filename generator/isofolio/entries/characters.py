"""From the bytes of a file to its text: size, encoding, and characters that nobody can see."""

import re
import unicodedata

from isofolio.entries.problems import Fault, Place

LARGEST_FILE = 256_000
BYTE_ORDER_MARK = b"\xef\xbb\xbf"

# Control characters except tab and line ends; line separators; what is invisible or turns the
# direction of writing (Unicode's default ignorable code points and format controls); the byte order
# mark inside a text; what is no character at all.
FORBIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\xad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f"
    "\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ufdd0-\ufdef\ufe00-\ufe0f\ufeff\uffa0"
    "\ufff0-\ufffb\ufffe\uffff\U00013430-\U0001345f\U0001bca0-\U0001bca3"
    "\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
RETYPE = "Delete it; retype the word if you cannot see it."


def decode(raw: bytes) -> str:
    """The text of a file, with one kind of line end and without a byte order mark.

    Raises Fault for a file that is too large, in another encoding, or with a forbidden character.
    """
    if len(raw) > LARGEST_FILE:
        message = f"the file is larger than {LARGEST_FILE // 1000} kB, the most an entry may have"
        raise Fault(Place(1, 1), message, "Split it, or remove what does not belong in it.")
    if raw[:2] in {b"\xff\xfe", b"\xfe\xff"} or b"\0" in raw[:2]:
        fix = 'Save the file again and choose the encoding "UTF-8".'
        raise Fault(Place(1, 1), "the file is written in UTF-16, not in UTF-8", fix)
    raw = raw.removeprefix(BYTE_ORDER_MARK)
    try:
        return one_line_end(raw.decode())
    except UnicodeDecodeError as error:
        message = f"the byte 0x{raw[error.start]:02x} is not UTF-8"
        fix = 'Save the file again and choose the encoding "UTF-8"; then retype the letter.'
        # The part before the fault is sound, and its end is the place.
        place = place_at(one_line_end(raw[: error.start].decode()))
        raise Fault(place, message, fix) from None


def one_line_end(text: str) -> str:
    """The text with the line ends of every system written as one.

    >>> one_line_end("a\\r\\nb\\rc\\n")
    'a\\nb\\nc\\n'
    """
    return text.replace("\r\n", "\n").replace("\r", "\n")


def place_at(before: str) -> Place:
    """The place that follows a piece of text.

    >>> place_at("id: a\\nna")
    Place(line=2, column=3)
    """
    return Place(before.count("\n") + 1, len(before) - before.rfind("\n"))


def refuse_invisible(text: str) -> None:
    """Raise Fault at the first forbidden character of a whole file."""
    found = FORBIDDEN.search(text)
    if found is not None:
        message = f"{_named(found[0])} is not allowed"
        raise Fault(place_at(text[: found.start()]), message, RETYPE)


def is_clean(value: str) -> bool:
    """Whether a value holds no forbidden character."""
    return FORBIDDEN.search(value) is None


def refuse_escaped(value: str, place: Place) -> None:
    """Raise Fault at a value in which an escape such as \\u202E stands for such a character."""
    found = FORBIDDEN.search(value)
    if found is not None:
        message = f"{_named(found[0])} is not allowed, nor is an escape that stands for it"
        raise Fault(place, message, "Write the text without the backslash and its code.")


def _named(character: str) -> str:
    control = unicodedata.category(character) == "Cc"
    nameless = "a control character" if control else "no character at all"
    name = unicodedata.name(character, nameless).lower()
    return f"the invisible character U+{ord(character):04X} ({name})"
