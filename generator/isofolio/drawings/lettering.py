"""How much room a label takes, how it is broken into lines, how labels are kept apart.

A drawing is made without a browser, so the width of a text is judged by its characters alone:
7.2 px each at 12.8 px, with an allowance for capitals and for the widest letters ("mmol" is the
commonest word that would outgrow a plain count).
"""

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise

SIZE = 12.8  # px, the smallest of the five sizes of type
CHARACTER = 7.2  # px at that size: a fair bound for figures, signs and lower-case words
LINE = 15.0  # px from one line to the next, and the least distance of two labels
WIDE, WIDEST = "mMwW%@", 1.65  # letters that take more than one and a half characters
CAPITAL = 1.3  # characters that another capital takes
RAISED = "\u2070\u00b9\u00b2\u00b3\u2074\u207a\u207b\u2082\u2083\u2084"  # charges and indices
SMALL = 0.65  # characters that one of them takes
RISE = 4.5  # px from the middle of a line down to its base line


@lru_cache(maxsize=8192)  # the same few words stand on every drawing
def count(text: str) -> float:
    """Length of a text in characters of ordinary width, never less than its number of characters.

    >>> round(count("131"), 2), round(count("mmol"), 2)
    (3.0, 5.3)
    """
    return max(float(len(text)), sum(_weight(letter) for letter in text))


def _weight(letter: str) -> float:
    if letter in WIDE:
        return WIDEST
    if letter in RAISED:
        return SMALL
    return CAPITAL if letter.isupper() else 1.0


def width(lines: Iterable[str]) -> float:
    """Room that the longest of the lines takes [px].

    >>> round(width(["Na\u207a", "131"]), 1)
    21.6
    """
    return max((count(line) for line in lines), default=0.0) * CHARACTER


def fitting(room: float) -> float:
    """How many characters fit in a room [px]; enough for one, so that wrapping always ends.

    >>> round(fitting(46.0), 2)
    6.39
    """
    return max(WIDEST, room / CHARACTER)


# Drawings of one handbook say the same few words again and again.
@lru_cache(maxsize=4096)
def wrap(text: str, limit: float) -> tuple[str, ...]:
    """Lines of at most `limit` characters of ordinary width, broken at plain spaces.

    A no-break space holds its words together; a word longer than a line is cut.

    >>> wrap("proteins and unmeasured ions", 18)
    ('proteins and', 'unmeasured ions')
    >>> wrap("abcdefg", 3)
    ('abc', 'def', 'g')
    """
    lines: list[str] = []
    for word in (piece for piece in text.split(" ") if piece):
        if lines and count(f"{lines[-1]} {word}") <= limit:
            lines[-1] += " " + word
        else:
            lines.extend(_cut(word, limit))
    return tuple(lines)


def _cut(word: str, limit: float) -> list[str]:
    """A word in pieces that each fit on a line: one piece, unless it is very long."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and count(pieces[-1] + letter) > limit:
            pieces.append("")
        pieces[-1] += letter
    return pieces


@lru_cache(maxsize=4096)
def balance(text: str, limit: float) -> tuple[str, ...]:
    """As few lines as wrap makes, and of those the shortest: no single word hangs below.

    >>> wrap("multiple electrolytes type 1", 28), balance("multiple electrolytes type 1", 28)
    (('multiple electrolytes type', '1'), ('multiple', 'electrolytes type 1'))
    """
    fewest = wrap(text, limit)
    longest = max(count(word) for word in text.split(" "))
    for shorter in range(math.ceil(longest), math.ceil(limit)):
        lines = wrap(text, shorter)
        if len(lines) == len(fewest):
            return lines
    return fewest


def spread(
    centres: Sequence[float], heights: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Move labels as little as possible until none touches another or leaves the room.

    centres: wanted middles in rising order [px]; heights: of the labels [px]; low, high: the room.
    Returns the middles, in the same order, that make the sum of squared movements least: a
    monotone regression by pooling neighbours, then held inside the room.
    Raises ValueError when the labels together are taller than the room, or are not in order.

    >>> spread([10.0, 12.0, 60.0], [15.0, 15.0, 15.0], 0.0, 100.0)
    (7.5, 22.5, 60.0)
    """
    total = sum(heights)
    if total > high - low + 1e-9:
        raise ValueError(f"labels of {total:g} px do not fit in a room of {high - low:g} px")
    if any(first > second for first, second in pairwise(centres)):
        raise ValueError("labels to be spread must come in rising order")
    offsets = [sum(heights[:index]) + height / 2 for index, height in enumerate(heights)]
    starts = _rising([wanted - away for wanted, away in zip(centres, offsets, strict=True)])
    held = [min(max(start, low), high - total) for start in starts]
    return tuple(start + away for start, away in zip(held, offsets, strict=True))


def _rising(values: Sequence[float]) -> list[float]:
    """The non-falling sequence nearest to the values: neighbours that fall share their mean."""
    pools: list[tuple[float, int]] = []
    for value in values:
        pools.append((value, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (mean, count), (before, earlier) = pools.pop(), pools.pop()
            together = count + earlier
            pools.append(((mean * count + before * earlier) / together, together))
    return [mean for mean, count in pools for _ in range(count)]
