"""Bytes to text: encodings, line ends, and characters that nobody can see."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.entries.characters import (
    BYTE_ORDER_MARK,
    FORBIDDEN,
    LARGEST_FILE,
    decode,
    place_at,
    refuse_escaped,
    refuse_invisible,
)
from isofolio.entries.problems import Fault, Place

# Unicode 15 bidirectional controls (Annex 9) and what else has no sign of its own.
INVISIBLE = (
    "\x00\x07\x0b\x0c\x1b\x7f\x85\x9f\xad\u061c\u180e\u200b\u200e\u200f\u2028\u2029"
    "\u034f\u115f\u1160\u17b4\u180b\u200c\u200d\u3164\ufe0f\uffa0\U0001d173\U000e0101\ufdd0"
    "\u202a\u202b\u202c\u202d\u202e\u2060\u2066\u2067\u2068\u2069\ufeff\ufff9\ufffe\uffff\U000e0041"
)
# Format characters that have a sign: numbers and verses of Arabic, Syriac and Kaithi.
SEEN = (*range(0x600, 0x606), 0x6DD, 0x70F, 0x890, 0x891, 0x8E2, 0x110BD, 0x110CD)
# What labels and names do need: a figure space, a narrow space, signs above and below the line.
NEEDED = "\t\n é µ ⁺ ₂ − – … ° ½ \u2007 \u202f \u00a0 Ω α 水"


@pytest.mark.parametrize("character", INVISIBLE)
def test_invisible_characters_are_refused_at_their_place(character):
    with pytest.raises(Fault) as caught:
        refuse_invisible(f"id: a\nname: b{character}c\n")
    assert caught.value.place == Place(2, 8)
    assert f"U+{ord(character):04X}" in caught.value.message
    assert character not in caught.value.message


def test_every_control_and_format_character_without_a_sign_is_refused():
    """By the general categories of the Unicode Character Database that Python carries."""
    refused = {chr(code) for code in range(0x110000) if FORBIDDEN.match(chr(code))}
    hidden = {
        chr(code)
        for code in range(0x110000)
        if unicodedata.category(chr(code)) in {"Cc", "Cf", "Zl", "Zp"} and code not in SEEN
    }
    assert hidden - refused == {"\t", "\n", "\r"}


def test_characters_of_labels_are_allowed():
    refuse_invisible(NEEDED)
    refuse_escaped(NEEDED, Place(1, 1))


@pytest.mark.parametrize("character", INVISIBLE)
def test_escapes_are_no_way_around(character):
    with pytest.raises(Fault) as caught:
        refuse_escaped(f"b{character}c", Place(3, 4))
    assert caught.value.place == Place(3, 4)


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_one_kind_of_line_end(ending):
    assert decode(f"a{ending}b{ending}".encode()) == "a\nb\n"


def test_a_byte_order_mark_is_no_part_of_the_text():
    assert decode(BYTE_ORDER_MARK + b"a") == "a"


@pytest.mark.parametrize("mark", [b"", BYTE_ORDER_MARK])
def test_the_place_of_a_wrong_byte_counts_characters(mark):
    with pytest.raises(Fault) as caught:
        decode(mark + "a\r\nµµ".encode() + b"\xff")
    assert caught.value.place == Place(2, 3)
    assert "0xff" in caught.value.message


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_called_by_its_name(encoding):
    with pytest.raises(Fault) as caught:
        decode("id: a".encode(encoding))
    assert "UTF-16" in caught.value.message


def test_the_largest_file_is_read_and_one_byte_more_is_not():
    assert len(decode(b"x" * LARGEST_FILE)) == LARGEST_FILE
    with pytest.raises(Fault):
        decode(b"x" * (LARGEST_FILE + 1))


@given(st.text(max_size=50), st.text(max_size=50))
def test_the_place_after_a_text_is_where_the_next_character_stands(before, after):
    before, after = before.replace("\r", ""), after.replace("\r", "")
    place = place_at(before)
    lines = f"{before}!{after}".split("\n")
    assert lines[place.line - 1][place.column - 1] == "!"
