"""The page Method: every function that makes a figure is there, once, in words."""

import html
import re

import pytest

from isofolio.measures.methods import METHODS, WITHOUT_FUNCTION, anchor_of
from isofolio.pages.method import ROOMS, method_address, method_page
from isofolio.vocabulary.quantities import QUANTITIES

BODY = method_page().body
ANCHORS = re.findall(r'id="([^"]+)"', BODY)
# The prose: what is neither an example nor a tag.
PROSE = html.unescape(re.sub(r"<pre.*?</pre>|<[^>]+>", " ", BODY, flags=re.DOTALL))


def test_every_quantity_leads_to_its_function():
    for quantity in QUANTITIES:
        path, mark, anchor = method_address(quantity.id).partition("#")
        if quantity.id in WITHOUT_FUNCTION:
            assert (path, mark, anchor) == ("", "", "")
        else:
            assert path == "method.html"
            assert anchor in ANCHORS
            assert f'href="#{anchor}"' in BODY


def test_a_function_made_by_two_rooms_has_two_places():
    """Phosphate's charge is one thing in a bag and another in plasma."""
    assert {"charge-phosphate-charge", "acid-base-phosphate-charge"} <= set(ANCHORS)


def test_anchors_are_said_once_and_the_links_of_the_contents_meet_them():
    assert len(ANCHORS) == len(set(ANCHORS))
    assert set(re.findall(r'href="#([^"]+)"', BODY)) - set(ANCHORS) == set()


@pytest.mark.parametrize(("module", "title"), ROOMS)
def test_every_room_has_its_title_and_something_to_say(module, title):
    anchor = module.rpartition(".")[2].replace("_", "-")
    assert re.search(rf'<h2 id="{anchor}">{title} <button', BODY)
    assert f'id="{anchor}-' in BODY


def test_a_cached_function_is_shown_too():
    """The molar mass is remembered between calls, which must not hide it."""
    assert "formula-molar-mass" in ANCHORS


def test_every_function_has_its_prose_and_no_heading_is_empty():
    assert re.findall(r"<h3[^>]*>[^<]*</h3>\s*</section>", BODY) == []
    assert re.findall(r"<p>\s*</p>", BODY) == []


def test_the_prose_reads_as_prose():
    """No backticks, no stars for emphasis, no hyphen for minus, no name with capitals."""
    assert "`" not in PROSE
    assert re.findall(r"\*\w+\*", PROSE) == []
    assert re.findall(r"\w - \w|[ (]-\d", PROSE) == []
    assert re.findall(r"\b[A-Z]+_[A-Z_]+\b", PROSE) == []


def test_the_methods_are_functions_of_the_rooms_shown():
    rooms = {module for module, _ in ROOMS}
    assert {function.__module__ for function in METHODS.values()} <= rooms
    assert {anchor_of(function) for function in METHODS.values()} <= set(ANCHORS)
