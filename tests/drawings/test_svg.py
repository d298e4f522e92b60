"""The writer: valid XML whatever the text, short numbers, nothing the policy would block.

Escaping and forbidden characters: W3C, Extensible Markup Language (XML) 1.0, sections 2.2 and 2.4.
"""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.drawings.svg import checked_id, element, number, write


@given(st.floats(-1e6, 1e6))
def test_number_has_at_most_two_decimals_and_keeps_the_value(value: float) -> None:
    assert re.fullmatch(r"-?\d+(\.\d{1,2})?", number(value))
    assert float(number(value)) == pytest.approx(value, abs=0.005001)
    assert number(value) != "-0"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_number_refuses_what_cannot_be_drawn(value: float) -> None:
    with pytest.raises(ValueError, match="only finite numbers"):
        number(value)


@given(st.text(st.characters(blacklist_categories=()), max_size=40))
def test_any_text_stays_text_in_valid_xml(text: str) -> None:
    parsed = ElementTree.fromstring(write(element("text", {"class": text}, text)))
    assert len(parsed) == 0
    # XML itself reads a carriage return as a line feed, and an attribute's breaks as spaces.
    seen = re.sub("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "\ufffd", text)
    assert parsed.text or not text
    assert (parsed.text or "") == seen.replace("\r\n", "\n").replace("\r", "\n")


def test_script_in_a_text_is_inert() -> None:
    written = write(element("text", {"class": '"><script>'}, "<script>alert(1)</script>"))
    assert "<script" not in written
    assert ElementTree.fromstring(written).text == "<script>alert(1)</script>"


@pytest.mark.parametrize("name", ["style", "onclick", "ONLOAD", "a b", 'x="1"', ""])
def test_blocked_attributes_are_refused(name: str) -> None:
    with pytest.raises(ValueError, match=r"blocked on our pages|no name of"):
        element("g", {name: "x"})


@pytest.mark.parametrize("text", ["", "1a", "a b", 'a"', "a#b"])
def test_an_id_that_cannot_be_referred_to_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="cannot be the id"):
        checked_id(text)
