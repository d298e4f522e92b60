"""One spelling for what is typed and what is printed: both become the same list of tokens.

The script in the browser takes the same steps in the same order with the same tables and patterns,
which it is sent (`tables`); a test holds the two beside each other. A token is a word, a number
("0.9"), a number with its unit ("0.9%", "20mmol", "500ml"), "/l", "/ml", or a comparison.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any

from isofolio.finder.words import (
    CHARACTERS,
    FRACTIONS,
    IDLE,
    LITRE_WORDS,
    ONES,
    POINT,
    RAISED,
    SAME,
    SPELLINGS,
    TEENS,
    TENS,
    UNITS,
)

LITRE = 1000  # millilitres
HALF = "half"

# Applied in this order to small letters; "$1" is the first group, as the script writes it.
STEPS = (
    ("([1-9][0-9]?),([0-9]{3})(?![0-9])", "$1$2"),  # 1,000
    ("([0-9]),([0-9])", "$1.$2"),  # 0,9
    ("([a-z][0-9])2-+(?![a-z0-9])", "$1 "),  # so42-
    ("([a-z])[23]?[+]+(?![a-z0-9])", "$1 "),  # k+, ca2+, ca++
    ("(?<![./0-9])([0-9]?)(1/[2-5])(?![0-9./])", "$1 $2 "),  # d51/2ns
    ("per cent(?![a-z])", "percent"),
)
PATTERNS = {
    "token": "[<>]=?|%|1/[2-5](?= |$)|/|[a-z0-9]+(?:[.][0-9]+)?|[.][0-9]+",
    "number": "[0-9]+(?:[.][0-9]+)?",
    "wordThenDecimal": "([a-z]+)([0-9]*[.][0-9]+)",
    "numberThenWord": "([0-9.]+)([a-z]+)",
    "wordThenNumber": "([a-z]+)([0-9]+)",
    "plural": "[a-z0-9]{3,}[^sui]s",
}
_TOKEN = re.compile(PATTERNS["token"])
_NUMBER = re.compile(PATTERNS["number"])
_STEPS = tuple((re.compile(find), re.sub(r"\$(\d)", r"\\\1", put)) for find, put in STEPS)


def tokens(text: str, same: Mapping[str, str]) -> list[str]:
    """The tokens of a text.

    same: words to be written as other words ("kcl" -> "potassium chloride"), from `words_of`.

    >>> tokens("Na⁺Cl 0,9 %", {})
    ['nacl', '0.9%']
    >>> tokens("20 mmol KCl per litre, in half a litre", {"kcl": "potassium chloride"})
    ['20mmol', 'potassium', 'chloride', '/l', 'in', '500ml']
    >>> tokens("two point seven per cent", {}) == tokens("2.70%", {})
    True
    """
    parts = list(_with_numbers(_parts(_plain(text))))
    found: list[str] = []
    for token in _with_units(parts):
        word = _word(token)
        found += same.get(word, word).split()
    return found


def _plain(text: str) -> str:
    """Small letters without accents, charges and apostrophes."""
    text = "".join(character for character in text if character not in RAISED)
    text = unicodedata.normalize("NFKD", text.lower())
    text = "".join(CHARACTERS.get(c, c) for c in text if unicodedata.category(c) != "Mn")
    for find, put in _STEPS:
        text = find.sub(put, text)
    return text


def _parts(text: str) -> list[str]:
    """Words, numbers and signs, cut where letters meet a decimal and where a unit follows."""
    parts: list[str] = []
    for found in _TOKEN.findall(text):
        part = FRACTIONS.get(found, f"0{found}" if found[0] == "." else found)
        cut = re.fullmatch(PATTERNS["wordThenDecimal"], part)
        unit = re.fullmatch(PATTERNS["numberThenWord"], part)
        glued = re.fullmatch(PATTERNS["wordThenNumber"], parts[-1]) if parts else None
        if cut:
            parts += [cut[1], cut[2]]
        elif unit and unit[2] in UNITS:
            parts += [unit[1], unit[2]]
        elif part == "%" and glued:
            parts[-1:] = [glued[1], glued[2], "%"]
        else:
            parts.append(part)
    return parts


def _with_numbers(parts: list[str]) -> Iterator[str]:
    """Number words as figures: "twenty three", "point four five"."""
    place = 0
    while place < len(parts):
        whole, used = _whole(parts, place)
        decimals = _decimals(parts, place + used)
        if decimals:
            yield f"{whole}.{decimals}"
            place += used + 1 + len(decimals)
        elif used:
            yield str(whole)
            place += used
        else:
            yield parts[place]
            place += 1


def _whole(parts: list[str], place: int) -> tuple[int, int]:
    """A whole number in words, and how many words it takes; (0, 0) for none."""
    word = parts[place]
    if word in TENS:
        ones = ONES.get(parts[place + 1], 0) if place + 1 < len(parts) else 0
        return (TENS[word] + ones, 2) if ones else (TENS[word], 1)
    if word in TEENS:
        return TEENS[word], 1
    return (ONES[word], 1) if word in ONES else (0, 0)


def _decimals(parts: list[str], place: int) -> str:
    """The digits after a spoken point."""
    if place >= len(parts) or parts[place] != POINT:
        return ""
    digits = ""
    for part in parts[place + 1 :]:
        if part not in ONES:
            break
        digits += str(ONES[part])
    return digits


def _with_units(parts: list[str]) -> Iterator[str]:
    """Numbers joined with their units, and "per litre" as one token."""
    place = 0
    while place < len(parts):
        token, used = _measured(parts[place], [*parts[place + 1 : place + 3], "", ""])
        if token:
            yield token
        place += used


def _measured(part: str, after: list[str]) -> tuple[str, int]:
    """The token that starts with a part, and how many parts it takes."""
    unit = UNITS.get(after[0], "")
    skipped = 1 if after[0] in {"a", "1"} else 0
    later = UNITS.get(after[skipped], "")
    if _NUMBER.fullmatch(part):
        if unit == "l":
            return f"{_figure(str(float(part) * LITRE))}ml", 2
        return f"{_figure(part)}{unit}", 2 if unit else 1
    if part == HALF and later == "l":
        return f"{LITRE // 2}ml", skipped + 2
    if (part in {"/", "per", "in"} and later == "l") or (part in {"/", "per"} and later == "ml"):
        return f"/{later}", skipped + 2
    if part in {"/", "%"}:
        return "", 1
    return (f"{LITRE}ml" if part in LITRE_WORDS else part), 1


def _figure(number: str) -> str:
    """A number without idle zeros.

    >>> _figure("0.90"), _figure("010"), _figure("500.0")
    ('0.9', '10', '500')
    """
    whole, _, decimals = number.partition(".")
    decimals = decimals.rstrip("0")
    return (whole.lstrip("0") or "0") + (f".{decimals}" if decimals else "")


def _word(token: str) -> str:
    """A word in the common spelling, without its plural s."""
    if not token[0].isalpha():
        return token
    for typed, common in SPELLINGS:
        token = token.replace(typed, common)
    return token[:-1] if re.fullmatch(PATTERNS["plural"], token) else token


def words_of(names: Mapping[str, str]) -> dict[str, str]:
    """The words to be written as other words: our own, and symbol or formula -> name.

    >>> words_of({"K⁺": "potassium", "KCl": "potassium chloride"})["kcl"]
    'potassium chloride'
    """
    found = {_word(typed): meant for typed, meant in SAME.items()}
    for written, meant in names.items():
        symbol, name = tokens(written, {}), tokens(meant, {})
        if len(symbol) == 1 and symbol != name:
            found.setdefault(symbol[0], " ".join(name))
    return found


def tables(same: Mapping[str, str]) -> dict[str, Any]:
    """What the script needs to spell as we do."""
    return {
        "raised": RAISED,
        "characters": CHARACTERS,
        "steps": STEPS,
        "patterns": PATTERNS,
        "fractions": FRACTIONS,
        "spellings": SPELLINGS,
        "ones": ONES,
        "teens": TEENS,
        "tens": TENS,
        "point": POINT,
        "half": HALF,
        "units": UNITS,
        "litreWords": LITRE_WORDS,
        "litre": LITRE,
        "idle": sorted({_word(word) for word in IDLE}),
        "same": dict(sorted(same.items())),
    }
