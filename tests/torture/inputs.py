"""Pieces that have broken readers of text, and how they are put into sound entries."""

MARKS = ("\ufeff", "\r", "\r\n", "\n", "\t", "\x00", "\x07", "\x1b[31m", "\x7f", "\x85", "\u2028")
INVISIBLE = ("\u200b", "\u200d", "\u00ad", "\u034f", "\u3164", "\ufe0f", "\uffa0", "\U000e0041")
BIDI = ("\u202e", "\u2066", "\u2069", "\u061c", "\\u202E", "\\x00", "\\uD800", "\\U00110000")
# Letters of other alphabets that look like ours, other digits, signs in two spellings.
ALIKE = ("ѕodium", "glucоse", "а", "Ⅴ", "５", "٥", "²", "e\u0301", "µ", "μ", "Å", "ﬁ", "🩸", "İ")
YAML = (
    *("&a ", "*a", "<<: *a", "&a [*a]", "!!python/object/apply:os.system [x]", "!<x>", "! ", "<<"),
    *("%YAML 1.1\n", "---\n", "...\n", "? ", ": ", ":", "- ", "-", "{", "}", "[", "]", "[[[["),
    *("{a: {a: {", ",", "#", " #", "|", ">", "|2\n", '"', "'", "''", "\\", "@", "`", "="),
    *("key: value\n", "id: x\n", "name: [x]\n"),
)
NUMBERS = (
    *("1e3", "1e999", "-1", "-0", "+1", "0x10", "010", "1_000", "1:20", ".inf", ".nan", "NaN"),
    *("Infinity", "9" * 40, "0." + "0" * 40 + "1", "1.", ".5", "1,5", "1 000", "999999999 g/L"),
    *("0 mmol/L", "1 to 2", "2 to 1 g/L", "at most 1 g/L", "at most 1 to 2", "1 mmol per 0 mL"),
    *("1 mmol per 1 mL", "5 % w/v", "1 mEq/L", "trace", "not declared", "y", "no", "null", "~"),
    *("2026-02-30", "9999-99-99"),
)
PATHS = ("../", "..\\", "/etc/passwd", "C:\\", "%2e%2e/", "a/b", ".", "..", "con", "file:///x")
ACTIVE = (
    *("<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "</title>", "&amp;#x27;"),
    *("javascript:alert(1)", "{{7*7}}", "{% raw %}", "${7*7}", "{glucose-5 osmolarity}", "{"),
    *("=1+1", "&lt;"),
)
PIECES = (*MARKS, *INVISIBLE, *BIDI, *ALIKE, *YAML, *NUMBERS, *PATHS, *ACTIVE)
# What cannot be written as text: parts of characters, other encodings, surrogates.
RAW = (b"\xff", b"\x80", b"\xed\xa0\x80", b"\xf0\x9f\x92", b"\xc0\xaf", b"\xff\xfe", b"i\x00d\x00")
ALL = (*(piece.encode("utf-8") for piece in PIECES), *RAW)


def spoiled(raw, edits):
    """The bytes with pieces put in: each edit is (where from 0 to 1, how much is lost, piece)."""
    for where, lost, piece in edits:
        at = int(where * len(raw))
        raw = raw[:at] + piece + raw[at + lost :]
    return raw


def values_replaced(raw, edits):
    """The same by lines: each edit is (number of a line, the new value after its colon)."""
    lines = raw.split(b"\n")
    for number, value in edits:
        line = lines[number % len(lines)]
        lines[number % len(lines)] = line.partition(b": ")[0] + b": " + value
    return b"\n".join(lines)
