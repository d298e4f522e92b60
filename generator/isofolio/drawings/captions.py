"""The words of one segment: which lines they make inside it, beside it, and whether they fit."""

from isofolio.drawings.lettering import count, width, wrap
from isofolio.drawings.stacks import PATTERNED, Segment

BAR = 58.0  # px, one column of ions
STRIP = 12.0  # px of pattern at the outer edge of a segment
INSIDE_HEIGHT = 28.0  # px from which two lines stand inside a segment
SHORT_LABEL = 8  # characters that stay on one line beside a segment
SIDE_LINE = 12  # characters of a line of a longer label
LONGEST_WORD = 18  # characters after which even a single word is cut
MARGIN_INSIDE = 2.0  # px that words inside a segment leave free


def side_lines(segment: Segment) -> tuple[str, ...]:
    """The label beside a segment: short on one line, else name above number, else wrapped.

    >>> side_lines(Segment("lactate", "lactate\u207b", 29.0, "bicarbonate", "lactate\u207b 29"))
    ('lactate\u207b', '29')
    """
    if len(segment.text) <= SHORT_LABEL:
        return (segment.text,)
    if len(segment.symbol) > SIDE_LINE and " " in segment.symbol:
        return side_wrap(segment.text)
    return tuple(line for part in name_and_number(segment) for line in side_wrap(part))


def side_wrap(text: str) -> tuple[str, ...]:
    """Lines beside a column: 12 characters, or the longest word of at most 18."""
    longest = max(count(word) for word in text.split(" "))
    return wrap(text, max(SIDE_LINE, min(longest, LONGEST_WORD)))


def name_and_number(segment: Segment) -> tuple[str, ...]:
    """The label in two parts, never one without the other.

    >>> name_and_number(Segment("sodium", "Na\u207a", 131.0, "sodium", "Na\u207a 131"))
    ('Na\u207a', '131')
    """
    rest = segment.text.removeprefix(segment.symbol).strip()
    if segment.symbol and rest and rest != segment.text.strip():
        return (segment.symbol, rest)
    return (segment.text.strip(),)


def plain_width(segment: Segment) -> float:
    """Width of a segment that carries no pattern [px]: its words stand there."""
    return BAR - STRIP if segment.family in PATTERNED else BAR


def fits_inside(segment: Segment, height: float) -> bool:
    """Whether two lines stand on the plain part of a segment of this height [px]."""
    lines = name_and_number(segment)
    return height >= INSIDE_HEIGHT and width(lines) <= plain_width(segment) - MARGIN_INSIDE
