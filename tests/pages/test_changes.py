"""The page What changed: every line, newest first, each at an address of its own."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from isofolio.entries.lists import Change
from isofolio.folio import FURTHER
from isofolio.handbook import open_handbook
from isofolio.pages.changes import changes_page
from isofolio.pages.home import home_page

BASE = Path(__file__).parents[1] / "bad" / "base"


@pytest.fixture(scope="module")
def handbook():
    """The small sound catalogue, with lines of three days."""
    opened = open_handbook(BASE).handbook
    assert opened is not None
    lines = [("2026-11-25", "It opens.", ["fluids/sodium-chloride-0-9"]), ("2027-03-01", "<b>", [])]
    lines += [("2027-01-01", "One.", []), ("2027-01-01", "Two.", []), ("2027-01-01", "One.", [])]
    changes = tuple(Change(on=on, text=text, pages=pages) for on, text, pages in lines)
    return replace(opened, catalogue=replace(opened.catalogue, changes=changes))


@pytest.fixture(scope="module")
def body(handbook):
    return changes_page(handbook).body


def test_newest_first_and_none_twice(body):
    days = re.findall(r'<h2 id="on-([0-9-]+)"', body)
    assert days == ["2027-03-01", "2027-01-01", "2026-11-25"]
    assert body.index("One.") < body.index("Two.")
    assert body.count("One.") == 1


def test_every_line_has_an_address_that_can_be_copied(body):
    anchors = re.findall(r'id="(on-[0-9-]+-[0-9a-f]{6})"', body)
    assert len(anchors) == len(set(anchors)) == 4
    for anchor in anchors:
        assert f'data-anchor="{anchor}"' in body


def test_text_is_text_and_pages_are_links(body):
    assert "&lt;b&gt;" in body
    assert "<b>" not in body
    assert 'href="fluids/sodium-chloride-0-9.html"' in body


def test_the_first_page_and_every_footer_lead_there(handbook):
    home = home_page(handbook).body
    assert 'href="changes.html"' in home
    assert home.index("&lt;b&gt;") < home.index("It opens.")
    assert ("What changed", "changes.html") in FURTHER


def test_nothing_noted_is_said(handbook):
    empty = replace(handbook, catalogue=replace(handbook.catalogue, changes=()))
    assert "Nothing is noted yet." in changes_page(empty).body
